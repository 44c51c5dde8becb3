/* SPDX-License-Identifier: MIT */
/* The coloured fringes of a brush: a stone of dispersed axes, turned until they stand at 45 degrees
 * to the polars, is dark for red at one side of the 589.3 nm melatope and for blue at the other. */
#include "reading.h"

#include "base.h"

#include <math.h>

static const double SODIUM_D_NM = 589.3, LEAST_NM = 400.0, MOST_NM = 700.0, STEP_NM = 10.0;
static const double VIOLET_NM = 486.1, RED_NM = 656.3;
static const double LEAST_GAP = 3e-4; /* of tangents: axes nearer to each other make no fringe */
static const double LEAST_DIFFERENCE = 0.05; /* of warmth, see below */

/* A scene turned to the 45 degree position. The scene points at the layer, so it stays in place. */
typedef struct Turned {
    IfigLayer layer;
    IfigScene scene;
    IfigTangent at[3]; /* an axis at violet, 589.3 nm and red */
} Turned;

static double distance(IfigTangent a, IfigTangent b)
{
    return hypot(a.x - b.x, a.y - b.y);
}

static IfigStatus axes_at(const IfigScene *scene, double wavelength_nm, IfigTangent tangent[2],
                          size_t *count, IfigError *error)
{
    IfigSight sight;
    IfigStatus status = ifig_sight_create(scene, wavelength_nm, &sight, error);
    return status == IFIG_OK ? ifig_axis_tangents(scene, &sight, tangent, count, error) : status;
}

/* Turn the stage so that the line of the axes stands at 45 degrees to crossed polars. */
static IfigStatus turn_scene(const IfigScene *scene, Turned *turned, IfigError *error)
{
    IfigTangent tangent[2];
    size_t count;
    turned->layer = scene->layers[0];
    turned->scene = *scene;
    turned->scene.layers = &turned->layer;
    turned->scene.instrument.polariser = (IfigPolar){IFIG_POLAR_LINEAR, 0};
    turned->scene.instrument.analyser = (IfigPolar){IFIG_POLAR_LINEAR, 90};
    IfigStatus status = axes_at(scene, SODIUM_D_NM, tangent, &count, error);
    if (status == IFIG_OK) {
        IfigTangent line = ifig_outward(tangent, count, 0);
        double turn = 45.0 - atan2(line.y, line.x) / IFIG_DEGREE;
        turned->layer.orientation.stage_deg =
            remainder(turned->layer.orientation.stage_deg + turn, 360.0);
    }
    return status;
}

/* How much warmer than blue a place is, from its colour averaged over the phase between the two
 * waves, so that the interference colours of the rings take no part: (R - B) / (R + G + B). */
static IfigStatus warmth(const IfigScene *scene, IfigTangent place, double *warm, IfigError *error)
{
    double xyz[3] = {0, 0, 0}, rgb[3];
    for (double nm = LEAST_NM; nm <= MOST_NM; nm += STEP_NM) {
        IfigSight sight;
        double observer[3];
        IfigStatus status = ifig_sight_create(scene, nm, &sight, error);
        if (status != IFIG_OK) {
            return status;
        }
        double light = ifig_lamp_power(scene->lamp, nm) * ifig_sight_envelope(&sight, place);
        ifig_colour_matching(nm, observer);
        for (int i = 0; i < 3; i++) {
            xyz[i] += light * observer[i];
        }
    }
    ifig_colour_linear(scene->lamp, xyz, 0.0, rgb);
    double sum = rgb[0] + rgb[1] + rgb[2];
    *warm = sum > 0.0 ? (rgb[0] - rgb[2]) / sum : 0.0;
    return IFIG_OK;
}

/* Where the axis nearest to the one at 589.3 nm stands at another wavelength. */
static IfigStatus follow(const IfigScene *scene, double wavelength_nm, IfigTangent near,
                         IfigTangent *axis, IfigError *error)
{
    IfigTangent tangent[2];
    size_t count;
    IfigStatus status = axes_at(scene, wavelength_nm, tangent, &count, error);
    *axis = near;
    if (status == IFIG_OK && count > 0) {
        int other = count == 2 && distance(tangent[1], near) < distance(tangent[0], near);
        *axis = tangent[other];
    }
    return status;
}

/* 1 where the bisectrix between two axes, both turned toward the observer, is the acute one. */
static int is_acute_between(const IfigTangent tangent[2], double n)
{
    double up[2];
    for (int i = 0; i < 2; i++) {
        up[i] = sqrt(fmax(n * n - tangent[i].x * tangent[i].x - tangent[i].y * tangent[i].y, 0.0));
    }
    return tangent[0].x * tangent[1].x + tangent[0].y * tangent[1].y + up[0] * up[1] >= 0.0;
}

