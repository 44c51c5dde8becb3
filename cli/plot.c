/* SPDX-License-Identifier: MIT */
#include "plot.h"

#include <stdlib.h>
#include <string.h>

#include "arguments.h"
#include "colour.h"
#include "describe.h"
#include "recipe.h"
#include "signals.h"

enum { TITLE = 0, SUBTITLE, RECIPE, MARKS_MAX = 16 };

char *ifig_cli_write_text(IfigCliTextWriter *writer, const IfigCliSettings *settings,
                          const IfigCliScene *scene)
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

static int ends_in(const char *path, const char *end)
{
    const size_t length = strlen(path), tail = strlen(end);
    return length > tail && strcmp(path + length - tail, end) == 0;
}

static IfigCliStatus check_file(const IfigCliSettings *settings)
{
    const char *path = settings->output;
    const double least_dpi = 50.0, most_dpi = 1200.0;
    if (strcmp(path, "-") == 0) {
        return ifig_cli_refuse(settings,
                               "-o -: standard output holds the words of the answer; give "
                               "the plate a file, such as -o plate.pdf");
    }
    if (!ends_in(path, ".png") && !ends_in(path, ".pdf") && !ends_in(path, ".svg")) {
        return ifig_cli_refuse(settings,
                               "-o: '%s' ends in neither .png, .pdf nor .svg, which says what to "
                               "write; for example: -o plate.pdf",
                               ifig_cli_shown(path).text);
    }
    if (settings->given[IFIG_CLI_DPI] &&
        !(settings->dpi >= least_dpi && settings->dpi <= most_dpi)) {
        return ifig_cli_refuse(settings,
                               "--dpi: '%s' is out of range; allowed for a plate: 50 to 1200; for "
                               "example: --dpi 200",
                               ifig_cli_number(settings->dpi).text);
    }
    return IFIG_CLI_OK;
}

IfigCliStatus ifig_cli_open_plate(const IfigCliSettings *settings, const IfigCliScene *scene,
                                  IfigCliTextWriter *const writers[3], IfigCliPlate *plate)
{
    memset(plate, 0, sizeof *plate);
    plate->options = (IfigPageOptions)IFIG_PAGE_OPTIONS_INIT;
    plate->words = (IfigPageWords)IFIG_PAGE_WORDS_INIT;
    const IfigCliStatus status = check_file(settings);
    if (status != IFIG_CLI_OK) {
        return status;
    }
    plate->title = ifig_cli_write_text(writers[TITLE], settings, scene);
    plate->subtitle = ifig_cli_write_text(writers[SUBTITLE], settings, scene);
    plate->recipe = ifig_cli_write_text(writers[RECIPE], settings, scene);
    if (plate->title == NULL || plate->subtitle == NULL || plate->recipe == NULL) {
        return ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory for the words in the plate");
    }
    snprintf(plate->software, sizeof plate->software, "interfig %s", ifig_version());
    const IfigImageText text[] = {
        {"Title", plate->title},       {"Description", plate->subtitle},
        {"Software", plate->software}, {"Disclaimer", ifig_cli_evidence},
        {"Recipe", plate->recipe},     {"Catalogue", ifig_catalogue_hash()}};
    memcpy(plate->text, text, sizeof text);
    plate->options.text = plate->text;
    plate->options.text_count = sizeof text / sizeof *text;
    plate->options.dpi = settings->given[IFIG_CLI_DPI] ? settings->dpi : plate->options.dpi;
    plate->words.title = plate->title;
    plate->words.subtitle = plate->subtitle;
    plate->words.caution = ifig_cli_evidence;
    return IFIG_CLI_OK;
}

void ifig_cli_close_plate(IfigCliPlate *plate)
{
    free(plate->title);
    free(plate->subtitle);
    free(plate->recipe);
}

IfigCliStatus ifig_cli_end_plate(IfigStatus status, const IfigError *error)
{
    return status == IFIG_OK ? IFIG_CLI_OK
                             : ifig_cli_complain(ifig_cli_exit_status(status, IFIG_CLI_WORDS),
                                                 "-o: %s", error->message);
}

/* The stone as a heading has it: "Ruby", "Quartz", "Stone of measured indices". */
void ifig_cli_write_stone(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    const IfigLayer *layer = &scene->layer[0];
    const char *colour = ifig_species_colour_name(layer->species, layer->body_colour);
    if (settings->layer_count > 0) {
        fputs("A stack of layers", out);
    } else if (scene->measured != NULL) {
        fputs("A stone of measured indices", out);
    } else {
        fputs(ifig_species_text(scene->species, IFIG_TEXT_NAME), out);
        if (colour != NULL) {
            fprintf(out, " (%s)", colour);
        }
    }
}

static void write_blink_title(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    ifig_cli_write_stone(out, settings, scene);
    fputs(" turned between the polars", out);
}

static void write_hunt_title(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    ifig_cli_write_stone(out, settings, scene);
    fputs(": where the patch lies", out);
}

static void write_recipe(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    const char *stone = ifig_cli_recipe_stone(settings, scene);
    ifig_cli_write_recipe(out, settings, &stone, stone[0] != '\0');
}

