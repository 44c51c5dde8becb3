/* SPDX-License-Identifier: MIT */
/* Plates drawn at random, as the reference and as the library take them. */
#ifndef IFIG_TEST_RANDOM_PLATE_H
#define IFIG_TEST_RANDOM_PLATE_H

#include "berreman.h"
#include "optics_test.h"

typedef struct RandomPlate {
    BerremanPlate reference;
    IfigSpecies *species;
    IfigLayer layer;
} RandomPlate;

/* What to draw: count of distinct indices, 1 to 3, and whether the stone turns the light. */
typedef struct PlateKind {
    int distinct_indices, is_active;
} PlateKind;

/* Any orientation, theta up to 75 degrees in air, indices 1.3 to 3, birefringence up to 0.3, 0.01
 * to 5 mm, 400 to 700 nm, rotation up to 315 degrees a millimetre (cinnabar's) by a tensor of its
 * own ratio. Free it with ifig_species_free(plate.species). */
RandomPlate draw_plate(Random *random, PlateKind kind);

/* The same, with an optic axis within `away` radians of the wave normal inside. */
RandomPlate draw_plate_at_axis(Random *random, PlateKind kind, double away);

static inline Beam beam_of(const BerremanPlate *plate)
{
    Beam beam = {plate->n_outside, plate->wavelength_nm, plate->theta_deg, plate->phi_deg};
    return beam;
}

/* Largest difference of an element, the overall phase removed from the library's matrix. */
static inline double jones_error(const IfigPlateWave *wave, double complex reference[2][2])
{
    double complex overlap = 0;
    double largest = 0;
    for (int i = 0; i < 4; i++) {
        overlap += conj(element(wave, i / 2, i % 2)) * reference[i / 2][i % 2];
    }
    double complex phase = cabs(overlap) > 0 ? overlap / cabs(overlap) : 1.0;
    for (int i = 0; i < 4; i++) {
        double error = cabs(phase * element(wave, i / 2, i % 2) - reference[i / 2][i % 2]);
        largest = error <= largest ? largest : error; /* keeps NaN */
    }
    return largest;
}

#endif
