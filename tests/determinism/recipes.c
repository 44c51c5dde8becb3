/* SPDX-License-Identifier: MIT */
#include "recipes.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* splitmix64 (Steele, Lea & Flood, OOPSLA 2014). */
static uint64_t bits(uint64_t *state)
{
    uint64_t z = *state += 0x9e3779b97f4a7c15u;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return z ^ (z >> 31);
}

static double between(uint64_t *state, double low, double high)
{
    return low + (high - low) * (double)(bits(state) >> 11) * 0x1p-53;
}

static int among(uint64_t *state, int count)
{
    return (int)(bits(state) % (unsigned)count);
}

static void give_up(const char *what)
{
    fprintf(stderr, "%s\n", what);
    abort();
}

IfigCatalogue *open_catalogue(void)
{
    IfigCatalogue *catalogue = NULL;
    if (ifig_catalogue_create(&catalogue, NULL) != IFIG_OK) {
        give_up("no catalogue");
    }
    return catalogue;
}

static const IfigSpecies *draw_species(const IfigCatalogue *catalogue, uint64_t *state, int is_face)
{
    for (;;) {
        IfigSpeciesFacts facts;
        const size_t index = bits(state) % ifig_catalogue_count(catalogue);
        const IfigSpecies *species = ifig_catalogue_at(catalogue, index);
        if (ifig_species_facts(species, &facts, NULL) != IFIG_OK) {
            give_up("a species without facts");
        }
        if (!facts.is_opaque && (is_face || facts.character != IFIG_AGGREGATE)) {
            return species;
        }
    }
}

static void draw_layer(const IfigCatalogue *catalogue, uint64_t *state, int is_face,
                       IfigLayer *layer)
{
    *layer = (IfigLayer)IFIG_LAYER_INIT;
    layer->species = draw_species(catalogue, state, is_face);
    layer->hand = among(state, 2) ? IFIG_HAND_LEFT : IFIG_HAND_RIGHT;
    layer->thickness_mm = among(state, 6) ? between(state, 0.02, 4) : between(state, 4, 30);
    layer->orientation.view = (IfigView)among(state, (int)IFIG_VIEW_Z + 1);
    layer->orientation.tilt_deg = among(state, 2) ? between(state, -60, 60) : 0;
    layer->orientation.tilt_azimuth_deg = between(state, -180, 180);
    layer->orientation.stage_deg = between(state, -180, 180);
    const int colours = ifig_species_colour_count(layer->species);
    layer->body_colour = colours > 0 && among(state, 2) ? 1 + among(state, colours) : 0;
    const double stress_optic = ifig_species_stress_optic_per_tpa(layer->species);
    if (stress_optic == stress_optic && among(state, 4) == 0) {
        layer->stress_mpa = between(state, -50, 50);
        layer->stress_azimuth_deg = between(state, -90, 90);
    }
}

static void draw_instrument(uint64_t *state, int is_face, IfigInstrument *instrument)
{
    instrument->lens = is_face           ? IFIG_LENS_NONE
                       : among(state, 2) ? IFIG_LENS_SPHERE
                                         : IFIG_LENS_OBJECTIVE;
    instrument->immersion_index = among(state, 3) ? 1.0 : between(state, 1, 1.3);
    instrument->aperture = between(state, 0.2, 0.95);
    instrument->field_deg = among(state, 2) ? between(state, 2, 12) : 0;
    instrument->polariser.kind = (IfigPolarKind)(among(state, 4) ? 0 : among(state, 3));
    instrument->analyser.kind = (IfigPolarKind)(among(state, 4) ? 0 : among(state, 3));
    instrument->polariser.azimuth_deg = between(state, -90, 90);
    instrument->analyser.azimuth_deg =
        among(state, 3) ? instrument->polariser.azimuth_deg + 90 : between(state, -90, 90);
    if (among(state, 3) == 0) {
        instrument->plate.material = (IfigPlateMaterial)(1 + among(state, 3));
        instrument->plate.retardation_nm = between(state, 100, 2000);
        instrument->plate.slow_azimuth_deg = among(state, 2) ? 45 : between(state, -90, 90);
    }
}

static IfigStatus draw_lamp(uint64_t *state, IfigLamp **lamp)
{
    const int kind = among(state, 8);
    return kind >= 4 ? ifig_lamp_create_line(between(state, 400, 700), lamp, NULL)
                     : ifig_lamp_create((IfigLampKind)kind, lamp, NULL);
}

static IfigStatus try_recipe(const Recipe *recipe)
{
    IfigFigure *figure = NULL;
    IfigFace *face = NULL;
    const IfigStatus status =
        recipe->is_face
            ? ifig_face_create(&recipe->scene, &recipe->texture, &recipe->options, &face, NULL)
            : ifig_figure_create(&recipe->scene, &recipe->options, &figure, NULL);
    ifig_figure_free(figure);
    ifig_face_free(face);
    return status;
}

