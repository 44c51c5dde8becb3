/* SPDX-License-Identifier: MIT */
#include "basis.h"

/* Monomial coefficients of the Lagrange polynomial that is 1 at point i. */
static void lagrange(const double point[N], size_t i, double out[N])
{
    double c[N + 1] = {1.0}, scale = 1.0;
    size_t degree = 0;
    for (size_t j = 0; j < N; j++) {
        if (j == i) {
            continue;
        }
        for (size_t p = degree + 1; p > 0; p--) {
            c[p] = c[p - 1] - point[j] * c[p];
        }
        c[0] = -point[j] * c[0];
        degree++;
        scale *= point[i] - point[j];
    }
    for (size_t p = 0; p < N; p++) {
        out[p] = c[p] / scale;
    }
}

void ifig_basis(IfigBasis *basis)
{
    for (size_t i = 0; i < N; i++) {
        basis->point[i] = ifig_chebyshev_point(i, N);
    }
    for (size_t i = 0; i < N; i++) {
        double slope[N], bend[N];
        lagrange(basis->point, i, basis->coefficient[i]);
        differentiate(basis->coefficient[i], slope, bend);
        for (size_t p = 0; p < N; p++) {
            basis->slope[i][p] = horner(slope, basis->point[p]);
            basis->bend[i][p] = horner(bend, basis->point[p]);
        }
    }
}

IFIG_CLONES
static void coefficients(const IfigBasis *basis, double *value)
{
    double half[NN];
    ifig_basis_along_x(basis->coefficient, value, half);
    ifig_basis_along_y(basis->coefficient, half, value);
}

void ifig_basis_coefficients(const IfigBasis *basis, double value[NN])
{
    coefficients(basis, value);
}

void ifig_basis_rows(IfigBasisRows *rows)
{
    for (size_t j = 0; j < N; j++) {
        for (size_t i = 0; i < N; i++) {
            lagrange(rows->at[j], i, rows->coefficient[j][i]);
        }
    }
}

IFIG_CLONES
static void rows_coefficients(const IfigBasis *basis, const IfigBasisRows *rows, double *value)
{
    double half[NN];
    for (size_t j = 0; j < N; j++) {
        IfigDoubles sum = {0}, next;
        for (size_t i = 0; i < N; i++) {
            ifig_read(rows->coefficient[j][i], &next);
            sum += value[j * N + i] * next;
        }
        ifig_write(&sum, half + j * N);
    }
    ifig_basis_along_y(basis->coefficient, half, value);
}

void ifig_basis_rows_coefficients(const IfigBasis *basis, const IfigBasisRows *rows,
                                  double value[NN])
{
    rows_coefficients(basis, rows, value);
}
