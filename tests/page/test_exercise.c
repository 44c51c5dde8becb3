/* SPDX-License-Identifier: MIT */
/* Exercises: each answer against facts that the making of the questions has no hand in. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "../run_case.h"
#include "interfig/interfig.h"

enum { STONES_MAX = 400, PIXELS = 48 };

static IfigCatalogue *catalogue;
static const IfigSpecies *stones[STONES_MAX];

static void open_catalogue(void)
{
    ck_assert(ifig_catalogue_create(&catalogue, NULL) == IFIG_OK);
    ck_assert(ifig_catalogue_count(catalogue) <= STONES_MAX);
}

static void close_catalogue(void)
{
    ifig_catalogue_free(catalogue);
}

static IfigExercise *make(const char *list, int count, int level, unsigned long long seed)
{
    IfigExerciseOptions options = IFIG_EXERCISE_OPTIONS_INIT;
    IfigError error = IFIG_ERROR_INIT;
    IfigExercise *exercise = NULL;
    ck_assert_msg(ifig_exercise_species(catalogue, list, stones, &options.species_count, &error) ==
                      IFIG_OK,
                  "%s", error.message);
    options.species = stones;
    options.count = count;
    options.level = level;
    options.seed = seed;
    ck_assert_msg(ifig_exercise_create(&options, &exercise, &error) == IFIG_OK, "%s",
                  error.message);
    ck_assert_uint_eq(ifig_exercise_count(exercise), (size_t)count);
    return exercise;
}

static const char *right_choice(const IfigQuestion *question)
{
    ck_assert_uint_lt(question->right_choice, question->choice_count);
    return question->choice[question->right_choice];
}

/* Where the optic axes are seen, by the orientation matrix and n sin(theta): uniaxial waves along
 * the axis travel with n_omega, biaxial ones with n_beta. How many within the rim; the first. */
static int axes_in_field(const IfigQuestion *question, double *x, double *y)
{
    IfigOpticAxes axes;
    double r[3][3];
    int count = 0;
    ck_assert(ifig_optic_axes(question->layer.species, 589.3, &axes, NULL) == IFIG_OK);
    ck_assert(ifig_orientation_matrix(question->layer.species, &question->layer.orientation, r,
                                      NULL) == IFIG_OK);
    const double n = axes.count == 2 ? axes.n[1] : axes.optic_sign > 0 ? axes.n[0] : axes.n[2];
    for (int i = 0; i < axes.count; i++) {
        double lab[3], px, py;
        for (int k = 0; k < 3; k++) {
            lab[k] =
                r[k][0] * axes.axis[i][0] + r[k][1] * axes.axis[i][1] + r[k][2] * axes.axis[i][2];
        }
        const double up = lab[2] < 0.0 ? -1.0 : 1.0;
        const double s = n * hypot(lab[0], lab[1]);
        if (s >= 1.0) {
            continue; /* totally reflected */
        }
        const double theta = asin(s) * 180.0 / M_PI;
        const double phi = atan2(up * lab[1], up * lab[0]) * 180.0 / M_PI;
        if (theta <= question->instrument.field_deg &&
            ifig_instrument_position(&question->instrument, theta, phi, &px, &py, NULL) ==
                IFIG_OK) {
            *x = count == 0 ? px : *x;
            *y = count == 0 ? py : *y;
            count++;
        }
    }
    return count;
}

static void check_axis(const IfigQuestion *question)
{
    double x = 0.0, y = 0.0;
    char words[80];
    ck_assert_int_eq(axes_in_field(question, &x, &y), 1);
    snprintf(words, sizeof words, "%s %s, nearer the %s", y > 0.0 ? "upper" : "lower",
             x > 0.0 ? "right" : "left", hypot(x, y) > 0.5 ? "rim" : "centre");
    ck_assert_msg(strncmp(right_choice(question), words, strlen(words)) == 0, "%s: %s",
                  right_choice(question), words);
}

/* Another stone of the same catalogue by its name. */
static const IfigSpecies *by_name(const char *name)
{
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const IfigSpecies *const species = ifig_catalogue_at(catalogue, i);
        if (strcmp(ifig_species_text(species, IFIG_TEXT_NAME), name) == 0) {
            return species;
        }
    }
    ck_abort_msg("no stone is called %s", name);
    return NULL;
}

