/* SPDX-License-Identifier: MIT */
/* Text out of a PNG: what was put in comes back, and no file, however broken, does harm. */
#include "scratch.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>
#include <zlib.h>

static void put_long_text(char *text, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        text[i] = (char)('a' + (i * i / 7) % 26);
    }
    text[count] = '\0';
}

static void write_with_text(const char *path, const IfigImageText *entries, size_t count)
{
    IfigPngOptions options = scratch_options();
    options.text = entries;
    options.text_count = count;
    ck_assert_int_eq(scratch_png(path, &options, NULL), IFIG_OK);
}

static void assert_text(const char *path, const char *keyword, const char *expected)
{
    IfigError error = IFIG_ERROR_INIT;
    char *text = NULL;
    const IfigStatus status = ifig_png_read_text(path, keyword, &text, &error);
    ck_assert_msg(status == IFIG_OK, "%s", error.message);
    ck_assert_str_eq(text, expected);
    ifig_text_free(text);
}

static void assert_no_text(const char *path, const char *keyword, IfigStatus status,
                           const char *words)
{
    IfigError error = IFIG_ERROR_INIT;
    char *text = (char *)&error;
    ck_assert_int_eq(ifig_png_read_text(path, keyword, &text, &error), status);
    ck_assert_ptr_null(text);
    ck_assert_msg(strstr(error.message, words) != NULL, "'%s' lacks '%s'", error.message, words);
}

START_TEST(text_comes_back_as_it_was_put_in)
{
    char long_text[5001];
    put_long_text(long_text, 5000);
    const IfigImageText entries[] = {
        {"Title", "Tern Harbour lapidary club, lesson 3"},
        {"Description", "n\xce\xb2 1.6\xe2\x80\x93"
                        "1.7, \xf0\x9f\x92\x8e\nsecond line"},
        {"Recipe", long_text},
        {"Empty", ""},
        {"Title", "a second one of the same name, which is passed over"},
    };
    write_with_text(scratch_path("a.png"), entries, 5);
    for (size_t i = 0; i < 4; i++) {
        assert_text(scratch_path("a.png"), entries[i].keyword, entries[i].text);
    }
}
END_TEST

START_TEST(the_longest_text_and_keyword_come_back)
{
    char keyword[80];
    memset(keyword, 'k', 79);
    keyword[79] = '\0';
    char *const text = malloc(1048577);
    put_long_text(text, 1048576);
    const IfigImageText entry = {keyword, text};
    write_with_text(scratch_path("a.png"), &entry, 1);
    assert_text(scratch_path("a.png"), keyword, text);
    free(text);
}
END_TEST

START_TEST(what_is_not_there_is_not_found)
{
    const IfigImageText entry = {"Recipe book", "x"};
    write_with_text(scratch_path("a.png"), &entry, 1);
    assert_no_text(scratch_path("a.png"), "Recipe", IFIG_ERROR_NOT_FOUND,
                   "a.png' is a PNG without the text 'Recipe'");
    assert_no_text(scratch_path("b.png"), "Recipe", IFIG_ERROR_NOT_FOUND,
                   "there is no such file or folder; check the spelling");
    assert_no_text(scratch_path("a.png/b"), "Recipe", IFIG_ERROR_NOT_FOUND, "not a folder");
}
END_TEST

