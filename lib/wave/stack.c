/* SPDX-License-Identifier: MIT */
/* Layers one behind the other: the Jones matrix of a stack. */
#include "wave.h"

#include "base.h"

#include <math.h>

IfigMatrix2 ifig_layer_matrix(const IfigPropagator *propagator, double x)
{
    double complex h = csqrt(propagator->half_difference_squared);
    double complex decay = I * x * (I * cimag(propagator->mean));
    /* Each mode by itself: neither grows, so nothing overflows however thick the layer is. */
    double complex fast = cexp(decay + I * x * h), slow = cexp(decay - I * x * h);
    double complex even = 0.5 * (fast + slow), odd;
    if (cabs(x * h) < 1e-3) {
        double complex square = x * x * propagator->half_difference_squared;
        odd = I * x * (1.0 - square / 6.0 * (1.0 - square / 20.0)) * cexp(decay);
    } else {
        odd = 0.5 * (fast - slow) / h;
    }
    IfigMatrix2 layer;
    for (int i = 0; i < 2; i++) {
        for (int j = 0; j < 2; j++) {
            layer.m[i][j] = odd * propagator->turn.m[i][j] + (i == j ? even : 0.0);
        }
    }
    return layer;
}

IfigStatus ifig_layer_medium(const IfigLayer *layer, const double rotation[3][3],
                             double wavelength_nm, IfigMedium *medium, IfigError *error)
{
    IfigStatus status =
        ifig_medium(layer->species, layer->hand, rotation, wavelength_nm, medium, error);
    if (status == IFIG_OK && layer->stress_mpa != 0.0) {
        double per_mpa = ifig_species_stress_optic_per_tpa(layer->species) * 1e-6;
        double azimuth = layer->stress_azimuth_deg + layer->orientation.stage_deg;
        ifig_medium_strain(per_mpa * layer->stress_mpa, azimuth * IFIG_DEGREE, medium);
    }
    if (status == IFIG_OK && layer->body_colour != 0) {
        status = ifig_medium_absorb(layer->species, layer->body_colour, rotation, medium, error);
    }
    return status;
}

static IfigStatus check_stress(const IfigLayer *layer, IfigError *error)
{
    IfigStatus status = ifig_check_range("stress", layer->stress_mpa, -10000, 10000, "MPa", error);
    if (status == IFIG_OK) {
        status = ifig_check_range("azimuth of the stress", layer->stress_azimuth_deg, -3600, 3600,
                                  "degrees", error);
    }
    if (status == IFIG_OK && layer->stress_mpa != 0.0 &&
        isnan(ifig_species_stress_optic_per_tpa(layer->species))) {
        return ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                         "no stress-optic coefficient is known for %s; leave it unstrained",
                         ifig_species_text(layer->species, IFIG_TEXT_KEY));
    }
    return status;
}

IfigStatus ifig_check_layers(const IfigLayer *layers, size_t layer_count, IfigError *error)
{
    if (layers == NULL || layer_count < 1 || layer_count > IFIG_LAYERS_MAX) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "a stack holds 1 to %d layers, not %zu",
                         IFIG_LAYERS_MAX, layers == NULL ? (size_t)0 : layer_count);
    }
    for (size_t i = 0; i < layer_count; i++) {
        IfigSpeciesFacts facts;
        if (layers[i].size != sizeof layers[i] ||
            (layers[i].hand != IFIG_HAND_RIGHT && layers[i].hand != IFIG_HAND_LEFT)) {
            return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                             "layer %zu has an unknown size or hand; start from IFIG_LAYER_INIT",
                             i + 1);
        }
        IfigStatus status = ifig_species_facts(layers[i].species, &facts, error);
        if (status == IFIG_OK) {
            status = ifig_check_range("thickness", layers[i].thickness_mm, 0.001, 100, "mm", error);
        }
        if (status != IFIG_OK) {
            return status;
        }
        status = ifig_check_range("body colour", layers[i].body_colour, 0,
                                  ifig_species_colour_count(layers[i].species), "", error);
        if (status != IFIG_OK) {
            return status;
        }
        status = check_stress(&layers[i], error);
        if (status != IFIG_OK) {
            return status;
        }
        if (facts.character == IFIG_AGGREGATE) {
            return ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                             "%s is an aggregate of many grains that lie every way: it shows no "
                             "interference figure; choose a single crystal",
                             ifig_species_text(layers[i].species, IFIG_TEXT_KEY));
        }
    }
    return IFIG_OK;
}

