/* SPDX-License-Identifier: MIT */
/* The frames of an animation, taken apart by hand. Source throughout: PNG Third Edition, W3C
 * Recommendation of 24 June 2025, by chunk name, from memory. */
#include "scratch.h"

#include <stdlib.h>
#include <string.h>
#include <zlib.h>

typedef struct Chunk {
    char name[5];
    const unsigned char *data;
    uint32_t count;
} Chunk;

typedef struct Chunks {
    ScratchBytes file;
    Chunk *at;
    size_t count;
} Chunks;

static uint32_t number(const unsigned char *b)
{
    return (uint32_t)b[0] << 24 | (uint32_t)b[1] << 16 | (uint32_t)b[2] << 8 | b[3];
}

/* Every chunk of a file, its CRC checked: over name and data, as ISO 3309 has it. */
static Chunks take_apart(const char *path)
{
    Chunks chunks = {scratch_read(path), NULL, 0};
    chunks.at = calloc(chunks.file.count / 12 + 1, sizeof *chunks.at);
    ck_assert_ptr_nonnull(chunks.at);
    for (size_t at = 8; at < chunks.file.count;) {
        const unsigned char *const b = chunks.file.at + at;
        Chunk *const chunk = &chunks.at[chunks.count++];
        ck_assert_uint_ge(chunks.file.count - at, 12);
        chunk->count = number(b);
        ck_assert_uint_le(chunk->count, chunks.file.count - at - 12);
        memcpy(chunk->name, b + 4, 4);
        chunk->data = b + 8;
        ck_assert_uint_eq(number(chunk->data + chunk->count), crc32(0, b + 4, chunk->count + 4));
        at += chunk->count + 12;
    }
    return chunks;
}

static void free_chunks(Chunks *chunks)
{
    free(chunks->file.at);
    free(chunks->at);
}

static int is(const Chunk *chunk, const char *name)
{
    return strcmp(chunk->name, name) == 0;
}

/* Undo filter types 0, 2 (Up) and 4 (Paeth) in place; rows are led by their filter's number. */
static void unfilter(unsigned char *rows, size_t row_bytes, uint32_t height, size_t step)
{
    for (uint32_t y = 0; y < height; y++) {
        unsigned char *const row = rows + y * (row_bytes + 1) + 1;
        const unsigned char *const above = row - (row_bytes + 1);
        ck_assert(row[-1] == 0 || row[-1] == 2 || row[-1] == 4);
        for (size_t i = 0; i < row_bytes && row[-1] != 0; i++) {
            const int a = i >= step ? row[i - step] : 0, b = y > 0 ? above[i] : 0;
            const int c = i >= step && y > 0 ? above[i - step] : 0, p = a + b - c;
            const int nearest = abs(p - a) <= abs(p - b) && abs(p - a) <= abs(p - c) ? a
                                : abs(p - b) <= abs(p - c)                           ? b
                                                                                     : c;
            row[i] = (unsigned char)(row[i] + (row[-1] == 2 ? b : nearest));
        }
    }
}

typedef struct Film {
    uint32_t width, height, frames;
    int depth;
    size_t row_bytes;
    unsigned char *pixels; /* of all frames, in the machine's own byte order */
} Film;

/* Frames of noise over slopes, each different. */
static Film make_film(uint32_t width, uint32_t height, uint32_t frames, int depth)
{
    Film film = {width, height, frames, depth, (size_t)width * 3 * (size_t)depth / 8, NULL};
    const size_t count = film.row_bytes * height * frames;
    uint32_t state = 7;
    film.pixels = malloc(count);
    ck_assert_ptr_nonnull(film.pixels);
    for (size_t i = 0; i < count; i++) {
        state = state * 1664525U + 1013904223U; /* Numerical Recipes' quick generator */
        film.pixels[i] = (unsigned char)(i / 5 + (state >> 29));
    }
    return film;
}

static void write_film(const char *path, const Film *film, uint32_t step)
{
    IfigPngOptions options = scratch_options();
    IfigPngWriter *writer = NULL;
    options.width = film->width;
    options.height = film->height;
    options.depth = film->depth;
    options.frame_count = film->frames;
    options.delay_numerator = 80;
    options.delay_denominator = 1000;
    options.plays = 5;
    ck_assert_int_eq(ifig_png_open(path, &options, &writer, NULL), IFIG_OK);
    const uint32_t all = film->height * film->frames;
    for (uint32_t row = 0; row < all; row += step) {
        ck_assert_int_eq(ifig_png_write_rows(writer, film->pixels + row * film->row_bytes,
                                             all - row < step ? all - row : step, NULL),
                         IFIG_OK);
    }
    ck_assert_int_eq(ifig_png_close(writer, NULL), IFIG_OK);
}

