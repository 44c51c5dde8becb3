/* SPDX-License-Identifier: MIT */
/* Inside the page room: the sheets of a recipe while they are laid out. */
#ifndef IFIG_PAGE_SHEET_H
#define IFIG_PAGE_SHEET_H

#include "interfig/page_recipe.h"
#include "messages.h"
#include "page.h"
#include "photo.h"

/* mm; both papers leave 10 mm free all round. */
#define IFIG_SHEET_SIDE   14.0 /* left and right margin */
#define IFIG_SHEET_TOP    12.0
#define IFIG_SHEET_FOOT   27.0 /* from the sheet's lower edge to the end of the figures */
#define IFIG_SHEET_GUTTER 7.0  /* between columns */

enum { IFIG_SHEET_BOXES_MAX = 512 };

/* What an item's readings and photo come to, before anything is drawn. */
typedef struct IfigSheetItem {
    int has_reading;
    IfigReading reading;
    char *words;   /* of the reading that was asked for; NULL: none */
    char *caption; /* of the reading; NULL: none */
    IfigPhoto photo;
    IfigCircle circle;
} IfigSheetItem;

typedef struct IfigSheets {
    const IfigPageRecipe *recipe;
    const IfigPageScene *scenes;
    const IfigPageOptions *options;
    IfigSheetItem *items;
    double width, height, inner, bottom; /* of the sheet; between the margins; end of figures */
    double column;                       /* width of one */
    double diameter;
    IfigCanvas *canvas;
    int is_trial; /* 1: nothing is drawn, all is measured */
    unsigned page, page_count;
    IfigBox boxes[IFIG_SHEET_BOXES_MAX]; /* of this page: none may share any area */
    size_t box_count;
} IfigSheets;

/* sheet.c: boxes and text. A box is noted as taken, and a failure where another lies there. */
void ifig_sheet_take(IfigSheets *sheets, IfigBox box, const char *what);
/* Text between tags, or its measure alone; returns its height. */
double ifig_sheet_text(IfigSheets *sheets, IfigRole role, const IfigTextStyle *style, IfigPoint at,
                       const char *text);
const char *ifig_sheet_title(const IfigSheets *sheets, size_t item);

/* sheet_prepare.c: items, and the diameter; released in every case. */
IfigStatus ifig_sheet_prepare(IfigSheets *sheets, IfigError *error);
void ifig_sheet_release(IfigSheets *sheets);
/* To a tenth, upward: what is told to be too much never rounds to nothing. */
IfigNumberText ifig_sheet_millimetres(double value);
/* Fail with the place of an item in the recipe before the message. */
IfigStatus ifig_sheet_fail_item(const IfigSheets *sheets, size_t i, IfigStatus status,
                                IfigError *error, const char *message);

/* sheet_item.c: the pieces of an item. */
size_t ifig_sheet_pieces(const IfigPageItem *item);
/* The diameter that item i leaves room for, mm. */
double ifig_sheet_diameter(const IfigSheets *sheets, size_t i);
double ifig_sheet_head_height(IfigSheets *sheets, size_t i);
/* Draw or measure an item whose circles begin `head` below its corner; returns its height. */
double ifig_sheet_item(IfigSheets *sheets, size_t i, IfigPoint corner, double head);

/* sheet_frame.c: what stands around the items; each returns its height. */
double ifig_sheet_opening(IfigSheets *sheets);
double ifig_sheet_notes(IfigSheets *sheets, double y);
void ifig_sheet_footer(IfigSheets *sheets);

/* sheet_words.c: a reading in a sentence or three; to be freed, NULL without memory. */
char *ifig_sheet_short_reading(const IfigReading *reading, int has_plate);

#endif
