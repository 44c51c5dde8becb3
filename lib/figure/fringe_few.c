/* SPDX-License-Identifier: MIT */
/* The inner loop for squares whose colour a few wavelengths carry (carrier.h): A, B, C and the
 * phase at the centres of a row's pixels and their neighbours, the mean over each pixel, and the
 * weights of the pixel's rung.
 *
 * The mean over a pixel across which the phase is linear and the amplitude a = B - i C too,
 *   mean = exp(i delta) [a S(zx) S(zy) + i (ax s(zx) S(zy) + ay s(zy) S(zx))]
 * with zx, zy the phase's change across in turns, ax, ay that of a, S(z) = sin(pi z) / (pi z), and
 * s(z) = integral of x sin(2 pi z x) from -1/2 to 1/2 = (S(z) - cos(pi z)) / (2 pi z). Phase, A and
 * a bend within the pixel: a twenty-fourth of the Laplacian is added to each. Changes are
 * differences between neighbours, which cost no polynomial. */
#include "carrier.h"
#include "fringe_row.h"
#include "fringe_wave.h"

#include <string.h>

enum { WIDE = MOST + 2, MOST_J = IFIG_SUPPORTS_MAX };

/* Waves at the centres of a row, one more pixel at each end. */
typedef struct FewRow {
    double even[3][WIDE], turns[MOST_J][WIDE], cosine[MOST_J][WIDE], sine[MOST_J][WIDE];
} FewRow;

/* What the fringe has become in the mean over each pixel: real and imaginary part of z. */
typedef struct MeanRow {
    float re[MOST_J][MOST], im[MOST_J][MOST];
} MeanRow;

struct IfigFewWork {
    FewRow row[3];
    MeanRow mean;
};

size_t ifig_few_work_size(void)
{
    return sizeof(IfigFewWork);
}

/* Waves of one support along a row, and its share of A. */
IFIG_INLINE void support_row(const double *c, IfigFieldKind kind, double per_h, const double *tx,
                             double ty, size_t count, const double even[3], size_t j, FewRow *row)
{
    double f[7][N];
    size_t parts = kind == IFIG_FIELDS_REAL ? 3 : kind == IFIG_FIELDS_COMPLEX ? 5 : 7;
    for (size_t q = 0; q < parts; q++) {
        collapse(c + q * NN, ty, f[q]);
    }
    for (size_t x = 0; x < count; x++) {
        double t = tx[x];
        IfigFields fields = {horner(f[0], t), horner(f[1], t), horner(f[2], t), 0, 0, 0, 0};
        if (kind != IFIG_FIELDS_REAL) {
            fields.u_im = horner(f[3], t);
            fields.v_im = horner(f[4], t);
        }
        if (kind == IFIG_FIELDS_ABSORBING) {
            fields.h2_im = horner(f[5], t);
            fields.loss = horner(f[6], t);
        }
        IfigWave wave = ifig_wave(&fields, kind, per_h);
        row->turns[j][x] = wave.turns;
        row->cosine[j][x] = wave.cosine;
        if (kind != IFIG_FIELDS_REAL) {
            row->sine[j][x] = wave.sine;
        }
        row->even[0][x] += even[0] * wave.even;
        row->even[1][x] += even[1] * wave.even;
        row->even[2][x] += even[2] * wave.even;
    }
}

IFIG_CLONES
static void prepare_row(const IfigFigure *figure, const IfigCarrier *carrier, double tx0, double ty,
                        double side, size_t count, FewRow *row)
{
    const IfigSupports *s = carrier->supports;
    double tx[WIDE];
    for (size_t x = 0; x < count + 2; x++) {
        tx[x] = tx0 + ((double)x - 1.0) * side;
    }
    memset(row->even, 0, sizeof row->even);
    for (size_t j = 0; j < s->count; j++) {
        double wavelength = figure->samples.wavelength_nm[s->sample[j]];
        double per_h = 2.0 * figure->thickness_nm[0] / wavelength;
        const double *c = carrier->coefficient + j * figure->quantity_count * NN;
        if (figure->is_absorbing) {
            support_row(c, IFIG_FIELDS_ABSORBING, per_h, tx, ty, count + 2, s->even[j], j, row);
        } else if (figure->is_complex) {
            support_row(c, IFIG_FIELDS_COMPLEX, per_h, tx, ty, count + 2, s->even[j], j, row);
        } else {
            support_row(c, IFIG_FIELDS_REAL, per_h, tx, ty, count + 2, s->even[j], j, row);
        }
    }
}

