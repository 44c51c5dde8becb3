/* SPDX-License-Identifier: MIT */
#include "picture.h"

#include <stdlib.h>
#include <string.h>

#include "colour.h"
#include "describe.h"
#include "labelled.h"
#include "layers.h"
#include "output.h"
#include "plot.h"
#include "progress.h"
#include "range.h"
#include "recipe.h"
#include "signals.h"
#include "texture.h"
#include "turn.h"

/* Pixels held at a time; more would be no faster. */
static const size_t BAND_BYTES = (size_t)16 << 20;

enum { TEXTS_MAX = 8 };

/* The words that go into the file. */
typedef struct Words {
    char *title, *description, *recipe;
    char software[40];
    IfigImageText text[TEXTS_MAX];
    size_t count;
} Words;

static void write_title(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    const char *name = ifig_species_text(scene->species, IFIG_TEXT_NAME);
    fputs(ifig_cli_is_face(settings) ? "Face between polars of " : "Interference figure of ", out);
    if (settings->layer_count > 0) {
        ifig_cli_describe_layers(out, settings, scene);
    } else {
        fputs(scene->measured != NULL ? "measured indices" : name, out);
        ifig_cli_describe_colour(out, settings, scene);
    }
}

static void write_description(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    fputs(ifig_cli_is_face(settings) ? "Expected face between polars of "
                                     : "Expected interference figure of ",
          out);
    ifig_cli_describe(out, settings, scene);
    ifig_cli_describe_motion(out, settings);
    const IfigCliSight sight = ifig_cli_sight(settings, scene);
    fprintf(out, "%s%s.", sight.text[0] != '\0' ? ". What to look for: " : "", sight.text);
    fputs(" East is right, north is up; azimuths count counter-clockwise from east.", out);
}

static void write_recipe(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    const char *stone = ifig_cli_recipe_stone(settings, scene);
    ifig_cli_write_recipe(out, settings, &stone, stone[0] != '\0');
}

static void add_text(Words *words, const char *keyword, const char *text)
{
    if (text != NULL) {
        words->text[words->count++] = (IfigImageText){keyword, text};
    }
}

static IfigCliStatus collect_words(const IfigCliSettings *settings, const IfigCliScene *scene,
                                   Words *words)
{
    words->title = ifig_cli_write_text(write_title, settings, scene);
    words->description = ifig_cli_write_text(write_description, settings, scene);
    words->recipe = ifig_cli_write_text(write_recipe, settings, scene);
    if (words->title == NULL || words->description == NULL || words->recipe == NULL) {
        return ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory for the words in the picture");
    }
    snprintf(words->software, sizeof words->software, "interfig %s", ifig_version());
    add_text(words, "Title", words->title);
    add_text(words, "Description", words->description);
    add_text(words, "Software", words->software);
    add_text(words, "Disclaimer", ifig_cli_evidence);
    add_text(words, "Recipe", words->recipe);
    add_text(words, "Catalogue", ifig_catalogue_hash());
    add_text(words, "Species", scene->species_text);
    add_text(words, "Lamp", scene->lamp_text);
    return IFIG_CLI_OK;
}

static void free_words(Words *words)
{
    free(words->title);
    free(words->description);
    free(words->recipe);
}

/* What stands in the picture, alone or beside others: a figure, or the face of a stone. */
typedef struct Panel {
    IfigFigure *figure;
    IfigFace *face;
} Panel;

/* Rows that fit into the band, in whole bands of the figure's own. */
static uint32_t rows_at_a_time(const Panel *panel, size_t row_bytes, uint32_t all)
{
    const uint32_t face_band = 16;
    const uint32_t band = panel->figure != NULL ? ifig_figure_band_rows(panel->figure) : face_band;
    const size_t bands = BAND_BYTES / (row_bytes * band);
    const size_t rows = band * (bands > 0 ? bands : 1);
    return rows < all ? (uint32_t)rows : all;
}

/* What every frame needs. */
typedef struct Job {
    const IfigCliSettings *settings;
    const IfigCliScene *scene;
    IfigFigureOptions figure;
    IfigPngWriter *png;
    void *rows;  /* of a band, as wide as the picture */
    void *panel; /* of a band of one of several panels side by side; NULL: there is one */
    uint32_t step;
    IfigCliClock clock;
} Job;

