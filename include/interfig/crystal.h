/* SPDX-License-Identifier: MIT */
/** @file
 * Room 2, crystal: how the indicatrix lies, and where its optic axes point.
 *
 * Lab frame, right-handed: x east (right in the picture), y north (up), z toward the observer; the
 * light travels along +z. Azimuths count counter-clockwise from east as the observer sees them.
 * Angles are in degrees at every public boundary.
 *
 * Threads: every call may be made by any number of threads at once.
 */
#ifndef INTERFIG_CRYSTAL_H
#define INTERFIG_CRYSTAL_H

#include "interfig/species.h"

IFIG_C_BEGIN

/** The crystal direction that points at the observer before tilt and stage turn. */
typedef enum IfigView {
    IFIG_VIEW_DEFAULT = 0, /**< optic axis (uniaxial), acute bisectrix (biaxial), z (isotropic) */
    IFIG_VIEW_C,           /**< c axis of a uniaxial stone; X east */
    IFIG_VIEW_OPTIC_AXIS,  /**< uniaxial: as c. Biaxial: one optic axis, the optic axial plane
                                E-W, the acute bisectrix leaning east of the centre */
    IFIG_VIEW_ACUTE_BISECTRIX,  /**< biaxial only; the obtuse bisectrix east */
    IFIG_VIEW_OBTUSE_BISECTRIX, /**< biaxial only; the acute bisectrix east */
    IFIG_VIEW_OPTIC_NORMAL,     /**< biaxial only: Y; the acute bisectrix east */
    IFIG_VIEW_X,                /**< X; Y east */
    IFIG_VIEW_Y,                /**< Y; Z east */
    IFIG_VIEW_Z                 /**< Z; X east */
} IfigView;

/** How a stone lies: R = Rz(stage) Rot(u, tilt) R0(view), u = (-sin az, cos az, 0), so that a tilt
 *  moves the viewed direction from the centre toward the tilt azimuth. Optic axes and bisectrices
 *  are those at 589.3 nm. Initialise with IFIG_ORIENTATION_INIT. */
typedef struct IfigOrientation {
    size_t size;             /**< sizeof(IfigOrientation) */
    IfigView view;           /**< the direction that points at the observer */
    double tilt_deg;         /**< inside the crystal, -180 to 180 */
    double tilt_azimuth_deg; /**< -3600 to 3600 */
    double stage_deg;        /**< counter-clockwise, -3600 to 3600 */
} IfigOrientation;

/** The default view, without tilt, at stage 0. */
#define IFIG_ORIENTATION_INIT                                                                      \
    {                                                                                              \
        .size = sizeof(IfigOrientation)                                                            \
    }

/** Optic axes of a stone at one wavelength, in its own frame X, Y, Z. */
typedef struct IfigOpticAxes {
    IfigOpticCharacter character; /**< at this wavelength: brookite is uniaxial at one */
    int optic_sign;               /**< +1, -1; 0 for isotropic */
    int count;                    /**< 0, 1 or 2 axes */
    double n[3];                  /**< principal indices, rising */
    double two_v_deg;             /**< acute angle between the axes, 0 to 90 */
    double two_v_z_deg;           /**< the angle that holds the direction of the largest index */
    double axis[2][3];            /**< unit vectors */
    double acute_bisectrix[3];    /**< unit vector */
    double obtuse_bisectrix[3];   /**< unit vector */
    double optic_normal[3];       /**< unit vector */
} IfigOpticAxes;

/** The angle between the optic axes that holds the gamma direction, from three principal indices:
 *  tan^2 V_Z = (1/na^2 - 1/nb^2) / (1/nb^2 - 1/ng^2) (Born & Wolf, Principles of Optics, 15.3.3).
 *  @param n  rising, each from 1 to 5; not all equal
 *  @param[out] two_v_z_deg  0 to 180: below 90 the stone is positive
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE */
IFIG_API IfigStatus ifig_optic_angle(const double n[3], double *two_v_z_deg, IfigError *error);

/** The optic angle as it is seen outside a plate cut across the bisectrix:
 *  sin E = (n_beta / n_outside) sin V (Snell's law for the wave along the axis, whose index is
 *  n_beta).
 *  @param n_beta     the middle index, above 0
 *  @param two_v_deg  the angle inside the stone, 0 to 180
 *  @param n_outside  index of the medium around it, above 0
 *  @return 2E in degrees, or NaN where the axes cannot leave the stone (total reflection) */
IFIG_API double ifig_apparent_optic_angle_deg(double n_beta, double two_v_deg, double n_outside);

/** The optic axes at a wavelength.
 *  @param wavelength_nm  360 to 830
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE */
IFIG_API IfigStatus ifig_optic_axes(const IfigSpecies *species, double wavelength_nm,
                                    IfigOpticAxes *axes, IfigError *error);

/** The orientation matrix R.
 *  @param orientation    NULL for the default view
 *  @param[out] rotation  by row and column; its columns are the stone's X, Y, Z in the lab frame
 *  @return IFIG_OK; IFIG_ERROR_UNSUITABLE where the stone has no such view (the message names those
 *          it has); IFIG_ERROR_RANGE; IFIG_ERROR_ARGUMENT */
IFIG_API IfigStatus ifig_orientation_matrix(const IfigSpecies *species,
                                            const IfigOrientation *orientation,
                                            double rotation[3][3], IfigError *error);

/** A view's name as the program writes it ("acute-bisectrix"); NULL for an unknown value. Static
 *  storage. */
IFIG_API const char *ifig_view_name(IfigView view);

/** The view that IFIG_VIEW_DEFAULT stands for with this stone; IFIG_VIEW_Z for NULL. */
IFIG_API IfigView ifig_default_view(const IfigSpecies *species);

IFIG_C_END

#endif
