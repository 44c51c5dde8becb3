/* SPDX-License-Identifier: MIT */
/* Lamps: the published spectra, single lines, measured spectra and what is wrong with them. */
#include "light_test.h"

#include <math.h>
#include <string.h>

static const IfigLampKind every_kind[4] = {IFIG_LAMP_DAYLIGHT, IFIG_LAMP_TUNGSTEN, IFIG_LAMP_LED,
                                           IFIG_LAMP_FLUORESCENT};

/* CIE 015:2018, chromaticities of its illuminants, from memory. Seen in an open list of white
 * points (the one of clojure2d): A and LED-B3 to these digits, D65 as 0.312727 0.329023, FL11 as
 * 0.3805 0.3769, which is what a sum by 5 nm gives. */
static const double published_xy[4][2] = {
    [IFIG_LAMP_DAYLIGHT] = {0.31272, 0.32903},
    [IFIG_LAMP_TUNGSTEN] = {0.44758, 0.40745},
    [IFIG_LAMP_LED] = {0.3756, 0.3723},
    [IFIG_LAMP_FLUORESCENT] = {0.38052, 0.37713},
};

START_TEST(white_has_luminance_one_and_the_published_chromaticity)
{
    /* The published values sum by 5 nm; straight lines between table values cut the LED's blue peak
     * by 1.6e-4 in y, the smooth lamps by 3e-5. */
    static const double tolerance[4] = {
        [IFIG_LAMP_DAYLIGHT] = 4e-5,
        [IFIG_LAMP_TUNGSTEN] = 3e-5,
        [IFIG_LAMP_LED] = 2e-4,
        [IFIG_LAMP_FLUORESCENT] = 2e-5,
    };
    const IfigLampKind kind = every_kind[_i];
    IfigLamp *lamp = make_lamp(kind);
    double xyz[3];
    ifig_lamp_white(lamp, xyz);
    const double sum = xyz[0] + xyz[1] + xyz[2];
    ck_assert_double_eq(xyz[1], 1.0);
    ck_assert_double_eq_tol(xyz[0] / sum, published_xy[kind][0], tolerance[kind]);
    ck_assert_double_eq_tol(xyz[1] / sum, published_xy[kind][1], tolerance[kind]);
    ifig_lamp_free(lamp);
}
END_TEST

START_TEST(sum_by_5_nm_gives_the_published_chromaticity_to_its_last_digit)
{
    static const double last_digit[3] = {
        [IFIG_LAMP_DAYLIGHT] = 0.5e-5,
        [IFIG_LAMP_TUNGSTEN] = 0.5e-5,
        [IFIG_LAMP_LED] = 0.5e-4,
    };
    const IfigLampKind kind = every_kind[_i];
    IfigLamp *lamp = make_lamp(kind);
    double sum[3] = {0.0, 0.0, 0.0};
    for (int wavelength = 380; wavelength <= 780; wavelength += 5) {
        double observer[3];
        ifig_colour_matching(wavelength, observer);
        for (int i = 0; i < 3; i++) {
            sum[i] += ifig_lamp_power(lamp, wavelength) * observer[i];
        }
    }
    const double all = sum[0] + sum[1] + sum[2];
    ck_assert_double_eq_tol(sum[0] / all, published_xy[kind][0], last_digit[kind]);
    ck_assert_double_eq_tol(sum[1] / all, published_xy[kind][1], last_digit[kind]);
    ifig_lamp_free(lamp);
}
END_TEST

START_TEST(tungsten_is_the_planck_radiator_that_defines_illuminant_a)
{
    /* ISO 11664-2:2022 (CIE S 014-2), equation 1, from memory; the table prints six digits. */
    IfigLamp *lamp = make_lamp(IFIG_LAMP_TUNGSTEN);
    const double c2 = 1.435e7;
    for (int wavelength = 380; wavelength <= 780; wavelength += 5) {
        const double planck = 100.0 * pow(560.0 / wavelength, 5.0) * expm1(c2 / (2848.0 * 560.0)) /
                              expm1(c2 / (2848.0 * wavelength));
        ck_assert_double_eq_tol(ifig_lamp_power(lamp, wavelength) / planck, 1.0, 6e-6);
    }
    ifig_lamp_free(lamp);
}
END_TEST

