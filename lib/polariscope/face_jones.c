/* SPDX-License-Identifier: MIT */
/* What a face lets through at one place, wavelength by wavelength: the definition that the picture
 * is held to. */
#include "texture.h"

#include "base.h"

#include <math.h>
#include <string.h>

/* Brazil twins are seen along the optic axis; a little off it, the rotation drowns in the
 * birefringence. */
static const double BRAZIL_LEAN_DEG = 10.0;

static IfigStatus check_aggregate(const IfigLayer *layer, IfigError *error)
{
    if (layer->size != sizeof *layer) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the layer has an unknown size; start from IFIG_LAYER_INIT");
    }
    IfigStatus status = ifig_check_range("thickness", layer->thickness_mm, 0.001, 100, "mm", error);
    if (status == IFIG_OK && (layer->stress_mpa != 0.0 || layer->body_colour != 0)) {
        status = ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                           "grains are computed colourless and without stress; leave body colour "
                           "and stress out");
    }
    return status;
}

static IfigStatus check_view(const IfigLayer *layer, IfigError *error)
{
    double rotation[3][3];
    IfigStatus status =
        ifig_orientation_matrix(layer->species, &layer->orientation, rotation, error);
    double lean = acos(fmin(1.0, fabs(rotation[2][2]))) / IFIG_DEGREE;
    if (status == IFIG_OK && lean > BRAZIL_LEAN_DEG) {
        status =
            ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                      "Brazil twins are seen along the optic axis, and it leans %s degrees; "
                      "choose the view along c and at most %s degrees of tilt",
                      ifig_number_text(lean, 3).text, ifig_number_text(BRAZIL_LEAN_DEG, 3).text);
    }
    return status;
}

static IfigStatus check_scene(const IfigScene *scene, IfigError *error)
{
    if (scene == NULL || scene->size != sizeof *scene || scene->lamp == NULL ||
        scene->layers == NULL || scene->layer_count < 1) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the scene is NULL, has an unknown size, no lamp or no layer; start from "
                         "IFIG_SCENE_INIT");
    }
    IfigStatus status = ifig_instrument_check(&scene->instrument, error);
    if (status == IFIG_OK && scene->instrument.lens != IFIG_LENS_NONE) {
        status = ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                           "a stone's face is seen without a lens; take the lens away");
    }
    return status;
}

