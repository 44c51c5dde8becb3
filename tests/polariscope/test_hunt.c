/* SPDX-License-Identifier: MIT */
/* The size of the patch and the chance of a false single, against closed forms and plain sums; the
 * usual cuts. */
#include "hunt_test.h"

/* sin^2 of the angle to c at which a uniaxial stone has a birefringence: 1/n^2 = cos^2/no^2 +
 * sin^2/ne^2 (Born & Wolf, Principles of Optics, 15.3). */
static double sine_squared(double omega, double epsilon, double birefringence)
{
    double n = omega + (epsilon > omega ? birefringence : -birefringence);
    double o = 1.0 / (omega * omega), e = 1.0 / (epsilon * epsilon);
    return (o - 1.0 / (n * n)) / (o - e);
}

/* Share of all directions within a double cone about c. */
static double cone_share(double sine_squared_theta)
{
    return 1.0 - sqrt(1.0 - sine_squared_theta);
}

START_TEST(the_patch_of_a_uniaxial_stone_is_a_cone)
{
    static const double stones[][2] = {
        {1.5442, 1.5533}, {1.7681, 1.76}, {1.6584, 1.4864}, {1.925, 1.984}};
    for (size_t i = 0; i < sizeof stones / sizeof stones[0]; i++) {
        IfigSpecies *species = uniaxial_stone(stones[i][0], stones[i][1]);
        Bench bench;
        set_bench(&bench, species, 3);
        const IfigHunt hunt = hunt_of(&bench);
        for (int k = 0; k < IFIG_HUNT_THICKNESSES; k++) {
            double b = IFIG_PATCH_RETARDATION_NM / (hunt.thickness_mm[k] * 1e6);
            double s2 = sine_squared(stones[i][0], stones[i][1], b), share = cone_share(s2);
            ck_assert_double_eq_tol(hunt.patch_share[k], share, 1e-9 + 1e-8 * share);
            ck_assert_double_eq_tol(hunt.patch_sr[k], 4 * IFIG_PI * share, 1e-7 * share);
            ck_assert_double_eq_tol(hunt.patch_radius_deg[k], asin(sqrt(s2)) / IFIG_DEGREE, 1e-6);
        }
        ck_assert_double_eq(hunt.thickness_mm[0], 3);
        ck_assert_double_eq(hunt.thickness_mm[5], 10);
        clear_bench(&bench);
        ifig_species_free(species);
    }
}
END_TEST

START_TEST(a_thin_or_weak_stone_shows_colours_everywhere)
{
    IfigSpecies *species = uniaxial_stone(1.638, 1.634);
    Bench bench;
    set_bench(&bench, species, 0.5); /* 0.5 mm x 0.004: 2000 nm at most */
    const IfigHunt hunt = hunt_of(&bench);
    ck_assert_double_eq_tol(hunt.patch_share[0], 1, 1e-9);
    ck_assert_double_eq_tol(hunt.patch_radius_deg[0], 90, 1e-4);
    ck_assert_double_lt(hunt.patch_share[2], 0.9);
    clear_bench(&bench);
    ifig_species_free(species);
}
END_TEST

/* 1/n1^2 - 1/n2^2 = (1/na^2 - 1/ng^2) sin T1 sin T2, exact (Born & Wolf, 15.3.3, eq. 20). */
START_TEST(a_small_patch_of_a_biaxial_stone_is_a_circle_about_each_axis)
{
    const double n[3] = {1.610, 1.613, 1.620};
    IfigSpecies *species = biaxial_stone(n[0], n[1], n[2]);
    Bench bench;
    set_bench(&bench, species, 90);
    const IfigHunt hunt = hunt_of(&bench);
    double c = 0.5 * pow(n[1], 3) * (1 / (n[0] * n[0]) - 1 / (n[2] * n[2]));
    double sine = sin(hunt.axes.two_v_deg * IFIG_DEGREE);
    double radius = IFIG_PATCH_RETARDATION_NM / (90e6 * c * sine);
    /* The next term is of the order of the radius squared. */
    ck_assert_double_eq_tol(hunt.patch_sr[0] / (4 * IFIG_PI * radius * radius), 1, 1e-4);
    clear_bench(&bench);
    ifig_species_free(species);
}
END_TEST

/* n2 - n1 along (s_x, s_y, s_z) from Fresnel's equation of wave normals, a quadratic in 1/n^2:
 * sum s_i^2 (p - b_j)(p - b_k) = 0 with b = 1/n^2 (Born & Wolf, 15.2.2, eq. 24). */
static double fresnel_birefringence(const double b[3], const double s[3])
{
    double x = s[0] * s[0], y = s[1] * s[1], z = s[2] * s[2];
    double sum = x * (b[1] + b[2]) + y * (b[0] + b[2]) + z * (b[0] + b[1]);
    double product = x * b[1] * b[2] + y * b[0] * b[2] + z * b[0] * b[1];
    double root = sqrt(fmax(0.25 * sum * sum - product, 0));
    return 1.0 / sqrt(0.5 * sum - root) - 1.0 / sqrt(0.5 * sum + root);
}

