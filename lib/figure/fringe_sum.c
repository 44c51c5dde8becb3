/* SPDX-License-Identifier: MIT */
/* The inner loop: from a tile's polynomials to a row of XYZ.
 *
 * For one layer, with w = v / h and delta = 2 k0 d h,
 *   I = (|u|^2 + |w|^2)/2 + D (|u|^2 - |w|^2)/2 cos delta - D Im(conj(u) w) sin delta.
 * D is what is left of the fringe after averaging, in closed form where the phase is linear: over the
 * pixel, sinc x sinc of its change across; over the spectral step, the kernel of light.h. The mean
 * phase over a pixel differs from the phase at its centre by its Laplacian / 24, which is added.
 *
 * All loops run over the samples of the row, so that each lane of a vector is one sample and the
 * order of every sum is the same on every machine. */
#include "figure.h"

#include "fringe_math.h"
#include "fringe_stack.h"

#include <math.h>
#include <string.h>

enum { N = IFIG_TILE_NODES, NN = N * N, MOST = IFIG_TILE_MAX };

/* Below these changes of phase, in turns, averaging takes less than half a level off any pixel. */
static const double STILL_PIXEL = 0.01, STILL_SPECTRUM = 0.006;

/* What the first pass leaves for the second; each array is samples.count x MOST. */
typedef struct FringeRow {
    double *turns;   /* delta / 2 pi at the pixel's mean */
    double *h2;      /* h^2, not below 1e-20 */
    double *left;    /* what is left after the mean over the pixel */
} FringeRow;

static const double LEAST_H2 = 1e-20;

size_t ifig_fringe_workspace_size(const IfigFigure *figure)
{
    return 3 * figure->samples.count * MOST * figure->layer_count;
}

/* Coefficients along the row of a polynomial, and of its derivatives along y. */
IFIG_INLINE void collapse(const double *c, double ty, double row[N])
{
    for (size_t i = 0; i < N; i++) {
        row[i] = c[(N - 1) * N + i];
    }
    for (size_t j = N - 1; j-- > 0;) {
        for (size_t i = 0; i < N; i++) {
            row[i] = row[i] * ty + c[j * N + i];
        }
    }
}

IFIG_INLINE void collapse_slopes(const double *c, double ty, double slope[N], double bend[N])
{
    for (size_t i = 0; i < N; i++) {
        slope[i] = 0;
        bend[i] = 0;
    }
    for (size_t j = N; j-- > 1;) {
        double first = (double)j, second = (double)(j * (j - 1));
        for (size_t i = 0; i < N; i++) {
            slope[i] = slope[i] * ty + first * c[j * N + i];
            if (j > 1) {
                bend[i] = bend[i] * ty + second * c[j * N + i];
            }
        }
    }
}

IFIG_INLINE double horner(const double c[N], double t)
{
    double value = c[N - 1];
    for (size_t i = N - 1; i-- > 0;) {
        value = value * t + c[i];
    }
    return value;
}

/* d/dt and d2/dt2 of a row's polynomial, as coefficients. */
static void differentiate(const double c[N], double slope[N], double bend[N])
{
    for (size_t i = 0; i < N; i++) {
        slope[i] = i + 1 < N ? (double)(i + 1) * c[i + 1] : 0.0;
        bend[i] = i + 2 < N ? (double)((i + 1) * (i + 2)) * c[i + 2] : 0.0;
    }
}

/* h^2 and the phase at the centres alone. */
IFIG_INLINE void phases(const double row[N], const double *tx, size_t count, double turns_per_h,
                        double *restrict turns, double *restrict h2)
{
    for (size_t x = 0; x < count; x++) {
        double value = horner(row, tx[x]);
        value = value > LEAST_H2 ? value : LEAST_H2;
        h2[x] = value;
        turns[x] = turns_per_h * sqrt(value);
    }
}

/* The slopes of a row: coefficients of dh^2/dx, dh^2/dy and of the Laplacian of h^2, for steps of one
 * sample's side. */
typedef struct RowSlopes {
    double x[N], y[N], laplacian[N];
} RowSlopes;

static void row_slopes(const double *c, const double row[N], double ty, double side, RowSlopes *s)
{
    double bend_x[N], bend_y[N];
    differentiate(row, s->x, bend_x);
    collapse_slopes(c, ty, s->y, bend_y);
    for (size_t i = 0; i < N; i++) {
        s->x[i] *= side;
        s->y[i] *= side;
        s->laplacian[i] = (bend_x[i] + bend_y[i]) * side * side;
    }
}

