/* SPDX-License-Identifier: MIT */
/* The text of a PNG, through libpng at its strictest. The file is read to its end, so that a
 * damaged or cut one is always told: whoever asks for the text will make the picture anew from it.
 */
#include "image.h"

#include <errno.h>
#include <png.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* Limits against small files that unpack to much. */
enum {
    SIDE_MAX = 65535,
    PIXELS_MAX = 67108864, /* of a picture that is unpacked */
    CHUNKS_MAX = 100,      /* libpng takes two texts fewer */
    CHUNK_MAX = 8388608,   /* bytes of a chunk, and of its text when unpacked */
    MEMORY_MAX = 67108864  /* bytes asked for in all: many texts, each within its limit */
};

typedef struct Reading {
    png_structp png;
    png_infop info;
    int descriptor;
    const char *path, *keyword;
    size_t memory_left;
    IfigError failure; /* IFIG_OK until something failed */
} Reading;

static void on_error(png_structp png, png_const_charp message)
{
    Reading *const reading = png_get_error_ptr(png);
    const IfigPathText path = ifig_path_text(reading->path);
    if (reading->failure.status == IFIG_OK && png_get_io_state(png) & PNG_IO_SIGNATURE) {
        ifig_fail(&reading->failure, IFIG_ERROR_SYNTAX,
                  "'%s' is not a PNG file; give a PNG that this program made", path.text);
    } else if (reading->failure.status == IFIG_OK) {
        /* A text that unpacks too far is "truncated" to libpng, just as one that was cut short. */
        const int is_text = strstr(message, "Xt: ") != NULL; /* tEXt, zTXt, iTXt */
        ifig_fail(&reading->failure, IFIG_ERROR_SYNTAX,
                  "'%s' is damaged%s: %s; copy or download it again", path.text,
                  is_text ? " or holds a text longer than 1048576 bytes" : "", message);
    }
    png_longjmp(png, 1);
}

static void on_warning(png_structp png, png_const_charp message)
{
    (void)png;
    (void)message;
}

/* What fails here stays failed: libpng goes on without a text that it has no memory for. */
static png_voidp allocate(png_structp png, png_alloc_size_t size)
{
    Reading *const reading = png_get_mem_ptr(png);
    if (size > reading->memory_left) {
        ifig_fail(&reading->failure, IFIG_ERROR_SYNTAX,
                  "'%s' holds too much text, more than 67108864 bytes in all; it was not made by "
                  "this program",
                  ifig_path_text(reading->path).text);
        return NULL;
    }
    reading->memory_left -= size;
    void *const memory = malloc(size);
    if (memory == NULL) {
        ifig_fail_file(&reading->failure, IFIG_ERROR_MEMORY, IFIG_FILE_READ, reading->path, ENOMEM);
    }
    return memory;
}

static void release(png_structp png, png_voidp memory)
{
    (void)png;
    free(memory);
}

static void get_bytes(png_structp png, png_bytep bytes, size_t count)
{
    Reading *const reading = png_get_io_ptr(png);
    size_t got = 0;
    ifig_input_read(reading->descriptor, reading->path, bytes, count, &got, &reading->failure);
    if (got < count) {
        png_error(png, "it ends too early");
    }
}

/* Of chunks that may be left out, all but texts are passed over; their checksums must fit. */
static void set_up(Reading *reading)
{
    static const png_byte texts[] = "tEXt\0zTXt\0iTXt";
    png_set_read_fn(reading->png, reading, get_bytes);
    png_set_user_limits(reading->png, SIDE_MAX, SIDE_MAX);
    png_set_chunk_cache_max(reading->png, CHUNKS_MAX);
    png_set_chunk_malloc_max(reading->png, CHUNK_MAX);
    png_set_crc_action(reading->png, PNG_CRC_ERROR_QUIT, PNG_CRC_ERROR_QUIT);
    png_set_benign_errors(reading->png, 0);
    png_set_keep_unknown_chunks(reading->png, PNG_HANDLE_CHUNK_NEVER, NULL, -1);
    png_set_keep_unknown_chunks(reading->png, PNG_HANDLE_CHUNK_AS_DEFAULT, texts, 3);
}

static const png_text *find(const Reading *reading)
{
    png_textp texts = NULL;
    const int count = png_get_text(reading->png, reading->info, &texts, NULL);
    for (int i = 0; i < count; i++) {
        if (strcmp(texts[i].key, reading->keyword) == 0) {
            return &texts[i];
        }
    }
    return NULL;
}

