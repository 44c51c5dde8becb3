/* SPDX-License-Identifier: MIT */
/* Strips of colours in exact device pixels, and those of stones with anomalous colours. */
#include "chart.h"
#include "plate.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double STRIP_HEIGHT = 5.0;

/* The colours of a row of pixels, each at its middle. */
static IfigRetardationColour *row_of_colours(const IfigChartFrame *frame,
                                             const IfigRetarder *retarder, uint32_t count,
                                             IfigError *error)
{
    double *const retardation = malloc(count * sizeof *retardation);
    IfigRetardationColour *colours = malloc(count * sizeof *colours);
    IfigStatus status = IFIG_ERROR_MEMORY;
    if (retardation == NULL || colours == NULL) {
        ifig_fail(error, status, "no memory for the colours of a chart; choose a smaller --dpi");
    } else {
        for (uint32_t i = 0; i < count; i++) {
            retardation[i] = frame->most_nm * (i + 0.5) / count;
        }
        status = ifig_retardation_colours(frame->chart->lamp, frame->chart->polars, retarder,
                                          retardation, count, colours, error);
    }
    free(retardation);
    if (status != IFIG_OK) {
        free(colours);
        colours = NULL;
    }
    return colours;
}

static uint8_t *paint(const IfigRetardationColour *colours, uint32_t width, uint32_t height)
{
    uint8_t *const rgb = malloc((size_t)width * height * 3);
    for (size_t i = 0; rgb != NULL && i < (size_t)width * 3; i++) {
        rgb[i] = (uint8_t)lround(255.0 * colours[i / 3].srgb[i % 3]);
    }
    for (size_t y = 1; rgb != NULL && y < height; y++) {
        memcpy(rgb + y * width * 3, rgb, (size_t)width * 3);
    }
    return rgb;
}

void ifig_chart_strip(IfigCanvas *canvas, const IfigChartFrame *frame, const IfigRetarder *retarder,
                      double y, double height)
{
    const IfigBox place = {frame->left, y, frame->width, height};
    const uint32_t width_px = ifig_canvas_pixels(canvas, frame->width);
    const uint32_t height_px = ifig_canvas_pixels(canvas, height);
    const IfigPen edge = ifig_pen(IFIG_INK_AXIS, 0.15, IFIG_DASH_SOLID);
    IfigError error = IFIG_ERROR_INIT;
    uint8_t *rgb = NULL;
    if (ifig_canvas_status(canvas) != IFIG_OK) {
        return;
    }
    IfigRetardationColour *const colours = row_of_colours(frame, retarder, width_px, &error);
    if (colours != NULL) {
        rgb = paint(colours, width_px, height_px);
        if (rgb == NULL) {
            ifig_fail(&error, IFIG_ERROR_MEMORY, "no memory for a strip; choose a smaller --dpi");
        }
    }
    if (rgb != NULL) {
        const IfigPicture picture = {rgb, width_px, height_px, 0};
        ifig_canvas_picture(canvas, &picture, place);
        ifig_canvas_rectangle(canvas, &edge, NULL, place);
    } else {
        ifig_canvas_fail(canvas, &error);
    }
    free(rgb);
    free(colours);
}

static IfigPageText name_of(const IfigRetarder *retarder)
{
    static const char *const axes[] = {"X", "Y", "Z"};
    const char *const name = ifig_species_text(retarder->species, IFIG_TEXT_NAME);
    const IfigView section =
        retarder->section == IFIG_VIEW_DEFAULT ? IFIG_VIEW_Y : retarder->section;
    return ifig_page_say(IFIG_PAGE_SAY_CHART_ALONG, name, axes[section - IFIG_VIEW_X]);
}

/* How the retardation in blue and in red compares with that in yellow. */
static IfigPageText shares_of(const IfigRetarder *retarder)
{
    double blue = 0.0, yellow = 1.0, red = 0.0;
    ifig_retarder_birefringence(retarder, 486.1, &blue, NULL);
    ifig_retarder_birefringence(retarder, 589.3, &yellow, NULL);
    ifig_retarder_birefringence(retarder, 656.3, &red, NULL);
    const double blue_share = 100.0 * blue / yellow, red_share = 100.0 * red / yellow;
    return ifig_page_say(blue_share < 0.0 || red_share < 0.0 ? IFIG_PAGE_SAY_CHART_STRIP_TURNED
                                                             : IFIG_PAGE_SAY_CHART_STRIP,
                         ifig_number_text(round(blue_share), 4).text,
                         ifig_number_text(round(red_share), 4).text);
}

