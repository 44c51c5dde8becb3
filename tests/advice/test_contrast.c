/* SPDX-License-Identifier: MIT */
/* What tells two stones apart, as the trade practises it: common practice, no source, but where one
 * is named. */
#include "advice_test.h"

#define BIT(n) (1u << (n))

static int offers(const IfigPairContrast *contrast, IfigOtherTest test)
{
    return (contrast->other_tests & BIT(test)) != 0;
}

START_TEST(ruby_is_told_from_almandine_and_red_spinel_by_its_blink)
{
    const IfigPairContrast garnet = contrast_of("ruby", "almandine");
    const IfigPairContrast spinel = contrast_of("ruby", "red spinel");
    ck_assert_int_eq(garnet.ranked[0], IFIG_CLUE_REACTION);
    ck_assert_int_eq(garnet.clue[IFIG_CLUE_REACTION], IFIG_SURE_PRACTISED);
    ck_assert_int_eq(spinel.ranked[0], IFIG_CLUE_REACTION);
    ck_assert(!garnet.is_polariscope_blind && !spinel.is_polariscope_blind);
    ck_assert(offers(&spinel, IFIG_TEST_DICHROSCOPE) && offers(&garnet, IFIG_TEST_DICHROSCOPE));
    ck_assert_int_eq(garnet.first_test, IFIG_TEST_REFRACTOMETER);
}
END_TEST

START_TEST(no_polariscope_separates_almandine_from_red_spinel)
{
    const IfigPairContrast contrast = contrast_of("almandine", "red spinel");
    ck_assert_int_eq(contrast.is_polariscope_blind, 1);
    ck_assert_int_eq(contrast.polariscope, IFIG_SURE_SOMETIMES); /* strain is a hint */
    ck_assert_int_eq(contrast.first_test, IFIG_TEST_REFRACTOMETER);
    ck_assert(offers(&contrast, IFIG_TEST_SPECIFIC_GRAVITY));
    ck_assert(offers(&contrast, IFIG_TEST_SPECTROSCOPE));
    ck_assert(!offers(&contrast, IFIG_TEST_DICHROSCOPE));
}
END_TEST

START_TEST(aquamarine_is_told_from_blue_topaz_by_figure_sign_and_index)
{
    const IfigPairContrast contrast = contrast_of("aquamarine", "blue topaz");
    ck_assert_int_eq(contrast.clue[IFIG_CLUE_REACTION], IFIG_SURE_NOT);
    ck_assert_int_eq(contrast.ranked[0], IFIG_CLUE_CHARACTER);
    ck_assert_int_eq(contrast.clue[IFIG_CLUE_SIGN], IFIG_SURE_PRACTISED);
    ck_assert_int_eq(contrast.first_test, IFIG_TEST_REFRACTOMETER);
    ck_assert(offers(&contrast, IFIG_TEST_SPECIFIC_GRAVITY));
}
END_TEST

START_TEST(iolite_is_told_from_amethyst_by_figure_and_bulls_eye)
{
    const IfigPairContrast contrast = contrast_of("iolite", "amethyst");
    ck_assert_int_eq(contrast.ranked[0], IFIG_CLUE_CHARACTER);
    ck_assert_int_eq(contrast.clue[IFIG_CLUE_BULLS_EYE], IFIG_SURE_PRACTISED);
    ck_assert_int_eq(contrast.clue[IFIG_CLUE_INDEX], IFIG_SURE_NOT); /* iolite 1.522-1.578 */
    ck_assert_int_eq(contrast.first_test, IFIG_TEST_DICHROSCOPE);
}
END_TEST

START_TEST(iolite_and_tanzanite_are_parted_by_index_and_by_sign_only_sometimes)
{
    const IfigPairContrast contrast = contrast_of("iolite", "tanzanite");
    ck_assert_int_eq(contrast.clue[IFIG_CLUE_SIGN], IFIG_SURE_SOMETIMES);
    ck_assert_int_eq(contrast.polariscope, IFIG_SURE_SOMETIMES);
    ck_assert_int_eq(contrast.ranked[0], IFIG_CLUE_INDEX);
    ck_assert_int_eq(contrast.first_test, IFIG_TEST_REFRACTOMETER);
}
END_TEST

