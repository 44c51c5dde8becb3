/* SPDX-License-Identifier: MIT */
/* Advice on two stones in words. */
#include "advice_test.h"

static char text[4096];

static void describe(IfigStone a, IfigStone b)
{
    IfigError error = IFIG_ERROR_INIT;
    const IfigPairContrast contrast = contrast_stones(a, b);
    ck_assert_msg(ifig_contrast_describe(&a, &b, &contrast, text, sizeof text, &error) == IFIG_OK,
                  "%s", error.message);
}

static void describe_words(const char *a, const char *b)
{
    describe(stone(a), stone(b));
}

START_TEST(ruby_against_almandine_opens_the_analyser_and_leans_the_stone)
{
    describe_words("ruby", "almandine");
    assert_says(text, "ruby blinks, dark four times a turn; almandine garnet stays dark or lights "
                      "up in bands or patches of strain");
    assert_says(text, "open the analyser");
    assert_says(text, "the table of ruby is commonly cut across its optic axis");
    assert_says(text, "absent in almandine garnet");
    assert_says(text, "bands at 505, 527 and 576 nm");
    assert_silent(text, "blue sapphire");
}
END_TEST

START_TEST(almandine_against_red_spinel_names_the_tests_that_can)
{
    describe_words("almandine", "red spinel");
    assert_says(text, "No polariscope separates almandine garnet from red spinel.");
    assert_says(text, "strain is a hint, no proof");
    assert_says(text, "1.760 to 1.830 in almandine garnet, 1.711 to 1.762 in red spinel");
    assert_says(text, "Specific gravity");
    assert_says(text, "organ pipes");
}
END_TEST

START_TEST(a_stone_is_called_what_the_user_called_it)
{
    IfigStone topaz = stone("blue topaz");
    topaz.name = "blue topaz";
    describe(stone("aquamarine"), topaz);
    assert_says(text, "blue topaz shows brushes that part as the stone turns (biaxial)");
    assert_says(text, "aquamarine is negative, blue topaz is positive");
    topaz.name = "blue\ntopaz\033[2J";
    describe(stone("aquamarine"), topaz);
    assert_silent(text, "\033");
    assert_silent(text, "blue\ntopaz");
}
END_TEST

START_TEST(a_missing_bulls_eye_excludes_no_natural_quartz)
{
    describe_words("iolite", "amethyst");
    assert_says(text, "Bull's eye: optical rotation lights the centre of the cross of amethyst");
    assert_says(text, "a missing bull's eye excludes nothing");
    assert_says(text, "Dichroscope: pleochroism is strong in iolite, weak in amethyst");
}
END_TEST

START_TEST(moissanite_against_diamond_names_its_traps)
{
    describe_words("moissanite", "diamond");
    assert_says(text, "lean the stone and look through its side");
    assert_says(text, "back facets look doubled");
    assert_says(text, "The refractometer is of no use");
    assert_says(text, "a thermal probe takes both");
}
END_TEST

START_TEST(diamond_against_cubic_zirconia_is_told_by_heat_weight_and_fire)
{
    describe_words("diamond", "cubic_zirconia");
    assert_says(text, "No polariscope separates");
    assert_says(text, "Thermal probe: diamond conducts heat well, cubic zirconia does not.");
    assert_says(text, "3.51 to 3.53 in diamond, 5.55 to 6.00 in cubic zirconia");
    assert_says(text, "Fire, by eye: cubic zirconia (dispersion 0.060)");
}
END_TEST

START_TEST(amethyst_against_its_synthetic_looks_for_brazil_twins)
{
    describe_words("amethyst", "synthetic amethyst");
    assert_says(text, "No polariscope separates amethyst from synthetic amethyst.");
    assert_says(text, "Brazil twins");
    assert_says(text, "a laboratory has to decide");
}
END_TEST

START_TEST(every_pair_fits_its_room_and_ends_with_the_caution)
{
    const char *caution = "What is seen is evidence, not an identification: confirm it by a second "
                          "test of another kind.\n";
    const size_t count = ifig_catalogue_count(catalogue);
    for (size_t i = 0; i < count; i += 2) {
        for (size_t j = 0; j < count; j += 5) {
            describe((IfigStone){.species = ifig_catalogue_at(catalogue, i)},
                     (IfigStone){.species = ifig_catalogue_at(catalogue, j)});
            const size_t length = strlen(text);
            ck_assert_str_eq(text + length - strlen(caution), caution);
            assert_silent(text, "nan");
            assert_silent(text, "  ");
            assert_silent(text, "{");
        }
    }
}
END_TEST

START_TEST(too_little_room_is_told_with_the_room_needed)
{
    const IfigStone a = stone("ruby"), b = stone("almandine");
    const IfigPairContrast contrast = contrast_stones(a, b);
    IfigError error = IFIG_ERROR_INIT;
    describe_words("ruby", "almandine");
    const size_t needed = strlen(text) + 1;
    ck_assert_int_eq(ifig_contrast_describe(&a, &b, &contrast, text, needed - 1, &error),
                     IFIG_ERROR_RANGE);
    assert_says(error.message, "bytes");
    ck_assert_int_eq(ifig_contrast_describe(&a, &b, &contrast, text, needed, &error), IFIG_OK);
    ck_assert_int_eq(ifig_contrast_describe(&a, NULL, &contrast, text, needed, &error),
                     IFIG_ERROR_ARGUMENT);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("contrast words");
    tcase_add_checked_fixture(facts, open_catalogue, close_catalogue);
    tcase_add_test(facts, ruby_against_almandine_opens_the_analyser_and_leans_the_stone);
    tcase_add_test(facts, almandine_against_red_spinel_names_the_tests_that_can);
    tcase_add_test(facts, a_stone_is_called_what_the_user_called_it);
    tcase_add_test(facts, a_missing_bulls_eye_excludes_no_natural_quartz);
    tcase_add_test(facts, moissanite_against_diamond_names_its_traps);
    tcase_add_test(facts, diamond_against_cubic_zirconia_is_told_by_heat_weight_and_fire);
    tcase_add_test(facts, amethyst_against_its_synthetic_looks_for_brazil_twins);
    tcase_add_test(facts, every_pair_fits_its_room_and_ends_with_the_caution);
    tcase_add_test(facts, too_little_room_is_told_with_the_room_needed);
    return run_case(facts, "contrast words");
}
