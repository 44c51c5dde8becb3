/* SPDX-License-Identifier: MIT */
/* Expected information, held to examples counted by hand. */
#include "advice_test.h"

#define BIT(n) (1u << (n))

static const double BITS = 1e-12;

static double bits_of(const IfigTraits *traits, size_t count, IfigClue clue)
{
    const IfigTraits *list[8];
    for (size_t i = 0; i < count; i++) {
        list[i] = &traits[i];
    }
    return ifig_expected_bits(list, count, clue, NULL, 0);
}

START_TEST(two_stones_that_react_unlike_give_one_bit)
{
    const IfigTraits two[2] = {{.reactions = BIT(IFIG_REACTION_SR)},
                               {.reactions = BIT(IFIG_REACTION_DR)}};
    ck_assert_double_eq_tol(bits_of(two, 2, IFIG_CLUE_REACTION), 1.0, BITS);
}
END_TEST

START_TEST(two_stones_alike_give_none)
{
    const IfigTraits two[2] = {{.signs = IFIG_SIGN_POSITIVE}, {.signs = IFIG_SIGN_POSITIVE}};
    const IfigTraits either[2] = {{.signs = 3}, {.signs = 3}};
    ck_assert_double_eq_tol(bits_of(two, 2, IFIG_CLUE_SIGN), 0.0, BITS);
    ck_assert_double_eq_tol(bits_of(either, 2, IFIG_CLUE_SIGN), 0.0, BITS);
}
END_TEST

/* One against two: H(1/3) = log2(3) - 2/3. */
START_TEST(one_of_three_apart_gives_the_entropy_of_a_third)
{
    const IfigTraits three[3] = {{.signs = IFIG_SIGN_POSITIVE},
                                 {.signs = IFIG_SIGN_NEGATIVE},
                                 {.signs = IFIG_SIGN_NEGATIVE}};
    ck_assert_double_eq_tol(bits_of(three, 3, IFIG_CLUE_SIGN), log2(3.0) - 2.0 / 3.0, BITS);
}
END_TEST

START_TEST(three_stones_in_three_bins_give_log2_of_three)
{
    const IfigTraits three[3] = {{.n_low = 1.512, .n_high = 1.514},
                                 {.n_low = 1.544, .n_high = 1.544},
                                 {.n_low = 1.760, .n_high = 1.768}};
    ck_assert_double_eq_tol(bits_of(three, 3, IFIG_CLUE_INDEX), log2(3.0), BITS);
}
END_TEST

/* 1.50-1.52 and 1.51-1.53 fill two bins of 0.01 each and share one: outcomes 1/4, 1/2, 1/4 carry
 * 1.5 bits, of which 1 is the spread within a species. */
START_TEST(ranges_that_half_overlap_give_half_a_bit)
{
    const IfigTraits two[2] = {{.n_low = 1.50, .n_high = 1.52}, {.n_low = 1.51, .n_high = 1.53}};
    ck_assert_double_eq_tol(bits_of(two, 2, IFIG_CLUE_INDEX), 0.5, 1e-6);
}
END_TEST

/* 60-70 lies in one bin; 65-75 in two halves: outcomes 3/4, 1/4 less the mean of 0 and 1 bit. */
START_TEST(ranges_of_2v_are_read_to_ten_degrees)
{
    const IfigTraits two[2] = {
        {.characters = BIT(IFIG_BIAXIAL), .two_v_low_deg = 60, .two_v_high_deg = 70},
        {.characters = BIT(IFIG_BIAXIAL), .two_v_low_deg = 65, .two_v_high_deg = 75}};
    const double outcome = -(0.75 * log2(0.75) + 0.25 * log2(0.25));
    ck_assert_double_eq_tol(bits_of(two, 2, IFIG_CLUE_TWO_V), outcome - 0.5, 1e-6);
}
END_TEST

START_TEST(more_rings_than_can_be_counted_are_alike)
{
    const IfigTraits two[2] = {{.rings_low = 40, .rings_high = 40},
                               {.rings_low = 300, .rings_high = 310}};
    ck_assert_double_eq_tol(bits_of(two, 2, IFIG_CLUE_RINGS), 0.0, BITS);
}
END_TEST

START_TEST(beyond_the_refractometers_limit_all_stones_are_alike)
{
    const IfigTraits two[2] = {
        {.n_low = 2.41, .n_high = 2.42, .birefringence_high = 0},
        {.n_low = 2.65, .n_high = 2.69, .birefringence_low = 0.04, .birefringence_high = 0.04}};
    ck_assert_double_eq_tol(bits_of(two, 2, IFIG_CLUE_INDEX), 0.0, BITS);
    ck_assert_double_eq_tol(bits_of(two, 2, IFIG_CLUE_BIREFRINGENCE), 0.0, BITS);
}
END_TEST

