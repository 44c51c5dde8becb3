/* SPDX-License-Identifier: MIT */
/* From the words of a command line to settings. */
#ifndef IFIG_CLI_ARGUMENTS_H
#define IFIG_CLI_ARGUMENTS_H

#include "options.h"

/* Read the words after a command. Values point into the words. What is wrong has been complained
 * about; --help ends the reading, with settings->given[IFIG_CLI_HELP] set.
 * @param words  as main's argv: words[0] is the command and is passed over; ends with NULL */
IfigCliStatus ifig_cli_read_arguments(int command, int count, char **words,
                                      IfigCliSettings *settings);

/* Take one option's value; NULL for a switch. */
IfigCliStatus ifig_cli_take_option(int command, int id, const char *value,
                                   IfigCliSettings *settings);

/* Complain about the command line, or about the recipe that stands for it. */
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
IfigCliStatus
ifig_cli_refuse(const IfigCliSettings *settings, const char *format, ...);

/* How an option is written: "--size", "-o". */
typedef struct IfigCliLabel {
    char text[24];
} IfigCliLabel;
IfigCliLabel ifig_cli_label(const IfigCliOption *option);

#endif
