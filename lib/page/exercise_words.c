/* SPDX-License-Identifier: MIT */
/* A question in words, its choices and its answer. */
#include "exercise.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define COPY(field, words) snprintf(field, sizeof(field), "%.*s", (int)sizeof(field) - 1, words)

static const char *number(double value, int digits, IfigNumberText *room)
{
    *room = ifig_number_text(value, digits);
    return room->text;
}

/* Full-wave or quarter-wave plate, where one is in: a sentence before the question. */
static IfigPageText plate_sentence(const IfigQuestion *question)
{
    const IfigPlate *const plate = &question->instrument.plate;
    const char *const way =
        ifig_page_message(plate->slow_azimuth_deg > 90.0 ? IFIG_PAGE_SAY_EXERCISE_NW_SE
                                                         : IFIG_PAGE_SAY_EXERCISE_NE_SW);
    switch (plate->material) {
    case IFIG_PLATE_GYPSUM:
        return ifig_page_say(IFIG_PAGE_SAY_EXERCISE_FULL_WAVE, way, NULL);
    case IFIG_PLATE_MICA:
        return ifig_page_say(IFIG_PAGE_SAY_EXERCISE_QUARTER_WAVE, way, NULL);
    case IFIG_PLATE_NONE:
    case IFIG_PLATE_QUARTZ:
        break;
    }
    return (IfigPageText){""};
}

static void set_text(IfigQuestion *question, IfigPageMessage message, const char *first,
                     const char *second)
{
    const IfigPageText plate = plate_sentence(question);
    const IfigPageText asked = ifig_page_say(message, first, second);
    const IfigPageText both =
        ifig_page_say(IFIG_PAGE_SAY_EXERCISE_TWO_SENTENCES, plate.text, asked.text);
    COPY(question->text, plate.text[0] != '\0' ? both.text : asked.text);
}

/* Two choices in an order that never changes, so that it tells nothing. */
static void set_pair(IfigQuestion *question, IfigPageMessage first, IfigPageMessage second,
                     int is_second)
{
    question->choice_count = 2;
    COPY(question->choice[0], ifig_page_message(first));
    COPY(question->choice[1], ifig_page_message(second));
    question->right_choice = is_second ? 1 : 0;
    COPY(question->answer, question->choice[question->right_choice]);
}

static void ask_two_v(IfigQuestion *question, const IfigReading *reading)
{
    const double accepted_deg = 10.0;
    const int is_one = question->layer.orientation.view == IFIG_VIEW_OPTIC_AXIS;
    IfigSpeciesFacts facts;
    IfigNumberText n, field, low, high, typical;
    ifig_species_facts(question->layer.species, &facts, NULL);
    set_text(question, is_one ? IFIG_PAGE_SAY_EXERCISE_TWO_V_BEND : IFIG_PAGE_SAY_EXERCISE_TWO_V,
             number(facts.n[1], 4, &n), number(reading->field_deg, 3, &field));
    question->number = floor(10.0 * reading->two_v_deg[IFIG_READING_D] + 0.5) / 10.0;
    question->tolerance = accepted_deg;
    const IfigPageText range = ifig_page_say(
        IFIG_PAGE_SAY_EXERCISE_RANGE, number(fmax(0.0, question->number - accepted_deg), 3, &low),
        number(fmin(90.0, question->number + accepted_deg), 3, &high));
    COPY(question->answer, ifig_page_say(IFIG_PAGE_SAY_EXERCISE_TWO_V_ANSWER,
                                         number(question->number, 3, &typical), range.text)
                               .text);
}

/* The right one first; then mixed. */
static void mix_choices(IfigExercise *exercise, IfigQuestion *question)
{
    char kept[sizeof question->choice[0]];
    question->right_choice = 0;
    for (size_t left = question->choice_count; left > 1; left--) {
        const size_t other = ifig_exercise_pick(exercise, left), last = left - 1;
        memcpy(kept, question->choice[last], sizeof kept);
        memmove(question->choice[last], question->choice[other], sizeof kept);
        memcpy(question->choice[other], kept, sizeof kept);
        if (question->right_choice == last || question->right_choice == other) {
            question->right_choice = question->right_choice == last ? other : last;
        }
    }
}

static int is_among_choices(const IfigQuestion *question, const char *name)
{
    for (size_t i = 0; i < question->choice_count; i++) {
        if (strcmp(question->choice[i], name) == 0) {
            return 1;
        }
    }
    return 0;
}

