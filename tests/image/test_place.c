/* SPDX-License-Identifier: MIT */
/* A file appears whole or not at all, and in the place of what it replaces. */
#include "scratch.h"

#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static const char old_text[] = "the old file";

static void write_old(const char *name)
{
    scratch_write(scratch_path(name), old_text, strlen(old_text));
}

static void assert_old(const char *name)
{
    const ScratchBytes file = scratch_read(scratch_path(name));
    ck_assert_str_eq((const char *)file.at, old_text);
    free(file.at);
}

static void assert_png(const char *name)
{
    const ScratchBytes file = scratch_read(scratch_path(name));
    ck_assert_uint_gt(file.count, 57);
    ck_assert_mem_eq(file.at, "\x89PNG", 4);
    ck_assert_mem_eq(file.at + file.count - 8, "IEND", 4);
    free(file.at);
}

static mode_t mode_of(const char *path)
{
    struct stat now;
    ck_assert_int_eq(stat(path, &now), 0);
    return now.st_mode & 07777;
}

static IfigPngWriter *begin_png(const char *path, const IfigPngOptions *options)
{
    const IfigPngOptions plain = scratch_options();
    IfigPngWriter *writer = NULL;
    ck_assert_int_eq(ifig_png_open(path, options != NULL ? options : &plain, &writer, NULL),
                     IFIG_OK);
    ck_assert_int_eq(ifig_png_write_rows(writer, scratch_pixels, SCRATCH_HEIGHT, NULL), IFIG_OK);
    return writer;
}

START_TEST(a_file_appears_only_when_it_is_closed)
{
    IfigPngWriter *const writer = begin_png(scratch_path("a.png"), NULL);
    ck_assert_int_ne(access(scratch_path("a.png"), F_OK), 0);
    ck_assert_int_eq(access(ifig_png_temporary_path(writer), F_OK), 0);
    ck_assert_int_eq(scratch_count(), 1);
    ck_assert_int_eq(ifig_png_close(writer, NULL), IFIG_OK);
    assert_png("a.png");
    ck_assert_int_eq(scratch_count(), 1);
}
END_TEST

START_TEST(a_discarded_file_leaves_the_old_one_and_nothing_else)
{
    const int descriptors = scratch_descriptors();
    write_old("a.png");
    ifig_png_discard(begin_png(scratch_path("a.png"), NULL));
    assert_old("a.png");
    ck_assert_int_eq(scratch_count(), 1);
    ck_assert_int_eq(scratch_descriptors(), descriptors);
}
END_TEST

START_TEST(a_file_is_replaced_in_one_step_and_no_descriptor_stays_open)
{
    const int descriptors = scratch_descriptors();
    write_old("a.png");
    IfigPngWriter *const writer = begin_png(scratch_path("a.png"), NULL);
    assert_old("a.png");
    ck_assert_int_eq(ifig_png_close(writer, NULL), IFIG_OK);
    assert_png("a.png");
    ck_assert_int_eq(scratch_count(), 1);
    ck_assert_int_eq(scratch_descriptors(), descriptors);
}
END_TEST

START_TEST(a_symbolic_link_is_kept_and_its_file_replaced)
{
    struct stat now;
    write_old("real.png");
    ck_assert_int_eq(symlink("real.png", scratch_path("link.png")), 0);
    ck_assert_int_eq(scratch_png(scratch_path("link.png"), NULL, NULL), IFIG_OK);
    ck_assert_int_eq(lstat(scratch_path("link.png"), &now), 0);
    ck_assert(S_ISLNK(now.st_mode));
    ck_assert_int_eq(lstat(scratch_path("real.png"), &now), 0);
    ck_assert(S_ISREG(now.st_mode));
    assert_png("real.png");
}
END_TEST

