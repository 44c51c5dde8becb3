/* SPDX-License-Identifier: MIT */
/* The inner loop over all samples of the lamp: from a tile's polynomials to a row of XYZ, for one
 * layer.
 *
 * The light is A + Re z at each sample, z = (B - i C) exp(i delta) (fringe_wave.h). Averaged in
 * closed form: over the pixel, across which phase and amplitude are linear,
 *   mean z = exp(i delta) [a S(zx) S(zy) + i (ax s(zx) S(zy) + ay s(zy) S(zx))],  a = B - i C,
 * with zx, zy the phase's change across in turns, ax, ay that of a, S and s as in fringe_math.h;
 * and over the spectral step, by the kernel of light.h. Next to an optic axis |w|^2 itself bends
 * within a pixel: its Laplacian / 24 is added. */
#include "fringe_row.h"
#include "fringe_stack.h"
#include "fringe_wave.h"

#include <math.h>
#include <string.h>

/* What the means leave of the fringes at one sample: S(zx) S(zy), s(zx) S(zy), s(zy) S(zx), each
 * times the kernel. */
typedef struct LeftRow {
    double even[MOST], odd_x[MOST], odd_y[MOST];
} LeftRow;

/* Over the pixel. */
IFIG_INLINE void left_of_pixel(int averaged, int sloped, size_t count, IfigPhaseRow here,
                               LeftRow *restrict left)
{
    for (size_t x = 0; x < count && !averaged; x++) {
        left->even[x] = 1.0;
    }
    for (size_t x = 0; x < count && averaged; x++) {
        double zx = here.across[x], zy = here.up[x];
        double even_x = ifig_sinc_turns(zx), even_y = ifig_sinc_turns(zy);
        left->even[x] = even_x * even_y;
        if (sloped) {
            left->odd_x[x] = ifig_odd_sinc_turns(zx, even_x) * even_y;
            left->odd_y[x] = ifig_odd_sinc_turns(zy, even_y) * even_x;
        }
    }
}

/* And over the spectral step. */
IFIG_INLINE void fringe_left(const IfigFigure *figure, double *workspace, int averaged, int sloped,
                             size_t count, size_t k, LeftRow *restrict left)
{
    size_t last = figure->samples.count - 1;
    size_t before = k > 0 ? k - 1 : k, behind = k < last ? k + 1 : k;
    left_of_pixel(averaged, sloped, count, ifig_phase_row(figure, workspace, 0, k), left);
    if (figure->samples.kernel == IFIG_KERNEL_NONE) {
        return;
    }
    const double *first = ifig_phase_row(figure, workspace, 0, before).turns;
    const double *second = ifig_phase_row(figure, workspace, 0, behind).turns;
    double share = 1.0 / (double)(behind - before), largest = 0;
    for (size_t x = 0; x < count; x++) {
        double step = ifig_magnitude(second[x] - first[x]) * share;
        largest = step > largest ? step : largest;
    }
    if (largest > IFIG_STILL_SPECTRUM) {
        for (size_t x = 0; x < count; x++) {
            double turns = (second[x] - first[x]) * share;
            double kernel = ifig_spline_of_sinc(ifig_sinc_turns(turns), turns);
            left->even[x] *= kernel;
            if (sloped) {
                left->odd_x[x] *= kernel;
                left->odd_y[x] *= kernel;
            }
        }
    }
}

/* A smooth quantity along the row, and its derivatives for steps of one sample's side. */
typedef struct FieldRow {
    double value[N], x[N], y[N], laplacian[N];
} FieldRow;

IFIG_INLINE void read_field(const double *c, double ty, double side, int sloped, FieldRow *f)
{
    double bend_x[N], bend_y[N];
    collapse(c, ty, f->value);
    if (!sloped) {
        return;
    }
    differentiate(f->value, f->x, bend_x);
    collapse_slopes(c, ty, f->y, bend_y);
    for (size_t i = 0; i < N; i++) {
        f->x[i] *= side;
        f->y[i] *= side;
        f->laplacian[i] = (bend_x[i] + bend_y[i]) * side * side;
    }
}

