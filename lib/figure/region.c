/* SPDX-License-Identifier: MIT */
/* A square of the picture: polynomials where they fit, smaller squares where they do not; a few
 * wavelengths where they carry the colour (carrier.h), smaller squares and at last every sample
 * where they do not; finer samples where the phase bends within a pixel. */
#include "plain.h"

#include "base.h"

#include <math.h>
#include <stdlib.h>

enum {
    LEAST_SIDE = 4,     /* pixels: here the Chebyshev points stand closer than the pixels do */
    LEAST_PLAIN = 400,  /* pixels of the picture: fewer are not worth another fit */
    LARGEST_FEW = 64,   /* pixels: above, some of four squares may be plain */
    LEAST_DIVIDED = 32, /* pixels: below, where one carrier fails four most often fail too */
};

struct IfigRegionWork {
    const IfigFigure *figure;
    double *memory, *coefficient, *at_nodes, *fringe;
    IfigLightRow *rows, *means; /* IFIG_TILE_MAX each; outside the disc what was there before */
    double radius;              /* of the disc in the pixels that are rendered */
    IfigCarrier carrier;
    IfigFewWork *few, *few_finer;
    IfigPlain plain;
    IfigPlainNodes *plain_nodes;
    IfigPlainWork *plain_work;
    IfigLightRow finer; /* a row of samples finer than pixels */
};

/* Columns from left to right, rows from top to bottom, the ends left out, in pixels of the picture.
 */
typedef struct Box {
    uint32_t left, right, top, bottom;
} Box;

/* A square of pixels to render from a fitted tile. */
typedef struct Square {
    IfigTile *tile;
    IfigLightRow *rows; /* its first */
    size_t column;      /* where its first pixel stands in them */
    uint32_t left, top, side;
} Square;

IfigStatus ifig_region_work_create(const IfigFigure *figure, IfigRegionWork **work,
                                   IfigError *error)
{
    size_t coefficients = ifig_tile_coefficient_count(figure);
    size_t nodes = ifig_tile_node_coefficient_count(figure);
    size_t fringe = ifig_fringe_workspace_size(figure);
    IfigRegionWork *made = calloc(1, sizeof *made);
    *work = made;
    if (made != NULL) {
        made->memory = malloc((coefficients + nodes + fringe) * sizeof *made->memory);
        made->rows = calloc((size_t)2 * IFIG_TILE_MAX, sizeof *made->rows);
        made->few = malloc(2 * ifig_few_work_size());
        made->plain_work = malloc(ifig_plain_work_size());
        made->plain_nodes = malloc(ifig_plain_nodes_size());
    }
    if (made == NULL || made->memory == NULL || made->few == NULL || made->plain_work == NULL ||
        made->rows == NULL || made->plain_nodes == NULL ||
        ifig_carrier_create(figure, &made->carrier, NULL) != IFIG_OK) {
        ifig_region_work_free(made);
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for a tile of the figure");
    }
    made->figure = figure;
    made->means = made->rows + IFIG_TILE_MAX;
    made->radius = 0.5 * figure->raster.pixels * figure->finer;
    made->few_finer = (IfigFewWork *)((char *)made->few + ifig_few_work_size());
    made->coefficient = made->memory;
    made->at_nodes = made->coefficient + coefficients;
    made->fringe = made->at_nodes + nodes;
    return IFIG_OK;
}

void ifig_region_work_free(IfigRegionWork *work)
{
    if (work != NULL) {
        ifig_carrier_free(&work->carrier);
        free(work->few);
        free(work->plain_work);
        free(work->plain_nodes);
        free(work->rows);
        free(work->memory);
        free(work);
    }
}

/* The part of a square that the disc touches: outside it the lens gathers no light, and optics
 * continued there would spoil the polynomials. 0 where there is none. */
static int box_of(const IfigRegionWork *work, uint32_t left, uint32_t top, uint32_t side, Box *box)
{
    double radius = work->radius, rim = radius + 1.0;
    double x0 = left - radius, x1 = x0 + side, y0 = top - radius, y1 = y0 + side;
    double near_x = x0 > 0 ? x0 : x1 < 0 ? x1 : 0, near_y = y0 > 0 ? y0 : y1 < 0 ? y1 : 0;
    double square_x = rim * rim - near_y * near_y, square_y = rim * rim - near_x * near_x;
    if (square_x <= near_x * near_x) {
        return 0;
    }
    double reach_x = sqrt(square_x), reach_y = sqrt(square_y);
    *box = (Box){left, left + side, top, top + side};
    box->left = -reach_x > x0 ? (uint32_t)(radius - reach_x) : left;
    box->top = -reach_y > y0 ? (uint32_t)(radius - reach_y) : top;
    box->right = reach_x < x1 ? (uint32_t)(radius + reach_x) + 1 : left + side;
    box->bottom = reach_y < y1 ? (uint32_t)(radius + reach_y) + 1 : top + side;
    box->right = box->right < left + side ? box->right : left + side;
    box->bottom = box->bottom < top + side ? box->bottom : top + side;
    return box->left < box->right && box->top < box->bottom;
}