START_TEST(daylight_table_holds_the_published_values)
{
    /* CIE 015:2018, D65, from memory. */
    IfigLamp *lamp = make_lamp(IFIG_LAMP_DAYLIGHT);
    ck_assert_double_eq(ifig_lamp_power(lamp, 380), 49.9755);
    ck_assert_double_eq(ifig_lamp_power(lamp, 460), 117.812);
    ck_assert_double_eq(ifig_lamp_power(lamp, 560), 100.0);
    ck_assert_double_eq(ifig_lamp_power(lamp, 780), 63.3828);
    ifig_lamp_free(lamp);
}
END_TEST

START_TEST(observer_table_holds_the_published_values)
{
    /* CIE 015:2018, wavelength, x, y, z, from memory. */
    static const double published[][4] = {
        {380, 0.001368, 0.000039, 0.006450001},
        {445, 0.34806, 0.0298, 1.78260},
        {450, 0.3362, 0.038, 1.77211},
        {500, 0.0049, 0.323, 0.2720},
        {550, 0.4334499, 0.9949501, 0.008749999},
        {555, 0.5120501, 1.0, 0.005749999},
        {600, 1.0622, 0.631, 0.0008},
        {700, 0.01135916, 0.004102, 0.0},
    };
    for (size_t k = 0; k < sizeof published / sizeof published[0]; k++) {
        double xyz[3];
        ifig_colour_matching(published[k][0], xyz);
        for (int i = 0; i < 3; i++) {
            ck_assert_double_eq_tol(xyz[i], published[k][i + 1], 1e-9);
        }
    }
}
END_TEST

START_TEST(observer_is_linear_between_whole_nanometres_and_zero_outside)
{
    double low[3];
    double high[3];
    double between[3];
    ifig_colour_matching(829, low);
    ifig_colour_matching(830, high);
    ifig_colour_matching(829.25, between);
    for (int i = 0; i < 3; i++) {
        ck_assert_double_eq_tol(between[i], 0.75 * low[i] + 0.25 * high[i], 1e-18);
    }
    static const double outside[] = {359.999, 830.001, -1e300, INFINITY, NAN};
    for (size_t k = 0; k < sizeof outside / sizeof outside[0]; k++) {
        ifig_colour_matching(outside[k], between);
        ck_assert(between[0] == 0 && between[1] == 0 && between[2] == 0);
    }
}
END_TEST

START_TEST(power_is_linear_between_values_and_zero_outside)
{
    static const double wavelength[] = {450, 451, 600};
    static const double power[] = {2, 6, 0};
    IfigLamp *lamp = make_spectrum(wavelength, power, 3);
    ck_assert_double_eq(ifig_lamp_power(lamp, 450), 2);
    ck_assert_double_eq(ifig_lamp_power(lamp, 450.25), 3);
    ck_assert_double_eq(ifig_lamp_power(lamp, 451), 6);
    ck_assert_double_eq_tol(ifig_lamp_power(lamp, 525.5), 3, 1e-14);
    ck_assert_double_eq(ifig_lamp_power(lamp, 449.999), 0);
    ck_assert_double_eq(ifig_lamp_power(lamp, 600.001), 0);
    ck_assert_double_eq(ifig_lamp_power(lamp, NAN), 0);
    ck_assert_double_eq(ifig_lamp_line_nm(lamp), 0);
    ifig_lamp_free(lamp);
}
END_TEST

START_TEST(line_lamp_has_the_white_of_its_wavelength)
{
    IfigLamp *lamp = make_line(589.3);
    double xyz[3];
    double observer[3];
    ifig_lamp_white(lamp, xyz);
    ifig_colour_matching(589.3, observer);
    for (int i = 0; i < 3; i++) {
        ck_assert_double_eq_tol(xyz[i], observer[i] / observer[1], 1e-15);
    }
    ck_assert_double_eq(ifig_lamp_line_nm(lamp), 589.3);
    ck_assert_double_eq(ifig_lamp_power(lamp, 589.3), 0);
    ifig_lamp_free(lamp);
}
END_TEST

