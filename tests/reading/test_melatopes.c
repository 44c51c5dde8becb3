/* SPDX-License-Identifier: MIT */
/* Axes: their angles, and where they come out; in the picture too. */
#include "reading_test.h"

START_TEST(apparent_angles_are_those_of_the_handbooks)
{
    /* Section B of the check values: sin E = n_beta sin V (Bloss 1961). Muscovite 66.2; topaz
     * 120.1; barite 62.6 (Dana 63 deg 12 min, from memory); aragonite 30.8 (Dana 30 deg 54 min,
     * from memory). */
    static const struct {
        double n[3], two_e;
    } cases[] = {{{1.563, 1.5964, 1.601}, 66.2},
                 {{1.610, 1.61287, 1.620}, 120.1},
                 {{1.6362, 1.6374, 1.6480}, 62.6},
                 {{1.5301, 1.6816, 1.6859}, 30.4}};
    for (size_t i = 0; i < 4; i++) {
        Bench bench;
        IfigSpecies *stone = stone_of(cases[i].n, 3, 0);
        set_bench(&bench, stone, IFIG_VIEW_ACUTE_BISECTRIX, 1, 0);
        IfigReading reading = reading_of(&bench);
        ck_assert_double_eq_tol(reading.two_e_deg[IFIG_READING_D], cases[i].two_e, 1.0);
        for (int line = 0; line < IFIG_READING_LINES; line++) {
            ck_assert_double_gt(reading.two_e_deg[line], reading.two_v_deg[line]); /* B10 */
        }
        for (size_t m = 0; m < 2; m++) {
            ck_assert_double_eq_tol(reading.melatope[m].theta_deg,
                                    0.5 * reading.two_e_deg[IFIG_READING_D], 1e-6);
        }
        ck_assert_int_eq(reading.dispersion, IFIG_AXIAL_DISPERSION_NONE);
        clear_bench(&bench);
        ifig_species_free(stone);
    }
}
END_TEST

START_TEST(axes_of_chrysoberyl_cannot_leave_into_air_but_into_oil)
{
    /* Law: total reflection where n_beta sin V exceeds 1 (check value B7: above 2V 69.7 for 1.749).
     */
    Bench bench;
    IfigSpecies *stone = biaxial_stone(1.745, 1.748, 1.754);
    set_bench(&bench, stone, IFIG_VIEW_ACUTE_BISECTRIX, 1, 30);
    IfigReading reading = reading_of(&bench);
    ck_assert_double_eq_tol(reading.two_v_deg[IFIG_READING_D], 70.7, 0.5);
    for (size_t m = 0; m < 2; m++) {
        ck_assert(!reading.melatope[m].leaves && !reading.melatope[m].in_field);
        ck_assert(isnan(reading.melatope[m].theta_deg) && isnan(reading.melatope[m].x));
        ck_assert_double_eq_tol(fabs(remainder(reading.melatope[m].phi_deg, 180)), 30, 1e-6);
        ck_assert_uint_eq(reading.melatope[m].ring_count, 0);
    }
    ck_assert(isnan(reading.two_e_deg[IFIG_READING_D]));
    use_objective(&bench, 1.3, 1.515);
    reading = reading_of(&bench);
    ck_assert(reading.melatope[0].leaves && reading.melatope[1].in_field);
    clear_bench(&bench);
    ifig_species_free(stone);
}
END_TEST

START_TEST(a_melatope_outside_the_field_is_told_by_how_far)
{
    Bench bench;
    set_bench(&bench, builtin("topaz_f"), IFIG_VIEW_ACUTE_BISECTRIX, 1, 0);
    IfigReading reading = reading_of(&bench);
    ck_assert(reading.melatope[0].leaves && !reading.melatope[0].in_field);
    ck_assert_double_eq_tol(reading.melatope[0].beyond_field_deg,
                            0.5 * reading.two_e_deg[IFIG_READING_D] - 55, 1e-6);
    clear_bench(&bench);
}
END_TEST

