/* SPDX-License-Identifier: MIT */
/* Random stones and layers for the properties. */
#ifndef IFIG_TEST_DRAWS_H
#define IFIG_TEST_DRAWS_H

#include <stdio.h>

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

/* One of the stones that do not rotate, by turns. */
static inline const IfigSpecies *inactive_stone(IfigSpecies *const stones[STONES], int draw)
{
    return stones[draw % (STONES / 6) * 6 + draw % 3];
}

/* Any orientation of view z, which stands X, Y, Z along the lab's axes, so that
 * R = Rz(stage + azimuth) Ry(tilt) Rz(-azimuth). */
static inline void draw_orientation(Random *random, IfigOrientation *orientation)
{
    orientation->tilt_deg = random_between(random, 0, 180);
    orientation->tilt_azimuth_deg = random_between(random, -180, 180);
    orientation->stage_deg = random_between(random, -180, 180);
}

static inline IfigLayer draw_layer(Random *random, IfigSpecies *const stones[STONES])
{
    IfigLayer layer = layer_of(stones[random_bits(random) % STONES], IFIG_VIEW_Z,
                               random_between(random, 0.01, 3));
    layer.hand = random_bits(random) % 2 ? IFIG_HAND_LEFT : IFIG_HAND_RIGHT;
    draw_orientation(random, &layer.orientation);
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

/* The same between two waves. */
static inline double difference_of_waves(const IfigPlateWave *a, const IfigPlateWave *b)
{
    double complex matrix[2][2] = {{element(b, 0, 0), element(b, 0, 1)},
                                   {element(b, 1, 0), element(b, 1, 1)}};
    return largest_difference(a, matrix);
}

/* What is looked through, and how. */
typedef struct Sight {
    IfigLayer layers[2];
    size_t count;
    Beam beam;
} Sight;

static inline IfigPlateWave wave_in_sight(const Sight *sight)
{
    return wave_of(sight->layers, sight->count, sight->beam);
}

/* Changes of a draw: *one comes as a layer of the stones and a beam, *other as its equal. */
typedef void (*Change)(Random *random, int draw, IfigSpecies *const stones[STONES], Sight *one,
                       Sight *other);

/* The largest difference that a change makes to the Jones matrix, over all draws. */
static inline double largest_change(uint64_t seed, Change change)
{
    Random random = {seed};
    IfigSpecies *stones[STONES];
    double worst = 0;
    draw_stones(&random, stones);
    for (int i = 0; i < DRAWS; i++) {
        Sight one = {{draw_layer(&random, stones)}, 1, draw_beam(&random)};
        Sight other = one;
        change(&random, i, stones, &one, &other);
        IfigPlateWave before = wave_in_sight(&one), after = wave_in_sight(&other);
        worst = fmax(worst, difference_of_waves(&before, &after));
    }
    free_stones(stones);
    return worst;
}

static inline void tell(const char *what, uint64_t seed, double worst)
{
    printf("%s: seed %lu, %d draws, at most %.1e\n", what, (unsigned long)seed, DRAWS, worst);
}

#endif
