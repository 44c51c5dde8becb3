/* SPDX-License-Identifier: MIT */
/* A JPEG's pixels, through libjpeg; the way up is that of its EXIF block (CIPA DC-008, Exif 2.32,
 * tag 0x0112), which phones write instead of turning the picture. */
#include <setjmp.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <jpeglib.h>

#include <jerror.h>

#include "image.h"
#include "photo.h"

enum { ORIENTATION_TAG = 0x0112, UPRIGHT = 1, ORIENTATIONS = 8, ROW_MAX = 65500 * 3 };

/* A progressive JPEG goes over all of its pixels in each scan, and a scan may be forty bytes: 2660
 * are possible, cameras make ten. What it has so far is kept, two bytes a sample. */
static const double SCANNED_PIXELS_MAX = 10.0 * IFIG_PHOTO_PIXELS_MAX;
static const long SCANS_BYTES_MAX = 128L << 20;

typedef struct Decoder {
    struct jpeg_decompress_struct jpeg;
    struct jpeg_error_mgr manager;
    struct jpeg_progress_mgr progress;
    jmp_buf leave;
    const char *name;
    IfigPhoto *photo;
    IfigError failure;
} Decoder;

static void leave(Decoder *decoder, const char *message)
{
    if (decoder->failure.status == IFIG_OK) {
        ifig_fail(&decoder->failure, IFIG_ERROR_SYNTAX, "'%s' is a %s",
                  ifig_path_text(decoder->name).text, message);
    }
    longjmp(decoder->leave, 1);
}

static void on_error(j_common_ptr jpeg)
{
    char reason[JMSG_LENGTH_MAX] = "", message[JMSG_LENGTH_MAX + 80];
    if (jpeg->err->msg_code == JERR_NO_BACKING_STORE) {
        leave(jpeg->client_data,
              "progressive JPEG too large to be put together; save it smaller or not progressive");
    }
    jpeg->err->format_message(jpeg, reason);
    snprintf(message, sizeof message, "damaged JPEG: %s; copy or save it again", reason);
    leave(jpeg->client_data, message);
}

static void on_progress(j_common_ptr jpeg)
{
    Decoder *const decoder = jpeg->client_data;
    const struct jpeg_decompress_struct *const now = &decoder->jpeg;
    if ((double)now->image_width * now->image_height * now->input_scan_number >
        SCANNED_PIXELS_MAX) {
        leave(decoder, "JPEG of too many scans for its size; save it again, not progressive");
    }
}

/* libjpeg fills what is missing with grey and only warns; a photo that is cut short must be told.
 */
static void on_message(j_common_ptr jpeg, int level)
{
    if (level < 0) {
        on_error(jpeg);
    }
}

static void say_nothing(j_common_ptr jpeg)
{
    (void)jpeg;
}

static unsigned number_at(const uint8_t *at, size_t count, int is_little)
{
    unsigned value = 0;
    for (size_t i = 0; i < count; i++) {
        value = value << 8 | at[is_little ? count - 1 - i : i];
    }
    return value;
}

/* The tag in the first directory of the TIFF structure; upright where anything is unusual. */
static int orientation_in(const uint8_t *tiff, size_t count)
{
    const int is_little = count >= 8 && tiff[0] == 'I';
    const size_t start = count >= 8 ? number_at(tiff + 4, 4, is_little) : count;
    if (start > count || count - start < 2) {
        return UPRIGHT;
    }
    const size_t entries = number_at(tiff + start, 2, is_little), entry_size = 12;
    for (size_t i = 0; i < entries && (count - start - 2) / entry_size > i; i++) {
        const uint8_t *const entry = tiff + start + 2 + i * entry_size;
        const unsigned value = number_at(entry + 8, 2, is_little);
        if (number_at(entry, 2, is_little) == ORIENTATION_TAG) {
            return value >= UPRIGHT && value <= ORIENTATIONS ? (int)value : UPRIGHT;
        }
    }
    return UPRIGHT;
}

static int orientation_of(const struct jpeg_decompress_struct *jpeg)
{
    static const char head[] = "Exif\0"; /* and the NUL of the string */
    for (const struct jpeg_marker_struct *at = jpeg->marker_list; at != NULL; at = at->next) {
        if (at->data_length > sizeof head && memcmp(at->data, head, sizeof head) == 0) {
            return orientation_in(at->data + sizeof head, at->data_length - sizeof head);
        }
    }
    return UPRIGHT;
}

