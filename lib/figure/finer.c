/* SPDX-License-Identifier: MIT */
/* Small pictures are means of larger ones: where a pixel holds whole fringes its light costs more
 * than that of the pixels, four or more, that a larger picture has in its place. */
#include "figure.h"

#include <math.h>

/* Sides below which a picture is made from a finer one: about where a finer one costs least. */
enum { LEAST_PIXELS = 512 };

uint32_t ifig_finer_than(const IfigRaster *raster)
{
    uint32_t finer = 1;
    while (raster->pixels * finer < LEAST_PIXELS && raster->tile_pixels * finer < IFIG_TILE_MAX) {
        finer *= 2;
    }
    return finer;
}

/* The share of a finer pixel that lies within the disc: optics are not to be asked beyond. */
static double share(double radius, uint32_t column, uint32_t row)
{
    double x = column + 0.5 - radius, y = row + 0.5 - radius;
    double inside = radius - sqrt(x * x + y * y) + 0.5;
    return inside < 0 ? 0 : inside > 1 ? 1 : inside;
}

void ifig_finer_means(const IfigFigure *figure, uint32_t left, uint32_t top, uint32_t side,
                      const IfigLightRow *fine, IfigLightRow *mean)
{
    uint32_t finer = figure->finer;
    double radius = 0.5 * figure->raster.pixels * finer;
    for (uint32_t row = 0; row < side; row++) {
        for (uint32_t column = 0; column < side; column++) {
            double sum[3] = {0, 0, 0}, shares = 0;
            for (uint32_t i = 0; i < finer * finer; i++) {
                uint32_t x = column * finer + i % finer, y = row * finer + i / finer;
                double part = share(radius, left * finer + x, top * finer + y);
                for (size_t c = 0; c < 3; c++) {
                    sum[c] += part * (double)fine[y].xyz[c][x];
                }
                shares += part;
            }
            for (size_t c = 0; c < 3; c++) {
                mean[row].xyz[c][column] = shares > 0 ? (float)(sum[c] / shares) : 0.0F;
            }
        }
    }
}
