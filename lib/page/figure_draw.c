/* SPDX-License-Identifier: MIT */
/* A plan drawn: lines below, then marks, then words. */
#include "figure_plate.h"

#include <math.h>

/* The line is broken where words and marks stand. */
static void draw_trace(IfigCanvas *canvas, const IfigFigurePlan *plan)
{
    const double em = plan->frame.em;
    IfigPoint open[IFIG_TRACE_POINTS];
    for (size_t i = 0; i < plan->trace_count; i++) {
        const IfigPoint at = plan->trace[i];
        const IfigBox spot = {at.x - 0.1 * em, at.y - 0.1 * em, 0.2 * em, 0.2 * em};
        int is_hidden = !isfinite(at.x);
        for (size_t k = 0; k < plan->label_count && !is_hidden; k++) {
            is_hidden = plan->labels[k].is_placed && ifig_box_overlap(spot, plan->labels[k].box);
        }
        for (size_t k = 0; k < plan->mark_count && !is_hidden; k++) {
            is_hidden = hypot(at.x - plan->marks[k].at.x, at.y - plan->marks[k].at.y) <
                        plan->marks[k].radius + 0.1 * em;
        }
        open[i] = is_hidden ? (IfigPoint){NAN, NAN} : at;
    }
    const IfigPen pen =
        ifig_pen_haloed(ifig_pen(IFIG_INK_TEXT, 0.055 * em, IFIG_DASH_LONG_DOT), 0.06 * em);
    ifig_canvas_curve(canvas, &pen, open, plan->trace_count);
}

static void draw_wedge(IfigCanvas *canvas, const IfigPlanMark *mark, const IfigPen *pen)
{
    const double c = cos(mark->azimuth_deg * IFIG_DEGREE), s = sin(mark->azimuth_deg * IFIG_DEGREE);
    const double r = mark->radius;
    const IfigPoint corners[] = {
        {mark->at.x + r * c, mark->at.y - r * s},
        {mark->at.x - 0.7 * r * c - 0.8 * r * s, mark->at.y + 0.7 * r * s - 0.8 * r * c},
        {mark->at.x - 0.7 * r * c + 0.8 * r * s, mark->at.y + 0.7 * r * s + 0.8 * r * c}};
    const IfigInk ink = ifig_ink(IFIG_INK_TEXT);
    ifig_canvas_polygon(canvas, pen, &ink, corners, 3);
}

static void draw_mark(IfigCanvas *canvas, const IfigFigurePlan *plan, const IfigPlanMark *mark)
{
    const double em = plan->frame.em, r = mark->radius;
    const IfigInk ink = ifig_ink(IFIG_INK_TEXT), white = ifig_ink(IFIG_INK_WHITE);
    const IfigPen ring =
        ifig_pen_haloed(ifig_pen(IFIG_INK_TEXT, 0.11 * em, IFIG_DASH_SOLID), 0.08 * em);
    const IfigPen edge = ifig_pen(IFIG_INK_WHITE, 0.16 * em, IFIG_DASH_SOLID);
    const IfigPen outline = ifig_pen(IFIG_INK_TEXT, 0.09 * em, IFIG_DASH_SOLID);
    const IfigPoint diamond[] = {{mark->at.x, mark->at.y - r},
                                 {mark->at.x + r, mark->at.y},
                                 {mark->at.x, mark->at.y + r},
                                 {mark->at.x - r, mark->at.y}};
    switch (mark->kind) {
    case IFIG_PLAN_RING:
        ifig_canvas_circle(canvas, &ring, NULL, mark->at, r - 0.15 * em);
        break;
    case IFIG_PLAN_DOT:
        ifig_canvas_circle(canvas, &edge, &ink, mark->at, r - 0.1 * em);
        break;
    case IFIG_PLAN_DIAMOND:
        ifig_canvas_polygon(canvas, &outline, &white, diamond, 4);
        break;
    case IFIG_PLAN_WEDGE:
        draw_wedge(canvas, mark, &edge);
        break;
    }
}

void ifig_figure_plan_draw(IfigCanvas *canvas, const IfigFigurePlan *plan)
{
    draw_trace(canvas, plan);
    for (size_t i = 0; i < plan->line_count; i++) {
        const IfigPlanLine *const line = &plan->lines[i];
        if (line->heads > 0) {
            ifig_canvas_arrow(canvas, &line->pen, line->from, line->to, line->heads == 2);
        } else {
            ifig_canvas_line(canvas, &line->pen, line->from, line->to);
        }
    }
    for (size_t i = 0; i < plan->mark_count; i++) {
        draw_mark(canvas, plan, &plan->marks[i]);
    }
    ifig_labels_draw(canvas, plan->labels, plan->label_count);
}
