/* SPDX-License-Identifier: MIT */
/* Small text files, whole or refused. */
#include "scratch.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

enum { LONGEST = 1048576 };

static void assert_reads(const char *path, const char *expected, size_t count)
{
    IfigError error = IFIG_ERROR_INIT;
    char *text = NULL;
    const IfigStatus status = ifig_file_read_text(path, &text, &error);
    ck_assert_msg(status == IFIG_OK, "%s", error.message);
    ck_assert_uint_eq(strlen(text), count);
    ck_assert_mem_eq(text, expected, count);
    ifig_text_free(text);
}

static void assert_refused(const char *path, IfigStatus status, const char *words)
{
    const int descriptors = scratch_descriptors();
    IfigError error = IFIG_ERROR_INIT;
    char *text = (char *)&error;
    ck_assert_int_eq(ifig_file_read_text(path, &text, &error), status);
    ck_assert_ptr_null(text);
    ck_assert_msg(strstr(error.message, words) != NULL, "'%s' lacks '%s'", error.message, words);
    ck_assert_int_eq(scratch_descriptors(), descriptors);
}

START_TEST(a_text_file_is_read_to_its_last_byte)
{
    static const char text[] = "\xef\xbb\xbfname: Tern \xce\xb2\r\nend";
    scratch_write(scratch_path("a"), text, strlen(text));
    assert_reads(scratch_path("a"), text, strlen(text));
    scratch_write(scratch_path("a"), "", 0);
    assert_reads(scratch_path("a"), "", 0);
    assert_reads("/dev/null", "", 0);
}
END_TEST

START_TEST(one_mebibyte_is_read_and_a_byte_more_refused)
{
    char *const text = malloc(LONGEST + 1);
    memset(text, 't', LONGEST + 1);
    scratch_write(scratch_path("a"), text, LONGEST);
    assert_reads(scratch_path("a"), text, LONGEST);
    scratch_write(scratch_path("a"), text, LONGEST + 1);
    assert_refused(scratch_path("a"), IFIG_ERROR_SYNTAX, "longer than 1048576 bytes");
    free(text);
}
END_TEST

START_TEST(a_binary_file_is_refused)
{
    scratch_write(scratch_path("a"), "a\0b", 3);
    assert_refused(scratch_path("a"), IFIG_ERROR_SYNTAX, "a' is a binary file");
    assert_refused("/dev/zero", IFIG_ERROR_SYNTAX, "longer than");
}
END_TEST

START_TEST(a_missing_file_and_a_folder_are_told_apart)
{
    ck_assert_int_eq(mkdir(scratch_path("d"), 0700), 0);
    assert_refused(scratch_path("d"), IFIG_ERROR_IO, "it is a folder; name a file in it");
    assert_refused(scratch_path("e"), IFIG_ERROR_NOT_FOUND, "there is no such file or folder");
    assert_refused("", IFIG_ERROR_NOT_FOUND, "there is no such file or folder");
}
END_TEST

START_TEST(null_pointers_are_refused)
{
    char *text = NULL;
    ck_assert_int_eq(ifig_file_read_text(NULL, &text, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_file_read_text("a", NULL, NULL), IFIG_ERROR_ARGUMENT);
}
END_TEST

TCase *test_text_file_case(void)
{
    TCase *const tests = tcase_create("text file");
    tcase_add_checked_fixture(tests, scratch_setup, scratch_teardown);
    tcase_add_test(tests, a_text_file_is_read_to_its_last_byte);
    tcase_add_test(tests, one_mebibyte_is_read_and_a_byte_more_refused);
    tcase_add_test(tests, a_binary_file_is_refused);
    tcase_add_test(tests, a_missing_file_and_a_folder_are_told_apart);
    tcase_add_test(tests, null_pointers_are_refused);
    return tests;
}