START_TEST(strained_glass_is_told_from_quartz_by_reaction)
{
    const IfigPairContrast contrast = contrast_of("glass", "quartz");
    ck_assert_int_eq(contrast.ranked[0], IFIG_CLUE_REACTION);
    ck_assert_int_eq(contrast.clue[IFIG_CLUE_REACTION], IFIG_SURE_PRACTISED);
    ck_assert_int_eq(contrast.clue[IFIG_CLUE_INDEX], IFIG_SURE_NOT);
    ck_assert(offers(&contrast, IFIG_TEST_MAGNIFICATION));
}
END_TEST

START_TEST(anyone_tells_chalcedony_from_quartz)
{
    const IfigPairContrast contrast = contrast_of("chalcedony", "quartz");
    ck_assert_int_eq(contrast.ranked[0], IFIG_CLUE_REACTION);
    ck_assert_int_eq(contrast.polariscope, IFIG_SURE_ANYONE);
    ck_assert_int_eq(contrast.first_test, IFIG_TEST_REFRACTOMETER);
}
END_TEST

/* "Moissanite is cut with the table perpendicular to the c axis; consequently, by looking through
 * the table one is viewing the singly refractive direction" (diamondschina.com after A. Hodgkinson,
 * 1998, seen); it floats in di-iodomethane of 3.33 where diamond sinks, and the refractometer is of
 * no help (diamantlabor.com, seen). */
START_TEST(moissanite_is_told_from_diamond_through_its_side_and_by_doubling)
{
    const IfigPairContrast contrast = contrast_of("moissanite", "diamond");
    ck_assert_int_eq(contrast.clue[IFIG_CLUE_REACTION], IFIG_SURE_PRACTISED);
    ck_assert_int_eq(contrast.traits[0].is_cut_across, 1);
    ck_assert_int_eq(contrast.first_test, IFIG_TEST_MAGNIFICATION);
    ck_assert(!offers(&contrast, IFIG_TEST_THERMAL)); /* both conduct */
    ck_assert(!offers(&contrast, IFIG_TEST_REFRACTOMETER));
    ck_assert(offers(&contrast, IFIG_TEST_SPECIFIC_GRAVITY));
    ck_assert(contrast.traits[0].gravity_high < 3.33 && contrast.traits[1].gravity_low > 3.33);
}
END_TEST

START_TEST(moissanite_is_told_from_cubic_zirconia_by_reaction_and_heat)
{
    const IfigPairContrast contrast = contrast_of("moissanite", "cubic_zirconia");
    ck_assert_int_eq(contrast.ranked[0], IFIG_CLUE_REACTION);
    ck_assert(offers(&contrast, IFIG_TEST_THERMAL) && offers(&contrast, IFIG_TEST_MAGNIFICATION));
    ck_assert(!offers(&contrast, IFIG_TEST_REFRACTOMETER));
}
END_TEST

START_TEST(no_polariscope_separates_diamond_from_cubic_zirconia)
{
    const IfigPairContrast contrast = contrast_of("diamond", "cubic_zirconia");
    ck_assert_int_eq(contrast.is_polariscope_blind, 1);
    ck_assert_int_eq(contrast.clue[IFIG_CLUE_INDEX], IFIG_SURE_NOT); /* beyond the liquid's own */
    ck_assert_int_eq(contrast.first_test, IFIG_TEST_THERMAL);
    ck_assert(offers(&contrast, IFIG_TEST_SPECIFIC_GRAVITY));
}
END_TEST

/* No edge is what both may show where the other stone's index may lie beyond the liquid's too. */
START_TEST(a_missing_edge_tells_only_where_the_other_stone_must_show_one)
{
    IfigTraits beyond = IFIG_TRAITS_INIT, within = IFIG_TRAITS_INIT, about = IFIG_TRAITS_INIT;
    beyond.n_low = beyond.n_high = IFIG_REFRACTOMETER_LIMIT + 0.2;
    within.n_low = about.n_low = IFIG_REFRACTOMETER_LIMIT - 0.05;
    within.n_high = IFIG_REFRACTOMETER_LIMIT - 0.001;
    about.n_high = IFIG_REFRACTOMETER_LIMIT + 0.05;
    ck_assert_int_eq(ifig_clue_sureness(IFIG_CLUE_INDEX, &beyond, &within), IFIG_SURE_PRACTISED);
    ck_assert_int_eq(ifig_clue_sureness(IFIG_CLUE_INDEX, &beyond, &about), IFIG_SURE_NOT);
}
END_TEST

