/* SPDX-License-Identifier: MIT */
/* Where the optic axes lie, and how they turn with the wavelength. */
#include "crystal.h"
#include "optics_test.h"

#include <string.h>

static IfigOpticAxes axes_of(const IfigSpecies *species, double wavelength_nm)
{
    IfigOpticAxes axes;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_optic_axes(species, wavelength_nm, &axes, &error) == IFIG_OK, "%s",
                  error.message);
    return axes;
}

static double dot(const double a[3], const double b[3])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

static double angle_deg(const double a[3], const double b[3])
{
    double across = 0;
    for (int i = 0; i < 3; i++) {
        double c = a[(i + 1) % 3] * b[(i + 2) % 3] - a[(i + 2) % 3] * b[(i + 1) % 3];
        across += c * c;
    }
    return atan2(sqrt(across), dot(a, b)) / IFIG_DEGREE;
}

START_TEST(the_axes_lie_at_v_on_both_sides_of_the_acute_bisectrix)
{
    static const char *const keys[] = {"topaz_f", "aragonite", "peridot", "gypsum", "borax"};
    for (int i = 0; i < 5; i++) {
        IfigOpticAxes axes = axes_of(builtin(keys[i]), 550);
        ck_assert_int_eq(axes.character, IFIG_BIAXIAL);
        ck_assert_int_eq(axes.count, 2);
        for (int a = 0; a < 2; a++) {
            ck_assert_double_eq_tol(dot(axes.axis[a], axes.axis[a]), 1, 1e-14);
            ck_assert_double_eq_tol(angle_deg(axes.axis[a], axes.acute_bisectrix),
                                    0.5 * axes.two_v_deg, 1e-10);
            ck_assert_double_eq_tol(dot(axes.axis[a], axes.optic_normal), 0, 1e-14);
        }
        ck_assert_double_eq_tol(angle_deg(axes.axis[0], axes.axis[1]), axes.two_v_deg, 1e-10);
        ck_assert_double_eq_tol(axes.two_v_z_deg,
                                axes.optic_sign > 0 ? axes.two_v_deg : 180 - axes.two_v_deg, 1e-10);
    }
}
END_TEST

START_TEST(both_waves_along_an_optic_axis_have_n_beta)
{
    /* The section of the indicatrix across an optic axis is a circle of radius n_beta (Born & Wolf,
     * Principles of Optics, 15.3.3): s eta s' = 1/n_beta^2 for every s' across the axis. */
    IfigOpticAxes axes = axes_of(builtin("topaz_f"), SODIUM_NM);
    double n[3], across[3];
    ck_assert_int_eq(ifig_species_indices(builtin("topaz_f"), SODIUM_NM, n, NULL), IFIG_OK);
    for (int a = 0; a < 2; a++) {
        for (int i = 0; i < 3; i++) { /* in the optic axial plane, across the axis */
            across[i] = axes.axis[a][(i + 1) % 3] * axes.optic_normal[(i + 2) % 3] -
                        axes.axis[a][(i + 2) % 3] * axes.optic_normal[(i + 1) % 3];
        }
        double inverse = 0;
        for (int i = 0; i < 3; i++) {
            inverse += across[i] * across[i] / (n[i] * n[i]);
        }
        ck_assert_double_eq_tol(1 / sqrt(inverse), n[1], 1e-14);
    }
}
END_TEST

START_TEST(uniaxial_and_isotropic_stones_have_one_axis_and_none)
{
    static const double z[3] = {0, 0, 1};
    IfigOpticAxes quartz = axes_of(builtin("quartz"), SODIUM_NM);
    IfigOpticAxes calcite = axes_of(builtin("calcite"), SODIUM_NM);
    IfigOpticAxes spinel = axes_of(builtin("spinel"), SODIUM_NM);
    ck_assert_int_eq(quartz.count, 1);
    ck_assert_int_eq(quartz.character, IFIG_UNIAXIAL);
    ck_assert_int_eq(quartz.optic_sign, 1);
    ck_assert_double_eq(quartz.two_v_deg, 0);
    ck_assert_double_eq_tol(angle_deg(quartz.axis[0], z), 0, 1e-12);
    ck_assert_int_eq(calcite.optic_sign, -1);
    ck_assert_double_eq(calcite.two_v_z_deg, 180);
    ck_assert_double_eq_tol(angle_deg(calcite.axis[0], z), 0, 1e-7);
    ck_assert_int_eq(spinel.count, 0);
    ck_assert_int_eq(spinel.character, IFIG_ISOTROPIC);
    ck_assert_int_eq(spinel.optic_sign, 0);
}
END_TEST

