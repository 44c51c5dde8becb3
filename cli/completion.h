/* SPDX-License-Identifier: MIT */
/* What may stand where on the command line, as the tables have it; for completion in shells. */
#ifndef IFIG_CLI_COMPLETION_H
#define IFIG_CLI_COMPLETION_H

#include "commands.h"
#include "options.h"

typedef enum IfigCliValueKind {
    IFIG_CLI_VALUE_NONE = 0, /* a switch */
    IFIG_CLI_VALUE_FREE,     /* a number or text: nothing to offer */
    IFIG_CLI_VALUE_FILE,
    IFIG_CLI_VALUE_WORDS,       /* a choice, closed or not */
    IFIG_CLI_VALUE_SPECIES_LIST /* species and words, with commas between them */
} IfigCliValueKind;
IfigCliValueKind ifig_cli_value_kind(const IfigCliOption *option);
/* The words that a value may be beside a species, each with a blank before it, and a backslash
 * before each colon where that is what a shell wants. */
IfigCliStatus ifig_cli_print_choice(const IfigCliOption *option, int escapes_colons);

typedef enum IfigCliWordKind {
    IFIG_CLI_WORD_NONE = 0,
    IFIG_CLI_WORD_SPECIES,
    IFIG_CLI_WORD_FILE,
    IFIG_CLI_WORD_TOPIC, /* what there is help on */
    IFIG_CLI_WORD_SHELL
} IfigCliWordKind;
/* What a command takes beside options, as its usage says. */
IfigCliWordKind ifig_cli_word_kind(const IfigCliCommand *command);
/* The words of a kind, each with a blank before it. Species that a user can type without quotes. */
IfigCliStatus ifig_cli_print_words(IfigCliWordKind kind);

/* Where an option's help has its first clause, and how long that is. */
int ifig_cli_clause_length(const char *help);

/* completion_shells.c: the scripts. */
IfigCliStatus ifig_cli_print_bash(void);
IfigCliStatus ifig_cli_print_zsh(void);
IfigCliStatus ifig_cli_print_fish(void);

#endif
