/* SPDX-License-Identifier: MIT */
/* The picture of a stone's face. */
#include "face.h"

#include "base.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Retardation, nm, that may change within a pixel before finer samples are taken, and the finest.
 */
static const double STILL_NM = 60.0;
enum { FINEST = 8, PROBES = 96 };

/* The stress at a place of the picture, summed along the line of sight, at the scene's stage. */
static IfigStressSum stress_at(const IfigFace *face, double x, double y)
{
    const double *turn = face->turn;
    double u = turn[0] * x + turn[1] * y, v = turn[0] * y - turn[1] * x;
    IfigStressSum sum = ifig_stress_sum(&face->field, u, v);
    double difference = sum.difference + face->even.difference;
    double shear = sum.shear + face->even.shear;
    double cosine = turn[0] * turn[0] - turn[1] * turn[1], sine = 2.0 * turn[0] * turn[1];
    return (IfigStressSum){difference * cosine - shear * sine, difference * sine + shear * cosine};
}

/* The greatest stress on the face, and the greatest change of it across a pixel, summed. */
static void look_over(const IfigFace *face, double side, double *greatest, double *change)
{
    double step = 2.0 / PROBES, most = 0, steepest = 0;
    for (int j = 0; j <= PROBES; j++) {
        IfigStressSum before = {0, 0};
        for (int i = 0; i <= PROBES; i++) {
            IfigStressSum here = stress_at(face, i * step - 1.0, j * step - 1.0);
            double slope =
                hypot(here.difference - before.difference, here.shear - before.shear) / step;
            most = fmax(most, hypot(here.difference, here.shear));
            steepest = i > 0 ? fmax(steepest, slope) : steepest;
            before = here;
        }
    }
    /* Between the probes the stress may be a little greater, and at the rim's pixels too. */
    *greatest = 1.25 * most;
    *change = 1.5 * steepest * side;
}

static IfigStatus ready_strain(const IfigScene *scene, const IfigTexture *texture, IfigFace *face,
                               IfigError *error)
{
    const IfigLayer *layer = &scene->layers[0];
    double twice = 2.0 * layer->stress_azimuth_deg * IFIG_DEGREE, greatest, change;
    double even = layer->stress_mpa * layer->thickness_mm;
    face->even = (IfigStressSum){even * cos(twice), even * sin(twice)};
    IfigStatus status = ifig_stress_field(texture, layer->thickness_mm, &face->field, error);
    if (status != IFIG_OK) {
        return status;
    }
    look_over(face, 2.0 / face->raster.pixels, &greatest, &change);
    double nm = change * fabs(ifig_species_stress_optic_per_tpa(layer->species));
    double finer = ceil(nm / STILL_NM);
    face->finer = finer < 1 ? 1 : finer > FINEST ? FINEST : (uint32_t)finer;
    return ifig_strain_light_create(scene, greatest, &face->strain, error);
}

static IfigStatus ready_plain(const IfigScene *scene, IfigFace *face, IfigError *error)
{
    IfigProbe probe;
    IfigStatus status = ifig_probe(scene, 0, 0, 0, &probe, error);
    memcpy(face->plain, probe.xyz, sizeof face->plain);
    return status;
}

static IfigStatus make_ready(const IfigScene *scene, const IfigTexture *texture,
                             const IfigFigureOptions *options, IfigFace *face, IfigError *error)
{
    double stage = scene->layers[0].orientation.stage_deg * IFIG_DEGREE;
    IfigStatus status = ifig_raster_create(options, scene->lamp, &face->raster, error);
    if (status != IFIG_OK) {
        return status;
    }
    face->pattern = texture->pattern;
    face->turn[0] = cos(stage);
    face->turn[1] = sin(stage);
    switch (face->pattern) {
    case IFIG_PATTERN_BANDS:
    case IFIG_PATTERN_CROSS_HATCH:
    case IFIG_PATTERN_SNAKE:
    case IFIG_PATTERN_INCLUSION:
        return ready_strain(scene, texture, face, error);
    case IFIG_PATTERN_TWINS:
    case IFIG_PATTERN_BRAZIL:
        return ifig_strips_create(scene, texture, options->pixels, &face->strips, error);
    case IFIG_PATTERN_GRAINS:
        return ifig_columns_create(scene, texture, &face->columns, error);
    case IFIG_PATTERN_USUAL:
    case IFIG_PATTERN_PLAIN:
        break;
    }
    return ready_plain(scene, face, error);
}

