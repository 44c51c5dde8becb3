/* SPDX-License-Identifier: MIT */
/* Textbook laws at faces, of rotation, lens, plate and colour, over many random draws. */
#include "draws.h"

#include "interfig/instrument.h"
#include "interfig/light.h"

/* Transmission of both faces of a plate of index n in a medium, s and p: Fresnel's equations (Born
 * & Wolf, Principles of Optics, 1.5.2). */
static void fresnel(double n, double outside, double theta, double share[2])
{
    double inner = asin(outside * sin(theta) / n);
    double s_in = 2 * outside * cos(theta) / (outside * cos(theta) + n * cos(inner));
    double s_out = 2 * n * cos(inner) / (outside * cos(theta) + n * cos(inner));
    double p_in = 2 * outside * cos(theta) / (n * cos(theta) + outside * cos(inner));
    double p_out = 2 * n * cos(inner) / (n * cos(theta) + outside * cos(inner));
    share[0] = p_in * p_out;
    share[1] = s_in * s_out;
}

START_TEST(a_singly_refractive_plate_passes_what_fresnel_s_equations_say)
{
    Random random = {401};
    double worst = 0, at_brewster = 0, matched = 0;
    for (int i = 0; i < DRAWS; i++) {
        double n = random_between(&random, 1.35, 2.6), share[2];
        IfigSpecies *stone = stone_of(&n, 1, 0);
        IfigLayer layer = layer_of(stone, IFIG_VIEW_Z, random_between(&random, 0.01, 5));
        Beam beam = draw_beam(&random);
        IfigPlateWave wave = wave_of(&layer, 1, beam);
        fresnel(n, beam.n_outside, beam.theta_deg * IFIG_DEGREE, share);
        for (int k = 0; k < 2; k++) {
            worst = fmax(worst, fabs(cabs(element(&wave, k, k)) - share[k]));
            worst = fmax(worst, cabs(element(&wave, k, 1 - k)));
        }
        beam.theta_deg = atan(n / beam.n_outside) / IFIG_DEGREE; /* Brewster's angle */
        wave = wave_of(&layer, 1, beam);
        at_brewster = fmax(at_brewster, fabs(cabs(element(&wave, 0, 0)) - 1));
        beam.n_outside = n; /* a liquid of the stone's own index */
        beam.theta_deg = random_between(&random, 0, 89);
        wave = wave_of(&layer, 1, beam);
        for (int k = 0; k < 2; k++) {
            matched = fmax(matched, fabs(cabs(element(&wave, k, k)) - 1));
        }
        ifig_species_free(stone);
    }
    tell("Fresnel's equations, amplitude", 401, worst);
    tell("loss of p at Brewster's angle", 401, at_brewster);
    tell("loss in a liquid of the same index", 401, matched);
    ck_assert_double_lt(worst, 1e-9);
    ck_assert_double_lt(at_brewster, 1e-9);
    ck_assert_double_lt(matched, 1e-9);
}
END_TEST

START_TEST(total_reflection_begins_at_the_critical_angle)
{
    Random random = {402};
    for (int i = 0; i < DRAWS; i++) {
        double n = random_between(&random, 1.35, 2.0),
               outside = n * random_between(&random, 1.01, 1.3);
        double critical = asin(n / outside) / IFIG_DEGREE;
        IfigSpecies *stone = stone_of(&n, 1, 0);
        IfigLayer layer = layer_of(stone, IFIG_VIEW_Z, 1);
        Beam beam = {outside, SODIUM_NM, critical - random_between(&random, 0.01, 5), 20};
        ck_assert_int_eq(wave_of(&layer, 1, beam).is_dark, 0);
        beam.theta_deg = fmin(critical + random_between(&random, 0.01, 5), 89.9);
        IfigPlateWave wave = wave_of(&layer, 1, beam);
        ck_assert_int_eq(wave.is_dark, 1);
        ck_assert_double_lt(cabs(element(&wave, 0, 0)) + cabs(element(&wave, 1, 1)), 1e-300);
        ifig_species_free(stone);
    }
    tell("critical angle, misjudged", 402, 0);
}
END_TEST

