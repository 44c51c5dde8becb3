/* SPDX-License-Identifier: MIT */
/* Turns as matrices, and the turn of a monoclinic stone's axes with wavelength. */
#include "crystal.h"

#include "base.h"

#include <math.h>

void ifig_matrix3_multiply(const double a[3][3], const double b[3][3], double c[3][3])
{
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            c[i][j] = a[i][0] * b[0][j] + a[i][1] * b[1][j] + a[i][2] * b[2][j];
        }
    }
}

void ifig_turn_about(const double u[3], double angle, double turn[3][3])
{
    double c = cos(angle), s = sin(angle);
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            turn[i][j] = (i == j ? c : 0.0) + (1.0 - c) * u[i] * u[j];
        }
    }
    turn[0][1] -= s * u[2];
    turn[0][2] += s * u[1];
    turn[1][0] += s * u[2];
    turn[1][2] -= s * u[0];
    turn[2][0] -= s * u[1];
    turn[2][1] += s * u[0];
}

void ifig_axes_turn(const IfigSpecies *species, double wavelength_nm, double turn[3][3])
{
    IfigSpeciesFacts facts;
    double axis[3] = {0, 0, 0};
    double angle = ifig_species_axes_turn_deg(species, wavelength_nm) * IFIG_DEGREE;
    if (ifig_species_facts(species, &facts, NULL) != IFIG_OK) {
        angle = 0;
    } else if (facts.monoclinic == IFIG_MONOCLINIC_INCLINED) {
        axis[1] = 1;
    } else if (facts.monoclinic == IFIG_MONOCLINIC_CROSSED) {
        axis[facts.optic_sign > 0 ? 2 : 0] = 1; /* the acute bisectrix stands still */
    } else if (facts.monoclinic == IFIG_MONOCLINIC_PARALLEL) {
        axis[facts.optic_sign > 0 ? 0 : 2] = 1; /* the obtuse bisectrix stands still */
    } else {
        angle = 0;
    }
    ifig_turn_about(axis, angle, turn);
}
