/* SPDX-License-Identifier: MIT */
/* A figure with its labels in a box of a sheet. */
#include "figure_plate.h"

#include <stdlib.h>

IfigStatus ifig_figure_plate_render(IfigFigurePlate *plate, uint32_t pixels, IfigError *error)
{
    IfigFigure *figure = NULL;
    plate->options.pixels = pixels;
    IfigStatus status = ifig_figure_create(plate->scene, &plate->options, &figure, error);
    if (status == IFIG_OK) {
        plate->rgb = malloc((size_t)3 * pixels * pixels);
        status = plate->rgb != NULL
                     ? IFIG_OK
                     : ifig_fail(error, IFIG_ERROR_MEMORY,
                                 "no memory for a figure of %s pixels; make it smaller",
                                 ifig_number_text((double)pixels, 6).text);
    }
    if (status == IFIG_OK) {
        status = ifig_figure_render(figure, IFIG_PIXELS_SRGB8, 0, pixels, plate->rgb, error);
    }
    ifig_figure_free(figure);
    return status;
}

void ifig_figure_plate_free(IfigFigurePlate *plate)
{
    free(plate->rgb);
    plate->rgb = NULL;
}

static unsigned long long draw_labels(IfigCanvas *canvas, const IfigFigurePlate *plate,
                                      IfigFigureFrame frame)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigFigureView view;
    unsigned long long keys = 0;
    IfigFigurePlan *const plan = malloc(sizeof *plan);
    if (plan == NULL) {
        ifig_fail(&error, IFIG_ERROR_MEMORY, "no memory for a figure's labels; close programs");
        ifig_canvas_fail(canvas, &error);
    } else if (ifig_view_open(plate->scene, plate->reading, frame, &view, &error) != IFIG_OK) {
        ifig_canvas_fail(canvas, &error);
    } else {
        ifig_figure_plan(canvas, &view, plate->labels, plan);
        ifig_figure_plan_draw(canvas, plan);
        keys = plan->keys;
    }
    free(plan);
    return keys;
}

unsigned long long ifig_figure_plate_draw(IfigCanvas *canvas, const IfigFigurePlate *plate,
                                          IfigBox box, const char *alternative)
{
    const IfigFigureFrame frame = ifig_figure_frame(box, plate->labels);
    const double r =
        frame.radius > 0.0 ? frame.radius : 0.5 * (box.width < box.height ? box.width : box.height);
    const IfigPen rim = ifig_pen(IFIG_INK_AXIS, 0.15, IFIG_DASH_SOLID);
    char words[IFIG_READING_TEXT_MAX];
    if (alternative == NULL) {
        const int is_read =
            plate->reading != NULL &&
            ifig_reading_describe(plate->reading, words, sizeof words, NULL) == IFIG_OK;
        alternative = is_read ? words : ifig_page_message(IFIG_PAGE_SAY_ALTERNATIVE_NOT_READ);
    }
    ifig_canvas_begin(canvas, IFIG_ROLE_FIGURE, alternative);
    if (plate->rgb != NULL) {
        const IfigPicture picture = {plate->rgb, plate->options.pixels, plate->options.pixels, 1};
        ifig_canvas_picture(canvas, &picture,
                            (IfigBox){frame.centre.x - r, frame.centre.y - r, 2.0 * r, 2.0 * r});
    }
    ifig_canvas_circle(canvas, &rim, NULL, frame.centre, r);
    const unsigned long long keys = draw_labels(canvas, plate, frame);
    ifig_canvas_end(canvas);
    return keys;
}

void ifig_canvas_figure(IfigCanvas *canvas, const IfigScene *scene, const IfigReading *reading,
                        IfigLabels labels, double exposure_stops, IfigBox box,
                        const char *alternative)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigFigurePlate plate = {
        .scene = scene, .reading = reading, .labels = labels, .options = IFIG_FIGURE_OPTIONS_INIT};
    const IfigFigureFrame frame = ifig_figure_frame(box, labels);
    const double side = box.width < box.height ? box.width : box.height;
    const double diameter = frame.radius > 0.0 ? 2.0 * frame.radius : side;
    plate.options.exposure_stops = exposure_stops;
    if (ifig_canvas_status(canvas) != IFIG_OK) {
        return;
    }
    if (ifig_figure_plate_render(&plate, ifig_canvas_pixels(canvas, diameter), &error) == IFIG_OK) {
        ifig_figure_plate_draw(canvas, &plate, box, alternative);
    } else {
        ifig_canvas_fail(canvas, &error);
    }
    ifig_figure_plate_free(&plate);
}