START_TEST(a_symbolic_link_to_nowhere_is_refused)
{
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_int_eq(symlink("gone/real.png", scratch_path("link.png")), 0);
    ck_assert_int_eq(scratch_png(scratch_path("link.png"), NULL, &error), IFIG_ERROR_CREATE);
    ck_assert_ptr_nonnull(strstr(error.message, "leads nowhere"));
    ck_assert_int_eq(scratch_count(), 1);
}
END_TEST

START_TEST(a_replaced_file_hands_on_its_mode)
{
    static const mode_t modes[] = {0600, 0640, 0666, 0755};
    for (size_t i = 0; i < sizeof modes / sizeof modes[0]; i++) {
        write_old("a.png");
        ck_assert_int_eq(chmod(scratch_path("a.png"), modes[i]), 0);
        IfigPngWriter *const writer = begin_png(scratch_path("a.png"), NULL);
        ck_assert_uint_eq(mode_of(ifig_png_temporary_path(writer)), modes[i]);
        ck_assert_int_eq(ifig_png_close(writer, NULL), IFIG_OK);
        ck_assert_uint_eq(mode_of(scratch_path("a.png")), modes[i]);
        unlink(scratch_path("a.png"));
    }
}
END_TEST

START_TEST(a_new_file_obeys_the_umask)
{
    const mode_t before = umask(027);
    ck_assert_int_eq(scratch_png(scratch_path("a.png"), NULL, NULL), IFIG_OK);
    umask(before);
    ck_assert_uint_eq(mode_of(scratch_path("a.png")), 0640);
}
END_TEST

START_TEST(an_existing_file_can_be_protected)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigPngOptions options = scratch_options();
    options.keep_existing = 1;
    write_old("a.png");
    ck_assert_int_eq(scratch_png(scratch_path("a.png"), &options, &error), IFIG_ERROR_CREATE);
    ck_assert_ptr_nonnull(strstr(error.message, "a.png': it exists already; "));
    assert_old("a.png");
    ck_assert_int_eq(scratch_png(scratch_path("b.png"), &options, NULL), IFIG_OK);
    assert_png("b.png");
    ck_assert_int_eq(scratch_count(), 2);
}
END_TEST

START_TEST(a_file_that_comes_into_being_meanwhile_is_protected_too)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigPngOptions options = scratch_options();
    options.keep_existing = 1;
    IfigPngWriter *const writer = begin_png(scratch_path("a.png"), &options);
    write_old("a.png");
    ck_assert_int_eq(ifig_png_close(writer, &error), IFIG_ERROR_CREATE);
    ck_assert_ptr_nonnull(strstr(error.message, "it exists already"));
    assert_old("a.png");
    ck_assert_int_eq(scratch_count(), 1);
}
END_TEST

START_TEST(a_pipe_is_written_in_place)
{
    unsigned char bytes[4096];
    const char *const path = scratch_path("pipe");
    struct stat now;
    ck_assert_int_eq(mkfifo(path, 0600), 0);
    const int reader = open(path, O_RDONLY | O_NONBLOCK);
    IfigPngWriter *const writer = begin_png(path, NULL);
    ck_assert_ptr_null(ifig_png_temporary_path(writer));
    ck_assert_int_eq(ifig_png_close(writer, NULL), IFIG_OK);
    const ssize_t count = read(reader, bytes, sizeof bytes);
    close(reader);
    ck_assert_int_gt(count, 57);
    ck_assert_mem_eq(bytes + count - 8, "IEND", 4);
    ck_assert_int_eq(stat(path, &now), 0);
    ck_assert(S_ISFIFO(now.st_mode));
}
END_TEST

