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
 * differences between neighbours, which cost no polynomial; those of the phase are taken at the
 * reference support, and are slope_j times as large at support j (carrier.h), where the square's
 * test allows. */
#include "carrier.h"
#include "fringe_row.h"
#include "fringe_wave.h"

#include <string.h>

enum { WIDE = MOST + 2, MOST_J = IFIG_SUPPORTS_MAX };

/* Waves at the centres of a row, one more pixel at each end. Phases need double precision, where a
 * large number of turns is formed; after that no digit beyond a float's is seen. */
typedef struct FewRow {
    double turns[MOST_J][WIDE];
    float even[3][WIDE], cosine[MOST_J][WIDE], sine[MOST_J][WIDE];
} FewRow;

/* Of the reference support: change of the phase across each pixel along x and y, what its mean lies
 * above the centre, where on the ladder it stands; and S(zx) S(zy) = 1 - square + fourth - sixth.
 */
typedef struct Change {
    float x[MOST], y[MOST], lift[MOST], square[MOST], fourth[MOST], sixth[MOST];
    int32_t place[MOST], bent[MOST];
    double rung[MOST]; /* turns of the rung */
} Change;

/* Means over each pixel: the real and imaginary part of z, and A. */
typedef struct MeanRow {
    float re[MOST_J][MOST], im[MOST_J][MOST], even[3][MOST];
} MeanRow;

struct IfigFewWork {
    double tx0, side; /* of the strip's first pixel centre; of a pixel */
    size_t count;
    FewRow row[3];
    Change change;
    MeanRow mean;
};

/* A row and its neighbours. */
typedef struct Rows {
    const FewRow *above, *here, *below;
} Rows;

/* X, Y, Z, (unused). */
typedef float Colour __attribute__((vector_size(16)));

size_t ifig_few_work_size(void)
{
    return sizeof(IfigFewWork);
}

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
                              double ty, size_t count, size_t j, FewRow *restrict row,
                              float *restrict even)
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
        row->turns[j][x] = per_h * h2 * inverse;
        if (is_complex) {
            float u_im = horner_float(u_im_row, (float)t);
            float w_im = (float)(horner(v_im_row, t) * inverse);
            u2 += u_im * u_im;
            w2 += w_im * w_im;
            row->sine[j][x] = u_im * w - u * w_im;
        }
        w2 = w2 < 1.0F ? w2 : 1.0F;
        even[x] = 0.5F * (u2 + w2);
        row->cosine[j][x] = 0.5F * (u2 - w2);
    }
}

IFIG_INLINE void absorbing_row(const double *c, double per_h, const double *tx, double ty,
                               size_t count, size_t j, FewRow *restrict row, float *restrict even)
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
        row->turns[j][x] = wave.turns;
        row->cosine[j][x] = (float)wave.cosine;
        row->sine[j][x] = (float)wave.sine;
        even[x] = (float)wave.even;
    }
}

IFIG_CLONES
static void prepare_row(const IfigFigure *figure, const IfigCarrier *carrier, double tx0, double ty,
                        double side, size_t count, FewRow *row)
{
    const IfigSupports *s = carrier->supports;
    size_t wide = count + 2;
    double tx[WIDE];
    for (size_t x = 0; x < wide; x++) {
        tx[x] = tx0 + ((double)x - 1.0) * side;
    }
    memset(row->even, 0, sizeof row->even);
    for (size_t j = 0; j < s->count; j++) {
        double wavelength = figure->samples.wavelength_nm[s->sample[j]];
        double per_h = 2.0 * figure->thickness_nm[0] / wavelength;
        const double *c = carrier->coefficient + j * figure->quantity_count * NN;
        float even[WIDE];
        if (figure->is_absorbing) {
            absorbing_row(c, per_h, tx, ty, wide, j, row, even);
        } else if (figure->is_complex) {
            lossless_row(c, 1, per_h, tx, ty, wide, j, row, even);
        } else {
            lossless_row(c, 0, per_h, tx, ty, wide, j, row, even);
        }
        for (size_t i = 0; i < 3; i++) {
            float weight = (float)s->even[j][i];
            for (size_t x = 0; x < wide; x++) {
                row->even[i][x] += weight * even[x];
            }
        }
    }
}

/* S(zx) S(zy), s(zx) S(zy) and s(zy) S(zx). */
typedef struct Left {
    float even, odd_x, odd_y;
} Left;

/* For changes up to a quarter of a turn, slope times those in change: Taylor sums, to 1e-6. The odd
 * ones, which weigh what little B and C change within a pixel, to a twentieth of themselves. */
