/* SPDX-License-Identifier: MIT */
/* The picture and the chunks around it. Source throughout: PNG Third Edition, W3C Recommendation of
 * 24 June 2025, by chunk name, from memory. */
#include "scratch.h"

#include <math.h>
#include <png.h>
#include <stdlib.h>
#include <string.h>

/* Offset of a chunk's length field (chunk layout: length, type, data, CRC), or 0. */
static size_t find_chunk(ScratchBytes file, const char *type)
{
    for (size_t at = 8; at + 12 <= file.count;) {
        const unsigned char *const b = file.at + at;
        const size_t length =
            (size_t)b[0] << 24 | (size_t)b[1] << 16 | (size_t)b[2] << 8 | (size_t)b[3];
        if (memcmp(b + 4, type, 4) == 0) {
            return at;
        }
        at += length + 12;
    }
    return 0;
}

static void assert_chunk(ScratchBytes file, const char *type, const unsigned char *data,
                         size_t count)
{
    const size_t at = find_chunk(file, type);
    ck_assert_msg(at > 0, "no %s", type);
    ck_assert_msg(at < find_chunk(file, "IDAT"), "%s behind the picture", type);
    ck_assert_uint_eq(file.at[at + 3], count);
    ck_assert_mem_eq(file.at + at + 8, data, count);
}

START_TEST(the_file_says_srgb_in_four_ways_before_the_picture)
{
    /* sRGB, intent 0 perceptual; its table of gAMA and cHRM for readers that know no sRGB;
     * cICP 1 13 0 1 as the standard's own example for sRGB */
    static const unsigned char srgb[] = {0};
    static const unsigned char gama[] = {0, 0, 0xb1, 0x8f}; /* 45455 */
    static const unsigned char chrm[] = {
        0, 0, 0x7a, 0x26, 0, 0, 0x80, 0x84, /* white 31270 32900 */
        0, 0, 0xfa, 0x00, 0, 0, 0x80, 0xe8, /* red 64000 33000 */
        0, 0, 0x75, 0x30, 0, 0, 0xea, 0x60, /* green 30000 60000 */
        0, 0, 0x3a, 0x98, 0, 0, 0x17, 0x70, /* blue 15000 6000 */
    };
    static const unsigned char cicp[] = {1, 13, 0, 1};
    ck_assert_int_eq(scratch_png(scratch_path("a.png"), NULL, NULL), IFIG_OK);
    const ScratchBytes file = scratch_read(scratch_path("a.png"));
    assert_chunk(file, "sRGB", srgb, sizeof srgb);
    assert_chunk(file, "gAMA", gama, sizeof gama);
    assert_chunk(file, "cHRM", chrm, sizeof chrm);
    assert_chunk(file, "cICP", cicp, sizeof cicp);
    free(file.at);
}
END_TEST

START_TEST(the_header_says_size_depth_and_rgb_without_interlace)
{
    /* IHDR: width, height, depth, colour type 2, deflate, adaptive filters, no interlace */
    static const unsigned char header[] = {0, 0, 0, 4, 0, 0, 0, 3, 8, 2, 0, 0, 0};
    ck_assert_int_eq(scratch_png(scratch_path("a.png"), NULL, NULL), IFIG_OK);
    const ScratchBytes file = scratch_read(scratch_path("a.png"));
    ck_assert_uint_eq(find_chunk(file, "IHDR"), 8);
    assert_chunk(file, "IHDR", header, sizeof header);
    ck_assert_uint_eq(find_chunk(file, "IEND"), file.count - 12);
    free(file.at);
}
END_TEST

static void assert_pixels_a_metre(double dpi, uint32_t expected)
{
    IfigPngOptions options = scratch_options();
    options.dpi = dpi;
    ck_assert_int_eq(scratch_png(scratch_path("dpi.png"), &options, NULL), IFIG_OK);
    const ScratchBytes file = scratch_read(scratch_path("dpi.png"));
    const unsigned char *const b = file.at + find_chunk(file, "pHYs") + 8;
    ck_assert_uint_eq((uint32_t)b[0] << 24 | (uint32_t)b[1] << 16 | (uint32_t)b[2] << 8 | b[3],
                      expected);
    ck_assert_mem_eq(b, b + 4, 4);
    ck_assert_uint_eq(b[8], 1); /* the unit is the metre */
    free(file.at);
}

START_TEST(dots_an_inch_become_pixels_a_metre)
{
    /* pHYs; an inch is 0.0254 m exactly (international yard, 1959) */
    assert_pixels_a_metre(300.0, 11811);
    assert_pixels_a_metre(72.0, 2835);
    assert_pixels_a_metre(1.0, 39);
    assert_pixels_a_metre(100000.0, 3937008);
}
END_TEST

