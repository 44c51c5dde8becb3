/* SPDX-License-Identifier: MIT */
/* The light of a stone that is turned: held to ifig_probe, direction by direction, and to the laws
 * of the text books. */
#include "blink_test.h"

/* The mean over the eye's cone of what ifig_probe gives, by the midpoints of evenly spaced rings
 * and azimuths; wavelength 0: Y under the lamp. */
static double mean_of_probes(const Bench *bench, double turn_deg, double wavelength_nm, int rings)
{
    Bench turned = *bench;
    double sum = 0, rim = ifig_instrument_field_deg(&bench->scene.instrument) * IFIG_DEGREE;
    const int azimuths = 4 * rings + 1;
    turned.scene.layers = turned.layers;
    for (int i = 0; i < IFIG_LAYERS_MAX; i++) {
        turned.layers[i].orientation.stage_deg += turn_deg;
    }
    for (int ring = 0; ring < rings; ring++) {
        double r = (ring + 0.5) / rings, theta = asin(r * sin(rim)) / IFIG_DEGREE;
        for (int j = 0; j < azimuths; j++) {
            IfigProbe probe;
            IfigError error = IFIG_ERROR_INIT;
            double phi = 360.0 * (j + 0.3) / azimuths - 180.0;
            ck_assert_msg(ifig_probe(&turned.scene, theta, phi, wavelength_nm, &probe, &error) ==
                              IFIG_OK,
                          "%s", error.message);
            sum += r * (wavelength_nm > 0 ? probe.transmittance : probe.xyz[1]);
        }
    }
    return 2.0 * sum / (rings * azimuths);
}

/* The midpoint rule's error goes as the square of the step. */
static double refined_mean(const Bench *bench, double turn_deg, double wavelength_nm, int rings)
{
    double coarse = mean_of_probes(bench, turn_deg, wavelength_nm, rings);
    double fine = mean_of_probes(bench, turn_deg, wavelength_nm, 2 * rings);
    return fine + (fine - coarse) / 3;
}

static void assert_probed(const Bench *bench, double wavelength_nm, int rings, double tolerance)
{
    IfigBlink blink = blink_of(bench, NULL);
    static const int turns[] = {0, 17, 45, 118, 290};
    for (size_t i = 0; i < sizeof turns / sizeof turns[0]; i++) {
        ck_assert_double_eq_tol(blink.brightness[turns[i]],
                                refined_mean(bench, turns[i], wavelength_nm, rings), tolerance);
    }
}

START_TEST(brightness_is_the_mean_of_the_probes_in_the_cone)
{
    Bench bench;
    set_bench(&bench, builtin("quartz"), IFIG_VIEW_X, 3.0);
    look_away_from_axis(&bench);
    bench.layers[0].orientation.stage_deg = 20;
    light_by_line(&bench, 550.0);
    assert_probed(&bench, 550.0, 8, 1e-6);
    clear_bench(&bench);
}
END_TEST

START_TEST(so_it_is_with_every_arrangement_of_the_instrument)
{
    Bench bench;
    set_bench(&bench, builtin("corundum"), IFIG_VIEW_X, 0.4);
    look_away_from_axis(&bench);
    light_by_line(&bench, 520.0);
    IfigInstrument *instrument = &bench.scene.instrument;
    instrument->immersion_index = 1.5;
    bench.layers[0].body_colour = 1;
    assert_probed(&bench, 520.0, 8, 1e-6);
    instrument->plate = (IfigPlate){IFIG_PLATE_QUARTZ, 380.0, 30.0};
    assert_probed(&bench, 520.0, 8, 1e-6);
    instrument->polariser.kind = IFIG_POLAR_LEFT;
    instrument->analyser.azimuth_deg = 25;
    assert_probed(&bench, 520.0, 8, 1e-6);
    instrument->analyser.kind = IFIG_POLAR_RIGHT;
    assert_probed(&bench, 520.0, 8, 1e-6);
    bench.scene.layer_count = 2;
    bench.layers[1] = layer_of(builtin("quartz"), IFIG_VIEW_C, 1.0);
    instrument->polariser.kind = instrument->analyser.kind = IFIG_POLAR_LINEAR;
    assert_probed(&bench, 520.0, 8, 1e-6);
    clear_bench(&bench);
}
END_TEST

/* A line, where nothing but the cone itself washes the fringes out: dozens of rings. */
START_TEST(a_thick_stone_in_one_line_converges_to_a_ten_thousandth)
{
    Bench bench;
    set_bench(&bench, builtin("calcite"), IFIG_VIEW_C, 10.0);
    bench.layers[0].orientation.tilt_deg = 45;
    light_by_line(&bench, 589.3);
    IfigBlink blink = blink_of(&bench, NULL);
    static const int turns[] = {20, 45};
    for (int i = 0; i < 2; i++) {
        ck_assert_double_eq_tol(blink.brightness[turns[i]],
                                refined_mean(&bench, turns[i], 589.3, 100), 1e-4);
    }
    clear_bench(&bench);
}
END_TEST

/* Y: the figure's 81 spectral samples against the probe's 1601, lamp and observer by splines here
 * and by straight lines there. */
