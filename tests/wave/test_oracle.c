/* SPDX-License-Identifier: MIT */
/* The library's plate against the eigenvectors of Berreman's 4 x 4 system (J. Opt. Soc. Am. 62, 502
 * (1972)), found by LAPACK. */
#include "random_plate.h"

#include <stdio.h>

/* The largest errors over many plates. */
typedef struct Worst {
    double jones, retardation_nm, vectors;
    int plates, vector_plates;
} Worst;

static void compare(const RandomPlate *plate, Worst *worst)
{
    BerremanWave reference;
    const BerremanPlate *r = &plate->reference;
    ck_assert_msg(berreman_wave(r, &reference), "no reference for plate %d", worst->plates);
    IfigPlateWave wave = wave_of(&plate->layer, 1, beam_of(r));
    double error = jones_error(&wave, reference.jones);
    double turn = fabs(wave.retardation_nm - reference.retardation_nm);
    ck_assert_msg(error < 1e-9 && turn < 1e-6,
                  "plate %d: n %.6f %.6f %.6f, %.4f mm, theta %.3f: Jones error %.2e, retardation "
                  "%.9f against %.9f",
                  worst->plates, r->n[0], r->n[1], r->n[2], r->thickness_mm, r->theta_deg, error,
                  wave.retardation_nm, reference.retardation_nm);
    worst->jones = fmax(worst->jones, error);
    worst->retardation_nm = fmax(worst->retardation_nm, turn);
    /* Single eigenvectors hold to rounding over the distance of their roots: they are a second
     * witness where that is not small. */
    if (reference.has_vectors && cabs(reference.q[0] - reference.q[1]) > 1e-2) {
        worst->vectors = fmax(worst->vectors, jones_error(&wave, reference.by_vector));
        worst->vector_plates++;
    }
    worst->plates++;
}

static void report(const char *what, const Worst *worst)
{
    printf("%s: %d plates, largest Jones error %.2e, retardation %.2e nm; %d plates by single "
           "vectors %.2e\n",
           what, worst->plates, worst->jones, worst->retardation_nm, worst->vector_plates,
           worst->vectors);
}

START_TEST(plates_agree_with_lapack_below_1e_9)
{
    static const PlateKind kinds[] = {{1, 0}, {2, 0}, {3, 0}, {1, 1}, {2, 1}, {3, 1}};
    Random random = {2024};
    Worst worst = {0};
    for (int i = 0; i < 1002; i++) {
        RandomPlate plate = draw_plate(&random, kinds[i % 6]);
        compare(&plate, &worst);
        ifig_species_free(plate.species);
    }
    ck_assert_double_lt(worst.vectors, 1e-9);
    ck_assert_int_gt(worst.vector_plates, 300);
    report("any direction", &worst);
}
END_TEST

START_TEST(plates_at_an_optic_axis_agree_with_lapack_below_1e_9)
{
    static const PlateKind kinds[] = {{2, 0}, {3, 0}, {2, 1}, {3, 1}};
    static const double away[] = {1e-6, 1e-9, 0};
    Random random = {1832}; /* the year of Hamilton's conical refraction */
    Worst worst = {0};
    for (int i = 0; i < 240; i++) {
        RandomPlate plate = draw_plate_at_axis(&random, kinds[i % 4], away[i / 4 % 3]);
        compare(&plate, &worst);
        ifig_species_free(plate.species);
    }
    report("within 1e-6 rad of an optic axis", &worst);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("oracle");
    tcase_add_test(facts, plates_agree_with_lapack_below_1e_9);
    tcase_add_test(facts, plates_at_an_optic_axis_agree_with_lapack_below_1e_9);
    return run_case(facts, "wave oracle");
}