/* Three more stones of the list, none of which might show this figure. */
static int ask_species(IfigExercise *exercise, IfigQuestion *question, const IfigReading *reading)
{
    enum { LOOKS = 40 };
    IfigNumberText thickness;
    const char *const right = ifig_species_text(question->layer.species, IFIG_TEXT_NAME);
    const double orders = ifig_orders_on_axis(question);
    question->choice_count = 1;
    COPY(question->choice[0], right);
    COPY(question->answer, right);
    for (int i = 0; i < LOOKS && question->choice_count < IFIG_QUESTION_CHOICES; i++) {
        IfigExerciseStone *const other =
            &exercise->stone[ifig_exercise_pick(exercise, exercise->stone_count)];
        const char *const name = ifig_species_text(other->species, IFIG_TEXT_NAME);
        if (other->species != question->layer.species &&
            strlen(name) < sizeof question->choice[0] && !is_among_choices(question, name) &&
            !ifig_exercise_could_be(other, question, reading, orders)) {
            COPY(question->choice[question->choice_count], name);
            question->choice_count++;
        }
    }
    mix_choices(exercise, question);
    set_text(question, IFIG_PAGE_SAY_EXERCISE_SPECIES,
             number(question->layer.thickness_mm, 3, &thickness), NULL);
    return question->choice_count == IFIG_QUESTION_CHOICES;
}

static IfigPageText place_words(int quadrant, int is_far)
{
    return ifig_page_say(
        is_far ? IFIG_PAGE_SAY_EXERCISE_NEAR_RIM : IFIG_PAGE_SAY_EXERCISE_NEAR_CENTRE,
        ifig_page_message((IfigPageMessage)(IFIG_PAGE_SAY_EXERCISE_NE + quadrant)), NULL);
}

static void ask_axis(IfigExercise *exercise, IfigQuestion *question, const IfigReading *reading)
{
    const IfigMelatope *const melatope = ifig_nearest_melatope(reading);
    const int is_far = ifig_melatope_radius(melatope) > 0.5;
    const int quadrant = melatope->y > 0.0
                             ? (melatope->x > 0.0 ? IFIG_QUADRANT_NE : IFIG_QUADRANT_NW)
                             : (melatope->x > 0.0 ? IFIG_QUADRANT_SE : IFIG_QUADRANT_SW);
    const int side = ifig_exercise_uniform(exercise) < 0.5 ? 1 : 3;
    IfigNumberText theta;
    question->choice_count = 4;
    COPY(question->choice[0], place_words(quadrant, is_far).text);
    COPY(question->choice[1], place_words(quadrant, !is_far).text);
    COPY(question->choice[2], place_words((quadrant + 2) % 4, is_far).text);
    COPY(question->choice[3], place_words((quadrant + side) % 4, is_far).text);
    COPY(question->answer, ifig_page_say(IFIG_PAGE_SAY_EXERCISE_AXIS_ANSWER, question->choice[0],
                                         number(floor(melatope->theta_deg + 0.5), 3, &theta))
                               .text);
    mix_choices(exercise, question);
    set_text(question, IFIG_PAGE_SAY_EXERCISE_AXIS, NULL, NULL);
}

int ifig_exercise_ask(IfigExercise *exercise, const IfigExerciseStone *stone,
                      IfigQuestion *question, const IfigReading *reading)
{
    question->number = question->tolerance = NAN;
    question->choice_count = question->right_choice = 0;
    switch (question->kind) {
    case IFIG_QUESTION_CHARACTER:
        set_pair(question, IFIG_PAGE_SAY_EXERCISE_UNIAXIAL, IFIG_PAGE_SAY_EXERCISE_BIAXIAL,
                 stone->facts.character == IFIG_BIAXIAL);
        set_text(question, IFIG_PAGE_SAY_EXERCISE_CHARACTER, NULL, NULL);
        break;
    case IFIG_QUESTION_SIGN:
        set_pair(question, IFIG_PAGE_SAY_EXERCISE_POSITIVE, IFIG_PAGE_SAY_EXERCISE_NEGATIVE,
                 reading->optic_sign < 0);
        set_text(question, IFIG_PAGE_SAY_EXERCISE_SIGN, NULL, NULL);
        break;
    case IFIG_QUESTION_TWO_V:
        ask_two_v(question, reading);
        break;
    case IFIG_QUESTION_SPECIES:
        return ask_species(exercise, question, reading);
    case IFIG_QUESTION_AXIS:
    case IFIG_QUESTION_KINDS:
        ask_axis(exercise, question, reading);
        break;
    }
    return 1;
}
