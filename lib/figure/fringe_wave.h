/* SPDX-License-Identifier: MIT */
/* The light of one layer at one wavelength as A + B cos delta + C sin delta.
 *
 * With w = v / h and delta = 2 k0 d h the light is
 *   I = (|u|^2 + |w|^2)/2 + (|u|^2 - |w|^2)/2 cos delta - Im(conj(u) w) sin delta.
 * In a layer that absorbs h = sqrt(h^2) is complex, the modes fade by their own losses and the
 * fringe by the mean of both: with E1, E2 what is left of the modes, E1 = exp(-2 k0 d Im(s/2 - h))
 * that of the one that absorbs less if Im h > 0, and E = (E1 + E2)/2, M = (E1 E2)^(1/2),
 *   I = E (|u|^2 + |w|^2)/2 + M (|u|^2 - |w|^2)/2 cos delta
 *       - M Im(conj(u) w) sin delta - Re(conj(u) w) (E1 - E2)/2. */
#ifndef IFIG_FRINGE_WAVE_H
#define IFIG_FRINGE_WAVE_H

#include "fringe_math.h"

#include <math.h>

typedef enum IfigFieldKind {
    IFIG_FIELDS_REAL,     /* h^2, u, v */
    IFIG_FIELDS_COMPLEX,  /* and the imaginary parts of u and v */
    IFIG_FIELDS_ABSORBING /* and those of h^2 and of the modes' mean */
} IfigFieldKind;

/* The smooth quantities of one layer in the order of IfigSmooth. */
typedef struct IfigFields {
    double h2, u_re, v_re, u_im, v_im, h2_im, loss;
} IfigFields;

typedef struct IfigWave {
    double turns, even, cosine, sine; /* delta / 2 pi, A, B, C */
} IfigWave;

/* The least h^2 told apart from none: there the phase is a fiftieth of a radian, the sine its own
 * argument, and v^2 / h^2 sin^2 the same whatever h is. Below it, next to an optic axis, the
 * quotient would be one of rounding errors. */
IFIG_INLINE double ifig_least_h2(double turns_per_h)
{
    double h = 0.01 / (IFIG_PI * turns_per_h);
    return h * h;
}

/* |w|^2 is the light at half a wave of retardation and cannot exceed 1. Where an optic axis of one
 * wavelength falls into a pixel, the polynomials' last digits could make it more. */
IFIG_INLINE double ifig_at_most_one(double value)
{
    return value < 1.0 ? value : 1.0;
}

IFIG_INLINE IfigWave ifig_wave_lossless(const IfigFields *f, int is_complex, double turns_per_h,
                                        double h2)
{
    double h = sqrt(h2), u2 = f->u_re * f->u_re, v2 = f->v_re * f->v_re, cross = 0.0;
    if (is_complex) {
        u2 += f->u_im * f->u_im;
        v2 += f->v_im * f->v_im;
        cross = (f->u_re * f->v_im - f->u_im * f->v_re) / h;
    }
    double w2 = ifig_at_most_one(v2 / h2);
    return (IfigWave){turns_per_h * h, 0.5 * (u2 + w2), 0.5 * (u2 - w2), -cross};
}

IFIG_INLINE IfigWave ifig_wave_absorbing(const IfigFields *f, double turns_per_h, double h2)
{
    double size = sqrt(h2 * h2 + f->h2_im * f->h2_im);
    double hr = sqrt(0.5 * (size + h2)), hi = 0.5 * f->h2_im / hr;
    double depth = 2.0 * IFIG_PI * turns_per_h; /* 2 k0 d */
    double less = depth * (f->loss - hi), more = depth * (f->loss + hi);
    double e1 = ifig_exponential_decay(less > 0.0 ? less : 0.0);
    double e2 = ifig_exponential_decay(more > 0.0 ? more : 0.0);
    double mean = 0.5 * (e1 + e2), fringe = sqrt(e1 * e2);
    double u2 = f->u_re * f->u_re + f->u_im * f->u_im;
    double w2 = ifig_at_most_one((f->v_re * f->v_re + f->v_im * f->v_im) / size);
    /* conj(u) w = conj(u) v conj(h) / |h|^2 */
    double re = f->u_re * f->v_re + f->u_im * f->v_im, im = f->u_re * f->v_im - f->u_im * f->v_re;
    double cross_re = (re * hr + im * hi) / size, cross_im = (im * hr - re * hi) / size;
    return (IfigWave){turns_per_h * hr, 0.5 * (u2 + w2) * mean - cross_re * 0.5 * (e1 - e2),
                      0.5 * (u2 - w2) * fringe, -cross_im * fringe};
}

IFIG_INLINE IfigWave ifig_wave(const IfigFields *f, IfigFieldKind kind, double turns_per_h)
{
    double least = ifig_least_h2(turns_per_h), h2 = f->h2 > least ? f->h2 : least;
    return kind == IFIG_FIELDS_ABSORBING
               ? ifig_wave_absorbing(f, turns_per_h, h2)
               : ifig_wave_lossless(f, kind == IFIG_FIELDS_COMPLEX, turns_per_h, h2);
}

#endif