START_TEST(line_outside_the_visible_is_refused)
{
    static const double refused[] = {379.999, 780.001, NAN, INFINITY, -INFINITY, 0, -589.3};
    for (size_t k = 0; k < sizeof refused / sizeof refused[0]; k++) {
        IfigError error = IFIG_ERROR_INIT;
        IfigLamp *lamp = NULL;
        ck_assert_int_eq(ifig_lamp_create_line(refused[k], &lamp, &error), IFIG_ERROR_RANGE);
        ck_assert_ptr_null(lamp);
        ck_assert_ptr_nonnull(strstr(error.message, "between 380 and 780 nm"));
    }
}
END_TEST

START_TEST(equal_power_is_the_equal_energy_white)
{
    /* CIE 015:2018: illuminant E, X = Y = Z. The lamp ends at 380 nm, which costs Z 1.3e-4. */
    static const double wavelength[] = {1, 100000};
    static const double power[] = {3e-300, 3e-300};
    IfigLamp *lamp = make_spectrum(wavelength, power, 2);
    double xyz[3];
    ifig_lamp_white(lamp, xyz);
    ck_assert_double_eq_tol(xyz[0], 1.0, 1e-4);
    ck_assert_double_eq_tol(xyz[2], 1.0, 2e-4);
    ifig_lamp_free(lamp);
}
END_TEST

START_TEST(white_of_a_measured_spectrum_is_its_integral)
{
    /* Knots anywhere; straight sums by 0.001 nm are good to 1e-6. */
    static const double wavelength[] = {300, 433.37, 433.5, 433.61, 590.1234, 2000};
    static const double power[] = {1, 2, 400, 2, 7, 0};
    IfigLamp *lamp = make_spectrum(wavelength, power, 6);
    double sum[3] = {0.0, 0.0, 0.0};
    for (int k = 0; k < 400000; k++) {
        double observer[3];
        const double place = 380.0 + (k + 0.5) / 1000.0;
        ifig_colour_matching(place, observer);
        for (int i = 0; i < 3; i++) {
            sum[i] += ifig_lamp_power(lamp, place) * observer[i];
        }
    }
    double xyz[3];
    ifig_lamp_white(lamp, xyz);
    ck_assert_double_eq_tol(xyz[0], sum[0] / sum[1], 1e-6);
    ck_assert_double_eq_tol(xyz[2], sum[2] / sum[1], 1e-6);
    ifig_lamp_free(lamp);
}
END_TEST

typedef struct BadSpectrum {
    size_t count;
    double wavelength[4];
    double power[4];
    const char *told; /* part of the message */
} BadSpectrum;

static const BadSpectrum bad_spectra[] = {
    {0, {0}, {0}, "0 entries; give at least 2"},
    {1, {500}, {1}, "1 entry; give at least 2"},
    {3, {500, 510, 510}, {1, 1, 1}, "entry 3: 510 nm does not follow 510 nm; sort"},
    {3, {500, 400, 600}, {1, 1, 1}, "entry 2: 400 nm does not follow 500 nm; sort"},
    {3, {500, NAN, 600}, {1, 1, 1}, "entry 2: wavelength is nan"},
    {2, {500, INFINITY}, {1, 1}, "entry 2: wavelength is inf"},
    {2, {0.5, 500}, {1, 1}, "entry 1: wavelength is 0.5; it must lie between 1 and 100000 nm"},
    {2, {500, 100001}, {1, 1}, "entry 2: wavelength is 100001"},
    {2, {500, 600}, {1, -0.5}, "entry 2 (600 nm): power is -0.5"},
    {2, {500, 600}, {NAN, 1}, "entry 1 (500 nm): power is nan"},
    {2, {500, 600}, {INFINITY, 1}, "entry 1 (500 nm): power is inf"},
    {2, {500, 600}, {0, 0}, "no power between 380 and 780 nm"},
    {2, {800, 900}, {1, 1}, "no power between 380 and 780 nm"},
    {2, {780, 900}, {1, 1}, "entries 1 to 2 (780 to 900 nm), has no power"},
    {3, {0.38 + 1, 1.5, 1.78}, {1, 1, 1}, "give wavelengths in nm"},
    {4, {370, 380, 780, 790}, {9, 0, 0, 9}, "no power between 380 and 780 nm"},
};

