/* SPDX-License-Identifier: MIT */
/* The instrument's labels, outside the rim: polars, accessory plate, angle scale. */
#include "figure_plate.h"

#include <math.h>
#include <string.h>

enum { ARROWS_MAX = 3 };

/* The arrows stand around the northern half; the scale below needs the southern one. */
typedef struct Around {
    double taken_deg[ARROWS_MAX];
    int count;
} Around;

/* An azimuth from 0 to below 180 that is the same line. */
static double as_line(double azimuth_deg)
{
    const double turned = fmod(azimuth_deg, 180.0);
    return turned < 0.0 ? turned + 180.0 : turned;
}

static int is_apart(const Around *around, double azimuth_deg)
{
    static const double least_deg = 33.0;
    for (int i = 0; i < around->count; i++) {
        if (fabs(azimuth_deg - around->taken_deg[i]) < least_deg) {
            return 0;
        }
    }
    return 1;
}

static IfigPoint beyond_rim(const IfigFigureView *view, double azimuth_deg, double away)
{
    const double r = 1.0 + away / view->frame.radius;
    return ifig_view_at(view, r * cos(azimuth_deg * IFIG_DEGREE),
                        r * sin(azimuth_deg * IFIG_DEGREE));
}

/* How far from the rim an arrow's middle must stand so that no end of it comes near. */
static double away_for(const IfigFigureView *view, double place_deg, double along_deg, double half)
{
    const double em = view->frame.em, r = view->frame.radius;
    const double radial = fabs(cos((place_deg - along_deg) * IFIG_DEGREE)) * half;
    const double across = fabs(sin((place_deg - along_deg) * IFIG_DEGREE)) * half;
    const double inner = r + 0.75 * em; /* the least distance of an end from the centre */
    return sqrt(fmax(inner * inner - across * across, 0.0)) + radial - r + 0.02 * em;
}

static int ends_within(const IfigBox *box, IfigPoint middle, double reach_x, double reach_y)
{
    return middle.x - reach_x >= box->x && middle.x + reach_x <= box->x + box->width &&
           middle.y - reach_y >= box->y && middle.y + reach_y <= box->y + box->height;
}

/* The place whose rim runs along the arrow, or the nearest one that is free and within the box. */
static int choose_place(const IfigFigureView *view, const Around *around, double along_deg,
                        double half, double *place_deg, IfigPoint *middle)
{
    static const double shifts[] = {0, 35, -35, 45, -45, 60, -60, 75, -75, 90, -90, 120, -120};
    const double c = fabs(cos(along_deg * IFIG_DEGREE)), s = fabs(sin(along_deg * IFIG_DEGREE));
    const double edge = 0.35 * view->frame.em;
    for (size_t i = 0; i < sizeof shifts / sizeof *shifts; i++) {
        *place_deg = as_line(along_deg + 90.0) + shifts[i];
        *middle = beyond_rim(view, *place_deg, away_for(view, *place_deg, along_deg, half));
        if (*place_deg > -1.0 && *place_deg < 181.0 && is_apart(around, *place_deg) &&
            ends_within(&view->frame.box, *middle, half * c + edge * s, half * s + edge * c)) {
            return 1;
        }
    }
    return 0;
}

/* The disc as strips: words outside the rim stay off it. */
static void take_disc(const IfigFigureView *view, IfigFigurePlan *plan)
{
    enum { STRIPS = 160 };
    const double r = view->frame.radius + 0.1 * view->frame.em;
    for (int i = 0; i < STRIPS; i++) {
        const double low = -1.0 + 2.0 * i / STRIPS, high = -1.0 + 2.0 * (i + 1) / STRIPS;
        const double near = low * high <= 0.0 ? 0.0 : fmin(fabs(low), fabs(high));
        const double half = r * sqrt(1.0 - near * near);
        ifig_plan_take(plan, (IfigBox){view->frame.centre.x - half, view->frame.centre.y + r * low,
                                       2.0 * half, r * (high - low)});
    }
}

