/* SPDX-License-Identifier: MIT */
/* The stone at one wavelength: dielectric tensor and gyration in the lab frame. */
#include "crystal.h"

#include "base.h"
#include "species.h"

#include <math.h>
#include <string.h>

IfigStatus ifig_medium(const IfigSpecies *species, IfigHand hand, const double rotation[3][3],
                       double wavelength_nm, IfigMedium *medium, IfigError *error)
{
    double n[3], turn[3][3], axes[3][3];
    IfigStatus status = ifig_species_indices(species, wavelength_nm, n, error);
    if (status != IFIG_OK) {
        return status;
    }
    medium->wavelength_nm = wavelength_nm;
    medium->is_absorbing = 0;
    memset(medium->absorption, 0, sizeof medium->absorption);
    ifig_axes_turn(species, wavelength_nm, turn);
    ifig_matrix3_multiply(rotation, turn, axes);
    /* epsilon = R diag(n^2) R^T, formed as an isotropic part and differences from it, so that a
     * singly refractive stone stays so to the last bit however it is turned. */
    double base = n[0] * n[0];
    double excess_y = (n[1] - n[0]) * (n[1] + n[0]);
    double excess_z = (n[2] - n[0]) * (n[2] + n[0]);
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            medium->epsilon[i][j] = (i == j ? base : 0.0) + excess_y * (axes[i][1] * axes[j][1]) +
                                    excess_z * (axes[i][2] * axes[j][2]);
        }
        medium->axis[i] = axes[i][2];
    }
    medium->mean_square_index = base + (excess_y + excess_z) / 3.0;
    double least = excess_y < excess_z ? excess_y : excess_z;
    medium->least_square_index = least < 0 ? base + least : base;
    ifig_species_gyration(species, wavelength_nm, &medium->gyration_along,
                          &medium->gyration_across);
    if (hand == IFIG_HAND_LEFT) {
        medium->gyration_along = -medium->gyration_along;
        medium->gyration_across = -medium->gyration_across;
    }
    return IFIG_OK;
}

IfigStatus ifig_medium_absorb(const IfigSpecies *species, int colour, const double rotation[3][3],
                              IfigMedium *medium, IfigError *error)
{
    double per_mm[3], n[3], turn[3][3], axes[3][3];
    IfigStatus status =
        ifig_species_absorption(species, colour, medium->wavelength_nm, per_mm, error);
    if (status == IFIG_OK) {
        status = ifig_species_indices(species, medium->wavelength_nm, n, error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    /* (n + i kappa)^2 with kappa = alpha lambda / 4 pi; kappa^2, below 1e-8, is left out. */
    ifig_axes_turn(species, medium->wavelength_nm, turn);
    ifig_matrix3_multiply(rotation, turn, axes);
    for (int axis = 0; axis < 3; axis++) {
        double part = n[axis] * per_mm[axis] * 1e-6 * medium->wavelength_nm / (2.0 * IFIG_PI);
        medium->is_absorbing |= part > 0.0;
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                medium->absorption[i][j] += part * axes[i][axis] * axes[j][axis];
            }
        }
    }
    return IFIG_OK;
}

void ifig_medium_strain(double birefringence, double azimuth, IfigMedium *medium)
{
    const double along[3] = {cos(azimuth), sin(azimuth), 0}, across[3] = {-along[1], along[0], 0};
    double half = sqrt(medium->mean_square_index) * birefringence; /* d(n^2) = 2 n dn, dn = +-b/2 */
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            medium->epsilon[i][j] += half * (along[i] * along[j] - across[i] * across[j]);
        }
    }
    medium->least_square_index -= fabs(half);
}
