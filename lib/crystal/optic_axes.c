/* SPDX-License-Identifier: MIT */
/* Where the optic axes point at a wavelength. */
#include "crystal.h"

#include "base.h"

#include <math.h>
#include <string.h>

/* Two indices closer than this count as one: below it the axes' plane is lost in rounding. */
static const double SAME_INDEX = 1e-9;

/* sin^2 of V about the direction of the largest index, from rising indices. */
static double sine_squared_v_z(const double n[3])
{
    double low = 1.0 / (n[0] * n[0]), middle = 1.0 / (n[1] * n[1]), high = 1.0 / (n[2] * n[2]);
    return (low - middle) / (low - high);
}

IfigStatus ifig_optic_angle(const double n[3], double *two_v_z_deg, IfigError *error)
{
    if (n == NULL || two_v_z_deg == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "ifig_optic_angle: a pointer is NULL");
    }
    for (int i = 0; i < 3; i++) {
        IfigStatus status = ifig_check_range("refractive index", n[i], 1.0, 5.0, "", error);
        if (status != IFIG_OK) {
            return status;
        }
    }
    if (n[0] > n[1] || n[1] > n[2] || n[2] - n[0] < SAME_INDEX) {
        return ifig_fail(error, IFIG_ERROR_RANGE,
                         "indices %s, %s, %s must rise from alpha to gamma, and not all be equal",
                         ifig_number_text(n[0], 6).text, ifig_number_text(n[1], 6).text,
                         ifig_number_text(n[2], 6).text);
    }
    *two_v_z_deg = 2.0 * asin(sqrt(sine_squared_v_z(n))) / IFIG_DEGREE;
    return IFIG_OK;
}

double ifig_apparent_optic_angle_deg(double n_beta, double two_v_deg, double n_outside)
{
    double sine = n_beta / n_outside * sin(0.5 * two_v_deg * IFIG_DEGREE);
    return sine <= 1.0 ? 2.0 * asin(sine) / IFIG_DEGREE : (double)NAN;
}

/* The order of the axes X, Y, Z by rising index. */
static void rising_order(const double n[3], int order[3])
{
    int low = 0, high = 2;
    for (int i = 0; i < 3; i++) {
        low = n[i] < n[low] ? i : low;
        high = n[i] >= n[high] ? i : high;
    }
    order[0] = low;
    order[2] = high;
    order[1] = 3 - low - high;
}

static void copy_column(const double matrix[3][3], int column, double vector[3])
{
    for (int i = 0; i < 3; i++) {
        vector[i] = matrix[i][column];
    }
}

/* Fill bisectrices and axes from V about the direction of the largest index. */
static void place_axes(const double turn[3][3], const int order[3], double v_z, IfigOpticAxes *axes)
{
    double low[3], high[3];
    copy_column(turn, order[0], low);
    copy_column(turn, order[1], axes->optic_normal);
    copy_column(turn, order[2], high);
    int positive = axes->optic_sign > 0;
    memcpy(axes->acute_bisectrix, positive ? high : low, sizeof high);
    memcpy(axes->obtuse_bisectrix, positive ? low : high, sizeof high);
    double v = positive ? v_z : 0.5 * IFIG_PI - v_z;
    for (int i = 0; i < 3; i++) {
        double along = cos(v) * axes->acute_bisectrix[i];
        double aside = sin(v) * axes->obtuse_bisectrix[i];
        axes->axis[0][i] = along - aside;
        axes->axis[1][i] = along + aside;
    }
}

IfigStatus ifig_optic_axes(const IfigSpecies *species, double wavelength_nm, IfigOpticAxes *axes,
                           IfigError *error)
{
    if (species == NULL || axes == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "ifig_optic_axes: a pointer is NULL");
    }
    IfigSpeciesFacts facts;
    double n[3], turn[3][3];
    IfigStatus status = ifig_species_facts(species, &facts, error);
    if (status == IFIG_OK) {
        status = ifig_species_indices(species, wavelength_nm, n, error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    int order[3];
    memset(axes, 0, sizeof *axes);
    rising_order(n, order);
    ifig_axes_turn(species, wavelength_nm, turn);
    for (int i = 0; i < 3; i++) {
        axes->n[i] = n[order[i]];
    }
    double spread = axes->n[2] - axes->n[0];
    if (spread < SAME_INDEX) {
        axes->character = facts.character == IFIG_AGGREGATE ? IFIG_AGGREGATE : IFIG_ISOTROPIC;
        place_axes(turn, order, 0.0, axes);
        return IFIG_OK;
    }
    double sine_squared = sine_squared_v_z(axes->n);
    double v_z = asin(sqrt(sine_squared));
    axes->optic_sign = sine_squared <= 0.5 ? 1 : -1;
    int merged = axes->n[1] - axes->n[0] < SAME_INDEX || axes->n[2] - axes->n[1] < SAME_INDEX;
    if (merged) {
        v_z = axes->optic_sign > 0 ? 0.0 : 0.5 * IFIG_PI;
    }
    axes->character = merged ? IFIG_UNIAXIAL : IFIG_BIAXIAL;
    axes->count = merged ? 1 : 2;
    axes->two_v_z_deg = 2.0 * v_z / IFIG_DEGREE;
    axes->two_v_deg = axes->optic_sign > 0 ? axes->two_v_z_deg : 180.0 - axes->two_v_z_deg;
    place_axes(turn, order, v_z, axes);
    return IFIG_OK;
}
