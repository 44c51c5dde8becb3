/* SPDX-License-Identifier: MIT */
/** @file
 * Room 11, page: exercises for a class. Figures without labels, each with a question that the
 * figure itself answers, and the answers with their reasons.
 *
 * Every question is checked on the reading of its figure (ifig_reading): what is asked can be seen
 * in the field, and of several choices one alone fits. No two figures of a set look alike. The same
 * list, level, count and seed give the same set.
 *
 * Threads: an exercise is immutable once made; any number of threads may read it.
 */
#ifndef INTERFIG_EXERCISE_H
#define INTERFIG_EXERCISE_H

#include "interfig/page.h"
#include "interfig/reading.h"

IFIG_C_BEGIN

/** What is asked. */
typedef enum IfigQuestionKind {
    IFIG_QUESTION_CHARACTER = 0, /**< uniaxial or biaxial? */
    IFIG_QUESTION_SIGN,          /**< with a full-wave plate in: positive or negative? */
    IFIG_QUESTION_TWO_V,         /**< the optic angle, a number */
    IFIG_QUESTION_SPECIES,       /**< which of four stones? */
    IFIG_QUESTION_AXIS,          /**< where does the optic axis leave the stone? */
    IFIG_QUESTION_KINDS          /**< how many there are */
} IfigQuestionKind;

/** Answers to choose from, at most. */
#define IFIG_QUESTION_CHOICES 4
/** Questions of one set, at most. */
#define IFIG_EXERCISE_MOST 100

/** One question. */
typedef struct IfigQuestion {
    IfigQuestionKind kind;     /**< what is asked */
    IfigLayer layer;           /**< the stone as it lies; colourless */
    IfigInstrument instrument; /**< that the figure is seen with */
    char text[400];            /**< the question, with all that a student needs to be told */
    size_t choice_count;       /**< 0: the answer is a number */
    char choice[IFIG_QUESTION_CHOICES][80]; /**< choice_count answers to choose from */
    size_t right_choice;                    /**< index into choice; 0 for a number */
    double number;                          /**< degrees; NaN where there are choices */
    double tolerance; /**< accepted on either side of number; NaN where there are choices */
    char answer[160]; /**< in words */
    char reading[IFIG_READING_TEXT_MAX]; /**< of the figure, as ifig_reading_describe has it */
} IfigQuestion;

/** What a set is made from. Initialise with IFIG_EXERCISE_OPTIONS_INIT. */
typedef struct IfigExerciseOptions {
    size_t size;                       /**< sizeof(IfigExerciseOptions) */
    const IfigSpecies *const *species; /**< each must show a figure; borrowed as long as the set */
    size_t species_count;              /**< 1 to 1000 */
    int count;                         /**< of questions, 1 to IFIG_EXERCISE_MOST */
    int level; /**< 1: centred, thickness as usual; 2: tilted by up to 15 degrees and turned;
                    3: tilted further, one optic axis, thin and thick, plates */
    unsigned long long seed; /**< of what is random */
    IfigProgress progress;   /**< after each question; a return of 0 cancels; may be NULL */
    void *progress_context;  /**< handed to progress as it is */
} IfigExerciseOptions;

/** Twelve questions of level 1, seed 1; the species are still to be told. */
#define IFIG_EXERCISE_OPTIONS_INIT                                                                 \
    {                                                                                              \
        .size = sizeof(IfigExerciseOptions), .count = 12, .level = 1, .seed = 1                    \
    }

/** A set of questions; opaque, immutable. */
typedef struct IfigExercise IfigExercise;

