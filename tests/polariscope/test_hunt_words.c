/* SPDX-License-Identifier: MIT */
/* Words of a hunt: true of the numbers, for every stone. */
#include "hunt_test.h"

enum { ROOM = 4096 };

static void describe(const IfigHunt *hunt, char text[ROOM])
{
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_hunt_describe(hunt, text, ROOM, &error) == IFIG_OK, "%s", error.message);
}

static void describe_stone(const char *key, double thickness_mm, char text[ROOM])
{
    Bench bench;
    set_bench(&bench, builtin(key), thickness_mm);
    const IfigHunt hunt = hunt_of(&bench);
    describe(&hunt, text);
    clear_bench(&bench);
}

static void check_cuts(const char *key, const IfigHunt *hunt)
{
    ck_assert_msg(hunt->cut_count >= 1 && hunt->cut_count <= IFIG_HUNT_CUTS, "%s", key);
    for (size_t k = 0; k < hunt->cut_count; k++) {
        const double *s = hunt->cut[k].direction;
        ck_assert_double_eq_tol(hypot(hypot(s[0], s[1]), s[2]), 1, 1e-12);
        ck_assert(strncmp(hunt->cut[k].name, "table ", 6) == 0);
    }
}

START_TEST(every_stone_of_the_catalogue_is_hunted_and_told)
{
    IfigCatalogue *catalogue = NULL;
    size_t told = 0;
    ck_assert_int_eq(ifig_catalogue_create(&catalogue, NULL), IFIG_OK);
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const IfigSpecies *species = ifig_catalogue_at(catalogue, i);
        const char *key = ifig_species_text(species, IFIG_TEXT_KEY);
        IfigSpeciesFacts facts;
        ck_assert_int_eq(ifig_species_facts(species, &facts, NULL), IFIG_OK);
        if (facts.character == IFIG_AGGREGATE || facts.is_opaque) {
            continue;
        }
        Bench bench;
        char text[ROOM];
        set_bench(&bench, species, 2);
        const IfigHunt hunt = hunt_of(&bench);
        describe(&hunt, text);
        ck_assert_int_eq(strstr(text, "Singly refractive") != NULL, hunt.axes.count == 0);
        ck_assert_int_eq(strstr(text, "uniaxial") != NULL, hunt.axes.count == 1);
        ck_assert_int_eq(strstr(text, "two optic axes") != NULL, hunt.axes.count == 2);
        ck_assert_msg(strstr(text, "nan") == NULL && strpbrk(text, "{}") == NULL &&
                          strstr(text, "e+") == NULL,
                      "%s: %s", key, text);
        if (hunt.axes.count > 0) {
            check_cuts(key, &hunt);
        }
        told++;
        clear_bench(&bench);
    }
    ck_assert_uint_gt(told, 120);
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(a_ruby_looks_single_straight_through_its_table)
{
    char text[ROOM];
    describe_stone("corundum", 3, text);
    ck_assert_ptr_nonnull(strstr(text, "table across the c axis"));
    ck_assert_ptr_nonnull(strstr(text, "look straight down through the table"));
    ck_assert_ptr_nonnull(strstr(text, "looks singly refractive there"));
    ck_assert_ptr_nonnull(strstr(text, "from girdle to girdle"));
    ck_assert_ptr_nonnull(strstr(text, "One direction in 2000 "));
}
END_TEST

START_TEST(only_a_stone_that_rotates_is_told_to_stay_lit_along_its_axis)
{
    char text[ROOM];
    describe_stone("quartz", 3, text);
    ck_assert_ptr_nonnull(strstr(text, "bull's-eye"));
    ck_assert_ptr_null(strstr(text, "looks singly refractive"));
    describe_stone("zircon_high", 3, text);
    ck_assert_ptr_null(strstr(text, "bull's-eye"));
}
END_TEST

START_TEST(two_patches_are_told_with_the_angle_between_them)
{
    char text[ROOM];
    describe_stone("topaz_f", 3, text);
    ck_assert_ptr_nonnull(strstr(text, "two optic axes 65 deg apart"));
    describe_stone("peridot", 2, text); /* 2V near 90: neither bisectrix lets an axis out */
    ck_assert_ptr_nonnull(strstr(text, "cannot leave through the table"));
}
END_TEST

START_TEST(a_thin_stone_is_told_to_show_colours_in_every_direction)
{
    char text[ROOM];
    describe_stone("apatite", 0.3, text);
    ck_assert_ptr_nonnull(strstr(text, "low colours in every direction"));
    ck_assert_ptr_nonnull(strstr(text, "darkest place"));
    describe_stone("apatite", 0.001, text); /* 4 nm of retardation: sin^2 is 0.0005 */
    ck_assert_ptr_nonnull(strstr(text, "no direction lights up"));
}
END_TEST

START_TEST(too_little_room_is_refused)
{
    Bench bench;
    char text[64];
    set_bench(&bench, builtin("quartz"), 3);
    const IfigHunt hunt = hunt_of(&bench);
    ck_assert_int_eq(ifig_hunt_describe(&hunt, text, sizeof text, NULL), IFIG_ERROR_RANGE);
    ck_assert_int_eq(ifig_hunt_describe(NULL, text, sizeof text, NULL), IFIG_ERROR_ARGUMENT);
    clear_bench(&bench);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("hunt words");
    tcase_add_test(facts, every_stone_of_the_catalogue_is_hunted_and_told);
    tcase_add_test(facts, a_ruby_looks_single_straight_through_its_table);
    tcase_add_test(facts, only_a_stone_that_rotates_is_told_to_stay_lit_along_its_axis);
    tcase_add_test(facts, two_patches_are_told_with_the_angle_between_them);
    tcase_add_test(facts, a_thin_stone_is_told_to_show_colours_in_every_direction);
    tcase_add_test(facts, too_little_room_is_refused);
    return run_case(facts, "hunt words");
}