/* The smallest square about a box, its other sides toward the centre of the picture. */
static IfigTile tile_about(const IfigRegionWork *work, const Box *box)
{
    double radius = work->radius;
    uint32_t width = box->right - box->left, height = box->bottom - box->top;
    double side = width > height ? width : height;
    double left = box->left + box->right > 2 * radius ? box->left : box->right - side;
    double top = box->top + box->bottom > 2 * radius ? box->top : box->bottom - side;
    return (IfigTile){.x = (left + 0.5 * side) / radius - 1.0,
                      .y = 1.0 - (top + 0.5 * side) / radius,
                      .half = 0.5 * side / radius,
                      .pixel = 2.0 / side,
                      .at_nodes = work->at_nodes,
                      .coefficient = work->coefficient};
}

/* A place of the picture, in pixels from its top left corner, within a tile. The picture's rows go
 * down, y goes up. */
static double place_x(const IfigRegionWork *work, const IfigTile *tile, double column)
{
    return (column / work->radius - 1.0 - tile->x) / tile->half;
}

static double place_y(const IfigRegionWork *work, const IfigTile *tile, double row)
{
    return (1.0 - row / work->radius - tile->y) / tile->half;
}

/* A row of samples finer than pixels: number 0, 1, ... of pixels whose first stands at (tx, ty). */
static void finer_row(IfigRegionWork *work, IfigTile *tile, double tx, double ty, size_t count,
                      int by_few, size_t number)
{
    IfigRowPlace to = {&work->finer, 0};
    double side = tile->pixel / work->figure->bent_parts;
    ty -= (double)number * side;
    if (!by_few) {
        ifig_fringe_row(work->figure, tile, tx, ty, side, count, work->fringe, to, NULL);
        return;
    }
    if (number == 0) {
        ifig_few_begin(work->figure, &work->carrier, tx, ty, side, count, work->few_finer);
    }
    ifig_few_row(work->figure, &work->carrier, ty, number, work->few_finer, to, NULL);
}

/* Take the means of bent pixels side by side, at most a row of samples, over finer samples. (tx,
 * ty): the first one's centre. */
static void render_finer(IfigRegionWork *work, IfigTile *tile, double tx, double ty, int by_few,
                         size_t pixels, IfigRowPlace to)
{
    size_t parts = work->figure->bent_parts;
    double sum[3][IFIG_ROW_MAX] = {{0}}, away = 0.5 * tile->pixel * (1.0 - 1.0 / (double)parts);
    if (!by_few) {
        ifig_tile_samples(work->figure, tile);
    }
    for (size_t row = 0; row < parts; row++) {
        finer_row(work, tile, tx - away, ty + away, parts * pixels, by_few, row);
        for (size_t i = 0; i < 3; i++) {
            for (size_t x = 0; x < parts * pixels; x++) {
                sum[i][x / parts] += (double)work->finer.xyz[i][x];
            }
        }
    }
    for (size_t i = 0; i < 3; i++) {
        for (size_t x = 0; x < pixels; x++) {
            to.row->xyz[i][to.column + x] = (float)(sum[i][x] / (double)(parts * parts));
        }
    }
}

/* The bent pixels of a row. (tx, ty): the centre of its first. */
static void render_bent(IfigRegionWork *work, IfigTile *tile, double tx, double ty, int by_few,
                        const unsigned char *bent, size_t count, IfigRowPlace to)
{
    for (size_t x = 0; x < count && work->figure->bent_parts > 1; x++) {
        size_t run = 0;
        while (run < IFIG_ROW_MAX / work->figure->bent_parts && x + run < count && bent[x + run]) {
            run++;
        }
        if (run > 0) {
            IfigRowPlace here = {to.row, to.column + x};
            render_finer(work, tile, tx + (double)x * tile->pixel, ty, by_few, run, here);
            x += run - 1;
        }
    }
}

/* Where a row of a box goes. */
static IfigRowPlace row_place(const Square *s, const Box *box, uint32_t row)
{
    return (IfigRowPlace){s->rows + (box->top - s->top + row), s->column + (box->left - s->left)};
}

/* Columns left to right of a box, all its rows. */
static void render_strip(IfigRegionWork *work, const Square *s, const Box *box, int by_few)
{
    unsigned char bent[IFIG_ROW_MAX];
    IfigTile *tile = s->tile;
    uint32_t count = box->right - box->left;
    double tx = place_x(work, tile, box->left + 0.5);
    double ty0 = place_y(work, tile, box->top + 0.5);
    if (by_few) {
        ifig_few_begin(work->figure, &work->carrier, tx, ty0, tile->pixel, count, work->few);
    } else {
        ifig_tile_samples(work->figure, tile);
    }
    for (uint32_t row = 0; row < box->bottom - box->top; row++) {
        double ty = ty0 - row * tile->pixel;
        IfigRowPlace to = row_place(s, box, row);
        if (by_few) {
            ifig_few_row(work->figure, &work->carrier, ty, row, work->few, to, bent);
        } else {
            ifig_fringe_row(work->figure, tile, tx, ty, tile->pixel, count, work->fringe, to, bent);
        }
        render_bent(work, tile, tx, ty, by_few, bent, count, to);
    }
}