/** Read a list of stones: keys, names and varieties between commas, and the groups "uniaxial",
 *  "biaxial" (all of the catalogue that show a figure) and "common" (stones of every class room:
 *  ifig_exercise_common). A stone named twice counts once.
 *  @param species     room for ifig_catalogue_count entries
 *  @param[out] count  how many
 *  @return IFIG_OK; IFIG_ERROR_ARGUMENT; IFIG_ERROR_SYNTAX (an empty entry); IFIG_ERROR_NOT_FOUND;
 *          IFIG_ERROR_AMBIGUOUS; IFIG_ERROR_UNSUITABLE (a stone without a figure: isotropic, an
 *          aggregate, opaque) */
IFIG_API IfigStatus ifig_exercise_species(const IfigCatalogue *catalogue, const char *list,
                                          const IfigSpecies **species, size_t *count,
                                          IfigError *error);
/** The keys of the group "common" by index, from 0; NULL behind the last. Static storage. */
IFIG_API const char *ifig_exercise_common(size_t index);

/** Make a set. Free it with ifig_exercise_free.
 *  @return IFIG_OK; IFIG_ERROR_ARGUMENT; IFIG_ERROR_RANGE; IFIG_ERROR_UNSUITABLE (the list gives
 *          fewer different questions; the message says how many); IFIG_ERROR_MEMORY;
 *          IFIG_ERROR_CANCELLED */
IFIG_API IfigStatus ifig_exercise_create(const IfigExerciseOptions *options,
                                         IfigExercise **exercise, IfigError *error);
/** Free a set. NULL is allowed. */
IFIG_API void ifig_exercise_free(IfigExercise *exercise);
/** How many questions; 0 for NULL. */
IFIG_API size_t ifig_exercise_count(const IfigExercise *exercise);
/** A question, 0 <= index < count; NULL outside. It lives as long as the set. */
IFIG_API const IfigQuestion *ifig_exercise_at(const IfigExercise *exercise, size_t index);
/** "character", "sign", "two-v", "species", "axis"; NULL for an unknown one. Static storage. */
IFIG_API const char *ifig_question_kind_name(IfigQuestionKind kind);
/** The scene of a question; it borrows from the set.
 *  @param index       from 0
 *  @param[out] scene  its size set
 *  @return IFIG_OK or IFIG_ERROR_ARGUMENT */
IFIG_API IfigStatus ifig_exercise_scene(const IfigExercise *exercise, size_t index,
                                        IfigScene *scene, IfigError *error);
/** The figure of a question: options->pixels squared, sRGB, the corners outside the disc white.
 *  @param index     from 0
 *  @param[out] rgb  pixels x pixels x 3 bytes
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE, IFIG_ERROR_MEMORY, IFIG_ERROR_CANCELLED
 */
IFIG_API IfigStatus ifig_exercise_picture(const IfigExercise *exercise, size_t index,
                                          const IfigFigureOptions *options, uint8_t *rgb,
                                          IfigError *error);

/** How the pages are written. Initialise with IFIG_EXERCISE_SHEET_INIT. */
typedef struct IfigExerciseSheet {
    size_t size;                /**< sizeof(IfigExerciseSheet) */
    const char *title;          /**< NULL: one of its own */
    int has_answers;            /**< 0: questions with room for the answers; 1: the answers */
    const char *const *recipes; /**< one a question, printed with the answers; NULL: none */
    int threads;                /**< as in IfigFigureOptions */
    IfigProgress progress;      /**< after each figure; a return of 0 cancels; may be NULL */
    void *progress_context;     /**< handed to progress as it is */
} IfigExerciseSheet;

/** Questions, under a title of their own. */
#define IFIG_EXERCISE_SHEET_INIT                                                                   \
    {                                                                                              \
        .size = sizeof(IfigExerciseSheet)                                                          \
    }

/** Write the pages, which print unscaled on A4 and on Letter.
 *  @return as ifig_page_blink; IFIG_ERROR_CANCELLED */
IFIG_API IfigStatus ifig_exercise_write(const char *path, const IfigPageOptions *options,
                                        const IfigExercise *exercise,
                                        const IfigExerciseSheet *sheet, IfigError *error);

IFIG_C_END

#endif
