/* SPDX-License-Identifier: MIT */
/* What stands around the items of a handout: title and introduction, notes, and the foot. */
#include <stdio.h>
#include <string.h>

#include "sheet.h"

double ifig_sheet_opening(IfigSheets *sheets)
{
    const IfigPageRecipe *const recipe = sheets->recipe;
    IfigTextStyle title = ifig_text_style(19.0, IFIG_INK_TEXT);
    IfigTextStyle subtitle = ifig_text_style(10.0, IFIG_INK_MUTED);
    IfigTextStyle intro = ifig_text_style(9.5, IFIG_INK_TEXT);
    double y = IFIG_SHEET_TOP;
    title.is_bold = 1;
    title.spacing = 1.1;
    title.wrap_mm = subtitle.wrap_mm = sheets->inner;
    intro.wrap_mm = 0.92 * sheets->inner; /* a line the eye can follow back */
    y += ifig_sheet_text(sheets, IFIG_ROLE_TITLE, &title, (IfigPoint){IFIG_SHEET_SIDE, y},
                         recipe->title);
    if (recipe->subtitle != NULL) {
        y += 0.6;
        y += ifig_sheet_text(sheets, IFIG_ROLE_PARAGRAPH, &subtitle,
                             (IfigPoint){IFIG_SHEET_SIDE, y}, recipe->subtitle);
    }
    if (recipe->intro != NULL) {
        y += 3.2;
        y += ifig_sheet_text(sheets, IFIG_ROLE_PARAGRAPH, &intro, (IfigPoint){IFIG_SHEET_SIDE, y},
                             recipe->intro);
    }
    return y + 6.0;
}

double ifig_sheet_notes(IfigSheets *sheets, double y)
{
    IfigTextStyle notes = ifig_text_style(9.0, IFIG_INK_TEXT);
    notes.wrap_mm = 0.92 * sheets->inner;
    return sheets->recipe->notes == NULL
               ? 0.0
               : ifig_sheet_text(sheets, IFIG_ROLE_PARAGRAPH, &notes,
                                 (IfigPoint){IFIG_SHEET_SIDE, y}, sheets->recipe->notes);
}

/* 50 mm, a tick each 10. */
static void draw_ruler(IfigSheets *sheets, double right, double y)
{
    const double length = 50.0, tick = 10.0;
    const IfigPen pen = ifig_pen(IFIG_INK_TEXT, 0.25, IFIG_DASH_SOLID);
    IfigTextStyle style = ifig_text_style(6.5, IFIG_INK_MUTED);
    ifig_canvas_begin(sheets->canvas, IFIG_ROLE_FIGURE,
                      ifig_page_message(IFIG_PAGE_SAY_SHEET_RULER_WORDS));
    ifig_canvas_line(sheets->canvas, &pen, (IfigPoint){right - length, y}, (IfigPoint){right, y});
    for (double at = 0.0; at <= length; at += tick) {
        const double height = at == 0.0 || at == length ? 2.2 : 1.3;
        ifig_canvas_line(sheets->canvas, &pen, (IfigPoint){right - length + at, y - height},
                         (IfigPoint){right - length + at, y});
    }
    ifig_canvas_end(sheets->canvas);
    ifig_sheet_take(sheets, (IfigBox){right - length, y - 2.2, length, 2.2}, "the ruler");
    style.align = IFIG_ALIGN_CENTRE;
    ifig_sheet_text(sheets, IFIG_ROLE_CAPTION, &style, (IfigPoint){right - 0.5 * length, y + 0.8},
                    ifig_page_message(IFIG_PAGE_SAY_SHEET_RULER));
}

/* "0.1.0, data 1a2b3c4d5e6f, first_figures.yaml": enough to make the sheet anew. */
static void draw_provenance(IfigSheets *sheets, double y)
{
    const char *const slash = strrchr(sheets->recipe->name, '/');
    const IfigTextStyle style = ifig_text_style(6.5, IFIG_INK_MUTED);
    IfigTextStyle number = style;
    char text[200], page[16], pages[16];
    snprintf(text, sizeof text, "%s, data %.12s, %s", ifig_version(), ifig_catalogue_hash(),
             ifig_word_text(slash != NULL ? slash + 1 : sheets->recipe->name).text);
    snprintf(page, sizeof page, "%u", sheets->page);
    snprintf(pages, sizeof pages, "%u", sheets->page_count);
    ifig_sheet_text(sheets, IFIG_ROLE_PARAGRAPH, &style, (IfigPoint){IFIG_SHEET_SIDE, y},
                    ifig_page_say(IFIG_PAGE_SAY_SHEET_PROVENANCE, text, NULL).text);
    number.align = IFIG_ALIGN_RIGHT;
    ifig_sheet_text(sheets, IFIG_ROLE_PARAGRAPH, &number,
                    (IfigPoint){sheets->width - IFIG_SHEET_SIDE, y},
                    ifig_page_say(IFIG_PAGE_SAY_SHEET_PAGE, page, pages).text);
}

void ifig_sheet_footer(IfigSheets *sheets)
{
    const double top = sheets->height - IFIG_SHEET_FOOT + 3.0;
    const double right = sheets->width - IFIG_SHEET_SIDE;
    const IfigPen thin = ifig_pen(IFIG_INK_GRID, 0.2, IFIG_DASH_SOLID);
    IfigTextStyle caution = ifig_text_style(6.5, IFIG_INK_MUTED);
    caution.wrap_mm = sheets->inner - 58.0;
    caution.spacing = 1.15;
    if (sheets->is_trial) {
        return;
    }
    ifig_canvas_line(sheets->canvas, &thin, (IfigPoint){IFIG_SHEET_SIDE, top},
                     (IfigPoint){right, top});
    double y = top + 1.2;
    y += ifig_sheet_text(sheets, IFIG_ROLE_PARAGRAPH, &caution, (IfigPoint){IFIG_SHEET_SIDE, y},
                         ifig_page_message(IFIG_PAGE_SAY_SHEET_CAUTION_EVIDENCE));
    ifig_sheet_text(sheets, IFIG_ROLE_PARAGRAPH, &caution, (IfigPoint){IFIG_SHEET_SIDE, y},
                    ifig_page_message(IFIG_PAGE_SAY_SHEET_CAUTION_SUN));
    draw_ruler(sheets, right, top + 5.0);
    draw_provenance(sheets, sheets->height - 13.6);
}
