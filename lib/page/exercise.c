/* SPDX-License-Identifier: MIT */
/* A set of questions: drawn, checked on the reading, and set aside where another looks alike. */
#include "exercise.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Least mean difference of two figures' pixels, of 255: of any two, and of two figures of one stone
 * with the same question. */
static const double APART = 3.0, APART_ALIKE = 8.0;

enum { TRIES_OF_A_KIND = 100, TRIES_OF_A_STONE = 25, SPECIES_MOST = 1000 };

IfigScene ifig_question_scene(const IfigQuestion *question, const IfigLamp *lamp)
{
    IfigScene scene = IFIG_SCENE_INIT;
    scene.layers = &question->layer;
    scene.layer_count = 1;
    scene.instrument = question->instrument;
    scene.lamp = lamp;
    return scene;
}

static IfigStatus render(const IfigScene *scene, const IfigFigureOptions *options, uint8_t *rgb,
                         IfigError *error)
{
    IfigFigure *figure = NULL;
    IfigStatus status = ifig_figure_create(scene, options, &figure, error);
    if (status == IFIG_OK) {
        status = ifig_figure_render(figure, IFIG_PIXELS_SRGB8, 0, options->pixels, rgb, error);
    }
    ifig_figure_free(figure);
    return status;
}

static double difference(const uint8_t *one, const uint8_t *two)
{
    const double disc = IFIG_PI / 4.0 * IFIG_THUMB * IFIG_THUMB * 3.0;
    double sum = 0.0;
    for (int i = 0; i < IFIG_THUMB * IFIG_THUMB * 3; i++) {
        sum += fabs((double)one[i] - (double)two[i]);
    }
    return sum / disc;
}

/* Not like any before it. */
static int is_new(const IfigExercise *exercise, const IfigQuestion *question, const uint8_t *thumb)
{
    for (size_t i = 0; i < exercise->count; i++) {
        const IfigQuestion *const other = &exercise->question[i];
        const int is_same =
            other->kind == question->kind && other->layer.species == question->layer.species;
        if (difference(thumb, exercise->thumb[i]) < (is_same ? APART_ALIKE : APART)) {
            return 0;
        }
    }
    return 1;
}

static int complete(IfigExercise *exercise, IfigQuestion *question)
{
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    const IfigScene scene = ifig_question_scene(question, exercise->lamp);
    uint8_t *const thumb = exercise->thumb[exercise->count];
    options.pixels = IFIG_THUMB;
    options.threads = 1;
    return render(&scene, &options, thumb, NULL) == IFIG_OK && is_new(exercise, question, thumb);
}

/* One more question of a kind, at the end of the set. 1, or 0 where none was found. */
static int add_question(IfigExercise *exercise, IfigQuestionKind kind)
{
    IfigQuestion *const question = &exercise->question[exercise->count];
    const size_t for_stones = TRIES_OF_A_STONE * exercise->stone_count;
    const size_t tries = for_stones < TRIES_OF_A_KIND ? for_stones : TRIES_OF_A_KIND;
    if (kind == IFIG_QUESTION_SPECIES && exercise->stone_count < IFIG_QUESTION_CHOICES) {
        return 0;
    }
    for (size_t i = 0; i < tries; i++) {
        IfigReading reading;
        IfigExerciseStone *const stone = ifig_exercise_stone(exercise, kind);
        if (stone == NULL) {
            return 0;
        }
        question->kind = kind;
        if (ifig_exercise_lay(exercise, stone, question, &reading) &&
            ifig_exercise_is_answered(exercise, stone, question, &reading) &&
            complete(exercise, question) &&
            ifig_exercise_ask(exercise, stone, question, &reading) &&
            ifig_reading_describe(&reading, question->reading, sizeof question->reading, NULL) ==
                IFIG_OK) {
            stone->asked++;
            exercise->count++;
            return 1;
        }
    }
    return 0;
}

/* Each kind once in an order of chance, then again, so that all come up equally often. */
static int add_round(IfigExercise *exercise, const IfigExerciseOptions *options, int *is_cancelled)
{
    const size_t wanted = (size_t)options->count;
    IfigQuestionKind order[IFIG_QUESTION_KINDS];
    const size_t kinds = exercise->level == 1 ? IFIG_QUESTION_AXIS : IFIG_QUESTION_KINDS;
    int found = 0;
    for (size_t i = 0; i < kinds; i++) {
        const size_t place = ifig_exercise_pick(exercise, i + 1);
        order[i] = order[place];
        order[place] = (IfigQuestionKind)i;
    }
    for (size_t i = 0; i < kinds && exercise->count < wanted && !*is_cancelled; i++) {
        const int is_found = !exercise->is_used_up[order[i]] && add_question(exercise, order[i]);
        exercise->is_used_up[order[i]] |= !is_found && exercise->failed[order[i]]++ > 0;
        found += is_found;
        *is_cancelled =
            options->progress != NULL &&
            !options->progress((double)exercise->count / (double)wanted, options->progress_context);
    }
    return found;
}

static IfigStatus fill(IfigExercise *exercise, const IfigExerciseOptions *options, IfigError *error)
{
    const size_t wanted = (size_t)options->count;
    int is_cancelled = 0;
    while (exercise->count < wanted) {
        const int found = add_round(exercise, options, &is_cancelled);
        if (is_cancelled) {
            return ifig_fail(error, IFIG_ERROR_CANCELLED, "the exercise was cancelled");
        }
        if (found == 0) {
            return ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                             "the list of %zu %s gives %zu different questions at level %d, not "
                             "%zu; ask for fewer, name more stones, or take another level",
                             exercise->stone_count, exercise->stone_count == 1 ? "stone" : "stones",
                             exercise->count, exercise->level, wanted);
        }
    }
    return IFIG_OK;
}

