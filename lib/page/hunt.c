/* SPDX-License-Identifier: MIT */
/* The plate of all directions of view: the map, and beside it how to read it. */
#include "plate.h"

#include <math.h>

static const double MAP_LEFT = IFIG_PLATE_MARGIN + 9.0;
static const double LEGEND_LEFT = IFIG_PLATE_MARGIN + IFIG_MAP_DIAMETER + 24.0;

static double legend_line(IfigCanvas *canvas, double y, const char *words)
{
    IfigTextStyle style = ifig_text_style(8.0, IFIG_INK_TEXT);
    style.wrap_mm = IFIG_PLATE_WIDTH - IFIG_PLATE_MARGIN - LEGEND_LEFT - 6.0;
    const IfigBox box = ifig_canvas_passage(canvas, IFIG_ROLE_PARAGRAPH, &style,
                                            (IfigPoint){LEGEND_LEFT + 6.0, y}, words);
    return y + box.height + 2.5;
}

static int has_kind(const IfigPageMap *map, IfigMarkKind kind)
{
    for (size_t i = 0; i < map->mark_count; i++) {
        if (map->marks[i].kind == kind) {
            return 1;
        }
    }
    return 0;
}

static double draw_legend(IfigCanvas *canvas, const IfigPageMap *map, double y)
{
    static const IfigPageMessage words[IFIG_MARK_KIND_COUNT] = {
        [IFIG_MARK_CRYSTAL_AXIS] = IFIG_PAGE_SAY_HUNT_CRYSTAL_AXIS,
        [IFIG_MARK_OPTIC_AXIS] = IFIG_PAGE_SAY_HUNT_OPTIC_AXIS,
        [IFIG_MARK_TABLE] = IFIG_PAGE_SAY_HUNT_TABLE};
    const IfigTextStyle heading = ifig_plate_heading();
    const IfigPen dashes = ifig_pen(IFIG_INK_MUTED, 0.25, IFIG_DASH_SHORT);
    ifig_canvas_passage(canvas, IFIG_ROLE_HEADING, &heading, (IfigPoint){LEGEND_LEFT, y},
                        ifig_page_message(IFIG_PAGE_SAY_HUNT_LEGEND));
    y += 8.0;
    for (int kind = 0; kind < IFIG_MARK_KIND_COUNT; kind++) {
        if (has_kind(map, (IfigMarkKind)kind)) {
            ifig_map_symbol(canvas, (IfigMarkKind)kind, (IfigPoint){LEGEND_LEFT + 1.9, y + 1.9}, 0);
            y = legend_line(canvas, y, ifig_page_message(words[kind]));
        }
    }
    ifig_canvas_line(canvas, &dashes, (IfigPoint){LEGEND_LEFT, y + 1.9},
                     (IfigPoint){LEGEND_LEFT + 3.8, y + 1.9});
    y = legend_line(canvas, y, ifig_page_message(IFIG_PAGE_SAY_HUNT_CIRCLES));
    return legend_line(canvas, y, ifig_page_message(IFIG_PAGE_SAY_HUNT_RIM));
}

static double draw(IfigCanvas *canvas, const void *what, double y)
{
    const IfigPageMap *const map = what;
    const double below_map = ifig_map_draw(canvas, map, (IfigPoint){MAP_LEFT, y + 3.0}) + 4.0;
    return fmax(below_map, draw_legend(canvas, map, y));
}

static IfigStatus check(const IfigPageMap *map, IfigError *error)
{
    if (map == NULL || map->rgb == NULL || (map->marks == NULL && map->mark_count > 0)) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_page_hunt was given a null pointer; give a map with its pixels and "
                         "marks");
    }
    IfigStatus status =
        ifig_check_range("the number of marks", (double)map->mark_count, 0, 64, "", error);
    for (size_t i = 0; i < map->mark_count && status == IFIG_OK; i++) {
        const IfigMapMark *const mark = &map->marks[i];
        if ((int)mark->kind < 0 || mark->kind >= IFIG_MARK_KIND_COUNT) {
            return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                             "mark %s of the map is of no known kind; choose one of IfigMarkKind",
                             ifig_number_text((double)i + 1.0, 3).text);
        }
        status = ifig_check_range("a mark's distance from the map's centre",
                                  hypot(mark->x, mark->y), 0.0, 1.000001, "", error);
    }
    return status;
}

uint32_t ifig_page_hunt_pixels(const IfigPageOptions *options)
{
    if (options == NULL || !(options->dpi >= 50.0 && options->dpi <= 1200.0)) {
        return 0;
    }
    return (uint32_t)lround(IFIG_MAP_DIAMETER * options->dpi / 25.4);
}

IfigStatus ifig_page_hunt(const char *path, const IfigPageOptions *options, const IfigPageMap *map,
                          const IfigPageWords *words, IfigError *error)
{
    const IfigStatus status = check(map, error);
    const IfigPlateSheet plate = {path, options, words, draw, map};
    return status == IFIG_OK ? ifig_plate_write(&plate, error) : status;
}
