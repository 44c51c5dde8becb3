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

double ifig_share_in_disc(double radius, uint32_t column, uint32_t row)
{
    double x = column + 0.5 - radius, y = radius - row - 0.5;
    double inside = radius - sqrt(x * x + y * y) + 0.5;
    return inside < 0 ? 0 : inside > 1 ? 1 : inside;
}

/* Linear sRGB of a piece of a row, where that stands among the table of codes, and whether each
 * pixel is plain (within the gamut, and well within the disc) or well outside the disc. */
enum { PIECE = 64 };
typedef struct Linear {
    double rgb[3][PIECE];
    int32_t start[3][PIECE], is_plain[PIECE], is_outside[PIECE];
} Linear;

IFIG_CLONES
static void to_linear(const IfigRaster *raster, uint32_t left, uint32_t top, size_t count,
                      const IfigLightRow *restrict light, size_t from, Linear *restrict linear)
{
    double radius = 0.5 * raster->pixels, y = radius - top - 0.5, within = radius - 0.5;
    double room = within * within - y * y, first = left + 0.5 - radius;
    double beyond = (radius + 1.0) * (radius + 1.0) - y * y;
    for (size_t p = 0; p < count; p++) {
        double x = first + (double)(int32_t)p;
        linear->is_plain[p] = x * x < room && within > 0.0;
        linear->is_outside[p] = x * x > beyond;
    }
    const float *restrict xyz[3] = {light->xyz[0] + from, light->xyz[1] + from,
                                    light->xyz[2] + from};
    for (size_t i = 0; i < 3; i++) {
        const double *m = raster->colour[i];
        double *restrict out = linear->rgb[i];
        for (size_t p = 0; p < count; p++) {
            double value =
                m[0] * (double)xyz[0][p] + m[1] * (double)xyz[1][p] + m[2] * (double)xyz[2][p];
            out[p] = value;
            /* By 20 stops more light a number would not hold it. */
            double held = value < 0.0 ? 0.0 : value < 1.0 ? value : 1.0;
            linear->start[i][p] = (int32_t)(held * (IFIG_CODE_STARTS - 1));
            linear->is_plain[p] &= (value > 0.0) & (value < 1.0);
        }
    }
}

/* Linear sRGB within 0..1, the surround blended in by the uncovered share. */
static void bring_in(const IfigRaster *raster, uint32_t left, uint32_t top, double rgb[3])
{
    double covered = ifig_share_in_disc(0.5 * raster->pixels, left, top);
    if (covered > 0.0) {
        ifig_colour_into_gamut(rgb);
    }
    for (int i = 0; i < 3 && covered < 1.0; i++) {
        rgb[i] = covered * rgb[i] + (1.0 - covered) * raster->surround;
    }
}

void ifig_code_table(IfigRaster *raster)
{
    for (int code = 0; code < 255; code++) {
        raster->step8[code] = ifig_srgb_decode((code + 0.5) / 255.0);
    }
    raster->step8[255] = 2.0;
    unsigned code = 0;
    for (unsigned i = 0; i < IFIG_CODE_STARTS; i++) {
        while (raster->step8[code] <= (double)i / (IFIG_CODE_STARTS - 1)) {
            code++;
        }
        raster->start8[i] = (uint8_t)code;
    }
    raster->surround = ifig_srgb_decode(IFIG_SURROUND_CODE / 255.0);
}

/* The 8-bit codes that rounding the encoded values gives, without a power a pixel: from the code at
 * the start of the value's interval, which is too short for more than one rise, to the next. */
static void write_codes(const IfigRaster *raster, const Linear *linear, uint32_t count,
                        uint8_t *restrict row)
{
    for (uint32_t p = 0; p < count; p++) {
        for (size_t i = 0; i < 3; i++) {
            unsigned code = raster->start8[linear->start[i][p]];
            row[3 * p + i] = (uint8_t)(code + (linear->rgb[i][p] >= raster->step8[code]));
        }
    }
}

static void write_xyz(const IfigRaster *raster, uint32_t left, uint32_t top, uint32_t count,
                      const IfigLightRow *light, float *row)
{
    for (uint32_t p = 0; p < count; p++) {
        double covered = ifig_share_in_disc(0.5 * raster->pixels, left + p, top);
        for (size_t i = 0; i < 3; i++) {
            row[3 * p + i] = (float)(covered * (double)light->xyz[i][p]);
        }
    }
}

static void write_piece(const IfigRaster *raster, IfigPixelFormat format, uint32_t left,
                        uint32_t top, uint32_t count, const IfigLightRow *light, size_t from,
                        void *row)
{
    Linear linear;
    to_linear(raster, left, top, count, light, from, &linear);
    for (uint32_t p = 0; p < count; p++) {
        if (!linear.is_plain[p]) {
            double rgb[3] = {linear.rgb[0][p], linear.rgb[1][p], linear.rgb[2][p]};
            if (linear.is_outside[p]) {
                rgb[0] = rgb[1] = rgb[2] = raster->surround;
            } else {
                bring_in(raster, left + p, top, rgb);
            }
            for (size_t i = 0; i < 3; i++) {
                linear.rgb[i][p] = rgb[i];
                linear.start[i][p] = (int32_t)(rgb[i] * (IFIG_CODE_STARTS - 1));
            }
        }
    }
    if (format == IFIG_PIXELS_SRGB8) {
        write_codes(raster, &linear, count, row);
        return;
    }
    for (uint32_t p = 0; p < count; p++) {
        for (size_t i = 0; i < 3; i++) {
            double code = floor(ifig_srgb_encode(linear.rgb[i][p]) * 65535.0 + 0.5);
            ((uint16_t *)row)[3 * p + i] = (uint16_t)code;
        }
    }
}

void ifig_pixels_write(const IfigRaster *raster, IfigPixelFormat format, uint32_t left,
                       uint32_t top, uint32_t count, const IfigLightRow *light, void *row)
{
    if (format == IFIG_PIXELS_XYZ) {
        write_xyz(raster, left, top, count, light, row);
        return;
    }
    for (uint32_t p = 0; p < count; p += PIECE) {
        uint32_t piece = count - p < PIECE ? count - p : PIECE;
        write_piece(raster, format, left + p, top, piece, light, p,
                    (unsigned char *)row + p * ifig_pixel_bytes(format));
    }
}
