/* SPDX-License-Identifier: MIT */
/* Pixels on a sheet, each of them as it is. */
#include "canvas.h"

#include <math.h>
#include <string.h>

static cairo_surface_t *to_surface(const IfigPicture *picture)
{
    cairo_surface_t *const surface =
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, (int)picture->width, (int)picture->height);
    if (cairo_surface_status(surface) != CAIRO_STATUS_SUCCESS) {
        return surface;
    }
    unsigned char *const data = cairo_image_surface_get_data(surface);
    const size_t stride = (size_t)cairo_image_surface_get_stride(surface);
    const uint8_t *from = picture->rgb;
    for (size_t y = 0; y < picture->height; y++) {
        for (size_t x = 0; x < picture->width; x++, from += 3) {
            const uint32_t pixel =
                (uint32_t)from[0] << 16 | (uint32_t)from[1] << 8 | (uint32_t)from[2];
            memcpy(data + y * stride + 4 * x, &pixel, sizeof pixel);
        }
    }
    cairo_surface_mark_dirty(surface);
    return surface;
}

/* On a raster a picture begins at a whole pixel, and where it nearly has as many as its place, it
 * has exactly as many. */
static IfigBox snapped(const IfigCanvas *canvas, const IfigPicture *picture, IfigBox place)
{
    const double scale = canvas->units_per_mm;
    double width = round(place.width * scale), height = round(place.height * scale);
    if (canvas->format != IFIG_PAGE_PNG) {
        return place;
    }
    if (fabs(width - picture->width) <= 1.0 && fabs(height - picture->height) <= 1.0) {
        width = picture->width;
        height = picture->height;
    }
    return (IfigBox){round(place.x * scale) / scale, round(place.y * scale) / scale, width / scale,
                     height / scale};
}

void ifig_canvas_picture(IfigCanvas *canvas, const IfigPicture *picture, IfigBox place)
{
    enum { SIDE_MAX = 32767 };
    if (!ifig_canvas_is_ready(canvas)) {
        return;
    }
    if (picture->width < 1 || picture->height < 1 || picture->width > SIDE_MAX ||
        picture->height > SIDE_MAX || picture->rgb == NULL) {
        IfigError error = IFIG_ERROR_INIT;
        ifig_fail(&error, IFIG_ERROR_RANGE,
                  "a picture on a page must have 1 to 32767 pixels a side; make it smaller");
        ifig_canvas_fail(canvas, &error);
        return;
    }
    const IfigBox box = snapped(canvas, picture, place);
    cairo_surface_t *const surface = to_surface(picture);
    cairo_t *const cr = canvas->cr;
    cairo_save(cr);
    cairo_new_path(cr);
    if (picture->is_disc) {
        cairo_arc(cr, box.x + 0.5 * box.width, box.y + 0.5 * box.height,
                  0.5 * fmin(box.width, box.height), 0.0, 2.0 * IFIG_PI);
    } else {
        cairo_rectangle(cr, box.x, box.y, box.width, box.height);
    }
    cairo_clip(cr);
    cairo_translate(cr, box.x, box.y);
    cairo_scale(cr, box.width / picture->width, box.height / picture->height);
    cairo_set_source_surface(cr, surface, 0.0, 0.0);
    cairo_pattern_set_filter(cairo_get_source(cr), CAIRO_FILTER_NEAREST);
    cairo_paint(cr);
    cairo_restore(cr);
    if (cairo_surface_status(surface) != CAIRO_STATUS_SUCCESS) {
        ifig_canvas_out_of_memory(canvas);
    }
    cairo_surface_destroy(surface);
}
