/* SPDX-License-Identifier: MIT */
/* The stone's labels, from its reading: the more a learner needs one, the earlier it chooses its
 * place. */
#include "figure_plate.h"

#include <math.h>

static double apart(IfigPoint one, IfigPoint other)
{
    return hypot(one.x - other.x, one.y - other.y);
}

/* Melatopes within the rim; two that nearly meet share one mark. */
typedef struct Melatopes {
    IfigPoint at[2];
    size_t count;
    int is_double;
} Melatopes;

static Melatopes find_melatopes(const IfigFigureView *view)
{
    const IfigReading *const reading = view->reading;
    Melatopes found = {.count = 0};
    for (size_t i = 0; i < reading->melatope_count; i++) {
        if (reading->melatope[i].in_field) {
            found.at[found.count++] =
                ifig_view_at(view, reading->melatope[i].x, reading->melatope[i].y);
        }
    }
    if (found.count == 2 && apart(found.at[0], found.at[1]) < 0.9 * view->frame.em) {
        found.at[0] = (IfigPoint){0.5 * (found.at[0].x + found.at[1].x),
                                  0.5 * (found.at[0].y + found.at[1].y)};
        found.count = 1;
        found.is_double = 1;
    }
    return found;
}

static int is_clear_of(const Melatopes *melatopes, IfigPoint at, double distance)
{
    for (size_t i = 0; i < melatopes->count; i++) {
        if (apart(melatopes->at[i], at) < distance) {
            return 0;
        }
    }
    return 1;
}

/* Away from the middle of the picture, for a word that would stand outward. */
static IfigPoint across(const IfigFigureView *view, const Melatopes *melatopes)
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
                is_close |= before != NULL && apart(before->at, rings[i].at) < least;
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
            if (rings[k].order % step == 0 && apart(rings[k].at, view->frame.centre) < within &&
                ifig_plan_fixed(canvas, plan, rings[k].at, ifig_number_text(rings[k].order, 4).text,
                                0.85)) {
                ifig_plan_key(plan, IFIG_PAGE_SAY_KEY_RINGS);
            }
        }
    }
}

