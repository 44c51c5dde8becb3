/* SPDX-License-Identifier: MIT */
#include "labelled.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "arguments.h"
#include "describe.h"
#include "interfig/page.h"
#include "plot.h"
#include "range.h"
#include "signals.h"

static const double MM_IN_AN_INCH = 25.4;
static const double LEAST_MM = 20.0, MOST_ALONE_MM = 500.0, MOST_ON_SHEET_MM = 166.0;

static int is_sheet(const char *path)
{
    const size_t length = strlen(path), tail = strlen(".pdf");
    return length > tail && (strcasecmp(path + length - tail, ".pdf") == 0 ||
                             strcasecmp(path + length - tail, ".svg") == 0);
}

int ifig_cli_is_labelled(const IfigCliSettings *settings, const char *path)
{
    return settings->labels != IFIG_LABELS_NONE || is_sheet(path);
}

void ifig_cli_write_labels(FILE *out, const IfigCliOption *option, const IfigCliSettings *settings)
{
    if (settings->labels != IFIG_LABELS_NONE) {
        ifig_cli_write_word(out, option, settings);
    }
}

static double width_mm(const IfigCliSettings *settings)
{
    return settings->size * MM_IN_AN_INCH / settings->dpi;
}

static IfigCliStatus check_size(const IfigCliSettings *settings, const char *path)
{
    const double least_dpi = 50.0, most_dpi = 1200.0;
    const double most = is_sheet(path) ? MOST_ON_SHEET_MM : MOST_ALONE_MM;
    if (!(settings->dpi >= least_dpi && settings->dpi <= most_dpi)) {
        return ifig_cli_refuse(settings,
                               "--dpi: '%s' is out of range; allowed with labels or on a sheet: 50 "
                               "to 1200; for example: --dpi 300",
                               ifig_cli_number(settings->dpi).text);
    }
    if (is_sheet(path) && !settings->given[IFIG_CLI_SIZE]) {
        return IFIG_CLI_OK;
    }
    if (width_mm(settings) < LEAST_MM || width_mm(settings) > most) {
        return ifig_cli_refuse(settings,
                               "--size: %d pixels at %s dpi are %s mm; allowed with labels or on a "
                               "sheet: %s to %s mm; for example: --size 1024 --dpi 300",
                               settings->size, ifig_cli_number(settings->dpi).text,
                               ifig_cli_rounded(width_mm(settings), 3).text,
                               ifig_cli_number(LEAST_MM).text, ifig_cli_number(most).text);
    }
    return IFIG_CLI_OK;
}

IfigCliStatus ifig_cli_check_labelled(IfigCliSettings *settings, const char *path)
{
    if (!ifig_cli_is_labelled(settings, path)) {
        return IFIG_CLI_OK;
    }
    if (settings->command != IFIG_CLI_FIGURE) {
        return ifig_cli_refuse(settings,
                               "-o: '%s' names a PDF or an SVG, and this command writes a PNG; end "
                               "the name in .png, or use interfig figure",
                               ifig_cli_shown(path).text);
    }
    if (settings->depth != 8) {
        return ifig_cli_refuse(settings, "--depth 16 goes with a PNG without labels alone; leave "
                                         "--depth out");
    }
    if (settings->range != IFIG_CLI_RANGE_NONE) {
        return ifig_cli_refuse(settings,
                               "--range shows several figures, and only one can be labelled or "
                               "stand on a sheet; leave --range out");
    }
    const IfigCliStatus status = check_size(settings, path);
    if (status == IFIG_CLI_OK && is_sheet(path) && !settings->given[IFIG_CLI_SIZE]) {
        const IfigLabelledFigure usual = IFIG_LABELLED_FIGURE_INIT;
        settings->size = (int)lround(usual.width_mm * settings->dpi / MM_IN_AN_INCH);
    }
    return status;
}

static IfigStatus write(const IfigCliSettings *settings, const IfigCliScene *scene,
                        const char *path, const IfigPngOptions *words, const char *subtitle,
                        IfigError *error)
{
    char caution[400];
    IfigPageOptions options = IFIG_PAGE_OPTIONS_INIT;
    IfigPageWords said = IFIG_PAGE_WORDS_INIT;
    IfigLabelledFigure figure = IFIG_LABELLED_FIGURE_INIT;
    options.format = is_sheet(path) ? IFIG_PAGE_BY_NAME : IFIG_PAGE_PNG;
    options.dpi = settings->dpi;
    options.text = words->text;
    options.text_count = words->text_count;
    options.keep_existing = words->keep_existing;
    said.title = words->text[0].text;
    said.subtitle = subtitle;
    snprintf(caution, sizeof caution, "%s %s", ifig_cli_evidence, IFIG_CLI_EYES);
    said.caution = caution;
    figure.scene = &scene->scene;
    figure.labels = (IfigLabels)settings->labels;
    figure.is_alone = !is_sheet(path);
    figure.width_mm = width_mm(settings);
    figure.options.exposure_stops = settings->exposure_stops;
    figure.options.threads = settings->threads;
    ifig_cli_hold_signals();
    const IfigStatus status = ifig_page_figure(path, &options, &figure, &said, error);
    ifig_cli_release_signals();
    return status;
}

IfigCliStatus ifig_cli_write_labelled(const IfigCliSettings *settings, const IfigCliScene *scene,
                                      const char *path, const IfigPngOptions *words)
{
    IfigError error = IFIG_ERROR_INIT;
    char *const subtitle = ifig_cli_write_text(ifig_cli_describe, settings, scene);
    if (subtitle == NULL) {
        return ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory for the words on the sheet");
    }
    const IfigCliStatus status =
        ifig_cli_end_plate(write(settings, scene, path, words, subtitle, &error), &error);
    free(subtitle);
    return status;
}
