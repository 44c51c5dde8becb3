/* SPDX-License-Identifier: MIT */
/* What the polars send in and let out, in (p, s) of a ray: p = (cos theta cos phi, cos theta sin
 * phi, -sin theta), s = (-sin phi, cos phi, 0). */
#include "instrument.h"
#include "optics_test.h"

static IfigInstrument instrument_of(IfigLensKind lens, IfigPolarKind kind, double azimuth_deg)
{
    IfigInstrument instrument = IFIG_INSTRUMENT_INIT;
    instrument.lens = lens;
    instrument.polariser = instrument.analyser = (IfigPolar){kind, azimuth_deg};
    return instrument;
}

/* What the polariser sends in along a ray, and the analyser lets out. */
static void sent_in(const IfigInstrument *instrument, double theta, double phi,
                    double complex field[2])
{
    const IfigRay ray = ifig_ray(1.0, theta, phi);
    ifig_polariser_field(instrument, &ray, field);
}

static void let_out(const IfigInstrument *instrument, double theta, double phi,
                    double complex field[2])
{
    const IfigRay ray = ifig_ray(1.0, theta, phi);
    ifig_analyser_field(instrument, &ray, 589.3, field);
}

static double length(const double complex field[2])
{
    return sqrt(creal(field[0] * conj(field[0]) + field[1] * conj(field[1])));
}

START_TEST(fields_have_length_one_at_every_angle)
{
    Random random = {9};
    for (int i = 0; i < 3000; i++) {
        double complex in[2], out[2];
        IfigInstrument instrument = instrument_of((IfigLensKind)(i % 2), (IfigPolarKind)(i % 3),
                                                  random_between(&random, -360, 360));
        double phi = random_between(&random, -4, 4);
        sent_in(&instrument, random_between(&random, 0, 1.57), phi, in);
        let_out(&instrument, 0.7, phi, out);
        ck_assert_double_eq_tol(length(in), 1, 1e-14);
        ck_assert_double_eq_tol(length(out), 1, 1e-14);
    }
}
END_TEST

START_TEST(a_condenser_turns_the_field_in_the_meridional_plane)
{
    /* (cos A, sin A) of the lab seen from a frame turned by phi, whatever theta. */
    for (int i = 0; i < 36; i++) {
        double complex field[2];
        double a = 35 * IFIG_DEGREE, phi = 10 * i * IFIG_DEGREE;
        IfigInstrument lens = instrument_of(IFIG_LENS_OBJECTIVE, IFIG_POLAR_LINEAR, 35);
        sent_in(&lens, 0.02 * i, phi, field);
        ck_assert_double_eq_tol(cabs(field[0] - (cos(a) * cos(phi) + sin(a) * sin(phi))), 0, 1e-14);
        ck_assert_double_eq_tol(cabs(field[1] - (sin(a) * cos(phi) - cos(a) * sin(phi))), 0, 1e-14);
    }
}
END_TEST

START_TEST(an_oblique_sheet_passes_the_field_across_its_absorbing_axis_and_the_ray)
{
    Random random = {10};
    for (int i = 0; i < 500; i++) {
        double azimuth = random_between(&random, -180, 180), a = azimuth * IFIG_DEGREE;
        double theta = random_between(&random, 0, 1.5), phi = random_between(&random, -3, 3);
        IfigInstrument sheet = instrument_of(IFIG_LENS_SPHERE, IFIG_POLAR_LINEAR, azimuth);
        double complex field[2];
        sent_in(&sheet, theta, phi, field);
        const double p[3] = {cos(theta) * cos(phi), cos(theta) * sin(phi), -sin(theta)};
        const double s[3] = {-sin(phi), cos(phi), 0}, absorbing[3] = {-sin(a), cos(a), 0};
        double overlap = 0;
        for (int k = 0; k < 3; k++) {
            overlap += absorbing[k] * (creal(field[0]) * p[k] + creal(field[1]) * s[k]);
        }
        ck_assert_double_eq_tol(overlap, 0, 1e-14); /* nothing along the absorbing axis */
    }
}
END_TEST

START_TEST(a_sheet_met_squarely_passes_its_own_azimuth)
{
    IfigInstrument sheet = instrument_of(IFIG_LENS_SPHERE, IFIG_POLAR_LINEAR, 25);
    double complex field[2];
    sent_in(&sheet, 0, 0, field);
    ck_assert_double_eq_tol(creal(field[0]), cos(25 * IFIG_DEGREE), 1e-14);
    ck_assert_double_eq_tol(creal(field[1]), sin(25 * IFIG_DEGREE), 1e-14);
}
END_TEST

