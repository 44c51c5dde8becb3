/* SPDX-License-Identifier: MIT */
/* The sign by a full-wave plate: section G of the check values, and pictures taken through a plate.
 */
#include "reading_test.h"

static void assert_quadrants(const IfigReading *reading, IfigPlateEffect ne_sw,
                             IfigPlateEffect nw_se)
{
    ck_assert_int_eq(reading->plate[IFIG_QUADRANT_NE], ne_sw);
    ck_assert_int_eq(reading->plate[IFIG_QUADRANT_SW], ne_sw);
    ck_assert_int_eq(reading->plate[IFIG_QUADRANT_NW], nw_se);
    ck_assert_int_eq(reading->plate[IFIG_QUADRANT_SE], nw_se);
}

START_TEST(a_positive_uniaxial_stone_rises_in_ne_and_sw_a_negative_one_falls)
{
    /* Check values G1, G2: Masaryk University fig. 43-39; Gribble & Hall fig. 4.20. */
    static const struct {
        const char *key;
        int sign;
    } cases[] = {{"quartz", 1}, {"zircon_high", 1}, {"calcite", -1}, {"corundum", -1}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        Bench bench;
        set_bench(&bench, builtin(cases[i].key), IFIG_VIEW_C, 1, 10);
        IfigReading reading = reading_of(&bench);
        ck_assert_int_eq(reading.optic_sign, cases[i].sign);
        assert_quadrants(&reading, cases[i].sign > 0 ? IFIG_PLATE_RISES : IFIG_PLATE_FALLS,
                         cases[i].sign > 0 ? IFIG_PLATE_FALLS : IFIG_PLATE_RISES);
        ck_assert_int_eq(reading.plate_between, IFIG_PLATE_EFFECT_NONE);
        clear_bench(&bench);
    }
}
END_TEST

START_TEST(between_the_eyes_a_positive_biaxial_stone_falls)
{
    /* Check value G4: lecture slides "Biaxial Sign: Bxa figures"; melatopes on the plate's slow
     * line, yellow between the eyes: positive; yellow inside the curves: negative. */
    static const char *const keys[] = {"titanite", "brookite", "muscovite", "borax"};
    for (size_t i = 0; i < 4; i++) {
        Bench bench;
        set_bench(&bench, builtin(keys[i]), IFIG_VIEW_ACUTE_BISECTRIX, 0.1, 45);
        IfigReading reading = reading_of(&bench);
        const IfigPlateEffect inside = reading.optic_sign > 0 ? IFIG_PLATE_FALLS : IFIG_PLATE_RISES;
        const IfigPlateEffect curve = reading.optic_sign > 0 ? IFIG_PLATE_RISES : IFIG_PLATE_FALLS;
        ck_assert_int_eq(reading.optic_sign, i < 2 ? 1 : -1);
        ck_assert_int_eq(reading.plate_between, inside);
        ck_assert_int_eq(reading.plate[IFIG_QUADRANT_NE], curve);
        ck_assert_int_eq(reading.plate[IFIG_QUADRANT_SW], curve);
        ck_assert_int_eq(reading.plate[IFIG_QUADRANT_NW], inside);
        ck_assert_int_eq(reading.plate[IFIG_QUADRANT_SE], inside);
        clear_bench(&bench);
    }
}
END_TEST

/* The picture through a plate of 550 nm: bluer than yellow at a point of first-order grey? */
static int is_blue(const Bench *bench, float (*xyz)[3], double x, double y)
{
    double warm = warmth_at(bench, xyz, x, y);
    ck_assert_double_gt(fabs(warm), 0.1);
    return warm < 0;
}

static float (*through_plate(Bench *bench))[3]
{
    bench->scene.instrument.plate = (IfigPlate){IFIG_PLATE_GYPSUM, 550, 45};
    return picture_of(bench);
}

