/* SPDX-License-Identifier: MIT */
/* A PNG, row by row, through libpng: memory grows with the width alone. */
#include "png_frames.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <zlib.h>

enum {
    SIDE_MAX = 65535,
    COMPRESS_TEXT_FROM = 1024, /* bytes; shorter text stays readable in any editor */
    CHUNK_SIZE = 65536
};

struct IfigPngWriter {
    png_structp png;
    png_infop info;
    IfigAtomicFile *file;
    IfigPngFrames *frames; /* NULL: a still picture */
    uint32_t width, height;
    uint64_t row_count, rows_written; /* of all frames */
    int depth;
    int is_out_of_memory;
    IfigError failure; /* IFIG_OK until something failed; then every later call fails alike */
};

/* libpng leaves a failed call by longjmp. All of its calls run inside a step, and only attempt()
 * may be jumped back to: no variable of ours changes between the two. */
typedef void Step(IfigPngWriter *writer, const void *given);

static int attempt(IfigPngWriter *writer, Step *step, const void *given)
{
    if (setjmp(png_jmpbuf(writer->png))) {
        return 0;
    }
    step(writer, given);
    return 1;
}

static void on_error(png_structp png, png_const_charp message)
{
    IfigPngWriter *const writer = png_get_error_ptr(png);
    if (writer->failure.status == IFIG_OK) {
        if (writer->is_out_of_memory) {
            ifig_fail(&writer->failure, IFIG_ERROR_MEMORY,
                      "no memory for a picture %s pixels wide; make it smaller",
                      ifig_number_text(writer->width, 9).text);
        } else {
            ifig_fail(&writer->failure, IFIG_ERROR_IO, "cannot write the PNG: libpng says: %s",
                      message);
        }
    }
    png_longjmp(png, 1);
}

static void on_warning(png_structp png, png_const_charp message)
{
    (void)png;
    (void)message;
}

static png_voidp allocate(png_structp png, png_alloc_size_t size)
{
    IfigPngWriter *const writer = png_get_mem_ptr(png);
    void *const memory = malloc(size);
    writer->is_out_of_memory |= memory == NULL;
    return memory;
}

static void release(png_structp png, png_voidp memory)
{
    (void)png;
    free(memory);
}

static void put_bytes(png_structp png, png_bytep bytes, size_t count)
{
    IfigPngWriter *const writer = png_get_io_ptr(png);
    if (ifig_atomic_write(writer->file, bytes, count, &writer->failure) != IFIG_OK) {
        png_error(png, "write");
    }
}

/* ifig_atomic_commit brings all to disk in the end; there is nothing to do in between. */
static void put_nothing(png_structp png)
{
    (void)png;
}

/* Measured on a figure of quartz, 1024 x 1024 pixels, against libpng's own choice (all filters,
 * zlib level 6), as share of the unpacked size and of that choice's processor time, zlib 1.2.13
 * (tests/bench/bench_png.c measures it again):
 *    8 bit: libpng's 0.208 in 1.00; Up, level 4 0.212 in 0.24; Up, level 6 0.195 in 0.72;
 *           Up, level 1 0.260 in 0.14; Average, level 4 0.214 in 0.23; Up or Average, level 4 0.206
 *           in 0.26; Paeth, runs only 0.247 in 0.16
 *   16 bit: libpng's 0.585 in 1.00; Paeth, runs only 0.567 in 0.26; Up, level 1 0.611 in 0.39
 * Rows of a figure resemble the row above; the low bytes of 16-bit ones are noise, in which a
 * search for matches costs time and finds none. */
static IfigPngPacking choose_packing(int depth)
{
    return depth == 16 ? (IfigPngPacking){PNG_FILTER_VALUE_PAETH, Z_RLE, 4, CHUNK_SIZE}
                       : (IfigPngPacking){PNG_FILTER_VALUE_UP, Z_DEFAULT_STRATEGY, 4, CHUNK_SIZE};
}

static void set_packing(IfigPngWriter *writer)
{
    const IfigPngPacking packing = choose_packing(writer->depth);
    png_set_filter(writer->png, PNG_FILTER_TYPE_BASE,
                   packing.filter == PNG_FILTER_VALUE_UP ? PNG_FILTER_UP : PNG_FILTER_PAETH);
    png_set_compression_strategy(writer->png, packing.strategy);
    png_set_compression_level(writer->png, packing.level);
    png_set_compression_buffer_size(writer->png, packing.chunk_size);
}

static void set_text(IfigPngWriter *writer, const IfigPngOptions *options)
{
    for (size_t i = 0; i < options->text_count; i++) {
        const IfigImageText *const entry = &options->text[i];
        /* libpng copies all of it and changes none, though its types do not say so. */
        png_text text = {.compression = strlen(entry->text) >= COMPRESS_TEXT_FROM
                                            ? PNG_ITXT_COMPRESSION_zTXt
                                            : PNG_ITXT_COMPRESSION_NONE,
                         .key = (png_charp)entry->keyword,
                         .text = (png_charp)entry->text};
        png_set_text(writer->png, writer->info, &text, 1);
    }
}

