/* SPDX-License-Identifier: MIT */
/* What the tests of the light room share. */
#ifndef IFIG_LIGHT_TEST_H
#define IFIG_LIGHT_TEST_H

#include <check.h>
#include <stdlib.h>

#include "lamp.h"

static inline IfigLamp *make_lamp(IfigLampKind kind)
{
    IfigLamp *lamp = NULL;
    ck_assert_int_eq(ifig_lamp_create(kind, &lamp, NULL), IFIG_OK);
    return lamp;
}

static inline IfigLamp *make_line(double wavelength_nm)
{
    IfigLamp *lamp = NULL;
    ck_assert_int_eq(ifig_lamp_create_line(wavelength_nm, &lamp, NULL), IFIG_OK);
    return lamp;
}

static inline IfigLamp *make_spectrum(const double *wavelength_nm, const double *power,
                                      size_t count)
{
    IfigLamp *lamp = NULL;
    ck_assert_int_eq(ifig_lamp_create_spectrum(wavelength_nm, power, count, &lamp, NULL), IFIG_OK);
    return lamp;
}

static inline int run_case(TCase *facts, const char *name)
{
    Suite *suite = suite_create(name);
    suite_add_tcase(suite, facts);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    const int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}

#endif