/* Where a pixel of the stored picture stands in the one that is meant. Orientations above 4 lie on
 * their side: width and height change places. */
static size_t place_of(const Decoder *decoder, int orientation, uint32_t x, uint32_t y)
{
    const uint32_t width = decoder->jpeg.output_width, height = decoder->jpeg.output_height;
    const int is_right_to_left =
        orientation == 2 || orientation == 3 || orientation == 7 || orientation == 8;
    const int is_bottom_up =
        orientation == 3 || orientation == 4 || orientation == 6 || orientation == 7;
    const uint32_t across = is_right_to_left ? width - 1 - x : x;
    const uint32_t down = is_bottom_up ? height - 1 - y : y;
    return orientation > 4 ? (size_t)across * height + down : (size_t)down * width + across;
}

static void read_rows(Decoder *decoder, uint8_t *row)
{
    struct jpeg_decompress_struct *const jpeg = &decoder->jpeg;
    const int orientation = orientation_of(jpeg);
    while (jpeg->output_scanline < jpeg->output_height) {
        const uint32_t y = jpeg->output_scanline;
        JSAMPROW rows[1] = {row};
        jpeg_read_scanlines(jpeg, rows, 1);
        for (uint32_t x = 0; x < jpeg->output_width; x++) {
            memcpy(decoder->photo->rgb + 3 * place_of(decoder, orientation, x, y), row + 3 * x, 3);
        }
    }
}

static void decode(Decoder *decoder, const uint8_t *bytes, size_t count, uint8_t *row)
{
    struct jpeg_decompress_struct *const jpeg = &decoder->jpeg;
    const unsigned all_of_it = 0xffff;
    jpeg_create_decompress(jpeg);
    jpeg->mem->max_memory_to_use = SCANS_BYTES_MAX;
    jpeg->progress = &decoder->progress;
    jpeg_mem_src(jpeg, bytes, (unsigned long)count);
    jpeg_save_markers(jpeg, JPEG_APP0 + 1, all_of_it);
    jpeg_read_header(jpeg, TRUE);
    if (jpeg->num_components != 1 && jpeg->num_components != 3) {
        ifig_fail(&decoder->failure, IFIG_ERROR_SYNTAX,
                  "'%s' is a JPEG in printing colours (CMYK); save it as RGB",
                  ifig_path_text(decoder->name).text);
        return;
    }
    jpeg->out_color_space = JCS_RGB;
    jpeg->dct_method = JDCT_ISLOW; /* the same pixels on every processor */
    jpeg_calc_output_dimensions(jpeg);
    const int lies_on_its_side = orientation_of(jpeg) > 4;
    const uint32_t width = jpeg->output_width, height = jpeg->output_height;
    if (ifig_photo_make(decoder->photo, lies_on_its_side ? height : width,
                        lies_on_its_side ? width : height, decoder->name,
                        &decoder->failure) == IFIG_OK) {
        jpeg_start_decompress(jpeg);
        read_rows(decoder, row);
        jpeg_finish_decompress(jpeg);
    }
}

/* libjpeg leaves a failed call by longjmp; no variable of ours changes between here and there. */
static void attempt(Decoder *decoder, const uint8_t *bytes, size_t count, uint8_t *row)
{
    if (setjmp(decoder->leave) == 0) {
        decode(decoder, bytes, count, row);
    }
}

IfigStatus ifig_photo_read_jpeg(const uint8_t *bytes, size_t count, const char *name,
                                IfigPhoto *photo, IfigError *error)
{
    Decoder *const decoder = calloc(1, sizeof *decoder);
    uint8_t *const row = malloc(ROW_MAX);
    IfigStatus status = IFIG_ERROR_MEMORY;
    if (decoder == NULL || row == NULL) {
        status = ifig_fail(error, IFIG_ERROR_MEMORY, "no memory to read a photo");
    } else {
        decoder->name = name;
        decoder->photo = photo;
        decoder->jpeg.err = jpeg_std_error(&decoder->manager);
        decoder->jpeg.client_data = decoder;
        decoder->manager.error_exit = on_error;
        decoder->manager.emit_message = on_message;
        decoder->manager.output_message = say_nothing;
        decoder->progress.progress_monitor = on_progress;
        attempt(decoder, bytes, count, row);
        jpeg_destroy_decompress(&decoder->jpeg);
        status = decoder->failure.status;
        if (status != IFIG_OK) {
            ifig_fail(error, status, "%s", decoder->failure.message);
        }
    }
    free(row);
    free(decoder);
    return status;
}
