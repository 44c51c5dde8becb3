/* SPDX-License-Identifier: MIT */
#include "recipe.h"

#include <string.h>

#include "arguments.h"
#include "colour.h"
#include "commands.h"
#include "turn.h"

enum { WORDS_MAX = 128 };

void ifig_cli_write_recipe(FILE *out, const IfigCliSettings *settings, const char *const *stones,
                           size_t count)
{
    IfigCliSettings asked = *settings;
    if (ifig_cli_is_moved(settings, IFIG_CLI_TILT)) {
        asked.tilt_deg = 0.0; /* the azimuth alone was asked for */
    }
    fprintf(out, "interfig %s", ifig_cli_command_name(settings->command));
    for (size_t i = 0; i < count; i++) {
        fputc(' ', out);
        ifig_cli_write_plain_word(out, stones[i]);
    }
    for (int id = 0; id < IFIG_CLI_OPTION_COUNT; id++) {
        const IfigCliOption *option = ifig_cli_option(id);
        const int is_moved = ifig_cli_is_moved(settings, id) && id != IFIG_CLI_TILT;
        if (option->write != NULL && (option->commands & settings->command) != 0 && !is_moved) {
            option->write(out, option, &asked);
        }
    }
}

/* Take the next word out of a line: blanks part words, '...' keeps them together, \ makes the next
 * character plain, as in a shell. NULL at the end. */
char *ifig_cli_next_word(char **line)
{
    char *at = *line + strspn(*line, " "), *word = at, *end = at;
    int is_quoted = 0;
    if (*at == '\0') {
        return NULL;
    }
    for (; *at != '\0' && (is_quoted || *at != ' '); at++) {
        if (*at == '\'') {
            is_quoted = !is_quoted;
        } else if (*at == '\\' && !is_quoted && at[1] != '\0') {
            *end++ = *++at;
        } else {
            *end++ = *at;
        }
    }
    *line = *at == '\0' ? at : at + 1;
    *end = '\0';
    return word;
}

static IfigCliStatus check_options(const IfigCliSettings *settings)
{
    for (int id = 0; id < IFIG_CLI_OPTION_COUNT; id++) {
        const IfigCliOption *option = ifig_cli_option(id);
        /* --polars is taken too: a recipe may have been written by hand. */
        if (settings->given[id] && option->write == NULL && id != IFIG_CLI_POLARS) {
            return ifig_cli_refuse(settings, "%s has no place in a recipe",
                                   ifig_cli_label(option).text);
        }
    }
    return IFIG_CLI_OK;
}

IfigCliStatus ifig_cli_read_recipe(char *text, const char *origin, int command,
                                   IfigCliSettings *settings)
{
    const char *called = ifig_cli_command_name(command);
    char *words[WORDS_MAX + 2], *word;
    int count = 0;
    *settings = ifig_cli_default_settings();
    settings->origin = origin;
    while (count <= WORDS_MAX && (word = ifig_cli_next_word(&text)) != NULL) {
        words[count++] = word;
    }
    words[count] = NULL;
    const IfigCliCommand *other = count >= 2 ? ifig_cli_find_command(words[1]) : NULL;
    if (other != NULL && other->bit != command &&
        (ifig_cli_option(IFIG_CLI_AGAIN)->commands & other->bit) != 0) {
        return ifig_cli_refuse(settings,
                               "it is one of interfig %s, not of %s; type: interfig %s "
                               "--again FILE.png",
                               other->name, called, other->name);
    }
    if (count > WORDS_MAX || count < 2 || strcmp(words[0], "interfig") != 0 ||
        strcmp(words[1], called) != 0) {
        return ifig_cli_refuse(settings,
                               "it is not a line that begins with 'interfig %s' and has "
                               "at most %d words; was it written by interfig?",
                               called, WORDS_MAX);
    }
    const IfigCliStatus status = ifig_cli_read_arguments(command, count - 1, words + 1, settings);
    return status == IFIG_CLI_OK ? check_options(settings) : status;
}
