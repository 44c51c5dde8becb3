/* SPDX-License-Identifier: MIT */
/* Carriers fitted to squares of the picture, and held to the sum over all samples: see carrier.h.
 */
#include "carrier.h"

#include "base.h"
#include "fringe_wave.h"

#include <complex.h>
#include <stdlib.h>
#include <string.h>

enum {
    N = IFIG_TILE_NODES,
    NN = N * N,
    GRID_POINTS = 13,
    AXIS_POINTS = 16, /* about the optic axis of one wavelength */
    MOST_POINTS = GRID_POINTS + 3 * AXIS_POINTS
};

/* Points of a square at which its carrier is fitted and tested, in halves of its side. */
static const double GRID[GRID_POINTS][2] = {{-0.98, -0.98}, {0, -0.98},    {0.98, -0.98},
                                            {-0.5, -0.5},   {0.5, -0.5},   {-0.98, 0},
                                            {0, 0},         {0.98, 0},     {-0.5, 0.5},
                                            {0.5, 0.5},     {-0.98, 0.98}, {0, 0.98},
                                            {0.98, 0.98}};

/* What the sum over all samples may miss in X, Y or Z: in the darkest sRGB colours a level of 255
 * is 3e-4 of linear light, of which a third may come from one of X, Y and Z. */
static const double TOLERATED = 4e-5;

/* A and z of one sample at one point. */
typedef struct Sample {
    double turns, even;
    double complex z;
} Sample;

/* What the test needs of a square. */
typedef struct Trial {
    const IfigFigure *figure;
    const IfigTile *tile;
    double tx, ty, half;
    size_t point_count;
    Sample *sample;         /* point_count x samples */
    struct Slopes *at_node; /* room for one point */
} Trial;

/* A polynomial and its derivatives at a point. */
typedef struct Slopes {
    double value, x, y;
} Slopes;

static Slopes polynomial(const double *c, double tx, double ty)
{
    Slopes s = {0, 0, 0};
    for (size_t j = N; j-- > 0;) {
        double row = 0, slope = 0;
        for (size_t i = N; i-- > 0;) {
            slope = slope * tx + row;
            row = row * tx + c[j * N + i];
        }
        s.y = s.y * ty + s.value;
        s.x = s.x * ty + slope;
        s.value = s.value * ty + row;
    }
    return s;
}

static IfigFieldKind kind_of(const IfigFigure *figure)
{
    return figure->is_absorbing ? IFIG_FIELDS_ABSORBING
           : figure->is_complex ? IFIG_FIELDS_COMPLEX
                                : IFIG_FIELDS_REAL;
}

static Sample sample_of(const IfigFigure *figure, const double *q, double slope_x, double slope_y,
                        size_t k)
{
    double per_h = 2.0 * figure->thickness_nm[0] / figure->samples.wavelength_nm[k];
    IfigFields fields = {.h2 = q[0], .u_re = q[1], .v_re = q[2]};
    if (figure->is_complex) {
        fields.u_im = q[3];
        fields.v_im = q[4];
    }
    if (figure->is_absorbing) {
        fields.h2_im = q[5];
        fields.loss = q[6];
    }
    IfigWave wave = ifig_wave(&fields, kind_of(figure), per_h);
    /* turns = per_h h, so that its slope is per_h^2 / (2 turns) that of h^2. */
    double scale = 0.5 * per_h * per_h / wave.turns;
    double left = ifig_sinc_turns(scale * slope_x) * ifig_sinc_turns(scale * slope_y);
    Sample s = {.turns = wave.turns, .even = wave.even};
    s.z = left * (wave.cosine - I * wave.sine) *
          (ifig_cosine_turns(wave.turns) + I * ifig_sine_turns(wave.turns));
    return s;
}

/* All samples at a point of the tile. */
static void add_point(Trial *trial, double tx, double ty)
{
    const IfigFigure *figure = trial->figure;
    size_t quantities = figure->quantity_count, nodes = figure->node_count;
    size_t count = figure->samples.count;
    Sample *sample = trial->sample + trial->point_count * count;
    for (size_t i = 0; i < nodes * quantities; i++) {
        trial->at_node[i] = polynomial(trial->tile->at_nodes + i * NN, tx, ty);
    }
    for (size_t k = 0; k < count; k++) {
        double q[7] = {0}, slope_x = 0, slope_y = 0;
        const double *weight = figure->interpolation + k * nodes;
        for (size_t m = 0; m < nodes; m++) {
            const Slopes *s = trial->at_node + m * quantities;
            for (size_t i = 0; i < quantities; i++) {
                q[i] += weight[m] * s[i].value;
            }
            slope_x += weight[m] * s[0].x;
            slope_y += weight[m] * s[0].y;
        }
        sample[k] = sample_of(figure, q, slope_x * trial->tile->pixel,
                              slope_y * trial->tile->pixel, k);
    }
    trial->point_count++;
}

