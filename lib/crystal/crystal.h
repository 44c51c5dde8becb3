/* SPDX-License-Identifier: MIT */
/* Room 2: crystal. Enters: a species, an orientation, a wavelength. Leaves: the dielectric tensor
 * in the lab frame and the gyration, which is all that the wave needs to know of the stone. */
#ifndef IFIG_CRYSTAL_ROOM_H
#define IFIG_CRYSTAL_ROOM_H

#include "interfig/crystal.h"

/* A stone at one wavelength, as the light meets it. Relative permittivity, lab frame. */
typedef struct IfigMedium {
    double wavelength_nm;
    double epsilon[3][3];    /* real part, symmetric */
    double absorption[3][3]; /* imaginary part, symmetric; all 0 where is_absorbing is 0 */
    int is_absorbing;
    double mean_square_index;  /* trace / 3 */
    double least_square_index; /* smallest principal value: beyond it, total reflection */
    double gyration_along;     /* G33, right-handed positive; 0 where the stone is not active */
    double gyration_across;    /* G11 = G22 */
    double axis[3];            /* Z in the lab: the axis of the gyration tensor */
} IfigMedium;

/* rotation: from ifig_orientation_matrix. The wavelength must be one the species answers for. */
IfigStatus ifig_medium(const IfigSpecies *species, IfigHand hand, const double rotation[3][3],
                       double wavelength_nm, IfigMedium *medium, IfigError *error);

/* Give a medium the body colour of its species: the imaginary part of epsilon, n alpha lambda / 2
 * pi along each axis. */
IfigStatus ifig_medium_absorb(const IfigSpecies *species, int colour, const double rotation[3][3],
                              IfigMedium *medium, IfigError *error);

/* Strain a medium by a stress in the plane of the plate, at an azimuth of the lab in radians:
 * n_along - n_across = birefringence (Brewster's stress-optic law). */
void ifig_medium_strain(double birefringence, double azimuth, IfigMedium *medium);

/* The turn of a monoclinic stone's axes from their place at 589.3 nm, as a matrix in the frame X,
 * Y, Z: columns are the turned axes. */
void ifig_axes_turn(const IfigSpecies *species, double wavelength_nm, double turn[3][3]);

/* c = a b. The result may not be one of the factors. */
void ifig_matrix3_multiply(const double a[3][3], const double b[3][3], double c[3][3]);
/* The turn by an angle in radians about a unit vector (Rodrigues). */
void ifig_turn_about(const double u[3], double angle, double turn[3][3]);

#endif
