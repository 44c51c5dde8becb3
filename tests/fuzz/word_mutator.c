/* SPDX-License-Identifier: MIT */
#include "word_mutator.h"

#include <stdio.h>
#include <string.h>

#include "options.h"
#include "target.h"

/* Where the line of this number, counted round, begins; its end follows by line_end. */
static size_t line_start(const uint8_t *data, size_t size, unsigned number)
{
    size_t count = 1, at = 0;
    for (size_t i = 0; i < size; i++) {
        count += data[i] == '\n';
    }
    for (size_t left = number % count; left > 0; at++) {
        left -= data[at] == '\n';
    }
    return at;
}

static size_t line_end(const uint8_t *data, size_t size, size_t at)
{
    const uint8_t *const end = size > at ? memchr(data + at, '\n', size - at) : NULL;
    return end != NULL ? (size_t)(end - data) : size;
}

static size_t insert_option(uint8_t *data, size_t size, size_t most, unsigned seed)
{
    const IfigCliOption *const option = ifig_cli_option((int)(seed % IFIG_CLI_OPTION_COUNT));
    const char *const value = option->argument != NULL ? option->example : NULL;
    const size_t at = line_end(data, size, line_start(data, size, seed / IFIG_CLI_OPTION_COUNT));
    char words[200];
    const int length = snprintf(words, sizeof words, "\n--%s%s%s", option->name,
                                value != NULL ? "\n" : "", value != NULL ? value : "");
    must(length > 0 && (size_t)length < sizeof words);
    if (size + (size_t)length > most) {
        return LLVMFuzzerMutate(data, size, most);
    }
    memmove(data + at + length, data + at, size - at);
    memcpy(data + at, words, (size_t)length);
    return size + (size_t)length;
}

static size_t change_word(uint8_t *data, size_t size, size_t most, unsigned seed)
{
    const size_t start = line_start(data, size, seed), end = line_end(data, size, start);
    const size_t length = end - start, room = length + (most - size);
    uint8_t *const word = malloc(room + 1);
    must(word != NULL);
    memcpy(word, data + start, length);
    const size_t changed = room > 0 ? LLVMFuzzerMutate(word, length, room) : 0;
    memmove(data + start + changed, data + end, size - end);
    memcpy(data + start, word, changed);
    free(word);
    return size - length + changed;
}

size_t mutate_words(uint8_t *data, size_t size, size_t most, unsigned seed)
{
    if (size > most || seed % 4 > 2) {
        return LLVMFuzzerMutate(data, size, most);
    }
    return seed % 4 == 0 ? insert_option(data, size, most, seed / 4)
                         : change_word(data, size, most, seed / 4);
}
