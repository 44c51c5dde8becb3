/* SPDX-License-Identifier: MIT */
/* A small picture is the mean of a larger one (finer.c), also at the rim, where only a part of a
 * pixel is covered; and a pixel has the colour of exact waves alone (probe.c). */
#include "figure_test.h"

#include <stdio.h>

enum { SMALL = 64, PARTS = 8, LARGE = SMALL * PARTS };

/* What a small pixel should be: the light of its parts, as far as they lie in the disc, times the
 * share of the pixel that does. Returns 0 where none does. */
static int mean_of_parts(const Picture *large, uint32_t column, uint32_t row, double xyz[3])
{
    double covered = 0, share = ifig_share_in_disc(0.5 * SMALL, column, row);
    xyz[0] = xyz[1] = xyz[2] = 0;
    for (uint32_t part = 0; part < PARTS * PARTS; part++) {
        uint32_t x = column * PARTS + part % PARTS, y = row * PARTS + part / PARTS;
        covered += ifig_share_in_disc(0.5 * LARGE, x, y);
        for (int i = 0; i < 3; i++) {
            xyz[i] += (double)pixel_at(large, x, y)[i]; /* times its share */
        }
    }
    for (int i = 0; i < 3 && covered > 0; i++) {
        xyz[i] *= share / covered;
    }
    return share > 0 && covered > 0;
}

START_TEST(small_pictures_are_means_of_larger_ones_to_the_rim)
{
    static const Recipe calcite = {.key = "calcite", .thickness_mm = 1, .tilt_deg = 5};
    Picture small = picture_of(&calcite, SMALL), large = picture_of(&calcite, LARGE);
    double worst = 0;
    int rim = 0;
    for (uint32_t p = 0; p < SMALL * SMALL; p++) {
        uint32_t column = p % SMALL, row = p / SMALL;
        double share = ifig_share_in_disc(0.5 * SMALL, column, row), xyz[3];
        if (mean_of_parts(&large, column, row, xyz)) {
            rim += share < 0.9;
            for (int i = 0; i < 3; i++) {
                worst = fmax(worst, fabs((double)pixel_at(&small, column, row)[i] - xyz[i]));
            }
        }
    }
    printf("off by at most %.1e; %d pixels at the rim\n", worst, rim);
    ck_assert_int_gt(rim, SMALL);
    ck_assert_double_lt(worst, 1e-5);
    free(small.xyz);
    free(large.xyz);
}
END_TEST

START_TEST(a_pixel_has_the_colour_of_exact_waves)
{
    static const Recipe recipes[] = {
        {.key = "topaz_f", .thickness_mm = 0.05, .tilt_deg = 4, .stage_deg = 40},
        {.key = "quartz", .thickness_mm = 1, .lamp = IFIG_LAMP_TUNGSTEN}};
    static const double at[][2] = {{0.3, 0.4}, {-0.5, 0.1}, {0.2, -0.7}};
    enum { SIZE = 800 };
    Picture picture = picture_of(&recipes[_i], SIZE);
    Setup setup;
    set_up(&recipes[_i], &setup);
    for (size_t p = 0; p < sizeof at / sizeof at[0]; p++) {
        double theta, phi, xyz[3];
        IfigProbe probe;
        ck_assert_int_eq(ifig_instrument_direction(&setup.scene.instrument, at[p][0], at[p][1],
                                                   &theta, &phi, NULL),
                         IFIG_OK);
        ck_assert_int_eq(ifig_probe(&setup.scene, theta, phi, 0, &probe, NULL), IFIG_OK);
        ck_assert_int_eq(probe.has_colour, 1);
        colour_at(&picture, at[p][0], at[p][1], xyz);
        for (int i = 0; i < 3; i++) {
            printf("%.5f %.5f  ", probe.xyz[i], xyz[i]);
            /* The picture is read linearly between its pixels' centres. */
            ck_assert_double_eq_tol(probe.xyz[i], xyz[i], 3e-4);
        }
        printf("\n");
    }
    free(picture.xyz);
    take_down(&setup);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("small");
    tcase_add_test(facts, small_pictures_are_means_of_larger_ones_to_the_rim);
    tcase_add_loop_test(facts, a_pixel_has_the_colour_of_exact_waves, 0, 2);
    return run_case(facts, "small");
}
