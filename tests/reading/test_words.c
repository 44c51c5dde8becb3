/* SPDX-License-Identifier: MIT */
/* Words: true of the numbers, for every stone; and what is refused. */
#include <stdio.h>

#include "reading_test.h"

typedef struct Words {
    char text[IFIG_READING_TEXT_MAX];
} Words;

static Words words_of(const IfigReading *reading)
{
    Words words;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_reading_describe(reading, words.text, sizeof words.text, &error) == IFIG_OK,
                  "%s", error.message);
    return words;
}

static int says(const Words *words, const char *phrase)
{
    return strstr(words->text, phrase) != NULL;
}

static void check_words(const char *key, const IfigReading *reading)
{
    const Words words = words_of(reading);
    const int is_doubly = reading->character != IFIG_ISOTROPIC;
    const int is_biaxial = reading->character == IFIG_BIAXIAL;
    ck_assert_msg(says(&words, "A figure is evidence, not an identification"), "%s", key);
    ck_assert_int_eq(says(&words, "Doubly refractive"), is_doubly);
    ck_assert_int_eq(says(&words, "Singly refractive"), !is_doubly);
    ck_assert_int_eq(says(&words, "axial positive"), is_doubly && reading->optic_sign > 0);
    ck_assert_int_eq(says(&words, "axial negative"), is_doubly && reading->optic_sign < 0);
    ck_assert_int_eq(says(&words, "2V"), is_biaxial);
    ck_assert_int_eq(says(&words, "r > v"),
                     reading->dispersion == IFIG_AXIAL_DISPERSION_RED_LARGER);
    ck_assert_int_eq(says(&words, "r < v"),
                     reading->dispersion == IFIG_AXIAL_DISPERSION_VIOLET_LARGER);
    ck_assert_int_eq(says(&words, "Bull's eye"), reading->bulls_eye);
    ck_assert_int_eq(says(&words, "NE rises"),
                     reading->plate[IFIG_QUADRANT_NE] == IFIG_PLATE_RISES);
    ck_assert_int_eq(says(&words, "NE falls"),
                     reading->plate[IFIG_QUADRANT_NE] == IFIG_PLATE_FALLS);
    ck_assert_msg(!says(&words, "nan") && !says(&words, "inf ") && !says(&words, "{"), "%s: %s",
                  key, words.text);
}

START_TEST(every_stone_of_the_catalogue_is_read_and_told)
{
    IfigCatalogue *catalogue = NULL;
    size_t read = 0;
    ck_assert_int_eq(ifig_catalogue_create(&catalogue, NULL), IFIG_OK);
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const IfigSpecies *species = ifig_catalogue_at(catalogue, i);
        IfigSpeciesFacts facts;
        ck_assert_int_eq(ifig_species_facts(species, &facts, NULL), IFIG_OK);
        for (int stage = 0; stage <= 45 && facts.character != IFIG_AGGREGATE; stage += 45) {
            Bench bench;
            set_bench(&bench, species, IFIG_VIEW_DEFAULT, 1, stage);
            IfigReading reading = reading_of(&bench);
            check_words(ifig_species_text(species, IFIG_TEXT_KEY), &reading);
            ck_assert_int_eq(reading.optic_sign, facts.optic_sign);
            read++;
            clear_bench(&bench);
        }
    }
    ck_assert_uint_gt(read, 250);
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(only_rotation_makes_a_bulls_eye)
{
    /* Quartz along its axis: no dark cross at the centre (check value H14, common practice, from
     * memory; E9). A stone of quartz's indices without rotation, and a plate too thin to turn the
     * plane by 6 degrees (21.7 degrees a millimetre, CRC Handbook), show the whole cross. */
    Bench bench;
    IfigSpecies *plain = uniaxial_stone(1.5442, 1.5533);
    set_bench(&bench, builtin("quartz"), IFIG_VIEW_C, 3, 0);
    IfigReading reading = reading_of(&bench);
    ck_assert(reading.bulls_eye);
    ck_assert_mem_eq(reading.eye_srgb, reading.centre_srgb, sizeof reading.eye_srgb);
    Words words = words_of(&reading);
    ck_assert(says(&words, ifig_colour_text(reading.eye_colour)));
    bench.layer.thickness_mm = 0.25;
    ck_assert(!reading_of(&bench).bulls_eye);
    bench.layer.thickness_mm = 3;
    bench.layer.orientation.view = IFIG_VIEW_X;
    ck_assert(!reading_of(&bench).bulls_eye);
    clear_bench(&bench);
    set_bench(&bench, plain, IFIG_VIEW_C, 3, 0);
    reading = reading_of(&bench);
    ck_assert(!reading.bulls_eye);
    ck_assert_str_eq(ifig_colour_text(reading.centre_colour), "black");
    clear_bench(&bench);
    ifig_species_free(plain);
}
END_TEST

