/* SPDX-License-Identifier: MIT */
/* Where the rings of a reading stand: it tells how far out they are, and on which line. */
#include "figure_plate.h"

#include <math.h>

/* Tangential wave vector, as the reading's own: n sin(theta) (cos phi, sin phi). */
static IfigPoint tangent_of(const IfigFigureView *view, const IfigMelatope *melatope)
{
    const double length =
        view->scene->instrument.immersion_index * sin(melatope->theta_deg * IFIG_DEGREE);
    return (IfigPoint){length * cos(melatope->phi_deg * IFIG_DEGREE),
                       length * sin(melatope->phi_deg * IFIG_DEGREE)};
}

/* The diagonal between the arms of the cross that lies nearest to outward; with none, that 45
 * degrees beyond the polariser. */
static IfigPoint diagonal(const IfigFigureView *view, IfigPoint outward)
{
    const double first = view->scene->instrument.polariser.azimuth_deg + 45.0;
    double most = -2.0;
    IfigPoint best = {0.0, 0.0};
    for (int i = 0; i < 4; i++) {
        const double azimuth = (first + 90.0 * i) * IFIG_DEGREE;
        const double share = cos(azimuth) * outward.x + sin(azimuth) * outward.y;
        if (share > most + 1e-9) {
            most = share;
            best = (IfigPoint){cos(azimuth), sin(azimuth)};
        }
    }
    return best;
}

/* Of the line through both optic axes, by their directions: an axis that does not leave the stone
 * has a place on it all the same. */
static IfigPoint outward_of(const IfigFigureView *view, size_t melatope)
{
    IfigPoint place[2] = {{0, 0}, {0, 0}};
    for (int i = 0; i < view->axes.count; i++) {
        const double *const axis = view->axes.axis[i];
        double lab[3];
        for (int row = 0; row < 3; row++) {
            const double *const r = view->rotation[row];
            lab[row] = r[0] * axis[0] + r[1] * axis[1] + r[2] * axis[2];
        }
        const double up = lab[2] < 0.0 ? -view->axes.n[1] : view->axes.n[1];
        place[i] = (IfigPoint){up * lab[0], up * lab[1]};
    }
    const IfigPoint from = view->axes.count == 2 ? place[1 - melatope] : (IfigPoint){0, 0};
    const double x = place[melatope].x - from.x, y = place[melatope].y - from.y;
    const double length = hypot(x, y);
    return length > 1e-9 ? (IfigPoint){x / length, y / length} : (IfigPoint){0, 0};
}

/* A ray in the plane of tangents meets the circle of a ring at most twice; the ring stands where
 * the retardation is a whole number of wavelengths. */
static int ring_on(const IfigFigureView *view, IfigPoint start, IfigPoint step, double theta_deg,
                   IfigViewRing *ring)
{
    static const double tolerance = 0.02; /* of a wavelength */
    const double length = view->scene->instrument.immersion_index * sin(theta_deg * IFIG_DEGREE);
    const double along = start.x * step.x + start.y * step.y;
    const double rest = along * along - (start.x * start.x + start.y * start.y) + length * length;
    for (int sign = -1; sign <= 1 && rest >= 0.0; sign += 2) {
        const double distance = -along + sign * sqrt(rest);
        const double phi = atan2(start.y + distance * step.y, start.x + distance * step.x);
        const double orders = ifig_view_retardation(view, theta_deg, phi / IFIG_DEGREE) /
                              view->reading->wavelength_nm;
        if (distance > 0.0 && fabs(orders - round(orders)) < tolerance && orders > 0.5 &&
            ifig_view_ray(view, theta_deg, phi / IFIG_DEGREE, &ring->at)) {
            ring->order = (int)lround(orders);
            return 1;
        }
    }
    return 0;
}

size_t ifig_view_rings(const IfigFigureView *view, size_t melatope,
                       IfigViewRing rings[IFIG_READING_RINGS_MAX])
{
    const IfigMelatope *const from = &view->reading->melatope[melatope];
    size_t count = 0;
    if (!from->leaves) {
        return 0;
    }
    const IfigPoint outward = outward_of(view, melatope);
    const IfigPoint step = view->axes.count == 1 ? diagonal(view, outward) : outward;
    for (size_t i = 0; i < from->ring_count; i++) {
        count +=
            (size_t)ring_on(view, tangent_of(view, from), step, from->ring_deg[i], &rings[count]);
    }
    return count;
}
