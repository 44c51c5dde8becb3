/* SPDX-License-Identifier: MIT */
#include "line_mutator.h"

#include <string.h>

#include "target.h"

/* Where the line of this number, counted round, begins. */
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

size_t insert_after_line(uint8_t *data, size_t size, size_t most, unsigned line, const char *text,
                         size_t length)
{
    const size_t at = line_end(data, size, line_start(data, size, line));
    if (size + 1 + length > most) {
        return size;
    }
    memmove(data + at + 1 + length, data + at, size - at);
    data[at] = '\n';
    memcpy(data + at + 1, text, length);
    return size + 1 + length;
}

static size_t repeat_line(uint8_t *data, size_t size, size_t most, unsigned from, unsigned to)
{
    const size_t start = line_start(data, size, from), length = line_end(data, size, start) - start;
    char *const line = malloc(length + 1);
    must(line != NULL);
    memcpy(line, data + start, length);
    size = insert_after_line(data, size, most, to, line, length);
    free(line);
    return size;
}

static size_t change_line(uint8_t *data, size_t size, size_t most, unsigned number)
{
    const size_t start = line_start(data, size, number), end = line_end(data, size, start);
    const size_t length = end - start, room = length + (most - size);
    uint8_t *const line = malloc(room + 1);
    must(line != NULL);
    memcpy(line, data + start, length);
    const size_t changed = room > 0 ? LLVMFuzzerMutate(line, length, room) : 0;
    memmove(data + start + changed, data + end, size - end);
    memcpy(data + start, line, changed);
    free(line);
    return size - length + changed;
}

/* Another digit in place of one: numbers stay numbers. */
static void change_digit(uint8_t *data, size_t size, unsigned number, unsigned digit)
{
    size_t count = 0, at = 0;
    for (size_t i = 0; i < size; i++) {
        count += data[i] >= '0' && data[i] <= '9';
    }
    for (size_t left = count > 0 ? number % count + 1 : 0; left > 0; at++) {
        left -= data[at] >= '0' && data[at] <= '9';
    }
    if (at > 0) {
        data[at - 1] = (uint8_t)('0' + digit % 10);
    }
}

size_t mutate_lines(uint8_t *data, size_t size, size_t most, unsigned seed)
{
    const unsigned kind = seed % 5, one = seed / 5 % 1024, other = seed / 5 / 1024;
    if (size > most || size == 0 || kind == 0) {
        return LLVMFuzzerMutate(data, size, most);
    }
    if (kind == 1) {
        return repeat_line(data, size, most, one, other);
    }
    if (kind == 2) {
        change_digit(data, size, one, other);
        return size;
    }
    return change_line(data, size, most, one);
}