START_TEST(an_active_stone_turns_the_light_by_its_rotation_times_its_thickness)
{
    /* Right-handed: clockwise for the observer, azimuths fall. Light is dark where the analyser is
     * crossed to the turned plane. */
    Random random = {403};
    double worst = 0;
    for (int i = 0; i < DRAWS; i++) {
        double n = random_between(&random, 1.35, 2.2),
               rotation = random_between(&random, -300, 300);
        IfigSpecies *stone = stone_of(&n, 1, rotation);
        IfigLayer layer = layer_of(stone, IFIG_VIEW_Z, random_between(&random, 0.01, 3));
        layer.hand = i % 2 ? IFIG_HAND_LEFT : IFIG_HAND_RIGHT;
        Beam beam = {1, random_between(&random, 400, 700), 0, 0};
        double polariser = random_between(&random, -90, 90);
        double turned = polariser - (i % 2 ? -1 : 1) * rotation * layer.thickness_mm;
        IfigPlateWave wave = wave_of(&layer, 1, beam);
        worst = fmax(worst, through_polars(&wave, beam, polariser, turned + 90));
        ifig_species_free(stone);
    }
    tell("rotation, light left", 403, worst);
    ck_assert_double_lt(worst, 1e-6);
}
END_TEST

START_TEST(a_hand_is_the_sign_of_the_rotation_and_nothing_to_a_stone_without)
{
    Random random = {404};
    double worst = 0;
    for (int i = 0; i < DRAWS; i++) {
        double n[2] = {random_between(&random, 1.4, 2), random_between(&random, 1.4, 2)};
        double rotation = i % 3 ? random_between(&random, -200, 200) : 0;
        IfigSpecies *stone = stone_of(n, 2, rotation), *other = stone_of(n, 2, -rotation);
        IfigLayer layer = layer_of(stone, IFIG_VIEW_Z, random_between(&random, 0.01, 3));
        Beam beam = draw_beam(&random);
        layer.orientation.tilt_deg = random_between(&random, -90, 90);
        IfigPlateWave right = wave_of(&layer, 1, beam);
        layer.hand = IFIG_HAND_LEFT;
        layer.species = other;
        IfigPlateWave left = wave_of(&layer, 1, beam);
        worst = fmax(worst, difference_of_waves(&left, &right));
        ifig_species_free(stone);
        ifig_species_free(other);
    }
    tell("hand and sign of rotation, Jones matrix", 404, worst);
    ck_assert_double_lt(worst, 1e-12);
}
END_TEST

static void lean_and_turn(Random *random, int draw, IfigSpecies *const stones[STONES], Sight *one,
                          Sight *other)
{
    (void)random;
    (void)stones;
    other->layers[0].orientation.tilt_deg = -one->layers[0].orientation.tilt_deg;
    other->layers[0].orientation.tilt_azimuth_deg += 180;
    other->layers[0].orientation.stage_deg += 360 * (draw % 5 - 2);
}

START_TEST(a_lean_backward_is_a_lean_the_other_way_and_a_whole_turn_is_none)
{
    double worst = largest_change(405, lean_and_turn);
    tell("lean and whole turns, Jones matrix", 405, worst);
    ck_assert_double_lt(worst, 1e-8);
}
END_TEST

START_TEST(a_uniaxial_stone_seen_along_its_axis_does_not_know_its_turn)
{
    Random random = {406};
    double worst = 0;
    for (int i = 0; i < DRAWS; i++) {
        double n[2] = {random_between(&random, 1.4, 2), random_between(&random, 1.4, 2)};
        IfigSpecies *stone = stone_of(n, 2, i % 2 ? random_between(&random, -200, 200) : 0);
        IfigLayer layer = layer_of(stone, IFIG_VIEW_C, random_between(&random, 0.01, 3));
        Beam beam = draw_beam(&random);
        IfigPlateWave before = wave_of(&layer, 1, beam);
        layer.orientation.stage_deg = random_between(&random, -180, 180);
        beam.phi_deg += random_between(&random, -180, 180);
        IfigPlateWave after = wave_of(&layer, 1, beam);
        worst = fmax(worst, difference_of_waves(&after, &before));
        ifig_species_free(stone);
    }
    tell("turn about the optic axis, Jones matrix", 406, worst);
    ck_assert_double_lt(worst, 1e-8);
}
END_TEST

