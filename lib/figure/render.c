/* SPDX-License-Identifier: MIT */
/* Tiles dealt out to threads. Threads live for one call: nothing is left behind that a fork or an
 * unloaded library could trip over. */
#include "figure.h"

#include "base.h"
#include "posix_threads.h"

#include <stdlib.h>

enum { MOST_THREADS = 256 };

/* One call's work, shared by its threads; everything below the lock is guarded by it. */
typedef struct RenderJob {
    const IfigFigure *figure;
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
    const IfigFigure *figure = job->figure;
    size_t bytes = ifig_pixel_bytes(job->format);
    uint32_t side = figure->tile_pixels;
    uint32_t count = figure->pixels - left < side ? figure->pixels - left : side;
    for (uint32_t row = 0; row < side; row++) {
        uint32_t y = top + row;
        if (y < job->first_row || y - job->first_row >= job->row_count) {
            continue;
        }
        size_t offset = ((size_t)(y - job->first_row) * figure->pixels + left) * bytes;
        ifig_pixels_write(figure, job->format, left, y, count, xyz + (size_t)row * IFIG_TILE_MAX,
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
    if (job->figure->progress != NULL && job->status == IFIG_OK &&
        !job->figure->progress((double)job->done / job->tile_count,
                               job->figure->progress_context)) {
        job->status = ifig_fail(job->error, IFIG_ERROR_CANCELLED, "cancelled");
    }
    pthread_mutex_unlock(&job->lock);
}

static void *work(void *argument)
{
    RenderJob *job = argument;
    IfigRegionWork region;
    IfigError error = IFIG_ERROR_INIT;
    uint32_t tile, side = job->figure->tile_pixels;
    if (ifig_region_work_create(job->figure, &region, &error) != IFIG_OK) {
        pthread_mutex_lock(&job->lock);
        job->status = ifig_fail(job->error, error.status, "%s", error.message);
        pthread_mutex_unlock(&job->lock);
        return NULL;
    }
    while (take_tile(job, &tile)) {
        uint32_t left = tile % job->columns * side;
        uint32_t top = (job->first_tile_row + tile / job->columns) * side;
        ifig_region_render(job->figure, left, top, side, &region);
        hand_over(job, left, top, region.xyz);
        report_tile(job);
    }
    ifig_region_work_free(&region);
    return NULL;
}

/* Processors this process may run on. */
static int processor_count(void)
{
    cpu_set_t set;
    if (sched_getaffinity(0, sizeof set, &set) == 0) {
        return CPU_COUNT(&set);
    }
    return 1;
}

static void run_threads(RenderJob *job)
{
    int wanted = job->figure->threads > 0 ? job->figure->threads : processor_count();
    wanted = wanted > MOST_THREADS ? MOST_THREADS : wanted;
    wanted = (uint32_t)wanted > job->tile_count ? (int)job->tile_count : wanted;
    pthread_t thread[MOST_THREADS];
    int started = 0;
    /* The caller's thread works too; where no more threads are to be had it works alone. */
    while (started < wanted - 1 && pthread_create(&thread[started], NULL, work, job) == 0) {
        started++;
    }
    work(job);
    for (int i = 0; i < started; i++) {
        pthread_join(thread[i], NULL);
    }
}

IfigStatus ifig_figure_render(const IfigFigure *figure, IfigPixelFormat format, uint32_t first_row,
                              uint32_t row_count, void *pixels, IfigError *error)
{
    if (figure == NULL || pixels == NULL || format < IFIG_PIXELS_SRGB8 ||
        format > IFIG_PIXELS_XYZ) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_figure_render: a pointer is NULL or the format unknown");
    }
    if (row_count < 1 || first_row >= figure->pixels || row_count > figure->pixels - first_row) {
        return ifig_fail(error, IFIG_ERROR_RANGE,
                         "rows %u to %u do not lie within the picture's %u rows", first_row,
                         first_row + row_count, figure->pixels);
    }
    uint32_t side = figure->tile_pixels;
    uint32_t last_tile_row = (first_row + row_count - 1) / side;
    RenderJob job = {.figure = figure,
                     .format = format,
                     .first_row = first_row,
                     .row_count = row_count,
                     .first_tile_row = first_row / side,
                     .columns = (figure->pixels + side - 1) / side,
                     .pixels = pixels,
                     .status = IFIG_OK,
                     .error = error};
    job.tile_count = job.columns * (last_tile_row - job.first_tile_row + 1);
    if (pthread_mutex_init(&job.lock, NULL) != 0) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for a lock");
    }
    run_threads(&job);
    pthread_mutex_destroy(&job.lock);
    return job.status;
}