START_TEST(patches_that_run_together_are_counted_once)
{
    /* Every direction of an octant by itself: 3000 x 3000 equal areas. */
    enum { STEPS = 3000 };
    const double n[3] = {1.610, 1.613, 1.620};
    const double b[3] = {1 / (n[0] * n[0]), 1 / (n[1] * n[1]), 1 / (n[2] * n[2])};
    IfigSpecies *species = biaxial_stone(n[0], n[1], n[2]);
    Bench bench;
    set_bench(&bench, species, 0.8);
    const IfigHunt hunt = hunt_of(&bench);
    size_t inside[2] = {0, 0};
    for (int i = 0; i < STEPS; i++) {
        double z = (i + 0.5) / STEPS, r = sqrt(1 - z * z);
        for (int k = 0; k < STEPS; k++) {
            double phi = 0.5 * IFIG_PI * (k + 0.5) / STEPS;
            const double s[3] = {r * cos(phi), r * sin(phi), z};
            double nm = fresnel_birefringence(b, s) * 1e6;
            inside[0] += 0.8 * nm <= IFIG_PATCH_RETARDATION_NM;
            inside[1] += 0.5 * nm <= IFIG_PATCH_RETARDATION_NM;
        }
    }
    ck_assert_double_eq_tol(hunt.patch_share[0], (double)inside[0] / (STEPS * STEPS), 2e-5);
    ck_assert_double_eq_tol(hunt.patch_share[1], (double)inside[1] / (STEPS * STEPS), 5e-5);
    clear_bench(&bench);
    ifig_species_free(species);
}
END_TEST

/* Retardation at which white light of a lamp falls to the share that counts as dark, by 1 nm. */
static double dark_retardation(const IfigLamp *lamp)
{
    double low = 0, high = 200;
    for (int i = 0; i < 60; i++) {
        double middle = 0.5 * (low + high), light = 0, white = 0;
        for (int nm = 380; nm <= 780; nm++) {
            double xyz[3], s = sin(IFIG_PI * middle / nm);
            ifig_colour_matching(nm, xyz);
            light += ifig_lamp_power(lamp, nm) * xyz[1] * s * s;
            white += ifig_lamp_power(lamp, nm) * xyz[1];
        }
        *(light <= IFIG_DARK_SHARE * white ? &low : &high) = middle;
    }
    return low;
}

START_TEST(the_false_singles_of_a_uniaxial_stone_fill_a_cone)
{
    IfigSpecies *species = uniaxial_stone(1.7681, 1.76);
    Bench bench;
    set_bench(&bench, species, 3);
    const IfigHunt hunt = hunt_of(&bench);
    const double dark = dark_retardation(bench.lamp);
    for (int k = 0; k < IFIG_HUNT_THICKNESSES; k++) {
        double s2 = sine_squared(1.7681, 1.76, dark / (hunt.thickness_mm[k] * 1e6));
        ck_assert_double_eq_tol(hunt.false_single[k] / cone_share(s2), 1, 1e-3);
    }
    clear_bench(&bench);
    ifig_species_free(species);
}
END_TEST

START_TEST(under_one_line_every_dark_ring_is_a_false_single)
{
    const double line = 546.1, half = asin(sqrt(IFIG_DARK_SHARE)) / IFIG_PI;
    IfigSpecies *species = uniaxial_stone(1.5442, 1.5533);
    Bench bench;
    set_bench(&bench, species, 1);
    light_by_line(&bench, line);
    double sum = 0;
    for (int m = 0; m <= 16; m++) {
        double outer = sine_squared(1.5442, 1.5533, (m + half) * line / 1e6);
        double inner = m > 0 ? sine_squared(1.5442, 1.5533, (m - half) * line / 1e6) : 0;
        sum += inner < 1 ? cone_share(fmin(outer, 1)) - cone_share(inner) : 0;
    }
    ck_assert_double_eq_tol(hunt_of(&bench).false_single[0], sum, 1e-4);
    clear_bench(&bench);
    ifig_species_free(species);
}
END_TEST

START_TEST(rotation_keeps_quartz_from_being_taken_for_a_single)
{
    /* 21.7 degrees a millimetre (CRC Handbook): sin^2 of 10.9 degrees is 0.036, more than dark. The
     * same indices without rotation hide along c. */
    Bench bench;
    set_bench(&bench, builtin("quartz"), 3);
    const IfigHunt hunt = hunt_of(&bench);
    for (int k = 0; k < IFIG_HUNT_THICKNESSES; k++) {
        ck_assert_double_eq(hunt.false_single[k], 0);
    }
    bench.layer.thickness_mm = 0.1;
    ck_assert_double_gt(hunt_of(&bench).false_single[0], 0);
    clear_bench(&bench);
}
END_TEST

