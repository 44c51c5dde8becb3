/* SPDX-License-Identifier: MIT */
/* What the program says: results on standard output, one line of complaint on standard error.
 *
 * The program never calls setlocale, so printf and strtod keep to the C locale: a point, always. */
#ifndef IFIG_CLI_OUTPUT_H
#define IFIG_CLI_OUTPUT_H

#include <stdio.h>

#include "exit_status.h"

/* A user's word fit for a message: at most 60 bytes, '?' for what does not print, "..." where cut.
 */
typedef struct IfigCliShown {
    char text[64];
} IfigCliShown;
IfigCliShown ifig_cli_shown(const char *word);
/* 1 where all of a word prints. */
int ifig_cli_is_printable(const char *word);
/* The whole of a word, likewise made printable. */
void ifig_cli_print_word(FILE *out, const char *word);

/* A number as the shortest text that reads back bit for bit. */
typedef struct IfigCliNumber {
    char text[32];
} IfigCliNumber;
IfigCliNumber ifig_cli_number(double value);
/* The same to a number of significant digits, without trailing zeros. */
IfigCliNumber ifig_cli_rounded(double value, int digits);

/* Read a whole word as a finite decimal number. Refuses empty text, blanks, hexadecimal, "nan",
 * "inf", anything left over, and overflow. 1 when read. */
int ifig_cli_read_number(const char *text, double *value);

/* Print "interfig: " and one line on standard error; hands the status through. */
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
IfigCliStatus
ifig_cli_complain(IfigCliStatus status, const char *format, ...);

/* Print text broken between words into lines of at most 80 columns, each after the first one
 * indented. `column` is where the text starts. */
void ifig_cli_wrap(FILE *out, int column, int indent, const char *text);

/* Print lines that each end with a line feed, wrapped. */
void ifig_cli_print_lines(FILE *out, const char *text);

/* Bring standard output to its end; the status says whether all of it arrived. */
IfigCliStatus ifig_cli_finish_output(void);

/* Columns that UTF-8 text takes. */
int ifig_cli_columns(const char *text);

#endif