START_TEST(a_polar_at_a_right_angle_has_no_rounding)
{
    static const double right_angle[][3] = {
        {0, 1, 0},    {90, 0, 1},    {180, -1, 0}, {270, 0, -1}, {360, 1, 0},
        {-90, 0, -1}, {-180, -1, 0}, {-270, 0, 1}, {1170, 0, 1}, {-1170, 0, -1}};
    for (size_t i = 0; i < sizeof right_angle / sizeof right_angle[0]; i++) {
        double complex field[2];
        IfigInstrument lens =
            instrument_of(IFIG_LENS_OBJECTIVE, IFIG_POLAR_LINEAR, right_angle[i][0]);
        sent_in(&lens, 0, 0, field);
        ck_assert_double_eq(creal(field[0]), right_angle[i][1]);
        ck_assert_double_eq(creal(field[1]), right_angle[i][2]);
    }
}
END_TEST

START_TEST(right_handed_light_turns_clockwise_for_the_observer)
{
    /* Born & Wolf, Principles of Optics, 1.4.2: right-handed is clockwise looking toward the light.
     * The field is Re[field exp(-i omega t)]; a little later it has turned. */
    for (int left = 0; left < 2; left++) {
        IfigInstrument lens =
            instrument_of(IFIG_LENS_OBJECTIVE, left ? IFIG_POLAR_LEFT : IFIG_POLAR_RIGHT, 0);
        double complex field[2], later = cexp(-0.1 * I);
        sent_in(&lens, 0, 0, field);
        double before = atan2(creal(field[1]), creal(field[0]));
        double after = atan2(creal(field[1] * later), creal(field[0] * later));
        ck_assert_double_eq_tol(after - before, left ? 0.1 : -0.1, 1e-14);
    }
}
END_TEST

START_TEST(circular_polars_are_alike_at_every_azimuth_and_block_their_opposite)
{
    for (int i = 0; i < 24; i++) {
        double complex right[2], left[2], at_zero[2];
        double phi = 0.3 * i;
        IfigInstrument r = instrument_of(IFIG_LENS_SPHERE, IFIG_POLAR_RIGHT, 5 * i);
        IfigInstrument l = instrument_of(IFIG_LENS_OBJECTIVE, IFIG_POLAR_LEFT, 0);
        sent_in(&r, 0.5, phi, right);
        sent_in(&r, 0.5, 0, at_zero);
        let_out(&l, 0.4, phi, left);
        double complex passed = conj(left[0]) * right[0] + conj(left[1]) * right[1];
        ck_assert_double_eq_tol(cabs(passed), 0, 1e-14);
        /* smooth through the centre: the same field of the lab at every phi */
        double complex x = right[0] * cos(phi) - right[1] * sin(phi);
        ck_assert_double_eq_tol(cabs(x - at_zero[0]), 0, 1e-14);
    }
}
END_TEST

START_TEST(a_plate_neither_takes_nor_adds_light_and_undoes_itself_when_crossed)
{
    /* Its matrix is unitary, and that of the slow direction a quarter turn further is its inverse:
     * seen through both, an analyser passes what it passes alone. Half a wave at 45 degrees turns
     * the analyser's field by a right angle. */
    Random random = {10};
    for (int i = 0; i < 3000; i++) {
        double complex alone[2], one[2], other[2], dot, crossed;
        double phi = random_between(&random, -4, 4), slow = random_between(&random, -180, 180);
        IfigInstrument instrument = instrument_of(IFIG_LENS_OBJECTIVE, (IfigPolarKind)(i % 3),
                                                  random_between(&random, -180, 180));
        let_out(&instrument, 0.3, phi, alone);
        instrument.plate = (IfigPlate){.material = IFIG_PLATE_GYPSUM,
                                       .retardation_nm = random_between(&random, 0, 2000),
                                       .slow_azimuth_deg = slow};
        let_out(&instrument, 0.3, phi, one);
        instrument.plate.slow_azimuth_deg = slow + 90;
        let_out(&instrument, 0.3, phi, other);
        ck_assert_double_eq_tol(length(one), 1, 1e-14);
        /* one = U a, other = U^-1 a: their sum is 2 cos b a. */
        double b = IFIG_PI * instrument.plate.retardation_nm / 589.3;
        for (int k = 0; k < 2; k++) {
            ck_assert_double_lt(cabs(one[k] + other[k] - 2 * cos(b) * alone[k]), 1e-12);
        }
        instrument.plate.retardation_nm = 0.5 * 589.3;
        instrument.analyser = (IfigPolar){IFIG_POLAR_LINEAR, slow - 45};
        instrument.plate.slow_azimuth_deg = slow;
        let_out(&instrument, 0.3, phi, one);
        dot = cos((slow - 45) * IFIG_DEGREE - phi) * one[0] +
              sin((slow - 45) * IFIG_DEGREE - phi) * one[1];
        crossed = cos((slow + 45) * IFIG_DEGREE - phi) * one[0] +
                  sin((slow + 45) * IFIG_DEGREE - phi) * one[1];
        ck_assert_double_lt(cabs(dot), 1e-12);
        ck_assert_double_eq_tol(cabs(crossed), 1, 1e-12);
    }
}
END_TEST