static void assert_frame(const Film *film, uint32_t frame, const unsigned char *packed,
                         size_t packed_count)
{
    uLongf count = (uLongf)((film->row_bytes + 1) * film->height);
    unsigned char *const rows = malloc(count + 1);
    uLongf got = count + 1;
    ck_assert_int_eq(uncompress(rows, &got, packed, (uLong)packed_count), Z_OK);
    ck_assert_uint_eq(got, count);
    unfilter(rows, film->row_bytes, film->height, film->depth == 16 ? 6 : 3);
    for (uint32_t y = 0; y < film->height; y++) {
        const unsigned char *const mine =
            film->pixels + (frame * (size_t)film->height + y) * film->row_bytes;
        unsigned char *const row = rows + y * (film->row_bytes + 1) + 1;
        for (size_t i = 0; film->depth == 16 && i < film->row_bytes; i += 2) {
            const uint16_t sample = (uint16_t)(row[i] << 8 | row[i + 1]);
            memcpy(row + i, &sample, sizeof sample);
        }
        ck_assert_mem_eq(row, mine, film->row_bytes);
    }
    free(rows);
}

/* fcTL: sequence, width, height, two offsets of 0, 80 / 1000 s, dispose none (0), blend source (0)
 */
static void assert_control(const Film *film, const Chunk *chunk)
{
    static const unsigned char rest[] = {0, 0, 0, 0, 0, 0, 0, 0, 0, 80, 3, 232, 0, 0};
    ck_assert_uint_eq(chunk->count, 26);
    ck_assert_uint_eq(number(chunk->data + 4), film->width);
    ck_assert_uint_eq(number(chunk->data + 8), film->height);
    ck_assert_mem_eq(chunk->data + 12, rest, sizeof rest);
}

/* acTL before the pixels; then for each frame one fcTL and its data, IDAT for the first and fdAT
 * for the others; one row of sequence numbers through both; IEND. */
static void assert_film(const char *path, const Film *film)
{
    Chunks chunks = take_apart(path);
    unsigned char *const packed = malloc(chunks.file.count);
    uint32_t sequence = 0, frame = 0;
    size_t i = 0;
    while (!is(&chunks.at[i], "acTL")) {
        ck_assert(!is(&chunks.at[i], "IDAT") && !is(&chunks.at[i], "fcTL"));
        i++;
    }
    ck_assert_uint_eq(chunks.at[i].count, 8);
    ck_assert_uint_eq(number(chunks.at[i].data), film->frames);
    ck_assert_uint_eq(number(chunks.at[i].data + 4), 5);
    while (!is(&chunks.at[i], "fcTL")) {
        i++;
    }
    for (; frame < film->frames; frame++) {
        const char *const name = frame == 0 ? "IDAT" : "fdAT";
        const uint32_t skipped = frame == 0 ? 0 : 4;
        size_t count = 0;
        ck_assert_str_eq(chunks.at[i].name, "fcTL");
        ck_assert_uint_eq(number(chunks.at[i].data), sequence++);
        assert_control(film, &chunks.at[i++]);
        for (; is(&chunks.at[i], name); i++) {
            if (frame > 0) {
                ck_assert_uint_eq(number(chunks.at[i].data), sequence++);
            }
            memcpy(packed + count, chunks.at[i].data + skipped, chunks.at[i].count - skipped);
            count += chunks.at[i].count - skipped;
        }
        assert_frame(film, frame, packed, count);
    }
    ck_assert_str_eq(chunks.at[i].name, "IEND");
    ck_assert_uint_eq(i + 1, chunks.count);
    free(packed);
    free_chunks(&chunks);
}

static void assert_round_trip(Film film, uint32_t step)
{
    write_film(scratch_path("film.png"), &film, step);
    assert_film(scratch_path("film.png"), &film);
    free(film.pixels);
}

START_TEST(frames_of_eight_bits_come_back_as_they_were)
{
    assert_round_trip(make_film(31, 23, 5, 8), 23);
    assert_round_trip(make_film(31, 23, 5, 8), 7); /* across the ends of frames */
    assert_round_trip(make_film(31, 23, 5, 8), 115);
    assert_round_trip(make_film(1, 1, 2, 8), 1);
    assert_round_trip(make_film(2, 3, 1000, 8), 11);
}
END_TEST

START_TEST(frames_of_sixteen_bits_come_back_as_they_were)
{
    assert_round_trip(make_film(31, 23, 4, 16), 23);
    assert_round_trip(make_film(31, 23, 4, 16), 5);
    assert_round_trip(make_film(1, 1, 3, 16), 2);
}
END_TEST

START_TEST(a_frame_of_many_chunks_comes_back_as_it_was)
{
    assert_round_trip(make_film(700, 300, 3, 16), 100);
    assert_round_trip(make_film(900, 400, 2, 8), 64);
}
END_TEST

