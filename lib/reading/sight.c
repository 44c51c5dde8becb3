/* SPDX-License-Identifier: MIT */
/* One direction of the figure at one wavelength: its retardation, its place between dark and
 * bright, and which of its two waves is slow. */
#include "reading.h"

#include "base.h"

#include <math.h>

IfigStatus ifig_sight_create(const IfigScene *scene, double wavelength_nm, IfigSight *sight,
                             IfigError *error)
{
    const IfigLayer *layer = &scene->layers[0];
    sight->instrument = scene->instrument;
    sight->instrument.plate = (IfigPlate){IFIG_PLATE_NONE, 0, 0};
    sight->thickness_nm = layer->thickness_mm * 1e6;
    sight->wavelength_nm = wavelength_nm;
    IfigStatus status =
        ifig_orientation_matrix(layer->species, &layer->orientation, sight->rotation, error);
    return status == IFIG_OK ? ifig_medium(layer->species, layer->hand, sight->rotation,
                                           wavelength_nm, &sight->medium, error)
                             : status;
}

int ifig_sight_ray(const IfigSight *sight, IfigTangent s, double *theta_deg, double *phi_deg)
{
    double sine = hypot(s.x, s.y) / sight->instrument.immersion_index;
    if (sine >= 1.0) {
        return 0;
    }
    *theta_deg = asin(sine) / IFIG_DEGREE;
    *phi_deg = sine > 0.0 ? atan2(s.y, s.x) / IFIG_DEGREE : 0.0;
    return 1;
}

IfigTangent ifig_sight_tangent(const IfigSight *sight, double x, double y)
{
    double r = hypot(x, y);
    double sine = sight->instrument.immersion_index * sin(ifig_field_theta(&sight->instrument, r));
    double share = r > 0.0 ? sine / r : 0.0;
    return (IfigTangent){share * x, share * y};
}

static IfigSmooth smooth_at(const IfigSight *sight, IfigTangent s)
{
    IfigSmooth smooth;
    double theta = asin(fmin(hypot(s.x, s.y) / sight->instrument.immersion_index, 1.0 - 1e-12));
    ifig_point_quantities(&sight->instrument, &sight->medium, 1, theta, atan2(s.y, s.x), &smooth);
    return smooth;
}

/* Two modes that propagate: below the least index that either can have, or by the propagator's own
 * word. */
static IfigPropagator propagator_at(const IfigSight *sight, IfigTangent s, IfigRay *ray)
{
    IfigPropagator propagator;
    double n = sight->instrument.immersion_index;
    *ray = ifig_ray(n, asin(fmin(hypot(s.x, s.y) / n, 1.0 - 1e-12)), atan2(s.y, s.x));
    ifig_propagator(&sight->medium, ray, &propagator);
    return propagator;
}

double ifig_sight_retardation(const IfigSight *sight, IfigTangent s)
{
    IfigRay ray;
    IfigPropagator propagator = propagator_at(sight, s, &ray);
    double h2 = creal(propagator.half_difference_squared);
    return propagator.evanescent > 0 ? (double)NAN
                                     : 2.0 * sight->thickness_nm * sqrt(fmax(h2, 0.0));
}

double ifig_sight_envelope(const IfigSight *sight, IfigTangent s)
{
    /* I = |u cos(delta/2) + i w sin(delta/2)|^2 with w = v / h: its mean over delta. On the optic
     * axis of a stone that does not rotate, w has no value and the light is |u|^2. */
    static const double least_h2 = 1e-18;
    IfigSmooth smooth = smooth_at(sight, s);
    double h2 = smooth.q[0];
    double u2 = smooth.q[1] * smooth.q[1] + smooth.q[3] * smooth.q[3];
    double v2 = smooth.q[2] * smooth.q[2] + smooth.q[4] * smooth.q[4];
    return h2 > least_h2 ? 0.5 * (u2 + v2 / h2) : u2;
}

double ifig_sight_slow_along(const IfigSight *sight, IfigTangent s, double azimuth_deg)
{
    IfigRay ray;
    IfigPropagator propagator = propagator_at(sight, s, &ray);
    double h2 = creal(propagator.half_difference_squared);
    if (propagator.evanescent > 0 || !(h2 > 0.0)) {
        return (double)NAN;
    }
    /* The slow wave is the eigenvector of the turn for +h; of its two forms the longer one. */
    const double h = sqrt(h2);
    const IfigMatrix2 *turn = &propagator.turn;
    double complex x = turn->m[0][1], y = h - turn->m[0][0];
    double complex other_x = h - turn->m[1][1], other_y = turn->m[1][0];
    if (cabs(other_x) + cabs(other_y) > cabs(x) + cabs(y)) {
        x = other_x;
        y = other_y;
    }
    IfigMatrix2 face = ifig_face(&propagator, NULL, &ray);
    double complex p = (face.m[0][0] * x + face.m[0][1] * y) / ray.cos_theta;
    double complex across = face.m[1][0] * x + face.m[1][1] * y;
    /* Stokes's parameters in (p, s); an objective, or the ball, lays p along the azimuth phi. */
    double pp = creal(p * conj(p)), ss = creal(across * conj(across));
    double twice = 2.0 * (azimuth_deg * IFIG_DEGREE - atan2(s.y, s.x));
    double along = (pp - ss) * cos(twice) + 2.0 * creal(p * conj(across)) * sin(twice);
    return pp + ss > 0.0 ? along / (pp + ss) : (double)NAN;
}
