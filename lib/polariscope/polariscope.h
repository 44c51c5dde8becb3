/* SPDX-License-Identifier: MIT */
/* Room 8: polariscope. Enters: a scene without a lens, and what runs through its stone. Leaves: the
 * light of the whole stone or of each place of its face, while it turns. */
#ifndef IFIG_POLARISCOPE_ROOM_H
#define IFIG_POLARISCOPE_ROOM_H

#include "interfig/polariscope.h"
#include "reading.h"

#define IFIG_SODIUM_D_NM 589.3 /* for what is told at one wavelength */

/* A Jones matrix in the lab's (x, y) along z, the overall phase free. */
typedef struct IfigJonesXy {
    double complex m[2][2];
} IfigJonesXy;

/* grains.c: a stack of grains that lie every way, as many as the thickness of the scene's first
 * layer holds: the product of their Jones matrices at normal incidence, stage 0, at each of count
 * wavelengths, outer faces included. texture: grain_mm (0: the species' own) and seed. The same
 * seed and place give the same grains at every wavelength, on every machine. The layer's species is
 * an aggregate, or a crystal that is also found as one. */
IfigStatus ifig_grain_stack(const IfigScene *scene, const IfigTexture *texture, unsigned place,
                            const double *wavelength_nm, size_t count, IfigJonesXy *jones,
                            IfigError *error);

/* The size of a species' grains where grain_mm is 0, and the greatest birefringence of one. */
IfigStatus ifig_grain_facts(const IfigSpecies *species, double *grain_mm, double *birefringence,
                            IfigError *error);

/* face_jones.c: what a face lets through at a place: the Jones matrices at normal incidence, stage
 * 0 of the texture turned by the scene's stage, at each of count wavelengths. x, y: -1 to 1. */
IfigStatus ifig_face_jones(const IfigScene *scene, const IfigTexture *texture, double x, double y,
                           const double *wavelength_nm, size_t count, IfigJonesXy *jones,
                           IfigError *error);

/* places.c: the places of the face (disc of radius 1) whose mean stands for the whole, from 0 on.
 */
void ifig_face_place(size_t index, double *x, double *y);

/* The pattern that IFIG_PATTERN_USUAL stands for with a species; others are handed through. */
IfigPattern ifig_pattern_of(const IfigTexture *texture, const IfigSpecies *species);
/* Check a texture's numbers, and that the species can hold such a pattern. NULL: the usual one. */
IfigStatus ifig_texture_check(const IfigTexture *texture, const IfigSpecies *species,
                              IfigError *error);

#endif
