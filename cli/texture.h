/* SPDX-License-Identifier: MIT */
/* The stone without a lens: what runs through it (--pattern, --stress, --width, --grain, --seed)
 * and how wide the eye looks at it (--cone). */
#ifndef IFIG_CLI_TEXTURE_H
#define IFIG_CLI_TEXTURE_H

#include "options.h"
#include "scene_parts.h"

/* "plain", "bands", ... from IFIG_PATTERN_PLAIN on; ends with NULL. */
extern const char *const ifig_cli_pattern_words[];

IfigCliWriter ifig_cli_write_texture;

/* 1 where the eye looks without a lens: blink, face, hunt, and turn --of face. */
int ifig_cli_is_bare(const IfigCliSettings *settings);
/* 1 where the picture is of the stone's face: face, and turn --of face. */
int ifig_cli_is_face(const IfigCliSettings *settings);

/* Refuse what the instrument in use has no place for, and take the lens away. */
IfigCliStatus ifig_cli_prepare_texture(IfigCliSettings *settings);
/* Bring the pattern to what it stands for in the scene's stone. */
IfigCliStatus ifig_cli_open_texture(IfigCliSettings *settings, IfigCliScene *scene);
/* The direction along which a stone is looked at without a lens, unless told. */
IfigView ifig_cli_bare_view(const IfigCliSettings *settings, const IfigSpecies *species);
/* ", strained by 20 MPa in a cross-hatch" or nothing. */
void ifig_cli_describe_texture(FILE *out, const IfigCliSettings *settings);

#endif
