/* SPDX-License-Identifier: MIT */
#include "species_test.h"

START_TEST(quartz_turns_21_72_degrees_a_millimetre_at_d)
{
    /* Soret & Sarasin in Winkelmann, Handbuch der Physik, p. 801: D1 21.684, D2 21.727 */
    ck_assert_double_eq_tol(ifig_species_rotation_deg_per_mm(builtin("quartz"), 589.3), 21.72,
                            0.05);
}
END_TEST

START_TEST(quartz_turns_more_in_the_blue_as_measured)
{
    /* the same table: F 32.77, G 42.604, H 51.19 */
    const IfigSpecies *quartz = builtin("quartz");
    ck_assert_double_eq_tol(ifig_species_rotation_deg_per_mm(quartz, 486.1), 32.77, 0.1);
    ck_assert_double_eq_tol(ifig_species_rotation_deg_per_mm(quartz, 430.8), 42.604, 0.1);
    ck_assert_double_eq_tol(ifig_species_rotation_deg_per_mm(quartz, 396.8), 51.19, 0.1);
}
END_TEST

START_TEST(quartz_turns_25_54_degrees_a_millimetre_at_546_nm)
{
    /* Lowry & Coode-Adams, Phil. Trans. R. Soc. A 226, 391 (1927), from memory */
    ck_assert_double_eq_tol(ifig_species_rotation_deg_per_mm(builtin("quartz"), 546.1), 25.54,
                            0.03);
}
END_TEST

START_TEST(g33_of_quartz_at_510_nm_is_12_96e_5)
{
    /* Nye, Physical Properties of Crystals, ch. XIV, after Szivessy & Muenster (1934), from memory:
     * g33 12.96e-5; g11/g33 -0.449, no rotation at 56.2 degrees from the axis */
    double along, across;
    ifig_species_gyration(builtin("quartz"), 510.0, &along, &across);
    ck_assert_double_eq_tol(along, 12.96e-5, 0.05e-5);
    ck_assert_double_eq_tol(across / along, -0.449, 1e-12);
    double no_rotation_deg = atan(sqrt(-along / across)) * 180.0 / acos(-1.0);
    ck_assert_double_eq_tol(no_rotation_deg, 56.2, 0.5);
}
END_TEST

START_TEST(sodium_chlorate_turns_3_16_alike_in_all_directions)
{
    /* Winkelmann, Handbuch der Physik, p. 802 */
    const IfigSpecies *chlorate = builtin("sodium_chlorate");
    double along, across;
    ifig_species_gyration(chlorate, 589.3, &along, &across);
    ck_assert_double_eq_tol(ifig_species_rotation_deg_per_mm(chlorate, 589.3), 3.16, 0.05);
    ck_assert_double_eq(along, across);
    ck_assert_double_gt(along, 0.0);
}
END_TEST

START_TEST(stones_with_a_mirror_or_centre_do_not_turn)
{
    /* point groups: International Tables A (2006), 10.2 */
    static const char *const stones[] = {"aquamarine",         "corundum",    "calcite",
                                         "tourmaline_elbaite", "zircon_high", "benitoite"};
    for (size_t i = 0; i < sizeof stones / sizeof *stones; i++) {
        double along = 1.0, across = 1.0;
        ifig_species_gyration(builtin(stones[i]), 500.0, &along, &across);
        ck_assert_double_eq(along, 0.0);
        ck_assert_double_eq(across, 0.0);
        ck_assert_double_eq(ifig_species_rotation_deg_per_mm(builtin(stones[i]), 500.0), 0.0);
    }
}
END_TEST

START_TEST(a_users_rotation_is_the_same_everywhere)
{
    const double indices[3] = {1.5, 1.6, 1.7};
    IfigSpecies *species = NULL;
    ck_assert_int_eq(ifig_species_from_indices(indices, 3, -180.0, &species, NULL), IFIG_OK);
    ck_assert_double_eq(ifig_species_rotation_deg_per_mm(species, 400.0), -180.0);
    ck_assert_double_eq(ifig_species_rotation_deg_per_mm(species, 700.0), -180.0);
    /* rho = pi G / (lambda n): 180 degrees in 1 mm = 1e6 nm, so |G| = lambda n / 1e6 nm */
    double along, across;
    ifig_species_gyration(species, 500.0, &along, &across);
    ck_assert_double_eq_tol(along, -500.0 * 1.6 / 1e6, 1e-15);
    ck_assert_double_eq(across, along);
    ifig_species_free(species);
}
END_TEST

START_TEST(no_species_has_no_rotation)
{
    double along = 1.0, across = 1.0;
    ifig_species_gyration(NULL, 500.0, &along, &across);
    ck_assert_double_eq(along, 0.0);
    ck_assert_double_eq(across, 0.0);
    ck_assert_double_eq(ifig_species_rotation_deg_per_mm(NULL, 500.0), 0.0);
}
END_TEST

START_TEST(rotation_is_told_where_indices_are)
{
    ck_assert_double_gt(ifig_species_rotation_deg_per_mm(builtin("quartz"), 360.0), 60.0);
    ck_assert_double_nan(ifig_species_rotation_deg_per_mm(builtin("quartz"), 359.9));
    ck_assert_double_nan(ifig_species_rotation_deg_per_mm(builtin("quartz"), INFINITY));
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("rotation");
    tcase_add_test(facts, quartz_turns_21_72_degrees_a_millimetre_at_d);
    tcase_add_test(facts, quartz_turns_more_in_the_blue_as_measured);
    tcase_add_test(facts, quartz_turns_25_54_degrees_a_millimetre_at_546_nm);
    tcase_add_test(facts, g33_of_quartz_at_510_nm_is_12_96e_5);
    tcase_add_test(facts, sodium_chlorate_turns_3_16_alike_in_all_directions);
    tcase_add_test(facts, stones_with_a_mirror_or_centre_do_not_turn);
    tcase_add_test(facts, a_users_rotation_is_the_same_everywhere);
    tcase_add_test(facts, no_species_has_no_rotation);
    tcase_add_test(facts, rotation_is_told_where_indices_are);
    return run_case(facts, "rotation");
}
