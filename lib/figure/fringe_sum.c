/* SPDX-License-Identifier: MIT */
/* The inner loop: from a tile's polynomials to a row of XYZ, for one layer.
 *
 * With w = v / h and delta = 2 k0 d h,
 *   I = (|u|^2 + |w|^2)/2 + D (|u|^2 - |w|^2)/2 cos delta - D Im(conj(u) w) sin delta.
 * D is what is left of the fringe after averaging in closed form: over the pixel, sinc x sinc of
 * the phase's change across; over the spectral step, the kernel of light.h. Next to an optic axis
 * |w|^2 itself bends within a pixel: its Laplacian / 24 is added. */
#include "fringe_row.h"
#include "fringe_stack.h"

#include <math.h>
#include <string.h>

/* What is left of each fringe at sample k: over the pixel, then over the spectral step. */
IFIG_INLINE void fringe_left(const IfigFigure *figure, double *workspace, int averaged,
                             size_t count, size_t k, double *restrict left)
{
    size_t last = figure->samples.count - 1;
    size_t before = k > 0 ? k - 1 : k, behind = k < last ? k + 1 : k;
    IfigPhaseRow here = ifig_phase_row(figure, workspace, 0, k);
    for (size_t x = 0; x < count; x++) {
        left[x] = averaged ? ifig_sinc_turns(here.across[x]) * ifig_sinc_turns(here.up[x]) : 1.0;
    }
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
            left[x] *= ifig_spline_of_sinc(ifig_sinc_turns(turns), turns);
        }
    }
}

/* The rows of u or v: along the row, and its derivatives for steps of one sample's side. */
typedef struct FieldRow {
    double value[N], x[N], y[N], laplacian[N];
} FieldRow;

