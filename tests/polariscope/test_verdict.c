/* SPDX-License-Identifier: MIT */
/* What a turn says of the stone, and the words for it. */
#include "blink_test.h"

static void assert_says(const IfigBlink *blink, const char *words)
{
    const char *said = words_of(blink);
    ck_assert_msg(strstr(said, words) != NULL, "'%s' is not in: %s", words, said);
}

START_TEST(a_uniaxial_stone_along_its_axis_stays_dark)
{
    Bench bench;
    set_bench(&bench, builtin("calcite"), IFIG_VIEW_C, 3.0);
    IfigBlink blink = blink_of(&bench, NULL);
    ck_assert_int_eq(blink.appearance, IFIG_LOOKS_DARK);
    ck_assert_int_eq(blink.reaction, IFIG_REACTION_DR);
    ck_assert_int_eq(blink.is_along_optic_axis, 1);
    ck_assert_int_eq(blink.extinctions_per_turn, 0);
    assert_says(&blink, "optic axis");
    assert_says(&blink, "Turn (tilt) the stone");
    clear_bench(&bench);
}
END_TEST

START_TEST(a_biaxial_stone_along_an_axis_is_lit_at_every_turn)
{
    Bench bench;
    set_bench(&bench, builtin("topaz_f"), IFIG_VIEW_OPTIC_AXIS, 3.0);
    IfigBlink blink = blink_of(&bench, NULL);
    ck_assert_int_eq(blink.appearance, IFIG_LOOKS_NEVER_DARK);
    ck_assert_int_eq(blink.reaction, IFIG_REACTION_DR);
    ck_assert_int_eq(blink.is_along_optic_axis, 1);
    assert_says(&blink, "never dark: you look along an optic axis");
    /* In one line no dispersion moves the axis off the centre, and every azimuth of the cone of
     * inner conical refraction is there: the light is even. */
    light_by_line(&bench, 589.3);
    blink = blink_of(&bench, NULL);
    ck_assert_double_lt(blink.contrast, 0.02);
    ck_assert_double_gt(blink.least, 0.05);
    clear_bench(&bench);
}
END_TEST

/* 3 mm turn the plane of 589.3 nm by 65.2 degrees: 21.73 a millimetre (Lowry, Optical Rotatory
 * Power, from memory). */
START_TEST(quartz_along_c_is_lit_by_its_rotation)
{
    Bench bench;
    set_bench(&bench, builtin("quartz"), IFIG_VIEW_C, 3.0);
    light_by_line(&bench, 589.3);
    IfigBlink blink = blink_of(&bench, NULL);
    ck_assert_int_eq(blink.appearance, IFIG_LOOKS_NEVER_DARK);
    ck_assert_int_eq(blink.reaction, IFIG_REACTION_DR);
    ck_assert_int_eq(blink.is_along_optic_axis, 1);
    double faces = pow(4 * 1.5442 / (2.5442 * 2.5442), 2);
    ck_assert_double_eq_tol(blink.mean, faces * pow(sin(65.2 * IFIG_DEGREE), 2), 0.003);
    ck_assert_double_lt(blink.contrast, 1e-3);
    clear_bench(&bench);
}
END_TEST

START_TEST(a_cubic_stone_that_rotates_the_light_is_singly_refractive)
{
    Bench bench;
    set_bench(&bench, builtin("sodium_chlorate"), IFIG_VIEW_DEFAULT, 5.0);
    IfigBlink blink = blink_of(&bench, NULL);
    ck_assert_int_eq(blink.reaction, IFIG_REACTION_SR);
    ck_assert_int_eq(blink.appearance, IFIG_LOOKS_NEVER_DARK);
    assert_says(&blink, "rotates the light");
    clear_bench(&bench);
}
END_TEST

START_TEST(a_thin_splinter_of_apatite_is_grey_and_a_thinner_one_looks_dark)
{
    Bench bench;
    set_bench(&bench, builtin("apatite"), IFIG_VIEW_X, 0.01);
    IfigBlink blink = blink_of(&bench, NULL);
    ck_assert_int_eq(blink.extinctions_per_turn, 4);
    ck_assert_double_lt(blink.most, 0.06);
    ck_assert_int_eq(blink.follows_opening_rule, 0);
    assert_says(&blink, "rule that a doubly refractive stone stays or darkens fails here");
    bench.layers[0].thickness_mm = 0.005;
    blink = blink_of(&bench, NULL);
    ck_assert_int_eq(blink.appearance, IFIG_LOOKS_DARK);
    ck_assert_int_eq(blink.reaction, IFIG_REACTION_DR);
    ck_assert_int_eq(blink.is_along_optic_axis, 0);
    assert_says(&blink, "too small to light it up");
    clear_bench(&bench);
}
END_TEST

