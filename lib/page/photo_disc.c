/* SPDX-License-Identifier: MIT */
/* A disc cut out of a photograph, turned and brought to size. */
#include <math.h>

#include "photo.h"

/* sRGB is no measure of light (IEC 61966-2-1); the mean of light is wanted, and a power of 2 comes
 * near enough that no pixel of 8 bits shows it. */
static double light_of(uint8_t code)
{
    return (double)code * code;
}

static void pixel_at(const IfigPhoto *photo, double x, double y, double sum[3])
{
    const double right = (double)photo->width - 1.0, bottom = (double)photo->height - 1.0;
    const double u = x < 0.5 ? 0.0 : x - 0.5 > right ? right : x - 0.5;
    const double v = y < 0.5 ? 0.0 : y - 0.5 > bottom ? bottom : y - 0.5;
    const uint32_t left = (uint32_t)u, top = (uint32_t)v;
    const uint32_t next = left + 1 < photo->width ? left + 1 : left;
    const uint32_t below = top + 1 < photo->height ? top + 1 : top;
    const double a = u - left, b = v - top;
    const double share[4] = {(1 - a) * (1 - b), a * (1 - b), (1 - a) * b, a * b};
    const size_t at[4] = {(size_t)top * photo->width + left, (size_t)top * photo->width + next,
                          (size_t)below * photo->width + left, (size_t)below * photo->width + next};
    for (int corner = 0; corner < 4; corner++) {
        for (int c = 0; c < 3; c++) {
            sum[c] += share[corner] * light_of(photo->rgb[3 * at[corner] + (size_t)c]);
        }
    }
}

void ifig_photo_disc(const IfigPhoto *photo, const IfigCircle *circle, double turn_deg,
                     uint32_t pixels, uint8_t *rgb)
{
    /* samples a side, one for each photo pixel that a pixel of the disc covers */
    const double step = 2.0 * circle->radius / pixels;
    const uint32_t samples = step < 1.0 ? 1 : step > 16.0 ? 16 : (uint32_t)ceil(step);
    const double cosine = cos(turn_deg * IFIG_DEGREE), sine = sin(turn_deg * IFIG_DEGREE);
    for (uint32_t row = 0; row < pixels; row++) {
        for (uint32_t column = 0; column < pixels; column++) {
            double sum[3] = {0.0, 0.0, 0.0};
            for (uint32_t k = 0; k < samples * samples; k++) {
                const double right = column + (k % samples + 0.5) / samples - 0.5 * pixels;
                const double down = row + (k / samples + 0.5) / samples - 0.5 * pixels;
                /* what is turned counter-clockwise came from a place that lies clockwise of it */
                pixel_at(photo, circle->x + step * (right * cosine - down * sine),
                         circle->y + step * (right * sine + down * cosine), sum);
            }
            for (int c = 0; c < 3; c++) {
                *rgb++ = (uint8_t)lround(sqrt(sum[c] / (samples * samples)));
            }
        }
    }
}
