/* SPDX-License-Identifier: MIT */
/* Sines for the inner loops: the same bits on every processor, and plain enough that a compiler
 * turns loops over them into vector code. libm's own vector functions differ from machine to
 * machine. */
#ifndef IFIG_FRINGE_MATH_H
#define IFIG_FRINGE_MATH_H

#include <math.h>
#include <stdint.h>

#include "base.h"
#include "vector.h"

/* The nearest whole number, by adding and taking away 1.5 x 2^52: exact for |x| < 2^51. */
IFIG_INLINE double ifig_nearest(double x)
{
    const double shift = 6755399441055744.0;
    return (x + shift) - shift;
}

IFIG_INLINE double ifig_magnitude(double x)
{
    return x < 0.0 ? -x : x;
}

/* sin(2 pi t) for |t| <= 1/4: the Taylor sum to the 15th power, whose first term left out is below
 * 7e-12 at a quarter turn. */
IFIG_INLINE double ifig_sine_quarter(double t)
{
    double x = t * (2.0 * IFIG_PI), y = x * x;
    double s = -1.0 / 1307674368000.0;
    s = s * y + 1.0 / 6227020800.0;
    s = s * y - 1.0 / 39916800.0;
    s = s * y + 1.0 / 362880.0;
    s = s * y - 1.0 / 5040.0;
    s = s * y + 1.0 / 120.0;
    s = s * y - 1.0 / 6.0;
    return x + x * y * s;
}

/* cos(2 pi turns) and sin(2 pi turns). */
IFIG_INLINE double ifig_cosine_turns(double turns)
{
    double t = turns - ifig_nearest(turns);
    return ifig_sine_quarter(0.25 - ifig_magnitude(t));
}

IFIG_INLINE double ifig_sine_turns(double turns)
{
    double t = turns - ifig_nearest(turns);
    double s = ifig_sine_quarter(0.25 - ifig_magnitude(ifig_magnitude(t) - 0.25));
    return t < 0.0 ? -s : s;
}

/* cos(2 pi t) and sin(2 pi t) for |t| <= 1/2, to the last digits of a float: the Taylor sum to the
 * 11th power, whose first term left out is 6e-8 at a quarter turn. */
IFIG_INLINE float ifig_sine_quarter_part(float t)
{
    float x = t * (float)(2.0 * IFIG_PI), y = x * x;
    float s = (float)(-1.0 / 39916800.0);
    s = s * y + (float)(1.0 / 362880.0);
    s = s * y - (float)(1.0 / 5040.0);
    s = s * y + (float)(1.0 / 120.0);
    s = s * y - (float)(1.0 / 6.0);
    return x + x * y * s;
}

/* cos(2 pi t) for |t| <= 1/4: the Taylor sum to the 12th power, the first term left out is 6e-9. */
IFIG_INLINE float ifig_cosine_quarter_part(float t)
{
    float x = t * (float)(2.0 * IFIG_PI), y = x * x;
    float c = (float)(1.0 / 479001600.0);
    c = c * y - (float)(1.0 / 3628800.0);
    c = c * y + (float)(1.0 / 40320.0);
    c = c * y - (float)(1.0 / 720.0);
    c = c * y + (float)(1.0 / 24.0);
    c = c * y - 0.5F;
    return 1.0F + y * c;
}

IFIG_INLINE float ifig_cosine_part(float t)
{
    return ifig_sine_quarter_part(0.25F - (t < 0.0F ? -t : t));
}

IFIG_INLINE float ifig_sine_part(float t)
{
    float away = (t < 0.0F ? -t : t) - 0.25F;
    float s = ifig_sine_quarter_part(0.25F - (away < 0.0F ? -away : away));
    return t < 0.0F ? -s : s;
}

/* sin(pi z) / (pi z) of |z| <= 1e6 to the last digits of a float, and what it is made of. Near 0,
 * where it would divide nothing by nothing, a Taylor sum, selected by products, which leave a loop
 * without branches. */
typedef struct IfigSincPart {
    float y, t;                        /* pi z; half of z, less whole turns */
    float small, inverse, ratio, sinc; /* ratio: sin(y) / y where y is not small, else 0 */
} IfigSincPart;

IFIG_INLINE IfigSincPart ifig_sinc_part(float z)
{
    const float shift = 12582912.0F; /* 1.5 x 2^23: adding it rounds */
    IfigSincPart s;
    float half = 0.5F * z, y2;
    s.t = half - ((half + shift) - shift);
    s.y = z * (float)IFIG_PI;
    y2 = s.y * s.y;
    s.small = y2 < 0.01F ? 1.0F : 0.0F;
    s.inverse = (1.0F - s.small) / (s.y + s.small);
    s.ratio = ifig_sine_part(s.t) * s.inverse;
    s.sinc = s.small * (1.0F - y2 * (1.0F / 6.0F) * (1.0F - 0.05F * y2)) + s.ratio;
    return s;
}