/* The darkest place at 589.3 nm on a line across the brush. */
static IfigTangent darkest(const IfigSight *sight, IfigTangent middle, IfigTangent way,
                           double reach)
{
    const double golden = 0.5 * (sqrt(5.0) - 1.0);
    double low = -reach, high = reach;
    for (int i = 0; i < 40; i++) {
        double near = high - golden * (high - low), far = low + golden * (high - low);
        IfigTangent a = {middle.x + near * way.x, middle.y + near * way.y};
        IfigTangent b = {middle.x + far * way.x, middle.y + far * way.y};
        if (ifig_sight_envelope(sight, a) < ifig_sight_envelope(sight, b)) {
            high = far;
        } else {
            low = near;
        }
    }
    double at = 0.5 * (low + high);
    return (IfigTangent){middle.x + at * way.x, middle.y + at * way.y};
}

/* At the melatope itself a brush has no width, so its sides are looked at a little way along it, on
 * both arms: three times the distance between the axes of violet and red. */
static IfigStatus read_brush(const Turned *turned, IfigTangent convex, IfigMelatope *melatope,
                             IfigError *error)
{
    const IfigTangent *at = turned->at;
    double shift = (at[2].x - at[0].x) * convex.x + (at[2].y - at[0].y) * convex.y;
    double arm = fmin(fmax(3.0 * fabs(shift), 0.02), 0.3), difference = 0.0;
    IfigSight sight;
    IfigStatus status = ifig_sight_create(&turned->scene, SODIUM_D_NM, &sight, error);
    for (int side = -1; side <= 1 && status == IFIG_OK; side += 2) {
        IfigTangent aside = {at[1].x - side * arm * convex.y, at[1].y + side * arm * convex.x};
        IfigTangent brush = darkest(&sight, aside, convex, 0.7 * arm);
        double step = 0.5 * fabs(shift), warm[2] = {0, 0};
        IfigTangent inner = {brush.x + step * convex.x, brush.y + step * convex.y};
        IfigTangent outer = {brush.x - step * convex.x, brush.y - step * convex.y};
        status = warmth(&turned->scene, inner, &warm[0], error);
        if (status == IFIG_OK) {
            status = warmth(&turned->scene, outer, &warm[1], error);
        }
        difference += 0.5 * (warm[0] - warm[1]);
    }
    if (status == IFIG_OK && fabs(shift) >= LEAST_GAP && fabs(difference) > LEAST_DIFFERENCE) {
        melatope->convex = difference > 0.0 ? IFIG_FRINGE_RED : IFIG_FRINGE_BLUE;
        melatope->concave = difference > 0.0 ? IFIG_FRINGE_BLUE : IFIG_FRINGE_RED;
    }
    return status;
}

IfigStatus ifig_read_fringes(const IfigScene *scene, IfigReading *reading, IfigError *error)
{
    Turned turned;
    IfigTangent axis[2];
    IfigOpticAxes axes;
    size_t count = 0;
    const int has_brushes = reading->character == IFIG_BIAXIAL && reading->melatope_count == 2 &&
                            reading->dispersion != IFIG_AXIAL_DISPERSION_CROSSED_PLANES &&
                            ifig_lamp_line_nm(scene->lamp) == 0.0;
    IfigStatus status = has_brushes ? turn_scene(scene, &turned, error) : IFIG_OK;
    if (has_brushes && status == IFIG_OK) {
        status = axes_at(&turned.scene, SODIUM_D_NM, axis, &count, error);
    }
    if (has_brushes && status == IFIG_OK) {
        status = ifig_optic_axes(turned.layer.species, SODIUM_D_NM, &axes, error);
    }
    for (size_t i = 0; i < count && status == IFIG_OK; i++) {
        IfigTangent way = ifig_outward(axis, count, i);
        double toward = is_acute_between(axis, axes.n[1]) ? -1.0 : 1.0;
        turned.at[1] = axis[i];
        status = follow(&turned.scene, VIOLET_NM, axis[i], &turned.at[0], error);
        if (status == IFIG_OK) {
            status = follow(&turned.scene, RED_NM, axis[i], &turned.at[2], error);
        }
        if (status == IFIG_OK && reading->melatope[i].leaves) {
            status = read_brush(&turned, (IfigTangent){toward * way.x, toward * way.y},
                                &reading->melatope[i], error);
        }
    }
    return status;
}
