/* SPDX-License-Identifier: MIT */
/* Coloured fringes of the brushes: section I of the check values, and the picture. */
#include "reading_test.h"

static void assert_sides(const IfigMelatope *melatope, IfigFringe concave, IfigFringe convex)
{
    ck_assert_int_eq(melatope->concave, concave);
    ck_assert_int_eq(melatope->convex, convex);
}

START_TEST(r_larger_is_blue_on_the_concave_side_and_v_larger_red)
{
    /* Check value I1: Britannica 1911, Polarization of Light; Bloss (1961). At any stage turn. */
    static const struct {
        const char *key;
        IfigFringe concave, convex;
    } cases[] = {{"topaz_f", IFIG_FRINGE_BLUE, IFIG_FRINGE_RED},
                 {"titanite", IFIG_FRINGE_BLUE, IFIG_FRINGE_RED},
                 {"borax", IFIG_FRINGE_BLUE, IFIG_FRINGE_RED},
                 {"alexandrite", IFIG_FRINGE_RED, IFIG_FRINGE_BLUE}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        for (int stage = 0; stage <= 135; stage += 45) {
            Bench bench;
            set_bench(&bench, builtin(cases[i].key), IFIG_VIEW_ACUTE_BISECTRIX, 1, stage);
            use_objective(&bench, 1.3, 1.515);
            IfigReading reading = reading_of(&bench);
            for (size_t m = 0; m < 2; m++) {
                assert_sides(&reading.melatope[m], cases[i].concave, cases[i].convex);
            }
            clear_bench(&bench);
        }
    }
}
END_TEST

START_TEST(the_convex_side_looks_to_the_acute_bisectrix_also_across_the_obtuse_one)
{
    /* The same stone, another view: the fringes belong to the axes. Law. */
    Bench bench;
    IfigReading reading;
    const IfigView views[2] = {IFIG_VIEW_ACUTE_BISECTRIX, IFIG_VIEW_OBTUSE_BISECTRIX};
    for (int i = 0; i < 2; i++) {
        set_bench(&bench, builtin("topaz_f"), views[i], 1, 0);
        use_objective(&bench, 1.55, 1.6);
        reading = reading_of(&bench);
        ck_assert(reading.melatope[0].leaves && reading.melatope[1].leaves);
        for (size_t m = 0; m < 2; m++) {
            assert_sides(&reading.melatope[m], IFIG_FRINGE_BLUE, IFIG_FRINGE_RED);
        }
        clear_bench(&bench);
    }
}
END_TEST

START_TEST(inclined_dispersion_may_reverse_the_fringes_of_one_eye)
{
    /* Check value I3, common practice, from memory: symmetric about the line of the axes only. 2V
     * of lepidolite changes by 0.5 degrees from C to F and its axes turn as far, so that one axis
     * stands still and the other moves twice. */
    Bench bench;
    set_bench(&bench, builtin("lepidolite"), IFIG_VIEW_ACUTE_BISECTRIX, 0.5, 45);
    IfigReading reading = reading_of(&bench);
    ck_assert_int_eq(reading.monoclinic, IFIG_MONOCLINIC_INCLINED);
    ck_assert_int_ne(reading.melatope[0].concave, reading.melatope[1].concave);
    clear_bench(&bench);
}
END_TEST

START_TEST(no_fringes_without_dispersion_or_without_colours)
{
    static const double n[3] = {1.563, 1.5964, 1.601};
    IfigSpecies *stone = stone_of(n, 3, 0);
    Bench bench;
    set_bench(&bench, stone, IFIG_VIEW_ACUTE_BISECTRIX, 0.5, 45);
    IfigReading reading = reading_of(&bench);
    assert_sides(&reading.melatope[0], IFIG_FRINGE_NONE, IFIG_FRINGE_NONE);
    clear_bench(&bench);
    set_bench(&bench, builtin("titanite"), IFIG_VIEW_ACUTE_BISECTRIX, 0.5, 45);
    light_by_sodium(&bench);
    reading = reading_of(&bench);
    assert_sides(&reading.melatope[0], IFIG_FRINGE_NONE, IFIG_FRINGE_NONE);
    clear_bench(&bench);
    ifig_species_free(stone);
}
END_TEST

