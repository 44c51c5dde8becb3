/* SPDX-License-Identifier: MIT */
/* A stone that is the same all over, in the cone of light that enters the eye from one place.
 *
 * The mean over the cone: rings at Gauss's points in r^2 and equally spaced azimuths, the same
 * share for each area: n rings of 4 n azimuths are exact for polynomials of degree 4 n - 1 in the
 * pupil. The number of rings is doubled until no turn changes by more than CONVERGED: a thin cone
 * on a thin stone needs 2 rings, a thick stone in one spectral line dozens. The mean over the
 * spectrum is the figure's, each fringe averaged over its step. */
#include "parallel.h"

#include "base.h"
#include "fringe_stack.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double CONVERGED = 2e-5;

enum {
    PAIRS = IFIG_STATES * IFIG_STATES,
    MOST_RINGS = 64,
    MOST_BEAM_SAMPLES = 1 << 19, /* beams x wavelengths, half a second's work */
    TRIAL_TURNS = 8
};

/* What all beams share. */
typedef struct Cone {
    const IfigScene *scene;
    IfigSpectrumSamples samples;
    IfigMedium *medium; /* samples.count x layer_count */
    /* Of one beam, at each sample: */
    IfigLayerPhase *phase;   /* x layer_count */
    double complex *through; /* x PAIRS x subsets: u_S between each two states */
} Cone;

static IfigStatus prepare_media(Cone *cone, IfigError *error)
{
    const IfigScene *scene = cone->scene;
    size_t layers = scene->layer_count;
    IfigStatus status = IFIG_OK;
    for (size_t i = 0; status == IFIG_OK && i < layers; i++) {
        const IfigLayer *layer = &scene->layers[i];
        double rotation[3][3];
        status = ifig_orientation_matrix(layer->species, &layer->orientation, rotation, error);
        for (size_t k = 0; status == IFIG_OK && k < cone->samples.count; k++) {
            status = ifig_layer_medium(layer, rotation, cone->samples.wavelength_nm[k],
                                       &cone->medium[k * layers + i], error);
        }
    }
    return status;
}

static void free_cone(Cone *cone)
{
    ifig_spectrum_samples_free(&cone->samples);
    free(cone->medium);
    free(cone->phase);
    free(cone->through);
}

static IfigStatus create_cone(const IfigScene *scene, Cone *cone, IfigError *error)
{
    memset(cone, 0, sizeof *cone);
    cone->scene = scene;
    IfigStatus status = ifig_lamp_samples(scene->lamp, &cone->samples, error);
    if (status != IFIG_OK) {
        return status;
    }
    size_t count = cone->samples.count, layers = scene->layer_count;
    cone->medium = calloc(count * layers, sizeof *cone->medium);
    cone->phase = calloc(count * layers, sizeof *cone->phase);
    cone->through = calloc(count * PAIRS << layers, sizeof *cone->through);
    if (cone->medium == NULL || cone->phase == NULL || cone->through == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for %zu wavelengths", count);
    }
    return prepare_media(cone, error);
}

/* u_S between each two states. */
static void between_states(const IfigPointMatrices *point, size_t subsets, double complex *through)
{
    for (size_t pair = 0; pair < PAIRS; pair++) {
        const double complex *out = ifig_state_field[pair / IFIG_STATES];
        const double complex *in = ifig_state_field[pair % IFIG_STATES];
        for (size_t s = 0; s < subsets; s++) {
            const double complex(*m)[2] = point->u[s].m;
            through[pair * subsets + s] = conj(out[0]) * (m[0][0] * in[0] + m[0][1] * in[1]) +
                                          conj(out[1]) * (m[1][0] * in[0] + m[1][1] * in[1]);
        }
    }
}

/* The exact waves of a direction at every sample. */
static void beam_waves(Cone *cone, double theta, double phi)
{
    const size_t layers = cone->scene->layer_count, subsets = (size_t)1 << layers;
    for (size_t k = 0; k < cone->samples.count; k++) {
        IfigPointMatrices point;
        ifig_point_matrices(cone->scene->instrument.immersion_index, &cone->medium[k * layers],
                            layers, theta, phi, &point);
        for (size_t i = 0; i < layers; i++) {
            double x = 2.0 * IFIG_PI * cone->scene->layers[i].thickness_mm * 1e6 /
                       cone->samples.wavelength_nm[k];
            double complex h2 = point.h2[i][0] + I * point.h2[i][1];
            cone->phase[k * layers + i] = ifig_layer_phase(h2, point.h2[i][2], x);
        }
        between_states(&point, subsets, &cone->through[k * PAIRS * subsets]);
    }
}

