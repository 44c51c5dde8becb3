/* SPDX-License-Identifier: MIT */
/* What the tests of the hunt share: a stone between polars without a lens, and light straight
 * through it, waves of ifig_plate_wave alone. */
#ifndef IFIG_HUNT_TEST_H
#define IFIG_HUNT_TEST_H

#include <string.h>

#include "interfig/polariscope.h"
#include "optics_test.h"

/* A scene that owns its layer and lamp. The scene points at the layer, so it stays in place. */
typedef struct Bench {
    IfigLayer layer;
    IfigLamp *lamp;
    IfigScene scene;
} Bench;

static inline void set_bench(Bench *bench, const IfigSpecies *species, double thickness_mm)
{
    memset(bench, 0, sizeof *bench);
    bench->layer = layer_of(species, IFIG_VIEW_DEFAULT, thickness_mm);
    bench->scene = (IfigScene)IFIG_SCENE_INIT;
    bench->scene.instrument.lens = IFIG_LENS_NONE;
    ck_assert_int_eq(ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &bench->lamp, NULL), IFIG_OK);
    bench->scene.layers = &bench->layer;
    bench->scene.layer_count = 1;
    bench->scene.lamp = bench->lamp;
}

static inline void clear_bench(Bench *bench)
{
    ifig_lamp_free(bench->lamp);
}

static inline void light_by_line(Bench *bench, double nm)
{
    ifig_lamp_free(bench->lamp);
    ck_assert_int_eq(ifig_lamp_create_line(nm, &bench->lamp, NULL), IFIG_OK);
    bench->scene.lamp = bench->lamp;
}

static inline IfigHunt hunt_of(const Bench *bench)
{
    IfigHunt hunt = IFIG_HUNT_INIT;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_hunt(&bench->scene, &hunt, &error) == IFIG_OK, "%s", error.message);
    return hunt;
}

/* The light between crossed polars at a turn of the stone, straight through a layer. */
static inline double crossed_at(const IfigPlateWave *wave, double turn_deg)
{
    const Beam beam = {1.0, SODIUM_NM, 0, 0};
    return through_polars(wave, beam, turn_deg, turn_deg + 90.0);
}

/* A map of some pixels; free it. */
static inline uint8_t *map_of(const Bench *bench, uint32_t pixels, int threads)
{
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigError error = IFIG_ERROR_INIT;
    uint8_t *rgb = malloc((size_t)pixels * pixels * 3);
    ck_assert_ptr_nonnull(rgb);
    options.pixels = pixels;
    options.threads = threads;
    ck_assert_msg(ifig_hunt_map(&bench->scene, &options, rgb, &error) == IFIG_OK, "%s",
                  error.message);
    return rgb;
}

#endif
