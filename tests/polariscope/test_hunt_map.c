/* SPDX-License-Identifier: MIT */
/* The map of all directions, held to sums of single waves and to the places of the axes. */
#include "figure.h"

#include "hunt_test.h"

enum { SIDE = 128 };

static const uint8_t *pixel_at(const uint8_t *rgb, uint32_t side, double x, double y)
{
    size_t column = (size_t)floor(0.5 * side * (1.0 + x));
    size_t row = (size_t)floor(0.5 * side * (1.0 - y));
    return rgb + 3 * (row * side + column);
}

START_TEST(an_axis_stands_where_a_tilt_has_moved_it)
{
    /* Lambert: 2 sin(theta / 2) over its value at the rim, sqrt 2 (Snyder 1987, ch. 24). */
    static const double c[3] = {0, 0, -5};
    Bench bench;
    double x, y;
    set_bench(&bench, builtin("corundum"), 3);
    bench.layer.orientation.tilt_deg = 40;
    bench.layer.orientation.tilt_azimuth_deg = 10;
    bench.layer.orientation.stage_deg = 20;
    ck_assert_int_eq(ifig_hunt_place(&bench.scene, c, &x, &y, NULL), IFIG_OK);
    ck_assert_double_eq_tol(hypot(x, y), sqrt(2) * sin(20 * IFIG_DEGREE), 1e-12);
    ck_assert_double_eq_tol(atan2(y, x) / IFIG_DEGREE, 30, 1e-9);
    uint8_t *rgb = map_of(&bench, SIDE, 1);
    const uint8_t *there = pixel_at(rgb, SIDE, x, y), *middle = pixel_at(rgb, SIDE, 0, 0);
    ck_assert_int_lt(there[0] + there[1] + there[2], 30);
    ck_assert_int_gt(middle[0] + middle[1] + middle[2], 400);
    free(rgb);
    clear_bench(&bench);
}
END_TEST

START_TEST(places_are_refused_without_a_direction)
{
    static const double nowhere[3] = {0, 0, 0}, wild[3] = {0, 0, NAN};
    Bench bench;
    double x, y;
    set_bench(&bench, builtin("corundum"), 3);
    ck_assert_int_eq(ifig_hunt_place(&bench.scene, nowhere, &x, &y, NULL), IFIG_ERROR_RANGE);
    ck_assert_int_eq(ifig_hunt_place(&bench.scene, wild, &x, &y, NULL), IFIG_ERROR_RANGE);
    ck_assert_int_eq(ifig_hunt_place(&bench.scene, NULL, &x, &y, NULL), IFIG_ERROR_ARGUMENT);
    clear_bench(&bench);
}
END_TEST

/* The colour of light straight through a stone, by 1 nm, each wavelength by itself, at that turn,
 * of 0.5 degrees, at which Y is greatest. */
static void brightest_colour(const Bench *bench, const IfigLayer *layer, uint8_t rgb[3])
{
    double most[3] = {0, 0, 0}, white = 0, linear[3];
    static double sum[180][3];
    memset(sum, 0, sizeof sum);
    for (int nm = 380; nm <= 780; nm++) {
        const Beam beam = {1.0, nm, 0, 0};
        const IfigPlateWave wave = wave_of(layer, 1, beam);
        double observer[3], power = ifig_lamp_power(bench->lamp, nm);
        ifig_colour_matching(nm, observer);
        white += power * observer[1];
        for (int turn = 0; turn < 180; turn++) {
            double light = power * crossed_at(&wave, 0.5 * turn);
            for (int i = 0; i < 3; i++) {
                sum[turn][i] += light * observer[i];
            }
        }
    }
    for (int turn = 0; turn < 180; turn++) {
        memcpy(most, sum[turn][1] > most[1] ? sum[turn] : most, sizeof most);
    }
    for (int i = 0; i < 3; i++) {
        most[i] /= white;
    }
    ifig_colour_linear(bench->lamp, most, 0, linear);
    ifig_colour_into_gamut(linear);
    for (int i = 0; i < 3; i++) {
        rgb[i] = (uint8_t)floor(255.0 * ifig_srgb_encode(linear[i]) + 0.5);
    }
}

/* Where the middle pixel of an odd map looks: straight along the view. */
static void check_middle(const char *key, int colour, double thickness_mm, double tilt_deg)
{
    Bench bench;
    uint8_t expected[3];
    set_bench(&bench, builtin(key), thickness_mm);
    bench.layer.orientation.tilt_deg = tilt_deg;
    bench.layer.orientation.tilt_azimuth_deg = 35;
    bench.layer.body_colour = colour;
    /* A pixel of 1/401 of the map is a point to a thin stone. */
    brightest_colour(&bench, &bench.layer, expected);
    enum { FINE = 401 };
    uint8_t *rgb = map_of(&bench, FINE, 0);
    const uint8_t *found = pixel_at(rgb, FINE, 0, 0);
    for (int i = 0; i < 3; i++) {
        ck_assert_msg(abs(found[i] - expected[i]) <= 1, "%s %g: channel %d is %d, not %d", key,
                      tilt_deg, i, found[i], expected[i]);
    }
    free(rgb);
    clear_bench(&bench);
}