/* The Laplacian of v^2 / h^2 over 24, from those of v and h^2: what the mean over a sample adds. */
IFIG_INLINE double envelope_lift(const FieldRow *v, const FieldRow *h2, double t, double v_here,
                                 double h2_here)
{
    double vx = horner(v->x, t), vy = horner(v->y, t), v_bend = horner(v->laplacian, t);
    double hx = horner(h2->x, t), hy = horner(h2->y, t), h_bend = horner(h2->laplacian, t);
    double square = v_here * v_here, inverse = 1.0 / h2_here;
    double bend = 2.0 * (vx * vx + vy * vy) + 2.0 * v_here * v_bend;
    double mixed = 2.0 * v_here * (vx * hx + vy * hy);
    double steep = (hx * hx + hy * hy) * inverse;
    return inverse * (bend - inverse * (2.0 * mixed + square * h_bend - 2.0 * square * steep)) /
           24.0;
}

/* Where the lift is more than this the sample is bent and taken apart anyway. */
static const double MOST_LIFT = 0.02;

/* Add the lift of |w|^2 to light, from one part (real or imaginary) of v. */
IFIG_INLINE void add_lift(const FieldRow *v, const FieldRow *h2, const double *tx, size_t count,
                          const double *h2_here, double *restrict lift)
{
    for (size_t x = 0; x < count; x++) {
        double add = envelope_lift(v, h2, tx[x], horner(v->value, tx[x]), h2_here[x]);
        lift[x] += add > MOST_LIFT ? MOST_LIFT : add < -MOST_LIFT ? -MOST_LIFT : add;
    }
}

/* All quantities at t, or their changes across a sample along x or up. */
typedef enum Part { VALUE, ALONG_X, ALONG_Y } Part;

IFIG_INLINE double field_at(const FieldRow *f, Part part, double t)
{
    return horner(part == VALUE ? f->value : part == ALONG_X ? f->x : f->y, t);
}

IFIG_INLINE IfigFields fields_at(const FieldRow *f, IfigFieldKind kind, Part part, double t)
{
    IfigFields fields = {.h2 = field_at(&f[0], part, t),
                         .u_re = field_at(&f[1], part, t),
                         .v_re = field_at(&f[2], part, t)};
    if (kind != IFIG_FIELDS_REAL) {
        fields.u_im = field_at(&f[3], part, t);
        fields.v_im = field_at(&f[4], part, t);
    }
    if (kind == IFIG_FIELDS_ABSORBING) {
        fields.h2_im = field_at(&f[5], part, t);
        fields.loss = field_at(&f[6], part, t);
    }
    return fields;
}

IFIG_INLINE IfigWave moved_wave(const IfigFields *f, const IfigFields *change, double share,
                                double per_h)
{
    IfigFields moved = {f->h2 + share * change->h2,     f->u_re + share * change->u_re,
                        f->v_re + share * change->v_re, f->u_im + share * change->u_im,
                        f->v_im + share * change->v_im, f->h2_im + share * change->h2_im,
                        f->loss + share * change->loss};
    return ifig_wave(&moved, IFIG_FIELDS_ABSORBING, per_h);
}

/* How B and C change across a sample. */
typedef struct WaveChange {
    double cosine, sine;
} WaveChange;

IFIG_INLINE WaveChange absorbing_change(const IfigFields *f, const IfigFields *change, double per_h)
{
    IfigWave first = moved_wave(f, change, -0.5, per_h);
    IfigWave second = moved_wave(f, change, 0.5, per_h);
    return (WaveChange){second.cosine - first.cosine, second.sine - first.sine};
}

/* Change of h^2, relative to it, from where on an optic axis is so near that no slope tells how
 * |w|^2 changes; samples about it are fine enough to do without. */
