/* SPDX-License-Identifier: MIT */
/* The first pass along a row: each layer's phase at every spectral sample, averaged over the area
 * of each sample of the picture.
 *
 * The mean of a fringe over an area is, where the phase is linear, the fringe at its centre times
 * sinc x sinc of the phase's change across. The mean phase differs from the phase at the centre by
 * its Laplacian / 24, which is added.
 *
 * All loops run over the samples of the row, so that each lane of a vector is one sample and the
 * order of every sum is the same on every machine. */
#include "fringe_row.h"

#include <math.h>

/* A change of phase, in turns, and a relative slope of h^2 across a sample, below which averaging
 * takes less than half a level of 255 off any pixel; and a phase at which nothing is lit yet. */
static const double STILL_ENVELOPE = 0.06, UNSEEN_PHASE = 0.004;

/* The least h^2 told apart from none: there the phase is a fiftieth of a radian, the sine its own
 * argument, and v^2 / h^2 sin^2 the same whatever h is. Below it, next to an optic axis, the
 * quotient would be one of rounding errors. */
IFIG_INLINE double least_h2(double turns_per_h)
{
    double h = 0.01 / (IFIG_PI * turns_per_h);
    return h * h;
}

size_t ifig_fringe_workspace_size(const IfigFigure *figure)
{
    return 4 * figure->samples.count * MOST * figure->layer_count;
}

IfigPhaseRow ifig_phase_row(const IfigFigure *figure, double *workspace, size_t layer, size_t k)
{
    size_t block = figure->samples.count * MOST;
    double *start = workspace + 4 * layer * block + k * MOST;
    return (IfigPhaseRow){start, start + block, start + 2 * block, start + 3 * block};
}

/* h^2 and the phase at the centres alone. */
IFIG_INLINE void phases(const double row[N], const double *tx, size_t count, double turns_per_h,
                        double *restrict turns, double *restrict h2)
{
    double least = least_h2(turns_per_h);
    for (size_t x = 0; x < count; x++) {
        double value = horner(row, tx[x]);
        value = value > least ? value : least;
        h2[x] = value;
        turns[x] = turns_per_h * sqrt(value);
    }
}

/* The slopes of h^2 along a row, as coefficients in tx, for steps of one sample's side. */
typedef struct RowSlopes {
    double x[N], y[N], bend_x[N], bend_y[N], laplacian[N];
} RowSlopes;

IFIG_INLINE void row_slopes(const double *c, const double row[N], double ty, double side,
                            RowSlopes *s)
{
    differentiate(row, s->x, s->bend_x);
    collapse_slopes(c, ty, s->y, s->bend_y);
    for (size_t i = 0; i < N; i++) {
        s->x[i] *= side;
        s->y[i] *= side;
        s->bend_x[i] *= side * side;
        s->bend_y[i] *= side * side;
        s->laplacian[i] = s->bend_x[i] + s->bend_y[i];
    }
}

/* Replace phases by their means over the samples' areas, and note their change across. */
IFIG_INLINE void mean_over_pixel(const RowSlopes *s, const double *tx, size_t count,
                                 double turns_per_h, IfigPhaseRow row)
{
    double *restrict turns = row.turns, *restrict across = row.across, *restrict up = row.up;
    for (size_t x = 0; x < count; x++) {
        double slope_x = horner(s->x, tx[x]), slope_y = horner(s->y, tx[x]);
        double half = 0.5 * turns_per_h / sqrt(row.h2[x]);
        across[x] = half * slope_x;
        up[x] = half * slope_y;
        double bend = half * (horner(s->laplacian, tx[x]) -
                              0.5 * (slope_x * slope_x + slope_y * slope_y) / row.h2[x]);
        /* At the tip of a cone (a melatope) the mean lies 0.38 of the slope above the tip. */
        double most = 0.38 * (ifig_magnitude(across[x]) + ifig_magnitude(up[x]));
        double lift = bend / 24.0;
        turns[x] += lift > most ? most : lift < -most ? -most : lift;
    }
}

