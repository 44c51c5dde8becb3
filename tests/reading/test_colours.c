/* SPDX-License-Identifier: MIT */
/* Names of interference colours, against Quincke's scale. */
#include "reading_test.h"

/* Quincke's scale as reprinted in petrographic texts (Iddings, Johannsen, Winchell), from memory,
 * and the words of ours that each of its names covers. */
static const struct {
    double nm;
    const char *name, *covers;
} SCALE[] = {
    {1, "black", "black"},
    {40, "iron grey", "dark grey|grey"},
    {97, "lavender grey", "grey"},
    {158, "greyish blue", "greyish blue"},
    {218, "clearer grey", "light grey|bluish white"},
    {234, "greenish white", "greenish white|white"},
    {259, "almost pure white", "white"},
    {267, "yellowish white", "yellowish white|white"},
    {281, "straw yellow", "yellowish white|pale yellow"},
    {306, "light yellow", "pale yellow|yellowish white"},
    {332, "bright yellow", "yellow|pale yellow"},
    {430, "brownish yellow", "yellow|brown|orange"},
    {505, "reddish orange", "orange|red"},
    {536, "red", "red"},
    {551, "deep red", "dark red|dark purple|purple"},
    {565, "purple", "purple|violet"},
    {575, "violet", "violet"},
    {589, "indigo", "blue|violet"},
    {664, "sky blue", "blue|pale blue"},
    {728, "greenish blue", "blue green|pale blue green"},
    {747, "green", "green|pale green"},
    {826, "lighter green", "pale green|pale yellow green|yellow green"},
    {843, "yellowish green", "yellow green|pale yellow green"},
    {866, "greenish yellow", "yellow green|yellow"},
    {910, "pure yellow", "yellow"},
    {948, "orange", "orange|pale orange"},
    {998, "bright orange-red", "red|orange"},
    {1101, "dark violet-red", "purple|red"},
    {1128, "light bluish violet", "violet"},
    {1151, "indigo", "blue|violet"},
    {1258, "greenish blue", "blue green"},
    {1334, "sea green", "green|blue green"},
    {1376, "brilliant green", "green|yellow green"},
    {1426, "greenish yellow", "yellow|yellow green"},
    {1495, "flesh", "pink|pale orange"},
    {1534, "carmine", "red|pink|purple"},
};
enum { SCALE_ROWS = sizeof SCALE / sizeof *SCALE };

static int covers(int row, const char *word)
{
    const size_t length = strlen(word);
    for (const char *at = SCALE[row].covers; *at != '\0';) {
        size_t here = strcspn(at, "|");
        if (here == length && strncmp(at, word, length) == 0) {
            return 1;
        }
        at += here + (at[here] == '|');
    }
    return 0;
}

/* The centre of a plate at 45 degrees, across its axis, of a retardation alike at all wavelengths.
 */
static IfigReading plate_of(double retardation_nm)
{
    Bench bench;
    IfigSpecies *stone = uniaxial_stone(1.3, 1.301);
    set_bench(&bench, stone, IFIG_VIEW_X, retardation_nm * 1e-3, 45);
    IfigReading reading = reading_of(&bench);
    ck_assert_double_eq_tol(reading.centre_retardation_nm, retardation_nm, 1e-3);
    clear_bench(&bench);
    ifig_species_free(stone);
    return reading;
}

START_TEST(interference_colours_bear_the_names_of_quinckes_scale)
{
    /* Check value D6: within one colour name, that is the row's own or its neighbours'. */
    int exact = 0;
    for (int row = 0; row < SCALE_ROWS; row++) {
        IfigReading reading = plate_of(SCALE[row].nm);
        const char *word = ifig_colour_text(reading.centre_colour);
        int fits = covers(row, word);
        exact += fits;
        fits |= row > 0 && covers(row - 1, word);
        fits |= row + 1 < SCALE_ROWS && covers(row + 1, word);
        ck_assert_msg(fits, "%g nm, %s: %s", SCALE[row].nm, SCALE[row].name, word);
    }
    ck_assert_int_ge(exact, SCALE_ROWS - 3);
}
END_TEST

START_TEST(very_small_retardations_have_no_hue_and_very_large_ones_are_white_of_higher_order)
{
    /* Check values D13 (Quincke, from memory) and D14 (University of Toronto atlas). */
    for (double nm = 1; nm < 100; nm += 7) {
        ck_assert_int_eq(plate_of(nm).centre_colour.hue, IFIG_HUE_NEUTRAL);
    }
    for (double nm = 5000; nm < 60000; nm *= 1.3) {
        ck_assert_str_eq(ifig_colour_text(plate_of(nm).centre_colour), "white of higher order");
    }
}
END_TEST

START_TEST(orders_end_with_the_sensitive_tint)
{
    /* Check value D2: 550, 1100, 1650 nm (551 on charts). */
    for (int order = 1; order <= 3; order++) {
        ck_assert_int_eq(plate_of(551.0 * order - 5).centre_order, order);
        ck_assert_int_eq(plate_of(551.0 * order + 5).centre_order, order + 1);
    }
}
END_TEST

START_TEST(every_colour_of_a_screen_has_a_name)
{
    for (int i = 0; i < 9 * 9 * 9; i++) {
        const double srgb[3] = {i % 9 / 8.0, i / 9 % 9 / 8.0, i / 81 / 8.0};
        ck_assert_ptr_nonnull(ifig_colour_text(ifig_colour_of(srgb, 0)));
        ck_assert_ptr_nonnull(ifig_colour_text(ifig_colour_of(srgb, 1e5)));
    }
    ck_assert_ptr_null(ifig_colour_text((IfigColour){IFIG_HUE_COUNT, IFIG_TONE_FULL}));
    ck_assert_ptr_null(ifig_colour_text((IfigColour){IFIG_HUE_RED, IFIG_TONE_HIGH_ORDER_WHITE}));
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("colours");
    tcase_add_test(facts, interference_colours_bear_the_names_of_quinckes_scale);
    tcase_add_test(
        facts, very_small_retardations_have_no_hue_and_very_large_ones_are_white_of_higher_order);
    tcase_add_test(facts, orders_end_with_the_sensitive_tint);
    tcase_add_test(facts, every_colour_of_a_screen_has_a_name);
    return run_case(facts, "names of colours");
}