/* The same away from optic axes. */
static void render_plain_strip(IfigRegionWork *work, const Square *s, const Box *box)
{
    IfigTile *tile = s->tile;
    uint32_t count = box->right - box->left;
    double tx = place_x(work, tile, box->left + 0.5);
    double ty0 = place_y(work, tile, box->top + 0.5);
    for (uint32_t row = 0; row < box->bottom - box->top; row++) {
        ifig_plain_row(work->figure, &work->carrier, &work->plain, tx, ty0 - row * tile->pixel,
                       tile->pixel, count, work->plain_work, row_place(s, box, row));
    }
}

/* How the colours of a box are made. */
typedef enum Way { BY_ALL_SAMPLES, BY_FEW, PLAIN } Way;

static void render_box(IfigRegionWork *work, const Square *s, const Box *box, Way way)
{
    for (uint32_t left = box->left; left < box->right; left += IFIG_ROW_MAX) {
        Box strip = *box;
        strip.left = left;
        strip.right = box->right - left < IFIG_ROW_MAX ? box->right : left + IFIG_ROW_MAX;
        if (way == PLAIN) {
            render_plain_strip(work, s, &strip);
        } else {
            render_strip(work, s, &strip, way == BY_FEW);
        }
    }
}

/* The quickest way that fits a box; all samples where no carrier does. */
static Way choose_way(IfigRegionWork *work, const IfigTile *tile, const Box *box, int at_last)
{
    const IfigFigure *figure = work->figure;
    double left = place_x(work, tile, box->left), right = place_x(work, tile, box->right);
    double top = place_y(work, tile, box->top), bottom = place_y(work, tile, box->bottom);
    IfigPatch patch = {0.5 * (left + right), 0.5 * (top + bottom), 0.5 * (right - left),
                       0.5 * (top - bottom)};
    uint32_t pixels = (box->right - box->left) * (box->bottom - box->top);
    if (!ifig_carrier_fit(figure, tile, &patch, at_last, &work->carrier)) {
        return BY_ALL_SAMPLES;
    }
    return pixels >= LEAST_PLAIN && ifig_plain_fit(figure, tile, &patch, &work->carrier,
                                                   work->plain_nodes, &work->plain)
               ? PLAIN
               : BY_FEW;
}

static Square quarter_of(const Square *s, uint32_t quarter)
{
    uint32_t half = s->side / 2, right = quarter % 2 * half, down = quarter / 2 * half;
    return (Square){s->tile,         s->rows + down, s->column + right,
                    s->left + right, s->top + down,  half};
}

/* Render a square whose polynomials fit. */
static void render_fitted(IfigRegionWork *work, const Square *s)
{
    Box box;
    int may_carry = work->figure->support_set_count > 0;
    if (!box_of(work, s->left, s->top, s->side, &box)) {
        return;
    }
    int at_last = s->side < LEAST_DIVIDED || work->figure->is_absorbing;
    Way way = may_carry ? choose_way(work, s->tile, &box, at_last) : BY_ALL_SAMPLES;
    int is_done = way == PLAIN || (way == BY_FEW && s->side <= LARGEST_FEW);
    if (is_done || !may_carry || s->side < LEAST_DIVIDED) {
        render_box(work, s, &box, way);
    } else {
        for (uint32_t quarter = 0; quarter < 4; quarter++) {
            Square part = quarter_of(s, quarter);
            render_fitted(work, &part);
        }
    }
}

static void render_square(IfigRegionWork *work, Square square)
{
    Box box;
    if (!box_of(work, square.left, square.top, square.side, &box)) {
        return;
    }
    IfigTile tile = tile_about(work, &box);
    tile.must_fit = square.side <= LEAST_SIDE;
    square.tile = &tile;
    if (ifig_tile_fit(work->figure, &tile) || tile.must_fit) {
        render_fitted(work, &square);
        return;
    }
    for (uint32_t quarter = 0; quarter < 4; quarter++) {
        render_square(work, quarter_of(&square, quarter));
    }
}

const IfigLightRow *ifig_region_render(const IfigFigure *figure, uint32_t left, uint32_t top,
                                       uint32_t side, IfigRegionWork *work)
{
    uint32_t finer = figure->finer;
    render_square(work, (Square){NULL, work->rows, 0, left * finer, top * finer, side * finer});
    if (finer == 1) {
        return work->rows;
    }
    ifig_finer_means(figure, left, top, side, work->rows, work->means);
    return work->means;
}
