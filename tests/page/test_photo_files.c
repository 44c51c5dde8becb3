/* SPDX-License-Identifier: MIT */
/* Files of photos that are damaged or made to harm (bar R5): cut and changed at each byte, headers
 * of billions of pixels, little files that unpack to much. IFIG_PHOTOS names a folder of small
 * ones. */
#include <stdio.h>
#include <string.h>
#include <sys/resource.h>

#include "../run_case.h"
#include "image.h"
#include "photo.h"
#include "photo_maker.h"

enum { NAME_MAX_HERE = 512 };

static const char *const PHOTOS[] = {"colour.jpg", "progressive.jpg", "grey.jpg",
                                     "colour.png", "palette.png",     "interlaced.png"};
enum { PHOTO_COUNT = sizeof PHOTOS / sizeof PHOTOS[0] };

static Bytes read_whole(const char *name)
{
    char path[NAME_MAX_HERE];
    Bytes file = {NULL, 0, 0};
    ck_assert_msg(getenv("IFIG_PHOTOS") != NULL, "IFIG_PHOTOS must name the folder of photos");
    snprintf(path, sizeof path, "%s/%s", getenv("IFIG_PHOTOS"), name);
    FILE *const in = fopen(path, "rb");
    ck_assert_ptr_nonnull(in);
    for (int byte = getc(in); byte != EOF; byte = getc(in)) {
        put_byte(&file, (unsigned)byte);
    }
    fclose(in);
    return file;
}

/* From a block of just that size, so that the sanitizer sees one byte too far. */
static IfigStatus read_bytes(const uint8_t *bytes, size_t count, IfigPhoto *photo, IfigError *error)
{
    uint8_t *const copy = malloc(count > 0 ? count : 1);
    ck_assert_ptr_nonnull(copy);
    memcpy(copy, bytes, count);
    *photo = (IfigPhoto){NULL, 0, 0};
    const IfigStatus status = count > 0 && bytes[0] == 0xff
                                  ? ifig_photo_read_jpeg(copy, count, "a", photo, error)
                                  : ifig_photo_read_png(copy, count, "a", photo, error);
    free(copy);
    for (const char *letter = error->message; status != IFIG_OK && *letter != '\0'; letter++) {
        ck_assert_msg(*letter >= ' ' && *letter <= '~', "a raw byte in '%s'", error->message);
    }
    ck_assert(status == IFIG_OK || error->message[0] != '\0');
    return status;
}

static void expect_refused(const Bytes *file, const char *why)
{
    IfigPhoto photo;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_int_eq(read_bytes(file->at, file->count, &photo, &error), IFIG_ERROR_SYNTAX);
    ck_assert_msg(strstr(error.message, why) != NULL, "'%s' does not say '%s'", error.message, why);
    ifig_photo_free(&photo);
}

static int same(const IfigPhoto *one, const IfigPhoto *other)
{
    return one->width == other->width && one->height == other->height &&
           memcmp(one->rgb, other->rgb, (size_t)3 * one->width * one->height) == 0;
}

/* A PNG that lacks its end alone, and nothing else, is all there. */
START_TEST(a_photo_cut_at_any_byte_is_refused_or_whole)
{
    size_t cuts = 0, whole = 0;
    for (int i = 0; i < PHOTO_COUNT; i++) {
        IfigPhoto uncut, photo;
        Bytes file = read_whole(PHOTOS[i]);
        IfigError error = IFIG_ERROR_INIT;
        ck_assert_msg(read_bytes(file.at, file.count, &uncut, &error) == IFIG_OK, "%s: %s",
                      PHOTOS[i], error.message);
        for (size_t count = 0; count < file.count; count++, cuts++) {
            if (read_bytes(file.at, count, &photo, &error) == IFIG_OK) {
                ck_assert_msg(same(&photo, &uncut), "%s cut at %zu", PHOTOS[i], count);
                ck_assert_uint_ge(count + 16, file.count);
                whole++;
            }
            ifig_photo_free(&photo);
        }
        ifig_photo_free(&uncut);
        free(file.at);
    }
    printf("%zu cuts through %d photos: %zu lacked only what no pixel needs, %zu refused\n", cuts,
           PHOTO_COUNT, whole, cuts - whole);
}
END_TEST

