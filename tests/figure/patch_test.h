/* SPDX-License-Identifier: MIT */
/* A square of a picture with its carrier, as region.c makes them. */
#ifndef IFIG_PATCH_TEST_H
#define IFIG_PATCH_TEST_H

#include "carrier.h"
#include "figure_test.h"

enum { PIXELS = 1024, SIDE = 64 };

static const IfigPatch whole_patch = {0, 0, 1, 1};

typedef struct Patch {
    Setup setup;
    IfigFigure *figure;
    IfigTile tile;
    IfigCarrier carrier;
    double *workspace; /* for ifig_fringe_row */
} Patch;

static inline void *room(size_t bytes)
{
    void *memory = calloc(1, bytes);
    ck_assert_ptr_nonnull(memory);
    return memory;
}

/* A square of SIDE pixels about a point of the picture's disc. */
static inline void fit_patch(const Recipe *recipe, double x, double y, int at_last, Patch *p)
{
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    options.pixels = PIXELS;
    set_up(recipe, &p->setup);
    ck_assert_int_eq(ifig_figure_create(&p->setup.scene, &options, &p->figure, NULL), IFIG_OK);
    p->tile = (IfigTile){.x = x, .y = y, .half = SIDE / (double)PIXELS, .pixel = 2.0 / SIDE};
    p->tile.at_nodes = room(ifig_tile_node_coefficient_count(p->figure) * sizeof(double));
    p->tile.coefficient = room(ifig_tile_coefficient_count(p->figure) * sizeof(double));
    p->workspace = room(ifig_fringe_workspace_size(p->figure) * sizeof *p->workspace);
    ck_assert(ifig_tile_fit(p->figure, &p->tile));
    ifig_tile_samples(p->figure, &p->tile);
    ck_assert_int_eq(ifig_carrier_create(p->figure, &p->carrier, NULL), IFIG_OK);
    ck_assert(ifig_carrier_fit(p->figure, &p->tile, &whole_patch, at_last, &p->carrier));
}

static inline void drop(Patch *p)
{
    free(p->workspace);
    free(p->tile.at_nodes);
    free(p->tile.coefficient);
    ifig_carrier_free(&p->carrier);
    ifig_figure_free(p->figure);
    take_down(&p->setup);
}

/* A channel of 255 levels. */
static inline double level(const IfigFigure *figure, const IfigLightRow *row, size_t x, int channel)
{
    const double *m = figure->raster.plain_colour[channel];
    double linear = m[0] * (double)row->xyz[0][x] + m[1] * (double)row->xyz[1][x] +
                    m[2] * (double)row->xyz[2][x];
    return 255.0 * ifig_srgb_encode(linear < 0 ? 0 : linear > 1 ? 1 : linear);
}

/* The most by which two rows' pixel x differs. */
static inline double apart(const IfigFigure *figure, const IfigLightRow *one,
                           const IfigLightRow *other, size_t x)
{
    double worst = 0;
    for (int i = 0; i < 3; i++) {
        worst = fmax(worst, fabs(level(figure, one, x, i) - level(figure, other, x, i)));
    }
    return worst;
}

#endif
