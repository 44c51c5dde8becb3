/* SPDX-License-Identifier: MIT */
/* What goes wrong with files, and what is said about it. */
#include "scratch.h"

#include <fcntl.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

static void assert_said(const IfigError *error, const char *words)
{
    ck_assert_msg(strstr(error->message, words) != NULL, "'%s' lacks '%s'", error->message, words);
    ck_assert_ptr_null(strchr(error->message, '\n'));
}

static void assert_fails(const char *path, IfigStatus status, const char *words)
{
    const int descriptors = scratch_descriptors();
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_int_eq(scratch_png(path, NULL, &error), status);
    ck_assert_int_eq(error.status, status);
    assert_said(&error, words);
    ck_assert_int_eq(scratch_descriptors(), descriptors);
}

START_TEST(a_full_device_is_told_with_its_name_and_a_remedy)
{
    assert_fails("/dev/full", IFIG_ERROR_IO,
                 "cannot write '/dev/full': no space left on the device; free some space or choose "
                 "another place with -o");
}
END_TEST

START_TEST(a_missing_folder_is_told)
{
    assert_fails(scratch_path("none/a.png"), IFIG_ERROR_CREATE, "create the folder first");
    ck_assert_int_eq(scratch_count(), 0);
}
END_TEST

START_TEST(a_folder_cannot_be_a_picture)
{
    ck_assert_int_eq(mkdir(scratch_path("d"), 0700), 0);
    assert_fails(scratch_path("d"), IFIG_ERROR_CREATE, "it is a folder; name a file in it");
    assert_fails(scratch_path("d/"), IFIG_ERROR_CREATE, "it is a folder; name a file in it");
    assert_fails(scratch_path("e/"), IFIG_ERROR_CREATE, "it is a folder; name a file in it");
    scratch_write(scratch_path("f"), "x", 1);
    assert_fails(scratch_path("f/a.png"), IFIG_ERROR_CREATE, "not a folder");
    ck_assert_int_eq(scratch_count(), 2);
}
END_TEST

START_TEST(names_too_long_and_links_in_a_ring_are_told)
{
    char name[301];
    memset(name, 'n', 300);
    name[300] = '\0';
    assert_fails(scratch_path(name), IFIG_ERROR_CREATE, "the name is too long");
    ck_assert_int_eq(symlink("ring", scratch_path("ring")), 0);
    assert_fails(scratch_path("ring"), IFIG_ERROR_CREATE, "too many symbolic links");
}
END_TEST

START_TEST(the_end_of_a_long_path_and_the_remedy_fit_into_the_message)
{
    char path[3000];
    memset(path, 'd', sizeof path);
    memcpy(path + sizeof path - 7, "/a.png", 7);
    assert_fails(path, IFIG_ERROR_CREATE, "d/a.png': the name is too long; use a shorter path");
}
END_TEST

START_TEST(a_path_that_is_not_utf_8_is_told_in_utf_8)
{
    assert_fails("no\xff\xc3\xa9\n/a.png", IFIG_ERROR_CREATE, "'no?\xc3\xa9?/a.png'");
}
END_TEST

/* Noise, which does not pack: the file is as long as the pixels, and longer than any buffer. */
static IfigStatus write_noise(const char *path, IfigError *error)
{
    enum { SIDE = 400 };
    static uint8_t noise[SIDE * SIDE * 3];
    uint32_t state = 7;
    for (size_t i = 0; i < sizeof noise; i++) {
        state = state * 1664525U + 1013904223U;
        noise[i] = (uint8_t)(state >> 24);
    }
    IfigPngOptions options = IFIG_PNG_OPTIONS_INIT;
    options.width = SIDE;
    options.height = SIDE;
    IfigPngWriter *writer = NULL;
    IfigStatus status = ifig_png_open(path, &options, &writer, error);
    if (status == IFIG_OK) {
        status = ifig_png_write_rows(writer, noise, SIDE, error);
        const IfigStatus closed = ifig_png_close(writer, error);
        status = status != IFIG_OK ? status : closed;
    }
    return status;
}

START_TEST(a_file_grown_too_large_leaves_the_old_one_and_nothing_else)
{
    static const rlim_t limits[] = {0, 1, 100, 4096, 65536, 70000, 400000};
    scratch_write(scratch_path("a.png"), "old", 3);
    struct rlimit before;
    ck_assert_int_eq(getrlimit(RLIMIT_FSIZE, &before), 0);
    void (*const handler)(int) = signal(SIGXFSZ, SIG_IGN);
    for (size_t i = 0; i < sizeof limits / sizeof limits[0]; i++) {
        IfigError error = IFIG_ERROR_INIT;
        const struct rlimit small = {limits[i], before.rlim_max};
        setrlimit(RLIMIT_FSIZE, &small);
        const IfigStatus status = write_noise(scratch_path("a.png"), &error);
        setrlimit(RLIMIT_FSIZE, &before);
        ck_assert_int_eq(status, IFIG_ERROR_IO);
        assert_said(&error, "the largest size allowed");
        const ScratchBytes file = scratch_read(scratch_path("a.png"));
        ck_assert_str_eq((const char *)file.at, "old");
        free(file.at);
        ck_assert_int_eq(scratch_count(), 1);
    }
    signal(SIGXFSZ, handler);
    ck_assert_int_eq(write_noise(scratch_path("a.png"), NULL), IFIG_OK);
}
END_TEST

