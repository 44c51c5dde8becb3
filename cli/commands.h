/* SPDX-License-Identifier: MIT */
/* The commands: what each is for, and where it begins. */
#ifndef IFIG_CLI_COMMANDS_H
#define IFIG_CLI_COMMANDS_H

#include "options.h"
#include "exit_status.h"

typedef struct IfigCliCommand {
    int bit; /* IFIG_CLI_FIGURE, ... of options.h */
    const char *name;
    const char *summary;  /* one line */
    const char *usage[2]; /* after "interfig NAME"; the second may be NULL */
    const char *examples[3];
    const char *notes[4]; /* paragraphs below the options; NULL where there are fewer */
    IfigCliStatus (*run)(IfigCliSettings *settings);
} IfigCliCommand;

/* The commands in the order the help names them; NULL behind the last. */
const IfigCliCommand *ifig_cli_command(int index);
/* A command by name; NULL where there is none. */
const IfigCliCommand *ifig_cli_find_command(const char *name);
/* The name behind a bit. */
const char *ifig_cli_command_name(int bit);
/* Every command's name: "figure, turn, ... and help". */
typedef struct IfigCliCommandNames {
    char text[200];
} IfigCliCommandNames;
IfigCliCommandNames ifig_cli_command_names(void);
/* Complain about a word that is no command, and suggest what it may have meant. */
IfigCliStatus ifig_cli_refuse_command(const char *word);

IfigCliStatus ifig_cli_run_figure(IfigCliSettings *settings); /* and turn and face */
IfigCliStatus ifig_cli_run_probe(IfigCliSettings *settings);
IfigCliStatus ifig_cli_run_reading(IfigCliSettings *settings);
IfigCliStatus ifig_cli_run_blink(IfigCliSettings *settings);
IfigCliStatus ifig_cli_run_hunt(IfigCliSettings *settings);
IfigCliStatus ifig_cli_run_contrast(IfigCliSettings *settings);
IfigCliStatus ifig_cli_run_narrow(IfigCliSettings *settings);
IfigCliStatus ifig_cli_run_page(IfigCliSettings *settings);
IfigCliStatus ifig_cli_run_chart(IfigCliSettings *settings);
IfigCliStatus ifig_cli_run_exercise(IfigCliSettings *settings);
IfigCliStatus ifig_cli_run_species(IfigCliSettings *settings);
IfigCliStatus ifig_cli_run_completion(IfigCliSettings *settings);
IfigCliStatus ifig_cli_run_help(IfigCliSettings *settings);

/* help.c */
enum { IFIG_CLI_OPTION_TEXT_MAX = 640 };
/* What the help and the manual say of an option: its help, range and default. */
void ifig_cli_option_text(const IfigCliOption *option, char *text, size_t size);
/* The heading of an IfigCliGroup. */
const char *ifig_cli_group_title(int group);
void ifig_cli_print_newcomer_help(void);
void ifig_cli_print_help(void);
void ifig_cli_print_command_help(const IfigCliCommand *command);

#endif
