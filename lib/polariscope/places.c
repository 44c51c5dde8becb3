/* SPDX-License-Identifier: MIT */
/* A face on which something is to be seen, place by place, at normal incidence.
 *
 * Places: the additive sequence of the plastic number (Roberts, from memory), which fills a square
 * evenly at any count, bent onto the disc so that areas keep their share. Counts: strain and twins
 * vary smoothly or in strips over the face, and the mean of 1024 places stands within 1e-3; a
 * column of grains is one draw of a random phase, and the mean of 128 columns stands within a few
 * hundredths, as does the real stone's, where the eye's beam holds a few hundred of them. */
#include "parallel.h"

#include "base.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { PAIRS = IFIG_STATES * IFIG_STATES, PLACES = 1024, COLUMNS = 128 };

/* Wavelengths and their weights. Twins are lamellae of a stone as thick and as birefringent as any:
 * the Jones matrices of neighbouring wavelengths differ too much at 5 nm, so that all lamps are
 * taken at every nanometre there. */
static IfigStatus every_nanometre(const IfigLamp *lamp, IfigSpectrumSamples *samples,
                                  IfigError *error)
{
    const size_t count = 401;
    double sum = 0;
    ifig_spectrum_samples_free(samples);
    samples->wavelength_nm = calloc(count, sizeof *samples->wavelength_nm);
    samples->weight = calloc(count, sizeof *samples->weight);
    if (samples->wavelength_nm == NULL || samples->weight == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for %zu wavelengths", count);
    }
    samples->count = count;
    for (size_t k = 0; k < count; k++) {
        samples->wavelength_nm[k] = 380.0 + (double)k;
        ifig_colour_matching(samples->wavelength_nm[k], samples->weight[k]);
        for (int i = 0; i < 3; i++) {
            samples->weight[k][i] *= ifig_lamp_power(lamp, samples->wavelength_nm[k]);
        }
        sum += samples->weight[k][1];
    }
    for (size_t k = 0; k < count; k++) {
        for (int i = 0; i < 3; i++) {
            samples->weight[k][i] /= sum;
        }
    }
    return IFIG_OK;
}

static IfigStatus place_samples(const IfigScene *scene, IfigPattern pattern,
                                IfigSpectrumSamples *samples, IfigError *error)
{
    memset(samples, 0, sizeof *samples);
    IfigStatus status = ifig_lamp_samples(scene->lamp, samples, error);
    const int is_thick = pattern == IFIG_PATTERN_TWINS || pattern == IFIG_PATTERN_BRAZIL;
    return status == IFIG_OK && is_thick && samples->kernel == IFIG_KERNEL_SPLINE
               ? every_nanometre(scene->lamp, samples, error)
               : status;
}

void ifig_face_place(size_t index, double *x, double *y)
{
    const double step[2] = {0.75487766624669276, 0.56984029099805327}; /* 1/g, 1/g^2, g^3 = g + 1 */
    double u = 0.5 + step[0] * (double)index, v = 0.5 + step[1] * (double)index;
    double r = sqrt(u - floor(u)), azimuth = 2.0 * IFIG_PI * (v - floor(v));
    *x = r * cos(azimuth);
    *y = r * sin(azimuth);
}

static void add_jones(const IfigParallel *parallel, const IfigSpectrumSamples *samples,
                      const IfigJonesXy *jones, IfigBeam *beam)
{
    for (size_t k = 0; k < samples->count; k++) {
        double light[PAIRS];
        for (size_t pair = 0; pair < PAIRS; pair++) {
            const double complex *out = ifig_state_field[pair / IFIG_STATES];
            const double complex *in = ifig_state_field[pair % IFIG_STATES];
            const double complex(*m)[2] = jones[k].m;
            double complex through = conj(out[0]) * (m[0][0] * in[0] + m[0][1] * in[1]) +
                                     conj(out[1]) * (m[1][0] * in[0] + m[1][1] * in[1]);
            light[pair] = creal(through * conj(through));
        }
        IfigSpectralPart part = {.wavelength_nm = samples->wavelength_nm[k]};
        memcpy(part.weight, samples->weight[k], sizeof part.weight);
        ifig_beam_add(parallel, &part, light, beam);
    }
}

static IfigStatus fill_places(const IfigScene *scene, const IfigTexture *texture,
                              const IfigSpectrumSamples *samples, IfigJonesXy *jones,
                              IfigParallel *parallel, IfigError *error)
{
    IfigStatus status = IFIG_OK;
    for (size_t i = 0; status == IFIG_OK && i < parallel->beam_count; i++) {
        double x, y;
        ifig_face_place(i, &x, &y);
        parallel->beam[i].share = 1.0 / (double)parallel->beam_count;
        status = ifig_face_jones(scene, texture, x, y, samples->wavelength_nm, samples->count,
                                 jones, error);
        if (status == IFIG_OK) {
            add_jones(parallel, samples, jones, &parallel->beam[i]);
        }
    }
    return status;
}

IfigStatus ifig_parallel_places(const IfigScene *scene, const IfigTexture *texture,
                                IfigParallel *parallel, IfigError *error)
{
    const int is_grains = texture->pattern == IFIG_PATTERN_GRAINS;
    IfigSpectrumSamples samples;
    *parallel = (IfigParallel){.instrument = scene->instrument, .has_places = !is_grains};
    IfigStatus status = place_samples(scene, texture->pattern, &samples, error);
    if (status == IFIG_OK) {
        parallel->beam_count = is_grains ? COLUMNS : PLACES;
        parallel->beam = calloc(parallel->beam_count, sizeof *parallel->beam);
        IfigJonesXy *jones = calloc(samples.count, sizeof *jones);
        status = parallel->beam == NULL || jones == NULL
                     ? ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for %zu places",
                                 parallel->beam_count)
                     : fill_places(scene, texture, &samples, jones, parallel, error);
        free(jones);
    }
    ifig_spectrum_samples_free(&samples);
    if (status != IFIG_OK) {
        ifig_parallel_free(parallel);
    }
    return status;
}
