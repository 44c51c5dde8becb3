/* SPDX-License-Identifier: MIT */
/** @file
 * Room 11, page: handouts. A recipe, which is a YAML file, says what stands on the sheets:
 *
 *     title: First figures
 *     subtitle: Tern Harbour lapidary club, evening class
 *     paper: either              # a4, letter, or either: prints unscaled on both; the default
 *     columns: 2                 # 1 to 4; default 2
 *     diameter: 60               # of the figures, mm, 15 to 180; default: what the columns hold
 *     pages: 1                   # fail, and say what does not fit, rather than need more
 *     language: en
 *     intro: Look at each stone for a minute before you read on.
 *     figures:
 *       - stone: quartz          # and any option of `interfig figure` by its name:
 *         thickness: 3
 *         tilt: [10, 45]         # lists for values with commas
 *         show: figure           # or face: the stone's face without the lens
 *         labels: basic          # none, basic or full; default none
 *         title: Quartz          # default: the stone's name
 *         caption: reading       # or words of your own; reading: one sentence that is computed
 *         reading: short         # full, short or none; default none
 *         sketch: yes            # an empty circle beside the figure
 *         observe: [sign, 2V]    # lines to fill in by hand
 *         photo:                 # or only the file's name; PNG or JPEG
 *           file: bench.jpg
 *           circle: found        # or [x, y, radius] in pixels from the top left; default found
 *           turn: 0              # degrees counter-clockwise; default 0
 *         new-page: yes          # begin a page here
 *     notes: Bring your own stones next week.
 *
 * A photo's name counts from the recipe's folder. Aliases, anchors, tags, keys given twice and deep
 * nesting are refused; so are keys that nobody knows, by file:line:column and the nearest key.
 *
 * Threads: every call may be made by any number of threads at once.
 */
#ifndef INTERFIG_PAGE_RECIPE_H
#define INTERFIG_PAGE_RECIPE_H

#include "interfig/page.h"

IFIG_C_BEGIN

/** A key of a figure that the page itself has no use for: an option of the scene. */
typedef struct IfigPageSetting {
    const char *name;          /**< "stone", "thickness", ... as the recipe has it; not checked */
    const char *const *values; /**< one; several where the recipe has a list */
    size_t value_count;        /**< at least 1 */
    size_t line;               /**< of the value, from 1 */
    size_t column;             /**< of the value, from 1 */
    size_t key_line;           /**< of the key */
    size_t key_column;         /**< of the key */
} IfigPageSetting;

/** What is seen in a figure of a recipe. */
typedef enum IfigPageShow {
    IFIG_PAGE_SHOW_FIGURE = 0, /**< over the lens */
    IFIG_PAGE_SHOW_FACE        /**< the stone's face without a lens */
} IfigPageShow;

/** How much of a figure's reading stands below it. */
typedef enum IfigPageReadingKind {
    IFIG_PAGE_READING_NONE = 0, /**< nothing */
    IFIG_PAGE_READING_SHORT,    /**< what the beginner names: character, brushes, rings, sign */
    IFIG_PAGE_READING_FULL      /**< ifig_reading_describe */
} IfigPageReadingKind;

/** A photograph beside the figure. */
typedef struct IfigPagePhoto {
    const char *path; /**< NULL: none */
    int is_found;     /**< 1: the disc is looked for; 0: it is told */
    double x;         /**< centre of the disc, pixels from the left */
    double y;         /**< the same from the top */
    double radius;    /**< of the disc, pixels */
    double turn_deg;  /**< counter-clockwise */
    size_t line;      /**< where the recipe names it, from 1 */
    size_t column;    /**< the same */
} IfigPagePhoto;

/** One figure of a recipe, with what stands about it. */
typedef struct IfigPageItem {
    const char *title;               /**< NULL: that of the scene */
    const char *caption;             /**< NULL: none */
    int caption_is_reading;          /**< 1: the caption is one sentence that is computed */
    IfigPageShow show;               /**< the figure or the face */
    IfigPageReadingKind reading;     /**< how much of it is told */
    IfigLabels labels;               /**< how much is pointed at */
    int has_sketch;                  /**< 1: an empty circle beside it */
    int begins_page;                 /**< 1: stands at the head of a page */
    const char *const *observe;      /**< observe_count names of lines to fill in by hand */
    size_t observe_count;            /**< 0: none */
    IfigPagePhoto photo;             /**< beside it */
    const IfigPageSetting *settings; /**< in the recipe's order */
    size_t setting_count;            /**< of settings */
    size_t line;                     /**< where the recipe begins it, from 1 */
    size_t column;                   /**< the same */
} IfigPageItem;