static int is_little_endian(void)
{
    const uint16_t one = 1;
    return *(const unsigned char *)&one == 1;
}

/* All that stands before the pixels. Colours are sRGB, said in four ways because each reader looks
 * for another (PNG Third Edition: cICP wins over sRGB, sRGB over gAMA and cHRM). No chunk holds a
 * time: equal pictures are equal files. */
static void write_head(IfigPngWriter *writer, const void *given)
{
    /* Colour primaries and transfer of sRGB, RGB without matrix, full range (code points of ITU-T
     * H.273). libpng 1.6.39 does not know the chunk; it must stand before the pixels. */
    static const png_byte cicp_name[5] = "cICP";
    static const png_byte cicp[4] = {1, 13, 0, 1};
    const IfigPngOptions *const options = given;
    const png_uint_32 per_metre = (png_uint_32)lround(options->dpi / 0.0254);

    png_set_write_fn(writer->png, writer, put_bytes, put_nothing);
    png_set_IHDR(writer->png, writer->info, writer->width, writer->height, writer->depth,
                 PNG_COLOR_TYPE_RGB, PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT,
                 PNG_FILTER_TYPE_DEFAULT);
    png_set_sRGB_gAMA_and_cHRM(writer->png, writer->info, PNG_sRGB_INTENT_PERCEPTUAL);
    png_set_pHYs(writer->png, writer->info, per_metre, per_metre, PNG_RESOLUTION_METER);
    set_text(writer, options);
    set_packing(writer);
    png_write_info_before_PLTE(writer->png, writer->info);
    png_write_chunk(writer->png, cicp_name, cicp, sizeof cicp);
    if (writer->frames != NULL) {
        ifig_png_frames_write_count(writer->frames, writer->png);
    }
    png_write_info(writer->png, writer->info);
    if (writer->frames != NULL) {
        ifig_png_frames_write_first(writer->frames, writer->png);
    }
    if (writer->depth == 16 && is_little_endian()) {
        png_set_swap(writer->png); /* a PNG is big-endian */
    }
}

typedef struct Rows {
    const unsigned char *first;
    uint32_t count;
} Rows;

static void write_rows(IfigPngWriter *writer, const void *given)
{
    const Rows *const rows = given;
    const size_t stride = (size_t)writer->width * 3 * ((size_t)writer->depth / 8);
    for (uint32_t i = 0; i < rows->count; i++) {
        if (writer->rows_written + i < writer->height) {
            png_write_row(writer->png, rows->first + i * stride);
        } else {
            ifig_png_frames_write_row(writer->frames, writer->png, rows->first + i * stride);
        }
    }
}

static void write_end(IfigPngWriter *writer, const void *given)
{
    (void)given;
    png_write_end(writer->png, NULL);
}

/* The keyword rules of PNG Third Edition, narrowed to ASCII. */
static int is_keyword(const char *keyword)
{
    const size_t length = strlen(keyword);
    if (length < 1 || length > 79 || keyword[0] == ' ' || keyword[length - 1] == ' ') {
        return 0;
    }
    for (size_t i = 0; i < length; i++) {
        if (keyword[i] < 0x20 || keyword[i] > 0x7e ||
            (keyword[i] == ' ' && keyword[i + 1] == ' ')) {
            return 0;
        }
    }
    return 1;
}

static IfigStatus check_text(const IfigPngOptions *options, IfigError *error)
{
    if (options->text_count > 0 && options->text == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "a PNG's text is a null pointer; give text_count entries");
    }
    for (size_t i = 0; i < options->text_count; i++) {
        const IfigImageText *const entry = &options->text[i];
        if (entry->keyword == NULL || entry->text == NULL) {
            return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                             "a PNG's text entry holds a null pointer; give a keyword and a text");
        }
        if (!is_keyword(entry->keyword)) {
            return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                             "a PNG's text keyword is '%.80s'; it must be 1 to 79 printable ASCII "
                             "characters without a blank at an end or two together",
                             ifig_path_text(entry->keyword).text);
        }
        if (strlen(entry->text) > IFIG_TEXT_MAX || !ifig_utf8_is_valid(entry->text)) {
            return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                             "the PNG text '%s' is too long or not UTF-8; give at most 1048576 "
                             "bytes of UTF-8",
                             entry->keyword);
        }
    }
    return IFIG_OK;
}

