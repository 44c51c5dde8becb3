/* SPDX-License-Identifier: MIT */
/* Fringes of a stack.
 *
 * With cos = (e+ + e-)/2 and i sin / h = (e+ - e-)/(2h) for each layer, the amplitude is a sum over
 * sign patterns p (a bit a layer) of a_p exp(i sum of +-delta_j / 2), and
 *   I = sum |a_p|^2 + 2 Re sum_{p<r} D a_p conj(a_r) exp(i sum over the differing layers of +-delta_j):
 * each product is one fringe with its own phase, averaged over pixel and spectral step as that of a
 * single layer. */
#include "fringe_stack.h"

#include "fringe_math.h"

#include <math.h>

enum { N = IFIG_TILE_NODES, NN = N * N };

/* The value at (tx, ty) and the derivatives of a tile's polynomial. */
static double value_and_slope(const double *c, double tx, double ty, double *slope_x,
                              double *slope_y)
{
    double value = 0, along_x = 0, along_y = 0;
    for (size_t j = N; j-- > 0;) {
        double row = 0, row_slope = 0;
        for (size_t i = N; i-- > 0;) {
            row_slope = row_slope * tx + row;
            row = row * tx + c[j * N + i];
        }
        along_y = along_y * ty + value;
        value = value * ty + row;
        along_x = along_x * ty + row_slope;
    }
    *slope_x = along_x;
    *slope_y = along_y;
    return value;
}

static IfigLayerPhase layer_phase(const IfigFigure *figure, const double *c, size_t layer,
                                  double tx, double ty, double side, double wavelength_nm)
{
    double slope_x, slope_y;
    double h2 = value_and_slope(c + layer * NN, tx, ty, &slope_x, &slope_y);
    double per_h = 2.0 * figure->thickness_nm[layer] / wavelength_nm;
    IfigLayerPhase phase;
    phase.h = sqrt(h2 > 1e-20 ? h2 : 1e-20);
    phase.turns = per_h * phase.h;
    phase.across = 0.5 * per_h * slope_x * side / phase.h;
    phase.up = 0.5 * per_h * slope_y * side / phase.h;
    return phase;
}

/* From the smooth u_S to the amplitudes a_p, in place: a butterfly for each layer. */
static void amplitudes(size_t layer_count, const IfigLayerPhase *phase, double complex *a)
{
    size_t subset_count = (size_t)1 << layer_count;
    for (size_t layer = 0; layer < layer_count; layer++) {
        size_t bit = (size_t)1 << layer;
        for (size_t p = 0; p < subset_count; p++) {
            if ((p & bit) == 0) {
                double complex even = 0.5 * a[p], odd = 0.5 / phase[layer].h * a[p | bit];
                a[p] = even + odd;       /* bit 0: + */
                a[p | bit] = even - odd; /* bit 1: - */
            }
        }
    }
}

static double kernel_left(IfigSpectralKernel kernel, double step)
{
    double sinc = ifig_sinc_turns(step), square = sinc * sinc, sine = sinc * (step * IFIG_PI);
    switch (kernel) {
    case IFIG_KERNEL_LINEAR:
        return square;
    case IFIG_KERNEL_SPLINE:
        return square * square / (1.0 - (2.0 / 3.0) * sine * sine);
    default:
        return 1.0;
    }
}

double ifig_stack_light(size_t layer_count, IfigSpectralKernel kernel, const IfigLayerPhase *phase,
                        const double *step, double complex *a)
{
    size_t subset_count = (size_t)1 << layer_count;
    double light = 0;
    amplitudes(layer_count, phase, a);
    for (size_t p = 0; p < subset_count; p++) {
        light += creal(a[p]) * creal(a[p]) + cimag(a[p]) * cimag(a[p]);
        for (size_t r = p + 1; r < subset_count; r++) {
            double turns = 0, across = 0, up = 0, spectral = 0;
            for (size_t layer = 0; layer < layer_count; layer++) {
                double sign = (double)((int)(r >> layer & 1) - (int)(p >> layer & 1));
                turns += sign * phase[layer].turns;
                across += sign * phase[layer].across;
                up += sign * phase[layer].up;
                spectral += sign * step[layer];
            }
            double left = ifig_sinc_turns(across) * ifig_sinc_turns(up) *
                          kernel_left(kernel, spectral);
            double complex product = a[p] * conj(a[r]);
            light += 2.0 * left *
                     (creal(product) * ifig_cosine_turns(turns) -
                      cimag(product) * ifig_sine_turns(turns));
        }
    }
    return light;
}

static void read_sample(const IfigFigure *figure, const IfigTile *tile, double tx, double ty,
                        double side, size_t k, IfigLayerPhase *phase)
{
    const double *c = tile->coefficient + k * figure->quantity_count * NN;
    for (size_t layer = 0; layer < figure->layer_count; layer++) {
        phase[layer] = layer_phase(figure, c, layer, tx, ty, side, figure->samples.wavelength_nm[k]);
    }
}

static void read_amplitudes(const IfigFigure *figure, const IfigTile *tile, double tx, double ty,
                            size_t k, double complex *a)
{
    const double *c = tile->coefficient +
                      (k * figure->quantity_count + figure->layer_count) * NN;
    int is_complex = figure->quantity_count > figure->layer_count + figure->subset_count;
    double unused_x, unused_y;
    for (size_t s = 0; s < figure->subset_count; s++) {
        double re = value_and_slope(c + s * NN, tx, ty, &unused_x, &unused_y), im = 0;
        if (is_complex) {
            im = value_and_slope(c + (figure->subset_count + s) * NN, tx, ty, &unused_x, &unused_y);
        }
        a[s] = re + I * im;
    }
}

IFIG_CLONES
void ifig_fringe_stack_row(const IfigFigure *figure, const IfigTile *tile, const double *tx,
                           double ty, double side, size_t count, double sum[3][IFIG_TILE_MAX])
{
    size_t last = figure->samples.count - 1;
    for (size_t x = 0; x < count; x++) {
        IfigLayerPhase phase[3][IFIG_LAYERS_MAX]; /* of the samples before, at and behind k */
        read_sample(figure, tile, tx[x], ty, side, 0, phase[1]);
        for (size_t layer = 0; layer < figure->layer_count; layer++) {
            phase[0][layer] = phase[1][layer];
        }
        for (size_t k = 0; k <= last; k++) {
            double complex a[IFIG_SUBSETS_MAX];
            double step[IFIG_LAYERS_MAX];
            read_sample(figure, tile, tx[x], ty, side, k < last ? k + 1 : k, phase[2]);
            read_amplitudes(figure, tile, tx[x], ty, k, a);
            double share = k > 0 && k < last ? 0.5 : 1.0;
            for (size_t layer = 0; layer < figure->layer_count; layer++) {
                step[layer] = share * (phase[2][layer].turns - phase[0][layer].turns);
            }
            double light = ifig_stack_light(figure->layer_count, figure->samples.kernel, phase[1], step,
                                            a);
            for (int i = 0; i < 3; i++) {
                sum[i][x] += figure->samples.weight[k][i] * light;
            }
            for (size_t layer = 0; layer < figure->layer_count; layer++) {
                phase[0][layer] = phase[1][layer];
                phase[1][layer] = phase[2][layer];
            }
        }
    }
}
