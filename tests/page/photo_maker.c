/* SPDX-License-Identifier: MIT */
/* PNG: Third Edition, W3C Recommendation 2025. JPEG: ITU-T T.81, Annexes B and G; both from memory.
 */
#include "photo_maker.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>
#include <zlib.h>

static void put(Bytes *bytes, const void *data, size_t count)
{
    if (bytes->count + count + 1 > bytes->room) { /* a checked realloc moves every time */
        bytes->room = 2 * (bytes->count + count + 1);
        bytes->at = realloc(bytes->at, bytes->room);
        ck_assert_ptr_nonnull(bytes->at);
    }
    memcpy(bytes->at + bytes->count, data, count);
    bytes->count += count;
}

void put_byte(Bytes *bytes, unsigned byte)
{
    const uint8_t value = (uint8_t)byte;
    put(bytes, &value, 1);
}

static void put_two(Bytes *bytes, unsigned number)
{
    put_byte(bytes, number >> 8);
    put_byte(bytes, number & 0xff);
}

static void put_number(Bytes *bytes, unsigned long number)
{
    put_two(bytes, (unsigned)(number >> 16));
    put_two(bytes, (unsigned)(number & 0xffff));
}

unsigned long number_at(const uint8_t *at)
{
    return (unsigned long)at[0] << 24 | (unsigned long)at[1] << 16 | (unsigned long)at[2] << 8 |
           at[3];
}

void put_chunk(Bytes *file, const char *kind, const void *data, size_t count)
{
    put_number(file, count);
    put(file, kind, 4);
    put(file, data, count);
    put_number(file, crc32(0, file->at + file->count - count - 4, (uInt)(count + 4)));
}

Bytes start_png(unsigned long width, unsigned long height)
{
    Bytes file = {NULL, 0, 0}, header = {NULL, 0, 0};
    put(&file, "\x89PNG\r\n\x1a\n", 8);
    put_number(&header, width);
    put_number(&header, height);
    put(&header, "\x08\x02\0\0\0", 5);
    put_chunk(&file, "IHDR", header.at, header.count);
    free(header.at);
    return file;
}

Bytes pack_zeros(const char *head, size_t head_size, size_t zeros)
{
    Bytes packed = {NULL, 0, 0};
    uint8_t *const plain = calloc(zeros, 1);
    uLongf room = compressBound(zeros);
    ck_assert_ptr_nonnull(plain);
    put(&packed, head, head_size);
    packed.at = realloc(packed.at, head_size + room);
    ck_assert_ptr_nonnull(packed.at);
    ck_assert_int_eq(compress2(packed.at + head_size, &room, plain, zeros, 9), Z_OK);
    packed.count += room;
    free(plain);
    return packed;
}

static void put_marker(Bytes *file, unsigned marker, const Bytes *data)
{
    put_byte(file, 0xff);
    put_byte(file, marker);
    put_two(file, (unsigned)data->count + 2);
    put(file, data->at, data->count);
}

/* A code table of one code, the bit 0. */
static void put_table(Bytes *file, unsigned kind, unsigned symbol)
{
    Bytes table = {NULL, 0, 0};
    put_byte(&table, kind);
    put_byte(&table, 1);
    for (int i = 1; i < 16; i++) {
        put_byte(&table, 0);
    }
    put_byte(&table, symbol);
    put_marker(file, 0xc4, &table);
    free(table.at);
}

/* One scan of one coefficient; as many bits as given, all of them 0. */
static void put_scan(Bytes *file, unsigned coefficient, size_t bits)
{
    Bytes scan = {NULL, 0, 0};
    put(&scan, "\1\1\0", 3);
    put_byte(&scan, coefficient);
    put_byte(&scan, coefficient);
    put_byte(&scan, 0);
    put_marker(file, 0xda, &scan);
    for (size_t byte = 0; byte < (bits + 7) / 8; byte++) {
        put_byte(file, 0);
    }
    free(scan.at);
}

static Bytes make_jpeg(unsigned width, unsigned height, unsigned scans, const Bytes *exif)
{
    /* EOB14 with 14 bits of 0: the next 16384 blocks hold nothing more */
    const unsigned means = 0x00, others = 0x10, no_change = 0x00, empty_blocks = 0xe0, run = 16384;
    const size_t blocks = (size_t)(width / 8) * (height / 8);
    Bytes file = {NULL, 0, 0}, steps = {NULL, 0, 0}, frame = {NULL, 0, 0};
    put(&file, "\xff\xd8", 2);
    if (exif != NULL) {
        put_marker(&file, 0xe1, exif);
    }
    put_byte(&steps, 0);
    for (int i = 0; i < 64; i++) {
        put_byte(&steps, 1);
    }
    put_marker(&file, 0xdb, &steps);
    put_byte(&frame, 8);
    put_two(&frame, height);
    put_two(&frame, width);
    put(&frame, "\1\1\x11\0", 4);
    put_marker(&file, 0xc2, &frame);
    put_table(&file, means, no_change);
    put_table(&file, others, empty_blocks);
    put_scan(&file, 0, blocks < 2000000 ? blocks : 0); /* larger ones are refused before it */
    for (unsigned scan = 1; scan <= scans; scan++) {
        put_scan(&file, scan, blocks / run * 15);
    }
    put(&file, "\xff\xd9", 2);
    free(frame.at);
    free(steps.at);
    return file;
}

Bytes make_jpeg_of_scans(unsigned width, unsigned height, unsigned scans)
{
    return make_jpeg(width, height, scans, NULL);
}

Bytes make_jpeg_with_exif(unsigned width, unsigned height, const char *tiff, size_t count)
{
    Bytes exif = {NULL, 0, 0};
    put(&exif, "Exif\0\0", 6);
    put(&exif, tiff, count);
    Bytes file = make_jpeg(width, height, 0, &exif);
    free(exif.at);
    return file;
}