/** The paper of the sheets. */
typedef enum IfigPaper {
    IFIG_PAPER_EITHER = 0, /**< 210 x 279 mm, which lies within both */
    IFIG_PAPER_A4,         /**< 210 x 297 mm */
    IFIG_PAPER_LETTER      /**< 215.9 x 279.4 mm */
} IfigPaper;

/** A recipe that was read; what it points to lives as long as it does. */
typedef struct IfigPageRecipe {
    const char *name;          /**< of the file, for messages and the provenance */
    const char *title;         /**< never NULL */
    const char *subtitle;      /**< NULL: none */
    const char *intro;         /**< before the figures; NULL: none */
    const char *notes;         /**< after them; NULL: none */
    const char *language;      /**< of the document (BCP 47); never NULL */
    IfigPaper paper;           /**< of the sheets */
    unsigned columns;          /**< 1 to 4 */
    double diameter_mm;        /**< of the figures; 0: chosen */
    unsigned most_pages;       /**< 0: as many as there are */
    const IfigPageItem *items; /**< the figures in their order */
    size_t item_count;         /**< 1 to 200 */
} IfigPageRecipe;

/** Read a recipe, at most 1 MiB.
 *  @param[out] recipe  NULL after a failure; free it with ifig_page_recipe_free
 *  @return IFIG_OK; IFIG_ERROR_ARGUMENT; IFIG_ERROR_NOT_FOUND; IFIG_ERROR_SYNTAX (the message
 *          begins with file:line:column); IFIG_ERROR_IO; IFIG_ERROR_MEMORY */
IFIG_API IfigStatus ifig_page_recipe_read_file(const char *path, IfigPageRecipe **recipe,
                                               IfigError *error);
/** Read a recipe from memory, as ifig_page_recipe_read_file.
 *  @param text    need not end with a NUL
 *  @param length  of it in bytes
 *  @param name    what messages call the text
 *  @return as ifig_page_recipe_read_file, but never IFIG_ERROR_NOT_FOUND or IFIG_ERROR_IO */
IFIG_API IfigStatus ifig_page_recipe_read_text(const char *text, size_t length, const char *name,
                                               IfigPageRecipe **recipe, IfigError *error);
/** Free a recipe. NULL is allowed. */
IFIG_API void ifig_page_recipe_free(IfigPageRecipe *recipe);
/** The keys that a figure of a recipe has beside the scene's options; ends with NULL. Whoever
 *  checks the settings looks for the nearest key here too. Static storage. */
IFIG_API const char *const *ifig_page_figure_keys(void);

/** What is seen in a figure of a recipe. All is borrowed. */
typedef struct IfigPageScene {
    const IfigScene *scene;     /**< never NULL */
    const IfigTexture *texture; /**< of a face; NULL: plain */
    const char *name;           /**< the title where the recipe has none */
    const char *description;    /**< how it was set: thickness, view, lamp; stands below the title;
                                     may be NULL */
    double exposure_stops;      /**< as in IfigFigureOptions */
} IfigPageScene;

/** Set and write the sheets of a recipe: title, introduction, the figures in columns, each with its
 *  photo, sketch, caption, reading and lines to fill in, notes; at the foot cautions, where it all
 *  comes from, a ruler of 50 mm and the page's number. Figures have exact device pixels; photos at
 *  most 300 an inch.
 *  @param scenes  one for each item
 *  @return as ifig_page_blink; IFIG_ERROR_UNSUITABLE also where an item does not fit: the message
 *          says which, and by how much; of photos IFIG_ERROR_NOT_FOUND, IFIG_ERROR_SYNTAX */
IFIG_API IfigStatus ifig_page_write(const char *path, const IfigPageOptions *options,
                                    const IfigPageRecipe *recipe, const IfigPageScene *scenes,
                                    IfigError *error);

IFIG_C_END

#endif