/* What stands in a file that was standard output, opened for appending, while a PNG was written. */
static void assert_appended(const char *path)
{
    IfigError error = IFIG_ERROR_INIT;
    write_old("out");
    const int saved = dup(STDOUT_FILENO);
    const int out = open(scratch_path("out"), O_WRONLY | O_APPEND);
    dup2(out, STDOUT_FILENO);
    const IfigStatus status = scratch_png(path, NULL, &error);
    dup2(saved, STDOUT_FILENO);
    close(saved);
    close(out);
    ck_assert_msg(status == IFIG_OK, "%s: %s", path, error.message);
    const ScratchBytes file = scratch_read(scratch_path("out"));
    ck_assert_mem_eq(file.at, old_text, strlen(old_text));
    ck_assert_mem_eq(file.at + strlen(old_text), "\x89PNG", 4);
    ck_assert_mem_eq(file.at + file.count - 8, "IEND", 4);
    free(file.at);
    ck_assert_int_eq(scratch_count(), 1);
}

START_TEST(standard_output_is_appended_to_under_all_its_names)
{
    assert_appended("-");
    assert_appended("/dev/stdout");
    assert_appended("/dev/fd/1");
    assert_appended("/proc/self/fd/1");
}
END_TEST

START_TEST(a_file_never_takes_the_number_of_a_closed_standard_stream)
{
    const int saved = dup(STDOUT_FILENO);
    close(STDOUT_FILENO);
    IfigPngWriter *const writer = begin_png(scratch_path("a.png"), NULL);
    const int is_taken = fcntl(STDOUT_FILENO, F_GETFD) >= 0;
    const IfigStatus status = ifig_png_close(writer, NULL);
    const IfigStatus closed = scratch_png("-", NULL, NULL);
    dup2(saved, STDOUT_FILENO);
    close(saved);
    ck_assert(!is_taken);
    ck_assert_int_eq(status, IFIG_OK);
    ck_assert_int_eq(closed, IFIG_ERROR_CREATE);
}
END_TEST

START_TEST(a_change_of_folder_while_writing_does_no_harm)
{
    char before[4096];
    ck_assert_ptr_nonnull(getcwd(before, sizeof before));
    ck_assert_int_eq(chdir(scratch_path("")), 0);
    IfigPngWriter *const writer = begin_png("a.png", NULL);
    ck_assert_int_eq(chdir("/"), 0);
    ck_assert_int_eq(ifig_png_temporary_path(writer)[0], '/');
    const IfigStatus status = ifig_png_close(writer, NULL);
    ck_assert_int_eq(chdir(before), 0);
    ck_assert_int_eq(status, IFIG_OK);
    assert_png("a.png");
}
END_TEST

START_TEST(the_longest_name_a_folder_can_hold_is_written)
{
    char name[256];
    memset(name, 'n', 255); /* NAME_MAX of Linux */
    name[255] = '\0';
    ck_assert_int_eq(scratch_png(scratch_path(name), NULL, NULL), IFIG_OK);
    assert_png(name);
}
END_TEST

TCase *test_place_case(void)
{
    TCase *const tests = tcase_create("place");
    tcase_add_checked_fixture(tests, scratch_setup, scratch_teardown);
    tcase_add_test(tests, a_file_appears_only_when_it_is_closed);
    tcase_add_test(tests, a_discarded_file_leaves_the_old_one_and_nothing_else);
    tcase_add_test(tests, a_file_is_replaced_in_one_step_and_no_descriptor_stays_open);
    tcase_add_test(tests, a_symbolic_link_is_kept_and_its_file_replaced);
    tcase_add_test(tests, a_symbolic_link_to_nowhere_is_refused);
    tcase_add_test(tests, a_replaced_file_hands_on_its_mode);
    tcase_add_test(tests, a_new_file_obeys_the_umask);
    tcase_add_test(tests, an_existing_file_can_be_protected);
    tcase_add_test(tests, a_file_that_comes_into_being_meanwhile_is_protected_too);
    tcase_add_test(tests, a_pipe_is_written_in_place);
    tcase_add_test(tests, standard_output_is_appended_to_under_all_its_names);
    tcase_add_test(tests, a_file_never_takes_the_number_of_a_closed_standard_stream);
    tcase_add_test(tests, a_change_of_folder_while_writing_does_no_harm);
    tcase_add_test(tests, the_longest_name_a_folder_can_hold_is_written);
    return tests;
}
