/* SPDX-License-Identifier: MIT */
/* Near grazing and beyond total reflection, where forward and backward waves meet. */
#include "random_plate.h"

#include <stdio.h>

static const PlateKind KINDS[] = {{1, 0}, {2, 0}, {3, 0}, {1, 1}, {2, 1}, {3, 1}};

/* How far the forward roots stand from the backward ones. */
static double apart(const BerremanWave *wave)
{
    double least = 1e9;
    for (int i = 0; i < 2; i++) {
        for (int j = 2; j < 4; j++) {
            least = fmin(least, cabs(wave->q[i] - wave->q[j]));
        }
    }
    return least;
}

static double least_decay(const BerremanWave *wave)
{
    return fmin(cimag(wave->q[0]), cimag(wave->q[1]));
}

/* Against the reference, with a tolerance where all waves can be told apart in double precision. */
static double compare(const RandomPlate *plate, double tolerance, int *dark)
{
    BerremanWave reference;
    const BerremanPlate *r = &plate->reference;
    ck_assert(berreman_wave(r, &reference));
    IfigPlateWave wave = wave_of(&plate->layer, 1, beam_of(r));
    double share = largest_share(&wave), error = 0;
    ck_assert_msg(share >= 0 && share <= 1 + 1e-9 && isfinite(wave.retardation_nm),
                  "share %.12f, retardation %g", share, wave.retardation_nm);
    if (reference.evanescent < 2) {
        error = jones_error(&wave, reference.jones);
        ck_assert_int_eq(wave.is_dark, 0);
        ck_assert_msg(error < tolerance,
                      "n %.5f %.5f %.5f outside %.4f theta %.6f: error %.2e, roots %.2e apart",
                      r->n[0], r->n[1], r->n[2], r->n_outside, r->theta_deg, error,
                      apart(&reference));
    } else if (least_decay(&reference) > 2e-3) {
        /* Closer to the critical angle than about a millionth, light may tunnel through. */
        ck_assert_int_eq(wave.is_dark, 1);
        ck_assert_double_eq(share, 0);
        ck_assert_double_eq(wave.retardation_nm, 0);
    }
    *dark += wave.is_dark;
    return error;
}

START_TEST(plates_in_liquids_up_to_89_degrees_agree_with_lapack)
{
    Random random = {1815}; /* Brewster's law */
    int dark = 0;
    double worst = 0;
    for (int i = 0; i < 12000; i++) {
        RandomPlate plate = draw_plate(&random, KINDS[i % 6]);
        plate.reference.n_outside = random_between(&random, 1, 2.5);
        plate.reference.theta_deg = random_between(&random, 0, 89);
        worst = fmax(worst, compare(&plate, 2e-9, &dark));
        ifig_species_free(plate.species);
    }
    ck_assert_int_gt(dark, 500);
    printf("in liquids: largest Jones error %.2e, %d plates dark\n", worst, dark);
}
END_TEST

START_TEST(a_stone_of_1_43_in_a_liquid_of_1_74_never_leaves_0_to_1)
{
    Random random = {174};
    int dark = 0;
    for (int i = 0; i < 3000; i++) {
        RandomPlate plate = draw_plate(&random, KINDS[i % 6]);
        static const double indices[3] = {1.43, 1.45, 1.48};
        ifig_species_free(plate.species);
        plate.species = stone_of(indices, (size_t)(i % 3 + 1), 0);
        plate.layer.species = plate.species;
        for (int a = 0; a < 3; a++) {
            /* one index, omega and epsilon, or three */
            plate.reference.n[a] = indices[i % 3 == 2 ? a : i % 3 == 1 && a == 2 ? 1 : 0];
        }
        plate.reference.gyration_along = plate.reference.gyration_across = 0;
        plate.reference.n_outside = 1.74;
        plate.reference.theta_deg = random_between(&random, 50, 89);
        compare(&plate, 2e-9, &dark);
        ifig_species_free(plate.species);
    }
    ck_assert_int_gt(dark, 1000);
}
END_TEST

START_TEST(plates_next_to_the_critical_angle_agree_with_lapack)
{
    /* Roots as close as 1e-6 keep half of the sixteen digits. */
    Random random = {1611}; /* Kepler's Dioptrice: total reflection */
    int dark = 0, close = 0;
    double worst = 0;
    for (int i = 0; i < 6000; i++) {
        RandomPlate plate = draw_plate(&random, KINDS[i % 6]);
        BerremanPlate *r = &plate.reference;
        double off = pow(10, random_between(&random, -12, -2)), side = i / 6 % 2 ? 1 : -1;
        r->n_outside = fmin(1.2 * r->n[i % 6 % 3], 3);
        double sine = r->n[i % 6 % 3] * (1 + side * off) / r->n_outside;
        r->theta_deg = asin(fmin(sine, 0.999)) / IFIG_DEGREE;
        BerremanWave reference;
        ck_assert(berreman_wave(r, &reference));
        close += apart(&reference) < 1e-3;
        worst = fmax(worst, compare(&plate, 2e-8, &dark));
        ifig_species_free(plate.species);
    }
    ck_assert_int_gt(close, 500);
    printf("next to the critical angle: largest Jones error %.2e, roots of %d within 1e-3\n", worst,
           close);
}
END_TEST

START_TEST(a_singly_refractive_plate_follows_fresnel)
{
    /* Born & Wolf, Principles of Optics, 1.5.2, eqs. 20a and 20b, at both faces. */
    IfigSpecies *glass = stone_of((const double[]){1.43}, 1, 0);
    IfigLayer layer = layer_of(glass, IFIG_VIEW_Z, 1);
    for (int i = 0; i < 89; i++) {
        Beam beam = {1.74, SODIUM_NM, i, 17};
        IfigPlateWave wave = wave_of(&layer, 1, beam);
        double ci = cos(i * IFIG_DEGREE), sine = 1.74 / 1.43 * sin(i * IFIG_DEGREE);
        ck_assert_int_eq(wave.is_dark, sine > 1);
        if (sine < 1) {
            double ct = sqrt(1 - sine * sine), a = 1.74, b = 1.43;
            double t_s = 4 * a * b * ci * ct / ((a * ci + b * ct) * (a * ci + b * ct));
            double t_p = 4 * a * b * ci * ct / ((b * ci + a * ct) * (b * ci + a * ct));
            ck_assert_double_eq_tol(cabs(element(&wave, 0, 0)), t_p, 1e-12);
            ck_assert_double_eq_tol(cabs(element(&wave, 1, 1)), t_s, 1e-12);
            ck_assert_double_eq_tol(cabs(element(&wave, 0, 1)), 0, 1e-14);
            ck_assert_double_eq_tol(wave.retardation_nm, 0, 1e-9);
        }
    }
    ifig_species_free(glass);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("limits");
    tcase_add_test(facts, plates_in_liquids_up_to_89_degrees_agree_with_lapack);
    tcase_add_test(facts, a_stone_of_1_43_in_a_liquid_of_1_74_never_leaves_0_to_1);
    tcase_add_test(facts, plates_next_to_the_critical_angle_agree_with_lapack);
    tcase_add_test(facts, a_singly_refractive_plate_follows_fresnel);
    return run_case(facts, "wave limits");
}
