/* SPDX-License-Identifier: MIT */
/* Room 7: reading. Enters: a scene of one layer. Leaves: an IfigReading, and its words.
 *
 * A place is known by the tangential wave vector in units of k0, s = n_outside sin(theta)
 * (cos phi, sin phi): in it a melatope stands where the optic axis points, whatever the lens. */
#ifndef IFIG_READING_ROOM_H
#define IFIG_READING_ROOM_H

#include "figure.h"
#include "interfig/reading.h"

/* The stone and the instrument at one wavelength, without accessory plate or body colour. */
typedef struct IfigSight {
    IfigInstrument instrument;
    IfigMedium medium;
    double rotation[3][3];
    double thickness_nm, wavelength_nm;
} IfigSight;

/* A tangential wave vector. */
typedef struct IfigTangent {
    double x, y;
} IfigTangent;

/* sight.c */
IfigStatus ifig_sight_create(const IfigScene *scene, double wavelength_nm, IfigSight *sight,
                             IfigError *error);
/* The ray outside that belongs to a tangent, degrees; 0 where it would be totally reflected. */
int ifig_sight_ray(const IfigSight *sight, IfigTangent s, double *theta_deg, double *phi_deg);
/* The tangent that a point of the picture sees; points beyond the rim have one as well. */
IfigTangent ifig_sight_tangent(const IfigSight *sight, double x, double y);
/* Retardation, nm; NaN where a mode is totally reflected. */
double ifig_sight_retardation(const IfigSight *sight, IfigTangent s);
/* Transmittance averaged over the phase between the two waves: the brushes without the rings. */
double ifig_sight_envelope(const IfigSight *sight, IfigTangent s);
/* How far the slow wave vibrates, as it leaves the stone, along an azimuth rather than across it:
 * 1 along, -1 across, 0 at 45 degrees or circular. NaN where there are no two waves. */
double ifig_sight_slow_along(const IfigSight *sight, IfigTangent s, double azimuth_deg);

/* melatopes.c: character, sign, 2V, 2E, their sense, and the melatopes. */
IfigStatus ifig_read_axes(const IfigScene *scene, const IfigSight *sight, IfigReading *reading,
                          IfigError *error);
/* The tangents of the optic axes at the wavelength of a sight; *count: 0, 1 or 2. */
IfigStatus ifig_axis_tangents(const IfigScene *scene, const IfigSight *sight,
                              IfigTangent tangent[2], size_t *count, IfigError *error);
/* Unit vector from the other axis, or from the centre, through an axis; {0, 0} where there is none.
 */
IfigTangent ifig_outward(const IfigTangent *tangent, size_t count, size_t index);

/* rings.c */
void ifig_read_rings(const IfigSight *sight, const IfigTangent *tangent, size_t count,
                     IfigReading *reading);
void ifig_read_orders(const IfigSight *sight, IfigReading *reading);
/* brushes.c, after the orders */
void ifig_read_brushes(const IfigSight *sight, IfigReading *reading);
/* sign.c */
void ifig_read_plate(const IfigSight *sight, IfigReading *reading);
/* fringes.c */
IfigStatus ifig_read_fringes(const IfigScene *scene, IfigReading *reading, IfigError *error);

/* messages.c: every sentence and word of one language. {1} to {9} stand for the values. */
typedef enum IfigMessage {
    IFIG_SAY_SINGLY_REFRACTIVE = 0,
    IFIG_SAY_SINGLY_DARK,
    IFIG_SAY_SINGLY_LIT,
    IFIG_SAY_UNIAXIAL,
    IFIG_SAY_BIAXIAL,
    IFIG_SAY_POSITIVE,
    IFIG_SAY_NEGATIVE,
    IFIG_SAY_PLATE_LEFT_OUT,
    IFIG_SAY_ANGLE_V,
    IFIG_SAY_ANGLE_E,
    IFIG_SAY_NO_ANGLE_E,
    IFIG_SAY_IN_AIR,
    IFIG_SAY_IN_LIQUID,
    IFIG_SAY_RED_LARGER,
    IFIG_SAY_VIOLET_LARGER,
    IFIG_SAY_ALIKE,
    IFIG_SAY_CROSSED_PLANES,
    IFIG_SAY_INCLINED,
    IFIG_SAY_PARALLEL,
    IFIG_SAY_CROSSED,
    IFIG_SAY_MELATOPE_CENTRE,
    IFIG_SAY_MELATOPE_IN_FIELD,
    IFIG_SAY_MELATOPE_BEYOND,
    IFIG_SAY_MELATOPE_NOT_LEAVING,
    IFIG_SAY_CENTRE,
    IFIG_SAY_RINGS_DARK,
    IFIG_SAY_RINGS_BRIGHT,
    IFIG_SAY_RINGS_OTHER,
    IFIG_SAY_RINGS_BEYOND,
    IFIG_SAY_THE_MELATOPE,
    IFIG_SAY_EACH_MELATOPE,
    IFIG_SAY_MELATOPE_AT,
    IFIG_SAY_ORDERS,
    IFIG_SAY_BRUSH_CROSS,
    IFIG_SAY_BRUSH_EYE,
    IFIG_SAY_BRUSH_TWO,
    IFIG_SAY_BRUSH_ONE,
    IFIG_SAY_BRUSH_ARMS,
    IFIG_SAY_BRUSH_NONE,
    IFIG_SAY_BRUSH_POLARS,
    IFIG_SAY_BRUSH_RIM,
    IFIG_SAY_FRINGES,
    IFIG_SAY_FRINGES_ALIKE,
    IFIG_SAY_NO_FRINGES,
    IFIG_SAY_RED,
    IFIG_SAY_BLUE,
    IFIG_SAY_EYE,
    IFIG_SAY_PLATE,
    IFIG_SAY_PLATE_BETWEEN,
    IFIG_SAY_PLATE_QUADRANT,
    IFIG_SAY_NE,
    IFIG_SAY_NW,
    IFIG_SAY_SW,
    IFIG_SAY_SE,
    IFIG_SAY_RISES,
    IFIG_SAY_FALLS,
    IFIG_SAY_STAYS,
    IFIG_SAY_NO_NUMBER,
    IFIG_SAY_LIST_COMMA,
    IFIG_SAY_LIST_AND,
    IFIG_SAY_CAUTION,
    IFIG_SAY_COUNT
} IfigMessage;
const char *ifig_message(IfigMessage message);

#endif
