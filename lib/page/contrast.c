/* SPDX-License-Identifier: MIT */
/* The plate of stones side by side. */
#include "plate.h"

#include <math.h>
#include <string.h>

enum { FIGURES_MAX = 6, ROWS_MAX = 40, COLUMNS_MAX = 8 };

typedef struct Contrast {
    const IfigPageFigure *figures;
    size_t count;
    const IfigPageTable *table; /* may be NULL */
} Contrast;

/* Two rows of three are easier to compare than six small ones in a row. */
static size_t columns_of(size_t count)
{
    return count <= 4 ? count : 3;
}

/* Two stones leave white at both sides rather than grow out of proportion to their captions. */
static double diameter_of(size_t count)
{
    static const double diameters[] = {64.0, 48.0, 36.0};
    return diameters[columns_of(count) - 2];
}

static double draw_figure(IfigCanvas *canvas, const IfigPageFigure *figure, IfigPoint corner,
                          double column_width, double diameter)
{
    const IfigPicture picture = {figure->rgb, figure->pixels, figure->pixels, 1};
    const IfigPen rim = ifig_pen(IFIG_INK_AXIS, 0.15, IFIG_DASH_SOLID);
    const double middle = corner.x + 0.5 * column_width;
    IfigTextStyle heading = ifig_plate_heading(), caption = ifig_text_style(8.0, IFIG_INK_TEXT);
    heading.align = caption.align = IFIG_ALIGN_CENTRE;
    heading.wrap_mm = caption.wrap_mm = column_width - 6.0;
    const IfigBox title = ifig_canvas_passage(canvas, IFIG_ROLE_HEADING, &heading,
                                              (IfigPoint){middle, corner.y}, figure->title);
    double y = title.y + title.height + 2.5;
    ifig_canvas_begin(
        canvas, IFIG_ROLE_FIGURE,
        ifig_page_say(IFIG_PAGE_SAY_FIGURE_WORDS, figure->title, figure->caption).text);
    ifig_canvas_picture(canvas, &picture,
                        (IfigBox){middle - 0.5 * diameter, y, diameter, diameter});
    ifig_canvas_circle(canvas, &rim, NULL, (IfigPoint){middle, y + 0.5 * diameter}, 0.5 * diameter);
    ifig_canvas_end(canvas);
    y += diameter + 3.0;
    if (figure->caption != NULL) {
        y += ifig_canvas_passage(canvas, IFIG_ROLE_CAPTION, &caption, (IfigPoint){middle, y},
                                 figure->caption)
                 .height;
    }
    return y;
}

static double draw(IfigCanvas *canvas, const void *what, double y)
{
    const Contrast *const contrast = what;
    const size_t columns = columns_of(contrast->count);
    const double width = IFIG_PLATE_INNER / (double)columns;
    for (size_t first = 0; first < contrast->count; first += columns) {
        double lowest = y;
        for (size_t i = first; i < contrast->count && i < first + columns; i++) {
            const IfigPoint corner = {IFIG_PLATE_MARGIN + (double)(i - first) * width, y};
            lowest = fmax(lowest, draw_figure(canvas, &contrast->figures[i], corner, width,
                                              diameter_of(contrast->count)));
        }
        y = lowest + 7.0;
    }
    if (contrast->table != NULL && contrast->table->rows > 0) {
        return ifig_table_draw(canvas, contrast->table, (IfigPoint){IFIG_PLATE_MARGIN, y + 1.0},
                               IFIG_PLATE_INNER);
    }
    return y - 4.0;
}

static IfigStatus check(const Contrast *contrast, IfigError *error)
{
    IfigStatus status = ifig_check_range("the number of stones on a plate", (double)contrast->count,
                                         2, FIGURES_MAX, "", error);
    for (size_t i = 0; i < contrast->count && status == IFIG_OK; i++) {
        if (contrast->figures == NULL || contrast->figures[i].rgb == NULL ||
            contrast->figures[i].title == NULL) {
            status = ifig_fail(error, IFIG_ERROR_ARGUMENT,
                               "ifig_page_contrast was given a null pointer; give each figure its "
                               "pixels and a title");
        }
    }
    const IfigPageTable *const table = contrast->table;
    if (status == IFIG_OK && table != NULL && table->rows > 0) {
        status = ifig_check_range("the table's rows", (double)table->rows, 1, ROWS_MAX, "", error);
        if (status == IFIG_OK) {
            status = ifig_check_range("the table's columns", (double)table->columns, 1, COLUMNS_MAX,
                                      "", error);
        }
        if (status == IFIG_OK && table->cells == NULL) {
            status = ifig_fail(error, IFIG_ERROR_ARGUMENT,
                               "the table's cells are a null pointer; give rows x columns of them");
        }
    }
    return status;
}

uint32_t ifig_page_contrast_pixels(const IfigPageOptions *options, size_t count)
{
    if (options == NULL || !(options->dpi >= 50.0 && options->dpi <= 1200.0) || count < 2 ||
        count > FIGURES_MAX) {
        return 0;
    }
    return (uint32_t)lround(diameter_of(count) * options->dpi / 25.4);
}

IfigStatus ifig_page_contrast(const char *path, const IfigPageOptions *options,
                              const IfigPageFigure *figures, size_t count,
                              const IfigPageTable *table, const IfigPageWords *words,
                              IfigError *error)
{
    const Contrast contrast = {figures, count, table};
    const IfigStatus status = check(&contrast, error);
    const IfigPlateSheet plate = {path, options, words, draw, &contrast};
    return status == IFIG_OK ? ifig_plate_write(&plate, error) : status;
}
