/* SPDX-License-Identifier: MIT */
/* The cubic spline nearest to a function whose moments against the B-splines are known: the normal
 * equations of least squares (Unser, IEEE Signal Process. Mag. 16, 22 (1999), the section on
 * least-squares splines). Their matrix holds the B-splines' scalar products, the B-spline of degree
 * 7 at whole numbers: 2416, 1191, 120, 1 over 5040. */
#include "lamp.h"

#include <math.h>

enum { BAND = 3 };

/* The Cholesky factor of the matrix: factor[k][d] is row k, column k - d. */
static void factorise(size_t count, double (*factor)[BAND + 1])
{
    static const double product[BAND + 1] = {2416.0 / 5040.0, 1191.0 / 5040.0, 120.0 / 5040.0,
                                             1.0 / 5040.0};
    for (size_t k = 0; k < count; k++) {
        const size_t reach = k < BAND ? k : BAND;
        for (size_t d = reach + 1; d-- > 0;) {
            double rest = product[d];
            for (size_t m = d + 1; m <= reach; m++) {
                rest -= factor[k][m] * factor[k - d][m - d];
            }
            factor[k][d] = d == 0 ? sqrt(rest) : rest / factor[k - d][0];
        }
    }
}

/* Solve in place for X, Y and Z. */
static void solve(size_t count, double (*factor)[BAND + 1], double (*value)[3])
{
    for (size_t k = 0; k < count; k++) {
        for (int i = 0; i < 3; i++) {
            for (size_t d = 1; d <= BAND && d <= k; d++) {
                value[k][i] -= factor[k][d] * value[k - d][i];
            }
            value[k][i] /= factor[k][0];
        }
    }
    for (size_t k = count; k-- > 0;) {
        for (int i = 0; i < 3; i++) {
            for (size_t d = 1; d <= BAND && k + d < count; d++) {
                value[k][i] -= factor[k + d][d] * value[k + d][i];
            }
            value[k][i] /= factor[k][0];
        }
    }
}

void ifig_spline_projection(size_t count, double (*moment)[3], double (*weight)[3])
{
    double factor[IFIG_SAMPLES_MOST][BAND + 1];
    double(*coefficient)[3] = moment + 1; /* the B-splines centred on samples; solved in place */
    factorise(count, factor);
    solve(count, factor, coefficient);
    for (size_t k = 0; k < count; k++) {
        for (int i = 0; i < 3; i++) {
            const double before = k > 0 ? coefficient[k - 1][i] : 0.0;
            const double after = k + 1 < count ? coefficient[k + 1][i] : 0.0;
            weight[k][i] = (before + 4.0 * coefficient[k][i] + after) / 6.0;
        }
    }
}
