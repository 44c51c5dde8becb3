/* SPDX-License-Identifier: MIT */
/* What the tests of turned stones share: a bench without a lens, and its turn. */
#ifndef IFIG_BLINK_TEST_H
#define IFIG_BLINK_TEST_H

#include <string.h>

#include "interfig/polariscope.h"
#include "optics_test.h"

/* A scene that owns its layers and lamp. The scene points at the layers, so it stays in place. */
typedef struct Bench {
    IfigLayer layers[IFIG_LAYERS_MAX];
    IfigLamp *lamp;
    IfigScene scene;
} Bench;

static inline void set_bench(Bench *bench, const IfigSpecies *species, IfigView view,
                             double thickness_mm)
{
    memset(bench, 0, sizeof *bench);
    for (int i = 0; i < IFIG_LAYERS_MAX; i++) {
        bench->layers[i] = layer_of(species, view, thickness_mm);
    }
    bench->scene = (IfigScene)IFIG_SCENE_INIT;
    bench->scene.instrument.lens = IFIG_LENS_NONE;
    ck_assert_int_eq(ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &bench->lamp, NULL), IFIG_OK);
    bench->scene.layers = bench->layers;
    bench->scene.layer_count = 1;
    bench->scene.lamp = bench->lamp;
}

static inline void clear_bench(Bench *bench)
{
    ifig_lamp_free(bench->lamp);
}

static inline void light_by_line(Bench *bench, double wavelength_nm)
{
    ifig_lamp_free(bench->lamp);
    ck_assert_int_eq(ifig_lamp_create_line(wavelength_nm, &bench->lamp, NULL), IFIG_OK);
    bench->scene.lamp = bench->lamp;
}

static inline IfigBlink blink_of(const Bench *bench, const IfigTexture *texture)
{
    IfigBlink blink = IFIG_BLINK_INIT;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_blink(&bench->scene, texture, &blink, &error) == IFIG_OK, "%s: %s",
                  ifig_species_text(bench->layers[0].species, IFIG_TEXT_KEY), error.message);
    return blink;
}

static inline const char *words_of(const IfigBlink *blink)
{
    static char text[4096];
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_blink_describe(blink, text, sizeof text, &error) == IFIG_OK, "%s",
                  error.message);
    return text;
}

/* The usual line of sight away from the optic axes: ten degrees off Y or X, toward nothing special.
 */
static inline void look_away_from_axis(Bench *bench)
{
    IfigSpeciesFacts facts;
    ifig_species_facts(bench->layers[0].species, &facts, NULL);
    IfigOrientation *orientation = &bench->layers[0].orientation;
    orientation->view = facts.character == IFIG_BIAXIAL ? IFIG_VIEW_OPTIC_NORMAL : IFIG_VIEW_X;
    orientation->tilt_deg =
        facts.character == IFIG_BIAXIAL || facts.character == IFIG_UNIAXIAL ? 10 : 0;
    orientation->tilt_azimuth_deg = 30;
}

#endif
