/* SPDX-License-Identifier: MIT */
/* The stone's labels, from its reading: the more a learner needs one, the earlier it chooses its
 * place. */
#include "figure_plate.h"

#include <math.h>

double ifig_plan_apart(IfigPoint one, IfigPoint other)
{
    return hypot(one.x - other.x, one.y - other.y);
}

static IfigPlanMelatopes find_melatopes(const IfigFigureView *view)
{
    const IfigReading *const reading = view->reading;
    IfigPlanMelatopes found = {.count = 0};
    for (size_t i = 0; i < reading->melatope_count; i++) {
        if (reading->melatope[i].in_field) {
            found.at[found.count++] =
                ifig_view_at(view, reading->melatope[i].x, reading->melatope[i].y);
        }
    }
    if (found.count == 2 && ifig_plan_apart(found.at[0], found.at[1]) < 0.9 * view->frame.em) {
        found.at[0] = (IfigPoint){0.5 * (found.at[0].x + found.at[1].x),
                                  0.5 * (found.at[0].y + found.at[1].y)};
        found.count = 1;
        found.is_double = 1;
    }
    return found;
}

int ifig_plan_is_clear(const IfigPlanMelatopes *melatopes, IfigPoint at, double distance)
{
    for (size_t i = 0; i < melatopes->count; i++) {
        if (ifig_plan_apart(melatopes->at[i], at) < distance) {
            return 0;
        }
    }
    return 1;
}

/* Away from the middle of the picture, for a word that would stand outward. */
static IfigPoint across(const IfigFigureView *view, const IfigPlanMelatopes *melatopes)
{
    const double em = view->frame.em;
    if (melatopes->count == 2) { /* off the line through both */
        const double dx = melatopes->at[1].x - melatopes->at[0].x;
        const double dy = melatopes->at[1].y - melatopes->at[0].y;
        return fabs(dy) > fabs(dx) ? (IfigPoint){fabs(dy) + 0.1 * em, dy > 0.0 ? -dx : dx}
                                   : (IfigPoint){dx > 0.0 ? dy : -dy, -fabs(dx) - 0.1 * em};
    }
    return (IfigPoint){-0.8, -0.6}; /* the rings' numbers go up and right */
}

/* The least step of orders whose numbers stand clear of each other: every ring, every second... */
static int step_of(const IfigViewRing *rings, size_t count, double least)
{
    int step = 1;
    for (int is_close = 1; is_close && step < IFIG_READING_RINGS_MAX; step += is_close) {
        const IfigViewRing *before = NULL;
        is_close = 0;
        for (size_t i = 0; i < count; i++) {
            if (rings[i].order % step == 0) {
                is_close |= before != NULL && ifig_plan_apart(before->at, rings[i].at) < least;
                before = &rings[i];
            }
        }
    }
    return step;
}

static void add_rings(IfigCanvas *canvas, const IfigFigureView *view, IfigFigurePlan *plan)
{
    const double em = view->frame.em, within = view->frame.radius - 0.7 * em;
    for (size_t i = 0; i < view->reading->melatope_count; i++) {
        IfigViewRing rings[IFIG_READING_RINGS_MAX];
        const size_t count = ifig_view_rings(view, i, rings);
        const int step = step_of(rings, count, 1.35 * em);
        for (size_t k = 0; k < count; k++) {
            if ((rings[k].order % step == 0 || rings[k].order == 1) &&
                ifig_plan_apart(rings[k].at, view->frame.centre) < within &&
                ifig_plan_fixed(canvas, plan, rings[k].at, ifig_number_text(rings[k].order, 4).text,
                                0.85)) {
                ifig_plan_key(plan, IFIG_PAGE_SAY_KEY_RINGS);
            }
        }
    }
}

/* Within the rim where there is room, else anywhere. */
int ifig_plan_beside_inside(IfigCanvas *canvas, IfigFigurePlan *plan, IfigPlanWish wish,
                            const char *word)
{
    const int most = wish.distances;
    plan->keeps_inside = 1;
    wish.distances = most < 4 ? most : 4;
    int is_placed = ifig_plan_beside(canvas, plan, &wish, word);
    plan->keeps_inside = 0;
    wish.distances = most;
    return is_placed || ifig_plan_beside(canvas, plan, &wish, word);
}

static void add_melatopes(IfigCanvas *canvas, const IfigFigureView *view,
                          const IfigPlanMelatopes *melatopes, IfigFigurePlan *plan)
{
    const double em = view->frame.em;
    const IfigPageMessage name =
        melatopes->is_double ? IFIG_PAGE_SAY_LABEL_TWO_MELATOPES : IFIG_PAGE_SAY_LABEL_MELATOPE;
    for (size_t i = 0; i < melatopes->count; i++) {
        const IfigPlanWish wish = {melatopes->at[i], across(view, melatopes), 0.5 * em, 5, 0};
        plan->without_room += !ifig_plan_beside_inside(canvas, plan, wish, ifig_page_message(name));
        ifig_plan_key(plan, IFIG_PAGE_SAY_KEY_MELATOPE);
    }
}

