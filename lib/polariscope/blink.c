/* SPDX-License-Identifier: MIT */
/* A stone through a whole turn between the polars, and the analyser opened. */
#include "blink.h"

#include "base.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { HALF = IFIG_BLINK_TURNS / 2 }; /* half a turn brings the same light back */

/* What slips between crossed sheets at the rim of the eye's cone is no more than this. */
static const double NO_LIGHT = 1e-7;

static IfigStatus check_scene(const IfigScene *scene, IfigError *error)
{
    if (scene == NULL || scene->size != sizeof *scene || scene->lamp == NULL ||
        scene->layers == NULL || scene->layer_count < 1) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the scene is NULL, has an unknown size, no layer or no lamp; start from "
                         "IFIG_SCENE_INIT");
    }
    IfigStatus status = ifig_instrument_check(&scene->instrument, error);
    if (status == IFIG_OK && scene->instrument.lens != IFIG_LENS_NONE) {
        return ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                         "a stone is turned in parallel light without a lens; take the lens off");
    }
    return status;
}

/* What is to be seen on the face, checked; plain stacks are checked as layers. */
static IfigStatus settle_texture(const IfigScene *scene, const IfigTexture *given,
                                 IfigTexture *texture, IfigError *error)
{
    const IfigSpecies *species = scene->layers[0].species;
    *texture = given != NULL ? *given : (IfigTexture)IFIG_TEXTURE_INIT;
    IfigStatus status = ifig_texture_check(texture, species, error);
    if (status != IFIG_OK) {
        return status;
    }
    texture->pattern = ifig_pattern_of(texture, species);
    if (texture->pattern == IFIG_PATTERN_PLAIN) {
        return ifig_check_layers(scene->layers, scene->layer_count, error);
    }
    if (scene->layer_count > 1) {
        return ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                         "a pattern runs through one layer, not through %zu; leave it plain",
                         scene->layer_count);
    }
    return IFIG_OK;
}

/* Brightness of the whole at every degree, and of its places as dark or light. */
static void measure_turn(const IfigParallel *parallel, IfigBlink *blink, IfigTurn *turn)
{
    for (int degree = 0; degree < HALF; degree++) {
        const IfigStand crossed = {degree, 0.0};
        IfigInstrument open = parallel->instrument;
        open.analyser = open.polariser;
        open.plate.material = IFIG_PLATE_NONE;
        IfigParallel parallel_polars = *parallel;
        parallel_polars.instrument = open;
        double sum = 0, total = 0, dark = 0;
        for (size_t i = 0; i < parallel->beam_count; i++) {
            double share = parallel->beam[i].share;
            double own = ifig_beam_brightness(parallel, i, crossed);
            double through = ifig_beam_brightness(&parallel_polars, i, crossed);
            sum += share * own;
            total += share * through;
            dark += own <= IFIG_DARK_SHARE * through ? share : 0.0;
        }
        blink->brightness[degree] = blink->brightness[degree + HALF] = sum;
        if (!parallel->has_places) {
            dark = sum <= IFIG_DARK_SHARE * total ? 1.0 : 0.0;
        }
        turn->dark_share[degree] = turn->dark_share[degree + HALF] = dark;
    }
}

/* The extreme of the parabola through the value at a degree and its neighbours. */
static void refine(const IfigBlink *blink, int degree, double *at_deg, double *value)
{
    const int count = IFIG_BLINK_TURNS;
    double left = blink->brightness[(degree + count - 1) % count];
    double here = blink->brightness[degree];
    double right = blink->brightness[(degree + 1) % count];
    double bend = left - 2.0 * here + right, slope = 0.5 * (right - left);
    double shift = bend != 0.0 ? -slope / bend : 0.0;
    shift = shift > -1.0 && shift < 1.0 ? shift : 0.0;
    *at_deg = fmod(degree + shift + count, count);
    *value = fmax(0.0, here + 0.5 * slope * shift);
}