static void add_arrow(IfigCanvas *canvas, const IfigFigureView *view, IfigFigurePlan *plan,
                      Around *around, double along_deg, const char *word)
{
    const double em = view->frame.em, half = fmin(1.7 * em, 0.3 * view->frame.radius);
    const double c = cos(along_deg * IFIG_DEGREE), s = sin(along_deg * IFIG_DEGREE);
    double place = 90.0;
    IfigPoint middle;
    if (!choose_place(view, around, along_deg, half, &place, &middle)) {
        plan->without_room++;
        return;
    }
    const IfigPoint to = {middle.x + half * c, middle.y - half * s};
    const IfigPoint from = {middle.x - half * c, middle.y + half * s};
    const IfigPen pen = ifig_pen(IFIG_INK_TEXT, 0.09 * em, IFIG_DASH_SOLID);
    const size_t taken_before = plan->taken_count;
    around->taken_deg[around->count++] = place;
    ifig_plan_line(plan, (IfigPlanLine){from, to, pen, 2});
    ifig_plan_take_line(plan, from, to, 0.3 * em);
    /* The word beyond the upper or right end, else beyond the other, else anywhere beside it. */
    const int is_up = fabs(s) > 0.7;
    const double way = (is_up ? s : c) >= 0.0 ? 1.0 : -1.0;
    const IfigPoint ends[2] = {way > 0.0 ? to : from, way > 0.0 ? from : to};
    for (int i = 0; i < 2; i++) {
        const double sign = (i == 0 ? way : -way);
        const IfigPlanWish wish = {ends[i], {sign * c, -sign * s}, 0.45 * em, i == 0 ? 1 : 3, 0};
        if (ifig_plan_beside(canvas, plan, &wish, word)) {
            return;
        }
    }
    plan->line_count--; /* no arrow without its word */
    plan->taken_count = taken_before;
    plan->without_room++;
}

/* A polar: the arrow of the direction it passes, or the sense in which its circle turns. */
static void add_polar(IfigCanvas *canvas, const IfigFigureView *view, IfigFigurePlan *plan,
                      Around *around, const IfigPolar *polar, int is_analyser)
{
    const IfigPageMessage name =
        is_analyser ? IFIG_PAGE_SAY_LABEL_ANALYSER : IFIG_PAGE_SAY_LABEL_POLARISER;
    if (polar->kind == IFIG_POLAR_LINEAR) {
        add_arrow(canvas, view, plan, around, polar->azimuth_deg, ifig_page_message(name));
    } else {
        const double place = is_analyser ? 45.0 : 135.0;
        const IfigPageMessage turn = polar->kind == IFIG_POLAR_LEFT
                                         ? IFIG_PAGE_SAY_LABEL_TURNS_LEFT
                                         : IFIG_PAGE_SAY_LABEL_TURNS_RIGHT;
        const IfigPageText words = ifig_page_say(turn, ifig_page_message(name), NULL);
        const double away = 1.5 * view->frame.em;
        around->taken_deg[around->count++] = place;
        plan->without_room +=
            !ifig_plan_fixed(canvas, plan, beyond_rim(view, place, away), words.text, 1.0);
        ifig_plan_key(plan, IFIG_PAGE_SAY_KEY_CIRCULAR);
    }
    ifig_plan_key(plan, is_analyser ? IFIG_PAGE_SAY_KEY_ANALYSER : IFIG_PAGE_SAY_KEY_POLARISER);
}

/* Every 10 degrees; with a narrow field closer, so that there are always some. */
static double scale_step(double field_deg)
{
    static const double wide = 25.0;
    return field_deg >= wide ? 10.0 : ifig_plot_step(0.0, field_deg, 5);
}

static double scale_place(const IfigFigureView *view, double theta_deg)
{
    IfigPoint at = view->frame.centre;
    ifig_view_ray(view, theta_deg, 0.0, &at);
    return at.x;
}

