/* SPDX-License-Identifier: MIT */
/* Carriers fitted to squares of the picture, and held to the sum over all samples: see carrier.h.
 */
#include "carrier.h"

#include "base.h"
#include "fringe_row.h"
#include "fringe_wave.h"

#include <complex.h>
#include <stdlib.h>
#include <string.h>

/* The corners and the centre first: there what polynomials miss is greatest. */
const double ifig_patch_grid[IFIG_GRID_POINTS][2] = {
    {-1, -1}, {1, -1}, {-1, 1},      {1, 1},      {0, 0},      {0, -1},   {-1, 0},
    {1, 0},   {0, 1},  {-0.5, -0.5}, {0.5, -0.5}, {-0.5, 0.5}, {0.5, 0.5}};

/* What the sum over all samples may miss in red, green or blue, in levels of 255: of a thousand
 * codes one may differ. */
static const double TOLERATED = 0.01;

/* What the test needs of a square. */
typedef struct Trial {
    const IfigFigure *figure;
    const IfigTile *tile;
    IfigPatch patch;
    size_t grid_count, point_count;
    IfigCarrierPoint *point;              /* IFIG_CARRIER_POINTS */
    double (*at_node)[IFIG_POINT_VALUES]; /* room for one point */
} Trial;

/* All samples at a point of the tile. */
static void add_point(Trial *trial, double tx, double ty)
{
    IfigCarrierPoint *p = &trial->point[trial->point_count++];
    ifig_carrier_point(trial->figure, trial->tile, tx, ty, trial->at_node, p);
}

static double h2_at(const double *c, double tx, double ty)
{
    double row[N];
    collapse(c, ty, row);
    return horner(row, tx);
}

/* Walk from an optic axis until the retardation is `turns`; test there if that is in the square. */
static void add_on_ring(Trial *trial, const double *c, const double from[2], double angle,
                        double per_h, double turns)
{
    double step_x = ifig_cosine_turns(angle), step_y = ifig_sine_turns(angle);
    for (double reach = trial->tile->pixel; reach < 4.0; reach *= 1.3) {
        double x = from[0] + reach * step_x, y = from[1] + reach * step_y;
        if (ifig_magnitude(x - trial->patch.x) > trial->patch.half_x ||
            ifig_magnitude(y - trial->patch.y) > trial->patch.half_y) {
            return;
        }
        if (per_h * per_h * h2_at(c, x, y) > turns * turns) {
            add_point(trial, x, y);
            return;
        }
    }
}

/* Where a sample's retardation is least; if that is near none, points about it. */
static void add_axis(Trial *trial, size_t k)
{
    enum { STEPS = 12 };
    double c[7 * NN], from[2] = {0, 0}, least = 1e300;
    const IfigFigure *figure = trial->figure;
    double per_h = 2.0 * figure->thickness_nm[0] / figure->samples.wavelength_nm[k];
    ifig_tile_sample(figure, trial->tile, k, c);
    for (int j = 0; j <= STEPS; j++) {
        double row[N], ty = trial->patch.y + trial->patch.half_y * (2.0 * j / STEPS - 1.0);
        collapse(c, ty, row);
        for (int i = 0; i <= STEPS; i++) {
            double tx = trial->patch.x + trial->patch.half_x * (2.0 * i / STEPS - 1.0);
            double h2 = horner(row, tx);
            if (h2 < least) {
                least = h2;
                from[0] = tx;
                from[1] = ty;
            }
        }
    }
    for (int i = 0; i < IFIG_AXIS_POINTS / 2 && per_h * per_h * least < 1.0; i++) {
        double angle = i * 2.0 / IFIG_AXIS_POINTS;
        add_on_ring(trial, c, from, angle, per_h, i % 2 ? 0.31 : 0.27);
        add_on_ring(trial, c, from, angle, per_h, i % 2 ? 0.6 : 2.3);
    }
}

