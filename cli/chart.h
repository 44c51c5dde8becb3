/* SPDX-License-Identifier: MIT */
/* What interfig chart draws and tells. */
#ifndef IFIG_CLI_CHART_H
#define IFIG_CLI_CHART_H

#include "exit_status.h"
#include "scene_parts.h"

enum { IFIG_CLI_CHART_SPECIES_MAX = 256, IFIG_CLI_CHART_STRIPS_MAX = 4 };

typedef struct IfigCliChart {
    IfigCliScene scene; /* its catalogue and its lamp alone */
    const IfigSpecies *species[IFIG_CLI_CHART_SPECIES_MAX];
    size_t species_count;
    int may_leave_out; /* 1: nobody asked for each of the species */
    IfigRetarder strips[IFIG_CLI_CHART_STRIPS_MAX];
    size_t strip_count;
    char *marked_text, *strips_text; /* the lists as a recipe spells them */
} IfigCliChart;

/* chart_species.c: look up the lists of the settings and spell them as keys. Close in every case.
 */
IfigCliStatus ifig_cli_open_chart_species(IfigCliSettings *settings, IfigCliChart *chart);

/* chart_json.c: every 5 nm of the scale, the species and the strips. */
IfigCliStatus ifig_cli_print_chart_json(const IfigCliSettings *settings, const IfigCliChart *chart);

/* The line of sight of a strip: "x", "y" or "z". */
const char *ifig_cli_section_word(const IfigRetarder *retarder);

#endif
