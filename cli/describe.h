/* SPDX-License-Identifier: MIT */
/* What a picture shows, in the words of a gemmologist. */
#ifndef IFIG_CLI_DESCRIBE_H
#define IFIG_CLI_DESCRIBE_H

#include <stdio.h>

#include "scene_parts.h"

/* What every picture and every verdict says of itself. */
extern const char ifig_cli_evidence[];
#define IFIG_CLI_EYES                                                                              \
    "Never look at the sun or any intense source through polarisers: they do not protect the eye."

/* "quartz": the species' key, or what stands for it where it has none. */
const char *ifig_cli_stone_name(const IfigCliScene *scene);
/* "uniaxial", "biaxial", ... */
const char *ifig_cli_character_name(IfigOpticCharacter character);
/* "positive", "negative", "neither" or "". */
const char *ifig_cli_sign_name(int optic_sign);
/* "c", "acute-bisectrix", ... */
const char *ifig_cli_view_word(const IfigCliSettings *settings);

/* One line: "quartz, uniaxial positive, along the optic axis, 3 mm, ..." */
void ifig_cli_describe(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene);
/* What to look for in the picture: "a dark cross ..."; "" where no short word is true. */
typedef struct IfigCliSight {
    char text[160];
} IfigCliSight;
IfigCliSight ifig_cli_sight(const IfigCliSettings *settings, const IfigCliScene *scene);
/* The default name of the picture's file; 0 where it would be too long. */
int ifig_cli_default_file_name(const IfigCliSettings *settings, const IfigCliScene *scene,
                               char *name, size_t size);

/* ", daylight", ", light of 546.1 nm". */
void ifig_cli_describe_lamp(FILE *out, const IfigCliSettings *settings);

#endif