START_TEST(natural_and_synthetic_of_one_species_need_magnification_or_a_laboratory)
{
    static const char *const pairs[][2] = {{"ruby", "synthetic ruby"},
                                           {"amethyst", "synthetic amethyst"},
                                           {"spinel", "spinel_synthetic"},
                                           {"emerald", "emerald_synthetic_hydrothermal"}};
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
        const IfigPairContrast contrast = contrast_of(pairs[i][0], pairs[i][1]);
        ck_assert_msg(contrast.is_synthetic_pair && contrast.is_polariscope_blind, "%s",
                      pairs[i][0]);
        ck_assert_int_eq(contrast.first_test, IFIG_TEST_MAGNIFICATION);
        ck_assert(offers(&contrast, IFIG_TEST_LABORATORY));
    }
}
END_TEST

START_TEST(varieties_of_one_species_differ_by_colour_alone)
{
    const IfigPairContrast contrast = contrast_of("ruby", "blue sapphire");
    ck_assert_int_eq(contrast.is_polariscope_blind, 1);
    ck_assert_int_eq(contrast.ranked[0], IFIG_CLUE_COLOUR);
    ck_assert_int_eq(contrast.clue[IFIG_CLUE_COLOUR], IFIG_SURE_ANYONE);
    ck_assert_int_eq(contrast.clue[IFIG_CLUE_INDEX], IFIG_SURE_NOT);
    ck_assert_uint_eq(contrast.other_tests, 0);
}
END_TEST

START_TEST(colour_counts_only_where_the_hues_of_both_are_known_and_apart)
{
    ck_assert_int_eq(contrast_of("ruby", "almandine").clue[IFIG_CLUE_COLOUR], IFIG_SURE_NOT);
    ck_assert_int_eq(contrast_of("ruby", "quartz").clue[IFIG_CLUE_COLOUR], IFIG_SURE_NOT);
    ck_assert_int_eq(contrast_of("ruby", "peridot").clue[IFIG_CLUE_COLOUR], IFIG_SURE_ANYONE);
    ck_assert_int_eq(contrast_of("peridot", "emerald").clue[IFIG_CLUE_COLOUR], IFIG_SURE_HARD);
}
END_TEST

START_TEST(violet_scapolite_is_told_from_amethyst_by_sign_bulls_eye_and_dichroism)
{
    const IfigPairContrast contrast = contrast_of("scapolite_marialite", "amethyst");
    ck_assert_int_eq(contrast.ranked[0], IFIG_CLUE_SIGN);
    ck_assert_int_eq(contrast.clue[IFIG_CLUE_BULLS_EYE], IFIG_SURE_PRACTISED);
    ck_assert_int_eq(contrast.first_test, IFIG_TEST_DICHROSCOPE);
}
END_TEST

START_TEST(an_opaque_stone_leaves_the_polariscope_blind)
{
    const IfigPairContrast contrast = contrast_of("turquoise", "quartz");
    ck_assert_int_eq(contrast.is_polariscope_blind, 1);
    ck_assert_int_eq(contrast.clue[IFIG_CLUE_REACTION], IFIG_SURE_NOT);
    ck_assert(offers(&contrast, IFIG_TEST_REFRACTOMETER));
}
END_TEST

START_TEST(a_contrast_is_the_same_both_ways)
{
    const size_t count = ifig_catalogue_count(catalogue);
    for (size_t i = 0; i < count; i += 3) {
        for (size_t j = 1; j < count; j += 4) {
            const IfigStone a = {.species = ifig_catalogue_at(catalogue, i)};
            const IfigStone b = {.species = ifig_catalogue_at(catalogue, j)};
            const IfigPairContrast there = contrast_stones(a, b), back = contrast_stones(b, a);
            for (int k = 0; k < IFIG_CLUE_COUNT; k++) {
                ck_assert_int_eq(there.clue[k], back.clue[k]);
                ck_assert_int_eq(there.ranked[k], back.ranked[k]);
            }
            ck_assert_uint_eq(there.other_tests, back.other_tests);
            ck_assert_int_eq(there.first_test, back.first_test);
            ck_assert_int_eq(there.is_synthetic_pair, back.is_synthetic_pair);
            ck_assert_int_eq(there.is_polariscope_blind, back.is_polariscope_blind);
        }
    }
}
END_TEST

