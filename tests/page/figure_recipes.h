/* SPDX-License-Identifier: MIT */
/* Forty figures on which labels must find their places. */
#ifndef IFIG_FIGURE_RECIPES_H
#define IFIG_FIGURE_RECIPES_H

#include <stdlib.h>
#include <string.h>

#include "interfig/page.h"
#include "interfig/reading.h"

typedef struct Recipe {
    const char *name, *species;
    double thickness_mm;
    IfigView view;
    double tilt_deg, tilt_azimuth_deg, stage_deg;
    double field_deg; /* of the ball; 0: its own */
    double aperture;  /* above 0: an objective */
    double immersion_index;
    int polars; /* 0 crossed, 1 parallel, 2 circular, 3 crossed at 45 degrees */
    int plate;  /* IfigPlateMaterial */
} Recipe;

#define BXA IFIG_VIEW_ACUTE_BISECTRIX
#define BXO IFIG_VIEW_OBTUSE_BISECTRIX
#define OAX IFIG_VIEW_OPTIC_AXIS

static const Recipe RECIPES[] = {
    {"calcite", "calcite", 1, 0, 0, 0, 0, 0, 0, 1, 0, 0},
    {"calcite-thin", "calcite", 0.05, 0, 0, 0, 0, 0, 0, 1, 0, 0},
    {"calcite-thick", "calcite", 10, 0, 0, 0, 0, 0, 0, 1, 0, 0},
    {"zircon", "zircon_high", 1, 0, 15, 30, 0, 0, 0, 1, 0, 0},
    {"zircon-off", "zircon_high", 1, 0, 35, 200, 0, 0, 0, 1, 0, 0},
    {"aquamarine", "aquamarine", 5, 0, 5, 90, 0, 0, 0, 1, 0, 0},
    {"beryl-field-10", "aquamarine", 20, 0, 0, 0, 0, 10, 0, 1, 0, 0},
    {"beryl-field-20", "aquamarine", 10, 0, 2, 140, 0, 20, 0, 1, 0, 0},
    {"beryl-field-80", "aquamarine", 4, 0, 0, 0, 0, 80, 0, 1, 0, 0},
    {"corundum-axis-across", "corundum", 1, 0, 90, 0, 30, 0, 0, 1, 0, 0},
    {"quartz", "quartz", 3, 0, 0, 0, 0, 0, 0, 1, 0, 0},
    {"quartz-thick", "quartz", 12, 0, 0, 0, 0, 0, 0, 1, 0, 0},
    {"quartz-off", "quartz", 6, 0, 12, 310, 0, 0, 0, 1, 0, 0},
    {"quartz-circular", "quartz", 5, 0, 0, 0, 0, 0, 0, 1, 2, 0},
    {"calcite-plate", "calcite", 0.1, 0, 0, 0, 0, 0, 0, 1, 0, IFIG_PLATE_GYPSUM},
    {"calcite-parallel", "calcite", 0.5, 0, 0, 0, 0, 0, 0, 1, 1, 0},
    {"calcite-diagonal", "calcite", 0.5, 0, 0, 0, 0, 0, 0, 1, 3, 0},
    {"muscovite", "muscovite", 0.5, BXA, 0, 0, 0, 0, 0, 1, 0, 0},
    {"muscovite-45", "muscovite", 0.5, BXA, 0, 0, 45, 0, 0, 1, 0, 0},
    {"muscovite-20", "muscovite", 0.5, BXA, 0, 0, 20, 0, 0, 1, 0, 0},
    {"muscovite-plate", "muscovite", 0.03, BXA, 0, 0, 45, 0, 0, 1, 0, IFIG_PLATE_GYPSUM},
    {"muscovite-circular", "muscovite", 0.5, BXA, 0, 0, 45, 0, 0, 1, 2, 0},
    {"muscovite-tilted", "muscovite", 0.5, BXA, 10, 45, 45, 0, 0, 1, 0, 0},
    {"topaz", "topaz_f", 2, BXA, 0, 0, 45, 0, 0, 1, 0, 0},
    {"topaz-objective", "topaz_f", 0.3, BXA, 0, 0, 45, 0, 0.85, 1, 0, 0},
    {"topaz-liquid", "topaz_f", 1, BXA, 0, 0, 30, 0, 1.3, 1.518, 0, 0},
    {"topaz-axis", "topaz_f", 2, OAX, 0, 0, 0, 0, 0, 1, 0, 0},
    {"topaz-axis-45", "topaz_f", 2, OAX, 0, 0, 45, 0, 0, 1, 0, 0},
    {"topaz-obtuse", "topaz_f", 1, BXO, 0, 0, 45, 0, 0, 1, 0, 0},
    {"topaz-normal", "topaz_f", 1, IFIG_VIEW_OPTIC_NORMAL, 0, 0, 20, 0, 0, 1, 0, 0},
    {"aragonite", "aragonite", 1, BXA, 0, 0, 45, 0, 0, 1, 0, 0},
    {"aragonite-thick", "aragonite", 5, BXA, 0, 0, 0, 0, 0, 1, 0, 0},
    {"brookite", "brookite", 0.2, BXA, 0, 0, 45, 0, 0, 1, 0, 0},
    {"peridot-75", "peridot", 2, BXA, 0, 0, 45, 75, 0, 1, 0, 0},
    {"topaz-wide", "topaz_f", 2, BXA, 0, 0, 45, 75, 0, 1, 0, 0},
    {"iolite", "iolite", 2, BXA, 5, 120, 45, 0, 0, 1, 0, 0},
    {"spinel", "spinel", 3, 0, 0, 0, 0, 0, 0, 1, 0, 0},
    {"spinel-parallel", "spinel", 3, 0, 0, 0, 0, 30, 0, 1, 1, 0},
    {"topaz-field-10", "topaz_f", 5, OAX, 0, 0, 30, 10, 0, 1, 0, 0},
    {"sanidine", "sanidine", 3, BXA, 0, 0, 45, 0, 0, 1, 0, 0},
    {"muscovite-parallel", "muscovite", 0.5, BXA, 0, 0, 45, 0, 0, 1, 1, 0},
    {"quartz-plate-e", "quartz", 1, 0, 20, 60, 0, 0, 0, 1, 0, IFIG_PLATE_MICA},
};
enum { RECIPE_COUNT = sizeof RECIPES / sizeof RECIPES[0] };