static const double MOST_STEEP = 0.5;

/* The derivatives of ifig_wave_lossless, with 1 / h^2 and 1 / h. */
IFIG_INLINE WaveChange lossless_change(const IfigFields *f, const IfigFields *change,
                                       int is_complex, double by_h2, double by_h)
{
    double bend = 0.5 * change->h2 * by_h2, v2 = f->v_re * f->v_re;
    double u = f->u_re * change->u_re, v = f->v_re * change->v_re, sine = 0.0;
    if (is_complex) {
        v2 += f->v_im * f->v_im;
        u += f->u_im * change->u_im;
        v += f->v_im * change->v_im;
        double product = f->u_im * f->v_re - f->u_re * f->v_im;
        double slope = change->u_im * f->v_re + f->u_im * change->v_re - change->u_re * f->v_im -
                       f->u_re * change->v_im;
        sine = (slope - product * bend) * by_h;
    }
    double share = ifig_magnitude(bend) < 0.5 * MOST_STEEP ? 1.0 : 0.0;
    return (WaveChange){share * (u - (v - v2 * bend) * by_h2), share * sine};
}

IFIG_INLINE WaveChange wave_change(const FieldRow *f, const IfigFields *here, IfigFieldKind kind,
                                   double t, double per_h, Part part)
{
    IfigFields change = fields_at(f, kind, part, t);
    double by_h2 = 1.0 / here->h2;
    return kind == IFIG_FIELDS_ABSORBING
               ? absorbing_change(here, &change, per_h)
               : lossless_change(here, &change, kind == IFIG_FIELDS_COMPLEX, by_h2, sqrt(by_h2));
}

/* What the row's inner loop needs of one spectral sample. */
typedef struct SampleRow {
    const FieldRow *field;
    const double *tx;
    size_t count;
    double per_h;
    IfigPhaseRow phase;
    const LeftRow *left;
    const double *lift; /* what is added to |w|^2 */
} SampleRow;

/* Light at one spectral sample. Returns the most that amplitude and phase change together. */
IFIG_INLINE double row_light(const SampleRow *s, IfigFieldKind kind, int sloped,
                             double *restrict light)
{
    double most = 0.0;
    for (size_t x = 0; x < s->count; x++) {
        double t = s->tx[x];
        IfigFields here = fields_at(s->field, kind, VALUE, t);
        here.h2 = s->phase.h2[x];
        IfigWave wave = ifig_wave(&here, kind, s->per_h);
        double turns = s->phase.turns[x];
        if (kind == IFIG_FIELDS_ABSORBING) {
            turns *= wave.turns / (s->per_h * sqrt(here.h2));
        }
        double cosine = ifig_cosine_turns(turns);
        double sine = kind != IFIG_FIELDS_REAL || sloped ? ifig_sine_turns(turns) : 0.0;
        double fringe = s->left->even[x] * cosine, half_lift = 0.5 * s->lift[x];
        light[x] = wave.even + half_lift + (wave.cosine - half_lift) * fringe;
        if (kind != IFIG_FIELDS_REAL) {
            light[x] += wave.sine * (s->left->even[x] * sine);
        }
        if (sloped) {
            WaveChange a = wave_change(s->field, &here, kind, t, s->per_h, ALONG_X);
            WaveChange b = wave_change(s->field, &here, kind, t, s->per_h, ALONG_Y);
            double odd_x = s->left->odd_x[x], odd_y = s->left->odd_y[x];
            light[x] += odd_x * (a.sine * cosine - a.cosine * sine) +
                        odd_y * (b.sine * cosine - b.cosine * sine);
            double size =
                (ifig_magnitude(a.sine) + ifig_magnitude(a.cosine)) * ifig_magnitude(odd_x) +
                (ifig_magnitude(b.sine) + ifig_magnitude(b.cosine)) * ifig_magnitude(odd_y);
            most = size > most ? size : most;
        }
    }
    return most;
}