START_TEST(no_chunk_holds_a_time_and_equal_pictures_are_equal_files)
{
    ck_assert_int_eq(scratch_png(scratch_path("a.png"), NULL, NULL), IFIG_OK);
    ck_assert_int_eq(scratch_png(scratch_path("b.png"), NULL, NULL), IFIG_OK);
    const ScratchBytes a = scratch_read(scratch_path("a.png"));
    const ScratchBytes b = scratch_read(scratch_path("b.png"));
    ck_assert_uint_eq(find_chunk(a, "tIME"), 0);
    ck_assert_uint_eq(a.count, b.count);
    ck_assert_mem_eq(a.at, b.at, a.count);
    free(a.at);
    free(b.at);
}
END_TEST

/* Write a picture of noise over a slope, a few rows at a time, and read it back through libpng. */
static void assert_round_trip(int depth, uint32_t width, uint32_t height, uint32_t step)
{
    const size_t samples = (size_t)width * height * 3;
    const size_t bytes = samples * (size_t)depth / 8;
    uint16_t *const wide = malloc(samples * sizeof *wide);
    uint8_t *const narrow = (uint8_t *)wide;
    uint16_t *const back = malloc(samples * sizeof *back);
    uint32_t state = 1;
    for (size_t i = 0; i < samples; i++) {
        state = state * 1664525U + 1013904223U; /* Numerical Recipes' quick generator */
        const uint16_t value = (uint16_t)(i * 7 + (state >> 28));
        if (depth == 16) {
            wide[i] = value;
        } else {
            narrow[i] = (uint8_t)value;
        }
    }
    IfigPngOptions options = scratch_options();
    options.width = width;
    options.height = height;
    options.depth = depth;
    IfigPngWriter *writer = NULL;
    ck_assert_int_eq(ifig_png_open(scratch_path("r.png"), &options, &writer, NULL), IFIG_OK);
    for (uint32_t row = 0; row < height; row += step) {
        const uint32_t count = height - row < step ? height - row : step;
        ck_assert_int_eq(ifig_png_write_rows(writer, narrow + bytes / height * row, count, NULL),
                         IFIG_OK);
    }
    ck_assert_int_eq(ifig_png_close(writer, NULL), IFIG_OK);

    png_image image = {.version = PNG_IMAGE_VERSION};
    if (depth == 8) {
        ck_assert(png_image_begin_read_from_file(&image, scratch_path("r.png")));
        image.format = PNG_FORMAT_RGB;
        ck_assert(png_image_finish_read(&image, NULL, back, 0, NULL));
    } else {
        FILE *const file = fopen(scratch_path("r.png"), "rb");
        png_structp png = png_create_read_struct(PNG_LIBPNG_VER_STRING, NULL, NULL, NULL);
        png_infop info = png_create_info_struct(png);
        png_init_io(png, file);
        png_read_info(png, info);
        for (uint32_t row = 0; row < height; row++) {
            png_read_row(png, (png_bytep)(back + (size_t)row * width * 3), NULL);
        }
        png_destroy_read_struct(&png, &info, NULL);
        fclose(file);
        for (size_t i = 0; i < samples; i++) { /* most significant byte first */
            const uint8_t *const b = (const uint8_t *)(back + i);
            back[i] = (uint16_t)(b[0] << 8 | b[1]);
        }
    }
    ck_assert_mem_eq(back, wide, bytes);
    free(wide);
    free(back);
}

START_TEST(eight_bit_pixels_come_back_as_they_were)
{
    assert_round_trip(8, 61, 47, 47);
    assert_round_trip(8, 61, 47, 5);
    assert_round_trip(8, 1, 1, 1);
}
END_TEST

START_TEST(sixteen_bit_pixels_come_back_as_they_were)
{
    assert_round_trip(16, 61, 47, 47);
    assert_round_trip(16, 61, 47, 5);
    assert_round_trip(16, 1, 1, 1);
}
END_TEST

START_TEST(the_longest_sides_can_be_written)
{
    assert_round_trip(16, 65535, 1, 1);
    assert_round_trip(8, 1, 65535, 1000);
}
END_TEST

static void assert_refused(IfigPngOptions options, IfigStatus status, const char *word)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigPngWriter *writer = (IfigPngWriter *)&error;
    ck_assert_int_eq(ifig_png_open(scratch_path("x.png"), &options, &writer, &error), status);
    ck_assert_ptr_null(writer);
    ck_assert_msg(strstr(error.message, word) != NULL, "'%s' lacks '%s'", error.message, word);
    ck_assert_int_eq(scratch_count(), 0);
}

