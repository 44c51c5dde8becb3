/* SPDX-License-Identifier: MIT */
#include "png_mutator.h"

#include <string.h>
#include <zlib.h>

#include "target.h"

enum { SIGNATURE = 8, FRAME = 12, NAME = 4, HEAD = 8 };

static size_t number_at(const uint8_t *at)
{
    return (size_t)at[0] << 24 | (size_t)at[1] << 16 | (size_t)at[2] << 8 | at[3];
}

static void put_number(uint8_t *at, size_t number)
{
    for (int i = 0; i < 4; i++) {
        at[i] = (uint8_t)(number >> (24 - 8 * i));
    }
}

int is_png(const uint8_t *data, size_t size)
{
    return size >= SIGNATURE && memcmp(data, "\x89PNG\r\n\x1a\n", SIGNATURE) == 0;
}

/* 1 where a whole chunk stands there. */
static int is_chunk(const uint8_t *data, size_t size, size_t at)
{
    return at + FRAME <= size && number_at(data + at) <= size - at - FRAME;
}

static void sum_anew(uint8_t *data, size_t size)
{
    for (size_t at = SIGNATURE; is_chunk(data, size, at); at += FRAME + number_at(data + at)) {
        const size_t length = number_at(data + at);
        put_number(data + at + HEAD + length,
                   crc32(0, data + at + NAME, (uInt)(length + HEAD - NAME)));
    }
}

/* The bytes of one chunk changed, longer or shorter, and what follows moved along. */
static size_t mutate_chunk(uint8_t *data, size_t size, size_t most, unsigned choice)
{
    size_t count = 0, at = SIGNATURE;
    for (; is_chunk(data, size, at); at += FRAME + number_at(data + at)) {
        count++;
    }
    if (count == 0) {
        return LLVMFuzzerMutate(data, size, most);
    }
    at = SIGNATURE;
    for (size_t left = choice % count; left > 0; left--) {
        at += FRAME + number_at(data + at);
    }
    const size_t length = number_at(data + at), rest = size - at - HEAD - length;
    const size_t room = length + (most - size);
    uint8_t *const piece = malloc(room + 1);
    must(piece != NULL);
    memcpy(piece, data + at + HEAD, length);
    const size_t changed = room > 0 ? LLVMFuzzerMutate(piece, length, room) : 0;
    memmove(data + at + HEAD + changed, data + at + HEAD + length, rest);
    memcpy(data + at + HEAD, piece, changed);
    put_number(data + at, changed);
    free(piece);
    return at + HEAD + changed + rest;
}

size_t mutate_png(uint8_t *data, size_t size, size_t most, unsigned seed)
{
    if (!is_png(data, size) || size > most || seed % 8 < 2) {
        size = LLVMFuzzerMutate(data, size, most);
    } else {
        size = mutate_chunk(data, size, most, seed / 8);
    }
    if (seed % 8 != 0 && is_png(data, size)) { /* now and then the sums stay wrong */
        sum_anew(data, size);
    }
    return size;
}