START_TEST(arguments_are_checked)
{
    char *text = NULL;
    char keyword[81];
    memset(keyword, 'k', 80);
    keyword[80] = '\0';
    ck_assert_int_eq(ifig_png_read_text(NULL, "k", &text, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_png_read_text("p", NULL, &text, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_png_read_text("p", "k", NULL, NULL), IFIG_ERROR_ARGUMENT);
    assert_no_text("p", "", IFIG_ERROR_ARGUMENT, "1 to 79");
    assert_no_text("p", keyword, IFIG_ERROR_ARGUMENT, "1 to 79");
    ifig_text_free(NULL);
}
END_TEST

START_TEST(what_is_no_png_is_refused)
{
    scratch_write(scratch_path("a"), "indices: 1.544", 14);
    assert_no_text(scratch_path("a"), "Recipe", IFIG_ERROR_SYNTAX, "is not a PNG file");
    scratch_write(scratch_path("b"), "", 0);
    assert_no_text(scratch_path("b"), "Recipe", IFIG_ERROR_SYNTAX, "is not a PNG file");
    assert_no_text("/dev/zero", "Recipe", IFIG_ERROR_SYNTAX, "is not a PNG file");
    ck_assert_int_eq(mkdir(scratch_path("d"), 0700), 0);
    assert_no_text(scratch_path("d"), "Recipe", IFIG_ERROR_IO, "it is a folder");
}
END_TEST

/* A PNG by hand, chunk by chunk: for what our writer never makes. */
static void append(ScratchBytes *file, const char *type, const void *data, size_t count)
{
    unsigned char *const at = realloc(file->at, file->count + count + 12);
    ck_assert_ptr_nonnull(at);
    unsigned char *const b = at + file->count;
    for (unsigned i = 0; i < 4; i++) {
        b[i] = (unsigned char)(count >> (24 - 8 * i));
    }
    memcpy(b + 4, type, 4);
    memcpy(b + 8, data, count);
    const uLong crc = crc32(0, b + 4, (uInt)(count + 4));
    for (unsigned i = 0; i < 4; i++) {
        b[8 + count + i] = (unsigned char)(crc >> (24 - 8 * i));
    }
    file->at = at;
    file->count += count + 12;
}

static ScratchBytes begin_by_hand(unsigned side, int is_interlaced)
{
    const unsigned char high = (unsigned char)(side >> 8), low = side & 0xff;
    const unsigned char header[13] = {
        0, 0, high, low, 0, 0, high, low, 8, 2, 0, 0, (unsigned char)is_interlaced};
    ScratchBytes file = {malloc(8), 8};
    memcpy(file.at, "\x89PNG\r\n\x1a\n", 8);
    append(&file, "IHDR", header, sizeof header);
    return file;
}

/* A black picture: rows without a filter, `count` bytes in all. */
static void append_picture(ScratchBytes *file, size_t count)
{
    static const unsigned char zeros[1024] = {0};
    unsigned char packed[1024];
    uLongf packed_count = sizeof packed;
    ck_assert_int_eq(compress(packed, &packed_count, zeros, count), Z_OK);
    append(file, "IDAT", packed, packed_count);
}

static void end_by_hand(ScratchBytes file, const char *path)
{
    append(&file, "IEND", "", 0);
    scratch_write(path, file.at, file.count);
    free(file.at);
}

/* Signature, header, a black pixel, then one chunk and the end. */
static void write_by_hand(const char *path, const char *type, const void *data, size_t count)
{
    ScratchBytes file = begin_by_hand(1, 0);
    append_picture(&file, 4);
    append(&file, type, data, count);
    end_by_hand(file, path);
}

START_TEST(text_behind_the_picture_is_found)
{
    write_by_hand(scratch_path("a.png"), "iTXt", "Recipe\0\0\0\0\0behind", 17);
    assert_text(scratch_path("a.png"), "Recipe", "behind");
    write_by_hand(scratch_path("a.png"), "iTXt", "Recipe\0\0\0en-GB\0Rezept\0tagged", 28);
    assert_text(scratch_path("a.png"), "Recipe", "tagged");
}
END_TEST

START_TEST(latin_1_text_comes_back_as_utf_8)
{
    unsigned char packed[64] = "Title\0"; /* the NUL, then method 0 */
    uLongf count = sizeof packed - 7;
    write_by_hand(scratch_path("a.png"), "tEXt", "Title\0caf\xe9", 10);
    assert_text(scratch_path("a.png"), "Title", "caf\xc3\xa9");
    ck_assert_int_eq(compress(packed + 7, &count, (const unsigned char *)"2V 60\xb0", 6), Z_OK);
    write_by_hand(scratch_path("a.png"), "zTXt", packed, count + 7);
    assert_text(scratch_path("a.png"), "Title", "2V 60\xc2\xb0");
}
END_TEST

START_TEST(malformed_entries_are_damage)
{
    static const struct {
        const char *type;
        const char *data;
        size_t count;
    } entries[] = {
        {"zTXt", "k\0", 2},             /* no method */
        {"zTXt", "k\0\1x", 4},          /* unknown method */
        {"zTXt", "k\0\0garbage", 10},   /* does not unpack */
        {"iTXt", "k\0", 2},             /* no flag */
        {"iTXt", "k\0\0", 3},           /* no method */
        {"iTXt", "k\0\2\0\0\0x", 7},    /* unknown flag */
        {"iTXt", "k\0\1\1\0\0x", 7},    /* unknown method */
        {"iTXt", "k\0\0\0", 4},         /* no language */
        {"iTXt", "k\0\0\0en", 6},       /* language without an end */
        {"iTXt", "k\0\0\0\0key", 8},    /* translated keyword without an end */
        {"iTXt", "k\0\0\0\0\0\xff", 7}, /* not UTF-8 */
    };
    for (size_t i = 0; i < sizeof entries / sizeof entries[0]; i++) {
        write_by_hand(scratch_path("a.png"), entries[i].type, entries[i].data, entries[i].count);
        assert_no_text(scratch_path("a.png"), "k", IFIG_ERROR_SYNTAX, "is damaged");
    }
}
END_TEST

START_TEST(a_small_entry_that_unpacks_to_much_is_refused)
{
    enum { BOMB = 64 * 1048576 };
    unsigned char *const zeros = calloc(BOMB, 1);
    uLongf count = compressBound(BOMB);
    unsigned char *const packed = calloc(count + 3, 1);
    packed[0] = 'k';
    memset(zeros, 'z', BOMB);
    ck_assert_int_eq(compress(packed + 3, &count, zeros, BOMB), Z_OK);
    ck_assert_uint_lt(count, 100000);
    write_by_hand(scratch_path("a.png"), "zTXt", packed, count + 3);
    assert_no_text(scratch_path("a.png"), "k", IFIG_ERROR_SYNTAX, "longer than 1048576 bytes");
    memcpy(zeros, "k\0", 2);
    write_by_hand(scratch_path("a.png"), "tEXt", zeros, 1048576 + 3);
    assert_no_text(scratch_path("a.png"), "k", IFIG_ERROR_SYNTAX, "longer than 1048576 bytes");
    write_by_hand(scratch_path("a.png"), "tEXt", zeros, BOMB);
    assert_no_text(scratch_path("a.png"), "k", IFIG_ERROR_SYNTAX, "longer than 1048576 bytes");
    free(packed);
    free(zeros);
}
END_TEST

/* Each text is within the limits, all of them together would fill hundreds of mebibytes. */
START_TEST(many_small_entries_that_unpack_to_much_are_refused)
{
    enum { EACH = 7 * 1048576, COUNT = 60 };
    unsigned char *const zeros = calloc(EACH, 1);
    uLongf count = compressBound(EACH);
    unsigned char *const packed = calloc(count + 3, 1);
    packed[0] = 'k';
    memset(zeros, 'z', EACH);
    ck_assert_int_eq(compress(packed + 3, &count, zeros, EACH), Z_OK);
    ScratchBytes file = begin_by_hand(1, 0);
    for (int i = 0; i < COUNT; i++) {
        append(&file, "zTXt", packed, count + 3);
    }
    append_picture(&file, 4);
    end_by_hand(file, scratch_path("a.png"));
    assert_no_text(scratch_path("a.png"), "Recipe", IFIG_ERROR_SYNTAX, "holds too much text");
    free(packed);
    free(zeros);
}
END_TEST

START_TEST(a_picture_that_does_not_unpack_is_damage_wherever_the_text_stands)
{
    static const struct {
        size_t count; /* bytes of a row of 4; none: no deflate data at all */
        const char *words;
    } pictures[] = {{0, "is damaged: IDAT: "},
                    {3, "is damaged: Not enough image data"},
                    {7, "is damaged: IDAT: Too much image data"}};
    for (size_t i = 0; i < sizeof pictures / sizeof pictures[0]; i++) {
        ScratchBytes file = begin_by_hand(1, 0);
        append(&file, "tEXt", "k\0v", 3);
        if (pictures[i].count > 0) {
            append_picture(&file, pictures[i].count);
        } else {
            append(&file, "IDAT", "garbage", 7);
        }
        end_by_hand(file, scratch_path("a.png"));
        assert_no_text(scratch_path("a.png"), "k", IFIG_ERROR_SYNTAX, pictures[i].words);
    }
}
END_TEST

START_TEST(text_behind_an_interlaced_picture_is_found)
{
    /* 9 x 9: in passes of 2x2, 1x2, 3x1, 2x3, 5x2, 4x5 and 9x4 pixels (PNG Third Edition, Adam7,
     * from memory), a filter byte before each row of three bytes a pixel */
    enum { ROWS = 2 + 2 + 1 + 3 + 2 + 5 + 4, PIXELS = 81 };
    ScratchBytes file = begin_by_hand(9, 1);
    append_picture(&file, ROWS + 3 * PIXELS);
    append(&file, "tEXt", "k\0v", 3);
    end_by_hand(file, scratch_path("a.png"));
    assert_text(scratch_path("a.png"), "k", "v");
}
END_TEST

START_TEST(a_picture_too_large_to_unpack_gives_its_text_from_before_it_alone)
{
    enum { LARGE = 8193 }; /* 8192 x 8192 = 67108864 */
    ScratchBytes file = begin_by_hand(LARGE, 0);
    append(&file, "tEXt", "k\0v", 3);
    append(&file, "IDAT", "", 0);
    end_by_hand(file, scratch_path("before.png"));
    assert_text(scratch_path("before.png"), "k", "v");
    file = begin_by_hand(LARGE, 0);
    append(&file, "IDAT", "", 0);
    append(&file, "tEXt", "k\0v", 3);
    end_by_hand(file, scratch_path("behind.png"));
    assert_no_text(scratch_path("behind.png"), "k", IFIG_ERROR_SYNTAX,
                   "with more than 67108864 pixels is too large to look behind");
}
END_TEST

START_TEST(chunks_that_may_be_left_out_are_passed_over_however_odd)
{
    ScratchBytes file = begin_by_hand(1, 0);
    append(&file, "gAMA", "odd", 3);
    append(&file, "iCCP", "", 0);
    append(&file, "abCd", "unknown", 7);
    append(&file, "tEXt", "k\0v", 3);
    append_picture(&file, 4);
    append(&file, "pHYs", "", 0);
    end_by_hand(file, scratch_path("a.png"));
    assert_text(scratch_path("a.png"), "k", "v");
}
END_TEST

static ScratchBytes small_png(void)
{
    char text[1201];
    put_long_text(text, 1200);
    const IfigImageText entries[] = {{"Title", "short"}, {"Recipe", text}};
    write_with_text(scratch_path("whole.png"), entries, 2);
    return scratch_read(scratch_path("whole.png"));
}

START_TEST(a_png_cut_at_any_byte_is_told_from_a_whole_one)
{
    const ScratchBytes whole = small_png();
    const char *const path = scratch_path("cut.png");
    for (size_t count = 0; count < whole.count; count++) {
        scratch_write(path, whole.at, count);
        assert_no_text(path, "Recipe", IFIG_ERROR_SYNTAX,
                       count < 8 ? "is not a PNG file" : "it ends too early");
    }
    free(whole.at);
}
END_TEST

START_TEST(a_png_with_any_byte_changed_is_told_from_a_whole_one)
{
    static const unsigned char changes[] = {0x01, 0x20, 0x80, 0xff};
    const ScratchBytes whole = small_png();
    const char *const path = scratch_path("changed.png");
    for (size_t i = 0; i < whole.count * sizeof changes; i++) {
        unsigned char *const byte = &whole.at[i / sizeof changes];
        *byte ^= changes[i % sizeof changes];
        scratch_write(path, whole.at, whole.count);
        assert_no_text(path, "Recipe", IFIG_ERROR_SYNTAX,
                       i < 8 * sizeof changes ? "not a PNG" : "");
        *byte ^= changes[i % sizeof changes];
    }
    free(whole.at);
}
END_TEST

TCase *test_png_text_case(void)
{
    TCase *const tests = tcase_create("png text");
    tcase_add_checked_fixture(tests, scratch_setup, scratch_teardown);
    tcase_set_timeout(tests, 60);
    tcase_add_test(tests, text_comes_back_as_it_was_put_in);
    tcase_add_test(tests, the_longest_text_and_keyword_come_back);
    tcase_add_test(tests, what_is_not_there_is_not_found);
    tcase_add_test(tests, arguments_are_checked);
    tcase_add_test(tests, what_is_no_png_is_refused);
    tcase_add_test(tests, text_behind_the_picture_is_found);
    tcase_add_test(tests, latin_1_text_comes_back_as_utf_8);
    tcase_add_test(tests, malformed_entries_are_damage);
    tcase_add_test(tests, a_small_entry_that_unpacks_to_much_is_refused);
    tcase_add_test(tests, many_small_entries_that_unpack_to_much_are_refused);
    tcase_add_test(tests, a_picture_that_does_not_unpack_is_damage_wherever_the_text_stands);
    tcase_add_test(tests, text_behind_an_interlaced_picture_is_found);
    tcase_add_test(tests, a_picture_too_large_to_unpack_gives_its_text_from_before_it_alone);
    tcase_add_test(tests, chunks_that_may_be_left_out_are_passed_over_however_odd);
    tcase_add_test(tests, a_png_cut_at_any_byte_is_told_from_a_whole_one);
    tcase_add_test(tests, a_png_with_any_byte_changed_is_told_from_a_whole_one);
    return tests;
}
