/* SPDX-License-Identifier: MIT */
/* The sphere of directions, cut into cells about the ends of the optic axes and walked along rays
 * from them: there retardation is nil, or next to it, and rises outward. */
#include "hunt.h"

#include "base.h"

#include <math.h>
#include <string.h>

static double dot(const double a[3], const double b[3])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

IfigCell ifig_cell(const IfigOpticAxes *axes, int which)
{
    const double *axis = axes->axis[which], *other = axes->axis[1 - which];
    IfigCell cell = {.is_half = axes->count < 2, .cosine = dot(axis, other)};
    IfigDirection frame = ifig_direction(axis);
    memcpy(cell.axis, axis, sizeof cell.axis);
    memcpy(cell.toward, frame.first, sizeof cell.toward);
    double sine = sqrt(1.0 - cell.cosine * cell.cosine);
    for (int i = 0; i < 3 && !cell.is_half; i++) {
        cell.toward[i] = (other[i] - cell.cosine * axis[i]) / sine;
    }
    for (int i = 0; i < 3; i++) {
        int j = (i + 1) % 3, k = (i + 2) % 3;
        cell.aside[i] = axis[j] * cell.toward[k] - axis[k] * cell.toward[j];
    }
    return cell;
}

double ifig_cell_end(const IfigCell *cell, double phi)
{
    /* Where both axes, either end of the other one, are equally far. */
    double sine = sqrt(1.0 - cell->cosine * cell->cosine), along = sine * cos(phi);
    double far = along > 0 ? 1.0 - cell->cosine : 1.0 + cell->cosine;
    return cell->is_half ? 0.5 * IFIG_PI : atan2(far, fabs(along));
}

IfigDirection ifig_cell_direction(const IfigCell *cell, double phi, double rho)
{
    double s[3];
    for (int i = 0; i < 3; i++) {
        s[i] = cos(rho) * cell->axis[i] +
               sin(rho) * (cos(phi) * cell->toward[i] + sin(phi) * cell->aside[i]);
    }
    return ifig_direction(s);
}

double ifig_ray_crossing(const IfigRayValue *ray, double limit, double low, double high)
{
    double at_low = ray->value(ray, low) - limit, at_high = ray->value(ray, high) - limit;
    double middle = low;
    for (int i = 0; i < 60 && fabs(high - low) > 1e-13 * (fabs(high) + fabs(low)); i++) {
        middle = (low * at_high - high * at_low) / (at_high - at_low);
        double here = ray->value(ray, middle) - limit;
        if (here == 0.0) {
            return middle;
        }
        if ((here < 0) != (at_high < 0)) {
            low = high;
            at_low = at_high;
        } else {
            at_low *= 0.5;
        }
        if (fabs(high - middle) <= 1e-13 * fabs(middle)) {
            break;
        }
        high = middle;
        at_high = here;
    }
    return middle;
}

double ifig_ring(double a, double b)
{
    return 2.0 * sin(0.5 * (a + b)) * sin(0.5 * (b - a));
}
