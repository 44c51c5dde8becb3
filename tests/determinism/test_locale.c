/* SPDX-License-Identifier: MIT */
/* A program that has set its locale gets the same pixels and the same words (bar R16): German
 * writes 0,5; Turkish makes another letter of I. The locale is this program's argument. */
#include "../run_case.h"
#include "recipes.h"

#include <ctype.h>
#include <locale.h>
#include <stdio.h>
#include <string.h>

enum { RECIPES = 24 };

static const char *wanted;

/* What the C library itself does in this locale, to know that it is in force. */
static void check_locale_is_in_force(void)
{
    char half[8];
    snprintf(half, sizeof half, "%.1f", 0.5);
    const int is_turkish = strncmp(wanted, "tr_TR", 5) == 0;
    ck_assert_str_eq(half, "0,5");
    ck_assert(!is_turkish || strstr(wanted, "8859") == NULL || tolower('I') != 'i');
}

START_TEST(pixels_and_words_are_the_same_in_a_locale_that_writes_a_comma)
{
    uint64_t pixels[RECIPES], words[RECIPES];
    IfigCatalogue *catalogue = open_catalogue();
    for (int pass = 0; pass < 2; pass++) {
        ck_assert_ptr_nonnull(setlocale(LC_ALL, pass == 0 ? "C" : wanted));
        if (pass == 1) {
            check_locale_is_in_force();
        }
        for (unsigned i = 0; i < RECIPES; i++) {
            Recipe recipe;
            recipe_draw(catalogue, 16, i, &recipe);
            recipe.options.pixels = 24;
            const uint64_t picture = recipe_hash(&recipe, 1), said = words_hash(catalogue, &recipe);
            if (pass == 0) {
                pixels[i] = picture;
                words[i] = said;
            }
            ck_assert_msg(picture == pixels[i], "recipe %u: other pixels in %s", i, wanted);
            ck_assert_msg(said == words[i], "recipe %u: other words in %s", i, wanted);
            recipe_free(&recipe);
        }
    }
    printf("%d recipes, their pixels and all that is said of them, in %s: 0 differ\n", RECIPES,
           wanted);
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(a_catalogue_made_in_that_locale_is_the_same)
{
    ck_assert_ptr_nonnull(setlocale(LC_ALL, wanted));
    IfigCatalogue *catalogue = open_catalogue();
    Recipe recipe;
    recipe_draw(catalogue, 16, 0, &recipe);
    const uint64_t there = words_hash(catalogue, &recipe);
    recipe_free(&recipe);
    ifig_catalogue_free(catalogue);
    ck_assert_ptr_nonnull(setlocale(LC_ALL, "C"));
    catalogue = open_catalogue();
    recipe_draw(catalogue, 16, 0, &recipe);
    ck_assert(words_hash(catalogue, &recipe) == there);
    recipe_free(&recipe);
    ifig_catalogue_free(catalogue);
}
END_TEST

int main(int count, char **arguments)
{
    const int skipped = 77; /* Meson's sign for it */
    wanted = count == 2 ? arguments[1] : "";
    if (setlocale(LC_ALL, wanted) == NULL || strcmp(localeconv()->decimal_point, ",") != 0) {
        printf("no locale %s here\n", wanted);
        return skipped;
    }
    setlocale(LC_ALL, "C");
    TCase *facts = tcase_create("locale");
    tcase_add_test(facts, pixels_and_words_are_the_same_in_a_locale_that_writes_a_comma);
    tcase_add_test(facts, a_catalogue_made_in_that_locale_is_the_same);
    return run_case(facts, "locale");
}
