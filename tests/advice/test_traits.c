/* SPDX-License-Identifier: MIT */
/* What is met with in a species. */
#include "advice_test.h"

#include "interfig/species_record.h"

#define BIT(n) (1u << (n))

START_TEST(reactions_are_read_from_the_catalogue)
{
    ck_assert_uint_eq(traits_of("quartz").reactions, BIT(IFIG_REACTION_DR));
    ck_assert_uint_eq(traits_of("diamond").reactions,
                      BIT(IFIG_REACTION_SR) | BIT(IFIG_REACTION_ADR));
    ck_assert_uint_eq(traits_of("chalcedony").reactions, BIT(IFIG_REACTION_AGG));
    ck_assert_uint_eq(traits_of("zircon_low").reactions,
                      BIT(IFIG_REACTION_DR) | BIT(IFIG_REACTION_SR) | BIT(IFIG_REACTION_ADR));
}
END_TEST

START_TEST(a_range_of_2v_that_passes_90_degrees_has_both_signs)
{
    ck_assert_uint_eq(traits_of("enstatite").signs, IFIG_SIGN_POSITIVE | IFIG_SIGN_NEGATIVE);
    ck_assert_uint_eq(traits_of("iolite").signs, IFIG_SIGN_POSITIVE | IFIG_SIGN_NEGATIVE);
    ck_assert_uint_eq(traits_of("topaz_f").signs, IFIG_SIGN_POSITIVE);
    ck_assert_uint_eq(traits_of("corundum").signs, IFIG_SIGN_NEGATIVE);
    ck_assert_uint_eq(traits_of("spinel").signs, IFIG_SIGN_NONE);
}
END_TEST

START_TEST(a_2v_that_may_be_nought_also_looks_uniaxial)
{
    ck_assert_uint_eq(traits_of("tanzanite").characters, BIT(IFIG_UNIAXIAL) | BIT(IFIG_BIAXIAL));
    ck_assert_uint_eq(traits_of("niter").characters, BIT(IFIG_BIAXIAL)); /* 6 to 7 degrees */
    ck_assert_uint_eq(traits_of("zircon_low").characters, BIT(IFIG_UNIAXIAL) | BIT(IFIG_ISOTROPIC));
}
END_TEST

START_TEST(only_optically_active_uniaxial_stones_have_a_bulls_eye)
{
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const IfigStone one = {.species = ifig_catalogue_at(catalogue, i)};
        IfigSpeciesFacts facts;
        ck_assert_int_eq(ifig_species_facts(one.species, &facts, NULL), IFIG_OK);
        ck_assert_int_eq(traits_of_stone(one).bulls_eye != 0,
                         facts.character == IFIG_UNIAXIAL && facts.is_optically_active);
    }
    ck_assert_int_eq(traits_of("quartz").bulls_eye, 2);
    ck_assert_int_eq(traits_of("quartz_synthetic").bulls_eye, 1);
}
END_TEST

/* A species whose range is one value, so that the reading of the stone itself counts as many. */
START_TEST(orders_are_those_that_a_reading_counts)
{
    static const char *const keys[] = {"quartz", "benitoite", "calcite", "gypsum", "hambergite",
                                       "borax",  "niter",     "ktp",     "ice"};
    IfigLamp *lamp = NULL;
    ck_assert_int_eq(ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &lamp, NULL), IFIG_OK);
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++) {
        const IfigStone known = stone(keys[i]);
        IfigSpeciesRecord record = IFIG_SPECIES_RECORD_INIT, plain = IFIG_SPECIES_RECORD_INIT;
        IfigSpecies *made = NULL;
        ck_assert_int_eq(ifig_species_record(known.species, &record, NULL), IFIG_OK);
        plain.text[IFIG_TEXT_KEY] = "tern";
        plain.facts.character = record.facts.character;
        memcpy(plain.facts.n, record.facts.n, sizeof plain.facts.n);
        plain.rotation = record.rotation;
        ck_assert_int_eq(ifig_species_create(&plain, &made, NULL), IFIG_OK);
        IfigLayer layer = IFIG_LAYER_INIT;
        IfigScene scene = IFIG_SCENE_INIT;
        IfigReading reading = IFIG_READING_INIT;
        layer.species = made;
        layer.thickness_mm = STONE_MM;
        scene.layers = &layer;
        scene.layer_count = 1;
        scene.lamp = lamp;
        ck_assert_int_eq(ifig_reading(&scene, &reading, NULL), IFIG_OK);
        const IfigTraits traits = traits_of_stone((IfigStone){.species = made});
        /* The reading's grid is ten times as fine; both hold the extremes to a thousandth. */
        ck_assert_double_eq_tol(traits.rings_low, reading.orders_in_field,
                                0.002 * reading.orders_in_field);
        ck_assert_double_eq(traits.rings_low, traits.rings_high);
        ifig_species_free(made);
    }
    ifig_lamp_free(lamp);
}
END_TEST

