/* SPDX-License-Identifier: MIT */
/* The accessory plate of --plate and --plate-slow. */
#ifndef IFIG_CLI_PLATE_H
#define IFIG_CLI_PLATE_H

#include "options.h"

/* "full-wave", ...; ends with NULL. */
extern const char *const ifig_cli_plate_words[];

IfigCliReader ifig_cli_read_plate;
IfigCliWriter ifig_cli_write_plate, ifig_cli_write_plate_slow;

/* The plate that the settings ask for. */
IfigPlate ifig_cli_plate(const IfigCliSettings *settings);
/* ", full-wave plate of 550 nm with its slow direction at 45 deg"; nothing without a plate. */
void ifig_cli_describe_plate(FILE *out, const IfigCliSettings *settings);

#endif
