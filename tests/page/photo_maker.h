/* SPDX-License-Identifier: MIT */
/* PNG and JPEG files put together piece by piece, well formed but made to harm. */
#ifndef IFIG_PHOTO_MAKER_H
#define IFIG_PHOTO_MAKER_H

#include <stddef.h>
#include <stdint.h>

/* Growing; `at` is freed by whoever asked for them. */
typedef struct Bytes {
    uint8_t *at;
    size_t count, room;
} Bytes;

void put_byte(Bytes *bytes, unsigned byte);
unsigned long number_at(const uint8_t *at); /* of four bytes, the first the greatest */

/* The signature and the header of an 8-bit RGB picture. */
Bytes start_png(unsigned long width, unsigned long height);
void put_chunk(Bytes *file, const char *kind, const void *data, size_t count);
/* A head, and so many zeros after it packed by zlib. */
Bytes pack_zeros(const char *head, size_t head_size, size_t zeros);

/* A grey progressive JPEG whose blocks are all empty: one scan of the means, then `scans` more,
 * each of one coefficient, at most 63. The sides must be multiples of 8, and of their product's
 * blocks 16384 must be a divisor where there are scans. */
Bytes make_jpeg_of_scans(unsigned width, unsigned height, unsigned scans);
/* The same with an EXIF block. */
Bytes make_jpeg_with_exif(unsigned width, unsigned height, const char *tiff, size_t count);

#endif
