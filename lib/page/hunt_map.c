/* SPDX-License-Identifier: MIT */
/* The map of all directions, with its circles and marks. */
#include "plate.h"

#include <math.h>
#include <stdlib.h>

enum { MARKS_MAX = 64, CIRCLES = 5 };

static const double TILTS_DEG[CIRCLES] = {15.0, 30.0, 45.0, 60.0, 75.0};
static const double MARK_RADIUS = 1.9;

/* Lambert's equal-area projection (Lambert, 1772): the radius is proportional to the sine of half
 * the angle; 90 degrees lie on the rim. */
static double radius_of(double tilt_deg)
{
    return sqrt(2.0) * sin(0.5 * tilt_deg * IFIG_DEGREE);
}

void ifig_map_symbol(IfigCanvas *canvas, IfigMarkKind kind, IfigPoint at, int is_halo)
{
    const IfigInk ink = ifig_ink(is_halo ? IFIG_INK_WHITE : IFIG_INK_TEXT);
    const IfigPen pen = {.ink = ink, .width_mm = is_halo ? 1.1 : 0.4, .dash = IFIG_DASH_SOLID};
    if (kind == IFIG_MARK_OPTIC_AXIS) {
        ifig_canvas_circle(canvas, &pen, NULL, at, 1.3);
        ifig_canvas_circle(canvas, NULL, &ink, at, is_halo ? 0.85 : 0.5);
    } else if (kind == IFIG_MARK_TABLE) {
        const double half = MARK_RADIUS;
        ifig_canvas_rectangle(canvas, &pen, NULL,
                              (IfigBox){at.x - half, at.y - half, 2.0 * half, 2.0 * half});
    } else {
        const double r = MARK_RADIUS;
        const IfigPoint across[] = {
            {at.x - r, at.y}, {at.x + r, at.y}, {NAN, NAN}, {at.x, at.y - r}, {at.x, at.y + r}};
        ifig_canvas_curve(canvas, &pen, across, 5);
    }
}

static IfigPoint to_sheet(IfigPoint centre, double x, double y)
{
    return (IfigPoint){centre.x + 0.5 * IFIG_MAP_DIAMETER * x,
                       centre.y - 0.5 * IFIG_MAP_DIAMETER * y};
}

static IfigTextStyle tilt_style(void)
{
    IfigTextStyle style = ifig_text_haloed(ifig_text_style(6.5, IFIG_INK_TEXT), 0.45);
    style.align = IFIG_ALIGN_CENTRE;
    style.level = IFIG_LEVEL_MIDDLE;
    return style;
}

static IfigPoint tilt_point(IfigPoint centre, int circle, double azimuth_deg)
{
    const double radius = radius_of(TILTS_DEG[circle]);
    return to_sheet(centre, radius * cos(azimuth_deg * IFIG_DEGREE),
                    radius * sin(azimuth_deg * IFIG_DEGREE));
}

/* The azimuth along which the circles' numbers stand farthest from every mark. */
static double freest_azimuth(const IfigPageMap *map, IfigPoint centre)
{
    double best = -67.5, widest = -1.0;
    for (double azimuth = -67.5; azimuth < 292.5; azimuth += 22.5) {
        double nearest = 1e9;
        for (size_t i = 0; i < map->mark_count; i++) {
            const IfigPoint mark = to_sheet(centre, map->marks[i].x, map->marks[i].y);
            for (int circle = 0; circle < CIRCLES; circle++) {
                const IfigPoint at = tilt_point(centre, circle, azimuth);
                nearest = fmin(nearest, hypot(at.x - mark.x, at.y - mark.y));
            }
        }
        if (nearest > widest + 1.0) {
            widest = nearest;
            best = azimuth;
        }
    }
    return best;
}

static void draw_circles(IfigCanvas *canvas, IfigPoint centre, double azimuth, IfigBox *numbers)
{
    IfigPen pen = ifig_pen(IFIG_INK_WHITE, 0.18, IFIG_DASH_SHORT);
    const IfigTextStyle style = tilt_style();
    pen.halo = ifig_ink(IFIG_INK_MUTED);
    pen.halo_mm = 0.09;
    for (int i = 0; i < CIRCLES; i++) {
        ifig_canvas_circle(canvas, &pen, NULL, centre,
                           0.5 * IFIG_MAP_DIAMETER * radius_of(TILTS_DEG[i]));
    }
    for (int i = 0; i < CIRCLES; i++) {
        numbers[i] = ifig_canvas_text(
            canvas, &style, tilt_point(centre, i, azimuth),
            ifig_page_say(IFIG_PAGE_SAY_DEGREES, ifig_number_text(TILTS_DEG[i], 3).text, NULL)
                .text);
    }
}

