/* SPDX-License-Identifier: MIT */
/* Published dispersion formulas. The numbering and form of the types are those of the
 * refractiveindex.info database (public domain, CC0 1.0), whose fits dispersion.csv holds. */
#include "species.h"

#include <math.h>

/* C1 + C2 L^C3 + C4 L^C5 + ..., from the coefficient at `first` on. */
static double power_terms(const double *c, int first, double micrometres)
{
    double sum = 0.0;
    for (int i = first; i + 1 < IFIG_FORMULA_TERMS; i += 2) {
        if (c[i] != 0.0) {
            sum += c[i] * pow(micrometres, c[i + 1]);
        }
    }
    return sum;
}

/* Sellmeier's sum; is_length: the poles are lengths, to be squared. */
static double sellmeier_terms(const double *c, int is_length, double micrometres)
{
    double square = micrometres * micrometres;
    double sum = 0.0;
    for (int i = 1; i + 1 < IFIG_FORMULA_TERMS; i += 2) {
        if (c[i] != 0.0) {
            double pole = is_length ? c[i + 1] * c[i + 1] : c[i + 1];
            sum += c[i] * square / (square - pole);
        }
    }
    return sum;
}

/* C L^a / (L^2 - b^e), the mixed term of type 4. */
static double mixed_term(const double *c, double micrometres)
{
    if (c[0] == 0.0) {
        return 0.0;
    }
    return c[0] * pow(micrometres, c[1]) / (micrometres * micrometres - pow(c[2], c[3]));
}

static double gas_terms(const double *c, double micrometres)
{
    double wave_number_square = 1.0 / (micrometres * micrometres);
    double sum = 0.0;
    for (int i = 1; i + 1 < IFIG_FORMULA_TERMS; i += 2) {
        if (c[i] != 0.0) {
            sum += c[i] / (c[i + 1] - wave_number_square);
        }
    }
    return sum;
}

/* The formula itself, in or out of its range; NaN where n^2 is negative. */
static double index_of_formula(const IfigDispersionFormula *formula, double micrometres)
{
    const double *c = formula->coefficient;
    switch (formula->type) {
    case 1:
        return sqrt(1.0 + c[0] + sellmeier_terms(c, 1, micrometres));
    case 2:
        return sqrt(1.0 + c[0] + sellmeier_terms(c, 0, micrometres));
    case 3:
        return sqrt(c[0] + power_terms(c, 1, micrometres));
    case 4:
        return sqrt(c[0] + mixed_term(c + 1, micrometres) + mixed_term(c + 5, micrometres) +
                    power_terms(c, 9, micrometres));
    case 5:
        return c[0] + power_terms(c, 1, micrometres);
    case 6:
        return 1.0 + c[0] + gas_terms(c, micrometres);
    default:
        return NAN;
    }
}

double ifig_formula_index(const IfigDispersionFormula *formula, double wavelength_nm)
{
    /* Beyond its published range a formula is used as it stands: Sellmeier's poles are the stone's
     * own. Where that would mislead, the notes of dispersion.csv say so; embed.py sees to it that
     * each is real and falls from 360 to 830 nm. */
    return index_of_formula(formula, wavelength_nm * 1e-3);
}
