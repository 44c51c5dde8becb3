/* SPDX-License-Identifier: MIT */
/* The library of plates and sheets, loaded when something is first asked of it. It brings cairo,
 * Pango, fontconfig, qpdf and fifty more, which takes four fifths of the program's start; most
 * commands do without. Each function here has the name of the one it hands on to. */
#include <dlfcn.h>
#include <stdlib.h>

#include "arguments.h"
#include "interfig/interfig.h"
#include "output.h"

static void *page_function(const char *name)
{
    void *library = dlopen(IFIG_CLI_PAGES_LIBRARY, RTLD_NOW | RTLD_LOCAL);
    void *function = library != NULL ? dlsym(library, name) : NULL;
    if (function == NULL) {
        const char *why = dlerror();
        exit((int)ifig_cli_complain(IFIG_CLI_MISSING,
                                    "what draws plates and sheets cannot be loaded: %s; install "
                                    "the package libinterfig-pages0",
                                    why != NULL ? why : name));
    }
    return function;
}

/* The library's own function of that name, with its type. */
#define IN_LIBRARY(name) ((__typeof__(&name))page_function(#name))

const IfigQuestion *ifig_exercise_at(const IfigExercise *exercise, size_t index)
{
    return IN_LIBRARY(ifig_exercise_at)(exercise, index);
}

size_t ifig_exercise_count(const IfigExercise *exercise)
{
    return IN_LIBRARY(ifig_exercise_count)(exercise);
}

IfigStatus ifig_exercise_create(const IfigExerciseOptions *options, IfigExercise **exercise,
                                IfigError *error)
{
    return IN_LIBRARY(ifig_exercise_create)(options, exercise, error);
}

void ifig_exercise_free(IfigExercise *exercise)
{
    if (exercise != NULL) {
        IN_LIBRARY(ifig_exercise_free)(exercise);
    }
}

IfigStatus ifig_exercise_picture(const IfigExercise *exercise, size_t index,
                                 const IfigFigureOptions *options, uint8_t *rgb, IfigError *error)
{
    return IN_LIBRARY(ifig_exercise_picture)(exercise, index, options, rgb, error);
}

IfigStatus ifig_exercise_species(const IfigCatalogue *catalogue, const char *list,
                                 const IfigSpecies **species, size_t *count, IfigError *error)
{
    return IN_LIBRARY(ifig_exercise_species)(catalogue, list, species, count, error);
}

IfigStatus ifig_exercise_write(const char *path, const IfigPageOptions *options,
                               const IfigExercise *exercise, const IfigExerciseSheet *sheet,
                               IfigError *error)
{
    return IN_LIBRARY(ifig_exercise_write)(path, options, exercise, sheet, error);
}

const char *ifig_question_kind_name(IfigQuestionKind kind)
{
    return IN_LIBRARY(ifig_question_kind_name)(kind);
}

IfigStatus ifig_page_blink(const char *path, const IfigPageOptions *options, const IfigBlink *blink,
                           const IfigPageWords *words, IfigError *error)
{
    return IN_LIBRARY(ifig_page_blink)(path, options, blink, words, error);
}

IfigStatus ifig_page_chart(const char *path, const IfigPageOptions *options,
                           const IfigPageChart *chart, const IfigPageWords *words, IfigError *error)
{
    return IN_LIBRARY(ifig_page_chart)(path, options, chart, words, error);
}

IfigStatus ifig_page_contrast(const char *path, const IfigPageOptions *options,
                              const IfigPageFigure *figures, size_t count,
                              const IfigPageTable *table, const IfigPageWords *words,
                              IfigError *error)
{
    return IN_LIBRARY(ifig_page_contrast)(path, options, figures, count, table, words, error);
}

uint32_t ifig_page_contrast_pixels(const IfigPageOptions *options, size_t count)
{
    return IN_LIBRARY(ifig_page_contrast_pixels)(options, count);
}

IfigStatus ifig_page_figure(const char *path, const IfigPageOptions *options,
                            const IfigLabelledFigure *figure, const IfigPageWords *words,
                            IfigError *error)
{
    return IN_LIBRARY(ifig_page_figure)(path, options, figure, words, error);
}

const char *const *ifig_page_figure_keys(void)
{
    return IN_LIBRARY(ifig_page_figure_keys)();
}

IfigStatus ifig_page_hunt(const char *path, const IfigPageOptions *options, const IfigPageMap *map,
                          const IfigPageWords *words, IfigError *error)
{
    return IN_LIBRARY(ifig_page_hunt)(path, options, map, words, error);
}

uint32_t ifig_page_hunt_pixels(const IfigPageOptions *options)
{
    return IN_LIBRARY(ifig_page_hunt_pixels)(options);
}

IfigStatus ifig_page_recipe_read_file(const char *path, IfigPageRecipe **recipe, IfigError *error)
{
    return IN_LIBRARY(ifig_page_recipe_read_file)(path, recipe, error);
}

void ifig_page_recipe_free(IfigPageRecipe *recipe)
{
    if (recipe != NULL) {
        IN_LIBRARY(ifig_page_recipe_free)(recipe);
    }
}

IfigStatus ifig_page_write(const char *path, const IfigPageOptions *options,
                           const IfigPageRecipe *recipe, const IfigPageScene *scenes,
                           IfigError *error)
{
    return IN_LIBRARY(ifig_page_write)(path, options, recipe, scenes, error);
}