/* A direction on the rim leaves the half sphere at both ends. */
static void draw_symbols(IfigCanvas *canvas, const IfigPageMap *map, IfigPoint centre)
{
    for (int is_halo = 1; is_halo >= 0; is_halo--) { /* no halo over another mark */
        for (size_t i = 0; i < map->mark_count; i++) {
            const IfigMapMark *const mark = &map->marks[i];
            ifig_map_symbol(canvas, mark->kind, to_sheet(centre, mark->x, mark->y), is_halo);
            if (hypot(mark->x, mark->y) > 0.985) {
                ifig_map_symbol(canvas, mark->kind, to_sheet(centre, -mark->x, -mark->y), is_halo);
            }
        }
    }
}

static void draw_labels(IfigCanvas *canvas, const IfigPageMap *map, IfigPoint centre,
                        const IfigBox *numbers)
{
    IfigLabel labels[MARKS_MAX];
    IfigTextStyle style = ifig_text_haloed(ifig_text_style(8.0, IFIG_INK_TEXT), 0.55);
    size_t count = 0;
    style.wrap_mm = 40.0; /* a long name in two lines hides less of the map */
    style.spacing = 1.0;
    const double reach = 0.5 * IFIG_MAP_DIAMETER;
    const IfigBox bounds = {centre.x - reach - 10.0, centre.y - reach - 8.0, 2.0 * reach + 20.0,
                            2.0 * reach + 16.0};
    for (size_t i = 0; i < map->mark_count; i++) {
        const IfigMapMark *const mark = &map->marks[i];
        const char *const text = mark->label;
        const double out = hypot(mark->x, mark->y) > 0.2 ? 1.0 : 0.0; /* away from the middle */
        labels[count++] = (IfigLabel){.at = to_sheet(centre, mark->x, mark->y),
                                      .wish = {out * mark->x, -out * mark->y},
                                      .radius_mm = MARK_RADIUS + 0.3,
                                      .text = text != NULL ? text : "",
                                      .style = style};
    }
    if (ifig_labels_place(canvas, labels, count, bounds, numbers, CIRCLES) > 0) {
        IfigError error = IFIG_ERROR_INIT;
        ifig_fail(
            &error, IFIG_ERROR_UNSUITABLE,
            "the map has more labels than it has room for; give fewer marks or shorter labels");
        ifig_canvas_fail(canvas, &error);
    }
    ifig_labels_draw(canvas, labels, count);
}

/* The marks' names, for those who do not see them. */
static IfigPageText name_marks(const IfigPageMap *map)
{
    IfigPageText names = {""};
    for (size_t i = 0; i < map->mark_count; i++) {
        if (map->marks[i].label != NULL) {
            names = names.text[0] == '\0'
                        ? ifig_page_say(IFIG_PAGE_SAY_WORD, map->marks[i].label, NULL)
                        : ifig_page_say(IFIG_PAGE_SAY_LIST, names.text, map->marks[i].label);
        }
    }
    return names;
}

double ifig_map_draw(IfigCanvas *canvas, const IfigPageMap *map, IfigPoint corner)
{
    const double reach = 0.5 * IFIG_MAP_DIAMETER;
    const IfigPoint centre = {corner.x + reach, corner.y + reach};
    const IfigPicture picture = {map->rgb, map->pixels, map->pixels, 1};
    const IfigPen rim = ifig_pen(IFIG_INK_TEXT, 0.3, IFIG_DASH_SOLID);
    IfigBox numbers[CIRCLES];
    ifig_canvas_begin(canvas, IFIG_ROLE_FIGURE,
                      ifig_page_say(IFIG_PAGE_SAY_HUNT_WORDS, name_marks(map).text, NULL).text);
    ifig_canvas_picture(canvas, &picture,
                        (IfigBox){corner.x, corner.y, IFIG_MAP_DIAMETER, IFIG_MAP_DIAMETER});
    ifig_canvas_circle(canvas, &rim, NULL, centre, reach);
    draw_circles(canvas, centre, freest_azimuth(map, centre), numbers);
    draw_symbols(canvas, map, centre);
    draw_labels(canvas, map, centre, numbers);
    ifig_canvas_end(canvas);
    return corner.y + IFIG_MAP_DIAMETER;
}
