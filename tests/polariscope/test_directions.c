/* SPDX-License-Identifier: MIT */
/* Light straight through the stone in any direction, held to the propagator of lib/wave. */
#include "hunt.h"

#include "hunt_test.h"

static const double UNTURNED[3][3] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
static const char *const STONES[] = {"quartz",  "calcite",  "corundum", "topaz_f",   "gypsum",
                                     "peridot", "brookite", "sphene",   "cane_sugar"};
enum { STONE_COUNT = sizeof STONES / sizeof STONES[0] };

static IfigMedium medium_of(const IfigLayer *layer, const double rotation[3][3], double nm)
{
    IfigMedium medium;
    ck_assert_int_eq(ifig_layer_medium(layer, rotation, nm, &medium, NULL), IFIG_OK);
    return medium;
}

/* Lay a stone so that a random direction of it points at the observer; which one. */
static IfigDirection lay_at_random(Random *random, IfigLayer *layer)
{
    double r[3][3];
    layer->orientation.view = IFIG_VIEW_Z;
    layer->orientation.tilt_deg = random_between(random, 0, 180);
    layer->orientation.tilt_azimuth_deg = random_between(random, 0, 360);
    ck_assert_int_eq(ifig_orientation_matrix(layer->species, &layer->orientation, r, NULL),
                     IFIG_OK);
    return ifig_direction(r[2]);
}

START_TEST(a_retardation_is_that_of_the_propagator_in_any_direction)
{
    /* Born & Wolf, Principles of Optics, 15.2; Nye, Physical Properties of Crystals, ch. XIV. */
    Random random = {7};
    for (int i = 0; i < STONE_COUNT; i++) {
        IfigLayer layer = layer_of(builtin(STONES[i]), IFIG_VIEW_Z, 2);
        const IfigMedium medium = medium_of(&layer, UNTURNED, 500);
        for (int k = 0; k < 50; k++) {
            const IfigDirection direction = lay_at_random(&random, &layer);
            const Beam beam = {1.0, 500, 0, 0};
            const double exact = retardation_of(&layer, beam);
            const double found = ifig_direction_retardation(&medium, &direction, 2e6);
            ck_assert_msg(fabs(found - exact) <= 1e-9 * exact, "%s: %.12g %.12g", STONES[i], found,
                          exact);
        }
    }
}
END_TEST

/* The brightest turn by trying: the stone's own waves, faces and body colour included. */
static double brightest_by_trying(const IfigPlateWave *wave)
{
    double most = 0;
    for (int turn = 0; turn < 9000; turn++) {
        /* The mean with a quarter turn on: what rotates and absorbs is not alike at both. */
        double light = 0.5 * (crossed_at(wave, 0.01 * turn) + crossed_at(wave, 0.01 * turn + 90));
        most = light > most ? light : most;
    }
    return most;
}

START_TEST(the_brightest_turn_of_one_line_is_that_found_by_trying)
{
    static const double point[2] = {0, 0};
    Random random = {8};
    for (int i = 0; i < STONE_COUNT; i++) {
        Bench bench;
        IfigSpectrumSamples samples;
        IfigHuntSpectrum spectrum;
        set_bench(&bench, builtin(STONES[i]), 0.4);
        light_by_line(&bench, 500);
        bench.layer.body_colour = ifig_species_colour_count(bench.layer.species) > 0;
        ck_assert_int_eq(ifig_lamp_samples(bench.lamp, &samples, NULL), IFIG_OK);
        ck_assert_int_eq(ifig_hunt_spectrum_create(&bench.layer, UNTURNED, &bench.scene.instrument,
                                                   &samples, &spectrum, NULL),
                         IFIG_OK);
        for (int k = 0; k < 5; k++) {
            double xyz[3];
            const IfigDirection direction = lay_at_random(&random, &bench.layer);
            const Beam beam = {1.0, 500, 0, 0};
            const IfigPlateWave wave = wave_of(&bench.layer, 1, beam);
            ifig_hunt_brightest(&spectrum, &direction, 0.4e6, point, xyz);
            /* The turn is tried every 0.01 degrees: cos(4 * 0.005 deg) is 6e-8 below 1. */
            ck_assert_msg(fabs(xyz[1] - brightest_by_trying(&wave)) < 3e-7, "%s: %.9g %.9g",
                          STONES[i], xyz[1], brightest_by_trying(&wave));
        }
        ifig_hunt_spectrum_free(&spectrum);
        ifig_spectrum_samples_free(&samples);
        clear_bench(&bench);
    }
}
END_TEST

START_TEST(cells_about_the_axes_fill_the_sphere)
{
    static const char *const keys[] = {"quartz", "topaz_f", "brookite", "peridot", "cerussite"};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        IfigOpticAxes axes;
        IfigLayer layer = layer_of(builtin(keys[i]), IFIG_VIEW_Z, 1);
        const IfigMedium medium = medium_of(&layer, UNTURNED, SODIUM_NM);
        ck_assert_int_eq(ifig_optic_axes(layer.species, SODIUM_NM, &axes, NULL), IFIG_OK);
        ck_assert_double_eq_tol(ifig_hunt_patch(&medium, &axes, 1e6, 1e9), 4 * IFIG_PI,
                                1e-4 * 4 * IFIG_PI);
    }
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("directions");
    tcase_add_test(facts, a_retardation_is_that_of_the_propagator_in_any_direction);
    tcase_add_test(facts, the_brightest_turn_of_one_line_is_that_found_by_trying);
    tcase_add_test(facts, cells_about_the_axes_fill_the_sphere);
    return run_case(facts, "directions");
}
