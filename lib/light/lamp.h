/* SPDX-License-Identifier: MIT */
/* What the files of the light room share with each other, and no other room needs. */
#ifndef IFIG_LAMP_H
#define IFIG_LAMP_H

#include "light.h"

enum {
    IFIG_OBSERVER_FIRST_NM = 360, /* the observer's table: every 1 nm to 830 nm */
    IFIG_OBSERVER_COUNT = 471,
    IFIG_ILLUMINANT_FIRST_NM = 380, /* the illuminants' tables: every 5 nm to 780 nm */
    IFIG_ILLUMINANT_STEP_NM = 5,
    IFIG_ILLUMINANT_COUNT = 81,
    IFIG_ILLUMINANT_KINDS = 4,
    IFIG_VISIBLE_FIRST_NM = 380, /* no lamp gives light outside, whatever its spectrum */
    IFIG_VISIBLE_LAST_NM = 780
};

/* Written by embed_tables.py from observer.csv and illuminants.csv. */
extern const double ifig_observer_table[IFIG_OBSERVER_COUNT][3];
extern const double ifig_illuminant_table[IFIG_ILLUMINANT_KINDS][IFIG_ILLUMINANT_COUNT];

struct IfigLamp {
    double line_nm; /* a single line's wavelength, else 0 */
    double white[3];
    size_t sample_step_nm; /* distance of the samples of its spectrum; 0 for a line */
    size_t count;          /* the spectrum: power at rising wavelengths, linear between */
    const double *wavelength_nm;
    const double *power;
    double storage[]; /* both arrays */
};

/* The integral of lamp x observer against each of the cubic B-splines centred on the samples, from
 * one step before the first sample (moment[0]) to one after the last: count + 2 rows of X, Y, Z.
 * The B-splines add to 1 everywhere in the visible, so the rows add to the lamp's XYZ. Unscaled:
 * the greatest power in the visible counts as 1. */
void ifig_spline_moments(const IfigLamp *lamp, size_t step_nm, size_t count, double (*moment)[3]);

/* From moments (count + 2 rows, as above; used up) to the values at the samples, times the step, of
 * the cubic spline nearest to lamp x observer in the sense of least squares. */
void ifig_spline_projection(size_t count, double (*moment)[3], double (*weight)[3]);

/* The eye adapts from one white to another (XYZ, Y = 1): a matrix for XYZ. */
void ifig_bradford_matrix(const double from[3], const double to[3], double matrix[3][3]);

#endif
