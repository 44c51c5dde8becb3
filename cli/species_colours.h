/* SPDX-License-Identifier: MIT */
/* The body colours of a species and what each ray of them looks like; nothing where there are none.
 */
#ifndef IFIG_CLI_SPECIES_COLOURS_H
#define IFIG_CLI_SPECIES_COLOURS_H

#include <jansson.h>

#include "interfig/interfig.h"

void ifig_cli_print_colours(const IfigSpecies *species, IfigOpticCharacter character);
json_t *ifig_cli_json_of_colours(const IfigSpecies *species, IfigOpticCharacter character);

#endif