static size_t pixel_bytes(const IfigCliSettings *settings)
{
    return settings->depth == 16 ? 3 * sizeof(uint16_t) : 3 * sizeof(uint8_t);
}

static IfigStatus render_panel(const Job *job, const Panel *panel, uint32_t row, uint32_t count,
                               void *pixels, IfigError *error)
{
    const IfigPixelFormat format =
        job->settings->depth == 16 ? IFIG_PIXELS_SRGB16 : IFIG_PIXELS_SRGB8;
    return panel->face != NULL
               ? ifig_face_render(panel->face, format, row, count, pixels, error)
               : ifig_figure_render(panel->figure, format, row, count, pixels, error);
}

/* Each panel's share of some rows, then all of them laid side by side. */
static IfigStatus render_rows(Job *job, const Panel *panels, uint32_t row, uint32_t count,
                              IfigError *error)
{
    const IfigCliSettings *settings = job->settings;
    IfigStatus status = IFIG_OK;
    if (job->panel == NULL) {
        return render_panel(job, &panels[0], row, count, job->rows, error);
    }
    /* code 38 of 255 or its equal of 65535, as around each disc: both bytes are 38 */
    memset(job->rows, 38, pixel_bytes(settings) * ifig_cli_picture_width(settings) * count);
    for (uint32_t p = 0; p < ifig_cli_panel_count(settings) && status == IFIG_OK; p++) {
        const size_t size = pixel_bytes(settings) * job->figure.pixels;
        const size_t left = pixel_bytes(settings) * ifig_cli_panel_left(settings, p);
        status = render_panel(job, &panels[p], row, count, job->panel, error);
        for (uint32_t r = 0; r < count && status == IFIG_OK; r++) {
            const size_t start = pixel_bytes(settings) * ifig_cli_picture_width(settings) * r;
            memcpy((char *)job->rows + start + left, (char *)job->panel + size * r, size);
        }
    }
    return status;
}

static IfigStatus write_rows(Job *job, const Panel *panels, uint32_t frame, IfigError *error)
{
    const uint32_t all = job->figure.pixels;
    IfigStatus status = IFIG_OK;
    for (uint32_t row = 0; row < all && status == IFIG_OK; row += job->step) {
        const uint32_t count = all - row < job->step ? all - row : job->step;
        status = render_rows(job, panels, row, count, error);
        if (status == IFIG_OK) {
            status = ifig_png_write_rows(job->png, job->rows, count, error);
        }
        if (status == IFIG_OK) {
            ifig_cli_show_progress(&job->clock, (uint64_t)frame * all + row + count);
        }
    }
    return status;
}

/* Room for the rows of a band, once for all frames. */
static IfigStatus open_rows(Job *job, const Panel *panel, IfigError *error)
{
    const size_t row_bytes = pixel_bytes(job->settings) * ifig_cli_picture_width(job->settings);
    const int has_panels = ifig_cli_panel_count(job->settings) > 1;
    if (job->rows != NULL) {
        return IFIG_OK;
    }
    job->step = rows_at_a_time(panel, row_bytes, job->figure.pixels);
    job->rows = malloc(row_bytes * job->step);
    job->panel = has_panels ? malloc(row_bytes * job->step) : NULL;
    if (job->rows == NULL || (has_panels && job->panel == NULL)) {
        snprintf(error->message, sizeof error->message,
                 "no memory for %u rows of the picture; choose a smaller --size", job->step);
        return IFIG_ERROR_MEMORY;
    }
    return IFIG_OK;
}

static IfigStatus open_panel(const Job *job, uint32_t place, uint32_t frame,
                             IfigLayer layers[IFIG_LAYERS_MAX], Panel *panel, IfigError *error)
{
    IfigScene scene;
    ifig_cli_set_frame(job->settings, job->scene, frame, layers, &scene);
    ifig_cli_set_panel(job->scene, place, layers);
    return ifig_cli_is_face(job->settings)
               ? ifig_face_create(&scene, &job->scene->texture, &job->figure, &panel->face, error)
               : ifig_figure_create(&scene, &job->figure, &panel->figure, error);
}