IFIG_INLINE Left left_near(const Change *change, size_t x, float slope)
{
    float g = slope * slope;
    float even = 1.0F - g * (change->square[x] - g * (change->fourth[x] - g * change->sixth[x]));
    float odd = (float)(IFIG_PI / 6.0) * slope * even;
    return (Left){even, odd * change->x[x], odd * change->y[x]};
}

IFIG_INLINE Left left_far(const Change *change, size_t x, float slope)
{
    float odd_x, odd_y;
    float even_x = ifig_sincs_part(slope * change->x[x], &odd_x);
    float even_y = ifig_sincs_part(slope * change->y[x], &odd_y);
    return (Left){even_x * even_y, odd_x * even_y, odd_y * even_x};
}

/* The parts of S(zx) S(zy) = (1 - x/6 + x^2/120 - x^3/5040) (the same in y), x = (pi zx)^2. */
IFIG_INLINE void taylor_parts(size_t count, Change *restrict change)
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

/* The reference support's phase from pixel to pixel. Marks pixels in which the closed form of the
 * mean does not hold: the phase bends by a third of a turn, where a fringe can still be seen; or an
 * optic axis stands within a few pixels, so that the planes of vibration turn within one. Returns 1
 * where some change is larger than `near`. */
IFIG_INLINE int phase_changes(const FewRow *above, const FewRow *here, const FewRow *below,
                              size_t j, size_t count, float near, Change *restrict change)
{
    const double *t = here->turns[j], *t_up = above->turns[j], *t_down = below->turns[j];
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
        change->bent[x] |= is_bent | at_axis;
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

/* Of a support: number, and its carrier: what its phase is at a rung. */
typedef struct Support {
    size_t j;
    double offset, slope;
} Support;

/* The mean of one support's fringe over each pixel, less its carrier's phase. slope: of its phase
 * against that whose changes are given. */
IFIG_INLINE void fringe_mean(const Rows *rows, Support support, int has_sine, int near, float slope,
                             size_t count, const Change *restrict change, float *restrict out_re,
                             float *restrict out_im)
{
    size_t j = support.j;
    const FewRow *above = rows->above, *here = rows->here, *below = rows->below;
    const double *t = here->turns[j];
    const float *b = here->cosine[j], *b_up = above->cosine[j], *b_down = below->cosine[j];
    const float *c = here->sine[j], *c_up = above->sine[j], *c_down = below->sine[j];
    for (size_t x = 0; x < count; x++) {
        Left left = near ? left_near(change, x, slope) : left_far(change, x, slope);
        float bx = 0.5F * (b[x + 2] - b[x]), by = 0.5F * (b_up[x + 1] - b_down[x + 1]);
        float re = mean_of_five(b_up, b, b_down, x) * left.even,
              im = bx * left.odd_x + by * left.odd_y;
        if (has_sine) {
            float cx = 0.5F * (c[x + 2] - c[x]), cy = 0.5F * (c_up[x + 1] - c_down[x + 1]);
            re += cx * left.odd_x + cy * left.odd_y;
            im -= mean_of_five(c_up, c, c_down, x) * left.even;
        }
        double rung = change->rung[x];
        double carried = rung > 0.0 ? support.offset + support.slope * rung : 0.0;
        double turns = t[x + 1] - carried + (double)(slope * change->lift[x]);
        float part = (float)(turns - ifig_nearest(turns));
        float cosine = ifig_cosine_part(part), sine = ifig_sine_part(part);
        out_re[x] = re * cosine - im * sine;
        out_im[x] = re * sine + im * cosine;
    }
}

/* What the spectral kernel leaves of a sample's fringe: a rung has it in its weights. */
IFIG_INLINE void leave_of_spectrum(const FewRow *here, size_t j, size_t supports, size_t count,
                                   float *restrict re, float *restrict im)
{
    size_t last = supports - 1, before = j > 0 ? j - 1 : j, after = j < last ? j + 1 : j;
    double part = after - before == 2 ? 0.5 : 1.0;
    const double *t_before = here->turns[before], *t_after = here->turns[after];
    for (size_t x = 0; x < count; x++) {
        float left = ifig_spline_part((float)(part * (t_after[x + 1] - t_before[x + 1])));
        re[x] *= left;
        im[x] *= left;
    }
}

/* Places on the ladder, and A; 1 where some fringe of the row can be seen. */
IFIG_INLINE int row_places(const IfigCarrier *carrier, const FewRow *above, const FewRow *here,
                           const FewRow *below, size_t count, IfigFewWork *restrict work)
{
    const double *turns = here->turns[carrier->supports->reference];
    double least = carrier->least_turns;
    int32_t seen = 0;
    for (size_t x = 0; x < count; x++) {
        int32_t place = ifig_ladder_place(&carrier->ladder, least, turns[x + 1]);
        work->change.place[x] = place;
        work->change.rung[x] = ifig_ladder_turns(&carrier->ladder, place);
        work->change.bent[x] = 0;
        seen |= place < carrier->ladder.count;
    }
    for (size_t i = 0; i < 3; i++) {
        float *restrict even = work->mean.even[i];
        for (size_t x = 0; x < count; x++) {
            even[x] = mean_of_five(above->even[i], here->even[i], below->even[i], x);
        }
    }
    return seen;
}

IFIG_CLONES
static void mean_row(const IfigFigure *figure, const IfigCarrier *carrier, const FewRow *above,
                     const FewRow *here, const FewRow *below, size_t count, IfigFewWork *work)
{
    const Rows rows = {above, here, below};
    const IfigSupports *s = carrier->supports;
    Change *change = &work->change;
    int seen = row_places(carrier, above, here, below, count, work);
    float near = 0.25F / (float)carrier->largest_slope;
    int far = phase_changes(above, here, below, s->reference, count, near, change);
    for (size_t j = 0; j < s->count && seen; j++) {
        float *re = work->mean.re[j], *im = work->mean.im[j];
        size_t k = s->sample[j];
        Support support = {j, carrier->line.offset[k], carrier->line.slope[k]};
        float slope = (float)support.slope;
        if (carrier->own_changes) {
            far = phase_changes(above, here, below, j, count, 0.25F, change);
            slope = 1.0F;
        }
        if (figure->is_complex && !far) {
            fringe_mean(&rows, support, 1, 1, slope, count, change, re, im);
        } else if (figure->is_complex) {
            fringe_mean(&rows, support, 1, 0, slope, count, change, re, im);
        } else if (!far) {
            fringe_mean(&rows, support, 0, 1, slope, count, change, re, im);
        } else {
            fringe_mean(&rows, support, 0, 0, slope, count, change, re, im);
        }
        if (s->weight == NULL) {
            leave_of_spectrum(here, j, s->count, count, re, im);
        }
    }
}

/* A, and the fringes by the weights of their rungs. */
static void colour_row(const IfigFigure *figure, IfigCarrier *carrier, const IfigFewWork *work,
                       size_t count, IfigRowPlace to)
{
    size_t supports = carrier->supports->count;
    const MeanRow *mean = &work->mean;
    for (size_t x = 0; x < count; x++) {
        Colour sum = {mean->even[0][x], mean->even[1][x], mean->even[2][x], 0.0F};
        int32_t place = work->change.place[x];
        if (place < carrier->ladder.count) {
            const IfigRung *rung = ifig_carrier_rung(figure, carrier, place);
            for (size_t j = 0; j < supports; j++) {
                Colour re, im;
                memcpy(&re, rung[j][0], sizeof re);
                memcpy(&im, rung[j][1], sizeof im);
                sum += re * mean->re[j][x] - im * mean->im[j][x];
            }
        }
        for (int i = 0; i < 3; i++) {
            to.row->xyz[i][to.column + x] = sum[i];
        }
    }
}

void ifig_few_begin(const IfigFigure *figure, const IfigCarrier *carrier, double tx0, double ty,
                    double side, size_t count, IfigFewWork *work)
{
    work->tx0 = tx0;
    work->side = side;
    work->count = count;
    prepare_row(figure, carrier, tx0, ty + side, side, count, &work->row[0]);
    prepare_row(figure, carrier, tx0, ty, side, count, &work->row[1]);
}

void ifig_few_row(const IfigFigure *figure, IfigCarrier *carrier, double ty, size_t number,
                  IfigFewWork *work, IfigRowPlace to, unsigned char *bent)
{
    FewRow *above = &work->row[number % 3], *here = &work->row[(number + 1) % 3];
    FewRow *below = &work->row[(number + 2) % 3];
    size_t count = work->count;
    prepare_row(figure, carrier, work->tx0, ty - work->side, work->side, count, below);
    mean_row(figure, carrier, above, here, below, count, work);
    colour_row(figure, carrier, work, count, to);
    for (size_t x = 0; x < count; x++) {
        bent[x] = work->change.bent[x] != 0;
    }
}
