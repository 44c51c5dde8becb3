/* SPDX-License-Identifier: MIT */
/* A half-written file must not outlive the program. */
#ifndef IFIG_CLI_SIGNALS_H
#define IFIG_CLI_SIGNALS_H

/* Hold back the signals that end the program, around the opening of a file and around its end. */
void ifig_cli_hold_signals(void);
void ifig_cli_release_signals(void);
/* 1 where a signal that ends the program waits for its release. */
int ifig_cli_is_ending(void);

/* From here on, a signal that ends the program first removes this file. NULL: nothing to remove. */
void ifig_cli_guard_file(const char *path);

#endif
