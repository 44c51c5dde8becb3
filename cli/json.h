/* SPDX-License-Identifier: MIT */
/* JSON on standard output. */
#ifndef IFIG_CLI_JSON_H
#define IFIG_CLI_JSON_H

#include <jansson.h>

#include "exit_status.h"

/* A number, or null where there is none: JSON has no NaN. */
json_t *ifig_cli_json_number(double value);
/* An array of numbers. */
json_t *ifig_cli_json_numbers(const double *values, int count);
/* Print a value, every number with 17 significant digits, and let it go. NULL: memory ran out. */
IfigCliStatus ifig_cli_print_json(json_t *value);

#endif
