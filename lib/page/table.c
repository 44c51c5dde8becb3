/* SPDX-License-Identifier: MIT */
/* A table of words: no lines down, thin ones across, each column as wide as it needs. */
#include "plate.h"

#include <math.h>

enum { COLUMNS_MAX = 8 };

static const double GAP = 4.0; /* mm between columns */

static const char *cell(const IfigPageTable *table, size_t row, size_t column)
{
    const char *const text = table->cells[row * table->columns + column];
    return text != NULL ? text : "";
}

static IfigTextStyle style_of(size_t row, size_t column)
{
    IfigTextStyle style = ifig_text_style(8.0, row == 0 ? IFIG_INK_MUTED : IFIG_INK_TEXT);
    style.is_bold = row > 0 && column == 0;
    return style;
}

/* Natural widths where they fit; else the widest columns give way to the others, and break lines.
 */
static void find_widths(IfigCanvas *canvas, const IfigPageTable *table, double width,
                        double widths[COLUMNS_MAX])
{
    const double room = width - GAP * (double)(table->columns - 1);
    double sum = 0.0;
    for (size_t column = 0; column < table->columns; column++) {
        widths[column] = 0.0;
        for (size_t row = 0; row < table->rows; row++) {
            const IfigTextStyle style = style_of(row, column);
            const IfigBox box = ifig_canvas_measure(canvas, &style, (IfigPoint){0.0, 0.0},
                                                    cell(table, row, column));
            widths[column] = fmax(widths[column], box.width + 0.1);
        }
        sum += widths[column];
    }
    double low = 0.0, high = room; /* the cap under which the widest are cut */
    for (int i = 0; i < 50 && sum > room; i++) {
        const double cap = 0.5 * (low + high);
        double capped = 0.0;
        for (size_t column = 0; column < table->columns; column++) {
            capped += fmin(widths[column], cap);
        }
        *(capped > room ? &high : &low) = cap;
    }
    for (size_t column = 0; column < table->columns && sum > room; column++) {
        widths[column] = fmin(widths[column], low);
    }
}

static double draw_row(IfigCanvas *canvas, const IfigPageTable *table, size_t row, IfigPoint at,
                       const double *widths)
{
    double height = 0.0;
    ifig_canvas_begin(canvas, IFIG_ROLE_ROW, NULL);
    for (size_t column = 0; column < table->columns; column++) {
        IfigTextStyle style = style_of(row, column);
        style.wrap_mm = widths[column];
        const IfigBox box =
            ifig_canvas_passage(canvas, row == 0 ? IFIG_ROLE_HEAD_CELL : IFIG_ROLE_CELL, &style, at,
                                cell(table, row, column));
        height = fmax(height, box.height);
        at.x += widths[column] + GAP;
    }
    ifig_canvas_end(canvas);
    return at.y + height;
}

double ifig_table_draw(IfigCanvas *canvas, const IfigPageTable *table, IfigPoint at, double width)
{
    double widths[COLUMNS_MAX];
    const IfigPen strong = ifig_pen(IFIG_INK_AXIS, 0.25, IFIG_DASH_SOLID);
    const IfigPen thin = ifig_pen(IFIG_INK_GRID, 0.2, IFIG_DASH_SOLID);
    find_widths(canvas, table, width, widths);
    ifig_canvas_begin(canvas, IFIG_ROLE_TABLE, NULL);
    for (size_t row = 0; row < table->rows; row++) {
        at.y = draw_row(canvas, table, row, at, widths) + 1.4;
        ifig_canvas_line(canvas, row == 0 ? &strong : &thin, at, (IfigPoint){at.x + width, at.y});
        at.y += 1.4;
    }
    ifig_canvas_end(canvas);
    return at.y;
}
