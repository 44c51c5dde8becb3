/* SPDX-License-Identifier: MIT */
/* A photograph's file: read whole, told by its first bytes, handed to its reader. */
#include "photo.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "image.h"

/* 64 million pixels of a camera are smaller than this: a JPEG has up to a byte a pixel, a PNG two.
 */
static const size_t BYTES_MAX = (size_t)128 << 20;

static const uint8_t PNG[] = {0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n'};
static const uint8_t JPEG[] = {0xff, 0xd8, 0xff};

static int is_png(const uint8_t *bytes, size_t count)
{
    return count >= sizeof PNG && memcmp(bytes, PNG, sizeof PNG) == 0;
}

static int is_jpeg(const uint8_t *bytes, size_t count)
{
    return count >= sizeof JPEG && memcmp(bytes, JPEG, sizeof JPEG) == 0;
}

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

/* What begins as neither is not read on: it may be a device without end. */
static IfigStatus read_open(int descriptor, const char *path, uint8_t **bytes, size_t *count,
                            IfigError *error)
{
    size_t got = 0, room = 65536;
    for (*count = 0; room <= BYTES_MAX; room *= 2) {
        uint8_t *const grown = realloc(*bytes, room);
        if (grown == NULL) {
            return ifig_fail_file(error, IFIG_ERROR_MEMORY, IFIG_FILE_READ, path, ENOMEM);
        }
        *bytes = grown;
        const IfigStatus status =
            ifig_input_read(descriptor, path, grown + *count, room - *count, &got, error);
        *count += got;
        if (status != IFIG_OK || *count < room ||
            !(is_png(grown, *count) || is_jpeg(grown, *count))) {
            return status;
        }
    }
    return ifig_fail(error, IFIG_ERROR_SYNTAX,
                     "'%s' is longer than 128 MiB, which no photograph is; save it smaller",
                     ifig_path_text(path).text);
}

static IfigStatus decode(uint8_t *bytes, size_t count, const char *path, IfigPhoto *photo,
                         IfigError *error)
{
    if (is_png(bytes, count)) {
        return ifig_photo_read_png(bytes, count, path, photo, error);
    }
    if (is_jpeg(bytes, count)) {
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