/* Ticks, and numbers where there is room for them. */
static void add_ticks(IfigCanvas *canvas, const IfigFigureView *view, IfigFigurePlan *plan,
                      double y)
{
    const double em = view->frame.em, field = ifig_instrument_field_deg(&view->scene->instrument);
    const double step = scale_step(field);
    const IfigPen thin = ifig_pen(IFIG_INK_TEXT, 0.05 * em, IFIG_DASH_SOLID);
    for (int i = 0; i * step <= field * (1.0 + 1e-9); i++) {
        const double x = scale_place(view, fmin(i * step, field * (1.0 - 1e-9)));
        const IfigPageText words =
            ifig_page_say(IFIG_PAGE_SAY_DEGREES, ifig_number_text(i * step, 4).text, NULL);
        const int has_number =
            ifig_plan_fixed(canvas, plan, (IfigPoint){x, y + 1.2 * em}, words.text, 0.85);
        const double length = has_number ? 0.45 * em : 0.25 * em;
        ifig_plan_line(plan, (IfigPlanLine){{x, y}, {x, y + length}, thin, 0});
    }
}

static void add_scale(IfigCanvas *canvas, const IfigFigureView *view, IfigFigurePlan *plan)
{
    const IfigFigureFrame *const frame = &view->frame;
    const double em = frame->em, y = frame->centre.y + frame->radius + 0.8 * em;
    const int is_air = view->scene->instrument.immersion_index <= 1.0;
    const IfigPageMessage names[] = {
        is_air ? IFIG_PAGE_SAY_LABEL_SCALE_AIR : IFIG_PAGE_SAY_LABEL_SCALE_LIQUID,
        is_air ? IFIG_PAGE_SAY_LABEL_SCALE_AIR_SHORT : IFIG_PAGE_SAY_LABEL_SCALE_LIQUID_SHORT};
    const IfigPen thin = ifig_pen(IFIG_INK_TEXT, 0.05 * em, IFIG_DASH_SOLID);
    const IfigPoint from = {frame->centre.x, y}, to = {frame->centre.x + frame->radius, y};
    ifig_plan_line(plan, (IfigPlanLine){from, to, thin, 0});
    add_ticks(canvas, view, plan, y);
    for (size_t i = 0; i < 2; i++) {
        IfigTextStyle style = ifig_plan_style(plan, 0.85);
        const char *const name = ifig_page_message(names[i]);
        const double width = ifig_canvas_measure(canvas, &style, from, name).width;
        const IfigPoint middle = {frame->centre.x - 1.1 * em - 0.5 * width, y + 1.2 * em};
        if (ifig_plan_fixed(canvas, plan, middle, name, 0.85)) {
            break;
        }
    }
    ifig_plan_take(plan, (IfigBox){from.x, y - 0.1 * em, to.x - from.x, 0.6 * em});
    ifig_plan_key(plan, is_air ? IFIG_PAGE_SAY_KEY_SCALE_AIR : IFIG_PAGE_SAY_KEY_SCALE_LIQUID);
}

void ifig_plan_instrument(IfigCanvas *canvas, const IfigFigureView *view, IfigFigurePlan *plan)
{
    const IfigInstrument *const instrument = &view->scene->instrument;
    Around around = {.count = 0};
    add_scale(canvas, view, plan);
    const size_t before = plan->taken_count;
    take_disc(view, plan);
    const size_t with_disc = plan->taken_count;
    add_polar(canvas, view, plan, &around, &instrument->polariser, 0);
    add_polar(canvas, view, plan, &around, &instrument->analyser, 1);
    if (instrument->plate.material != IFIG_PLATE_NONE) {
        add_arrow(canvas, view, plan, &around, instrument->plate.slow_azimuth_deg,
                  ifig_page_message(IFIG_PAGE_SAY_LABEL_PLATE));
        ifig_plan_key(plan, IFIG_PAGE_SAY_KEY_PLATE);
    }
    /* From here on words go onto the disc: give its strips back. */
    memmove(plan->taken + before, plan->taken + with_disc,
            (plan->taken_count - with_disc) * sizeof *plan->taken);
    plan->taken_count -= with_disc - before;
}
