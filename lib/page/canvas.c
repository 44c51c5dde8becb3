/* SPDX-License-Identifier: MIT */
/* The sheet: opened, paged, tagged, closed. */
#include "canvas.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

/* cairo's own limit of an image's side, less one. */
enum { PIXELS_MAX = 32766 };

static const char *const TAGS[] = {
    [IFIG_ROLE_TITLE] = "H1",        [IFIG_ROLE_HEADING] = "H2",    [IFIG_ROLE_PARAGRAPH] = "P",
    [IFIG_ROLE_CAPTION] = "Caption", [IFIG_ROLE_FIGURE] = "Figure", [IFIG_ROLE_TABLE] = "Table",
    [IFIG_ROLE_ROW] = "TR",          [IFIG_ROLE_HEAD_CELL] = "TH",  [IFIG_ROLE_CELL] = "TD"};

static IfigStatus find_format(const char *path, IfigPageFormat wanted, IfigPageFormat *format,
                              IfigError *error)
{
    static const char *const endings[] = {
        [IFIG_PAGE_PNG] = ".png", [IFIG_PAGE_PDF] = ".pdf", [IFIG_PAGE_SVG] = ".svg"};
    if (wanted < IFIG_PAGE_BY_NAME || wanted > IFIG_PAGE_SVG) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the page's format is none of IfigPageFormat; choose PNG, PDF or SVG");
    }
    *format = wanted;
    const size_t length = strlen(path);
    for (int i = IFIG_PAGE_PNG; wanted == IFIG_PAGE_BY_NAME && i <= IFIG_PAGE_SVG; i++) {
        if (length > 4 && strcasecmp(path + length - 4, endings[i]) == 0) {
            *format = (IfigPageFormat)i;
        }
    }
    if (*format == IFIG_PAGE_BY_NAME) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the name '%s' does not say what to write; end it in .png, .pdf or .svg",
                         ifig_path_text(path).text);
    }
    return IFIG_OK;
}

IfigStatus ifig_canvas_check(const char *path, const IfigPageOptions *options,
                             IfigPageFormat *format, IfigError *error)
{
    if (path == NULL || path[0] == '\0' || options == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "a page was given a null pointer or an empty path; give a path, options "
                         "and what to draw");
    }
    if (options->size != sizeof *options) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the page options are of another version of the library; initialise them "
                         "with IFIG_PAGE_OPTIONS_INIT and compile against this version");
    }
    const IfigStatus status =
        ifig_check_range("the page's resolution", options->dpi, 50, 1200, "dpi", error);
    return status == IFIG_OK ? find_format(path, options->format, format, error) : status;
}

static IfigStatus check_size(const IfigSheet *sheet, IfigError *error)
{
    const IfigStatus status =
        ifig_check_range("the page's width", sheet->width_mm, 5, 2000, "mm", error);
    return status == IFIG_OK
               ? ifig_check_range("the page's height", sheet->height_mm, 5, 2000, "mm", error)
               : status;
}

static IfigStatus check_pixels(const IfigCanvas *canvas, IfigError *error)
{
    const double longest =
        canvas->width_mm > canvas->height_mm ? canvas->width_mm : canvas->height_mm;
    if (canvas->format == IFIG_PAGE_PNG && longest * canvas->dpi / 25.4 > PIXELS_MAX) {
        return ifig_fail(error, IFIG_ERROR_RANGE,
                         "a PNG of %s mm at %s dpi has more than 32766 pixels a side; lower the "
                         "resolution, or write a PDF",
                         ifig_number_text(longest, 6).text, ifig_number_text(canvas->dpi, 6).text);
    }
    return IFIG_OK;
}

static IfigStatus begin(IfigCanvas *canvas, const char *path, const IfigPageOptions *options,
                        const IfigSheet *sheet, IfigError *error)
{
    canvas->path = strdup(path);
    canvas->width_mm = sheet->width_mm;
    canvas->height_mm = sheet->height_mm;
    canvas->dpi = options->dpi;
    canvas->keep_existing = options->keep_existing;
    IfigStatus status = check_pixels(canvas, error);
    if (status == IFIG_OK) {
        status = ifig_sheet_words_copy(&canvas->words, sheet, options, error);
    }
    if (status == IFIG_OK) {
        status = ifig_fonts_open(&canvas->fonts, &canvas->context, error);
    }
    if (status == IFIG_OK && canvas->path == NULL) {
        status = ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for a page; close programs");
    }
    if (status == IFIG_OK) {
        status = ifig_output_begin(canvas, error);
    }
    return status;
}

