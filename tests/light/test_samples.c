/* SPDX-License-Identifier: MIT */
/* The samples of a lamp's spectrum: how many, where, and what their weights add up to. */
#include "light_test.h"

#include <math.h>
#include <string.h>

static void assert_sums_to_white(const IfigLamp *lamp, const IfigSpectrumSamples *samples)
{
    double white[3];
    ifig_lamp_white(lamp, white);
    for (int i = 0; i < 3; i++) {
        double sum = 0.0;
        for (size_t k = 0; k < samples->count; k++) {
            ck_assert(isfinite(samples->weight[k][i]));
            sum += samples->weight[k][i];
        }
        ck_assert_double_eq_tol(sum, white[i], 1e-12 * fmax(1.0, white[i]));
    }
}

START_TEST(published_lamp_has_its_samples_and_they_add_to_its_white)
{
    static const size_t counts[4] = {81, 81, 81, 401};
    IfigLamp *lamp = make_lamp((IfigLampKind)_i);
    IfigSpectrumSamples samples;
    ck_assert_int_eq(ifig_lamp_samples(lamp, &samples, NULL), IFIG_OK);
    ck_assert_uint_eq(samples.count, counts[_i]);
    ck_assert_int_eq(samples.kernel, IFIG_KERNEL_SPLINE);
    ck_assert_double_eq(samples.step_nm, 400.0 / (double)(counts[_i] - 1));
    ck_assert_double_eq(samples.wavelength_nm[0], 380);
    ck_assert_double_eq(samples.wavelength_nm[samples.count - 1], 780);
    assert_sums_to_white(lamp, &samples);
    ifig_spectrum_samples_free(&samples);
    ck_assert_ptr_null(samples.weight);
    ifig_lamp_free(lamp);
}
END_TEST

START_TEST(smooth_lamp_weighs_each_sample_as_lamp_times_observer)
{
    /* Where the product is smooth the nearest spline runs through it: to 0.5 % of its greatest. */
    IfigLamp *lamp = make_lamp(IFIG_LAMP_TUNGSTEN);
    IfigSpectrumSamples samples;
    ck_assert_int_eq(ifig_lamp_samples(lamp, &samples, NULL), IFIG_OK);
    double sum = 0.0;
    double greatest = 0.0;
    double product[81];
    for (size_t k = 0; k < samples.count; k++) {
        double observer[3];
        ifig_colour_matching(samples.wavelength_nm[k], observer);
        product[k] = observer[1] * ifig_lamp_power(lamp, samples.wavelength_nm[k]);
        sum += product[k];
        greatest = fmax(greatest, product[k]);
    }
    for (size_t k = 0; k < samples.count; k++) {
        ck_assert_double_eq_tol(samples.weight[k][1], product[k] / sum, 0.005 * greatest / sum);
    }
    ifig_spectrum_samples_free(&samples);
    ifig_lamp_free(lamp);
}
END_TEST

START_TEST(line_has_one_sample_that_weighs_its_white)
{
    IfigLamp *lamp = make_line(589.3);
    IfigSpectrumSamples samples;
    ck_assert_int_eq(ifig_lamp_samples(lamp, &samples, NULL), IFIG_OK);
    ck_assert_uint_eq(samples.count, 1);
    ck_assert_double_eq(samples.step_nm, 0);
    ck_assert_int_eq(samples.kernel, IFIG_KERNEL_NONE);
    ck_assert_double_eq(samples.wavelength_nm[0], 589.3);
    assert_sums_to_white(lamp, &samples);
    ifig_spectrum_samples_free(&samples);
    ifig_lamp_free(lamp);
}
END_TEST

START_TEST(narrow_line_keeps_its_energy_and_its_place)
{
    /* Two lines 1e-6 nm wide, at an awkward place, equal in energy: the samples must give the mean
     * XYZ and the mean wavelength of the two. */
    static const double wavelength[] = {546.0739999, 546.074, 546.0740001,
                                        578.0999999, 578.1,   578.1000001};
    static const double power[] = {0, 5, 0, 0, 5, 0};
    double green[3];
    double yellow[3];
    ifig_colour_matching(546.074, green);
    ifig_colour_matching(578.1, yellow);
    IfigLamp *lamp = make_spectrum(wavelength, power, 6);
    IfigSpectrumSamples samples;
    ck_assert_int_eq(ifig_lamp_samples(lamp, &samples, NULL), IFIG_OK);
    ck_assert_uint_eq(samples.count, 401);
    assert_sums_to_white(lamp, &samples);
    double mean = 0.0;
    double sum = 0.0;
    for (size_t k = 0; k < samples.count; k++) {
        mean += samples.weight[k][1] * samples.wavelength_nm[k];
        sum += samples.weight[k][0];
    }
    ck_assert_double_eq_tol(mean, (green[1] * 546.074 + yellow[1] * 578.1) / (green[1] + yellow[1]),
                            1e-6);
    ck_assert_double_eq_tol(sum, (green[0] + yellow[0]) / (green[1] + yellow[1]), 1e-6);
    ifig_spectrum_samples_free(&samples);
    ifig_lamp_free(lamp);
}
END_TEST

