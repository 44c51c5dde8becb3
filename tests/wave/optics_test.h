/* SPDX-License-Identifier: MIT */
/* What the tests of crystal, wave, instrument, of published values and of properties share. */
#ifndef IFIG_OPTICS_TEST_H
#define IFIG_OPTICS_TEST_H

#include <complex.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include "../run_case.h"
#include "base.h"
#include "interfig/figure.h"
#include "interfig/species_record.h"

static const double SODIUM_NM = 589.3;

/* The same draws everywhere: splitmix64 (Steele, Lea & Flood, OOPSLA 2014). */
typedef struct Random {
    uint64_t state;
} Random;

static inline uint64_t random_bits(Random *random)
{
    uint64_t z = random->state += 0x9e3779b97f4a7c15u;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return z ^ (z >> 31);
}

static inline double random_between(Random *random, double low, double high)
{
    return low + (high - low) * (double)(random_bits(random) >> 11) * 0x1p-53;
}

/* A compiled-in species; lives as long as the program. */
static inline const IfigSpecies *builtin(const char *key)
{
    IfigCatalogue *catalogue = NULL;
    const IfigSpecies *species = NULL;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_int_eq(ifig_catalogue_create(&catalogue, NULL), IFIG_OK);
    ck_assert_msg(ifig_catalogue_find(catalogue, key, &species, &error) == IFIG_OK, "%s",
                  error.message);
    ifig_catalogue_free(catalogue);
    return species;
}

/* A stone of measured indices, to be freed with ifig_species_free. */
static inline IfigSpecies *stone_of(const double *n, size_t count, double rotation_deg_per_mm)
{
    IfigSpecies *species = NULL;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_species_from_indices(n, count, rotation_deg_per_mm, &species, &error) ==
                      IFIG_OK,
                  "%s", error.message);
    return species;
}

static inline IfigSpecies *uniaxial_stone(double omega, double epsilon)
{
    const double n[2] = {omega, epsilon};
    return stone_of(n, 2, 0);
}

static inline IfigSpecies *biaxial_stone(double alpha, double beta, double gamma)
{
    const double n[3] = {alpha, beta, gamma};
    return stone_of(n, 3, 0);
}

static inline IfigLayer layer_of(const IfigSpecies *species, IfigView view, double thickness_mm)
{
    IfigLayer layer = IFIG_LAYER_INIT;
    layer.species = species;
    layer.orientation.view = view;
    layer.thickness_mm = thickness_mm;
    return layer;
}

/* A direction in the outside medium, and the light. */
typedef struct Beam {
    double n_outside, wavelength_nm, theta_deg, phi_deg;
} Beam;

static inline IfigPlateWave wave_of(const IfigLayer *layers, size_t count, Beam beam)
{
    IfigPlateWave wave;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_plate_wave(layers, count, beam.n_outside, beam.wavelength_nm, beam.theta_deg,
                                  beam.phi_deg, &wave, &error) == IFIG_OK,
                  "%s", error.message);
    return wave;
}

static inline double retardation_of(const IfigLayer *layer, Beam beam)
{
    return wave_of(layer, 1, beam).retardation_nm;
}

static inline double complex element(const IfigPlateWave *wave, int row, int column)
{
    IfigComplex z = wave->jones.element[row][column];
    return z.re + I * z.im;
}

/* Polariser and analyser azimuths and the field, for light focused by lenses that keep the field in
 * the meridional plane: an objective in the beam's own medium. */
static inline double through_polars(const IfigPlateWave *wave, Beam beam, double polariser_deg,
                                    double analyser_deg)
{
    double p = (polariser_deg - beam.phi_deg) * IFIG_DEGREE;
    double a = (analyser_deg - beam.phi_deg) * IFIG_DEGREE;
    double complex out_p = element(wave, 0, 0) * cos(p) + element(wave, 0, 1) * sin(p);
    double complex out_s = element(wave, 1, 0) * cos(p) + element(wave, 1, 1) * sin(p);
    double complex passed = cos(a) * out_p + sin(a) * out_s;
    return creal(passed) * creal(passed) + cimag(passed) * cimag(passed);
}

/* The largest share of any polarisation that a Jones matrix lets through: the larger eigenvalue of
 * J* J. */
static inline double largest_share(const IfigPlateWave *wave)
{
    double pp = 0, ss = 0;
    double complex ps = 0;
    for (int i = 0; i < 2; i++) {
        double complex p = element(wave, i, 0), s = element(wave, i, 1);
        pp += creal(p * conj(p));
        ss += creal(s * conj(s));
        ps += conj(p) * s;
    }
    return 0.5 * (pp + ss) + sqrt(0.25 * (pp - ss) * (pp - ss) + creal(ps * conj(ps)));
}

/* The light between crossed polars, E-W and N-S. */
static inline double crossed_light(const IfigLayer *layer, Beam beam)
{
    IfigPlateWave wave = wave_of(layer, 1, beam);
    return through_polars(&wave, beam, 0, 90);
}

/* The place of the least value of f between two bounds, by golden section. */
static inline double lowest(double (*f)(double x, const void *context), const void *context,
                            double low, double high)
{
    const double golden = 0.5 * (sqrt(5.0) - 1.0);
    for (int i = 0; i < 80; i++) {
        double left = high - golden * (high - low), right = low + golden * (high - low);
        if (f(left, context) < f(right, context)) {
            high = right;
        } else {
            low = left;
        }
    }
    return 0.5 * (low + high);
}

/* The place where a rising f passes a value, by bisection. */
static inline double crossing(double (*f)(double x, const void *context), const void *context,
                              double value, double low, double high)
{
    ck_assert_double_le(f(low, context), value);
    ck_assert_double_ge(f(high, context), value);
    for (int i = 0; i < 60; i++) {
        double middle = 0.5 * (low + high);
        if (f(middle, context) < value) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return 0.5 * (low + high);
}

#endif
