/* SPDX-License-Identifier: MIT */
/* How the stone lies on the stage: from a view, a tilt and a stage turn to a matrix. */
#include "crystal.h"

#include "base.h"

#include <math.h>
#include <string.h>

static const double SODIUM_D_NM = 589.3; /* the wavelength at which views are named */

static const char *const VIEW_NAMES[] = {
    [IFIG_VIEW_DEFAULT] = "default",
    [IFIG_VIEW_C] = "c",
    [IFIG_VIEW_OPTIC_AXIS] = "optic-axis",
    [IFIG_VIEW_ACUTE_BISECTRIX] = "acute-bisectrix",
    [IFIG_VIEW_OBTUSE_BISECTRIX] = "obtuse-bisectrix",
    [IFIG_VIEW_OPTIC_NORMAL] = "optic-normal",
    [IFIG_VIEW_X] = "x",
    [IFIG_VIEW_Y] = "y",
    [IFIG_VIEW_Z] = "z",
};

const char *ifig_view_name(IfigView view)
{
    return (unsigned)view <= IFIG_VIEW_Z ? VIEW_NAMES[view] : NULL;
}

IfigView ifig_default_view(const IfigSpecies *species)
{
    IfigSpeciesFacts facts;
    if (ifig_species_facts(species, &facts, NULL) != IFIG_OK) {
        return IFIG_VIEW_Z;
    }
    switch (facts.character) {
    case IFIG_UNIAXIAL:
        return IFIG_VIEW_C;
    case IFIG_BIAXIAL:
        return IFIG_VIEW_ACUTE_BISECTRIX;
    default:
        return IFIG_VIEW_Z;
    }
}

/* R0^T: its rows say where east, north and up lie in the stone. */
static void stand_up(const double east[3], const double up[3], double r0[3][3])
{
    for (int i = 0; i < 3; i++) {
        int j = (i + 1) % 3, k = (i + 2) % 3;
        r0[0][i] = east[i];
        r0[1][i] = up[j] * east[k] - up[k] * east[j];
        r0[2][i] = up[i];
    }
}

/* A view along one of the stone's own axes: that axis up, the next one (X, Y, Z, X) east. */
static void look_along_axis(int axis, double r0[3][3])
{
    double up[3] = {0, 0, 0}, east[3] = {0, 0, 0};
    up[axis] = 1;
    east[(axis + 1) % 3] = 1;
    stand_up(east, up, r0);
}

static IfigStatus look_at_biaxial(const IfigSpecies *species, IfigView view, double r0[3][3],
                                  IfigError *error)
{
    IfigOpticAxes axes;
    IfigStatus status = ifig_optic_axes(species, SODIUM_D_NM, &axes, error);
    if (status != IFIG_OK) {
        return status;
    }
    if (view == IFIG_VIEW_ACUTE_BISECTRIX) {
        stand_up(axes.obtuse_bisectrix, axes.acute_bisectrix, r0);
    } else if (view == IFIG_VIEW_OBTUSE_BISECTRIX) {
        stand_up(axes.acute_bisectrix, axes.obtuse_bisectrix, r0);
    } else if (view == IFIG_VIEW_OPTIC_NORMAL) {
        stand_up(axes.acute_bisectrix, axes.optic_normal, r0);
    } else {
        double v = 0.5 * axes.two_v_deg * IFIG_DEGREE, east[3];
        for (int i = 0; i < 3; i++) {
            east[i] = cos(v) * axes.obtuse_bisectrix[i] + sin(v) * axes.acute_bisectrix[i];
        }
        stand_up(east, axes.axis[0], r0);
    }
    return IFIG_OK;
}

static IfigStatus refuse_view(const IfigSpecies *species, IfigView view,
                              IfigOpticCharacter character, IfigError *error)
{
    const char *kind = character == IFIG_UNIAXIAL  ? "uniaxial"
                       : character == IFIG_BIAXIAL ? "biaxial"
                                                   : "isotropic";
    const char *has = character == IFIG_UNIAXIAL ? "c, optic-axis, x, y or z"
                      : character == IFIG_BIAXIAL
                          ? "optic-axis, acute-bisectrix, obtuse-bisectrix, optic-normal, x, y or z"
                          : "x, y or z";
    return ifig_fail(error, IFIG_ERROR_UNSUITABLE, "%s is %s and has no view '%s'; choose %s",
                     ifig_species_text(species, IFIG_TEXT_KEY), kind, ifig_view_name(view), has);
}

static IfigStatus starting_view(const IfigSpecies *species, IfigView view, double r0[3][3],
                                IfigError *error)
{
    IfigSpeciesFacts facts;
    IfigStatus status = ifig_species_facts(species, &facts, error);
    if (status != IFIG_OK) {
        return status;
    }
    view = view == IFIG_VIEW_DEFAULT ? ifig_default_view(species) : view;
    if (view >= IFIG_VIEW_X) {
        look_along_axis((int)view - (int)IFIG_VIEW_X, r0);
        return IFIG_OK;
    }
    if (facts.character == IFIG_UNIAXIAL && view <= IFIG_VIEW_OPTIC_AXIS) {
        look_along_axis(2, r0);
        return IFIG_OK;
    }
    if (facts.character == IFIG_BIAXIAL && view != IFIG_VIEW_C) {
        return look_at_biaxial(species, view, r0, error);
    }
    return refuse_view(species, view, facts.character, error);
}

static IfigStatus check_orientation(const IfigOrientation *orientation, IfigError *error)
{
    if (orientation->size != sizeof *orientation || ifig_view_name(orientation->view) == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the orientation has an unknown size or view; start from "
                         "IFIG_ORIENTATION_INIT");
    }
    IfigStatus status =
        ifig_check_range("tilt", orientation->tilt_deg, -180, 180, "degrees", error);
    if (status == IFIG_OK) {
        status = ifig_check_range("tilt azimuth", orientation->tilt_azimuth_deg, -3600, 3600,
                                  "degrees", error);
    }
    if (status == IFIG_OK) {
        status =
            ifig_check_range("stage turn", orientation->stage_deg, -3600, 3600, "degrees", error);
    }
    return status;
}

IfigStatus ifig_orientation_matrix(const IfigSpecies *species, const IfigOrientation *orientation,
                                   double rotation[3][3], IfigError *error)
{
    static const IfigOrientation usual = IFIG_ORIENTATION_INIT;
    if (species == NULL || rotation == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "ifig_orientation_matrix: a pointer is NULL");
    }
    orientation = orientation == NULL ? &usual : orientation;
    double r0[3][3], tilt[3][3], stage[3][3], tilted[3][3];
    IfigStatus status = check_orientation(orientation, error);
    if (status == IFIG_OK) {
        status = starting_view(species, orientation->view, r0, error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    double azimuth = orientation->tilt_azimuth_deg * IFIG_DEGREE;
    const double tilt_axis[3] = {-sin(azimuth), cos(azimuth), 0};
    static const double up[3] = {0, 0, 1};
    ifig_turn_about(tilt_axis, orientation->tilt_deg * IFIG_DEGREE, tilt);
    ifig_turn_about(up, orientation->stage_deg * IFIG_DEGREE, stage);
    ifig_matrix3_multiply(tilt, r0, tilted);
    ifig_matrix3_multiply(stage, tilted, rotation);
    return IFIG_OK;
}
