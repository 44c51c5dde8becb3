/* SPDX-License-Identifier: MIT */
#include "picture.h"

#include <stdlib.h>
#include <time.h>
#include <unistd.h>

#include "describe.h"
#include "output.h"
#include "recipe.h"
#include "signals.h"

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

/* The clock of a long job, for a reader who waits at a terminal. */
typedef struct Clock {
    struct timespec start;
    int is_shown;
} Clock;

static double seconds_since(const struct timespec *start)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)(now.tv_sec - start->tv_sec) + 1e-9 * (double)(now.tv_nsec - start->tv_nsec);
}

/* Only on a terminal, and only once a second has gone by. */
static void show_progress(Clock *clock, uint32_t done, uint32_t all)
{
    if (!isatty(STDERR_FILENO) || (!clock->is_shown && seconds_since(&clock->start) < 1.0)) {
        return;
    }
    clock->is_shown = 1;
    if (done < all) {
        fprintf(stderr, "\rinterfig: %3.0f %%", 100.0 * (double)done / (double)all);
    } else {
        fputs("\r               \r", stderr);
    }
    fflush(stderr);
}

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

static IfigStatus write_rows(const IfigFigure *figure, const IfigCliSettings *settings,
                             IfigPngWriter *png, IfigError *error)
{
    const uint32_t all = (uint32_t)settings->size;
    const size_t row_bytes = (size_t)all * 3 * (settings->depth == 16 ? 2 : 1);
    const IfigPixelFormat format = settings->depth == 16 ? IFIG_PIXELS_SRGB16 : IFIG_PIXELS_SRGB8;
    const uint32_t step = rows_at_a_time(figure, row_bytes, all);
    Clock clock = {.is_shown = 0};
    clock_gettime(CLOCK_MONOTONIC, &clock.start);
    void *rows = malloc(row_bytes * step);
    if (rows == NULL) {
        snprintf(error->message, sizeof error->message,
                 "no memory for %u rows of the picture; choose a smaller --size", step);
        return IFIG_ERROR_MEMORY;
    }
    IfigStatus status = IFIG_OK;
    for (uint32_t row = 0; row < all && status == IFIG_OK; row += step) {
        const uint32_t count = all - row < step ? all - row : step;
        status = ifig_figure_render(figure, format, row, count, rows, error);
        if (status == IFIG_OK) {
            status = ifig_png_write_rows(png, rows, count, error);
        }
        show_progress(&clock, status == IFIG_OK ? row + count : all, all);
    }
    free(rows);
    return status;
}

/* Open, fill and close the file; a signal in between removes what was begun. */
static IfigStatus write_file(const IfigFigure *figure, const IfigCliSettings *settings,
                             const IfigPngOptions *options, const char *path, IfigError *error)
{
    IfigPngWriter *png = NULL;
    ifig_cli_hold_signals();
    IfigStatus status = ifig_png_open(path, options, &png, error);
    if (status == IFIG_OK) {
        ifig_cli_guard_file(ifig_png_temporary_path(png));
    }
    ifig_cli_release_signals();
    if (status != IFIG_OK) {
        return status;
    }
    status = write_rows(figure, settings, png, error);
    if (status == IFIG_OK) {
        status = ifig_png_close(png, error);
    } else {
        ifig_png_discard(png);
    }
    ifig_cli_guard_file(NULL);
    return status;
}

IfigCliStatus ifig_cli_make_picture(const IfigCliSettings *settings, const IfigCliScene *scene,
                                    const char *path, int keep_existing)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigPngOptions png = IFIG_PNG_OPTIONS_INIT;
    IfigFigure *figure = NULL;
    Words words = {.count = 0};
    options.pixels = png.width = png.height = (uint32_t)settings->size;
    options.exposure_stops = settings->exposure_stops;
    options.threads = settings->threads;
    png.depth = settings->depth;
    png.dpi = settings->dpi;
    png.keep_existing = keep_existing;
    IfigCliStatus ending = collect_words(settings, scene, &words);
    if (ending == IFIG_CLI_OK) {
        png.text = words.text;
        png.text_count = words.count;
        IfigStatus status = ifig_figure_create(&scene->scene, &options, &figure, &error);
        if (status == IFIG_OK) {
            status = write_file(figure, settings, &png, path, &error);
        }
        if (status != IFIG_OK) {
            ending = ifig_cli_complain(ifig_cli_exit_status(status, IFIG_CLI_WORDS), "%s",
                                       error.message);
        }
    }
    ifig_figure_free(figure);
    free_words(&words);
    return ending;
}
