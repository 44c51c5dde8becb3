/* SPDX-License-Identifier: MIT */
/* A command line: one word a line, the first a command. What is accepted is written as a recipe
 * that reads back to the same recipe. */
#include <stdio.h>
#include <string.h>

#include "arguments.h"
#include "commands.h"
#include "line_mutator.h"
#include "target.h"

enum { WORDS_MAX = 40 };

/* An option of the table put in now and then, with a value that works. */
size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t most, unsigned seed)
{
    const IfigCliOption *const option = ifig_cli_option((int)(seed / 4 % IFIG_CLI_OPTION_COUNT));
    const int has_value = option->argument != NULL && option->example != NULL;
    char words[200];
    if (size > most || seed % 4 != 0) {
        return mutate_lines(data, size, most, seed / 4);
    }
    const int length = snprintf(words, sizeof words, "--%s%s%s", option->name,
                                has_value ? "\n" : "", has_value ? option->example : "");
    must(length > 0 && (size_t)length < sizeof words);
    return insert_after_line(data, size, most, seed / 4 / IFIG_CLI_OPTION_COUNT, words,
                             (size_t)length);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char *text = malloc(size + 1), *words[WORDS_MAX + 1] = {NULL};
    int count = 0;
    must(text != NULL);
    memcpy(text, data, size);
    text[size] = '\0';
    for (char *at = text; at != NULL && count < WORDS_MAX;) {
        words[count++] = at;
        at = strchr(at, '\n');
        if (at != NULL) {
            *at++ = '\0';
        }
    }
    const IfigCliCommand *command = ifig_cli_find_command(words[0]);
    if (command != NULL) {
        IfigCliSettings settings = ifig_cli_default_settings();
        if (ifig_cli_read_arguments(command->bit, count, words, &settings) == IFIG_CLI_OK) {
            must(settings.size >= 1 && settings.size <= 65535);
            must(settings.thickness_mm >= 0.001 && settings.thickness_mm <= 100);
            canary(settings.given[IFIG_CLI_IMMERSION] || settings.given[IFIG_CLI_POLARISER] ||
                   settings.given[IFIG_CLI_ANALYSER] || settings.given[IFIG_CLI_DEPTH] ||
                   settings.given[IFIG_CLI_EXPOSURE] || settings.given[IFIG_CLI_DPI]);
        }
    }
    free(text);
    return 0;
}
