/* SPDX-License-Identifier: MIT */
/* The pixels do not know how many threads made them, nor how many rows were asked for at once (bar
 * R13). IFIG_SEED draws other recipes, IFIG_RECIPES so many. */
#include "../run_case.h"
#include "recipes.h"

#include <stdio.h>
#include <string.h>

static unsigned long setting(const char *name, unsigned long usual)
{
    const char *const given = getenv(name);
    return given != NULL ? strtoul(given, NULL, 10) : usual;
}

static unsigned char first[RECIPE_PIXELS_MOST * RECIPE_PIXELS_MOST * 12];
static unsigned char again[RECIPE_PIXELS_MOST * RECIPE_PIXELS_MOST * 12];

START_TEST(pixels_do_not_depend_on_the_number_of_threads)
{
    static const int threads[] = {1, 2, 3, 4, 7, 16, 64};
    const unsigned long seed = setting("IFIG_SEED", 13), count = setting("IFIG_RECIPES", 200);
    IfigCatalogue *catalogue = open_catalogue();
    unsigned long compared = 0, faces = 0, stacks = 0;
    for (unsigned i = 0; i < count; i++) {
        Recipe recipe;
        recipe_draw(catalogue, seed, i, &recipe);
        faces += recipe.is_face != 0;
        stacks += recipe.scene.layer_count > 1;
        for (size_t t = 0; t < sizeof threads / sizeof *threads; t++) {
            unsigned char *const into = t == 0 ? first : again;
            ck_assert_int_eq(recipe_render(&recipe, threads[t], 0, into), IFIG_OK);
            ck_assert_msg(t == 0 || memcmp(first, again, recipe_bytes(&recipe)) == 0,
                          "seed %lu, recipe %u: %d threads make other pixels than one", seed, i,
                          threads[t]);
            compared += t > 0;
        }
        recipe_free(&recipe);
    }
    printf("%lu recipes (seed %lu; %lu faces, %lu stacks) by 1, 2, 3, 4, 7, 16 and 64 threads: %lu "
           "comparisons, 0 differ\n",
           count, seed, faces, stacks, compared);
    ck_assert_uint_gt(faces, count / 20);
    ck_assert_uint_gt(stacks, count / 20);
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(pixels_do_not_depend_on_how_many_rows_are_asked_for_at_once)
{
    static const uint32_t rows[] = {1, 7, 16, 40};
    const unsigned long seed = setting("IFIG_SEED", 13);
    const unsigned count = 40;
    IfigCatalogue *catalogue = open_catalogue();
    for (unsigned i = 0; i < count; i++) {
        Recipe recipe;
        recipe_draw(catalogue, seed, i, &recipe);
        recipe.options.pixels = 17 + recipe.options.pixels % 32;
        ck_assert_int_eq(recipe_render(&recipe, 2, 0, first), IFIG_OK);
        for (size_t r = 0; r < sizeof rows / sizeof *rows; r++) {
            ck_assert_int_eq(recipe_render(&recipe, 2, rows[r], again), IFIG_OK);
            ck_assert_msg(memcmp(first, again, recipe_bytes(&recipe)) == 0,
                          "seed %lu, recipe %u: %u rows at a time make other pixels", seed, i,
                          rows[r]);
        }
        recipe_free(&recipe);
    }
    printf("%u recipes by 1, 7, 16, 40 rows at a time: 0 differ\n", count);
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(a_map_of_directions_does_not_depend_on_the_number_of_threads)
{
    static const char *const keys[] = {"quartz", "topaz_f", "calcite"};
    static const int threads[] = {1, 2, 3, 7, 64};
    IfigCatalogue *catalogue = open_catalogue();
    for (size_t k = 0; k < sizeof keys / sizeof *keys; k++) {
        Recipe recipe;
        recipe_draw(catalogue, 1, (unsigned)k, &recipe);
        recipe.layers[0] = (IfigLayer)IFIG_LAYER_INIT;
        recipe.scene.layer_count = 1;
        recipe.scene.instrument = (IfigInstrument)IFIG_INSTRUMENT_INIT;
        recipe.options.pixels = 48;
        ck_assert_int_eq(ifig_catalogue_find(catalogue, keys[k], &recipe.layers[0].species, NULL),
                         IFIG_OK);
        for (size_t t = 0; t < sizeof threads / sizeof *threads; t++) {
            recipe.options.threads = threads[t];
            ck_assert_int_eq(ifig_hunt_map(&recipe.scene, &recipe.options, t ? again : first, NULL),
                             IFIG_OK);
            ck_assert_msg(t == 0 || memcmp(first, again, 48 * 48 * 3) == 0, "%s by %d threads",
                          keys[k], threads[t]);
        }
        recipe_free(&recipe);
    }
    ifig_catalogue_free(catalogue);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("threads");
    tcase_add_test(facts, pixels_do_not_depend_on_the_number_of_threads);
    tcase_add_test(facts, pixels_do_not_depend_on_how_many_rows_are_asked_for_at_once);
    tcase_add_test(facts, a_map_of_directions_does_not_depend_on_the_number_of_threads);
    return run_case(facts, "threads");
}