/* One brush is named: the first place for the word that needs no long leader. */
static int add_brush_at(IfigCanvas *canvas, const IfigFigureView *view, IfigFigurePlan *plan,
                        size_t brush, int distances)
{
    const double em = view->frame.em, radius = 0.32 * em;
    IfigPoint points[IFIG_BRUSH_POINTS];
    const size_t count = ifig_view_brush(view, brush, points);
    for (size_t k = 1; k + 1 < count; k++) {
        const double dx = points[k].x - points[k + 1].x, dy = points[k].y - points[k + 1].y;
        const IfigPoint beside =
            fabs(dx) > fabs(dy) ? (IfigPoint){dy, -fabs(dx)} : (IfigPoint){fabs(dy), dx};
        const IfigPlanWish wish = {points[k], beside, radius, distances, 0};
        if (ifig_plan_has_room(plan, points[k], 2.0 * radius) &&
            ifig_plan_beside(canvas, plan, &wish, ifig_page_message(IFIG_PAGE_SAY_LABEL_BRUSH))) {
            ifig_plan_mark(plan, (IfigPlanMark){IFIG_PLAN_DOT, points[k], radius, 0.0});
            return 1;
        }
    }
    return 0;
}

static void add_brush(IfigCanvas *canvas, const IfigFigureView *view, IfigFigurePlan *plan)
{
    enum { FARTHEST = 4 };
    int is_placed = 0;
    if (view->reading->brush_shape == IFIG_BRUSH_NONE) {
        return;
    }
    for (int round = 0; round < 2 * FARTHEST && !is_placed; round++) {
        plan->keeps_inside = round < FARTHEST;
        for (size_t i = 0; i < view->reading->brush_count && !is_placed; i++) {
            is_placed = add_brush_at(canvas, view, plan, i, round % FARTHEST + 1);
        }
    }
    plan->keeps_inside = 0;
    if (is_placed) {
        ifig_plan_key(plan, IFIG_PAGE_SAY_KEY_BRUSH);
    } else {
        plan->without_room++;
    }
}

void ifig_plan_word(IfigCanvas *canvas, IfigFigurePlan *plan, IfigPlanWish wish,
                    IfigPageMessage word, IfigPageMessage key)
{
    if (ifig_plan_beside_inside(canvas, plan, wish, ifig_page_message(word))) {
        ifig_plan_key(plan, key);
    } else {
        plan->without_room++;
    }
}

static void add_tilt(IfigCanvas *canvas, const IfigFigureView *view, IfigFigurePlan *plan)
{
    const IfigOrientation *const lies = &view->scene->layers[0].orientation;
    const double em = view->frame.em, r = 1.0 - 0.55 * em / view->frame.radius;
    const double azimuth =
        lies->tilt_azimuth_deg + lies->stage_deg + (lies->tilt_deg < 0.0 ? 180.0 : 0.0);
    const double c = cos(azimuth * IFIG_DEGREE), s = sin(azimuth * IFIG_DEGREE);
    const IfigPoint at = ifig_view_at(view, r * c, r * s);
    const IfigPageText word = ifig_page_say(IFIG_PAGE_SAY_LABEL_TILT,
                                            ifig_number_text(fabs(lies->tilt_deg), 3).text, NULL);
    const IfigPlanWish wish = {at, {-c, s}, 0.5 * em, 5, 0};
    if (lies->tilt_deg == 0.0) {
        return;
    }
    if (ifig_plan_has_room(plan, at, 0.45 * em) &&
        ifig_plan_beside_inside(canvas, plan, wish, word.text)) {
        ifig_plan_mark(plan, (IfigPlanMark){IFIG_PLAN_WEDGE, at, 0.45 * em, azimuth});
        ifig_plan_key(plan, IFIG_PAGE_SAY_KEY_TILT);
    } else {
        plan->without_room++;
    }
}

void ifig_plan_stone(IfigCanvas *canvas, const IfigFigureView *view, IfigLabels labels,
                     IfigFigurePlan *plan)
{
    const double em = view->frame.em;
    const int is_full = labels == IFIG_LABELS_FULL;
    const IfigPlanMelatopes melatopes = find_melatopes(view);
    IfigPlanAxes axes = {0};
    for (size_t i = 0; i < melatopes.count; i++) {
        ifig_plan_mark(plan, (IfigPlanMark){IFIG_PLAN_RING, melatopes.at[i], 0.45 * em, 0.0});
    }
    if (is_full) {
        axes = ifig_plan_take_axes(view, &melatopes, plan);
        add_rings(canvas, view, plan);
        ifig_plan_take_trace(view, plan);
    }
    add_melatopes(canvas, view, &melatopes, plan);
    add_brush(canvas, view, plan);
    if (is_full) {
        if (view->reading->bulls_eye && melatopes.count > 0) {
            const IfigPlanWish wish = {melatopes.at[0], {0.8, 0.6}, 0.5 * em, 5, 0};
            ifig_plan_word(canvas, plan, wish, IFIG_PAGE_SAY_LABEL_EYE, IFIG_PAGE_SAY_KEY_EYE);
        }
        ifig_plan_add_axes(canvas, view, &axes, plan);
        add_tilt(canvas, view, plan);
    }
}
