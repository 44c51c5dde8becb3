/* SPDX-License-Identifier: MIT */
/** @file
 * Room 11, page: plates for the wall, the screen and the hand, as PDF, SVG or PNG. Links cairo,
 * Pango, fontconfig and qpdf; the optics and the files do not.
 *
 * A file appears whole or not at all, and is the same bytes on each run. Lengths are millimetres.
 * Text is set in DejaVu Sans (Debian: fonts-dejavu-core), embedded in a PDF, outlines in an SVG. A
 * PDF carries its title, language, headings and alternative texts; an SVG its title and
 * description.
 *
 * Threads: every call may be made by any number of threads at once.
 */
#ifndef INTERFIG_PAGE_H
#define INTERFIG_PAGE_H

#include "interfig/image.h"

/** What a page is written as. */
typedef enum IfigPageFormat {
    IFIG_PAGE_BY_NAME = 0, /**< as the path ends: .png, .pdf or .svg */
    IFIG_PAGE_PNG,
    IFIG_PAGE_PDF,
    IFIG_PAGE_SVG
} IfigPageFormat;

/** How a page is written. Initialise with IFIG_PAGE_OPTIONS_INIT. */
typedef struct IfigPageOptions {
    size_t size; /**< sizeof(IfigPageOptions) */
    IfigPageFormat format;
    double dpi;                /**< of a PNG, and of pictures made for a page; 50 to 1200 */
    const IfigImageText *text; /**< text_count entries, as in IfigPngOptions: a PNG's text, a PDF's
                                    document information, an SVG's metadata */
    size_t text_count;
    int keep_existing; /**< 1: fail with IFIG_ERROR_CREATE where the file exists already */
} IfigPageOptions;

#define IFIG_PAGE_OPTIONS_INIT                                                                     \
    {                                                                                              \
        .size = sizeof(IfigPageOptions), .dpi = 200.0                                              \
    }

#endif
