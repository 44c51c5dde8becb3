/* SPDX-License-Identifier: MIT */
/* Exact relations of crystal optics, over many random stones. */
#include "draws.h"

/* Indices of a biaxial stone, none of its steps below a hundredth of its spread. */
static void draw_indices(Random *random, double n[3])
{
    double spread = random_between(random, 0.002, 0.3);
    n[0] = random_between(random, 1.35, 2.3);
    n[2] = n[0] + spread;
    n[1] = n[0] + spread * random_between(random, 0.02, 0.98);
}

/* Cosine of the angle between the light's direction, z of the lab, and a direction of the stone. */
static double cosine_to_z(const double rotation[3][3], const double axis[3])
{
    return rotation[2][0] * axis[0] + rotation[2][1] * axis[1] + rotation[2][2] * axis[2];
}

START_TEST(retardation_follows_from_the_angles_to_both_optic_axes)
{
    /* 1/n^2 = (a + c)/2 + (a - c)/2 cos(theta1 +- theta2), a = 1/alpha^2, c = 1/gamma^2: the exact
     * form behind the law of Biot and Fresnel (Born & Wolf, Principles of Optics, 15.3.3). */
    Random random = {301};
    double worst = 0;
    for (int i = 0; i < DRAWS; i++) {
        double n[3], rotation[3][3], square[2], theta[2];
        draw_indices(&random, n);
        IfigSpecies *stone = biaxial_stone(n[0], n[1], n[2]);
        IfigLayer layer = layer_of(stone, IFIG_VIEW_Z, random_between(&random, 0.1, 5));
        IfigOpticAxes axes;
        draw_orientation(&random, &layer.orientation);
        ck_assert_int_eq(ifig_optic_axes(stone, SODIUM_NM, &axes, NULL), IFIG_OK);
        ck_assert_int_eq(ifig_orientation_matrix(stone, &layer.orientation, rotation, NULL),
                         IFIG_OK);
        for (int k = 0; k < 2; k++) {
            theta[k] = acos(fmin(fmax(cosine_to_z(rotation, axes.axis[k]), -1), 1));
        }
        double a = 1 / (n[0] * n[0]), c = 1 / (n[2] * n[2]);
        /* axis[] are the two ends nearest the acute bisectrix; of a negative stone one end must be
         * turned for the angles to enclose the gamma direction. */
        double other = axes.optic_sign > 0 ? theta[1] : IFIG_PI - theta[1];
        for (int k = 0; k < 2; k++) {
            square[k] = 1 / (0.5 * (a + c) + 0.5 * (a - c) * cos(theta[0] + (k ? other : -other)));
        }
        double wanted = 1e6 * layer.thickness_mm * fabs(sqrt(square[0]) - sqrt(square[1]));
        Beam beam = {1, SODIUM_NM, 0, 0};
        worst = fmax(worst, fabs(retardation_of(&layer, beam) - wanted) /
                                (1e6 * layer.thickness_mm * (n[2] - n[0])));
        ifig_species_free(stone);
    }
    tell("angles to both axes, share of the greatest retardation", 301, worst);
    ck_assert_double_lt(worst, 1e-10);
}
END_TEST

START_TEST(the_optic_angle_is_the_same_by_its_cosine)
{
    /* cos V_Z = (alpha / beta) sqrt((gamma^2 - beta^2) / (gamma^2 - alpha^2)), from the tangent. */
    Random random = {302};
    double worst = 0;
    for (int i = 0; i < DRAWS; i++) {
        double n[3], two_v;
        draw_indices(&random, n);
        ck_assert_int_eq(ifig_optic_angle(n, &two_v, NULL), IFIG_OK);
        double cosine =
            n[0] / n[1] * sqrt((n[2] * n[2] - n[1] * n[1]) / (n[2] * n[2] - n[0] * n[0]));
        worst = fmax(worst, fabs(two_v - 2 * acos(fmin(cosine, 1)) / IFIG_DEGREE));
    }
    tell("2V by tangent and by cosine, degrees", 302, worst);
    ck_assert_double_lt(worst, 1e-9);
}
END_TEST

