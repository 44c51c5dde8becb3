/* SPDX-License-Identifier: MIT */
/* The chart of interference colours: a sheet that prints unscaled on A4 and on Letter. */
#include "chart.h"
#include "plate.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double AXIS_LEFT = IFIG_CHART_MARGIN + 12.0, AXIS_RIGHT = IFIG_CHART_MARGIN + 28.0;
static const double NAMES_HEIGHT = 26.0, FAN_HEIGHT = 48.0;
/* What a strip that is not there leaves to the fan, and their heading where there is none. */
static const double STRIP_ROOM = 10.2, HEADING_ROOM = 5.0;

typedef struct Sheet {
    const IfigPageChart *chart;
    const IfigPageWords *words;
} Sheet;

double ifig_chart_x(const IfigChartFrame *frame, double retardation_nm)
{
    return frame->left + frame->width * retardation_nm / frame->most_nm;
}

void ifig_chart_add(IfigChartWords *words, const char *text)
{
    const size_t length = strlen(text);
    if (words->used + length < sizeof words->text) { /* a word that has no room is left out whole */
        memcpy(words->text + words->used, text, length + 1);
        words->used += length;
    }
}

static IfigChartFrame frame_of(const IfigPageChart *chart)
{
    const double order_nm = ifig_order_nm(chart->lamp);
    return (IfigChartFrame){.chart = chart,
                            .left = AXIS_LEFT,
                            .width = IFIG_CHART_WIDTH - AXIS_LEFT - AXIS_RIGHT,
                            .order_nm = order_nm,
                            .most_nm = order_nm * chart->orders};
}

static double below(IfigBox box)
{
    return box.y + box.height;
}

static double draw_head(IfigCanvas *canvas, const IfigPageWords *words)
{
    const double top = IFIG_CHART_MARGIN - 2.0;
    IfigTextStyle title = ifig_plate_title(), subtitle = ifig_text_style(8.5, IFIG_INK_MUTED);
    title.wrap_mm = subtitle.wrap_mm = IFIG_CHART_WIDTH - 2.0 * IFIG_CHART_MARGIN;
    double y = below(ifig_canvas_passage(canvas, IFIG_ROLE_TITLE, &title,
                                         (IfigPoint){IFIG_CHART_MARGIN, top}, words->title));
    if (words->subtitle != NULL) {
        y = below(ifig_canvas_passage(canvas, IFIG_ROLE_PARAGRAPH, &subtitle,
                                      (IfigPoint){IFIG_CHART_MARGIN, y + 0.5}, words->subtitle));
    }
    return y;
}

static void draw_foot(IfigCanvas *canvas, const IfigPageWords *words, double y)
{
    const IfigPen thin = ifig_pen(IFIG_INK_GRID, 0.2, IFIG_DASH_SOLID);
    IfigTextStyle body = ifig_text_style(8.0, IFIG_INK_TEXT), small = ifig_plate_small();
    body.wrap_mm = small.wrap_mm = IFIG_CHART_WIDTH - 2.0 * IFIG_CHART_MARGIN;
    if (words->caption != NULL) {
        y = below(ifig_canvas_passage(canvas, IFIG_ROLE_PARAGRAPH, &body,
                                      (IfigPoint){IFIG_CHART_MARGIN, y}, words->caption));
    }
    if (words->caution != NULL) {
        ifig_canvas_line(canvas, &thin, (IfigPoint){IFIG_CHART_MARGIN, y + 2.0},
                         (IfigPoint){IFIG_CHART_WIDTH - IFIG_CHART_MARGIN, y + 2.0});
        y = below(ifig_canvas_passage(canvas, IFIG_ROLE_PARAGRAPH, &small,
                                      (IfigPoint){IFIG_CHART_MARGIN, y + 3.0}, words->caution));
    }
    if (y > IFIG_CHART_HEIGHT - 0.8 * IFIG_CHART_MARGIN) {
        IfigError error = IFIG_ERROR_INIT;
        ifig_fail(&error, IFIG_ERROR_UNSUITABLE,
                  "the words below the chart reach %s mm down a sheet of %s mm; make caption and "
                  "caution shorter or leave a strip out",
                  ifig_number_text(y, 4).text, ifig_number_text(IFIG_CHART_HEIGHT, 4).text);
        ifig_canvas_fail(canvas, &error);
    }
}

