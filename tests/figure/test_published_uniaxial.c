/* SPDX-License-Identifier: MIT */
/* Figures of uniaxial stones against what books say of them. */
#include "published_test.h"

enum { SIZE = 385 };

START_TEST(cross_stands_still_as_the_stage_turns)
{
    /* Bloss, Introduction to the Methods of Optical Crystallography (1961); Wikipedia, Conoscopic
     * interference pattern. */
    Recipe recipe = {.key = "calcite", .thickness_mm = 1};
    Picture first = picture_of(&recipe, SIZE);
    static const double stages[] = {17, 45, 90, 200};
    for (size_t i = 0; i < 4; i++) {
        recipe.stage_deg = stages[i];
        Picture turned = picture_of(&recipe, SIZE);
        ck_assert_double_lt(largest_difference(&first, &turned), 1e-4);
        free(turned.xyz);
    }
    for (int i = 2; i < 97; i++) {
        double r = 0.01 * i;
        for (int arm = 0; arm < 4; arm++) {
            ck_assert_double_lt(light_at_polar(&first, r, 90 * arm), 2e-3);
        }
    }
    ck_assert_double_gt(light_at_polar(&first, 0.6, 45), 0.2);
    free(first.xyz);
}
END_TEST

START_TEST(cross_off_centre_travels_in_a_circle_with_arms_parallel_to_the_polars)
{
    /* Wikipedia, Conoscopic interference pattern. The arms bend a little, as the plane of vibration
     * is not quite that of the axis and the ray; 4 degrees at a tenth of the field. */
    for (int stage = 0; stage < 360; stage += 40) {
        const Recipe recipe = {.key = "aquamarine",
                               .thickness_mm = 3,
                               .tilt_deg = 12,
                               .stage_deg = stage,
                               .aperture = 0.85,
                               .line_nm = 589.3};
        Setup setup;
        double x = 0, y = 0;
        set_up(&recipe, &setup);
        ck_assert_int_eq(melatope(&setup.scene, 0, SODIUM_NM, &x, &y), 1);
        take_down(&setup);
        ck_assert_double_eq_tol(hypot(x, y), 1.577 * sin(12 * IFIG_DEGREE) / 0.85, 2e-3);
        ck_assert_double_eq_tol(x, hypot(x, y) * cos(stage * IFIG_DEGREE), 1e-9);
        Picture picture = picture_of(&recipe, SIZE);
        ck_assert_double_lt(light_at(&picture, x, y), 1e-3);
        Path path = {&picture, x, y, 0.12};
        for (int arm = 0; arm < 4; arm++) {
            double dark = darkest_near(&path, 90 * arm, 30);
            ck_assert_double_eq_tol(dark, 90 * arm, 4);
            ck_assert_double_lt(light_round(dark, &path), 0.1 * light_round(dark + 45, &path));
        }
        free(picture.xyz);
    }
}
END_TEST

/* Dark rings of a plate cut across the axis in sodium light, degrees in air: retardation
 * t no |sqrt(1 - s^2/ne^2) - sqrt(1 - s^2/no^2)| = m lambda, s the sine outside (Born & Wolf,
 * Principles of Optics, 15.4, from memory). */
typedef struct Rings {
    const char *name;
    double omega, epsilon, thickness_mm, ring_deg[5];
} Rings;

static const Rings plates[] = {
    {"calcite 1 mm", 1.65834, 1.48613, 1, {5.118, 7.242, 8.874, 10.253, 11.469}},
    {"quartz 5 mm without rotation", 1.54421, 1.55331, 5, {10.134, 14.360, 17.624, 20.394, 22.851}},
    {"zircon 2 mm", 1.925, 1.984, 2, {7.988, 11.320, 13.892, 16.074, 18.009}},
    {"beryl 3 mm", 1.577, 1.571, 3, {16.392, 23.320, 28.743, 33.420, 37.646}},
};

