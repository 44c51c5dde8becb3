/* SPDX-License-Identifier: MIT */
/* Lamellae of a twin in their host, as a line of sight meets them.
 *
 * Along the normal of the twin plane stands one lamella in each pitch, its place and width drawn at
 * random. The planes are inclined to the face: a line of sight crosses some of them, and from place
 * to place more or less of it runs in lamellae. Refraction at the inclined planes, a few tenths of
 * a degree, is left out: each line of sight is a pile of plates.
 *
 * Brazil twins: composition planes parallel to r, {1 0 -1 1} of quartz, in the sectors under the
 * three r faces, none under the z faces (common practice, from memory; Acta Cryst. A gives z as the
 * composition plane, abstract seen, at the same inclination); c/a 1.1000: 51.79 degrees. */
#include "texture.h"

#include "base.h"

#include <math.h>

static const double QUARTZ_SLOPE = 0.785714286, QUARTZ_RISE = 0.618589574;
enum { PITCHES_MOST = 16, HOST_ALONE = IFIG_SLAB_SETS - 1 };

/* A stone may be so thick for its width that a line of sight would cross thousands. */
static double pitch_of(const IfigSlabs *slabs, double share)
{
    double wanted = share * 2.0 * slabs->half_width_mm;
    double least = slabs->rise * slabs->thickness_mm / PITCHES_MOST;
    return wanted > least ? wanted : least;
}

void ifig_slabs_ready(const IfigScene *scene, const IfigTexture *texture,
                      const double rotation[3][3], IfigSlabs *slabs)
{
    const IfigLayer *layer = &scene->layers[0];
    *slabs = (IfigSlabs){.seed = texture->seed,
                         .is_brazil = texture->pattern == IFIG_PATTERN_BRAZIL,
                         .half_width_mm = 0.5 * texture->width_mm,
                         .thickness_mm = layer->thickness_mm,
                         .stage = layer->orientation.stage_deg * IFIG_DEGREE};
    if (slabs->is_brazil) {
        slabs->slope = QUARTZ_SLOPE;
        slabs->rise = QUARTZ_RISE;
        slabs->pitch_mm = pitch_of(slabs, 0.12);
        slabs->least = 0.2;
        slabs->most = 0.8;
        return;
    }
    const double *normal = ifig_twin_normal(layer->species);
    double lab[3];
    for (int i = 0; i < 3; i++) {
        lab[i] =
            rotation[i][0] * normal[0] + rotation[i][1] * normal[1] + rotation[i][2] * normal[2];
    }
    double sign = lab[2] < 0.0 ? -1.0 : 1.0;
    slabs->across_x = sign * lab[0];
    slabs->across_y = sign * lab[1];
    slabs->rise = sign * lab[2];
    slabs->slope = hypot(lab[0], lab[1]);
    slabs->pitch_mm = pitch_of(slabs, 0.15);
    slabs->least = 0.03;
    slabs->most = 0.3;
}

/* The place's azimuth in the stone, in sixths of a turn from the middle of an r sector. */
static double sixths(const IfigSlabs *slabs, double x, double y)
{
    return (atan2(y, x) - slabs->stage - 0.5 * IFIG_PI) / (IFIG_PI / 3.0);
}

IfigSlabPlace ifig_slabs_place(const IfigSlabs *slabs, double x, double y)
{
    IfigSlabPlace place = {0, 0, slabs->across_x, slabs->across_y};
    if (slabs->is_brazil) {
        double nearest = floor(sixths(slabs, x, y) + 0.5);
        double azimuth = nearest * IFIG_PI / 3.0 + 0.5 * IFIG_PI + slabs->stage;
        int sector = (int)(nearest - 6.0 * floor(nearest / 6.0) + 0.5);
        place.set = sector % 2 == 0 ? (size_t)sector / 2 : HOST_ALONE;
        place.slope_x = slabs->slope * cos(azimuth);
        place.slope_y = slabs->slope * sin(azimuth);
    }
    place.along_mm = slabs->half_width_mm * (place.slope_x * x + place.slope_y * y);
    return place;
}

double ifig_slabs_margin(const IfigSlabs *slabs, double x, double y)
{
    if (!slabs->is_brazil) {
        return 10.0;
    }
    double sixth = sixths(slabs, x, y), edge = fabs(sixth - floor(sixth) - 0.5);
    return hypot(x, y) * sin(edge * IFIG_PI / 3.0);
}

/* The lamella of a pitch, along the normal. */
static void lamella(const IfigSlabs *slabs, size_t set, double pitch, double *from, double *to)
{
    uint64_t index = (uint64_t)(int64_t)pitch;
    double width = slabs->least + (slabs->most - slabs->least) *
                                      ifig_texture_draw(slabs->seed, 16 + 2 * set, index);
    double start = (1.0 - width) * ifig_texture_draw(slabs->seed, 17 + 2 * set, index);
    *from = (pitch + start) * slabs->pitch_mm;
    *to = (pitch + start + width) * slabs->pitch_mm;
}

static size_t add_slab(IfigSlab *slab, size_t count, int other, double thickness_mm)
{
    if (thickness_mm > 0.0 && count < IFIG_SLABS_MOST) {
        slab[count] = (IfigSlab){other, thickness_mm};
        return count + 1;
    }
    return count;
}

size_t ifig_slabs_at(const IfigSlabs *slabs, size_t set, double along_mm,
                     IfigSlab slab[IFIG_SLABS_MOST])
{
    if (set == HOST_ALONE) {
        return add_slab(slab, 0, 0, slabs->thickness_mm);
    }
    double rise = slabs->rise, end = along_mm + rise * slabs->thickness_mm, from, to;
    double first = floor(along_mm / slabs->pitch_mm), last = floor(end / slabs->pitch_mm);
    if (rise * slabs->thickness_mm < 1e-9 * slabs->pitch_mm) { /* planes along the line of sight */
        lamella(slabs, set, first, &from, &to);
        return add_slab(slab, 0, along_mm >= from && along_mm < to, slabs->thickness_mm);
    }
    double here = along_mm;
    size_t count = 0;
    for (double pitch = first; pitch <= last; pitch += 1.0) {
        lamella(slabs, set, pitch, &from, &to);
        from = fmin(fmax(from, here), end);
        to = fmin(fmax(to, from), end);
        count = add_slab(slab, count, 0, (from - here) / rise);
        count = add_slab(slab, count, 1, (to - from) / rise);
        here = to;
    }
    return add_slab(slab, count, 0, (end - here) / rise);
}
