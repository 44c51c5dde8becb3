/* SPDX-License-Identifier: MIT */
/* What the files of the hunt share with each other, and no other room needs: light that goes
 * straight through a ball of the stone, one direction after another. */
#ifndef IFIG_HUNT_H
#define IFIG_HUNT_H

#include "polariscope.h"

/* A direction and two across it; all of unit length, right-handed. */
typedef struct IfigDirection {
    double along[3], first[3], second[3];
} IfigDirection;
IfigDirection ifig_direction(const double along[3]);

/* directions.c: retardation in nm of light that goes straight along, exact: d (n2 - n1). */
double ifig_direction_retardation(const IfigMedium *medium, const IfigDirection *direction,
                                  double thickness_nm);

/* A stone at every sample of a lamp, laid out for loops over the samples (directions.c). */
typedef struct IfigHuntSpectrum {
    size_t count;
    IfigSpectralKernel kernel;
    int is_absorbing;
    double n_outside; /* 0: faces are left out */
    double *rows;     /* what is read */
    double *work;     /* what is written: each thread has its own */
} IfigHuntSpectrum;

/* instrument: NULL leaves the losses at the faces out. */
IfigStatus ifig_hunt_spectrum_create(const IfigLayer *layer, const double rotation[3][3],
                                     const IfigInstrument *instrument,
                                     const IfigSpectrumSamples *samples, IfigHuntSpectrum *spectrum,
                                     IfigError *error);
void ifig_hunt_spectrum_free(IfigHuntSpectrum *spectrum);
/* How many doubles `work` holds; 1 / wavelength, and the weight in Y, of sample k. */
size_t ifig_hunt_work_size(const IfigHuntSpectrum *spectrum);
double ifig_hunt_per_nm(const IfigHuntSpectrum *spectrum, size_t k);
double ifig_hunt_weight(const IfigHuntSpectrum *spectrum, size_t k);

/* XYZ that the stone shows between crossed polars at its brightest turn, looked at straight along a
 * direction. slope_nm: change of the retardation across the pixel, to right and up; 0: a point. */
void ifig_hunt_brightest(const IfigHuntSpectrum *spectrum, const IfigDirection *direction,
                         double thickness_nm, const double slope_nm[2], double xyz[3]);

/* patch.c: solid angle of all directions whose retardation is at most limit_nm. */
double ifig_hunt_patch(const IfigMedium *medium, const IfigOpticAxes *axes, double thickness_nm,
                       double limit_nm);
/* chance.c: share of all directions that stay dark through a turn. medium: at 589.3 nm or the
 * lamp's line. */
double ifig_hunt_false_single(const IfigHuntSpectrum *spectrum, const IfigMedium *medium,
                              const IfigOpticAxes *axes, double thickness_nm, double coherence_nm);
/* Retardation beyond which no direction is dark, whatever the stone: infinite for one line. */
double ifig_hunt_coherence_nm(const IfigHuntSpectrum *spectrum);

/* cell.c: the directions that lie nearer to one optic axis than to the other, as rays that start at
 * the axis. Four such cells, or two of a uniaxial stone, are the sphere. */
typedef struct IfigCell {
    double axis[3], toward[3], aside[3]; /* toward: the other axis */
    double cosine;                       /* between the two axes */
    int is_half;                         /* 1: uniaxial, half the sphere */
} IfigCell;
IfigCell ifig_cell(const IfigOpticAxes *axes, int which);
/* How far a ray of azimuth phi goes, and the direction at rho of it; radians. */
double ifig_cell_end(const IfigCell *cell, double phi);
IfigDirection ifig_cell_direction(const IfigCell *cell, double phi, double rho);
/* Where value(rho) = limit between two places that have it between them (regula falsi, the Illinois
 * variant: Dowell & Jarratt, BIT 11, 168 (1971)). */
typedef struct IfigRayValue {
    double (*value)(const struct IfigRayValue *self, double rho);
    const IfigCell *cell;
    double phi, thickness_nm;
    const IfigMedium *medium;
    const IfigHuntSpectrum *spectrum;
} IfigRayValue;
double ifig_ray_crossing(const IfigRayValue *ray, double limit, double low, double high);
/* (1 - cos b) - (1 - cos a): solid angle of a ring per radian of azimuth. */
double ifig_ring(double a, double b);

/* hunt.c: check a scene for the hunt: one doubly or singly refractive layer, without stress. */
IfigStatus ifig_hunt_check(const IfigScene *scene, const char *caller, IfigError *error);

/* hunt_messages.c: every sentence of the hunt. {1} to {9} stand for the values. */
typedef enum IfigHuntMessage {
    IFIG_HUNT_SINGLY_DARK = 0,
    IFIG_HUNT_SINGLY_LIT,
    IFIG_HUNT_ONE_PATCH,
    IFIG_HUNT_TWO_PATCHES,
    IFIG_HUNT_MERGED,
    IFIG_HUNT_SIZE_ONE,
    IFIG_HUNT_SIZE_TWO,
    IFIG_HUNT_SIZES,
    IFIG_HUNT_SIZES_ITEM,
    IFIG_HUNT_EVERYWHERE,
    IFIG_HUNT_NEARLY_EVERYWHERE,
    IFIG_HUNT_ALONG_DARK,
    IFIG_HUNT_ALONG_LIT,
    IFIG_HUNT_ALONG_EVEN,
    IFIG_HUNT_CUT_STRAIGHT,
    IFIG_HUNT_CUT_STRAIGHT_LIT,
    IFIG_HUNT_CUT_STRAIGHT_EVEN,
    IFIG_HUNT_CUT_LEAN,
    IFIG_HUNT_CUT_LEAN_FAR,
    IFIG_HUNT_CUT_SIDE,
    IFIG_HUNT_CUT_GIRDLE,
    IFIG_HUNT_CUTS_VARY,
    IFIG_HUNT_FALSE_NONE,
    IFIG_HUNT_FALSE_ONE_IN,
    IFIG_HUNT_FALSE_OFTEN,
    IFIG_HUNT_FALSE_ALL,
    IFIG_HUNT_FALSE_RARE,
    IFIG_HUNT_SIZES_ALL,
    IFIG_HUNT_THE_AXIS,
    IFIG_HUNT_NEAREST_AXIS,
    IFIG_HUNT_LIST_COMMA,
    IFIG_HUNT_LIST_AND,
    IFIG_HUNT_CAUTION,
    IFIG_HUNT_MESSAGE_COUNT
} IfigHuntMessage;
const char *ifig_hunt_message(IfigHuntMessage message);

#endif
