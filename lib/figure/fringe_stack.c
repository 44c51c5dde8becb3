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

/* Everything that the light of up to MOST samples needs, sample by sample. */
typedef struct Lanes {
    double re[IFIG_SUBSETS_MAX][MOST], im[IFIG_SUBSETS_MAX][MOST]; /* u_S, then a_p */
    double h_re[IFIG_LAYERS_MAX][MOST], h_im[IFIG_LAYERS_MAX][MOST];
    double turns[IFIG_LAYERS_MAX][MOST], across[IFIG_LAYERS_MAX][MOST], up[IFIG_LAYERS_MAX][MOST];
    double step[IFIG_LAYERS_MAX][MOST]; /* turns to the next spectral sample */
    double mean_loss[IFIG_LAYERS_MAX][MOST], half_loss[IFIG_LAYERS_MAX][MOST];
} Lanes;

IFIG_INLINE double remainder_of(double loss)
{
    return ifig_exponential_decay(loss > 0.0 ? loss : 0.0);
}

/* From the smooth u_S to the amplitudes a_p, in place: a butterfly for each layer. Bit 0 is +. */
IFIG_INLINE void amplitudes(size_t layer_count, int is_absorbing, size_t count, Lanes *l)
{
    size_t subset_count = (size_t)1 << layer_count;
    for (size_t layer = 0; layer < layer_count; layer++) {
        size_t bit = (size_t)1 << layer;
        for (size_t p = 0; p < subset_count; p++) {
            if ((p & bit) != 0) {
                continue;
            }
            double *restrict re0 = l->re[p], *restrict im0 = l->im[p];
            double *restrict re1 = l->re[p | bit], *restrict im1 = l->im[p | bit];
            for (size_t x = 0; x < count; x++) {
                double hr = l->h_re[layer][x], hi = l->h_im[layer][x];
                double scale = 0.5 / (hr * hr + hi * hi);
                double odd_re = (re1[x] * hr + im1[x] * hi) * scale;
                double odd_im = (im1[x] * hr - re1[x] * hi) * scale;
                double even_re = 0.5 * re0[x], even_im = 0.5 * im0[x], plus = 1.0, minus = 1.0;
                if (is_absorbing) {
                    plus = remainder_of(l->mean_loss[layer][x] + l->half_loss[layer][x]);
                    minus = remainder_of(l->mean_loss[layer][x] - l->half_loss[layer][x]);
                }
                re0[x] = (even_re + odd_re) * plus;
                im0[x] = (even_im + odd_im) * plus;
                re1[x] = (even_re - odd_re) * minus;
                im1[x] = (even_im - odd_im) * minus;
            }
        }
    }
}

/* One fringe of the stack: the phase of a signed sum of layers, and its change across the sample
 * and to the next spectral sample; sum of the products a_p conj(a_r) that have this phase. */
typedef struct Fringe {
    double turns[MOST], across[MOST], up[MOST], step[MOST], re[MOST], im[MOST];
} Fringe;

IFIG_INLINE void add_phase(const Lanes *l, size_t layer, double sign, size_t count, Fringe *f)
{
    for (size_t x = 0; x < count; x++) {
        f->turns[x] += sign * l->turns[layer][x];
        f->across[x] += sign * l->across[layer][x];
        f->up[x] += sign * l->up[layer][x];
        f->step[x] += sign * l->step[layer][x];
    }
}

IFIG_INLINE void add_product(const Lanes *l, size_t p, size_t r, size_t count, Fringe *f)
{
    for (size_t x = 0; x < count; x++) {
        f->re[x] += l->re[p][x] * l->re[r][x] + l->im[p][x] * l->im[r][x];
        f->im[x] += l->im[p][x] * l->re[r][x] - l->re[p][x] * l->im[r][x];
    }
}

IFIG_INLINE double largest(const double *values, size_t count)
{
    double most = 0;
    for (size_t x = 0; x < count; x++) {
        double size = ifig_magnitude(values[x]);
        most = size > most ? size : most;
    }
    return most;
}