/* From tangential fields to (p, s) of the outside medium: E = (cos theta p, s) on both sides. */
static void jones_from_tangential(const IfigMatrix2 *field, const IfigRay *ray, IfigJones *jones)
{
    const double to_ps[2] = {1.0 / ray->cos_theta, 1.0}, from_ps[2] = {ray->cos_theta, 1.0};
    for (int i = 0; i < 2; i++) {
        for (int j = 0; j < 2; j++) {
            double complex element = to_ps[i] * field->m[i][j] * from_ps[j];
            jones->element[i][j] = (IfigComplex){creal(element), cimag(element)};
        }
    }
}

static IfigStatus check_ray(double n_outside, double theta_deg, double phi_deg, IfigError *error)
{
    IfigStatus status = ifig_check_range("index outside the stone", n_outside, 1, 3, "", error);
    if (status == IFIG_OK) {
        status = ifig_check_range("theta", theta_deg, 0, 89.999, "degrees", error);
    }
    if (status == IFIG_OK) {
        status = ifig_check_range("phi", phi_deg, -3600, 3600, "degrees", error);
    }
    return status;
}

IfigStatus ifig_plate_wave(const IfigLayer *layers, size_t layer_count, double n_outside,
                           double wavelength_nm, double theta_deg, double phi_deg,
                           IfigPlateWave *wave, IfigError *error)
{
    if (wave == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "ifig_plate_wave: wave is NULL");
    }
    IfigStatus status = ifig_check_layers(layers, layer_count, error);
    if (status == IFIG_OK) {
        status = check_ray(n_outside, theta_deg, phi_deg, error);
    }
    IfigRay ray = ifig_ray(n_outside, theta_deg * IFIG_DEGREE, phi_deg * IFIG_DEGREE);
    IfigMatrix2 field = {{{1, 0}, {0, 1}}};
    IfigPropagator before, here;
    wave->retardation_nm = 0;
    wave->is_dark = 0;
    for (size_t i = 0; status == IFIG_OK && i < layer_count; i++) {
        double rotation[3][3];
        IfigMedium medium;
        status =
            ifig_orientation_matrix(layers[i].species, &layers[i].orientation, rotation, error);
        if (status == IFIG_OK) {
            status = ifig_layer_medium(&layers[i], rotation, wavelength_nm, &medium, error);
        }
        if (status == IFIG_OK) {
            double thickness_nm = layers[i].thickness_mm * 1e6;
            ifig_propagator(&medium, &ray, &here);
            IfigMatrix2 face = ifig_face(i > 0 ? &before : NULL, &here, &ray);
            IfigMatrix2 layer =
                ifig_layer_matrix(&here, 2 * IFIG_PI * thickness_nm / wavelength_nm);
            IfigMatrix2 entered = ifig_matrix2_multiply(&face, &field);
            field = ifig_matrix2_multiply(&layer, &entered);
            wave->retardation_nm +=
                2.0 * thickness_nm * fabs(creal(csqrt(here.half_difference_squared)));
            wave->is_dark |= here.evanescent == 2;
            before = here;
        }
    }
    if (status != IFIG_OK) {
        return status;
    }
    IfigMatrix2 face = ifig_face(&before, NULL, &ray);
    IfigMatrix2 left = ifig_matrix2_multiply(&face, &field);
    if (wave->is_dark) {
        left = (IfigMatrix2){{{0, 0}, {0, 0}}};
        wave->retardation_nm = 0;
    }
    jones_from_tangential(&left, &ray, &wave->jones);
    return IFIG_OK;
}
