/* SPDX-License-Identifier: MIT */
/* What a full-wave plate does, quadrant by quadrant. */
#include "reading.h"

#include <math.h>

static const double PLATE_SLOW_DEG = 45.0;
static const double LEAST_SHARE = 0.1; /* of along over across: closer to 45 degrees is a brush */

static IfigPlateEffect effect_at(const IfigSight *sight, double x, double y)
{
    double along = ifig_sight_slow_along(sight, ifig_sight_tangent(sight, x, y), PLATE_SLOW_DEG);
    return along > LEAST_SHARE    ? IFIG_PLATE_RISES
           : along < -LEAST_SHARE ? IFIG_PLATE_FALLS
                                  : IFIG_PLATE_EFFECT_NONE;
}

/* The middle of the melatopes in the field, and how far they stand from it. */
static void middle_of(const IfigReading *reading, double *x, double *y, double *reach)
{
    const IfigMelatope *m = reading->melatope;
    const int first = reading->melatope_count > 0 && m[0].in_field;
    const int second = reading->melatope_count > 1 && m[1].in_field;
    *x = *y = *reach = 0.0;
    if (first && second) {
        *x = 0.5 * (m[0].x + m[1].x);
        *y = 0.5 * (m[0].y + m[1].y);
        *reach = 0.5 * hypot(m[0].x - m[1].x, m[0].y - m[1].y);
    } else if (first || second) {
        *x = first ? m[0].x : m[1].x;
        *y = first ? m[0].y : m[1].y;
    }
}

/* How far the rim lies from a point of the picture, along a unit vector. */
static double to_rim(double x, double y, double way_x, double way_y)
{
    double along = x * way_x + y * way_y;
    return sqrt(fmax(along * along + 1.0 - x * x - y * y, 0.0)) - along;
}

void ifig_read_plate(const IfigSight *sight, IfigReading *reading)
{
    static const double way[4][2] = {{1, 1}, {-1, 1}, {-1, -1}, {1, -1}};
    const double diagonal = sqrt(0.5), share = 0.25;
    double x, y, reach;
    if (reading->character == IFIG_ISOTROPIC) {
        return;
    }
    middle_of(reading, &x, &y, &reach);
    for (int i = 0; i < 4; i++) {
        double way_x = diagonal * way[i][0], way_y = diagonal * way[i][1];
        double rim = to_rim(x, y, way_x, way_y), distance = reach + share * (rim - reach);
        if (rim > reach) {
            reading->plate[i] = effect_at(sight, x + distance * way_x, y + distance * way_y);
        }
    }
    if (reach > 0.0) {
        reading->plate_between = effect_at(sight, x, y);
    }
}
