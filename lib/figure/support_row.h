/* SPDX-License-Identifier: MIT */
/* Waves of one support along a row, and their means over pixels: what fringe_few.c and
 * fringe_bent.c share.
 *
 * The mean over a pixel across which the phase is linear and the amplitude a = B - i C too,
 *   mean = exp(i delta) [a S(zx) S(zy) + i (ax s(zx) S(zy) + ay s(zy) S(zx))]
 * with zx, zy the phase's change across in turns, ax, ay that of a, S(z) = sin(pi z) / (pi z), and
 * s(z) = integral of x sin(2 pi z x) from -1/2 to 1/2 = (S(z) - cos(pi z)) / (2 pi z). Phase, A and
 * a bend within the pixel: a twenty-fourth of the Laplacian is added to each. Changes are
 * differences between neighbours, which cost no polynomial. */
#ifndef IFIG_SUPPORT_ROW_H
#define IFIG_SUPPORT_ROW_H

#include "carrier.h"
#include "fringe_row.h"
#include "fringe_wave.h"

enum { WIDE = MOST + 2 };

/* Waves at the centres of a row, one more pixel at each end. Phases need double precision, where a
 * large number of turns is formed; after that no digit beyond a float's is seen. */
typedef struct IfigWaveRow {
    double turns[WIDE];
    float even[WIDE], cosine[WIDE], sine[WIDE];
} IfigWaveRow;

/* A row and its neighbours. */
typedef struct IfigWaveRows {
    const IfigWaveRow *above, *here, *below;
} IfigWaveRows;

/* Change of a phase across each pixel along x and y, what its mean lies above the centre, whether
 * no closed form holds for it; S(zx) S(zy) = 1 - square + fourth - sixth; and the turns of the
 * rung. */
typedef struct IfigChange {
    float x[MOST], y[MOST], lift[MOST], square[MOST], fourth[MOST], sixth[MOST];
    int32_t bent[MOST];
    double rung[MOST];
} IfigChange;

IFIG_INLINE void collapse_to_float(const double *c, double ty, float row[N])
{
    double exact[N];
    collapse(c, ty, exact);
    for (size_t i = 0; i < N; i++) {
        row[i] = (float)exact[i];
    }
}

/* Waves of one support along a row. Only v, which next to an optic axis is divided by a small h,
 * and h^2 need double precision. */
IFIG_INLINE void lossless_row(const double *c, int is_complex, double per_h, const double *tx,
                              double ty, size_t count, IfigWaveRow *restrict row)
{
    double h2_row[N], v_row[N], v_im_row[N], least = ifig_least_h2(per_h);
    float u_row[N], u_im_row[N];
    collapse(c, ty, h2_row);
    collapse_to_float(c + NN, ty, u_row);
    collapse(c + 2 * NN, ty, v_row);
    if (is_complex) {
        collapse_to_float(c + 3 * NN, ty, u_im_row);
        collapse(c + 4 * NN, ty, v_im_row);
    }
    for (size_t x = 0; x < count; x++) {
        double t = tx[x], h2 = horner(h2_row, t);
        h2 = h2 > least ? h2 : least;
        double inverse = ifig_inverse_root(h2);
        float u = horner_float(u_row, (float)t), w = (float)(horner(v_row, t) * inverse);
        float u2 = u * u, w2 = w * w;
        row->turns[x] = per_h * h2 * inverse;
        if (is_complex) {
            float u_im = horner_float(u_im_row, (float)t);
            float w_im = (float)(horner(v_im_row, t) * inverse);
            u2 += u_im * u_im;
            w2 += w_im * w_im;
            row->sine[x] = u_im * w - u * w_im;
        }
        w2 = w2 < 1.0F ? w2 : 1.0F;
        row->even[x] = 0.5F * (u2 + w2);
        row->cosine[x] = 0.5F * (u2 - w2);
    }
}

