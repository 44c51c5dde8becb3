/* SPDX-License-Identifier: MIT */
/* IEC 61966-2-1:1999, clause 5.2, with the constants as printed. */
#include "lamp.h"

#include <math.h>

/* 0 for a NaN. */
static double clamp(double value)
{
    return value > 0 ? fmin(value, 1.0) : 0.0;
}

double ifig_srgb_encode(double linear)
{
    const double value = clamp(linear);
    return value <= 0.0031308 ? 12.92 * value : 1.055 * pow(value, 1.0 / 2.4) - 0.055;
}

double ifig_srgb_decode(double encoded)
{
    const double value = clamp(encoded);
    return value <= 0.04045 ? value / 12.92 : pow((value + 0.055) / 1.055, 2.4);
}
