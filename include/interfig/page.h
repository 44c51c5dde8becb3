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
#include "interfig/polariscope.h"
#include "interfig/retardation.h"

IFIG_C_BEGIN

/** What a page is written as. */
typedef enum IfigPageFormat {
    IFIG_PAGE_BY_NAME = 0, /**< as the path ends: .png, .pdf or .svg */
    IFIG_PAGE_PNG,         /**< pixels, at the options' dpi */
    IFIG_PAGE_PDF,         /**< lines, with embedded type */
    IFIG_PAGE_SVG          /**< lines, with type as outlines */
} IfigPageFormat;

/** How a page is written. Initialise with IFIG_PAGE_OPTIONS_INIT. */
typedef struct IfigPageOptions {
    size_t size;               /**< sizeof(IfigPageOptions) */
    IfigPageFormat format;     /**< IFIG_PAGE_BY_NAME: as the path ends */
    double dpi;                /**< of a PNG, and of pictures made for a page; 50 to 1200 */
    const IfigImageText *text; /**< text_count entries, as in IfigPngOptions: a PNG's text, a PDF's
                                    document information, an SVG's metadata */
    size_t text_count;         /**< 0: none */
    int keep_existing;         /**< 1: fail with IFIG_ERROR_CREATE where the file exists already */
} IfigPageOptions;

/** By the path's ending, 200 dpi, no text, over an existing file. */
#define IFIG_PAGE_OPTIONS_INIT                                                                     \
    {                                                                                              \
        .size = sizeof(IfigPageOptions), .dpi = 200.0                                              \
    }

/** The words around a plate's pictures, UTF-8. Initialise with IFIG_PAGE_WORDS_INIT. */
typedef struct IfigPageWords {
    size_t size;          /**< sizeof(IfigPageWords) */
    const char *title;    /**< at the head; the document's title too. Never NULL */
    const char *subtitle; /**< below it, small: thickness, lamp, polars; may be NULL */
    const char *caption;  /**< below the pictures, a sentence a line; may be NULL */
    const char *caution;  /**< at the foot, small; may be NULL */
} IfigPageWords;

/** No words yet: a page needs a title. */
#define IFIG_PAGE_WORDS_INIT                                                                       \
    {                                                                                              \
        .size = sizeof(IfigPageWords)                                                              \
    }

/** A plate of a stone turned between the polars: brightness against turn, brightness against the
 *  opening of the analyser on the same scale beside it, and the stone's colours at 16 turns.
 *  @param path   "-" is standard output; then the options must name a format
 *  @return IFIG_OK; IFIG_ERROR_ARGUMENT; IFIG_ERROR_RANGE; IFIG_ERROR_MISSING (the font is not
 *          installed: the message names its package); IFIG_ERROR_UNSUITABLE (it lacks a letter);
 *          IFIG_ERROR_CREATE; IFIG_ERROR_IO; IFIG_ERROR_MEMORY. After a failure the old file stands
 * untouched */
IFIG_API IfigStatus ifig_page_blink(const char *path, const IfigPageOptions *options,
                                    const IfigBlink *blink, const IfigPageWords *words,
                                    IfigError *error);

/** How much is written on a figure. */
typedef enum IfigLabels {
    IFIG_LABELS_NONE = 0, /**< the figure alone */
    IFIG_LABELS_BASIC,    /**< melatopes, a brush, the polars, the angle scale */
    IFIG_LABELS_FULL /**< also ring orders, vibration directions, optic axial plane, bisectrices,
                          bull's eye, tilt */
} IfigLabels;

/** A figure for a sheet. Initialise with IFIG_LABELLED_FIGURE_INIT. */
typedef struct IfigLabelledFigure {
    size_t size;            /**< sizeof(IfigLabelledFigure) */
    const IfigScene *scene; /**< borrowed */
    IfigLabels labels;      /**< how much is written on it */
    int is_alone; /**< 1: the sheet is the figure's square and holds no words but labels; 0: title,
                       figure, key, caption, caution */
    double width_mm; /**< of the figure's square with its labels, 20 to 500 alone, else 20 to 166 */
    IfigFigureOptions options; /**< its pixels are not looked at: the page's dpi and the width tell
                                    them */
} IfigLabelledFigure;

/** Title, figure and captions on a sheet, without labels. */
#define IFIG_LABELLED_FIGURE_INIT                                                                  \
    {                                                                                              \
        .size = sizeof(IfigLabelledFigure), .width_mm = 108.0, .options = IFIG_FIGURE_OPTIONS_INIT \
    }

/** One figure on a sheet, rendered at exact device pixels, with labels that lie over nothing else.
 *  A stack, a stone under stress or an aggregate cannot be read: then only the instrument is
 *  labelled. The alternative text is the reading's own words.
 *  @param words  its caption NULL: the reading, or why there is none
 *  @return as ifig_page_blink and ifig_figure_create; IFIG_ERROR_CANCELLED */
IFIG_API IfigStatus ifig_page_figure(const char *path, const IfigPageOptions *options,
                                     const IfigLabelledFigure *figure, const IfigPageWords *words,
                                     IfigError *error);

