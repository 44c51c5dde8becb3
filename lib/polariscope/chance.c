/* SPDX-License-Identifier: MIT */
/* How easily a doubly refractive stone is taken for a single one: the share of directions that stay
 * dark through a whole turn. */
#include "hunt.h"

#include "base.h"
#include "fringe_math.h"

#include <math.h>

enum {
    RAYS = 120,       /* around an axis of a biaxial stone; a uniaxial one has a single ray */
    LINE_STEPS = 300, /* along a ray under a lamp of one line */
    LINE_STEPS_ALONE = 20000 /* the same of a uniaxial stone */
};

/* A change of retardation within which dark does not turn bright and dark again. */
static const double STEP_NM = 20.0;

static double brightness_at(const IfigRayValue *ray, double rho)
{
    static const double point[2] = {0, 0};
    const IfigDirection direction = ifig_cell_direction(ray->cell, ray->phi, rho);
    double xyz[3];
    ifig_hunt_brightest(ray->spectrum, &direction, ray->thickness_nm, point, xyz);
    return xyz[1];
}

static double retardation_at(const IfigRayValue *ray, double rho)
{
    const IfigDirection direction = ifig_cell_direction(ray->cell, ray->phi, rho);
    return ifig_direction_retardation(ray->medium, &direction, ray->thickness_nm);
}

double ifig_hunt_coherence_nm(const IfigHuntSpectrum *spectrum)
{
    /* Dark needs cos(phase) of 0.96 in the mean; 0.9 leaves room for dispersion. */
    const double least = 0.9, step = 50.0, most = 100e3;
    double last = 0;
    for (double nm = 0; nm < most && spectrum->kernel != IFIG_KERNEL_NONE; nm += step) {
        double re = 0, im = 0;
        for (size_t k = 0; k < spectrum->count; k++) {
            double turns = nm * ifig_hunt_per_nm(spectrum, k);
            re += ifig_hunt_weight(spectrum, k) * ifig_cosine_turns(turns);
            im += ifig_hunt_weight(spectrum, k) * ifig_sine_turns(turns);
        }
        last = re * re + im * im > least * least ? nm + step : last;
    }
    return spectrum->kernel == IFIG_KERNEL_NONE ? (double)INFINITY : last;
}

/* Solid angle, per radian of azimuth, of the dark part between two places of a ray: all, none, or
 * as far as to the edge. */
static double dark_between(const IfigRayValue *ray, double a, double b, int dark_a, int dark_b)
{
    if (dark_a != dark_b) {
        double edge = ifig_ray_crossing(ray, IFIG_DARK_SHARE, a, b);
        return dark_a ? ifig_ring(a, edge) : ifig_ring(edge, b);
    }
    return dark_a ? ifig_ring(a, b) : 0.0;
}

/* Walk outward in steps of retardation until no light of this lamp keeps step any more. */
static double dark_along(const IfigRayValue *ray, double coherence_nm)
{
    const double end = ifig_cell_end(ray->cell, ray->phi), longest = end / 16.0;
    double rho = 0, step = longest, sum = 0, here = retardation_at(ray, 0);
    int is_dark = brightness_at(ray, 0) <= IFIG_DARK_SHARE;
    while (rho < end && here < coherence_nm) {
        double next = fmin(rho + step, end), there = retardation_at(ray, next);
        if (fabs(there - here) > STEP_NM) {
            step *= 0.5;
            continue;
        }
        int next_dark = brightness_at(ray, next) <= IFIG_DARK_SHARE;
        sum += dark_between(ray, rho, next, is_dark, next_dark);
        step = fabs(there - here) < 0.4 * STEP_NM ? fmin(2.0 * step, longest) : step;
        rho = next;
        here = there;
        is_dark = next_dark;
    }
    return sum;
}

/* How much of the way from 0 to a phase, in turns, lies within `half` of a whole number. */
static double near_whole(double turns, double half)
{
    double whole = floor(turns + 0.5), rest = turns - whole;
    return (2.0 * whole + 1.0) * half + fmin(fmax(rest, -half), half);
}

/* One line: dark again at every whole wave. Between two places of a ray the phase changes evenly
 * with solid angle, so the dark part is that of the phase. */
static double dark_of_line(const IfigRayValue *ray, int steps)
{
    const double end = ifig_cell_end(ray->cell, ray->phi);
    const double half = asin(sqrt(IFIG_DARK_SHARE)) / IFIG_PI;
    const double per_nm = ifig_hunt_per_nm(ray->spectrum, 0);
    double rho = 0, before = retardation_at(ray, 0) * per_nm, sum = 0;
    for (int i = 1; i <= steps; i++) {
        double next = end * i / steps;
        double turns = retardation_at(ray, next) * per_nm;
        double change = turns - before;
        double share = fabs(change) > 1e-9
                           ? (near_whole(turns, half) - near_whole(before, half)) / change
                           : (fabs(turns - floor(turns + 0.5)) <= half ? 1.0 : 0.0);
        sum += ifig_ring(rho, next) * share;
        rho = next;
        before = turns;
    }
    return sum;
}

double ifig_hunt_false_single(const IfigHuntSpectrum *spectrum, const IfigMedium *medium,
                              const IfigOpticAxes *axes, double thickness_nm, double coherence_nm)
{
    IfigRayValue ray = {.value = brightness_at,
                        .thickness_nm = thickness_nm,
                        .medium = medium,
                        .spectrum = spectrum};
    const int cells = axes->count == 2 ? 2 : 1, rays = axes->count == 2 ? RAYS : 1;
    const int steps = axes->count == 2 ? LINE_STEPS : LINE_STEPS_ALONE;
    double sum = 0;
    if (axes->count == 0) { /* alike in every direction */
        const IfigCell cell = ifig_cell(axes, 0);
        ray.cell = &cell;
        return brightness_at(&ray, 0) <= IFIG_DARK_SHARE ? 1.0 : 0.0;
    }
    for (int which = 0; which < cells; which++) {
        const IfigCell cell = ifig_cell(axes, which);
        ray.cell = &cell;
        for (int i = 0; i < rays; i++) {
            ray.phi = 2.0 * IFIG_PI * (i + 0.5) / rays;
            sum += isinf(coherence_nm) ? dark_of_line(&ray, steps) : dark_along(&ray, coherence_nm);
        }
    }
    return sum / rays; /* of half the sphere, 2 pi; the other half is the same */
}
