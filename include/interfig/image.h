/* SPDX-License-Identifier: MIT */
/** @file
 * Room 9, image: a picture and the words that say what it is, as a PNG file (PNG Third Edition,
 * W3C Recommendation 2025). Links libpng; the optics do not.
 *
 * A file appears whole or not at all: it is written beside its place under another name, brought
 * safely to disk, and renamed. Devices, pipes and standard output are written in place.
 */
#ifndef INTERFIG_IMAGE_H
#define INTERFIG_IMAGE_H

#include <stdint.h>

#include "interfig/status.h"

IFIG_C_BEGIN

/** One entry of text in a PNG. */
typedef struct IfigImageText {
    const char *keyword; /**< 1 to 79 printable ASCII characters; single blanks, inside only */
    const char *text;    /**< UTF-8, at most 1 MiB */
} IfigImageText;

/** What a PNG will hold: one picture, or the frames of an animation (acTL, fcTL, fdAT), of which
 * plain viewers show the first. Initialise with IFIG_PNG_OPTIONS_INIT. */
typedef struct IfigPngOptions {
    size_t size;               /**< sizeof(IfigPngOptions) */
    uint32_t width;            /**< 1 to 65535 */
    uint32_t height;           /**< 1 to 65535 */
    int depth;                 /**< bits a channel: 8, or 16 in the machine's own byte order */
    double dpi;                /**< print resolution, 1 to 100000 */
    const IfigImageText *text; /**< text_count entries, borrowed during the call */
    size_t text_count;         /**< entries of text */
    int keep_existing;         /**< 1: fail with IFIG_ERROR_CREATE where the file exists already */
    uint32_t frame_count; /**< 0 or 1: a still picture; else an animation, at most 65535 frames */
    uint16_t delay_numerator;   /**< seconds that each frame is shown, over delay_denominator; 1 */
    uint16_t delay_denominator; /**< not 0; 10 */
    uint32_t plays; /**< how often all frames are shown, at most 65535; 0: without end */
} IfigPngOptions;

/** A still picture of 8 bits at 300 dpi; width and height are still to be given. */
#define IFIG_PNG_OPTIONS_INIT                                                                      \
    {                                                                                              \
        .size = sizeof(IfigPngOptions), .depth = 8, .dpi = 300.0, .delay_numerator = 1,            \
        .delay_denominator = 10                                                                    \
    }

/** A PNG being written; opaque; used by one thread at a time. */
typedef struct IfigPngWriter IfigPngWriter;

/** Open a PNG for writing at path; "-" is standard output. A symbolic link is kept and the file it
 *  leads to replaced. A file that is replaced hands its mode to the new one, and its owner where
 *  the system allows.
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE, IFIG_ERROR_CREATE, IFIG_ERROR_IO,
 *          IFIG_ERROR_MEMORY; after a failure nothing is left behind */
IFIG_API IfigStatus ifig_png_open(const char *path, const IfigPngOptions *options,
                                  IfigPngWriter **writer, IfigError *error);
/** Write the next rows, top first: row_count rows of width x 3 (R, G, B) uint8_t or uint16_t,
 *  one after another without gaps. The rows of the second frame follow those of the first, and so
 * on; memory does not depend on how many there are.
 *  @return IFIG_OK; IFIG_ERROR_ARGUMENT (also more rows than are missing); IFIG_ERROR_IO;
 *          IFIG_ERROR_MEMORY. After a failure only ifig_png_discard is left to do */
IFIG_API IfigStatus ifig_png_write_rows(IfigPngWriter *writer, const void *rows, uint32_t row_count,
                                        IfigError *error);
/** Where the unfinished file lies, as an absolute path; NULL where it is written in place.
 *
 *  For a program that a signal may end: block signals around ifig_png_open, copy the path into
 *  memory of its own, unlink(2) the copy in the handler, forget it after ifig_png_close or
 *  ifig_png_discard has returned. The name is random and never used again, so that a late unlink
 *  harms nobody. The text lives as long as the writer. */
IFIG_API const char *ifig_png_temporary_path(const IfigPngWriter *writer);
/** Finish: all rows must have been written. The file then stands at its path. Frees the writer in
 *  every case.
 *  @return IFIG_OK; IFIG_ERROR_ARGUMENT (rows are missing); IFIG_ERROR_CREATE (keep_existing, and a
 *          file has come into being meanwhile); IFIG_ERROR_IO; IFIG_ERROR_MEMORY. After a failure
 *          the old file stands untouched, with one exception that the message names: the new file
 *          is in place but the disk did not confirm its folder */
IFIG_API IfigStatus ifig_png_close(IfigPngWriter *writer, IfigError *error);
/** Give up: remove what was begun, free the writer. NULL is allowed. */
IFIG_API void ifig_png_discard(IfigPngWriter *writer);

/** Read one text entry of a PNG file (tEXt, zTXt or iTXt): the first of that keyword, before or
 *  after the picture. The whole file is read, so that a damaged or cut one is always told. A
 * picture of more than 67108864 pixels is not unpacked, and gives only a text that stands before
 * it. At most 98 texts, 64 MiB of memory in all.
 *  @param[out] text  UTF-8, at most 1 MiB; NULL after a failure; free it with ifig_text_free
 *  @return IFIG_OK; IFIG_ERROR_ARGUMENT; IFIG_ERROR_NOT_FOUND (no such file, or no such
 *          keyword: the message says which); IFIG_ERROR_SYNTAX (not a PNG,
 *          damaged, cut short, too large to look
 *          behind, or text too long); IFIG_ERROR_IO; IFIG_ERROR_MEMORY */
IFIG_API IfigStatus ifig_png_read_text(const char *path, const char *keyword, char **text,
                                       IfigError *error);
/** Read a whole small file, at most 1 MiB, and refuse one with a NUL byte (a binary file).
 *  @param[out] text  ends with a NUL; NULL after a failure; free it with ifig_text_free
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_NOT_FOUND, IFIG_ERROR_SYNTAX (too long, or
 *          binary), IFIG_ERROR_IO, IFIG_ERROR_MEMORY */
IFIG_API IfigStatus ifig_file_read_text(const char *path, char **text, IfigError *error);
/** Free text from this room. NULL is allowed. */
IFIG_API void ifig_text_free(char *text);

IFIG_C_END

#endif
