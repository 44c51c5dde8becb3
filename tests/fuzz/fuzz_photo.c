/* SPDX-License-Identifier: MIT */
/* A photo as a handout shows it: read, its disc looked for and cut out. */
#include <math.h>
#include <string.h>

#include "memory_file.h"
#include "photo.h"
#include "png_mutator.h"
#include "target.h"

enum { DISC = 24 };

size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t most, unsigned seed)
{
    return mutate_png(data, size, most, seed);
}

static double two_bytes(const uint8_t *at)
{
    return 256.0 * at[0] + at[1];
}

static double four_bytes(const uint8_t *at)
{
    return 65536.0 * two_bytes(at) + two_bytes(at + 2);
}

/* Pictures of millions of pixels cost a second of honest work and find nothing that small ones do
 * not: those that a header calls larger are left out; too large a PNG is refused and stays. */
static int is_slow(const uint8_t *data, size_t size)
{
    const double least = 1 << 20;
    double pixels = 0.0;
    if (is_png(data, size) && size >= 24) {
        pixels = four_bytes(data + 16) * four_bytes(data + 20);
        return pixels > least && pixels <= IFIG_PHOTO_PIXELS_MAX;
    }
    for (size_t i = 0; i + 9 <= size; i++) { /* a frame of a JPEG begins with ff c0 to ff cf */
        if (data[i] == 0xff && data[i + 1] >> 4 == 0xc) {
            pixels = fmax(pixels, two_bytes(data + i + 5) * two_bytes(data + i + 7));
        }
    }
    return pixels > least;
}

static void look_at(const IfigPhoto *photo)
{
    uint8_t disc[3 * DISC * DISC];
    IfigError error = IFIG_ERROR_INIT;
    IfigCircle circle = {0.5 * photo->width, 0.5 * photo->height, 4.0};
    must(photo->rgb != NULL && photo->width >= 1 && photo->height >= 1);
    if (photo->rgb[2] % 8 == 0) { /* a search takes as long as a hundred readings */
        const IfigStatus status = ifig_photo_find_circle(photo, "fuzz", &circle, &error);
        must(status == IFIG_OK || status == IFIG_ERROR_UNSUITABLE);
        must(circle.radius > 0.0);
    }
    ifig_photo_disc(photo, &circle, 30.0, DISC, disc);
    canary(photo->rgb[0] > 100); /* in a corner that all kept photos have dark */
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    IfigPhoto photo;
    IfigError error = IFIG_ERROR_INIT;
    if (is_slow(data, size)) {
        return 0;
    }
    const MemoryFile file = open_memory_file(data, size);
    if (ifig_photo_read(file.path, &photo, &error) == IFIG_OK) {
        look_at(&photo);
    } else {
        must(photo.rgb == NULL);
        must(error.message[0] != '\0' && strchr(error.message, '\n') == NULL);
    }
    ifig_photo_free(&photo);
    close_memory_file(&file);
    return 0;
}
