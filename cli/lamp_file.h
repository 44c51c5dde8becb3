/* SPDX-License-Identifier: MIT */
/* A lamp from a table of wavelengths and powers. */
#ifndef IFIG_CLI_LAMP_FILE_H
#define IFIG_CLI_LAMP_FILE_H

#include "exit_status.h"
#include "interfig/interfig.h"

/* Make a lamp from a table in text: two columns, wavelength in nm and relative power, with a comma,
 * a tab or blanks between them; '#' begins a remark; a first line of words is a heading. What is
 * wrong is complained about by file and line.
 * @param name       what messages call the table
 * @param[out] table the table anew, as a picture keeps it; free() it */
IfigCliStatus ifig_cli_read_lamp_table(const char *name, const char *text, IfigLamp **lamp,
                                       char **table);

#endif