START_TEST(a_stone_that_stays_dark_or_light_is_not_asked_for_a_figure)
{
    const IfigTraits two[2] = {{.rings_low = 1, .rings_high = 1, .signs = IFIG_SIGN_POSITIVE},
                               {.rings_low = 9, .rings_high = 9, .signs = IFIG_SIGN_NEGATIVE}};
    const IfigTraits *list[2] = {&two[0], &two[1]};
    static const char *const texts[] = {"reaction=SR", "reaction=AGG", "character=isotropic"};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        const IfigObservation dark = seen(texts[i]);
        ck_assert_double_eq(ifig_expected_bits(list, 2, IFIG_CLUE_RINGS, &dark, 1), 0.0);
        ck_assert_double_eq(ifig_expected_bits(list, 2, IFIG_CLUE_SIGN, &dark, 1), 0.0);
    }
    const IfigObservation blink = seen("reaction=DR");
    ck_assert_double_eq_tol(ifig_expected_bits(list, 2, IFIG_CLUE_RINGS, &blink, 1), 1.0, BITS);
}
END_TEST

/* A stone of which no hue is known tells nothing: two of three carry a bit, two thirds in all. */
START_TEST(what_is_not_known_tells_nothing)
{
    const IfigTraits three[3] = {
        {.hues = BIT(IFIG_HUE_RED)}, {.hues = BIT(IFIG_HUE_GREEN)}, {.hues = 0}};
    ck_assert_double_eq_tol(bits_of(three, 3, IFIG_CLUE_COLOUR), 2.0 / 3.0, BITS);
}
END_TEST

START_TEST(what_was_read_tells_nothing_again)
{
    const IfigTraits two[2] = {{.n_low = 1.54, .n_high = 1.55}, {.n_low = 1.52, .n_high = 1.56}};
    const IfigTraits *list[2] = {&two[0], &two[1]};
    const IfigObservation read = seen("index=1.545"), wide = seen("index=1.5-1.6");
    ck_assert_double_eq(ifig_expected_bits(list, 2, IFIG_CLUE_INDEX, &read, 1), 0.0);
    ck_assert_double_gt(ifig_expected_bits(list, 2, IFIG_CLUE_INDEX, &wide, 1), 0.1);
    const IfigTraits over[2] = {{.n_low = 1.76, .n_high = 1.83}, {.n_low = 2.4, .n_high = 2.4}};
    const IfigTraits *dense[2] = {&over[0], &over[1]};
    const IfigObservation no_edge = seen("index=over");
    ck_assert_double_eq(ifig_expected_bits(dense, 2, IFIG_CLUE_INDEX, &no_edge, 1), 0.0);
}
END_TEST

/* No observation tells more than which of the candidates it is, nor less than nothing. */
START_TEST(bits_lie_between_nought_and_log2_of_the_candidates)
{
    const size_t count = ifig_catalogue_count(catalogue);
    IfigTraits *traits = calloc(count, sizeof *traits);
    const IfigTraits **list = calloc(count, sizeof *list);
    ck_assert(traits != NULL && list != NULL);
    for (size_t i = 0; i < count; i++) {
        traits[i] = traits_of_stone((IfigStone){.species = ifig_catalogue_at(catalogue, i)});
        list[i] = &traits[i];
    }
    for (size_t used = 1; used <= count; used += 23) {
        for (int clue = 0; clue < IFIG_CLUE_COUNT; clue++) {
            const double bits = ifig_expected_bits(list, used, (IfigClue)clue, NULL, 0);
            ck_assert_double_ge(bits, 0.0);
            ck_assert_double_le(bits, log2((double)used) + BITS);
        }
    }
    free(list);
    free(traits);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("information");
    tcase_add_checked_fixture(facts, open_catalogue, close_catalogue);
    tcase_add_test(facts, two_stones_that_react_unlike_give_one_bit);
    tcase_add_test(facts, two_stones_alike_give_none);
    tcase_add_test(facts, one_of_three_apart_gives_the_entropy_of_a_third);
    tcase_add_test(facts, three_stones_in_three_bins_give_log2_of_three);
    tcase_add_test(facts, ranges_that_half_overlap_give_half_a_bit);
    tcase_add_test(facts, ranges_of_2v_are_read_to_ten_degrees);
    tcase_add_test(facts, more_rings_than_can_be_counted_are_alike);
    tcase_add_test(facts, beyond_the_refractometers_limit_all_stones_are_alike);
    tcase_add_test(facts, a_stone_that_stays_dark_or_light_is_not_asked_for_a_figure);
    tcase_add_test(facts, what_is_not_known_tells_nothing);
    tcase_add_test(facts, what_was_read_tells_nothing_again);
    tcase_add_test(facts, bits_lie_between_nought_and_log2_of_the_candidates);
    return run_case(facts, "information");
}
