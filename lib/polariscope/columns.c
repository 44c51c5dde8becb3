/* SPDX-License-Identifier: MIT */
/* The colours of an aggregate's columns of grains. A face may hold millions of columns: each takes
 * its colour, by its name, from a few thousand that are computed. */
#include "face.h"

#include "base.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Samples along a pixel's side: at the borders of large grains, and at most. */
enum { EDGE_FINER = 3, MOST_FINER = 8 };
/* Where fringes of a column gain more than this from nm to nm, none of it is left but a little
 * noise between neighbours. */
static const double FINEST_FRINGE_NM = 9e4;

static double light_of(const IfigScene *scene, const double complex in[2], const IfigJonesXy *jones,
                       double wavelength_nm)
{
    double complex out[2], field[2];
    ifig_analyser_field(&scene->instrument, 0, 0, wavelength_nm, out);
    for (int i = 0; i < 2; i++) {
        field[i] = jones->m[i][0] * in[0] + jones->m[i][1] * in[1];
    }
    double complex through = conj(out[0]) * field[0] + conj(out[1]) * field[1];
    return creal(through) * creal(through) + cimag(through) * cimag(through);
}

static IfigStatus fill(const IfigScene *scene, const IfigTexture *texture,
                       const IfigSpectrumSamples *samples, IfigJonesXy *jones, IfigColumns *columns,
                       IfigError *error)
{
    double complex in[2];
    IfigStatus status = IFIG_OK;
    ifig_polariser_field(&scene->instrument, 0, 0, in);
    for (unsigned i = 0; status == IFIG_OK && i < columns->grains.columns; i++) {
        status = ifig_grain_stack(scene, texture, i, samples->wavelength_nm, samples->count, jones,
                                  error);
        ifig_turn_jones(scene, samples->count, jones);
        for (size_t k = 0; status == IFIG_OK && k < samples->count; k++) {
            double light = light_of(scene, in, &jones[k], samples->wavelength_nm[k]);
            for (int c = 0; c < 3; c++) {
                columns->xyz[i][c] += samples->weight[k][c] * light;
                columns->mean[c] += samples->weight[k][c] * light / columns->grains.columns;
            }
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
    columns->xyz = calloc(columns->grains.columns, sizeof *columns->xyz);
    IfigJonesXy *jones = calloc(samples.count, sizeof *jones);
    status = columns->xyz == NULL || jones == NULL
                 ? ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for the colours of grains")
                 : fill(scene, texture, &samples, jones, columns, error);
    free(jones);
    ifig_spectrum_samples_free(&samples);
    return status;
}

void ifig_columns_light(const IfigColumns *columns, double x, double y, double side,
                        const double turn[2], double xyz[3])
{
    const IfigGrainCells *grains = &columns->grains;
    double across = side * grains->half_width; /* grains in a pixel's side */
    int is_fine = across > 1.5, finer = EDGE_FINER;
    if (is_fine) {
        finer = across < MOST_FINER ? (int)ceil(across) : MOST_FINER;
    }
    double sum[3] = {0}, each = 1.0 / (finer * finer);
    for (int i = 0; i < finer * finer; i++) {
        double right = x + ((i % finer + 0.5) / finer - 0.5) * side;
        double up = y + ((i / finer + 0.5) / finer - 0.5) * side;
        double u = turn[0] * right + turn[1] * up, v = turn[0] * up - turn[1] * right;
        unsigned column =
            is_fine ? ifig_grain_square(grains, u, v) : ifig_grain_column(grains, u, v);
        for (int c = 0; c < 3; c++) {
            sum[c] += each * columns->xyz[column][c];
        }
    }
    /* The mean of more columns than are looked at strays less from that of all. */
    double stray = across > finer ? finer / across : 1.0;
    for (int c = 0; c < 3; c++) {
        xyz[c] = columns->mean[c] + stray * (sum[c] - columns->mean[c]);
    }
}