START_TEST(a_plate_along_the_analyser_is_like_one_nearly_along_it)
{
    /* Behind a lens it shifts the phase alone; a naked eye's analyser is met obliquely, and passes
     * a field that is not quite along the plate. */
    static const IfigLensKind lenses[] = {IFIG_LENS_SPHERE, IFIG_LENS_OBJECTIVE, IFIG_LENS_NONE};
    for (int i = 0; i < 3; i++) {
        double complex bare[2], along[2], nearly[2];
        IfigInstrument instrument = instrument_of(lenses[i], IFIG_POLAR_LINEAR, 25);
        let_out(&instrument, 0.9, 1.2, bare);
        instrument.plate = (IfigPlate){IFIG_PLATE_GYPSUM, 0.5 * 589.3, 25};
        let_out(&instrument, 0.9, 1.2, along);
        instrument.plate.slow_azimuth_deg += 1e-6;
        let_out(&instrument, 0.9, 1.2, nearly);
        double alike = cabs(conj(along[0]) * nearly[0] + conj(along[1]) * nearly[1]);
        double as_bare = cabs(conj(along[0]) * bare[0] + conj(along[1]) * bare[1]);
        ck_assert_double_eq_tol(alike, 1, 1e-12);
        if (lenses[i] == IFIG_LENS_NONE) {
            ck_assert_double_lt(as_bare, 0.99);
        } else {
            ck_assert_double_eq_tol(as_bare, 1, 1e-12);
        }
    }
}
END_TEST

START_TEST(a_quartz_wedge_has_the_dispersion_of_quartz)
{
    /* n_epsilon - n_omega of the catalogue's quartz: Ghosh, Opt. Commun. 163, 95 (1999). */
    const IfigSpecies *quartz = builtin("quartz");
    const IfigPlate wedge = {IFIG_PLATE_QUARTZ, 1000, 45};
    double n[3], at_550;
    ck_assert_int_eq(ifig_species_indices(quartz, 550, n, NULL), IFIG_OK);
    at_550 = n[2] - n[0];
    for (double nm = 380; nm <= 780; nm += 10) {
        ck_assert_int_eq(ifig_species_indices(quartz, nm, n, NULL), IFIG_OK);
        ck_assert_double_eq_tol(ifig_plate_retardation_nm(&wedge, nm) / 1000,
                                (n[2] - n[0]) / at_550, 1e-3);
    }
    ck_assert_double_nan(ifig_plate_retardation_nm(&wedge, 0));
    ck_assert_double_nan(ifig_plate_retardation_nm(&wedge, 830.1));
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("polars");
    tcase_add_test(facts, fields_have_length_one_at_every_angle);
    tcase_add_test(facts, a_condenser_turns_the_field_in_the_meridional_plane);
    tcase_add_test(facts, an_oblique_sheet_passes_the_field_across_its_absorbing_axis_and_the_ray);
    tcase_add_test(facts, a_sheet_met_squarely_passes_its_own_azimuth);
    tcase_add_test(facts, a_polar_at_a_right_angle_has_no_rounding);
    tcase_add_test(facts, right_handed_light_turns_clockwise_for_the_observer);
    tcase_add_test(facts, circular_polars_are_alike_at_every_azimuth_and_block_their_opposite);
    tcase_add_test(facts, a_plate_neither_takes_nor_adds_light_and_undoes_itself_when_crossed);
    tcase_add_test(facts, a_plate_along_the_analyser_is_like_one_nearly_along_it);
    tcase_add_test(facts, a_quartz_wedge_has_the_dispersion_of_quartz);
    return run_case(facts, "instrument polars");
}