START_TEST(a_single_stone_is_dark_from_everywhere_and_has_no_patch)
{
    Bench bench;
    set_bench(&bench, builtin("spinel"), 3);
    IfigHunt hunt = hunt_of(&bench);
    ck_assert_double_eq(hunt.false_single[0], 1);
    ck_assert_double_eq(hunt.patch_sr[0], 0);
    ck_assert_uint_eq(hunt.cut_count, 0);
    bench.layer.species = builtin("sodium_chlorate"); /* 3.16 deg/mm (Winkelmann, p. 802) */
    hunt = hunt_of(&bench);
    ck_assert_double_eq(hunt.false_single[0], 0);
    clear_bench(&bench);
}
END_TEST

START_TEST(a_table_across_c_is_looked_straight_through_and_one_along_c_is_not)
{
    Bench bench;
    set_bench(&bench, builtin("corundum"), 3);
    const IfigHunt hunt = hunt_of(&bench);
    ck_assert_uint_eq(hunt.cut_count, 2); /* common practice, from memory */
    ck_assert_double_eq_tol(hunt.cut[0].nearest_axis_deg, 0, 1e-9);
    ck_assert_double_eq_tol(hunt.cut[0].most_outside_deg, 0, 1e-9);
    ck_assert_double_eq_tol(hunt.cut[1].nearest_axis_deg, 90, 1e-9);
    ck_assert_double_nan(hunt.cut[1].most_outside_deg);
    clear_bench(&bench);
}
END_TEST

START_TEST(the_lean_follows_snells_law_with_the_middle_index)
{
    /* Gypsum across its acute bisectrix: sin E = n_beta sin V (check value B6, 2E = 95.2). */
    Bench bench;
    set_bench(&bench, builtin("gypsum"), 2);
    const IfigHunt hunt = hunt_of(&bench);
    const double apparent = ifig_apparent_optic_angle_deg(hunt.axes.n[1], hunt.axes.two_v_deg, 1.0);
    ck_assert_double_eq_tol(2 * hunt.cut[0].most_outside_deg, apparent, 1e-9);
    ck_assert_double_eq_tol(2 * hunt.cut[0].most_outside_deg, 95.2, 0.2);
    clear_bench(&bench);
}
END_TEST

START_TEST(what_cannot_be_hunted_is_refused_with_a_remedy)
{
    static const char *const keys[] = {"chalcedony", "tourmaline_schorl"};
    Bench bench;
    IfigHunt hunt = IFIG_HUNT_INIT;
    IfigError error = IFIG_ERROR_INIT;
    for (int i = 0; i < 2; i++) {
        set_bench(&bench, builtin(keys[i]), 3);
        ck_assert_int_eq(ifig_hunt(&bench.scene, &hunt, &error), IFIG_ERROR_UNSUITABLE);
        ck_assert_ptr_nonnull(strstr(error.message, keys[i]));
        ck_assert_ptr_nonnull(strstr(error.message, "choose"));
        clear_bench(&bench);
    }
    const IfigLayer pair[2] = {layer_of(builtin("quartz"), IFIG_VIEW_Z, 1),
                               layer_of(builtin("quartz"), IFIG_VIEW_Z, 1)};
    set_bench(&bench, builtin("diamond"), 3);
    bench.layer.stress_mpa = 10;
    ck_assert_int_eq(ifig_hunt(&bench.scene, &hunt, &error), IFIG_ERROR_UNSUITABLE);
    ck_assert_ptr_nonnull(strstr(error.message, "stress"));
    bench.scene.layers = pair;
    bench.scene.layer_count = 2;
    ck_assert_int_eq(ifig_hunt(&bench.scene, &hunt, &error), IFIG_ERROR_UNSUITABLE);
    ck_assert_int_eq(ifig_hunt(&bench.scene, NULL, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_hunt(NULL, &hunt, &error), IFIG_ERROR_ARGUMENT);
    clear_bench(&bench);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("hunt");
    tcase_add_test(facts, the_patch_of_a_uniaxial_stone_is_a_cone);
    tcase_add_test(facts, a_thin_or_weak_stone_shows_colours_everywhere);
    tcase_add_test(facts, a_small_patch_of_a_biaxial_stone_is_a_circle_about_each_axis);
    tcase_add_test(facts, patches_that_run_together_are_counted_once);
    tcase_add_test(facts, the_false_singles_of_a_uniaxial_stone_fill_a_cone);
    tcase_add_test(facts, under_one_line_every_dark_ring_is_a_false_single);
    tcase_add_test(facts, rotation_keeps_quartz_from_being_taken_for_a_single);
    tcase_add_test(facts, a_single_stone_is_dark_from_everywhere_and_has_no_patch);
    tcase_add_test(facts, a_table_across_c_is_looked_straight_through_and_one_along_c_is_not);
    tcase_add_test(facts, the_lean_follows_snells_law_with_the_middle_index);
    tcase_add_test(facts, what_cannot_be_hunted_is_refused_with_a_remedy);
    return run_case(facts, "hunt");
}
