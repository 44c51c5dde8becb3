/* SPDX-License-Identifier: MIT */
/* The map of all directions: the half sphere toward the observer in Lambert's equal-area projection
 * (Snyder, U.S. Geol. Surv. Prof. Paper 1395 (1987), ch. 24), rim 1: x, y = s_x, s_y / sqrt(1 +
 * s_z). Each direction has the colour that a ball of the stone shows between crossed polars at that
 * turn at which it is brightest there. */
#include "hunt.h"

#include "base.h"
#include "posix_threads.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum {
    FINER = 4,    /* samples along each side of a pixel in which the retardation bends */
    STRETCH = 64, /* pixels whose colours are written at once */
};

/* A bend of the retardation within a pixel beyond which its mean is taken of finer samples, and the
 * retardation up to which any lamp but one line still shows fringes. */
static const double BENT_NM = 30.0, SEEN_NM = 12e3;

/* One map; what stands below the lock is guarded by it. */
typedef struct MapJob {
    const IfigFigure *figure; /* the lamp, the colours, the size */
    const IfigHuntSpectrum *spectrum;
    const IfigMedium *medium; /* at 589.3 nm or the lamp's line */
    double thickness_nm;
    uint8_t *rgb;
    IfigError *error;
    pthread_mutex_t lock;
    uint32_t next, done;
    IfigStatus status;
} MapJob;

static IfigDirection direction_at(double x, double y)
{
    double square = x * x + y * y;
    double shrink = square > 1.0 ? 1.0 / sqrt(square) : 1.0; /* the rest of a pixel on the rim */
    square = fmin(square, 1.0);
    double across = shrink * sqrt(2.0 - square);
    const double s[3] = {x * across, y * across, 1.0 - square};
    return ifig_direction(s);
}

static double retardation(const MapJob *job, double x, double y)
{
    const IfigDirection direction = direction_at(x, y);
    return ifig_direction_retardation(job->medium, &direction, job->thickness_nm);
}

/* Retardation in the middle of a square, how it changes across it and how much it bends. */
typedef struct Slope {
    double middle, across[2], bend;
} Slope;

static Slope slope_at(const MapJob *job, double x, double y, double side)
{
    const double half = 0.5 * side, middle = retardation(job, x, y);
    const double right = retardation(job, x + half, y), left = retardation(job, x - half, y);
    const double up = retardation(job, x, y + half), down = retardation(job, x, y - half);
    Slope s = {
        .middle = middle,
        .across = {right - left, up - down},
        .bend = fmax(fabs(right + left - 2.0 * middle), fabs(up + down - 2.0 * middle)),
    };
    return s;
}

static void sample(const MapJob *job, const IfigHuntSpectrum *mine, double x, double y,
                   const double slope_nm[2], double xyz[3])
{
    const IfigDirection direction = direction_at(x, y);
    ifig_hunt_brightest(mine, &direction, job->thickness_nm, slope_nm, xyz);
}

static void pixel(const MapJob *job, const IfigHuntSpectrum *mine, double x, double y,
                  double xyz[3])
{
    const double side = 2.0 / job->figure->raster.pixels, finer = side / FINER;
    const Slope slope = slope_at(job, x, y, side);
    const int is_line = job->figure->samples.kernel == IFIG_KERNEL_NONE;
    if (slope.bend < BENT_NM || (slope.middle > SEEN_NM && !is_line)) {
        sample(job, mine, x, y, slope.across, xyz);
        return;
    }
    memset(xyz, 0, 3 * sizeof *xyz);
    for (int part = 0; part < FINER * FINER; part++) {
        double px = x + finer * (part % FINER - 0.5 * (FINER - 1));
        double py = y + finer * (part / FINER - 0.5 * (FINER - 1)), one[3];
        const Slope here = slope_at(job, px, py, finer);
        sample(job, mine, px, py, here.across, one);
        for (int i = 0; i < 3; i++) {
            xyz[i] += one[i] / (FINER * FINER);
        }
    }
}

static void row(const MapJob *job, const IfigHuntSpectrum *mine, uint32_t y)
{
    const uint32_t pixels = job->figure->raster.pixels;
    const double radius = 0.5 * pixels, rim = 1.0 + 1.0 / radius;
    const double up = 1.0 - (y + 0.5) / radius;
    IfigLightRow light;
    for (uint32_t left = 0; left < pixels; left += STRETCH) {
        uint32_t count = pixels - left < STRETCH ? pixels - left : STRETCH;
        for (uint32_t p = 0; p < count; p++) {
            double right = (left + p + 0.5) / radius - 1.0, xyz[3] = {0, 0, 0};
            if (right * right + up * up < rim * rim) {
                pixel(job, mine, right, up, xyz);
            }
            for (size_t i = 0; i < 3; i++) {
                light.xyz[i][p] = (float)xyz[i];
            }
        }
        ifig_pixels_write(&job->figure->raster, IFIG_PIXELS_SRGB8, left, y, count, &light,
                          job->rgb + ((size_t)y * pixels + left) * 3);
    }
}

