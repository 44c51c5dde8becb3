/* SPDX-License-Identifier: MIT */
/* A photograph's file: read whole, told by its first bytes, handed to its reader. */
#include "photo.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "image.h"

/* A photograph of 64 million pixels is smaller than this in either format. */
static const size_t BYTES_MAX = (size_t)256 << 20;

IfigStatus ifig_photo_make(IfigPhoto *photo, uint32_t width, uint32_t height, const char *name,
                           IfigError *error)
{
    if (width < 1 || height < 1 || (double)width * height > IFIG_PHOTO_PIXELS_MAX) {
        return ifig_fail(error, IFIG_ERROR_SYNTAX,
                         "'%s' has %u x %u pixels; allowed are 1 to 67108864 in all: make it "
                         "smaller",
                         ifig_path_text(name).text, width, height);
    }
    photo->width = width;
    photo->height = height;
    photo->rgb = malloc((size_t)3 * width * height);
    return photo->rgb != NULL
               ? IFIG_OK
               : ifig_fail_file(error, IFIG_ERROR_MEMORY, IFIG_FILE_READ, name, ENOMEM);
}

void ifig_photo_free(IfigPhoto *photo)
{
    free(photo->rgb);
    *photo = (IfigPhoto){NULL, 0, 0};
}

static IfigStatus read_open(int descriptor, const char *path, uint8_t **bytes, size_t *count,
                            IfigError *error)
{
    struct stat now;
    size_t got = 0;
    size_t room = 65536;
    if (fstat(descriptor, &now) == 0 && now.st_size > 0 && (size_t)now.st_size < BYTES_MAX) {
        room = (size_t)now.st_size + 1;
    }
    for (*count = 0;; *count += got, room *= 2) {
        uint8_t *const grown = realloc(*bytes, room);
        if (grown == NULL) {
            return ifig_fail_file(error, IFIG_ERROR_MEMORY, IFIG_FILE_READ, path, ENOMEM);
        }
        *bytes = grown;
        const IfigStatus status =
            ifig_input_read(descriptor, path, grown + *count, room - *count, &got, error);
        if (status != IFIG_OK || got < room - *count) {
            *count += got;
            return status;
        }
        if (room > BYTES_MAX) {
            return ifig_fail(error, IFIG_ERROR_SYNTAX,
                             "'%s' is longer than 256 MiB, which no photograph is; save it smaller",
                             ifig_path_text(path).text);
        }
    }
}

static IfigStatus decode(uint8_t *bytes, size_t count, const char *path, IfigPhoto *photo,
                         IfigError *error)
{
    static const uint8_t png[] = {0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n'};
    static const uint8_t jpeg[] = {0xff, 0xd8, 0xff};
    if (count >= sizeof png && memcmp(bytes, png, sizeof png) == 0) {
        return ifig_photo_read_png(bytes, count, path, photo, error);
    }
    if (count >= sizeof jpeg && memcmp(bytes, jpeg, sizeof jpeg) == 0) {
        return ifig_photo_read_jpeg(bytes, count, path, photo, error);
    }
    return ifig_fail(error, IFIG_ERROR_SYNTAX, "'%s' %s; give a photo as PNG or JPEG",
                     ifig_path_text(path).text,
                     count == 0 ? "is empty" : "is neither a PNG nor a JPEG picture");
}

IfigStatus ifig_photo_read(const char *path, IfigPhoto *photo, IfigError *error)
{
    int descriptor = -1;
    uint8_t *bytes = NULL;
    size_t count = 0;
    *photo = (IfigPhoto){NULL, 0, 0};
    IfigStatus status = ifig_input_open(path, &descriptor, error);
    if (status != IFIG_OK) {
        return status;
    }
    status = read_open(descriptor, path, &bytes, &count, error);
    close(descriptor);
    if (status == IFIG_OK) {
        status = decode(bytes, count, path, photo, error);
    }
    free(bytes);
    if (status != IFIG_OK) {
        ifig_photo_free(photo);
    }
    return status;
}