START_TEST(a_stress_turns_with_the_stage)
{
    Random random = {411};
    const IfigSpecies *stone = builtin("diamond");
    double worst = 0, swing = 0;
    for (int i = 0; i < DRAWS; i++) {
        IfigLayer layer = layer_of(stone, IFIG_VIEW_Z, random_between(&random, 0.1, 3));
        Beam beam = draw_beam(&random);
        layer.stress_mpa = random_between(&random, -300, 300);
        layer.stress_azimuth_deg = random_between(&random, -90, 90);
        IfigPlateWave before = wave_of(&layer, 1, beam);
        double turn = random_between(&random, -180, 180);
        layer.orientation.stage_deg += turn;
        IfigPlateWave stage_alone = wave_of(&layer, 1, beam);
        swing = fmax(swing, difference_of_waves(&stage_alone, &before));
        beam.phi_deg += turn;
        IfigPlateWave after = wave_of(&layer, 1, beam);
        worst = fmax(worst, difference_of_waves(&after, &before));
    }
    tell("stress and beam turned together, Jones matrix", 411, worst);
    ck_assert_double_lt(worst, 1e-8);
    ck_assert_double_gt(swing, 0.5);
}
END_TEST

START_TEST(a_quarter_turn_between_crossed_polars_changes_nothing_at_the_centre)
{
    Random random = {407};
    IfigSpecies *stones[STONES];
    double worst = 0;
    draw_stones(&random, stones);
    for (int i = 0; i < DRAWS; i++) {
        IfigLayer layer = draw_layer(&random, stones);
        layer.species = inactive_stone(stones, i);
        Beam beam = {1, random_between(&random, 400, 700), 0, 0};
        double before = crossed_light(&layer, beam);
        layer.orientation.stage_deg += 90;
        worst = fmax(worst, fabs(crossed_light(&layer, beam) - before));
    }
    tell("a quarter turn, light", 407, worst);
    ck_assert_double_lt(worst, 1e-9);
    free_stones(stones);
}
END_TEST

START_TEST(an_accessory_plate_of_the_stone_s_own_retardation_laid_across_it_makes_it_dark)
{
    /* But for the faces, which pass the two waves unalike: (t_slow - t_fast)^2 / 4 is left. */
    Random random = {408};
    IfigLamp *lamp = NULL;
    double worst = 0, added = 0;
    ck_assert_int_eq(ifig_lamp_create_line(SODIUM_NM, &lamp, NULL), IFIG_OK);
    for (int i = 0; i < DRAWS; i++) {
        double n[3] = {random_between(&random, 1.4, 2)};
        n[1] = n[0] + random_between(&random, 0.001, 0.02);
        IfigSpecies *stone = stone_of(n, 2, 0);
        IfigScene scene = IFIG_SCENE_INIT;
        IfigLayer layer = layer_of(stone, IFIG_VIEW_Z, random_between(&random, 0.01, 1));
        IfigProbe probe;
        layer.orientation.tilt_deg = 90; /* c lies in the plane, at 45 degrees */
        layer.orientation.stage_deg = 45;
        scene.layers = &layer;
        scene.layer_count = 1;
        scene.lamp = lamp;
        scene.instrument.lens = IFIG_LENS_OBJECTIVE;
        scene.instrument.plate.material = i % 2 ? IFIG_PLATE_GYPSUM : IFIG_PLATE_MICA;
        scene.instrument.plate.retardation_nm = 1e6 * layer.thickness_mm * (n[1] - n[0]);
        scene.instrument.plate.slow_azimuth_deg = 135;
        ck_assert_int_eq(ifig_probe(&scene, 0, 0, SODIUM_NM, &probe, NULL), IFIG_OK);
        double t[2] = {4 * n[0] / ((1 + n[0]) * (1 + n[0])), 4 * n[1] / ((1 + n[1]) * (1 + n[1]))};
        double left = 0.25 * (t[0] - t[1]) * (t[0] - t[1]);
        worst = fmax(worst, fabs(probe.transmittance - left));
        /* slow on slow: the retardations add */
        scene.instrument.plate.slow_azimuth_deg = 45;
        double phase = 2 * IFIG_PI * 2 * scene.instrument.plate.retardation_nm / SODIUM_NM;
        double wanted = 0.25 * (t[0] * t[0] + t[1] * t[1] - 2 * t[0] * t[1] * cos(phase));
        ck_assert_int_eq(ifig_probe(&scene, 0, 0, SODIUM_NM, &probe, NULL), IFIG_OK);
        added = fmax(added, fabs(probe.transmittance - wanted));
        ifig_species_free(stone);
    }
    tell("plate across the stone, light beside the faces' own", 408, worst);
    tell("plate along the stone, light", 408, added);
    ck_assert_double_lt(worst, 1e-9);
    ck_assert_double_lt(added, 1e-9);
    ifig_lamp_free(lamp);
}
END_TEST

