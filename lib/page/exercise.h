/* SPDX-License-Identifier: MIT */
/* Inside the page room: how a set of questions is made. */
#ifndef IFIG_PAGE_EXERCISE_ROOM_H
#define IFIG_PAGE_EXERCISE_ROOM_H

#include <stdint.h>

#include "interfig/advice.h"
#include "interfig/exercise.h"

#include "base.h"
#include "messages.h"

enum { IFIG_THUMB = 32 }; /* pixels across the pictures by which figures are compared */

/* A stone of the list, and what is met with in its kind. */
typedef struct IfigExerciseStone {
    const IfigSpecies *species;
    IfigSpeciesFacts facts;
    int asked;         /* how many questions have it already */
    int has_traits;    /* 1: traits holds those of a stone of 1 mm */
    IfigTraits traits; /* worked out when they are first asked for */
} IfigExerciseStone;

struct IfigExercise {
    IfigExerciseStone *stone;
    size_t stone_count;
    int level;
    uint64_t state, drawn;               /* of the generator */
    int failed[IFIG_QUESTION_KINDS];     /* how often none was found */
    int is_used_up[IFIG_QUESTION_KINDS]; /* 1: no more questions of that kind were found */
    IfigLamp *lamp;
    IfigQuestion *question;
    size_t count;
    uint8_t (*thumb)[IFIG_THUMB * IFIG_THUMB * 3];
};

/* exercise_draw.c: chance, and how a stone is laid. */

/* 0 to below 1; a whole number 0 to count - 1. */
double ifig_exercise_uniform(IfigExercise *exercise);
size_t ifig_exercise_pick(IfigExercise *exercise, size_t count);
/* A stone that a question of that kind may be about; the less asked ones first. NULL: none. */
IfigExerciseStone *ifig_exercise_stone(IfigExercise *exercise, IfigQuestionKind kind);
/* Lay the stone and set the instrument for a question. 1, or 0 where chance has chosen what cannot
 * be. On return the reading is that of the figure. */
int ifig_exercise_lay(IfigExercise *exercise, const IfigExerciseStone *stone,
                      IfigQuestion *question, IfigReading *reading);

/* exercise_check.c: 1 where the figure answers its question. */
int ifig_exercise_is_answered(const IfigExercise *exercise, const IfigExerciseStone *stone,
                              const IfigQuestion *question, const IfigReading *reading);
/* 1 where the stone might show that figure too.
 * @param orders  ifig_orders_on_axis of the question */
int ifig_exercise_could_be(IfigExerciseStone *stone, const IfigQuestion *question,
                           const IfigReading *reading, double orders);
/* Orders of colour that the figure would have in the middle of the field: traits are told of the
 * usual view, untilted. NaN: unknown. */
double ifig_orders_on_axis(const IfigQuestion *question);

/* exercise_words.c: text, choices, answer. 1, or 0 where there are not enough other stones. */
int ifig_exercise_ask(IfigExercise *exercise, const IfigExerciseStone *stone,
                      IfigQuestion *question, const IfigReading *reading);
/* Distance of a melatope from the centre, rim 1; large where none sees it. */
double ifig_melatope_radius(const IfigMelatope *melatope);
/* The one nearest to the centre. */
const IfigMelatope *ifig_nearest_melatope(const IfigReading *reading);

/* exercise.c */
IfigScene ifig_question_scene(const IfigQuestion *question, const IfigLamp *lamp);

#endif
