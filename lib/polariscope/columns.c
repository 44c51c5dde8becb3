/* SPDX-License-Identifier: MIT */
/* The colours of an aggregate's columns of grains, and of the spots that the eye sees. */
#include "face.h"

#include "base.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Samples along a pixel's side, at the borders of large grains. */
enum { FINER = 3 };
/* Where fringes of a column gain more than this from nm to nm, none of it is left but a little
 * noise between neighbours. */
static const double FINEST_FRINGE_NM = 9e4;
/* Spots of less than this, in grains, leave each grain to be seen by itself. */
static const double SEEN_APART = 0.5;
/* Standard deviation of a cubic B-spline, in its steps. */
static const double SPLINE_SPREAD = 0.57735;

static void turn_field(double angle, const double complex field[2], double complex turned[2])
{
    turned[0] = cos(angle) * field[0] + sin(angle) * field[1];
    turned[1] = cos(angle) * field[1] - sin(angle) * field[0];
}

/* Add one wavelength of a column to its colours, one a turn. */
static void add_turns(const IfigInstrument *instrument, double stage, const IfigJonesXy *jones,
                      double wavelength_nm, const double weight[3], double (*xyz)[3])
{
    double complex in[2], out[2], from[2], to[2];
    const IfigRay straight = ifig_ray(instrument->immersion_index, 0, 0);
    ifig_polariser_field(instrument, &straight, in);
    ifig_analyser_field(instrument, &straight, wavelength_nm, out);
    for (int turn = 0; turn < IFIG_GRAIN_TURNS; turn++) {
        double angle = stage + turn * IFIG_PI / IFIG_GRAIN_TURNS;
        turn_field(angle, in, from);
        turn_field(angle, out, to);
        double complex through = 0;
        for (int i = 0; i < 2; i++) {
            through += conj(to[i]) * (jones->m[i][0] * from[0] + jones->m[i][1] * from[1]);
        }
        double light = creal(through) * creal(through) + cimag(through) * cimag(through);
        for (int c = 0; c < 3; c++) {
            xyz[turn][c] += weight[c] * light;
        }
    }
}

static IfigStatus fill(const IfigScene *scene, const IfigTexture *texture,
                       const IfigSpectrumSamples *samples, IfigJonesXy *jones, IfigColumns *columns,
                       IfigError *error)
{
    unsigned count = columns->grains.columns;
    double stage = scene->layers[0].orientation.stage_deg * IFIG_DEGREE;
    IfigStatus status = IFIG_OK;
    for (unsigned i = 0; status == IFIG_OK && i < count; i++) {
        status = ifig_grain_stack(scene, texture, i, samples->wavelength_nm, samples->count, jones,
                                  error);
        for (size_t k = 0; status == IFIG_OK && k < samples->count; k++) {
            add_turns(&scene->instrument, stage, &jones[k], samples->wavelength_nm[k],
                      samples->weight[k], columns->xyz + (size_t)i * IFIG_GRAIN_TURNS);
        }
    }
    for (unsigned i = 0; i < count * IFIG_GRAIN_TURNS; i++) {
        for (int c = 0; c < 3; c++) {
            columns->mean[c] += columns->xyz[i][c] / (count * IFIG_GRAIN_TURNS);
        }
    }
    return status;
}

IfigStatus ifig_columns_create(const IfigScene *scene, const IfigTexture *texture,
                               IfigColumns *columns, IfigError *error)
{
    IfigSpectrumSamples samples = {.count = 0};
    IfigStatus status = ifig_grain_cells_ready(scene, texture, &columns->grains, error);
    if (status == IFIG_OK) {
        /* Grains that lie every way add up as a random walk does. */
        double length = sqrt(fmax(1.0, scene->layers[0].thickness_mm / columns->grains.grain_mm));
        double retardation =
            columns->grains.birefringence * columns->grains.grain_mm * 1e6 * length;
        status =
            ifig_fine_samples(scene->lamp, fmin(retardation, FINEST_FRINGE_NM), &samples, error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    columns->xyz = calloc((size_t)columns->grains.columns * IFIG_GRAIN_TURNS, sizeof *columns->xyz);
    IfigJonesXy *jones = calloc(samples.count, sizeof *jones);
    status = columns->xyz == NULL || jones == NULL
                 ? ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for the colours of grains")
                 : fill(scene, texture, &samples, jones, columns, error);
    free(jones);
    ifig_spectrum_samples_free(&samples);
    return status;
}

/* Grains that are seen apart: the mean over a pixel. */
static void mosaic_light(const IfigColumns *columns, double u, double v, double side, double xyz[3])
{
    memset(xyz, 0, 3 * sizeof *xyz);
    for (int i = 0; i < FINER * FINER; i++) {
        double right = u + ((i % FINER + 0.5) / FINER - 0.5) * side;
        double up = v + ((i / FINER + 0.5) / FINER - 0.5) * side;
        unsigned column = ifig_grain_column(&columns->grains, right, up);
        for (int c = 0; c < 3; c++) {
            xyz[c] += columns->xyz[column][c] / (FINER * FINER);
        }
    }
}

/* Weights of the four nodes about a place, 0 <= t < 1 from the second. */
static void spline_weights(double t, double weight[4])
{
    double s = 1.0 - t;
    weight[0] = s * s * s / 6.0;
    weight[1] = (4.0 - 6.0 * t * t + 3.0 * t * t * t) / 6.0;
    weight[2] = (4.0 - 6.0 * s * s + 3.0 * s * s * s) / 6.0;
    weight[3] = t * t * t / 6.0;
}

/* Spots of many grains: a lattice of nodes, each the mean of the columns in its square, which
 * strays as the root of their number less than one column does, blurred by a cubic B-spline. */
static void glow_light(const IfigColumns *columns, double u, double v, double spot, double xyz[3])
{
    const IfigGrainCells *grains = &columns->grains;
    double node = fmax(spot / SPLINE_SPREAD, 1.0 / grains->half_width);
    double stray = 1.0 / (node * grains->half_width);
    double x = u / node, y = v / node, across[4], up[4];
    double column = floor(x), row = floor(y);
    spline_weights(x - column, across);
    spline_weights(y - row, up);
    memcpy(xyz, columns->mean, 3 * sizeof *xyz);
    for (int i = 0; i < 16; i++) {
        unsigned taken = ifig_grain_node(grains, column + i % 4 - 1, row + i / 4 - 1);
        double weight = stray * across[i % 4] * up[i / 4];
        for (int c = 0; c < 3; c++) {
            xyz[c] += weight * (columns->xyz[taken][c] - columns->mean[c]);
        }
    }
}

void ifig_columns_light(const IfigColumns *columns, double x, double y, double side,
                        const double turn[2], double xyz[3])
{
    const IfigGrainCells *grains = &columns->grains;
    double u = turn[0] * x + turn[1] * y, v = turn[0] * y - turn[1] * x;
    double spot = fmax(grains->spot, 0.5 * side);
    if (spot * grains->half_width < SEEN_APART) {
        mosaic_light(columns, u, v, side, xyz);
    } else {
        glow_light(columns, u, v, spot, xyz);
    }
}
