/* SPDX-License-Identifier: MIT */
/* Tiles dealt out to threads. Of a picture that a half turn or mirrors take to itself only the
 * upper half or the upper left quarter is computed: any row asked for is the same bits as in the
 * whole. */
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
    uint32_t first_row, row_count, first_tile_row, columns, tile_count;
    uint32_t own_rows, own_columns; /* computed, not copied */
    unsigned char *pixels;
    pthread_mutex_t lock;
    uint32_t next, done;
    IfigStatus status;
    IfigError *error;
} RenderJob;

static int is_wanted(const RenderJob *job, uint32_t y)
{
    return y >= job->first_row && y - job->first_row < job->row_count;
}

static unsigned char *place_of(const RenderJob *job, uint32_t x, uint32_t y)
{
    size_t pixels = (size_t)(y - job->first_row) * job->raster->pixels + x;
    return job->pixels + pixels * ifig_pixel_bytes(job->format);
}

static void copy_backward(const unsigned char *from, uint32_t count, size_t bytes,
                          unsigned char *to)
{
    for (uint32_t i = 0; i < count; i++) {
        memcpy(to + i * bytes, from + (count - 1 - i) * bytes, bytes);
    }
}

/* Hand on pixels of a row to where the picture's symmetry repeats them. */
static void repeat(const RenderJob *job, uint32_t left, uint32_t y, uint32_t count,
                   const unsigned char *codes)
{
    uint32_t side = job->raster->pixels, down = side - 1 - y, right = side - left - count;
    size_t bytes = ifig_pixel_bytes(job->format);
    int mirrors = job->raster->symmetry == IFIG_SYMMETRY_MIRRORS;
    if (mirrors && is_wanted(job, y)) {
        copy_backward(codes, count, bytes, place_of(job, right, y));
    }
    if (is_wanted(job, down) && down != y) {
        copy_backward(codes, count, bytes, place_of(job, right, down));
        if (mirrors) {
            memcpy(place_of(job, left, down), codes, count * bytes);
        }
    }
}

/* Write the rows of a tile that were asked for. */
static void hand_over(const RenderJob *job, uint32_t left, uint32_t top, double (*xyz)[3])
{
    const IfigRaster *raster = job->raster;
    uint32_t side = raster->tile_pixels;
    uint32_t count = job->own_columns - left < side ? job->own_columns - left : side;
    for (uint32_t y = top; y < top + side && y < job->own_rows; y++, xyz += IFIG_TILE_MAX) {
        _Alignas(float) unsigned char codes[IFIG_TILE_MAX * 3 * sizeof(float)];
        int repeats = raster->symmetry != IFIG_SYMMETRY_NONE;
        if (!is_wanted(job, y) && !(repeats && is_wanted(job, raster->pixels - 1 - y))) {
            continue;
        }
        ifig_pixels_write(raster, job->format, left, y, count, xyz, codes);
        if (is_wanted(job, y)) {
            memcpy(place_of(job, left, y), codes, count * ifig_pixel_bytes(job->format));
        }
        if (repeats) {
            repeat(job, left, y, count, codes);
        }
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
        uint32_t left = tile % job->columns * side;
        uint32_t top = (job->first_tile_row + tile / job->columns) * side;
        hand_over(job, left, top,
                  job->source->render(job->source->picture, left, top, side, region));
        report_tile(job);
    }
    job->source->close(region);
    return NULL;
}

/* Which tiles are computed for the rows asked for. */
static void lay_out(RenderJob *job)
{
    const IfigRaster *raster = job->raster;
    uint32_t side = raster->tile_pixels, half = (raster->pixels + 1) / 2;
    uint32_t first = job->first_row, last = first + job->row_count - 1;
    job->own_columns = raster->symmetry == IFIG_SYMMETRY_MIRRORS ? half : raster->pixels;
    job->own_rows = raster->symmetry == IFIG_SYMMETRY_NONE ? raster->pixels : half;
    if (last >= job->own_rows) { /* rows of the lower half, too, from the upper */
        uint32_t mirrored = raster->pixels - 1 - last, from = raster->pixels - 1 - first;
        last = first < job->own_rows ? job->own_rows - 1 : from;
        first = first < mirrored ? first : mirrored;
    }
    job->first_tile_row = first / side;
    job->columns = (job->own_columns + side - 1) / side;
    job->tile_count = job->columns * (last / side - job->first_tile_row + 1);
}

IfigStatus ifig_raster_render(const IfigRaster *raster, const IfigTileSource *source,
                              IfigPixelFormat format, uint32_t first_row, uint32_t row_count,
                              void *pixels, IfigError *error)
{
    if (pixels == NULL || format < IFIG_PIXELS_SRGB8 || format > IFIG_PIXELS_XYZ) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "rendering: the pixels are NULL or the format unknown");
    }
    if (row_count < 1 || first_row >= raster->pixels || row_count > raster->pixels - first_row) {
        return ifig_fail(error, IFIG_ERROR_RANGE,
                         "rows %u to %u do not lie within the picture's %u rows", first_row,
                         first_row + row_count, raster->pixels);
    }
    RenderJob job = {.raster = raster,
                     .source = source,
                     .format = format,
                     .first_row = first_row,
                     .row_count = row_count,
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

static double (*render_region(const void *picture, uint32_t left, uint32_t top, uint32_t side,
                              void *region))[3]
{
    return ifig_region_render(picture, left, top, side, region);
}

static void close_region(void *region)
{
    ifig_region_work_free(region);
}

IfigStatus ifig_figure_render(const IfigFigure *figure, IfigPixelFormat format, uint32_t first_row,
                              uint32_t row_count, void *pixels, IfigError *error)
{
    if (figure == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "ifig_figure_render: the figure is NULL");
    }
    const IfigTileSource source = {
        .picture = figure, .open = open_region, .render = render_region, .close = close_region};
    return ifig_raster_render(&figure->raster, &source, format, first_row, row_count, pixels,
                              error);
}
