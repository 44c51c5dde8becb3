/* SPDX-License-Identifier: MIT */
/* The plate of a stone turned between the polars. */
#include "plate.h"

#include <math.h>

enum { POINTS_MAX = IFIG_BLINK_TURNS + 1 };

static const double PLOT_TOP = 11.0, PLOT_HEIGHT = 46.0; /* mm below the plots' headings */

/* The end of the brightness axis: a whole number of ticks, and never so short that a stone which
 * looks dark to the eye fills the plot. */
static double axis_top(const IfigBlink *blink)
{
    double most = fmax(blink->most, 0.095);
    for (int i = 0; i < IFIG_BLINK_OPENED; i++) {
        most = fmax(most, blink->opened[i]);
    }
    const double step = ifig_plot_step(0.0, 1.04 * most, 5);
    return step * ceil(1.04 * most / step);
}

/* A dot at the brightest turn, and its word where no part of the curve passes. */
static void mark_brightest(IfigCanvas *canvas, const IfigPlot *plot, const IfigBlink *blink)
{
    enum { EVERY_DEG = 2, PIECES = IFIG_BLINK_TURNS / EVERY_DEG };
    IfigBox curve[PIECES];
    const IfigInk ink = ifig_ink(IFIG_INK_BLUE);
    if (!(blink->contrast > 0.05)) {
        return; /* a flat curve has no brightest turn */
    }
    for (int i = 0; i < PIECES; i++) {
        const IfigPoint from =
            ifig_plot_point(plot, i * EVERY_DEG, blink->brightness[i * EVERY_DEG]);
        const IfigPoint to = ifig_plot_point(
            plot, (i + 1) * EVERY_DEG, blink->brightness[(i + 1) * EVERY_DEG % IFIG_BLINK_TURNS]);
        curve[i] = ifig_box_grown((IfigBox){fmin(from.x, to.x), fmin(from.y, to.y),
                                            fabs(to.x - from.x), fabs(to.y - from.y)},
                                  0.5);
    }
    IfigLabel label = {
        .at = ifig_plot_point(plot, blink->brightest_deg, blink->most),
        .radius_mm = 0.9,
        .text = ifig_page_message(IFIG_PAGE_SAY_BLINK_BRIGHTEST),
        .style = ifig_text_haloed(ifig_text_style(7.0, IFIG_INK_MUTED), 0.3),
    };
    ifig_canvas_circle(canvas, NULL, &ink, label.at, label.radius_mm);
    ifig_labels_place(canvas, &label, 1, plot->box, curve, PIECES); /* the dot alone tells enough */
    ifig_labels_draw(canvas, &label, 1);
}

static void draw_turn(IfigCanvas *canvas, const IfigBlink *blink, IfigBox box)
{
    double x[POINTS_MAX], y[POINTS_MAX];
    for (int i = 0; i < POINTS_MAX; i++) {
        x[i] = i;
        y[i] = blink->brightness[i % IFIG_BLINK_TURNS];
    }
    const IfigPlot plot = {
        box,
        {0.0, 360.0, 45.0, ifig_page_message(IFIG_PAGE_SAY_BLINK_TURN_AXIS)},
        {0.0, axis_top(blink), 0.0, ifig_page_message(IFIG_PAGE_SAY_BLINK_BRIGHTNESS)},
        1};
    const IfigPen pen = ifig_pen(IFIG_INK_BLUE, 0.55, IFIG_DASH_SOLID);
    ifig_canvas_begin(canvas, IFIG_ROLE_FIGURE,
                      ifig_page_say(IFIG_PAGE_SAY_BLINK_TURN_WORDS,
                                    ifig_number_text(blink->least, 3).text,
                                    ifig_number_text(blink->most, 3).text)
                          .text);
    ifig_plot_axes(canvas, &plot);
    ifig_plot_curve(canvas, &plot, &pen, x, y, POINTS_MAX);
    mark_brightest(canvas, &plot, blink);
    ifig_canvas_end(canvas);
}

static void draw_opened(IfigCanvas *canvas, const IfigBlink *blink, IfigBox box)
{
    double x[IFIG_BLINK_OPENED];
    for (int i = 0; i < IFIG_BLINK_OPENED; i++) {
        x[i] = i;
    }
    const IfigPlot plot = {box,
                           {0.0, 90.0, 30.0, ifig_page_message(IFIG_PAGE_SAY_BLINK_OPENED_AXIS)},
                           {0.0, axis_top(blink), 0.0, NULL},
                           1};
    const IfigPen pen = ifig_pen(IFIG_INK_VERMILION, 0.55, IFIG_DASH_LONG);
    ifig_canvas_begin(canvas, IFIG_ROLE_FIGURE,
                      ifig_page_say(IFIG_PAGE_SAY_BLINK_OPENED_WORDS,
                                    ifig_number_text(blink->opened[0], 3).text,
                                    ifig_number_text(blink->opened[IFIG_BLINK_OPENED - 1], 3).text)
                          .text);
    ifig_plot_axes(canvas, &plot);
    ifig_plot_curve(canvas, &plot, &pen, x, blink->opened, IFIG_BLINK_OPENED);
    ifig_canvas_end(canvas);
}