START_TEST(a_stone_is_dark_along_each_of_its_optic_axes_and_where_they_leave_it)
{
    Random random = {303};
    double inside = 0, outside = 0;
    int left = 0;
    for (int i = 0; i < DRAWS; i++) {
        double n[3];
        draw_indices(&random, n);
        IfigSpecies *stone = biaxial_stone(n[0], n[1], n[2]);
        IfigLayer layer = layer_of(stone, IFIG_VIEW_OPTIC_AXIS, random_between(&random, 0.1, 3));
        IfigOpticAxes axes;
        double greatest = 1e6 * layer.thickness_mm * (n[2] - n[0]);
        layer.orientation.stage_deg = random_between(&random, -180, 180);
        Beam beam = {1, SODIUM_NM, 0, 0};
        inside = fmax(inside, retardation_of(&layer, beam) / greatest);
        /* the acute bisectrix up, the axial plane east-west at stage 0 */
        ck_assert_int_eq(ifig_optic_axes(stone, SODIUM_NM, &axes, NULL), IFIG_OK);
        double two_e = ifig_apparent_optic_angle_deg(n[1], axes.two_v_deg, 1.0);
        if (two_e < 178) {
            layer.orientation.view = IFIG_VIEW_ACUTE_BISECTRIX;
            beam.theta_deg = 0.5 * two_e;
            beam.phi_deg = layer.orientation.stage_deg + 180 * (i % 2);
            outside = fmax(outside, retardation_of(&layer, beam) / greatest);
            left++;
        }
        ifig_species_free(stone);
    }
    tell("along an axis, share of the greatest retardation", 303, inside);
    tell("where an axis leaves by 2E, likewise", 303, outside);
    ck_assert_int_gt(left, DRAWS / 4);
    ck_assert_double_lt(inside, 1e-10);
    ck_assert_double_lt(outside, 1e-10);
}
END_TEST

START_TEST(retardation_is_never_negative_nor_more_than_the_extreme_indices_allow)
{
    Random random = {304};
    double least = 1, most = 0;
    for (int i = 0; i < DRAWS; i++) {
        double n[3];
        draw_indices(&random, n);
        IfigSpecies *stone = biaxial_stone(n[0], n[1], n[2]);
        IfigLayer layer = layer_of(stone, IFIG_VIEW_Z, random_between(&random, 0.01, 5));
        Beam beam = draw_beam(&random);
        draw_orientation(&random, &layer.orientation);
        double k = beam.n_outside * sin(beam.theta_deg * IFIG_DEGREE);
        double limit =
            1e6 * layer.thickness_mm * (sqrt(n[2] * n[2] - k * k) - sqrt(n[0] * n[0] - k * k));
        double share = retardation_of(&layer, beam) / limit;
        least = fmin(least, share);
        most = fmax(most, share);
        ifig_species_free(stone);
    }
    tell("retardation, share of what the indices allow", 304, most);
    ck_assert_double_ge(least, 0);
    ck_assert_double_le(most, 1 + 1e-9);
    ck_assert_double_gt(most, 0.98);
}
END_TEST

START_TEST(two_equal_plates_crossed_cancel)
{
    Random random = {305};
    double worst = 0, alone = 0;
    for (int i = 0; i < DRAWS; i++) {
        double n[3];
        draw_indices(&random, n);
        IfigSpecies *stone = biaxial_stone(n[0], n[1], n[2]);
        IfigLayer pair[2] = {layer_of(stone, IFIG_VIEW_Z, random_between(&random, 0.01, 1))};
        Beam beam = {1, SODIUM_NM, 0, 0};
        draw_orientation(&random, &pair[0].orientation);
        pair[1] = pair[0];
        pair[1].orientation.stage_deg += 90;
        IfigPlateWave both = wave_of(pair, 2, beam), one = wave_of(pair, 1, beam);
        double polariser = random_between(&random, -90, 90);
        worst = fmax(worst, through_polars(&both, beam, polariser, polariser + 90));
        alone = fmax(alone, through_polars(&one, beam, polariser, polariser + 90));
        ifig_species_free(stone);
    }
    tell("crossed plates, light", 305, worst);
    ck_assert_double_lt(worst, 1e-20);
    ck_assert_double_gt(alone, 0.5);
}
END_TEST

