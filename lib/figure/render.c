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
    IfigRectangle wanted;
    uint32_t first_row, first_column, columns, tile_count; /* of the tiles that it touches */
    unsigned char *pixels;
    pthread_mutex_t lock;
    uint32_t next, done;
    IfigStatus status;
    IfigError *error;
} RenderJob;

/* Copy the part of a tile that was asked for. */
static void hand_over(const RenderJob *job, uint32_t left, uint32_t top, double (*xyz)[3])
{
    const IfigRectangle *wanted = &job->wanted;
    uint32_t side = job->raster->tile_pixels;
    uint32_t first = left > wanted->left ? left : wanted->left;
    uint32_t wanted_end = wanted->left + wanted->width;
    uint32_t end = left + side < wanted_end ? left + side : wanted_end;
    size_t bytes = ifig_pixel_bytes(job->format);
    for (uint32_t row = 0; row < side; row++) {
        uint32_t y = top + row;
        if (y < wanted->top || y - wanted->top >= wanted->height) {
            continue;
        }
        size_t offset = (size_t)(y - wanted->top) * wanted->width + (first - wanted->left);
        ifig_pixels_write(job->raster, job->format, first, y, end - first,
                          xyz + (size_t)row * IFIG_TILE_MAX + (first - left),
                          job->pixels + offset * bytes);
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
    uint32_t side = raster->tile_pixels;
    RenderJob job = {.raster = raster,
                     .source = source,
                     .format = format,
                     .wanted = *rectangle,
                     .first_row = rectangle->top / side,
                     .first_column = rectangle->left / side,
                     .pixels = pixels,
                     .status = IFIG_OK,
                     .error = error};
    job.columns = (rectangle->left + rectangle->width - 1) / side - job.first_column + 1;
    job.tile_count =
        job.columns * ((rectangle->top + rectangle->height - 1) / side - job.first_row + 1);
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