/** What a mark on a map of directions stands for; each kind has a shape of its own. */
typedef enum IfigMarkKind {
    IFIG_MARK_CRYSTAL_AXIS = 0, /**< a cross: X, Y, Z or c */
    IFIG_MARK_OPTIC_AXIS,       /**< a ring with a dot: where the patch is */
    IFIG_MARK_TABLE,            /**< a square: the normal of a usual table */
    IFIG_MARK_KIND_COUNT        /**< how many there are */
} IfigMarkKind;

/** A mark on a map of directions. */
typedef struct IfigMapMark {
    double x;          /**< as ifig_hunt_place gives it: rim 1, to the right */
    double y;          /**< the same, up */
    IfigMarkKind kind; /**< its shape */
    const char *label; /**< a few words; NULL: none */
} IfigMapMark;

/** A map of directions, as ifig_hunt_map makes it. */
typedef struct IfigPageMap {
    const uint8_t *rgb;       /**< pixels x pixels x 3, sRGB, top row first; borrowed */
    uint32_t pixels;          /**< ifig_page_hunt_pixels(options) gives exact device pixels */
    const IfigMapMark *marks; /**< mark_count of them; borrowed */
    size_t mark_count;        /**< at most 64 */
} IfigPageMap;

/** How many pixels a map should have so that each is one of the device's. 0 for NULL and for bad
 *  options. */
IFIG_API uint32_t ifig_page_hunt_pixels(const IfigPageOptions *options);
/** A plate of all directions of view: the map with circles of equal tilt inside the stone, marks
 *  with labels that do not lie over each other, and a legend in words.
 *  @return as ifig_page_blink; IFIG_ERROR_UNSUITABLE also where a label finds no room */
IFIG_API IfigStatus ifig_page_hunt(const char *path, const IfigPageOptions *options,
                                   const IfigPageMap *map, const IfigPageWords *words,
                                   IfigError *error);

/** A stone among others. */
typedef struct IfigPageFigure {
    const uint8_t *rgb;  /**< pixels x pixels x 3, sRGB; its inscribed disc is shown; borrowed */
    uint32_t pixels;     /**< ifig_page_contrast_pixels(options, count) gives exact device pixels */
    const char *title;   /**< a few words; never NULL */
    const char *caption; /**< a sentence a line; may be NULL */
} IfigPageFigure;

/** A small table of words. */
typedef struct IfigPageTable {
    size_t rows;              /**< at most 40; 0: no table */
    size_t columns;           /**< at most 8 */
    const char *const *cells; /**< rows x columns, the first row is the head */
} IfigPageTable;

/** How many pixels each of `count` figures should have. 0 for NULL, for bad options or count. */
IFIG_API uint32_t ifig_page_contrast_pixels(const IfigPageOptions *options, size_t count);
/** A plate of stones side by side, what tells them apart in a table below them.
 *  @param count  of figures, 2 to 6
 *  @param table  may be NULL
 *  @return as ifig_page_blink */
IFIG_API IfigStatus ifig_page_contrast(const char *path, const IfigPageOptions *options,
                                       const IfigPageFigure *figures, size_t count,
                                       const IfigPageTable *table, const IfigPageWords *words,
                                       IfigError *error);

/** What stands on a chart of interference colours. Initialise with IFIG_PAGE_CHART_INIT. */
typedef struct IfigPageChart {
    size_t size;                       /**< sizeof(IfigPageChart) */
    const IfigLamp *lamp;              /**< never NULL; borrowed */
    IfigPolarsKind polars;             /**< IFIG_POLARS_CROSSED or IFIG_POLARS_PARALLEL */
    int orders;                        /**< 1 to 8, of ifig_order_nm(lamp) each */
    double thickness_mm;               /**< top of the thickness axis: 0.005 to 20 */
    const IfigSpecies *const *species; /**< marked by typical birefringence; at most 256 */
    size_t species_count;              /**< 0: none */
    int may_leave_out; /**< 1: species whose name finds no room are left out, the last first; 0:
                            that is an error */
    const IfigRetarder *strips; /**< stones with a strip of their own colours below; at most 4 */
    size_t strip_count;         /**< 0: none */
} IfigPageChart;

/** Five orders between crossed polars, up to 0.06 mm; the lamp is still to be told. */
#define IFIG_PAGE_CHART_INIT                                                                       \
    {                                                                                              \
        .size = sizeof(IfigPageChart), .polars = IFIG_POLARS_CROSSED, .orders = 5,                 \
        .thickness_mm = 0.06                                                                       \
    }

/** A chart of interference colours, 279 x 210 mm (landscape; prints unscaled on A4 and on Letter):
 *  the colours against retardation with their names in words, thickness against retardation with a
 *  line for each birefringence, species marked, and strips of the anomalous colours of stones whose
 *  birefringence changes with wavelength.
 *  @return as ifig_page_blink; IFIG_ERROR_UNSUITABLE also where a species shows no birefringence or
 *          its name finds no room */
IFIG_API IfigStatus ifig_page_chart(const char *path, const IfigPageOptions *options,
                                    const IfigPageChart *chart, const IfigPageWords *words,
                                    IfigError *error);

IFIG_C_END

#endif
