/* SPDX-License-Identifier: MIT */
/* Where n_Y lies between n_X and n_Z, as one number s that stays smooth when an optic axial plane
 * closes and opens again at right angles. With a, b, c = 1/n^2 along X, Y, Z:
 *
 *     b = (1 - s) a + s c,    tan^2 V_Z = (a - b)/(b - c) = s/(1 - s),    so s = sin^2 V_Z
 *
 * (Mallard's formula; V_Z is half the optic angle about Z). s below 0: n_Y < n_X, the plane of the
 * optic axes is YZ, and with X and Y changing places tan^2 V_Z = -s. s above 1: the plane is XY,
 * and tan^2 V_X = s - 1. */
#include "species.h"

#include <math.h>

#include "base.h"

double ifig_beta_share_of_indices(const double n[3])
{
    double a = 1.0 / (n[0] * n[0]), b = 1.0 / (n[1] * n[1]), c = 1.0 / (n[2] * n[2]);
    return (a - b) / (a - c);
}

double ifig_beta_share_of_angle(double two_v_deg, int optic_sign)
{
    double v = 0.5 * fabs(two_v_deg) * IFIG_DEGREE;
    double sine = sin(v), tangent = tan(v);
    double from_acute_end = two_v_deg < 0.0 ? -tangent * tangent : sine * sine;
    return optic_sign < 0 ? 1.0 - from_acute_end : from_acute_end;
}

double ifig_acute_angle_deg(double beta_share)
{
    double from_acute_end = beta_share > 0.5 ? 1.0 - beta_share : beta_share;
    double tangent = from_acute_end < 0.0 ? -sqrt(-from_acute_end)
                                          : sqrt(from_acute_end / (1.0 - from_acute_end));
    return 2.0 * atan(tangent) / IFIG_DEGREE;
}