START_TEST(bad_spectrum_is_refused_with_its_entry_and_the_remedy)
{
    const BadSpectrum *bad = &bad_spectra[_i];
    IfigError error = IFIG_ERROR_INIT;
    IfigLamp *lamp = NULL;
    ck_assert_int_eq(
        ifig_lamp_create_spectrum(bad->wavelength, bad->power, bad->count, &lamp, &error),
        IFIG_ERROR_SYNTAX);
    ck_assert_int_eq(error.status, IFIG_ERROR_SYNTAX);
    ck_assert_ptr_null(lamp);
    ck_assert_msg(strstr(error.message, bad->told) != NULL, "message was: %s", error.message);
}
END_TEST

START_TEST(null_and_unknown_kinds_are_refused)
{
    static const double two[2] = {500, 600};
    IfigLamp *lamp = NULL;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_int_eq(ifig_lamp_create((IfigLampKind)4, &lamp, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_ptr_nonnull(strstr(error.message, "lamp kind is 4"));
    ck_assert_int_eq(ifig_lamp_create((IfigLampKind)-1, &lamp, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_lamp_create(IFIG_LAMP_LED, NULL, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_lamp_create_line(589.3, NULL, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_lamp_create_spectrum(NULL, two, 2, &lamp, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_lamp_create_spectrum(two, NULL, 2, &lamp, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_lamp_create_spectrum(two, two, 2, NULL, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_ptr_null(lamp);
    ifig_lamp_free(NULL);
}
END_TEST

START_TEST(spectrum_of_100000_values_is_taken)
{
    enum { COUNT = 100000 };
    double *wavelength = malloc(COUNT * sizeof *wavelength);
    double *power = malloc(COUNT * sizeof *power);
    ck_assert(wavelength != NULL && power != NULL);
    for (int k = 0; k < COUNT; k++) {
        wavelength[k] = 350.0 + k * (500.0 / COUNT);
        power[k] = k % 2 == 0 ? 1e300 : 0; /* a comb whose mean is equal energy */
    }
    IfigLamp *lamp = make_spectrum(wavelength, power, COUNT);
    double xyz[3];
    ifig_lamp_white(lamp, xyz);
    ck_assert_double_eq_tol(xyz[0], 1.0, 1e-4);
    ck_assert_double_eq_tol(xyz[2], 1.0, 2e-4);
    ifig_lamp_free(lamp);
    free(power);
    free(wavelength);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("facts");
    tcase_add_loop_test(facts, white_has_luminance_one_and_the_published_chromaticity, 0, 4);
    tcase_add_loop_test(facts, sum_by_5_nm_gives_the_published_chromaticity_to_its_last_digit, 0,
                        3);
    tcase_add_test(facts, tungsten_is_the_planck_radiator_that_defines_illuminant_a);
    tcase_add_test(facts, daylight_table_holds_the_published_values);
    tcase_add_test(facts, observer_table_holds_the_published_values);
    tcase_add_test(facts, observer_is_linear_between_whole_nanometres_and_zero_outside);
    tcase_add_test(facts, power_is_linear_between_values_and_zero_outside);
    tcase_add_test(facts, line_lamp_has_the_white_of_its_wavelength);
    tcase_add_test(facts, line_outside_the_visible_is_refused);
    tcase_add_test(facts, equal_power_is_the_equal_energy_white);
    tcase_add_test(facts, white_of_a_measured_spectrum_is_its_integral);
    tcase_add_loop_test(facts, bad_spectrum_is_refused_with_its_entry_and_the_remedy, 0,
                        (int)(sizeof bad_spectra / sizeof bad_spectra[0]));
    tcase_add_test(facts, null_and_unknown_kinds_are_refused);
    tcase_add_test(facts, spectrum_of_100000_values_is_taken);
    return run_case(facts, "lamp");
}
