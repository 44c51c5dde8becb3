/* SPDX-License-Identifier: MIT */
/* Lines and areas. */
#include "canvas.h"

#include <math.h>

/* In pen widths. Each dash pattern differs from the others in rhythm, not in length alone, so that
 * they are told apart without colour and at arm's length. */
static void set_dash(cairo_t *cr, const IfigPen *pen)
{
    static const double patterns[][4] = {[IFIG_DASH_SOLID] = {0, 0, 0, 0},
                                         [IFIG_DASH_LONG] = {8, 4, 8, 4},
                                         [IFIG_DASH_SHORT] = {4, 3, 4, 3},
                                         [IFIG_DASH_DOT] = {0.01, 2.5, 0.01, 2.5},
                                         [IFIG_DASH_LONG_DOT] = {8, 3, 0.01, 3}};
    double scaled[4];
    for (int i = 0; i < 4; i++) {
        scaled[i] = patterns[pen->dash][i] * pen->width_mm;
    }
    cairo_set_dash(cr, scaled, pen->dash == IFIG_DASH_SOLID ? 0 : 4, 0.0);
    cairo_set_line_cap(cr, pen->dash == IFIG_DASH_LONG || pen->dash == IFIG_DASH_SHORT
                               ? CAIRO_LINE_CAP_BUTT
                               : CAIRO_LINE_CAP_ROUND);
}

/* Fill and stroke the path that stands, and forget it. */
static void paint(IfigCanvas *canvas, const IfigPen *pen, const IfigInk *fill)
{
    cairo_t *const cr = canvas->cr;
    cairo_save(cr);
    if (fill != NULL) {
        cairo_set_source_rgb(cr, fill->red, fill->green, fill->blue);
        cairo_fill_preserve(cr);
    }
    if (pen != NULL && pen->width_mm > 0.0) {
        cairo_set_line_join(cr, CAIRO_LINE_JOIN_ROUND);
        if (pen->halo_mm > 0.0) {
            cairo_set_source_rgb(cr, pen->halo.red, pen->halo.green, pen->halo.blue);
            cairo_set_line_width(cr, pen->width_mm + 2.0 * pen->halo_mm);
            cairo_set_line_cap(cr, CAIRO_LINE_CAP_ROUND);
            cairo_stroke_preserve(cr);
        }
        set_dash(cr, pen);
        cairo_set_source_rgb(cr, pen->ink.red, pen->ink.green, pen->ink.blue);
        cairo_set_line_width(cr, pen->width_mm);
        cairo_stroke_preserve(cr);
    }
    cairo_new_path(cr);
    cairo_restore(cr);
}

void ifig_canvas_line(IfigCanvas *canvas, const IfigPen *pen, IfigPoint from, IfigPoint to)
{
    const IfigPoint ends[] = {from, to};
    ifig_canvas_curve(canvas, pen, ends, 2);
}

/* The head alone; pen: of its outline. */
static void head(IfigCanvas *canvas, const IfigPen *pen, double width_mm, IfigPoint at,
                 double azimuth)
{
    const double length = 4.5 * width_mm + 0.6, half = 0.42 * length;
    const double c = cos(azimuth), s = sin(azimuth);
    const IfigPoint corners[] = {at,
                                 {at.x - length * c + half * s, at.y - length * s - half * c},
                                 {at.x - length * c - half * s, at.y - length * s + half * c}};
    ifig_canvas_polygon(canvas, pen, &pen->ink, corners, 3);
}

void ifig_canvas_arrow(IfigCanvas *canvas, const IfigPen *pen, IfigPoint from, IfigPoint to,
                       int is_double)
{
    const double azimuth = atan2(to.y - from.y, to.x - from.x);
    const double back = 3.0 * pen->width_mm; /* the shaft ends inside the head, not at its tip */
    const double along_x = back * cos(azimuth), along_y = back * sin(azimuth);
    const IfigPoint shaft_to = {to.x - along_x, to.y - along_y};
    const IfigPoint shaft_from = {from.x + (is_double ? along_x : 0.0),
                                  from.y + (is_double ? along_y : 0.0)};
    /* All of the halo lies behind all of the arrow. */
    for (int is_front = pen->halo_mm > 0.0 ? 0 : 1; is_front <= 1; is_front++) {
        IfigPen shaft = {.ink = is_front ? pen->ink : pen->halo,
                         .width_mm = pen->width_mm + (is_front ? 0.0 : 2.0 * pen->halo_mm),
                         .dash = is_front ? pen->dash : IFIG_DASH_SOLID};
        IfigPen outline = {.ink = shaft.ink, .width_mm = is_front ? 0.0 : 2.0 * pen->halo_mm};
        ifig_canvas_line(canvas, &shaft, shaft_from, shaft_to);
        head(canvas, &outline, pen->width_mm, to, azimuth);
        if (is_double) {
            head(canvas, &outline, pen->width_mm, from, azimuth + IFIG_PI);
        }
    }
}