START_TEST(y_is_that_of_the_probes_under_daylight)
{
    Bench bench;
    set_bench(&bench, builtin("quartz"), IFIG_VIEW_X, 3.0);
    look_away_from_axis(&bench);
    assert_probed(&bench, 0, 1, 5e-6);
    clear_bench(&bench);
    set_bench(&bench, builtin("calcite"), IFIG_VIEW_X, 30.0);
    look_away_from_axis(&bench);
    assert_probed(&bench, 0, 1, 5e-6);
    clear_bench(&bench);
}
END_TEST

/* I = sin^2(2a) sin^2(pi retardation / lambda) (Born & Wolf, Principles of Optics, 15.4.1): a
 * quarter and a half wave at normal incidence. Faces reflect a little, so that the curve is held to
 * its own greatest value, and that to the transmission of two faces. */
START_TEST(the_turn_follows_sine_squared_of_twice_the_angle)
{
    IfigSpecies *stone = uniaxial_stone(1.5, 1.51);
    static const double waves[] = {0.25, 0.5};
    for (int i = 0; i < 2; i++) {
        Bench bench;
        set_bench(&bench, stone, IFIG_VIEW_X, 589.3e-6 * waves[i] / 0.01);
        light_by_line(&bench, 589.3);
        bench.scene.instrument.field_deg = 0.1;
        IfigBlink blink = blink_of(&bench, NULL);
        const double faces = pow(4 * 1.505 / (2.505 * 2.505), 2);
        const double full = faces * pow(sin(IFIG_PI * waves[i]), 2);
        for (int turn = 0; turn < IFIG_BLINK_TURNS; turn++) {
            double law = full * pow(sin(2 * turn * IFIG_DEGREE), 2);
            ck_assert_double_eq_tol(blink.brightness[turn], law, 1e-4);
        }
        ck_assert_double_eq_tol(fmod(blink.brightest_deg, 90), 45, 0.01);
        ck_assert_double_eq_tol(blink.most, full, 1e-4);
        ck_assert_double_lt(blink.least, 1e-6);
        clear_bench(&bench);
    }
    ifig_species_free(stone);
}
END_TEST

/* The same law, the stone already turned by a third of a degree: its extremes lie between the whole
 * degrees at which it is told. */
START_TEST(the_extremes_are_found_between_whole_degrees)
{
    IfigSpecies *stone = uniaxial_stone(1.5, 1.51);
    static const double ahead[] = {0.3, -0.2};
    for (int i = 0; i < 2; i++) {
        Bench bench;
        set_bench(&bench, stone, IFIG_VIEW_X, 589.3e-6 * 0.25 / 0.01);
        light_by_line(&bench, 589.3);
        bench.scene.instrument.field_deg = 0.1;
        bench.layers[0].orientation.stage_deg = ahead[i];
        IfigBlink blink = blink_of(&bench, NULL);
        ck_assert_double_eq_tol(fmod(blink.brightest_deg, 90), 45 - ahead[i], 0.01);
        ck_assert_double_eq_tol(fmod(blink.darkest_deg + 45, 90), 45 - ahead[i], 0.01);
        clear_bench(&bench);
    }
    ifig_species_free(stone);
}
END_TEST

/* What the header promises: from where it stands toward the polariser, the shorter way. Neither way
 * is like the other where the polars are not crossed. */
START_TEST(the_analyser_is_opened_toward_the_polariser_the_shorter_way)
{
    static const double stands_deg[] = {60, 120};
    static const double opening_by[] = {-1, 1};
    for (int i = 0; i < 2; i++) {
        Bench bench;
        set_bench(&bench, builtin("quartz"), IFIG_VIEW_X, 0.7);
        look_away_from_axis(&bench);
        light_by_line(&bench, 555);
        double *const analyser_deg = &bench.scene.instrument.analyser.azimuth_deg;
        *analyser_deg = stands_deg[i];
        const IfigBlink opened = blink_of(&bench, NULL);
        bench.layers[0].orientation.stage_deg += opened.brightest_deg;
        for (int degree = 0; degree <= 60; degree += 20) {
            *analyser_deg = stands_deg[i] + opening_by[i] * degree;
            const IfigBlink there = blink_of(&bench, NULL);
            ck_assert_double_eq_tol(opened.opened[degree], there.brightness[0], 1e-9);
        }
        clear_bench(&bench);
    }
}
END_TEST

/* All the light that leaves the stone along the line of sight, |J p|^2. */
static double all_the_light(const Bench *bench, double turn_deg, double wavelength_nm)
{
    IfigLayer layer = bench->layers[0];
    layer.orientation.stage_deg += turn_deg;
    IfigPlateWave wave = wave_of(&layer, 1, (Beam){1.0, wavelength_nm, 0, 0});
    double complex p = element(&wave, 0, 0), s = element(&wave, 1, 0);
    return creal(p * conj(p) + s * conj(s));
}

