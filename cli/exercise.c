/* SPDX-License-Identifier: MIT */
/* interfig exercise: a folder of figures with questions, and the answers. */
#include <stdlib.h>
#include <string.h>

#include "arguments.h"
#include "commands.h"
#include "describe.h"
#include "exercise_folder.h"
#include "exercise_tables.h"
#include "recipe.h"
#include "scene.h"
#include "signals.h"

typedef struct Job {
    const IfigCliSettings *settings;
    IfigCatalogue *catalogue;
    const IfigSpecies **species;
    size_t species_count;
    IfigExercise *exercise;
    char **recipes;
    IfigCliFolder folder;
} Job;

static IfigCliStatus check_settings(IfigCliSettings *settings)
{
    const double least_dpi = 50.0, most_dpi = 1200.0;
    const int least_size = 100, most_size = 4096, usual_size = 600;
    if (settings->output == NULL || strcmp(settings->output, "-") == 0) {
        return ifig_cli_refuse(settings, "an exercise is a folder of files; name a new one, such "
                                         "as: interfig exercise -o tonight");
    }
    if (settings->given[IFIG_CLI_DPI] &&
        !(settings->dpi >= least_dpi && settings->dpi <= most_dpi)) {
        return ifig_cli_refuse(settings,
                               "--dpi: '%s' is out of range; allowed for pages: 50 to 1200; for "
                               "example: --dpi 200",
                               ifig_cli_number(settings->dpi).text);
    }
    if (settings->given[IFIG_CLI_SIZE] &&
        (settings->size < least_size || settings->size > most_size)) {
        return ifig_cli_refuse(settings,
                               "--size: '%d' is out of range; allowed for an exercise: 100 to 4096 "
                               "pixels; for example: --size 600",
                               settings->size);
    }
    settings->size = settings->given[IFIG_CLI_SIZE] ? settings->size : usual_size;
    settings->dpi = settings->given[IFIG_CLI_DPI] ? settings->dpi : 200.0;
    settings->list = settings->list != NULL ? settings->list : "common";
    return IFIG_CLI_OK;
}

static IfigCliStatus complain_of(IfigStatus status, const char *option, const IfigError *error)
{
    return ifig_cli_complain(status == IFIG_ERROR_UNSUITABLE
                                 ? IFIG_CLI_USAGE
                                 : ifig_cli_exit_status(status, IFIG_CLI_WORDS),
                             "%s%s", option, error->message);
}

/* A signal waits until what was begun is gone. */
static int go_on(double share, void *context)
{
    (void)share;
    (void)context;
    return !ifig_cli_is_ending();
}

static IfigCliStatus make_questions(Job *job)
{
    const IfigCliSettings *const settings = job->settings;
    const IfigCliKept nothing = {NULL, NULL};
    IfigExerciseOptions options = IFIG_EXERCISE_OPTIONS_INIT;
    IfigError error = IFIG_ERROR_INIT;
    const IfigCliStatus ending = ifig_cli_open_catalogue(settings, &nothing, &job->catalogue);
    if (ending != IFIG_CLI_OK) {
        return ending;
    }
    job->species = calloc(ifig_catalogue_count(job->catalogue) + 1, sizeof *job->species);
    if (job->species == NULL) {
        return ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory for a list of stones");
    }
    IfigStatus status = ifig_exercise_species(job->catalogue, settings->list, job->species,
                                              &job->species_count, &error);
    if (status != IFIG_OK) {
        return status == IFIG_ERROR_MEMORY ? complain_of(status, "", &error)
                                           : ifig_cli_refuse(settings, "--from: %s", error.message);
    }
    options.species = job->species;
    options.species_count = job->species_count;
    options.count = settings->count;
    options.level = settings->level;
    options.seed = (unsigned long long)settings->seed;
    options.progress = go_on;
    status = ifig_exercise_create(&options, &job->exercise, &error);
    return status == IFIG_OK ? IFIG_CLI_OK : complain_of(status, "--count: ", &error);
}