/* Handbook facts that part two stones: character, a bull's eye, 2V, the sign where a plate shows
 * it, birefringence (which the rings count at a thickness that is told). */
static int are_parted(const IfigQuestion *question, const IfigSpecies *other)
{
    IfigSpeciesFacts a, b;
    ck_assert(ifig_species_facts(question->layer.species, &a, NULL) == IFIG_OK);
    ck_assert(ifig_species_facts(other, &b, NULL) == IFIG_OK);
    /* Orders within a field grow as birefringence over the square of the index. */
    const double a_strength = fabs(a.n[2] - a.n[0]) / (a.n[1] * a.n[1]);
    const double b_low = fmin(b.birefringence_low, fabs(b.n[2] - b.n[0])) / (b.n[1] * b.n[1]);
    const double b_high = fmax(b.birefringence_high, fabs(b.n[2] - b.n[0])) / (b.n[1] * b.n[1]);
    const int has_plate = question->instrument.plate.material == IFIG_PLATE_GYPSUM;
    return a.character != b.character || (a.is_optically_active && !b.is_optically_active) ||
           (has_plate && a.optic_sign != b.optic_sign) ||
           (a.character == IFIG_BIAXIAL &&
            (a.two_v_deg < b.two_v_low_deg - 9.9 || a.two_v_deg > b.two_v_high_deg + 9.9)) ||
           1.2 * a_strength < b_low || a_strength > 1.2 * b_high;
}

static void check_species(const IfigQuestion *question)
{
    ck_assert_uint_eq(question->choice_count, 4);
    ck_assert_str_eq(right_choice(question),
                     ifig_species_text(question->layer.species, IFIG_TEXT_NAME));
    for (size_t i = 0; i < 4; i++) {
        if (i != question->right_choice) {
            ck_assert_msg(are_parted(question, by_name(question->choice[i])), "%s passes for %s",
                          question->choice[i], right_choice(question));
        }
        for (size_t k = 0; k < i; k++) {
            ck_assert_str_ne(question->choice[i], question->choice[k]);
        }
    }
}

static void check_two_v(const IfigQuestion *question)
{
    IfigOpticAxes axes;
    double x, y;
    ck_assert(ifig_optic_axes(question->layer.species, 589.3, &axes, NULL) == IFIG_OK);
    ck_assert_int_eq(axes.count, 2);
    ck_assert_double_eq_tol(question->number, axes.two_v_deg, 0.051); /* told to a tenth */
    ck_assert_double_eq(question->tolerance, 10.0);
    ck_assert_int_ge(axes_in_field(question, &x, &y), 1);
}

static void check_answer(const IfigQuestion *question)
{
    IfigSpeciesFacts facts;
    double x, y;
    ck_assert(ifig_species_facts(question->layer.species, &facts, NULL) == IFIG_OK);
    ck_assert_int_ge(axes_in_field(question, &x, &y), 1);
    switch (question->kind) {
    case IFIG_QUESTION_CHARACTER:
        ck_assert_str_eq(right_choice(question),
                         facts.character == IFIG_UNIAXIAL ? "uniaxial" : "biaxial");
        break;
    case IFIG_QUESTION_SIGN:
        ck_assert_str_eq(right_choice(question), facts.optic_sign > 0 ? "positive" : "negative");
        ck_assert_int_eq((int)question->instrument.plate.material, IFIG_PLATE_GYPSUM);
        ck_assert(strstr(question->text, question->instrument.plate.slow_azimuth_deg > 90.0
                                             ? "lower right to upper left"
                                             : "lower left to upper right") != NULL);
        break;
    case IFIG_QUESTION_TWO_V:
        check_two_v(question);
        break;
    case IFIG_QUESTION_SPECIES:
        check_species(question);
        break;
    case IFIG_QUESTION_AXIS:
        check_axis(question);
        break;
    case IFIG_QUESTION_KINDS:
        ck_abort_msg("a question of no kind");
    }
    /* Neither the question nor its choices name the stone, but where it is asked for. */
    ck_assert(strstr(question->text, ifig_species_text(question->layer.species, IFIG_TEXT_NAME)) ==
              NULL);
}

