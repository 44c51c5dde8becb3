/* SPDX-License-Identifier: MIT */
/* What the plates refuse, in which words, and that nothing is written then. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "../run_case.h"
#include "interfig/page.h"
#include "leaks.h"

static char path[256], folder[128];

static void setup(void)
{
    snprintf(folder, sizeof folder, "%s/page-test-XXXXXX", P_tmpdir);
    ck_assert_ptr_nonnull(mkdtemp(folder));
    snprintf(path, sizeof path, "%s/plate.pdf", folder);
}

static void teardown(void)
{
    unlink(path);
    ck_assert_int_eq(rmdir(folder), 0); /* fails where something else was left */
}

static IfigPageWords titled(void)
{
    IfigPageWords words = IFIG_PAGE_WORDS_INIT;
    words.title = "A plate of the tests";
    return words;
}

static void assert_said(IfigStatus status, IfigStatus wanted, const IfigError *error,
                        const char *said)
{
    ck_assert_int_eq(status, wanted);
    ck_assert_int_eq(error->status, wanted);
    ck_assert_msg(strstr(error->message, said) != NULL, "'%s' lacks '%s'", error->message, said);
    ck_assert_int_ne(access(path, F_OK), 0);
}

START_TEST(a_blink_without_numbers_is_refused)
{
    const IfigPageOptions options = IFIG_PAGE_OPTIONS_INIT;
    const IfigPageWords words = titled();
    IfigBlink blink = IFIG_BLINK_INIT;
    IfigError error = IFIG_ERROR_INIT;
    blink.brightness[7] = NAN;
    assert_said(ifig_page_blink(path, &options, &blink, &words, &error), IFIG_ERROR_RANGE, &error,
                "a brightness");
    blink.brightness[7] = 0.0;
    blink.opened[90] = -1.0;
    assert_said(ifig_page_blink(path, &options, &blink, &words, &error), IFIG_ERROR_RANGE, &error,
                "opened analyser");
    blink.size = 8;
    assert_said(ifig_page_blink(path, &options, &blink, &words, &error), IFIG_ERROR_ARGUMENT,
                &error, "IFIG_BLINK_INIT");
    assert_said(ifig_page_blink(path, &options, NULL, &words, &error), IFIG_ERROR_ARGUMENT, &error,
                "null pointer");
}
END_TEST

START_TEST(a_plate_needs_a_title_and_options_of_this_version)
{
    IfigPageOptions options = IFIG_PAGE_OPTIONS_INIT;
    IfigPageWords words = titled();
    const IfigBlink blink = IFIG_BLINK_INIT;
    IfigError error = IFIG_ERROR_INIT;
    options.size = 8;
    assert_said(ifig_page_blink(path, &options, &blink, &words, &error), IFIG_ERROR_ARGUMENT,
                &error, "IFIG_PAGE_OPTIONS_INIT");
    options.size = sizeof options;
    words.title = NULL;
    assert_said(ifig_page_blink(path, &options, &blink, &words, &error), IFIG_ERROR_ARGUMENT,
                &error, "words with a title");
    words = titled();
    words.size = 8;
    assert_said(ifig_page_blink(path, &options, &blink, &words, &error), IFIG_ERROR_ARGUMENT,
                &error, "IFIG_PAGE_WORDS_INIT");
    words = titled();
    words.caption = "\xe7\x9f\xb3";
    assert_said(ifig_page_blink(path, &options, &blink, &words, &error), IFIG_ERROR_UNSUITABLE,
                &error, "fonts-dejavu-core");
}
END_TEST

START_TEST(a_stone_that_stays_dark_still_makes_a_plate)
{
    const IfigPageOptions options = IFIG_PAGE_OPTIONS_INIT;
    const IfigPageWords words = titled();
    const IfigBlink blink = IFIG_BLINK_INIT;
    ck_assert_int_eq(ifig_page_blink(path, &options, &blink, &words, NULL), IFIG_OK);
    ck_assert_int_eq(access(path, R_OK), 0);
}
END_TEST

