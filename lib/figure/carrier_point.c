/* SPDX-License-Identifier: MIT */
/* All samples at a point of a square, to which a carrier is held: see carrier.h. */
#include "carrier.h"

#include "base.h"
#include "fringe_row.h"
#include "fringe_wave.h"

#include <math.h>
#include <string.h>

static IfigSlopes polynomial(const double *c, double tx, double ty)
{
    IfigSlopes s = {0, 0, 0};
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

/* The smooth quantities of every sample at a point, and the slopes of h^2. */
typedef struct Quantities {
    double q[7][IFIG_SAMPLES_MOST], x[IFIG_SAMPLES_MOST], y[IFIG_SAMPLES_MOST];
} Quantities;

IFIG_INLINE void interpolate(const IfigFigure *figure, const IfigSlopes *at_node, double pixel,
                             Quantities *restrict s)
{
    size_t count = figure->samples.count, quantities = figure->quantity_count;
    int is_every = figure->node_count == count; /* each sample is its own node */
    for (size_t i = 0; i < 7; i++) {
        memset(s->q[i], 0, count * sizeof(double));
    }
    memset(s->x, 0, count * sizeof(double));
    memset(s->y, 0, count * sizeof(double));
    for (size_t m = 0; m < figure->node_count; m++) {
        size_t first = is_every ? m : 0, end = is_every ? m + 1 : count;
        const double *weight = figure->interpolation + m * count;
        const IfigSlopes *node = at_node + m * quantities;
        for (size_t i = 0; i < quantities; i++) {
            for (size_t k = first; k < end; k++) {
                s->q[i][k] += weight[k] * node[i].value;
            }
        }
        for (size_t k = first; k < end; k++) {
            s->x[k] += weight[k] * (node[0].x * pixel);
            s->y[k] += weight[k] * (node[0].y * pixel);
        }
    }
}

IFIG_INLINE void waves(const IfigFigure *figure, IfigFieldKind kind, const Quantities *restrict s,
                       IfigCarrierPoint *restrict p)
{
    const double *restrict wavelength = figure->samples.wavelength_nm;
    double twice = 2.0 * figure->thickness_nm[0];
    for (size_t k = 0; k < figure->samples.count; k++) {
        double per_h = twice / wavelength[k];
        IfigFields fields = {s->q[0][k], s->q[1][k], s->q[2][k], s->q[3][k],
                             s->q[4][k], s->q[5][k], s->q[6][k]};
        IfigWave wave = ifig_wave(&fields, kind, per_h);
        /* turns = per_h h, so that its slope is per_h^2 / (2 turns) that of h^2. */
        double scale = 0.5 * per_h * per_h / wave.turns;
        double cosine = ifig_cosine_turns(wave.turns), sine = ifig_sine_turns(wave.turns);
        p->turns[k] = wave.turns;
        p->even[k] = wave.even;
        p->x[k] = scale * s->x[k];
        p->y[k] = scale * s->y[k];
        p->re[k] = wave.cosine * cosine + wave.sine * sine;
        p->im[k] = wave.cosine * sine - wave.sine * cosine;
    }
}

/* The sum over all samples, as fringe_sum.c takes it. */
IFIG_INLINE void full_sum(const IfigFigure *figure, IfigCarrierPoint *restrict p)
{
    size_t count = figure->samples.count;
    double step[IFIG_SAMPLES_MOST], left[IFIG_SAMPLES_MOST], re[3] = {0, 0, 0}, im[3] = {0, 0, 0};
    ifig_carrier_steps(p->turns, count, step);
    for (size_t k = 0; k < count; k++) {
        left[k] = ifig_spline_of_sinc(ifig_sinc_turns(step[k]), step[k]) * ifig_sinc_turns(p->x[k]) *
                  ifig_sinc_turns(p->y[k]);
    }
    for (size_t k = 0; k < count; k++) {
        const double *weight = figure->samples.weight[k];
        for (int i = 0; i < 3; i++) {
            p->even_sum[i] += weight[i] * p->even[k];
            re[i] += weight[i] * (left[k] * p->re[k]);
            im[i] += weight[i] * (left[k] * p->im[k]);
        }
    }
    for (int i = 0; i < 3; i++) {
        p->fringe_sum[i] = re[i] + I * im[i];
    }
}

/* The slope of the sRGB code, or a little more (its power is -7/12), in the darkest colour that the
 * fringe makes in passing; at least a tenth of the greatest, for those who take XYZ. */
static double levels_per_light(double linear)
{
    double root = sqrt(linear > 0.0031308 ? linear : 0.0031308);
    double slope = 255.0 * 1.055 / 2.4 / (root * sqrt(sqrt(root)));
    return slope > 3294.6 ? 3294.6 : slope < 330.0 ? 330.0 : slope;
}

static void find_levels(const IfigRaster *raster, IfigCarrierPoint *p)
{
    const double complex even[3] = {p->even_sum[0], p->even_sum[1], p->even_sum[2]};
    for (int i = 0; i < 3; i++) {
        double fringe = cabs(ifig_channel(raster->plain_colour[i], p->fringe_sum));
        p->levels[i] =
            levels_per_light(creal(ifig_channel(raster->plain_colour[i], even)) - fringe);
    }
}

IFIG_CLONES
static void make_point(const IfigFigure *figure, const IfigSlopes *at_node, double pixel,
                       IfigCarrierPoint *p)
{
    Quantities quantities;
    interpolate(figure, at_node, pixel, &quantities);
    if (figure->is_absorbing) {
        waves(figure, IFIG_FIELDS_ABSORBING, &quantities, p);
    } else {
        waves(figure, IFIG_FIELDS_COMPLEX, &quantities, p);
    }
    full_sum(figure, p);
}

void ifig_carrier_point(const IfigFigure *figure, const IfigTile *tile, double tx, double ty,
                        IfigSlopes *at_node, IfigCarrierPoint *p)
{
    for (size_t i = 0; i < figure->node_count * figure->quantity_count; i++) {
        at_node[i] = polynomial(tile->at_nodes + i * NN, tx, ty);
    }
    p->at[0] = tx;
    p->at[1] = ty;
    memset(p->even_sum, 0, sizeof p->even_sum);
    make_point(figure, at_node, tile->pixel, p);
    find_levels(&figure->raster, p);
}