START_TEST(light_at_the_edge_of_the_visible_still_adds_to_its_white)
{
    static const double edges[][2] = {{379, 380.001}, {380, 380.5}, {779.999, 800}, {770, 779}};
    static const double power[] = {1, 1};
    for (size_t n = 0; n < sizeof edges / sizeof edges[0]; n++) {
        IfigLamp *lamp = make_spectrum(edges[n], power, 2);
        IfigSpectrumSamples samples;
        ck_assert_int_eq(ifig_lamp_samples(lamp, &samples, NULL), IFIG_OK);
        assert_sums_to_white(lamp, &samples);
        ifig_spectrum_samples_free(&samples);
        ifig_lamp_free(lamp);
    }
}
END_TEST

START_TEST(unit_of_the_power_does_not_matter)
{
    static const double wavelength[] = {400, 500.3, 700};
    static const double units[] = {1e-310, 1e-30, 1.0, 1e305};
    double first[401][3];
    for (size_t n = 0; n < sizeof units / sizeof units[0]; n++) {
        const double power[] = {1 * units[n], 3 * units[n], 2 * units[n]};
        IfigLamp *lamp = make_spectrum(wavelength, power, 3);
        IfigSpectrumSamples samples;
        ck_assert_int_eq(ifig_lamp_samples(lamp, &samples, NULL), IFIG_OK);
        if (n == 0) {
            memcpy(first, samples.weight, sizeof first);
        }
        for (size_t k = 0; k < samples.count; k++) {
            ck_assert_double_eq_tol(samples.weight[k][1], first[k][1], 1e-12);
        }
        ifig_spectrum_samples_free(&samples);
        ifig_lamp_free(lamp);
    }
}
END_TEST

static double cubic_spline(double x)
{
    const double u = fabs(x);
    return u < 1   ? 2.0 / 3.0 - u * u + u * u * u / 2.0
           : u < 2 ? (2.0 - u) * (2.0 - u) * (2.0 - u) / 6.0
                   : 0.0;
}

START_TEST(projection_of_a_cubic_spline_is_that_spline)
{
    /* The spline 5 B(x - 10) - 2 B(x - 12) on 24 samples; its moments by sums of 1000 points a
     * step, good to 1e-6. */
    enum { COUNT = 24, FINE = 1000 };
    double moment[COUNT + 2][3] = {{0}};
    double weight[COUNT][3];
    for (int n = 0; n < COUNT * FINE; n++) {
        const double x = (n + 0.5) / FINE;
        const double value = 5.0 * cubic_spline(x - 10.0) - 2.0 * cubic_spline(x - 12.0);
        for (int k = 0; k < COUNT; k++) {
            moment[k + 1][n % 3] += 3.0 * value * cubic_spline(x - k) / FINE;
        }
    }
    ifig_spline_projection(COUNT, moment, weight);
    for (int k = 0; k < COUNT; k++) {
        const double expected = 5.0 * cubic_spline(k - 10.0) - 2.0 * cubic_spline(k - 12.0);
        for (int i = 0; i < 3; i++) {
            ck_assert_double_eq_tol(weight[k][i], expected, 1e-5);
        }
    }
}
END_TEST

START_TEST(no_samples_may_be_freed)
{
    IfigSpectrumSamples none = {.count = 0};
    ifig_spectrum_samples_free(NULL);
    ifig_spectrum_samples_free(&none);
    ck_assert_uint_eq(none.count, 0);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("facts");
    tcase_add_loop_test(facts, published_lamp_has_its_samples_and_they_add_to_its_white, 0, 4);
    tcase_add_test(facts, smooth_lamp_weighs_each_sample_as_lamp_times_observer);
    tcase_add_test(facts, line_has_one_sample_that_weighs_its_white);
    tcase_add_test(facts, narrow_line_keeps_its_energy_and_its_place);
    tcase_add_test(facts, light_at_the_edge_of_the_visible_still_adds_to_its_white);
    tcase_add_test(facts, unit_of_the_power_does_not_matter);
    tcase_add_test(facts, projection_of_a_cubic_spline_is_that_spline);
    tcase_add_test(facts, no_samples_may_be_freed);
    return run_case(facts, "samples");
}
