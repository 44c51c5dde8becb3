/* SPDX-License-Identifier: MIT */
/* Room 3: wave. Enters: media in the lab frame, thicknesses, a direction. Leaves: for each layer a
 * propagator, and the Jones matrix of the stack in (p, s) of the outside medium.
 *
 * Inside this room the frame is turned about z so that the tangential wave vector lies along x. */
#ifndef IFIG_WAVE_ROOM_H
#define IFIG_WAVE_ROOM_H

#include <complex.h>

#include "crystal.h"
#include "interfig/wave.h"

/* A 2 x 2 complex matrix, rows first. */
typedef struct IfigMatrix2 {
    double complex m[2][2];
} IfigMatrix2;

/* How tangential fields E = (Ex, Ey), h = (Hy, -Hx) go forward in one medium:
 * dE/dz = i k0 (mean + turn) E, h = forward E; backward-going fields have h = backward E.
 * turn has no trace and turn^2 = half_difference_squared times the unit matrix. */
typedef struct IfigPropagator {
    double complex mean;                    /* s/2, mean of the two modes' q = kz / k0 */
    IfigMatrix2 turn;                       /* Q - s/2 */
    double complex half_difference_squared; /* h^2, h = (q1 - q2) / 2 */
    IfigMatrix2 forward, backward;          /* admittances */
    int evanescent;                         /* modes that are totally reflected: 0, 1 or 2 */
} IfigPropagator;

/* A ray in the outside medium. */
typedef struct IfigRay {
    double n_outside;
    double cos_theta, sin_theta, cos_phi, sin_phi;
} IfigRay;

IfigRay ifig_ray(double n_outside, double theta, double phi); /* radians */

IfigMatrix2 ifig_matrix2_multiply(const IfigMatrix2 *a, const IfigMatrix2 *b);

/* The propagator of a medium for a ray. */
void ifig_propagator(const IfigMedium *medium, const IfigRay *ray, IfigPropagator *propagator);

/* Faces between outside (NULL) and a medium, or between two media: tangential E behind the face
 * from tangential E of the forward wave before it. */
IfigMatrix2 ifig_face(const IfigPropagator *before, const IfigPropagator *behind,
                      const IfigRay *ray);

/* exp(i x Q) over a layer of x = k0 d, less the phase exp(i x Re mean), which is common to both
 * modes and free: cos(x h) + i sin(x h) / h (Q - s/2), and the same by decaying waves where there
 * are any. */
IfigMatrix2 ifig_layer_matrix(const IfigPropagator *propagator, double x);

/* The medium of a layer at a wavelength, body colour included. rotation: its orientation matrix. */
IfigStatus ifig_layer_medium(const IfigLayer *layer, const double rotation[3][3],
                             double wavelength_nm, IfigMedium *medium, IfigError *error);

/* Check the numbers of a stack; ready for media at any wavelength. */
IfigStatus ifig_check_layers(const IfigLayer *layers, size_t layer_count, IfigError *error);

#endif
