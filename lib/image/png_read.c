/* SPDX-License-Identifier: MIT */
/* The text of a PNG: a walk over its chunks (PNG Third Edition: chunk layout, tEXt, zTXt, iTXt)
 * instead of libpng, which reaches text behind the picture only by unpacking the picture, and that
 * may be built to unpack a thousandfold. Here the entry asked for is unpacked, up to a limit, and
 * nothing else. */
#include "image.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>
#include <zlib.h>

enum {
    CHUNK_MAX = 8388608, /* bytes of a text chunk before unpacking */
    KEYWORD_ROOM = 80,   /* the longest keyword and its NUL */
    SKIP_SIZE = 16384
};

typedef struct Walk {
    int descriptor;
    const char *path;
    const char *keyword;
    uLong crc; /* of the chunk so far: its type and data */
} Walk;

typedef struct Chunk {
    uint32_t length;
    unsigned char type[4];
} Chunk;

/* A stretch of a chunk's data, or of unpacked text. */
typedef struct Bytes {
    const unsigned char *at;
    size_t count;
} Bytes;

static IfigStatus damaged(const char *path, const char *what, IfigError *error)
{
    return ifig_fail(error, IFIG_ERROR_SYNTAX, "'%s' is damaged: %s; copy or download it again",
                     ifig_path_text(path).text, what);
}

static IfigStatus too_long(const char *path, IfigError *error)
{
    return ifig_fail(error, IFIG_ERROR_SYNTAX,
                     "'%s' holds a text longer than 1048576 bytes; it was not made by this program",
                     ifig_path_text(path).text);
}

static IfigStatus no_memory(const char *path, IfigError *error)
{
    return ifig_fail_file(error, IFIG_ERROR_MEMORY, IFIG_FILE_READ, path, ENOMEM);
}

static uint32_t big_endian(const unsigned char bytes[4])
{
    return (uint32_t)bytes[0] << 24 | (uint32_t)bytes[1] << 16 | (uint32_t)bytes[2] << 8 | bytes[3];
}

static IfigStatus take(Walk *walk, unsigned char *bytes, size_t count, IfigError *error)
{
    size_t got = 0;
    const IfigStatus status =
        ifig_input_read(walk->descriptor, walk->path, bytes, count, &got, error);
    if (status != IFIG_OK) {
        return status;
    }
    if (got < count) {
        return damaged(walk->path, "it ends too early", error);
    }
    walk->crc = crc32(walk->crc, bytes, (uInt)count);
    return IFIG_OK;
}