static IfigStatus draw_once(const IfigCatalogue *catalogue, uint64_t *state, Recipe *recipe)
{
    *recipe = (Recipe){.scene = IFIG_SCENE_INIT,
                       .options = IFIG_FIGURE_OPTIONS_INIT,
                       .texture = IFIG_TEXTURE_INIT};
    if (draw_lamp(state, &recipe->lamp) != IFIG_OK) {
        give_up("no lamp");
    }
    recipe->scene.lamp = recipe->lamp;
    recipe->is_face = among(state, 3) == 0;
    recipe->scene.layers = recipe->layers;
    const int is_line = ifig_lamp_line_nm(recipe->lamp) > 0; /* which is quick */
    recipe->scene.layer_count = among(state, 3) ? 1 : is_line ? 3 : 2;
    for (size_t i = 0; i < recipe->scene.layer_count; i++) {
        draw_layer(catalogue, state, recipe->is_face, &recipe->layers[i]);
    }
    draw_instrument(state, recipe->is_face, &recipe->scene.instrument);
    recipe->texture.pattern = (IfigPattern)among(state, (int)IFIG_PATTERN_GRAINS + 1);
    recipe->texture.stress_mpa = between(state, 1, 60);
    recipe->texture.seed = (unsigned)among(state, 1000);
    recipe->format = (IfigPixelFormat)among(state, 3);
    /* Stacks in white light cost most; from 9 pixels on there are four tiles. */
    recipe->options.pixels = (uint32_t)(is_line ? 17 + among(state, RECIPE_PIXELS_MOST - 16)
                                        : recipe->scene.layer_count > 1 ? 8 + among(state, 4)
                                                                        : 17 + among(state, 12));
    recipe->options.exposure_stops = recipe->is_face ? between(state, 0, 4) : 0;
    return try_recipe(recipe);
}

void recipe_draw(const IfigCatalogue *catalogue, uint64_t seed, unsigned number, Recipe *recipe)
{
    uint64_t state = seed * 1000003u + number;
    for (int attempt = 0; attempt < 1000; attempt++) {
        if (draw_once(catalogue, &state, recipe) == IFIG_OK) {
            return;
        }
        recipe_free(recipe); /* a view that the stone has not, a field too wide: draw again */
    }
    give_up("no recipe that can be rendered");
}

void recipe_free(Recipe *recipe)
{
    ifig_lamp_free(recipe->lamp);
    recipe->lamp = NULL;
}

void recipe_quicken(Recipe *recipe)
{
    recipe_free(recipe);
    if (ifig_lamp_create_line(589.3, &recipe->lamp, NULL) != IFIG_OK) {
        give_up("no lamp");
    }
    recipe->scene.lamp = recipe->lamp;
    recipe->options.pixels = 17;
}

static size_t pixel_bytes(const Recipe *recipe)
{
    return recipe->format == IFIG_PIXELS_SRGB8    ? 3
           : recipe->format == IFIG_PIXELS_SRGB16 ? 6
                                                  : 3 * sizeof(float);
}

size_t recipe_bytes(const Recipe *recipe)
{
    return pixel_bytes(recipe) * recipe->options.pixels * recipe->options.pixels;
}

IfigStatus recipe_render(const Recipe *recipe, int threads, uint32_t rows, void *pixels)
{
    IfigFigureOptions options = recipe->options;
    IfigFigure *figure = NULL;
    IfigFace *face = NULL;
    unsigned char *at = pixels;
    options.threads = threads;
    IfigStatus status =
        recipe->is_face ? ifig_face_create(&recipe->scene, &recipe->texture, &options, &face, NULL)
                        : ifig_figure_create(&recipe->scene, &options, &figure, NULL);
    for (uint32_t first = 0; first < options.pixels && status == IFIG_OK;) {
        const uint32_t left = options.pixels - first;
        const uint32_t count = rows == 0 || rows > left ? left : rows;
        status = recipe->is_face
                     ? ifig_face_render(face, recipe->format, first, count, at, NULL)
                     : ifig_figure_render(figure, recipe->format, first, count, at, NULL);
        at += pixel_bytes(recipe) * options.pixels * count;
        first += count;
    }
    ifig_figure_free(figure);
    ifig_face_free(face);
    return status;
}

uint64_t hash_bytes(uint64_t hash, const void *bytes, size_t count)
{
    const unsigned char *at = bytes;
    for (size_t i = 0; i < count; i++) {
        hash = (hash ^ at[i]) * 0x100000001b3u;
    }
    return hash;
}

uint64_t recipe_hash(const Recipe *recipe, int threads)
{
    const size_t size = recipe_bytes(recipe);
    unsigned char *const pixels = malloc(size);
    if (pixels == NULL || recipe_render(recipe, threads, 0, pixels) != IFIG_OK) {
        give_up("a recipe that was fine before is not rendered");
    }
    const uint64_t hash = hash_bytes(HASH_START, pixels, size);
    free(pixels);
    return hash;
}
