/* SPDX-License-Identifier: MIT */
/* What the call itself promises: stacks, refusals. */
#include "optics_test.h"

#include <string.h>

static IfigStatus status_of(const IfigLayer *layer, size_t count, Beam beam, IfigError *error)
{
    IfigPlateWave wave;
    return ifig_plate_wave(layer, count, beam.n_outside, beam.wavelength_nm, beam.theta_deg,
                           beam.phi_deg, &wave, error);
}

START_TEST(numbers_out_of_range_are_refused_by_name)
{
    static const struct {
        Beam beam;
        double thickness_mm;
        const char *words;
    } refused[] = {
        {{0.9, 589, 0, 0}, 1, "index outside the stone"},
        {{3.1, 589, 0, 0}, 1, "index outside"},
        {{1, 299, 0, 0}, 1, "wavelength"},
        {{1, NAN, 0, 0}, 1, "wavelength"},
        {{1, 589, -1, 0}, 1, "theta"},
        {{1, 589, 90, 0}, 1, "theta"},
        {{1, 589, 0, 4000}, 1, "phi"},
        {{1, 589, 0, NAN}, 1, "phi"},
        {{1, 589, 0, 0}, 0, "thickness"},
        {{1, 589, 0, 0}, -1, "thickness"},
        {{1, 589, 0, 0}, INFINITY, "thickness"},
        {{1, 589, 0, 0}, 101, "thickness"},
    };
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) {
        IfigError error = IFIG_ERROR_INIT;
        IfigLayer layer = layer_of(builtin("quartz"), IFIG_VIEW_C, refused[i].thickness_mm);
        ck_assert_int_eq(status_of(&layer, 1, refused[i].beam, &error), IFIG_ERROR_RANGE);
        ck_assert_int_eq(error.status, IFIG_ERROR_RANGE);
        ck_assert_msg(strstr(error.message, refused[i].words) != NULL, "'%s' does not name '%s'",
                      error.message, refused[i].words);
    }
}
END_TEST

START_TEST(stacks_without_a_layer_or_of_unsuitable_stones_are_refused)
{
    const Beam beam = {1, 589, 0, 0};
    IfigError error = IFIG_ERROR_INIT;
    IfigLayer layers[IFIG_LAYERS_MAX + 1];
    for (int i = 0; i <= IFIG_LAYERS_MAX; i++) {
        layers[i] = layer_of(builtin("quartz"), IFIG_VIEW_C, 1);
    }
    ck_assert_int_eq(status_of(NULL, 1, beam, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(status_of(layers, 0, beam, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(status_of(layers, IFIG_LAYERS_MAX + 1, beam, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(status_of(layers, IFIG_LAYERS_MAX, beam, &error), IFIG_OK);
    layers[1].size = 1;
    ck_assert_int_eq(status_of(layers, 2, beam, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_ptr_nonnull(strstr(error.message, "layer 2"));
    layers[0].species = NULL;
    ck_assert_int_eq(status_of(layers, 1, beam, &error), IFIG_ERROR_ARGUMENT);
    layers[0] = layer_of(builtin("jadeite"), IFIG_VIEW_DEFAULT, 1);
    ck_assert_int_eq(status_of(layers, 1, beam, &error), IFIG_ERROR_UNSUITABLE);
    ck_assert_ptr_nonnull(strstr(error.message, "jadeite"));
    layers[0] = layer_of(builtin("quartz"), IFIG_VIEW_ACUTE_BISECTRIX, 1);
    ck_assert_int_eq(status_of(layers, 1, beam, &error), IFIG_ERROR_UNSUITABLE);
    ck_assert_int_eq(ifig_plate_wave(layers, 1, 1, 589, 0, 0, NULL, &error), IFIG_ERROR_ARGUMENT);
}
END_TEST

START_TEST(a_plate_cut_in_two_is_the_same_plate)
{
    IfigLayer whole = layer_of(builtin("topaz_f"), IFIG_VIEW_OPTIC_AXIS, 2);
    whole.orientation.stage_deg = 33;
    IfigLayer halves[2] = {whole, whole};
    halves[0].thickness_mm = 0.7;
    halves[1].thickness_mm = 1.3;
    for (int i = 0; i < 7; i++) {
        Beam beam = {1, SODIUM_NM, 10.0 * i, 25.0 * i};
        IfigPlateWave one = wave_of(&whole, 1, beam), two = wave_of(halves, 2, beam);
        ck_assert_double_eq_tol(one.retardation_nm, two.retardation_nm, 1e-8);
        for (int e = 0; e < 4; e++) {
            ck_assert_double_eq_tol(cabs(element(&one, e / 2, e % 2) - element(&two, e / 2, e % 2)),
                                    0, 1e-11);
        }
    }
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("plate");
    tcase_add_test(facts, numbers_out_of_range_are_refused_by_name);
    tcase_add_test(facts, stacks_without_a_layer_or_of_unsuitable_stones_are_refused);
    tcase_add_test(facts, a_plate_cut_in_two_is_the_same_plate);
    return run_case(facts, "wave plate");
}