START_TEST(quadrants_of_the_picture_are_blue_where_the_reading_rises)
{
    static const double way[4][2] = {{1, 1}, {-1, 1}, {-1, -1}, {1, -1}};
    static const struct {
        double omega, epsilon, thickness;
    } cases[] = {{1.544, 1.553, 0.2}, {1.65834, 1.48613, 0.02}};
    for (size_t i = 0; i < 2; i++) {
        Bench bench;
        IfigSpecies *stone = uniaxial_stone(cases[i].omega, cases[i].epsilon);
        set_bench(&bench, stone, IFIG_VIEW_C, cases[i].thickness, 0);
        IfigReading reading = reading_of(&bench);
        float(*xyz)[3] = through_plate(&bench);
        for (int k = 0; k < 4; k++) {
            const int rises = reading.plate[k] == IFIG_PLATE_RISES;
            ck_assert_int_ne(reading.plate[k], IFIG_PLATE_EFFECT_NONE);
            /* 0.35 of the radius: 100 to 200 nm of the stone's own. */
            ck_assert_int_eq(is_blue(&bench, xyz, 0.35 * way[k][0], 0.35 * way[k][1]), rises);
        }
        free(xyz);
        clear_bench(&bench);
        ifig_species_free(stone);
    }
}
END_TEST

START_TEST(eyes_of_the_picture_are_blue_where_the_reading_rises)
{
    static const struct {
        const char *key;
        double thickness;
    } cases[] = {{"muscovite", 0.03}, {"borax", 0.03}, {"topaz_f", 0.05}};
    for (size_t i = 0; i < 3; i++) {
        Bench bench;
        set_bench(&bench, builtin(cases[i].key), IFIG_VIEW_ACUTE_BISECTRIX, cases[i].thickness, 45);
        use_objective(&bench, 0.98, 1);
        IfigReading reading = reading_of(&bench);
        const IfigMelatope *ne = &reading.melatope[reading.melatope[0].x > 0 ? 0 : 1];
        ck_assert(ne->in_field);
        float(*xyz)[3] = through_plate(&bench);
        ck_assert_int_eq(is_blue(&bench, xyz, 0, 0), reading.plate_between == IFIG_PLATE_RISES);
        double out = 0.5 * (hypot(ne->x, ne->y) + 1) * sqrt(0.5);
        ck_assert_int_eq(is_blue(&bench, xyz, out, out),
                         reading.plate[IFIG_QUADRANT_NE] == IFIG_PLATE_RISES);
        free(xyz);
        clear_bench(&bench);
    }
}
END_TEST

START_TEST(a_plate_in_the_instrument_changes_no_word_but_that_it_is_there)
{
    Bench bench;
    set_bench(&bench, builtin("calcite"), IFIG_VIEW_C, 0.3, 0);
    IfigReading bare = reading_of(&bench);
    bench.scene.instrument.plate = (IfigPlate){IFIG_PLATE_GYPSUM, 550, 45};
    IfigReading through = reading_of(&bench);
    ck_assert(through.plate_left_out && !bare.plate_left_out);
    through.plate_left_out = 0;
    ck_assert_mem_eq(through.plate, bare.plate, sizeof bare.plate);
    ck_assert_mem_eq(through.centre_srgb, bare.centre_srgb, sizeof bare.centre_srgb);
    ck_assert_uint_eq(through.brush_count, 4);
    clear_bench(&bench);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("plate");
    tcase_add_test(facts, a_positive_uniaxial_stone_rises_in_ne_and_sw_a_negative_one_falls);
    tcase_add_test(facts, between_the_eyes_a_positive_biaxial_stone_falls);
    tcase_add_test(facts, quadrants_of_the_picture_are_blue_where_the_reading_rises);
    tcase_add_test(facts, eyes_of_the_picture_are_blue_where_the_reading_rises);
    tcase_add_test(facts, a_plate_in_the_instrument_changes_no_word_but_that_it_is_there);
    return run_case(facts, "readings of the sign");
}
