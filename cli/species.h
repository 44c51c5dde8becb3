/* SPDX-License-Identifier: MIT */
/* What is told of a species, in text (species.c) and in JSON (species_json.c). */
#ifndef IFIG_CLI_SPECIES_H
#define IFIG_CLI_SPECIES_H

#include <jansson.h>

#include "exit_status.h"
#include "interfig/interfig.h"

/* Columns before the text of a field. */
enum { IFIG_CLI_HEADING = 20 };

/* Fraunhofer's lines at which indices are told. */
typedef struct IfigCliLine {
    const char *name;
    double wavelength_nm;
} IfigCliLine;
enum { IFIG_CLI_LINE_COUNT = 3 };
extern const IfigCliLine ifig_cli_lines[IFIG_CLI_LINE_COUNT];

/* How many indices a character has: 1, 2 or 3; and their names. */
int ifig_cli_index_count(IfigOpticCharacter character);
const char *ifig_cli_index_name(IfigOpticCharacter character, int index);
/* The indices in the order of their names. */
IfigStatus ifig_cli_named_indices(const IfigSpecies *species, IfigOpticCharacter character,
                                  double wavelength_nm, double n[3]);
/* "positive", "negative", "either", or "" */
const char *ifig_cli_sign_phrase(const IfigSpeciesFacts *facts);
/* "inclined", ..., "none" */
const char *ifig_cli_monoclinic_name(IfigMonoclinicDispersion kind);

/* The name of a text column in JSON, and its heading; NULL where the text is told elsewhere. */
const char *ifig_cli_text_key(IfigSpeciesText column);

/* The body colours and what each ray of them looks like; nothing where there are none. */
void ifig_cli_print_colours(const IfigSpecies *species, IfigOpticCharacter character);
json_t *ifig_cli_json_of_colours(const IfigSpecies *species, IfigOpticCharacter character);

IfigCliStatus ifig_cli_print_catalogue_json(const IfigCatalogue *catalogue);
IfigCliStatus ifig_cli_print_species_json(const IfigSpecies *species);

#endif