static void check_level(const IfigQuestion *question, int level)
{
    const IfigOrientation *const lies = &question->layer.orientation;
    static const double most_tilt[4] = {0, 0, 15, 28};
    ck_assert(lies->tilt_deg >= 0.0 && lies->tilt_deg <= most_tilt[level]);
    ck_assert(level == 3 || lies->view == IFIG_VIEW_C || lies->view == IFIG_VIEW_ACUTE_BISECTRIX);
    ck_assert(level == 3 || question->kind == IFIG_QUESTION_SIGN ||
              question->instrument.plate.material == IFIG_PLATE_NONE);
    ck_assert(level > 1 || question->kind != IFIG_QUESTION_AXIS);
}

static double apart(const uint8_t *a, const uint8_t *b)
{
    double sum = 0.0;
    for (int i = 0; i < 3 * PIXELS * PIXELS; i++) {
        sum += fabs((double)a[i] - (double)b[i]);
    }
    return sum / (3.0 * PIXELS * PIXELS);
}

static void check_pictures(const IfigExercise *exercise)
{
    enum { SIZE = 3 * PIXELS * PIXELS };
    const size_t count = ifig_exercise_count(exercise);
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    uint8_t *const rgb = malloc(count * SIZE);
    ck_assert_ptr_nonnull(rgb);
    options.pixels = PIXELS;
    for (size_t i = 0; i < count; i++) {
        ck_assert(ifig_exercise_picture(exercise, i, &options, rgb + i * SIZE, NULL) == IFIG_OK);
        for (size_t k = 0; k < i; k++) {
            /* Over the square, of which the disc is pi / 4; 2 of 255 is past what a page hides. */
            ck_assert_msg(apart(rgb + i * SIZE, rgb + k * SIZE) > 2.0, "%zu and %zu are alike",
                          i + 1, k + 1);
        }
    }
    free(rgb);
}

START_TEST(a_hundred_questions_of_a_level_are_answered_and_no_two_alike)
{
    const int level = _i;
    int kinds[IFIG_QUESTION_KINDS] = {0};
    IfigExercise *exercise = make("uniaxial,biaxial", 100, level, 20);
    for (size_t i = 0; i < 100; i++) {
        const IfigQuestion *const question = ifig_exercise_at(exercise, i);
        check_answer(question);
        check_level(question, level);
        kinds[question->kind]++;
    }
    for (int i = 0; i < IFIG_QUESTION_KINDS; i++) {
        const int is_asked = level > 1 || i != IFIG_QUESTION_AXIS;
        ck_assert_msg(is_asked ? kinds[i] >= 15 : kinds[i] == 0, "kind %d: %d", i, kinds[i]);
    }
    check_pictures(exercise);
    ifig_exercise_free(exercise);
}
END_TEST

START_TEST(a_seed_means_one_set)
{
    IfigExercise *one = make("common", 10, 2, 7), *same = make("common", 10, 2, 7),
                 *other = make("common", 10, 2, 8);
    int differ = 0;
    for (size_t i = 0; i < 10; i++) {
        const IfigQuestion *const a = ifig_exercise_at(one, i), *b = ifig_exercise_at(same, i),
                                  *c = ifig_exercise_at(other, i);
        ck_assert_str_eq(a->text, b->text);
        ck_assert_str_eq(a->answer, b->answer);
        ck_assert_str_eq(a->reading, b->reading);
        ck_assert_ptr_eq(a->layer.species, b->layer.species);
        differ += strcmp(a->reading, c->reading) != 0;
    }
    ck_assert_int_ge(differ, 9);
    ck_assert_ptr_null(ifig_exercise_at(one, 10));
    ifig_exercise_free(one);
    ifig_exercise_free(same);
    ifig_exercise_free(other);
}
END_TEST

