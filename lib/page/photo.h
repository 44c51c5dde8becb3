/* SPDX-License-Identifier: MIT */
/* Inside the page room: a photograph taken through the lens, to stand beside the figure. */
#ifndef IFIG_PAGE_PHOTO_H
#define IFIG_PAGE_PHOTO_H

#include <stdint.h>

#include "base.h"

/* The largest picture that is unpacked, pixels. */
#define IFIG_PHOTO_PIXELS_MAX 67108864.0

typedef struct IfigPhoto {
    uint8_t *rgb; /* width x height x 3, sRGB, top row first */
    uint32_t width, height;
} IfigPhoto;

typedef struct IfigCircle {
    double x, y, radius; /* pixels from the picture's top left corner, y down */
} IfigCircle;

/* photo.c: a PNG or a JPEG, told by its first bytes, whole and undamaged, the way up that its
 * camera meant. Only pixels are kept: what the file says of place and time is left behind. */
IfigStatus ifig_photo_read(const char *path, IfigPhoto *photo, IfigError *error);
void ifig_photo_free(IfigPhoto *photo);

/* photo_jpeg.c, photo_png.c: bytes that begin as such a file; those of a PNG may be moved.
 * `name` is for messages. */
IfigStatus ifig_photo_read_jpeg(const uint8_t *bytes, size_t count, const char *name,
                                IfigPhoto *photo, IfigError *error);
IfigStatus ifig_photo_read_png(uint8_t *bytes, size_t count, const char *name,
                               IfigPhoto *photo, IfigError *error);
/* Room for the pixels; refuses what is larger than IFIG_PHOTO_PIXELS_MAX. */
IfigStatus ifig_photo_make(IfigPhoto *photo, uint32_t width, uint32_t height, const char *name,
                           IfigError *error);

/* photo_circle.c: the bright disc that the lens shows in a darker surround.
 * Returns IFIG_ERROR_UNSUITABLE where there is none. */
IfigStatus ifig_photo_find_circle(const IfigPhoto *photo, const char *name, IfigCircle *circle,
                                  IfigError *error);

/* photo_disc.c: the circle's disc as pixels x pixels, turned counter-clockwise; each of them is the
 * mean of what it covers. */
void ifig_photo_disc(const IfigPhoto *photo, const IfigCircle *circle, double turn_deg,
                     uint32_t pixels, uint8_t *rgb);

#endif
