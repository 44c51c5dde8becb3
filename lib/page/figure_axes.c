/* SPDX-License-Identifier: MIT */
/* The stone's axes on a figure: vibration directions, bisectrices, the optic axial plane. */
#include "figure_plate.h"

#include <math.h>

/* Where the two waves' directions are shown: at the centre, or where a melatope stands there, on a
 * diagonal of the polars. */
static int find_vibrations(const IfigFigureView *view, const IfigPlanMelatopes *melatopes,
                           IfigPoint *at, double *slow_deg)
{
    static const double radii[] = {0.0, 0.52, 0.62, 0.42, 0.72};
    static const double turns_deg[] = {135.0, 315.0, 225.0, 45.0};
    const double polariser = view->scene->instrument.polariser.azimuth_deg;
    for (size_t i = 0; i < sizeof radii / sizeof *radii; i++) {
        for (size_t k = 0; k < 4; k++) {
            const double azimuth = (polariser + turns_deg[k]) * IFIG_DEGREE;
            const double x = radii[i] * cos(azimuth), y = radii[i] * sin(azimuth);
            *at = ifig_view_at(view, x, y);
            if (ifig_plan_is_clear(melatopes, *at, 3.2 * view->frame.em) &&
                ifig_view_slow(view, x, y, slow_deg)) {
                return 1;
            }
        }
    }
    return 0;
}

static IfigPlanVibration vibration(const IfigFigureView *view, IfigPoint at, double azimuth_deg,
                                   int is_slow)
{
    const double em = view->frame.em, half = (is_slow ? 1.9 : 1.5) * em;
    const double c = cos(azimuth_deg * IFIG_DEGREE), s = sin(azimuth_deg * IFIG_DEGREE);
    const IfigPen pen = ifig_pen(IFIG_INK_TEXT, (is_slow ? 0.12 : 0.09) * em,
                                 is_slow ? IFIG_DASH_SOLID : IFIG_DASH_SHORT);
    const double up = s > 0.25 || (s > -0.25 && c > 0.0) ? 1.0 : -1.0; /* the word's end */
    return (IfigPlanVibration){at,
                               {up * half * c, -up * half * s},
                               ifig_pen_haloed(pen, 0.09 * em),
                               is_slow ? IFIG_PAGE_SAY_LABEL_SLOW : IFIG_PAGE_SAY_LABEL_FAST,
                               is_slow ? IFIG_PAGE_SAY_KEY_SLOW : IFIG_PAGE_SAY_KEY_FAST};
}

static void take_vibration(const IfigPlanVibration *v, double em, IfigFigurePlan *plan)
{
    ifig_plan_take_line(plan, (IfigPoint){v->at.x - v->reach.x, v->at.y - v->reach.y},
                        (IfigPoint){v->at.x + v->reach.x, v->at.y + v->reach.y}, 0.28 * em);
}

/* The word stands at an end of its arrow and beyond, so that it is plain whose it is: within the
 * rim if it can, near if it can, and at the end away from the middle of the picture. */
static void add_vibration(IfigCanvas *canvas, const IfigFigureView *view,
                          const IfigPlanVibration *v, IfigFigurePlan *plan)
{
    enum { DISTANCES = 3, TRIES = 4 * DISTANCES, BEYOND = 3 };
    const IfigPoint centre = view->frame.centre;
    const double outward = (v->at.x - centre.x) * v->reach.x + (v->at.y - centre.y) * v->reach.y;
    const double first = outward < -0.1 ? -1.0 : 1.0;
    for (int i = 0; i < TRIES; i++) {
        const double sign = i % 2 == 0 ? first : -first;
        const IfigPoint to = {v->at.x + sign * v->reach.x, v->at.y + sign * v->reach.y};
        const IfigPlanWish wish = {to,
                                   {sign * v->reach.x, sign * v->reach.y},
                                   0.3 * view->frame.em,
                                   i / 2 % DISTANCES + 1,
                                   BEYOND};
        plan->keeps_inside = i < TRIES / 2;
        const int is_placed = ifig_plan_beside(canvas, plan, &wish, ifig_page_message(v->word));
        plan->keeps_inside = 0;
        if (is_placed) {
            const IfigPoint from = {2.0 * v->at.x - to.x, 2.0 * v->at.y - to.y};
            ifig_plan_line(plan, (IfigPlanLine){from, to, v->pen, 2});
            ifig_plan_key(plan, v->key);
            return;
        }
    }
    plan->without_room++;
}

/* A bisectrix, unless it stands on a melatope or where a reserved place is taken by one. */
static int find_bisectrix(const IfigFigureView *view, const IfigPlanMelatopes *melatopes,
                          int is_acute, IfigPoint *at)
{
    return view->axes.count == 2 &&
           ifig_view_direction(
               view, is_acute ? view->axes.acute_bisectrix : view->axes.obtuse_bisectrix, at) &&
           ifig_plan_is_clear(melatopes, *at, 1.1 * view->frame.em) &&
           ifig_plan_apart(*at, view->frame.centre) < view->frame.radius - 0.5 * view->frame.em;
}