static void measure_extremes(IfigBlink *blink)
{
    int least = 0, most = 0;
    double sum = 0;
    for (int degree = 0; degree < IFIG_BLINK_TURNS; degree++) {
        least = blink->brightness[degree] < blink->brightness[least] ? degree : least;
        most = blink->brightness[degree] > blink->brightness[most] ? degree : most;
        sum += blink->brightness[degree];
    }
    refine(blink, least, &blink->darkest_deg, &blink->least);
    refine(blink, most, &blink->brightest_deg, &blink->most);
    blink->mean = sum / IFIG_BLINK_TURNS;
    double both = blink->most + blink->least;
    blink->contrast = both > NO_LIGHT ? (blink->most - blink->least) / both : 0.0;
}

/* Open the analyser toward the polariser, the shorter way round. Circular polars have no azimuth:
 * there is nothing to open. */
static void measure_opening(const IfigParallel *parallel, IfigBlink *blink)
{
    const IfigInstrument *instrument = &parallel->instrument;
    double away =
        remainder(instrument->polariser.azimuth_deg - instrument->analyser.azimuth_deg, 180.0);
    const int can_open = instrument->polariser.kind == IFIG_POLAR_LINEAR &&
                         instrument->analyser.kind == IFIG_POLAR_LINEAR;
    for (int degree = 0; degree < IFIG_BLINK_OPENED; degree++) {
        double xyz[3];
        IfigStand stand = {blink->brightest_deg, away < 0.0 ? -degree : degree};
        ifig_parallel_light(parallel, stand, xyz);
        blink->opened[degree] = can_open ? fmax(0.0, xyz[1]) : (double)NAN;
    }
    blink->opened_over_crossed = blink->opened[0] > NO_LIGHT
                                     ? blink->opened[IFIG_BLINK_OPENED - 1] / blink->opened[0]
                                     : (double)NAN;
}

static void measure_colours(const IfigParallel *parallel, const IfigLamp *lamp, IfigBlink *blink)
{
    for (int i = 0; i < IFIG_BLINK_COLOURS; i++) {
        IfigStand stand = {360.0 * i / IFIG_BLINK_COLOURS, 0.0};
        double xyz[3], rgb[3];
        ifig_parallel_light(parallel, stand, xyz);
        ifig_colour_linear(lamp, xyz, 0.0, rgb);
        ifig_colour_into_gamut(rgb);
        for (int channel = 0; channel < 3; channel++) {
            blink->colour_srgb[i][channel] = ifig_srgb_encode(rgb[channel]);
        }
    }
}

IfigStatus ifig_blink(const IfigScene *scene, const IfigTexture *texture, IfigBlink *blink,
                      IfigError *error)
{
    if (blink == NULL || blink->size != sizeof *blink) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_blink: the result is NULL or has an unknown size; start from "
                         "IFIG_BLINK_INIT");
    }
    IfigTexture settled;
    IfigParallel parallel = {.beam = NULL};
    IfigTurn turn = {.pattern = IFIG_PATTERN_PLAIN};
    *blink = (IfigBlink)IFIG_BLINK_INIT;
    IfigStatus status = check_scene(scene, error);
    if (status == IFIG_OK) {
        status = settle_texture(scene, texture, &settled, error);
    }
    if (status == IFIG_OK) {
        turn.pattern = settled.pattern;
        status = settled.pattern == IFIG_PATTERN_PLAIN
                     ? ifig_parallel_cone(scene, &parallel, error)
                     : ifig_parallel_places(scene, &settled, &parallel, error);
    }
    if (status == IFIG_OK) {
        measure_turn(&parallel, blink, &turn);
        measure_extremes(blink);
        measure_opening(&parallel, blink);
        measure_colours(&parallel, scene->lamp, blink);
        status = ifig_blink_judge(scene, &settled, &turn, blink, error);
    }
    ifig_parallel_free(&parallel);
    return status;
}
