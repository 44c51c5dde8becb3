/* SPDX-License-Identifier: MIT */
/* The light of up to a row of samples of a stack, from its smooth amplitudes and phases.
 *
 * With cos = (e+ + e-)/2 and i sin / h = (e+ - e-)/(2h) for each layer, the amplitude is a sum over
 * sign patterns p (a bit a layer) of a_p exp(i sum of +-delta_j / 2), and
 *   I = sum |a_p|^2 + 2 Re sum_{p<r} D a_p conj(a_r) exp(i sum over the differing layers of
 * +-delta_j): each product is one fringe with its own phase, averaged over pixel and spectral step
 * as that of a single layer (fringe_sum.c). */
#ifndef IFIG_FRINGE_SIGNS_H
#define IFIG_FRINGE_SIGNS_H

#include "fringe_row.h"

/* The amplitudes of up to MOST samples: u_S, then a_p, and what takes the one to the other. */
typedef struct Amplitudes {
    double re[IFIG_SUBSETS_MAX][MOST], im[IFIG_SUBSETS_MAX][MOST];
    double h_re[IFIG_LAYERS_MAX][MOST], h_im[IFIG_LAYERS_MAX][MOST];
} Amplitudes;

/* Everything else that their light needs, sample by sample. */
typedef struct Lanes {
    Amplitudes here;
    double turns[IFIG_LAYERS_MAX][MOST], across[IFIG_LAYERS_MAX][MOST], up[IFIG_LAYERS_MAX][MOST];
    double step[IFIG_LAYERS_MAX][MOST]; /* turns to the next spectral sample */
    double mean_loss[IFIG_LAYERS_MAX][MOST], half_loss[IFIG_LAYERS_MAX][MOST];
} Lanes;

IFIG_INLINE double remainder_of(double loss)
{
    return ifig_exponential_decay(loss > 0.0 ? loss : 0.0);
}

