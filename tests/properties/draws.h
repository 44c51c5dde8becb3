/* SPDX-License-Identifier: MIT */
/* Random stones and layers for the properties. */
#ifndef IFIG_TEST_DRAWS_H
#define IFIG_TEST_DRAWS_H

#include "optics_test.h"

enum { DRAWS = 10000, STONES = 48 };

/* Isotropic, uniaxial of both signs and biaxial stones, every second group of them active. */
static inline void draw_stones(Random *random, IfigSpecies *stones[STONES])
{
    for (int i = 0; i < STONES; i++) {
        double low = random_between(random, 1.35, 2.6), spread = random_between(random, 0, 0.3);
        double n[3] = {low, low + spread * random_between(random, 0.05, 0.95), low + spread};
        size_t count = (size_t)(i % 3 + 1);
        if (count == 2 && i % 2) {
            n[0] = low + spread;
            n[1] = low;
        }
        stones[i] = stone_of(n, count, i % 6 < 3 ? 0 : random_between(random, -200, 200));
    }
}

static inline void free_stones(IfigSpecies *stones[STONES])
{
    for (int i = 0; i < STONES; i++) {
        ifig_species_free(stones[i]);
    }
}

/* A layer of any orientation: view z stands X, Y, Z along the lab's axes, so that
 * R = Rz(stage + azimuth) Ry(tilt) Rz(-azimuth). */
static inline IfigLayer draw_layer(Random *random, IfigSpecies *const stones[STONES])
{
    IfigLayer layer = layer_of(stones[random_bits(random) % STONES], IFIG_VIEW_Z,
                               random_between(random, 0.01, 3));
    layer.hand = random_bits(random) % 2 ? IFIG_HAND_LEFT : IFIG_HAND_RIGHT;
    layer.orientation.tilt_deg = random_between(random, 0, 180);
    layer.orientation.tilt_azimuth_deg = random_between(random, -180, 180);
    layer.orientation.stage_deg = random_between(random, -180, 180);
    return layer;
}

/* A beam that no stone drawn reflects totally. */
static inline Beam draw_beam(Random *random)
{
    Beam beam = {random_between(random, 1, 1.3), random_between(random, 400, 700),
                 random_between(random, 0, 75), random_between(random, -180, 180)};
    return beam;
}

/* The largest difference of an element from another matrix's, both given in turn by rows; no common
 * phase is taken out. */
static inline double largest_difference(const IfigPlateWave *a, double complex b[2][2])
{
    double largest = 0;
    for (int i = 0; i < 4; i++) {
        largest = fmax(largest, cabs(element(a, i / 2, i % 2) - b[i / 2][i % 2]));
    }
    return largest;
}

#endif
