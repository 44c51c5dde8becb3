/* SPDX-License-Identifier: MIT */
/* A reference for one plate that shares nothing with the library: Berreman's 4 x 4 matrix in the
 * lab frame, straight from the 6 x 6 material equations, taken apart by LAPACK. */
#ifndef IFIG_TEST_BERREMAN_H
#define IFIG_TEST_BERREMAN_H

#include <complex.h>

typedef struct BerremanPlate {
    double n[3];         /* along X, Y, Z */
    double euler_deg[3]; /* columns of Rz(a) Ry(b) Rz(c) are X, Y, Z in the lab */
    double gyration_along, gyration_across; /* G33 and G11 = G22 about Z */
    double n_outside, wavelength_nm, thickness_mm, theta_deg, phi_deg;
    double extinction[3]; /* kappa along X, Y, Z: e = n^2 + 2 i n kappa */
} BerremanPlate;

typedef struct BerremanWave {
    double complex jones[2][2]; /* p, s; by the invariant subspaces: holds at coincident roots */
    double complex by_vector[2][2]; /* the same by single eigenvectors: loses digits there */
    int has_vectors;                /* 0 where they are too nearly parallel to solve for */
    double complex q[4];            /* kz / k0: two forward, two backward */
    double retardation_nm;
    int evanescent; /* forward roots with a decay */
} BerremanWave;

/* 0 where LAPACK gave up or the waves did not part into two forward and two backward. */
int berreman_wave(const BerremanPlate *plate, BerremanWave *wave);

#endif