START_TEST(the_axial_plane_of_brookite_crosses_between_red_and_blue)
{
    /* Axial plane (001) for red, (010) for blue, with Z = a for all: Encyclopaedia Britannica, 14th
     * ed., Brookite. 2E 55 deg 2 min red (lithium, 670.8 nm), 30 deg 16 min yellow (sodium), 33 deg
     * 48 min green (thallium, 535 nm, crossed): Dana, System of Mineralogy, from memory. */
    static const struct {
        double nm, two_e_deg, tolerance;
        int crossed;
    } seen[] = {{670.8, 55.03, 1.5, 0}, {589.3, 30.27, 0.5, 0}, {535.0, 33.8, 1.5, 1}};
    static const double x[3] = {1, 0, 0}, y[3] = {0, 1, 0}, z[3] = {0, 0, 1};
    for (int i = 0; i < 3; i++) {
        IfigOpticAxes axes = axes_of(builtin("brookite"), seen[i].nm);
        double two_e = ifig_apparent_optic_angle_deg(axes.n[1], axes.two_v_deg, 1);
        ck_assert_double_eq_tol(two_e, seen[i].two_e_deg, seen[i].tolerance);
        ck_assert_int_eq(axes.optic_sign, 1);
        ck_assert_double_eq_tol(fabs(dot(axes.acute_bisectrix, z)), 1, 1e-14);
        ck_assert_double_eq_tol(fabs(dot(axes.optic_normal, seen[i].crossed ? x : y)), 1, 1e-14);
    }
}
END_TEST

/* The axis that stands still and how far the others have turned about it. */
static void check_turn(const IfigSpecies *stone, int still, double wavelength_nm,
                       double expected_deg)
{
    double turn[3][3];
    ifig_axes_turn(stone, wavelength_nm, turn);
    int next = (still + 1) % 3, last = (still + 2) % 3;
    ck_assert_double_eq_tol(turn[still][still], 1, 1e-15);
    ck_assert_double_eq_tol(atan2(turn[last][next], turn[next][next]) / IFIG_DEGREE, expected_deg,
                            1e-12);
    ck_assert_double_eq_tol(turn[next][last], -turn[last][next], 1e-15);
}

START_TEST(monoclinic_axes_turn_about_the_axis_that_b_holds)
{
    /* Rosenbusch's three kinds: gypsum inclined (Y = b), orthoclase parallel (obtuse bisectrix =
     * b), petalite and borax crossed (acute bisectrix = b); from memory, borax and petalite seen in
     * the Handbook of Mineralogy. C to F is the catalogue's amount; linear in 1 / lambda^2 between.
     */
    static const struct {
        const char *key;
        int still;
    } stones[] = {{"gypsum", 1}, {"orthoclase", 2}, {"petalite", 2}, {"borax", 0}};
    double c = pow(0.6563, -2), d = pow(0.5893, -2), f = pow(0.4861, -2);
    for (int i = 0; i < 4; i++) {
        IfigSpeciesFacts facts;
        const IfigSpecies *stone = builtin(stones[i].key);
        ck_assert_int_eq(ifig_species_facts(stone, &facts, NULL), IFIG_OK);
        double whole = facts.axes_turn_deg;
        ck_assert_double_gt(whole, 0);
        check_turn(stone, stones[i].still, 589.3, 0);
        check_turn(stone, stones[i].still, 656.3, whole * (c - d) / (f - c));
        check_turn(stone, stones[i].still, 486.1, whole * (f - d) / (f - c));
    }
    check_turn(builtin("topaz_f"), 0, 450, 0);
}
END_TEST

