/* SPDX-License-Identifier: MIT */
/* All samples at a point of a square, to which a carrier is held: see carrier.h. */
#include "carrier.h"

#include "base.h"
#include "fringe_row.h"
#include "fringe_wave.h"

#include <math.h>
#include <string.h>

IFIG_INLINE double polynomial(const double *c, double tx, double ty)
{
    double row[N];
    collapse(c, ty, row);
    return horner(row, tx);
}

/* A polynomial and its derivatives at a point. */
typedef struct Slopes {
    double value, x, y;
} Slopes;

IFIG_INLINE Slopes slopes(const double *c, double tx, double ty)
{
    double row[N], slope_x[N], slope_y[N], bend[N];
    collapse(c, ty, row);
    collapse_slopes(c, ty, slope_y, bend);
    differentiate(row, slope_x, bend);
    return (Slopes){horner(row, tx), horner(slope_x, tx), horner(slope_y, tx)};
}

/* The smooth quantities of every sample at a point, and the slopes of h^2. */
typedef struct Quantities {
    double q[7][IFIG_SAMPLES_PADDED], x[IFIG_SAMPLES_PADDED], y[IFIG_SAMPLES_PADDED];
} Quantities;

/* at_node: of each node what it has of the quantities, then of the slopes of h^2. All of them are
 * carried to N samples at a time; beyond the last sample there is room. */
IFIG_INLINE void interpolate(const IfigFigure *figure, size_t quantities,
                             const double (*at_node)[IFIG_POINT_VALUES], Quantities *restrict s)
{
    size_t count = figure->samples.count, nodes = figure->node_count, values = quantities + 2;
    double *out[IFIG_POINT_VALUES] = {s->q[0], s->q[1], s->q[2], s->q[3],
                                      s->q[4], s->q[5], s->q[6]};
    out[quantities] = s->x;
    out[quantities + 1] = s->y;
    for (size_t i = quantities; i < 7; i++) {
        memset(s->q[i], 0, count * sizeof(double));
    }
    for (size_t k = 0; k < count && nodes == count; k++) { /* each sample is its own node */
        for (size_t i = 0; i < values; i++) {
            out[i][k] = at_node[k][i];
        }
    }
    for (size_t first = 0; first < count && nodes != count; first += N) {
        IfigDoubles sum[IFIG_POINT_VALUES] = {{0}}, weight;
        const double *row = figure->interpolation + first;
        for (size_t m = 0; m < nodes; m++, row += count) {
            ifig_read(row, &weight);
            for (size_t i = 0; i < values; i++) {
                sum[i] += weight * at_node[m][i];
            }
        }
        for (size_t i = 0; i < values; i++) {
            ifig_write(&sum[i], out[i] + first);
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
        float part = (float)(wave.turns - ifig_nearest(wave.turns));
        double cosine = (double)ifig_cosine_part(part), sine = (double)ifig_sine_part(part);
        p->turns[k] = wave.turns;
        p->even[k] = wave.even;
        p->x[k] = scale * s->x[k];
        p->y[k] = scale * s->y[k];
        p->re[k] = wave.cosine * cosine + wave.sine * sine;
        p->im[k] = wave.cosine * sine - wave.sine * cosine;
    }
}

/* The sum over samples of a weight times a value, lane by lane. */
IFIG_INLINE double sum_of_products(const double *restrict weight, const double *restrict value,
                                   size_t count)
{
    IfigDoubles sum = {0}, w, v;
    for (size_t k = 0; k < count; k += N) {
        ifig_read(weight + k, &w);
        ifig_read(value + k, &v);
        sum += w * v;
    }
    return ((sum[0] + sum[4]) + (sum[2] + sum[6])) + ((sum[1] + sum[5]) + (sum[3] + sum[7]));
}

/* The sum over all samples, as fringe_sum.c takes it; the phase changes so much of what it does
 * across a pixel. */
IFIG_INLINE void full_sum(const IfigFigure *figure, float part, IfigCarrierPoint *restrict p,
                          double complex sum[3])
{
    size_t count = figure->samples.count;
    double re[IFIG_SAMPLES_PADDED], im[IFIG_SAMPLES_PADDED];
    ifig_carrier_steps(p->turns, count, p->step);
    for (size_t k = 0; k < count; k++) {
        double left = (double)(ifig_spline_part((float)p->step[k]) *
                               ifig_sinc_part(part * (float)p->x[k]).sinc *
                               ifig_sinc_part(part * (float)p->y[k]).sinc);
        re[k] = left * p->re[k];
        im[k] = left * p->im[k];
    }
    for (size_t k = count; k < count + N; k++) {
        re[k] = im[k] = p->even[k] = 0.0;
    }
    for (size_t i = 0; i < 3; i++) {
        const double *weight = figure->weight_plane + i * IFIG_SAMPLES_PADDED;
        p->even_sum[i] = sum_of_products(weight, p->even, count);
        sum[i] = sum_of_products(weight, re, count) + I * sum_of_products(weight, im, count);
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

/* Whether the axis of some sample stands within a few pixels. */
IFIG_INLINE int is_beside_axis(const IfigCarrierPoint *p, size_t count)
{
    int beside = 0;
    for (size_t k = 0; k < count; k++) {
        beside |= ifig_point_is_bent(p, k);
    }
    return beside;
}

IFIG_CLONES
static void make_point(const IfigFigure *figure, const IfigTile *tile, double tx, double ty,
                       double (*at_node)[IFIG_POINT_VALUES], IfigCarrierPoint *p)
{
    Quantities quantities;
    size_t nodes = figure->node_count, count = figure->quantity_count;
    for (size_t m = 0; m < nodes; m++) {
        const double *c = tile->at_nodes + m * count * NN;
        Slopes h2 = slopes(c, tx, ty);
        at_node[m][0] = h2.value;
        for (size_t q = 1; q < count; q++) {
            at_node[m][q] = polynomial(c + q * NN, tx, ty);
        }
        at_node[m][count] = h2.x * tile->pixel;
        at_node[m][count + 1] = h2.y * tile->pixel;
    }
    const double(*nodes_have)[IFIG_POINT_VALUES] = (const double(*)[IFIG_POINT_VALUES])at_node;
    if (figure->is_absorbing) {
        interpolate(figure, 7, nodes_have, &quantities);
        waves(figure, IFIG_FIELDS_ABSORBING, &quantities, p);
    } else if (figure->is_complex) {
        interpolate(figure, 5, nodes_have, &quantities);
        waves(figure, IFIG_FIELDS_COMPLEX, &quantities, p);
    } else {
        interpolate(figure, 3, nodes_have, &quantities);
        waves(figure, IFIG_FIELDS_REAL, &quantities, p);
    }
    full_sum(figure, 1.0F, p, p->fringe_sum);
    if (is_beside_axis(p, figure->samples.count)) {
        full_sum(figure, 1.0F / (float)figure->bent_parts, p, p->finer_sum);
    }
}

void ifig_carrier_point(const IfigFigure *figure, const IfigTile *tile, double tx, double ty,
                        double (*at_node)[IFIG_POINT_VALUES], IfigCarrierPoint *p)
{
    p->at[0] = tx;
    p->at[1] = ty;
    make_point(figure, tile, tx, ty, at_node, p);
    find_levels(&figure->raster, p);
}
