/* SPDX-License-Identifier: MIT */
/* How long a whole figure takes, beside a plain loop of the same shape, in one run on one machine:
 * milliseconds depend on the machine, their ratio hardly does. Medians of nine, two threads.
 *
 *   floor   1024 x 1024 pixels, 81 cosines and 3 x 81 multiply-adds each, as a compiler vectorises
 *           them; nothing else
 *   figure  1024 x 1024 pixels from species to 8-bit sRGB in memory: exact modes, faces,
 * dispersion, sphere lens, daylight */
#include "interfig/interfig.h"

#include <math.h>
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { PIXELS = 1024, WAVELENGTHS = 81, RUNS = 9, BLOCK = 256 };

static double now_ms(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return 1e3 * (double)time.tv_sec + 1e-6 * (double)time.tv_nsec;
}

static int rising(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* cos(2 pi t), good to 1e-6, by the same reduction as the library's. */
static inline float cosine_turns(float t)
{
    float r = t - ((t + 12582912.0f) - 12582912.0f);
    float q = 0.25f - (r < 0 ? -r : r), x = q * 6.2831853f, y = x * x;
    return x *
           (1.0f + y * (-0.16666667f + y * (8.3333310e-3f + y * (-1.9840874e-4f + y * 2.7e-6f))));
}

__attribute__((target_clones("default", "arch=x86-64-v3", "arch=x86-64-v4"))) static void
floor_block(const float *phase, const float (*weight)[4], float (*sum)[BLOCK])
{
    for (int k = 0; k < WAVELENGTHS; k++) {
        for (int x = 0; x < BLOCK; x++) {
            float c = cosine_turns(phase[x] * weight[k][3]);
            sum[0][x] += weight[k][0] * c;
            sum[1][x] += weight[k][1] * c;
            sum[2][x] += weight[k][2] * c;
        }
    }
}

static void *floor_half(void *result)
{
    float phase[BLOCK], weight[WAVELENGTHS][4], total = 0;
    for (int k = 0; k < WAVELENGTHS; k++) {
        for (int i = 0; i < 4; i++) {
            weight[k][i] = 1.0f / (float)(k + i + 40);
        }
    }
    for (int block = 0; block < PIXELS * PIXELS / 2 / BLOCK; block++) {
        float sum[3][BLOCK] = {{0}};
        for (int x = 0; x < BLOCK; x++) {
            phase[x] = (float)(block + x);
        }
        floor_block(phase, (const float(*)[4])weight, sum);
        total += sum[0][block % BLOCK];
    }
    *(float *)result = total;
    return NULL;
}

static double floor_ms(void)
{
    float result[2];
    pthread_t thread;
    double start = now_ms();
    if (pthread_create(&thread, NULL, floor_half, &result[0]) != 0) {
        exit(71);
    }
    floor_half(&result[1]);
    pthread_join(thread, NULL);
    return now_ms() - start;
}

static void fail_on(IfigStatus status, const IfigError *error)
{
    if (status != IFIG_OK) {
        fprintf(stderr, "%s\n", error->message);
        exit(70);
    }
}

static double figure_ms(const char *name, double thickness_mm, double stage_deg, unsigned char *rgb)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigCatalogue *catalogue;
    IfigLayer layer = IFIG_LAYER_INIT;
    IfigScene scene = IFIG_SCENE_INIT;
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigLamp *lamp;
    IfigFigure *figure;
    double start = now_ms();
    fail_on(ifig_catalogue_create(&catalogue, &error), &error);
    fail_on(ifig_catalogue_find(catalogue, name, &layer.species, &error), &error);
    fail_on(ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &lamp, &error), &error);
    layer.thickness_mm = thickness_mm;
    layer.orientation.stage_deg = stage_deg;
    layer.orientation.tilt_deg = stage_deg / 10;
    scene.layers = &layer;
    scene.layer_count = 1;
    scene.lamp = lamp;
    options.pixels = PIXELS;
    options.threads = 2;
    fail_on(ifig_figure_create(&scene, &options, &figure, &error), &error);
    fail_on(ifig_figure_render(figure, IFIG_PIXELS_SRGB8, 0, PIXELS, rgb, &error), &error);
    double taken = now_ms() - start;
    ifig_figure_free(figure);
    ifig_lamp_free(lamp);
    ifig_catalogue_free(catalogue);
    return taken;
}

static double median(double *values)
{
    qsort(values, RUNS, sizeof *values, rising);
    return values[RUNS / 2];
}

int main(void)
{
    static const struct {
        const char *name, *what;
        double thickness_mm, stage_deg;
    } cases[] = {{"topaz_f", "biaxial, tilted, turned", 2, 40},
                 {"titanite", "biaxial, monoclinic, strongly dispersed", 0.5, 45},
                 {"calcite", "uniaxial", 1, 0},
                 {"quartz", "uniaxial, optically active", 3, 0},
                 {"calcite", "uniaxial, 30 mm", 30, 0}};
    double values[RUNS];
    unsigned char *rgb = malloc((size_t)3 * PIXELS * PIXELS);
    if (rgb == NULL) {
        return 71;
    }
    for (int i = 0; i < RUNS; i++) {
        values[i] = floor_ms();
    }
    double lowest = median(values);
    printf("floor_ms %.1f\n", lowest);
    for (size_t c = 0; c < sizeof cases / sizeof cases[0]; c++) {
        for (int i = 0; i < RUNS; i++) {
            values[i] = figure_ms(cases[c].name, cases[c].thickness_mm, cases[c].stage_deg, rgb);
        }
        double figure = median(values);
        printf("figure_ms %.1f  ratio to floor %.2f  %s (%s)\n", figure, figure / lowest,
               cases[c].name, cases[c].what);
    }
    free(rgb);
    return 0;
}
