/* SPDX-License-Identifier: MIT */
#include "specimens.h"

#include <stdlib.h>
#include <string.h>

enum { LONG = 100000, SIDE = 16 };

static Specimens made;
static _Thread_local IfigPngWriter *writer;

const Specimens *specimens(void)
{
    return &made;
}

void prepare_IfigLayer(IfigLayer *layer)
{
    layer->species = made.species;
    layer->thickness_mm = 1.0;
}

void prepare_IfigScene(IfigScene *scene)
{
    scene->layers = &made.layer;
    scene->layer_count = 1;
    scene->lamp = made.lamp;
}

void prepare_IfigFigureOptions(IfigFigureOptions *options)
{
    options->pixels = SIDE;
    options->threads = 1;
}

void prepare_IfigPngOptions(IfigPngOptions *options)
{
    options->width = options->height = 4;
}

void prepare_IfigSpeciesRecord(IfigSpeciesRecord *record)
{
    record->text[IFIG_TEXT_KEY] = "misused_stone";
    record->facts.character = IFIG_BIAXIAL;
    record->facts.n[0] = 1.61;
    record->facts.n[1] = 1.62;
    record->facts.n[2] = 1.64;
}

int specimens_make(void)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigScene scene = IFIG_SCENE_INIT;
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigLayer layer = IFIG_LAYER_INIT;
    const double indices[3] = {1.61, 1.62, 1.64};
    made.long_text = malloc(LONG + 1);
    if (made.long_text == NULL || ifig_catalogue_create(&made.catalogue, &error) != IFIG_OK ||
        ifig_catalogue_find(made.catalogue, "topaz_f", &made.species, &error) != IFIG_OK ||
        ifig_species_from_indices(indices, 3, 0, &made.spare_species, &error) != IFIG_OK ||
        ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &made.lamp, &error) != IFIG_OK) {
        return 0;
    }
    memset(made.long_text, 'a', LONG);
    made.long_text[LONG] = '\0';
    prepare_IfigLayer(&layer);
    made.layer = layer;
    prepare_IfigScene(&scene);
    prepare_IfigFigureOptions(&options);
    return ifig_figure_create(&scene, &options, &made.figure, &error) == IFIG_OK;
}

void specimens_free(void)
{
    ifig_figure_free(made.figure);
    ifig_lamp_free(made.lamp);
    ifig_species_free(made.spare_species);
    ifig_catalogue_free(made.catalogue);
    free(made.long_text);
    memset(&made, 0, sizeof made);
}

void honest_numbers(void *numbers, size_t bytes)
{
    double *number = numbers;
    for (size_t i = 0; i < bytes / sizeof *number; i++) {
        number[i] = 1.5 + 0.01 * (double)i;
    }
}

void *honest_room(void)
{
    static _Thread_local _Alignas(16) char room[HONEST_ROOM];
    return room;
}

IfigPngWriter *honest_writer(void)
{
    IfigPngOptions options = IFIG_PNG_OPTIONS_INIT;
    prepare_IfigPngOptions(&options);
    if (writer == NULL) {
        ifig_png_open("/dev/null", &options, &writer, NULL);
    }
    return writer;
}

void close_writer(void)
{
    ifig_png_discard(writer);
    writer = NULL;
}

const char *const *honest_words(void)
{
    static const char *const words[] = {"quartz", "topaz"};
    return words;
}

IfigSpecies *const *honest_list(void)
{
    static IfigSpecies *list[1];
    list[0] = NULL;
    return list;
}

const char *long_text(void)
{
    return made.long_text;
}

int said(const char *text)
{
    volatile size_t length = text != NULL ? strlen(text) : 0;
    (void)length;
    return -1;
}