/* The command line of 'interfig figure' that makes the question's picture. */
static char *write_recipe(const IfigCliSettings *settings, const IfigQuestion *question)
{
    const char *const key = ifig_species_text(question->layer.species, IFIG_TEXT_KEY);
    IfigCliSettings asked = ifig_cli_default_settings();
    char *text = NULL;
    size_t length = 0;
    asked.command = IFIG_CLI_FIGURE;
    asked.species_file_count = settings->species_file_count;
    memcpy(asked.species_files, settings->species_files, sizeof asked.species_files);
    asked.thickness_mm = question->layer.thickness_mm;
    asked.view = (int)question->layer.orientation.view;
    asked.tilt_deg = question->layer.orientation.tilt_deg;
    asked.tilt_azimuth_deg = question->layer.orientation.tilt_azimuth_deg;
    asked.stage_deg = question->layer.orientation.stage_deg;
    asked.field_deg = question->instrument.field_deg;
    asked.plate = (int)question->instrument.plate.material;
    asked.plate_nm = question->instrument.plate.retardation_nm;
    asked.plate_slow_deg = question->instrument.plate.slow_azimuth_deg;
    asked.size = settings->size;
    /* tanzanite the species is also the name of a colour */
    asked.given[IFIG_CLI_COLOURLESS] =
        ifig_species_colour_of_word(question->layer.species, key) > 0;
    FILE *const out = open_memstream(&text, &length);
    if (out == NULL) {
        return NULL;
    }
    ifig_cli_write_recipe(out, &asked, &key, 1);
    return fclose(out) == 0 ? text : NULL;
}

static IfigCliStatus write_recipes(Job *job)
{
    const size_t count = ifig_exercise_count(job->exercise);
    job->recipes = calloc(count + 1, sizeof *job->recipes);
    for (size_t i = 0; job->recipes != NULL && i < count; i++) {
        job->recipes[i] = write_recipe(job->settings, ifig_exercise_at(job->exercise, i));
        if (job->recipes[i] == NULL) {
            return ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory for the recipes");
        }
    }
    return job->recipes != NULL ? IFIG_CLI_OK
                                : ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory for recipes");
}

static IfigStatus write_pages(const Job *job, const char *path, int has_answers, IfigError *error)
{
    IfigPageOptions options = IFIG_PAGE_OPTIONS_INIT;
    IfigExerciseSheet sheet = IFIG_EXERCISE_SHEET_INIT;
    options.dpi = job->settings->dpi;
    sheet.title = job->settings->title;
    sheet.has_answers = has_answers;
    sheet.recipes = (const char *const *)job->recipes;
    sheet.threads = job->settings->threads;
    sheet.progress = go_on;
    return ifig_exercise_write(path, &options, job->exercise, &sheet, error);
}

/* The picture of a question says nothing of its stone. */
static IfigStatus write_figure(const Job *job, size_t index, const char *path, IfigError *error)
{
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigPngOptions png = IFIG_PNG_OPTIONS_INIT;
    IfigPngWriter *writer = NULL;
    char title[32];
    snprintf(title, sizeof title, "Question %zu", index + 1);
    const IfigImageText text[] = {{"Title", title}, {"Disclaimer", ifig_cli_evidence}};
    options.pixels = png.width = png.height = (uint32_t)job->settings->size;
    options.threads = job->settings->threads;
    png.text = text;
    png.text_count = sizeof text / sizeof *text;
    uint8_t *const rgb = malloc((size_t)3 * options.pixels * options.pixels);
    if (rgb == NULL) {
        snprintf(error->message, sizeof error->message, "no memory for a figure; lower --size");
        return IFIG_ERROR_MEMORY;
    }
    IfigStatus status = ifig_exercise_picture(job->exercise, index, &options, rgb, error);
    if (status == IFIG_OK) {
        status = ifig_png_open(path, &png, &writer, error);
    }
    if (status == IFIG_OK) {
        status = ifig_png_write_rows(writer, rgb, png.height, error);
        if (status == IFIG_OK) {
            status = ifig_png_close(writer, error);
        } else {
            ifig_png_discard(writer);
        }
    }
    free(rgb);
    return status;
}

