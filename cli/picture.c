/* SPDX-License-Identifier: MIT */
#include "picture.h"

#include <stdlib.h>

#include "describe.h"
#include "output.h"
#include "progress.h"
#include "recipe.h"
#include "signals.h"
#include "turn.h"

static const char DISCLAIMER[] =
    "A figure is evidence, not an identification: confirm it by refractive index, specific gravity "
    "or spectrum.";

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

typedef void Writer(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene);

static void write_title(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    (void)settings;
    const char *name = ifig_species_text(scene->species, IFIG_TEXT_NAME);
    fprintf(out, "Interference figure of %s", scene->measured != NULL ? "measured indices" : name);
}

static void write_description(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    fputs("Expected interference figure of ", out);
    ifig_cli_describe(out, settings, scene);
    ifig_cli_describe_motion(out, settings);
    const IfigCliSight sight = ifig_cli_sight(settings, scene);
    fprintf(out, "%s%s.", sight.text[0] != '\0' ? ". What to look for: " : "", sight.text);
    fputs(" East is right, north is up; azimuths count counter-clockwise from east.", out);
}

static void write_recipe(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    ifig_cli_write_recipe(out, settings, ifig_species_text(scene->species, IFIG_TEXT_KEY));
}

/* Text from one of the writers; NULL where memory ran out. */
static char *write_text(Writer *writer, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    if (out == NULL) {
        return NULL;
    }
    writer(out, settings, scene);
    const int failed = ferror(out);
    if (fclose(out) != 0 || failed) {
        free(text);
        return NULL;
    }
    return text;
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
    words->title = write_text(write_title, settings, scene);
    words->description = write_text(write_description, settings, scene);
    words->recipe = write_text(write_recipe, settings, scene);
    if (words->title == NULL || words->description == NULL || words->recipe == NULL) {
        return ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory for the words in the picture");
    }
    snprintf(words->software, sizeof words->software, "interfig %s", ifig_version());
    add_text(words, "Title", words->title);
    add_text(words, "Description", words->description);
    add_text(words, "Software", words->software);
    add_text(words, "Disclaimer", DISCLAIMER);
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

/* Rows that fit into the band, in whole bands of the figure's own. */
static uint32_t rows_at_a_time(const IfigFigure *figure, size_t row_bytes, uint32_t all)
{
    const uint32_t band = ifig_figure_band_rows(figure);
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
    void *rows; /* of a band */
    uint32_t step;
    IfigCliClock clock;
} Job;

static IfigStatus write_rows(Job *job, const IfigFigure *figure, uint32_t frame, IfigError *error)
{
    const uint32_t all = job->figure.pixels;
    const IfigPixelFormat format =
        job->settings->depth == 16 ? IFIG_PIXELS_SRGB16 : IFIG_PIXELS_SRGB8;
    IfigStatus status = IFIG_OK;
    for (uint32_t row = 0; row < all && status == IFIG_OK; row += job->step) {
        const uint32_t count = all - row < job->step ? all - row : job->step;
        status = ifig_figure_render(figure, format, row, count, job->rows, error);
        if (status == IFIG_OK) {
            status = ifig_png_write_rows(job->png, job->rows, count, error);
        }
        if (status == IFIG_OK) {
            ifig_cli_show_progress(&job->clock, (uint64_t)frame * all + row + count);
        }
    }
    return status;
}

/* Each frame is made, rendered, written and forgotten. */
static IfigStatus write_frames(Job *job, IfigError *error)
{
    const uint32_t frames = ifig_cli_frame_count(job->settings), all = job->figure.pixels;
    const size_t row_bytes = (size_t)all * 3 * (job->settings->depth == 16 ? 2 : 1);
    IfigStatus status = IFIG_OK;
    job->clock = ifig_cli_start_clock(all, frames);
    for (uint32_t frame = 0; frame < frames && status == IFIG_OK; frame++) {
        IfigLayer layer; /* which the figure borrows */
        IfigScene scene;
        IfigFigure *figure = NULL;
        ifig_cli_set_frame(job->settings, job->scene, frame, &layer, &scene);
        status = ifig_figure_create(&scene, &job->figure, &figure, error);
        if (status == IFIG_OK && job->rows == NULL) {
            job->step = rows_at_a_time(figure, row_bytes, all);
            job->rows = malloc(row_bytes * job->step);
            if (job->rows == NULL) {
                snprintf(error->message, sizeof error->message,
                         "no memory for %u rows of the picture; choose a smaller --size",
                         job->step);
                status = IFIG_ERROR_MEMORY;
            }
        }
        if (status == IFIG_OK) {
            status = write_rows(job, figure, frame, error);
        }
        ifig_figure_free(figure);
    }
    ifig_cli_end_progress(&job->clock);
    free(job->rows);
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
    job.figure.pixels = png.width = png.height = (uint32_t)settings->size;
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
        const IfigStatus status = write_file(&job, &png, path, &error);
        if (status != IFIG_OK) {
            ending = ifig_cli_complain(ifig_cli_exit_status(status, IFIG_CLI_WORDS), "%s",
                                       error.message);
        }
    }
    free_words(&words);
    return ending;
}
