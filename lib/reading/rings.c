/* SPDX-License-Identifier: MIT */
/* Rings of equal retardation: outward from each melatope, and how many orders the field holds. */
#include "reading.h"

#include "base.h"

#include <math.h>

/* A walk from a melatope. */
typedef struct Path {
    const IfigSight *sight;
    IfigTangent start, step; /* step: unit vector */
} Path;

static IfigTangent along(const Path *path, double distance)
{
    return (IfigTangent){path->start.x + distance * path->step.x,
                         path->start.y + distance * path->step.y};
}

/* Where, between two distances, the retardation passes a value. */
static double passes(const Path *path, double value, double low, double high)
{
    for (int i = 0; i < 50; i++) {
        double middle = 0.5 * (low + high);
        if (ifig_sight_retardation(path->sight, along(path, middle)) < value) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return 0.5 * (low + high);
}

/* Steps that grow with the distance, as rings lie ever closer to the melatope the thicker the
 * stone: retardation rises with the distance (biaxial) or its square (uniaxial). */
static void walk(const Path *path, IfigMelatope *melatope)
{
    const double growth = 1.03, lambda = path->sight->wavelength_nm;
    const double edge = path->sight->instrument.immersion_index * (1.0 - 1e-9);
    double before = 0.0, here = 1e-6, phi;
    double from = ifig_sight_retardation(path->sight, path->start);
    double next = lambda * (floor(from / lambda + 1e-6) + 1.0);
    while (melatope->ring_count < IFIG_READING_RINGS_MAX) {
        IfigTangent place = along(path, here);
        double nm = hypot(place.x, place.y) < edge ? ifig_sight_retardation(path->sight, place)
                                                   : (double)NAN;
        if (isnan(nm)) {
            return;
        }
        while (nm >= next && melatope->ring_count < IFIG_READING_RINGS_MAX) {
            IfigTangent ring = along(path, passes(path, next, before, here));
            ifig_sight_ray(path->sight, ring, &melatope->ring_deg[melatope->ring_count], &phi);
            melatope->ring_count++;
            next += lambda;
        }
        before = here;
        here = here < 1e-3 ? here * 1.2 : here * growth;
    }
}

/* The diagonal between the arms of the cross that lies nearest to outward. */
static IfigTangent diagonal(const IfigSight *sight, IfigTangent outward)
{
    double first = (sight->instrument.polariser.azimuth_deg + 45.0) * IFIG_DEGREE, most = -2.0;
    IfigTangent best = {0, 0};
    for (int i = 0; i < 4; i++) {
        double azimuth = first + 0.5 * IFIG_PI * i;
        IfigTangent way = {cos(azimuth), sin(azimuth)};
        double share = way.x * outward.x + way.y * outward.y;
        if (share > most + 1e-9) {
            most = share;
            best = way;
        }
    }
    return best;
}

void ifig_read_rings(const IfigSight *sight, const IfigTangent *tangent, size_t count,
                     IfigReading *reading)
{
    for (size_t i = 0; i < count; i++) {
        IfigTangent outward = ifig_outward(tangent, count, i);
        Path path = {sight, tangent[i], count == 1 ? diagonal(sight, outward) : outward};
        if (reading->melatope[i].leaves) {
            walk(&path, &reading->melatope[i]);
        }
    }
}

static void take(const IfigSight *sight, IfigTangent s, IfigReading *reading)
{
    double nm = ifig_sight_retardation(sight, s);
    if (!isnan(nm)) {
        reading->least_nm = fmin(reading->least_nm, nm);
        reading->most_nm = fmax(reading->most_nm, nm);
    }
    reading->brightest = fmax(reading->brightest, ifig_sight_envelope(sight, s));
}

void ifig_read_orders(const IfigSight *sight, IfigReading *reading)
{
    /* The retardation is smooth but for its cusps at the melatopes: on a grid of these steps its
     * largest value is met to better than a thousandth. */
    enum { RADII = 40, AZIMUTHS = 120 };
    reading->least_nm = HUGE_VAL;
    reading->most_nm = 0.0;
    take(sight, (IfigTangent){0, 0}, reading);
    for (int i = 1; i <= RADII; i++) {
        for (int j = 0; j < AZIMUTHS; j++) {
            double r = (double)i / RADII, azimuth = 2.0 * IFIG_PI * j / AZIMUTHS;
            take(sight, ifig_sight_tangent(sight, r * cos(azimuth), r * sin(azimuth)), reading);
        }
    }
    for (size_t i = 0; i < reading->melatope_count; i++) {
        const IfigMelatope *melatope = &reading->melatope[i];
        if (melatope->in_field) {
            take(sight, ifig_sight_tangent(sight, melatope->x, melatope->y), reading);
        }
    }
    reading->orders_in_field = (reading->most_nm - reading->least_nm) / sight->wavelength_nm;
}