/* From the smooth u_S to the amplitudes a_p, in place: a butterfly for each layer. Bit 0 is +. */
IFIG_INLINE void to_signs(size_t layer_count, int is_absorbing, size_t count, const Lanes *l,
                          Amplitudes *a)
{
    size_t subset_count = (size_t)1 << layer_count;
    for (size_t layer = 0; layer < layer_count; layer++) {
        size_t bit = (size_t)1 << layer;
        for (size_t p = 0; p < subset_count; p++) {
            if ((p & bit) != 0) {
                continue;
            }
            double *restrict re0 = a->re[p], *restrict im0 = a->im[p];
            double *restrict re1 = a->re[p | bit], *restrict im1 = a->im[p | bit];
            for (size_t x = 0; x < count; x++) {
                double hr = a->h_re[layer][x], hi = a->h_im[layer][x];
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

/* Products a_p conj(a_r). */
typedef struct Products {
    double re[MOST], im[MOST];
} Products;

IFIG_INLINE void add_product(const Amplitudes *a, double sign, size_t p, size_t r, size_t count,
                             Products *restrict sum)
{
    for (size_t x = 0; x < count; x++) {
        sum->re[x] += sign * (a->re[p][x] * a->re[r][x] + a->im[p][x] * a->im[r][x]);
        sum->im[x] += sign * (a->im[p][x] * a->re[r][x] - a->re[p][x] * a->im[r][x]);
    }
}

/* One fringe of the stack: the phase of a signed sum of layers, and its change across the sample
 * and to the next spectral sample; sum of the products that have this phase, and its change across
 * the sample along x and up. */
typedef struct Fringe {
    double turns[MOST], across[MOST], up[MOST], step[MOST];
    Products here, along_x, along_y;
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

/* around: NULL, or the amplitudes at the middles of each sample's left, right, lower, upper side.
 */
IFIG_INLINE void add_products(const Lanes *l, const Amplitudes *around, size_t p, size_t r,
                              size_t count, Fringe *f)
{
    add_product(&l->here, 1.0, p, r, count, &f->here);
    if (around != NULL) {
        add_product(&around[0], -1.0, p, r, count, &f->along_x);
        add_product(&around[1], 1.0, p, r, count, &f->along_x);
        add_product(&around[2], -1.0, p, r, count, &f->along_y);
        add_product(&around[3], 1.0, p, r, count, &f->along_y);
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

/* The products' mean over each sample, in place. Returns the most that amplitude and phase change
 * together. */
IFIG_INLINE double mean_over_sample(int sloped, size_t count, Fringe *f)
{
    double most = 0.0;
    for (size_t x = 0; x < count; x++) {
        double zx = f->across[x], zy = f->up[x];
        double even_x = ifig_sinc_turns(zx), even_y = ifig_sinc_turns(zy);
        f->here.re[x] *= even_x * even_y;
        f->here.im[x] *= even_x * even_y;
        if (sloped) {
            double odd_x = ifig_odd_sinc_turns(zx, even_x) * even_y;
            double odd_y = ifig_odd_sinc_turns(zy, even_y) * even_x;
            double re = -odd_x * f->along_x.im[x] - odd_y * f->along_y.im[x];
            double im = odd_x * f->along_x.re[x] + odd_y * f->along_y.re[x];
            double size = ifig_magnitude(re) + ifig_magnitude(im);
            f->here.re[x] += re;
            f->here.im[x] += im;
            most = size > most ? size : most;
        }
    }
    return most;
}

/* Reduce the products to what the means over sample and spectral step leave of the fringe. */
IFIG_INLINE double average(IfigSpectralKernel kernel, int sloped, size_t count, Fringe *f)
{
    double together = 0.0, left[MOST];
    if (largest(f->across, count) + largest(f->up, count) > IFIG_STILL_PIXEL) {
        together = mean_over_sample(sloped, count, f);
    }
    if (kernel != IFIG_KERNEL_NONE && largest(f->step, count) > IFIG_STILL_SPECTRUM) {
        for (size_t x = 0; x < count; x++) {
            double sinc = ifig_sinc_turns(f->step[x]);
            left[x] =
                kernel == IFIG_KERNEL_LINEAR ? sinc * sinc : ifig_spline_of_sinc(sinc, f->step[x]);
        }
        for (size_t x = 0; x < count; x++) {
            f->here.re[x] *= left[x];
            f->here.im[x] *= left[x];
        }
    }
    return together;
}

/* Add the fringe whose sign patterns differ in the layers of mask, where p holds the bits of
 * pattern and r the others. */
IFIG_INLINE double add_fringe(const Lanes *l, const Amplitudes *around, size_t layer_count,
                              IfigSpectralKernel kernel, size_t mask, size_t pattern, size_t count,
                              double *restrict light)
{
    Fringe f = {.turns = {0}};
    for (size_t layer = 0; layer < layer_count; layer++) {
        if (mask >> layer & 1) {
            add_phase(l, layer, pattern >> layer & 1 ? -1.0 : 1.0, count, &f);
        }
    }
    for (size_t rest = 0; rest < (size_t)1 << layer_count; rest++) {
        if ((rest & mask) == 0) {
            add_products(l, around, pattern | rest, (mask ^ pattern) | rest, count, &f);
        }
    }
    double together = average(kernel, around != NULL, count, &f);
    for (size_t x = 0; x < count; x++) {
        light[x] += 2.0 * (f.here.re[x] * ifig_cosine_turns(f.turns[x]) -
                           f.here.im[x] * ifig_sine_turns(f.turns[x]));
    }
    return together;
}

/* Takes the u_S of l and around to signs. Returns what mean_over_sample does, of all fringes. */
IFIG_INLINE double lanes_light(size_t layer_count, int is_absorbing, IfigSpectralKernel kernel,
                               size_t count, Lanes *l, Amplitudes *around, double *restrict light)
{
    size_t subset_count = (size_t)1 << layer_count;
    double most = 0.0;
    to_signs(layer_count, is_absorbing, count, l, &l->here);
    for (size_t side = 0; side < 4 && around != NULL; side++) {
        to_signs(layer_count, is_absorbing, count, l, &around[side]);
    }
    for (size_t p = 0; p < subset_count; p++) {
        const double *re = l->here.re[p], *im = l->here.im[p];
        for (size_t x = 0; x < count; x++) {
            double own = re[x] * re[x] + im[x] * im[x];
            light[x] = p == 0 ? own : light[x] + own;
        }
    }
    for (size_t mask = 1; mask < subset_count; mask++) {
        for (size_t pattern = 0; pattern < mask; pattern++) {
            /* Of two patterns that are each other's mirror, the one without the highest bit. */
            if ((pattern & mask) == pattern && pattern < (mask ^ pattern)) {
                double together =
                    add_fringe(l, around, layer_count, kernel, mask, pattern, count, light);
                most = together > most ? together : most;
            }
        }
    }
    return most;
}

#endif
