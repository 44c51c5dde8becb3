/* SPDX-License-Identifier: MIT */
/* Colours in words. The bounds are of the trade's eye, chosen so that Quincke's scale of
 * interference colours keeps its names; tests hold them to it. */
#include "reading.h"

#include "base.h"

#include <math.h>

static const double HIGH_ORDER_NM = 2000.0;

typedef struct Lab {
    double lightness, chroma, hue_deg;
} Lab;

/* CIE 015:2018, 8.2.1: the cube root, and below (6/29)^3 a line. */
static double lab_root(double t)
{
    const double d = 6.0 / 29.0;
    return t > d * d * d ? cbrt(t) : t / (3.0 * d * d) + 4.0 / 29.0;
}

static Lab lab_of(const double srgb[3])
{
    /* Linear sRGB to XYZ over the white D65 (IEC 61966-2-1). */
    static const double matrix[3][3] = {
        {0.4124, 0.3576, 0.1805}, {0.2126, 0.7152, 0.0722}, {0.0193, 0.1192, 0.9505}};
    double root[3];
    for (int i = 0; i < 3; i++) {
        double value = 0.0, white = 0.0;
        for (int j = 0; j < 3; j++) {
            value += matrix[i][j] * ifig_srgb_decode(srgb[j]);
            white += matrix[i][j];
        }
        root[i] = lab_root(value / white);
    }
    double a = 500.0 * (root[0] - root[1]), b = 200.0 * (root[1] - root[2]);
    double hue = atan2(b, a) / IFIG_DEGREE;
    return (Lab){116.0 * root[1] - 16.0, hypot(a, b), hue < 0.0 ? hue + 360.0 : hue};
}

/* Where each hue ends, degrees of the CIELAB hue angle; from the last to the first lies red. */
typedef struct HueBound {
    double end_deg;
    IfigHue hue;
} HueBound;

static IfigHue hue_of(double hue_deg)
{
    static const HueBound bounds[] = {
        {42.0, IFIG_HUE_RED},           {72.0, IFIG_HUE_ORANGE},  {100.0, IFIG_HUE_YELLOW},
        {128.0, IFIG_HUE_YELLOW_GREEN}, {168.0, IFIG_HUE_GREEN},  {222.0, IFIG_HUE_BLUE_GREEN},
        {298.0, IFIG_HUE_BLUE},         {313.0, IFIG_HUE_VIOLET}, {340.0, IFIG_HUE_PURPLE},
    };
    for (size_t i = 0; i < sizeof bounds / sizeof *bounds; i++) {
        if (hue_deg < bounds[i].end_deg) {
            return bounds[i].hue;
        }
    }
    return IFIG_HUE_RED;
}

static IfigTone neutral_tone(double lightness)
{
    return lightness < 14.0   ? IFIG_TONE_GREYISH
           : lightness < 38.0 ? IFIG_TONE_DARK
           : lightness < 65.0 ? IFIG_TONE_FULL
           : lightness < 82.0 ? IFIG_TONE_PALE
                              : IFIG_TONE_WHITISH;
}

static IfigTone tone_of(Lab lab)
{
    const double faint = 18.0;
    if (lab.chroma < faint) {
        return lab.lightness > 86.0 ? IFIG_TONE_WHITISH : IFIG_TONE_GREYISH;
    }
    if (lab.lightness < 28.0) {
        return IFIG_TONE_DARK;
    }
    return lab.lightness > 68.0 && lab.chroma < 42.0 ? IFIG_TONE_PALE : IFIG_TONE_FULL;
}

IfigColour ifig_colour_of(const double srgb[3], double retardation_nm)
{
    if (srgb == NULL) {
        return (IfigColour){IFIG_HUE_COUNT, IFIG_TONE_COUNT};
    }
    /* A dim blue of the first order is grey to the eye: iron grey, lavender grey. */
    const double pale = 12.0, dark = 14.0;
    const Lab lab = lab_of(srgb);
    const double no_hue = lab.lightness < 65.0 ? 17.0 : 7.0;
    IfigColour colour = {IFIG_HUE_NEUTRAL, neutral_tone(lab.lightness)};
    if (lab.lightness < dark && lab.chroma < 25.0) {
        return colour;
    }
    if (retardation_nm > HIGH_ORDER_NM && lab.chroma < pale && lab.lightness > 38.0) {
        colour.tone = IFIG_TONE_HIGH_ORDER_WHITE;
    } else if (lab.chroma >= no_hue) {
        colour = (IfigColour){hue_of(lab.hue_deg), tone_of(lab)};
    }
    return colour;
}
