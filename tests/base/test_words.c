/* SPDX-License-Identifier: MIT */
#include <stdint.h>
#include <string.h>

#include "base_test.h"

START_TEST(utf8_is_read_as_rfc_3629_defines_it)
{
    static const struct {
        const char *text;
        size_t length;
        unsigned long code_point;
    } cases[] = {
        {"a", 1, 'a'},
        {"\x7f", 1, 0x7f},
        {"\xc2\x80", 2, 0x80},
        {"\xdf\xbf", 2, 0x7ff},
        {"\xe0\xa0\x80", 3, 0x800},
        {"\xef\xbf\xbf", 3, 0xffff},
        {"\xf0\x90\x80\x80", 4, 0x10000},
        {"\xf4\x8f\xbf\xbf", 4, 0x10ffff},
        {"", 0, 0},
        {"\x80", 0, 0},             /* a continuation alone */
        {"\xc1\xbf", 0, 0},         /* overlong */
        {"\xe0\x9f\xbf", 0, 0},     /* overlong */
        {"\xf0\x8f\xbf\xbf", 0, 0}, /* overlong */
        {"\xed\xa0\x80", 0, 0},     /* surrogate */
        {"\xf4\x90\x80\x80", 0, 0}, /* beyond U+10FFFF */
        {"\xf8\x88\x80\x80\x80", 0, 0},
        {"\xe2\x82", 0, 0}, /* cut */
        {"\xff", 0, 0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        unsigned long code_point = 0;
        ck_assert_uint_eq(ifig_utf8_read(cases[i].text, &code_point), cases[i].length);
        ck_assert_uint_eq(code_point, cases[i].code_point);
    }
}
END_TEST

START_TEST(a_short_word_is_shown_whole)
{
    ck_assert_str_eq(ifig_word_text("p\xc3\xa9ridot").text, "p\xc3\xa9ridot");
    ck_assert_str_eq(ifig_word_text("").text, "");
    ck_assert_str_eq(
        ifig_word_text("123456789 123456789 123456789 123456789 123456789 123456789 ").text,
        "123456789 123456789 123456789 123456789 123456789 123456789 ");
}
END_TEST

START_TEST(a_long_word_is_cut_between_characters)
{
    ck_assert_str_eq(
        ifig_word_text("123456789 123456789 123456789 123456789 123456789 123456789x").text,
        "123456789 123456789 123456789 123456789 123456789 123456789x");
    ck_assert_str_eq(
        ifig_word_text("123456789 123456789 123456789 123456789 123456789 123456789\xc3\xa9").text,
        "123456789 123456789 123456789 123456789 123456789 123456789...");
}
END_TEST

START_TEST(what_does_not_print_is_shown_as_question_marks)
{
    ck_assert_str_eq(ifig_word_text("a\x1b[2Jb\xff\n").text, "a?[2Jb??");
    ck_assert_str_eq(ifig_word_text("\xe2\x80\xae"
                                    "evil")
                         .text,
                     "?evil"); /* U+202E */
}
END_TEST

START_TEST(distances_between_words_count_slips)
{
    static const struct {
        const char *word, *other;
        size_t distance;
    } cases[] = {
        {"quartz", "quartz", 0},  {"quarz", "quartz", 1},
        {"quartzz", "quartz", 1}, {"quatrz", "quartz", 1},
        {"kuartz", "quartz", 1},  {"", "abc", 3},
        {"abc", "", 3},           {"", "", 0},
        {"ca", "abc", 3}, /* full Damerau: 2 */
        {"kitten", "sitting", 3},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        ck_assert_uint_eq(ifig_edit_distance(cases[i].word, cases[i].other), cases[i].distance);
        ck_assert_uint_eq(ifig_edit_distance(cases[i].other, cases[i].word), cases[i].distance);
    }
}
END_TEST

START_TEST(words_of_more_than_255_bytes_are_infinitely_far)
{
    char word[257];
    memset(word, 'a', 256);
    word[256] = '\0';
    ck_assert_uint_eq(ifig_edit_distance(word, word), SIZE_MAX);
    ck_assert_uint_eq(ifig_edit_distance("a", word), SIZE_MAX);
    word[255] = '\0';
    ck_assert_uint_eq(ifig_edit_distance(word, word), 0);
    ck_assert_uint_eq(ifig_edit_distance(word, ""), 255);
}
END_TEST

START_TEST(what_moves_or_hides_other_text_does_not_print)
{
    /* Unicode 15, chapter 23: separators, directions and the code points that are no characters. */
    static const unsigned long hidden[] = {0x00,   0x1f,   0x7f,   0x9f,    0x2028,  0x2029,
                                           0x202a, 0x202e, 0x2066, 0x2069,  0xfeff,  0xfffe,
                                           0xffff, 0xfdd0, 0xfdef, 0x1fffe, 0x10ffff};
    static const unsigned long shown[] = {0x20,   0x7e,   0xa0,   0x2027, 0x2030,  0x2065,
                                          0x206a, 0xfdcf, 0xfdf0, 0xfffd, 0x1fffd, 0x10000};
    for (size_t i = 0; i < sizeof hidden / sizeof *hidden; i++) {
        ck_assert_msg(!ifig_is_printable(hidden[i]), "U+%04lX prints", hidden[i]);
    }
    for (size_t i = 0; i < sizeof shown / sizeof *shown; i++) {
        ck_assert_msg(ifig_is_printable(shown[i]), "U+%04lX does not print", shown[i]);
    }
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("words");
    tcase_add_test(facts, utf8_is_read_as_rfc_3629_defines_it);
    tcase_add_test(facts, a_short_word_is_shown_whole);
    tcase_add_test(facts, a_long_word_is_cut_between_characters);
    tcase_add_test(facts, what_does_not_print_is_shown_as_question_marks);
    tcase_add_test(facts, distances_between_words_count_slips);
    tcase_add_test(facts, words_of_more_than_255_bytes_are_infinitely_far);
    tcase_add_test(facts, what_moves_or_hides_other_text_does_not_print);
    return run_case(facts, "words");
}
