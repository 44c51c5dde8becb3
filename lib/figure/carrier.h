/* SPDX-License-Identifier: MIT */
/* The colour of a pixel from a few wavelengths instead of all samples of the lamp.
 *
 * One layer lets through A + Re z at a wavelength, z = (B - i C) exp(2 pi i t), t its retardation
 * in turns. Over a square of the picture A, B and C change little with wavelength, and t_k of
 * sample k is nearly a function of t at one reference wavelength, R. So with a carrier P_k(R_n) =
 * offset_k + slope_k R_n, fitted to the square, at the nearest of a ladder of R_n, what is left,
 * z_k exp(-2 pi i P_k), is so smooth in wavelength that a polynomial through J supports carries it:
 *
 *   sum_k w_k z_k = sum_j W_j(n) z_j exp(-2 pi i P_j),  W_j(n) = sum_k w_k L_j(k) D_k exp(2 pi i
 * P_k)
 *
 * with L_j Lagrange's polynomials and D_k the spectral kernel of light.h: a quadrature for a known
 * oscillation (Filon, Proc. R. Soc. Edinburgh 49, 38 (1928)). The W_j(n) are made when a pixel
 * first asks for them. Below a quarter of a turn, or more where there are many supports, there is
 * no carrier: next to an optic axis A and z are not smooth by themselves, their sum is. Each square
 * is held to the sum over all samples at points across it and about its optic axes; where the
 * largest set of supports misses, it is divided, and in the smallest squares every sample may be
 * its own support. */
#ifndef IFIG_CARRIER_H
#define IFIG_CARRIER_H

#include <complex.h>

#include "basis.h"
#include "figure.h"
#include "fringe_math.h"

/* What a lamp leaves of fringes goes with the phase's step from sample to sample. In turns times
 * nanometres between samples: from where on fewer rungs do, and where nothing is left (to 1e-5). */
#define IFIG_CARRIER_COARSE_NM 80.0
#define IFIG_CARRIER_GONE_NM   640.0

/* The weights of a rung at one support: real and imaginary parts by X, Y, Z, (unused). A rung is
 * one for each support, side by side. */
typedef float IfigRung[2][4];

/* Rungs: four in each turn, from `coarse` turns on two, from twice that on one. */
typedef struct IfigLadder {
    double coarse;
    int32_t count;
} IfigLadder;

/* The rung nearest to a retardation; the ladder's count or more where nothing is left. */
IFIG_INLINE int32_t ifig_ladder_place(const IfigLadder *ladder, double least_turns, double turns)
{
    double t = turns < 1e6 ? turns : 1e6, c = ladder->coarse;
    double per_turn = t < c ? 4.0 : t < 2.0 * c ? 2.0 : 1.0;
    double first = t < c ? 0.0 : t < 2.0 * c ? 2.0 * c : 4.0 * c;
    double place = ifig_nearest(t * per_turn + first);
    return t < least_turns ? 0 : (int32_t)place;
}

/* The turns at which a rung stands: the inverse of ifig_ladder_place. */
IFIG_INLINE double ifig_ladder_turns(const IfigLadder *ladder, int32_t place)
{
    double coarse = ladder->coarse, n = (double)place;
    return n < 4.0 * coarse   ? 0.25 * n
           : n < 6.0 * coarse ? coarse + 0.5 * (n - 4.0 * coarse)
                              : 2.0 * coarse + (n - 6.0 * coarse);
}

/* A part of a tile: its centre and half its sides. */
typedef struct IfigPatch {
    double x, y, half_x, half_y;
} IfigPatch;

/* What a point has at one wavelength: the quantities of one layer, the slopes of h^2. */
enum { IFIG_POINT_VALUES = 9 };

/* All samples at one point: phase, its step to the next, its change across a pixel, A, z; what they
 * add up to, in a pixel and in one of the finer samples that a pixel beside an axis is the mean of;
 * and how many levels of 255 a unit of red, green and blue light is there at most. */
typedef struct IfigCarrierPoint {
    double at[2]; /* on the tile */
    double turns[IFIG_SAMPLES_PADDED], step[IFIG_SAMPLES_PADDED];
    double x[IFIG_SAMPLES_PADDED], y[IFIG_SAMPLES_PADDED];
    double even[IFIG_SAMPLES_PADDED], re[IFIG_SAMPLES_PADDED], im[IFIG_SAMPLES_PADDED];
    double even_sum[3], levels[3];
    double complex fringe_sum[3], finer_sum[3];
} IfigCarrierPoint;

/* Points of a patch at which its carrier is fitted and tested, in halves of its sides. */
enum {
    IFIG_GRID_POINTS = 13,
    IFIG_AXIS_POINTS = 16, /* about the optic axis of one wavelength */
    IFIG_CARRIER_POINTS = IFIG_GRID_POINTS + 3 * IFIG_AXIS_POINTS
};
extern const double ifig_patch_grid[IFIG_GRID_POINTS][2];

