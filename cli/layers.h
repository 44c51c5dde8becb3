/* SPDX-License-Identifier: MIT */
/* The stack of --layers: its option, its recipe, its look-ups, its words. */
#ifndef IFIG_CLI_LAYERS_H
#define IFIG_CLI_LAYERS_H

#include "colour.h"
#include "options.h"
#include "scene_parts.h"

IfigCliReader ifig_cli_read_layers;
IfigCliWriter ifig_cli_write_layers;

/* Look the layers up in the scene's catalogue: fills species, hand, body colour and thickness, and
 * spells the species as a recipe does. The first one stands for the stone in the scene. */
IfigCliStatus ifig_cli_find_layers(IfigCliSettings *settings, IfigCliScene *scene);
/* Stage position of a layer, the layer's own azimuth in it. */
double ifig_cli_layer_stage_deg(const IfigCliSettings *settings, size_t layer, double stage_deg);

/* "2.5 mm of right-handed quartz, then 2.5 mm of left-handed quartz" */
void ifig_cli_describe_layers(FILE *out, const IfigCliSettings *settings,
                              const IfigCliScene *scene);
/* "quartz_right_2.5mm_quartz_left_2.5mm", for a file's name. */
IfigCliStem ifig_cli_layers_stem(const IfigCliSettings *settings, const IfigCliScene *scene);

#endif