START_TEST(a_reader_that_has_gone_is_told)
{
    IfigError error = IFIG_ERROR_INIT;
    char path[32] = "/dev/fd/";
    int ends[2];
    ck_assert_int_eq(pipe(ends), 0);
    close(ends[0]);
    ck_assert_int_lt(ends[1], 100);
    path[8] = (char)('0' + ends[1] / 10);
    path[9] = (char)('0' + ends[1] % 10);
    void (*const handler)(int) = signal(SIGPIPE, SIG_IGN);
    const IfigStatus status = scratch_png(path, NULL, &error);
    signal(SIGPIPE, handler);
    close(ends[1]);
    ck_assert_int_eq(status, IFIG_ERROR_IO);
    assert_said(&error, "its reader has gone");
}
END_TEST

START_TEST(a_write_protected_file_is_spared)
{
    enum { NOBODY = 65534 }; /* root may write anything: the test steps down */
    IfigError error = IFIG_ERROR_INIT;
    const uid_t user = geteuid();
    const char *const path = scratch_path("a.png");
    scratch_write(path, "old", 3);
    ck_assert_int_eq(chmod(path, 0444), 0);
    if (user == 0) {
        ck_assert_int_eq(chown(scratch_path(""), NOBODY, (gid_t)-1), 0);
        ck_assert_int_eq(chown(path, NOBODY, (gid_t)-1), 0);
        ck_assert_int_eq(seteuid(NOBODY), 0);
    }
    const IfigStatus status = scratch_png(path, NULL, &error);
    ck_assert_int_eq(chmod(path, 0644), 0);
    const IfigStatus later = scratch_png(path, NULL, NULL);
    ck_assert_int_eq(seteuid(user), 0);
    ck_assert_int_eq(status, IFIG_ERROR_CREATE);
    assert_said(&error, "no permission; make the file and its folder writable");
    ck_assert_int_eq(later, IFIG_OK);
}
END_TEST

START_TEST(a_failed_writer_keeps_failing_with_the_first_reason)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigPngOptions options = scratch_options();
    options.width = 60000; /* a row alone fills the buffers */
    options.height = 3;
    options.depth = 16;
    uint16_t *const row = calloc(60000U * 3, sizeof *row);
    for (uint32_t i = 0; i < 60000U * 3; i++) {
        row[i] = (uint16_t)(i * i * 2654435761U >> 13);
    }
    IfigPngWriter *writer = NULL;
    ck_assert_int_eq(ifig_png_open("/dev/full", &options, &writer, &error), IFIG_OK);
    ck_assert_int_eq(ifig_png_write_rows(writer, row, 1, &error), IFIG_ERROR_IO);
    IfigError again = IFIG_ERROR_INIT;
    ck_assert_int_eq(ifig_png_write_rows(writer, row, 1, &again), IFIG_ERROR_IO);
    ck_assert_str_eq(again.message, error.message);
    ck_assert_int_eq(ifig_png_close(writer, &again), IFIG_ERROR_IO);
    ck_assert_str_eq(again.message, error.message);
    free(row);
}
END_TEST

TCase *test_trouble_case(void)
{
    TCase *const tests = tcase_create("trouble");
    tcase_add_checked_fixture(tests, scratch_setup, scratch_teardown);
    tcase_add_test(tests, a_full_device_is_told_with_its_name_and_a_remedy);
    tcase_add_test(tests, a_missing_folder_is_told);
    tcase_add_test(tests, a_folder_cannot_be_a_picture);
    tcase_add_test(tests, names_too_long_and_links_in_a_ring_are_told);
    tcase_add_test(tests, the_end_of_a_long_path_and_the_remedy_fit_into_the_message);
    tcase_add_test(tests, a_path_that_is_not_utf_8_is_told_in_utf_8);
    tcase_add_test(tests, a_file_grown_too_large_leaves_the_old_one_and_nothing_else);
    tcase_add_test(tests, a_reader_that_has_gone_is_told);
    tcase_add_test(tests, a_write_protected_file_is_spared);
    tcase_add_test(tests, a_failed_writer_keeps_failing_with_the_first_reason);
    return tests;
}