IFIG_INLINE void absorbing_row(const double *c, double per_h, const double *tx, double ty,
                               size_t count, IfigWaveRow *restrict row)
{
    double f[7][N];
    for (size_t q = 0; q < 7; q++) {
        collapse(c + q * NN, ty, f[q]);
    }
    for (size_t x = 0; x < count; x++) {
        double t = tx[x];
        IfigFields fields = {horner(f[0], t), horner(f[1], t), horner(f[2], t), horner(f[3], t),
                             horner(f[4], t), horner(f[5], t), horner(f[6], t)};
        IfigWave wave = ifig_wave(&fields, IFIG_FIELDS_ABSORBING, per_h);
        row->turns[x] = wave.turns;
        row->cosine[x] = (float)wave.cosine;
        row->sine[x] = (float)wave.sine;
        row->even[x] = (float)wave.even;
    }
}

IFIG_INLINE void wave_row(const IfigFigure *figure, const IfigCarrier *carrier, size_t j,
                          const double *tx, double ty, size_t count, IfigWaveRow *row)
{
    double per_h =
        2.0 * figure->thickness_nm[0] / figure->samples.wavelength_nm[carrier->supports->sample[j]];
    const double *c = carrier->coefficient + j * figure->quantity_count * NN;
    if (figure->is_absorbing) {
        absorbing_row(c, per_h, tx, ty, count, row);
    } else if (figure->is_complex) {
        lossless_row(c, 1, per_h, tx, ty, count, row);
    } else {
        lossless_row(c, 0, per_h, tx, ty, count, row);
    }
}

/* S(zx) S(zy), s(zx) S(zy) and s(zy) S(zx). */
typedef struct IfigLeft {
    float even, odd_x, odd_y;
} IfigLeft;

/* For changes up to a quarter of a turn, slope times those in change: Taylor sums, to 1e-6. The odd
 * ones, which weigh what little B and C change within a pixel, to a twentieth of themselves. */
IFIG_INLINE IfigLeft left_near(const IfigChange *change, size_t x, float slope)
{
    float g = slope * slope;
    float even = 1.0F - g * (change->square[x] - g * (change->fourth[x] - g * change->sixth[x]));
    float odd = (float)(IFIG_PI / 6.0) * slope * even;
    return (IfigLeft){even, odd * change->x[x], odd * change->y[x]};
}

IFIG_INLINE IfigLeft left_far(const IfigChange *change, size_t x, float slope)
{
    float odd_x, odd_y;
    float even_x = ifig_sincs_part(slope * change->x[x], &odd_x);
    float even_y = ifig_sincs_part(slope * change->y[x], &odd_y);
    return (IfigLeft){even_x * even_y, odd_x * even_y, odd_y * even_x};
}

/* The parts of S(zx) S(zy) = (1 - x/6 + x^2/120 - x^3/5040) (the same in y), x = (pi zx)^2. */
IFIG_INLINE void taylor_parts(size_t count, IfigChange *restrict change)
{
    for (size_t i = 0; i < count; i++) {
        float x = (float)IFIG_PI * change->x[i], y = (float)IFIG_PI * change->y[i];
        float x2 = x * x, y2 = y * y, sum = x2 + y2, product = x2 * y2;
        change->square[i] = sum * (1.0F / 6.0F);
        change->fourth[i] =
            (sum * sum - 2.0F * product) * (1.0F / 120.0F) + product * (1.0F / 36.0F);
        change->sixth[i] =
            sum * ((sum * sum - 3.0F * product) * (1.0F / 5040.0F) + product * (1.0F / 720.0F));
    }
}

/* A support's phase from pixel to pixel. Marks pixels in which the closed form of the
 * mean does not hold: the phase bends by a third of a turn, where a fringe can still be seen; or an
 * optic axis stands within a few pixels, so that the planes of vibration turn within one. Returns 1
 * where some change is larger than `near`. */
