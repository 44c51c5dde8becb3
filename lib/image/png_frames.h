/* SPDX-License-Identifier: MIT */
/* The frames of an animated PNG (PNG Third Edition, W3C Recommendation 2025: acTL, fcTL, fdAT).
 * libpng 1.6.39 writes the first frame, which is the picture that a plain viewer shows, and knows
 * nothing of the others: their chunks are made here and leave through its chunk writer.
 *
 * Every call below that takes a png_structp may leave by libpng's longjmp. */
#ifndef IFIG_PNG_FRAMES_H
#define IFIG_PNG_FRAMES_H

#include <png.h>

#include "image.h"

/* How the pixels of every frame are packed; see choose_packing of png_write.c. */
typedef struct IfigPngPacking {
    int filter;   /* PNG_FILTER_VALUE_UP or PNG_FILTER_VALUE_PAETH */
    int strategy; /* of zlib */
    int level;
    uint32_t chunk_size;
} IfigPngPacking;

typedef struct IfigPngFrames IfigPngFrames;

/* Refuse an animation that cannot be. */
IfigStatus ifig_png_frames_check(const IfigPngOptions *options, uint32_t chunk_size,
                                 IfigError *error);
IfigStatus ifig_png_frames_create(const IfigPngOptions *options, const IfigPngPacking *packing,
                                  IfigPngFrames **frames, IfigError *error);
/* NULL is allowed. */
void ifig_png_frames_free(IfigPngFrames *frames);
/* How many frames there are, and how often they are shown; before the pixels. */
void ifig_png_frames_write_count(const IfigPngFrames *frames, png_structp png);
/* Size and time of the first frame; just before its pixels. */
void ifig_png_frames_write_first(IfigPngFrames *frames, png_structp png);
/* The next row of a frame after the first, samples in the machine's own byte order. */
void ifig_png_frames_write_row(IfigPngFrames *frames, png_structp png, const unsigned char *row);

#endif
