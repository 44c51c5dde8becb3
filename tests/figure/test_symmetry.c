/* SPDX-License-Identifier: MIT */
/* Turns that leave a figure as it is, or turn it as a whole. */
#include "figure_test.h"

#include <stdio.h>

enum { SIZE = 256 };

static const char *const species[] = {"calcite", "quartz", "topaz_f",
                                      "sphene",  "borax",  "brookite"};
enum { SPECIES = sizeof species / sizeof species[0] };

/* How a picture differs from another after quarter turns counter-clockwise: at its worst pixel, and
 * in the mean. */
typedef struct Unlike {
    double worst, mean;
} Unlike;

static Unlike unlike_after_turns(const Picture *a, const Picture *b, int quarters)
{
    Unlike unlike = {0, 0};
    for (uint32_t row = 0; row < SIZE; row++) {
        for (uint32_t column = 0; column < SIZE; column++) {
            uint32_t x = column, y = row;
            for (int turn = 0; turn < quarters; turn++) {
                uint32_t next = SIZE - 1 - x;
                x = y;
                y = next;
            }
            for (int i = 0; i < 3; i++) {
                double difference =
                    fabs((double)pixel_at(a, column, row)[i] - (double)pixel_at(b, x, y)[i]);
                unlike.worst = fmax(unlike.worst, difference);
                unlike.mean += difference / (3.0 * SIZE * SIZE);
            }
        }
    }
    return unlike;
}

/* Points at which tiles are put to the test do not turn with the picture, so that beside an optic
 * axis one picture may take finer tiles than the other: a single pixel may be off by half a level
 * of 255, as anywhere (3e-3 of the lamp's light), the picture by nothing. */
static void check_alike(const char *what, Unlike unlike)
{
    printf("%s: worst pixel %.1e, mean %.1e\n", what, unlike.worst, unlike.mean);
    ck_assert_double_lt(unlike.worst, 3e-3);
    ck_assert_double_lt(unlike.mean, 1e-5);
}

START_TEST(half_a_turn_of_the_stage_turns_the_picture_by_half)
{
    /* Polars have no sense: 180 degrees of the stage alone turn everything. */
    Recipe recipe = {.key = species[_i], .thickness_mm = 0.7, .tilt_deg = 6, .stage_deg = 22};
    Picture first = picture_of(&recipe, SIZE);
    recipe.stage_deg += 180;
    Picture turned = picture_of(&recipe, SIZE);
    check_alike(species[_i], unlike_after_turns(&first, &turned, 2));
    free(turned.xyz);
    free(first.xyz);
}
END_TEST

START_TEST(half_a_turn_of_the_stage_leaves_a_bisectrix_figure_as_it_is)
{
    /* The indicatrix has a two-fold axis along each of its own. */
    Recipe recipe = {.key = "topaz_f", .thickness_mm = 2, .stage_deg = 22};
    Picture first = picture_of(&recipe, SIZE);
    recipe.stage_deg += 180;
    Picture turned = picture_of(&recipe, SIZE);
    ck_assert_double_lt(largest_difference(&first, &turned), 1e-5);
    free(turned.xyz);
    free(first.xyz);
}
END_TEST

START_TEST(stone_and_polars_turned_by_a_quarter_turn_the_picture)
{
    Recipe recipe = {.key = species[_i], .thickness_mm = 0.7, .tilt_deg = 6, .stage_deg = 22};
    Picture first = picture_of(&recipe, SIZE);
    recipe.stage_deg += 90;
    recipe.polars_deg += 90;
    Picture turned = picture_of(&recipe, SIZE);
    check_alike(species[_i], unlike_after_turns(&first, &turned, 1));
    free(turned.xyz);
    free(first.xyz);
}
END_TEST

START_TEST(stone_and_polars_turned_by_30_degrees_turn_the_light)
{
    Recipe recipe = {.key = species[_i], .thickness_mm = 0.7, .tilt_deg = 6, .stage_deg = 22};
    Setup first, second;
    double worst = 0;
    set_up(&recipe, &first);
    recipe.stage_deg += 30;
    recipe.polars_deg += 30;
    set_up(&recipe, &second);
    for (int i = 0; i < 60; i++) {
        IfigProbe a, b;
        double theta = 0.9 * i, phi = 47.0 * i - 1000;
        ck_assert_int_eq(ifig_probe(&first.scene, theta, phi, 500 + i, &a, NULL), IFIG_OK);
        ck_assert_int_eq(ifig_probe(&second.scene, theta, phi + 30, 500 + i, &b, NULL), IFIG_OK);
        worst = fmax(worst, fabs(a.transmittance - b.transmittance));
    }
    printf("%s, 30 degrees of all: %.1e\n", species[_i], worst);
    ck_assert_double_lt(worst, 1e-9);
    take_down(&second);
    take_down(&first);
}
END_TEST

START_TEST(picture_turned_by_30_degrees_is_the_picture_but_for_its_pixels)
{
    Recipe recipe = {.key = "topaz_f", .thickness_mm = 1, .stage_deg = 10, .aperture = 0.7};
    Picture first = picture_of(&recipe, 512);
    recipe.stage_deg += 30;
    recipe.polars_deg += 30;
    Picture turned = picture_of(&recipe, 512);
    double worst = 0, brightest = 0;
    for (double r = 0; r < 0.96; r += 0.02) {
        for (int a = 0; a < 360; a += 10) {
            double here = light_at_polar(&first, r, a);
            worst = fmax(worst, fabs(light_at_polar(&turned, r, a + 30) - here));
            brightest = fmax(brightest, here);
        }
    }
    printf("topaz turned by 30 degrees: %.1e of light up to %.2f\n", worst, brightest);
    ck_assert_double_lt(worst, 3e-3);
    ck_assert_double_gt(brightest, 0.3);
    free(turned.xyz);
    free(first.xyz);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("symmetry");
    tcase_add_loop_test(facts, half_a_turn_of_the_stage_turns_the_picture_by_half, 0, SPECIES);
    tcase_add_test(facts, half_a_turn_of_the_stage_leaves_a_bisectrix_figure_as_it_is);
    tcase_add_loop_test(facts, stone_and_polars_turned_by_a_quarter_turn_the_picture, 0, SPECIES);
    tcase_add_loop_test(facts, stone_and_polars_turned_by_30_degrees_turn_the_light, 0, SPECIES);
    tcase_add_test(facts, picture_turned_by_30_degrees_is_the_picture_but_for_its_pixels);
    return run_case(facts, "symmetry");
}