/* Replace phases by their means over the samples' areas, and find what is left of the fringe. */
IFIG_INLINE void mean_over_pixel(const RowSlopes *s, const double *tx, size_t count,
                                 double turns_per_h, const double *restrict h2,
                                 double *restrict turns, double *restrict left)
{
    for (size_t x = 0; x < count; x++) {
        double slope_x = horner(s->x, tx[x]), slope_y = horner(s->y, tx[x]);
        double h = sqrt(h2[x]), half = 0.5 * turns_per_h / h;
        double across = half * slope_x, up = half * slope_y;
        double bend = half * (horner(s->laplacian, tx[x]) -
                              0.5 * (slope_x * slope_x + slope_y * slope_y) / h2[x]);
        /* At the tip of a cone (a melatope) the mean lies 0.38 of the slope above the tip. */
        double most = 0.38 * (ifig_magnitude(across) + ifig_magnitude(up));
        double lift = bend / 24.0;
        lift = lift > most ? most : lift < -most ? -most : lift;
        turns[x] += lift;
        left[x] = ifig_sinc_turns(across) * ifig_sinc_turns(up);
    }
}

/* Mark samples whose phase bends within their area by more than the closed form can follow, where a
 * fringe can still be seen. */
static void mark_bent(const RowSlopes *s, const double *tx, size_t count, double turns_per_h,
                      const double *h2, unsigned char *bent)
{
    for (size_t x = 0; x < count; x++) {
        double slope_x = horner(s->x, tx[x]), slope_y = horner(s->y, tx[x]);
        double h = sqrt(h2[x]), half = 0.5 * turns_per_h / h;
        double slope = half * (ifig_magnitude(slope_x) + ifig_magnitude(slope_y));
        double bend = half * (ifig_magnitude(horner(s->laplacian, tx[x])) +
                              0.5 * (slope_x * slope_x + slope_y * slope_y) / h2[x]);
        bent[x] = slope > 0.1 && bend > 0.3;
    }
}

/* First pass: phases of one layer at every spectral sample. Returns 1 where pixels need averaging. */
IFIG_INLINE int layer_phases(const IfigFigure *figure, const IfigTile *tile, size_t layer,
                             const double *tx, double ty, double side, size_t count, FringeRow *out,
                             unsigned char *bent)
{
    size_t samples = figure->samples.count;
    int averaged = 0;
    for (size_t k = 0; k < samples; k++) { /* from the shortest wavelength, where fringes are finest */
        const double *c = tile->coefficient + (k * figure->quantity_count + layer) * NN;
        double per_h = 2.0 * figure->thickness_nm[layer] / figure->samples.wavelength_nm[k];
        double row[N];
        RowSlopes slopes;
        collapse(c, ty, row);
        phases(row, tx, count, per_h, out->turns + k * MOST, out->h2 + k * MOST);
        if (k == 0 || averaged) {
            row_slopes(c, row, ty, side, &slopes);
        }
        if (k == 0) {
            for (size_t x = 0; x < count; x++) {
                double slope = ifig_magnitude(horner(slopes.x, tx[x])) +
                               ifig_magnitude(horner(slopes.y, tx[x]));
                averaged |= 0.5 * per_h * slope > STILL_PIXEL * sqrt(out->h2[x]);
            }
        }
        if (averaged) {
            mean_over_pixel(&slopes, tx, count, per_h, out->h2 + k * MOST, out->turns + k * MOST,
                            out->left + k * MOST);
            if (k == samples / 2 && bent != NULL) {
                mark_bent(&slopes, tx, count, per_h, out->h2 + k * MOST, bent);
            }
        }
    }
    return averaged;
}

/* Multiply what is left of the fringe by the spectral kernel at the phase step to the neighbouring
 * samples. */
IFIG_INLINE void mean_over_step(const double *before, const double *behind, double share,
                                IfigSpectralKernel kernel, size_t count, double *restrict left)
{
    for (size_t x = 0; x < count; x++) {
        double step = (behind[x] - before[x]) * share;
        double sinc = ifig_sinc_turns(step), square = sinc * sinc;
        double sine = sinc * (step * IFIG_PI);
        double spline = square * square / (1.0 - (2.0 / 3.0) * sine * sine);
        left[x] *= kernel == IFIG_KERNEL_SPLINE ? spline : square;
    }
}

/* The fringe of one layer at one spectral sample, real fields. */
IFIG_INLINE void add_real(const double u_row[N], const double v_row[N], const double *tx,
                          size_t count, const double *turns, const double *h2, const double *left,
                          const double weight[3], double (*restrict sum)[MOST])
{
    for (size_t x = 0; x < count; x++) {
        double u = horner(u_row, tx[x]), v = horner(v_row, tx[x]);
        double fringe = left[x] * ifig_cosine_turns(turns[x]);
        double light = 0.5 * (u * u * (1.0 + fringe) + v * v / h2[x] * (1.0 - fringe));
        sum[0][x] += weight[0] * light;
        sum[1][x] += weight[1] * light;
        sum[2][x] += weight[2] * light;
    }
}

