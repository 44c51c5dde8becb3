/* SPDX-License-Identifier: MIT */
/* Samples of a lamp that stand close enough for the fringes of a thick stone.
 *
 * A plain sum over equally spaced samples has the value of the integral as long as no fringe gains
 * a whole turn from sample to sample: then it would seem to stand still. The samples are set so
 * close that the finest gains less than nine tenths of one where its step is longest, at 380 nm. */
#include "texture.h"

#include "base.h"

#include <math.h>
#include <stdlib.h>

static const double FIRST_NM = 380.0, RANGE_NM = 400.0;
/* Dispersion makes the group's retardation larger than the phase's. */
static const double GROUP_SHARE = 1.4;
enum {
    QUADRATURE = 4, /* points of the lamp's own spectrum in a nm, as ifig_probe takes */
    FINEST = 64
};

/* Give each sample the share of lamp x observer that linear interpolation between samples would. */
static void gather(const IfigLamp *lamp, int finer, IfigSpectrumSamples *samples)
{
    int points = finer > QUADRATURE ? finer : QUADRATURE * finer;
    int last = (int)RANGE_NM * points;
    double sum[3] = {0}, white[3];
    for (int p = 0; p <= last; p++) {
        double wavelength = FIRST_NM + (double)p / points, observer[3];
        double power = ifig_lamp_power(lamp, wavelength);
        ifig_colour_matching(wavelength, observer);
        double place = (double)p * finer / points;
        size_t low = (size_t)place < samples->count - 1 ? (size_t)place : samples->count - 2;
        double share = place - (double)low;
        for (int i = 0; i < 3; i++) {
            samples->weight[low][i] += (1.0 - share) * power * observer[i];
            samples->weight[low + 1][i] += share * power * observer[i];
            sum[i] += power * observer[i];
        }
    }
    ifig_lamp_white(lamp, white);
    for (size_t k = 0; k < samples->count; k++) {
        for (int i = 0; i < 3; i++) {
            samples->weight[k][i] *= sum[i] > 0 ? white[i] / sum[i] : 0.0;
        }
    }
}

IfigStatus ifig_fine_samples(const IfigLamp *lamp, double retardation_nm,
                             IfigSpectrumSamples *samples, IfigError *error)
{
    double turns = GROUP_SHARE * fabs(retardation_nm) / (FIRST_NM * FIRST_NM); /* a nm */
    if (ifig_lamp_line_nm(lamp) > 0 || turns < 0.04) {
        return ifig_lamp_samples(lamp, samples, error);
    }
    double wanted = ceil(turns / 0.9);
    int finer = wanted > FINEST ? FINEST : (int)wanted;
    size_t count = (size_t)(RANGE_NM * finer) + 1;
    IfigSpectrumSamples made = {.count = count,
                                .step_nm = 1.0 / finer,
                                .kernel = IFIG_KERNEL_LINEAR,
                                .wavelength_nm = malloc(count * sizeof *made.wavelength_nm),
                                .weight = calloc(count, sizeof *made.weight)};
    if (made.wavelength_nm == NULL || made.weight == NULL) {
        ifig_spectrum_samples_free(&made);
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for %zu wavelengths", count);
    }
    for (size_t k = 0; k < count; k++) {
        made.wavelength_nm[k] = FIRST_NM + (double)k / finer;
    }
    gather(lamp, finer, &made);
    *samples = made;
    return IFIG_OK;
}