static IfigStatus begin_chunk(Walk *walk, Chunk *chunk, IfigError *error)
{
    unsigned char length[4];
    IfigStatus status = take(walk, length, sizeof length, error);
    walk->crc = crc32(0, NULL, 0);
    if (status == IFIG_OK) {
        status = take(walk, chunk->type, sizeof chunk->type, error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    chunk->length = big_endian(length);
    for (size_t i = 0; i < sizeof chunk->type; i++) {
        const unsigned char letter = chunk->type[i] | 0x20;
        if (letter < 'a' || letter > 'z') {
            return damaged(walk->path, "a chunk has no name", error);
        }
    }
    if (chunk->length > 0x7fffffffU) {
        return damaged(walk->path, "a chunk is too long", error);
    }
    return IFIG_OK;
}

static IfigStatus end_chunk(Walk *walk, IfigError *error)
{
    const uLong expected = walk->crc;
    unsigned char stored[4];
    const IfigStatus status = take(walk, stored, sizeof stored, error);
    if (status == IFIG_OK && big_endian(stored) != expected) {
        return damaged(walk->path, "a checksum does not fit", error);
    }
    return status;
}

static IfigStatus skip_to_end(Walk *walk, size_t count, IfigError *error)
{
    unsigned char passed[SKIP_SIZE];
    while (count > 0) {
        const size_t step = count < sizeof passed ? count : sizeof passed;
        const IfigStatus status = take(walk, passed, step, error);
        if (status != IFIG_OK) {
            return status;
        }
        count -= step;
    }
    return end_chunk(walk, error);
}

static int is_type(const Chunk *chunk, const char *type)
{
    return memcmp(chunk->type, type, sizeof chunk->type) == 0;
}

static IfigStatus copy_utf8(const char *path, Bytes from, char **text, IfigError *error)
{
    if (from.count > IFIG_TEXT_MAX) {
        return too_long(path, error);
    }
    char *const copy = malloc(from.count + 1);
    if (copy == NULL) {
        return no_memory(path, error);
    }
    if (from.count > 0) {
        memcpy(copy, from.at, from.count);
    }
    copy[from.count] = '\0';
    if (strlen(copy) != from.count || !ifig_utf8_is_valid(copy)) {
        free(copy);
        return damaged(path, "its text is not UTF-8", error);
    }
    *text = copy;
    return IFIG_OK;
}

static IfigStatus copy_latin1(const char *path, Bytes from, char **text, IfigError *error)
{
    size_t count = from.count;
    for (size_t i = 0; i < from.count; i++) {
        count += from.at[i] >= 0x80;
    }
    if (count > IFIG_TEXT_MAX) {
        return too_long(path, error);
    }
    if (from.count > 0 && memchr(from.at, '\0', from.count) != NULL) {
        return damaged(path, "its text holds a NUL byte", error);
    }
    char *const copy = malloc(count + 1);
    if (copy == NULL) {
        return no_memory(path, error);
    }
    size_t used = 0;
    for (size_t i = 0; i < from.count; i++) {
        const unsigned char letter = from.at[i];
        if (letter >= 0x80) {
            copy[used++] = (char)(0xc0 | letter >> 6);
        }
        copy[used++] = (char)(letter >= 0x80 ? 0x80 | (letter & 0x3f) : letter);
    }
    copy[used] = '\0';
    *text = copy;
    return IFIG_OK;
}

typedef IfigStatus Copy(const char *path, Bytes from, char **text, IfigError *error);

static IfigStatus unpack(const char *path, Bytes packed, Copy *copy, char **text, IfigError *error)
{
    uLongf count = IFIG_TEXT_MAX + 1;
    unsigned char *const room = malloc(count);
    if (room == NULL) {
        return no_memory(path, error);
    }
    const int result = uncompress(room, &count, packed.at, (uLong)packed.count);
    IfigStatus status;
    if (result == Z_OK) {
        status = copy(path, (Bytes){room, count}, text, error);
    } else if (result == Z_BUF_ERROR) {
        status = too_long(path, error);
    } else if (result == Z_MEM_ERROR) {
        status = no_memory(path, error);
    } else {
        status = damaged(path, "its text does not unpack", error);
    }
    free(room);
    return status;
}

/* Leave out a string that ends with a NUL; 0 where there is none. */
static int pass_string(Bytes *bytes)
{
    const unsigned char *const end =
        bytes->count > 0 ? memchr(bytes->at, '\0', bytes->count) : NULL;
    if (end == NULL) {
        return 0;
    }
    bytes->count -= (size_t)(end + 1 - bytes->at);
    bytes->at = end + 1;
    return 1;
}

/* Behind the keyword. tEXt: Latin-1. zTXt: a method byte, packed Latin-1. iTXt: a flag (packed or
 * not), a method byte, a language tag, the keyword in that language, UTF-8. */
static IfigStatus decode(const char *path, const Chunk *chunk, Bytes data, char **text,
                         IfigError *error)
{
    if (is_type(chunk, "tEXt")) {
        return copy_latin1(path, data, text, error);
    }
    const int is_international = is_type(chunk, "iTXt");
    const size_t head = is_international ? 2 : 1;
    if (data.count < head) {
        return damaged(path, "a text entry is too short", error);
    }
    const int is_packed = !is_international || data.at[0] == 1;
    if ((is_international && data.at[0] > 1) || (is_packed && data.at[head - 1] != 0)) {
        return damaged(path, "a text entry is packed in an unknown way", error);
    }
    data.at += head;
    data.count -= head;
    if (is_international && (!pass_string(&data) || !pass_string(&data))) {
        return damaged(path, "a text entry is too short", error);
    }
    Copy *const copy = is_international ? copy_utf8 : copy_latin1;
    return is_packed ? unpack(path, data, copy, text, error) : copy(path, data, text, error);
}

/* The rest of a text chunk whose keyword fits; `start` are its first `known` bytes. */
static IfigStatus read_entry(Walk *walk, const Chunk *chunk, const unsigned char *start,
                             size_t known, char **text, IfigError *error)
{
    if (chunk->length > CHUNK_MAX) {
        return too_long(walk->path, error);
    }
    unsigned char *const all = malloc(chunk->length);
    if (all == NULL) {
        return no_memory(walk->path, error);
    }
    memcpy(all, start, known);
    IfigStatus status = take(walk, all + known, chunk->length - known, error);
    if (status == IFIG_OK) {
        status = end_chunk(walk, error);
    }
    if (status == IFIG_OK) {
        const size_t head = strlen(walk->keyword) + 1;
        status = decode(walk->path, chunk, (Bytes){all + head, chunk->length - head}, text, error);
    }
    free(all);
    return status;
}

/* Read one chunk; *text is set where it was the entry looked for. */
static IfigStatus pass_chunk(Walk *walk, const Chunk *chunk, char **text, IfigError *error)
{
    if (!is_type(chunk, "tEXt") && !is_type(chunk, "zTXt") && !is_type(chunk, "iTXt")) {
        return skip_to_end(walk, chunk->length, error);
    }
    unsigned char start[KEYWORD_ROOM];
    const size_t known = chunk->length < sizeof start ? chunk->length : sizeof start;
    const size_t head = strlen(walk->keyword) + 1;
    const IfigStatus status = take(walk, start, known, error);
    if (status != IFIG_OK) {
        return status;
    }
    if (known < head || memcmp(start, walk->keyword, head) != 0) {
        return skip_to_end(walk, chunk->length - known, error);
    }
    return read_entry(walk, chunk, start, known, text, error);
}

static IfigStatus check_signature(Walk *walk, IfigError *error)
{
    static const unsigned char expected[8] = {0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n'};
    unsigned char found[sizeof expected];
    size_t got = 0;
    const IfigStatus status =
        ifig_input_read(walk->descriptor, walk->path, found, sizeof found, &got, error);
    if (status == IFIG_OK &&
        (got < sizeof expected || memcmp(found, expected, sizeof expected) != 0)) {
        return ifig_fail(error, IFIG_ERROR_SYNTAX,
                         "'%s' is not a PNG file; give a PNG that this program made",
                         ifig_path_text(walk->path).text);
    }
    return status;
}

static IfigStatus find(Walk *walk, char **text, IfigError *error)
{
    Chunk chunk;
    IfigStatus status = check_signature(walk, error);
    if (status == IFIG_OK) {
        status = begin_chunk(walk, &chunk, error);
    }
    if (status == IFIG_OK && (!is_type(&chunk, "IHDR") || chunk.length != 13)) {
        status = damaged(walk->path, "it does not begin with a PNG header", error);
    }
    while (status == IFIG_OK) {
        status = pass_chunk(walk, &chunk, text, error);
        if (status != IFIG_OK || *text != NULL) {
            break;
        }
        if (is_type(&chunk, "IEND")) {
            return ifig_fail(error, IFIG_ERROR_NOT_FOUND,
                             "'%s' is a PNG without the text '%s'; give one that this program made "
                             "and no other program has saved since",
                             ifig_path_text(walk->path).text, walk->keyword);
        }
        status = begin_chunk(walk, &chunk, error);
    }
    return status;
}

IfigStatus ifig_png_read_text(const char *path, const char *keyword, char **text, IfigError *error)
{
    if (text != NULL) {
        *text = NULL;
    }
    if (path == NULL || keyword == NULL || text == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_png_read_text was given a null pointer; give a path, a keyword and "
                         "a place for the text");
    }
    if (keyword[0] == '\0' || strlen(keyword) >= KEYWORD_ROOM) {
        return ifig_fail(
            error, IFIG_ERROR_ARGUMENT,
            "the PNG text keyword is empty or too long; it must be 1 to 79 characters");
    }
    Walk walk = {.path = path, .keyword = keyword};
    IfigStatus status = ifig_input_open(path, &walk.descriptor, error);
    if (status == IFIG_OK) {
        status = find(&walk, text, error);
        close(walk.descriptor);
    }
    return status;
}