static IfigStatus check_options(const IfigPngOptions *options, IfigError *error)
{
    if (options->size != sizeof *options) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the PNG options are of another version of the library; initialise them "
                         "with IFIG_PNG_OPTIONS_INIT and compile against this version");
    }
    IfigStatus status =
        ifig_check_range("the picture's width", options->width, 1, SIDE_MAX, "pixels", error);
    if (status == IFIG_OK) {
        status =
            ifig_check_range("the picture's height", options->height, 1, SIDE_MAX, "pixels", error);
    }
    if (status == IFIG_OK) {
        status = ifig_check_range("the print resolution", options->dpi, 1, 100000, "dpi", error);
    }
    if (status == IFIG_OK && options->depth != 8 && options->depth != 16) {
        status =
            ifig_fail(error, IFIG_ERROR_RANGE, "the PNG's depth is %s; it must be 8 or 16 bits",
                      ifig_number_text(options->depth, 9).text);
    }
    if (status == IFIG_OK) {
        status = ifig_png_frames_check(options, CHUNK_SIZE, error);
    }
    return status == IFIG_OK ? check_text(options, error) : status;
}

static IfigStatus report(const IfigPngWriter *writer, IfigError *error)
{
    return ifig_fail(error, writer->failure.status, "%s", writer->failure.message);
}

static IfigStatus begin(IfigPngWriter *writer, const char *path, const IfigPngOptions *options,
                        IfigError *error)
{
    IfigStatus status = ifig_atomic_open(path, options->keep_existing, &writer->file, error);
    if (status == IFIG_OK && options->frame_count > 1) {
        const IfigPngPacking packing = choose_packing(options->depth);
        status = ifig_png_frames_create(options, &packing, &writer->frames, error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    writer->png = png_create_write_struct_2(PNG_LIBPNG_VER_STRING, writer, on_error, on_warning,
                                            writer, allocate, release);
    writer->info = writer->png != NULL ? png_create_info_struct(writer->png) : NULL;
    if (writer->info == NULL) {
        return writer->is_out_of_memory
                   ? ifig_fail(error, IFIG_ERROR_MEMORY, "no memory to write a PNG; close programs")
                   : ifig_fail(error, IFIG_ERROR_IO,
                               "cannot write a PNG: the installed libpng is not the version this "
                               "library was built with; install matching packages");
    }
    return attempt(writer, write_head, options) ? IFIG_OK : report(writer, error);
}

IfigStatus ifig_png_open(const char *path, const IfigPngOptions *options, IfigPngWriter **writer,
                         IfigError *error)
{
    if (writer != NULL) {
        *writer = NULL;
    }
    if (path == NULL || path[0] == '\0' || options == NULL || writer == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_png_open was given a null pointer or an empty path; give a path, "
                         "options and a place for the writer");
    }
    IfigStatus status = check_options(options, error);
    if (status != IFIG_OK) {
        return status;
    }
    IfigPngWriter *const made = calloc(1, sizeof *made);
    if (made == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory to write a PNG; close programs");
    }
    made->width = options->width;
    made->height = options->height;
    made->depth = options->depth;
    made->row_count =
        (uint64_t)options->height * (options->frame_count > 1 ? options->frame_count : 1);
    status = begin(made, path, options, error);
    if (status == IFIG_OK) {
        *writer = made;
    } else {
        ifig_png_discard(made);
    }
    return status;
}

IfigStatus ifig_png_write_rows(IfigPngWriter *writer, const void *rows, uint32_t row_count,
                               IfigError *error)
{
    if (writer == NULL || (rows == NULL && row_count > 0)) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_png_write_rows was given a null pointer; give a writer and rows");
    }
    if (writer->failure.status != IFIG_OK) {
        return report(writer, error);
    }
    const double missing = (double)(writer->row_count - writer->rows_written);
    if (row_count > missing) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "%s rows were given for the PNG, but only %s are missing",
                         ifig_number_text(row_count, 10).text, ifig_number_text(missing, 10).text);
    }
    const Rows given = {rows, row_count};
    if (!attempt(writer, write_rows, &given)) {
        return report(writer, error);
    }
    writer->rows_written += row_count;
    return IFIG_OK;
}

const char *ifig_png_temporary_path(const IfigPngWriter *writer)
{
    return writer != NULL ? ifig_atomic_temporary_path(writer->file) : NULL;
}

IfigStatus ifig_png_close(IfigPngWriter *writer, IfigError *error)
{
    if (writer == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_png_close was given a null pointer; give a writer");
    }
    IfigStatus status = IFIG_OK;
    if (writer->failure.status != IFIG_OK) {
        status = report(writer, error);
    } else if (writer->rows_written < writer->row_count) {
        status = ifig_fail(error, IFIG_ERROR_ARGUMENT,
                           "the PNG has %s of its %s rows; write the others before closing it",
                           ifig_number_text((double)writer->rows_written, 10).text,
                           ifig_number_text((double)writer->row_count, 10).text);
    } else if (!attempt(writer, write_end, NULL)) {
        status = report(writer, error);
    } else {
        status = ifig_atomic_commit(writer->file, error);
        writer->file = NULL;
    }
    ifig_png_discard(writer);
    return status;
}

void ifig_png_discard(IfigPngWriter *writer)
{
    if (writer == NULL) {
        return;
    }
    png_destroy_write_struct(&writer->png, &writer->info);
    ifig_png_frames_free(writer->frames);
    ifig_atomic_discard(writer->file);
    free(writer);
}
