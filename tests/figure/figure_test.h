/* SPDX-License-Identifier: MIT */
/* What the tests of rendered figures share: recipes, scenes, pictures and where an optic axis is
 * seen. */
#ifndef IFIG_FIGURE_TEST_H
#define IFIG_FIGURE_TEST_H

#include "../run_case.h"
#include "optics_test.h"

#include "figure.h"

/* A scene in one line. Numbers left out are 0 and stand for the usual. */
typedef struct Recipe {
    const char *key; /* a species of the catalogue; NULL: stone */
    double thickness_mm;
    IfigView view;
    double tilt_deg, tilt_azimuth_deg, stage_deg;
    double aperture;  /* of the objective; 0: the sphere */
    double field_deg; /* 0: as the instrument has it */
    double immersion; /* 0: air */
    double line_nm;   /* 0: the lamp */
    IfigLampKind lamp;
    int circular; /* 1: right-handed light on the stone, left-handed let out; 2: on the stone only
                   */
    int layers;   /* 0 or 1: one; 2: a right-handed on a left-handed; -2: left on right */
    double polars_deg; /* turn of both polars */
    const IfigSpecies *stone;
} Recipe;

/* A recipe laid out; a scene points into it, so it must not be moved. */
typedef struct Setup {
    IfigLayer layer[2];
    IfigLamp *lamp;
    IfigScene scene;
} Setup;

static inline void set_polars(const Recipe *recipe, IfigInstrument *instrument)
{
    instrument->polariser.azimuth_deg += recipe->polars_deg;
    instrument->analyser.azimuth_deg += recipe->polars_deg;
    if (recipe->circular) {
        instrument->polariser.kind = IFIG_POLAR_RIGHT;
    }
    if (recipe->circular == 1) {
        instrument->analyser.kind = IFIG_POLAR_LEFT;
    }
}

static inline void set_up(const Recipe *recipe, Setup *setup)
{
    IfigLayer layer = layer_of(recipe->key != NULL ? builtin(recipe->key) : recipe->stone,
                               recipe->view, recipe->thickness_mm);
    layer.orientation.tilt_deg = recipe->tilt_deg;
    layer.orientation.tilt_azimuth_deg = recipe->tilt_azimuth_deg;
    layer.orientation.stage_deg = recipe->stage_deg;
    *setup = (Setup){.layer = {layer, layer}, .scene = IFIG_SCENE_INIT};
    setup->layer[0].hand = recipe->layers == 2 ? IFIG_HAND_LEFT : IFIG_HAND_RIGHT;
    setup->layer[1].hand = recipe->layers == -2 ? IFIG_HAND_LEFT : IFIG_HAND_RIGHT;
    setup->scene.layers = setup->layer;
    setup->scene.layer_count = recipe->layers == 2 || recipe->layers == -2 ? 2 : 1;
    IfigInstrument *instrument = &setup->scene.instrument;
    if (recipe->aperture > 0) {
        instrument->lens = IFIG_LENS_OBJECTIVE;
        instrument->aperture = recipe->aperture;
    }
    instrument->field_deg = recipe->field_deg;
    instrument->immersion_index = recipe->immersion > 0 ? recipe->immersion : 1.0;
    set_polars(recipe, instrument);
    IfigStatus status = recipe->line_nm > 0
                            ? ifig_lamp_create_line(recipe->line_nm, &setup->lamp, NULL)
                            : ifig_lamp_create(recipe->lamp, &setup->lamp, NULL);
    ck_assert_int_eq(status, IFIG_OK);
    setup->scene.lamp = setup->lamp;
}

static inline void take_down(Setup *setup)
{
    ifig_lamp_free(setup->lamp);
}

static inline IfigFigure *figure_of(const IfigScene *scene, uint32_t size)
{
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigFigure *figure = NULL;
    IfigError error = IFIG_ERROR_INIT;
    options.pixels = size;
    ck_assert_msg(ifig_figure_create(scene, &options, &figure, &error) == IFIG_OK, "%s",
                  error.message);
    return figure;
}

/* All pixels in a format; free with free. */
static inline void *rendered(const IfigFigure *figure, uint32_t size, IfigPixelFormat format)
{
    IfigError error = IFIG_ERROR_INIT;
    void *pixels = calloc((size_t)size * size, ifig_pixel_bytes(format));
    ck_assert_ptr_nonnull(pixels);
    ck_assert_msg(ifig_figure_render(figure, format, 0, size, pixels, &error) == IFIG_OK, "%s",
                  error.message);
    return pixels;
}

