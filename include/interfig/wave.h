/* SPDX-License-Identifier: MIT */
/** @file
 * Room 3, wave: what a plane-parallel stone, or a stack of them, does to the light.
 *
 * Polarisation along a ray of direction (theta, phi) in the outside medium is written as amplitudes
 * (p, s): p in the plane of the ray and z, p = (cos theta cos phi, cos theta sin phi, -sin theta);
 * s = (-sin phi, cos phi, 0). Fields go as exp(i (k r - omega t)).
 *
 * Threads: every call may be made by any number of threads at once.
 */
#ifndef INTERFIG_WAVE_H
#define INTERFIG_WAVE_H

#include "interfig/crystal.h"

IFIG_C_BEGIN

/** A complex number. */
typedef struct IfigComplex {
    double re; /**< real part */
    double im; /**< imaginary part */
} IfigComplex;

/** A Jones matrix: rows p, s out; columns p, s in. */
typedef struct IfigJones {
    IfigComplex element[2][2]; /**< row, column */
} IfigJones;

/** One plane-parallel layer. Initialise with IFIG_LAYER_INIT. */
typedef struct IfigLayer {
    size_t size;                 /**< sizeof(IfigLayer) */
    const IfigSpecies *species;  /**< borrowed */
    IfigHand hand;               /**< of an optically active species */
    IfigOrientation orientation; /**< how it lies */
    int body_colour;             /**< 0: colourless, to ifig_species_colour_count of the species */
    double stress_mpa; /**< uniform stress in the plane of the plate, tension positive, -10000 to
                            10000; needs a species whose stress-optic coefficient is known */
    double stress_azimuth_deg; /**< its direction at stage 0, -3600 to 3600; turns with the stage */
    double thickness_mm;       /**< 0.001 to 100 */
} IfigLayer;

/** 3 mm in the default view, without colour or stress; the species is still to be given. */
#define IFIG_LAYER_INIT                                                                            \
    {                                                                                              \
        .size = sizeof(IfigLayer), .orientation = IFIG_ORIENTATION_INIT, .thickness_mm = 3.0       \
    }

/** Most layers in one stack. */
#define IFIG_LAYERS_MAX 4

/** What a stack does to one plane wave. */
typedef struct IfigPlateWave {
    IfigJones jones;       /**< faces included, single pass; overall phase free */
    int is_dark;           /**< 1: total reflection, no light passes */
    double retardation_nm; /**< sum over the layers of 2 d h, exact; 0 where is_dark */
} IfigPlateWave;

/** Light through a stack of layers between two half spaces of the same medium.
 *
 *  The forward-going field in each layer obeys dE/dz = i k0 Q E with a 2 x 2 matrix Q found from
 *  Berreman's equations (J. Opt. Soc. Am. 62, 502 (1972)) without a division that fails at an optic
 *  axis: exact at any birefringence and obliquity, gyration included. At each face the tangential
 *  fields are matched; light reflected to and fro inside is left out, as a stone is thick and its
 *  faces are not flat to a wavelength.
 *
 *  @param layers        light enters the first one
 *  @param layer_count   1 to IFIG_LAYERS_MAX
 *  @param n_outside     index of the medium around the stack, 1 to 3
 *  @param wavelength_nm 360 to 830
 *  @param theta_deg     angle of the ray to z in that medium, 0 to below 90
 *  @param phi_deg       its azimuth, -3600 to 3600
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE, IFIG_ERROR_UNSUITABLE (a view that a
 *          layer's species has not, an aggregate) */
IFIG_API IfigStatus ifig_plate_wave(const IfigLayer *layers, size_t layer_count, double n_outside,
                                    double wavelength_nm, double theta_deg, double phi_deg,
                                    IfigPlateWave *wave, IfigError *error);

IFIG_C_END

#endif
