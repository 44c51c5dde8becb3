/* SPDX-License-Identifier: MIT */
/* The numbers at one direction, from exact waves alone. */
#include "figure.h"

#include "base.h"
#include "fringe_stack.h"

#include <math.h>
#include <string.h>

static const double SODIUM_D_NM = 589.3;

enum { FINER = 4 }; /* samples in each nanometre: lamp and observer are linear between whole ones */

static double complex to_complex(IfigComplex z)
{
    return z.re + I * z.im;
}

static double transmittance(const IfigScene *scene, double theta, double phi, double wavelength_nm,
                            const IfigJones *jones)
{
    double complex in[2], out[2], through = 0;
    const IfigRay ray = ifig_ray(scene->instrument.immersion_index, theta, phi);
    ifig_polariser_field(&scene->instrument, &ray, in);
    ifig_analyser_field(&scene->instrument, &ray, wavelength_nm, out);
    for (int i = 0; i < 2; i++) {
        for (int j = 0; j < 2; j++) {
            through += conj(out[i]) * to_complex(jones->element[i][j]) * in[j];
        }
    }
    return creal(through) * creal(through) + cimag(through) * cimag(through);
}

/* Phases and smooth amplitudes of the stack at one wavelength. */
static IfigStatus waves_at(const IfigScene *scene, double theta, double phi, double wavelength_nm,
                           IfigLayerPhase *phase, double complex *u, IfigError *error)
{
    IfigMedium media[IFIG_LAYERS_MAX];
    IfigSmooth smooth;
    size_t layers = scene->layer_count, subsets = (size_t)1 << layers;
    for (size_t i = 0; i < layers; i++) {
        double rotation[3][3];
        const IfigLayer *layer = &scene->layers[i];
        IfigStatus status =
            ifig_orientation_matrix(layer->species, &layer->orientation, rotation, error);
        if (status == IFIG_OK) {
            status = ifig_layer_medium(layer, rotation, wavelength_nm, &media[i], error);
        }
        if (status != IFIG_OK) {
            return status;
        }
    }
    ifig_point_quantities(&scene->instrument, media, layers, theta, phi, &smooth);
    for (size_t i = 0; i < layers; i++) {
        double x = 2.0 * IFIG_PI * scene->layers[i].thickness_mm * 1e6 / wavelength_nm;
        const double *loss = &smooth.q[layers + 2 * subsets + i];
        phase[i] = ifig_layer_phase(smooth.q[i] + I * loss[0], loss[layers], x);
    }
    for (size_t s = 0; s < subsets; s++) {
        u[s] = smooth.q[layers + s] + I * smooth.q[layers + subsets + s];
    }
    return IFIG_OK;
}

static IfigStatus colour_of_line(const IfigScene *scene, const IfigProbe *at_line, double xyz[3])
{
    ifig_lamp_white(scene->lamp, xyz);
    for (int i = 0; i < 3; i++) {
        xyz[i] *= at_line->transmittance;
    }
    return IFIG_OK;
}

/* Sum over the whole spectrum, each sample's fringe averaged over its step. */
static IfigStatus colour_of_spectrum(const IfigScene *scene, double theta, double phi,
                                     double xyz[3], IfigError *error)
{
    const double first = 380.0;
    const int count = 400 * FINER + 1;
    IfigLayerPhase before[IFIG_LAYERS_MAX], here[IFIG_LAYERS_MAX];
    double complex u[IFIG_SUBSETS_MAX];
    double white = 0;
    memset(xyz, 0, 3 * sizeof *xyz);
    for (int k = 0; k < count; k++) {
        double wavelength = first + (double)k / FINER, observer[3], step[IFIG_LAYERS_MAX];
        IfigStatus status = waves_at(scene, theta, phi, wavelength, here, u, error);
        if (status != IFIG_OK) {
            return status;
        }
        for (size_t i = 0; i < scene->layer_count; i++) {
            step[i] = k > 0 ? here[i].turns - before[i].turns : 0.0;
        }
        double light;
        ifig_stack_light(scene->layer_count, IFIG_KERNEL_LINEAR, here, step, 1, u, &light);
        double power = ifig_lamp_power(scene->lamp, wavelength);
        ifig_colour_matching(wavelength, observer);
        for (int i = 0; i < 3; i++) {
            xyz[i] += power * observer[i] * light;
        }
        white += power * observer[1];
        memcpy(before, here, sizeof before);
    }
    for (int i = 0; i < 3; i++) {
        xyz[i] /= white;
    }
    return IFIG_OK;
}

static IfigStatus probe_colour(const IfigScene *scene, double theta, double phi, IfigProbe *probe,
                               IfigError *error)
{
    IfigStatus status = ifig_lamp_line_nm(scene->lamp) > 0
                            ? colour_of_line(scene, probe, probe->xyz)
                            : colour_of_spectrum(scene, theta, phi, probe->xyz, error);
    if (status == IFIG_OK) {
        double rgb[3];
        ifig_colour_linear(scene->lamp, probe->xyz, 0.0, rgb);
        ifig_colour_into_gamut(rgb);
        for (int i = 0; i < 3; i++) {
            probe->srgb[i] = ifig_srgb_encode(rgb[i]);
        }
        probe->has_colour = 1;
    }
    return status;
}

IfigStatus ifig_probe(const IfigScene *scene, double theta_deg, double phi_deg,
                      double wavelength_nm, IfigProbe *probe, IfigError *error)
{
    if (scene == NULL || scene->size != sizeof *scene || scene->lamp == NULL || probe == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_probe: the scene or the result is NULL, or the scene has an unknown "
                         "size or no lamp");
    }
    int with_colour = wavelength_nm == 0.0;
    if (with_colour) {
        double line = ifig_lamp_line_nm(scene->lamp);
        wavelength_nm = line > 0 ? line : SODIUM_D_NM;
    }
    IfigStatus status = ifig_check_range("wavelength", wavelength_nm, 380, 780, "nm", error);
    if (status == IFIG_OK) {
        status = ifig_instrument_check(&scene->instrument, error);
    }
    memset(probe, 0, sizeof *probe);
    if (status == IFIG_OK) {
        status =
            ifig_plate_wave(scene->layers, scene->layer_count, scene->instrument.immersion_index,
                            wavelength_nm, theta_deg, phi_deg, &probe->wave, error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    double theta = theta_deg * IFIG_DEGREE, phi = phi_deg * IFIG_DEGREE;
    probe->wavelength_nm = wavelength_nm;
    probe->transmittance = transmittance(scene, theta, phi, wavelength_nm, &probe->wave.jones);
    return with_colour ? probe_colour(scene, theta, phi, probe, error) : IFIG_OK;
}
