/* SPDX-License-Identifier: MIT */
#include "png_frames.h"

#include <stdlib.h>
#include <string.h>
#include <zlib.h>

enum {
    COUNT_MAX = 65535,
    NUMBER_MAX = 2147483647, /* "PNG four-byte unsigned integers" end at 2^31 - 1 */
    NUMBER_SIZE = 4,         /* the sequence number that leads each fdAT */
    CONTROL_SIZE = 26
};

struct IfigPngFrames {
    uint32_t count, plays, width, height;
    uint16_t delay_numerator, delay_denominator;
    uint32_t number;    /* of the next fcTL or fdAT: both count together, from 0 */
    uint32_t next_row;  /* of the frame being written */
    size_t pixel_bytes; /* 3 or 6 */
    size_t row_bytes;
    int filter, is_packing;
    z_stream stream;
    unsigned char *row, *above; /* as the file has them: most significant byte first */
    unsigned char *filtered;    /* row_bytes behind the filter's number */
    unsigned char *chunk;       /* chunk_size behind the sequence number */
    uint32_t chunk_size;
};

/* Deflate adds less than a thousandth (zlib's deflateBound), and a frame's last chunk may be short.
 */
static double most_chunks(const IfigPngOptions *options, uint32_t chunk_size)
{
    const double bytes = ((double)options->width * 3 * options->depth / 8 + 1) * options->height;
    return options->frame_count * (2 + (bytes * 1.001 + 64) / chunk_size);
}

IfigStatus ifig_png_frames_check(const IfigPngOptions *options, uint32_t chunk_size,
                                 IfigError *error)
{
    IfigStatus status = ifig_check_range("the number of the picture's frames", options->frame_count,
                                         0, COUNT_MAX, "", error);
    if (status != IFIG_OK || options->frame_count < 2) {
        return status;
    }
    status = ifig_check_range("the number of the animation's plays", options->plays, 0, COUNT_MAX,
                              "", error);
    if (status == IFIG_OK && options->delay_denominator == 0) {
        status = ifig_fail(error, IFIG_ERROR_RANGE,
                           "the denominator of the frames' delay is 0; it must be 1 to 65535");
    }
    if (status == IFIG_OK && most_chunks(options, chunk_size) > NUMBER_MAX) {
        status = ifig_fail(error, IFIG_ERROR_RANGE,
                           "%s frames of %s x %s pixels are more than a PNG can number; make fewer "
                           "or smaller ones",
                           ifig_number_text(options->frame_count, 9).text,
                           ifig_number_text(options->width, 9).text,
                           ifig_number_text(options->height, 9).text);
    }
    return status;
}

IfigStatus ifig_png_frames_create(const IfigPngOptions *options, const IfigPngPacking *packing,
                                  IfigPngFrames **frames, IfigError *error)
{
    enum { MEMORY_LEVEL = 8 }; /* zlib's default */
    IfigPngFrames *const made = calloc(1, sizeof *made);
    *frames = made;
    if (made != NULL) {
        made->count = options->frame_count;
        made->plays = options->plays;
        made->width = options->width;
        made->height = options->height;
        made->delay_numerator = options->delay_numerator;
        made->delay_denominator = options->delay_denominator;
        made->pixel_bytes = 3 * (size_t)options->depth / 8;
        made->row_bytes = made->pixel_bytes * options->width;
        made->filter = packing->filter;
        made->chunk_size = packing->chunk_size;
        made->row = malloc(made->row_bytes);
        made->above = malloc(made->row_bytes);
        made->filtered = malloc(1 + made->row_bytes);
        made->chunk = malloc(NUMBER_SIZE + made->chunk_size);
        made->is_packing = deflateInit2(&made->stream, packing->level, Z_DEFLATED, MAX_WBITS,
                                        MEMORY_LEVEL, packing->strategy) == Z_OK;
    }
    if (made == NULL || made->row == NULL || made->above == NULL || made->filtered == NULL ||
        made->chunk == NULL || !made->is_packing) {
        ifig_png_frames_free(made);
        *frames = NULL;
        return ifig_fail(error, IFIG_ERROR_MEMORY,
                         "no memory for an animation %s pixels wide; make it smaller",
                         ifig_number_text(options->width, 9).text);
    }
    return IFIG_OK;
}

void ifig_png_frames_free(IfigPngFrames *frames)
{
    if (frames == NULL) {
        return;
    }
    if (frames->is_packing) {
        deflateEnd(&frames->stream);
    }
    free(frames->row);
    free(frames->above);
    free(frames->filtered);
    free(frames->chunk);
    free(frames);
}