START_TEST(the_sense_of_dispersion_is_that_of_the_handbooks)
{
    /* Topaz r > v, borax r > v strong and crossed (Handbook of Mineralogy); alexandrite r < v
     * (check value A15); brookite crossed axial planes (check value I6, from memory). */
    static const struct {
        const char *key;
        IfigAxialDispersion sense;
        IfigMonoclinicDispersion kind;
    } cases[] = {{"topaz_f", IFIG_AXIAL_DISPERSION_RED_LARGER, IFIG_MONOCLINIC_NONE},
                 {"borax", IFIG_AXIAL_DISPERSION_RED_LARGER, IFIG_MONOCLINIC_CROSSED},
                 {"alexandrite", IFIG_AXIAL_DISPERSION_VIOLET_LARGER, IFIG_MONOCLINIC_NONE},
                 {"brookite", IFIG_AXIAL_DISPERSION_CROSSED_PLANES, IFIG_MONOCLINIC_NONE},
                 {"titanite", IFIG_AXIAL_DISPERSION_RED_LARGER, IFIG_MONOCLINIC_INCLINED},
                 {"calcite", IFIG_AXIAL_DISPERSION_ABSENT, IFIG_MONOCLINIC_NONE},
                 {"spinel", IFIG_AXIAL_DISPERSION_ABSENT, IFIG_MONOCLINIC_NONE}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        Bench bench;
        set_bench(&bench, builtin(cases[i].key), IFIG_VIEW_DEFAULT, 0.5, 0);
        IfigReading reading = reading_of(&bench);
        ck_assert_msg(reading.dispersion == cases[i].sense, "%s", cases[i].key);
        ck_assert_int_eq(reading.monoclinic, cases[i].kind);
        clear_bench(&bench);
    }
}
END_TEST

/* A dark spot, and the least light on a circle of some pixels about it. */
static double least_around(float (*xyz)[3], int column, int row, double reach)
{
    double least = HUGE_VAL;
    for (int i = 0; i < 72; i++) {
        double a = i * 5 * IFIG_DEGREE;
        least = fmin(least, channel_at(xyz, column + reach * cos(a), row + reach * sin(a), 1));
    }
    return least;
}

/* The centre of what is darker than the circle. */
static void middle_of(float (*xyz)[3], int column, int row, int reach, double spot[2])
{
    double least = least_around(xyz, column, row, reach), sum = 0;
    spot[0] = spot[1] = 0;
    for (int dy = -reach; dy <= reach; dy++) {
        for (int dx = -reach; dx <= reach; dx++) {
            double light = (double)xyz[(row + dy) * PIXELS + column + dx][1];
            double weight = hypot(dx, dy) < reach ? fmax(least - light, 0) : 0;
            spot[0] += weight * (column + dx);
            spot[1] += weight * (row + dy);
            sum += weight;
        }
    }
    spot[0] /= sum;
    spot[1] /= sum;
}

/* Isolated dark spots: darker than every pixel of a circle about them by a margin, which no point
 * of a dark ring is. Fills at most two places. */
static size_t dark_spots(float (*xyz)[3], int reach, double spot[2][2])
{
    static const int dx[8] = {1, 1, 0, -1, -1, -1, 0, 1}, dy[8] = {0, 1, 1, 1, 0, -1, -1, -1};
    const double rim = 0.5 * PIXELS - reach - 2, margin = 0.02;
    size_t found = 0;
    for (int row = reach + 2; row < PIXELS - reach - 2; row++) {
        for (int column = reach + 2; column < PIXELS - reach - 2; column++) {
            double here = (double)xyz[row * PIXELS + column][1];
            int is_least = hypot(row - row_of(0), column - column_of(0)) < rim;
            for (int i = 0; i < 8 && is_least; i++) {
                is_least = here <= (double)xyz[(row + dy[i]) * PIXELS + column + dx[i]][1];
            }
            /* The flat bottom of one spot may have several least pixels. */
            for (size_t k = 0; k < found; k++) {
                is_least &= hypot(spot[k][0] - column, spot[k][1] - row) > reach;
            }
            if (is_least && found < 2 && least_around(xyz, column, row, reach) > here + margin) {
                middle_of(xyz, column, row, reach, spot[found++]);
            }
        }
    }
    return found;
}