static int take_row(MapJob *job, uint32_t *y)
{
    pthread_mutex_lock(&job->lock);
    int more = job->status == IFIG_OK && job->next < job->figure->raster.pixels;
    *y = job->next;
    job->next += more ? 1 : 0;
    pthread_mutex_unlock(&job->lock);
    return more;
}

static void report(MapJob *job, IfigStatus status, const char *message)
{
    pthread_mutex_lock(&job->lock);
    job->done++;
    if (job->status == IFIG_OK && status != IFIG_OK) {
        job->status = ifig_fail(job->error, status, "%s", message);
    } else if (job->status == IFIG_OK && job->figure->raster.progress != NULL &&
               !job->figure->raster.progress((double)job->done / job->figure->raster.pixels,
                                             job->figure->raster.progress_context)) {
        job->status = ifig_fail(job->error, IFIG_ERROR_CANCELLED, "cancelled");
    }
    pthread_mutex_unlock(&job->lock);
}

static void *work(void *argument)
{
    MapJob *job = argument;
    IfigHuntSpectrum mine = *job->spectrum;
    mine.work = calloc(ifig_hunt_work_size(&mine), sizeof *mine.work);
    uint32_t y;
    if (mine.work == NULL) {
        report(job, IFIG_ERROR_MEMORY, "no memory for a row of the map");
        return NULL;
    }
    while (take_row(job, &y)) {
        row(job, &mine, y);
        report(job, IFIG_OK, "");
    }
    free(mine.work);
    return NULL;
}

static IfigStatus run(MapJob *job)
{
    if (pthread_mutex_init(&job->lock, NULL) != 0) {
        return ifig_fail(job->error, IFIG_ERROR_MEMORY, "no memory for a lock");
    }
    ifig_run_threads(job->figure->raster.threads, job->figure->raster.pixels, work, job);
    pthread_mutex_destroy(&job->lock);
    return job->status;
}

static IfigStatus paint(const IfigScene *scene, const IfigFigure *figure, uint8_t *rgb,
                        IfigError *error)
{
    const IfigLayer *layer = scene->layers;
    const double line_nm = ifig_lamp_line_nm(scene->lamp);
    double rotation[3][3];
    IfigMedium medium;
    IfigHuntSpectrum spectrum = {.count = 0};
    IfigStatus status =
        ifig_orientation_matrix(layer->species, &layer->orientation, rotation, error);
    if (status == IFIG_OK) {
        status = ifig_layer_medium(layer, rotation, line_nm > 0 ? line_nm : IFIG_SODIUM_D_NM,
                                   &medium, error);
    }
    if (status == IFIG_OK) {
        status = ifig_hunt_spectrum_create(layer, rotation, &scene->instrument, &figure->samples,
                                           &spectrum, error);
    }
    if (status == IFIG_OK) {
        MapJob job = {.figure = figure,
                      .spectrum = &spectrum,
                      .medium = &medium,
                      .thickness_nm = layer->thickness_mm * 1e6,
                      .rgb = rgb,
                      .error = error,
                      .status = IFIG_OK};
        status = run(&job);
    }
    ifig_hunt_spectrum_free(&spectrum);
    return status;
}

IfigStatus ifig_hunt_map(const IfigScene *scene, const IfigFigureOptions *options, uint8_t *rgb,
                         IfigError *error)
{
    IfigFigure *figure = NULL;
    IfigStatus status = rgb != NULL ? ifig_hunt_check(scene, "ifig_hunt_map", error)
                                    : ifig_fail(error, IFIG_ERROR_ARGUMENT,
                                                "ifig_hunt_map: the place for the map is NULL");
    if (status == IFIG_OK) {
        status = ifig_figure_create(scene, options, &figure, error);
    }
    if (status == IFIG_OK) {
        status = paint(scene, figure, rgb, error);
    }
    ifig_figure_free(figure);
    return status;
}

IfigStatus ifig_hunt_place(const IfigScene *scene, const double direction[3], double *x, double *y,
                           IfigError *error)
{
    if (direction == NULL || x == NULL || y == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "ifig_hunt_place: a pointer is NULL");
    }
    double length = hypot(hypot(direction[0], direction[1]), direction[2]);
    if (!isfinite(length) || !(length > 0)) {
        return ifig_fail(error, IFIG_ERROR_RANGE,
                         "the direction has no length; give three finite numbers, not all 0");
    }
    double r[3][3], s[3];
    IfigStatus status = ifig_hunt_check(scene, "ifig_hunt_place", error);
    if (status == IFIG_OK) {
        status =
            ifig_orientation_matrix(scene->layers->species, &scene->layers->orientation, r, error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    for (int i = 0; i < 3; i++) {
        s[i] = (r[i][0] * direction[0] + r[i][1] * direction[1] + r[i][2] * direction[2]) / length;
    }
    double end = s[2] < 0 ? -1.0 : 1.0, shrink = end / sqrt(1.0 + end * s[2]);
    *x = shrink * s[0];
    *y = shrink * s[1];
    return IFIG_OK;
}
