/* SPDX-License-Identifier: MIT */
/* The plate of interfig contrast: the stones side by side, what is met with in each below them. */
#include <stdlib.h>
#include <string.h>

#include "contrast.h"
#include "output.h"
#include "plot.h"
#include "recipe.h"
#include "signals.h"
#include "traits.h"

enum { STONES_MAX = IFIG_CLI_WORDS_MAX, ROWS = IFIG_CLUE_COUNT + 1, COLUMNS_MAX = STONES_MAX + 1 };

static void write_title(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scenes)
{
    fputs("What tells ", out);
    ifig_cli_name_stones(out, settings, scenes);
    fputs(" apart", out);
}

static void write_subtitle(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scenes)
{
    (void)scenes;
    fprintf(out,
            "Each %s mm thick along its usual line of sight, stage at 45 deg, crossed polars: the "
            "expected "
            "interference figure, or the bare face of a stone that shows none.",
            ifig_cli_number(settings->thickness_mm).text);
}

static void write_recipe(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scenes)
{
    const char *stones[STONES_MAX];
    for (size_t i = 0; i < settings->word_count; i++) {
        stones[i] = ifig_cli_stone_word(settings, scenes, i);
    }
    ifig_cli_write_recipe(out, settings, stones, settings->word_count);
}

static IfigStatus render_face(const IfigCliScene *stone, const IfigFigureOptions *options,
                              uint8_t *rgb, IfigError *error)
{
    IfigScene scene = stone->scene;
    IfigFace *face = NULL;
    scene.instrument.lens = IFIG_LENS_NONE;
    scene.instrument.field_deg = 0.0;
    IfigStatus status = ifig_face_create(&scene, &stone->texture, options, &face, error);
    if (status == IFIG_OK) {
        status = ifig_face_render(face, IFIG_PIXELS_SRGB8, 0, options->pixels, rgb, error);
    }
    ifig_face_free(face);
    return status;
}

static IfigStatus render_figure(const IfigCliScene *stone, const IfigFigureOptions *options,
                                uint8_t *rgb, IfigError *error)
{
    IfigFigure *figure = NULL;
    IfigStatus status = ifig_figure_create(&stone->scene, options, &figure, error);
    if (status == IFIG_OK) {
        status = ifig_figure_render(figure, IFIG_PIXELS_SRGB8, 0, options->pixels, rgb, error);
    }
    ifig_figure_free(figure);
    return status;
}

/* A plate in the making. */
typedef struct Drawing {
    IfigCliPlate plate;
    IfigPageFigure figures[STONES_MAX];
    uint8_t *rgb[STONES_MAX];
    IfigCliTrait traits[ROWS][COLUMNS_MAX];
    const char *cells[ROWS * COLUMNS_MAX];
} Drawing;

static IfigStatus render_stones(const IfigCliSettings *settings, const IfigCliScene *scenes,
                                Drawing *drawing, IfigError *error)
{
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigStatus status = IFIG_OK;
    options.pixels = ifig_page_contrast_pixels(&drawing->plate.options, settings->word_count);
    options.threads = settings->threads;
    for (size_t i = 0; i < settings->word_count && status == IFIG_OK; i++) {
        const IfigCliScene *stone = &scenes[i];
        uint8_t *rgb = malloc((size_t)3 * options.pixels * options.pixels);
        drawing->rgb[i] = rgb;
        if (rgb == NULL) {
            snprintf(error->message, sizeof error->message,
                     "no memory for a figure of %u pixels; choose a smaller --dpi", options.pixels);
            return IFIG_ERROR_MEMORY;
        }
        status = ifig_cli_shows_face_alone(stone) ? render_face(stone, &options, rgb, error)
                                                  : render_figure(stone, &options, rgb, error);
        drawing->figures[i] =
            (IfigPageFigure){.rgb = rgb,
                             .pixels = options.pixels,
                             .title = ifig_cli_stone_word(settings, scenes, i),
                             .caption = ifig_species_text(stone->species, IFIG_TEXT_NAME)};
    }
    return status;
}

/* Head and rows: each clue, and what is met with in each stone. */
static IfigPageTable fill_table(const IfigCliSettings *settings, const IfigCliScene *scenes,
                                const IfigTraits *traits, Drawing *drawing)
{
    const size_t columns = settings->word_count + 1;
    for (size_t row = 0; row < ROWS; row++) {
        const IfigClue clue = (IfigClue)(row > 0 ? row - 1 : 0);
        drawing->cells[row * columns] = row > 0 ? ifig_clue_name(clue) : "";
        for (size_t i = 0; i < settings->word_count; i++) {
            drawing->traits[row][i] = ifig_cli_trait(&traits[i], clue);
            drawing->cells[row * columns + i + 1] =
                row > 0 ? drawing->traits[row][i].text : ifig_cli_stone_word(settings, scenes, i);
        }
    }
    return (IfigPageTable){ROWS, columns, drawing->cells};
}

static IfigCliStatus draw(const IfigCliSettings *settings, const IfigCliScene *scenes,
                          const IfigTraits *traits, Drawing *drawing)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigStatus status = render_stones(settings, scenes, drawing, &error);
    if (status == IFIG_OK) {
        const IfigPageTable table = fill_table(settings, scenes, traits, drawing);
        ifig_cli_hold_signals();
        status = ifig_page_contrast(settings->output, &drawing->plate.options, drawing->figures,
                                    settings->word_count, &table, &drawing->plate.words, &error);
        ifig_cli_release_signals();
    }
    for (size_t i = 0; i < STONES_MAX; i++) {
        free(drawing->rgb[i]);
    }
    return ifig_cli_end_plate(status, &error);
}

IfigCliStatus ifig_cli_plot_contrast(const IfigCliSettings *settings, const IfigCliScene *scenes,
                                     const IfigTraits *traits, const char *advice)
{
    IfigCliTextWriter *const writers[3] = {write_title, write_subtitle, write_recipe};
    if (settings->output == NULL) {
        return IFIG_CLI_OK;
    }
    Drawing *drawing = calloc(1, sizeof *drawing);
    if (drawing == NULL) {
        return ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory for the plate");
    }
    IfigCliStatus ending = ifig_cli_open_plate(settings, scenes, writers, &drawing->plate);
    if (ending == IFIG_CLI_OK) {
        drawing->plate.words.caption = advice;
        ending = draw(settings, scenes, traits, drawing);
    }
    ifig_cli_close_plate(&drawing->plate);
    free(drawing);
    return ending;
}