/* A whole number of waves in one line, and white light beside it. */
START_TEST(a_whole_number_of_waves_looks_dark_in_one_line)
{
    IfigSpecies *stone = uniaxial_stone(1.5, 1.51);
    Bench bench;
    set_bench(&bench, stone, IFIG_VIEW_X, 0.5893);
    light_by_line(&bench, 589.3);
    IfigBlink blink = blink_of(&bench, NULL);
    ck_assert_int_eq(blink.appearance, IFIG_LOOKS_DARK);
    assert_says(&blink, "leave in step");
    clear_bench(&bench);
    set_bench(&bench, stone, IFIG_VIEW_X, 0.5893);
    blink = blink_of(&bench, NULL);
    ck_assert_int_eq(blink.extinctions_per_turn, 4);
    clear_bench(&bench);
    ifig_species_free(stone);
}
END_TEST

/* Crossed dispersion of borax: no turn is dark in all colours at once, and yet the eye counts four.
 */
START_TEST(dispersed_extinction_still_counts_four)
{
    Bench bench;
    set_bench(&bench, builtin("borax"), IFIG_VIEW_DEFAULT, 3.0);
    IfigBlink blink = blink_of(&bench, NULL);
    ck_assert_int_eq(blink.extinctions_per_turn, 4);
    ck_assert_double_gt(blink.least, 5e-5);
    clear_bench(&bench);
}
END_TEST

START_TEST(strained_glass_brightens_when_the_analyser_is_opened)
{
    Bench bench;
    set_bench(&bench, builtin("glass"), IFIG_VIEW_DEFAULT, 3.0);
    bench.layers[0].stress_mpa = 8;
    bench.layers[0].stress_azimuth_deg = 10;
    IfigBlink blink = blink_of(&bench, NULL);
    ck_assert_int_eq(blink.reaction, IFIG_REACTION_ADR);
    ck_assert_int_eq(blink.appearance, IFIG_LOOKS_FOUR_DARK);
    /* 2.77 TPa^-1 x 8 MPa x 3 mm = 66.5 nm */
    ck_assert_double_eq_tol(blink.retardation_nm, 66.5, 0.1);
    ck_assert_double_gt(blink.opened_over_crossed, 3);
    ck_assert_int_eq(blink.follows_opening_rule, 1);
    ck_assert_double_eq_tol(fmod(blink.darkest_deg, 90), 80, 0.1);
    assert_says(&blink, "ADR");
    bench.layers[0].stress_mpa = 0;
    blink = blink_of(&bench, NULL);
    ck_assert_int_eq(blink.reaction, IFIG_REACTION_SR);
    ck_assert_int_eq(blink.appearance, IFIG_LOOKS_DARK);
    ck_assert(isnan(blink.opened_over_crossed));
    ck_assert_double_eq(blink.contrast, 0.0);
    assert_says(&blink, "from nothing");
    clear_bench(&bench);
}
END_TEST

START_TEST(circular_polars_cannot_be_opened)
{
    Bench bench;
    set_bench(&bench, builtin("quartz"), IFIG_VIEW_X, 0.02);
    bench.scene.instrument.polariser.kind = IFIG_POLAR_LEFT;
    bench.scene.instrument.analyser.kind = IFIG_POLAR_RIGHT;
    IfigBlink blink = blink_of(&bench, NULL);
    ck_assert(isnan(blink.opened[0]) && isnan(blink.opened[90]));
    ck_assert(isnan(blink.opened_over_crossed));
    ck_assert_double_lt(blink.contrast, 0.01);
    ck_assert_double_gt(blink.least, 0.1);
    assert_says(&blink, "no analyser to open");
    clear_bench(&bench);
}
END_TEST

START_TEST(a_verdict_asks_for_room)
{
    IfigBlink blink = IFIG_BLINK_INIT;
    IfigError error = IFIG_ERROR_INIT;
    char text[16];
    ck_assert_int_eq(ifig_blink_describe(&blink, text, sizeof text, &error), IFIG_ERROR_RANGE);
    ck_assert_ptr_nonnull(strstr(error.message, "4096"));
    ck_assert_int_eq(ifig_blink_describe(NULL, text, sizeof text, &error), IFIG_ERROR_ARGUMENT);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("verdict");
    tcase_add_test(facts, a_uniaxial_stone_along_its_axis_stays_dark);
    tcase_add_test(facts, a_biaxial_stone_along_an_axis_is_lit_at_every_turn);
    tcase_add_test(facts, quartz_along_c_is_lit_by_its_rotation);
    tcase_add_test(facts, a_cubic_stone_that_rotates_the_light_is_singly_refractive);
    tcase_add_test(facts, a_thin_splinter_of_apatite_is_grey_and_a_thinner_one_looks_dark);
    tcase_add_test(facts, a_whole_number_of_waves_looks_dark_in_one_line);
    tcase_add_test(facts, dispersed_extinction_still_counts_four);
    tcase_add_test(facts, strained_glass_brightens_when_the_analyser_is_opened);
    tcase_add_test(facts, circular_polars_cannot_be_opened);
    tcase_add_test(facts, a_verdict_asks_for_room);
    return run_case(facts, "verdict");
}
