/* SPDX-License-Identifier: MIT */
/* Opening and closing a sheet, and what is refused. */
#include "page_test.h"

static const IfigSheet plain = {100.0, 80.0, "A sheet of the tests", NULL};

static void assert_refused(const char *path, const IfigPageOptions *options, const IfigSheet *sheet,
                           IfigStatus status, const char *words)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigCanvas *canvas = NULL;
    ck_assert_int_eq(ifig_canvas_open(path, options, sheet, &canvas, &error), status);
    ck_assert_ptr_null(canvas);
    ck_assert_msg(strstr(error.message, words) != NULL, "'%s' lacks '%s'", error.message, words);
}

START_TEST(a_name_without_a_known_ending_is_refused_with_the_remedy)
{
    const IfigPageOptions options = IFIG_PAGE_OPTIONS_INIT;
    assert_refused("sheet.gif", &options, &plain, IFIG_ERROR_ARGUMENT,
                   "end it in .png, .pdf or .svg");
    assert_refused("-", &options, &plain, IFIG_ERROR_ARGUMENT, "end it in .png, .pdf or .svg");
    assert_refused("", &options, &plain, IFIG_ERROR_ARGUMENT, "empty path");
}
END_TEST

START_TEST(sizes_and_resolutions_beyond_reason_are_refused)
{
    IfigPageOptions options = IFIG_PAGE_OPTIONS_INIT;
    assert_refused("a.pdf", &options, &(IfigSheet){4.0, 80.0, "", NULL}, IFIG_ERROR_RANGE, "5");
    assert_refused("a.pdf", &options, &(IfigSheet){NAN, 80.0, "", NULL}, IFIG_ERROR_RANGE, "width");
    options.dpi = 1200.0;
    assert_refused("a.png", &options, &(IfigSheet){900.0, 80.0, "", NULL}, IFIG_ERROR_RANGE,
                   "lower the resolution");
    options.dpi = 20.0;
    assert_refused("a.pdf", &options, &plain, IFIG_ERROR_RANGE, "dpi");
    options.size = 1;
    assert_refused("a.pdf", &options, &plain, IFIG_ERROR_ARGUMENT, "IFIG_PAGE_OPTIONS_INIT");
}
END_TEST

START_TEST(a_canvas_keeps_its_first_failure_and_tells_it_when_closed)
{
    IfigCanvas *const canvas = open_canvas(IFIG_PAGE_PDF);
    IfigError own = {IFIG_ERROR_UNSUITABLE, "the first"}, error = IFIG_ERROR_INIT;
    ifig_canvas_fail(canvas, &own);
    own.message[4] = 'x';
    ifig_canvas_fail(canvas, &own);
    ifig_canvas_new_page(canvas);
    ck_assert_int_eq(ifig_canvas_close(canvas, &error), IFIG_ERROR_UNSUITABLE);
    ck_assert_str_eq(error.message, "the first");
}
END_TEST

START_TEST(a_png_of_two_pages_does_not_fit_into_standard_output)
{
    IfigPageOptions options = IFIG_PAGE_OPTIONS_INIT;
    IfigCanvas *canvas = NULL;
    options.format = IFIG_PAGE_SVG;
    ck_assert_int_eq(ifig_canvas_open("/dev/stdout", &options, &plain, &canvas, NULL), IFIG_OK);
    ifig_canvas_new_page(canvas);
    ck_assert_int_eq(ifig_canvas_status(canvas), IFIG_ERROR_UNSUITABLE);
    ifig_canvas_discard(canvas);
}
END_TEST

START_TEST(a_length_has_as_many_pixels_as_the_device_puts_on_it)
{
    IfigCanvas *const canvas = open_canvas(IFIG_PAGE_PDF);
    ck_assert_uint_eq(ifig_canvas_pixels(canvas, 25.4), 200); /* the options' 200 dpi */
    ck_assert_uint_eq(ifig_canvas_pixels(canvas, 50.0), 394); /* 393.7 */
    ifig_canvas_discard(canvas);
}
END_TEST

int main(void)
{
    TCase *const facts = tcase_create("canvas");
    tcase_add_test(facts, a_name_without_a_known_ending_is_refused_with_the_remedy);
    tcase_add_test(facts, sizes_and_resolutions_beyond_reason_are_refused);
    tcase_add_test(facts, a_canvas_keeps_its_first_failure_and_tells_it_when_closed);
    tcase_add_test(facts, a_png_of_two_pages_does_not_fit_into_standard_output);
    tcase_add_test(facts, a_length_has_as_many_pixels_as_the_device_puts_on_it);
    return run_case(facts, "page canvas");
}
