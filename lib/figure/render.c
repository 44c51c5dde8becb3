/* SPDX-License-Identifier: MIT */
/* Tiles dealt out to threads. */
#include "figure.h"

#include "base.h"
#include "posix_threads.h"

#include <stdlib.h>

/* One call's work, shared by its threads; everything below the lock is guarded by it. */
typedef struct RenderJob {
    const IfigRaster *raster;
    const IfigTileSource *source;
    IfigPixelFormat format;
    uint32_t first_row, row_count, first_tile_row, columns, tile_count;
    unsigned char *pixels;
    pthread_mutex_t lock;
    uint32_t next, done;
    IfigStatus status;
    IfigError *error;
} RenderJob;

/* Copy the rows of a tile that were asked for. */
static void hand_over(const RenderJob *job, uint32_t left, uint32_t top, double (*xyz)[3])
{
    const IfigRaster *raster = job->raster;
    size_t bytes = ifig_pixel_bytes(job->format);
    uint32_t side = raster->tile_pixels;
    uint32_t count = raster->pixels - left < side ? raster->pixels - left : side;
    for (uint32_t row = 0; row < side; row++) {
        uint32_t y = top + row;
        if (y < job->first_row || y - job->first_row >= job->row_count) {
            continue;
        }
        size_t offset = ((size_t)(y - job->first_row) * raster->pixels + left) * bytes;
        ifig_pixels_write(raster, job->format, left, y, count, xyz + (size_t)row * IFIG_TILE_MAX,
                          job->pixels + offset);
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
    uint32_t side = raster->tile_pixels;
    uint32_t last_tile_row = (first_row + row_count - 1) / side;
    RenderJob job = {.raster = raster,
                     .source = source,
                     .format = format,
                     .first_row = first_row,
                     .row_count = row_count,
                     .first_tile_row = first_row / side,
                     .columns = (raster->pixels + side - 1) / side,
                     .pixels = pixels,
                     .status = IFIG_OK,
                     .error = error};
    job.tile_count = job.columns * (last_tile_row - job.first_tile_row + 1);
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
