/* SPDX-License-Identifier: MIT */
/* The light of one support next to its optic axis: phase and planes of vibration turn within a
 * pixel there, which is therefore the mean of finer samples, each by the closed form. */
#ifndef IFIG_FRINGE_BENT_H
#define IFIG_FRINGE_BENT_H

#include "support_row.h"

/* Pixels side by side: the centre of the first, and their side, in the tile's units. */
typedef struct IfigPixelRun {
    double tx, ty, side;
    size_t count;
} IfigPixelRun;

/* Means of A, and of B cos delta + C sin delta, over each pixel of a run, at most
 * MOST / bent_parts, from finer samples. work: room. */
typedef struct IfigBentWork {
    IfigWaveRow row[3];
    IfigChange change;
    float re[MOST], im[MOST];
} IfigBentWork;
void ifig_bent_means(const IfigFigure *figure, const IfigCarrier *carrier, size_t j,
                     const IfigPixelRun *run, IfigBentWork *work, float *even, float *fringe);

#endif