IfigStatus ifig_face_create(const IfigScene *scene, const IfigTexture *texture,
                            const IfigFigureOptions *options, IfigFace **face, IfigError *error)
{
    if (face == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "ifig_face_create: face is NULL");
    }
    *face = NULL;
    IfigStatus status = ifig_face_check(scene, texture, error);
    if (status != IFIG_OK) {
        return status;
    }
    IfigFace *made = calloc(1, sizeof *made);
    if (made == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for a face");
    }
    IfigTexture own = IFIG_TEXTURE_INIT;
    own = texture != NULL ? *texture : own;
    own.pattern = ifig_pattern_of(texture, scene->layers[0].species);
    status = make_ready(scene, &own, options, made, error);
    if (status != IFIG_OK) {
        ifig_face_free(made);
        return status;
    }
    *face = made;
    return IFIG_OK;
}

void ifig_face_free(IfigFace *face)
{
    if (face != NULL) {
        free(face->strain.term);
        ifig_strips_free(&face->strips);
        free(face->columns.xyz);
        free(face);
    }
}

static void strained_light(const IfigFace *face, double x, double y, double side, double xyz[3])
{
    uint32_t finer = face->finer;
    double each = 1.0 / (finer * finer);
    memset(xyz, 0, 3 * sizeof *xyz);
    for (uint32_t i = 0; i < finer * finer; i++) {
        double part[3], right = ((i % finer + 0.5) / finer - 0.5) * side;
        double up = ((i / finer + 0.5) / finer - 0.5) * side;
        ifig_strain_light(&face->strain, stress_at(face, x + right, y + up), part);
        for (int c = 0; c < 3; c++) {
            xyz[c] += each * part[c];
        }
    }
}

static void pixel_light(const IfigFace *face, double x, double y, double side, double xyz[3])
{
    switch (face->pattern) {
    case IFIG_PATTERN_BANDS:
    case IFIG_PATTERN_CROSS_HATCH:
    case IFIG_PATTERN_SNAKE:
    case IFIG_PATTERN_INCLUSION:
        strained_light(face, x, y, side, xyz);
        return;
    case IFIG_PATTERN_TWINS:
    case IFIG_PATTERN_BRAZIL:
        ifig_strips_light(&face->strips, x, y, side, xyz);
        return;
    case IFIG_PATTERN_GRAINS:
        ifig_columns_light(&face->columns, x, y, side, face->turn, xyz);
        return;
    case IFIG_PATTERN_USUAL:
    case IFIG_PATTERN_PLAIN:
        break;
    }
    memcpy(xyz, face->plain, sizeof face->plain);
}

static IfigStatus open_tile(const void *picture, void **work, IfigError *error)
{
    (void)picture;
    *work = calloc(IFIG_TILE_MAX, sizeof(IfigLightRow));
    return *work != NULL ? IFIG_OK
                         : ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for a tile of the face");
}

static const IfigLightRow *render_tile(const void *picture, uint32_t left, uint32_t top,
                                       uint32_t side, void *work)
{
    IfigLightRow *tile = work;
    const IfigFace *face = picture;
    double radius = 0.5 * face->raster.pixels, pixel = 1.0 / radius;
    double rim = (radius + 1.0) * (radius + 1.0);
    for (uint32_t row = 0; row < side; row++) {
        double y = radius - (top + row) - 0.5;
        for (uint32_t column = 0; column < side; column++) {
            double x = left + column + 0.5 - radius;
            double xyz[3] = {0, 0, 0};
            if (x * x + y * y <= rim) {
                pixel_light(face, x * pixel, y * pixel, pixel, xyz);
            }
            for (size_t i = 0; i < 3; i++) {
                tile[row].xyz[i][column] = (float)xyz[i];
            }
        }
    }
    return tile;
}

IfigStatus ifig_face_render_rectangle(const IfigFace *face, IfigPixelFormat format,
                                      const IfigRectangle *rectangle, void *pixels,
                                      IfigError *error)
{
    if (face == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "rendering: the face is NULL");
    }
    const IfigTileSource source = {
        .picture = face, .open = open_tile, .render = render_tile, .close = free};
    return ifig_raster_render(&face->raster, &source, format, rectangle, pixels, error);
}

IfigStatus ifig_face_render(const IfigFace *face, IfigPixelFormat format, uint32_t first_row,
                            uint32_t row_count, void *pixels, IfigError *error)
{
    const IfigRectangle rows =
        face != NULL ? ifig_raster_rows(&face->raster, first_row, row_count) : (IfigRectangle){0};
    return ifig_face_render_rectangle(face, format, &rows, pixels, error);
}
