/* SPDX-License-Identifier: MIT */
/* Recipes as a stranger's program reads them. */
#include <string.h>

#include "../run_case.h"
#include "interfig/page_recipe.h"

static IfigStatus read_recipe(const char *text, IfigPageRecipe **recipe, IfigError *error)
{
    return ifig_page_recipe_read_text(text, strlen(text), "club.yaml", recipe, error);
}

START_TEST(a_recipe_keeps_what_it_says)
{
    static const char text[] =
        "title: First figures\nsubtitle: Tern Harbour\npaper: letter\ncolumns: 3\ndiameter: 40\n"
        "pages: 2\nintro: Look.\nnotes: Next week.\nfigures:\n  - stone: quartz\n    tilt: [10, "
        "45]\n"
        "    caption: reading\n    reading: full\n    labels: basic\n    sketch: yes\n"
        "    observe: [sign, 2V]\n    new-page: yes\n"
        "    photo: {file: bench.jpg, circle: [8, 6, 4], turn: -30}\n";
    IfigError error = IFIG_ERROR_INIT;
    IfigPageRecipe *recipe = NULL;
    ck_assert_msg(read_recipe(text, &recipe, &error) == IFIG_OK, "%s", error.message);
    const IfigPageItem *const item = &recipe->items[0];
    ck_assert_str_eq(recipe->title, "First figures");
    ck_assert_int_eq(recipe->paper, IFIG_PAPER_LETTER);
    ck_assert_uint_eq(recipe->columns, 3);
    ck_assert_uint_eq(recipe->most_pages, 2);
    ck_assert_double_eq(recipe->diameter_mm, 40.0);
    ck_assert_uint_eq(recipe->item_count, 1);
    ck_assert(item->caption == NULL && item->caption_is_reading && item->has_sketch);
    ck_assert_int_eq(item->reading, IFIG_PAGE_READING_FULL);
    ck_assert_int_eq(item->labels, IFIG_LABELS_BASIC);
    ck_assert_uint_eq(item->observe_count, 2);
    ck_assert_str_eq(item->observe[1], "2V");
    ck_assert_str_eq(item->photo.path, "bench.jpg");
    ck_assert(!item->photo.is_found && item->photo.radius == 4.0 && item->photo.turn_deg == -30.0);
    ck_assert_uint_eq(item->setting_count, 2);
    ck_assert_str_eq(item->settings[1].name, "tilt");
    ck_assert_uint_eq(item->settings[1].value_count, 2);
    ck_assert_str_eq(item->settings[1].values[1], "45");
    ck_assert_uint_eq(item->settings[1].line, 11);
    ifig_page_recipe_free(recipe);
}
END_TEST

START_TEST(what_is_not_said_has_its_usual_value)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigPageRecipe *recipe = NULL;
    ck_assert_int_eq(read_recipe("{title: T, figures: [{stone: quartz}]}", &recipe, &error),
                     IFIG_OK);
    ck_assert_int_eq(recipe->paper, IFIG_PAPER_EITHER);
    ck_assert_uint_eq(recipe->columns, 2);
    ck_assert_str_eq(recipe->language, "en");
    ck_assert(recipe->subtitle == NULL && recipe->most_pages == 0 && recipe->diameter_mm == 0.0);
    ck_assert(recipe->items[0].photo.path == NULL && recipe->items[0].observe_count == 0);
    ifig_page_recipe_free(recipe);
}
END_TEST

START_TEST(a_failure_names_the_place_and_leaves_nothing)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigPageRecipe *recipe = (IfigPageRecipe *)&error;
    ck_assert_int_eq(read_recipe("title: T\nfigurs: []\n", &recipe, &error), IFIG_ERROR_SYNTAX);
    ck_assert_ptr_null(recipe);
    ck_assert_str_eq(error.message,
                     "club.yaml:2:1: unknown key 'figurs' of a recipe; did you mean 'figures'?");
}
END_TEST

START_TEST(null_pointers_are_refused)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigPageRecipe *recipe = NULL;
    ck_assert_int_eq(ifig_page_recipe_read_file(NULL, &recipe, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_page_recipe_read_file("x", NULL, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_page_recipe_read_text(NULL, 0, "x", &recipe, &error),
                     IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_page_write("x.pdf", NULL, NULL, NULL, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_page_recipe_read_file("no such folder/x", &recipe, &error),
                     IFIG_ERROR_NOT_FOUND);
    ifig_page_recipe_free(NULL);
}
END_TEST

int main(void)
{
    TCase *const facts = tcase_create("recipe");
    tcase_add_test(facts, a_recipe_keeps_what_it_says);
    tcase_add_test(facts, what_is_not_said_has_its_usual_value);
    tcase_add_test(facts, a_failure_names_the_place_and_leaves_nothing);
    tcase_add_test(facts, null_pointers_are_refused);
    return run_case(facts, "page recipe");
}
