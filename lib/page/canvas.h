/* SPDX-License-Identifier: MIT */
/* Inside the page room: the canvas, and the finishing of what cairo wrote. */
#ifndef IFIG_PAGE_CANVAS_H
#define IFIG_PAGE_CANVAS_H

#include "image.h"
#include "page.h"

#include <cairo.h>
#include <pango/pangocairo.h>

/* Bytes that grow; a failed allocation is remembered. */
typedef struct IfigBytes {
    unsigned char *at;
    size_t count, room;
    int is_out_of_memory;
} IfigBytes;
void ifig_bytes_add(IfigBytes *bytes, const void *more, size_t count);
void ifig_bytes_add_text(IfigBytes *bytes, const char *text);
/* As XML's character data; characters that XML cannot hold become '?'. */
void ifig_bytes_add_xml(IfigBytes *bytes, const char *text);
void ifig_bytes_free(IfigBytes *bytes);

/* What a sheet says about itself, in the canvas's own memory. */
typedef struct IfigSheetWords {
    char *title, *description;
    IfigImageText *text; /* keywords and texts are own copies */
    size_t text_count;
    char **alternatives; /* of the figures, in the order in which they were begun */
    size_t alternative_count, alternative_room;
} IfigSheetWords;
IfigStatus ifig_sheet_words_copy(IfigSheetWords *words, const IfigSheet *sheet,
                                 const IfigPageOptions *options, IfigError *error);
/* Returns 0 without memory. */
int ifig_sheet_words_add_alternative(IfigSheetWords *words, const char *alternative);
/* Of the page that is done. */
void ifig_sheet_words_forget_alternatives(IfigSheetWords *words);
void ifig_sheet_words_free(IfigSheetWords *words);

enum { IFIG_PAGES_MAX = 500, IFIG_TAGS_MAX = 16 };

struct IfigCanvas {
    char *path;
    IfigPageFormat format;
    double width_mm, height_mm, dpi;
    int keep_existing;
    IfigSheetWords words;
    cairo_surface_t *surface;
    cairo_t *cr;
    double units_per_mm;
    PangoFontMap *fonts;
    PangoContext *context;
    IfigBytes stream;                     /* what cairo writes: the whole PDF, or one SVG page */
    size_t page_count;                    /* begun so far */
    IfigPngWriter *png[IFIG_PAGES_MAX];   /* pages that wait for the others beside their places; */
    IfigAtomicFile *file[IFIG_PAGES_MAX]; /* NULL: none */
    IfigRole tags[IFIG_TAGS_MAX];
    size_t tag_count;
    IfigError failure;
};

/* Not failed yet, and all is there to draw with. */
int ifig_canvas_is_ready(const IfigCanvas *canvas);
void ifig_canvas_out_of_memory(IfigCanvas *canvas);

/* fonts.c: a font map and a context of the canvas's own. */
IfigStatus ifig_fonts_open(PangoFontMap **fonts, PangoContext **context, IfigError *error);

/* output.c: a full page goes out; all go to their places. */
IfigStatus ifig_output_begin(IfigCanvas *canvas, IfigError *error);
IfigStatus ifig_output_page(IfigCanvas *canvas, IfigError *error);
IfigStatus ifig_output_commit(IfigCanvas *canvas, IfigError *error);
void ifig_output_discard(IfigCanvas *canvas);

/* svg_finish.c: title, description, language, and numbers that do not depend on what cairo drew
 * before. */
void ifig_svg_finish(const IfigBytes *drawn, const IfigSheetWords *words, IfigBytes *finished);

/* pdf_finish.c: language, title shown, no scaling in print, alternative texts. */
IfigStatus ifig_pdf_finish(const IfigBytes *drawn, const IfigSheetWords *words, IfigBytes *finished,
                           IfigError *error);

#endif