void ifig_png_frames_write_count(const IfigPngFrames *frames, png_structp png)
{
    static const png_byte name[5] = "acTL";
    png_byte bytes[8];
    png_save_uint_32(bytes, frames->count);
    png_save_uint_32(bytes + 4, frames->plays);
    png_write_chunk(png, name, bytes, sizeof bytes);
}

/* Each frame covers the whole picture and replaces what was there. */
void ifig_png_frames_write_first(IfigPngFrames *frames, png_structp png)
{
    static const png_byte name[5] = "fcTL";
    png_byte bytes[CONTROL_SIZE] = {0}; /* also: no offset, dispose by nothing, blend by source */
    png_save_uint_32(bytes, frames->number);
    png_save_uint_32(bytes + 4, frames->width);
    png_save_uint_32(bytes + 8, frames->height);
    png_save_uint_16(bytes + 20, frames->delay_numerator);
    png_save_uint_16(bytes + 22, frames->delay_denominator);
    png_write_chunk(png, name, bytes, sizeof bytes);
    frames->number++;
}

static void write_chunk(IfigPngFrames *frames, png_structp png)
{
    static const png_byte name[5] = "fdAT";
    const size_t filled = frames->chunk_size - frames->stream.avail_out;
    png_save_uint_32(frames->chunk, frames->number);
    png_write_chunk(png, name, frames->chunk, NUMBER_SIZE + filled);
    frames->number++;
    frames->stream.next_out = frames->chunk + NUMBER_SIZE;
    frames->stream.avail_out = frames->chunk_size;
}

static void begin_frame(IfigPngFrames *frames, png_structp png)
{
    ifig_png_frames_write_first(frames, png);
    memset(frames->above, 0, frames->row_bytes); /* what stands above the first row */
    deflateReset(&frames->stream);
    frames->stream.next_out = frames->chunk + NUMBER_SIZE;
    frames->stream.avail_out = frames->chunk_size;
}

/* With room to write into and valid pointers deflate cannot fail (zlib.h). */
static void pack(IfigPngFrames *frames, png_structp png, int flush)
{
    int result;
    frames->stream.next_in = frames->filtered;
    frames->stream.avail_in = (uInt)(1 + frames->row_bytes);
    do {
        result = deflate(&frames->stream, flush);
        if (frames->stream.avail_out == 0 || result == Z_STREAM_END) {
            write_chunk(frames, png);
        }
    } while (flush == Z_FINISH ? result != Z_STREAM_END : frames->stream.avail_in > 0);
}

static void store_row(IfigPngFrames *frames, const unsigned char *row)
{
    if (frames->pixel_bytes == 3) {
        memcpy(frames->row, row, frames->row_bytes);
        return;
    }
    for (size_t i = 0; i < frames->row_bytes; i += 2) {
        uint16_t sample;
        memcpy(&sample, row + i, sizeof sample);
        frames->row[i] = (unsigned char)(sample >> 8);
        frames->row[i + 1] = (unsigned char)(sample & 0xff);
    }
}

/* A. W. Paeth, in Graphics Gems II (1991), as PNG, 9.4, has it: the nearest of left, above, corner
 * to left + above - corner, the first named where two are alike. */
static int paeth(int left, int above, int corner)
{
    const int to_left = abs(above - corner), to_above = abs(left - corner);
    const int to_corner = abs(left + above - 2 * corner);
    return to_left <= to_above && to_left <= to_corner ? left
           : to_above <= to_corner                     ? above
                                                       : corner;
}

static void filter_row(IfigPngFrames *frames)
{
    const unsigned char *const row = frames->row, *const above = frames->above;
    unsigned char *const out = frames->filtered + 1;
    const size_t step = frames->pixel_bytes;
    frames->filtered[0] = (unsigned char)frames->filter;
    for (size_t i = 0; i < frames->row_bytes; i++) {
        int expected = above[i];
        if (frames->filter == PNG_FILTER_VALUE_PAETH && i >= step) {
            expected = paeth(row[i - step], above[i], above[i - step]);
        }
        out[i] = (unsigned char)(row[i] - expected); /* left of the edge Paeth is Up */
    }
}

void ifig_png_frames_write_row(IfigPngFrames *frames, png_structp png, const unsigned char *row)
{
    if (frames->next_row == 0) {
        begin_frame(frames, png);
    }
    store_row(frames, row);
    filter_row(frames);
    frames->next_row++;
    const int is_last = frames->next_row == frames->height;
    pack(frames, png, is_last ? Z_FINISH : Z_NO_FLUSH);
    unsigned char *const free_row = frames->above;
    frames->above = frames->row;
    frames->row = free_row;
    frames->next_row = is_last ? 0 : frames->next_row;
}