/* The line through (R, t_k) of the grid's points, for every sample. */
IFIG_CLONES
static void fit_lines(const Trial *trial, IfigCarrier *carrier)
{
    size_t count = trial->figure->samples.count;
    size_t reference = carrier->supports->sample[carrier->supports->reference];
    size_t points = trial->grid_count;
    double share = 1.0 / (double)points;
    double mean = 0, spread = 0, mean_of[IFIG_SAMPLES_MOST] = {0}, product[IFIG_SAMPLES_MOST] = {0};
    for (size_t p = 0; p < points; p++) {
        mean += trial->point[p].turns[reference] * share;
    }
    for (size_t p = 0; p < points; p++) {
        const double *turns = trial->point[p].turns;
        double away = turns[reference] - mean;
        spread += away * away;
        for (size_t k = 0; k < count; k++) {
            mean_of[k] += turns[k] * share;
            product[k] += away * turns[k];
        }
    }
    int is_flat = !(spread > 1e-12 * mean * mean);
    for (size_t k = 0; k < count; k++) {
        double slope = is_flat ? mean_of[k] / mean : product[k] / spread;
        carrier->line.slope[k] = slope;
        carrier->line.offset[k] = mean_of[k] - slope * mean;
    }
}

/* Whether the pixel about a point is the mean of finer samples, as fringe_few.c finds. */
static int is_bent(const IfigCarrier *carrier, const IfigCarrierPoint *p)
{
    const IfigSupports *supports = carrier->supports;
    int bent = ifig_point_is_bent(p, supports->sample[supports->reference]);
    for (size_t j = 0; j < supports->count && carrier->own_changes; j++) {
        bent |= ifig_point_is_bent(p, supports->sample[j]);
    }
    return bent;
}

/* What is left of a support's fringe at a point, as fringe_few.c takes it. part: what the phase
 * changes of what it does across a pixel. */
static double left_at(const IfigCarrier *carrier, const IfigCarrierPoint *p, size_t k, double part)
{
    const IfigSupports *supports = carrier->supports;
    size_t from = carrier->own_changes ? k : supports->sample[supports->reference];
    double slope = carrier->own_changes ? part : part * carrier->line.slope[k];
    double of_spectrum =
        supports->weight == NULL ? (double)ifig_spline_part((float)p->step[k]) : 1.0;
    return of_spectrum * ifig_sinc_turns(slope * p->x[from]) * ifig_sinc_turns(slope * p->y[from]);
}

int ifig_carrier_agrees(const IfigFigure *figure, const IfigCarrierPoint *p,
                        const double complex even[3], const double complex fringe[3],
                        int is_carried)
{
    for (int i = 0; i < 3; i++) {
        const double *matrix = figure->raster.plain_colour[i];
        double a = creal(ifig_channel(matrix, even));
        double complex b = ifig_channel(matrix, fringe);
        /* Whatever the fringe's phase; but where there is no carrier only the whole is smooth. */
        double missed = is_carried ? ifig_magnitude(a) + cabs(b) : ifig_magnitude(a + creal(b));
        if (!(missed * p->levels[i] < TOLERATED)) {
            return 0;
        }
    }
    return 1;
}

/* What the supports miss at a point: see TOLERATED. */
static int point_agrees(const IfigFigure *figure, IfigCarrier *carrier, const IfigCarrierPoint *p)
{
    const IfigSupports *supports = carrier->supports;
    double turns = p->turns[supports->sample[supports->reference]];
    int32_t place = ifig_ladder_place(&carrier->ladder, carrier->least_turns, turns);
    const IfigRung *rung =
        place < carrier->ladder.count ? ifig_carrier_rung(figure, carrier, place) : NULL;
    double rung_turns = ifig_ladder_turns(&carrier->ladder, place);
    int bent = is_bent(carrier, p);
    double part = bent ? 1.0 / figure->bent_parts : 1.0;
    double complex even[3], fringe[3];
    for (int i = 0; i < 3; i++) {
        even[i] = p->even_sum[i];
        fringe[i] = bent ? p->finer_sum[i] : p->fringe_sum[i];
    }
    for (size_t j = 0; j < supports->count; j++) {
        size_t k = supports->sample[j];
        double phase = ifig_carrier_phase(carrier, k, rung_turns);
        double complex back = ifig_cosine_turns(phase) - I * ifig_sine_turns(phase);
        double complex z = left_at(carrier, p, k, part) * (p->re[k] + I * p->im[k]) * back;
        for (int i = 0; i < 3; i++) {
            even[i] -= supports->even[j][i] * p->even[k];
            if (rung != NULL) {
                fringe[i] -= ((double)rung[j][0][i] + I * (double)rung[j][1][i]) * z;
            }
        }
    }
    return ifig_carrier_agrees(figure, p, even, fringe, place > 0);
}

