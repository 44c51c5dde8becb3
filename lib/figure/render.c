/* SPDX-License-Identifier: MIT */
/* Tiles dealt out to threads. Of a picture that a half turn or mirrors take to itself only the
 * upper or left half or the upper left quarter is computed: any row asked for is the same bits as
 * in the whole. */
#include "figure.h"

#include "base.h"
#include "posix_threads.h"

#include <stdlib.h>
#include <string.h>

/* One call's work, shared by its threads; everything below the lock is guarded by it. */
typedef struct RenderJob {
    const IfigRaster *raster;
    const IfigTileSource *source;
    IfigPixelFormat format;
    IfigRectangle wanted;
    uint32_t first_row, first_column, columns, tile_count; /* of the tiles that are computed */
    uint32_t own_rows, own_columns; /* of the picture: computed, not copied */
    unsigned char *pixels;
    pthread_mutex_t lock;
    uint32_t next, done;
    IfigStatus status;
    IfigError *error;
} RenderJob;

static int is_wanted(const RenderJob *job, uint32_t y)
{
    return y >= job->wanted.top && y - job->wanted.top < job->wanted.height;
}

/* Copy what was asked for of `count` pixels that stand at (x, y), the last first if `backward`. */
static void put(const RenderJob *job, uint32_t x, uint32_t y, uint32_t count,
                const unsigned char *codes, int backward)
{
    const IfigRectangle *wanted = &job->wanted;
    size_t bytes = ifig_pixel_bytes(job->format);
    uint32_t first = x > wanted->left ? x : wanted->left;
    uint32_t wanted_end = wanted->left + wanted->width;
    uint32_t end = x + count < wanted_end ? x + count : wanted_end;
    if (!is_wanted(job, y) || first >= end) {
        return;
    }
    unsigned char *to =
        job->pixels + ((size_t)(y - wanted->top) * wanted->width + (first - wanted->left)) * bytes;
    if (!backward) {
        memcpy(to, codes + (first - x) * bytes, (end - first) * bytes);
        return;
    }
    for (uint32_t at = first; at < end; at++, to += bytes) {
        memcpy(to, codes + (x + count - 1 - at) * bytes, bytes);
    }
}

/* Whether the lower half repeats the upper one. */
static int lower_half_repeats(const IfigRaster *raster)
{
    return (raster->symmetry & (IFIG_SYMMETRY_ROWS | IFIG_SYMMETRY_HALF_TURN)) != 0;
}

/* Hand on pixels of a row to where the picture's symmetry repeats them. */
static void repeat(const RenderJob *job, uint32_t left, uint32_t y, uint32_t count,
                   const unsigned char *codes)
{
    uint32_t side = job->raster->pixels, down = side - 1 - y, right = side - left - count;
    unsigned symmetry = job->raster->symmetry;
    if (symmetry & IFIG_SYMMETRY_COLUMNS) {
        put(job, right, y, count, codes, 1);
    }
    if (down == y || !lower_half_repeats(job->raster)) {
        return;
    }
    if (symmetry & IFIG_SYMMETRY_ROWS) {
        put(job, left, down, count, codes, 0);
    }
    if (symmetry != IFIG_SYMMETRY_ROWS) {
        put(job, right, down, count, codes, 1);
    }
}

/* Write the part of a tile that was asked for, and its twins. */
static void hand_over(const RenderJob *job, uint32_t left, uint32_t top, const IfigLightRow *light)
{
    const IfigRaster *raster = job->raster;
    uint32_t side = raster->tile_pixels;
    uint32_t count = job->own_columns - left < side ? job->own_columns - left : side;
    for (uint32_t y = top; y < top + side && y < job->own_rows; y++, light++) {
        _Alignas(float) unsigned char codes[IFIG_TILE_MAX * 3 * sizeof(float)];
        int repeats = lower_half_repeats(raster);
        if (!is_wanted(job, y) && !(repeats && is_wanted(job, raster->pixels - 1 - y))) {
            continue;
        }
        ifig_pixels_write(raster, job->format, left, y, count, light, codes);
        put(job, left, y, count, codes, 0);
        repeat(job, left, y, count, codes);
    }
}

/* Take the next tile's number; 0 when there is none left or the work has failed. */
static int take_tile(RenderJob *job, uint32_t *tile)
{
    pthread_mutex_lock(&job->lock);
    int more = job->status == IFIG_OK && job->next < job->tile_count;
    *tile = job->next;
    job->next += more ? 1 : 0;
    pthread_mutex_unlock(&job->lock);
    return more;
}

static void report_tile(RenderJob *job)
{
    pthread_mutex_lock(&job->lock);
    job->done++;
    if (job->raster->progress != NULL && job->status == IFIG_OK &&
        !job->raster->progress((double)job->done / job->tile_count,
                               job->raster->progress_context)) {
        job->status = ifig_fail(job->error, IFIG_ERROR_CANCELLED, "cancelled");
    }
    pthread_mutex_unlock(&job->lock);
}

static void *work(void *argument)
{
    RenderJob *job = argument;
    void *region;
    IfigError error = IFIG_ERROR_INIT;
    uint32_t tile, side = job->raster->tile_pixels;
    if (job->source->open(job->source->picture, &region, &error) != IFIG_OK) {
        pthread_mutex_lock(&job->lock);
        job->status = ifig_fail(job->error, error.status, "%s", error.message);
        pthread_mutex_unlock(&job->lock);
        return NULL;
    }
    while (take_tile(job, &tile)) {
        uint32_t left = (job->first_column + tile % job->columns) * side;
        uint32_t top = (job->first_row + tile / job->columns) * side;
        hand_over(job, left, top,
                  job->source->render(job->source->picture, left, top, side, region));
        report_tile(job);
    }
    job->source->close(region);
    return NULL;
}