/* The lines P_k of every sample, and what was made of them: by rung whether it was, and the weights
 * of the supports. */
typedef struct IfigLines {
    double *offset, *slope;
    unsigned char *is_made;
    IfigRung *rung;
} IfigLines;

typedef struct IfigCarrier {
    const IfigSupports *supports;
    IfigLadder ladder;
    IfigLines line; /* in use: those fitted to a square, or those of the whole picture */
    IfigLines fitted, whole[IFIG_SUPPORT_SETS];
    double *none;            /* a 0 for every sample */
    double largest_slope;    /* of the supports */
    double least_turns;      /* at the reference: below, there is no carrier */
    int own_changes;         /* the phase's changes across pixels are taken support by support */
    double *coefficient;     /* the tile's polynomials at the supports, as in IfigTile */
    IfigCarrierPoint *point; /* those of the last test, the grid's first */
    size_t point_count;
    IfigBasis basis;
    double (*at_node)[IFIG_POINT_VALUES]; /* room for the test */
} IfigCarrier;

/* carrier_lines.c */
IfigStatus ifig_carrier_create(const IfigFigure *figure, IfigCarrier *carrier, IfigError *error);
void ifig_carrier_free(IfigCarrier *carrier);

/* carrier.c */
/* Fit a carrier to a patch of a tile, and choose the supports. at_last: no division will help, so
 * that every sample may be a support. Returns 0 where none meet the sum over all samples. */
int ifig_carrier_fit(const IfigFigure *figure, const IfigTile *tile, const IfigPatch *patch,
                     int at_last, IfigCarrier *carrier);

/* Whether what is missed of A and z by X, Y, Z at a point is tolerated. */
int ifig_carrier_agrees(const IfigFigure *figure, const IfigCarrierPoint *p,
                        const double complex even[3], const double complex fringe[3],
                        int is_carried);

/* carrier_point.c. at_node: room for every node. */
void ifig_carrier_point(const IfigFigure *figure, const IfigTile *tile, double tx, double ty,
                        double (*at_node)[IFIG_POINT_VALUES], IfigCarrierPoint *p);

/* Whether a support's axis is so near that fringe_few.c takes the pixel for bent. */
IFIG_INLINE int ifig_point_is_bent(const IfigCarrierPoint *p, size_t k)
{
    double steep = ifig_magnitude(p->x[k]) + ifig_magnitude(p->y[k]);
    return (steep > 0.3 * p->turns[k]) & (steep > 0.005);
}

/* The phase's step from each sample to the next: half the way between the neighbours. */
IFIG_INLINE void ifig_carrier_steps(const double *restrict turns, size_t count,
                                    double *restrict step)
{
    for (size_t k = 1; k + 1 < count; k++) {
        step[k] = 0.5 * (turns[k + 1] - turns[k - 1]);
    }
    step[0] = turns[1] - turns[0];
    step[count - 1] = turns[count - 1] - turns[count - 2];
}

/* Red, green or blue of X, Y, Z. */
IFIG_INLINE double complex ifig_channel(const double matrix[3], const double complex xyz[3])
{
    return matrix[0] * xyz[0] + matrix[1] * xyz[1] + matrix[2] * xyz[2];
}

/* carrier_rung.c */
void ifig_ladder(const IfigFigure *figure, IfigLadder *ladder);
const IfigRung *ifig_carrier_make_rung(const IfigFigure *figure, IfigCarrier *carrier,
                                       int32_t place);

/* P_j at a rung, in turns; none below the first. */
IFIG_INLINE double ifig_carrier_phase(const IfigCarrier *carrier, size_t k, double rung_turns)
{
    return rung_turns > 0.0 ? carrier->line.offset[k] + carrier->line.slope[k] * rung_turns : 0.0;
}

/* The weights of a rung; place below the ladder's count. */
IFIG_INLINE const IfigRung *ifig_carrier_rung(const IfigFigure *figure, IfigCarrier *carrier,
                                              int32_t place)
{
    return carrier->line.is_made[place]
               ? (const IfigRung *)carrier->line.rung + (size_t)place * carrier->supports->count
               : ifig_carrier_make_rung(figure, carrier, place);
}

/* fringe_few.c: XYZ of a strip of the tile at most IFIG_ROW_MAX wide, row by row downward: begin
 * with the first row's ty, then ask for row number 0, 1, 2... bent: 1 where the pixel is too curved
 * for its mean to be taken in closed form and no finer samples were; NULL: they are not asked for.
 */
typedef struct IfigFewWork IfigFewWork;
size_t ifig_few_work_size(void);
void ifig_few_begin(const IfigFigure *figure, const IfigCarrier *carrier, double tx0, double ty,
                    double side, size_t count, IfigFewWork *work);
void ifig_few_row(const IfigFigure *figure, IfigCarrier *carrier, double ty, size_t number,
                  IfigFewWork *work, IfigRowPlace to, unsigned char *bent);

#endif
