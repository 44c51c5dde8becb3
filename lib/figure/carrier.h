/* SPDX-License-Identifier: MIT */
/* The colour of a pixel from a few wavelengths instead of all samples of the lamp.
 *
 * One layer lets through A + Re z at a wavelength, z = (B - i C) exp(2 pi i t), t its retardation
 * in turns. Over a square of the picture A, B and C change little with wavelength, and t_k of
 * sample k is nearly a function of t at one reference wavelength, R. So with a carrier P_k(R_n) =
 * offset_k + slope_k R_n, fitted to the square, at the nearest of a ladder of R_n, what is left,
 * z_k exp(-2 pi i P_k), is so smooth in wavelength that a polynomial through J supports carries it:
 *
 *   sum_k w_k z_k = sum_j W_j(n) z_j,
 *   W_j(n) = exp(-2 pi i P_j) sum_k w_k L_j(k) D_k exp(2 pi i P_k)
 *
 * with L_j Lagrange's polynomials and D_k the spectral kernel of light.h: a quadrature for a known
 * oscillation (Filon, Proc. R. Soc. Edinburgh 49, 38 (1928)). The W_j(n) are made when a pixel
 * first asks for them. Below a quarter of a turn, or more where there are many supports, there is no
 * carrier: next to an optic axis A and z are not smooth by themselves, their sum is. Each square is held to the sum over all samples at
 * points across it and about its optic axes; where the largest set of supports misses, it is
 * divided, and the smallest squares are summed in full. */
#ifndef IFIG_CARRIER_H
#define IFIG_CARRIER_H

#include "figure.h"
#include "fringe_math.h"

#define IFIG_CARRIER_COARSE_NM 80.0  /* turns times the samples' step: from here on fewer rungs, */
#define IFIG_CARRIER_GONE_NM   640.0 /* and here nothing of the fringe is left (phases step by more
                                        than a turn from sample to sample), to 1e-5 */

/* The weights of a rung: real and imaginary parts by support and X, Y, Z, (unused). */
typedef float IfigRung[IFIG_SUPPORTS_MAX][2][4];

typedef struct IfigCarrier {
    const IfigSupports *supports;
    size_t rung_count;      /* beyond, nothing of the fringe is left */
    double *offset, *slope; /* of every sample */
    unsigned char *is_made; /* by rung */
    IfigRung *rung;
    double *coefficient; /* the tile's polynomials at the supports, as in IfigTile */
    void *sample, *at_node; /* room for the test */
} IfigCarrier;

/* carrier.c */
IfigStatus ifig_carrier_create(const IfigFigure *figure, IfigCarrier *carrier, IfigError *error);
void ifig_carrier_free(IfigCarrier *carrier);
/* Fit a carrier to a square of a tile, and choose the supports. Returns 0 where none meet the sum
 * over all samples. */
int ifig_carrier_fit(const IfigFigure *figure, const IfigTile *tile, double tx, double ty,
                     double half, IfigCarrier *carrier);

/* carrier_rung.c: how many rungs there are, and the weights for t turns at the reference support; NULL where the fringe is gone.
 */
size_t ifig_carrier_rungs(const IfigFigure *figure);
const IfigRung *ifig_carrier_rung(const IfigFigure *figure, IfigCarrier *carrier, double turns);

/* fringe_few.c: XYZ of a strip of the tile at most IFIG_ROW_MAX wide, row by row downward: begin
 * with the first row's ty, then ask for row number 0, 1, 2... bent: 1 where the pixel is too curved
 * for its mean to be taken in closed form. */
typedef struct IfigFewWork IfigFewWork;
size_t ifig_few_work_size(void);
void ifig_few_begin(const IfigFigure *figure, const IfigCarrier *carrier, double tx0, double ty,
                    double side, size_t count, IfigFewWork *work);
void ifig_few_row(const IfigFigure *figure, IfigCarrier *carrier, double tx0, double ty,
                  double side, size_t number, size_t count, IfigFewWork *work, double (*xyz)[3],
                  unsigned char *bent);

#endif