static int supports_suffice(const Trial *trial, IfigCarrier *carrier)
{
    for (size_t p = 0; p < trial->point_count; p++) {
        if (!point_agrees(trial->figure, carrier, &trial->point[p])) {
            return 0;
        }
    }
    return 1;
}

/* Points of the grid that are looked at: the first few where a square is so small a part of the
 * disc, an eighth of its radius, that all is smoother. */
static size_t grid_count(const IfigTile *tile, const IfigPatch *patch)
{
    double half = patch->half_x > patch->half_y ? patch->half_x : patch->half_y;
    return 2.0 * half * tile->half < 0.13 ? 5 : IFIG_GRID_POINTS;
}

static void prepare(Trial *trial, IfigCarrier *carrier)
{
    size_t last = trial->figure->samples.count - 1;
    trial->grid_count = grid_count(trial->tile, &trial->patch);
    for (size_t p = 0; p < trial->grid_count; p++) {
        add_point(trial, trial->patch.x + trial->patch.half_x * ifig_patch_grid[p][0],
                  trial->patch.y + trial->patch.half_y * ifig_patch_grid[p][1]);
    }
    add_axis(trial, last / 8);
    add_axis(trial, carrier->supports->sample[carrier->supports->reference]);
    add_axis(trial, last - last / 4);
}

/* The same with each support's own changes of phase, then with carriers from where on the fewest
 * supports need them: where red and blue fringes differ by many turns and no axis is near, it is
 * the sum that is not smooth. */
static int supports_suffice_otherwise(const Trial *trial, IfigCarrier *carrier)
{
    int own_changes = carrier->own_changes;
    carrier->own_changes = 1;
    if (!own_changes && supports_suffice(trial, carrier)) {
        return 1;
    }
    double least_turns = trial->figure->supports[0].least_turns;
    int is_other = carrier->least_turns > least_turns && carrier->supports->weight != NULL;
    carrier->least_turns = least_turns;
    return is_other && supports_suffice(trial, carrier);
}

/* The same with the lines that carrier->line has. */
static int lines_suffice(const Trial *trial, IfigCarrier *carrier)
{
    const IfigSupports *supports = carrier->supports;
    carrier->least_turns = supports->least_turns;
    carrier->own_changes = trial->point_count > trial->grid_count;
    carrier->largest_slope = 1.0;
    for (size_t j = 0; j < supports->count; j++) {
        double slope = ifig_magnitude(carrier->line.slope[supports->sample[j]]);
        carrier->largest_slope = slope > carrier->largest_slope ? slope : carrier->largest_slope;
    }
    return supports_suffice(trial, carrier) || supports_suffice_otherwise(trial, carrier);
}

/* Whether a set of supports misses no more than is tolerated, by the lines of the whole picture or
 * else its own. */
static int set_suffices(const Trial *trial, size_t set, IfigCarrier *carrier)
{
    carrier->supports = &trial->figure->supports[set];
    carrier->line = carrier->whole[set];
    if (carrier->line.rung != NULL && lines_suffice(trial, carrier)) {
        return 1;
    }
    carrier->line = carrier->fitted;
    memset(carrier->line.is_made, 0, (size_t)carrier->ladder.count);
    fit_lines(trial, carrier);
    return lines_suffice(trial, carrier);
}

int ifig_carrier_fit(const IfigFigure *figure, const IfigTile *tile, const IfigPatch *patch,
                     int at_last, IfigCarrier *carrier)
{
    Trial trial = {figure, tile, *patch, .point = carrier->point, .at_node = carrier->at_node};
    int suffice = 0;
    carrier->supports = figure->supports;
    prepare(&trial, carrier);
    carrier->point_count = trial.point_count;
    for (size_t set = 0; set < figure->support_set_count && !suffice; set++) {
        if (figure->supports[set].weight != NULL || at_last) {
            suffice = set_suffices(&trial, set, carrier);
        }
    }
    for (size_t j = 0; j < carrier->supports->count && suffice; j++) {
        ifig_tile_sample(figure, tile, carrier->supports->sample[j],
                         carrier->coefficient + j * figure->quantity_count * NN);
    }
    return suffice;
}