/* The same for complex fields (optically active stones, circular polars): rows u, v real, then
 * imaginary. */
IFIG_INLINE void add_complex(double row[4][N], const double *tx, size_t count, const double *turns,
                             const double *h2, const double *left, const double weight[3],
                             double (*restrict sum)[MOST])
{
    for (size_t x = 0; x < count; x++) {
        double ur = horner(row[0], tx[x]), vr = horner(row[1], tx[x]);
        double ui = horner(row[2], tx[x]), vi = horner(row[3], tx[x]);
        double fringe = left[x] * ifig_cosine_turns(turns[x]);
        double cross = left[x] * ifig_sine_turns(turns[x]) * (ur * vi - ui * vr) / sqrt(h2[x]);
        double light = 0.5 * ((ur * ur + ui * ui) * (1.0 + fringe) +
                              (vr * vr + vi * vi) / h2[x] * (1.0 - fringe)) -
                       cross;
        sum[0][x] += weight[0] * light;
        sum[1][x] += weight[1] * light;
        sum[2][x] += weight[2] * light;
    }
}

/* Fill left with what the spectral step leaves of each fringe; 1 at once where nothing changes. */
IFIG_INLINE void spectral_means(const IfigFigure *figure, const double *turns, int averaged,
                                size_t count, size_t k, double *restrict left)
{
    size_t last = figure->samples.count - 1;
    if (!averaged) {
        for (size_t x = 0; x < count; x++) {
            left[x] = 1.0;
        }
    }
    if (figure->samples.kernel == IFIG_KERNEL_NONE) {
        return;
    }
    size_t before = k > 0 ? k - 1 : k, behind = k < last ? k + 1 : k;
    double share = 1.0 / (double)(behind - before), largest = 0;
    for (size_t x = 0; x < count; x++) {
        double step = ifig_magnitude(turns[behind * MOST + x] - turns[before * MOST + x]) * share;
        largest = step > largest ? step : largest;
    }
    if (largest > STILL_SPECTRUM) {
        mean_over_step(turns + before * MOST, turns + behind * MOST, share, figure->samples.kernel,
                       count, left);
    }
}

IFIG_CLONES
static void one_layer(const IfigFigure *figure, const IfigTile *tile, const double *tx, double ty,
                      double side, size_t count, FringeRow *rows, double (*restrict sum)[MOST],
                      unsigned char *bent)
{
    int averaged = layer_phases(figure, tile, 0, tx, ty, side, count, rows, bent);
    int is_complex = figure->quantity_count > 3;
    for (size_t k = 0; k < figure->samples.count; k++) {
        const double *c = tile->coefficient + k * figure->quantity_count * NN;
        double *left = rows->left + k * MOST, row[4][N];
        spectral_means(figure, rows->turns, averaged, count, k, left);
        for (size_t q = 0; q < (is_complex ? 4u : 2u); q++) {
            collapse(c + (1 + q) * NN, ty, row[q]);
        }
        if (is_complex) {
            add_complex(row, tx, count, rows->turns + k * MOST, rows->h2 + k * MOST, left,
                        figure->samples.weight[k], sum);
        } else {
            add_real(row[0], row[1], tx, count, rows->turns + k * MOST, rows->h2 + k * MOST, left,
                     figure->samples.weight[k], sum);
        }
    }
}

void ifig_fringe_row(const IfigFigure *figure, const IfigTile *tile, double tx0, double ty,
                     double side, size_t count, double *workspace, double (*xyz)[3],
                     unsigned char *bent)
{
    double tx[MOST], sum[3][MOST] = {{0}};
    size_t block = figure->samples.count * MOST;
    FringeRow rows[IFIG_LAYERS_MAX];
    for (size_t x = 0; x < count; x++) {
        tx[x] = tx0 + (double)x * side;
    }
    for (size_t layer = 0; layer < figure->layer_count; layer++) {
        double *start = workspace + 3 * layer * block;
        rows[layer] = (FringeRow){start, start + block, start + 2 * block};
    }
    if (bent != NULL) {
        memset(bent, 0, count);
    }
    if (figure->layer_count == 1) {
        one_layer(figure, tile, tx, ty, side, count, rows, sum, bent);
    } else {
        ifig_fringe_stack_row(figure, tile, tx, ty, side, count, sum);
    }
    for (size_t x = 0; x < count; x++) {
        for (int i = 0; i < 3; i++) {
            xyz[x][i] = sum[i][x];
        }
    }
}