IFIG_INLINE int phase_changes(const IfigWaveRows *rows, size_t count, float near,
                              IfigChange *restrict change)
{
    const double *t = rows->here->turns, *t_up = rows->above->turns, *t_down = rows->below->turns;
    int32_t far = 0;
    for (size_t x = 0; x < count; x++) {
        double centre = t[x + 1];
        float left = (float)(t[x] - centre), right = (float)(t[x + 2] - centre);
        float up = (float)(t_up[x + 1] - centre), down = (float)(t_down[x + 1] - centre);
        float zx = 0.5F * (right - left), zy = 0.5F * (up - down);
        float bend_x = left + right, bend_y = up + down, turns = (float)centre;
        float size_x = zx < 0 ? -zx : zx, size_y = zy < 0 ? -zy : zy, steep = size_x + size_y;
        float lift = (bend_x + bend_y) * (1.0F / 24.0F);
        /* At the tip of a cone (a melatope) the mean lies 0.38 of the slope above the tip. */
        float most = 0.38F * steep;
        float bend = bend_x * bend_x > bend_y * bend_y ? bend_x * bend_x : bend_y * bend_y;
        int32_t is_bent = (turns < 60.0F) & (bend > 0.09F) & (steep > 0.1F);
        /* To the farther neighbours: at the tip of a cone the difference across is none. */
        float most_x = left * left > right * right ? left : right;
        float most_y = up * up > down * down ? up : down;
        float steepest = (most_x < 0 ? -most_x : most_x) + (most_y < 0 ? -most_y : most_y);
        int32_t at_axis = (steepest > 0.25F * turns) & (steepest > 0.004F);
        change->x[x] = zx;
        change->y[x] = zy;
        change->lift[x] = lift > most ? most : lift < -most ? -most : lift;
        change->bent[x] = is_bent | at_axis;
        far |= steep > near;
    }
    taylor_parts(count, change);
    return far;
}

/* The mean of a row's B or C, with a twenty-fourth of its Laplacian. */
IFIG_INLINE float mean_of_five(const float *above, const float *here, const float *below, size_t x)
{
    float around = here[x] + here[x + 2] + above[x + 1] + below[x + 1];
    return here[x + 1] + (around - 4.0F * here[x + 1]) * (1.0F / 24.0F);
}

/* The carrier of a support: what its phase is at a rung. */
typedef struct IfigLine {
    double offset, slope;
} IfigLine;

/* The mean of one support's fringe over each pixel, less its carrier's phase. slope: of its phase
 * against that whose changes are given. */
IFIG_INLINE void fringe_mean(const IfigWaveRows *rows, IfigLine line, int has_sine, int near,
                             float slope, size_t count, const IfigChange *restrict change,
                             float *restrict out_re, float *restrict out_im)
{
    const IfigWaveRow *above = rows->above, *here = rows->here, *below = rows->below;
    const double *t = here->turns;
    const float *b = here->cosine, *b_up = above->cosine, *b_down = below->cosine;
    const float *c = here->sine, *c_up = above->sine, *c_down = below->sine;
    for (size_t x = 0; x < count; x++) {
        IfigLeft left = near ? left_near(change, x, slope) : left_far(change, x, slope);
        float bx = 0.5F * (b[x + 2] - b[x]), by = 0.5F * (b_up[x + 1] - b_down[x + 1]);
        float re = mean_of_five(b_up, b, b_down, x) * left.even,
              im = bx * left.odd_x + by * left.odd_y;
        if (has_sine) {
            float cx = 0.5F * (c[x + 2] - c[x]), cy = 0.5F * (c_up[x + 1] - c_down[x + 1]);
            re += cx * left.odd_x + cy * left.odd_y;
            im -= mean_of_five(c_up, c, c_down, x) * left.even;
        }
        double rung = change->rung[x];
        double carried = rung > 0.0 ? line.offset + line.slope * rung : 0.0;
        double turns = t[x + 1] - carried + (double)(slope * change->lift[x]);
        float part = (float)(turns - ifig_nearest(turns));
        float cosine = ifig_cosine_part(part), sine = ifig_sine_part(part);
        out_re[x] = re * cosine - im * sine;
        out_im[x] = re * sine + im * cosine;
    }
}

/* The same for what the figure is made of, and how far phases change. */
IFIG_INLINE void fringe_mean_of(const IfigFigure *figure, const IfigWaveRows *rows, IfigLine line,
                                int far, float slope, size_t count, const IfigChange *change,
                                float *re, float *im)
{
    if (figure->is_complex && !far) {
        fringe_mean(rows, line, 1, 1, slope, count, change, re, im);
    } else if (figure->is_complex) {
        fringe_mean(rows, line, 1, 0, slope, count, change, re, im);
    } else if (!far) {
        fringe_mean(rows, line, 0, 1, slope, count, change, re, im);
    } else {
        fringe_mean(rows, line, 0, 0, slope, count, change, re, im);
    }
}

#endif
