/* SPDX-License-Identifier: MIT */
/* Twin lamellae, and Brazil's left in right. */
#include "face_test.h"

#include <string.h>

/* The slabs at a place. */
static size_t slabs_of(const Stone *stone, double x, double y, IfigSlab slab[IFIG_SLABS_MOST])
{
    double rotation[3][3];
    IfigSlabs slabs;
    ck_assert_int_eq(
        ifig_orientation_matrix(stone->layer.species, &stone->layer.orientation, rotation, NULL),
        IFIG_OK);
    ifig_slabs_ready(&stone->scene, &stone->texture, (const double(*)[3])rotation, &slabs);
    IfigSlabPlace place = ifig_slabs_place(&slabs, x, y);
    return ifig_slabs_at(&slabs, place.set, place.along_mm, slab);
}

START_TEST(slabs_fill_the_thickness_host_and_twin_in_turn)
{
    Stone stone;
    Random random = {3};
    stone_ready(&stone, "corundum", IFIG_PATTERN_TWINS, 0, 7);
    for (int trial = 0; trial < 2000; trial++) {
        IfigSlab slab[IFIG_SLABS_MOST];
        double sum = 0, twin = 0;
        stone.layer.orientation.tilt_deg = random_between(&random, -90, 90);
        stone.layer.orientation.tilt_azimuth_deg = random_between(&random, 0, 360);
        stone.layer.orientation.stage_deg = random_between(&random, 0, 360);
        size_t count = slabs_of(&stone, random_between(&random, -0.7, 0.7),
                                random_between(&random, -0.7, 0.7), slab);
        for (size_t i = 0; i < count; i++) {
            sum += slab[i].thickness_mm;
            twin += slab[i].other ? slab[i].thickness_mm : 0.0;
            ck_assert(i == 0 || slab[i].other != slab[i - 1].other);
        }
        ck_assert_double_eq_tol(sum, 7.0, 1e-9);
        ck_assert_double_ge(sum, twin);
    }
    stone_gone(&stone);
}
END_TEST

START_TEST(a_corundum_twins_axes_stand_115_degrees_apart)
{
    /* A half turn about the normal of r, 57.61 degrees from c (c/a 1.3652, from memory; twin plane
     * {1 0 -1 1}: open teaching pages of the Univ. of the Western Cape): 2 x 57.61. */
    Stone stone;
    double rotation[2][3][3], cosine = 0;
    stone_ready(&stone, "corundum", IFIG_PATTERN_TWINS, 0, 3);
    ck_assert_int_eq(ifig_twin_rotations(&stone.scene, 0, rotation, NULL), IFIG_OK);
    for (int i = 0; i < 3; i++) {
        cosine += rotation[0][i][2] * rotation[1][i][2];
    }
    ck_assert_double_eq_tol(acos(cosine) / IFIG_DEGREE, 115.22, 0.01);
    stone_gone(&stone);
}
END_TEST

/* A pile of up to four of the wave's own layers. */
static void hold_to_wave(const Stone *stone, const IfigLayer kinds[2], double x, double y)
{
    IfigSlab slab[IFIG_SLABS_MOST];
    IfigLayer layers[IFIG_LAYERS_MAX];
    IfigPlateWave wave;
    size_t count = slabs_of(stone, x, y, slab);
    if (count > IFIG_LAYERS_MAX) {
        return;
    }
    for (size_t i = 0; i < count; i++) {
        layers[i] = kinds[slab[i].other];
        layers[i].thickness_mm = fmax(slab[i].thickness_mm, 0.001);
        if (slab[i].thickness_mm < 0.001) {
            return;
        }
    }
    ck_assert_int_eq(ifig_plate_wave(layers, count, 1, 480, 0, 0, &wave, NULL), IFIG_OK);
    IfigJonesXy jones = jones_at(stone, x, y, 480);
    for (int i = 0; i < 4; i++) {
        ck_assert_double_lt(cabs(jones.m[i / 2][i % 2] - wave.jones.element[i / 2][i % 2].re -
                                 I * wave.jones.element[i / 2][i % 2].im),
                            1e-7);
    }
}

START_TEST(a_line_of_sight_through_twins_is_a_stack_of_layers)
{
    /* View Y: c east; the twin's c at 115.22 degrees from it, counter-clockwise or clockwise, in
     * the plane of the face: the host turned. */
    Stone stone;
    stone_ready(&stone, "corundum", IFIG_PATTERN_TWINS, 0, 2);
    stone.layer.orientation.view = IFIG_VIEW_Y;
    double rotation[2][3][3];
    ck_assert_int_eq(ifig_twin_rotations(&stone.scene, 0, rotation, NULL), IFIG_OK);
    double turn = atan2(rotation[1][1][2], rotation[1][0][2]) / IFIG_DEGREE;
    ck_assert_double_eq_tol(fabs(turn), 115.22, 0.01);
    for (double stage = 0; stage < 90; stage += 17) {
        stone.layer.orientation.stage_deg = stage;
        IfigLayer kinds[2] = {stone.layer, stone.layer};
        kinds[1].orientation.stage_deg = stage + turn;
        for (double x = -0.65; x < 0.7; x += 0.02) {
            hold_to_wave(&stone, kinds, x, 0.1);
        }
    }
    stone_gone(&stone);
}
END_TEST

