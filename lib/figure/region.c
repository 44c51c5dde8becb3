/* SPDX-License-Identifier: MIT */
/* A square of the picture: polynomials where they fit, smaller squares where they do not, and finer
 * samples where the phase bends within a pixel. */
#include "figure.h"

#include "base.h"

#include <stdlib.h>
#include <string.h>

enum {
    LEAST_SIDE = 4, /* pixels: here the Chebyshev points stand closer than the pixels do */
    FINER = 4       /* samples along each side of a pixel whose phase bends */
};

IfigStatus ifig_region_work_create(const IfigFigure *figure, IfigRegionWork *work, IfigError *error)
{
    size_t coefficients = ifig_tile_coefficient_count(figure);
    size_t fit = ifig_tile_workspace_size(figure), fringe = ifig_fringe_workspace_size(figure);
    size_t picture = (size_t)IFIG_TILE_MAX * IFIG_TILE_MAX * 3;
    work->memory = calloc(coefficients + fit + fringe + picture, sizeof *work->memory);
    if (work->memory == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for a tile of the figure");
    }
    work->coefficient = work->memory;
    work->fit = work->coefficient + coefficients;
    work->fringe = work->fit + fit;
    work->xyz = (double(*)[3])(work->fringe + fringe);
    return IFIG_OK;
}

void ifig_region_work_free(IfigRegionWork *work)
{
    free(work->memory);
    work->memory = NULL;
}

/* Take a bent pixel's mean over finer samples. */
static void render_finer(const IfigFigure *figure, const IfigTile *tile, double tx, double ty,
                         double *fringe, double mean[3])
{
    double side = tile->pixel / FINER, sum[3] = {0, 0, 0};
    double first = -0.5 * tile->pixel + 0.5 * side;
    for (int row = 0; row < FINER; row++) {
        double xyz[FINER][3];
        ifig_fringe_row(figure, tile, tx + first, ty + first + row * side, side, FINER, fringe, xyz,
                        NULL);
        for (int x = 0; x < FINER; x++) {
            for (int i = 0; i < 3; i++) {
                sum[i] += xyz[x][i];
            }
        }
    }
    for (int i = 0; i < 3; i++) {
        mean[i] = sum[i] / (FINER * FINER);
    }
}

/* Render a square whose polynomials fit. xyz: its top left pixel in the tile-wide buffer. */
static void render_fitted(const IfigFigure *figure, const IfigTile *tile, uint32_t side,
                          double *fringe, double (*xyz)[3])
{
    unsigned char bent[IFIG_TILE_MAX];
    double first = -1.0 + 0.5 * tile->pixel;
    for (uint32_t row = 0; row < side; row++) {
        double ty = -first - row * tile->pixel; /* the picture's rows go down, y goes up */
        double(*out)[3] = xyz + (size_t)row * IFIG_TILE_MAX;
        ifig_fringe_row(figure, tile, first, ty, tile->pixel, side, fringe, out, bent);
        for (uint32_t x = 0; x < side; x++) {
            if (bent[x]) {
                render_finer(figure, tile, first + x * tile->pixel, ty, fringe, out[x]);
            }
        }
    }
}

/* No pixel of the square lies within the disc. */
static int outside_disc(const IfigTile *tile)
{
    double x = tile->x < 0 ? -tile->x : tile->x, y = tile->y < 0 ? -tile->y : tile->y;
    double near_x = x > tile->half ? x - tile->half : 0,
           near_y = y > tile->half ? y - tile->half : 0;
    double rim = 1.0 + 2.0 * tile->half * tile->pixel;
    return near_x * near_x + near_y * near_y > rim * rim;
}

static void render_square(const IfigFigure *figure, uint32_t left, uint32_t top, uint32_t side,
                          IfigRegionWork *work, double (*xyz)[3])
{
    double radius = 0.5 * figure->raster.pixels;
    IfigTile tile = {.x = (left + 0.5 * side) / radius - 1.0,
                     .y = 1.0 - (top + 0.5 * side) / radius,
                     .half = 0.5 * side / radius,
                     .pixel = 2.0 / side,
                     .coefficient = work->coefficient};
    if (outside_disc(&tile)) {
        for (uint32_t row = 0; row < side; row++) {
            memset(xyz + (size_t)row * IFIG_TILE_MAX, 0, side * sizeof *xyz);
        }
        return;
    }
    if (ifig_tile_fit(figure, &tile, work->fit) || side <= LEAST_SIDE) {
        render_fitted(figure, &tile, side, work->fringe, xyz);
        return;
    }
    uint32_t half = side / 2;
    for (uint32_t quarter = 0; quarter < 4; quarter++) {
        uint32_t right = quarter % 2 * half, down = quarter / 2 * half;
        render_square(figure, left + right, top + down, half, work,
                      xyz + (size_t)down * IFIG_TILE_MAX + right);
    }
}

void ifig_region_render(const IfigFigure *figure, uint32_t left, uint32_t top, uint32_t side,
                        IfigRegionWork *work)
{
    render_square(figure, left, top, side, work, work->xyz);
}
