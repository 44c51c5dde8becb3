/* SPDX-License-Identifier: MIT */
/* Room 11, page: what is drawn and written on a sheet. Enters: millimetres from the sheet's top
 * left corner (x right, y down), sRGB pixels, UTF-8 text in points. Leaves: a PNG, PDF or SVG that
 * stands whole at its place or not at all.
 *
 * A canvas remembers the first thing that went wrong and skips what is drawn after it;
 * ifig_canvas_close reports it. So drawing calls return nothing to check. One thread a canvas. */
#ifndef IFIG_PAGE_ROOM_H
#define IFIG_PAGE_ROOM_H

#include "base.h"
#include "interfig/page.h"
#include "interfig/reading.h"

#define IFIG_MM_PER_POINT (25.4 / 72.0)
/* The one font, and the package that holds it: the same sheet on every machine. */
#define IFIG_FONT_FAMILY  "DejaVu Sans"
#define IFIG_FONT_PACKAGE "fonts-dejavu-core"

typedef struct IfigCanvas IfigCanvas;

typedef struct IfigPoint {
    double x, y; /* mm */
} IfigPoint;
typedef struct IfigBox {
    double x, y, width, height; /* mm; x, y: top left corner */
} IfigBox;
/* 1 where two boxes share any area. */
int ifig_box_overlap(IfigBox one, IfigBox other);
/* The same box, larger by `by` mm on each side. */
IfigBox ifig_box_grown(IfigBox box, double by);

/* ink.c: colours. The first five are greys of the page; the others stand apart for each kind of
 * colour blindness (Okabe and Ito, Color Universal Design, 2008). Never colour alone: a letter or a
 * dash goes with each. */
typedef enum IfigInkName {
    IFIG_INK_TEXT = 0, /* near black */
    IFIG_INK_MUTED,    /* captions, tick labels; 4.5:1 and more on white */
    IFIG_INK_AXIS,     /* thin lines */
    IFIG_INK_GRID,     /* thinner ones */
    IFIG_INK_WHITE,
    IFIG_INK_BLUE,
    IFIG_INK_VERMILION,
    IFIG_INK_GREEN,
    IFIG_INK_ORANGE,
    IFIG_INK_SKY,
    IFIG_INK_PURPLE,
    IFIG_INK_COUNT
} IfigInkName;
typedef struct IfigInk {
    double red, green, blue; /* sRGB, encoded, 0 to 1 */
} IfigInk;
IfigInk ifig_ink(IfigInkName name);

typedef enum IfigDash {
    IFIG_DASH_SOLID = 0,
    IFIG_DASH_LONG,
    IFIG_DASH_SHORT,
    IFIG_DASH_DOT,
    IFIG_DASH_LONG_DOT
} IfigDash;
/* A line. With a halo it is readable on any ground. */
typedef struct IfigPen {
    IfigInk ink;
    double width_mm;
    IfigDash dash;
    double halo_mm; /* of each side; 0: none */
    IfigInk halo;
} IfigPen;
IfigPen ifig_pen(IfigInkName ink, double width_mm, IfigDash dash);
/* The same pen with a halo of white or near black, whichever is further from its ink. */
IfigPen ifig_pen_haloed(IfigPen pen, double halo_mm);

/* canvas.c: the sheet itself. */

/* What a sheet says about itself. All strings are borrowed until ifig_canvas_open returns. */
typedef struct IfigSheet {
    double width_mm, height_mm; /* 5 to 2000 */
    const char *title;          /* PDF title, SVG <title>, PNG text "Title" */
    const char *description;    /* PDF subject, SVG <desc>, PNG text "Description"; may be NULL */
} IfigSheet;

/* Open a sheet. The format follows options->format, or the path's ending (.png .pdf .svg, in any
 * case); nothing touches the disk before the first page is full.
 * Returns IFIG_OK; IFIG_ERROR_ARGUMENT; IFIG_ERROR_RANGE; IFIG_ERROR_MISSING (the font is not
 * installed: the message names the package); IFIG_ERROR_MEMORY. */
IfigStatus ifig_canvas_open(const char *path, const IfigPageOptions *options,
                            const IfigSheet *sheet, IfigCanvas **canvas, IfigError *error);
/* Begin the next page. A PDF holds all; of PNG and SVG the second goes to NAME-2.png and so on, and
 * standard output takes only one. */
void ifig_canvas_new_page(IfigCanvas *canvas);
/* Write all pages to their places. Frees the canvas in every case. Of PNG and SVG with several
 * pages each file is whole or absent. */
IfigStatus ifig_canvas_close(IfigCanvas *canvas, IfigError *error);
/* What can be told of path and options before anything is drawn, and the format that they ask for.
 * Returns IFIG_OK, IFIG_ERROR_ARGUMENT or IFIG_ERROR_RANGE, as ifig_canvas_open does. */
