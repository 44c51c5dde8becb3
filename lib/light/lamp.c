/* SPDX-License-Identifier: MIT */
#include "lamp.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include "base.h"

static const double wavelength_low_nm = 1.0;
static const double wavelength_high_nm = 100000.0;

/* A lamp with room for a spectrum of `count` values, not yet filled; NULL when memory is out. */
static IfigLamp *allocate_lamp(size_t count, double **wavelength_nm, double **power)
{
    if (count > (SIZE_MAX - sizeof(IfigLamp)) / (2 * sizeof(double))) {
        return NULL;
    }
    IfigLamp *lamp = malloc(sizeof *lamp + 2 * count * sizeof(double));
    if (lamp != NULL) {
        *lamp = (IfigLamp){.count = count};
        *wavelength_nm = lamp->storage;
        *power = lamp->storage + count;
        lamp->wavelength_nm = *wavelength_nm;
        lamp->power = *power;
    }
    return lamp;
}

static IfigStatus out_of_memory(IfigError *error)
{
    return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for a lamp's spectrum");
}

/* The white of the bare lamp, Y = 1. 0 where it has no power in the visible. */
static int find_white(IfigLamp *lamp)
{
    double moment[IFIG_SAMPLES_MOST + 2][3];
    const size_t step = lamp->sample_step_nm;
    const size_t count = (IFIG_VISIBLE_LAST_NM - IFIG_VISIBLE_FIRST_NM) / step + 1;
    ifig_spline_moments(lamp, step, count, moment);
    double sum[3] = {0.0, 0.0, 0.0};
    for (size_t k = 0; k < count + 2; k++) {
        for (int i = 0; i < 3; i++) {
            sum[i] += moment[k][i];
        }
    }
    if (!(sum[1] > 0)) {
        return 0;
    }
    for (int i = 0; i < 3; i++) {
        lamp->white[i] = sum[i] / sum[1];
    }
    return 1;
}

IfigStatus ifig_lamp_create(IfigLampKind kind, IfigLamp **lamp, IfigError *error)
{
    const int kind_number = (int)kind;
    if (lamp == NULL || kind_number < 0 || kind_number >= IFIG_ILLUMINANT_KINDS) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "lamp kind is %d and the place for the lamp is %s; give one of the "
                         "IFIG_LAMP_ kinds, 0 to %d, and an address",
                         kind_number, lamp == NULL ? "NULL" : "given", IFIG_ILLUMINANT_KINDS - 1);
    }
    double *wavelength_nm;
    double *power;
    IfigLamp *made = allocate_lamp(IFIG_ILLUMINANT_COUNT, &wavelength_nm, &power);
    if (made == NULL) {
        return out_of_memory(error);
    }
    for (size_t k = 0; k < IFIG_ILLUMINANT_COUNT; k++) {
        wavelength_nm[k] = IFIG_ILLUMINANT_FIRST_NM + IFIG_ILLUMINANT_STEP_NM * (double)k;
        power[k] = ifig_illuminant_table[kind][k];
    }
    made->sample_step_nm = kind == IFIG_LAMP_FLUORESCENT ? 1 : 5;
    find_white(made);
    *lamp = made;
    return IFIG_OK;
}

IfigStatus ifig_lamp_create_line(double wavelength_nm, IfigLamp **lamp, IfigError *error)
{
    if (lamp == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "the place for the lamp is NULL");
    }
    const IfigStatus status =
        ifig_check_range("wavelength of the lamp's line", wavelength_nm, IFIG_VISIBLE_FIRST_NM,
                         IFIG_VISIBLE_LAST_NM, "nm", error);
    if (status != IFIG_OK) {
        return status;
    }
    double *none;
    IfigLamp *made = allocate_lamp(0, &none, &none);
    if (made == NULL) {
        return out_of_memory(error);
    }
    made->line_nm = wavelength_nm;
    double xyz[3];
    ifig_colour_matching(wavelength_nm, xyz);
    for (int i = 0; i < 3; i++) {
        made->white[i] = xyz[i] / xyz[1];
    }
    *lamp = made;
    return IFIG_OK;
}

