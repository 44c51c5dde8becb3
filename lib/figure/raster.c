/* SPDX-License-Identifier: MIT */
/* A raster: the size of a picture, its colours, and who computes it. */
#include "figure.h"

#include "base.h"

static IfigStatus check_options(const IfigFigureOptions *options, IfigError *error)
{
    if (options == NULL || options->size != sizeof *options) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the options are NULL or have an unknown size; start from "
                         "IFIG_FIGURE_OPTIONS_INIT");
    }
    IfigStatus status = ifig_check_range("size", options->pixels, 1, 65535, "pixels", error);
    if (status == IFIG_OK) {
        status = ifig_check_range("exposure", options->exposure_stops, -20, 20, "stops", error);
    }
    if (status == IFIG_OK) {
        status = ifig_check_range("number of threads", options->threads, 0, 256, "", error);
    }
    return status;
}

/* The side of a tile: the picture in about 8 x 8, a power of two that halves down to a few
 * pixels. */
static uint32_t choose_tile(uint32_t pixels)
{
    uint32_t side = 8;
    while (side < IFIG_TILE_MAX && side * 8 < pixels) {
        side *= 2;
    }
    return side;
}

IfigStatus ifig_raster_create(const IfigFigureOptions *options, const IfigLamp *lamp,
                              IfigRaster *raster, IfigError *error)
{
    IfigStatus status = check_options(options, error);
    if (status != IFIG_OK) {
        return status;
    }
    raster->pixels = options->pixels;
    raster->tile_pixels = choose_tile(options->pixels);
    raster->symmetry = IFIG_SYMMETRY_NONE;
    raster->threads = options->threads;
    raster->progress = options->progress;
    raster->progress_context = options->progress_context;
    ifig_colour_matrix(lamp, options->exposure_stops, raster->colour);
    ifig_colour_matrix(lamp, 0.0, raster->plain_colour);
    ifig_code_table(raster);
    return IFIG_OK;
}
