/* SPDX-License-Identifier: MIT */
/* What the tests of a stone's face share. */
#ifndef IFIG_FACE_TEST_H
#define IFIG_FACE_TEST_H

#include "optics_test.h"

#include "texture.h"

/* A stone between crossed polars without a lens, and what runs through it. */
typedef struct Stone {
    IfigLayer layer;
    IfigTexture texture;
    IfigScene scene;
    IfigLamp *lamp;
} Stone;

static inline void stone_ready(Stone *stone, const char *key, IfigPattern pattern,
                               double stress_mpa, double thickness_mm)
{
    *stone = (Stone){.layer = IFIG_LAYER_INIT, .texture = IFIG_TEXTURE_INIT};
    stone->layer.species = builtin(key);
    stone->layer.thickness_mm = thickness_mm;
    stone->texture.pattern = pattern;
    stone->texture.stress_mpa = stress_mpa;
    stone->scene = (IfigScene)IFIG_SCENE_INIT;
    stone->scene.layers = &stone->layer;
    stone->scene.layer_count = 1;
    stone->scene.instrument.lens = IFIG_LENS_NONE;
    ck_assert_int_eq(ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &stone->lamp, NULL), IFIG_OK);
    stone->scene.lamp = stone->lamp;
}

static inline void stone_gone(Stone *stone)
{
    ifig_lamp_free(stone->lamp);
}

/* The whole face; free with free. */
static inline void *face_pixels(const Stone *stone, uint32_t size, IfigPixelFormat format)
{
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigFace *face = NULL;
    IfigError error = IFIG_ERROR_INIT;
    options.pixels = size;
    options.threads = 2;
    ck_assert_msg(ifig_face_create(&stone->scene, &stone->texture, &options, &face, &error) ==
                      IFIG_OK,
                  "%s", error.message);
    void *pixels = calloc((size_t)size * size, ifig_pixel_bytes(format));
    ck_assert_ptr_nonnull(pixels);
    ck_assert_int_eq(ifig_face_render(face, format, 0, size, pixels, NULL), IFIG_OK);
    ifig_face_free(face);
    return pixels;
}

static inline IfigStatus face_status(const Stone *stone, IfigError *error)
{
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigFace *face = NULL;
    options.pixels = 8;
    IfigStatus status = ifig_face_create(&stone->scene, &stone->texture, &options, &face, error);
    ifig_face_free(face);
    return status;
}

/* Where the middle of a pixel lies, in half faces. */
static inline double middle_of(uint32_t pixel, uint32_t size)
{
    return (2.0 * pixel + 1.0) / size - 1.0;
}

/* Y of the whole disc, rim left out. */
static inline double mean_light(const float (*xyz)[3], uint32_t size)
{
    double sum = 0, count = 0;
    for (uint32_t row = 0; row < size; row++) {
        for (uint32_t column = 0; column < size; column++) {
            if (hypot(middle_of(column, size), middle_of(row, size)) < 0.9) {
                sum += (double)xyz[row * size + column][1];
                count += 1.0;
            }
        }
    }
    return sum / count;
}

/* Matrices at places of the face, by the definition. */
static inline IfigJonesXy jones_at(const Stone *stone, double x, double y, double wavelength_nm)
{
    IfigJonesXy jones;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_face_jones(&stone->scene, &stone->texture, x, y, &wavelength_nm, 1, &jones,
                                  &error) == IFIG_OK,
                  "%s", error.message);
    return jones;
}

/* X, Y, Z at a place: the definition summed at every fifth of a nm. */
static inline void summed(const Stone *stone, double x, double y, double xyz[3])
{
    enum { COUNT = 2001 };
    double *nm = calloc(COUNT, sizeof *nm), white = 0;
    IfigJonesXy *jones = calloc(COUNT, sizeof *jones);
    for (int k = 0; k < COUNT; k++) {
        nm[k] = 380.0 + 0.2 * k;
    }
    ck_assert_int_eq(ifig_face_jones(&stone->scene, &stone->texture, x, y, nm, COUNT, jones, NULL),
                     IFIG_OK);
    xyz[0] = xyz[1] = xyz[2] = 0;
    for (int k = 0; k < COUNT; k++) {
        double complex in[2], out[2], through = 0;
        double observer[3], power = ifig_lamp_power(stone->lamp, nm[k]);
        const IfigRay straight = ifig_ray(stone->scene.instrument.immersion_index, 0, 0);
        ifig_polariser_field(&stone->scene.instrument, &straight, in);
        ifig_analyser_field(&stone->scene.instrument, &straight, nm[k], out);
        for (int i = 0; i < 4; i++) {
            through += conj(out[i / 2]) * jones[k].m[i / 2][i % 2] * in[i % 2];
        }
        ifig_colour_matching(nm[k], observer);
        for (int i = 0; i < 3; i++) {
            xyz[i] += power * observer[i] * creal(through * conj(through));
        }
        white += power * observer[1];
    }
    for (int i = 0; i < 3; i++) {
        xyz[i] /= white;
    }
    free(nm);
    free(jones);
}

/* The largest difference of two colours in 8-bit sRGB levels. */
static inline double levels_apart(const Stone *stone, const double a[3], const double b[3])
{
    double one[3], other[3], most = 0;
    ifig_colour_linear(stone->lamp, a, 0, one);
    ifig_colour_linear(stone->lamp, b, 0, other);
    ifig_colour_into_gamut(one);
    ifig_colour_into_gamut(other);
    for (int i = 0; i < 3; i++) {
        most = fmax(most, 255.0 * fabs(ifig_srgb_encode(one[i]) - ifig_srgb_encode(other[i])));
    }
    return most;
}

#endif