START_TEST(an_existing_plate_can_be_protected)
{
    IfigPageOptions options = IFIG_PAGE_OPTIONS_INIT;
    const IfigPageWords words = titled();
    const IfigBlink blink = IFIG_BLINK_INIT;
    IfigError error = IFIG_ERROR_INIT;
    options.keep_existing = 1;
    ck_assert_int_eq(ifig_page_blink(path, &options, &blink, &words, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_page_blink(path, &options, &blink, &words, &error), IFIG_ERROR_CREATE);
    ck_assert_ptr_nonnull(strstr(error.message, "exists already"));
}
END_TEST

static uint8_t grey[16 * 16 * 3];

START_TEST(a_mark_off_the_map_or_of_no_kind_is_refused)
{
    const IfigPageOptions options = IFIG_PAGE_OPTIONS_INIT;
    const IfigPageWords words = titled();
    IfigMapMark mark = {0.8, 0.8, IFIG_MARK_TABLE, "a table"};
    const IfigPageMap map = {grey, 16, &mark, 1};
    IfigError error = IFIG_ERROR_INIT;
    assert_said(ifig_page_hunt(path, &options, &map, &words, &error), IFIG_ERROR_RANGE, &error,
                "a mark's distance");
    mark.x = NAN;
    assert_said(ifig_page_hunt(path, &options, &map, &words, &error), IFIG_ERROR_RANGE, &error,
                "a mark's distance");
    mark.x = 0.0;
    mark.kind = IFIG_MARK_KIND_COUNT;
    assert_said(ifig_page_hunt(path, &options, &map, &words, &error), IFIG_ERROR_ARGUMENT, &error,
                "mark 1 of the map");
}
END_TEST

START_TEST(labels_that_cannot_all_be_read_are_refused_not_drawn_over_each_other)
{
    enum { MANY = 64 };
    const IfigPageOptions options = IFIG_PAGE_OPTIONS_INIT;
    const IfigPageWords words = titled();
    IfigMapMark marks[MANY];
    const IfigPageMap map = {grey, 16, marks, MANY};
    IfigError error = IFIG_ERROR_INIT;
    for (int i = 0; i < MANY; i++) {
        marks[i] = (IfigMapMark){0.0, 0.0, IFIG_MARK_TABLE, "a label as long as this one"};
    }
    assert_said(ifig_page_hunt(path, &options, &map, &words, &error), IFIG_ERROR_UNSUITABLE, &error,
                "fewer marks");
}
END_TEST

START_TEST(the_pixels_asked_for_are_those_of_the_sheet)
{
    IfigPageOptions options = IFIG_PAGE_OPTIONS_INIT;
    options.dpi = 254.0; /* ten pixels a millimetre */
    ck_assert_uint_eq(ifig_page_hunt_pixels(&options), 960);
    ck_assert_uint_eq(ifig_page_contrast_pixels(&options, 2), 640);
    ck_assert_uint_eq(ifig_page_contrast_pixels(&options, 6), 480);
    ck_assert_uint_eq(ifig_page_contrast_pixels(&options, 1), 0);
    options.dpi = NAN;
    ck_assert_uint_eq(ifig_page_hunt_pixels(&options), 0);
}
END_TEST

int main(void)
{
    TCase *const facts = tcase_create("refusals");
    tcase_add_checked_fixture(facts, setup, teardown);
    tcase_add_test(facts, a_blink_without_numbers_is_refused);
    tcase_add_test(facts, a_plate_needs_a_title_and_options_of_this_version);
    tcase_add_test(facts, a_stone_that_stays_dark_still_makes_a_plate);
    tcase_add_test(facts, an_existing_plate_can_be_protected);
    tcase_add_test(facts, a_mark_off_the_map_or_of_no_kind_is_refused);
    tcase_add_test(facts, labels_that_cannot_all_be_read_are_refused_not_drawn_over_each_other);
    tcase_add_test(facts, the_pixels_asked_for_are_those_of_the_sheet);
    return run_case(facts, "page refusals");
}