/* One frame is made, rendered, written and forgotten. */
static IfigStatus write_frame(Job *job, uint32_t frame, IfigError *error)
{
    enum { PANELS_MAX = 3 };
    IfigLayer layers[PANELS_MAX][IFIG_LAYERS_MAX]; /* which the panels borrow */
    Panel panels[PANELS_MAX] = {{NULL, NULL}};
    IfigStatus status = IFIG_OK;
    for (uint32_t p = 0; p < ifig_cli_panel_count(job->settings) && status == IFIG_OK; p++) {
        status = open_panel(job, p, frame, layers[p], &panels[p], error);
    }
    if (status == IFIG_OK) {
        status = open_rows(job, &panels[0], error);
    }
    if (status == IFIG_OK) {
        status = write_rows(job, panels, frame, error);
    }
    for (int p = 0; p < PANELS_MAX; p++) {
        ifig_figure_free(panels[p].figure);
        ifig_face_free(panels[p].face);
    }
    return status;
}

static IfigStatus write_frames(Job *job, IfigError *error)
{
    const uint32_t frames = ifig_cli_frame_count(job->settings);
    IfigStatus status = IFIG_OK;
    job->clock = ifig_cli_start_clock(job->figure.pixels, frames);
    for (uint32_t frame = 0; frame < frames && status == IFIG_OK; frame++) {
        status = write_frame(job, frame, error);
    }
    ifig_cli_end_progress(&job->clock);
    free(job->rows);
    free(job->panel);
    return status;
}

/* Open, fill and close the file; a signal in between removes what was begun. */
static IfigStatus write_file(Job *job, const IfigPngOptions *options, const char *path,
                             IfigError *error)
{
    ifig_cli_hold_signals();
    IfigStatus status = ifig_png_open(path, options, &job->png, error);
    if (status == IFIG_OK) {
        ifig_cli_guard_file(ifig_png_temporary_path(job->png));
    }
    ifig_cli_release_signals();
    if (status != IFIG_OK) {
        return status;
    }
    status = write_frames(job, error);
    if (status == IFIG_OK) {
        status = ifig_png_close(job->png, error);
    } else {
        ifig_png_discard(job->png);
    }
    ifig_cli_guard_file(NULL);
    return status;
}

IfigCliStatus ifig_cli_make_picture(const IfigCliSettings *settings, const IfigCliScene *scene,
                                    const char *path, int keep_existing)
{
    const uint16_t milliseconds_in_a_second = 1000;
    IfigError error = IFIG_ERROR_INIT;
    Job job = {.settings = settings, .scene = scene, .figure = IFIG_FIGURE_OPTIONS_INIT};
    IfigPngOptions png = IFIG_PNG_OPTIONS_INIT;
    Words words = {.count = 0};
    job.figure.pixels = png.height = (uint32_t)settings->size;
    png.width = ifig_cli_picture_width(settings);
    job.figure.exposure_stops = settings->exposure_stops;
    job.figure.threads = settings->threads;
    png.depth = settings->depth;
    png.dpi = settings->dpi;
    png.keep_existing = keep_existing;
    png.frame_count = ifig_cli_frame_count(settings);
    png.delay_numerator = (uint16_t)settings->delay_ms;
    png.delay_denominator = milliseconds_in_a_second;
    IfigCliStatus ending = collect_words(settings, scene, &words);
    if (ending == IFIG_CLI_OK) {
        png.text = words.text;
        png.text_count = words.count;
    }
    if (ending == IFIG_CLI_OK && ifig_cli_is_labelled(settings, path)) {
        ending = ifig_cli_write_labelled(settings, scene, path, &png);
    } else if (ending == IFIG_CLI_OK) {
        const IfigStatus status = write_file(&job, &png, path, &error);
        if (status != IFIG_OK) {
            ending = ifig_cli_complain(ifig_cli_exit_status(status, IFIG_CLI_WORDS), "%s",
                                       error.message);
        }
    }
    free_words(&words);
    return ending;
}