/* Uniaxial, light along the axis: retardation at angle theta outside is
 * (t / n_o)(sqrt(n_o^2 n_e^2 ...)), here Mallard's small-angle form t (n_e - n_o) sin^2 / (n_o^2)
 * over cos of the refracted ray, held to its own neglect of a twentieth. */
START_TEST(orders_of_a_weak_uniaxial_stone_follow_the_small_angle_formula)
{
    const double degree = 3.14159265358979323846 / 180.0;
    const double sine = sin(55.0 * degree) / 1.54, cosine = sqrt(1 - sine * sine);
    const IfigTraits traits = traits_of("apophyllite"); /* birefringence 0 to 0.003 */
    ck_assert_double_eq(traits.rings_low, 0.0);
    ck_assert_double_eq_tol(traits.rings_high, 3e6 * 0.003 * sine * sine / cosine / 589.3,
                            0.05 * traits.rings_high);
}
END_TEST

START_TEST(more_birefringence_and_more_thickness_give_more_orders)
{
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const IfigStone one = {.species = ifig_catalogue_at(catalogue, i)};
        IfigTraits thick = IFIG_TRAITS_INIT;
        const IfigTraits traits = traits_of_stone(one);
        ck_assert_int_eq(ifig_traits(&one, NULL, 2 * STONE_MM, &thick, NULL), IFIG_OK);
        ck_assert_double_le(traits.rings_low, traits.rings_high);
        ck_assert_double_eq_tol(thick.rings_high, 2 * traits.rings_high,
                                1e-9 * (1 + traits.rings_high));
    }
}
END_TEST

START_TEST(body_colours_have_the_hue_of_their_name)
{
    ck_assert_uint_eq(traits_of("ruby").hues, BIT(IFIG_HUE_RED));
    ck_assert_uint_eq(traits_of("blue sapphire").hues, BIT(IFIG_HUE_BLUE));
    ck_assert_uint_eq(traits_of("yellow sapphire").hues, BIT(IFIG_HUE_YELLOW));
    ck_assert_uint_eq(traits_of("aquamarine").hues, BIT(IFIG_HUE_BLUE));
    ck_assert_uint_eq(traits_of("peridot").hues, BIT(IFIG_HUE_YELLOW_GREEN));
    ck_assert_uint_eq(traits_of("red spinel").hues, BIT(IFIG_HUE_RED));
    ck_assert(traits_of("amethyst").hues & BIT(IFIG_HUE_PURPLE));
    ck_assert_uint_eq(traits_of("corundum").hues, 0); /* many */
}
END_TEST

START_TEST(a_body_colour_is_among_the_hues_that_its_species_is_met_with_in)
{
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        IfigStone one = {.species = ifig_catalogue_at(catalogue, i)};
        const unsigned all = traits_of_stone(one).hues;
        for (int k = 1; k <= ifig_species_colour_count(one.species) && all != 0; k++) {
            one.body_colour = k;
            ck_assert_msg((traits_of_stone(one).hues & all) != 0, "%s",
                          ifig_species_colour_name(one.species, k));
        }
    }
}
END_TEST

