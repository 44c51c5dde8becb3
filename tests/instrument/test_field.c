/* SPDX-License-Identifier: MIT */
/* Which ray each point of the picture sees. */
#include "instrument.h"
#include "optics_test.h"

#include <string.h>

static IfigInstrument objective(double aperture, double immersion)
{
    IfigInstrument instrument = IFIG_INSTRUMENT_INIT;
    instrument.lens = IFIG_LENS_OBJECTIVE;
    instrument.aperture = aperture;
    instrument.immersion_index = immersion;
    return instrument;
}

static double theta_at(const IfigInstrument *instrument, double x, double y)
{
    double theta, phi;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_instrument_direction(instrument, x, y, &theta, &phi, &error) == IFIG_OK,
                  "%s", error.message);
    return theta;
}

START_TEST(a_ball_of_index_1_5_sees_21_06_degrees_at_half_its_radius)
{
    /* Snell's law twice: theta = 2 [asin rho - asin(rho / n)]. The field is chosen so that the rim
     * lies at a known radius of the ball. */
    static const double at[][2] = {{0.5, 21.06}, {0.8, 41.80}};
    for (int i = 0; i < 2; i++) {
        IfigInstrument ball = IFIG_INSTRUMENT_INIT;
        double rho = at[i][0];
        ball.field_deg = 2 * (asin(rho) - asin(rho / 1.5)) / IFIG_DEGREE;
        ck_assert_double_eq_tol(ball.field_deg, at[i][1], 0.005);
        ck_assert_double_eq_tol(theta_at(&ball, 1, 0), ball.field_deg, 1e-10);
        double half = 2 * (asin(0.5 * rho) - asin(0.5 * rho / 1.5)) / IFIG_DEGREE;
        ck_assert_double_eq_tol(theta_at(&ball, 0, 0.5), half, 1e-10);
    }
}
END_TEST

/* Snell's law at a point of the unit sphere: the direction behind it, ratio = n before / n behind.
 */
static void refract(const double normal[2], double ratio, double ray[2])
{
    double cosine = -(ray[0] * normal[0] + ray[1] * normal[1]);
    double bent = ratio * cosine - sqrt(1 - ratio * ratio * (1 - cosine * cosine));
    for (int i = 0; i < 2; i++) {
        ray[i] = ratio * ray[i] + bent * normal[i];
    }
}

START_TEST(the_ball_bends_as_a_traced_ray_does)
{
    /* Backwards from the eye: down at radius rho, in at the top, out at the bottom of the ball. */
    static const double index[] = {1.5, 1.9, 1.5}, liquid[] = {1, 1, 1.33};
    for (int i = 0; i < 3; i++) {
        IfigInstrument ball = IFIG_INSTRUMENT_INIT;
        ball.sphere_index = index[i];
        ball.immersion_index = liquid[i];
        ball.field_deg = 10;
        double n = index[i] / liquid[i], r = 0.9;
        /* the rim's radius on the ball, by bisection of the deviation */
        double low = 0, high = 1;
        for (int step = 0; step < 60; step++) {
            double middle = 0.5 * (low + high);
            *(2 * (asin(middle) - asin(middle / n)) < 10 * IFIG_DEGREE ? &low : &high) = middle;
        }
        double rho = r * low, point[2] = {rho, sqrt(1 - rho * rho)}, ray[2] = {0, -1};
        refract(point, 1 / n, ray);
        double along = -2 * (point[0] * ray[0] + point[1] * ray[1]);
        const double inward[2] = {-point[0] - along * ray[0], -point[1] - along * ray[1]};
        refract(inward, n, ray);
        ck_assert_double_eq_tol(theta_at(&ball, r, 0), atan2(-ray[0], -ray[1]) / IFIG_DEGREE, 1e-9);
    }
}
END_TEST

START_TEST(an_objective_keeps_the_sine_condition)
{
    /* Abbe: n sin(theta) = NA rho. */
    static const double immersion[] = {1, 1.515};
    for (int i = 0; i < 2; i++) {
        IfigInstrument lens = objective(0.9, immersion[i]);
        for (int r = 0; r <= 10; r++) {
            double sine = sin(theta_at(&lens, 0.1 * r, 0) * IFIG_DEGREE);
            ck_assert_double_eq_tol(immersion[i] * sine, 0.9 * 0.1 * r, 1e-12);
        }
    }
}
END_TEST