/* Reduce the products by what the means over sample and spectral step leave of the fringe. */
IFIG_INLINE void average(IfigSpectralKernel kernel, size_t count, Fringe *f)
{
    double left[MOST];
    for (size_t x = 0; x < count; x++) {
        left[x] = 1.0;
    }
    if (largest(f->across, count) + largest(f->up, count) > IFIG_STILL_PIXEL) {
        for (size_t x = 0; x < count; x++) {
            left[x] = ifig_sinc_turns(f->across[x]) * ifig_sinc_turns(f->up[x]);
        }
    }
    if (kernel != IFIG_KERNEL_NONE && largest(f->step, count) > IFIG_STILL_SPECTRUM) {
        for (size_t x = 0; x < count; x++) {
            double sinc = ifig_sinc_turns(f->step[x]);
            left[x] *=
                kernel == IFIG_KERNEL_LINEAR ? sinc * sinc : ifig_spline_of_sinc(sinc, f->step[x]);
        }
    }
    for (size_t x = 0; x < count; x++) {
        f->re[x] *= left[x];
        f->im[x] *= left[x];
    }
}

/* Add the fringe whose sign patterns differ in the layers of mask, where p holds the bits of
 * pattern and r the others. */
IFIG_INLINE void add_fringe(const Lanes *l, size_t layer_count, IfigSpectralKernel kernel,
                            size_t mask, size_t pattern, size_t count, double *restrict light)
{
    Fringe f = {.turns = {0}};
    for (size_t layer = 0; layer < layer_count; layer++) {
        if (mask >> layer & 1) {
            add_phase(l, layer, pattern >> layer & 1 ? -1.0 : 1.0, count, &f);
        }
    }
    for (size_t rest = 0; rest < (size_t)1 << layer_count; rest++) {
        if ((rest & mask) == 0) {
            add_product(l, pattern | rest, (mask ^ pattern) | rest, count, &f);
        }
    }
    average(kernel, count, &f);
    for (size_t x = 0; x < count; x++) {
        light[x] +=
            2.0 * (f.re[x] * ifig_cosine_turns(f.turns[x]) - f.im[x] * ifig_sine_turns(f.turns[x]));
    }
}

