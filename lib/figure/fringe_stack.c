/* SPDX-License-Identifier: MIT */
/* Fringes of a stack.
 *
 * With cos = (e+ + e-)/2 and i sin / h = (e+ - e-)/(2h) for each layer, the amplitude is a sum over
 * sign patterns p (a bit a layer) of a_p exp(i sum of +-delta_j / 2), and
 *   I = sum |a_p|^2 + 2 Re sum_{p<r} D a_p conj(a_r) exp(i sum over the differing layers of
 * +-delta_j): each product is one fringe with its own phase, averaged over pixel and spectral step
 * as that of a single layer. */
#include "fringe_stack.h"

#include "fringe_row.h"

#include <math.h>

static double remainder_of(double loss)
{
    return loss > 0.0 ? ifig_exponential_decay(loss) : 1.0;
}

IfigLayerPhase ifig_layer_phase(double complex h2, double mean_imaginary, double x)
{
    /* Above 1e-20 the quotient v / h is safe, and below it nothing is lit. */
    double complex h = csqrt(creal(h2) > 1e-20 || cimag(h2) != 0.0 ? h2 : 1e-20);
    IfigLayerPhase phase = {.h = h, .turns = x * creal(h) / IFIG_PI};
    phase.mean_loss = x * mean_imaginary;
    phase.half_loss = x * cimag(h);
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
                double complex even = 0.5 * a[p], odd = 0.5 * a[p | bit] / phase[layer].h;
                double mean = phase[layer].mean_loss, half = phase[layer].half_loss;
                a[p] = (even + odd) * remainder_of(mean + half);       /* bit 0: + */
                a[p | bit] = (even - odd) * remainder_of(mean - half); /* bit 1: - */
            }
        }
    }
}

static double kernel_left(IfigSpectralKernel kernel, double step)
{
    switch (kernel) {
    case IFIG_KERNEL_LINEAR:
        return ifig_linear_left(step);
    case IFIG_KERNEL_SPLINE:
        return ifig_spline_left(step);
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
            double left =
                ifig_sinc_turns(across) * ifig_sinc_turns(up) * kernel_left(kernel, spectral);
            double complex product = a[p] * conj(a[r]);
            light += 2.0 * left *
                     (creal(product) * ifig_cosine_turns(turns) -
                      cimag(product) * ifig_sine_turns(turns));
        }
    }
    return light;
}

/* The smooth amplitudes of every subset along a row at one spectral sample, and what absorbs. */
typedef struct SubsetRows {
    double re[IFIG_SUBSETS_MAX][N], im[IFIG_SUBSETS_MAX][N];
    double h2_imaginary[IFIG_LAYERS_MAX][N], mean_imaginary[IFIG_LAYERS_MAX][N];
    int is_complex;
} SubsetRows;

static void collapse_subsets(const IfigFigure *figure, const IfigTile *tile, double ty, size_t k,
                             SubsetRows *rows)
{
    const double *c = tile->coefficient + (k * figure->quantity_count + figure->layer_count) * NN;
    rows->is_complex = figure->is_complex;
    for (size_t s = 0; s < figure->subset_count; s++) {
        collapse(c + s * NN, ty, rows->re[s]);
        if (rows->is_complex) {
            collapse(c + (figure->subset_count + s) * NN, ty, rows->im[s]);
        }
    }
    const double *losses = c + 2 * figure->subset_count * NN;
    for (size_t layer = 0; figure->is_absorbing && layer < figure->layer_count; layer++) {
        collapse(losses + layer * NN, ty, rows->h2_imaginary[layer]);
        collapse(losses + (figure->layer_count + layer) * NN, ty, rows->mean_imaginary[layer]);
    }
}

/* Each layer's phase at sample x of spectral sample k, and its step to the next spectral sample. */
static void phases_at(const IfigFigure *figure, double *workspace, const SubsetRows *rows,
                      double tx, int averaged, size_t x, size_t k, IfigLayerPhase *phase,
                      double *step)
{
    size_t last = figure->samples.count - 1;
    size_t before = k > 0 ? k - 1 : k, behind = k < last ? k + 1 : k;
    for (size_t layer = 0; layer < figure->layer_count; layer++) {
        IfigPhaseRow row = ifig_phase_row(figure, workspace, layer, k);
        double h = sqrt(row.h2[x]);
        phase[layer] = (IfigLayerPhase){.h = h, .turns = row.turns[x]};
        if (figure->is_absorbing) {
            double depth =
                2.0 * IFIG_PI * figure->thickness_nm[layer] / figure->samples.wavelength_nm[k];
            phase[layer] = ifig_layer_phase(row.h2[x] + I * horner(rows->h2_imaginary[layer], tx),
                                            horner(rows->mean_imaginary[layer], tx), depth);
            phase[layer].turns = row.turns[x] * (creal(phase[layer].h) / h);
        }
        if (averaged) {
            phase[layer].across = row.across[x];
            phase[layer].up = row.up[x];
        }
        step[layer] = 0;
        if (behind > before) {
            step[layer] = (ifig_phase_row(figure, workspace, layer, behind).turns[x] -
                           ifig_phase_row(figure, workspace, layer, before).turns[x]) /
                          (double)(behind - before);
        }
    }
}

/* Second pass: the light of every sample, summed over the spectrum. */
IFIG_CLONES
static void sum_row(const IfigFigure *figure, const IfigTile *tile, const double *tx, double ty,
                    size_t count, double *workspace, int averaged, double sum[3][IFIG_TILE_MAX])
{
    for (size_t k = 0; k < figure->samples.count; k++) {
        SubsetRows rows;
        collapse_subsets(figure, tile, ty, k, &rows);
        for (size_t x = 0; x < count; x++) {
            IfigLayerPhase phase[IFIG_LAYERS_MAX];
            double step[IFIG_LAYERS_MAX];
            double complex u[IFIG_SUBSETS_MAX];
            phases_at(figure, workspace, &rows, tx[x], averaged, x, k, phase, step);
            for (size_t s = 0; s < figure->subset_count; s++) {
                u[s] = horner(rows.re[s], tx[x]) +
                       I * (rows.is_complex ? horner(rows.im[s], tx[x]) : 0.0);
            }
            double light =
                ifig_stack_light(figure->layer_count, figure->samples.kernel, phase, step, u);
            for (int i = 0; i < 3; i++) {
                sum[i][x] += figure->samples.weight[k][i] * light;
            }
        }
    }
}

void ifig_fringe_stack_row(const IfigFigure *figure, const IfigTile *tile, const double *tx,
                           double ty, double side, size_t count, double *workspace,
                           double sum[3][IFIG_TILE_MAX], unsigned char *bent)
{
    int averaged[IFIG_LAYERS_MAX] = {0}, any = 0;
    for (size_t layer = 0; layer < figure->layer_count; layer++) {
        int flags = ifig_layer_phases(figure, tile, layer, tx, ty, side, count, workspace, bent);
        averaged[layer] = flags & IFIG_ROW_AVERAGED;
        any |= averaged[layer];
    }
    for (size_t layer = 0; any && layer < figure->layer_count; layer++) {
        for (size_t k = 0; !averaged[layer] && k < figure->samples.count; k++) {
            IfigPhaseRow row = ifig_phase_row(figure, workspace, layer, k);
            for (size_t x = 0; x < count; x++) {
                row.across[x] = row.up[x] = 0.0;
            }
        }
    }
    sum_row(figure, tile, tx, ty, count, workspace, any, sum);
}
