/* SPDX-License-Identifier: MIT */
/* What the tests of readings share: a stone under a lens, its reading and its picture. */
#ifndef IFIG_READING_TEST_H
#define IFIG_READING_TEST_H

#include <string.h>

#include "interfig/reading.h"
#include "optics_test.h"

enum { PIXELS = 512 };

/* A scene that owns its layer and lamp. The scene points at the layer, so it stays in place. */
typedef struct Bench {
    IfigLayer layer;
    IfigLamp *lamp;
    IfigScene scene;
} Bench;

static inline void set_bench(Bench *bench, const IfigSpecies *species, IfigView view,
                             double thickness_mm, double stage_deg)
{
    memset(bench, 0, sizeof *bench);
    bench->layer = layer_of(species, view, thickness_mm);
    bench->layer.orientation.stage_deg = stage_deg;
    bench->scene = (IfigScene)IFIG_SCENE_INIT;
    ck_assert_int_eq(ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &bench->lamp, NULL), IFIG_OK);
    bench->scene.layers = &bench->layer;
    bench->scene.layer_count = 1;
    bench->scene.lamp = bench->lamp;
}

static inline void clear_bench(Bench *bench)
{
    ifig_lamp_free(bench->lamp);
}

static inline void light_by_sodium(Bench *bench)
{
    ifig_lamp_free(bench->lamp);
    ck_assert_int_eq(ifig_lamp_create_line(SODIUM_NM, &bench->lamp, NULL), IFIG_OK);
    bench->scene.lamp = bench->lamp;
}

static inline void use_objective(Bench *bench, double aperture, double immersion_index)
{
    bench->scene.instrument.lens = IFIG_LENS_OBJECTIVE;
    bench->scene.instrument.aperture = aperture;
    bench->scene.instrument.immersion_index = immersion_index;
}

static inline IfigReading reading_of(const Bench *bench)
{
    IfigReading reading = IFIG_READING_INIT;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_reading(&bench->scene, &reading, &error) == IFIG_OK, "%s", error.message);
    return reading;
}

/* XYZ of each pixel; free it. */
static inline float (*picture_of(const Bench *bench))[3]
{
    float(*xyz)[3] = malloc((size_t)PIXELS * PIXELS * sizeof *xyz);
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigFigure *figure = NULL;
    IfigError error = IFIG_ERROR_INIT;
    options.pixels = PIXELS;
    ck_assert_ptr_nonnull(xyz);
    ck_assert_msg(ifig_figure_create(&bench->scene, &options, &figure, &error) == IFIG_OK, "%s",
                  error.message);
    ck_assert_msg(ifig_figure_render(figure, IFIG_PIXELS_XYZ, 0, PIXELS, xyz, &error) == IFIG_OK,
                  "%s", error.message);
    ifig_figure_free(figure);
    return xyz;
}

/* From the picture's own coordinates, rim 1, to pixels; the centre of the first pixel is 0. */
static inline double column_of(double x)
{
    return 0.5 * PIXELS * (1.0 + x) - 0.5;
}

static inline double row_of(double y)
{
    return 0.5 * PIXELS * (1.0 - y) - 0.5;
}

/* A channel between pixels, linear. */
static inline double channel_at(float (*xyz)[3], double column, double row, int channel)
{
    int x = (int)floor(column), y = (int)floor(row);
    double fx = column - x, fy = row - y, sum = 0;
    for (int i = 0; i < 4; i++) {
        int dx = i % 2, dy = i / 2;
        double weight = (dx ? fx : 1 - fx) * (dy ? fy : 1 - fy);
        ck_assert(x + dx >= 0 && x + dx < PIXELS && y + dy >= 0 && y + dy < PIXELS);
        sum += weight * (double)xyz[(y + dy) * PIXELS + x + dx][channel];
    }
    return sum;
}

static inline double brightness_at(float (*xyz)[3], double x, double y)
{
    return channel_at(xyz, column_of(x), row_of(y), 1);
}

/* (R - B) / (R + G + B) of the mean colour within a few pixels of a point. */
static inline double warmth_at(const Bench *bench, float (*xyz)[3], double x, double y)
{
    double mean[3] = {0, 0, 0}, rgb[3];
    for (int dy = -2; dy <= 2; dy++) {
        for (int dx = -2; dx <= 2; dx++) {
            for (int i = 0; i < 3; i++) {
                mean[i] += channel_at(xyz, column_of(x) + dx, row_of(y) + dy, i) / 25.0;
            }
        }
    }
    ifig_colour_linear(bench->scene.lamp, mean, 0, rgb);
    return (rgb[0] - rgb[2]) / (rgb[0] + rgb[1] + rgb[2]);
}

#endif
