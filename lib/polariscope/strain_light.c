/* SPDX-License-Identifier: MIT */
/* The colour of a strained, singly refractive plate.
 *
 * At normal incidence it acts as c + i s V, c and s the cosine and sine of half its phase delta,
 * V = cos 2a Z + sin 2a X with Z = diag(1, -1) and X = (0 1; 1 0), times what the two faces and the
 * body colour leave. With u = <analyser|polariser>, z = <analyser|Z polariser> and x likewise,
 *   |c u + i s v|^2 = (1 + cos delta)/2 |u|^2 + (1 - cos delta)/2 |v|^2 - sin delta Im(conj(u) v),
 *   v = cos 2a z + sin 2a x:
 * six functions of the retardation alone, summed over the lamp once and for all. */
#include "face.h"

#include "base.h"
#include "fringe_math.h"

#include <math.h>
#include <stdlib.h>

enum { MOST_STEPS = 65536 };

/* Behind two faces (Fresnel) and the body colour, the share of the light that is left. */
static IfigStatus share_left(const IfigScene *scene, double wavelength_nm, double *share,
                             IfigError *error)
{
    const IfigLayer *layer = &scene->layers[0];
    double n[3], per_mm[3], outside = scene->instrument.immersion_index;
    IfigStatus status = ifig_species_indices(layer->species, wavelength_nm, n, error);
    if (status == IFIG_OK) {
        status = ifig_species_absorption(layer->species, layer->body_colour, wavelength_nm, per_mm,
                                         error);
    }
    if (status == IFIG_OK) {
        double face = 4.0 * n[0] * outside / ((n[0] + outside) * (n[0] + outside));
        *share = face * face * exp(-per_mm[0] * layer->thickness_mm);
    }
    return status;
}

static double real_of(double complex a, double complex b)
{
    return creal(a) * creal(b) + cimag(a) * cimag(b); /* Re(conj(a) b) */
}

static double imaginary_of(double complex a, double complex b)
{
    return creal(a) * cimag(b) - cimag(a) * creal(b);
}

/* The six factors at one wavelength, without the phase. */
static void factors(const IfigInstrument *instrument, double wavelength_nm, double factor[6])
{
    double complex in[2], out[2];
    const IfigRay straight = ifig_ray(instrument->immersion_index, 0, 0);
    ifig_polariser_field(instrument, &straight, in);
    ifig_analyser_field(instrument, &straight, wavelength_nm, out);
    double complex u = conj(out[0]) * in[0] + conj(out[1]) * in[1];
    double complex z = conj(out[0]) * in[0] - conj(out[1]) * in[1];
    double complex x = conj(out[0]) * in[1] + conj(out[1]) * in[0];
    factor[0] = real_of(u, u);
    factor[1] = real_of(z, z);
    factor[2] = real_of(x, x);
    factor[3] = 2.0 * real_of(z, x);
    factor[4] = -imaginary_of(u, z);
    factor[5] = -imaginary_of(u, x);
}

static void add_sample(const IfigSpectrumSamples *samples, size_t k, double share,
                       const double factor[6], IfigStrainLight *strain)
{
    double nm = samples->wavelength_nm[k];
    for (size_t i = 0; i < strain->count; i++) {
        double turns = (double)i * strain->step_nm / nm, left = share;
        if (samples->kernel == IFIG_KERNEL_SPLINE) {
            double step = turns * samples->step_nm / nm;
            left *= ifig_spline_of_sinc(ifig_sinc_turns(step), step);
        }
        double cosine = left * ifig_cosine_turns(turns), sine = left * ifig_sine_turns(turns);
        const double phase[6] = {0.5 * (share + cosine),
                                 0.5 * (share - cosine),
                                 0.5 * (share - cosine),
                                 0.5 * (share - cosine),
                                 sine,
                                 sine};
        for (int term = 0; term < 6; term++) {
            for (int c = 0; c < 3; c++) {
                strain->term[i][term][c] += samples->weight[k][c] * factor[term] * phase[term];
            }
        }
    }
}

IfigStatus ifig_strain_light_create(const IfigScene *scene, double greatest_mpa_mm,
                                    IfigStrainLight *strain, IfigError *error)
{
    IfigSpectrumSamples samples = {.count = 0};
    strain->nm_per_mpa_mm = ifig_species_stress_optic_per_tpa(scene->layers[0].species);
    double greatest = fabs(strain->nm_per_mpa_mm) * greatest_mpa_mm;
    /* Half a nm, linear between: 1e-5 of the light. A line's fringes never end; a lamp's have
     * ended long before the table has. */
    double wanted = 2.0 * greatest + 3.0;
    strain->step_nm = 0.5;
    if (wanted > MOST_STEPS) {
        wanted = MOST_STEPS;
        strain->step_nm = ifig_lamp_line_nm(scene->lamp) > 0 ? greatest / (MOST_STEPS - 3) : 1.0;
    }
    strain->count = (size_t)wanted;
    strain->term = calloc(strain->count, sizeof *strain->term);
    if (strain->term == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for the colours of strain");
    }
    IfigStatus status = ifig_lamp_samples(scene->lamp, &samples, error);
    for (size_t k = 0; status == IFIG_OK && k < samples.count; k++) {
        double factor[6], share = 0;
        factors(&scene->instrument, samples.wavelength_nm[k], factor);
        status = share_left(scene, samples.wavelength_nm[k], &share, error);
        if (status == IFIG_OK) {
            add_sample(&samples, k, share, factor, strain);
        }
    }
    ifig_spectrum_samples_free(&samples);
    return status;
}

void ifig_strain_light(const IfigStrainLight *strain, IfigStressSum sum, double xyz[3])
{
    double size = sqrt(sum.difference * sum.difference + sum.shear * sum.shear);
    double sign = strain->nm_per_mpa_mm < 0.0 ? -1.0 : 1.0;
    double cosine = size > 0.0 ? sign * sum.difference / size : 1.0;
    double sine = size > 0.0 ? sign * sum.shear / size : 0.0;
    double place = size * ifig_magnitude(strain->nm_per_mpa_mm) / strain->step_nm;
    double last = (double)(strain->count - 2);
    place = place < last ? place : last;
    size_t low = (size_t)place;
    double share = place - (double)low;
    const double angle[6] = {1.0, cosine * cosine, sine * sine, cosine * sine, cosine, sine};
    for (int c = 0; c < 3; c++) {
        xyz[c] = 0;
        for (int term = 0; term < 6; term++) {
            double from = strain->term[low][term][c], to = strain->term[low + 1][term][c];
            xyz[c] += angle[term] * (from + share * (to - from));
        }
    }
}
