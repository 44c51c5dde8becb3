/* SPDX-License-Identifier: MIT */
/* Draw labelled figures: page_figures RECIPE none|basic|full alone|sheet PIXELS FILE ..., five
 * words a figure, at 300 dpi. Exit status: that of the library; its message on standard error. */
#include <stdio.h>
#include <stdlib.h>

#include "figure_recipes.h"
#include "leaks.h"

static const Recipe *find(const char *name)
{
    for (int i = 0; i < RECIPE_COUNT; i++) {
        if (strcmp(RECIPES[i].name, name) == 0) {
            return &RECIPES[i];
        }
    }
    return NULL;
}

static IfigStatus write(const Recipe *recipe, char **words, IfigError *error)
{
    IfigPageOptions options = IFIG_PAGE_OPTIONS_INIT;
    IfigPageWords said = IFIG_PAGE_WORDS_INIT;
    IfigLabelledFigure figure = IFIG_LABELLED_FIGURE_INIT;
    Bench bench;
    IfigStatus status = open_bench(recipe, &bench, error);
    options.dpi = 300.0;
    said.title = recipe->name;
    said.subtitle = recipe->species;
    said.caution = "A figure is evidence, not an identification.";
    figure.scene = &bench.scene;
    figure.labels = words[0][0] == 'n'   ? IFIG_LABELS_NONE
                    : words[0][0] == 'b' ? IFIG_LABELS_BASIC
                                         : IFIG_LABELS_FULL;
    figure.is_alone = strcmp(words[1], "alone") == 0;
    figure.width_mm = strtod(words[2], NULL) * 25.4 / options.dpi;
    if (status == IFIG_OK) {
        status = ifig_page_figure(words[3], &options, &figure, &said, error);
    }
    close_bench(&bench);
    return status;
}

int main(int argc, char **argv)
{
    IfigError error = IFIG_ERROR_INIT;
    for (int i = 1; i + 4 < argc; i += 5) {
        const Recipe *const recipe = find(argv[i]);
        if (recipe == NULL) {
            fprintf(stderr, "no recipe %s\n", argv[i]);
            return EXIT_FAILURE;
        }
        const IfigStatus status = write(recipe, argv + i + 1, &error);
        if (status != IFIG_OK) {
            fprintf(stderr, "%s: %s\n", argv[i], error.message);
            return (int)status;
        }
    }
    return EXIT_SUCCESS;
}
