/* SPDX-License-Identifier: MIT */
/* A square of the picture: polynomials where they fit, smaller squares where they do not; a few
 * wavelengths where they carry the colour (carrier.h), smaller squares and at last every sample
 * where they do not; finer samples where the phase bends within a pixel. */
#include "carrier.h"

#include "base.h"

#include <stdlib.h>
#include <string.h>

enum {
    LEAST_SIDE = 4,     /* pixels: here the Chebyshev points stand closer than the pixels do */
    LEAST_CARRIED = 16, /* pixels: below, a carrier costs more than it saves */
    FINER = 4           /* samples along each side of a pixel whose phase bends */
};

struct IfigRegionWork {
    const IfigFigure *figure;
    double *memory, *coefficient, *at_nodes, *fringe;
    double (*xyz)[3]; /* IFIG_TILE_MAX x IFIG_TILE_MAX */
    IfigCarrier carrier;
    IfigFewWork *few, *few_finer;
};

/* A square of pixels within a fitted tile, from column left and row top of it. */
typedef struct Square {
    IfigTile *tile;
    double (*xyz)[3]; /* the tile's top left pixel */
    uint32_t left, top, side;
} Square;

IfigStatus ifig_region_work_create(const IfigFigure *figure, IfigRegionWork **work,
                                   IfigError *error)
{
    size_t coefficients = ifig_tile_coefficient_count(figure);
    size_t nodes = ifig_tile_node_coefficient_count(figure);
    size_t fringe = ifig_fringe_workspace_size(figure);
    size_t picture = (size_t)IFIG_TILE_MAX * IFIG_TILE_MAX * 3;
    IfigRegionWork *made = calloc(1, sizeof *made);
    *work = made;
    if (made != NULL) {
        made->memory = malloc((coefficients + nodes + fringe + picture) * sizeof *made->memory);
        made->few = malloc(2 * ifig_few_work_size());
    }
    if (made == NULL || made->memory == NULL || made->few == NULL ||
        ifig_carrier_create(figure, &made->carrier, NULL) != IFIG_OK) {
        ifig_region_work_free(made);
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for a tile of the figure");
    }
    made->figure = figure;
    made->few_finer = (IfigFewWork *)((char *)made->few + ifig_few_work_size());
    made->coefficient = made->memory;
    made->at_nodes = made->coefficient + coefficients;
    made->fringe = made->at_nodes + nodes;
    made->xyz = (double(*)[3])(made->fringe + fringe);
    return IFIG_OK;
}

void ifig_region_work_free(IfigRegionWork *work)
{
    if (work != NULL) {
        ifig_carrier_free(&work->carrier);
        free(work->few);
        free(work->memory);
        free(work);
    }
}

/* Centre of a pixel of the tile. The picture's rows go down, y goes up. */
static double centre_x(const IfigTile *tile, uint32_t column)
{
    return -1.0 + (column + 0.5) * tile->pixel;
}

static double centre_y(const IfigTile *tile, uint32_t row)
{
    return 1.0 - (row + 0.5) * tile->pixel;
}

/* A row of samples finer than pixels: number 0, 1, ... of a pixel whose first stands at (tx, ty).
 */
static void finer_row(IfigRegionWork *work, IfigTile *tile, double tx, double ty, int by_few,
                      size_t number, double (*xyz)[3])
{
    unsigned char bent[FINER];
    double side = tile->pixel / FINER;
    ty -= (double)number * side;
    if (!by_few) {
        ifig_fringe_row(work->figure, tile, tx, ty, side, FINER, work->fringe, xyz, NULL);
        return;
    }
    if (number == 0) {
        ifig_few_begin(work->figure, &work->carrier, tx, ty, side, FINER, work->few_finer);
    }
    ifig_few_row(work->figure, &work->carrier, tx, ty, side, number, FINER, work->few_finer, xyz,
                 bent);
}

