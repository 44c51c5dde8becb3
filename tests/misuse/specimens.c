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

void prepare_IfigRectangle(IfigRectangle *rectangle)
{
    rectangle->width = rectangle->height = 1;
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

void prepare_IfigStone(IfigStone *stone)
{
    stone->species = made.species;
}

void prepare_IfigObservation(IfigObservation *observation)
{
    ifig_observation_read("index=1.60-1.64", observation, NULL);
}

void prepare_IfigPairContrast(IfigPairContrast *contrast)
{
    const IfigTraits traits = IFIG_TRAITS_INIT;
    contrast->traits[0] = contrast->traits[1] = traits;
    contrast->thickness_mm = 3.0;
}

void prepare_IfigPageOptions(IfigPageOptions *options)
{
    options->format = IFIG_PAGE_SVG;
    options->dpi = 50.0;
}

void prepare_IfigPageWords(IfigPageWords *words)
{
    words->title = "A stone";
}

void prepare_IfigPageMap(IfigPageMap *map)
{
    map->rgb = honest_room();
    map->pixels = SIDE;
}

void prepare_IfigPageFigure(IfigPageFigure *figure)
{
    figure->rgb = honest_room();
    figure->pixels = SIDE;
    figure->title = "A stone";
}

void prepare_IfigPageTable(IfigPageTable *table)
{
    table->rows = table->columns = 1;
    table->cells = honest_words();
}

void prepare_IfigPageChart(IfigPageChart *chart)
{
    chart->lamp = made.lamp;
}

void prepare_IfigPageRecipe(IfigPageRecipe *recipe)
{
    *recipe = *made.recipe;
}

void prepare_IfigPageScene(IfigPageScene *scene)
{
    scene->scene = &made.scene;
    scene->name = "A stone";
}

void prepare_IfigLabelledFigure(IfigLabelledFigure *figure)
{
    figure->scene = &made.scene;
    figure->width_mm = 20.0;
    figure->options.threads = 1;
}

void prepare_IfigRetarder(IfigRetarder *retarder)
{
    retarder->species = made.species;
}

void prepare_IfigExerciseOptions(IfigExerciseOptions *options)
{
    options->species = made.several;
    options->species_count = 2;
    options->count = 1;
}

static int make_sheets(void)
{
    static const char text[] = "title: Stones\nfigures:\n  - stone: quartz\n";
    IfigExerciseOptions options = IFIG_EXERCISE_OPTIONS_INIT;
    prepare_IfigExerciseOptions(&options);
    return ifig_exercise_create(&options, &made.exercise, NULL) == IFIG_OK &&
           ifig_page_recipe_read_text(text, strlen(text), "text", &made.recipe, NULL) == IFIG_OK;
}

/* What is made of the catalogue and a scene. */
static int make_more(IfigScene *scene, const IfigFigureOptions *options)
{
    IfigObservation observed;
    prepare_IfigObservation(&observed);
    if (ifig_figure_create(scene, options, &made.figure, NULL) != IFIG_OK ||
        ifig_narrow(made.catalogue, &observed, 1, NULL, 3.0, &made.narrowing, NULL) != IFIG_OK) {
        return 0;
    }
    scene->instrument.lens = IFIG_LENS_NONE;
    return ifig_face_create(scene, NULL, options, &made.face, NULL) == IFIG_OK;
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
        ifig_catalogue_find(made.catalogue, "quartz", &made.several[1], &error) != IFIG_OK ||
        ifig_species_from_indices(indices, 3, 0, &made.spare_species, &error) != IFIG_OK ||
        ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &made.lamp, &error) != IFIG_OK) {
        return 0;
    }
    made.several[0] = made.species;
    memset(made.long_text, 'a', LONG);
    made.long_text[LONG] = '\0';
    prepare_IfigLayer(&layer);
    made.layer = layer;
    prepare_IfigScene(&scene);
    made.scene = scene;
    prepare_IfigFigureOptions(&options);
    return make_more(&scene, &options) && make_sheets();
}

void specimens_free(void)
{
    ifig_page_recipe_free(made.recipe);
    ifig_exercise_free(made.exercise);
    ifig_narrowing_free(made.narrowing);
    ifig_face_free(made.face);
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
