/* SPDX-License-Identifier: MIT */
/* Curves with axes: thin grey lines, few labels, the curve in front. */
#include "canvas.h"

#include <math.h>
#include <stdlib.h>

double ifig_plot_step(double low, double high, int most)
{
    const double least = fabs(high - low) / most;
    const double decade = pow(10.0, floor(log10(least)));
    const double steps[] = {1.0, 2.0, 5.0, 10.0};
    for (int i = 0; i < 4; i++) {
        if (steps[i] * decade >= least * (1.0 - 1e-9)) {
            return steps[i] * decade;
        }
    }
    return 10.0 * decade;
}

IfigPoint ifig_plot_point(const IfigPlot *plot, double x, double y)
{
    return (IfigPoint){
        plot->box.x + plot->box.width * (x - plot->x.low) / (plot->x.high - plot->x.low),
        plot->box.y + plot->box.height * (plot->y.high - y) / (plot->y.high - plot->y.low)};
}

static double step_of(const IfigAxis *axis, double length_mm, double each_mm)
{
    const int most = (int)fmax(2.0, length_mm / each_mm);
    return axis->step > 0.0 ? axis->step : ifig_plot_step(axis->low, axis->high, most);
}

/* Ticks count in whole steps: 0.3 is three tenths, not a sum of rounding errors. */
static void draw_ticks(IfigCanvas *canvas, const IfigPlot *plot, int is_x)
{
    const IfigAxis *const axis = is_x ? &plot->x : &plot->y;
    const IfigPen thin = ifig_pen(IFIG_INK_AXIS, 0.15, IFIG_DASH_SOLID);
    const IfigPen grid = ifig_pen(IFIG_INK_GRID, 0.15, IFIG_DASH_SOLID);
    IfigTextStyle style = ifig_text_style(7.0, IFIG_INK_MUTED);
    const double step =
        is_x ? step_of(axis, plot->box.width, 14.0) : step_of(axis, plot->box.height, 9.0);
    style.align = is_x ? IFIG_ALIGN_CENTRE : IFIG_ALIGN_RIGHT;
    style.level = is_x ? IFIG_LEVEL_TOP : IFIG_LEVEL_MIDDLE;
    if (!(step > 0.0) || !(axis->high > axis->low) || !((axis->high - axis->low) / step < 1000.0)) {
        IfigError error = IFIG_ERROR_INIT;
        ifig_fail(
            &error, IFIG_ERROR_RANGE,
            "an axis of a plot must rise from a finite low end to a finite high end, in fewer "
            "than 1000 steps");
        ifig_canvas_fail(canvas, &error);
        return;
    }
    const int first = (int)ceil(axis->low / step - 1e-6);
    const int last = (int)floor(axis->high / step + 1e-6);
    for (int i = first; i <= last; i++) {
        const double value = i * step;
        const IfigPoint at = is_x ? ifig_plot_point(plot, value, plot->y.low)
                                  : ifig_plot_point(plot, plot->x.low, value);
        const IfigPoint out = {at.x - (is_x ? 0.0 : 1.0), at.y + (is_x ? 1.0 : 0.0)};
        const IfigPoint across = is_x ? ifig_plot_point(plot, value, plot->y.high)
                                      : ifig_plot_point(plot, plot->x.high, value);
        if (plot->has_grid) {
            ifig_canvas_line(canvas, &grid, at, across);
        }
        ifig_canvas_line(canvas, &thin, at, out);
        ifig_canvas_text(canvas, &style,
                         (IfigPoint){out.x - (is_x ? 0.0 : 0.8), out.y + (is_x ? 0.5 : 0.0)},
                         ifig_number_text(value, 6).text);
    }
}

void ifig_plot_axes(IfigCanvas *canvas, const IfigPlot *plot)
{
    const IfigPen thin = ifig_pen(IFIG_INK_AXIS, 0.2, IFIG_DASH_SOLID);
    const IfigBox box = plot->box;
    IfigTextStyle style = ifig_text_style(8.0, IFIG_INK_TEXT);
    draw_ticks(canvas, plot, 1);
    draw_ticks(canvas, plot, 0);
    const IfigPoint corners[] = {
        {box.x, box.y}, {box.x, box.y + box.height}, {box.x + box.width, box.y + box.height}};
    ifig_canvas_curve(canvas, &thin, corners, 3);
    if (plot->x.label != NULL) {
        style.align = IFIG_ALIGN_CENTRE;
        ifig_canvas_text(canvas, &style,
                         (IfigPoint){box.x + 0.5 * box.width, box.y + box.height + 5.5},
                         plot->x.label);
    }
    if (plot->y.label != NULL) { /* above the axis, level: nobody tilts the head to read it */
        style.align = IFIG_ALIGN_LEFT;
        style.level = IFIG_LEVEL_BOTTOM;
        ifig_canvas_text(canvas, &style, (IfigPoint){box.x - 8.0, box.y - 2.0}, plot->y.label);
    }
}

void ifig_plot_curve(IfigCanvas *canvas, const IfigPlot *plot, const IfigPen *pen, const double *x,
                     const double *y, size_t count)
{
    IfigPoint *const points = malloc((count + 1) * sizeof *points);
    if (points == NULL) {
        ifig_canvas_out_of_memory(canvas);
        return;
    }
    for (size_t i = 0; i < count; i++) {
        points[i] = ifig_plot_point(plot, x[i], y[i]);
    }
    ifig_canvas_clip_box(canvas, ifig_box_grown(plot->box, pen->width_mm));
    ifig_canvas_curve(canvas, pen, points, count);
    ifig_canvas_unclip(canvas);
    free(points);
}