/* Take a bent pixel's mean over finer samples. */
static void render_finer(IfigRegionWork *work, IfigTile *tile, double tx, double ty, int by_few,
                         double mean[3])
{
    double sum[3] = {0, 0, 0}, away = 0.5 * tile->pixel * (1.0 - 1.0 / FINER);
    if (!by_few) {
        ifig_tile_samples(work->figure, tile);
    }
    for (size_t row = 0; row < FINER; row++) {
        double xyz[FINER][3];
        finer_row(work, tile, tx - away, ty + away, by_few, row, xyz);
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

static void mend_bent(IfigRegionWork *work, const Square *s, uint32_t column, uint32_t row,
                      uint32_t count, int by_few, const unsigned char *bent)
{
    for (uint32_t x = 0; x < count; x++) {
        if (bent[x]) {
            render_finer(work, s->tile, centre_x(s->tile, column + x), centre_y(s->tile, row),
                         by_few, s->xyz[(size_t)row * IFIG_TILE_MAX + column + x]);
        }
    }
}

static void render_strip(IfigRegionWork *work, const Square *s, uint32_t column, uint32_t count,
                         int by_few)
{
    unsigned char bent[IFIG_ROW_MAX];
    IfigTile *tile = s->tile;
    double tx = centre_x(tile, column);
    if (by_few) {
        ifig_few_begin(work->figure, &work->carrier, tx, centre_y(tile, s->top), tile->pixel, count,
                       work->few);
    } else {
        ifig_tile_samples(work->figure, tile);
    }
    for (uint32_t row = 0; row < s->side; row++) {
        double ty = centre_y(tile, s->top + row);
        double(*xyz)[3] = s->xyz + (size_t)(s->top + row) * IFIG_TILE_MAX + column;
        if (by_few) {
            ifig_few_row(work->figure, &work->carrier, tx, ty, tile->pixel, row, count, work->few,
                         xyz, bent);
        } else {
            ifig_fringe_row(work->figure, tile, tx, ty, tile->pixel, count, work->fringe, xyz,
                            bent);
        }
        mend_bent(work, s, column, s->top + row, count, by_few, bent);
    }
}

static void render_strips(IfigRegionWork *work, const Square *s, int by_few)
{
    for (uint32_t column = 0; column < s->side; column += IFIG_ROW_MAX) {
        uint32_t left = s->side - column;
        render_strip(work, s, s->left + column, left < IFIG_ROW_MAX ? left : IFIG_ROW_MAX, by_few);
    }
}

/* Render a square whose polynomials fit. */
static void render_fitted(IfigRegionWork *work, const Square *s)
{
    double half = 0.5 * s->side * s->tile->pixel;
    int may_carry = work->figure->support_set_count > 0 && s->side >= LEAST_CARRIED;
    if (may_carry && ifig_carrier_fit(work->figure, s->tile, -1.0 + s->left * s->tile->pixel + half,
                                      1.0 - s->top * s->tile->pixel - half, half, &work->carrier)) {
        render_strips(work, s, 1);
        return;
    }
    if (!may_carry || s->side < 2 * LEAST_CARRIED) {
        render_strips(work, s, 0);
        return;
    }
    for (uint32_t quarter = 0; quarter < 4; quarter++) {
        Square part = *s;
        part.side = s->side / 2;
        part.left += quarter % 2 * part.side;
        part.top += quarter / 2 * part.side;
        render_fitted(work, &part);
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

static void render_square(IfigRegionWork *work, uint32_t left, uint32_t top, uint32_t side,
                          double (*xyz)[3])
{
    double radius = 0.5 * work->figure->pixels;
    IfigTile tile = {.x = (left + 0.5 * side) / radius - 1.0,
                     .y = 1.0 - (top + 0.5 * side) / radius,
                     .half = 0.5 * side / radius,
                     .pixel = 2.0 / side,
                     .must_fit = side <= LEAST_SIDE,
                     .at_nodes = work->at_nodes,
                     .coefficient = work->coefficient};
    if (outside_disc(&tile)) {
        for (uint32_t row = 0; row < side; row++) {
            memset(xyz + (size_t)row * IFIG_TILE_MAX, 0, side * sizeof *xyz);
        }
        return;
    }
    if (ifig_tile_fit(work->figure, &tile) || tile.must_fit) {
        Square whole = {&tile, xyz, 0, 0, side};
        render_fitted(work, &whole);
        return;
    }
    uint32_t half = side / 2;
    for (uint32_t quarter = 0; quarter < 4; quarter++) {
        uint32_t right = quarter % 2 * half, down = quarter / 2 * half;
        render_square(work, left + right, top + down, half,
                      xyz + (size_t)down * IFIG_TILE_MAX + right);
    }
}

double (*ifig_region_render(const IfigFigure *figure, uint32_t left, uint32_t top, uint32_t side,
                            IfigRegionWork *work))[3]
{
    work->figure = figure;
    render_square(work, left, top, side, work->xyz);
    return work->xyz;
}
