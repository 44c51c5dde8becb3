/* SPDX-License-Identifier: MIT */
/* What a species answers at a wavelength: principal indices, rotation, gyration, turn of its axes.
 * Everything without a formula of its own is drawn over u = 1 / lambda^2 (micrometres^-2), in which
 * Cauchy's dispersion is a straight line. */
#include "species.h"

#include <math.h>

#include "base.h"

static double u_of_nm(double wavelength_nm)
{
    double micrometres = wavelength_nm * 1e-3;
    return 1.0 / (micrometres * micrometres);
}

double ifig_beta_share_at(const IfigSpeciesRecord *record, double wavelength_nm)
{
    const IfigSpeciesFacts *facts = &record->facts;
    double at_d = ifig_beta_share_of_angle(facts->two_v_deg, facts->optic_sign);
    double at_c = isnan(record->two_v_c_deg)
                      ? at_d
                      : ifig_beta_share_of_angle(record->two_v_c_deg, facts->optic_sign);
    double at_f = isnan(record->two_v_f_deg)
                      ? at_d
                      : ifig_beta_share_of_angle(record->two_v_f_deg, facts->optic_sign);
    double c = u_of_nm(IFIG_LINE_C_NM), d = u_of_nm(IFIG_LINE_D_NM), f = u_of_nm(IFIG_LINE_F_NM);
    /* Newton's divided differences: the parabola in 1 / lambda^2 through the three. It is carried
     * on to the ends of the visible as it is: one smooth function of the wavelength. */
    double first = (at_d - at_c) / (d - c);
    double bend = ((at_f - at_d) / (f - d) - first) / (f - c);
    double u = u_of_nm(wavelength_nm);
    double share = at_c + (u - c) * (first + bend * (u - d));
    /* And never further than the acute bisectrix stays acute: crossed by 45 degrees either way. */
    return fmin(fmax(share, -1.0), 2.0);
}

static void cauchy_indices(const IfigSpeciesRecord *record, double wavelength_nm, double n[3])
{
    const IfigSpeciesFacts *facts = &record->facts;
    double added = 0.0;
    if (!isnan(facts->dispersion_bg)) {
        double b = facts->dispersion_bg / (u_of_nm(IFIG_LINE_G_NM) - u_of_nm(IFIG_LINE_B_NM));
        added = b * (u_of_nm(wavelength_nm) - u_of_nm(IFIG_LINE_D_NM));
    }
    for (int axis = 0; axis < 3; axis++) {
        n[axis] = facts->n[axis] + added;
    }
    if (facts->character == IFIG_BIAXIAL) {
        double share = ifig_beta_share_at(record, wavelength_nm);
        n[1] = 1.0 / sqrt((1.0 - share) / (n[0] * n[0]) + share / (n[2] * n[2]));
    }
}

void ifig_record_indices(const IfigSpeciesRecord *record, double wavelength_nm, double n[3])
{
    if (record->formula[0].type == 0) {
        cauchy_indices(record, wavelength_nm, n);
        return;
    }
    for (int axis = 0; axis < 3; axis++) {
        n[axis] = ifig_formula_index(&record->formula[axis], wavelength_nm);
    }
}

IfigStatus ifig_species_indices(const IfigSpecies *species, double wavelength_nm, double n[3],
                                IfigError *error)
{
    if (species == NULL || n == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_species_indices needs a species and room for three indices");
    }
    IfigStatus status =
        ifig_check_range("the wavelength", wavelength_nm, 360.0, 830.0, "nm", error);
    if (status == IFIG_OK) {
        ifig_record_indices(&species->record, wavelength_nm, n);
    }
    return status;
}

double ifig_species_axes_turn_deg(const IfigSpecies *species, double wavelength_nm)
{
    if (species == NULL || species->record.facts.monoclinic == IFIG_MONOCLINIC_NONE ||
        isnan(species->record.facts.axes_turn_deg)) {
        return 0.0;
    }
    if (ifig_check_range("the wavelength", wavelength_nm, 360.0, 830.0, "nm", NULL) != IFIG_OK) {
        return (double)NAN;
    }
    /* Only the turn from C to F is known: a straight line in 1 / lambda^2, as Cauchy's is. */
    double from_c_to_f = u_of_nm(IFIG_LINE_F_NM) - u_of_nm(IFIG_LINE_C_NM);
    double from_d = u_of_nm(wavelength_nm) - u_of_nm(IFIG_LINE_D_NM);
    return species->record.facts.axes_turn_deg * from_d / from_c_to_f;
}

double ifig_species_rotation_deg_per_mm(const IfigSpecies *species, double wavelength_nm)
{
    if (species == NULL || !species->record.facts.is_optically_active) {
        return 0.0;
    }
    if (ifig_check_range("the wavelength", wavelength_nm, 360.0, 830.0, "nm", NULL) != IFIG_OK) {
        return (double)NAN;
    }
    const IfigRotation *rotation = &species->record.rotation;
    double square = wavelength_nm * wavelength_nm * 1e-6;
    double sum = rotation->constant;
    for (int i = 0; i < 2; i++) {
        if (rotation->strength_um2[i] != 0.0) {
            sum += rotation->strength_um2[i] / (square - rotation->pole_um2[i]);
        }
    }
    return sum;
}

void ifig_species_gyration(const IfigSpecies *species, double wavelength_nm, double *along,
                           double *across)
{
    *along = *across = 0.0;
    if (species == NULL || !species->record.facts.is_optically_active) {
        return;
    }
    double n[3];
    ifig_record_indices(&species->record, wavelength_nm, n);
    /* Nye: rho = pi G / (lambda n) in radians per length. n_Y is the mean index met along Z: that
     * of an isotropic stone, n_omega of a uniaxial one, the middle one of a biaxial one. */
    double radians_per_nm =
        ifig_species_rotation_deg_per_mm(species, wavelength_nm) * IFIG_DEGREE * 1e-6;
    *along = radians_per_nm * wavelength_nm * n[1] / IFIG_PI;
    *across = species->record.rotation.ratio_across * *along;
}
