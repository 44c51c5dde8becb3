/* SPDX-License-Identifier: MIT */
/* Room 4: instrument. Enters: a point of the picture. Leaves: the ray it sees, and the polarisation
 * that the polariser sends in and the analyser lets out, as unit vectors in (p, s) of that ray. */
#ifndef IFIG_INSTRUMENT_ROOM_H
#define IFIG_INSTRUMENT_ROOM_H

#include <complex.h>

#include "interfig/instrument.h"
#include "wave.h"

/* theta of a point at distance r from the centre (rim: 1), radians; held at just under 90 degrees
 * beyond the range of the lens, so that a point outside the disc has a ray too. */
double ifig_field_theta(const IfigInstrument *instrument, double r);

/* The polariser's field for a ray, and the analyser's as it stands behind the accessory plate: the
 * light that passes is |conj(analyser) . J polariser|^2. */
void ifig_polariser_field(const IfigInstrument *instrument, const IfigRay *ray,
                          double complex field[2]);
void ifig_analyser_field(const IfigInstrument *instrument, const IfigRay *ray, double wavelength_nm,
                         double complex field[2]);

#endif