START_TEST(dark_rings_stand_at_the_angles_of_the_law)
{
    const Rings *plate = &plates[_i];
    IfigSpecies *stone = uniaxial_stone(plate->omega, plate->epsilon);
    Recipe recipe = {.stone = stone, .thickness_mm = plate->thickness_mm, .line_nm = SODIUM_NM};
    for (int lens = 0; lens < 2; lens++) {
        double rim = plate->ring_deg[4] * 1.1, worst = 0;
        recipe.aperture = lens == 0 ? sin(rim * IFIG_DEGREE) : 0;
        recipe.field_deg = lens == 0 ? 0 : rim;
        Picture picture = picture_of(&recipe, 1024);
        for (int m = 0; m < 5; m++) {
            double r0 = radius_of(&picture.instrument, plate->ring_deg[m]), theta, phi;
            double r = dark_ring_near(&picture, r0, 0.06 / (m + 1));
            ck_assert_int_eq(
                ifig_instrument_direction(&picture.instrument, r, 0, &theta, &phi, NULL), IFIG_OK);
            worst = fmax(worst, fabs(theta - plate->ring_deg[m]));
        }
        printf("%s, %s: rings off by %.4f degrees (a pixel is %.3f)\n", plate->name,
               lens == 0 ? "objective" : "sphere", worst, rim / 512);
        ck_assert_double_lt(worst, 0.01);
        free(picture.xyz);
    }
    ifig_species_free(stone);
}
END_TEST

START_TEST(four_times_the_thickness_halves_the_rings)
{
    /* Radii go as sqrt(m / t) (check value C9; Bloss 1961): the picture of 4 t at half the aperture
     * is that of t, but for the faces and the small-angle law. */
    IfigSpecies *stone = uniaxial_stone(1.577, 1.571);
    Recipe recipe = {.stone = stone, .thickness_mm = 4, .line_nm = SODIUM_NM, .aperture = 0.24};
    Picture thin = picture_of(&recipe, SIZE);
    recipe.thickness_mm = 16;
    recipe.aperture = 0.12;
    Picture thick = picture_of(&recipe, SIZE);
    ck_assert_double_lt(largest_difference(&thin, &thick), 0.03);
    ck_assert_double_gt(light_at_polar(&thin, 0.9, 45), 0.1);
    free(thick.xyz);
    free(thin.xyz);
    ifig_species_free(stone);
}
END_TEST

START_TEST(circular_polars_leave_rings_without_cross)
{
    /* Wright, Light: a Course of Experimental Optics, p. 337: the cross and brushes vanish, the
     * rings are unbroken. */
    Recipe recipe = {
        .key = "calcite", .thickness_mm = 1, .line_nm = SODIUM_NM, .circular = 1, .aperture = 0.3};
    Picture circular = picture_of(&recipe, 768);
    recipe.circular = 0;
    Picture linear = picture_of(&recipe, 768);
    double worst = 0, unlike = 0, brightest = 0;
    for (int i = 1; i < 97; i++) {
        double r = 0.01 * i;
        double mean = creal(harmonic(&circular, 0, 0, r, 0));
        for (int a = 0; a < 360; a += 15) {
            worst = fmax(worst, fabs(light_at_polar(&circular, r, a) - mean));
            unlike = fmax(unlike, fabs(light_at_polar(&linear, r, a) - mean));
        }
        brightest = fmax(brightest, mean);
    }
    printf("circular polars: %.1e of the light depends on azimuth; linear ones: %.2f\n", worst,
           unlike);
    /* What is left is interpolation between pixels across rings some 20 pixels apart. */
    ck_assert_double_lt(worst, 0.01);
    ck_assert_double_gt(unlike, 0.5);
    ck_assert_double_gt(brightest, 0.8);
    free(linear.xyz);
    free(circular.xyz);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("uniaxial");
    tcase_add_test(facts, cross_stands_still_as_the_stage_turns);
    tcase_add_test(facts, cross_off_centre_travels_in_a_circle_with_arms_parallel_to_the_polars);
    tcase_add_loop_test(facts, dark_rings_stand_at_the_angles_of_the_law, 0, 4);
    tcase_add_test(facts, four_times_the_thickness_halves_the_rings);
    tcase_add_test(facts, circular_polars_leave_rings_without_cross);
    return run_case(facts, "published: uniaxial figures");
}