/* S(z) and s(z); near: for |z| <= 1/4, by their Taylor sums to 4e-7. */
typedef struct Left {
    double even, odd;
} Left;

IFIG_INLINE Left left_near(double z)
{
    double y = IFIG_PI * z, y2 = y * y;
    Left left = {1.0 - y2 * (1.0 / 6.0 - y2 * (1.0 / 120.0 - y2 * (1.0 / 5040.0))),
                 y * (1.0 / 6.0 - y2 * (1.0 / 60.0 - y2 * (1.0 / 1680.0)))};
    return left;
}

IFIG_INLINE Left left_far(double z)
{
    double y = IFIG_PI * z, small = y * y < 1e-4 ? 1.0 : 0.0;
    double even = ifig_sinc_turns(z), odd = 0.5 * (even - ifig_cosine_turns(0.5 * z)) / (y + small);
    Left left = {even, small > 0.0 ? y / 6.0 : odd};
    return left;
}

/* The mean of one support's fringe over each pixel. */
IFIG_INLINE void mean_of(const FewRow *above, const FewRow *here, const FewRow *below, size_t j,
                         int has_sine, int near, size_t count, float *restrict out_re,
                         float *restrict out_im)
{
    const double *t = here->turns[j], *t_up = above->turns[j], *t_down = below->turns[j];
    const double *b = here->cosine[j], *b_up = above->cosine[j], *b_down = below->cosine[j];
    const double *c = here->sine[j], *c_up = above->sine[j], *c_down = below->sine[j];
    for (size_t x = 0; x < count; x++) {
        double zx = 0.5 * (t[x + 2] - t[x]), zy = 0.5 * (t_up[x + 1] - t_down[x + 1]);
        double bend = (t[x] + t[x + 2] + t_up[x + 1] + t_down[x + 1] - 4.0 * t[x + 1]) / 24.0;
        /* At the tip of a cone (a melatope) the mean lies 0.38 of the slope above the tip. */
        double most = 0.38 * (ifig_magnitude(zx) + ifig_magnitude(zy));
        double turns = t[x + 1] + (bend > most ? most : bend < -most ? -most : bend);
        Left lx = near ? left_near(zx) : left_far(zx), ly = near ? left_near(zy) : left_far(zy);
        double left = lx.even * ly.even, odd_x = lx.odd * ly.even, odd_y = ly.odd * lx.even;
        double bx = 0.5 * (b[x + 2] - b[x]), by = 0.5 * (b_up[x + 1] - b_down[x + 1]);
        double b_mean = (b[x] + b[x + 2] + b_up[x + 1] + b_down[x + 1] + 20.0 * b[x + 1]) / 24.0;
        double re = b_mean * left, im = bx * odd_x + by * odd_y;
        if (has_sine) {
            double cx = 0.5 * (c[x + 2] - c[x]), cy = 0.5 * (c_up[x + 1] - c_down[x + 1]);
            double c_mean =
                (c[x] + c[x + 2] + c_up[x + 1] + c_down[x + 1] + 20.0 * c[x + 1]) / 24.0;
            re += cx * odd_x + cy * odd_y;
            im -= c_mean * left;
        }
        double cosine = ifig_cosine_turns(turns), sine = ifig_sine_turns(turns);
        out_re[x] = (float)(re * cosine - im * sine);
        out_im[x] = (float)(re * sine + im * cosine);
    }
}

/* Mark pixels in which the closed form of the mean does not hold: the phase bends by a third of a
 * turn, where a fringe can still be seen; or an optic axis stands within a few pixels, so that the
 * planes of vibration turn within one. Returns 1 where the phase changes by more than 1/4. */
