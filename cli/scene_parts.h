/* SPDX-License-Identifier: MIT */
/* What a scene is made of; scene.h sets it. */
#ifndef IFIG_CLI_SCENE_PARTS_H
#define IFIG_CLI_SCENE_PARTS_H

#include "settings.h"

/* What a picture has kept of the files it was made with; NULL: nothing. */
typedef struct IfigCliKept {
    const char *species; /* YAML */
    const char *lamp;    /* CSV */
} IfigCliKept;

typedef struct IfigCliScene {
    IfigCatalogue *catalogue;
    IfigSpecies *measured; /* made from --indices; NULL: the catalogue's */
    const IfigSpecies *species;
    IfigSpeciesFacts facts;
    IfigLamp *lamp;
    IfigLayer layer[IFIG_LAYERS_MAX]; /* light enters the first */
    size_t layer_count;
    IfigSpecies *range[3]; /* of --range: low, typical, high; else NULL */
    double range_value[3];
    IfigScene scene;
    IfigTexture texture; /* of the stone's face */
    char *species_text;  /* the species whole, where one came from a user's file; NULL: none */
    char *lamp_text;     /* the table of the lamp, where it came from a file; NULL: none */
} IfigCliScene;

#endif
