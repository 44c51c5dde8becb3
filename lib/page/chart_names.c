/* SPDX-License-Identifier: MIT */
/* The usual scale: orders above the strip, and below it the colours' names in words. */
#include "chart.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double STRIP_HEIGHT = 13.0, TIER_MM = 3.4, NEXT_NAME_MM = 1.6;

enum { TIERS = 3, RUNS_MAX = 512, STEP_NM = 2 };

/* Retardations of one name. */
typedef struct Run {
    double from_nm, to_nm;
    const char *name;
    double left, right, middle; /* of the name, mm */
    int tier;                   /* -1: no room */
} Run;

static void draw_order_names(IfigCanvas *canvas, const IfigChartFrame *frame, double y)
{
    static const IfigPageMessage ordinals[] = {IFIG_PAGE_SAY_CHART_ORDER_FIRST,
                                               IFIG_PAGE_SAY_CHART_ORDER_SECOND,
                                               IFIG_PAGE_SAY_CHART_ORDER_THIRD};
    const IfigPen pen = ifig_pen(IFIG_INK_AXIS, 0.25, IFIG_DASH_SOLID);
    IfigTextStyle style = ifig_text_style(7.5, IFIG_INK_TEXT);
    style.align = IFIG_ALIGN_CENTRE;
    style.level = IFIG_LEVEL_MIDDLE;
    style.is_bold = 1;
    for (int order = 1; order <= frame->chart->orders; order++) {
        const double from = ifig_chart_x(frame, (order - 1) * frame->order_nm);
        const double to = ifig_chart_x(frame, order * frame->order_nm);
        const IfigPageText ordinal = order <= 3
                                         ? ifig_page_say(ordinals[order - 1], NULL, NULL)
                                         : ifig_page_say(IFIG_PAGE_SAY_CHART_ORDER_OTHER,
                                                         ifig_number_text(order, 2).text, NULL);
        ifig_canvas_line(canvas, &pen, (IfigPoint){to, y - 1.8}, (IfigPoint){to, y + 1.8});
        ifig_canvas_text(canvas, &style, (IfigPoint){0.5 * (from + to), y},
                         ifig_page_say(IFIG_PAGE_SAY_CHART_ORDER, ordinal.text, NULL).text);
    }
}

/* Neighbouring retardations of one name; returns how many runs. */
static size_t find_runs(const IfigChartFrame *frame, Run runs[RUNS_MAX], IfigError *error)
{
    const size_t count = (size_t)(frame->most_nm / STEP_NM) + 1;
    double *const retardation = malloc(count * sizeof *retardation);
    IfigRetardationColour *const colours = malloc(count * sizeof *colours);
    size_t found = 0;
    IfigStatus status = IFIG_ERROR_MEMORY;
    for (size_t i = 0; retardation != NULL && i < count; i++) {
        retardation[i] = STEP_NM * (double)i;
    }
    if (retardation == NULL || colours == NULL) {
        ifig_fail(error, status, "no memory for the names of a chart's colours; close programs");
    } else {
        status = ifig_retardation_colours(frame->chart->lamp, frame->chart->polars, NULL,
                                          retardation, count, colours, error);
    }
    for (size_t i = 0; status == IFIG_OK && i < count; i++) {
        const char *const name = ifig_colour_text(colours[i].colour);
        if ((found == 0 || strcmp(runs[found - 1].name, name) != 0) && found < RUNS_MAX) {
            runs[found++] = (Run){.from_nm = retardation[i], .name = name, .tier = -1};
        }
        runs[found - 1].to_nm = retardation[i] + STEP_NM;
    }
    free(colours);
    free(retardation);
    return found;
}

/* 1 where the name of `run` may stand in a tier: beside the names there, its leader beside those of
 * the tiers above, and no other's leader through it. */
static int fits(const Run *runs, size_t count, const Run *run, int tier)
{
    const double beside = 0.7;
    for (size_t i = 0; i < count; i++) {
        const Run *const other = &runs[i];
        if (other->tier == tier && run->left < other->right + NEXT_NAME_MM &&
            other->left < run->right + NEXT_NAME_MM) {
            return 0;
        }
        if (other->tier >= 0 && other->tier < tier && run->middle > other->left - beside &&
            run->middle < other->right + beside) {
            return 0;
        }
        if (other->tier > tier && other->middle > run->left - beside &&
            other->middle < run->right + beside) {
            return 0;
        }
    }
    return 1;
}