static void cut_in_two(Random *random, int draw, IfigSpecies *const stones[STONES], Sight *one,
                       Sight *other)
{
    (void)draw;
    (void)stones;
    const double whole = one->layers[0].thickness_mm;
    other->count = 2;
    other->layers[1] = other->layers[0];
    other->layers[0].thickness_mm = whole * random_between(random, 0.1, 0.9);
    other->layers[1].thickness_mm = whole - other->layers[0].thickness_mm;
}

START_TEST(two_plates_in_one_are_one_plate)
{
    double worst = largest_change(306, cut_in_two);
    tell("a plate cut in two, Jones matrix", 306, worst);
    ck_assert_double_lt(worst, 1e-8);
}
END_TEST

START_TEST(a_stone_of_nearly_equal_indices_is_nearly_a_singly_refractive_one)
{
    Random random = {307};
    double worst = 0;
    for (int i = 0; i < DRAWS; i++) {
        double n = random_between(&random, 1.35, 2.6), spread = 1e-8;
        IfigSpecies *one = stone_of(&n, 1, 0),
                    *almost = biaxial_stone(n, n + spread * random_between(&random, 0.1, 0.9),
                                            n + spread);
        IfigLayer layer = layer_of(one, IFIG_VIEW_Z, random_between(&random, 0.01, 0.1));
        Beam beam = draw_beam(&random);
        draw_orientation(&random, &layer.orientation);
        IfigPlateWave single = wave_of(&layer, 1, beam);
        layer.species = almost;
        IfigPlateWave nearly = wave_of(&layer, 1, beam);
        /* the overall phase is free, and indeed moves with n: compare sizes and what is crossed */
        worst = fmax(worst, fmax(cabs(element(&nearly, 0, 1)), cabs(element(&nearly, 1, 0))));
        for (int k = 0; k < 2; k++) {
            worst = fmax(worst, fabs(cabs(element(&nearly, k, k)) - cabs(element(&single, k, k))));
        }
        ck_assert_double_lt(nearly.retardation_nm, 2e6 * layer.thickness_mm * spread);
        ifig_species_free(one);
        ifig_species_free(almost);
    }
    tell("indices 1e-8 apart, Jones matrix", 307, worst);
    ck_assert_double_lt(worst, 5e-5);
}
END_TEST

static void double_both(Random *random, int draw, IfigSpecies *const stones[STONES], Sight *one,
                        Sight *other)
{
    one->layers[0].species = other->layers[0].species = inactive_stone(stones, draw);
    one->beam.wavelength_nm = random_between(random, 380, 414);
    other->beam.wavelength_nm = 2 * one->beam.wavelength_nm;
    other->layers[0].thickness_mm *= 2;
}

START_TEST(thickness_and_wavelength_doubled_change_nothing_without_dispersion)
{
    double worst = largest_change(308, double_both);
    tell("twice the thickness at twice the wavelength, Jones matrix", 308, worst);
    ck_assert_double_lt(worst, 1e-10);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("identities");
    tcase_add_test(facts, retardation_follows_from_the_angles_to_both_optic_axes);
    tcase_add_test(facts, the_optic_angle_is_the_same_by_its_cosine);
    tcase_add_test(facts, a_stone_is_dark_along_each_of_its_optic_axes_and_where_they_leave_it);
    tcase_add_test(facts, retardation_is_never_negative_nor_more_than_the_extreme_indices_allow);
    tcase_add_test(facts, two_equal_plates_crossed_cancel);
    tcase_add_test(facts, two_plates_in_one_are_one_plate);
    tcase_add_test(facts, a_stone_of_nearly_equal_indices_is_nearly_a_singly_refractive_one);
    tcase_add_test(facts, thickness_and_wavelength_doubled_change_nothing_without_dispersion);
    return run_case(facts, "identities");
}
