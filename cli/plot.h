/* SPDX-License-Identifier: MIT */
/* The plates of blink, hunt and contrast, where -o asks for one. Without -o nothing is done; what
 * is wrong has been complained about. */
#ifndef IFIG_CLI_PLOT_H
#define IFIG_CLI_PLOT_H

#include <stdio.h>

#include "interfig/page.h"

#include "exit_status.h"
#include "scene_parts.h"

/* @param verdict  lines, below the curves */
IfigCliStatus ifig_cli_plot_blink(const IfigCliSettings *settings, const IfigCliScene *scene,
                                  const IfigBlink *blink, const char *verdict);
IfigCliStatus ifig_cli_plot_hunt(const IfigCliSettings *settings, const IfigCliScene *scene,
                                 const IfigHunt *hunt, const char *advice);
/* @param scenes,traits  one for each stone
 * @param advice         NULL: none */
IfigCliStatus ifig_cli_plot_contrast(const IfigCliSettings *settings, const IfigCliScene *scenes,
                                     const IfigTraits *traits, const char *advice);

/* The stone as a heading has it. */
void ifig_cli_write_stone(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene);

/* What every plate needs. */
typedef struct IfigCliPlate {
    IfigPageOptions options;
    IfigPageWords words;
    IfigImageText text[8];
    char software[40];
    char *title, *subtitle, *recipe;
} IfigCliPlate;
typedef void IfigCliTextWriter(FILE *out, const IfigCliSettings *settings,
                               const IfigCliScene *scene);
/* Text from a writer, to be freed; NULL where memory ran out. */
char *ifig_cli_write_text(IfigCliTextWriter *writer, const IfigCliSettings *settings,
                          const IfigCliScene *scene);
/* Check -o and --dpi, and collect the words that go into the file. Close the plate in every case.
 */
IfigCliStatus ifig_cli_open_plate(const IfigCliSettings *settings, const IfigCliScene *scene,
                                  IfigCliTextWriter *const writers[3], IfigCliPlate *plate);
void ifig_cli_close_plate(IfigCliPlate *plate);
/* The exit status of a page call, with its complaint. */
IfigCliStatus ifig_cli_end_plate(IfigStatus status, const IfigError *error);

#endif