START_TEST(the_sign_changes_where_2v_is_a_right_angle)
{
    /* Positive where the acute bisectrix is gamma: alpha and gamma fixed, beta rises through the
     * value at which both axes stand 45 degrees from gamma, 2 / beta^2 = 1 / alpha^2 + 1 / gamma^2.
     */
    const double alpha = 1.60, gamma = 1.65;
    const double square = sqrt(2 / (1 / (alpha * alpha) + 1 / (gamma * gamma)));
    for (int i = -20; i <= 20; i++) {
        if (i != 0) {
            IfigSpecies *stone = biaxial_stone(alpha, square + i * 0.0004, gamma);
            IfigOpticAxes axes;
            ck_assert_int_eq(ifig_optic_axes(stone, SODIUM_NM, &axes, NULL), IFIG_OK);
            ck_assert_int_eq(axes.optic_sign, i < 0 ? 1 : -1);
            ck_assert_double_lt(axes.two_v_deg, 90);
            ifig_species_free(stone);
        }
    }
}
END_TEST

START_TEST(the_bisectrix_that_stands_still_goes_by_the_sign)
{
    static const struct {
        double beta;
        IfigMonoclinicDispersion kind;
        int still;
    } cases[] = {{1.61, IFIG_MONOCLINIC_PARALLEL, 0},
                 {1.64, IFIG_MONOCLINIC_PARALLEL, 2},
                 {1.61, IFIG_MONOCLINIC_CROSSED, 2},
                 {1.64, IFIG_MONOCLINIC_CROSSED, 0}};
    double d = pow(0.5893, -2), f = pow(0.4861, -2), c = pow(0.6563, -2);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        IfigSpeciesRecord record = IFIG_SPECIES_RECORD_INIT;
        IfigSpecies *stone = NULL;
        record.text[IFIG_TEXT_KEY] = "tern";
        record.facts.character = IFIG_BIAXIAL;
        record.facts.n[0] = 1.60;
        record.facts.n[1] = cases[i].beta;
        record.facts.n[2] = 1.65;
        record.facts.monoclinic = cases[i].kind;
        record.facts.axes_turn_deg = 2;
        ck_assert_int_eq(ifig_species_create(&record, &stone, NULL), IFIG_OK);
        check_turn(stone, cases[i].still, 486.1, 2 * (f - d) / (f - c));
        ifig_species_free(stone);
    }
}
END_TEST

START_TEST(the_tensor_has_the_indices_along_its_axes)
{
    /* e v = n^2 v for each column v of R, the turn of the axes included. */
    Random random = {5};
    const IfigSpecies *stone = builtin("gypsum");
    for (int trial = 0; trial < 200; trial++) {
        IfigOrientation orientation = IFIG_ORIENTATION_INIT;
        double rotation[3][3], turn[3][3], axes[3][3], n[3], nm = random_between(&random, 400, 700);
        IfigMedium medium;
        orientation.tilt_deg = random_between(&random, -180, 180);
        orientation.tilt_azimuth_deg = random_between(&random, -180, 180);
        orientation.stage_deg = random_between(&random, -180, 180);
        ck_assert_int_eq(ifig_orientation_matrix(stone, &orientation, rotation, NULL), IFIG_OK);
        ck_assert_int_eq(ifig_medium(stone, IFIG_HAND_RIGHT, rotation, nm, &medium, NULL), IFIG_OK);
        ck_assert_int_eq(ifig_species_indices(stone, nm, n, NULL), IFIG_OK);
        ifig_axes_turn(stone, nm, turn);
        ifig_matrix3_multiply(rotation, turn, axes);
        for (int a = 0; a < 3; a++) {
            for (int i = 0; i < 3; i++) {
                double product = 0;
                for (int j = 0; j < 3; j++) {
                    product += medium.epsilon[i][j] * axes[j][a];
                }
                ck_assert_double_eq_tol(product, n[a] * n[a] * axes[i][a], 1e-14);
            }
        }
        ck_assert_double_eq_tol(medium.mean_square_index,
                                (n[0] * n[0] + n[1] * n[1] + n[2] * n[2]) / 3, 1e-14);
        ck_assert_double_eq_tol(medium.least_square_index, n[0] * n[0], 1e-14);
        ck_assert_double_eq(medium.gyration_along, 0);
    }
}
END_TEST