IFIG_INLINE int mark_bent(const FewRow *above, const FewRow *here, const FewRow *below, size_t j,
                          size_t count, unsigned char *bent)
{
    const double *t = here->turns[j], *t_up = above->turns[j], *t_down = below->turns[j];
    double most = 0;
    for (size_t x = 0; x < count; x++) {
        double zx = 0.5 * (t[x + 2] - t[x]), zy = 0.5 * (t_up[x + 1] - t_down[x + 1]);
        double bend_x = ifig_magnitude(t[x + 2] + t[x] - 2.0 * t[x + 1]);
        double bend_y = ifig_magnitude(t_up[x + 1] + t_down[x + 1] - 2.0 * t[x + 1]);
        double steep = ifig_magnitude(zx) + ifig_magnitude(zy);
        double bend = bend_x > bend_y ? bend_x : bend_y;
        int is_bent = (t[x + 1] < 60.0) & (bend > 0.3) & (steep > 0.1);
        int at_axis = (steep > 0.25 * t[x + 1]) & (t[x + 1] > 0.004);
        bent[x] |= (unsigned char)(is_bent | at_axis);
        most = steep > most ? steep : most;
    }
    return most > 0.25;
}

IFIG_CLONES
static void mean_row(const IfigFigure *figure, const IfigCarrier *carrier, const FewRow *above,
                     const FewRow *here, const FewRow *below, size_t count, MeanRow *mean,
                     unsigned char *bent)
{
    memset(bent, 0, count);
    for (size_t j = 0; j < carrier->supports->count; j++) {
        int far = mark_bent(above, here, below, j, count, bent);
        float *re = mean->re[j], *im = mean->im[j];
        if (figure->is_complex) {
            mean_of(above, here, below, j, 1, !far, count, re, im);
        } else {
            mean_of(above, here, below, j, 0, !far, count, re, im);
        }
    }
}

/* A's mean over each pixel, and the fringes by the weights of their rungs. */
static void colour_row(const IfigFigure *figure, IfigCarrier *carrier, const FewRow *above,
                       const FewRow *here, const FewRow *below, const MeanRow *mean, size_t count,
                       double (*xyz)[3])
{
    const IfigSupports *s = carrier->supports;
    const double *turns = here->turns[s->reference];
    for (size_t x = 0; x < count; x++) {
        float sum[4] = {0, 0, 0, 0};
        const IfigRung *rung = ifig_carrier_rung(figure, carrier, turns[x + 1]);
        for (size_t j = 0; j < s->count && rung != NULL; j++) {
            for (int i = 0; i < 4; i++) {
                sum[i] += (*rung)[j][0][i] * mean->re[j][x] - (*rung)[j][1][i] * mean->im[j][x];
            }
        }
        for (int i = 0; i < 3; i++) {
            const double *a = here->even[i];
            double even = (a[x] + a[x + 2] + above->even[i][x + 1] + below->even[i][x + 1] +
                           20.0 * a[x + 1]) /
                          24.0;
            xyz[x][i] = even + (double)sum[i];
        }
    }
}

void ifig_few_begin(const IfigFigure *figure, const IfigCarrier *carrier, double tx0, double ty,
                    double side, size_t count, IfigFewWork *work)
{
    prepare_row(figure, carrier, tx0, ty + side, side, count, &work->row[0]);
    prepare_row(figure, carrier, tx0, ty, side, count, &work->row[1]);
}

void ifig_few_row(const IfigFigure *figure, IfigCarrier *carrier, double tx0, double ty,
                  double side, size_t number, size_t count, IfigFewWork *work, double (*xyz)[3],
                  unsigned char *bent)
{
    FewRow *above = &work->row[number % 3], *here = &work->row[(number + 1) % 3];
    FewRow *below = &work->row[(number + 2) % 3];
    prepare_row(figure, carrier, tx0, ty - side, side, count, below);
    mean_row(figure, carrier, above, here, below, count, &work->mean, bent);
    colour_row(figure, carrier, above, here, below, &work->mean, count, xyz);
}