START_TEST(the_fields_are_those_of_their_apertures)
{
    /* Half angle asin NA in air: 0.40, 0.65 and 0.85 give 23.6, 40.5 and 58.2 degrees (law of
     * sines; the table of check values, B9). The sphere's 55 degrees is this program's own choice.
     */
    static const double of[][2] = {{0.40, 23.6}, {0.65, 40.5}, {0.85, 58.2}};
    for (int i = 0; i < 3; i++) {
        IfigInstrument lens = objective(of[i][0], 1);
        ck_assert_double_eq_tol(ifig_instrument_field_deg(&lens), of[i][1], 0.1);
        ck_assert_double_eq_tol(theta_at(&lens, 0, -1), of[i][1], 0.1);
    }
    IfigInstrument ball = IFIG_INSTRUMENT_INIT;
    ck_assert_double_eq(ifig_instrument_field_deg(&ball), 55);
    ball.field_deg = 30;
    ck_assert_double_eq(ifig_instrument_field_deg(&ball), 30);
}
END_TEST

START_TEST(position_is_the_inverse_of_direction)
{
    Random random = {8};
    for (int i = 0; i < 4000; i++) {
        IfigInstrument lens = objective(random_between(&random, 0.05, 0.99), 1);
        if (i % 2 == 0) {
            lens.lens = IFIG_LENS_SPHERE;
            lens.sphere_index = random_between(&random, 1.5, 2.5);
            lens.field_deg = random_between(&random, 1, 80);
            lens.field_deg = fmin(lens.field_deg, 95 * (1 - 1 / lens.sphere_index));
        }
        double r = random_between(&random, 0, 1), a = random_between(&random, -3, 3);
        double x = r * cos(a), y = r * sin(a), theta, phi, back_x, back_y;
        ck_assert_int_eq(ifig_instrument_direction(&lens, x, y, &theta, &phi, NULL), IFIG_OK);
        ck_assert_int_eq(ifig_instrument_position(&lens, theta, phi, &back_x, &back_y, NULL),
                         IFIG_OK);
        ck_assert_double_eq_tol(phi, a / IFIG_DEGREE, 1e-9);
        ck_assert_double_eq_tol(back_x, x, 1e-9);
        ck_assert_double_eq_tol(back_y, y, 1e-9);
    }
}
END_TEST

START_TEST(directions_grow_from_the_centre_to_the_rim)
{
    IfigInstrument ball = IFIG_INSTRUMENT_INIT, lens = objective(0.85, 1);
    ck_assert_double_eq(theta_at(&ball, 0, 0), 0);
    for (int i = 1; i <= 100; i++) {
        ck_assert_double_gt(theta_at(&ball, 0.01 * i, 0), theta_at(&ball, 0.01 * (i - 1), 0));
        ck_assert_double_gt(theta_at(&lens, 0.01 * i, 0), theta_at(&lens, 0.01 * (i - 1), 0));
    }
    ck_assert_double_eq_tol(theta_at(&ball, 1, 0), 55, 1e-10);
}
END_TEST

/* One number of a good instrument spoilt. */
typedef struct Spoilt {
    size_t offset;
    double value;
    IfigLensKind lens;
    const char *words;
} Spoilt;

#define AT(member) offsetof(IfigInstrument, member)

START_TEST(numbers_out_of_range_are_refused_by_name)
{
    static const Spoilt spoilt[] = {
        {AT(sphere_index), 1.1, IFIG_LENS_SPHERE, "index of the sphere"},
        {AT(sphere_index), 3.5, IFIG_LENS_SPHERE, "index of the sphere"},
        {AT(sphere_index), NAN, IFIG_LENS_SPHERE, "index of the sphere"},
        {AT(immersion_index), 1.45, IFIG_LENS_SPHERE, "at least 1.5225"},
        {AT(immersion_index), 0.99, IFIG_LENS_SPHERE, "immersion index"},
        {AT(immersion_index), 2.6, IFIG_LENS_OBJECTIVE, "immersion index"},
        {AT(field_deg), 90, IFIG_LENS_SPHERE, "field"},
        {AT(field_deg), -5, IFIG_LENS_SPHERE, "field"},
        {AT(field_deg), NAN, IFIG_LENS_OBJECTIVE, "field"},
        {AT(field_deg), 0.01, IFIG_LENS_SPHERE, "field"},
        {AT(immersion_index), 1.4, IFIG_LENS_SPHERE, "sphere of higher index"},
        {AT(field_deg), 70, IFIG_LENS_OBJECTIVE, "field"},
        {AT(aperture), 1, IFIG_LENS_OBJECTIVE, "aperture of the objective"},
        {AT(aperture), 0, IFIG_LENS_OBJECTIVE, "aperture of the objective"},
        {AT(aperture), NAN, IFIG_LENS_OBJECTIVE, "aperture of the objective"},
        {AT(polariser.azimuth_deg), INFINITY, IFIG_LENS_SPHERE, "polariser"},
        {AT(analyser.azimuth_deg), -4000, IFIG_LENS_SPHERE, "analyser"},
    };
    for (size_t i = 0; i < sizeof spoilt / sizeof *spoilt; i++) {
        IfigInstrument instrument = IFIG_INSTRUMENT_INIT;
        IfigError error = IFIG_ERROR_INIT;
        instrument.lens = spoilt[i].lens;
        memcpy((char *)&instrument + spoilt[i].offset, &spoilt[i].value, sizeof spoilt[i].value);
        ck_assert_msg(ifig_instrument_check(&instrument, &error) == IFIG_ERROR_RANGE,
                      "case %zu was not refused: '%s'", i, error.message);
        ck_assert_int_eq(error.status, IFIG_ERROR_RANGE);
        ck_assert_msg(strstr(error.message, spoilt[i].words) != NULL, "'%s' does not name '%s'",
                      error.message, spoilt[i].words);
    }
}
END_TEST