static IfigStatus check(const IfigExerciseOptions *options, IfigError *error)
{
    if (options == NULL || options->species == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "an exercise was given a null pointer; give options with a list of "
                         "species");
    }
    if (options->size != sizeof *options) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the exercise options are of another version of the library; initialise "
                         "them with IFIG_EXERCISE_OPTIONS_INIT and compile against this version");
    }
    IfigStatus status = ifig_check_range("the number of questions", options->count, 1.0,
                                         IFIG_EXERCISE_MOST, "", error);
    if (status == IFIG_OK) {
        status = ifig_check_range("the level", options->level, 1.0, 3.0, "", error);
    }
    if (status == IFIG_OK) {
        status = ifig_check_range("the number of stones", (double)options->species_count, 1.0,
                                  SPECIES_MOST, "", error);
    }
    return status;
}

static IfigStatus open_stones(IfigExercise *exercise, const IfigExerciseOptions *options,
                              IfigError *error)
{
    IfigStatus status = IFIG_OK;
    for (size_t i = 0; i < options->species_count && status == IFIG_OK; i++) {
        IfigExerciseStone *const stone = &exercise->stone[i];
        stone->species = options->species[i];
        status = ifig_species_facts(stone->species, &stone->facts, error);
        if (status == IFIG_OK &&
            (stone->facts.is_opaque ||
             (stone->facts.character != IFIG_UNIAXIAL && stone->facts.character != IFIG_BIAXIAL))) {
            status = ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                               "%s shows no figure to ask about; leave it out",
                               ifig_species_text(stone->species, IFIG_TEXT_KEY));
        }
    }
    exercise->stone_count = options->species_count;
    return status;
}

IfigStatus ifig_exercise_create(const IfigExerciseOptions *options, IfigExercise **exercise,
                                IfigError *error)
{
    if (exercise == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "an exercise was given a null pointer; give a place for the set");
    }
    *exercise = NULL;
    IfigStatus status = check(options, error);
    if (status != IFIG_OK) {
        return status;
    }
    IfigExercise *const made = calloc(1, sizeof *made);
    if (made != NULL) {
        made->stone = calloc(options->species_count, sizeof *made->stone);
        made->question = calloc((size_t)options->count, sizeof *made->question);
        made->thumb = calloc((size_t)options->count, sizeof *made->thumb);
    }
    if (made == NULL || made->stone == NULL || made->question == NULL || made->thumb == NULL) {
        status = ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for an exercise; ask for fewer");
    } else {
        made->level = options->level;
        made->state = options->seed;
        status = ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &made->lamp, error);
    }
    if (status == IFIG_OK) {
        status = open_stones(made, options, error);
    }
    if (status == IFIG_OK) {
        status = fill(made, options, error);
    }
    if (status == IFIG_OK) {
        *exercise = made;
    } else {
        ifig_exercise_free(made);
    }
    return status;
}

void ifig_exercise_free(IfigExercise *exercise)
{
    if (exercise != NULL) {
        ifig_lamp_free(exercise->lamp);
        free(exercise->stone);
        free(exercise->question);
        free(exercise->thumb);
        free(exercise);
    }
}

size_t ifig_exercise_count(const IfigExercise *exercise)
{
    return exercise != NULL ? exercise->count : 0;
}

const IfigQuestion *ifig_exercise_at(const IfigExercise *exercise, size_t index)
{
    return index < ifig_exercise_count(exercise) ? &exercise->question[index] : NULL;
}

const char *ifig_question_kind_name(IfigQuestionKind kind)
{
    static const char *const names[IFIG_QUESTION_KINDS] = {"character", "sign", "two-v", "species",
                                                           "axis"};
    return (unsigned)kind < IFIG_QUESTION_KINDS ? names[kind] : NULL;
}

IfigStatus ifig_exercise_scene(const IfigExercise *exercise, size_t index, IfigScene *scene,
                               IfigError *error)
{
    if (scene == NULL || scene->size != sizeof *scene) {
        return ifig_fail(
            error, IFIG_ERROR_ARGUMENT,
            "ifig_exercise_scene needs room for a scene, started from IFIG_SCENE_INIT");
    }
    if (index >= ifig_exercise_count(exercise)) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "a question was asked for that the exercise has not; take one below its "
                         "count");
    }
    *scene = ifig_question_scene(&exercise->question[index], exercise->lamp);
    return IFIG_OK;
}

/* The corners become paper. */
static void whiten_corners(uint8_t *rgb, uint32_t pixels)
{
    const double radius = 0.5 * pixels;
    for (uint32_t y = 0; y < pixels; y++) {
        for (uint32_t x = 0; x < pixels; x++) {
            if (hypot(x + 0.5 - radius, y + 0.5 - radius) > radius) {
                memset(rgb + 3 * ((size_t)y * pixels + x), 255, 3);
            }
        }
    }
}

IfigStatus ifig_exercise_picture(const IfigExercise *exercise, size_t index,
                                 const IfigFigureOptions *options, uint8_t *rgb, IfigError *error)
{
    IfigScene scene = IFIG_SCENE_INIT;
    if (options == NULL || rgb == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "a figure was given a null pointer; give options and room for pixels");
    }
    IfigStatus status = ifig_exercise_scene(exercise, index, &scene, error);
    if (status == IFIG_OK) {
        status = render(&scene, options, rgb, error);
    }
    if (status == IFIG_OK) {
        whiten_corners(rgb, options->pixels);
    }
    return status;
}
