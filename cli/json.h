/* SPDX-License-Identifier: MIT */
/* JSON on standard output. */
#ifndef IFIG_CLI_JSON_H
#define IFIG_CLI_JSON_H

#include <jansson.h>

#include "exit_status.h"
#include "scene_parts.h"

/* A number, or null where there is none: JSON has no NaN. */
json_t *ifig_cli_json_number(double value);
/* An array of numbers. */
json_t *ifig_cli_json_numbers(const double *values, int count);
/* Each line of a text, as a string of its own. */
json_t *ifig_cli_json_lines(const char *text);
/* A colour as an 8-bit picture holds it. */
json_t *ifig_cli_json_srgb(const double srgb[3]);
/* The stone that was looked at: species, body_colour, thickness_mm, view, tilt_deg and
 * tilt_azimuth_deg. */
void ifig_cli_json_stone(json_t *answer, const IfigCliSettings *settings,
                         const IfigCliScene *scene);
/* Print a value, every number with 17 significant digits, and let it go. NULL: memory ran out. */
IfigCliStatus ifig_cli_print_json(json_t *value);

#endif
