/* SPDX-License-Identifier: MIT */
/* Brushes: where a vibration of the stone lies along a polar, whatever the retardation. */
#include "reading.h"

#include "base.h"

#include <math.h>

enum { RIM_STEPS = 1440 };

/* A brush is darker than this share of the brightest place in the field. Under a sphere it is not
 * black along the diagonals of the rim: there the sheet polariser, met obliquely, and the analyser
 * are up to 15 degrees from crossed. */
static const double DARK_SHARE = 0.25;
/* A cross is closed where its middle is as dark as within 8 degrees of extinction: sin^2(16 deg).
 */
static const double CLOSED_SHARE = 0.075;

static double envelope_on_rim(const IfigSight *sight, double azimuth)
{
    return ifig_sight_envelope(sight, ifig_sight_tangent(sight, cos(azimuth), sin(azimuth)));
}

/* The darkest azimuth between two others, by golden section. */
static double darkest(const IfigSight *sight, double low, double high)
{
    const double golden = 0.5 * (sqrt(5.0) - 1.0);
    for (int i = 0; i < 40; i++) {
        double left = high - golden * (high - low), right = low + golden * (high - low);
        if (envelope_on_rim(sight, left) < envelope_on_rim(sight, right)) {
            high = right;
        } else {
            low = left;
        }
    }
    return 0.5 * (low + high);
}

static void add_brush(IfigReading *reading, double azimuth)
{
    double degrees = azimuth / IFIG_DEGREE;
    degrees -= 360.0 * floor(degrees / 360.0 + 1e-9);
    if (reading->brush_count < IFIG_READING_BRUSHES_MAX) {
        reading->brush_azimuth_deg[reading->brush_count] = fmax(degrees, 0.0);
        reading->brush_count++;
    }
}

static void read_rim(const IfigSight *sight, IfigReading *reading)
{
    /* The walk starts aside of the quarters, where brushes most often are. */
    const double step = 2.0 * IFIG_PI / RIM_STEPS, first = -2.5 * step;
    double before = envelope_on_rim(sight, first), here = envelope_on_rim(sight, first + step);
    for (int i = 1; i <= RIM_STEPS; i++) {
        double azimuth = first + i * step, behind = envelope_on_rim(sight, azimuth + step);
        if (here < before && here <= behind && here < DARK_SHARE * reading->brightest) {
            add_brush(reading, darkest(sight, azimuth - step, azimuth + step));
        }
        before = here;
        here = behind;
    }
}

static int is_closed_at(const IfigSight *sight, const IfigReading *reading, double x, double y)
{
    return ifig_sight_envelope(sight, ifig_sight_tangent(sight, x, y)) <
           CLOSED_SHARE * reading->brightest;
}

static IfigBrushShape shape_of(const IfigSight *sight, const IfigReading *reading)
{
    const IfigMelatope *m = reading->melatope;
    size_t inside = 0;
    for (size_t i = 0; i < reading->melatope_count; i++) {
        inside += m[i].in_field != 0;
    }
    if (reading->brush_count == 0) {
        return IFIG_BRUSH_NONE;
    }
    if (inside == 2) {
        return is_closed_at(sight, reading, 0.5 * (m[0].x + m[1].x), 0.5 * (m[0].y + m[1].y))
                   ? IFIG_BRUSH_CROSS
                   : IFIG_BRUSH_TWO;
    }
    if (inside == 1) {
        return reading->melatope_count == 1 ? IFIG_BRUSH_CROSS : IFIG_BRUSH_ONE;
    }
    return IFIG_BRUSH_ARMS;
}

void ifig_read_brushes(const IfigSight *sight, IfigReading *reading)
{
    if (reading->character == IFIG_ISOTROPIC) {
        return; /* the faint cross of oblique faces is none */
    }
    read_rim(sight, reading);
    reading->brush_shape = shape_of(sight, reading);
}
