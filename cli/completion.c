/* SPDX-License-Identifier: MIT */
#include "completion.h"

#include <string.h>

#include "describe.h"

typedef struct Shell {
    const char *name;
    IfigCliStatus (*print)(void);
} Shell;
static const Shell shells[] = {
    {"bash", ifig_cli_print_bash}, {"zsh", ifig_cli_print_zsh}, {"fish", ifig_cli_print_fish}};
enum { SHELL_COUNT = sizeof shells / sizeof shells[0] };

/* "8|16": short words and nothing that a number or a name is put for. */
static int is_choice(const char *argument)
{
    return strchr(argument, '|') != NULL && strpbrk(argument, "[=,") == NULL;
}

IfigCliValueKind ifig_cli_value_kind(const IfigCliOption *option)
{
    if (option->argument == NULL) {
        return IFIG_CLI_VALUE_NONE;
    }
    if (option->offered == IFIG_CLI_OFFERED_SPECIES_LIST) {
        return IFIG_CLI_VALUE_SPECIES_LIST;
    }
    if (option->words != NULL || option->offers != NULL || is_choice(option->argument) ||
        option->offered == IFIG_CLI_OFFERED_COLOUR) {
        return IFIG_CLI_VALUE_WORDS;
    }
    return strncmp(option->argument, "FILE", 4) == 0 ? IFIG_CLI_VALUE_FILE : IFIG_CLI_VALUE_FREE;
}

IfigCliWordKind ifig_cli_word_kind(const IfigCliCommand *command)
{
    static const struct {
        const char *head;
        IfigCliWordKind kind;
    } kinds[] = {{"SPECIES", IFIG_CLI_WORD_SPECIES},
                 {"[NAME]", IFIG_CLI_WORD_SPECIES},
                 {"RECIPE.yaml", IFIG_CLI_WORD_FILE},
                 {"[COMMAND", IFIG_CLI_WORD_TOPIC},
                 {"SHELL", IFIG_CLI_WORD_SHELL}};
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        if (strncmp(command->usage[0], kinds[i].head, strlen(kinds[i].head)) == 0) {
            return kinds[i].kind;
        }
    }
    return IFIG_CLI_WORD_NONE;
}

static int is_plain(const char *word, size_t length)
{
    static const char letters[] =
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-";
    return length > 0 && strspn(word, letters) >= length;
}

/* Keys, and varieties of one word. */
static void print_species(const IfigCatalogue *catalogue)
{
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const IfigSpecies *species = ifig_catalogue_at(catalogue, i);
        printf(" %s", ifig_species_text(species, IFIG_TEXT_KEY));
        const char *variety = ifig_species_text(species, IFIG_TEXT_VARIETIES);
        while (*variety != '\0') {
            variety += strspn(variety, "; ");
            const size_t length = strcspn(variety, ";");
            if (is_plain(variety, length)) {
                printf(" %.*s", (int)length, variety);
            }
            variety += length;
        }
    }
}

/* The body colours that have a name of one word. */
static void print_colours(const IfigCatalogue *catalogue)
{
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const IfigSpecies *species = ifig_catalogue_at(catalogue, i);
        for (int colour = 1; colour <= ifig_species_colour_count(species); colour++) {
            const char *name = ifig_species_colour_name(species, colour);
            if (is_plain(name, strlen(name))) {
                printf(" %s", name);
            }
        }
    }
}

static IfigCliStatus print_of_catalogue(void (*print)(const IfigCatalogue *catalogue))
{
    IfigError error = IFIG_ERROR_INIT;
    IfigCatalogue *catalogue;
    const IfigStatus status = ifig_catalogue_create(&catalogue, &error);
    if (status != IFIG_OK) {
        return ifig_cli_complain(ifig_cli_exit_status(status, IFIG_CLI_WORDS), "%s", error.message);
    }
    print(catalogue);
    ifig_catalogue_free(catalogue);
    return IFIG_CLI_OK;
}

static void print_word(const char *word, int escapes_colons)
{
    putchar(' ');
    for (; *word != '\0'; word++) {
        printf("%s%c", *word == ':' && escapes_colons ? "\\" : "", *word);
    }
}

IfigCliStatus ifig_cli_print_choice(const IfigCliOption *option, int escapes_colons)
{
    const char *const *words = option->offers != NULL ? option->offers : option->words;
    for (int i = 0; words != NULL && words[i] != NULL; i++) {
        print_word(words[i], escapes_colons);
    }
    if (option->offered == IFIG_CLI_OFFERED_COLOUR) {
        return print_of_catalogue(print_colours);
    }
    if (words == NULL) {
        putchar(' ');
        for (const char *at = option->argument; *at != '\0'; at++) {
            putchar(*at == '|' ? ' ' : *at);
        }
    }
    return IFIG_CLI_OK;
}

IfigCliStatus ifig_cli_print_words(IfigCliWordKind kind)
{
    const IfigCliCommand *command;
    if (kind == IFIG_CLI_WORD_SPECIES) {
        return print_of_catalogue(print_species);
    }
    for (int i = 0; kind == IFIG_CLI_WORD_TOPIC && (command = ifig_cli_command(i)) != NULL; i++) {
        printf(" %s", command->name);
    }
    for (int i = 0; kind == IFIG_CLI_WORD_SHELL && i < SHELL_COUNT; i++) {
        printf(" %s", shells[i].name);
    }
    fputs(kind == IFIG_CLI_WORD_TOPIC ? " exit-codes" : "", stdout);
    return IFIG_CLI_OK;
}

int ifig_cli_clause_length(const char *help)
{
    int length = 0;
    while (help[length] != '\0' && help[length] != ';' && strncmp(help + length, ": ", 2) != 0) {
        length++;
    }
    return length;
}

IfigCliStatus ifig_cli_run_completion(IfigCliSettings *settings)
{
    for (int i = 0; settings->word != NULL && i < SHELL_COUNT; i++) {
        if (strcmp(settings->word, shells[i].name) == 0) {
            return shells[i].print();
        }
    }
    if (settings->word == NULL) {
        return ifig_cli_complain(IFIG_CLI_USAGE, "completion lacks the shell; it knows bash, zsh "
                                                 "and fish: interfig completion bash");
    }
    return ifig_cli_complain(IFIG_CLI_USAGE, "no completion for '%s'; it knows bash, zsh and fish",
                             ifig_cli_shown(settings->word).text);
}
