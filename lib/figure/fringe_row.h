/* SPDX-License-Identifier: MIT */
/* What the two passes of the inner loop share: polynomials along a row of a tile, and the phases
 * that the first pass leaves for the second. */
#ifndef IFIG_FRINGE_ROW_H
#define IFIG_FRINGE_ROW_H

#include "figure.h"
#include "fringe_math.h"

#include <string.h>

enum { N = IFIG_TILE_NODES, NN = N * N, MOST = IFIG_ROW_MAX };

/* One layer's phases along a row at one spectral sample; room for MOST values each. */
typedef struct IfigPhaseRow {
    double *turns; /* delta / 2 pi, the mean over each sample's area */
    double *h2;    /* h^2, held above none at all: see least_h2 */
    double *across,
        *up; /* change of turns across a sample along x and y, where rows are averaged */
} IfigPhaseRow;

enum {
    IFIG_ROW_AVERAGED = 1, /* the phase changes within samples: across and up are set */
    IFIG_ROW_ENVELOPE = 2  /* the plane of vibration turns within samples: an optic axis is near */
};

IfigPhaseRow ifig_phase_row(const IfigFigure *figure, double *workspace, size_t layer, size_t k);

/* Fill the phases of one layer at every spectral sample. bent (may be NULL): set to 1 where the
 * closed form of the mean does not hold. Returns IFIG_ROW_ flags. */
int ifig_layer_phases(const IfigFigure *figure, const IfigTile *tile, size_t layer,
                      const double *tx, double ty, double side, size_t count, double *workspace,
                      unsigned char *bent);

/* N numbers side by side: a compiler that unrolls a loop over so few makes no vectors of it. */
typedef double IfigDoubles __attribute__((vector_size(N * sizeof(double))));
typedef float IfigFloats __attribute__((vector_size(N * sizeof(float))));

/* N numbers in memory. A copy by memcpy that is wider than the processor's vectors goes by way of
 * the stack, which costs more than the sums it is for. */
typedef IfigDoubles __attribute__((aligned(sizeof(double)), may_alias)) IfigDoublesThere;
typedef IfigFloats __attribute__((aligned(sizeof(float)), may_alias)) IfigFloatsThere;

IFIG_INLINE void ifig_read(const double *from, IfigDoubles *to)
{
    *to = *(const IfigDoublesThere *)from;
}

IFIG_INLINE void ifig_write(const IfigDoubles *from, double *to)
{
    *(IfigDoublesThere *)to = *from;
}

IFIG_INLINE void ifig_read_floats(const float *from, IfigFloats *to)
{
    *to = *(const IfigFloatsThere *)from;
}

/* Coefficients along the row of a polynomial, and of its derivatives along y. */
IFIG_INLINE void collapse(const double *c, double ty, double row[N])
{
    IfigDoubles sum, next;
    ifig_read(c + (N - 1) * N, &sum);
    for (size_t j = N - 1; j-- > 0;) {
        ifig_read(c + j * N, &next);
        sum = sum * ty + next;
    }
    ifig_write(&sum, row);
}

IFIG_INLINE void collapse_float(const float *c, float ty, float row[N])
{
    IfigFloats sum, next;
    ifig_read_floats(c + (N - 1) * N, &sum);
    for (size_t j = N - 1; j-- > 0;) {
        ifig_read_floats(c + j * N, &next);
        sum = sum * ty + next;
    }
    *(IfigFloatsThere *)row = sum;
}

IFIG_INLINE void collapse_slopes(const double *c, double ty, double slope[N], double bend[N])
{
    IfigDoubles first = {0}, second = {0}, next;
    for (size_t j = N; j-- > 1;) {
        ifig_read(c + j * N, &next);
        first = first * ty + (double)j * next;
        if (j > 1) {
            second = second * ty + (double)(j * (j - 1)) * next;
        }
    }
    ifig_write(&first, slope);
    ifig_write(&second, bend);
}

IFIG_INLINE double horner(const double c[N], double t)
{
    double value = c[N - 1];
    for (size_t i = N - 1; i-- > 0;) {
        value = value * t + c[i];
    }
    return value;
}

IFIG_INLINE float horner_float(const float c[N], float t)
{
    float value = c[N - 1];
    for (size_t i = N - 1; i-- > 0;) {
        value = value * t + c[i];
    }
    return value;
}

/* d/dt and d2/dt2 of a row's polynomial, as coefficients. */
IFIG_INLINE void differentiate(const double c[N], double slope[N], double bend[N])
{
    for (size_t i = 0; i < N; i++) {
        slope[i] = i + 1 < N ? (double)(i + 1) * c[i + 1] : 0.0;
        bend[i] = i + 2 < N ? (double)((i + 1) * (i + 2)) * c[i + 2] : 0.0;
    }
}

#endif