START_TEST(brazil_twins_are_layers_of_either_hand)
{
    Stone stone;
    stone_ready(&stone, "quartz", IFIG_PATTERN_BRAZIL, 0, 1.5);
    for (double tilt = 0; tilt < 10; tilt += 4) {
        stone.layer.orientation.tilt_deg = tilt;
        IfigLayer kinds[2] = {stone.layer, stone.layer};
        kinds[1].hand = IFIG_HAND_LEFT;
        for (double x = -0.65; x < 0.7; x += 0.05) {
            hold_to_wave(&stone, kinds, x, 0.3);
        }
    }
    stone_gone(&stone);
}
END_TEST

START_TEST(where_left_and_right_quartz_are_alike_thick_it_is_dark)
{
    /* Airy, from memory: the rotations undo each other. */
    Stone stone;
    stone_ready(&stone, "quartz", IFIG_PATTERN_BRAZIL, 0, 4);
    const double rotation = ifig_species_rotation_deg_per_mm(stone.layer.species, 560);
    for (double y = 0.05; y < 0.95; y += 0.01) {
        IfigSlab slab[IFIG_SLABS_MOST];
        double net = 0;
        size_t count = slabs_of(&stone, 0, y, slab);
        for (size_t i = 0; i < count; i++) {
            net += slab[i].other ? -slab[i].thickness_mm : slab[i].thickness_mm;
        }
        IfigJonesXy jones = jones_at(&stone, 0, y, 560);
        double turned = sin(net * rotation * IFIG_DEGREE);
        double crossed = creal(jones.m[1][0] * conj(jones.m[1][0]));
        ck_assert_double_eq_tol(crossed, 0.912 * turned * turned, 0.005);
    }
    stone_gone(&stone);
}
END_TEST

START_TEST(lamellae_are_coloured_as_the_sum_over_the_whole_spectrum_says)
{
    static const struct {
        const char *key;
        IfigPattern pattern;
        IfigView view;
        double thickness_mm, tilt_deg;
    } stones[] = {{"corundum", IFIG_PATTERN_TWINS, IFIG_VIEW_Y, 3, 20},
                  {"corundum", IFIG_PATTERN_TWINS, IFIG_VIEW_C, 9, 30},
                  {"quartz", IFIG_PATTERN_BRAZIL, IFIG_VIEW_C, 8, 0},
                  {"calcite", IFIG_PATTERN_TWINS, IFIG_VIEW_Y, 0.5, 60}};
    for (int s = 0; s < 4; s++) {
        Stone stone;
        enum { SIZE = 512 };
        stone_ready(&stone, stones[s].key, stones[s].pattern, 0, stones[s].thickness_mm);
        stone.layer.orientation.view = stones[s].view;
        stone.layer.orientation.tilt_deg = stones[s].tilt_deg;
        stone.layer.orientation.tilt_azimuth_deg = 60;
        stone.layer.orientation.stage_deg = 20;
        float(*xyz)[3] = face_pixels(&stone, SIZE, IFIG_PIXELS_XYZ);
        double most = 0;
        for (uint32_t column = 90; column < SIZE - 90; column += 83) {
            double exact[3] = {0}, part[3], shown[3];
            for (int i = 0; i < 64; i++) { /* the area of the pixel */
                double right = ((i % 8 + 0.5) / 8 - 0.5) * 2.0 / SIZE;
                double up = ((i / 8 + 0.5) / 8 - 0.5) * 2.0 / SIZE;
                summed(&stone, middle_of(column, SIZE) + right, -middle_of(160, SIZE) + up, part);
                for (int c = 0; c < 3; c++) {
                    exact[c] += part[c] / 64;
                }
            }
            for (int c = 0; c < 3; c++) {
                shown[c] = (double)xyz[160 * SIZE + column][c];
            }
            most = fmax(most, levels_apart(&stone, exact, shown));
        }
        ck_assert_msg(most < 0.5, "%s: %g levels", stones[s].key, most);
        free(xyz);
        stone_gone(&stone);
    }
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("lamellae");
    tcase_add_test(facts, slabs_fill_the_thickness_host_and_twin_in_turn);
    tcase_add_test(facts, a_corundum_twins_axes_stand_115_degrees_apart);
    tcase_add_test(facts, a_line_of_sight_through_twins_is_a_stack_of_layers);
    tcase_add_test(facts, brazil_twins_are_layers_of_either_hand);
    tcase_add_test(facts, where_left_and_right_quartz_are_alike_thick_it_is_dark);
    tcase_add_test(facts, lamellae_are_coloured_as_the_sum_over_the_whole_spectrum_says);
    return run_case(facts, "polariscope lamellae");
}