/* Turns of each layer's phase to the next sample, as the figure has them. */
static void phase_steps(const Cone *cone, size_t k, double step[IFIG_LAYERS_MAX])
{
    const size_t layers = cone->scene->layer_count, last = cone->samples.count - 1;
    size_t before = k > 0 ? k - 1 : k, behind = k < last ? k + 1 : k;
    double share = behind > before ? 1.0 / (double)(behind - before) : 0.0;
    for (size_t i = 0; i < layers; i++) {
        step[i] = share *
                  (cone->phase[behind * layers + i].turns - cone->phase[before * layers + i].turns);
    }
}

static void fill_beam(Cone *cone, const IfigParallel *parallel, IfigBeam *beam)
{
    const size_t layers = cone->scene->layer_count;
    memset(beam->light, 0, sizeof beam->light);
    beam_waves(cone, beam->theta, beam->phi);
    for (size_t k = 0; k < cone->samples.count; k++) {
        double step[IFIG_LAYERS_MAX], light[PAIRS];
        phase_steps(cone, k, step);
        ifig_stack_light(layers, cone->samples.kernel, &cone->phase[k * layers], step, PAIRS,
                         &cone->through[(k * PAIRS) << layers], light);
        IfigSpectralPart part = {.wavelength_nm = cone->samples.wavelength_nm[k]};
        memcpy(part.weight, cone->samples.weight[k], sizeof part.weight);
        ifig_beam_add(parallel, &part, light, beam);
    }
}

/* Gauss's points and weights between 0 and 1, by Newton's method on Legendre's polynomial. */
static void gauss_points(size_t count, double *point, double *weight)
{
    for (size_t i = 0; i < count; i++) {
        double x = cos(IFIG_PI * ((double)i + 0.75) / ((double)count + 0.5)), slope = 1.0;
        for (int round = 0; round < 8; round++) {
            double last = 1.0, value = x;
            for (size_t n = 2; n <= count; n++) {
                double next =
                    ((2.0 * (double)n - 1.0) * x * value - ((double)n - 1.0) * last) / (double)n;
                last = value;
                value = next;
            }
            slope = (double)count * (x * value - last) / (x * x - 1.0);
            x -= value / slope;
        }
        point[i] = 0.5 * (1.0 - x);
        weight[i] = 1.0 / ((1.0 - x * x) * slope * slope);
    }
}

static IfigStatus fill_cone(Cone *cone, size_t rings, IfigParallel *parallel, IfigError *error)
{
    const size_t azimuths = 4 * rings;
    double square[MOST_RINGS], weight[MOST_RINGS];
    parallel->beam_count = rings * azimuths;
    parallel->beam = calloc(parallel->beam_count, sizeof *parallel->beam);
    if (parallel->beam == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for %zu directions",
                         parallel->beam_count);
    }
    gauss_points(rings, square, weight);
    for (size_t i = 0; i < parallel->beam_count; i++) {
        IfigBeam *beam = &parallel->beam[i];
        size_t ring = i / azimuths;
        beam->theta = ifig_field_theta(&parallel->instrument, sqrt(square[ring]));
        beam->phi = 2.0 * IFIG_PI * ((double)(i % azimuths) + 0.5) / (double)azimuths;
        beam->share = weight[ring] / (double)azimuths;
        fill_beam(cone, parallel, beam);
    }
    return IFIG_OK;
}

/* Brightness at a few turns, between the polars and with the analyser a quarter turn on. */
static double trial(const IfigParallel *parallel, double light[2 * TRIAL_TURNS],
                    const double before[2 * TRIAL_TURNS])
{
    double most = 0;
    for (int i = 0; i < 2 * TRIAL_TURNS; i++) {
        IfigStand stand = {180.0 * (i / 2) / TRIAL_TURNS, i % 2 == 0 ? 0.0 : 90.0};
        double xyz[3];
        ifig_parallel_light(parallel, stand, xyz);
        light[i] = xyz[1];
        most = fmax(most, fabs(light[i] - before[i]));
    }
    return most;
}

IfigStatus ifig_parallel_cone(const IfigScene *scene, IfigParallel *parallel, IfigError *error)
{
    Cone cone;
    *parallel = (IfigParallel){.instrument = scene->instrument};
    IfigStatus status = create_cone(scene, &cone, error);
    double light[2 * TRIAL_TURNS] = {0};
    size_t cost = 0;
    for (size_t rings = 1; status == IFIG_OK && rings <= MOST_RINGS; rings *= 2) {
        cost = 4 * rings * rings * cone.samples.count;
        if (rings > 2 && cost > MOST_BEAM_SAMPLES) {
            break;
        }
        double before[2 * TRIAL_TURNS];
        memcpy(before, light, sizeof before);
        ifig_parallel_free(parallel);
        status = fill_cone(&cone, rings, parallel, error);
        if (status == IFIG_OK && trial(parallel, light, before) <= CONVERGED && rings > 1) {
            break;
        }
    }
    if (status != IFIG_OK) {
        ifig_parallel_free(parallel);
    }
    free_cone(&cone);
    return status;
}