START_TEST(options_outside_their_range_are_refused_by_name)
{
    static const double bad_dpi[] = {0.0, 0.999, 100001.0, -1.0, NAN, INFINITY, -INFINITY};
    IfigPngOptions options = scratch_options();
    options.width = 0;
    assert_refused(options, IFIG_ERROR_RANGE, "width is 0");
    options.width = 65536;
    assert_refused(options, IFIG_ERROR_RANGE, "width is 65536");
    options = scratch_options();
    options.height = 70000;
    assert_refused(options, IFIG_ERROR_RANGE, "height is 70000");
    options = scratch_options();
    options.depth = 12;
    assert_refused(options, IFIG_ERROR_RANGE, "depth is 12");
    options = scratch_options();
    for (size_t i = 0; i < sizeof bad_dpi / sizeof bad_dpi[0]; i++) {
        options.dpi = bad_dpi[i];
        assert_refused(options, IFIG_ERROR_RANGE, "print resolution");
    }
    options = scratch_options();
    options.size--;
    assert_refused(options, IFIG_ERROR_ARGUMENT, "another version");
}
END_TEST

START_TEST(text_that_a_png_cannot_hold_is_refused)
{
    /* tEXt: keywords of 1 to 79 characters, no blank at an end or two together; UTF-8 text:
     * RFC 3629 forbids overlong forms and surrogates */
    static const char *const keywords[] = {
        "",
        " a",
        "a ",
        "a  b",
        "a\nb",
        "caf\xc3\xa9",
        "12345678901234567890123456789012345678901234567890123456789012345678901234567890"};
    static const char *const texts[] = {"\x80",         "\xc0\xaf",         "\xe2\x82",
                                        "\xed\xa0\x80", "\xf4\x90\x80\x80", "a\xff"};
    IfigImageText entry = {"Title", "x"};
    IfigPngOptions options = scratch_options();
    options.text_count = 1;
    assert_refused(options, IFIG_ERROR_ARGUMENT, "null pointer");
    options.text = &entry;
    for (size_t i = 0; i < sizeof keywords / sizeof keywords[0]; i++) {
        entry.keyword = keywords[i];
        assert_refused(options, IFIG_ERROR_ARGUMENT, "keyword");
    }
    entry.keyword = "Title";
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        entry.text = texts[i];
        assert_refused(options, IFIG_ERROR_ARGUMENT, "'Title'");
    }
    entry.text = NULL;
    assert_refused(options, IFIG_ERROR_ARGUMENT, "null pointer");
}
END_TEST

START_TEST(null_pointers_are_refused)
{
    const IfigPngOptions options = scratch_options();
    IfigPngWriter *writer = NULL;
    ck_assert_int_eq(ifig_png_open(NULL, &options, &writer, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_png_open("", &options, &writer, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_png_open("a", NULL, &writer, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_png_open("a", &options, NULL, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_png_write_rows(NULL, "", 1, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_png_close(NULL, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_ptr_null(ifig_png_temporary_path(NULL));
    ifig_png_discard(NULL);
}
END_TEST

START_TEST(a_row_too_many_or_too_few_is_refused)
{
    const IfigPngOptions options = scratch_options();
    IfigError error = IFIG_ERROR_INIT;
    IfigPngWriter *writer = NULL;
    ck_assert_int_eq(ifig_png_open(scratch_path("x.png"), &options, &writer, &error), IFIG_OK);
    ck_assert_int_eq(ifig_png_write_rows(writer, scratch_pixels, 4, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_png_write_rows(writer, scratch_pixels, 2, &error), IFIG_OK);
    ck_assert_int_eq(ifig_png_write_rows(writer, scratch_pixels, 2, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_str_eq(error.message, "2 rows were given for the PNG, but only 1 are missing");
    ck_assert_int_eq(ifig_png_close(writer, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_ptr_nonnull(strstr(error.message, "2 of its 3 rows"));
    ck_assert_int_eq(scratch_count(), 0);
}
END_TEST

TCase *test_png_case(void)
{
    TCase *const tests = tcase_create("png");
    tcase_add_checked_fixture(tests, scratch_setup, scratch_teardown);
    tcase_add_test(tests, the_file_says_srgb_in_four_ways_before_the_picture);
    tcase_add_test(tests, the_header_says_size_depth_and_rgb_without_interlace);
    tcase_add_test(tests, dots_an_inch_become_pixels_a_metre);
    tcase_add_test(tests, no_chunk_holds_a_time_and_equal_pictures_are_equal_files);
    tcase_add_test(tests, eight_bit_pixels_come_back_as_they_were);
    tcase_add_test(tests, sixteen_bit_pixels_come_back_as_they_were);
    tcase_add_test(tests, the_longest_sides_can_be_written);
    tcase_add_test(tests, options_outside_their_range_are_refused_by_name);
    tcase_add_test(tests, text_that_a_png_cannot_hold_is_refused);
    tcase_add_test(tests, null_pointers_are_refused);
    tcase_add_test(tests, a_row_too_many_or_too_few_is_refused);
    return tests;
}
