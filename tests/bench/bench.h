/* SPDX-License-Identifier: MIT */
/* What the programs that time share: a clock, medians, and a scene of one stone. Times are for
 * reading: milliseconds depend on the machine, ratios within one run hardly do. */
#ifndef IFIG_BENCH_H
#define IFIG_BENCH_H

#include "interfig/interfig.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { BENCH_RUNS = 9, BENCH_RUNS_MOST = 32 };

static inline double now_ms(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return 1e3 * (double)time.tv_sec + 1e-6 * (double)time.tv_nsec;
}

/* Processor time of all threads: what another program takes meanwhile does not count. */
static inline double processor_ms(void)
{
    struct timespec time;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
    return 1e3 * (double)time.tv_sec + 1e-6 * (double)time.tv_nsec;
}

static inline int rising(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static inline double median(double *values, size_t count)
{
    qsort(values, count, sizeof *values, rising);
    return values[count / 2];
}

static inline void fail_on(IfigStatus status, const IfigError *error)
{
    if (status != IFIG_OK) {
        fprintf(stderr, "%s\n", error->message);
        exit(70);
    }
}

static inline void *room(size_t bytes)
{
    void *memory = malloc(bytes);
    if (memory == NULL) {
        fprintf(stderr, "no memory for %zu bytes\n", bytes);
        exit(71);
    }
    return memory;
}

/* A stone under daylight through the sphere; points into itself. */
typedef struct Bench {
    IfigCatalogue *catalogue;
    IfigLamp *lamp;
    IfigLayer layer;
    IfigScene scene;
} Bench;

static inline void bench_open(const char *name, double thickness_mm, double stage_deg, Bench *bench)
{
    IfigError error = IFIG_ERROR_INIT;
    *bench = (Bench){.layer = IFIG_LAYER_INIT, .scene = IFIG_SCENE_INIT};
    fail_on(ifig_catalogue_create(&bench->catalogue, &error), &error);
    fail_on(ifig_catalogue_find(bench->catalogue, name, &bench->layer.species, &error), &error);
    fail_on(ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &bench->lamp, &error), &error);
    bench->layer.thickness_mm = thickness_mm;
    bench->layer.orientation.stage_deg = stage_deg;
    bench->scene.layers = &bench->layer;
    bench->scene.layer_count = 1;
    bench->scene.lamp = bench->lamp;
}

static inline void bench_close(Bench *bench)
{
    ifig_lamp_free(bench->lamp);
    ifig_catalogue_free(bench->catalogue);
}

/* From a scene to 8-bit sRGB in memory. */
static inline void bench_render(const Bench *bench, uint32_t pixels, int threads, void *rgb)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigFigure *figure = NULL;
    options.pixels = pixels;
    options.threads = threads;
    fail_on(ifig_figure_create(&bench->scene, &options, &figure, &error), &error);
    fail_on(ifig_figure_render(figure, IFIG_PIXELS_SRGB8, 0, pixels, rgb, &error), &error);
    ifig_figure_free(figure);
}

#endif
