/* SPDX-License-Identifier: MIT */
/* Small pictures are means of larger ones: where a pixel holds whole fringes its light costs more
 * than that of the pixels, four or more, that a larger picture has in its place. */
#include "figure.h"

#include <math.h>

/* Sides below which a picture is made from a finer one: about where a finer one costs least. */
enum { LEAST_PIXELS = 512 };

/* Samples along a side of a pixel whose phase bends; fewer where it is itself one of many. */
enum { BENT_PARTS = 8 };

/* Turns of the phase in a pixel up to which it is still worth forming as it stands. */
static const double MOST_TURNS = 0.15;

/* The phase at the shortest wavelength at a place of the disc. */
static double turns_at(const IfigFigure *figure, double x, double y)
{
    IfigSmooth smooth;
    double theta = ifig_field_theta(&figure->instrument, sqrt(x * x + y * y));
    size_t shortest = figure->node_count - 1;
    ifig_point_quantities(&figure->instrument, &figure->medium[shortest], 1, theta, atan2(y, x),
                          &smooth);
    double h2 = smooth.q[0] > 0 ? smooth.q[0] : 0;
    return 2.0 * figure->thickness_nm[0] * sqrt(h2) / figure->samples.wavelength_nm[0];
}

/* How much the phase changes across a pixel, looked at on a grid of the disc. */
static double turns_in_a_pixel(const IfigFigure *figure)
{
    enum { STEPS = 8 };
    double most = 0, side = 2.0 / STEPS, pixels = side * 0.5 * figure->raster.pixels;
    for (int j = 0; j <= STEPS; j++) {
        double y = j * side - 1.0, before = 0;
        for (int i = 0; i <= STEPS; i++) {
            double x = i * side - 1.0, r = sqrt(x * x + y * y);
            /* What lies beyond the rim is asked at it. */
            double within = r > 1.0 ? 1.0 / r : 1.0;
            double turns = turns_at(figure, x * within, y * within);
            most = i > 0 ? fmax(most, fabs(turns - before)) : most;
            before = turns;
        }
    }
    return most / pixels;
}

void ifig_figure_choose_finer(IfigFigure *figure)
{
    IfigRaster *raster = &figure->raster;
    figure->finer = 1;
    figure->bent_parts = BENT_PARTS;
    /* Stacks, lines and narrow bands of colour are summed over all samples pixel by pixel; beside
     * total reflection, where no few wavelengths tell the others, it is the points that cost. */
    if (figure->support_set_count == 0 || figure->is_absorbing ||
        figure->node_count == figure->samples.count || raster->pixels >= LEAST_PIXELS) {
        return;
    }
    double turns = turns_in_a_pixel(figure);
    while (turns > MOST_TURNS * figure->finer && figure->finer < IFIG_TILE_MAX &&
           raster->pixels * figure->finer < LEAST_PIXELS) {
        figure->finer *= 2;
    }
    figure->bent_parts = figure->finer > BENT_PARTS ? 1 : BENT_PARTS / figure->finer;
    while (raster->tile_pixels * figure->finer > IFIG_TILE_MAX) {
        raster->tile_pixels /= 2;
    }
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
                /* Optics are not to be asked beyond the disc. */
                double part = ifig_share_in_disc(radius, left * finer + x, top * finer + y);
                for (size_t c = 0; c < 3 && part > 0.0; c++) {
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