static void field_slopes(const double *c, double ty, double side, FieldRow *f)
{
    double bend_x[N], bend_y[N];
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

/* |w|^2 is the light at half a wave of retardation and cannot exceed 1. Where an optic axis of one
 * wavelength falls into a pixel, the polynomials' last digits could make it more. */
IFIG_INLINE double at_most_one(double value)
{
    return value < 1.0 ? value : 1.0;
}

/* Light of one layer at one spectral sample, real fields. lift: what is added to |w|^2. */
IFIG_INLINE void light_real(const double u_row[N], const double v_row[N], const double *tx,
                            size_t count, IfigPhaseRow row, const double *left, const double *lift,
                            double *restrict light)
{
    for (size_t x = 0; x < count; x++) {
        double u = horner(u_row, tx[x]), v = horner(v_row, tx[x]);
        double fringe = left[x] * ifig_cosine_turns(row.turns[x]);
        double w2 = at_most_one(v * v / row.h2[x]) + lift[x];
        light[x] = 0.5 * (u * u * (1.0 + fringe) + w2 * (1.0 - fringe));
    }
}

/* The same for complex fields (optically active stones, circular polars): u, v real, then
 * imaginary.
 */
IFIG_INLINE void light_complex(FieldRow f[4], const double *tx, size_t count, IfigPhaseRow row,
                               const double *left, const double *lift, double *restrict light)
{
    for (size_t x = 0; x < count; x++) {
        double ur = horner(f[0].value, tx[x]), vr = horner(f[1].value, tx[x]);
        double ui = horner(f[2].value, tx[x]), vi = horner(f[3].value, tx[x]);
        double fringe = left[x] * ifig_cosine_turns(row.turns[x]);
        double cross =
            left[x] * ifig_sine_turns(row.turns[x]) * (ur * vi - ui * vr) / sqrt(row.h2[x]);
        double w2 = at_most_one((vr * vr + vi * vi) / row.h2[x]) + lift[x];
        light[x] = 0.5 * ((ur * ur + ui * ui) * (1.0 + fringe) + w2 * (1.0 - fringe)) - cross;
    }
}

/* The same for a layer that absorbs. h = sqrt(h^2) is complex, the modes fade by their own losses
 * and the fringe by the mean of both. With E1, E2 what is left of the modes, E1 = exp(-2 k0 d
 * Im(s/2 - h)) that of the one that absorbs less if Im h > 0, and E = (E1 + E2)/2, M = (E1
 * E2)^(1/2),
 *
 *   I = E (|u|^2 + |w|^2)/2 + M D (|u|^2 - |w|^2)/2 cos delta
 *       - M D Im(conj(u) w) sin delta - Re(conj(u) w) (E1 - E2)/2
 *
 * f: u, v real and imaginary as above, then the imaginary parts of h^2 and of s/2. */
IFIG_INLINE void light_absorbing(FieldRow f[6], const double *tx, size_t count, double depth,
                                 IfigPhaseRow row, const double *left, const double *lift,
                                 double *restrict light)
{
    for (size_t x = 0; x < count; x++) {
        double ur = horner(f[0].value, tx[x]), vr = horner(f[1].value, tx[x]);
        double ui = horner(f[2].value, tx[x]), vi = horner(f[3].value, tx[x]);
        double h2i = horner(f[4].value, tx[x]), loss = horner(f[5].value, tx[x]);
        double size = sqrt(row.h2[x] * row.h2[x] + h2i * h2i);
        double hr = sqrt(0.5 * (size + row.h2[x])), hi = 0.5 * h2i / hr;
        double turns = row.turns[x] * (hr / sqrt(row.h2[x]));
        double less = 2.0 * depth * (loss - hi), more = 2.0 * depth * (loss + hi);
        double e1 = ifig_exponential_decay(less > 0.0 ? less : 0.0);
        double e2 = ifig_exponential_decay(more > 0.0 ? more : 0.0);
        double mean = 0.5 * (e1 + e2), fringe = left[x] * sqrt(e1 * e2);
        double w2 = at_most_one((vr * vr + vi * vi) / size) + lift[x], u2 = ur * ur + ui * ui;
        /* conj(u) w = conj(u) v conj(h) / |h|^2 */
        double pr = ur * vr + ui * vi, pi = ur * vi - ui * vr;
        double cross_re = (pr * hr + pi * hi) / size, cross_im = (pi * hr - pr * hi) / size;
        light[x] = 0.5 * (u2 + w2) * mean +
                   fringe * (0.5 * (u2 - w2) * ifig_cosine_turns(turns) -
                             cross_im * ifig_sine_turns(turns)) -
                   cross_re * 0.5 * (e1 - e2);
    }
}

IFIG_CLONES
static void one_layer(const IfigFigure *figure, const IfigTile *tile, const double *tx, double ty,
                      double side, size_t count, double *workspace, double (*restrict sum)[MOST],
                      unsigned char *bent)
{
    int flags = ifig_layer_phases(figure, tile, 0, tx, ty, side, count, workspace, bent);
    size_t parts = figure->is_complex ? 4 : 2;
    double left[MOST], lift[MOST] = {0}, light[MOST];
    for (size_t k = 0; k < figure->samples.count; k++) {
        const double *c = tile->coefficient + k * figure->quantity_count * NN;
        const double *weight = figure->samples.weight[k];
        IfigPhaseRow row = ifig_phase_row(figure, workspace, 0, k);
        FieldRow field[6], h2;
        fringe_left(figure, workspace, flags & IFIG_ROW_AVERAGED, count, k, left);
        for (size_t q = 0; q < parts; q++) {
            collapse(c + (1 + q) * NN, ty, field[q].value);
        }
        if (flags & IFIG_ROW_ENVELOPE) {
            memset(lift, 0, sizeof lift);
            collapse(c, ty, h2.value);
            field_slopes(c, ty, side, &h2);
            for (size_t q = 1; q < parts; q += 2) {
                field_slopes(c + (1 + q) * NN, ty, side, &field[q]);
                add_lift(&field[q], &h2, tx, count, row.h2, lift);
            }
        }
        if (figure->is_absorbing) {
            double depth =
                2.0 * IFIG_PI * figure->thickness_nm[0] / figure->samples.wavelength_nm[k];
            collapse(c + 5 * NN, ty, field[4].value);
            collapse(c + 6 * NN, ty, field[5].value);
            light_absorbing(field, tx, count, depth, row, left, lift, light);
        } else if (parts == 2) {
            light_real(field[0].value, field[1].value, tx, count, row, left, lift, light);
        } else {
            light_complex(field, tx, count, row, left, lift, light);
        }
        for (size_t x = 0; x < count; x++) {
            sum[0][x] += weight[0] * light[x];
            sum[1][x] += weight[1] * light[x];
            sum[2][x] += weight[2] * light[x];
        }
    }
}

void ifig_fringe_row(const IfigFigure *figure, const IfigTile *tile, double tx0, double ty,
                     double side, size_t count, double *workspace, double (*xyz)[3],
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
    for (size_t x = 0; x < count; x++) {
        for (int i = 0; i < 3; i++) {
            xyz[x][i] = sum[i][x];
        }
    }
}