START_TEST(every_lens_sees_a_ray_where_it_says)
{
    Random random = {409};
    double worst = 0;
    for (int i = 0; i < DRAWS; i++) {
        IfigInstrument instrument = IFIG_INSTRUMENT_INIT;
        double theta, phi, x, y, r = sqrt(random_between(&random, 0, 1));
        double azimuth = random_between(&random, -IFIG_PI, IFIG_PI);
        instrument.lens = (IfigLensKind)(i % 3);
        instrument.immersion_index = random_between(&random, 1, 1.3);
        instrument.sphere_index = random_between(&random, 1.8, 2.5);
        instrument.field_deg = random_between(&random, 0.5, 35);
        ck_assert_int_eq(ifig_instrument_direction(&instrument, r * cos(azimuth), r * sin(azimuth),
                                                   &theta, &phi, NULL),
                         IFIG_OK);
        ck_assert_double_le(theta, instrument.field_deg * (1 + 1e-12));
        ck_assert_int_eq(ifig_instrument_position(&instrument, theta, phi, &x, &y, NULL), IFIG_OK);
        worst = fmax(worst, hypot(x - r * cos(azimuth), y - r * sin(azimuth)));
    }
    tell("place to ray and back", 409, worst);
    ck_assert_double_lt(worst, 1e-9);
}
END_TEST

START_TEST(colours_keep_their_luminance_in_the_gamut_and_come_back_from_srgb)
{
    Random random = {410};
    double luminance = 0, back = 0;
    for (int i = 0; i < DRAWS; i++) {
        static const double share[3] = {0.2126390059, 0.7151686788, 0.0721923154};
        double rgb[3], before = 0, after = 0;
        for (int k = 0; k < 3; k++) {
            rgb[k] = random_between(&random, -0.5, 1.5);
            before += share[k] * rgb[k];
        }
        ifig_colour_into_gamut(rgb);
        for (int k = 0; k < 3; k++) {
            ck_assert(rgb[k] >= 0 && rgb[k] <= 1);
            after += share[k] * rgb[k];
            back = fmax(back, fabs(ifig_srgb_decode(ifig_srgb_encode(rgb[k])) - rgb[k]));
        }
        luminance = fmax(luminance, fabs(after - fmin(fmax(before, 0), 1)));
    }
    tell("luminance in the gamut", 410, luminance);
    tell("sRGB and back", 410, back);
    ck_assert_double_lt(luminance, 1e-9);
    ck_assert_double_lt(back, 1e-7); /* the curve's two parts, as printed, do not quite meet */
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("laws");
    tcase_add_test(facts, a_singly_refractive_plate_passes_what_fresnel_s_equations_say);
    tcase_add_test(facts, total_reflection_begins_at_the_critical_angle);
    tcase_add_test(facts, an_active_stone_turns_the_light_by_its_rotation_times_its_thickness);
    tcase_add_test(facts, a_hand_is_the_sign_of_the_rotation_and_nothing_to_a_stone_without);
    tcase_add_test(facts, a_lean_backward_is_a_lean_the_other_way_and_a_whole_turn_is_none);
    tcase_add_test(facts, a_uniaxial_stone_seen_along_its_axis_does_not_know_its_turn);
    tcase_add_test(facts, a_stress_turns_with_the_stage);
    tcase_add_test(facts, a_quarter_turn_between_crossed_polars_changes_nothing_at_the_centre);
    tcase_add_test(facts,
                   an_accessory_plate_of_the_stone_s_own_retardation_laid_across_it_makes_it_dark);
    tcase_add_test(facts, every_lens_sees_a_ray_where_it_says);
    tcase_add_test(facts, colours_keep_their_luminance_in_the_gamut_and_come_back_from_srgb);
    return run_case(facts, "laws");
}
