/* SPDX-License-Identifier: MIT */
/* Words put into a room that may be too small. */
#include "base_test.h"

#include <string.h>

START_TEST(words_and_values_stand_one_after_another)
{
    char text[64];
    const char *values[] = {"one", "two"};
    IfigPage page = ifig_page(text, sizeof text);
    ck_assert_str_eq(text, "");
    ifig_page_put(&page, "a, ");
    ifig_page_fill(&page, "{2} before {1}{1}.", values);
    ifig_page_fill(&page, " None.", NULL);
    ck_assert_str_eq(text, "a, two before oneone. None.");
    ck_assert_uint_eq(page.used, strlen(text));
    ck_assert_int_eq(ifig_page_end(&page, "test", NULL), IFIG_OK);
    ck_assert_str_eq(text, "a, two before oneone. None.");
}
END_TEST

START_TEST(a_room_too_small_holds_nothing_and_the_need_is_told)
{
    char text[5] = "abcd";
    IfigError error = IFIG_ERROR_INIT;
    IfigPage page = ifig_page(text, 4);
    ifig_page_put(&page, "123");
    ck_assert_int_eq(ifig_page_end(&page, "test", &error), IFIG_OK);
    ifig_page_put(&page, "4");
    ck_assert_str_eq(text, "123");
    ck_assert_int_eq(ifig_page_end(&page, "test", &error), IFIG_ERROR_RANGE);
    ck_assert_str_eq(text, "");
    ck_assert_str_eq(error.message,
                     "test: the words take 5 bytes and have room for 4; 4096 always suffice");
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("page");
    tcase_add_test(facts, words_and_values_stand_one_after_another);
    tcase_add_test(facts, a_room_too_small_holds_nothing_and_the_need_is_told);
    return run_case(facts, "base page");
}
