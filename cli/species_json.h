/* SPDX-License-Identifier: MIT */
/* interfig species --json: every species, or all about one. */
#ifndef IFIG_CLI_SPECIES_JSON_H
#define IFIG_CLI_SPECIES_JSON_H

#include "exit_status.h"
#include "interfig/interfig.h"

IfigCliStatus ifig_cli_print_catalogue_json(const IfigCatalogue *catalogue);
IfigCliStatus ifig_cli_print_species_json(const IfigSpecies *species);

#endif