IfigStatus ifig_canvas_check(const char *path, const IfigPageOptions *options,
                             IfigPageFormat *format, IfigError *error);
/* Give up: nothing is left behind. NULL is allowed. */
void ifig_canvas_discard(IfigCanvas *canvas);

IfigBox ifig_canvas_box(const IfigCanvas *canvas); /* the whole sheet */
/* How many pixels a picture of that length should have, so that each is one of the device. */
uint32_t ifig_canvas_pixels(const IfigCanvas *canvas, double length_mm);
/* 1 for a PNG: what is drawn has the device's pixels. */
int ifig_canvas_is_raster(const IfigCanvas *canvas);
/* IFIG_OK, or what went wrong first. */
IfigStatus ifig_canvas_status(const IfigCanvas *canvas);
/* Remember a failure of the caller's own, in ifig_fail's manner; the first one stays. */
void ifig_canvas_fail(IfigCanvas *canvas, const IfigError *error);

/* What a piece of the sheet is to a screen reader (PDF structure). Pieces may nest; all that is
 * drawn belongs to one, in reading order. */
typedef enum IfigRole {
    IFIG_ROLE_TITLE = 0, /* H1 */
    IFIG_ROLE_HEADING,   /* H2 */
    IFIG_ROLE_PARAGRAPH, /* P */
    IFIG_ROLE_CAPTION,   /* Caption */
    IFIG_ROLE_FIGURE,    /* Figure: picture, plot, with all marks on it */
    IFIG_ROLE_TABLE,     /* Table, of rows, of head cells and cells */
    IFIG_ROLE_ROW,
    IFIG_ROLE_HEAD_CELL,
    IFIG_ROLE_CELL
} IfigRole;
/* alternative: the words that stand for a figure; NULL for other roles. */
void ifig_canvas_begin(IfigCanvas *canvas, IfigRole role, const char *alternative);
void ifig_canvas_end(IfigCanvas *canvas);

/* text.c: text in the one font. */

typedef enum IfigAlign { IFIG_ALIGN_LEFT = 0, IFIG_ALIGN_CENTRE, IFIG_ALIGN_RIGHT } IfigAlign;
typedef enum IfigLevel { /* what y means */
                         IFIG_LEVEL_TOP = 0,
                         IFIG_LEVEL_MIDDLE,
                         IFIG_LEVEL_BASELINE, /* of the first line */
                         IFIG_LEVEL_BOTTOM
} IfigLevel;
typedef struct IfigTextStyle {
    double size_pt;
    int is_bold;
    IfigInk ink;
    IfigAlign align; /* x is the left end, the middle or the right end */
    IfigLevel level;
    double wrap_mm; /* break lines at this width; 0: only at line feeds */
    double spacing; /* of lines, 1: as the font wants */
    int is_markup;  /* Pango's: <b>, <sub>, <sup>, <small>; else taken as it is */
    double halo_mm; /* of each side; 0: none */
    IfigInk halo;
    double turn_deg; /* counter-clockwise about x, y */
} IfigTextStyle;
/* A plain style: left, top, spacing 1.25. */
IfigTextStyle ifig_text_style(double size_pt, IfigInkName ink);
/* White or near black behind it, whichever is further from its ink. */
IfigTextStyle ifig_text_haloed(IfigTextStyle style, double halo_mm);
/* Where the text would stand: the box of its lines, before the turn. Empty after a failure. */
IfigBox ifig_canvas_measure(IfigCanvas *canvas, const IfigTextStyle *style, IfigPoint at,
                            const char *text);
/* Draw it; returns that box. A letter the font has not is a failure that names it and the package.
 */
IfigBox ifig_canvas_text(IfigCanvas *canvas, const IfigTextStyle *style, IfigPoint at,
                         const char *text);
/* Text between tags of a role: the usual way. */
IfigBox ifig_canvas_passage(IfigCanvas *canvas, IfigRole role, const IfigTextStyle *style,
                            IfigPoint at, const char *text);

/* shapes.c: pen and fill may be NULL, not both. */

void ifig_canvas_line(IfigCanvas *canvas, const IfigPen *pen, IfigPoint from, IfigPoint to);
/* With a head at `to`, and with is_double at `from` too. */
void ifig_canvas_arrow(IfigCanvas *canvas, const IfigPen *pen, IfigPoint from, IfigPoint to,
                       int is_double);
/* Points that are not finite break the line. */
void ifig_canvas_curve(IfigCanvas *canvas, const IfigPen *pen, const IfigPoint *points,
                       size_t count);
void ifig_canvas_polygon(IfigCanvas *canvas, const IfigPen *pen, const IfigInk *fill,
                         const IfigPoint *points, size_t count);
void ifig_canvas_circle(IfigCanvas *canvas, const IfigPen *pen, const IfigInk *fill,
                        IfigPoint centre, double radius_mm);