IfigStatus ifig_face_check(const IfigScene *scene, const IfigTexture *texture, IfigError *error)
{
    IfigStatus status = check_scene(scene, error);
    if (status == IFIG_OK) {
        status = ifig_texture_check(texture, scene->layers[0].species, error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    IfigPattern pattern = ifig_pattern_of(texture, scene->layers[0].species);
    if (pattern != IFIG_PATTERN_PLAIN && scene->layer_count != 1) {
        return ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                         "a pattern runs through one layer, not %zu; take the others away",
                         scene->layer_count);
    }
    status = pattern == IFIG_PATTERN_GRAINS
                 ? check_aggregate(&scene->layers[0], error)
                 : ifig_check_layers(scene->layers, scene->layer_count, error);
    return status == IFIG_OK && pattern == IFIG_PATTERN_BRAZIL
               ? check_view(&scene->layers[0], error)
               : status;
}

/* Turn a place of the lab back to stage 0. */
static void unturned(const IfigScene *scene, double x, double y, double place[2])
{
    double stage = scene->layers[0].orientation.stage_deg * IFIG_DEGREE;
    place[0] = cos(stage) * x + sin(stage) * y;
    place[1] = cos(stage) * y - sin(stage) * x;
}

/* The layer with the stress of a place, its own even one included, as one stress along one
 * azimuth. */
static IfigStatus strained_layer(const IfigScene *scene, const IfigTexture *texture, double x,
                                 double y, IfigLayer *layer, IfigError *error)
{
    IfigStressField field;
    *layer = scene->layers[0];
    IfigStatus status = ifig_stress_field(texture, layer->thickness_mm, &field, error);
    if (status == IFIG_OK) {
        double place[2], twice = 2.0 * layer->stress_azimuth_deg * IFIG_DEGREE;
        unturned(scene, x, y, place);
        IfigStressSum sum = ifig_stress_sum(&field, place[0], place[1]);
        double difference = sum.difference / layer->thickness_mm + layer->stress_mpa * cos(twice);
        double shear = sum.shear / layer->thickness_mm + layer->stress_mpa * sin(twice);
        layer->stress_mpa = hypot(difference, shear);
        layer->stress_azimuth_deg = 0.5 * atan2(shear, difference) / IFIG_DEGREE;
    }
    return status;
}

IfigStatus ifig_twin_rotations(const IfigScene *scene, int is_brazil, double rotation[2][3][3],
                               IfigError *error)
{
    const IfigLayer *layer = &scene->layers[0];
    IfigStatus status =
        ifig_orientation_matrix(layer->species, &layer->orientation, rotation[0], error);
    memcpy(rotation[1], rotation[0], sizeof rotation[0]);
    const double *normal = ifig_twin_normal(layer->species);
    if (status == IFIG_OK && !is_brazil && normal != NULL) {
        /* To a tensor, the mirror image in a plane is a half turn about its normal. */
        double turn[3][3];
        ifig_turn_about(normal, IFIG_PI, turn);
        ifig_matrix3_multiply(rotation[0], turn, rotation[1]);
    }
    return status;
}

static void pass_both(const IfigPile *pile, const IfigSlab *slab, size_t count, IfigJonesXy *jones)
{
    for (int column = 0; column < 2; column++) {
        double complex field[2] = {column == 0, column == 1};
        ifig_pile_pass(pile, slab, count, field);
        jones->m[0][column] = field[0];
        jones->m[1][column] = field[1];
    }
}

/* What stands at a place, as slabs of up to two media. */
typedef struct Place {
    IfigLayer layer;
    double rotation[2][3][3];
    int is_brazil;
    size_t count;
    IfigSlab slab[IFIG_SLABS_MOST];
} Place;

static IfigStatus strained_place(const IfigScene *scene, const IfigTexture *texture, double x,
                                 double y, Place *place, IfigError *error)
{
    IfigStatus status = strained_layer(scene, texture, x, y, &place->layer, error);
    if (status == IFIG_OK) {
        status = ifig_twin_rotations(scene, 1, place->rotation, error);
    }
    place->slab[0] = (IfigSlab){0, place->layer.thickness_mm};
    place->count = 1;
    return status;
}

static IfigStatus slab_place(const IfigScene *scene, const IfigTexture *texture, double x, double y,
                             Place *place, IfigError *error)
{
    IfigSlabs slabs;
    place->layer = scene->layers[0];
    place->is_brazil = texture->pattern == IFIG_PATTERN_BRAZIL;
    IfigStatus status = ifig_twin_rotations(scene, place->is_brazil, place->rotation, error);
    if (status == IFIG_OK) {
        ifig_slabs_ready(scene, texture, (const double(*)[3])place->rotation[0], &slabs);
        IfigSlabPlace here = ifig_slabs_place(&slabs, x, y);
        place->count = ifig_slabs_at(&slabs, here.set, here.along_mm, place->slab);
    }
    return status;
}

static IfigStatus place_jones(const IfigScene *scene, Place *place, const double *wavelength_nm,
                              size_t count, IfigJonesXy *jones, IfigError *error)
{
    IfigStatus status = IFIG_OK;
    for (size_t k = 0; status == IFIG_OK && k < count; k++) {
        IfigPile pile;
        status = ifig_pile_ready(&place->layer, place->rotation, place->is_brazil,
                                 scene->instrument.immersion_index, wavelength_nm[k], &pile, error);
        if (status == IFIG_OK) {
            pass_both(&pile, place->slab, place->count, &jones[k]);
        }
    }
    return status;
}

static IfigStatus plain_jones(const IfigScene *scene, const double *wavelength_nm, size_t count,
                              IfigJonesXy *jones, IfigError *error)
{
    IfigStatus status = IFIG_OK;
    for (size_t k = 0; status == IFIG_OK && k < count; k++) {
        IfigPlateWave wave;
        status =
            ifig_plate_wave(scene->layers, scene->layer_count, scene->instrument.immersion_index,
                            wavelength_nm[k], 0, 0, &wave, error);
        for (int i = 0; status == IFIG_OK && i < 4; i++) {
            IfigComplex element = wave.jones.element[i / 2][i % 2];
            jones[k].m[i / 2][i % 2] = element.re + I * element.im;
        }
    }
    return status;
}

/* R m R^-1. */
void ifig_turn_jones(double angle, size_t count, IfigJonesXy *jones)
{
    double c = cos(angle), s = sin(angle);
    for (size_t k = 0; k < count; k++) {
        double complex(*m)[2] = jones[k].m;
        double complex sum = 0.5 * (m[0][0] + m[1][1]), spin = 0.5 * (m[0][1] - m[1][0]);
        double complex along = 0.5 * (m[0][0] - m[1][1]), between = 0.5 * (m[0][1] + m[1][0]);
        double cosine = c * c - s * s, sine = 2.0 * c * s;
        double complex turned = along * cosine - between * sine;
        between = along * sine + between * cosine;
        jones[k] = (IfigJonesXy){{{sum + turned, between + spin}, {between - spin, sum - turned}}};
    }
}

static IfigStatus grain_jones(const IfigScene *scene, const IfigTexture *texture, double x,
                              double y, const double *wavelength_nm, size_t count,
                              IfigJonesXy *jones, IfigError *error)
{
    double place[2], stage = scene->layers[0].orientation.stage_deg * IFIG_DEGREE;
    IfigGrainCells grains;
    IfigStatus status = ifig_grain_cells_ready(scene, texture, &grains, error);
    if (status != IFIG_OK) {
        return status;
    }
    unturned(scene, x, y, place);
    unsigned column = ifig_grain_column(&grains, place[0], place[1]);
    status = ifig_grain_stack(scene, texture, column / IFIG_GRAIN_TURNS, wavelength_nm, count,
                              jones, error);
    if (status == IFIG_OK) {
        double own = column % IFIG_GRAIN_TURNS * IFIG_PI / IFIG_GRAIN_TURNS;
        ifig_turn_jones(stage + own, count, jones);
    }
    return status;
}

IfigStatus ifig_face_jones(const IfigScene *scene, const IfigTexture *texture, double x, double y,
                           const double *wavelength_nm, size_t count, IfigJonesXy *jones,
                           IfigError *error)
{
    IfigTexture usual = IFIG_TEXTURE_INIT;
    Place place = {.is_brazil = 0};
    IfigStatus status = ifig_face_check(scene, texture, error);
    if (status != IFIG_OK) {
        return status;
    }
    usual = texture != NULL ? *texture : usual;
    usual.pattern = ifig_pattern_of(texture, scene->layers[0].species);
    switch (usual.pattern) {
    case IFIG_PATTERN_USUAL:
    case IFIG_PATTERN_PLAIN:
        return plain_jones(scene, wavelength_nm, count, jones, error);
    case IFIG_PATTERN_BANDS:
    case IFIG_PATTERN_CROSS_HATCH:
    case IFIG_PATTERN_SNAKE:
    case IFIG_PATTERN_INCLUSION:
        status = strained_place(scene, &usual, x, y, &place, error);
        break;
    case IFIG_PATTERN_TWINS:
    case IFIG_PATTERN_BRAZIL:
        status = slab_place(scene, &usual, x, y, &place, error);
        break;
    case IFIG_PATTERN_GRAINS:
        return grain_jones(scene, &usual, x, y, wavelength_nm, count, jones, error);
    }
    return status == IFIG_OK ? place_jones(scene, &place, wavelength_nm, count, jones, error)
                             : status;
}
