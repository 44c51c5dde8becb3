/* SPDX-License-Identifier: MIT */
/* An exercise as tables for a learning platform. */
#ifndef IFIG_CLI_EXERCISE_TABLES_H
#define IFIG_CLI_EXERCISE_TABLES_H

#include "exit_status.h"
#include "settings.h"

typedef struct IfigCliExercise {
    const IfigCliSettings *settings;
    const IfigExercise *exercise;
    char **recipes; /* one a question */
} IfigCliExercise;

/* "q01": as many digits as the last question needs, at least two. */
typedef struct IfigCliQuestionId {
    char text[24];
} IfigCliQuestionId;
IfigCliQuestionId ifig_cli_question_id(size_t index, size_t count);

/* RFC 4180: a head line, CR LF, quotes about every text. The columns: id, level, kind, text,
 * figure, choice_1 to choice_4, answer (a choice's own words, or a number of degrees), tolerance,
 * species, thickness_mm, recipe, reading. */
IfigCliStatus ifig_cli_write_exercise_csv(const IfigCliExercise *what, const char *path);
/* As schema/exercise.json describes it. */
IfigCliStatus ifig_cli_write_exercise_json(const IfigCliExercise *what, const char *path);

#endif
