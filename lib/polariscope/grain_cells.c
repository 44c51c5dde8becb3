/* SPDX-License-Identifier: MIT */
/* The eye does not see columns apart. At each boundary between grains a ray is bent by about half
 * their birefringence, this way or that, and after many has strayed sideways by thickness x
 * birefringence / 2 x sqrt(grains / 3); the eye itself resolves a minute of arc, 0.07 mm at 250 mm.
 * What it sees at a place is the mean of the columns within such a spot: the even glow of
 * chalcedony, the coarse mosaic of a quartzite.
 *
 * How the face of an aggregate is cut into columns of grains: each place belongs to the nearest of
 * points of which one lies anywhere in each square as wide as a grain (Voronoi's cells). */
#include "texture.h"

#include "base.h"

#include <math.h>

enum { MOST_COLUMNS = 1024, LEAST_COLUMNS = 320 };
/* Half of what the eye resolves. */
static const double EYE_MM = 0.035;
/* Grains that are computed for one face, all its columns together. */
static const double BUDGET = 2e4;

static uint64_t square_name(double column, double row)
{
    return ((uint64_t)(int64_t)row << 32) ^ ((uint64_t)(int64_t)column & 0xffffffffu);
}

static unsigned column_of(const IfigGrainCells *grains, uint64_t name)
{
    return (unsigned)(ifig_texture_draw(grains->seed, 34, name) * grains->columns *
                      IFIG_GRAIN_TURNS);
}

IfigStatus ifig_grain_cells_ready(const IfigScene *scene, const IfigTexture *texture,
                                  IfigGrainCells *grains, IfigError *error)
{
    const IfigLayer *layer = &scene->layers[0];
    grains->grain_mm = texture->grain_mm;
    IfigStatus status =
        ifig_grain_facts(layer->species, &grains->grain_mm, &grains->birefringence, error);
    if (status == IFIG_OK) {
        double deep = fmax(1.0, layer->thickness_mm / grains->grain_mm);
        grains->seed = texture->seed;
        grains->half_width = 0.5 * texture->width_mm / grains->grain_mm;
        double stray = 0.5 * grains->birefringence * sqrt(deep / 3.0) * layer->thickness_mm;
        grains->spot = hypot(stray, EYE_MM) / (0.5 * texture->width_mm);
        grains->columns = (unsigned)fmin(fmax(BUDGET / deep, LEAST_COLUMNS), MOST_COLUMNS);
    }
    return status;
}

unsigned ifig_grain_node(const IfigGrainCells *grains, double column, double row)
{
    return column_of(grains, square_name(column, row));
}

unsigned ifig_grain_column(const IfigGrainCells *grains, double x, double y)
{
    double u = x * grains->half_width, v = y * grains->half_width, nearest = 1e300;
    double column = floor(u), row = floor(v);
    uint64_t found = 0;
    for (int j = -2; j <= 2; j++) {
        for (int i = -2; i <= 2; i++) {
            uint64_t name = square_name(column + i, row + j);
            double du = column + i + ifig_texture_draw(grains->seed, 32, name) - u;
            double dv = row + j + ifig_texture_draw(grains->seed, 33, name) - v;
            double square = du * du + dv * dv;
            if (square < nearest) {
                nearest = square;
                found = name;
            }
        }
    }
    return column_of(grains, found);
}
