/* SPDX-License-Identifier: MIT */
/* From XYZ to what the caller asked for: colour, gamut, the disc's rim, encoding. */
#include "figure.h"

#include "fringe_math.h"

#include <math.h>

size_t ifig_pixel_bytes(IfigPixelFormat format)
{
    return format == IFIG_PIXELS_SRGB8    ? 3
           : format == IFIG_PIXELS_SRGB16 ? 3 * sizeof(uint16_t)
                                          : 3 * sizeof(float);
}

/* The share of a pixel that lies within the disc, from its centre's distance to the rim. */
IFIG_INLINE double coverage(const IfigFigure *figure, uint32_t left, uint32_t top)
{
    double radius = 0.5 * figure->pixels;
    double x = left + 0.5 - radius, y = radius - top - 0.5;
    double square = x * x + y * y, well_inside = radius - 0.5;
    if (square < well_inside * well_inside) {
        return 1.0;
    }
    double inside = radius - sqrt(square) + 0.5;
    return inside < 0 ? 0 : inside > 1 ? 1 : inside;
}

/* Linear sRGB within 0..1, the surround blended in by the uncovered share. */
IFIG_INLINE void displayed(const IfigFigure *figure, const double xyz[3], double covered,
                           double rgb[3])
{
    int within = 1;
    for (int i = 0; i < 3; i++) {
        rgb[i] = figure->colour[i][0] * xyz[0] + figure->colour[i][1] * xyz[1] +
                 figure->colour[i][2] * xyz[2];
        within &= rgb[i] > 0.0 && rgb[i] < 1.0;
    }
    if (!within) {
        ifig_colour_into_gamut(rgb);
    }
    for (int i = 0; i < 3 && covered < 1.0; i++) {
        rgb[i] = covered * rgb[i] + (1.0 - covered) * figure->surround;
    }
}

void ifig_code_table(IfigFigure *figure)
{
    for (int code = 0; code < 255; code++) {
        figure->step8[code] = ifig_srgb_decode((code + 0.5) / 255.0);
    }
    figure->step8[255] = 2.0;
    unsigned code = 0;
    for (unsigned i = 0; i < IFIG_CODE_STARTS; i++) {
        while (figure->step8[code] <= (double)i / (IFIG_CODE_STARTS - 1)) {
            code++;
        }
        figure->start8[i] = (uint8_t)code;
    }
    figure->surround = ifig_srgb_decode(IFIG_SURROUND_CODE / 255.0);
}

/* The 8-bit code that rounding the encoded value gives, without a power a pixel: from the code at
 * the start of the value's interval, which is too short for more than one rise, to the next. */
IFIG_INLINE uint8_t code8(const IfigFigure *figure, double linear)
{
    unsigned code = figure->start8[(size_t)(linear * (IFIG_CODE_STARTS - 1))];
    return (uint8_t)(code + (linear >= figure->step8[code] ? 1U : 0U));
}

static void write_xyz(double covered, const double xyz[3], float *pixel)
{
    for (int i = 0; i < 3; i++) {
        pixel[i] = (float)(covered * xyz[i]);
    }
}

static void write16(const double rgb[3], uint16_t *pixel)
{
    for (int i = 0; i < 3; i++) {
        pixel[i] = (uint16_t)floor(ifig_srgb_encode(rgb[i]) * 65535.0 + 0.5);
    }
}

void ifig_pixels_write(const IfigFigure *figure, IfigPixelFormat format, uint32_t left,
                       uint32_t top, uint32_t count, double (*xyz)[3], void *row)
{
    for (uint32_t p = 0; p < count; p++) {
        double covered = coverage(figure, left + p, top), rgb[3];
        if (format == IFIG_PIXELS_XYZ) {
            write_xyz(covered, xyz[p], (float *)row + 3 * p);
            continue;
        }
        displayed(figure, xyz[p], covered, rgb);
        if (format == IFIG_PIXELS_SRGB16) {
            write16(rgb, (uint16_t *)row + 3 * p);
            continue;
        }
        for (uint32_t i = 0; i < 3; i++) {
            ((uint8_t *)row)[3 * p + i] = code8(figure, rgb[i]);
        }
    }
}