static double h2_at(const double *c, double tx, double ty)
{
    return polynomial(c, tx, ty).value;
}

/* Walk from an optic axis until the retardation is `turns`; test there if that is in the square. */
static void add_on_ring(Trial *trial, const double *c, const double from[2], double angle,
                        double per_h, double turns)
{
    double reach = trial->tile->pixel, x = from[0], y = from[1];
    double step_x = ifig_cosine_turns(angle), step_y = ifig_sine_turns(angle);
    for (; reach < 4.0 * trial->half; reach *= 1.3) {
        x = from[0] + reach * step_x;
        y = from[1] + reach * step_y;
        if (ifig_magnitude(x - trial->tx) > trial->half ||
            ifig_magnitude(y - trial->ty) > trial->half) {
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
    for (int i = 0; i <= STEPS * STEPS + 2 * STEPS; i++) {
        double tx = trial->tx + trial->half * (2.0 * (i % (STEPS + 1)) / STEPS - 1.0);
        double ty = trial->ty + trial->half * (2.0 * (i / (STEPS + 1)) / STEPS - 1.0);
        double h2 = h2_at(c, tx, ty);
        if (h2 < least) {
            least = h2;
            from[0] = tx;
            from[1] = ty;
        }
    }
    for (int i = 0; i < AXIS_POINTS / 2 && per_h * per_h * least < 1.0; i++) {
        double angle = i * 2.0 / AXIS_POINTS;
        add_on_ring(trial, c, from, angle, per_h, i % 2 ? 0.31 : 0.27);
        add_on_ring(trial, c, from, angle, per_h, i % 2 ? 0.6 : 2.3);
    }
}

/* The line through (R, t_k) of the grid's points, for every sample. */
static void fit_lines(const Trial *trial, IfigCarrier *carrier)
{
    size_t count = trial->figure->samples.count;
    size_t reference = carrier->supports->sample[carrier->supports->reference];
    double mean = 0, spread = 0;
    for (size_t p = 0; p < GRID_POINTS; p++) {
        mean += trial->sample[p * count + reference].turns / GRID_POINTS;
    }
    for (size_t p = 0; p < GRID_POINTS; p++) {
        double away = trial->sample[p * count + reference].turns - mean;
        spread += away * away;
    }
    for (size_t k = 0; k < count; k++) {
        double mean_k = 0, product = 0;
        for (size_t p = 0; p < GRID_POINTS; p++) {
            const Sample *s = trial->sample + p * count;
            mean_k += s[k].turns / GRID_POINTS;
            product += (s[reference].turns - mean) * s[k].turns;
        }
        carrier->slope[k] = spread > 1e-12 * mean * mean ? product / spread : mean_k / mean;
        carrier->offset[k] = mean_k - carrier->slope[k] * mean;
    }
}

/* The sum over all samples, as fringe_sum.c takes it. */
static void full_sum(const IfigFigure *figure, const Sample *s, double even[3],
                     double complex fringe[3])
{
    size_t last = figure->samples.count - 1;
    for (size_t k = 0; k <= last; k++) {
        size_t before = k > 0 ? k - 1 : k, behind = k < last ? k + 1 : k;
        double step = (s[behind].turns - s[before].turns) / (double)(behind - before);
        double left = ifig_spline_of_sinc(ifig_sinc_turns(step), step);
        for (int i = 0; i < 3; i++) {
            even[i] += figure->samples.weight[k][i] * s[k].even;
            fringe[i] += figure->samples.weight[k][i] * left * s[k].z;
        }
    }
}

/* Take away what the supports make of the same. */
static void subtract_few(const IfigFigure *figure, IfigCarrier *carrier, const Sample *s,
                         double even[3], double complex fringe[3])
{
    const IfigSupports *supports = carrier->supports;
    double turns = s[supports->sample[supports->reference]].turns;
    int32_t place = ifig_ladder_place(&carrier->ladder, supports->least_turns, turns);
    const IfigRung *rung =
        place < carrier->ladder.count ? ifig_carrier_rung(figure, carrier, place) : NULL;
    for (size_t j = 0; j < supports->count; j++) {
        const Sample *at = s + supports->sample[j];
        for (int i = 0; i < 3; i++) {
            even[i] -= supports->even[j][i] * at->even;
            if (rung != NULL) {
                fringe[i] -= ((double)(*rung)[j][0][i] + I * (double)(*rung)[j][1][i]) * at->z;
            }
        }
    }
}

static int point_agrees(const IfigFigure *figure, IfigCarrier *carrier, const Sample *s)
{
    double even[3] = {0, 0, 0};
    double complex fringe[3] = {0, 0, 0};
    full_sum(figure, s, even, fringe);
    subtract_few(figure, carrier, s, even, fringe);
    const IfigSupports *supports = carrier->supports;
    int joined = s[supports->sample[supports->reference]].turns < carrier->supports->least_turns;
    for (int i = 0; i < 3; i++) {
        /* Whatever the fringe's phase; but where there is no carrier only the whole is smooth. */
        double missed = joined ? ifig_magnitude(even[i] + creal(fringe[i]))
                               : ifig_magnitude(even[i]) + cabs(fringe[i]);
        if (!(missed < TOLERATED)) {
            return 0;
        }
    }
    return 1;
}

static int supports_suffice(const Trial *trial, IfigCarrier *carrier)
{
    for (size_t p = 0; p < trial->point_count; p++) {
        const Sample *s = trial->sample + p * trial->figure->samples.count;
        if (!point_agrees(trial->figure, carrier, s)) {
            return 0;
        }
    }
    return 1;
}

static void prepare(Trial *trial, IfigCarrier *carrier)
{
    size_t last = trial->figure->samples.count - 1;
    for (size_t p = 0; p < GRID_POINTS; p++) {
        add_point(trial, trial->tx + trial->half * GRID[p][0], trial->ty + trial->half * GRID[p][1]);
    }
    add_axis(trial, last / 8);
    add_axis(trial, carrier->supports->sample[carrier->supports->reference]);
    add_axis(trial, last - last / 4);
}

int ifig_carrier_fit(const IfigFigure *figure, const IfigTile *tile, double tx, double ty,
                     double half, IfigCarrier *carrier)
{
    Trial trial = {figure, tile, tx, ty, half, 0, carrier->sample, carrier->at_node};
    for (size_t set = 0; set < figure->support_set_count; set++) {
        carrier->supports = &figure->supports[set];
        if (set == 0) {
            prepare(&trial, carrier);
        }
        memset(carrier->is_made, 0, (size_t)carrier->ladder.count);
        fit_lines(&trial, carrier);
        if (supports_suffice(&trial, carrier)) {
            for (size_t j = 0; j < carrier->supports->count; j++) {
                ifig_tile_sample(figure, tile, carrier->supports->sample[j],
                                 carrier->coefficient + j * figure->quantity_count * NN);
            }
            return 1;
        }
    }
    return 0;
}

IfigStatus ifig_carrier_create(const IfigFigure *figure, IfigCarrier *carrier, IfigError *error)
{
    size_t count = figure->samples.count;
    *carrier = (IfigCarrier){.supports = NULL};
    if (figure->support_set_count == 0) {
        return IFIG_OK;
    }
    ifig_ladder(figure, &carrier->ladder);
    size_t rungs = (size_t)carrier->ladder.count;
    carrier->offset = calloc(2 * count, sizeof *carrier->offset);
    carrier->is_made = calloc(rungs, 1);
    carrier->rung = malloc(rungs * sizeof *carrier->rung);
    carrier->sample = malloc(count * MOST_POINTS * sizeof(Sample));
    carrier->at_node =
        malloc(figure->node_count * figure->quantity_count * sizeof(Slopes));
    carrier->coefficient =
        malloc(IFIG_SUPPORTS_MAX * figure->quantity_count * NN * sizeof *carrier->coefficient);
    if (carrier->offset == NULL || carrier->is_made == NULL || carrier->rung == NULL ||
        carrier->sample == NULL || carrier->at_node == NULL || carrier->coefficient == NULL) {
        ifig_carrier_free(carrier);
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for the weights of a tile");
    }
    carrier->slope = carrier->offset + count;
    return IFIG_OK;
}

void ifig_carrier_free(IfigCarrier *carrier)
{
    free(carrier->offset);
    free(carrier->is_made);
    free(carrier->rung);
    free(carrier->sample);
    free(carrier->at_node);
    free(carrier->coefficient);
    *carrier = (IfigCarrier){.supports = NULL};
}
