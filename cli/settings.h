/* SPDX-License-Identifier: MIT */
/* What the command line asked for, in plain values. */
#ifndef IFIG_CLI_SETTINGS_H
#define IFIG_CLI_SETTINGS_H

#include <stdint.h>

#include "interfig/interfig.h"
#include "interfig/species_record.h"

/* The options, in the order the help and a recipe name them. */
typedef enum IfigCliOptionId {
    IFIG_CLI_INDICES = 0,
    IFIG_CLI_ROTATION,
    IFIG_CLI_HAND,
    IFIG_CLI_COLOUR,
    IFIG_CLI_COLOURLESS,
    IFIG_CLI_LAYERS,
    IFIG_CLI_SPECIES_FILE,
    IFIG_CLI_THICKNESS,
    IFIG_CLI_VIEW,
    IFIG_CLI_TILT,
    IFIG_CLI_STAGE,
    IFIG_CLI_STRAIN,
    IFIG_CLI_RANGE,
    IFIG_CLI_PATTERN,
    IFIG_CLI_STRESS,
    IFIG_CLI_WIDTH,
    IFIG_CLI_GRAIN,
    IFIG_CLI_SEED,
    IFIG_CLI_OBSERVED, /* the last about the stone: see options_stone.c */
    IFIG_CLI_LENS,
    IFIG_CLI_FIELD,
    IFIG_CLI_CONE,
    IFIG_CLI_IMMERSION,
    IFIG_CLI_LAMP,
    IFIG_CLI_POLARISER,
    IFIG_CLI_ANALYSER,
    IFIG_CLI_POLARS,
    IFIG_CLI_PLATE,
    IFIG_CLI_PLATE_SLOW,
    IFIG_CLI_COUNT,
    IFIG_CLI_FROM_LIST,
    IFIG_CLI_LEVEL,
    IFIG_CLI_TITLE,
    IFIG_CLI_OF,
    IFIG_CLI_WHAT,
    IFIG_CLI_FROM,
    IFIG_CLI_TO,
    IFIG_CLI_STEPS,
    IFIG_CLI_DELAY,
    IFIG_CLI_AT,
    IFIG_CLI_WAVELENGTH,
    IFIG_CLI_ORDERS,
    IFIG_CLI_MARKED,
    IFIG_CLI_STRIPS,
    IFIG_CLI_JSON,
    IFIG_CLI_SIZE,
    IFIG_CLI_DEPTH,
    IFIG_CLI_DPI,
    IFIG_CLI_EXPOSURE,
    IFIG_CLI_LABELS,
    IFIG_CLI_OUTPUT,
    IFIG_CLI_FORCE,
    IFIG_CLI_THREADS,
    IFIG_CLI_AGAIN,
    IFIG_CLI_PRINT_RECIPE,
    IFIG_CLI_HELP,
    IFIG_CLI_OPTION_COUNT
} IfigCliOptionId;

typedef enum IfigCliPolars {
    IFIG_CLI_POLARS_CROSSED = 0,
    IFIG_CLI_POLARS_PARALLEL,
    IFIG_CLI_POLARS_CIRCULAR
} IfigCliPolars;

/* The words of --lamp, in this order; then what else it may be. The first four are IfigLampKind. */
typedef enum IfigCliLamp {
    IFIG_CLI_LAMP_SODIUM = IFIG_LAMP_FLUORESCENT + 1,
    IFIG_CLI_LAMP_LINE,
    IFIG_CLI_LAMP_FILE
} IfigCliLamp;

/* The words of --range, in this order. */
typedef enum IfigCliRange {
    IFIG_CLI_RANGE_NONE = 0,
    IFIG_CLI_RANGE_2V,
    IFIG_CLI_RANGE_BIREFRINGENCE
} IfigCliRange;

/* One layer of --layers. */
typedef struct IfigCliLayer {
    char species[68]; /* as typed; once the scene is open, as a recipe spells it */
    int has_hand;     /* 1: a hand; 0: an azimuth */
    int hand;         /* IfigHand */
    double azimuth_deg, thickness_mm;
} IfigCliLayer;

enum { IFIG_CLI_SPECIES_FILES_MAX = 16, IFIG_CLI_WORDS_MAX = 6, IFIG_CLI_OBSERVED_MAX = 32 };

typedef struct IfigCliSettings {
    const char *origin; /* NULL: the command line; else the file whose recipe this is */
    const char *place;  /* file:line:column of a page's recipe where these stand; NULL: nowhere */
    int command;        /* IFIG_CLI_FIGURE, ... of options.h */
    const char *word;   /* the first word that is no option: a species or a topic; NULL: none */
    const char *words[IFIG_CLI_WORDS_MAX]; /* all of them; only contrast takes more than one */
    size_t word_count;
    unsigned char given[IFIG_CLI_OPTION_COUNT];

    double indices[3];
    int index_count;
    double rotation_deg_per_mm;
    int hand;                /* IfigHand */
    const char *colour_word; /* of --colour */
    IfigCliLayer layers[IFIG_LAYERS_MAX];
    size_t layer_count; /* 0: a single stone */
    const char *species_files[IFIG_CLI_SPECIES_FILES_MAX];
    size_t species_file_count;

    double thickness_mm, stage_deg;
    int view; /* IfigView */
    double tilt_deg, tilt_azimuth_deg;
    double stress_mpa, stress_azimuth_deg;
    int range;   /* IfigCliRange */
    int pattern; /* IfigPattern */
    double pattern_stress_mpa, width_mm, grain_mm;
    int seed;
    const char *observed[IFIG_CLI_OBSERVED_MAX];
    size_t observed_count;

    int lens; /* IfigLensKind */
    double sphere_index, aperture, field_deg, immersion_index;
    double cone_deg; /* half angle of what the eye takes in without a lens */
    int lamp;        /* IfigLampKind or IfigCliLamp */
    const char *lamp_word;
    double lamp_line_nm;
    IfigPolar polariser, analyser;
    int polars; /* IfigCliPolars */
    int plate;  /* IfigPlateMaterial */
    double plate_nm, plate_slow_deg;

    int of_face; /* 1: what turns is the face, not the figure */
    int what;    /* IfigCliMotion */
    double from, to;
    int steps, delay_ms;

    double theta_deg, phi_deg, wavelength_nm;

    int orders;                  /* of the chart */
    const char *marked, *strips; /* species with commas between them; NULL: the usual ones */

    int size, depth, threads;
    double dpi, exposure_stops;
    int labels; /* IfigLabels */
    const char *output, *again;

    int count, level; /* of an exercise */
    const char *list, *title;
} IfigCliSettings;

/* Every setting at its default. */
IfigCliSettings ifig_cli_default_settings(void);

#endif