START_TEST(crossed_and_parallel_add_to_all_the_light)
{
    static const char *const keys[] = {"quartz", "calcite", "apatite", "topaz_f", "tanzanite"};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        Bench bench;
        set_bench(&bench, builtin(keys[i]), IFIG_VIEW_X, 0.7);
        look_away_from_axis(&bench);
        light_by_line(&bench, 555);
        IfigBlink crossed = blink_of(&bench, NULL);
        bench.scene.instrument.analyser.azimuth_deg = 0;
        IfigBlink parallel = blink_of(&bench, NULL);
        for (int turn = 0; turn < IFIG_BLINK_TURNS; turn += 15) {
            ck_assert_double_eq_tol(crossed.brightness[turn] + parallel.brightness[turn],
                                    all_the_light(&bench, turn, 555), 1e-4);
        }
        ck_assert_double_eq_tol(crossed.opened[0] + crossed.opened[90],
                                all_the_light(&bench, crossed.brightest_deg, 555), 1e-4);
        clear_bench(&bench);
    }
}
END_TEST

START_TEST(a_quarter_turn_brings_the_same_light_back)
{
    Bench bench;
    set_bench(&bench, builtin("tanzanite"), IFIG_VIEW_X, 0.2);
    look_away_from_axis(&bench);
    IfigBlink blink = blink_of(&bench, NULL);
    for (int turn = 0; turn < 270; turn++) {
        /* The polars change places: alike but for what a cone leans to. */
        ck_assert_double_eq_tol(blink.brightness[turn], blink.brightness[turn + 90], 2e-5);
    }
    for (int i = 0; i < IFIG_BLINK_COLOURS / 2; i++) {
        for (int channel = 0; channel < 3; channel++) {
            ck_assert_double_eq_tol(blink.colour_srgb[i][channel],
                                    blink.colour_srgb[i + IFIG_BLINK_COLOURS / 2][channel], 1e-9);
        }
    }
    clear_bench(&bench);
}
END_TEST

/* What the eye sees of a plate of first order red (550 nm) is the colour the probe gives. */
START_TEST(the_colour_is_that_of_the_probe)
{
    IfigSpecies *stone = uniaxial_stone(1.5, 1.51);
    Bench bench;
    IfigProbe probe;
    set_bench(&bench, stone, IFIG_VIEW_X, 0.055);
    IfigBlink blink = blink_of(&bench, NULL);
    bench.layers[0].orientation.stage_deg = 45;
    ck_assert_int_eq(ifig_probe(&bench.scene, 0, 0, 0, &probe, NULL), IFIG_OK);
    for (int channel = 0; channel < 3; channel++) {
        ck_assert_double_eq_tol(blink.colour_srgb[2][channel], probe.srgb[channel], 0.005);
    }
    clear_bench(&bench);
    ifig_species_free(stone);
}
END_TEST

START_TEST(a_lens_is_refused_and_so_is_a_pattern_in_a_stack)
{
    Bench bench;
    IfigBlink blink = IFIG_BLINK_INIT;
    IfigError error = IFIG_ERROR_INIT;
    IfigTexture grains = IFIG_TEXTURE_INIT;
    set_bench(&bench, builtin("quartz"), IFIG_VIEW_X, 3.0);
    bench.scene.instrument.lens = IFIG_LENS_SPHERE;
    ck_assert_int_eq(ifig_blink(&bench.scene, NULL, &blink, &error), IFIG_ERROR_UNSUITABLE);
    ck_assert_ptr_nonnull(strstr(error.message, "take the lens off"));
    bench.scene.instrument.lens = IFIG_LENS_NONE;
    bench.scene.layer_count = 2;
    grains.pattern = IFIG_PATTERN_GRAINS;
    grains.grain_mm = 0.1;
    ck_assert_int_eq(ifig_blink(&bench.scene, &grains, &blink, &error), IFIG_ERROR_UNSUITABLE);
    ck_assert_ptr_nonnull(strstr(error.message, "one layer"));
    ck_assert_int_eq(ifig_blink(NULL, NULL, &blink, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_blink(&bench.scene, NULL, NULL, &error), IFIG_ERROR_ARGUMENT);
    clear_bench(&bench);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("turn");
    tcase_add_test(facts, brightness_is_the_mean_of_the_probes_in_the_cone);
    tcase_add_test(facts, so_it_is_with_every_arrangement_of_the_instrument);
    tcase_add_test(facts, a_thick_stone_in_one_line_converges_to_a_ten_thousandth);
    tcase_add_test(facts, y_is_that_of_the_probes_under_daylight);
    tcase_add_test(facts, the_turn_follows_sine_squared_of_twice_the_angle);
    tcase_add_test(facts, the_extremes_are_found_between_whole_degrees);
    tcase_add_test(facts, the_analyser_is_opened_toward_the_polariser_the_shorter_way);
    tcase_add_test(facts, crossed_and_parallel_add_to_all_the_light);
    tcase_add_test(facts, a_quarter_turn_brings_the_same_light_back);
    tcase_add_test(facts, the_colour_is_that_of_the_probe);
    tcase_add_test(facts, a_lens_is_refused_and_so_is_a_pattern_in_a_stack);
    return run_case(facts, "turn");
}
