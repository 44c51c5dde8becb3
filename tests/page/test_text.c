/* SPDX-License-Identifier: MIT */
/* Text stands where it is measured, in whatever format. */
#include "page_test.h"

static const IfigPoint origin = {10.0, 20.0};

START_TEST(text_has_the_extent_that_the_font_file_gives_it)
{
    /* DejaVu Sans 2.37, table hmtx: H advances 1540 of 2048 units an em (read with another
     * program); 72 pt are 25.4 mm. */
    IfigCanvas *const canvas = open_canvas(IFIG_PAGE_PDF);
    const IfigTextStyle style = ifig_text_style(72.0, IFIG_INK_TEXT);
    const IfigBox box = ifig_canvas_measure(canvas, &style, origin, "HH");
    ck_assert_double_eq_tol(box.width, 2.0 * 25.4 * 1540.0 / 2048.0, 0.01);
    ck_assert_double_eq_tol(box.x, origin.x, 1e-9);
    ck_assert_double_eq_tol(box.y, origin.y, 1e-9);
    ifig_canvas_discard(canvas);
}
END_TEST

START_TEST(lines_break_alike_in_every_format)
{
    static const char words[] = "Turn the stone through a whole circle and count how often it goes "
                                "dark between the crossed polars of the polariscope.";
    IfigTextStyle style = ifig_text_style(7.3, IFIG_INK_TEXT);
    style.wrap_mm = 41.0;
    IfigBox boxes[4];
    for (int format = IFIG_PAGE_PNG; format <= IFIG_PAGE_SVG; format++) {
        IfigCanvas *const canvas = open_canvas((IfigPageFormat)format);
        boxes[format] = ifig_canvas_measure(canvas, &style, origin, words);
        ifig_canvas_discard(canvas);
    }
    ck_assert_double_le(boxes[IFIG_PAGE_PDF].width, style.wrap_mm + 0.01);
    ck_assert_double_gt(boxes[IFIG_PAGE_PDF].height, 3.0 * 7.3 * 25.4 / 72.0);
    ck_assert(memcmp(&boxes[IFIG_PAGE_PNG], &boxes[IFIG_PAGE_PDF], sizeof boxes[0]) == 0);
    ck_assert(memcmp(&boxes[IFIG_PAGE_SVG], &boxes[IFIG_PAGE_PDF], sizeof boxes[0]) == 0);
}
END_TEST

START_TEST(alignment_moves_the_box_by_its_own_size)
{
    IfigCanvas *const canvas = open_canvas(IFIG_PAGE_PDF);
    IfigTextStyle style = ifig_text_style(9.0, IFIG_INK_TEXT);
    const IfigBox left = ifig_canvas_measure(canvas, &style, origin, "melatope");
    style.align = IFIG_ALIGN_RIGHT;
    style.level = IFIG_LEVEL_BOTTOM;
    const IfigBox right = ifig_canvas_measure(canvas, &style, origin, "melatope");
    ck_assert_double_eq_tol(right.x + right.width, left.x, 1e-9);
    ck_assert_double_eq_tol(right.y + right.height, left.y, 1e-9);
    style.align = IFIG_ALIGN_CENTRE;
    style.wrap_mm = 60.0;
    const IfigBox wrapped = ifig_canvas_measure(canvas, &style, origin, "melatope");
    ck_assert_double_eq_tol(wrapped.x + 0.5 * wrapped.width, origin.x, 0.01);
    ck_assert_double_eq_tol(wrapped.width, left.width, 0.01);
    ifig_canvas_discard(canvas);
}
END_TEST

START_TEST(subscripts_and_greek_letters_are_in_the_font)
{
    IfigCanvas *const canvas = open_canvas(IFIG_PAGE_PDF);
    IfigTextStyle style = ifig_text_style(9.0, IFIG_INK_TEXT);
    style.is_markup = 1;
    const IfigBox box = ifig_canvas_text(
        canvas, &style, origin,
        "n<sub>\xce\xb3</sub> \xe2\x88\x92 n<sub>\xce\xb1</sub>, \xcf\x89 \xce\xb5 \xce\xb2");
    ck_assert_int_eq(ifig_canvas_status(canvas), IFIG_OK);
    ck_assert_double_gt(box.width, 10.0);
    ifig_canvas_discard(canvas);
}
END_TEST

static void assert_fails(const IfigTextStyle *style, const char *text, IfigStatus status,
                         const char *words)
{
    IfigCanvas *const canvas = open_canvas(IFIG_PAGE_PDF);
    IfigError error = IFIG_ERROR_INIT;
    ifig_canvas_text(canvas, style, origin, text);
    ck_assert_int_eq(ifig_canvas_close(canvas, &error), status);
    ck_assert_msg(strstr(error.message, words) != NULL, "'%s' lacks '%s'", error.message, words);
}

START_TEST(text_that_cannot_be_set_is_refused_by_name)
{
    IfigTextStyle style = ifig_text_style(9.0, IFIG_INK_TEXT);
    assert_fails(&style, "a \xe7\x9f\xb3", IFIG_ERROR_UNSUITABLE, "fonts-dejavu-core");
    assert_fails(&style, "a \xff", IFIG_ERROR_ARGUMENT, "not UTF-8");
    style.is_markup = 1;
    assert_fails(&style, "a <b>", IFIG_ERROR_SYNTAX, "close every tag");
}
END_TEST

int main(void)
{
    TCase *const facts = tcase_create("text");
    tcase_add_test(facts, text_has_the_extent_that_the_font_file_gives_it);
    tcase_add_test(facts, lines_break_alike_in_every_format);
    tcase_add_test(facts, alignment_moves_the_box_by_its_own_size);
    tcase_add_test(facts, subscripts_and_greek_letters_are_in_the_font);
    tcase_add_test(facts, text_that_cannot_be_set_is_refused_by_name);
    return run_case(facts, "page text");
}
