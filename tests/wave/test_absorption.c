/* SPDX-License-Identifier: MIT */
/* What a coloured plate takes from the light. */
#include "optics_test.h"

static IfigLayer coloured(const char *key, const char *colour, IfigView view, double thickness_mm)
{
    IfigLayer layer = layer_of(builtin(key), view, thickness_mm);
    layer.body_colour = ifig_species_colour_of_word(layer.species, colour);
    ck_assert_int_gt(layer.body_colour, 0);
    return layer;
}

/* The share of light that vibrates along one axis and crosses a plate at right angles: Fresnel's
 * two faces at n + i kappa (Born & Wolf, Principles of Optics, 1.5 and 14.2) and Lambert's law. */
static double lambert(const IfigLayer *layer, int axis, double nm)
{
    double n[3], per_mm[3];
    ck_assert_int_eq(ifig_species_indices(layer->species, nm, n, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_species_absorption(layer->species, layer->body_colour, nm, per_mm, NULL),
                     IFIG_OK);
    double complex index = n[axis] + I * per_mm[axis] * 1e-6 * nm / (4.0 * acos(-1.0));
    double faces = cabs(4.0 * index / ((index + 1.0) * (index + 1.0)));
    return faces * faces * exp(-per_mm[axis] * layer->thickness_mm);
}

/* Elements of the view's Jones matrix at normal incidence: p is east, s is north. */
static double share(const IfigLayer *layer, double nm, int direction)
{
    const Beam beam = {1.0, nm, 0, 0};
    IfigPlateWave wave = wave_of(layer, 1, beam);
    double amplitude = cabs(element(&wave, direction, direction));
    return amplitude * amplitude;
}

START_TEST(light_along_an_axis_fades_by_lamberts_law)
{
    /* View x: Y is east, Z north. View z: X is east, Y north (include/interfig/crystal.h). */
    for (int nm = 400; nm <= 700; nm += 25) {
        for (int i = 0; i < 4; i++) {
            double thickness = 0.5 + i;
            IfigLayer ruby = coloured("corundum", "ruby", IFIG_VIEW_X, thickness);
            ck_assert_double_eq_tol(share(&ruby, nm, 0), lambert(&ruby, 1, nm), 1e-9);
            ck_assert_double_eq_tol(share(&ruby, nm, 1), lambert(&ruby, 2, nm), 1e-9);
            IfigLayer iolite = coloured("iolite", "iolite", IFIG_VIEW_Z, thickness);
            ck_assert_double_eq_tol(share(&iolite, nm, 0), lambert(&iolite, 0, nm), 1e-9);
            ck_assert_double_eq_tol(share(&iolite, nm, 1), lambert(&iolite, 1, nm), 1e-9);
            IfigLayer spinel = coloured("spinel", "red spinel", IFIG_VIEW_Z, thickness);
            ck_assert_double_eq_tol(share(&spinel, nm, 0), lambert(&spinel, 0, nm), 1e-9);
        }
    }
}
END_TEST

START_TEST(colour_leaves_the_retardation_of_a_stone_as_it_was)
{
    /* kappa shifts phase by its square alone, below 1e-8 of the index */
    const Beam beam = {1.0, 550, 20, 30};
    IfigLayer ruby = coloured("corundum", "ruby", IFIG_VIEW_X, 3);
    double with_colour = retardation_of(&ruby, beam);
    ruby.body_colour = 0;
    ck_assert_double_eq_tol(with_colour, retardation_of(&ruby, beam), 0.01);
    ck_assert_double_gt(with_colour, 10000);
}
END_TEST

START_TEST(no_plate_gives_more_light_than_it_takes)
{
    static const struct {
        const char *key, *colour;
    } stones[] = {{"corundum", "ruby"},           {"corundum", "blue sapphire"},
                  {"emerald", "emerald"},         {"tourmaline_elbaite", "verdelite"},
                  {"alexandrite", "alexandrite"}, {"tanzanite", "tanzanite"},
                  {"spodumene", "kunzite"},       {"quartz", "smoky quartz"}};
    Random random = {1729};
    for (int i = 0; i < 800; i++) {
        const char *key = stones[i % 8].key;
        IfigLayer layers[2] = {
            coloured(key, stones[i % 8].colour, IFIG_VIEW_Z, random_between(&random, 0.01, 20)),
            coloured(key, stones[i % 8].colour, IFIG_VIEW_Y, random_between(&random, 0.01, 20))};
        for (int l = 0; l < 2; l++) {
            layers[l].orientation.tilt_deg = random_between(&random, -180, 180);
            layers[l].orientation.tilt_azimuth_deg = random_between(&random, -180, 180);
            layers[l].orientation.stage_deg = random_between(&random, -180, 180);
        }
        const Beam beam = {1.0, random_between(&random, 380, 780), random_between(&random, 0, 89),
                           random_between(&random, -180, 180)};
        IfigPlateWave one = wave_of(layers, 1, beam), two = wave_of(layers, 2, beam);
        layers[0].body_colour = 0;
        IfigPlateWave clear = wave_of(layers, 1, beam);
        ck_assert_double_le(largest_share(&one), 1.0);
        ck_assert_double_le(largest_share(&one), largest_share(&clear) + 1e-9);
        ck_assert_double_le(largest_share(&two), 1.0);
    }
}
END_TEST

START_TEST(a_colour_that_the_species_lacks_is_refused)
{
    IfigLayer layer = layer_of(builtin("topaz_f"), IFIG_VIEW_Z, 3);
    IfigPlateWave wave;
    IfigError error = IFIG_ERROR_INIT;
    layer.body_colour = 1;
    ck_assert_int_eq(ifig_plate_wave(&layer, 1, 1.0, 550, 0, 0, &wave, &error), IFIG_ERROR_RANGE);
    layer.species = builtin("corundum");
    layer.body_colour = -1;
    ck_assert_int_eq(ifig_plate_wave(&layer, 1, 1.0, 550, 0, 0, &wave, &error), IFIG_ERROR_RANGE);
    layer.body_colour = 4;
    ck_assert_int_eq(ifig_plate_wave(&layer, 1, 1.0, 550, 0, 0, &wave, &error), IFIG_ERROR_RANGE);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("absorption");
    tcase_add_test(facts, light_along_an_axis_fades_by_lamberts_law);
    tcase_add_test(facts, colour_leaves_the_retardation_of_a_stone_as_it_was);
    tcase_add_test(facts, no_plate_gives_more_light_than_it_takes);
    tcase_add_test(facts, a_colour_that_the_species_lacks_is_refused);
    return run_case(facts, "wave absorption");
}
