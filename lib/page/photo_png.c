/* SPDX-License-Identifier: MIT */
/* A PNG's pixels as 8-bit sRGB, through libpng's simplified interface. */
#include <png.h>

#include "image.h"
#include "photo.h"

IfigStatus ifig_photo_read_png(const uint8_t *bytes, size_t count, const char *name,
                               IfigPhoto *photo, IfigError *error)
{
    const png_color black = {0, 0, 0}; /* behind what is transparent */
    png_image image = {.version = PNG_IMAGE_VERSION};
    IfigStatus status = IFIG_OK;
    int is_read = png_image_begin_read_from_memory(&image, bytes, count);
    if (is_read) {
        status = ifig_photo_make(photo, image.width, image.height, name, error);
        image.format = PNG_FORMAT_RGB;
    }
    if (is_read && status == IFIG_OK) {
        is_read = png_image_finish_read(&image, &black, photo->rgb, 0, NULL);
    }
    if (status == IFIG_OK && (!is_read || PNG_IMAGE_FAILED(image))) {
        status =
            ifig_fail(error, IFIG_ERROR_SYNTAX, "'%s' is a damaged PNG: %s; copy or save it again",
                      ifig_path_text(name).text, image.message);
    }
    png_image_free(&image);
    return status;
}