/* "551 nm blue instead of purple, at ...": where the names differ at the ends of orders. */
static IfigPageText differences_of(IfigCanvas *canvas, const IfigChartFrame *frame,
                                   const IfigRetarder *retarder, int told_most)
{
    enum { ENDS = 4 };
    IfigPageText told = {""};
    double ends[ENDS];
    IfigRetardationColour usual[ENDS], own[ENDS];
    int count = frame->chart->orders < ENDS ? frame->chart->orders : ENDS, found = 0;
    for (int i = 0; i < count; i++) {
        ends[i] = (i + 1) * frame->order_nm;
    }
    const IfigLamp *const lamp = frame->chart->lamp;
    IfigError error = IFIG_ERROR_INIT;
    if (ifig_retardation_colours(lamp, frame->chart->polars, NULL, ends, (size_t)count, usual,
                                 &error) != IFIG_OK ||
        ifig_retardation_colours(lamp, frame->chart->polars, retarder, ends, (size_t)count, own,
                                 &error) != IFIG_OK) {
        ifig_canvas_fail(canvas, &error);
        return told;
    }
    for (int i = 0; i < count && found < told_most; i++) {
        const char *const own_name = ifig_colour_text(own[i].colour);
        const char *const usual_name = ifig_colour_text(usual[i].colour);
        if (strcmp(own_name, usual_name) != 0) {
            const IfigPageText pair =
                ifig_page_say(IFIG_PAGE_SAY_CHART_INSTEAD_ONE, own_name, usual_name);
            const IfigPageText one = ifig_page_say(IFIG_PAGE_SAY_CHART_COLOUR_AT,
                                                   ifig_number_text(ends[i], 5).text, pair.text);
            told = found++ == 0
                       ? one
                       : ifig_page_say(IFIG_PAGE_SAY_CHART_INSTEAD_NEXT, told.text, one.text);
        }
    }
    return found > 0 ? ifig_page_say(IFIG_PAGE_SAY_CHART_INSTEAD, told.text, NULL)
                     : ifig_page_say(IFIG_PAGE_SAY_CHART_ALIKE, NULL, NULL);
}

static double draw_own(IfigCanvas *canvas, const IfigChartFrame *frame,
                       const IfigRetarder *retarder, double y)
{
    IfigTextStyle bold = ifig_text_style(7.5, IFIG_INK_TEXT), plain = bold;
    const IfigPageText name = name_of(retarder), shares = shares_of(retarder);
    IfigPageText words = shares;
    bold.is_bold = 1;
    ifig_canvas_begin(canvas, IFIG_ROLE_PARAGRAPH, NULL);
    const IfigBox box = ifig_canvas_text(canvas, &bold, (IfigPoint){frame->left, y}, name.text);
    const IfigPoint next = {box.x + box.width, y};
    for (int most = 3; most > 0; most--) { /* as many differences as the line holds */
        const IfigPageText differences = differences_of(canvas, frame, retarder, most);
        words = ifig_page_say(IFIG_PAGE_SAY_LINE, shares.text, differences.text);
        if (next.x + ifig_canvas_measure(canvas, &plain, next, words.text).width <=
            IFIG_CHART_WIDTH - IFIG_CHART_MARGIN) {
            break;
        }
        words = shares;
    }
    ifig_canvas_text(canvas, &plain, next, words.text);
    ifig_canvas_end(canvas);
    ifig_canvas_begin(canvas, IFIG_ROLE_FIGURE,
                      ifig_page_say(IFIG_PAGE_SAY_CHART_STRIP_WORDS, name.text, words.text).text);
    ifig_chart_strip(canvas, frame, retarder, y + 3.7, STRIP_HEIGHT);
    ifig_canvas_end(canvas);
    return y + 3.7 + STRIP_HEIGHT + 1.5;
}

double ifig_chart_strips(IfigCanvas *canvas, const IfigChartFrame *frame, double y)
{
    const IfigTextStyle heading = ifig_plate_heading();
    if (frame->chart->strip_count == 0) {
        return y;
    }
    ifig_canvas_passage(canvas, IFIG_ROLE_HEADING, &heading, (IfigPoint){frame->left, y},
                        ifig_page_message(IFIG_PAGE_SAY_CHART_STRIPS));
    y += 5.0;
    for (size_t i = 0; i < frame->chart->strip_count; i++) {
        y = draw_own(canvas, frame, &frame->chart->strips[i], y);
    }
    return y;
}
