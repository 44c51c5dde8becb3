/* SPDX-License-Identifier: MIT */
/* How large the patch of spectrum colours is. */
#include "hunt.h"

#include "base.h"

#include <math.h>

/* Rays in half a turn of azimuth; the other half is its mirror image. The rule of midpoints is
 * exact to many digits for a patch by itself, and to 1e-5 where it meets its neighbour at a corner.
 */
enum { RAYS = 360 };

static double retardation_at(const IfigRayValue *ray, double rho)
{
    const IfigDirection direction = ifig_cell_direction(ray->cell, ray->phi, rho);
    return ifig_direction_retardation(ray->medium, &direction, ray->thickness_nm);
}

/* How far a ray goes until its retardation passes the limit: it rises all the way. */
static double patch_end(const IfigRayValue *ray, double limit_nm)
{
    double end = ifig_cell_end(ray->cell, ray->phi);
    if (retardation_at(ray, end) <= limit_nm) {
        return end;
    }
    if (retardation_at(ray, 0.0) > limit_nm) {
        return 0.0;
    }
    return ifig_ray_crossing(ray, limit_nm, 0.0, end);
}

double ifig_hunt_patch(const IfigMedium *medium, const IfigOpticAxes *axes, double thickness_nm,
                       double limit_nm)
{
    const IfigCell cell = ifig_cell(axes, 0);
    const int rays = cell.is_half ? 1 : RAYS;
    double sum = 0;
    for (int i = 0; i < rays; i++) {
        IfigRayValue ray = {.value = retardation_at,
                            .cell = &cell,
                            .phi = IFIG_PI * (i + 0.5) / rays,
                            .thickness_nm = thickness_nm,
                            .medium = medium};
        sum += ifig_ring(0.0, patch_end(&ray, limit_nm));
    }
    return 2.0 * IFIG_PI * sum / rays * (cell.is_half ? 2.0 : 4.0);
}
