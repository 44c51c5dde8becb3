/* SPDX-License-Identifier: MIT */
/* How a full page leaves: cairo draws into memory or into a raster of our own, never into a file,
 * for cairo does not tell of a full disk; the image room's atomic file takes it to its place. */
#include "canvas.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static cairo_status_t put(void *closure, const unsigned char *bytes, unsigned count)
{
    IfigBytes *const stream = closure;
    ifig_bytes_add(stream, bytes, count);
    return stream->is_out_of_memory ? CAIRO_STATUS_NO_MEMORY : CAIRO_STATUS_SUCCESS;
}

static IfigStatus no_memory(IfigError *error)
{
    return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for a page; make it smaller");
}

static IfigStatus cairo_says(cairo_status_t said, IfigError *error)
{
    if (said == CAIRO_STATUS_SUCCESS) {
        return IFIG_OK;
    }
    return said == CAIRO_STATUS_NO_MEMORY
               ? no_memory(error)
               : ifig_fail(error, IFIG_ERROR_IO, "cannot draw the page: cairo says: %s",
                           cairo_status_to_string(said));
}

/* A date would make each run another file; this one says only that there is none. */
static void describe_pdf(cairo_surface_t *surface, const IfigSheetWords *words)
{
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, words->title);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_SUBJECT, words->description);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "interfig " IFIG_VERSION);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z");
}

static cairo_surface_t *new_surface(IfigCanvas *canvas)
{
    const double width = canvas->width_mm, height = canvas->height_mm;
    if (canvas->format == IFIG_PAGE_PNG) {
        canvas->units_per_mm = canvas->dpi / 25.4;
        return cairo_image_surface_create(CAIRO_FORMAT_RGB24,
                                          (int)ifig_canvas_pixels(canvas, width),
                                          (int)ifig_canvas_pixels(canvas, height));
    }
    if (canvas->format == IFIG_PAGE_SVG) {
        canvas->units_per_mm = 1.0;
        cairo_surface_t *const surface =
            cairo_svg_surface_create_for_stream(put, &canvas->stream, width, height);
        if (cairo_surface_status(surface) == CAIRO_STATUS_SUCCESS) {
            cairo_svg_surface_set_document_unit(surface, CAIRO_SVG_UNIT_MM);
        }
        return surface;
    }
    canvas->units_per_mm = 1.0 / IFIG_MM_PER_POINT;
    cairo_surface_t *const surface = cairo_pdf_surface_create_for_stream(
        put, &canvas->stream, width / IFIG_MM_PER_POINT, height / IFIG_MM_PER_POINT);
    if (cairo_surface_status(surface) == CAIRO_STATUS_SUCCESS) {
        describe_pdf(surface, &canvas->words);
    }
    return surface;
}

IfigStatus ifig_output_begin(IfigCanvas *canvas, IfigError *error)
{
    canvas->page_count++;
    if (canvas->surface != NULL) {
        return IFIG_OK; /* a PDF goes on */
    }
    canvas->surface = new_surface(canvas);
    canvas->cr = cairo_create(canvas->surface);
    const IfigStatus status = cairo_says(cairo_status(canvas->cr), error);
    if (status == IFIG_OK) {
        cairo_scale(canvas->cr, canvas->units_per_mm, canvas->units_per_mm);
        if (canvas->format == IFIG_PAGE_PNG) {
            cairo_set_source_rgb(canvas->cr, 1.0, 1.0, 1.0);
            cairo_paint(canvas->cr);
        }
    }
    return status;
}

static void end_surface(IfigCanvas *canvas)
{
    if (canvas->cr != NULL) {
        cairo_destroy(canvas->cr);
        canvas->cr = NULL;
    }
    if (canvas->surface != NULL) {
        cairo_surface_destroy(canvas->surface);
        canvas->surface = NULL;
    }
}

/* NAME.png, NAME-2.png, ...; free it with free. */
static char *page_path(const IfigCanvas *canvas)
{
    const char *const dot = strrchr(canvas->path, '.');
    const char *const slash = strrchr(canvas->path, '/');
    const size_t stem = dot != NULL && (slash == NULL || dot > slash) ? (size_t)(dot - canvas->path)
                                                                      : strlen(canvas->path);
    char *path = NULL;
    if (canvas->page_count == 1) {
        return strdup(canvas->path);
    }
    if (asprintf(&path, "%.*s-%zu%s", (int)stem, canvas->path, canvas->page_count,
                 canvas->path + stem) < 0) {
        return NULL;
    }
    return path;
}

/* The copy of the caller's entries has room for two more; what the caller said stands. */
static void add_own_text(IfigSheetWords *words, size_t *count, const char *keyword,
                         const char *text)
{
    for (size_t i = 0; i < words->text_count; i++) {
        if (strcmp(words->text[i].keyword, keyword) == 0) {
            return;
        }
    }
    words->text[(*count)++] = (IfigImageText){keyword, text};
}

static IfigStatus open_png(IfigCanvas *canvas, const char *path, IfigPngWriter **writer,
                           IfigError *error)
{
    IfigSheetWords *const words = &canvas->words;
    IfigPngOptions options = IFIG_PNG_OPTIONS_INIT;
    options.width = (uint32_t)cairo_image_surface_get_width(canvas->surface);
    options.height = (uint32_t)cairo_image_surface_get_height(canvas->surface);
    options.dpi = canvas->dpi;
    options.keep_existing = canvas->keep_existing;
    options.text = words->text;
    options.text_count = words->text_count;
    add_own_text(words, &options.text_count, "Title", words->title);
    add_own_text(words, &options.text_count, "Description", words->description);
    return ifig_png_open(path, &options, writer, error);
}