static void trace(cairo_t *cr, const IfigPoint *points, size_t count)
{
    int is_broken = 1;
    cairo_new_path(cr);
    for (size_t i = 0; i < count; i++) {
        if (!isfinite(points[i].x) || !isfinite(points[i].y)) {
            is_broken = 1;
        } else if (is_broken) {
            cairo_move_to(cr, points[i].x, points[i].y);
            is_broken = 0;
        } else {
            cairo_line_to(cr, points[i].x, points[i].y);
        }
    }
}

void ifig_canvas_curve(IfigCanvas *canvas, const IfigPen *pen, const IfigPoint *points,
                       size_t count)
{
    if (ifig_canvas_is_ready(canvas)) {
        trace(canvas->cr, points, count);
        paint(canvas, pen, NULL);
    }
}

void ifig_canvas_polygon(IfigCanvas *canvas, const IfigPen *pen, const IfigInk *fill,
                         const IfigPoint *points, size_t count)
{
    if (ifig_canvas_is_ready(canvas) && count > 0) {
        trace(canvas->cr, points, count);
        cairo_close_path(canvas->cr);
        paint(canvas, pen, fill);
    }
}

void ifig_canvas_circle(IfigCanvas *canvas, const IfigPen *pen, const IfigInk *fill,
                        IfigPoint centre, double radius_mm)
{
    if (ifig_canvas_is_ready(canvas)) {
        cairo_new_path(canvas->cr);
        cairo_arc(canvas->cr, centre.x, centre.y, radius_mm, 0.0, 2.0 * IFIG_PI);
        cairo_close_path(canvas->cr);
        paint(canvas, pen, fill);
    }
}

void ifig_canvas_arc(IfigCanvas *canvas, const IfigPen *pen, IfigPoint centre, double radius_mm,
                     double from_deg, double to_deg)
{
    if (ifig_canvas_is_ready(canvas)) {
        cairo_new_path(canvas->cr);
        cairo_arc_negative(canvas->cr, centre.x, centre.y, radius_mm, -from_deg * IFIG_DEGREE,
                           -to_deg * IFIG_DEGREE);
        paint(canvas, pen, NULL);
    }
}

void ifig_canvas_rectangle(IfigCanvas *canvas, const IfigPen *pen, const IfigInk *fill, IfigBox box)
{
    if (ifig_canvas_is_ready(canvas)) {
        cairo_new_path(canvas->cr);
        cairo_rectangle(canvas->cr, box.x, box.y, box.width, box.height);
        paint(canvas, pen, fill);
    }
}

static void clip(IfigCanvas *canvas)
{
    cairo_clip(canvas->cr);
    cairo_new_path(canvas->cr);
}

void ifig_canvas_clip_circle(IfigCanvas *canvas, IfigPoint centre, double radius_mm)
{
    if (ifig_canvas_is_ready(canvas)) {
        cairo_save(canvas->cr);
        cairo_new_path(canvas->cr);
        cairo_arc(canvas->cr, centre.x, centre.y, radius_mm, 0.0, 2.0 * IFIG_PI);
        clip(canvas);
    }
}

void ifig_canvas_clip_box(IfigCanvas *canvas, IfigBox box)
{
    if (ifig_canvas_is_ready(canvas)) {
        cairo_save(canvas->cr);
        cairo_new_path(canvas->cr);
        cairo_rectangle(canvas->cr, box.x, box.y, box.width, box.height);
        clip(canvas);
    }
}

void ifig_canvas_unclip(IfigCanvas *canvas)
{
    if (ifig_canvas_is_ready(canvas)) {
        cairo_restore(canvas->cr);
    }
}