/* Columns or rows, first and last. */
typedef struct Stretch {
    uint32_t first, last;
} Stretch;

static Stretch turned(Stretch stretch, uint32_t side)
{
    return (Stretch){side - 1 - stretch.last, side - 1 - stretch.first};
}

static Stretch both(Stretch a, Stretch b)
{
    return (Stretch){a.first < b.first ? a.first : b.first, a.last > b.last ? a.last : b.last};
}

/* Where what a mirror makes of it lies within the first `own` of `side`. */
static Stretch folded(Stretch stretch, uint32_t own, uint32_t side)
{
    if (stretch.last < own) {
        return stretch;
    }
    Stretch twin = turned(stretch, side);
    return stretch.first >= own ? twin : (Stretch){both(stretch, twin).first, own - 1};
}

/* Which tiles are computed for the rectangle asked for. */
static void lay_out(RenderJob *job)
{
    const IfigRaster *raster = job->raster;
    const IfigRectangle *wanted = &job->wanted;
    uint32_t side = raster->pixels, half = (side + 1) / 2;
    Stretch rows = {wanted->top, wanted->top + wanted->height - 1};
    Stretch columns = {wanted->left, wanted->left + wanted->width - 1};
    job->own_columns = (raster->symmetry & IFIG_SYMMETRY_COLUMNS) != 0 ? half : side;
    job->own_rows = lower_half_repeats(raster) ? half : side;
    if (raster->symmetry == IFIG_SYMMETRY_HALF_TURN && rows.last >= half) {
        Stretch twin = turned(columns, side);
        columns = rows.first >= half ? twin : both(columns, twin);
    }
    columns = folded(columns, job->own_columns, side);
    rows = folded(rows, job->own_rows, side);
    job->first_row = rows.first / raster->tile_pixels;
    job->first_column = columns.first / raster->tile_pixels;
    job->columns = columns.last / raster->tile_pixels - job->first_column + 1;
    job->tile_count = job->columns * (rows.last / raster->tile_pixels - job->first_row + 1);
}

static IfigStatus check_wanted(const IfigRaster *raster, IfigPixelFormat format,
                               const IfigRectangle *wanted, const void *pixels, IfigError *error)
{
    if (pixels == NULL || wanted == NULL || format < IFIG_PIXELS_SRGB8 ||
        format > IFIG_PIXELS_XYZ) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "rendering: the pixels or the rectangle are NULL, or the format unknown");
    }
    uint32_t size = raster->pixels;
    if (wanted->width < 1 || wanted->height < 1 || wanted->left >= size || wanted->top >= size ||
        wanted->width > size - wanted->left || wanted->height > size - wanted->top) {
        return ifig_fail(error, IFIG_ERROR_RANGE,
                         "%u columns from %u and %u rows from %u do not lie within the picture's "
                         "%u x %u pixels; ask for at least one of each, the first is 0",
                         wanted->width, wanted->left, wanted->height, wanted->top, size, size);
    }
    return IFIG_OK;
}

IfigRectangle ifig_raster_rows(const IfigRaster *raster, uint32_t first_row, uint32_t row_count)
{
    return (IfigRectangle){0, first_row, raster->pixels, row_count};
}

IfigStatus ifig_raster_render(const IfigRaster *raster, const IfigTileSource *source,
                              IfigPixelFormat format, const IfigRectangle *rectangle, void *pixels,
                              IfigError *error)
{
    IfigStatus status = check_wanted(raster, format, rectangle, pixels, error);
    if (status != IFIG_OK) {
        return status;
    }
    RenderJob job = {.raster = raster,
                     .source = source,
                     .format = format,
                     .wanted = *rectangle,
                     .pixels = pixels,
                     .status = IFIG_OK,
                     .error = error};
    lay_out(&job);
    if (pthread_mutex_init(&job.lock, NULL) != 0) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for a lock");
    }
    ifig_run_threads(raster->threads, job.tile_count, work, &job);
    pthread_mutex_destroy(&job.lock);
    return job.status;
}

static IfigStatus open_region(const void *picture, void **region, IfigError *error)
{
    IfigRegionWork *made = NULL;
    const IfigStatus status = ifig_region_work_create(picture, &made, error);
    *region = made;
    return status;
}

static const IfigLightRow *render_region(const void *picture, uint32_t left, uint32_t top,
                                         uint32_t side, void *region)
{
    return ifig_region_render(picture, left, top, side, region);
}

static void close_region(void *region)
{
    ifig_region_work_free(region);
}

IfigStatus ifig_figure_render_rectangle(const IfigFigure *figure, IfigPixelFormat format,
                                        const IfigRectangle *rectangle, void *pixels,
                                        IfigError *error)
{
    if (figure == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "rendering: the figure is NULL");
    }
    const IfigTileSource source = {
        .picture = figure, .open = open_region, .render = render_region, .close = close_region};
    return ifig_raster_render(&figure->raster, &source, format, rectangle, pixels, error);
}

IfigStatus ifig_figure_render(const IfigFigure *figure, IfigPixelFormat format, uint32_t first_row,
                              uint32_t row_count, void *pixels, IfigError *error)
{
    const IfigRectangle rows = figure != NULL
                                   ? ifig_raster_rows(&figure->raster, first_row, row_count)
                                   : (IfigRectangle){0};
    return ifig_figure_render_rectangle(figure, format, &rows, pixels, error);
}
