/* SPDX-License-Identifier: MIT */
/* A turn of stones whose face shows a pattern: strain, twin lamellae. */
#include "blink_test.h"
#include "interfig/light.h"
#include "light.h"

static IfigTexture texture_of(IfigPattern pattern, double stress_mpa)
{
    IfigTexture texture = IFIG_TEXTURE_INIT;
    texture.pattern = pattern;
    texture.stress_mpa = stress_mpa;
    return texture;
}

START_TEST(strain_lights_a_singly_refractive_stone_by_its_amount)
{
    /* Brewster's law: the retardation is proportional to the stress. */
    static const IfigPattern patterns[] = {IFIG_PATTERN_BANDS, IFIG_PATTERN_CROSS_HATCH,
                                           IFIG_PATTERN_SNAKE, IFIG_PATTERN_INCLUSION};
    Bench bench;
    set_bench(&bench, builtin("diamond"), IFIG_VIEW_DEFAULT, 5.0);
    for (size_t i = 0; i < sizeof patterns / sizeof *patterns; i++) {
        IfigTexture none = texture_of(patterns[i], 0), some = texture_of(patterns[i], 40),
                    twice = texture_of(patterns[i], 80);
        IfigBlink dark = blink_of(&bench, &none), lit = blink_of(&bench, &some),
                  brighter = blink_of(&bench, &twice);
        ck_assert_int_eq(dark.reaction, IFIG_REACTION_SR);
        ck_assert_int_eq(dark.appearance, IFIG_LOOKS_DARK);
        ck_assert_double_eq(dark.retardation_nm, 0);
        ck_assert_int_eq(lit.reaction, IFIG_REACTION_ADR);
        ck_assert_int_eq(lit.is_along_optic_axis, 0);
        ck_assert_double_gt(lit.retardation_nm, 1);
        ck_assert_double_eq_tol(brighter.retardation_nm, 2 * lit.retardation_nm, 1e-9);
        ck_assert_ptr_nonnull(strstr(words_of(&lit), "Singly refractive with strain (ADR"));
    }
    clear_bench(&bench);
}
END_TEST

START_TEST(an_even_stress_darkens_four_times_a_turn)
{
    Bench bench;
    set_bench(&bench, builtin("diamond"), IFIG_VIEW_DEFAULT, 3.0);
    bench.layers[0].stress_mpa = 60;
    IfigBlink blink = blink_of(&bench, NULL);
    ck_assert_int_eq(blink.reaction, IFIG_REACTION_ADR);
    ck_assert_int_eq(blink.extinctions_per_turn, 4);
    ck_assert_ptr_nonnull(strstr(words_of(&blink), "dark 4 times a turn as a doubly refractive"));
    clear_bench(&bench);
}
END_TEST

START_TEST(twins_in_daylight_are_the_mean_of_twins_in_its_lines)
{
    /* The eye's mean over the spectrum, by every 20 nm of it instead of every one: 2 % allow for
     * fringes that 1024 places leave. */
    Bench bench;
    IfigTexture twins = texture_of(IFIG_PATTERN_TWINS, 0);
    double sum = 0, weights = 0;
    set_bench(&bench, builtin("corundum"), IFIG_VIEW_X, 3.0);
    bench.layers[0].orientation.tilt_deg = 10;
    IfigBlink white = blink_of(&bench, &twins);
    ck_assert_int_eq(white.reaction, IFIG_REACTION_DR);
    IfigLamp *daylight = NULL;
    ck_assert_int_eq(ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &daylight, NULL), IFIG_OK);
    for (double nm = 440; nm <= 680; nm += 20) {
        double xyz[3];
        ifig_colour_matching(nm, xyz);
        double weight = xyz[1] * ifig_lamp_power(daylight, nm);
        light_by_line(&bench, nm);
        sum += weight * blink_of(&bench, &twins).mean;
        weights += weight;
    }
    ck_assert_double_eq_tol(white.mean, sum / weights, 0.02 * white.mean);
    ifig_lamp_free(daylight);
    clear_bench(&bench);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("patterned");
    tcase_add_test(facts, strain_lights_a_singly_refractive_stone_by_its_amount);
    tcase_add_test(facts, an_even_stress_darkens_four_times_a_turn);
    tcase_add_test(facts, twins_in_daylight_are_the_mean_of_twins_in_its_lines);
    return run_case(facts, "patterned faces turned");
}