/* 1 where the byte belongs to a chunk that a PNG cannot do without; they bear check sums. */
static int is_needed(const Bytes *file, size_t place)
{
    size_t at = 8;
    while (at + 12 + number_at(file->at + at) <= place) {
        at += 12 + number_at(file->at + at);
    }
    return place < 8 ||
           ((file->at[at + 4] & 0x20) == 0 && memcmp(file->at + at + 4, "IEND", 4) != 0);
}

START_TEST(a_photo_changed_at_any_byte_is_refused_or_read_in_order)
{
    size_t changes = 0, refused = 0;
    for (int i = 0; i < PHOTO_COUNT; i++) {
        Bytes file = read_whole(PHOTOS[i]);
        const int is_png = file.at[0] != 0xff;
        for (size_t at = 0; at < file.count; at++) {
            for (unsigned change = 1; change < 256; change *= 2, changes++) {
                IfigPhoto photo;
                IfigError error = IFIG_ERROR_INIT;
                const int needed = is_png && is_needed(&file, at);
                file.at[at] ^= (uint8_t)change;
                const IfigStatus status = read_bytes(file.at, file.count, &photo, &error);
                file.at[at] ^= (uint8_t)change;
                ck_assert_msg(!needed || status != IFIG_OK, "%s byte %zu", PHOTOS[i], at);
                refused += status != IFIG_OK;
                ifig_photo_free(&photo);
            }
        }
        free(file.at);
    }
    printf("%zu bits changed in %d photos, %zu refused\n", changes, PHOTO_COUNT, refused);
}
END_TEST

START_TEST(headers_of_billions_of_pixels_are_refused)
{
    static const unsigned long sides[][2] = {
        {100000, 100000}, {65535, 65535}, {8193, 8192}, {1000000, 68}, {2147483647, 2147483647}};
    for (size_t i = 0; i < sizeof sides / sizeof sides[0]; i++) {
        Bytes file = start_png(sides[i][0], sides[i][1]);
        put_chunk(&file, "IDAT", "", 0);
        put_chunk(&file, "IEND", "", 0);
        expect_refused(&file, i < 4 ? "allowed are 1 to 67108864" : "damaged PNG");
        free(file.at);
    }
    Bytes file = make_jpeg_of_scans(65500, 65500, 0);
    expect_refused(&file, "allowed are 1 to 67108864");
    free(file.at);
    file = make_jpeg_of_scans(65535, 65535, 0);
    expect_refused(&file, "damaged JPEG");
    free(file.at);
}
END_TEST

#if defined(__SANITIZE_ADDRESS__)
#define OWN_MEMORY 0 /* the sanitizer's own would be measured */
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define OWN_MEMORY 0
#endif
#endif
#ifndef OWN_MEMORY
#define OWN_MEMORY 1
#endif

static void expect_little_memory(void)
{
    struct rusage usage;
    ck_assert_int_eq(getrusage(RUSAGE_SELF, &usage), 0);
    printf("at most %ld MiB\n", usage.ru_maxrss / 1024);
    ck_assert(!OWN_MEMORY || usage.ru_maxrss < 256 * 1024);
}

/* A longer one would be killed. */
static void allow_processor_time(unsigned seconds)
{
    const struct rlimit limit = {seconds, seconds};
    ck_assert_int_eq(setrlimit(RLIMIT_CPU, &limit), 0);
}

/* What does not change the pixels is not unpacked, which takes half a minute: the photo is read. */
START_TEST(bombs_beside_the_picture_are_left_alone)
{
    static const char *const kinds[] = {"zTXt", "iCCP"};
    static const char *const heads[] = {"Comment\0", "icc\0"}; /* and the string's own NUL */
    static const size_t head_sizes[] = {9, 5};
    allow_processor_time(OWN_MEMORY ? 10 : 60);
    for (int kind = 0; kind < 2; kind++) {
        IfigPhoto photo;
        IfigError error = IFIG_ERROR_INIT;
        Bytes file = start_png(1, 1);
        Bytes bomb = pack_zeros(heads[kind], head_sizes[kind], 7900000);
        for (int i = 0; i < (kind == 0 ? 900 : 1); i++) {
            put_chunk(&file, kinds[kind], bomb.at, bomb.count);
        }
        Bytes rows = pack_zeros("", 0, 4);
        put_chunk(&file, "IDAT", rows.at, rows.count);
        put_chunk(&file, "IEND", "", 0);
        ck_assert_msg(read_bytes(file.at, file.count, &photo, &error) == IFIG_OK, "%s",
                      error.message);
        ifig_photo_free(&photo);
        free(rows.at);
        free(bomb.at);
        free(file.at);
    }
    expect_little_memory();
}
END_TEST

