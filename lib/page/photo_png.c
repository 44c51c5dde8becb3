/* SPDX-License-Identifier: MIT */
/* A PNG's pixels as 8-bit sRGB, through libpng's simplified interface. */
#include <png.h>
#include <string.h>

#include "image.h"
#include "photo.h"

enum { SIGNATURE = 8, FRAME = 12, NAME = 4 };

/* Of the chunks that a PNG can do without, those that change its colours. */
static int is_kept(const uint8_t *name)
{
    static const char *const kept[] = {"tRNS", "gAMA", "sRGB"};
    const uint8_t can_be_left_out = 0x20;
    int keep = (name[0] & can_be_left_out) == 0;
    for (size_t i = 0; i < sizeof kept / sizeof kept[0]; i++) {
        keep |= memcmp(name, kept[i], NAME) == 0;
    }
    return keep;
}

/* Close up what is kept; return its size. libpng would unpack every text and profile before the
 * picture, each up to 8 MB from a few thousand bytes: minutes for a small file. What does not go up
 * in chunks stays as it is, for libpng to say so. */
static size_t leave_out(uint8_t *bytes, size_t count)
{
    size_t from = SIGNATURE, to = SIGNATURE;
    while (count >= from + FRAME && png_get_uint_32(bytes + from) <= count - from - FRAME) {
        const size_t size = FRAME + (size_t)png_get_uint_32(bytes + from);
        if (is_kept(bytes + from + 4)) {
            memmove(bytes + to, bytes + from, size);
            to += size;
        }
        from += size;
    }
    memmove(bytes + to, bytes + from, count - from);
    return to + count - from;
}

IfigStatus ifig_photo_read_png(uint8_t *bytes, size_t count, const char *name, IfigPhoto *photo,
                               IfigError *error)
{
    const png_color black = {0, 0, 0}; /* behind what is transparent */
    png_image image = {.version = PNG_IMAGE_VERSION};
    IfigStatus status = IFIG_OK;
    if (count > SIGNATURE) {
        count = leave_out(bytes, count);
    }
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