/* The same for what the figure is made of. */
IFIG_INLINE double sample_light(const IfigFigure *figure, const SampleRow *s, int sloped,
                                double *restrict light)
{
    if (figure->is_absorbing) {
        return sloped ? row_light(s, IFIG_FIELDS_ABSORBING, 1, light)
                      : row_light(s, IFIG_FIELDS_ABSORBING, 0, light);
    }
    if (figure->is_complex) {
        return sloped ? row_light(s, IFIG_FIELDS_COMPLEX, 1, light)
                      : row_light(s, IFIG_FIELDS_COMPLEX, 0, light);
    }
    return sloped ? row_light(s, IFIG_FIELDS_REAL, 1, light)
                  : row_light(s, IFIG_FIELDS_REAL, 0, light);
}

IFIG_INLINE void read_fields(const IfigFigure *figure, const double *c, double ty, double side,
                             int sloped, FieldRow field[7])
{
    size_t quantities = figure->is_absorbing ? 7 : figure->is_complex ? 5 : 3;
    for (size_t q = 0; q < quantities; q++) {
        read_field(c + q * NN, ty, side, sloped, &field[q]);
    }
}

IFIG_CLONES
static void one_layer(const IfigFigure *figure, const IfigTile *tile, const double *tx, double ty,
                      double side, size_t count, double *workspace, double (*restrict sum)[MOST],
                      unsigned char *bent)
{
    int flags = ifig_layer_phases(figure, tile, 0, tx, ty, side, count, workspace, bent);
    int averaged = flags & IFIG_ROW_AVERAGED, envelope = flags & IFIG_ROW_ENVELOPE, steep = 0;
    double lift[MOST] = {0}, light[MOST];
    LeftRow left;
    for (size_t k = 0; k < figure->samples.count; k++) {
        const double *c = tile->coefficient + k * figure->quantity_count * NN;
        const double *weight = figure->samples.weight[k];
        FieldRow field[7];
        int ask = averaged && k % IFIG_ASK_SLOPES == 0, sloped = ask || (averaged && steep);
        SampleRow s = {field,
                       tx,
                       count,
                       2.0 * figure->thickness_nm[0] / figure->samples.wavelength_nm[k],
                       ifig_phase_row(figure, workspace, 0, k),
                       &left,
                       lift};
        fringe_left(figure, workspace, averaged, sloped, count, k, &left);
        read_fields(figure, c, ty, side, sloped || envelope, field);
        if (envelope) {
            memset(lift, 0, sizeof lift);
            for (size_t q = 2; q < (figure->is_complex ? 5 : 3); q += 2) {
                add_lift(&field[q], &field[0], tx, count, s.phase.h2, lift);
            }
        }
        double together = sample_light(figure, &s, sloped, light);
        steep = ask ? together > IFIG_STILL_SLOPES : steep;
        for (size_t x = 0; x < count; x++) {
            sum[0][x] += weight[0] * light[x];
            sum[1][x] += weight[1] * light[x];
            sum[2][x] += weight[2] * light[x];
        }
    }
}

void ifig_fringe_row(const IfigFigure *figure, const IfigTile *tile, double tx0, double ty,
                     double side, size_t count, double *workspace, IfigRowPlace to,
                     unsigned char *bent)
{
    double tx[MOST], sum[3][MOST] = {{0}};
    for (size_t x = 0; x < count; x++) {
        tx[x] = tx0 + (double)x * side;
    }
    if (bent != NULL) {
        memset(bent, 0, count);
    }
    if (figure->layer_count == 1) {
        one_layer(figure, tile, tx, ty, side, count, workspace, sum, bent);
    } else {
        ifig_fringe_stack_row(figure, tile, tx, ty, side, count, workspace, sum, bent);
    }
    for (size_t i = 0; i < 3; i++) {
        for (size_t x = 0; x < count; x++) {
            to.row->xyz[i][to.column + x] = (float)sum[i][x];
        }
    }
}