START_TEST(spinel_is_dark_with_a_faint_cross)
{
    Bench bench;
    set_bench(&bench, builtin("spinel"), IFIG_VIEW_DEFAULT, 3, 0);
    IfigReading reading = reading_of(&bench);
    Words words = words_of(&reading);
    ck_assert(says(&words, "dark at every turn of the stage") && says(&words, "cross"));
    ck_assert_uint_eq(reading.melatope_count, 0);
    /* The faint cross is there: along a polar it is darker than between the polars. */
    float(*xyz)[3] = picture_of(&bench);
    ck_assert_double_lt(brightness_at(xyz, 0.95, 0), 0.1 * brightness_at(xyz, 0.67, 0.67));
    ck_assert_double_lt(brightness_at(xyz, 0.67, 0.67), 0.2);
    free(xyz);
    clear_bench(&bench);
}
END_TEST

START_TEST(stacks_stress_and_foreign_sizes_are_refused)
{
    Bench bench;
    IfigLayer pair[2];
    IfigReading reading = IFIG_READING_INIT;
    IfigError error = IFIG_ERROR_INIT;
    set_bench(&bench, builtin("quartz"), IFIG_VIEW_C, 3, 0);
    pair[0] = pair[1] = bench.layer;
    bench.scene.layers = pair;
    bench.scene.layer_count = 2;
    ck_assert_int_eq(ifig_reading(&bench.scene, &reading, &error), IFIG_ERROR_UNSUITABLE);
    ck_assert_ptr_nonnull(strstr(error.message, "2 layers"));
    bench.scene.layer_count = 1;
    reading.size--;
    ck_assert_int_eq(ifig_reading(&bench.scene, &reading, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_reading(NULL, &reading, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_reading(&bench.scene, NULL, NULL), IFIG_ERROR_ARGUMENT);
    reading.size++;
    pair[0].stress_mpa = 50;
    ck_assert_int_eq(ifig_reading(&bench.scene, &reading, &error), IFIG_ERROR_UNSUITABLE);
    ck_assert_ptr_nonnull(strstr(error.message, "50 MPa"));
    pair[0].stress_mpa = 0;
    pair[0].thickness_mm = -1;
    ck_assert_int_eq(ifig_reading(&bench.scene, &reading, &error), IFIG_ERROR_RANGE);
    pair[0] = bench.layer;
    pair[0].orientation.view = IFIG_VIEW_ACUTE_BISECTRIX;
    ck_assert_int_eq(ifig_reading(&bench.scene, &reading, &error), IFIG_ERROR_UNSUITABLE);
    clear_bench(&bench);
}
END_TEST

START_TEST(too_little_room_for_the_words_is_told_with_how_much_it_takes)
{
    Bench bench;
    char small[100];
    IfigError error = IFIG_ERROR_INIT;
    set_bench(&bench, builtin("topaz_f"), IFIG_VIEW_ACUTE_BISECTRIX, 1, 45);
    IfigReading reading = reading_of(&bench);
    Words words = words_of(&reading);
    ck_assert_int_eq(ifig_reading_describe(&reading, small, sizeof small, &error),
                     IFIG_ERROR_RANGE);
    char needed[16];
    snprintf(needed, sizeof needed, "%zu", strlen(words.text) + 1);
    ck_assert_ptr_nonnull(strstr(error.message, needed));
    ck_assert_uint_lt(strlen(small), sizeof small);
    ck_assert_int_eq(ifig_reading_describe(&reading, words.text, 0, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_reading_describe(NULL, words.text, sizeof words.text, NULL),
                     IFIG_ERROR_ARGUMENT);
    clear_bench(&bench);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("words");
    tcase_add_test(facts, every_stone_of_the_catalogue_is_read_and_told);
    tcase_add_test(facts, only_rotation_makes_a_bulls_eye);
    tcase_add_test(facts, spinel_is_dark_with_a_faint_cross);
    tcase_add_test(facts, stacks_stress_and_foreign_sizes_are_refused);
    tcase_add_test(facts, too_little_room_for_the_words_is_told_with_how_much_it_takes);
    return run_case(facts, "words of readings");
}