/* sin(pi z) / (pi z): what the mean over an interval leaves of a fringe whose phase changes by z
 * turns across it. */
IFIG_INLINE double ifig_sinc_turns(double z)
{
    double x = z * IFIG_PI;
    double small = x * x < 1e-6 ? 1.0 : 0.0;
    double ratio = ifig_sine_turns(0.5 * z) / (x + small);
    return small > 0.0 ? 1.0 - x * x / 6.0 : ratio;
}

/* s(z) = integral of x sin(2 pi z x) from -1/2 to 1/2 = (S(z) - cos(pi z)) / (2 pi z): what the
 * mean leaves of a fringe whose amplitude changes by 1 across the interval as well. sinc: S(z), the
 * above. */
IFIG_INLINE double ifig_odd_sinc_turns(double z, double sinc)
{
    double y = z * IFIG_PI, small = y * y < 1e-4 ? 1.0 : 0.0;
    double quotient = 0.5 * (sinc - ifig_cosine_turns(0.5 * z)) / (y + small);
    return small > 0.0 ? y / 6.0 : quotient;
}

/* S(z) and s(z) as ifig_sinc_turns and ifig_odd_sinc_turns have them, to the last digits of a float
 * and 1e-6. */
IFIG_INLINE float ifig_sincs_part(float z, float *odd)
{
    float near = z > 1e6F ? 1e6F : z < -1e6F ? -1e6F : z;
    IfigSincPart s = ifig_sinc_part(near);
    float odd_taylor = s.small * s.y * (1.0F / 6.0F) * (1.0F - 0.1F * s.y * s.y);
    float cosine = (1.0F - s.small) * ifig_cosine_part(s.t);
    *odd = odd_taylor + 0.5F * (s.ratio - cosine) * s.inverse;
    return s.sinc;
}

/* 1 / sqrt(x) for what a float can hold: its own, and one step of Newton's. */
IFIG_INLINE double ifig_inverse_root(double x)
{
    double y = (double)(1.0F / sqrtf((float)x));
    return y * (1.5 - 0.5 * x * y * y);
}

/* exp(-x) for x >= 0: 2^-n times a Taylor sum over less than half an octave, relative error 1e-12;
 * 0 beyond 700. */
IFIG_INLINE double ifig_exponential_decay(double x)
{
    double y = x > 700.0 ? 700.0 : x;
    double n = ifig_nearest(y * 1.4426950408889634);
    double r = (n * 0.69314718055994531) - y; /* |r| <= 0.347 */
    double s = 1.0 / 39916800.0;
    s = s * r + 1.0 / 3628800.0;
    s = s * r + 1.0 / 362880.0;
    s = s * r + 1.0 / 40320.0;
    s = s * r + 1.0 / 5040.0;
    s = s * r + 1.0 / 720.0;
    s = s * r + 1.0 / 120.0;
    s = s * r + 1.0 / 24.0;
    s = s * r + 1.0 / 6.0;
    s = s * r + 0.5;
    s = s * r + 1.0;
    s = s * r + 1.0;
    union {
        uint64_t bits;
        double value;
    } power = {(uint64_t)(int64_t)(1023.0 - n) << 52};
    return x > 700.0 ? 0.0 : s * power.value;
}

/* What the spline kernel of light.h leaves of a fringe whose phase steps by `step` turns from one
 * sample to the next; sinc: ifig_sinc_turns(step). */
IFIG_INLINE double ifig_spline_of_sinc(double sinc, double step)
{
    double square = sinc * sinc, sine = sinc * (step * IFIG_PI);
    return square * square / (1.0 - (2.0 / 3.0) * sine * sine);
}

/* What the spline kernel leaves, as ifig_spline_of_sinc has it, to the last digits of a float. */
IFIG_INLINE float ifig_spline_part(float step)
{
    IfigSincPart s = ifig_sinc_part(step);
    float square = s.sinc * s.sinc, sine = s.sinc * s.y;
    return square * square / (1.0F - (2.0F / 3.0F) * sine * sine);
}

/* Changes of phase, in turns, across a pixel and from one spectral sample to the next, below which
 * averaging takes less than half a level of 255 off any pixel. */
#define IFIG_STILL_PIXEL    0.01
#define IFIG_STILL_SPECTRUM 0.006
/* The same for what the product of the changes of phase and amplitude adds; it is asked for at one
 * spectral sample in so many. */
#define IFIG_STILL_SLOPES 5e-5
#define IFIG_ASK_SLOPES   8

#endif