/* The trace, reserved, so that later words keep off it; its own word stands near one of its ends.
 */
void ifig_plan_take_trace(const IfigFigureView *view, IfigFigurePlan *plan)
{
    const double half = 0.16 * view->frame.em;
    plan->apart_count = plan->taken_count;
    if (view->axes.count != 2) {
        return;
    }
    plan->trace_count = ifig_view_axial_plane(view, plan->trace);
    for (size_t i = 1; i < plan->trace_count; i++) {
        if (isfinite(plan->trace[i - 1].x) && isfinite(plan->trace[i].x)) {
            ifig_plan_take_line(plan, plan->trace[i - 1], plan->trace[i], half);
        }
    }
}

static int add_trace_at(IfigCanvas *canvas, const IfigFigureView *view, IfigFigurePlan *plan,
                        size_t point, int distances)
{
    const double em = view->frame.em;
    const IfigPoint at = plan->trace[point], next = plan->trace[point + 1];
    const double out = ifig_plan_apart(at, view->frame.centre) / view->frame.radius;
    const double dx = fabs(next.x - at.x), dy = fabs(next.y - at.y);
    const IfigPlanWish wish = {at, dx > dy ? (IfigPoint){0, 1} : (IfigPoint){1, 0}, 0.16 * em,
                               distances, 0};
    return isfinite(dx) && out > 0.3 && out < 0.9 && ifig_plan_has_room(plan, at, 0.4 * em) &&
           ifig_plan_beside(canvas, plan, &wish,
                            ifig_page_message(IFIG_PAGE_SAY_LABEL_AXIAL_PLANE));
}

static void add_trace(IfigCanvas *canvas, const IfigFigureView *view, IfigFigurePlan *plan)
{
    enum { FARTHEST = 4 };
    int has_trace = 0;
    for (int round = 0; round < 2 * FARTHEST; round++) {
        plan->keeps_inside = round < FARTHEST;
        for (size_t i = 1; i + 1 < plan->trace_count; i++) {
            has_trace |= isfinite(plan->trace[i].x);
            if (add_trace_at(canvas, view, plan, i, round % FARTHEST + 1)) {
                plan->keeps_inside = 0;
                ifig_plan_key(plan, IFIG_PAGE_SAY_KEY_AXIAL_PLANE);
                return;
            }
        }
    }
    plan->keeps_inside = 0;
    plan->trace_count = 0; /* no line without its name */
    plan->without_room += (size_t)has_trace;
}

IfigPlanAxes ifig_plan_take_axes(const IfigFigureView *view, const IfigPlanMelatopes *melatopes,
                                 IfigFigurePlan *plan)
{
    const double em = view->frame.em;
    IfigPlanAxes axes = {0};
    IfigPoint at;
    double slow_deg;
    axes.has_vibrations = find_vibrations(view, melatopes, &at, &slow_deg);
    if (axes.has_vibrations) {
        axes.slow = vibration(view, at, slow_deg, 1);
        axes.fast = vibration(view, at, slow_deg + 90.0, 0);
        take_vibration(&axes.slow, em, plan);
        take_vibration(&axes.fast, em, plan);
    }
    for (int i = 0; i < 2; i++) {
        axes.has_bisectrix[i] = find_bisectrix(view, melatopes, i == 0, &axes.bisectrix[i]);
        if (axes.has_bisectrix[i]) {
            ifig_plan_mark(plan,
                           (IfigPlanMark){IFIG_PLAN_DIAMOND, axes.bisectrix[i], 0.36 * em, 0.0});
        }
    }
    return axes;
}

void ifig_plan_add_axes(IfigCanvas *canvas, const IfigFigureView *view, const IfigPlanAxes *axes,
                        IfigFigurePlan *plan)
{
    static const IfigPageMessage words[] = {IFIG_PAGE_SAY_LABEL_ACUTE, IFIG_PAGE_SAY_LABEL_OBTUSE};
    static const IfigPageMessage keys[] = {IFIG_PAGE_SAY_KEY_ACUTE, IFIG_PAGE_SAY_KEY_OBTUSE};
    const double em = view->frame.em;
    for (int i = 0; i < 2; i++) {
        if (axes->has_bisectrix[i]) {
            const IfigPlanWish wish = {axes->bisectrix[i], {0.7, -0.7}, 0.4 * em, 5, 0};
            ifig_plan_word(canvas, plan, wish, words[i], keys[i]);
        }
    }
    if (axes->has_vibrations) {
        add_vibration(canvas, view, &axes->slow, plan);
        add_vibration(canvas, view, &axes->fast, plan);
    }
    add_trace(canvas, view, plan);
}