START_TEST(a_picture_that_unpacks_too_far_costs_no_more_than_its_pixels)
{
    IfigPhoto photo;
    IfigError error = IFIG_ERROR_INIT;
    Bytes file = start_png(1, 1), bomb = pack_zeros("", 0, 100000000);
    put_chunk(&file, "IDAT", bomb.at, bomb.count);
    put_chunk(&file, "IEND", "", 0);
    read_bytes(file.at, file.count, &photo, &error);
    ifig_photo_free(&photo);
    free(bomb.at);
    free(file.at);
    expect_little_memory();
}
END_TEST

/* Each scan of a progressive JPEG goes over the whole picture, and takes forty bytes. */
START_TEST(a_jpeg_of_many_scans_is_refused)
{
    Bytes file = make_jpeg_of_scans(4096, 4096, 63);
    expect_refused(&file, "too many scans");
    free(file.at);
    file = make_jpeg_of_scans(4096, 4096, 9);
    IfigPhoto photo;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(read_bytes(file.at, file.count, &photo, &error) == IFIG_OK, "%s", error.message);
    ifig_photo_free(&photo);
    free(file.at);
}
END_TEST

START_TEST(a_jpeg_whose_scans_do_not_fit_into_memory_is_refused)
{
    Bytes file = make_jpeg_of_scans(8192, 8192, 9);
    expect_refused(&file, "progressive");
    free(file.at);
    expect_little_memory();
}
END_TEST

/* The EXIF block is the second segment: what stands in it leads nowhere. */
START_TEST(exif_that_leads_in_circles_or_nowhere_is_upright)
{
    static const char *const blocks[] = {
        "MM\0*\0\0\0\x08\0\1\1\x12\0\3\0\0\0\1\0\0\0\0\0\0\0\x08",     /* next: itself */
        "II*\0\x08\0\0\0\1\0\x69\x87\4\0\1\0\0\0\x08\0\0\0\x08\0\0\0", /* a part: itself */
        "II*\0\xff\xff\xff\xff\1\0\x12\1\3\0\1\0\0\0\6\0\0\0\0\0\0\0", /* beyond the end */
        "MM\0*\0\0\0\x08\xff\xff\1\x13\0\3\0\0\0\1\0\6\0\0\0\0\0\0",   /* entries without end */
        "MM\0*\0\0\0\x08\0\1\1\x12\0\3\0\0\0\1\xff\xff\0\0\0\0\0\0",   /* no such way up */
    };
    for (size_t i = 0; i < sizeof blocks / sizeof blocks[0]; i++) {
        IfigPhoto photo;
        IfigError error = IFIG_ERROR_INIT;
        Bytes file = make_jpeg_with_exif(16, 8, blocks[i], 26);
        ck_assert_msg(read_bytes(file.at, file.count, &photo, &error) == IFIG_OK, "%s",
                      error.message);
        ck_assert_uint_eq(photo.width, 16);
        ck_assert_uint_eq(photo.height, 8);
        ifig_photo_free(&photo);
        free(file.at);
    }
}
END_TEST

int main(void)
{
    TCase *const facts = tcase_create("photo files");
    tcase_add_test(facts, a_photo_cut_at_any_byte_is_refused_or_whole);
    tcase_add_test(facts, a_photo_changed_at_any_byte_is_refused_or_read_in_order);
    tcase_add_test(facts, headers_of_billions_of_pixels_are_refused);
    tcase_add_test(facts, bombs_beside_the_picture_are_left_alone);
    tcase_add_test(facts, a_picture_that_unpacks_too_far_costs_no_more_than_its_pixels);
    tcase_add_test(facts, a_jpeg_of_many_scans_is_refused);
    tcase_add_test(facts, a_jpeg_whose_scans_do_not_fit_into_memory_is_refused);
    tcase_add_test(facts, exif_that_leads_in_circles_or_nowhere_is_upright);
    return run_case(facts, "page photo files");
}