static double draw_colours(IfigCanvas *canvas, const IfigBlink *blink, double y)
{
    const double pitch = IFIG_PLATE_INNER / IFIG_BLINK_COLOURS, radius = 0.41 * pitch;
    const IfigPen edge = ifig_pen(IFIG_INK_AXIS, 0.15, IFIG_DASH_SOLID);
    IfigTextStyle style = ifig_plate_small();
    style.align = IFIG_ALIGN_CENTRE;
    style.size_pt = 6.5;
    ifig_canvas_begin(canvas, IFIG_ROLE_FIGURE,
                      ifig_page_message(IFIG_PAGE_SAY_BLINK_COLOURS_WORDS));
    for (int i = 0; i < IFIG_BLINK_COLOURS; i++) {
        const double *const rgb = blink->colour_srgb[i];
        const IfigInk fill = {rgb[0], rgb[1], rgb[2]};
        const IfigPoint centre = {IFIG_PLATE_MARGIN + (i + 0.5) * pitch, y + radius};
        ifig_canvas_circle(canvas, &edge, &fill, centre, radius);
        ifig_canvas_text(canvas, &style, (IfigPoint){centre.x, y + 2.0 * radius + 1.2},
                         ifig_page_say(IFIG_PAGE_SAY_DEGREES,
                                       ifig_number_text(i * 360.0 / IFIG_BLINK_COLOURS, 4).text,
                                       NULL)
                             .text);
    }
    ifig_canvas_end(canvas);
    return y + 2.0 * radius + 4.5;
}

static double draw(IfigCanvas *canvas, const void *what, double y)
{
    const IfigBlink *const blink = what;
    const IfigTextStyle heading = ifig_plate_heading();
    const double left = IFIG_PLATE_MARGIN, axes = 8.0, wide = 98.0, narrow = 46.0;
    const double second = left + axes + wide + 14.0;
    ifig_canvas_passage(canvas, IFIG_ROLE_HEADING, &heading, (IfigPoint){left, y},
                        ifig_page_message(IFIG_PAGE_SAY_BLINK_TURN));
    draw_turn(canvas, blink, (IfigBox){left + axes, y + PLOT_TOP, wide, PLOT_HEIGHT});
    ifig_canvas_passage(canvas, IFIG_ROLE_HEADING, &heading, (IfigPoint){second - 4.0, y},
                        ifig_page_message(IFIG_PAGE_SAY_BLINK_OPENED));
    draw_opened(canvas, blink, (IfigBox){second, y + PLOT_TOP, narrow, PLOT_HEIGHT});
    y += PLOT_TOP + PLOT_HEIGHT + 16.0;
    ifig_canvas_passage(canvas, IFIG_ROLE_HEADING, &heading, (IfigPoint){left, y},
                        ifig_page_message(IFIG_PAGE_SAY_BLINK_COLOURS));
    return draw_colours(canvas, blink, y + 6.5);
}

static IfigStatus check(const IfigBlink *blink, IfigError *error)
{
    IfigStatus status = IFIG_OK;
    if (blink != NULL && blink->size != sizeof *blink) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the blink is of another version of the library; initialise it with "
                         "IFIG_BLINK_INIT and compile against this version");
    }
    for (int i = 0; blink != NULL && i < IFIG_BLINK_TURNS && status == IFIG_OK; i++) {
        status = ifig_check_range("a brightness", blink->brightness[i], 0.0, 1000.0, "", error);
    }
    for (int i = 0; blink != NULL && i < IFIG_BLINK_OPENED && status == IFIG_OK; i++) {
        status = ifig_check_range("a brightness of the opened analyser", blink->opened[i], 0.0,
                                  1000.0, "", error);
    }
    return status;
}

IfigStatus ifig_page_blink(const char *path, const IfigPageOptions *options, const IfigBlink *blink,
                           const IfigPageWords *words, IfigError *error)
{
    const IfigStatus status = check(blink, error);
    const IfigPlateSheet plate = {path, options, words, draw, blink};
    return status == IFIG_OK ? ifig_plate_write(&plate, error) : status;
}
