/* SPDX-License-Identifier: MIT */
/* The observations of --observed. */
#ifndef IFIG_CLI_OBSERVED_H
#define IFIG_CLI_OBSERVED_H

#include "options.h"

IfigCliReader ifig_cli_read_observed;

/* Read them all.
 * @param[out] observed  room for IFIG_CLI_OBSERVED_MAX */
IfigCliStatus ifig_cli_open_observed(const IfigCliSettings *settings, IfigObservation *observed);

#endif
