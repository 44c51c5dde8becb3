/* SPDX-License-Identifier: MIT */
/* Options that do not go together, and stones that show nothing. */
#ifndef IFIG_CLI_CHECK_SETTINGS_H
#define IFIG_CLI_CHECK_SETTINGS_H

#include "exit_status.h"
#include "settings.h"

/* Refuse options that contradict each other or leave the stone unnamed. */
IfigCliStatus ifig_cli_check_settings(const IfigCliSettings *settings);
/* Refuse a species that shows no figure.
 * @param where  what the message begins with, such as "layer 2: " */
IfigCliStatus ifig_cli_check_species(const char *where, const IfigSpecies *species);
/* Refuse a species that lets no light through. */
IfigCliStatus ifig_cli_check_opaque(const char *where, const IfigSpecies *species);

#endif