IFIG_INLINE void lanes_light(size_t layer_count, int is_absorbing, IfigSpectralKernel kernel,
                             size_t count, Lanes *l, double *restrict light)
{
    size_t subset_count = (size_t)1 << layer_count;
    amplitudes(layer_count, is_absorbing, count, l);
    for (size_t p = 0; p < subset_count; p++) {
        for (size_t x = 0; x < count; x++) {
            double own = l->re[p][x] * l->re[p][x] + l->im[p][x] * l->im[p][x];
            light[x] = p == 0 ? own : light[x] + own;
        }
    }
    for (size_t mask = 1; mask < subset_count; mask++) {
        for (size_t pattern = 0; pattern < mask; pattern++) {
            /* Of two patterns that are each other's mirror, the one without the highest bit. */
            if ((pattern & mask) == pattern && pattern < (mask ^ pattern)) {
                add_fringe(l, layer_count, kernel, mask, pattern, count, light);
            }
        }
    }
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

static void set_lane(Lanes *l, size_t layer, size_t x, const IfigLayerPhase *phase, double step)
{
    l->h_re[layer][x] = creal(phase->h);
    l->h_im[layer][x] = cimag(phase->h);
    l->turns[layer][x] = phase->turns;
    l->across[layer][x] = phase->across;
    l->up[layer][x] = phase->up;
    l->step[layer][x] = step;
    l->mean_loss[layer][x] = phase->mean_loss;
    l->half_loss[layer][x] = phase->half_loss;
}

void ifig_stack_light(size_t layer_count, IfigSpectralKernel kernel, const IfigLayerPhase *phase,
                      const double *step, size_t count, const double complex *u, double *light)
{
    const size_t subset_count = (size_t)1 << layer_count;
    Lanes lanes;
    for (size_t x = 0; x < count; x++) {
        for (size_t layer = 0; layer < layer_count; layer++) {
            set_lane(&lanes, layer, x, &phase[layer], step[layer]);
        }
        for (size_t s = 0; s < subset_count; s++) {
            lanes.re[s][x] = creal(u[x * subset_count + s]);
            lanes.im[s][x] = cimag(u[x * subset_count + s]);
        }
    }
    lanes_light(layer_count, 1, kernel, count, &lanes, light);
}

/* Read the fields of every subset along a row at spectral sample k. */
IFIG_INLINE void read_fields(const IfigFigure *figure, const double *c, const double *tx, double ty,
                             size_t count, Lanes *l)
{
    const double *fields = c + figure->layer_count * NN;
    double row[N];
    for (size_t s = 0; s < figure->subset_count; s++) {
        collapse(fields + s * NN, ty, row);
        for (size_t x = 0; x < count; x++) {
            l->re[s][x] = horner(row, tx[x]);
            l->im[s][x] = 0.0;
        }
        if (figure->is_complex) {
            collapse(fields + (figure->subset_count + s) * NN, ty, row);
            for (size_t x = 0; x < count; x++) {
                l->im[s][x] = horner(row, tx[x]);
            }
        }
    }
}

/* Each layer's phase at spectral sample k along a row, as the first pass left it. */
IFIG_INLINE void read_phases(const IfigFigure *figure, double *workspace, const int *averaged,
                             size_t k, size_t count, Lanes *l)
{
    size_t last = figure->samples.count - 1;
    size_t before = k > 0 ? k - 1 : k, behind = k < last ? k + 1 : k;
    double share = behind > before ? 1.0 / (double)(behind - before) : 0.0;
    for (size_t layer = 0; layer < figure->layer_count; layer++) {
        IfigPhaseRow row = ifig_phase_row(figure, workspace, layer, k);
        const double *first = ifig_phase_row(figure, workspace, layer, before).turns;
        const double *second = ifig_phase_row(figure, workspace, layer, behind).turns;
        for (size_t x = 0; x < count; x++) {
            l->h_re[layer][x] = sqrt(row.h2[x]);
            l->h_im[layer][x] = 0.0;
            l->turns[layer][x] = row.turns[x];
            l->across[layer][x] = averaged[layer] ? row.across[x] : 0.0;
            l->up[layer][x] = averaged[layer] ? row.up[x] : 0.0;
            l->step[layer][x] = (second[x] - first[x]) * share;
        }
    }
}

/* Make the phases of absorbing layers complex. */
static void add_losses(const IfigFigure *figure, const double *c, const double *tx, double ty,
                       size_t k, size_t count, Lanes *l)
{
    const double *losses = c + (figure->layer_count + 2 * figure->subset_count) * NN;
    double k0 = 2.0 * IFIG_PI / figure->samples.wavelength_nm[k], h2_row[N], mean_row[N];
    for (size_t layer = 0; layer < figure->layer_count; layer++) {
        collapse(losses + layer * NN, ty, h2_row);
        collapse(losses + (figure->layer_count + layer) * NN, ty, mean_row);
        for (size_t x = 0; x < count; x++) {
            double h = l->h_re[layer][x];
            IfigLayerPhase phase =
                ifig_layer_phase(h * h + I * horner(h2_row, tx[x]), horner(mean_row, tx[x]),
                                 k0 * figure->thickness_nm[layer]);
            phase.turns = l->turns[layer][x] * (creal(phase.h) / h);
            phase.across = l->across[layer][x];
            phase.up = l->up[layer][x];
            set_lane(l, layer, x, &phase, l->step[layer][x]);
        }
    }
}

/* Second pass: the light of every sample, summed over the spectrum. */
IFIG_CLONES
static void sum_row(const IfigFigure *figure, const IfigTile *tile, const double *tx, double ty,
                    size_t count, double *workspace, const int *averaged,
                    double (*restrict sum)[MOST])
{
    for (size_t k = 0; k < figure->samples.count; k++) {
        const double *c = tile->coefficient + k * figure->quantity_count * NN;
        const double *weight = figure->samples.weight[k];
        Lanes lanes;
        double light[MOST];
        read_fields(figure, c, tx, ty, count, &lanes);
        read_phases(figure, workspace, averaged, k, count, &lanes);
        if (figure->is_absorbing) {
            add_losses(figure, c, tx, ty, k, count, &lanes);
        }
        lanes_light(figure->layer_count, figure->is_absorbing, figure->samples.kernel, count,
                    &lanes, light);
        for (size_t x = 0; x < count; x++) {
            sum[0][x] += weight[0] * light[x];
            sum[1][x] += weight[1] * light[x];
            sum[2][x] += weight[2] * light[x];
        }
    }
}

void ifig_fringe_stack_row(const IfigFigure *figure, const IfigTile *tile, const double *tx,
                           double ty, double side, size_t count, double *workspace,
                           double (*sum)[IFIG_ROW_MAX], unsigned char *bent)
{
    int averaged[IFIG_LAYERS_MAX] = {0};
    for (size_t layer = 0; layer < figure->layer_count; layer++) {
        int flags = ifig_layer_phases(figure, tile, layer, tx, ty, side, count, workspace, bent);
        averaged[layer] = flags & IFIG_ROW_AVERAGED;
    }
    sum_row(figure, tile, tx, ty, count, workspace, averaged, sum);
}