START_TEST(the_picture_has_its_fringes_where_the_reading_says)
{
    /* Beside the brush, a little way along it from the melatope, on both arms: the mean colour of
     * the convex side is warmer for r > v. Muscovite's axes differ too little for a patch of
     * pixels. */
    static const struct {
        const char *key;
        double thickness, aside;
    } cases[] = {{"titanite", 0.5, 0.045},
                 {"borax", 3, 0.012},
                 {"topaz_f", 3, 0.012},
                 {"alexandrite", 3, 0.012}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        Bench bench;
        double difference = 0;
        set_bench(&bench, builtin(cases[i].key), IFIG_VIEW_ACUTE_BISECTRIX, cases[i].thickness, 45);
        use_objective(&bench, 1.3, 1.515);
        IfigReading reading = reading_of(&bench);
        float(*xyz)[3] = picture_of(&bench);
        for (size_t m = 0; m < 2; m++) {
            const IfigMelatope *eye = &reading.melatope[m];
            double r = hypot(eye->x, eye->y), ux = eye->x / r, uy = eye->y / r;
            for (int side = -1; side <= 1; side += 2) {
                double x = eye->x - side * 0.12 * uy, y = eye->y + side * 0.12 * ux;
                double least = HUGE_VAL, dark = 0;
                for (double t = -0.06; t < 0.06; t += 0.002) {
                    double light = brightness_at(xyz, x + t * ux, y + t * uy);
                    dark = light < least ? t : dark;
                    least = fmin(least, light);
                }
                double in = dark - cases[i].aside, out = dark + cases[i].aside;
                difference += warmth_at(&bench, xyz, x + in * ux, y + in * uy) -
                              warmth_at(&bench, xyz, x + out * ux, y + out * uy);
            }
        }
        ck_assert_double_gt(fabs(difference), 0.05);
        ck_assert_msg((difference > 0) == (reading.melatope[0].convex == IFIG_FRINGE_RED), "%s: %g",
                      cases[i].key, difference);
        free(xyz);
        clear_bench(&bench);
    }
}
END_TEST

START_TEST(brookite_at_45_has_no_black_brush_and_muscovite_has)
{
    /* Check value I6, from memory. At the 589.3 nm melatope other colours have none. */
    static const char *const keys[2] = {"brookite", "muscovite"};
    double light[2];
    for (int i = 0; i < 2; i++) {
        Bench bench;
        IfigProbe probe;
        set_bench(&bench, builtin(keys[i]), IFIG_VIEW_ACUTE_BISECTRIX, 1, 45);
        IfigReading reading = reading_of(&bench);
        const IfigMelatope *eye = &reading.melatope[0];
        ck_assert_int_eq(ifig_probe(&bench.scene, eye->theta_deg, eye->phi_deg, 0, &probe, NULL),
                         IFIG_OK);
        light[i] = probe.xyz[1];
        clear_bench(&bench);
    }
    ck_assert_double_gt(light[0], 0.1);
    ck_assert_double_lt(light[1], 0.05);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("fringes");
    tcase_add_test(facts, r_larger_is_blue_on_the_concave_side_and_v_larger_red);
    tcase_add_test(facts, the_convex_side_looks_to_the_acute_bisectrix_also_across_the_obtuse_one);
    tcase_add_test(facts, inclined_dispersion_may_reverse_the_fringes_of_one_eye);
    tcase_add_test(facts, no_fringes_without_dispersion_or_without_colours);
    tcase_add_test(facts, the_picture_has_its_fringes_where_the_reading_says);
    tcase_add_test(facts, brookite_at_45_has_no_black_brush_and_muscovite_has);
    return run_case(facts, "readings of fringes");
}