START_TEST(clues_are_ranked_best_first_and_equal_ones_in_the_order_of_examination)
{
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const IfigStone one = {.species = ifig_catalogue_at(catalogue, i)};
        const IfigPairContrast contrast = contrast_stones(one, stone("quartz"));
        for (int k = 1; k < IFIG_CLUE_COUNT; k++) {
            const IfigClue before = contrast.ranked[k - 1], after = contrast.ranked[k];
            ck_assert(contrast.clue[before] > contrast.clue[after] ||
                      (contrast.clue[before] == contrast.clue[after] && before < after));
        }
    }
}
END_TEST

START_TEST(a_stone_does_not_differ_from_itself)
{
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const IfigStone one = {.species = ifig_catalogue_at(catalogue, i)};
        const IfigPairContrast contrast = contrast_stones(one, one);
        ck_assert_int_eq(contrast.polariscope, IFIG_SURE_NOT);
        ck_assert_int_eq(contrast.is_polariscope_blind, 1);
        ck_assert_uint_eq(contrast.other_tests, 0);
        for (int k = 0; k < IFIG_CLUE_COUNT; k++) {
            ck_assert_msg(contrast.clue[k] == IFIG_SURE_NOT, "%s %s",
                          ifig_species_text(one.species, IFIG_TEXT_KEY),
                          ifig_clue_name((IfigClue)k));
        }
    }
}
END_TEST

/* The first test is one of those offered, and a laboratory only where nothing else is. */
START_TEST(the_first_test_is_offered)
{
    const size_t count = ifig_catalogue_count(catalogue);
    for (size_t i = 0; i < count; i += 2) {
        for (size_t j = 1; j < count; j += 5) {
            const IfigStone a = {.species = ifig_catalogue_at(catalogue, i)};
            const IfigStone b = {.species = ifig_catalogue_at(catalogue, j)};
            const IfigPairContrast contrast = contrast_stones(a, b);
            if (a.species != b.species) {
                ck_assert(offers(&contrast, contrast.first_test));
            }
        }
    }
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("contrast");
    tcase_add_checked_fixture(facts, open_catalogue, close_catalogue);
    tcase_add_test(facts, ruby_is_told_from_almandine_and_red_spinel_by_its_blink);
    tcase_add_test(facts, no_polariscope_separates_almandine_from_red_spinel);
    tcase_add_test(facts, aquamarine_is_told_from_blue_topaz_by_figure_sign_and_index);
    tcase_add_test(facts, iolite_is_told_from_amethyst_by_figure_and_bulls_eye);
    tcase_add_test(facts, iolite_and_tanzanite_are_parted_by_index_and_by_sign_only_sometimes);
    tcase_add_test(facts, strained_glass_is_told_from_quartz_by_reaction);
    tcase_add_test(facts, anyone_tells_chalcedony_from_quartz);
    tcase_add_test(facts, moissanite_is_told_from_diamond_through_its_side_and_by_doubling);
    tcase_add_test(facts, moissanite_is_told_from_cubic_zirconia_by_reaction_and_heat);
    tcase_add_test(facts, no_polariscope_separates_diamond_from_cubic_zirconia);
    tcase_add_test(facts, a_missing_edge_tells_only_where_the_other_stone_must_show_one);
    tcase_add_test(facts, natural_and_synthetic_of_one_species_need_magnification_or_a_laboratory);
    tcase_add_test(facts, varieties_of_one_species_differ_by_colour_alone);
    tcase_add_test(facts, colour_counts_only_where_the_hues_of_both_are_known_and_apart);
    tcase_add_test(facts, violet_scapolite_is_told_from_amethyst_by_sign_bulls_eye_and_dichroism);
    tcase_add_test(facts, an_opaque_stone_leaves_the_polariscope_blind);
    tcase_add_test(facts, a_contrast_is_the_same_both_ways);
    tcase_add_test(facts, clues_are_ranked_best_first_and_equal_ones_in_the_order_of_examination);
    tcase_add_test(facts, a_stone_does_not_differ_from_itself);
    tcase_add_test(facts, the_first_test_is_offered);
    return run_case(facts, "contrast");
}
