/* SPDX-License-Identifier: MIT */
/* Stress, and stacks that undo themselves. */
#include "optics_test.h"

static IfigLayer strained(const char *key, IfigView view, double thickness_mm, double mpa,
                          double azimuth_deg)
{
    IfigLayer layer = layer_of(builtin(key), view, thickness_mm);
    layer.stress_mpa = mpa;
    layer.stress_azimuth_deg = azimuth_deg;
    return layer;
}

static const Beam STRAIGHT = {1.0, 589.3, 0, 0};

START_TEST(a_megapascal_on_ten_millimetres_of_bk7_retards_27_7_nm)
{
    /* K = 2.77 per TPa: SCHOTT data sheet of N-BK7, from memory; law of Brewster */
    IfigLayer glass = strained("glass", IFIG_VIEW_Z, 10, 1, 30);
    ck_assert_double_eq_tol(retardation_of(&glass, STRAIGHT), 27.7, 0.1);
}
END_TEST

START_TEST(a_hundred_megapascals_on_a_millimetre_of_diamond_retard_about_216_nm)
{
    /* photoelastic and elastic constants of diamond: Grimsditch & Ramdas (1975), from memory; the
     * coefficient differs by a few percent with direction */
    IfigLayer diamond = strained("diamond", IFIG_VIEW_Z, 1, 100, 0);
    ck_assert_double_eq_tol(retardation_of(&diamond, STRAIGHT), 216.0, 0.1 * 216.0);
}
END_TEST

START_TEST(strained_glass_is_dark_along_the_stress_and_brightest_between)
{
    /* isoclinics: Coker & Filon, A Treatise on Photo-Elasticity (1931), from memory */
    for (int sign = -1; sign <= 1; sign += 2) {
        IfigLayer glass = strained("glass", IFIG_VIEW_Z, 10, 5.0 * sign, 0);
        ck_assert_double_lt(crossed_light(&glass, STRAIGHT), 1e-12);
        glass.orientation.stage_deg = 45; /* the stress turns with the stage */
        IfigPlateWave wave = wave_of(&glass, 1, STRAIGHT);
        double expected = sin(acos(-1.0) * 138.5 / 589.3); /* 2.77e-6 x 5 x 1e7 nm */
        ck_assert_double_eq_tol(crossed_light(&glass, STRAIGHT),
                                largest_share(&wave) * expected * expected, 1e-3);
    }
}
END_TEST

/* The indices of a c-cut plate of corundum under a stress: across, along, and epsilon. */
static void strained_indices(double mpa, double n[3])
{
    double plain[3];
    const IfigSpecies *corundum = builtin("corundum");
    ck_assert_int_eq(ifig_species_indices(corundum, SODIUM_NM, plain, NULL), IFIG_OK);
    double half = 0.5e-6 * mpa * ifig_species_stress_optic_per_tpa(corundum);
    n[0] = plain[2];
    n[1] = plain[0] - half;
    n[2] = plain[0] + half;
}

static double along_the_stress(double theta_deg, const void *layer)
{
    const Beam beam = {1.0, SODIUM_NM, theta_deg, 0};
    return retardation_of(layer, beam);
}

START_TEST(a_strained_uniaxial_stone_opens_its_cross)
{
    /* Tension makes omega larger along it: the stone becomes biaxial with the axes in the plane of
     * the stress (X = c, Z along the tension), by the optic angle of the three indices (Born &
     * Wolf, 15.3.3). */
    for (int mpa = 50; mpa <= 200; mpa += 50) {
        double n[3], two_v_z;
        IfigLayer corundum = strained("corundum", IFIG_VIEW_C, 1, mpa, 0);
        strained_indices(mpa, n);
        ck_assert_int_eq(ifig_optic_angle(n, &two_v_z, NULL), IFIG_OK);
        double two_v = 180.0 - two_v_z;
        ck_assert_double_gt(two_v, 10.0);
        ck_assert_double_eq_tol(retardation_of(&corundum, STRAIGHT), 1e6 * (n[2] - n[1]),
                                2e-3 * 1e6 * (n[2] - n[1]));
        double theta = lowest(along_the_stress, &corundum, 1.0, 60.0);
        ck_assert_double_lt(along_the_stress(theta, &corundum), 0.01);
        ck_assert_double_eq_tol(theta, 0.5 * ifig_apparent_optic_angle_deg(n[1], two_v, 1.0), 0.05);
        /* Pressure opens it across. */
        corundum.stress_mpa = -mpa;
        corundum.stress_azimuth_deg = 90;
        ck_assert_double_lt(along_the_stress(theta, &corundum), 1.0);
    }
}
END_TEST

START_TEST(a_right_handed_plate_on_a_left_handed_one_is_dark_at_the_centre)
{
    /* The two rotations undo each other: Fresnel's law of circular double refraction, from memory
     */
    IfigLayer pair[2] = {layer_of(builtin("quartz"), IFIG_VIEW_C, 2.5),
                         layer_of(builtin("quartz"), IFIG_VIEW_C, 2.5)};
    for (int left_first = 0; left_first < 2; left_first++) {
        pair[left_first].hand = IFIG_HAND_RIGHT;
        pair[!left_first].hand = IFIG_HAND_LEFT;
        for (double nm = 400; nm <= 700; nm += 20) {
            const Beam beam = {1.0, nm, 0, 0};
            IfigPlateWave wave = wave_of(pair, 2, beam);
            ck_assert_double_lt(through_polars(&wave, beam, 0, 90), 1e-12);
        }
    }
    ck_assert_double_gt(crossed_light(&pair[0], STRAIGHT), 0.1);
    pair[0].hand = pair[1].hand;
    IfigPlateWave alike = wave_of(pair, 2, STRAIGHT);
    ck_assert_double_gt(through_polars(&alike, STRAIGHT, 0, 90), 0.1);
}
END_TEST

START_TEST(a_stress_without_a_coefficient_is_refused)
{
    IfigLayer topaz = strained("topaz_f", IFIG_VIEW_Z, 1, 10, 0);
    IfigPlateWave wave;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_int_eq(ifig_plate_wave(&topaz, 1, 1, 589.3, 0, 0, &wave, &error),
                     IFIG_ERROR_UNSUITABLE);
    IfigLayer glass = strained("glass", IFIG_VIEW_Z, 1, 10001, 0);
    ck_assert_int_eq(ifig_plate_wave(&glass, 1, 1, 589.3, 0, 0, &wave, &error), IFIG_ERROR_RANGE);
    glass = strained("glass", IFIG_VIEW_Z, 1, 1, NAN);
    ck_assert_int_eq(ifig_plate_wave(&glass, 1, 1, 589.3, 0, 0, &wave, &error), IFIG_ERROR_RANGE);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("strain");
    tcase_add_test(facts, a_megapascal_on_ten_millimetres_of_bk7_retards_27_7_nm);
    tcase_add_test(facts, a_hundred_megapascals_on_a_millimetre_of_diamond_retard_about_216_nm);
    tcase_add_test(facts, strained_glass_is_dark_along_the_stress_and_brightest_between);
    tcase_add_test(facts, a_strained_uniaxial_stone_opens_its_cross);
    tcase_add_test(facts, a_right_handed_plate_on_a_left_handed_one_is_dark_at_the_centre);
    tcase_add_test(facts, a_stress_without_a_coefficient_is_refused);
    return run_case(facts, "wave strain");
}
