/* SPDX-License-Identifier: MIT */
/* How the published facts are measured in rendered figures. */
#ifndef IFIG_PUBLISHED_TEST_H
#define IFIG_PUBLISHED_TEST_H

#include "figure_test.h"

#include <stdio.h>
#include <string.h>

/* Sums of a least-squares fit of up to six terms. */
typedef struct Fit {
    int terms;
    double a[6][7];
} Fit;

static inline void fit_add(Fit *fit, const double *term, double value)
{
    for (int i = 0; i < fit->terms; i++) {
        for (int j = 0; j < fit->terms; j++) {
            fit->a[i][j] += term[i] * term[j];
        }
        fit->a[i][fit->terms] += term[i] * value;
    }
}

static inline void fit_solve(Fit *fit, double *coefficient)
{
    int n = fit->terms;
    for (int i = 0; i < n; i++) {
        for (int row = 0; row < n; row++) {
            double factor = row == i ? 0 : fit->a[row][i] / fit->a[i][i];
            for (int j = i; j <= n; j++) {
                fit->a[row][j] -= factor * fit->a[i][j];
            }
        }
    }
    for (int i = 0; i < n; i++) {
        coefficient[i] = fit->a[i][n] / fit->a[i][i];
    }
}

/* The vertex of the paraboloid through the light within `reach` pixels of a point; in pixels from
 * that point. */
static inline void vertex_near(const Picture *picture, double x0, double y0, int reach, double *dx,
                               double *dy)
{
    double radius = 0.5 * picture->size, c[6];
    int column0 = (int)((x0 + 1) * radius), row0 = (int)((1 - y0) * radius);
    Fit fit = {.terms = 6};
    for (int row = row0 - reach; row <= row0 + reach; row++) {
        for (int column = column0 - reach; column <= column0 + reach; column++) {
            double x = column + 0.5 - (x0 + 1) * radius, y = (1 - y0) * radius - row - 0.5;
            const double term[6] = {1, x, y, x * x, x * y, y * y};
            if (hypot(x, y) <= reach) {
                fit_add(&fit, term, (double)pixel_at(picture, (uint32_t)column, (uint32_t)row)[1]);
            }
        }
    }
    fit_solve(&fit, c);
    double determinant = 4 * c[3] * c[5] - c[4] * c[4];
    ck_assert_double_gt(determinant, 0);
    *dx = (-2 * c[5] * c[1] + c[4] * c[2]) / determinant;
    *dy = (-2 * c[3] * c[2] + c[4] * c[1]) / determinant;
}

/* The radius of a dark ring near r0: the vertex of a parabola in r^2, to which the path difference
 * is proportional, through the light within a share of r0 and within 20 degrees of the diagonals.
 */
static inline double dark_ring_near(const Picture *picture, double r0, double share)
{
    double radius = 0.5 * picture->size, c[3];
    Fit fit = {.terms = 3};
    for (uint32_t row = 0; row < picture->size; row++) {
        for (uint32_t column = 0; column < picture->size; column++) {
            double x = (column + 0.5) / radius - 1, y = 1 - (row + 0.5) / radius;
            double q = (x * x + y * y) / (r0 * r0) - 1;
            const double term[3] = {1, q, q * q};
            if (fabs(q) < share && fabs(fabs(atan(y / x)) - 0.25 * IFIG_PI) < 20 * IFIG_DEGREE) {
                fit_add(&fit, term, (double)pixel_at(picture, column, row)[1]);
            }
        }
    }
    fit_solve(&fit, c);
    ck_assert_double_gt(c[2], 0);
    return r0 * sqrt(1 - 0.5 * c[1] / c[2]);
}

/* Mean of light x exp(-i m phi) on a circle about a point. */
static inline double complex harmonic(const Picture *picture, double x, double y, double r, int m)
{
    double complex sum = 0;
    for (int i = 0; i < 720; i++) {
        double phi = i * 0.5 * IFIG_DEGREE;
        sum += light_at(picture, x + r * cos(phi), y + r * sin(phi)) * cexp(-I * (m * phi)) / 720;
    }
    return sum;
}

/* A path through a picture: a circle (r fixed) or a ray (azimuth fixed) about (x, y). */
typedef struct Path {
    const Picture *picture;
    double x, y, fixed;
} Path;

static inline double light_round(double azimuth_deg, const void *context)
{
    const Path *path = context;
    return light_at(path->picture, path->x + path->fixed * cos(azimuth_deg * IFIG_DEGREE),
                    path->y + path->fixed * sin(azimuth_deg * IFIG_DEGREE));
}

static inline double light_along(double r, const void *context)
{
    const Path *path = context;
    return light_at(path->picture, path->x + r * cos(path->fixed * IFIG_DEGREE),
                    path->y + r * sin(path->fixed * IFIG_DEGREE));
}

/* The darkest azimuth on a circle, looked for within `reach` degrees of one. */
static inline double darkest_near(const Path *path, double azimuth_deg, double reach)
{
    double best = azimuth_deg - reach;
    for (double a = azimuth_deg - reach; a <= azimuth_deg + reach; a += 0.5) {
        best = light_round(a, path) < light_round(best, path) ? a : best;
    }
    return lowest(light_round, path, best - 0.7, best + 0.7);
}

/* The darkest distance on a ray between two. */
static inline double darkest_between(const Path *path, double low, double high)
{
    double best = low, step = (high - low) / 400;
    for (double r = low; r <= high; r += step) {
        best = light_along(r, path) < light_along(best, path) ? r : best;
    }
    return lowest(light_along, path, fmax(low, best - step), fmin(high, best + step));
}

#endif