static int by_width(const void *a, const void *b)
{
    const Run *const first = *(const Run *const *)a, *const second = *(const Run *const *)b;
    const double one = first->to_nm - first->from_nm, two = second->to_nm - second->from_nm;
    return one != two ? (one < two) - (one > two)
                      : (first->from_nm > second->from_nm) - (first->from_nm < second->from_nm);
}

static void place_names(IfigCanvas *canvas, const IfigChartFrame *frame, const IfigTextStyle *style,
                        Run *runs, size_t count)
{
    /* Where along the name its leader comes down: better aside than a tier further. */
    enum { WAYS = 3 };
    static const double leads[WAYS] = {0.5, 0.15, 0.85};
    const Run *order[RUNS_MAX];
    for (size_t i = 0; i < count; i++) {
        Run *const run = &runs[i];
        const double width = ifig_canvas_measure(canvas, style, (IfigPoint){0, 0}, run->name).width;
        run->middle = ifig_chart_x(frame, 0.5 * (run->from_nm + fmin(run->to_nm, frame->most_nm)));
        run->left = fmax(run->middle - 0.5 * width, frame->left - 6.0);
        run->right = run->left + width;
        order[i] = run;
    }
    qsort(order, count, sizeof *order, by_width); /* wide runs choose first */
    for (size_t i = 0; i < count; i++) {
        Run *const run = &runs[order[i] - runs];
        const double width = run->right - run->left;
        for (int try = 0; try < TIERS * WAYS && run->tier < 0; try++) {
            run->left = fmax(run->middle - leads[try % WAYS] * width, frame->left - 6.0);
            run->right = run->left + width;
            run->tier = fits(runs, count, run, try / WAYS) ? try / WAYS : -1;
        }
    }
}

static void draw_names(IfigCanvas *canvas, const IfigTextStyle *style, const Run *runs,
                       size_t count, double y)
{
    const IfigPen leader = ifig_pen(IFIG_INK_MUTED, 0.15, IFIG_DASH_SOLID);
    for (size_t i = 0; i < count; i++) {
        const Run *const run = &runs[i];
        if (run->tier >= 0) {
            const double top = y + 1.4 + TIER_MM * run->tier;
            ifig_canvas_line(canvas, &leader, (IfigPoint){run->middle, y},
                             (IfigPoint){run->middle, top - 0.1});
            ifig_canvas_text(canvas, style, (IfigPoint){run->left, top}, run->name);
        }
    }
}

static void tell_runs(const Run *runs, size_t count, IfigChartWords *words)
{
    ifig_chart_add(words, ifig_page_message(IFIG_PAGE_SAY_CHART_COLOURS_WORDS));
    for (size_t i = 0; i < count; i++) {
        ifig_chart_add(words, ifig_page_say(IFIG_PAGE_SAY_CHART_COLOUR_FROM,
                                            ifig_number_text(runs[i].from_nm, 5).text, runs[i].name)
                                  .text);
    }
}

static void draw_scale(IfigCanvas *canvas, const IfigChartFrame *frame, Run *runs, double y)
{
    const IfigTextStyle style = ifig_text_style(7.0, IFIG_INK_TEXT);
    IfigChartWords words = {.used = 0};
    IfigError error = IFIG_ERROR_INIT;
    const size_t count = find_runs(frame, runs, &error);
    if (count == 0) {
        ifig_canvas_fail(canvas, &error);
        return;
    }
    tell_runs(runs, count, &words);
    ifig_canvas_begin(canvas, IFIG_ROLE_FIGURE, words.text);
    draw_order_names(canvas, frame, y + 1.8);
    ifig_chart_strip(canvas, frame, NULL, y + 4.0, STRIP_HEIGHT);
    place_names(canvas, frame, &style, runs, count);
    draw_names(canvas, &style, runs, count, y + 4.0 + STRIP_HEIGHT);
    ifig_canvas_end(canvas);
}

double ifig_chart_scale(IfigCanvas *canvas, const IfigChartFrame *frame, double y)
{
    Run *const runs = malloc(RUNS_MAX * sizeof *runs);
    if (runs == NULL) {
        IfigError error = IFIG_ERROR_INIT;
        ifig_fail(&error, IFIG_ERROR_MEMORY, "no memory for a chart; close programs");
        ifig_canvas_fail(canvas, &error);
    } else {
        draw_scale(canvas, frame, runs, y);
    }
    free(runs);
    return y + 4.0 + STRIP_HEIGHT + 1.4 + TIERS * TIER_MM;
}
