/* SPDX-License-Identifier: MIT */
/* What is seldom met with: words for verdicts that few stones bring about, faces without a pattern
 * place by place, stress and thickness beyond any gem's. */
#include "face_test.h"

#include <complex.h>
#include <string.h>

#include "face.h"
#include "polariscope.h"

/* The words for a verdict put together by hand. */
static const char *words_for(IfigReaction reaction, IfigAppearance looks, int along_axis)
{
    static char text[4096];
    IfigBlink blink = IFIG_BLINK_INIT;
    blink.reaction = reaction;
    blink.appearance = looks;
    blink.is_along_optic_axis = along_axis;
    ck_assert_int_eq(ifig_blink_describe(&blink, text, sizeof text, NULL), IFIG_OK);
    return text;
}

START_TEST(each_verdict_has_its_sentence)
{
    /* Common practice, no source: the four reactions and how they may look. */
    static const struct {
        IfigReaction reaction;
        IfigAppearance looks;
        int along_axis;
        const char *begins;
    } cases[] = {
        {IFIG_REACTION_DR, IFIG_LOOKS_PATCHY, 0, "Doubly refractive (DR): its parts go dark at"},
        {IFIG_REACTION_DR, IFIG_LOOKS_PATCHY, 1, "Doubly refractive (DR): its parts go dark at"},
        {IFIG_REACTION_DR, IFIG_LOOKS_NEVER_DARK, 0, "Doubly refractive (DR), but never dark in"},
        {IFIG_REACTION_DR, IFIG_LOOKS_NEVER_DARK, 1, "Doubly refractive (DR), but never dark: you"},
        {IFIG_REACTION_DR, IFIG_LOOKS_DARK, 1, "Doubly refractive (DR), but dark through"},
        {IFIG_REACTION_SR, IFIG_LOOKS_DARK, 0, "Singly refractive (SR): dark"},
        {IFIG_REACTION_SR, IFIG_LOOKS_NEVER_DARK, 0, "Singly refractive (SR), yet lit"},
        {IFIG_REACTION_AGG, IFIG_LOOKS_NEVER_DARK, 0, "Aggregate (AGG): never dark"},
        {IFIG_REACTION_AGG, IFIG_LOOKS_FOUR_DARK, 0, "Aggregate (AGG), but so few grains"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const char *text = words_for(cases[i].reaction, cases[i].looks, cases[i].along_axis);
        ck_assert_msg(strncmp(text, cases[i].begins, strlen(cases[i].begins)) == 0, "not '%s': %s",
                      cases[i].begins, text);
    }
    ck_assert_ptr_nonnull(strstr(words_for(IFIG_REACTION_ADR, IFIG_LOOKS_NEVER_DARK, 0),
                                 "anomalous double refraction): lit at every turn.\n"));
    ck_assert_ptr_nonnull(strstr(words_for(IFIG_REACTION_ADR, IFIG_LOOKS_PATCHY, 0),
                                 "anomalous double refraction): lit in parts that wander"));
}
END_TEST

/* A hunt put together by hand: a patch of a tenth of all directions at every thickness. */
static IfigHunt hunt_of(int axes, double false_single)
{
    IfigHunt hunt = IFIG_HUNT_INIT;
    hunt.axes.count = axes;
    hunt.axes.two_v_deg = 40;
    hunt.false_single[0] = false_single;
    for (int i = 0; i < IFIG_HUNT_THICKNESSES; i++) {
        hunt.thickness_mm[i] = i + 1;
        hunt.patch_share[i] = 0.1;
        hunt.patch_radius_deg[i] = 15;
    }
    hunt.cut_count = 1;
    hunt.cut[0] = (IfigTableCut){.name = "table along the axis"};
    return hunt;
}

static void assert_hunt_says(const IfigHunt *hunt, const char *phrase, int said)
{
    static char text[8192];
    ck_assert_int_eq(ifig_hunt_describe(hunt, text, sizeof text, NULL), IFIG_OK);
    ck_assert_msg((strstr(text, phrase) != NULL) == said, "%s'%s' in: %s", said ? "not " : "",
                  phrase, text);
}

START_TEST(each_chance_of_a_false_single_has_its_sentence)
{
    static const struct {
        double chance;
        const char *phrase;
    } cases[] = {
        {0, "No direction stays dark"},
        {5e-6, "Fewer than one direction in 100000"},
        {0.01, "One direction in 100 stays dark through a turn at 1 mm"},
        {0.3, "30 % of all directions"},
        {1, "At 1 mm no direction lights up"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const IfigHunt hunt = hunt_of(2, cases[i].chance);
        for (size_t j = 0; j < sizeof cases / sizeof *cases; j++) {
            assert_hunt_says(&hunt, cases[j].phrase, i == j);
        }
    }
}
END_TEST

START_TEST(straight_down_along_an_axis_a_stone_looks_as_its_kind_does)
{
    static const struct {
        int axes;
        double false_single;
        const char *phrase;
    } cases[] = {
        {1, 0.01, "through the table. The stone looks singly refractive there."},
        {1, 0, "through the table. The stone stays lit there all the way round."},
        {2, 0.01, "through the table, along an axis."},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const IfigHunt hunt = hunt_of(cases[i].axes, cases[i].false_single);
        for (size_t j = 0; j < sizeof cases / sizeof *cases; j++) {
            assert_hunt_says(&hunt, cases[j].phrase, i == j);
        }
    }
}
END_TEST

START_TEST(a_stone_of_low_colours_everywhere_has_no_sizes_to_list)
{
    IfigHunt hunt = hunt_of(1, 0.5);
    assert_hunt_says(&hunt, "The thinner the stone the larger the patch", 1);
    for (int i = 0; i < IFIG_HUNT_THICKNESSES; i++) {
        hunt.patch_share[i] = 1;
    }
    assert_hunt_says(&hunt, "there is no edge to the patch", 1);
    assert_hunt_says(&hunt, "The thinner the stone the larger the patch", 0);
}
END_TEST

START_TEST(a_singly_refractive_stone_is_hunted_in_vain)
{
    const IfigHunt lit = hunt_of(0, 0), dark = hunt_of(0, 1);
    assert_hunt_says(&lit, "it rotates the plane of vibration: lit alike", 1);
    assert_hunt_says(&dark, "Singly refractive: dark in every direction", 1);
}
END_TEST

START_TEST(a_plain_face_has_the_wave_of_its_plate_everywhere)
{
    static const double nm[] = {450, 589.3, 700};
    IfigJonesXy jones[3];
    Stone stone;
    stone_ready(&stone, "quartz", IFIG_PATTERN_PLAIN, 0, 1.5);
    stone.layer.orientation.tilt_deg = 20;
    for (int place = 0; place < 2; place++) {
        ck_assert_int_eq(ifig_face_jones(&stone.scene, place ? &stone.texture : NULL, 0.4 * place,
                                         -0.2, nm, 3, jones, NULL),
                         IFIG_OK);
        for (int k = 0; k < 3; k++) {
            IfigPlateWave wave;
            ck_assert_int_eq(ifig_plate_wave(&stone.layer, 1, 1.0, nm[k], 0, 0, &wave, NULL),
                             IFIG_OK);
            for (int i = 0; i < 4; i++) {
                const IfigComplex wanted = wave.jones.element[i / 2][i % 2];
                const double complex got = jones[k].m[i / 2][i % 2];
                ck_assert_double_eq(creal(got), wanted.re);
                ck_assert_double_eq(cimag(got), wanted.im);
            }
        }
    }
    stone_gone(&stone);
}
END_TEST

START_TEST(a_place_of_what_cannot_be_is_refused)
{
    static const double nm[] = {589.3}, too_blue[] = {100};
    IfigJonesXy jones;
    IfigError error = IFIG_ERROR_INIT;
    Stone stone;
    stone_ready(&stone, "jadeite", IFIG_PATTERN_USUAL, 0, 1);
    stone.layer.stress_mpa = 10;
    ck_assert_int_eq(ifig_face_jones(&stone.scene, NULL, 0, 0, nm, 1, &jones, &error),
                     IFIG_ERROR_UNSUITABLE);
    ck_assert_ptr_nonnull(strstr(error.message, "grains are computed colourless"));
    stone.layer.stress_mpa = 0;
    stone.layer.body_colour = 1;
    ck_assert_int_eq(ifig_face_jones(&stone.scene, NULL, 0, 0, nm, 1, &jones, &error),
                     IFIG_ERROR_UNSUITABLE);
    stone.layer.body_colour = 0;
    stone.layer.thickness_mm = -1;
    ck_assert_int_eq(ifig_face_jones(&stone.scene, NULL, 0, 0, nm, 1, &jones, &error),
                     IFIG_ERROR_RANGE);
    stone.layer.size--;
    ck_assert_int_eq(ifig_face_jones(&stone.scene, NULL, 0, 0, nm, 1, &jones, &error),
                     IFIG_ERROR_ARGUMENT);
    stone_gone(&stone);
    stone_ready(&stone, "quartz", IFIG_PATTERN_PLAIN, 0, 1);
    ck_assert_int_eq(ifig_face_jones(&stone.scene, NULL, 0, 0, too_blue, 1, &jones, &error),
                     IFIG_ERROR_RANGE);
    stone.texture.pattern = IFIG_PATTERN_BRAZIL;
    stone.layer.orientation.tilt_deg = 4000;
    ck_assert_int_ne(face_status(&stone, &error), IFIG_OK);
    ck_assert_int_eq(ifig_texture_check(&stone.texture, NULL, &error), IFIG_ERROR_ARGUMENT);
    stone.texture.pattern = (IfigPattern)-1;
    ck_assert_int_eq(ifig_texture_numbers(&stone.texture, &error), IFIG_ERROR_ARGUMENT);
    stone_gone(&stone);
}
END_TEST

START_TEST(patterns_without_strain_are_fields_of_no_stress)
{
    static const IfigPattern patterns[] = {IFIG_PATTERN_USUAL, IFIG_PATTERN_PLAIN,
                                           IFIG_PATTERN_TWINS, IFIG_PATTERN_BRAZIL,
                                           IFIG_PATTERN_GRAINS};
    for (size_t i = 0; i < sizeof patterns / sizeof *patterns; i++) {
        IfigTexture texture = IFIG_TEXTURE_INIT;
        IfigStressPath path;
        texture.pattern = patterns[i];
        texture.stress_mpa = 50;
        ck_assert_int_eq(ifig_stress_path(&texture, 3, 0.3, -0.4, &path, NULL), IFIG_OK);
        ck_assert_double_eq(path.difference_mpa_mm, 0);
    }
}
END_TEST

START_TEST(the_finest_samples_are_64_a_nanometre_and_keep_the_white)
{
    IfigLamp *lamp = NULL;
    IfigSpectrumSamples samples;
    double white[3], sum[3] = {0};
    ck_assert_int_eq(ifig_lamp_create(IFIG_LAMP_FLUORESCENT, &lamp, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_fine_samples(lamp, 1e9, &samples, NULL), IFIG_OK);
    ck_assert_uint_eq(samples.count, 400 * 64 + 1);
    for (size_t k = 0; k < samples.count; k++) {
        for (int i = 0; i < 3; i++) {
            sum[i] += samples.weight[k][i];
        }
    }
    ifig_lamp_white(lamp, white);
    for (int i = 0; i < 3; i++) {
        ck_assert_double_eq_tol(sum[i], white[i], 1e-9);
    }
    ifig_spectrum_samples_free(&samples);
    ifig_lamp_free(lamp);
}
END_TEST

/* Crossed polars between which the fringes of a white lamp have washed out pass half of the light
 * that a retarder at 45 degrees lets through on the mean: sin^2 averages to one half. */
START_TEST(strain_beyond_the_table_is_white_in_a_lamp_and_fringes_in_a_line)
{
    for (int line = 0; line < 2; line++) {
        IfigStrainLight strain = {.term = NULL};
        double none[3], much[3], more[3];
        Stone stone;
        stone_ready(&stone, "diamond", IFIG_PATTERN_BANDS, 10, 5);
        if (line) {
            ifig_lamp_free(stone.lamp);
            ck_assert_int_eq(ifig_lamp_create_line(589.3, &stone.lamp, NULL), IFIG_OK);
            stone.scene.lamp = stone.lamp;
        }
        ck_assert_int_eq(ifig_strain_light_create(&stone.scene, 1e6, &strain, NULL), IFIG_OK);
        ifig_strain_light(&strain, (IfigStressSum){0, 0}, none);
        ifig_strain_light(&strain, (IfigStressSum){0, 0.8e6}, much);
        ifig_strain_light(&strain, (IfigStressSum){0, 0.9e6}, more);
        ck_assert_double_eq_tol(none[1], 0, 1e-9);
        ck_assert_double_gt(much[1], 0);
        if (!line) {
            ck_assert_double_eq_tol(much[1], more[1], 1e-3);
        }
        free(strain.term);
        stone_gone(&stone);
    }
}
END_TEST

START_TEST(left_quartz_with_right_wedges_turns_light_the_other_way)
{
    /* A rotation by the opposite angle is the transpose of its matrix. */
    static const double nm[] = {480, 640};
    IfigJonesXy right[2], left[2];
    Stone stone;
    stone_ready(&stone, "quartz", IFIG_PATTERN_BRAZIL, 0, 2);
    ck_assert_int_eq(ifig_face_jones(&stone.scene, &stone.texture, 0.2, 0.3, nm, 2, right, NULL),
                     IFIG_OK);
    stone.layer.hand = IFIG_HAND_LEFT;
    ck_assert_int_eq(ifig_face_jones(&stone.scene, &stone.texture, 0.2, 0.3, nm, 2, left, NULL),
                     IFIG_OK);
    for (int k = 0; k < 2; k++) {
        for (int i = 0; i < 4; i++) {
            ck_assert_double_lt(cabs(left[k].m[i / 2][i % 2] - right[k].m[i % 2][i / 2]), 1e-9);
        }
        ck_assert_double_gt(cabs(left[k].m[0][1]), 1e-3);
    }
    stone_gone(&stone);
}
END_TEST

START_TEST(a_twinned_ruby_passes_less_green_than_a_colourless_twin)
{
    static const double green[] = {550};
    double passed[2];
    Stone stone;
    stone_ready(&stone, "corundum", IFIG_PATTERN_TWINS, 0, 2);
    for (int coloured = 0; coloured < 2; coloured++) {
        IfigJonesXy jones;
        stone.layer.body_colour =
            coloured ? ifig_species_colour_of_word(stone.layer.species, "ruby") : 0;
        ck_assert_int_eq(
            ifig_face_jones(&stone.scene, &stone.texture, 0.1, 0.4, green, 1, &jones, NULL),
            IFIG_OK);
        passed[coloured] = cabs(jones.m[0][0]) + cabs(jones.m[1][1]);
    }
    ck_assert_double_lt(passed[1], 0.95 * passed[0]);
    ck_assert_double_gt(passed[1], 0);
    stone_gone(&stone);
}
END_TEST

START_TEST(a_circular_polar_on_either_side_leaves_nothing_to_open)
{
    for (int above = 0; above < 2; above++) {
        IfigBlink blink = IFIG_BLINK_INIT;
        Stone stone;
        stone_ready(&stone, "quartz", IFIG_PATTERN_PLAIN, 0, 1);
        IfigPolar *polar =
            above ? &stone.scene.instrument.analyser : &stone.scene.instrument.polariser;
        polar->kind = IFIG_POLAR_RIGHT;
        ck_assert_int_eq(ifig_blink(&stone.scene, NULL, &blink, NULL), IFIG_OK);
        ck_assert(isnan(blink.opened[0]) && isnan(blink.opened_over_crossed));
        stone_gone(&stone);
    }
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("seldom");
    tcase_add_test(facts, each_verdict_has_its_sentence);
    tcase_add_test(facts, each_chance_of_a_false_single_has_its_sentence);
    tcase_add_test(facts, straight_down_along_an_axis_a_stone_looks_as_its_kind_does);
    tcase_add_test(facts, a_stone_of_low_colours_everywhere_has_no_sizes_to_list);
    tcase_add_test(facts, a_singly_refractive_stone_is_hunted_in_vain);
    tcase_add_test(facts, a_plain_face_has_the_wave_of_its_plate_everywhere);
    tcase_add_test(facts, a_place_of_what_cannot_be_is_refused);
    tcase_add_test(facts, patterns_without_strain_are_fields_of_no_stress);
    tcase_add_test(facts, the_finest_samples_are_64_a_nanometre_and_keep_the_white);
    tcase_add_test(facts, strain_beyond_the_table_is_white_in_a_lamp_and_fringes_in_a_line);
    tcase_add_test(facts, left_quartz_with_right_wedges_turns_light_the_other_way);
    tcase_add_test(facts, a_twinned_ruby_passes_less_green_than_a_colourless_twin);
    tcase_add_test(facts, a_circular_polar_on_either_side_leaves_nothing_to_open);
    return run_case(facts, "polariscope seldom");
}
