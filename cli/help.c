/* SPDX-License-Identifier: MIT */
/* The help, written from the tables of commands, options and exit statuses. */
#include <stdlib.h>
#include <string.h>

#include "arguments.h"
#include "commands.h"

static const char EXIT_CODES[] = "exit-codes";

void ifig_cli_print_newcomer_help(void)
{
    fputs("interfig: the interference figures that gemstones show between crossed polars.\n"
          "\n"
          "  interfig figure quartz         writes quartz_c_3mm.png, and says what it shows\n"
          "  interfig figure ruby -o r.png  another stone, under a name of your own\n"
          "  interfig species               the stones it knows\n"
          "  interfig probe quartz          the numbers behind the picture\n"
          "\n"
          "  interfig help                  everything else\n",
          stdout);
}

void ifig_cli_print_help(void)
{
    const IfigCliCommand *command;
    fputs("interfig: the interference figures that gemstones show between crossed polars.\n\n",
          stdout);
    for (int i = 0; i < 3; i++) {
        printf("  %s\n", ifig_cli_command(i)->examples[0]);
    }
    fputs("\nusage: interfig COMMAND [words and options]\n\ncommands\n", stdout);
    for (int i = 0; (command = ifig_cli_command(i)) != NULL; i++) {
        printf("  %-10s ", command->name);
        ifig_cli_wrap(stdout, 12, 12, command->summary);
    }
    fputs("\n  interfig COMMAND --help   the options of a command\n"
          "  interfig help exit-codes  what the exit statuses mean\n"
          "  interfig --version        the version of the program\n\n",
          stdout);
    for (int i = 2; i < 4; i++) {
        ifig_cli_wrap(stdout, 0, 0, ifig_cli_command(0)->notes[i]);
    }
}

/* Range and default follow the help of an option, where they say anything new. */
void ifig_cli_option_text(const IfigCliOption *option, char *text, size_t size)
{
    int used = snprintf(text, size, "%s", option->help);
    if (option->argument != NULL && !option->tells_itself) {
        used += snprintf(text + used, size - (size_t)used, "; %s", ifig_cli_allowed(option).text);
    }
    if (option->standard != NULL) {
        snprintf(text + used, size - (size_t)used, "; default: %s", option->standard);
    }
}

const char *ifig_cli_group_title(int group)
{
    static const char *const titles[IFIG_CLI_GROUP_COUNT] = {
        "the exercise",  "the stone", "the instrument", "the motion",
        "the direction", "the chart", "the picture",    "other options"};
    return titles[group];
}

static void print_option(const IfigCliOption *option)
{
    enum { INDENT = 28 };
    char head[64], text[IFIG_CLI_OPTION_TEXT_MAX];
    snprintf(head, sizeof head, "  %s%c%s--%s%s%s", option->letter != 0 ? "-" : "",
             option->letter != 0 ? option->letter : ' ', option->letter != 0 ? ", " : "   ",
             option->name, option->argument != NULL ? " " : "",
             option->argument != NULL ? option->argument : "");
    ifig_cli_option_text(option, text, sizeof text);
    if (strlen(head) > INDENT - 2) {
        printf("%s\n%*s", head, INDENT, "");
    } else {
        printf("%-*s", INDENT, head);
    }
    ifig_cli_wrap(stdout, INDENT, INDENT, text);
}

static void print_group(const IfigCliCommand *command, int group)
{
    int is_open = 0;
    for (int id = 0; id < IFIG_CLI_OPTION_COUNT; id++) {
        const IfigCliOption *option = ifig_cli_option(id);
        if ((option->commands & command->bit) == 0 || option->group != group) {
            continue;
        }
        if (!is_open) {
            printf("\n%s\n", ifig_cli_group_title(group));
            is_open = 1;
        }
        print_option(option);
    }
}

void ifig_cli_print_command_help(const IfigCliCommand *command)
{
    printf("interfig %s: %s\n\n", command->name, command->summary);
    for (int i = 0; i < 3; i++) {
        printf("  %s\n", command->examples[i]);
    }
    printf("\nusage: interfig %s %s\n", command->name, command->usage[0]);
    if (command->usage[1] != NULL) {
        printf("       interfig %s %s\n", command->name, command->usage[1]);
    }
    for (int group = 0; group < IFIG_CLI_GROUP_COUNT; group++) {
        print_group(command, group);
    }
    for (int i = 0; i < 4 && command->notes[i] != NULL; i++) {
        fputc('\n', stdout);
        ifig_cli_wrap(stdout, 0, 0, command->notes[i]);
    }
}

static void print_exit_codes(void)
{
    size_t count;
    const IfigCliMeaning *meanings = ifig_cli_meanings(&count);
    fputs("exit statuses of interfig (after sysexits.h)\n\n", stdout);
    for (size_t i = 0; i < count; i++) {
        printf("  %3d  ", meanings[i].status);
        ifig_cli_wrap(stdout, 7, 7, meanings[i].meaning);
    }
}

/* Complain about a word that there is no help on. */
static IfigCliStatus refuse_topic(const char *word)
{
    enum { TOPICS_MAX = 32 };
    const char *topics[TOPICS_MAX] = {EXIT_CODES};
    size_t count = 1;
    const IfigCliCommand *command;
    for (int i = 0; count < TOPICS_MAX && (command = ifig_cli_command(i)) != NULL; i++) {
        topics[count++] = command->name;
    }
    const char *nearest = ifig_nearest_word(word, topics, count);
    return ifig_cli_complain(IFIG_CLI_USAGE,
                             "no help on '%s'; %s%s%shelp is there on %s, and on %s",
                             ifig_cli_shown(word).text, nearest != NULL ? "did you mean " : "",
                             nearest != NULL ? nearest : "", nearest != NULL ? "? " : "",
                             ifig_cli_command_names().text, EXIT_CODES);
}

IfigCliStatus ifig_cli_run_help(IfigCliSettings *settings)
{
    if (settings->word == NULL) {
        ifig_cli_print_help();
        return IFIG_CLI_OK;
    }
    if (strcmp(settings->word, EXIT_CODES) == 0) {
        print_exit_codes();
        return IFIG_CLI_OK;
    }
    const IfigCliCommand *command = ifig_cli_find_command(settings->word);
    if (command != NULL) {
        ifig_cli_print_command_help(command);
        return IFIG_CLI_OK;
    }
    return refuse_topic(settings->word);
}
