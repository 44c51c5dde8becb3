/* SPDX-License-Identifier: MIT */
/* The manual's pages, written from the tables of commands, options and exit statuses when the
 * program is built: "interfig-man" prints interfig(1), "interfig-man COMMAND" that of a command.
 * Not installed. */
#include <string.h>

#include "arguments.h"
#include "commands.h"

enum { LINE_LETTERS = 78 };

/* One letter of text as roff writes it. */
static int print_letter(char letter)
{
    const char *const written = letter == '\\'   ? "\\e"
                                : letter == '-'  ? "\\-"
                                : letter == '\'' ? "\\(aq"
                                                 : NULL;
    if (written == NULL) {
        putchar(letter);
        return 1;
    }
    fputs(written, stdout);
    return (int)strlen(written);
}

/* Text on one line; a point at its start is no request. */
static void print_line(const char *text)
{
    fputs(text[0] == '.' ? "\\&" : "", stdout);
    while (*text != '\0') {
        print_letter(*text++);
    }
}

/* Text broken between words. Each sentence begins a line, so that its end is set as one. */
static void print_text(const char *text)
{
    int column = 0;
    while (*text != '\0') {
        const int length = (int)strcspn(text, " ");
        if (column > 0 && column + length + 8 > LINE_LETTERS) {
            putchar('\n');
            column = 0;
        } else if (column > 0) {
            putchar(' ');
            column++;
        }
        if (column == 0 && text[0] == '.') {
            fputs("\\&", stdout);
        }
        const char last = text[length - 1];
        for (int i = 0; i < length; i++) {
            column += print_letter(text[i]);
        }
        text += length;
        text += strspn(text, " ");
        column = last == '.' && *text != '\0' ? LINE_LETTERS : column;
    }
    putchar('\n');
}

static void print_head(const char *name, const char *summary)
{
    char title[64];
    size_t i = 0;
    for (; name[i] != '\0' && i + 1 < sizeof title; i++) {
        title[i] = name[i] >= 'a' && name[i] <= 'z' ? (char)(name[i] - 'a' + 'A') : name[i];
    }
    title[i] = '\0';
    printf(".TH \"%s\" 1 \"%s\" \"interfig %s\" \"interfig manual\"\n.SH NAME\n", title,
           IFIG_MANUAL_DATE, ifig_version());
    print_line(name);
    fputs(" \\-\n", stdout);
    print_text(summary);
}

static void print_usage(const char *command, const char *usage)
{
    printf(".B interfig%s%s\n", command[0] != '\0' ? " " : "", command);
    print_line(usage);
    putchar('\n');
}

/* The first example of each of a few commands, or all of one. */
static void print_examples(const IfigCliCommand *one)
{
    fputs(".SH EXAMPLES\n.RS 4\n.nf\n", stdout);
    for (int i = 0; i < 3; i++) {
        print_line(one != NULL ? one->examples[i] : ifig_cli_command(i)->examples[0]);
        putchar('\n');
    }
    fputs(".fi\n.RE\n", stdout);
}

static void print_option(const IfigCliOption *option)
{
    char text[IFIG_CLI_OPTION_TEXT_MAX];
    ifig_cli_option_text(option, text, sizeof text);
    fputs(".TP\n", stdout);
    fputs(option->argument != NULL ? ".BI \"" : ".B \"", stdout);
    if (option->letter != 0) {
        printf("\\-%c, ", option->letter);
    }
    fputs("\\-\\-", stdout);
    print_line(option->name);
    if (option->argument != NULL) {
        fputs(" \" \"", stdout);
        print_line(option->argument);
    }
    fputs("\"\n", stdout);
    print_text(text);
}

static void print_options(const IfigCliCommand *command)
{
    fputs(".SH OPTIONS\n", stdout);
    for (int group = 0; group < IFIG_CLI_GROUP_COUNT; group++) {
        int is_open = 0;
        for (int id = 0; id < IFIG_CLI_OPTION_COUNT; id++) {
            const IfigCliOption *option = ifig_cli_option(id);
            if ((option->commands & command->bit) == 0 || option->group != group) {
                continue;
            }
            if (!is_open) {
                printf(".SS %s\n", ifig_cli_group_title(group));
                is_open = 1;
            }
            print_option(option);
        }
    }
}

static void print_statuses(void)
{
    size_t count;
    const IfigCliMeaning *meanings = ifig_cli_meanings(&count);
    fputs(".SH EXIT STATUS\n", stdout);
    for (size_t i = 0; i < count; i++) {
        printf(".TP\n.B %d\n", meanings[i].status);
        print_text(meanings[i].meaning);
    }
}

static void print_command_page(const IfigCliCommand *command)
{
    char name[64];
    snprintf(name, sizeof name, "interfig-%s", command->name);
    print_head(name, command->summary);
    fputs(".SH SYNOPSIS\n", stdout);
    print_usage(command->name, command->usage[0]);
    if (command->usage[1] != NULL) {
        fputs(".br\n", stdout);
        print_usage(command->name, command->usage[1]);
    }
    for (int i = 0; i < 4 && command->notes[i] != NULL; i++) {
        fputs(i == 0 ? ".SH DESCRIPTION\n" : ".PP\n", stdout);
        print_text(command->notes[i]);
    }
    print_options(command);
    print_statuses();
    print_examples(command);
    fputs(".SH SEE ALSO\n.BR interfig (1)\n", stdout);
}

static void print_program_page(void)
{
    const IfigCliCommand *command;
    print_head("interfig", "the interference figures that gemstones show between crossed polars");
    fputs(".SH SYNOPSIS\n", stdout);
    print_usage("", "COMMAND [words and options]");
    fputs(".br\n", stdout);
    print_usage("", "--version");
    fputs(".SH DESCRIPTION\n", stdout);
    for (int i = 2; i < 4; i++) {
        fputs(i > 2 ? ".PP\n" : "", stdout);
        print_text(ifig_cli_command(0)->notes[i]);
    }
    fputs(".SH COMMANDS\n", stdout);
    for (int i = 0; (command = ifig_cli_command(i)) != NULL; i++) {
        printf(".TP\n.BR interfig\\-%s (1)\n", command->name);
        print_text(command->summary);
    }
    print_statuses();
    print_examples(NULL);
    fputs(".SH SEE ALSO\n", stdout);
    for (int i = 0; (command = ifig_cli_command(i)) != NULL; i++) {
        printf(".BR interfig\\-%s (1)%s\n", command->name,
               ifig_cli_command(i + 1) != NULL ? "," : "");
    }
}

int main(int count, char **words)
{
    if (count < 2) {
        print_program_page();
        return (int)ifig_cli_finish_output();
    }
    const IfigCliCommand *command = ifig_cli_find_command(words[1]);
    if (command == NULL) {
        return (int)ifig_cli_refuse_command(words[1]);
    }
    print_command_page(command);
    return (int)ifig_cli_finish_output();
}