START_TEST(indices_that_make_no_stone_are_refused)
{
    static const double bad[][3] = {{1.6, 1.5, 1.7}, {1.5, 1.7, 1.6}, {1.5, 1.5, 1.5},
                                    {0.9, 1.5, 1.6}, {1.5, NAN, 1.6}, {1.5, 1.6, INFINITY}};
    IfigError error = IFIG_ERROR_INIT;
    IfigOpticAxes axes;
    double angle;
    for (int i = 0; i < 6; i++) {
        ck_assert_int_eq(ifig_optic_angle(bad[i], &angle, &error), IFIG_ERROR_RANGE);
        ck_assert_msg(strstr(error.message, i < 3 ? "rise" : "refractive index") != NULL, "'%s'",
                      error.message);
    }
    ck_assert_int_eq(ifig_optic_angle(NULL, &angle, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_optic_axes(NULL, 589, &axes, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_optic_axes(builtin("quartz"), 589, NULL, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_optic_axes(builtin("quartz"), 200, &axes, &error), IFIG_ERROR_RANGE);
    ck_assert(isnan(ifig_apparent_optic_angle_deg(1.749, 70, 1)));
}
END_TEST

START_TEST(an_aggregate_of_one_index_has_no_axes_and_stays_an_aggregate)
{
    IfigSpeciesRecord record = IFIG_SPECIES_RECORD_INIT;
    IfigSpecies *species = NULL;
    record.text[IFIG_TEXT_KEY] = "tern";
    record.facts.character = IFIG_AGGREGATE;
    record.facts.n[0] = record.facts.n[1] = record.facts.n[2] = 1.6;
    ck_assert_int_eq(ifig_species_create(&record, &species, NULL), IFIG_OK);
    IfigOpticAxes axes = axes_of(species, SODIUM_NM);
    ck_assert_int_eq(axes.character, IFIG_AGGREGATE);
    ck_assert_int_eq(axes.count, 0);
    ifig_species_free(species);
}
END_TEST

START_TEST(without_a_species_nothing_turns)
{
    double turn[3][3];
    ifig_axes_turn(NULL, SODIUM_NM, turn);
    for (int i = 0; i < 9; i++) {
        ck_assert_double_eq(turn[i / 3][i % 3], i % 4 == 0);
    }
}
END_TEST

START_TEST(a_colour_that_a_stone_has_not_absorbs_nothing_and_is_told)
{
    double rotation[3][3] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
    IfigMedium medium;
    IfigError error = IFIG_ERROR_INIT;
    const IfigSpecies *quartz = builtin("quartz");
    ck_assert_int_eq(ifig_medium(quartz, IFIG_HAND_RIGHT, (const double(*)[3])rotation, SODIUM_NM,
                                 &medium, NULL),
                     IFIG_OK);
    ck_assert_int_ne(ifig_medium_absorb(quartz, 99, (const double(*)[3])rotation, &medium, &error),
                     IFIG_OK);
    ck_assert_int_eq(medium.is_absorbing, 0);
    ck_assert_str_ne(error.message, "");
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("optic axes");
    tcase_add_test(facts, the_axes_lie_at_v_on_both_sides_of_the_acute_bisectrix);
    tcase_add_test(facts, both_waves_along_an_optic_axis_have_n_beta);
    tcase_add_test(facts, uniaxial_and_isotropic_stones_have_one_axis_and_none);
    tcase_add_test(facts, the_axial_plane_of_brookite_crosses_between_red_and_blue);
    tcase_add_test(facts, monoclinic_axes_turn_about_the_axis_that_b_holds);
    tcase_add_test(facts, the_sign_changes_where_2v_is_a_right_angle);
    tcase_add_test(facts, the_bisectrix_that_stands_still_goes_by_the_sign);
    tcase_add_test(facts, the_tensor_has_the_indices_along_its_axes);
    tcase_add_test(facts, indices_that_make_no_stone_are_refused);
    tcase_add_test(facts, an_aggregate_of_one_index_has_no_axes_and_stays_an_aggregate);
    tcase_add_test(facts, without_a_species_nothing_turns);
    tcase_add_test(facts, a_colour_that_a_stone_has_not_absorbs_nothing_and_is_told);
    return run_case(facts, "crystal optic axes");
}
