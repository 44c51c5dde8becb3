/* SPDX-License-Identifier: MIT */
/* The three stones of --range, side by side in one picture. */
#ifndef IFIG_CLI_RANGE_H
#define IFIG_CLI_RANGE_H

#include "options.h"
#include "scene_parts.h"

extern const char *const ifig_cli_range_words[];

/* Make the stones of the lowest, the typical and the highest value; nothing without --range. */
IfigCliStatus ifig_cli_open_range(IfigCliSettings *settings, IfigCliScene *scene);

/* How many figures stand side by side: 1, or 3. */
uint32_t ifig_cli_panel_count(const IfigCliSettings *settings);
/* The first column of a figure, and the width of all; 0 <= panel < count. */
uint32_t ifig_cli_panel_left(const IfigCliSettings *settings, uint32_t panel);
uint32_t ifig_cli_picture_width(const IfigCliSettings *settings);
/* The stone of a figure, in place of the scene's. */
void ifig_cli_set_panel(const IfigCliScene *scene, uint32_t panel, IfigLayer *layer);

/* "_range_2V", for a file's name; "" without. */
typedef struct IfigCliRangeName {
    char text[32];
} IfigCliRangeName;
IfigCliRangeName ifig_cli_range_name(const IfigCliSettings *settings);

/* "; from left to right: 2V 24 deg (low), 40 deg (typical), 47 deg (high)"; nothing without. */
void ifig_cli_describe_range(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene);

#endif
