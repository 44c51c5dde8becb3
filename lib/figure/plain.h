/* SPDX-License-Identifier: MIT */
/* Patches away from optic axes, most of any picture. There the phase and the amplitude of each
 * support, and A, are smooth themselves: polynomials of the patch carry them straight to the mean
 * over each pixel, with all that fringe_few.c works out pixel by pixel (the slopes across a pixel
 * and what they leave of the fringe, the Laplacians) put in at the nodes.
 *
 *   mean of z_j exp(-2 pi i P_j(R_n)) = (re_j + i im_j) exp(2 pi i (slope_j (R - R_n) + away_j))
 *
 * (and offset_j where there is no carrier). R the phase of the reference support, R_n that of its
 * rung (carrier.h). R - R_n is at most half the distance of two rungs, so that only R needs double
 * precision. */
#ifndef IFIG_PLAIN_H
#define IFIG_PLAIN_H

#include "carrier.h"
#include "fringe_row.h"

enum { IFIG_PLAIN_SUPPORTS = 48 };

/* Where on the ladder a patch stands: below its first rung, where there is no carrier and R_n is 0;
 * where all rungs stand by four in a turn, or by one; elsewhere. */
typedef enum IfigRungs {
    IFIG_RUNGS_NONE,
    IFIG_RUNGS_FOUR,
    IFIG_RUNGS_ONE,
    IFIG_RUNGS_MIXED
} IfigRungs;

/* Coefficients of p^i q^j, p and q from -1 to 1 across the patch. */
typedef struct IfigPlain {
    IfigPatch patch;
    double turns[NN]; /* of the reference support */
    float even[3][NN], away[IFIG_PLAIN_SUPPORTS][NN];
    float re[IFIG_PLAIN_SUPPORTS][NN], im[IFIG_PLAIN_SUPPORTS][NN];
    float slope[IFIG_PLAIN_SUPPORTS], offset[IFIG_PLAIN_SUPPORTS];
    size_t count; /* supports */
    int has_im, is_near; /* is_near: no phase is more than a quarter of a turn from its rung's */
    IfigRungs rungs;
} IfigPlain;

/* plain_fit.c: room for a fit's own numbers, and a patch to which the carrier was just fitted.
 * Returns 0 where an axis is too near, or the polynomials miss. */
typedef struct IfigPlainNodes IfigPlainNodes;
size_t ifig_plain_nodes_size(void); /* of the room */
int ifig_plain_fit(const IfigFigure *figure, const IfigTile *tile, const IfigPatch *patch,
                   IfigCarrier *carrier, IfigPlainNodes *nodes, IfigPlain *plain);

/* plain_row.c: XYZ of count pixels (at most IFIG_ROW_MAX) of a row of the tile to where they go,
 * the first centred on (tx0, ty), each of the given side. */
typedef struct IfigPlainWork IfigPlainWork;
size_t ifig_plain_work_size(void);
void ifig_plain_row(const IfigFigure *figure, IfigCarrier *carrier, const IfigPlain *plain,
                    double tx0, double ty, double side, size_t count, IfigPlainWork *work,
                    IfigRowPlace to);

#endif