/* A picture too large to be unpacked is left alone where the text stands before it. */
static void read_file(Reading *reading)
{
    set_up(reading);
    png_read_info(reading->png, reading->info);
    const png_uint_32 height = png_get_image_height(reading->png, reading->info);
    if ((uint64_t)png_get_image_width(reading->png, reading->info) * height > PIXELS_MAX) {
        if (find(reading) == NULL) {
            ifig_fail(&reading->failure, IFIG_ERROR_SYNTAX,
                      "'%s' has no text '%s' before its picture, which with more than 67108864 "
                      "pixels is too large to look behind; give a PNG that this program made",
                      ifig_path_text(reading->path).text, reading->keyword);
        }
        return;
    }
    for (int pass = png_set_interlace_handling(reading->png); pass > 0; pass--) {
        for (png_uint_32 row = 0; row < height; row++) {
            png_read_row(reading->png, NULL, NULL);
        }
    }
    png_read_end(reading->png, reading->info);
}

/* libpng leaves a failed call by longjmp; no variable of ours changes between here and there. */
static void attempt(Reading *reading)
{
    if (setjmp(png_jmpbuf(reading->png)) == 0) {
        read_file(reading);
    }
}

/* tEXt and zTXt are Latin-1, iTXt is UTF-8 (PNG Third Edition, W3C Recommendation 2025). */
static IfigStatus copy_text(const char *path, const png_text *entry, char **text, IfigError *error)
{
    const int is_latin1 = entry->compression < PNG_ITXT_COMPRESSION_NONE;
    char *const copy = malloc(2 * strlen(entry->text) + 1);
    if (copy == NULL) {
        return ifig_fail_file(error, IFIG_ERROR_MEMORY, IFIG_FILE_READ, path, ENOMEM);
    }
    char *end = copy;
    for (const char *letter = entry->text; *letter != '\0'; letter++) {
        const unsigned char code = (unsigned char)*letter;
        const int is_wide = is_latin1 && code >= 0x80;
        if (is_wide) {
            *end++ = (char)(0xc0 | code >> 6);
        }
        *end++ = (char)(is_wide ? 0x80 | (code & 0x3f) : code);
    }
    *end = '\0';
    if (end - copy <= IFIG_TEXT_MAX && ifig_utf8_is_valid(copy)) {
        *text = copy;
        return IFIG_OK;
    }
    const int is_long = end - copy > IFIG_TEXT_MAX;
    free(copy);
    return ifig_fail(error, IFIG_ERROR_SYNTAX, "'%s' %s", ifig_path_text(path).text,
                     is_long ? "holds a text longer than 1048576 bytes; it was not made by this "
                               "program"
                             : "is damaged: its text is not UTF-8; copy or download it again");
}

static IfigStatus read_text(Reading *reading, char **text, IfigError *error)
{
    reading->png = png_create_read_struct_2(PNG_LIBPNG_VER_STRING, reading, on_error, on_warning,
                                            reading, allocate, release);
    reading->info = reading->png != NULL ? png_create_info_struct(reading->png) : NULL;
    if (reading->info != NULL) {
        attempt(reading);
    } else if (reading->failure.status == IFIG_OK) {
        return ifig_fail(error, IFIG_ERROR_IO,
                         "cannot read a PNG: the installed libpng is not the version this library "
                         "was built with; install matching packages");
    }
    if (reading->failure.status != IFIG_OK) {
        return ifig_fail(error, reading->failure.status, "%s", reading->failure.message);
    }
    const png_text *const entry = find(reading);
    if (entry == NULL) {
        return ifig_fail(error, IFIG_ERROR_NOT_FOUND,
                         "'%s' is a PNG without the text '%s'; give one that this program made and "
                         "no other program has saved since",
                         ifig_path_text(reading->path).text, reading->keyword);
    }
    return copy_text(reading->path, entry, text, error);
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
    if (keyword[0] == '\0' || strlen(keyword) > 79) {
        return ifig_fail(
            error, IFIG_ERROR_ARGUMENT,
            "the PNG text keyword is empty or too long; it must be 1 to 79 characters");
    }
    Reading reading = {.path = path, .keyword = keyword, .memory_left = MEMORY_MAX};
    IfigStatus status = ifig_input_open(path, &reading.descriptor, error);
    if (status == IFIG_OK) {
        status = read_text(&reading, text, error);
        png_destroy_read_struct(&reading.png, &reading.info, NULL);
        close(reading.descriptor);
    }
    return status;
}
