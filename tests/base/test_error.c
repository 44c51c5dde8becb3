/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "base_test.h"

static size_t utf8_count(const char *text)
{
    size_t count = 0;
    unsigned long code_point;
    for (size_t length; *text != '\0'; text += length, count++) {
        length = ifig_utf8_read(text, &code_point);
        ck_assert_uint_gt(length, 0);
    }
    return count;
}

START_TEST(the_status_comes_back_with_and_without_an_error_object)
{
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_int_eq(ifig_fail(&error, IFIG_ERROR_RANGE, "too %s", "long"), IFIG_ERROR_RANGE);
    ck_assert_int_eq(error.status, IFIG_ERROR_RANGE);
    ck_assert_str_eq(error.message, "too long");
    ck_assert_int_eq(ifig_fail(NULL, IFIG_ERROR_IO, "nobody listens"), IFIG_ERROR_IO);
}
END_TEST

START_TEST(control_characters_become_question_marks)
{
    IfigError error = IFIG_ERROR_INIT;
    ifig_fail(&error, IFIG_ERROR_ARGUMENT, "a%sb", "\n\r\x1b[31m\x7f");
    ck_assert_str_eq(error.message, "a???[31m?b");
}
END_TEST

START_TEST(bytes_that_are_not_utf8_become_question_marks)
{
    IfigError error = IFIG_ERROR_INIT;
    ifig_fail(&error, IFIG_ERROR_ARGUMENT, "%s",
              "\xff\xfe \xc3 \xe2\x82 \xed\xa0\x80 \xc0\x80 p\xc3\xa9");
    ck_assert_str_eq(error.message, "?? ? ?? ??? ?? p\xc3\xa9");
    ifig_fail(&error, IFIG_ERROR_ARGUMENT, "%s",
              "\xc2\x9b"
              "31m"); /* CSI of ISO 6429 */
    ck_assert_str_eq(error.message, "??31m");
}
END_TEST

START_TEST(a_long_message_is_cut_to_whole_characters)
{
    enum { LETTERS = 600 };
    char word[2 * LETTERS + 1];
    for (size_t i = 0; i < LETTERS; i++) {
        memcpy(word + 2 * i, "\xc3\xa9", 3);
    }
    IfigError error = IFIG_ERROR_INIT;
    ifig_fail(&error, IFIG_ERROR_ARGUMENT, "%s", word);
    ck_assert_uint_eq(strlen(error.message), sizeof error.message - 1);
    ck_assert_uint_eq(utf8_count(error.message), 384);
}
END_TEST

START_TEST(values_outside_a_range_are_refused_with_range_and_unit)
{
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_int_eq(ifig_check_range("the tilt", 91.5, 0, 90, "degrees", &error),
                     IFIG_ERROR_RANGE);
    ck_assert_str_eq(error.message, "the tilt is 91.5; it must lie between 0 and 90 degrees");
    ck_assert_int_eq(ifig_check_range("n", NAN, 1, 5, "", &error), IFIG_ERROR_RANGE);
    ck_assert_str_eq(error.message, "n is nan; it must lie between 1 and 5");
    ck_assert_int_eq(ifig_check_range("n", INFINITY, 1, INFINITY, "", &error), IFIG_ERROR_RANGE);
    ck_assert_int_eq(ifig_check_range("n", nextafter(5, 6), 1, 5, "", &error), IFIG_ERROR_RANGE);
}
END_TEST

START_TEST(both_ends_of_a_range_belong_to_it)
{
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_int_eq(ifig_check_range("n", 1, 1, 5, "", &error), IFIG_OK);
    ck_assert_int_eq(ifig_check_range("n", 5, 1, 5, "", &error), IFIG_OK);
    ck_assert_int_eq(error.status, IFIG_OK);
    ck_assert_str_eq(error.message, "");
}
END_TEST

START_TEST(the_version_is_three_numbers)
{
    ck_assert_uint_eq(strspn(ifig_version(), "0123456789."), strlen(ifig_version()));
    const char *point = strchr(ifig_version(), '.');
    ck_assert_ptr_nonnull(point);
    ck_assert_ptr_nonnull(strchr(point + 1, '.'));
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("errors");
    tcase_add_test(facts, the_status_comes_back_with_and_without_an_error_object);
    tcase_add_test(facts, control_characters_become_question_marks);
    tcase_add_test(facts, bytes_that_are_not_utf8_become_question_marks);
    tcase_add_test(facts, a_long_message_is_cut_to_whole_characters);
    tcase_add_test(facts, values_outside_a_range_are_refused_with_range_and_unit);
    tcase_add_test(facts, both_ends_of_a_range_belong_to_it);
    tcase_add_test(facts, the_version_is_three_numbers);
    return run_case(facts, "error");
}
