/* SPDX-License-Identifier: MIT */
#include "exercise_tables.h"

#include <errno.h>
#include <math.h>
#include <string.h>

#include "describe.h"
#include "json.h"
#include "output.h"

IfigCliQuestionId ifig_cli_question_id(size_t index, size_t count)
{
    IfigCliQuestionId id;
    snprintf(id.text, sizeof id.text, "q%0*zu", count > 99 ? 3 : 2, index + 1);
    return id;
}

static IfigCliStatus end_file(FILE *out, int failed, const char *path)
{
    failed |= ferror(out);
    return fclose(out) == 0 && !failed
               ? IFIG_CLI_OK
               : ifig_cli_complain(IFIG_CLI_IO, "cannot write '%s': %s; make room on the disk",
                                   ifig_cli_shown(path).text, strerror(errno));
}

static FILE *begin_file(const char *path)
{
    FILE *const out = fopen(path, "wbx");
    if (out == NULL) {
        ifig_cli_complain(IFIG_CLI_NO_CREATE, "cannot make '%s': %s", ifig_cli_shown(path).text,
                          strerror(errno));
    }
    return out;
}

/* A text in quotes, its quotes doubled; lines become sentences of one line. */
static void put_text(FILE *out, const char *text)
{
    fputs(",\"", out);
    for (; *text != '\0'; text++) {
        if (*text == '"') {
            fputs("\"\"", out);
        } else if (*text == '\n') {
            fputs(text[1] != '\0' ? " " : "", out);
        } else {
            fputc(*text, out);
        }
    }
    fputc('"', out);
}

static void put_number(FILE *out, double value)
{
    fprintf(out, ",%s", isfinite(value) ? ifig_cli_number(value).text : "");
}

static void put_row(FILE *out, const IfigCliExercise *what, size_t index)
{
    const IfigQuestion *const question = ifig_exercise_at(what->exercise, index);
    const IfigCliQuestionId id = ifig_cli_question_id(index, ifig_exercise_count(what->exercise));
    char figure[32];
    snprintf(figure, sizeof figure, "%s.png", id.text);
    fprintf(out, "%s,%d", id.text, what->settings->level);
    put_text(out, ifig_question_kind_name(question->kind));
    put_text(out, question->text);
    put_text(out, figure);
    for (size_t i = 0; i < IFIG_QUESTION_CHOICES; i++) {
        put_text(out, i < question->choice_count ? question->choice[i] : "");
    }
    if (question->choice_count > 0) {
        put_text(out, question->choice[question->right_choice]);
    } else {
        put_number(out, question->number);
    }
    put_number(out, question->tolerance);
    put_text(out, ifig_species_text(question->layer.species, IFIG_TEXT_KEY));
    put_number(out, question->layer.thickness_mm);
    put_text(out, what->recipes[index]);
    put_text(out, question->reading);
    fputs("\r\n", out);
}

IfigCliStatus ifig_cli_write_exercise_csv(const IfigCliExercise *what, const char *path)
{
    FILE *const out = begin_file(path);
    if (out == NULL) {
        return IFIG_CLI_NO_CREATE;
    }
    fputs("id,level,kind,text,figure,choice_1,choice_2,choice_3,choice_4,answer,tolerance,species,"
          "thickness_mm,recipe,reading\r\n",
          out);
    for (size_t i = 0; i < ifig_exercise_count(what->exercise); i++) {
        put_row(out, what, i);
    }
    return end_file(out, 0, path);
}

static json_t *json_of_key(const IfigCliExercise *what, size_t index)
{
    const IfigQuestion *const question = ifig_exercise_at(what->exercise, index);
    const IfigSpecies *const species = question->layer.species;
    json_t *key = json_object();
    json_object_set_new(key, "answer",
                        question->choice_count > 0
                            ? json_string(question->choice[question->right_choice])
                            : ifig_cli_json_number(question->number));
    json_object_set_new(key, "tolerance", ifig_cli_json_number(question->tolerance));
    json_object_set_new(key, "words", json_string(question->answer));
    json_object_set_new(key, "species", json_string(ifig_species_text(species, IFIG_TEXT_KEY)));
    json_object_set_new(key, "name", json_string(ifig_species_text(species, IFIG_TEXT_NAME)));
    json_object_set_new(key, "thickness_mm", ifig_cli_json_number(question->layer.thickness_mm));
    json_object_set_new(key, "recipe", json_string(what->recipes[index]));
    json_object_set_new(key, "reading", ifig_cli_json_lines(question->reading));
    return key;
}

static json_t *json_of_question(const IfigCliExercise *what, size_t index)
{
    const IfigQuestion *const question = ifig_exercise_at(what->exercise, index);
    const IfigCliQuestionId id = ifig_cli_question_id(index, ifig_exercise_count(what->exercise));
    json_t *object = json_object(), *choices = json_array();
    for (size_t i = 0; i < question->choice_count; i++) {
        json_array_append_new(choices, json_string(question->choice[i]));
    }
    json_object_set_new(object, "id", json_string(id.text));
    json_object_set_new(object, "level", json_integer(what->settings->level));
    json_object_set_new(object, "kind", json_string(ifig_question_kind_name(question->kind)));
    json_object_set_new(object, "text", json_string(question->text));
    json_object_set_new(object, "choices", choices);
    json_object_set_new(object, "figure", json_sprintf("%s.png", id.text));
    json_object_set_new(object, "key", json_of_key(what, index));
    return object;
}

IfigCliStatus ifig_cli_write_exercise_json(const IfigCliExercise *what, const char *path)
{
    /* JSON_REAL_PRECISION(17), in full, since the macro casts with a sign. */
    const size_t flags = JSON_INDENT(2) | ((size_t)(17 & 0x1F) << 11);
    json_t *answer = json_object(), *questions = json_array();
    for (size_t i = 0; i < ifig_exercise_count(what->exercise); i++) {
        json_array_append_new(questions, json_of_question(what, i));
    }
    json_object_set_new(answer, "schema_version", json_integer(1));
    json_object_set_new(answer, "title",
                        what->settings->title != NULL ? json_string(what->settings->title)
                                                      : json_null());
    json_object_set_new(answer, "level", json_integer(what->settings->level));
    json_object_set_new(answer, "seed", json_integer(what->settings->seed));
    json_object_set_new(answer, "from", json_string(what->settings->list));
    json_object_set_new(answer, "caution", json_string(ifig_cli_evidence));
    if (answer == NULL || json_object_set_new(answer, "questions", questions) != 0) {
        json_decref(answer);
        return ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory for the questions");
    }
    FILE *const out = begin_file(path);
    if (out == NULL) {
        json_decref(answer);
        return IFIG_CLI_NO_CREATE;
    }
    const int failed = json_dumpf(answer, out, flags) != 0;
    json_decref(answer);
    fputc('\n', out);
    return end_file(out, failed, path);
}
