/* SPDX-License-Identifier: MIT */
/* Numbers as text. With the name of a comma locale as argument, everything runs in that locale. */
#include <float.h>
#include <locale.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "base_test.h"

static const char *text_of(double value, int digits)
{
    static _Thread_local IfigNumberText text;
    text = ifig_number_text(value, digits);
    return text.text;
}

START_TEST(numbers_are_written_with_a_point)
{
    ck_assert_str_eq(text_of(1.544, 9), "1.544");
    ck_assert_str_eq(text_of(-0.25, 9), "-0.25");
    ck_assert_str_eq(text_of(1e-7, 9), "1e-07");
    ck_assert_str_eq(text_of(1234567.0, 9), "1234567");
    ck_assert_str_eq(text_of(2.0 / 3.0, 3), "0.667");
}
END_TEST

START_TEST(minus_zero_is_written_as_zero)
{
    ck_assert_str_eq(text_of(-0.0, 9), "0");
}
END_TEST

START_TEST(what_is_no_number_is_written_as_a_word)
{
    ck_assert_str_eq(text_of(NAN, 9), "nan");
    ck_assert_str_eq(text_of(-NAN, 9), "nan");
    ck_assert_str_eq(text_of(INFINITY, 9), "inf");
    ck_assert_str_eq(text_of(-INFINITY, 9), "-inf");
}
END_TEST

START_TEST(digits_out_of_range_give_all_seventeen)
{
    ck_assert_str_eq(text_of(0.1, 0), "0.10000000000000001");
    ck_assert_str_eq(text_of(0.1, 99), "0.10000000000000001");
}
END_TEST

START_TEST(decimal_numbers_are_read)
{
    static const struct {
        const char *text;
        double value;
    } cases[] = {{"0", 0.0},   {"1.5", 1.5},      {"-2.25", -2.25},      {"+3", 3.0},
                 {".5", 0.5},  {"5.", 5.0},       {"1e3", 1000.0},       {"1E-2", 0.01},
                 {"007", 7.0}, {"1.0e+2", 100.0}, {"4.9e-324", 4.9e-324}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        double value = -1.0;
        ck_assert_msg(ifig_number_read(cases[i].text, &value), "%s", cases[i].text);
        ck_assert_double_eq(value, cases[i].value);
    }
}
END_TEST

START_TEST(anything_else_is_refused_and_the_value_left_alone)
{
    static const char *const cases[] = {
        "",         " ",   "1,5", "1.5,",     " 1",   "1 ",     "1.5mm",  "0x10",
        "0x1p3",    "nan", "NaN", "inf",      "-inf", "1e999",  "-1e999", "1e",
        "e5",       "--1", "+-1", ".",        "-",    "1.2.3",  "1_000",  "1'000",
        "\xd9\xa1", "1\n", "\t1", "infinity", "1e+",  "1.5e1.5"};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        double value = 7.0;
        ck_assert_msg(!ifig_number_read(cases[i], &value), "'%s' was read", cases[i]);
        ck_assert_double_eq(value, 7.0);
    }
}
END_TEST

START_TEST(a_million_digits_are_refused)
{
    enum { DIGITS = 1000000 };
    char *text = malloc(DIGITS + 1);
    ck_assert_ptr_nonnull(text);
    memset(text, '1', DIGITS);
    text[DIGITS] = '\0';
    double value = 7.0;
    ck_assert(!ifig_number_read(text, &value));
    free(text);
}
END_TEST

START_TEST(seventeen_digits_bring_every_double_back)
{
    uint64_t bits = 88172645463325252u; /* xorshift64, Marsaglia, J. Stat. Softw. 8(14) (2003) */
    for (int i = 0; i < 20000; i++) {
        bits ^= bits << 13;
        bits ^= bits >> 7;
        bits ^= bits << 17;
        double value, back = 0.0;
        memcpy(&value, &bits, sizeof value);
        if (isfinite(value)) {
            ck_assert(ifig_number_read(text_of(value, 17), &back));
            ck_assert_double_eq(value, back);
        }
    }
}
END_TEST

START_TEST(the_callers_locale_stays_as_it_was)
{
    char before[32], after[32];
    double value;
    snprintf(before, sizeof before, "%.1f", 1.5);
    (void)ifig_number_text(2.5, 5);
    (void)ifig_number_read("2.5", &value);
    snprintf(after, sizeof after, "%.1f", 1.5);
    ck_assert_str_eq(before, after);
}
END_TEST

START_TEST(a_threads_own_locale_stays_as_it_was)
{
    locale_t own = newlocale(LC_ALL_MASK, "C", (locale_t)0);
    ck_assert(own != (locale_t)0);
    locale_t before = uselocale(own);
    (void)ifig_number_text(2.5, 5);
    ck_assert(uselocale((locale_t)0) == own);
    uselocale(before);
    freelocale(own);
}
END_TEST

int main(int argc, char **argv)
{
    enum { SKIPPED = 77 };
    if (argc > 1) {
        if (setlocale(LC_ALL, argv[1]) == NULL || strcmp(localeconv()->decimal_point, ",") != 0) {
            fprintf(stderr, "the comma locale %s is not installed: nothing was tested\n", argv[1]);
            return SKIPPED;
        }
    }
    TCase *facts = tcase_create("numbers");
    tcase_add_test(facts, numbers_are_written_with_a_point);
    tcase_add_test(facts, minus_zero_is_written_as_zero);
    tcase_add_test(facts, what_is_no_number_is_written_as_a_word);
    tcase_add_test(facts, digits_out_of_range_give_all_seventeen);
    tcase_add_test(facts, decimal_numbers_are_read);
    tcase_add_test(facts, anything_else_is_refused_and_the_value_left_alone);
    tcase_add_test(facts, a_million_digits_are_refused);
    tcase_add_test(facts, seventeen_digits_bring_every_double_back);
    tcase_add_test(facts, the_callers_locale_stays_as_it_was);
    tcase_add_test(facts, a_threads_own_locale_stays_as_it_was);
    return run_case(facts, "number_text");
}
