/* SPDX-License-Identifier: MIT */
#include "lamp.h"

#include <math.h>

/* Luminance of linear sRGB: the Y row of the matrix that the primaries and the white of
 * IEC 61966-2-1 give (printed there to four digits: 0.2126, 0.7152, 0.0722). */
static const double luminance_red = 0.21263900587151036;
static const double luminance_green = 0.71516867876775593;
static const double luminance_blue = 0.072192315360733714;

/* How much of a component's distance from the grey may stay. */
static double share_in_gamut(double grey, double component)
{
    if (component < 0) {
        return grey / (grey - component);
    }
    if (component > 1) {
        return (1.0 - grey) / (component - grey);
    }
    return 1.0;
}

void ifig_colour_into_gamut(double rgb[3])
{
    if (rgb == NULL) {
        return;
    }
    const double grey = luminance_red * rgb[0] + luminance_green * rgb[1] + luminance_blue * rgb[2];
    if (!(grey > 0 && grey < 1)) {
        const double flat = grey >= 1 ? 1.0 : 0.0; /* black for a NaN too */
        rgb[0] = rgb[1] = rgb[2] = flat;
        return;
    }
    /* One share for all three: a straight line to the grey, the dominant wavelength stays. */
    const double share = fmin(share_in_gamut(grey, rgb[0]),
                              fmin(share_in_gamut(grey, rgb[1]), share_in_gamut(grey, rgb[2])));
    for (int i = 0; i < 3; i++) {
        const double drawn = share < 1 ? grey + share * (rgb[i] - grey) : rgb[i];
        rgb[i] = fmin(1.0, fmax(0.0, drawn));
    }
}