IfigCliStatus ifig_cli_plot_blink(const IfigCliSettings *settings, const IfigCliScene *scene,
                                  const IfigBlink *blink, const char *verdict)
{
    IfigCliTextWriter *const writers[3] = {write_blink_title, ifig_cli_describe, write_recipe};
    IfigCliPlate plate;
    IfigError error = IFIG_ERROR_INIT;
    if (settings->output == NULL) {
        return IFIG_CLI_OK;
    }
    IfigCliStatus ending = ifig_cli_open_plate(settings, scene, writers, &plate);
    if (ending == IFIG_CLI_OK) {
        plate.words.caption = verdict;
        ifig_cli_hold_signals();
        const IfigStatus status =
            ifig_page_blink(settings->output, &plate.options, blink, &plate.words, &error);
        ifig_cli_release_signals();
        ending = ifig_cli_end_plate(status, &error);
    }
    ifig_cli_close_plate(&plate);
    return ending;
}

/* The marks of a map. */
typedef struct Marks {
    IfigMapMark mark[MARKS_MAX];
    char cuts[IFIG_HUNT_CUTS][80];
    size_t count;
} Marks;

static IfigStatus add_mark(const IfigScene *scene, const double direction[3], IfigMarkKind kind,
                           const char *label, Marks *marks, IfigError *error)
{
    IfigMapMark *mark = &marks->mark[marks->count];
    *mark = (IfigMapMark){.kind = kind, .label = label};
    if (marks->count == MARKS_MAX) {
        return IFIG_OK;
    }
    marks->count++;
    return ifig_hunt_place(scene, direction, &mark->x, &mark->y, error);
}

static IfigStatus collect_marks(const IfigScene *scene, const IfigHunt *hunt, Marks *marks,
                                IfigError *error)
{
    static const double axes[3][3] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
    static const char *const names[3] = {"X", "Y", "Z"};
    const int is_uniaxial = hunt->axes.count == 1; /* its one axis is c, the others are no axes */
    IfigStatus status = IFIG_OK;
    marks->count = 0;
    for (int i = 0; i < 3 && !is_uniaxial && status == IFIG_OK; i++) {
        status = add_mark(scene, axes[i], IFIG_MARK_CRYSTAL_AXIS, names[i], marks, error);
    }
    for (int i = 0; i < hunt->axes.count && status == IFIG_OK; i++) {
        status = add_mark(scene, hunt->axes.axis[i], IFIG_MARK_OPTIC_AXIS,
                          is_uniaxial ? "optic axis, c" : "optic axis", marks, error);
    }
    for (size_t i = 0; i < hunt->cut_count && status == IFIG_OK; i++) {
        /* "table along the c axis (long crystals)": what stands in brackets the advice says */
        snprintf(marks->cuts[i], sizeof marks->cuts[i], "%s", hunt->cut[i].name);
        char *bracket = strstr(marks->cuts[i], " (");
        if (bracket != NULL) {
            *bracket = '\0';
        }
        status =
            add_mark(scene, hunt->cut[i].direction, IFIG_MARK_TABLE, marks->cuts[i], marks, error);
    }
    return status;
}

static IfigStatus draw_map(const IfigCliSettings *settings, const IfigCliScene *scene,
                           const IfigHunt *hunt, const IfigCliPlate *plate, IfigError *error)
{
    IfigFigureOptions figure = IFIG_FIGURE_OPTIONS_INIT;
    Marks marks;
    figure.pixels = ifig_page_hunt_pixels(&plate->options);
    figure.threads = settings->threads;
    uint8_t *rgb = malloc((size_t)3 * figure.pixels * figure.pixels);
    if (rgb == NULL) {
        snprintf(error->message, sizeof error->message, "no memory for a map of %u pixels",
                 figure.pixels);
        return IFIG_ERROR_MEMORY;
    }
    IfigStatus status = ifig_hunt_map(&scene->scene, &figure, rgb, error);
    if (status == IFIG_OK) {
        status = collect_marks(&scene->scene, hunt, &marks, error);
    }
    if (status == IFIG_OK) {
        const IfigPageMap map = {rgb, figure.pixels, marks.mark, marks.count};
        ifig_cli_hold_signals();
        status = ifig_page_hunt(settings->output, &plate->options, &map, &plate->words, error);
        ifig_cli_release_signals();
    }
    free(rgb);
    return status;
}

IfigCliStatus ifig_cli_plot_hunt(const IfigCliSettings *settings, const IfigCliScene *scene,
                                 const IfigHunt *hunt, const char *advice)
{
    IfigCliTextWriter *const writers[3] = {write_hunt_title, ifig_cli_describe, write_recipe};
    IfigCliPlate plate;
    IfigError error = IFIG_ERROR_INIT;
    if (settings->output == NULL) {
        return IFIG_CLI_OK;
    }
    IfigCliStatus ending = ifig_cli_open_plate(settings, scene, writers, &plate);
    if (ending == IFIG_CLI_OK) {
        plate.words.caption = advice;
        ending = ifig_cli_end_plate(draw_map(settings, scene, hunt, &plate, &error), &error);
    }
    ifig_cli_close_plate(&plate);
    return ending;
}
