/* SPDX-License-Identifier: MIT */
/* The wavelengths at which a figure must be known, and their weights.
 *
 * Lamp x observer is replaced by the nearest cubic spline on the samples (least squares), not by
 * the spline through its values: between the lamp's table values the spectrum is a straight line,
 * and a spline through values would miss the energy of the kinks. White light between crossed
 * polars, retardation 0 to 100 um, against a sum by 0.01 nm, largest error in 8-bit sRGB levels:
 *
 *              samples  spline through values  nearest spline
 *   daylight   81       0.26                   0.06
 *   tungsten   81       0.20                   0.01
 *   LED        81       4.2                    0.41
 *   FL11       401      0.88                   0.03
 *
 * tests/light/test_quadrature.c measures the last column again. */
#include "lamp.h"

#include <stdlib.h>

#include "base.h"

/* Scale X, Y and Z so that the weights add to the lamp's white. The factors are 1 but for the light
 * beyond the end samples, and where the lamp has none to speak of (Z of a red lamp). */
static void scale_to_white(const double white[3], size_t count, double (*weight)[3])
{
    for (int i = 0; i < 3; i++) {
        double sum = 0.0;
        for (size_t k = 0; k < count; k++) {
            sum += weight[k][i];
        }
        for (size_t k = 0; k < count; k++) {
            weight[k][i] = sum > 0 ? weight[k][i] * (white[i] / sum) : 0.0;
        }
    }
}

static void fill_spectrum(const IfigLamp *lamp, size_t step_nm, IfigSpectrumSamples *samples)
{
    double moment[IFIG_SAMPLES_MOST + 2][3];
    for (size_t k = 0; k < samples->count; k++) {
        samples->wavelength_nm[k] = IFIG_VISIBLE_FIRST_NM + (double)(k * step_nm);
    }
    ifig_spline_moments(lamp, step_nm, samples->count, moment);
    ifig_spline_projection(samples->count, moment, samples->weight);
    scale_to_white(lamp->white, samples->count, samples->weight);
}

IfigStatus ifig_lamp_samples(const IfigLamp *lamp, IfigSpectrumSamples *samples, IfigError *error)
{
    return ifig_lamp_samples_within(lamp, lamp->sample_step_nm, samples, error);
}

IfigStatus ifig_lamp_samples_within(const IfigLamp *lamp, size_t step_nm,
                                    IfigSpectrumSamples *samples, IfigError *error)
{
    const size_t visible_nm = IFIG_VISIBLE_LAST_NM - IFIG_VISIBLE_FIRST_NM;
    const size_t step = step_nm < lamp->sample_step_nm ? step_nm : lamp->sample_step_nm;
    const size_t count = step > 0 ? visible_nm / step + 1 : 1;
    IfigSpectrumSamples made = {
        .count = count,
        .step_nm = (double)step,
        .kernel = step > 0 ? IFIG_KERNEL_SPLINE : IFIG_KERNEL_NONE,
        .wavelength_nm = malloc(count * sizeof *made.wavelength_nm),
        .weight = malloc(count * sizeof *made.weight),
    };
    if (made.wavelength_nm == NULL || made.weight == NULL) {
        ifig_spectrum_samples_free(&made);
        return ifig_fail(error, IFIG_ERROR_MEMORY,
                         "no memory for the samples of a lamp's spectrum");
    }
    if (step > 0) {
        fill_spectrum(lamp, step, &made);
    } else {
        made.wavelength_nm[0] = lamp->line_nm;
        ifig_lamp_white(lamp, made.weight[0]);
    }
    *samples = made;
    return IFIG_OK;
}

void ifig_spectrum_samples_free(IfigSpectrumSamples *samples)
{
    if (samples != NULL) {
        free(samples->wavelength_nm);
        free(samples->weight);
        *samples = (IfigSpectrumSamples){.count = 0};
    }
}