enum { THE_PAGES, THE_ANSWERS, THE_CSV, THE_JSON, THE_FIGURES };

/* One file of the folder. */
static IfigCliStatus write_one(const Job *job, size_t which, const char *name)
{
    const IfigCliExercise tables = {job->settings, job->exercise, job->recipes};
    IfigError error = IFIG_ERROR_INIT;
    IfigStatus status = IFIG_OK;
    IfigCliStatus ending = IFIG_CLI_OK;
    char *const path = ifig_cli_folder_file(&job->folder, name);
    if (path == NULL) {
        return ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory for the name of a file");
    }
    if (which == THE_CSV) {
        ending = ifig_cli_write_exercise_csv(&tables, path);
    } else if (which == THE_JSON) {
        ending = ifig_cli_write_exercise_json(&tables, path);
    } else if (which < THE_FIGURES) {
        status = write_pages(job, path, which == THE_ANSWERS, &error);
    } else {
        status = write_figure(job, which - THE_FIGURES, path, &error);
    }
    free(path);
    return status == IFIG_OK ? ending : complain_of(status, "", &error);
}

static IfigCliStatus write_all(Job *job)
{
    const size_t count = ifig_exercise_count(job->exercise);
    IfigCliStatus status = IFIG_CLI_OK;
    for (size_t i = 0; i < THE_FIGURES + count && status == IFIG_CLI_OK; i++) {
        char figure[32];
        const char *name = figure;
        if (i < THE_FIGURES) {
            name = ifig_cli_exercise_files[i];
        } else {
            snprintf(figure, sizeof figure, "%s.png",
                     ifig_cli_question_id(i - THE_FIGURES, count).text);
        }
        status = ifig_cli_is_ending() ? IFIG_CLI_IO : write_one(job, i, name);
    }
    return status == IFIG_CLI_OK ? ifig_cli_commit_folder(&job->folder) : status;
}

static void say_result(const Job *job)
{
    const size_t count = ifig_exercise_count(job->exercise);
    ifig_cli_print_word(stdout, job->settings->output);
    printf(": %zu question%s of level %d about %zu stone%s: exercise.pdf, answers.pdf, "
           "exercise.csv, exercise.json, %s.png to %s.png\n",
           count, count == 1 ? "" : "s", job->settings->level, job->species_count,
           job->species_count == 1 ? "" : "s", ifig_cli_question_id(0, count).text,
           ifig_cli_question_id(count - 1, count).text);
}

static void close_job(Job *job)
{
    ifig_cli_close_folder(&job->folder);
    for (size_t i = 0; job->recipes != NULL && job->recipes[i] != NULL; i++) {
        free(job->recipes[i]);
    }
    free(job->recipes);
    ifig_exercise_free(job->exercise);
    free(job->species);
    ifig_catalogue_free(job->catalogue);
}

IfigCliStatus ifig_cli_run_exercise(IfigCliSettings *settings)
{
    Job job = {.settings = settings};
    IfigCliStatus status = check_settings(settings);
    if (status != IFIG_CLI_OK) {
        return status;
    }
    ifig_cli_hold_signals();
    status = ifig_cli_open_folder(settings->output, settings->given[IFIG_CLI_FORCE], &job.folder);
    if (status == IFIG_CLI_OK) {
        status = make_questions(&job);
    }
    if (status == IFIG_CLI_OK) {
        status = write_recipes(&job);
    }
    if (status == IFIG_CLI_OK) {
        status = write_all(&job);
    }
    if (status == IFIG_CLI_OK) {
        say_result(&job);
    }
    close_job(&job);
    ifig_cli_release_signals(); /* one that waited ends the program now */
    return status;
}
