/* SPDX-License-Identifier: MIT */
/* What the polars send in and let out, ray by ray. */
#include "instrument.h"

#include "base.h"

#include <math.h>

/* A polar in the plane across the light, seen from (p, s) of a ray of azimuth phi. Right-handed
 * light is (1, -i) with exp(-i omega t): clockwise for an observer who looks toward the light (Born
 * & Wolf, Principles of Optics, 1.4.2). */
static void facing_field(const IfigPolar *polar, double phi, double complex field[2])
{
    if (polar->kind == IFIG_POLAR_LINEAR) {
        double azimuth = polar->azimuth_deg * IFIG_DEGREE - phi;
        field[0] = cos(azimuth);
        field[1] = sin(azimuth);
    } else {
        /* The lab's (1, -i) seen from a frame turned by phi: the phase keeps the field smooth where
         * phi has no value, at the centre. */
        double hand = polar->kind == IFIG_POLAR_LEFT ? 1.0 : -1.0;
        double complex phase = cos(phi) + I * (hand * sin(phi));
        field[0] = sqrt(0.5) * phase;
        field[1] = I * (hand * sqrt(0.5)) * phase;
    }
}

void ifig_polariser_field(const IfigInstrument *instrument, double theta, double phi,
                          double complex field[2])
{
    facing_field(&instrument->polariser, phi, field);
    if (instrument->lens == IFIG_LENS_SPHERE && instrument->polariser.kind == IFIG_POLAR_LINEAR) {
        /* A sheet met obliquely passes E along (absorbing axis) x (ray), in (p, s): cos(P - phi),
         * cos(theta) sin(P - phi), brought to unit length. */
        double p = creal(field[0]), s = creal(field[1]) * cos(theta);
        double length = sqrt(p * p + s * s);
        field[0] = length > 0 ? p / length : 0.0;
        field[1] = length > 0 ? s / length : 1.0;
    }
}

void ifig_analyser_field(const IfigInstrument *instrument, double phi, double complex field[2])
{
    /* Behind the ball or the objective the light is parallel to z. */
    facing_field(&instrument->analyser, phi, field);
}
