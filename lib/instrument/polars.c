/* SPDX-License-Identifier: MIT */
/* What the polars send in and let out, ray by ray. */
#include "instrument.h"

#include "base.h"

#include <math.h>

/* cos and sin of an azimuth; those of right angles, as most polars have them, without a rounding.
 */
static void direction_of(double azimuth_deg, double *cosine, double *sine)
{
    double quarters = azimuth_deg / 90.0, within = fmod(quarters, 4.0);
    if (within == floor(within)) {
        static const double cosines[] = {1, 0, -1, 0};
        int quarter = (int)within + (within < 0.0 ? 4 : 0);
        *cosine = cosines[quarter];
        *sine = cosines[(quarter + 3) % 4];
    } else {
        *cosine = cos(azimuth_deg * IFIG_DEGREE);
        *sine = sin(azimuth_deg * IFIG_DEGREE);
    }
}

/* A polar in the plane across the light, seen from (p, s) of a ray. Right-handed light is (1, -i)
 * with exp(-i omega t): clockwise for an observer who looks toward the light (Born & Wolf,
 * Principles of Optics, 1.4.2). */
static void facing_field(const IfigPolar *polar, const IfigRay *ray, double complex field[2])
{
    if (polar->kind == IFIG_POLAR_LINEAR) {
        double cosine, sine;
        direction_of(polar->azimuth_deg, &cosine, &sine);
        field[0] = cosine * ray->cos_phi + sine * ray->sin_phi;
        field[1] = sine * ray->cos_phi - cosine * ray->sin_phi;
    } else {
        /* The lab's (1, -i) seen from a frame turned by phi: the phase keeps the field smooth where
         * phi has no value, at the centre. */
        double hand = polar->kind == IFIG_POLAR_LEFT ? 1.0 : -1.0;
        double complex phase = ray->cos_phi + I * (hand * ray->sin_phi);
        field[0] = sqrt(0.5) * phase;
        field[1] = I * (hand * sqrt(0.5)) * phase;
    }
}

/* A sheet met obliquely passes E along (absorbing axis) x (ray), in (p, s): cos(P - phi),
 * cos(theta) sin(P - phi), brought to unit length. */
static void meet_obliquely(const IfigPolar *polar, const IfigRay *ray, double complex field[2])
{
    if (polar->kind == IFIG_POLAR_LINEAR) {
        double p = creal(field[0]), s = creal(field[1]) * ray->cos_theta;
        double length = sqrt(p * p + s * s);
        field[0] = p / length;
        field[1] = s / length;
    }
}

void ifig_polariser_field(const IfigInstrument *instrument, const IfigRay *ray,
                          double complex field[2])
{
    facing_field(&instrument->polariser, ray, field);
    if (instrument->lens != IFIG_LENS_OBJECTIVE) {
        meet_obliquely(&instrument->polariser, ray, field);
    }
}

double ifig_plate_retardation_nm(const IfigPlate *plate, double wavelength_nm)
{
    if (plate == NULL || plate->material == IFIG_PLATE_NONE) {
        return 0.0;
    }
    if (ifig_check_range("wavelength", wavelength_nm, 360.0, 830.0, "nm", NULL) != IFIG_OK) {
        return (double)NAN;
    }
    double micrometres = wavelength_nm * 1e-3, share = 1.0;
    if (plate->material == IFIG_PLATE_QUARTZ) {
        /* Least squares over 380 to 780 nm of Ghosh's n_epsilon - n_omega; largest miss 9e-4. */
        double u = 1.0 / (micrometres * micrometres) - 1.0 / (0.55 * 0.55);
        share = 1.0 + u * (0.0156351 - 0.000240491 * u);
    }
    return plate->retardation_nm * share;
}

void ifig_analyser_field(const IfigInstrument *instrument, const IfigRay *ray, double wavelength_nm,
                         double complex field[2])
{
    int is_parallel = instrument->lens != IFIG_LENS_NONE; /* behind a ball or an objective */
    facing_field(&instrument->analyser, ray, field);
    if (!is_parallel) {
        meet_obliquely(&instrument->analyser, ray, field);
    }
    /* A plate along the analyser's azimuth, or across it, shifts the phase of its field alone. */
    double turned = instrument->plate.slow_azimuth_deg - instrument->analyser.azimuth_deg;
    int is_aligned =
        is_parallel && instrument->analyser.kind == IFIG_POLAR_LINEAR && fmod(turned, 90.0) == 0.0;
    if (instrument->plate.material == IFIG_PLATE_NONE || is_aligned) {
        return;
    }
    /* The plate is P = cos b + i sin b K, b = pi retardation / lambda, with K = +1 on the slow
     * direction and -1 on the fast one. <analyser| P = <P^+ analyser|. */
    double b =
        IFIG_PI * ifig_plate_retardation_nm(&instrument->plate, wavelength_nm) / wavelength_nm;
    double cosine, sine; /* of twice the slow direction's azimuth, from phi */
    double along = ray->cos_phi * ray->cos_phi - ray->sin_phi * ray->sin_phi;
    double across = 2.0 * ray->cos_phi * ray->sin_phi;
    direction_of(2.0 * instrument->plate.slow_azimuth_deg, &cosine, &sine);
    double twice = cosine * along + sine * across, odd = sine * along - cosine * across;
    double complex p = field[0], s = field[1];
    field[0] = cos(b) * p - I * sin(b) * (twice * p + odd * s);
    field[1] = cos(b) * s - I * sin(b) * (odd * p - twice * s);
}
