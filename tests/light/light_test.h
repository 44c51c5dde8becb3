/* SPDX-License-Identifier: MIT */
/* What the tests of the light room share. */
#ifndef IFIG_LIGHT_TEST_H
#define IFIG_LIGHT_TEST_H

#include <stdlib.h>

#include "../run_case.h"
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

#endif