START_TEST(unknown_kinds_and_missing_pointers_are_refused)
{
    IfigInstrument good = IFIG_INSTRUMENT_INIT, bad = good;
    double a, b;
    ck_assert_int_eq(ifig_instrument_check(NULL, NULL), IFIG_ERROR_ARGUMENT);
    bad.size = 8;
    ck_assert_int_eq(ifig_instrument_check(&bad, NULL), IFIG_ERROR_ARGUMENT);
    bad = good;
    bad.lens = (IfigLensKind)7;
    ck_assert_int_eq(ifig_instrument_check(&bad, NULL), IFIG_ERROR_ARGUMENT);
    bad.lens = (IfigLensKind)-1;
    ck_assert_int_eq(ifig_instrument_check(&bad, NULL), IFIG_ERROR_ARGUMENT);
    bad = good;
    bad.analyser.kind = (IfigPolarKind)9;
    ck_assert_int_eq(ifig_instrument_check(&bad, NULL), IFIG_ERROR_ARGUMENT);
    bad.analyser.kind = (IfigPolarKind)-1;
    ck_assert_int_eq(ifig_instrument_check(&bad, NULL), IFIG_ERROR_ARGUMENT);
    bad = good;
    bad.plate.material = (IfigPlateMaterial)-1;
    ck_assert_int_eq(ifig_instrument_check(&bad, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_instrument_direction(&good, 0, 0, NULL, &b, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_instrument_position(&good, 0, 0, &a, NULL, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_instrument_direction(&good, 0.8, 0.7, &a, &b, NULL), IFIG_ERROR_RANGE);
    ck_assert_int_eq(ifig_instrument_direction(&good, NAN, 0, &a, &b, NULL), IFIG_ERROR_RANGE);
    ck_assert_int_eq(ifig_instrument_position(&good, NAN, 0, &a, &b, NULL), IFIG_ERROR_RANGE);
    ck_assert_int_eq(ifig_instrument_position(&good, 91, 0, &a, &b, NULL), IFIG_ERROR_RANGE);
    /* A ball of index 1.5 gathers 2 [90 - asin(1 / 1.5)] = 96.4 degrees in air, a ball of 1.25 less
     * than 90. */
    bad = good;
    bad.sphere_index = 1.25;
    bad.field_deg = 40;
    ck_assert_int_eq(ifig_instrument_position(&bad, 80, 0, &a, &b, NULL), IFIG_ERROR_RANGE);
    ck_assert_int_eq(ifig_instrument_position(&bad, 70, 0, &a, &b, NULL), IFIG_OK);
    ck_assert_double_gt(a, 1);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("field");
    tcase_add_test(facts, a_ball_of_index_1_5_sees_21_06_degrees_at_half_its_radius);
    tcase_add_test(facts, the_ball_bends_as_a_traced_ray_does);
    tcase_add_test(facts, an_objective_keeps_the_sine_condition);
    tcase_add_test(facts, the_fields_are_those_of_their_apertures);
    tcase_add_test(facts, position_is_the_inverse_of_direction);
    tcase_add_test(facts, directions_grow_from_the_centre_to_the_rim);
    tcase_add_test(facts, numbers_out_of_range_are_refused_by_name);
    tcase_add_test(facts, unknown_kinds_and_missing_pointers_are_refused);
    return run_case(facts, "instrument field");
}
