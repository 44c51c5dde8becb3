/* SPDX-License-Identifier: MIT */
/** @file
 * Room 4, instrument: the lens, the polars and the field; which ray each point of the picture sees.
 *
 * The picture is a disc of radius 1 about (0, 0), x east and y north; its rim is the field, a half
 * angle in the outside medium.
 *
 * - Sphere: a ball laid on the stone, the eye far away, a sheet polariser below and no condenser
 *   (the polariscope). A ray that leaves the ball parallel to z at apparent radius rho (of the
 * ball) came from theta = 2 [asin(rho) - asin(rho / n)], n the ball's index over that of the medium
 *   around it; spherical aberration is in it. The ball's own surface losses are left out. The sheet
 *   is met obliquely and passes E along (absorbing axis) x (ray).
 * - Objective of numerical aperture NA with a condenser: n_out sin(theta) = NA rho (Abbe). Both
 * turn the field in the meridional plane.
 * - None: the stone as the bare eye sees it between two sheets. The disc is the pupil of the eye as
 * one place of the stone sees it, sin(theta) = r sin(field); both sheets are met obliquely.
 *
 * Threads: every call may be made by any number of threads at once.
 */
#ifndef INTERFIG_INSTRUMENT_H
#define INTERFIG_INSTRUMENT_H

#include "interfig/status.h"

IFIG_C_BEGIN

/** What gathers the rays. */
typedef enum IfigLensKind {
    IFIG_LENS_SPHERE = 0, /**< a ball of glass laid on the stone */
    IFIG_LENS_OBJECTIVE,  /**< a microscope's, with its condenser */
    IFIG_LENS_NONE        /**< the bare eye */
} IfigLensKind;

/** What a polar lets through. */
typedef enum IfigPolarKind {
    IFIG_POLAR_LINEAR = 0, /**< one direction of vibration */
    IFIG_POLAR_LEFT,       /**< circular: the field turns counter-clockwise for the observer */
    IFIG_POLAR_RIGHT       /**< circular: clockwise */
} IfigPolarKind;

/** A polar; circular ones are ideal at every wavelength and angle and have no azimuth. */
typedef struct IfigPolar {
    IfigPolarKind kind; /**< linear or circular */
    double azimuth_deg; /**< of the direction it passes, -3600 to 3600 */
} IfigPolar;

/** What an accessory plate is cut from: how its retardation changes with wavelength. */
typedef enum IfigPlateMaterial {
    IFIG_PLATE_NONE = 0, /**< no plate */
    IFIG_PLATE_GYPSUM,   /**< full-wave plate; birefringence alike at all wavelengths */
    IFIG_PLATE_MICA,     /**< quarter-wave plate; taken as gypsum */
    IFIG_PLATE_QUARTZ    /**< wedge */
} IfigPlateMaterial;

/** An accessory plate between the lens and the analyser, where the light is parallel. */
typedef struct IfigPlate {
    IfigPlateMaterial material; /**< none, or what it is cut from */
    double retardation_nm;      /**< at 550 nm, 0 to 100000 */
    double slow_azimuth_deg;    /**< of its slow vibration direction, -3600 to 3600; 45: NE-SW */
} IfigPlate;

/** Initialise with IFIG_INSTRUMENT_INIT: a glass ball on the stone, crossed polars, air. */
typedef struct IfigInstrument {
    size_t size;            /**< sizeof(IfigInstrument) */
    IfigLensKind lens;      /**< what gathers the rays */
    double sphere_index;    /**< 1.2 to 3, and at least 1.05 times the immersion index */
    double aperture;        /**< NA of the objective, 0.01 to 0.9999 of the immersion index */
    double field_deg;       /**< half angle of the rim, 0.1 to 89.9; 0: 55 for the sphere, the
                                 objective's whole aperture, or 0.5 without a lens */
    double immersion_index; /**< of the medium around the stone, 1 to 2.5 */
    IfigPolar polariser;    /**< below the stone */
    IfigPolar analyser;     /**< above the lens */
    IfigPlate plate;        /**< between the lens and the analyser */
} IfigInstrument;

/** A glass ball on the stone, crossed polars, air. */
#define IFIG_INSTRUMENT_INIT                                                                       \
    {                                                                                              \
        .size = sizeof(IfigInstrument), .lens = IFIG_LENS_SPHERE, .sphere_index = 1.5,             \
        .aperture = 0.85, .field_deg = 0, .immersion_index = 1.0,                                  \
        .polariser = {IFIG_POLAR_LINEAR, 0}, .analyser = {                                         \
            IFIG_POLAR_LINEAR,                                                                     \
            90                                                                                     \
        }                                                                                          \
    }

/** Check every number that this lens and these polars use. @return IFIG_OK, IFIG_ERROR_ARGUMENT,
 * IFIG_ERROR_RANGE */
IFIG_API IfigStatus ifig_instrument_check(const IfigInstrument *instrument, IfigError *error);
/** The half angle at the rim, degrees in the outside medium: field_deg, or what 0 stands for; NaN
 *  for NULL. */
IFIG_API double ifig_instrument_field_deg(const IfigInstrument *instrument);
/** The ray that a point of the picture sees.
 *  @param x,y  within the disc: x^2 + y^2 <= 1
 *  @param[out] theta_deg,phi_deg  in the outside medium; phi from -180 to 180
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE */
IFIG_API IfigStatus ifig_instrument_direction(const IfigInstrument *instrument, double x, double y,
                                              double *theta_deg, double *phi_deg, IfigError *error);
/** Retardation of an accessory plate, nm, at a wavelength_nm of 360 to 830; NaN outside. Quartz:
 * birefringence of Ghosh, Opt. Commun. 163, 95 (1999), over that at 550 nm. Gypsum: constant, as
 * published indices show "no consistent change with wavelength" (Am. Mineral. 44, 193 (1959),
 * abstract). Mica: constant, common practice, no source. 0 for NULL, as for no plate. */
IFIG_API double ifig_plate_retardation_nm(const IfigPlate *plate, double wavelength_nm);
/** The point of the picture where a ray is seen; it may lie beyond the rim.
 *  @param theta_deg  of the ray in the outside medium, 0 to below 90
 *  @param phi_deg    its azimuth, -3600 to 3600
 *  @param[out] x,y   rim 1; x to the right, y up
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE (also where the lens cannot gather it) */
IFIG_API IfigStatus ifig_instrument_position(const IfigInstrument *instrument, double theta_deg,
                                             double phi_deg, double *x, double *y,
                                             IfigError *error);

IFIG_C_END

#endif