/* From one azimuth to the other, counter-clockwise from the right. */
void ifig_canvas_arc(IfigCanvas *canvas, const IfigPen *pen, IfigPoint centre, double radius_mm,
                     double from_deg, double to_deg);
void ifig_canvas_rectangle(IfigCanvas *canvas, const IfigPen *pen, const IfigInk *fill,
                           IfigBox box);
/* What follows is cut at the circle or box, until ifig_canvas_unclip; may nest. */
void ifig_canvas_clip_circle(IfigCanvas *canvas, IfigPoint centre, double radius_mm);
void ifig_canvas_clip_box(IfigCanvas *canvas, IfigBox box);
void ifig_canvas_unclip(IfigCanvas *canvas);

/* picture.c */

typedef struct IfigPicture {
    const uint8_t *rgb; /* width x height x 3, top row first; copied */
    uint32_t width, height;
    int is_disc; /* 1: only the inscribed disc is shown, the corners stay paper */
} IfigPicture;
/* No pixel is resampled between others: a PDF and an SVG hold the very pixels; a PNG holds them
 * where the picture has ifig_canvas_pixels(width) of them (its place then snaps to whole pixels).
 */
void ifig_canvas_picture(IfigCanvas *canvas, const IfigPicture *picture, IfigBox place);

/* plot.c: curves with axes. */

typedef struct IfigAxis {
    double low, high;
    double step;       /* between labelled ticks; 0: chosen of 1, 2, 5 x 10^n */
    const char *label; /* with its unit in brackets */
} IfigAxis;
typedef struct IfigPlot {
    IfigBox box; /* of the axes alone; tick labels and titles stand outside, below and left */
    IfigAxis x, y;
    int has_grid;
} IfigPlot;
/* The step of 1, 2, 5 x 10^n that gives at most `most` steps from low to high. */
double ifig_plot_step(double low, double high, int most);
IfigPoint ifig_plot_point(const IfigPlot *plot, double x, double y);
void ifig_plot_axes(IfigCanvas *canvas, const IfigPlot *plot);
void ifig_plot_curve(IfigCanvas *canvas, const IfigPlot *plot, const IfigPen *pen, const double *x,
                     const double *y, size_t count);

/* labels.c: words beside marks, none over another. */

typedef struct IfigLabel {
    IfigPoint at;     /* of the mark */
    double radius_mm; /* of the mark: kept free */
    IfigPoint wish;   /* direction in which the label would best stand; 0, 0: right, or left */
    const char *text;
    IfigTextStyle style; /* align, level and turn are set by the placing */
    IfigBox box;         /* out */
    int is_placed;       /* out; 0: no room within `bounds` */
} IfigLabel;
/* Find each label a place near its mark, inside bounds, over no mark, no other label and none of
 * the obstacles. Labels earlier in the list choose first. Draws nothing. Returns how many have
 * found no room. */
size_t ifig_labels_place(IfigCanvas *canvas, IfigLabel *labels, size_t count, IfigBox bounds,
                         const IfigBox *obstacles, size_t obstacle_count);
/* The room that labels have, and what in it is taken. */
typedef struct IfigLabelField {
    IfigBox bounds;
    const IfigBox *obstacles;
    size_t obstacle_count;
    IfigPoint disc_centre;   /* all of a label stays within this disc; */
    double disc_radius;      /* 0: there is none */
    int keeps_leaders_clear; /* 1: no leader crosses another label either */
    int distances;  /* how many of the ever greater distances to the mark are tried, 1 to 7;
                       at 1 no leader is needed */
    int directions; /* how many of the eight around the mark, from the wish on; 0: all */
} IfigLabelField;
/* The same for labels[index] alone, among those before it, which are placed or have no room.
 * Returns 1 where it found a place. */
int ifig_label_place(IfigCanvas *canvas, IfigLabel *labels, size_t index,
                     const IfigLabelField *field);
/* Draw those that are placed, with a thin leader where one stands away from its mark. */
void ifig_labels_draw(IfigCanvas *canvas, const IfigLabel *labels, size_t count);

/* figure_plate.c: a figure with its labels in a box. */

/* The disc of a figure in a box: without labels as large as the box, with labels smaller, so that
 * all stays inside. */
typedef struct IfigFigureFrame {
    IfigBox box;
    IfigPoint centre;
    double radius;  /* mm; 0: the box is too small for labels */
    double size_pt; /* of the labels' text */
    double em;      /* the same, mm: the labels' measure of all lengths */
} IfigFigureFrame;
IfigFigureFrame ifig_figure_frame(IfigBox box, IfigLabels labels);
/* Render the scene at exact device pixels and lay its labels. reading: NULL, only the instrument is
 * labelled. alternative: NULL, the reading's own words. */
void ifig_canvas_figure(IfigCanvas *canvas, const IfigScene *scene, const IfigReading *reading,
                        IfigLabels labels, double exposure_stops, IfigBox box,
                        const char *alternative);

#endif