START_TEST(melatopes_stand_where_the_picture_has_its_dark_spots)
{
    /* In sodium light between crossed circular polars there are no brushes: dark where the
     * retardation is a whole number of wavelengths, so that the melatope is the only dark spot. */
    static const struct {
        const char *key;
        IfigView view;
        double thickness, stage, tilt;
        int reach; /* pixels, within the first dark ring */
        size_t count;
    } cases[] = {{"muscovite", IFIG_VIEW_ACUTE_BISECTRIX, 0.15, 25, 0, 8, 2},
                 {"borax", IFIG_VIEW_ACUTE_BISECTRIX, 0.3, 45, 3, 8, 2},
                 {"titanite", IFIG_VIEW_ACUTE_BISECTRIX, 0.1, 10, 0, 8, 2},
                 {"brookite", IFIG_VIEW_ACUTE_BISECTRIX, 0.25, 70, 0, 10, 2},
                 {"topaz_f", IFIG_VIEW_OPTIC_AXIS, 0.5, 35, 4, 8, 1},
                 {"peridot", IFIG_VIEW_OPTIC_AXIS, 0.15, 80, 2, 8, 1},
                 {"calcite", IFIG_VIEW_C, 0.6, 15, 5, 28, 1}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        Bench bench;
        double spot[2][2];
        set_bench(&bench, builtin(cases[i].key), cases[i].view, cases[i].thickness, cases[i].stage);
        light_by_sodium(&bench);
        bench.layer.orientation.tilt_deg = cases[i].tilt;
        bench.layer.orientation.tilt_azimuth_deg = 33;
        bench.scene.instrument.polariser = (IfigPolar){IFIG_POLAR_RIGHT, 0};
        bench.scene.instrument.analyser = (IfigPolar){IFIG_POLAR_LEFT, 0};
        /* Retardation rises slowly about the axis of a uniaxial stone: look closer. */
        bench.scene.instrument.field_deg = cases[i].view == IFIG_VIEW_C ? 20 : 0;
        IfigReading reading = reading_of(&bench);
        float(*xyz)[3] = picture_of(&bench);
        size_t found = dark_spots(xyz, cases[i].reach, spot), inside = 0;
        ck_assert_msg(found == cases[i].count, "%s: %zu spots", cases[i].key, found);
        for (size_t m = 0; m < reading.melatope_count; m++) {
            double nearest = HUGE_VAL;
            for (size_t k = 0; k < found; k++) {
                nearest = fmin(nearest, hypot(spot[k][0] - column_of(reading.melatope[m].x),
                                              spot[k][1] - row_of(reading.melatope[m].y)));
            }
            inside += reading.melatope[m].in_field != 0;
            ck_assert_msg(!reading.melatope[m].in_field || nearest < 1.0, "%s: %g pixels off",
                          cases[i].key, nearest);
        }
        ck_assert_uint_eq(inside, found);
        free(xyz);
        clear_bench(&bench);
    }
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("melatopes");
    tcase_add_test(facts, apparent_angles_are_those_of_the_handbooks);
    tcase_add_test(facts, axes_of_chrysoberyl_cannot_leave_into_air_but_into_oil);
    tcase_add_test(facts, a_melatope_outside_the_field_is_told_by_how_far);
    tcase_add_test(facts, the_sense_of_dispersion_is_that_of_the_handbooks);
    tcase_add_test(facts, melatopes_stand_where_the_picture_has_its_dark_spots);
    return run_case(facts, "readings of melatopes");
}
