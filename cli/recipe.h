/* SPDX-License-Identifier: MIT */
/* The command line that makes a picture, as the picture keeps it. */
#ifndef IFIG_CLI_RECIPE_H
#define IFIG_CLI_RECIPE_H

#include <stdio.h>

#include "exit_status.h"
#include "settings.h"

/* Print the settings of a scene as a command line, every option spelled out.
 * @param stones  SPECIES, or several of them; none: options name it */
void ifig_cli_write_recipe(FILE *out, const IfigCliSettings *settings, const char *const *stones,
                           size_t count);

/* Take the next word out of such a line, which is cut up; NULL at its end. */
char *ifig_cli_next_word(char **line);

/* Read such a line. The settings point into the text, which is cut up. What is wrong has been
 * complained about.
 * @param origin   the file it came from
 * @param command  the one that it must be of */
IfigCliStatus ifig_cli_read_recipe(char *text, const char *origin, int command,
                                   IfigCliSettings *settings);

#endif