START_TEST(equal_frames_are_packed_alike)
{
    Film film = make_film(40, 30, 3, 8);
    const size_t bytes = film.row_bytes * film.height;
    memcpy(film.pixels + bytes, film.pixels, bytes);
    memcpy(film.pixels + 2 * bytes, film.pixels, bytes);
    write_film(scratch_path("film.png"), &film, 30);
    Chunks chunks = take_apart(scratch_path("film.png"));
    const Chunk *first = NULL;
    int others = 0;
    for (size_t i = 0; i < chunks.count; i++) {
        first = is(&chunks.at[i], "IDAT") ? &chunks.at[i] : first;
        if (is(&chunks.at[i], "fdAT")) {
            /* The first two bytes, zlib's header, tell the window, which libpng fits to the
             * picture. */
            ck_assert_uint_eq(chunks.at[i].count, first->count + 4);
            ck_assert_mem_eq(chunks.at[i].data + 6, first->data + 2, first->count - 2);
            others++;
        }
    }
    ck_assert_int_eq(others, 2);
    free_chunks(&chunks);
    free(film.pixels);
}
END_TEST

START_TEST(one_frame_is_a_still_picture)
{
    IfigPngOptions options = scratch_options();
    ck_assert_int_eq(scratch_png(scratch_path("none.png"), &options, NULL), IFIG_OK);
    options.frame_count = 1;
    options.delay_denominator = 0;
    ck_assert_int_eq(scratch_png(scratch_path("one.png"), &options, NULL), IFIG_OK);
    const ScratchBytes none = scratch_read(scratch_path("none.png"));
    const ScratchBytes one = scratch_read(scratch_path("one.png"));
    ck_assert_uint_eq(none.count, one.count);
    ck_assert_mem_eq(none.at, one.at, one.count);
    free(none.at);
    free(one.at);
}
END_TEST

static void assert_refused(IfigPngOptions options, const char *words)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigPngWriter *writer = NULL;
    ck_assert_int_eq(ifig_png_open(scratch_path("x.png"), &options, &writer, &error),
                     IFIG_ERROR_RANGE);
    ck_assert_msg(strstr(error.message, words) != NULL, "'%s' lacks '%s'", error.message, words);
    ck_assert_int_eq(scratch_count(), 0);
}

START_TEST(an_animation_that_cannot_be_is_refused)
{
    IfigPngOptions options = scratch_options();
    options.frame_count = 65536;
    assert_refused(options, "frames is 65536; it must lie between 0 and 65535");
    options.frame_count = 2;
    options.plays = 65536;
    assert_refused(options, "plays is 65536; it must lie between 0 and 65535");
    options.plays = 0;
    options.delay_denominator = 0;
    assert_refused(options, "delay is 0; it must be 1 to 65535");
    options = scratch_options(); /* four-byte numbers of a PNG end at 2^31 - 1 */
    options.width = options.height = options.frame_count = 65535;
    assert_refused(options, "65535 frames of 65535 x 65535 pixels are more than a PNG can number");
}
END_TEST

START_TEST(a_missing_frame_is_told_and_nothing_stays)
{
    IfigPngOptions options = scratch_options();
    IfigError error = IFIG_ERROR_INIT;
    IfigPngWriter *writer = NULL;
    options.frame_count = 3;
    ck_assert_int_eq(ifig_png_open(scratch_path("x.png"), &options, &writer, NULL), IFIG_OK);
    for (int frame = 0; frame < 2; frame++) {
        ck_assert_int_eq(ifig_png_write_rows(writer, scratch_pixels, 3, NULL), IFIG_OK);
    }
    ck_assert_int_eq(ifig_png_write_rows(writer, scratch_pixels, 4, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_str_eq(error.message, "4 rows were given for the PNG, but only 3 are missing");
    ck_assert_int_eq(ifig_png_close(writer, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_ptr_nonnull(strstr(error.message, "6 of its 9 rows"));
    ck_assert_int_eq(scratch_count(), 0);
}
END_TEST

START_TEST(the_words_of_an_animation_can_be_read)
{
    static const IfigImageText recipe = {"Recipe", "turn the stage"};
    IfigPngOptions options = scratch_options();
    IfigPngWriter *writer = NULL;
    char *text = NULL;
    options.frame_count = 2;
    options.text = &recipe;
    options.text_count = 1;
    ck_assert_int_eq(ifig_png_open(scratch_path("x.png"), &options, &writer, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_png_write_rows(writer, scratch_pixels, 3, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_png_write_rows(writer, scratch_pixels, 3, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_png_close(writer, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_png_read_text(scratch_path("x.png"), "Recipe", &text, NULL), IFIG_OK);
    ck_assert_str_eq(text, recipe.text);
    ifig_text_free(text);
}
END_TEST

TCase *test_png_frames_case(void)
{
    TCase *const tests = tcase_create("png frames");
    tcase_add_checked_fixture(tests, scratch_setup, scratch_teardown);
    tcase_add_test(tests, frames_of_eight_bits_come_back_as_they_were);
    tcase_add_test(tests, frames_of_sixteen_bits_come_back_as_they_were);
    tcase_add_test(tests, a_frame_of_many_chunks_comes_back_as_it_was);
    tcase_add_test(tests, equal_frames_are_packed_alike);
    tcase_add_test(tests, one_frame_is_a_still_picture);
    tcase_add_test(tests, an_animation_that_cannot_be_is_refused);
    tcase_add_test(tests, a_missing_frame_is_told_and_nothing_stays);
    tcase_add_test(tests, the_words_of_an_animation_can_be_read);
    return tests;
}
