/* SPDX-License-Identifier: MIT */
/* Polynomials on a square through N x N Chebyshev points. */
#ifndef IFIG_BASIS_H
#define IFIG_BASIS_H

#include "fringe_row.h"

/* The Lagrange polynomials through the N points: of number i the coefficient of t^p, and its first
 * and second derivatives at point p. */
typedef struct IfigBasis {
    double point[N];
    double coefficient[N][N], slope[N][N], bend[N][N];
} IfigBasis;
void ifig_basis(IfigBasis *basis);

/* From values at the points, value[j * N + i] at (t_i, t_j), to coefficients of t^i t^j. */
void ifig_basis_coefficients(const IfigBasis *basis, double value[NN]);

/* Points of another kind: each row j of them has its own places along x, at[j]. */
typedef struct IfigBasisRows {
    double at[N][N], coefficient[N][N][N];
} IfigBasisRows;
void ifig_basis_rows(IfigBasisRows *rows); /* coefficient, of at */
void ifig_basis_rows_coefficients(const IfigBasis *basis, const IfigBasisRows *rows,
                                  double value[NN]);

/* Along x, or y, a matrix of the basis applied to values: derivatives at the points. */
IFIG_INLINE void ifig_basis_along_x(const double matrix[N][N], const double *restrict value,
                                    double *restrict out)
{
    for (size_t j = 0; j < N; j++) {
        IfigDoubles sum = {0}, next;
        for (size_t i = 0; i < N; i++) {
            ifig_read(matrix[i], &next);
            sum += value[j * N + i] * next;
        }
        ifig_write(&sum, out + j * N);
    }
}

IFIG_INLINE void ifig_basis_along_y(const double matrix[N][N], const double *restrict value,
                                    double *restrict out)
{
    for (size_t r = 0; r < N; r++) {
        IfigDoubles sum = {0}, next;
        for (size_t j = 0; j < N; j++) {
            ifig_read(value + j * N, &next);
            sum += next * matrix[j][r];
        }
        ifig_write(&sum, out + r * N);
    }
}

#endif
