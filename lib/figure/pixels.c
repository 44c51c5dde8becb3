/* SPDX-License-Identifier: MIT */
/* From XYZ to what the caller asked for: colour, gamut, the disc's rim, encoding. */
#include "figure.h"

#include <math.h>

size_t ifig_pixel_bytes(IfigPixelFormat format)
{
    return format == IFIG_PIXELS_SRGB8    ? 3
           : format == IFIG_PIXELS_SRGB16 ? 3 * sizeof(uint16_t)
                                          : 3 * sizeof(float);
}

/* The share of a pixel that lies within the disc, from its centre's distance to the rim. */
static double coverage(const IfigRaster *raster, uint32_t left, uint32_t top)
{
    double radius = 0.5 * raster->pixels;
    double x = left + 0.5 - radius, y = radius - top - 0.5;
    double inside = radius - sqrt(x * x + y * y) + 0.5;
    return inside < 0 ? 0 : inside > 1 ? 1 : inside;
}

/* Linear sRGB within 0..1, the surround blended in by the uncovered share. */
static void displayed(const IfigRaster *raster, const double xyz[3], double covered, double rgb[3])
{
    for (int i = 0; i < 3; i++) {
        rgb[i] = raster->colour[i][0] * xyz[0] + raster->colour[i][1] * xyz[1] +
                 raster->colour[i][2] * xyz[2];
    }
    ifig_colour_into_gamut(rgb);
    if (covered < 1.0) {
        double surround = ifig_srgb_decode(IFIG_SURROUND_CODE / 255.0);
        for (int i = 0; i < 3; i++) {
            rgb[i] = covered * rgb[i] + (1.0 - covered) * surround;
        }
    }
}

/* The 8-bit code by bisection of the 255 linear values at which it rises: the code that rounding
 * the encoded value gives, without a power a pixel. */
static uint8_t code8(const IfigRaster *raster, double linear)
{
    unsigned low = 0;
    for (unsigned step = 128; step > 0; step /= 2) {
        low += linear >= raster->step8[low + step - 1] ? step : 0;
    }
    return (uint8_t)low;
}

void ifig_pixels_write(const IfigRaster *raster, IfigPixelFormat format, uint32_t left,
                       uint32_t top, uint32_t count, double (*xyz)[3], void *row)
{
    for (uint32_t p = 0; p < count; p++) {
        double covered = coverage(raster, left + p, top), rgb[3];
        for (int i = 0; i < 3 && format == IFIG_PIXELS_XYZ; i++) {
            ((float *)row)[3 * p + (uint32_t)i] = (float)(covered * xyz[p][i]);
        }
        if (format == IFIG_PIXELS_XYZ) {
            continue;
        }
        displayed(raster, xyz[p], covered, rgb);
        for (uint32_t i = 0; i < 3; i++) {
            if (format == IFIG_PIXELS_SRGB8) {
                ((uint8_t *)row)[3 * p + i] = code8(raster, rgb[i]);
            } else {
                double code = floor(ifig_srgb_encode(rgb[i]) * 65535.0 + 0.5);
                ((uint16_t *)row)[3 * p + i] = (uint16_t)code;
            }
        }
    }
}
