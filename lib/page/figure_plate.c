/* SPDX-License-Identifier: MIT */
/* A rendered figure, into a box. */
#include <stdlib.h>

#include "page.h"

static IfigStatus render(const IfigScene *scene, const IfigFigureOptions *options, uint8_t *rgb,
                         IfigError *error)
{
    IfigFigure *figure = NULL;
    IfigStatus status = ifig_figure_create(scene, options, &figure, error);
    if (status == IFIG_OK) {
        status = ifig_figure_render(figure, IFIG_PIXELS_SRGB8, 0, options->pixels, rgb, error);
    }
    ifig_figure_free(figure);
    return status;
}

void ifig_canvas_figure(IfigCanvas *canvas, const IfigScene *scene, const IfigReading *reading,
                        IfigLabels labels, double exposure_stops, IfigBox box,
                        const char *alternative)
{
    const IfigPen rim = ifig_pen(IFIG_INK_AXIS, 0.15, IFIG_DASH_SOLID);
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigError error = IFIG_ERROR_INIT;
    (void)labels;
    char words[8192] = "";
    if (alternative == NULL && reading != NULL &&
        ifig_reading_describe(reading, words, sizeof words, &error) == IFIG_OK) {
        alternative = words;
    }
    options.pixels = ifig_canvas_pixels(canvas, box.width);
    options.exposure_stops = exposure_stops;
    uint8_t *const rgb = malloc((size_t)3 * options.pixels * options.pixels);
    IfigStatus status = rgb != NULL ? render(scene, &options, rgb, &error)
                                    : ifig_fail(&error, IFIG_ERROR_MEMORY, "no memory for a figure");
    if (status == IFIG_OK) {
        const IfigPicture picture = {rgb, options.pixels, options.pixels, 1};
        ifig_canvas_begin(canvas, IFIG_ROLE_FIGURE, alternative != NULL ? alternative : "");
        ifig_canvas_picture(canvas, &picture, box);
        ifig_canvas_circle(canvas, &rim, NULL,
                           (IfigPoint){box.x + 0.5 * box.width, box.y + 0.5 * box.height},
                           0.5 * box.width);
        ifig_canvas_end(canvas);
    } else {
        ifig_canvas_fail(canvas, &error);
    }
    free(rgb);
}