static void draw(IfigCanvas *canvas, const Sheet *sheet)
{
    const IfigChartFrame frame = frame_of(sheet->chart);
    const size_t strips = sheet->chart->strip_count;
    const double fan_height = FAN_HEIGHT + STRIP_ROOM * (double)(IFIG_CHART_STRIPS_MAX - strips) +
                              (strips == 0 ? HEADING_ROOM : 0.0);
    double y = draw_head(canvas, sheet->words) + 1.0 + NAMES_HEIGHT;
    ifig_chart_fan(canvas, &frame, (IfigBox){frame.left, y, frame.width, fan_height}, NAMES_HEIGHT);
    y = ifig_chart_scale(canvas, &frame, y + fan_height + 5.0);
    y = ifig_chart_strips(canvas, &frame, y + 2.5);
    draw_foot(canvas, sheet->words, y + 1.5);
}

static IfigStatus check_stones(const IfigPageChart *chart, IfigError *error)
{
    for (size_t i = 0; i < chart->species_count + chart->strip_count; i++) {
        const int is_strip = i >= chart->species_count;
        const IfigRetarder retarder = is_strip
                                          ? chart->strips[i - chart->species_count]
                                          : (IfigRetarder){chart->species[i], IFIG_VIEW_DEFAULT};
        double birefringence;
        const IfigStatus status =
            ifig_retarder_birefringence(&retarder, 589.3, &birefringence, error);
        if (status != IFIG_OK) {
            return status;
        }
        if (!(fabs(birefringence) > 1e-6)) {
            return ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                             "%s shows no birefringence%s, so it has no place on a chart of "
                             "interference colours; choose a doubly refractive stone",
                             ifig_species_text(retarder.species, IFIG_TEXT_KEY),
                             is_strip ? " in this section" : "");
        }
    }
    return IFIG_OK;
}

static IfigStatus check(const IfigPageChart *chart, IfigError *error)
{
    if (chart == NULL || chart->size != sizeof *chart) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the chart is missing or of another version of the library; initialise it "
                         "with IFIG_PAGE_CHART_INIT and compile against this version");
    }
    if (chart->lamp == NULL || (chart->species == NULL && chart->species_count > 0) ||
        (chart->strips == NULL && chart->strip_count > 0)) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_page_chart was given a null pointer; give a lamp, and species and "
                         "strips as counted");
    }
    if (chart->polars != IFIG_POLARS_CROSSED && chart->polars != IFIG_POLARS_PARALLEL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the polars of a chart are crossed or parallel; give IFIG_POLARS_CROSSED "
                         "or IFIG_POLARS_PARALLEL");
    }
    IfigStatus status = ifig_check_range("the number of orders", chart->orders, 1,
                                         IFIG_CHART_ORDERS_MAX, "", error);
    if (status == IFIG_OK) {
        status = ifig_check_range("the thickness of a chart", chart->thickness_mm, 0.005, 20.0,
                                  "mm", error);
    }
    if (status == IFIG_OK) {
        status = ifig_check_range("the number of species", (double)chart->species_count, 0,
                                  IFIG_CHART_SPECIES_MAX, "", error);
    }
    if (status == IFIG_OK) {
        status = ifig_check_range("the number of strips", (double)chart->strip_count, 0,
                                  IFIG_CHART_STRIPS_MAX, "", error);
    }
    return status == IFIG_OK ? check_stones(chart, error) : status;
}

IfigStatus ifig_page_chart(const char *path, const IfigPageOptions *options,
                           const IfigPageChart *chart, const IfigPageWords *words, IfigError *error)
{
    const Sheet drawn = {chart, words};
    const IfigPlateSheet plate = {path, options, words, NULL, chart};
    IfigSheet sheet = {IFIG_CHART_WIDTH, IFIG_CHART_HEIGHT, NULL, NULL};
    IfigCanvas *canvas = NULL;
    IfigStatus status = ifig_plate_check(&plate, error);
    if (status == IFIG_OK) {
        status = check(chart, error);
    }
    if (status == IFIG_OK) {
        sheet.title = words->title;
        sheet.description = words->caption;
        status = ifig_canvas_open(path, options, &sheet, &canvas, error);
    }
    if (status == IFIG_OK) {
        draw(canvas, &drawn);
        status = ifig_canvas_close(canvas, error);
    }
    return status;
}
