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

/* Linear sRGB of a piece of a row, where that stands among the table of codes, whether each pixel
 * is plain (within the gamut, and well within the disc), and how many are. */
enum { PIECE = 64 };
typedef struct Linear {
    float rgb[3][PIECE];
    int32_t start[3][PIECE], is_plain[PIECE], plain_count;
} Linear;

IFIG_CLONES
static void to_linear(const IfigRaster *raster, uint32_t left, uint32_t top, size_t count,
                      const IfigLightRow *restrict light, size_t from, Linear *restrict linear)
{
    double radius = 0.5 * raster->pixels, y = radius - top - 0.5, within = radius - 0.5;
    double room = within * within - y * y, first = left + 0.5 - radius;
    for (size_t p = 0; p < count; p++) {
        double x = first + (double)(int32_t)p;
        linear->is_plain[p] = x * x < room && within > 0.0;
    }
    const float *restrict xyz[3] = {light->xyz[0] + from, light->xyz[1] + from,
                                    light->xyz[2] + from};
    for (size_t i = 0; i < 3; i++) {
        const float m[3] = {(float)raster->colour[i][0], (float)raster->colour[i][1],
                            (float)raster->colour[i][2]};
        float *restrict out = linear->rgb[i];
        for (size_t p = 0; p < count; p++) {
            float value = m[0] * xyz[0][p] + m[1] * xyz[1][p] + m[2] * xyz[2][p];
            out[p] = value;
            /* By 20 stops more light a number would not hold it. */
            float held = value < 0.0F ? 0.0F : value < 1.0F ? value : 1.0F;
            linear->start[i][p] = (int32_t)(held * (float)(IFIG_CODE_STARTS - 1));
            linear->is_plain[p] &= (value > 0.0F) & (value < 1.0F);
        }
    }
    linear->plain_count = 0;
    for (size_t p = 0; p < count; p++) {
        linear->plain_count += linear->is_plain[p];
    }
}

/* Linear sRGB within 0..1, the surround blended in by the uncovered share. */
static void bring_in(const IfigRaster *raster, uint32_t left, uint32_t top, double rgb[3])
{
    double covered = ifig_share_in_disc(0.5 * raster->pixels, left, top);
    if (covered <= 0.0) { /* light was not asked for there */
        rgb[0] = rgb[1] = rgb[2] = raster->surround;
        return;
    }
    ifig_colour_into_gamut(rgb);
    for (int i = 0; i < 3 && covered < 1.0; i++) {
        rgb[i] = covered * rgb[i] + (1.0 - covered) * raster->surround;
    }
}

void ifig_code_table(IfigRaster *raster)
{
    for (int code = 0; code < 255; code++) {
        raster->step8[code] = (float)ifig_srgb_decode((code + 0.5) / 255.0);
    }
    raster->step8[255] = 2.0F;
    unsigned code = 0;
    for (unsigned i = 0; i < IFIG_CODE_STARTS; i++) {
        while ((double)raster->step8[code] <= (double)i / (IFIG_CODE_STARTS - 1)) {
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
            row[3 * p + i] = covered > 0.0 ? (float)(covered * (double)light->xyz[i][p]) : 0.0F;
        }
    }
}

/* Pixels that are not plain: outside the gamut, or at the rim. */
static void bring_others_in(const IfigRaster *raster, uint32_t left, uint32_t top, uint32_t count,
                            Linear *linear)
{
    for (uint32_t p = 0; p < count; p++) {
        if (!linear->is_plain[p]) {
            double rgb[3] = {(double)linear->rgb[0][p], (double)linear->rgb[1][p],
                             (double)linear->rgb[2][p]};
            bring_in(raster, left + p, top, rgb);
            for (size_t i = 0; i < 3; i++) {
                linear->rgb[i][p] = (float)rgb[i];
                linear->start[i][p] = (int32_t)(rgb[i] * (IFIG_CODE_STARTS - 1));
            }
        }
    }
}

static void write_piece(const IfigRaster *raster, IfigPixelFormat format, uint32_t left,
                        uint32_t top, uint32_t count, const IfigLightRow *light, size_t from,
                        void *row)
{
    Linear linear;
    to_linear(raster, left, top, count, light, from, &linear);
    if (linear.plain_count < (int32_t)count) {
        bring_others_in(raster, left, top, count, &linear);
    }
    if (format == IFIG_PIXELS_SRGB8) {
        write_codes(raster, &linear, count, row);
        return;
    }
    for (uint32_t p = 0; p < count; p++) {
        for (size_t i = 0; i < 3; i++) {
            double code = floor(ifig_srgb_encode((double)linear.rgb[i][p]) * 65535.0 + 0.5);
            ((uint16_t *)row)[3 * p + i] = (uint16_t)code;
        }
    }
}

/* Columns of a row, the end left out. */
typedef struct Span {
    uint32_t first, end;
} Span;

/* Those of a row's `count` columns, counted from its first, that may be covered by the disc. */
static Span covered_span(const IfigRaster *raster, uint32_t left, uint32_t top, uint32_t count)
{
    double radius = 0.5 * raster->pixels, y = radius - top - 0.5, outermost = radius + 1.0;
    double square = outermost * outermost - y * y, reach = square > 0.0 ? sqrt(square) : 0.0;
    double first = ceil(radius - reach - 0.5) - left,
           end = floor(radius + reach - 0.5) + 1.0 - left;
    double most = count;
    first = first < 0.0 ? 0.0 : first < most ? first : most;
    end = end < first ? first : end < most ? end : most;
    return (Span){(uint32_t)first, (uint32_t)end};
}

static void write_surround(IfigPixelFormat format, uint32_t count, void *row)
{
    for (size_t i = 0; i < (size_t)3 * count; i++) {
        if (format == IFIG_PIXELS_SRGB8) {
            ((uint8_t *)row)[i] = IFIG_SURROUND_CODE;
        } else {
            ((uint16_t *)row)[i] = IFIG_SURROUND_CODE * 257;
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
    size_t bytes = ifig_pixel_bytes(format);
    Span span = covered_span(raster, left, top, count);
    write_surround(format, span.first, row);
    for (uint32_t p = span.first; p < span.end; p += PIECE) {
        uint32_t piece = span.end - p < PIECE ? span.end - p : PIECE;
        write_piece(raster, format, left + p, top, piece, light, p,
                    (unsigned char *)row + p * bytes);
    }
    write_surround(format, count - span.end, (unsigned char *)row + span.end * bytes);
}