static IfigStatus write_raster(IfigCanvas *canvas, IfigPngWriter *writer, IfigError *error)
{
    cairo_surface_flush(canvas->surface);
    const unsigned char *const pixels = cairo_image_surface_get_data(canvas->surface);
    const size_t stride = (size_t)cairo_image_surface_get_stride(canvas->surface);
    const size_t width = (size_t)cairo_image_surface_get_width(canvas->surface);
    const size_t height = (size_t)cairo_image_surface_get_height(canvas->surface);
    uint8_t *const row = malloc(width * 3);
    IfigStatus status = row != NULL ? IFIG_OK : no_memory(error);
    for (size_t y = 0; y < height && status == IFIG_OK; y++) {
        for (size_t x = 0; x < width; x++) {
            uint32_t pixel;
            memcpy(&pixel, pixels + y * stride + 4 * x, sizeof pixel);
            row[3 * x] = (uint8_t)(pixel >> 16);
            row[3 * x + 1] = (uint8_t)(pixel >> 8);
            row[3 * x + 2] = (uint8_t)pixel;
        }
        status = ifig_png_write_rows(writer, row, 1, error);
    }
    free(row);
    return status;
}

static IfigStatus finish_png(IfigCanvas *canvas, const char *path, IfigError *error)
{
    IfigPngWriter **const writer = &canvas->png[canvas->page_count - 1];
    const IfigStatus status = open_png(canvas, path, writer, error);
    return status == IFIG_OK ? write_raster(canvas, *writer, error) : status;
}

static IfigStatus write_bytes(IfigCanvas *canvas, const char *path, const IfigBytes *bytes,
                              IfigError *error)
{
    if (bytes->is_out_of_memory) {
        return no_memory(error);
    }
    IfigAtomicFile **const file = &canvas->file[canvas->page_count - 1];
    const IfigStatus status = ifig_atomic_open(path, canvas->keep_existing, file, error);
    return status == IFIG_OK ? ifig_atomic_write(*file, bytes->at, bytes->count, error) : status;
}

static IfigStatus finish_svg(IfigCanvas *canvas, const char *path, IfigError *error)
{
    cairo_surface_finish(canvas->surface);
    IfigStatus status = cairo_says(cairo_surface_status(canvas->surface), error);
    IfigBytes finished = {NULL, 0, 0, 0};
    if (status == IFIG_OK) {
        ifig_svg_finish(&canvas->stream, &canvas->words, &finished);
        status = write_bytes(canvas, path, &finished, error);
    }
    ifig_bytes_free(&finished);
    ifig_bytes_free(&canvas->stream);
    return status;
}

IfigStatus ifig_output_page(IfigCanvas *canvas, IfigError *error)
{
    while (canvas->tag_count > 0) {
        ifig_canvas_end(canvas);
    }
    IfigStatus status = cairo_says(cairo_status(canvas->cr), error);
    if (status != IFIG_OK) {
        return status;
    }
    cairo_show_page(canvas->cr);
    if (canvas->format == IFIG_PAGE_PDF) {
        return cairo_says(cairo_status(canvas->cr), error);
    }
    char *const path = page_path(canvas);
    if (path == NULL) {
        return no_memory(error);
    }
    status = canvas->format == IFIG_PAGE_PNG ? finish_png(canvas, path, error)
                                             : finish_svg(canvas, path, error);
    ifig_sheet_words_forget_alternatives(&canvas->words);
    end_surface(canvas);
    free(path);
    return status;
}

static IfigStatus finish_pdf(IfigCanvas *canvas, IfigError *error)
{
    cairo_surface_finish(canvas->surface);
    IfigStatus status = cairo_says(cairo_surface_status(canvas->surface), error);
    IfigBytes finished = {NULL, 0, 0, 0};
    if (status == IFIG_OK) {
        status = ifig_pdf_finish(&canvas->stream, &canvas->words, &finished, error);
    }
    if (status == IFIG_OK) {
        status = write_bytes(canvas, canvas->path, &finished, error);
    }
    ifig_bytes_free(&finished);
    return status;
}

IfigStatus ifig_output_commit(IfigCanvas *canvas, IfigError *error)
{
    IfigStatus status = canvas->format == IFIG_PAGE_PDF ? finish_pdf(canvas, error) : IFIG_OK;
    for (size_t i = 0; i < canvas->page_count && status == IFIG_OK; i++) {
        if (canvas->png[i] != NULL) {
            status = ifig_png_close(canvas->png[i], error);
            canvas->png[i] = NULL;
        } else if (canvas->file[i] != NULL) {
            status = ifig_atomic_commit(canvas->file[i], error);
            canvas->file[i] = NULL;
        }
    }
    return status;
}

void ifig_output_discard(IfigCanvas *canvas)
{
    end_surface(canvas);
    for (size_t i = 0; i < IFIG_PAGES_MAX; i++) {
        ifig_png_discard(canvas->png[i]);
        ifig_atomic_discard(canvas->file[i]);
    }
    ifig_bytes_free(&canvas->stream);
}
