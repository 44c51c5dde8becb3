/* SPDX-License-Identifier: MIT */
/* The words and names in which a species is told, in text (species.c) and in JSON
 * (species_json.c). */
#ifndef IFIG_CLI_SPECIES_WORDS_H
#define IFIG_CLI_SPECIES_WORDS_H

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

#endif