/* Within the rim where there is room, else anywhere. */
static int add_beside(IfigCanvas *canvas, IfigFigurePlan *plan, IfigPlanWish wish, const char *word)
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
                          const Melatopes *melatopes, IfigFigurePlan *plan)
{
    const double em = view->frame.em;
    const IfigPageMessage name =
        melatopes->is_double ? IFIG_PAGE_SAY_LABEL_TWO_MELATOPES : IFIG_PAGE_SAY_LABEL_MELATOPE;
    for (size_t i = 0; i < melatopes->count; i++) {
        const IfigPlanWish wish = {melatopes->at[i], across(view, melatopes), 0.5 * em, 5, 0};
        plan->without_room += !add_beside(canvas, plan, wish, ifig_page_message(name));
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

/* Where the two waves' directions are shown: at the centre, or where a melatope stands there, on a
 * diagonal of the polars. */
static int find_vibrations(const IfigFigureView *view, const Melatopes *melatopes, IfigPoint *at,
                           double *slow_deg)
{
    static const double radii[] = {0.0, 0.52, 0.62, 0.42, 0.72};
    static const double turns_deg[] = {135.0, 315.0, 225.0, 45.0};
    const double polariser = view->scene->instrument.polariser.azimuth_deg;
    for (size_t i = 0; i < sizeof radii / sizeof *radii; i++) {
        for (size_t k = 0; k < 4; k++) {
            const double azimuth = (polariser + turns_deg[k]) * IFIG_DEGREE;
            const double x = radii[i] * cos(azimuth), y = radii[i] * sin(azimuth);
            *at = ifig_view_at(view, x, y);
            if (is_clear_of(melatopes, *at, 3.2 * view->frame.em) &&
                ifig_view_slow(view, x, y, slow_deg)) {
                return 1;
            }
        }
    }
    return 0;
}

typedef struct Vibration {
    IfigPoint at, reach; /* from the middle to an end */
    IfigPen pen;
    IfigPageMessage word, key;
} Vibration;

static Vibration vibration(const IfigFigureView *view, IfigPoint at, double azimuth_deg,
                           int is_slow)
{
    const double em = view->frame.em, half = (is_slow ? 1.9 : 1.5) * em;
    const double c = cos(azimuth_deg * IFIG_DEGREE), s = sin(azimuth_deg * IFIG_DEGREE);
    const IfigPen pen = ifig_pen(IFIG_INK_TEXT, (is_slow ? 0.12 : 0.09) * em,
                                 is_slow ? IFIG_DASH_SOLID : IFIG_DASH_SHORT);
    const double up = s > 0.25 || (s > -0.25 && c > 0.0) ? 1.0 : -1.0; /* the word's end */
    return (Vibration){at,
                       {up * half * c, -up * half * s},
                       ifig_pen_haloed(pen, 0.09 * em),
                       is_slow ? IFIG_PAGE_SAY_LABEL_SLOW : IFIG_PAGE_SAY_LABEL_FAST,
                       is_slow ? IFIG_PAGE_SAY_KEY_SLOW : IFIG_PAGE_SAY_KEY_FAST};
}

static void take_vibration(const Vibration *v, double em, IfigFigurePlan *plan)
{
    ifig_plan_take_line(plan, (IfigPoint){v->at.x - v->reach.x, v->at.y - v->reach.y},
                        (IfigPoint){v->at.x + v->reach.x, v->at.y + v->reach.y}, 0.28 * em);
}

/* The word stands at an end of its arrow and beyond, so that it is plain whose it is. */
static void add_vibration(IfigCanvas *canvas, const Vibration *v, double em, IfigFigurePlan *plan)
{
    enum { TRIES = 8, BEYOND = 3 };
    for (int i = 0; i < TRIES; i++) {
        const double sign = i % 2 == 0 ? 1.0 : -1.0;
        const IfigPoint to = {v->at.x + sign * v->reach.x, v->at.y + sign * v->reach.y};
        const IfigPlanWish wish = {
            to, {sign * v->reach.x, sign * v->reach.y}, 0.3 * em, i / 2 + 1, BEYOND};
        if (ifig_plan_beside(canvas, plan, &wish, ifig_page_message(v->word))) {
            const IfigPoint from = {2.0 * v->at.x - to.x, 2.0 * v->at.y - to.y};
            ifig_plan_line(plan, (IfigPlanLine){from, to, v->pen, 2});
            ifig_plan_key(plan, v->key);
            return;
        }
    }
    plan->without_room++;
}

/* A bisectrix, unless it stands on a melatope or where a reserved place is taken by one. */
static int find_bisectrix(const IfigFigureView *view, const Melatopes *melatopes, int is_acute,
                          IfigPoint *at)
{
    return view->axes.count == 2 &&
           ifig_view_direction(
               view, is_acute ? view->axes.acute_bisectrix : view->axes.obtuse_bisectrix, at) &&
           is_clear_of(melatopes, *at, 1.1 * view->frame.em) &&
           apart(*at, view->frame.centre) < view->frame.radius - 0.5 * view->frame.em;
}

static void add_word(IfigCanvas *canvas, IfigFigurePlan *plan, IfigPlanWish wish,
                     IfigPageMessage word, IfigPageMessage key)
{
    if (add_beside(canvas, plan, wish, ifig_page_message(word))) {
        ifig_plan_key(plan, key);
    } else {
        plan->without_room++;
    }
}

/* The trace, reserved, so that later words keep off it; its own word stands near one of its ends.
 */
static void take_trace(const IfigFigureView *view, IfigFigurePlan *plan)
{
    const double half = 0.16 * view->frame.em;
    plan->apart_count = plan->taken_count;
    if (view->axes.count != 2) {
        return;
    }
    ifig_view_axial_plane(view, plan->trace);
    plan->trace_count = IFIG_TRACE_POINTS;
    for (int i = 1; i < IFIG_TRACE_POINTS; i++) {
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
    const double out = apart(at, view->frame.centre) / view->frame.radius;
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
    if (ifig_plan_has_room(plan, at, 0.45 * em) && add_beside(canvas, plan, wish, word.text)) {
        ifig_plan_mark(plan, (IfigPlanMark){IFIG_PLAN_WEDGE, at, 0.45 * em, azimuth});
        ifig_plan_key(plan, IFIG_PAGE_SAY_KEY_TILT);
    } else {
        plan->without_room++;
    }
}

/* All that `full` adds once melatopes and rings have their places. */
typedef struct Extras {
    int has_vibrations, has_bisectrix[2];
    Vibration slow, fast;
    IfigPoint bisectrix[2];
} Extras;

static Extras take_extras(const IfigFigureView *view, const Melatopes *melatopes,
                          IfigFigurePlan *plan)
{
    const double em = view->frame.em;
    Extras extras = {0};
    IfigPoint at;
    double slow_deg;
    extras.has_vibrations = find_vibrations(view, melatopes, &at, &slow_deg);
    if (extras.has_vibrations) {
        extras.slow = vibration(view, at, slow_deg, 1);
        extras.fast = vibration(view, at, slow_deg + 90.0, 0);
        take_vibration(&extras.slow, em, plan);
        take_vibration(&extras.fast, em, plan);
    }
    for (int i = 0; i < 2; i++) {
        extras.has_bisectrix[i] = find_bisectrix(view, melatopes, i == 0, &extras.bisectrix[i]);
        if (extras.has_bisectrix[i]) {
            ifig_plan_mark(plan,
                           (IfigPlanMark){IFIG_PLAN_DIAMOND, extras.bisectrix[i], 0.36 * em, 0.0});
        }
    }
    return extras;
}

static void add_extras(IfigCanvas *canvas, const IfigFigureView *view, const Extras *extras,
                       IfigFigurePlan *plan)
{
    static const IfigPageMessage words[] = {IFIG_PAGE_SAY_LABEL_ACUTE, IFIG_PAGE_SAY_LABEL_OBTUSE};
    static const IfigPageMessage keys[] = {IFIG_PAGE_SAY_KEY_ACUTE, IFIG_PAGE_SAY_KEY_OBTUSE};
    const double em = view->frame.em;
    for (int i = 0; i < 2; i++) {
        if (extras->has_bisectrix[i]) {
            const IfigPlanWish wish = {extras->bisectrix[i], {0.7, -0.7}, 0.4 * em, 5, 0};
            add_word(canvas, plan, wish, words[i], keys[i]);
        }
    }
    if (extras->has_vibrations) {
        add_vibration(canvas, &extras->slow, em, plan);
        add_vibration(canvas, &extras->fast, em, plan);
    }
    add_trace(canvas, view, plan);
    add_tilt(canvas, view, plan);
}

void ifig_plan_stone(IfigCanvas *canvas, const IfigFigureView *view, IfigLabels labels,
                     IfigFigurePlan *plan)
{
    const double em = view->frame.em;
    const int is_full = labels == IFIG_LABELS_FULL;
    const Melatopes melatopes = find_melatopes(view);
    Extras extras = {0};
    for (size_t i = 0; i < melatopes.count; i++) {
        ifig_plan_mark(plan, (IfigPlanMark){IFIG_PLAN_RING, melatopes.at[i], 0.45 * em, 0.0});
    }
    if (is_full) {
        extras = take_extras(view, &melatopes, plan);
        add_rings(canvas, view, plan);
        take_trace(view, plan);
    }
    add_melatopes(canvas, view, &melatopes, plan);
    add_brush(canvas, view, plan);
    if (is_full) {
        if (view->reading->bulls_eye && melatopes.count > 0) {
            const IfigPlanWish wish = {melatopes.at[0], {0.8, 0.6}, 0.5 * em, 5, 0};
            add_word(canvas, plan, wish, IFIG_PAGE_SAY_LABEL_EYE, IFIG_PAGE_SAY_KEY_EYE);
        }
        add_extras(canvas, view, &extras, plan);
    }
}