/* Mark samples in which the closed form of the mean does not hold: the phase bends by a third of a
 * turn, where a fringe can still be seen; or an optic axis stands within a few samples, so that the
 * planes of vibration turn within one. */
IFIG_INLINE void mark_bent(const double row[N], const RowSlopes *s, const double *tx, size_t count,
                           double turns_per_h, int is_line, unsigned char *bent)
{
    double least = least_h2(turns_per_h);
    for (size_t x = 0; x < count; x++) {
        double h2 = horner(row, tx[x]);
        h2 = h2 > least ? h2 : least;
        double slope_x = horner(s->x, tx[x]), slope_y = horner(s->y, tx[x]);
        double steepness = ifig_magnitude(slope_x) + ifig_magnitude(slope_y);
        double half = 0.5 * turns_per_h / sqrt(h2);
        double bend_x = half * (horner(s->bend_x, tx[x]) - 0.5 * slope_x * slope_x / h2);
        double bend_y = half * (horner(s->bend_y, tx[x]) - 0.5 * slope_y * slope_y / h2);
        double bend = fmax(ifig_magnitude(bend_x), ifig_magnitude(bend_y));
        int seen = is_line || turns_per_h * sqrt(h2) < 60.0;
        int at_axis = steepness > 0.5 * h2 && turns_per_h * sqrt(h2) > UNSEEN_PHASE;
        bent[x] |= (seen && bend > 0.3 && half * steepness > 0.1) || at_axis;
    }
}

/* Clones are chosen by a resolver that only a static function keeps to itself. */
IFIG_CLONES
static int layer_phases(const IfigFigure *figure, const IfigTile *tile, size_t layer,
                        const double *tx, double ty, double side, size_t count, double *workspace,
                        unsigned char *bent)
{
    size_t samples = figure->samples.count;
    int averaged = 0, envelope = 0;
    for (size_t k = 0; k < samples;
         k++) { /* from the shortest wavelength, where fringes are finest */
        const double *c = tile->coefficient + (k * figure->quantity_count + layer) * NN;
        double per_h = 2.0 * figure->thickness_nm[layer] / figure->samples.wavelength_nm[k];
        double row[N];
        RowSlopes slopes;
        IfigPhaseRow here = ifig_phase_row(figure, workspace, layer, k);
        collapse(c, ty, row);
        phases(row, tx, count, per_h, here.turns, here.h2);
        /* Dispersed axes stand at a different place at each wavelength: look at some of them. */
        int marks = bent != NULL && (k % (samples / 5 + 1) == samples / 10);
        if (k == 0 || averaged || marks) {
            row_slopes(c, row, ty, side, &slopes);
        }
        if (k == 0) {
            for (size_t x = 0; x < count; x++) {
                double slope = ifig_magnitude(horner(slopes.x, tx[x])) +
                               ifig_magnitude(horner(slopes.y, tx[x]));
                averaged |= 0.5 * per_h * slope > IFIG_STILL_PIXEL * sqrt(here.h2[x]);
                envelope |= slope > STILL_ENVELOPE * here.h2[x] && here.turns[x] > UNSEEN_PHASE;
            }
        }
        if (averaged) {
            mean_over_pixel(&slopes, tx, count, per_h, here);
        }
        if (marks) {
            mark_bent(row, &slopes, tx, count, per_h, samples == 1, bent);
        }
    }
    return (averaged ? IFIG_ROW_AVERAGED : 0) | (envelope ? IFIG_ROW_ENVELOPE : 0);
}

int ifig_layer_phases(const IfigFigure *figure, const IfigTile *tile, size_t layer,
                      const double *tx, double ty, double side, size_t count, double *workspace,
                      unsigned char *bent)
{
    return layer_phases(figure, tile, layer, tx, ty, side, count, workspace, bent);
}