/* A whole picture as XYZ, and the instrument it was seen through. */
typedef struct Picture {
    uint32_t size;
    float (*xyz)[3];
    IfigInstrument instrument;
} Picture;

static inline Picture picture_of(const Recipe *recipe, uint32_t size)
{
    Setup setup;
    set_up(recipe, &setup);
    IfigFigure *figure = figure_of(&setup.scene, size);
    Picture picture = {size, rendered(figure, size, IFIG_PIXELS_XYZ), setup.scene.instrument};
    ifig_figure_free(figure);
    take_down(&setup);
    return picture;
}

static inline const float *pixel_at(const Picture *picture, uint32_t column, uint32_t row)
{
    if (column >= picture->size || row >= picture->size) { /* an assertion writes at every call */
        ck_abort_msg("pixel (%u, %u) lies outside the picture", column, row);
    }
    return picture->xyz[(size_t)row * picture->size + column];
}

/* XYZ at a point of the disc, linear between the centres of pixels. */
static inline void colour_at(const Picture *picture, double x, double y, double xyz[3])
{
    double radius = 0.5 * picture->size;
    double across = (x + 1.0) * radius - 0.5, down = (1.0 - y) * radius - 0.5;
    double left = floor(across), top = floor(down);
    double a = across - left, b = down - top;
    uint32_t column = (uint32_t)left, row = (uint32_t)top;
    for (int i = 0; i < 3; i++) {
        xyz[i] = (1 - b) * ((1 - a) * (double)pixel_at(picture, column, row)[i] +
                            a * (double)pixel_at(picture, column + 1, row)[i]) +
                 b * ((1 - a) * (double)pixel_at(picture, column, row + 1)[i] +
                      a * (double)pixel_at(picture, column + 1, row + 1)[i]);
    }
}

/* Y at a point of the disc; under a single line this is the transmittance. */
static inline double light_at(const Picture *picture, double x, double y)
{
    double xyz[3];
    colour_at(picture, x, y, xyz);
    return xyz[1];
}

static inline double light_at_polar(const Picture *picture, double r, double azimuth_deg)
{
    return light_at(picture, r * cos(azimuth_deg * IFIG_DEGREE),
                    r * sin(azimuth_deg * IFIG_DEGREE));
}

/* Distance from the centre at which light of a given outside angle is seen. */
static inline double radius_of(const IfigInstrument *instrument, double theta_deg)
{
    double x = 0, y = 0;
    ck_assert_int_eq(ifig_instrument_position(instrument, theta_deg, 0, &x, &y, NULL), IFIG_OK);
    return x;
}

/* Where an optic axis of the first layer is seen: the axis is a wave normal of index n_beta, whose
 * tangential part is kept at the face. 0 where it does not leave the stone. */
static inline int melatope(const IfigScene *scene, int which, double wavelength_nm, double *x,
                           double *y)
{
    const IfigLayer *layer = &scene->layers[0];
    IfigOpticAxes axes;
    double rotation[3][3], normal[3], index = 0;
    ck_assert_int_eq(ifig_optic_axes(layer->species, wavelength_nm, &axes, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_orientation_matrix(layer->species, &layer->orientation, rotation, NULL),
                     IFIG_OK);
    if (which >= axes.count) {
        return 0;
    }
    for (int i = 0; i < 3; i++) {
        normal[i] = 0;
        for (int j = 0; j < 3; j++) {
            normal[i] += rotation[i][j] * axes.axis[which][j];
        }
    }
    index = axes.character == IFIG_UNIAXIAL && axes.optic_sign > 0 ? axes.n[0]
            : axes.character == IFIG_UNIAXIAL                      ? axes.n[2]
                                                                   : axes.n[1];
    double up = normal[2] < 0 ? -1.0 : 1.0;
    double sine = index * hypot(normal[0], normal[1]) / scene->instrument.immersion_index;
    double phi_deg = atan2(up * normal[1], up * normal[0]) / IFIG_DEGREE;
    return sine < 1.0 && ifig_instrument_position(&scene->instrument, asin(sine) / IFIG_DEGREE,
                                                  phi_deg, x, y, NULL) == IFIG_OK;
}

/* The most by which two pictures differ in X, Y or Z. */
static inline double largest_difference(const Picture *a, const Picture *b)
{
    double largest = 0;
    ck_assert_uint_eq(a->size, b->size);
    for (size_t p = 0; p < (size_t)a->size * a->size; p++) {
        for (int i = 0; i < 3; i++) {
            largest = fmax(largest, fabs((double)a->xyz[p][i] - (double)b->xyz[p][i]));
        }
    }
    return largest;
}

#endif
