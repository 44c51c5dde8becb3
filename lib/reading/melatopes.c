/* SPDX-License-Identifier: MIT */
/* The optic axes: their angle at three wavelengths, and where they come out. */
#include "reading.h"

#include "base.h"

#include <math.h>

static const double LINE_NM[IFIG_READING_LINES] = {486.1, 589.3, 656.3};
static const double SAME_ANGLE_DEG = 0.05; /* below it no eye sees a sense of dispersion */

IfigStatus ifig_axis_tangents(const IfigScene *scene, const IfigSight *sight,
                              IfigTangent tangent[2], size_t *count, IfigError *error)
{
    IfigOpticAxes axes;
    IfigStatus status =
        ifig_optic_axes(scene->layers[0].species, sight->wavelength_nm, &axes, error);
    *count = status == IFIG_OK ? (size_t)axes.count : 0;
    for (size_t i = 0; i < *count; i++) {
        double lab[3] = {0, 0, 0};
        for (int row = 0; row < 3; row++) {
            for (int column = 0; column < 3; column++) {
                lab[row] += sight->rotation[row][column] * axes.axis[i][column];
            }
        }
        double up = lab[2] < 0.0 ? -axes.n[1] : axes.n[1];
        tangent[i] = (IfigTangent){up * lab[0], up * lab[1]};
    }
    return status;
}

IfigTangent ifig_outward(const IfigTangent *tangent, size_t count, size_t index)
{
    IfigTangent from = {0, 0}, to = tangent[index];
    if (count == 2) {
        from = tangent[1 - index];
    }
    double x = to.x - from.x, y = to.y - from.y, length = hypot(x, y);
    return length > 1e-9 ? (IfigTangent){x / length, y / length} : (IfigTangent){0, 0};
}

static void place(const IfigSight *sight, IfigTangent tangent, IfigMelatope *melatope)
{
    const double field = ifig_instrument_field_deg(&sight->instrument);
    *melatope = (IfigMelatope){.theta_deg = NAN, .x = NAN, .y = NAN, .beyond_field_deg = NAN};
    /* Rounding leaves 1e-17 where nothing should be: an axis straight up has no azimuth. */
    tangent.x = fabs(tangent.x) < 1e-9 ? 0.0 : tangent.x;
    tangent.y = fabs(tangent.y) < 1e-9 ? 0.0 : tangent.y;
    melatope->leaves = ifig_sight_ray(sight, tangent, &melatope->theta_deg, &melatope->phi_deg);
    if (!melatope->leaves) {
        melatope->phi_deg = atan2(tangent.y, tangent.x) / IFIG_DEGREE;
        return;
    }
    if (ifig_instrument_position(&sight->instrument, melatope->theta_deg, melatope->phi_deg,
                                 &melatope->x, &melatope->y, NULL) != IFIG_OK) {
        melatope->x = melatope->y = NAN; /* the lens cannot gather it */
    }
    melatope->in_field = hypot(melatope->x, melatope->y) <= 1.0;
    if (!melatope->in_field) {
        melatope->beyond_field_deg = melatope->theta_deg - field;
    }
}

static double dot(const double a[3], const double b[3])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/* The angle about the bisectrix that is acute at 589.3 nm, so that a stone whose sign changes on
 * the way does not seem to jump. */
static double angle_about(const IfigOpticAxes *axes, int optic_sign)
{
    return axes->optic_sign == optic_sign ? axes->two_v_deg : 180.0 - axes->two_v_deg;
}

static IfigAxialDispersion sense_of(const IfigOpticAxes axes[IFIG_READING_LINES])
{
    const IfigOpticAxes *violet = &axes[IFIG_READING_F], *red = &axes[IFIG_READING_C];
    const int sign = axes[IFIG_READING_D].optic_sign;
    if (axes[IFIG_READING_D].count < 2) {
        return IFIG_AXIAL_DISPERSION_ABSENT;
    }
    if (violet->count == 2 && red->count == 2 && violet->optic_sign == red->optic_sign &&
        fabs(dot(violet->optic_normal, red->optic_normal)) < 0.5) {
        return IFIG_AXIAL_DISPERSION_CROSSED_PLANES;
    }
    double difference = angle_about(red, sign) - angle_about(violet, sign);
    return fabs(difference) < SAME_ANGLE_DEG ? IFIG_AXIAL_DISPERSION_NONE
           : difference > 0.0                ? IFIG_AXIAL_DISPERSION_RED_LARGER
                                             : IFIG_AXIAL_DISPERSION_VIOLET_LARGER;
}

IfigStatus ifig_read_axes(const IfigScene *scene, const IfigSight *sight, IfigReading *reading,
                          IfigError *error)
{
    const IfigSpecies *species = scene->layers[0].species;
    IfigOpticAxes axes[IFIG_READING_LINES];
    IfigTangent tangent[2];
    IfigStatus status = IFIG_OK;
    for (int i = 0; i < IFIG_READING_LINES && status == IFIG_OK; i++) {
        status = ifig_optic_axes(species, LINE_NM[i], &axes[i], error);
    }
    if (status == IFIG_OK) {
        status = ifig_axis_tangents(scene, sight, tangent, &reading->melatope_count, error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    reading->character = axes[IFIG_READING_D].character;
    reading->optic_sign = axes[IFIG_READING_D].optic_sign;
    reading->dispersion = sense_of(axes);
    for (int i = 0; i < IFIG_READING_LINES; i++) {
        int has_angle = reading->character == IFIG_BIAXIAL;
        reading->two_v_deg[i] = has_angle ? axes[i].two_v_deg : (double)NAN;
        reading->two_e_deg[i] =
            has_angle ? ifig_apparent_optic_angle_deg(axes[i].n[1], axes[i].two_v_deg,
                                                      sight->instrument.immersion_index)
                      : (double)NAN;
    }
    for (size_t i = 0; i < reading->melatope_count; i++) {
        place(sight, tangent[i], &reading->melatope[i]);
    }
    return IFIG_OK;
}