IfigStatus ifig_canvas_open(const char *path, const IfigPageOptions *options,
                            const IfigSheet *sheet, IfigCanvas **canvas, IfigError *error)
{
    if (canvas != NULL) {
        *canvas = NULL;
    }
    if (sheet == NULL || canvas == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "a page was given a null pointer; give a path, options and what to draw");
    }
    IfigPageFormat format = IFIG_PAGE_BY_NAME;
    IfigStatus status = ifig_canvas_check(path, options, &format, error);
    if (status == IFIG_OK) {
        status = check_size(sheet, error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    IfigCanvas *const made = calloc(1, sizeof *made);
    if (made == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for a page; close programs");
    }
    made->format = format;
    status = begin(made, path, options, sheet, error);
    if (status == IFIG_OK) {
        *canvas = made;
    } else {
        ifig_canvas_discard(made);
    }
    return status;
}

void ifig_canvas_new_page(IfigCanvas *canvas)
{
    IfigError error = IFIG_ERROR_INIT;
    if (!ifig_canvas_is_ready(canvas)) {
        return;
    }
    IfigStatus status = ifig_output_page(canvas, &error);
    if (status == IFIG_OK && canvas->page_count >= IFIG_PAGES_MAX) {
        status = ifig_fail(&error, IFIG_ERROR_RANGE,
                           "there are more than 500 pages; split them over several files");
    }
    if (status == IFIG_OK && canvas->format != IFIG_PAGE_PDF &&
        ifig_place_descriptor(canvas->path) >= 0) {
        status = ifig_fail(&error, IFIG_ERROR_UNSUITABLE,
                           "a PNG or SVG of several pages goes into several files, and '%s' is "
                           "one; write a PDF, or name a file",
                           ifig_path_text(canvas->path).text);
    }
    if (status == IFIG_OK) {
        status = ifig_output_begin(canvas, &error);
    }
    if (status != IFIG_OK) {
        ifig_canvas_fail(canvas, &error);
    }
}

IfigStatus ifig_canvas_close(IfigCanvas *canvas, IfigError *error)
{
    if (canvas == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_canvas_close was given a null pointer; give a canvas");
    }
    IfigStatus status = ifig_canvas_status(canvas);
    if (status != IFIG_OK) {
        status = ifig_fail(error, status, "%s", canvas->failure.message);
    } else {
        status = ifig_output_page(canvas, error);
    }
    if (status == IFIG_OK) {
        status = ifig_output_commit(canvas, error);
    }
    ifig_canvas_discard(canvas);
    return status;
}

void ifig_canvas_discard(IfigCanvas *canvas)
{
    if (canvas == NULL) {
        return;
    }
    ifig_output_discard(canvas);
    if (canvas->context != NULL) {
        g_object_unref(canvas->context);
    }
    if (canvas->fonts != NULL) {
        g_object_unref(canvas->fonts);
    }
    ifig_sheet_words_free(&canvas->words);
    free(canvas->path);
    free(canvas);
}

IfigBox ifig_canvas_box(const IfigCanvas *canvas)
{
    return (IfigBox){0.0, 0.0, canvas->width_mm, canvas->height_mm};
}

uint32_t ifig_canvas_pixels(const IfigCanvas *canvas, double length_mm)
{
    const double pixels = length_mm * canvas->dpi / 25.4 + 0.5;
    return pixels < 1.0 ? 1 : (uint32_t)pixels;
}

int ifig_canvas_is_raster(const IfigCanvas *canvas)
{
    return canvas->format == IFIG_PAGE_PNG;
}

IfigStatus ifig_canvas_status(const IfigCanvas *canvas)
{
    return canvas->failure.status;
}

void ifig_canvas_fail(IfigCanvas *canvas, const IfigError *error)
{
    if (canvas->failure.status == IFIG_OK) {
        canvas->failure = *error;
    }
}

void ifig_canvas_out_of_memory(IfigCanvas *canvas)
{
    IfigError error = IFIG_ERROR_INIT;
    ifig_fail(&error, IFIG_ERROR_MEMORY, "no memory for a page; make it smaller");
    ifig_canvas_fail(canvas, &error);
}

int ifig_canvas_is_ready(const IfigCanvas *canvas)
{
    return canvas->failure.status == IFIG_OK && canvas->cr != NULL;
}

void ifig_canvas_begin(IfigCanvas *canvas, IfigRole role, const char *alternative)
{
    if (!ifig_canvas_is_ready(canvas)) {
        return;
    }
    if (canvas->tag_count == IFIG_TAGS_MAX) {
        IfigError error = IFIG_ERROR_INIT;
        ifig_fail(&error, IFIG_ERROR_ARGUMENT, "pieces of a page nest deeper than 16");
        ifig_canvas_fail(canvas, &error);
        return;
    }
    canvas->tags[canvas->tag_count++] = role;
    if (role == IFIG_ROLE_FIGURE &&
        !ifig_sheet_words_add_alternative(&canvas->words, alternative != NULL ? alternative : "")) {
        ifig_canvas_out_of_memory(canvas);
        return;
    }
    cairo_tag_begin(canvas->cr, TAGS[role], NULL);
}

void ifig_canvas_end(IfigCanvas *canvas)
{
    if (ifig_canvas_is_ready(canvas) && canvas->tag_count > 0) {
        cairo_tag_end(canvas->cr, TAGS[canvas->tags[--canvas->tag_count]]);
    }
}