/* The first thing wrong with entry k of a spectrum, told; IFIG_OK when nothing is. */
static IfigStatus check_entry(const double *wavelength_nm, const double *power, size_t k,
                              IfigError *error)
{
    const double wavelength = wavelength_nm[k];
    if (!(wavelength >= wavelength_low_nm && wavelength <= wavelength_high_nm)) {
        return ifig_fail(error, IFIG_ERROR_SYNTAX,
                         "spectrum entry %zu: wavelength is %s; it must lie between %s and %s nm",
                         k + 1, ifig_number_text(wavelength, 9).text,
                         ifig_number_text(wavelength_low_nm, 9).text,
                         ifig_number_text(wavelength_high_nm, 9).text);
    }
    if (k > 0 && !(wavelength > wavelength_nm[k - 1])) {
        return ifig_fail(error, IFIG_ERROR_SYNTAX,
                         "spectrum entry %zu: %s nm does not follow %s nm; sort the entries by "
                         "rising wavelength, each wavelength once",
                         k + 1, ifig_number_text(wavelength, 9).text,
                         ifig_number_text(wavelength_nm[k - 1], 9).text);
    }
    if (!isfinite(power[k]) || power[k] < 0) {
        return ifig_fail(error, IFIG_ERROR_SYNTAX,
                         "spectrum entry %zu (%s nm): power is %s; it must be finite and not "
                         "negative, 0 where the lamp gives no light",
                         k + 1, ifig_number_text(wavelength, 9).text,
                         ifig_number_text(power[k], 9).text);
    }
    return IFIG_OK;
}

static IfigStatus check_spectrum(const double *wavelength_nm, const double *power, size_t count,
                                 IfigError *error)
{
    if (count < 2) {
        return ifig_fail(
            error, IFIG_ERROR_SYNTAX,
            "the spectrum has %zu %s; give at least 2, or make a lamp of a single line", count,
            count == 1 ? "entry" : "entries");
    }
    if (wavelength_nm == NULL || power == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "the spectrum's %s are NULL",
                         wavelength_nm == NULL ? "wavelengths" : "powers");
    }
    IfigStatus status = IFIG_OK;
    for (size_t k = 0; k < count && status == IFIG_OK; k++) {
        status = check_entry(wavelength_nm, power, k, error);
    }
    return status;
}

IfigStatus ifig_lamp_create_spectrum(const double *wavelength_nm, const double *power, size_t count,
                                     IfigLamp **lamp, IfigError *error)
{
    if (lamp == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "the place for the lamp is NULL");
    }
    const IfigStatus status = check_spectrum(wavelength_nm, power, count, error);
    if (status != IFIG_OK) {
        return status;
    }
    double *own_wavelength_nm;
    double *own_power;
    IfigLamp *made = allocate_lamp(count, &own_wavelength_nm, &own_power);
    if (made == NULL) {
        return out_of_memory(error);
    }
    for (size_t k = 0; k < count; k++) {
        own_wavelength_nm[k] = wavelength_nm[k];
        own_power[k] = power[k];
    }
    made->sample_step_nm = 1;
    if (!find_white(made)) {
        ifig_lamp_free(made);
        return ifig_fail(
            error, IFIG_ERROR_SYNTAX,
            "the spectrum, entries 1 to %zu (%s to %s nm), has no power between %d and "
            "%d nm; give wavelengths in nm and some power there",
            count, ifig_number_text(wavelength_nm[0], 9).text,
            ifig_number_text(wavelength_nm[count - 1], 9).text, IFIG_VISIBLE_FIRST_NM,
            IFIG_VISIBLE_LAST_NM);
    }
    *lamp = made;
    return IFIG_OK;
}

void ifig_lamp_free(IfigLamp *lamp)
{
    free(lamp);
}
