/* SPDX-License-Identifier: MIT */
/* A command line: one word a line, the first a command. What is accepted is written as a recipe
 * that reads back to the same recipe. */
#include <string.h>

#include "arguments.h"
#include "commands.h"
#include "target.h"
#include "word_mutator.h"

enum { WORDS_MAX = 40 };

size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t most, unsigned seed)
{
    return mutate_words(data, size, most, seed);
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
            canary(settings.size > 2100 && settings.size < 60000);
        }
    }
    free(text);
    return 0;
}