START_TEST(a_direction_has_the_colour_of_its_brightest_turn)
{
    check_middle("corundum", 0, 0.3, 30);
    check_middle("corundum", 1, 0.3, 60);
    check_middle("quartz", 0, 0.4, 15);
    check_middle("topaz_f", 0, 0.2, 10);
    check_middle("gypsum", 0, 0.3, 25);
    check_middle("brookite", 0, 0.02, 8);
}
END_TEST

START_TEST(the_middle_of_quartz_is_lit_by_rotation)
{
    /* Check value E4: sin^2(rho t) at the D line, 0.1367 at 1 mm; less at the two faces. */
    Bench bench;
    double loss = 4 * 1.5442 / (2.5442 * 2.5442), linear[3], white[3];
    set_bench(&bench, builtin("quartz"), 1);
    light_by_line(&bench, SODIUM_NM);
    ifig_lamp_white(bench.lamp, white);
    for (int i = 0; i < 3; i++) {
        white[i] *= 0.1367 * loss * loss;
    }
    ifig_colour_linear(bench.lamp, white, 0, linear);
    ifig_colour_into_gamut(linear);
    uint8_t *rgb = map_of(&bench, 255, 1);
    ck_assert_int_le(
        abs(pixel_at(rgb, 255, 0, 0)[0] - (int)floor(255 * ifig_srgb_encode(linear[0]) + 0.5)), 1);
    free(rgb);
    clear_bench(&bench);
}
END_TEST

START_TEST(a_single_stone_makes_a_dark_map_on_the_surround)
{
    Bench bench;
    set_bench(&bench, builtin("spinel"), 3);
    uint8_t *rgb = map_of(&bench, SIDE, 1);
    for (int i = 0; i < 3; i++) {
        ck_assert_int_eq(rgb[i], IFIG_SURROUND_CODE);
        ck_assert_int_eq(pixel_at(rgb, SIDE, 0.5, -0.3)[i], 0);
    }
    free(rgb);
    clear_bench(&bench);
}
END_TEST

START_TEST(a_map_does_not_depend_on_the_threads)
{
    Bench bench;
    set_bench(&bench, builtin("gypsum"), 1);
    uint8_t *one = map_of(&bench, SIDE, 1), *three = map_of(&bench, SIDE, 3);
    ck_assert_mem_eq(one, three, SIDE * SIDE * 3);
    free(one);
    free(three);
    clear_bench(&bench);
}
END_TEST

/* The mean light of a ring of directions of a line lamp under fine fringes. */
START_TEST(fringes_finer_than_a_pixel_leave_their_mean)
{
    /* Calcite of 20 mm under sodium light: about 30 waves a pixel between axis and rim. The mean of
     * sin^2 is a half. Faces: (1 - R)^2 with n 1.6. */
    Bench bench;
    double white[3], linear[3];
    set_bench(&bench, builtin("calcite"), 20);
    light_by_line(&bench, SODIUM_NM);
    uint8_t *rgb = map_of(&bench, SIDE, 1);
    const uint8_t *there = pixel_at(rgb, SIDE, 0.3, 0.4);
    double loss = 4 * 1.6 / (2.6 * 2.6);
    ifig_lamp_white(bench.lamp, white);
    for (int i = 0; i < 3; i++) {
        white[i] *= 0.5 * loss * loss;
    }
    ifig_colour_linear(bench.lamp, white, 0, linear);
    ifig_colour_into_gamut(linear);
    ck_assert_int_le(abs(there[0] - (int)floor(255 * ifig_srgb_encode(linear[0]) + 0.5)), 5);
    free(rgb);
    clear_bench(&bench);
}
END_TEST

static int stop(double share, void *context)
{
    (void)context;
    return share < 0.3;
}

START_TEST(a_map_can_be_cancelled)
{
    Bench bench;
    static uint8_t rgb[SIDE * SIDE * 3];
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    options.pixels = SIDE;
    options.progress = stop;
    set_bench(&bench, builtin("gypsum"), 1);
    ck_assert_int_eq(ifig_hunt_map(&bench.scene, &options, rgb, NULL), IFIG_ERROR_CANCELLED);
    ck_assert_int_eq(ifig_hunt_map(&bench.scene, &options, NULL, NULL), IFIG_ERROR_ARGUMENT);
    clear_bench(&bench);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("hunt map");
    tcase_add_test(facts, an_axis_stands_where_a_tilt_has_moved_it);
    tcase_add_test(facts, places_are_refused_without_a_direction);
    tcase_add_test(facts, a_direction_has_the_colour_of_its_brightest_turn);
    tcase_add_test(facts, the_middle_of_quartz_is_lit_by_rotation);
    tcase_add_test(facts, a_single_stone_makes_a_dark_map_on_the_surround);
    tcase_add_test(facts, a_map_does_not_depend_on_the_threads);
    tcase_add_test(facts, fringes_finer_than_a_pixel_leave_their_mean);
    tcase_add_test(facts, a_map_can_be_cancelled);
    return run_case(facts, "hunt map");
}
