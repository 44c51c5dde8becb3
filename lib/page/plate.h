/* SPDX-License-Identifier: MIT */
/* Inside the page room: a plate, which is one sheet as high as what stands on it. */
#ifndef IFIG_PAGE_PLATE_H
#define IFIG_PAGE_PLATE_H

#include "messages.h"
#include "page.h"

/* mm. The width prints unscaled on A4 and on Letter with margins of 10 mm. */
#define IFIG_PLATE_WIDTH  190.0
#define IFIG_PLATE_MARGIN 12.0
#define IFIG_PLATE_INNER  (IFIG_PLATE_WIDTH - 2.0 * IFIG_PLATE_MARGIN)

/* Draws from y down and returns where it ended. */
typedef double IfigPlateDraw(IfigCanvas *canvas, const void *what, double y);

typedef struct IfigPlateSheet {
    const char *path;
    const IfigPageOptions *options;
    const IfigPageWords *words;
    IfigPlateDraw *draw; /* what stands between the subtitle and the caption */
    const void *what;
} IfigPlateSheet;
/* Options and words of this version, a title, and nothing missing. */
IfigStatus ifig_plate_check(const IfigPlateSheet *plate, IfigError *error);
/* Check options and words, draw once to see how high all is, and once in earnest. */
IfigStatus ifig_plate_write(const IfigPlateSheet *plate, IfigError *error);

/* Styles of the plates, largest first. */
IfigTextStyle ifig_plate_title(void);
IfigTextStyle ifig_plate_heading(void);
IfigTextStyle ifig_plate_body(void);
IfigTextStyle ifig_plate_small(void);

/* table.c: a table of words from y down, across the width; returns where it ended. */
double ifig_table_draw(IfigCanvas *canvas, const IfigPageTable *table, IfigPoint at, double width);

/* hunt_map.c */
#define IFIG_MAP_DIAMETER 96.0
double ifig_map_draw(IfigCanvas *canvas, const IfigPageMap *map, IfigPoint corner);
/* The shape of a kind of mark, or only the halo behind it. The shapes lie about each other where
 * one direction is marked twice. */
void ifig_map_symbol(IfigCanvas *canvas, IfigMarkKind kind, IfigPoint at, int is_halo);

#endif