START_TEST(the_common_stones_are_of_the_catalogue_and_of_both_characters_and_signs)
{
    int seen[4] = {0};
    for (size_t i = 0; ifig_exercise_common(i) != NULL; i++) {
        const IfigSpecies *species;
        IfigSpeciesFacts facts;
        ck_assert(ifig_catalogue_find(catalogue, ifig_exercise_common(i), &species, NULL) ==
                  IFIG_OK);
        ck_assert_str_eq(ifig_species_text(species, IFIG_TEXT_KEY), ifig_exercise_common(i));
        ck_assert(ifig_species_facts(species, &facts, NULL) == IFIG_OK);
        seen[(facts.character == IFIG_BIAXIAL) * 2 + (facts.optic_sign > 0)]++;
    }
    for (int i = 0; i < 4; i++) {
        ck_assert_int_ge(seen[i], 3);
    }
}
END_TEST

static IfigStatus list_status(const char *list, size_t *count)
{
    return ifig_exercise_species(catalogue, list, stones, count, NULL);
}

START_TEST(a_list_takes_names_varieties_and_groups_and_counts_each_stone_once)
{
    size_t count;
    ck_assert(list_status(" ruby , corundum,Quartz,rock crystal", &count) == IFIG_OK);
    ck_assert_uint_eq(count, 2);
    ck_assert(list_status("common,quartz", &count) == IFIG_OK);
    ck_assert_uint_eq(count, 17);
    ck_assert(list_status("quartz,", &count) == IFIG_ERROR_SYNTAX);
    ck_assert(list_status("", &count) == IFIG_ERROR_SYNTAX);
    ck_assert(list_status("quarz", &count) == IFIG_ERROR_NOT_FOUND);
    ck_assert(list_status("spinel", &count) == IFIG_ERROR_UNSUITABLE);
    ck_assert(list_status("chalcedony", &count) == IFIG_ERROR_UNSUITABLE);
    ck_assert_uint_eq(count, 0);
    ck_assert(list_status(NULL, &count) == IFIG_ERROR_ARGUMENT);
}
END_TEST

static int never(double share, void *context)
{
    (void)share;
    (void)context;
    return 0;
}

START_TEST(what_cannot_be_made_is_refused)
{
    IfigExerciseOptions options = IFIG_EXERCISE_OPTIONS_INIT;
    IfigExercise *exercise;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert(ifig_exercise_species(catalogue, "quartz", stones, &options.species_count, NULL) ==
              IFIG_OK);
    options.species = stones;
    options.count = 0;
    ck_assert(ifig_exercise_create(&options, &exercise, NULL) == IFIG_ERROR_RANGE);
    options.count = 101;
    ck_assert(ifig_exercise_create(&options, &exercise, NULL) == IFIG_ERROR_RANGE);
    options.count = 60;
    options.level = 4;
    ck_assert(ifig_exercise_create(&options, &exercise, NULL) == IFIG_ERROR_RANGE);
    options.level = 1;
    ck_assert(ifig_exercise_create(&options, &exercise, &error) == IFIG_ERROR_UNSUITABLE);
    ck_assert_ptr_null(exercise);
    ck_assert(strstr(error.message, "list of 1 stone") != NULL);
    options.progress = never;
    ck_assert(ifig_exercise_create(&options, &exercise, NULL) == IFIG_ERROR_CANCELLED);
    options.species_count = 0;
    ck_assert(ifig_exercise_create(&options, &exercise, NULL) == IFIG_ERROR_RANGE);
    options.size = 1;
    ck_assert(ifig_exercise_create(&options, &exercise, NULL) == IFIG_ERROR_ARGUMENT);
    ck_assert(ifig_exercise_create(NULL, &exercise, NULL) == IFIG_ERROR_ARGUMENT);
    ck_assert_uint_eq(ifig_exercise_count(NULL), 0);
    ifig_exercise_free(NULL);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("facts");
    tcase_add_checked_fixture(facts, open_catalogue, close_catalogue);
    tcase_add_loop_test(facts, a_hundred_questions_of_a_level_are_answered_and_no_two_alike, 1, 4);
    tcase_add_test(facts, a_seed_means_one_set);
    tcase_add_test(facts, the_common_stones_are_of_the_catalogue_and_of_both_characters_and_signs);
    tcase_add_test(facts, a_list_takes_names_varieties_and_groups_and_counts_each_stone_once);
    tcase_add_test(facts, what_cannot_be_made_is_refused);
    return run_case(facts, "exercise");
}
