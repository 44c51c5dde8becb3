/* SPDX-License-Identifier: MIT */
/* The body colour of --colour and --colourless, or of a variety that was named as the stone. */
#ifndef IFIG_CLI_COLOUR_H
#define IFIG_CLI_COLOUR_H

#include "options.h"
#include "scene_parts.h"

IfigCliWriter ifig_cli_write_colour, ifig_cli_write_colourless;

/* Choose the body colour of the scene's one stone. */
IfigCliStatus ifig_cli_open_colour(IfigCliSettings *settings, IfigCliScene *scene);

/* A word as a recipe may hold it: letters and digits of ASCII, blanks, '-' and '_', a letter or
 * digit first. */
int ifig_cli_is_plain(const char *word);
/* Print a plain word, in quotes where it holds a blank. */
void ifig_cli_write_plain_word(FILE *out, const char *word);
/* The names of a species' body colours: "ruby, blue sapphire or yellow sapphire". */
typedef struct IfigCliColourNames {
    char text[400];
} IfigCliColourNames;
IfigCliColourNames ifig_cli_colour_names(const IfigSpecies *species);

/* The stone as a recipe names it: its key, or the variety typed where that has a body colour; ""
 * where options name it. */
const char *ifig_cli_recipe_stone(const IfigCliSettings *settings, const IfigCliScene *scene);
/* ", body colour of ruby", ", colourless" or nothing. */
void ifig_cli_describe_colour(FILE *out, const IfigCliSettings *settings,
                              const IfigCliScene *scene);
/* What the default name of a picture begins with: "ruby", "corundum_blue_sapphire". */
typedef struct IfigCliStem {
    char text[200];
} IfigCliStem;
IfigCliStem ifig_cli_stone_stem(const IfigCliSettings *settings, const IfigCliScene *scene);

#endif