/* A scene that owns what it is made of. */
typedef struct Bench {
    IfigCatalogue *catalogue;
    IfigLamp *lamp;
    IfigLayer layer;
    IfigScene scene;
} Bench;

static inline IfigStatus open_bench(const Recipe *recipe, Bench *bench, IfigError *error)
{
    static const IfigPolar polars[4][2] = {{{IFIG_POLAR_LINEAR, 0}, {IFIG_POLAR_LINEAR, 90}},
                                           {{IFIG_POLAR_LINEAR, 0}, {IFIG_POLAR_LINEAR, 0}},
                                           {{IFIG_POLAR_RIGHT, 0}, {IFIG_POLAR_LEFT, 0}},
                                           {{IFIG_POLAR_LINEAR, 45}, {IFIG_POLAR_LINEAR, 135}}};
    memset(bench, 0, sizeof *bench);
    bench->layer = (IfigLayer)IFIG_LAYER_INIT;
    bench->scene = (IfigScene)IFIG_SCENE_INIT;
    IfigStatus status = ifig_catalogue_create(&bench->catalogue, error);
    if (status == IFIG_OK) {
        status =
            ifig_catalogue_find(bench->catalogue, recipe->species, &bench->layer.species, error);
    }
    if (status == IFIG_OK) {
        status = ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &bench->lamp, error);
    }
    bench->layer.thickness_mm = recipe->thickness_mm;
    bench->layer.orientation.view = recipe->view;
    bench->layer.orientation.tilt_deg = recipe->tilt_deg;
    bench->layer.orientation.tilt_azimuth_deg = recipe->tilt_azimuth_deg;
    bench->layer.orientation.stage_deg = recipe->stage_deg;
    bench->scene.layers = &bench->layer;
    bench->scene.layer_count = 1;
    bench->scene.lamp = bench->lamp;
    IfigInstrument *const instrument = &bench->scene.instrument;
    instrument->field_deg = recipe->field_deg;
    instrument->immersion_index = recipe->immersion_index;
    instrument->lens = recipe->aperture > 0.0 ? IFIG_LENS_OBJECTIVE : IFIG_LENS_SPHERE;
    instrument->aperture = recipe->aperture > 0.0 ? recipe->aperture : instrument->aperture;
    instrument->polariser = polars[recipe->polars][0];
    instrument->analyser = polars[recipe->polars][1];
    if (recipe->plate != IFIG_PLATE_NONE) {
        instrument->plate = (IfigPlate){(IfigPlateMaterial)recipe->plate,
                                        recipe->plate == IFIG_PLATE_MICA ? 137.5 : 550.0, 45.0};
    }
    return status;
}

static inline void close_bench(Bench *bench)
{
    ifig_lamp_free(bench->lamp);
    ifig_catalogue_free(bench->catalogue);
}

#endif
