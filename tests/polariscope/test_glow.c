/* SPDX-License-Identifier: MIT */
/* The face of an aggregate. */
#include "face_test.h"

enum { SIZE = 96 };

START_TEST(a_fine_aggregate_glows_alike_at_every_turn_and_between_any_polars)
{
    /* never dark: common practice, no source; half of the light that its two faces leave: what is
     * wholly depolarised */
    static const char *const keys[] = {"chalcedony", "nephrite"};
    for (int i = 0; i < 2; i++) {
        for (double stage = 0; stage < 90; stage += 30) {
            Stone stone;
            stone_ready(&stone, keys[i], IFIG_PATTERN_USUAL, 0, 3);
            stone.layer.orientation.stage_deg = stage;
            float(*crossed)[3] = face_pixels(&stone, SIZE, IFIG_PIXELS_XYZ);
            stone.scene.instrument.analyser.azimuth_deg = 0;
            float(*opened)[3] = face_pixels(&stone, SIZE, IFIG_PIXELS_XYZ);
            double dark = mean_light((const float(*)[3])crossed, SIZE);
            double bright = mean_light((const float(*)[3])opened, SIZE);
            ck_assert_double_eq_tol(dark / (dark + bright), 0.5, 0.03);
            ck_assert_double_gt(dark + bright, 0.85);
            free(crossed);
            free(opened);
            stone_gone(&stone);
        }
    }
}
END_TEST

START_TEST(a_large_grain_has_the_colour_of_its_column)
{
    Stone stone;
    int held = 0;
    stone_ready(&stone, "jadeite", IFIG_PATTERN_GRAINS, 0, 2);
    stone.texture.grain_mm = 2;
    stone.layer.orientation.stage_deg = 35;
    float(*xyz)[3] = face_pixels(&stone, SIZE, IFIG_PIXELS_XYZ);
    for (uint32_t column = 10; column < SIZE - 10; column += 4) {
        float *here = xyz[40 * SIZE + column], *next = xyz[40 * SIZE + column + 1];
        if (fabs((double)(here[1] - next[1])) > 1e-6) {
            continue; /* a border */
        }
        double exact[3], shown[3];
        summed(&stone, middle_of(column, SIZE), -middle_of(40, SIZE), exact);
        for (int c = 0; c < 3; c++) {
            shown[c] = (double)here[c];
        }
        ck_assert_double_lt(levels_apart(&stone, exact, shown), 1.0);
        held++;
    }
    ck_assert_int_gt(held, 8);
    free(xyz);
    stone_gone(&stone);
}
END_TEST

START_TEST(the_same_seed_gives_the_same_stone_and_another_seed_another)
{
    Stone stone;
    stone_ready(&stone, "jadeite", IFIG_PATTERN_USUAL, 0, 2);
    uint8_t *first = face_pixels(&stone, SIZE, IFIG_PIXELS_SRGB8);
    uint8_t *again = face_pixels(&stone, SIZE, IFIG_PIXELS_SRGB8);
    stone.texture.seed = 2;
    uint8_t *other = face_pixels(&stone, SIZE, IFIG_PIXELS_SRGB8);
    int differ = 0;
    for (uint32_t i = 0; i < 3 * SIZE * SIZE; i++) {
        ck_assert_int_eq(first[i], again[i]);
        differ += first[i] != other[i];
    }
    ck_assert_int_gt(differ, SIZE * SIZE);
    free(first);
    free(again);
    free(other);
    stone_gone(&stone);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("glow");
    tcase_add_test(facts, a_fine_aggregate_glows_alike_at_every_turn_and_between_any_polars);
    tcase_add_test(facts, a_large_grain_has_the_colour_of_its_column);
    tcase_add_test(facts, the_same_seed_gives_the_same_stone_and_another_seed_another);
    return run_case(facts, "polariscope glow");
}
