/* SPDX-License-Identifier: MIT */
/* Parallel light: beams that go through the stone toward the eye, and what each lets through
 * between any two polars. The waves are computed once, in the stone's frame; turning the stone by
 * an angle is turning the polars, the plate and the directions back by it. */
#ifndef IFIG_PARALLEL_H
#define IFIG_PARALLEL_H

#include "polariscope.h"

enum {
    IFIG_STATES = 4, /* of polarisation: p, s, at 45 degrees, circular; they span all of them */
    IFIG_PARTS = 3   /* of the spectrum: as it is; times cos and sin of the plate's phase */
};

/* One beam: light[part][channel][a][p] is the share, weighted by lamp x observer, that enters in
 * state p and is found in state a. What any two polars let through is a sum of these, as light is
 * linear in the Stokes vector of either polar. */
typedef struct IfigBeam {
    double theta, phi; /* outside, radians, in the stone's frame */
    double share;      /* of the face, or of the eye's cone; they sum to 1 */
    double light[IFIG_PARTS][3][IFIG_STATES][IFIG_STATES];
} IfigBeam;

typedef struct IfigParallel {
    IfigInstrument instrument;
    size_t beam_count;
    IfigBeam *beam;
    int has_places; /* beams are places of the face, else directions in the cone of one place */
} IfigParallel;

/* How the polars stand to the stone. */
typedef struct IfigStand {
    double turn_deg;   /* of the stone from the scene's stage, counter-clockwise */
    double opened_deg; /* of the analyser, counter-clockwise */
} IfigStand;

/* parallel.c: a stack of layers that is the same all over, as the eye's cone sees it. */
IfigStatus ifig_parallel_cone(const IfigScene *scene, IfigParallel *parallel, IfigError *error);
/* places.c: a face on which something is to be seen, place by place; grains: columns of them, each
 * so thin that the eye sees their mean. */
IfigStatus ifig_parallel_places(const IfigScene *scene, const IfigTexture *texture,
                                IfigParallel *parallel, IfigError *error);
void ifig_parallel_free(IfigParallel *parallel);

/* beams.c: X, Y, Z of one beam, or of all, with the polars in a stand. */
void ifig_beam_light(const IfigParallel *parallel, size_t beam, IfigStand stand, double xyz[3]);
void ifig_parallel_light(const IfigParallel *parallel, IfigStand stand, double xyz[3]);
/* Y alone of one beam, for the many turns. */
double ifig_beam_brightness(const IfigParallel *parallel, size_t beam, IfigStand stand);

/* beams.c: add what Jones matrices let through, light[a][p], at one wavelength to a beam. */
typedef struct IfigSpectralPart {
    double wavelength_nm;
    double weight[3]; /* X, Y, Z */
} IfigSpectralPart;
void ifig_beam_add(const IfigParallel *parallel, const IfigSpectralPart *part,
                   const double light[IFIG_STATES * IFIG_STATES], IfigBeam *beam);
/* Fields of the states in (p, s). */
extern const double complex ifig_state_field[IFIG_STATES][2];

#endif
