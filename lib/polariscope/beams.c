/* SPDX-License-Identifier: MIT */
/* What a beam lets through between any two polars.
 *
 * The Stokes vector of a polar is a sum over four states that span all polarisations; so is the
 * light that a polar passes. A plate between the stone and the analyser adds its phase b to the
 * analyser, whose Stokes vector behind it goes as 1, cos 2b and sin 2b: three parts of the
 * spectrum, summed apart. */
#include "parallel.h"

#include "base.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define HALF_ROOT 0.70710678118654752440

const double complex ifig_state_field[IFIG_STATES][2] = {
    {1.0, 0.0}, {0.0, 1.0}, {HALF_ROOT, HALF_ROOT}, {HALF_ROOT, I *HALF_ROOT}};

/* A polarisation as a sum of the four states: its S2 and S3 are those of the two last, which bring
 * their own intensity along. */
static void in_states(const double complex field[2], double share[IFIG_STATES])
{
    double p = creal(field[0] * conj(field[0])), s = creal(field[1] * conj(field[1]));
    double complex cross = conj(field[0]) * field[1];
    double diagonal = 2.0 * creal(cross), circular = 2.0 * cimag(cross);
    share[0] = p - 0.5 * (diagonal + circular);
    share[1] = s - 0.5 * (diagonal + circular);
    share[2] = diagonal;
    share[3] = circular;
}

/* The instrument as the stone sees it. */
static IfigInstrument turned_instrument(const IfigInstrument *instrument, IfigStand stand)
{
    IfigInstrument turned = *instrument;
    turned.polariser.azimuth_deg -= stand.turn_deg;
    turned.analyser.azimuth_deg += stand.opened_deg - stand.turn_deg;
    turned.plate.slow_azimuth_deg -= stand.turn_deg;
    return turned;
}

/* The analyser's parts: of 1, cos 2b and sin 2b. From plates of 0, 1/2 and 1/4 wave. */
static void analyser_parts(const IfigInstrument *instrument, const IfigRay *ray,
                           double part[IFIG_PARTS][IFIG_STATES])
{
    const double wave_nm = 500.0;
    IfigInstrument with = *instrument;
    double complex field[2];
    memset(part, 0, IFIG_PARTS * sizeof *part);
    if (instrument->plate.material == IFIG_PLATE_NONE) {
        ifig_analyser_field(instrument, ray, wave_nm, field);
        in_states(field, part[0]);
        return;
    }
    double of_wave[3][IFIG_STATES];
    for (int i = 0; i < 3; i++) {
        static const double waves[] = {0.0, 0.5, 0.25};
        with.plate.material = IFIG_PLATE_GYPSUM;
        with.plate.retardation_nm = waves[i] * wave_nm;
        ifig_analyser_field(&with, ray, wave_nm, field);
        in_states(field, of_wave[i]);
    }
    for (int state = 0; state < IFIG_STATES; state++) {
        part[0][state] = 0.5 * (of_wave[0][state] + of_wave[1][state]);
        part[1][state] = 0.5 * (of_wave[0][state] - of_wave[1][state]);
        part[2][state] = of_wave[2][state] - part[0][state];
    }
}

/* Channels first to last of one beam. */
static void channels(const IfigParallel *parallel, size_t index, IfigStand stand, int first,
                     int last, double *light)
{
    const IfigBeam *beam = &parallel->beam[index];
    const IfigInstrument turned = turned_instrument(&parallel->instrument, stand);
    const int parts = turned.plate.material == IFIG_PLATE_NONE ? 1 : IFIG_PARTS;
    double complex field[2];
    double in[IFIG_STATES], out[IFIG_PARTS][IFIG_STATES];
    const IfigRay ray = ifig_ray(turned.immersion_index, beam->theta, beam->phi);
    ifig_polariser_field(&turned, &ray, field);
    in_states(field, in);
    analyser_parts(&turned, &ray, out);
    for (int channel = first; channel <= last; channel++) {
        double sum = 0;
        for (int part = 0; part < parts; part++) {
            for (int a = 0; a < IFIG_STATES; a++) {
                const double *row = beam->light[part][channel][a];
                sum += out[part][a] *
                       (row[0] * in[0] + row[1] * in[1] + row[2] * in[2] + row[3] * in[3]);
            }
        }
        light[channel - first] = sum;
    }
}

void ifig_beam_light(const IfigParallel *parallel, size_t beam, IfigStand stand, double xyz[3])
{
    channels(parallel, beam, stand, 0, 2, xyz);
}

double ifig_beam_brightness(const IfigParallel *parallel, size_t beam, IfigStand stand)
{
    double light;
    channels(parallel, beam, stand, 1, 1, &light);
    return light > 0.0 ? light : 0.0;
}

void ifig_parallel_light(const IfigParallel *parallel, IfigStand stand, double xyz[3])
{
    memset(xyz, 0, 3 * sizeof *xyz);
    for (size_t i = 0; i < parallel->beam_count; i++) {
        double own[3];
        ifig_beam_light(parallel, i, stand, own);
        for (int channel = 0; channel < 3; channel++) {
            xyz[channel] += parallel->beam[i].share * own[channel];
        }
    }
}

void ifig_beam_add(const IfigParallel *parallel, const IfigSpectralPart *part,
                   const double light[IFIG_STATES * IFIG_STATES], IfigBeam *beam)
{
    const IfigPlate *plate = &parallel->instrument.plate;
    const int parts = plate->material == IFIG_PLATE_NONE ? 1 : IFIG_PARTS;
    double phase =
        2.0 * IFIG_PI * ifig_plate_retardation_nm(plate, part->wavelength_nm) / part->wavelength_nm;
    const double factor[IFIG_PARTS] = {1.0, cos(phase), sin(phase)};
    for (int i = 0; i < parts; i++) {
        for (int channel = 0; channel < 3; channel++) {
            double weight = factor[i] * part->weight[channel];
            double *sum = &beam->light[i][channel][0][0];
            for (int pair = 0; pair < IFIG_STATES * IFIG_STATES; pair++) {
                sum[pair] += weight * light[pair];
            }
        }
    }
}

void ifig_parallel_free(IfigParallel *parallel)
{
    free(parallel->beam);
    parallel->beam = NULL;
    parallel->beam_count = 0;
}
