/* SPDX-License-Identifier: MIT */
/* Fringes of two and more layers, where sums and differences of the layers' phases appear (left on
 * right quartz: Airy's spirals). fringe_sum.c hands its rows of such figures on to here; probe.c
 * takes the light of one sample, for one layer as well. */
#ifndef IFIG_FRINGE_STACK_H
#define IFIG_FRINGE_STACK_H

#include "figure.h"

/* One layer's phase at a point: h, turns, and how many turns it changes across the sample's area;
 * and k0 d times the imaginary parts of the mean of the modes' q and of h, 0 where nothing is
 * absorbed. */
typedef struct IfigLayerPhase {
    double complex h;
    double turns, across, up;
    double mean_loss, half_loss;
} IfigLayerPhase;

/* The phase of a layer of depth x = k0 d from h^2 and the imaginary part of the mean. */
IfigLayerPhase ifig_layer_phase(double complex h2, double mean_imaginary, double x);

/* The light of one place at one wavelength through count pairs of polars, at most IFIG_TILE_MAX.
 * step: turns of each layer's phase to the next spectral sample. u: the smooth u_S, those of a pair
 * of polars one after another. */
void ifig_stack_light(size_t layer_count, IfigSpectralKernel kernel, const IfigLayerPhase *phase,
                      const double *step, size_t count, const double complex *u, double *light);

/* Add to sum (X, Y, Z) what the stack lets through at count samples of a row. */
void ifig_fringe_stack_row(const IfigFigure *figure, const IfigTile *tile, const double *tx,
                           double ty, double side, size_t count, double *workspace,
                           double (*sum)[IFIG_ROW_MAX], unsigned char *bent);

#endif