/* Handbook values: the trade's table "Important gemstones" (universalium.en-academic.com, seen)
 * prints 2.65 for quartz, 4.0-4.1 corundum, 3.52 diamond, 3.6 spinel, 4.3 almandine; moissanite
 * 3.21-3.23 (diamantlabor.com, seen). */
START_TEST(specific_gravity_holds_the_values_of_handbooks)
{
    static const struct {
        const char *key;
        double gravity;
    } published[] = {{"quartz", 2.65},   {"corundum", 4.00},  {"diamond", 3.52},
                     {"spinel", 3.60},   {"almandine", 4.30}, {"moissanite", 3.21},
                     {"grossular", 3.6}, {"opal", 2.0}};
    for (size_t i = 0; i < sizeof published / sizeof *published; i++) {
        const IfigTraits traits = traits_of(published[i].key);
        ck_assert_double_ge(published[i].gravity, traits.gravity_low);
        ck_assert_double_le(published[i].gravity, traits.gravity_high);
    }
}
END_TEST

START_TEST(every_compiled_in_species_has_a_specific_gravity_and_one_made_at_run_time_none)
{
    IfigSpecies *made = NULL;
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const IfigStone one = {.species = ifig_catalogue_at(catalogue, i)};
        ck_assert_double_le(traits_of_stone(one).gravity_low, traits_of_stone(one).gravity_high);
    }
    ck_assert_int_eq(ifig_species_from_indices((const double[]){1.54, 1.55}, 2, 0, &made, NULL),
                     IFIG_OK);
    const IfigTraits traits = traits_of_stone((IfigStone){.species = made});
    ck_assert(isnan(traits.gravity_low) && isnan(traits.gravity_high));
    ck_assert_double_eq_tol(traits.n_low, 1.54, 1e-12);
    ck_assert_double_eq_tol(traits.birefringence_high, 0.01, 1e-12);
    ck_assert_uint_eq(traits.reactions, BIT(IFIG_REACTION_DR));
    ifig_species_free(made);
}
END_TEST

START_TEST(bad_arguments_are_refused_in_words)
{
    const IfigStone quartz = {.species = stone("quartz").species, .body_colour = 99};
    const IfigStone plain = stone("quartz");
    IfigTraits traits = IFIG_TRAITS_INIT, foreign = {0};
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_int_eq(ifig_traits(NULL, NULL, 3, &traits, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_traits(&plain, NULL, 3, &foreign, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_traits(&quartz, NULL, 3, &traits, &error), IFIG_ERROR_RANGE);
    ck_assert_int_eq(ifig_traits(&plain, NULL, NAN, &traits, &error), IFIG_ERROR_RANGE);
    assert_says(error.message, "thickness");
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("traits");
    tcase_add_checked_fixture(facts, open_catalogue, close_catalogue);
    tcase_add_test(facts, reactions_are_read_from_the_catalogue);
    tcase_add_test(facts, a_range_of_2v_that_passes_90_degrees_has_both_signs);
    tcase_add_test(facts, a_2v_that_may_be_nought_also_looks_uniaxial);
    tcase_add_test(facts, only_optically_active_uniaxial_stones_have_a_bulls_eye);
    tcase_add_test(facts, orders_are_those_that_a_reading_counts);
    tcase_add_test(facts, orders_of_a_weak_uniaxial_stone_follow_the_small_angle_formula);
    tcase_add_test(facts, more_birefringence_and_more_thickness_give_more_orders);
    tcase_add_test(facts, body_colours_have_the_hue_of_their_name);
    tcase_add_test(facts, a_body_colour_is_among_the_hues_that_its_species_is_met_with_in);
    tcase_add_test(facts, specific_gravity_holds_the_values_of_handbooks);
    tcase_add_test(facts,
                   every_compiled_in_species_has_a_specific_gravity_and_one_made_at_run_time_none);
    tcase_add_test(facts, bad_arguments_are_refused_in_words);
    return run_case(facts, "traits");
}
