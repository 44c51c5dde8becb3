/* SPDX-License-Identifier: MIT */
/* A catalogue narrowed down. */
#include <stdio.h>

#include "advice_test.h"

enum { MOST_SEEN = 12 };

static IfigNarrowing *narrow_by(const IfigObservation *observed, size_t count)
{
    IfigNarrowing *narrowing = NULL;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_narrow(catalogue, observed, count, NULL, STONE_MM, &narrowing, &error) ==
                      IFIG_OK,
                  "%s", error.message);
    return narrowing;
}

static size_t read_all(const char *const *texts, IfigObservation *observed)
{
    size_t count = 0;
    for (; texts[count] != NULL; count++) {
        observed[count] = seen(texts[count]);
    }
    return count;
}

static IfigNarrowing *narrow(const char *const *texts)
{
    IfigObservation observed[MOST_SEEN];
    return narrow_by(observed, read_all(texts, observed));
}

static int holds(const IfigNarrowing *narrowing, const char *key)
{
    for (size_t i = 0; i < ifig_narrowing_count(narrowing); i++) {
        const IfigSpecies *species = ifig_narrowing_at(narrowing, i);
        if (strcmp(ifig_species_text(species, IFIG_TEXT_KEY), key) == 0) {
            return 1;
        }
    }
    return 0;
}

START_TEST(no_observation_keeps_all_and_excludes_none)
{
    IfigNarrowing *narrowing = narrow_by(NULL, 0);
    ck_assert_uint_eq(ifig_narrowing_count(narrowing), ifig_catalogue_count(catalogue));
    ck_assert_uint_eq(ifig_narrowing_near_count(narrowing), 0);
    ifig_narrowing_free(narrowing);
}
END_TEST

/* Every clue of a species, read off its own traits: any of its words, or both ends of its range. */
static IfigObservation own_observation(const IfigTraits *traits, IfigClue clue, int *is_known)
{
    IfigObservation own = {.clue = clue, .low = NAN, .high = NAN, .value = NAN};
    if (ifig_clue_has_number(clue)) {
        /* Leucite, uniaxial by its indices, stays dark: what stays dark shows no 2V. */
        const int is_dark = (traits->reactions & 1u << IFIG_REACTION_DR) == 0;
        *is_known = ifig_trait_range(traits, clue, &own.low, &own.high) == 1 &&
                    !(clue == IFIG_CLUE_TWO_V && is_dark);
        return own;
    }
    own.words = ifig_trait_words(traits, clue);
    *is_known = own.words != 0;
    return own;
}

START_TEST(a_species_fits_what_is_read_off_its_own_traits)
{
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const IfigStone one = {.species = ifig_catalogue_at(catalogue, i)};
        const IfigTraits traits = traits_of_stone(one);
        IfigObservation observed[IFIG_CLUE_COUNT];
        size_t count = 0;
        for (int clue = 0; clue < IFIG_CLUE_COUNT; clue++) {
            int is_known;
            observed[count] = own_observation(&traits, (IfigClue)clue, &is_known);
            count += is_known ? 1 : 0;
        }
        IfigNarrowing *narrowing = narrow_by(observed, count);
        ck_assert(holds(narrowing, ifig_species_text(one.species, IFIG_TEXT_KEY)));
        ifig_narrowing_free(narrowing);
    }
}
END_TEST

START_TEST(a_species_fits_each_of_its_words_and_the_ends_of_its_ranges)
{
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const IfigStone one = {.species = ifig_catalogue_at(catalogue, i)};
        const IfigTraits traits = traits_of_stone(one);
        for (int clue = 0; clue < IFIG_CLUE_COUNT; clue++) {
            int is_known;
            double missed;
            const IfigObservation own = own_observation(&traits, (IfigClue)clue, &is_known);
            for (unsigned bit = 1; is_known && bit <= own.words; bit <<= 1) {
                IfigObservation word = own;
                word.words = bit;
                ck_assert_int_eq(ifig_observation_fits(&word, &traits, &missed),
                                 (own.words & bit) != 0);
            }
            for (int end = 0; is_known && own.words == 0 && end < 2; end++) {
                IfigObservation number = own;
                number.value = number.low = number.high = end == 0 ? own.low : own.high;
                ck_assert_int_eq(ifig_observation_fits(&number, &traits, &missed), 1);
            }
        }
    }
}
END_TEST

START_TEST(one_more_observation_never_adds_a_species)
{
    static const char *const texts[] = {
        "reaction=DR", "index=1.54-1.56", "character=uniaxial", "birefringence=0.009",
        "sign=+",      "bulls-eye=yes",   "colour=purple",      NULL};
    IfigObservation observed[MOST_SEEN];
    const size_t count = read_all(texts, observed);
    for (size_t used = 1; used <= count; used++) {
        IfigNarrowing *fewer = narrow_by(observed, used - 1), *more = narrow_by(observed, used);
        ck_assert_uint_le(ifig_narrowing_count(more), ifig_narrowing_count(fewer));
        for (size_t i = 0; i < ifig_narrowing_count(more); i++) {
            const IfigSpecies *species = ifig_narrowing_at(more, i);
            ck_assert(holds(fewer, ifig_species_text(species, IFIG_TEXT_KEY)));
        }
        ifig_narrowing_free(fewer);
        ifig_narrowing_free(more);
    }
}
END_TEST

START_TEST(what_a_dark_stone_excludes)
{
    IfigNarrowing *dark = narrow((const char *const[]){"reaction=SR", NULL});
    IfigNarrowing *strained = narrow((const char *const[]){"reaction=ADR", NULL});
    ck_assert(holds(dark, "spinel") && holds(dark, "diamond") && holds(dark, "zircon_low"));
    ck_assert(!holds(dark, "quartz") && !holds(dark, "chalcedony"));
    ck_assert(holds(strained, "glass") && !holds(strained, "spinel") && !holds(strained, "ggg"));
    ifig_narrowing_free(strained);
    ifig_narrowing_free(dark);
}
END_TEST

START_TEST(a_small_angle_is_not_told_from_none)
{
    IfigNarrowing *cross = narrow((const char *const[]){"character=uniaxial", NULL});
    IfigNarrowing *small = narrow((const char *const[]){"two-v=3", NULL});
    IfigNarrowing *large = narrow((const char *const[]){"two-v=40-60", NULL});
    ck_assert(holds(cross, "phlogopite") && !holds(cross, "topaz_f"));
    ck_assert(holds(small, "quartz") && holds(small, "niter"));
    ck_assert(!holds(large, "quartz") && !holds(large, "spinel") && holds(large, "topaz_f"));
    ifig_narrowing_free(large);
    ifig_narrowing_free(small);
    ifig_narrowing_free(cross);
}
END_TEST

START_TEST(a_missing_bulls_eye_leaves_natural_quartz_and_excludes_the_untwinned)
{
    IfigNarrowing *none = narrow((const char *const[]){"bulls-eye=no", NULL});
    IfigNarrowing *eye = narrow((const char *const[]){"bulls-eye=yes", NULL});
    ck_assert(holds(none, "quartz") && holds(none, "corundum") && !holds(none, "quartz_synthetic"));
    ck_assert(holds(eye, "quartz") && holds(eye, "quartz_synthetic") && !holds(eye, "corundum"));
    ifig_narrowing_free(eye);
    ifig_narrowing_free(none);
}
END_TEST

START_TEST(two_edges_far_apart_are_not_overlooked)
{
    /* 1.486 and 1.658 hold 1.54-1.55 between them, but would part by 0.172. */
    IfigNarrowing *edges = narrow((const char *const[]){"index=1.54-1.55", NULL});
    IfigNarrowing *one = narrow((const char *const[]){"index=1.545", NULL});
    ck_assert(!holds(edges, "calcite") && holds(edges, "quartz") && holds(one, "calcite"));
    ifig_narrowing_free(one);
    ifig_narrowing_free(edges);
}
END_TEST

START_TEST(near_misses_are_excluded_by_one_observation_and_stand_nearest_first)
{
    IfigNarrowing *narrowing =
        narrow((const char *const[]){"reaction=DR", "character=uniaxial", "index=1.544", NULL});
    double before = 0.0;
    int has_emerald = 0;
    for (size_t i = 0; i < ifig_narrowing_near_count(narrowing); i++) {
        IfigClue clue;
        double missed;
        const IfigSpecies *species = ifig_narrowing_near_at(narrowing, i, &clue, &missed);
        const char *key = ifig_species_text(species, IFIG_TEXT_KEY);
        ck_assert(!holds(narrowing, key));
        const double distance = clue == IFIG_CLUE_INDEX ? missed / 0.003 : 2.0;
        ck_assert_double_ge(distance, before);
        before = distance;
        if (strcmp(key, "emerald_synthetic_flux") == 0) {
            ck_assert_int_eq(clue, IFIG_CLUE_INDEX);
            ck_assert_double_eq_tol(missed, 1.558 - 1.547, 1e-9);
            has_emerald = 1;
        }
    }
    ck_assert(has_emerald);
    ck_assert_ptr_null(
        ifig_narrowing_near_at(narrowing, ifig_narrowing_near_count(narrowing), NULL, NULL));
    ifig_narrowing_free(narrowing);
}
END_TEST

typedef struct Pair {
    const char *a, *b;
} Pair;

START_TEST(what_no_stone_shows_is_refused_and_both_are_named)
{
    static const Pair pairs[] = {{"reaction=SR", "character=uniaxial"},
                                 {"reaction=SR", "character=biaxial"},
                                 {"reaction=DR", "character=isotropic"},
                                 {"reaction=ADR", "character=biaxial"},
                                 {"sign=+", "character=isotropic"},
                                 {"sign=none", "character=uniaxial"},
                                 {"two-v=60", "character=uniaxial"},
                                 {"two-v=60", "reaction=SR"},
                                 {"bulls-eye=yes", "character=biaxial"},
                                 {"bulls-eye=yes", "reaction=SR"},
                                 {"index=1.54-1.545", "birefringence=0.02"},
                                 {"reaction=DR", "reaction=SR"},
                                 {"two-v=10", "two-v=80"},
                                 {"birefringence=0.009", "reaction=SR"},
                                 {"birefringence=0.01", "birefringence=0.1"},
                                 {"sign=+", "sign=-"},
                                 {"rings=4", "reaction=SR"}};
    for (size_t i = 0; i < 2 * sizeof pairs / sizeof *pairs; i++) {
        const char *a = pairs[i / 2].a, *b = pairs[i / 2].b;
        const IfigObservation observed[2] = {seen(i % 2 ? a : b), seen(i % 2 ? b : a)};
        IfigNarrowing *narrowing = NULL;
        IfigError error = IFIG_ERROR_INIT;
        ck_assert_msg(ifig_narrow(catalogue, observed, 2, NULL, STONE_MM, &narrowing, &error) ==
                          IFIG_ERROR_SYNTAX,
                      "%s %s", a, b);
        ck_assert_ptr_null(narrowing);
        assert_says(error.message, a);
        assert_says(error.message, b);
    }
}
END_TEST

START_TEST(what_a_stone_may_show_is_not_refused)
{
    static const Pair pairs[] = {{"reaction=AGG", "character=uniaxial"},
                                 {"reaction=AGG", "character=isotropic"},
                                 {"reaction=SR/DR", "character=uniaxial"},
                                 {"two-v=3", "character=uniaxial"},
                                 {"index=1.544", "index=1.553"},
                                 {"colour=red", "colour=green"},
                                 {"index=1.54", "birefringence=0.02"},
                                 {"bulls-eye=no", "reaction=SR"},
                                 {"birefringence=0.001", "reaction=SR"},
                                 {"sign=none", "reaction=SR"},
                                 {"rings=0", "reaction=SR"},
                                 {"two-v=55", "two-v=65"}};
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
        const IfigObservation observed[2] = {seen(pairs[i].a), seen(pairs[i].b)};
        ifig_narrowing_free(narrow_by(observed, 2));
    }
}
END_TEST

START_TEST(what_the_catalogue_has_not_leaves_none_but_near_misses)
{
    IfigNarrowing *narrowing =
        narrow((const char *const[]){"reaction=DR", "bulls-eye=yes", "index=1.70", NULL});
    char text[4096];
    ck_assert_uint_eq(ifig_narrowing_count(narrowing), 0);
    ck_assert_uint_gt(ifig_narrowing_near_count(narrowing), 0);
    ck_assert_int_eq(ifig_narrowing_next(narrowing, 0, NULL, NULL), 0);
    ck_assert_int_eq(ifig_narrowing_describe(narrowing, text, sizeof text, NULL), IFIG_OK);
    assert_says(text, "None of the 164 species");
    ifig_narrowing_free(narrowing);
}
END_TEST

START_TEST(of_many_that_fit_twelve_are_named_and_the_others_counted)
{
    static const struct {
        const char *const seen[4];
        int are_all_named;
    } cases[] = {{{"reaction=DR", "index=1.54-1.55", NULL}, 0},
                 {{"character=uniaxial", "sign=+", "birefringence=0.047", NULL}, 1}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[4096], expected[128];
        IfigNarrowing *narrowing = narrow(cases[i].seen);
        const size_t count = ifig_narrowing_count(narrowing);
        ck_assert_int_eq(ifig_narrowing_describe(narrowing, text, sizeof text, NULL), IFIG_OK);
        ck_assert_int_eq(count <= 12, cases[i].are_all_named);
        snprintf(expected, sizeof expected, "%zu of the 164 species of this catalogue fit.", count);
        assert_says(text, expected);
        snprintf(expected, sizeof expected, " and %zu more.", count - 12);
        ck_assert_int_eq(strstr(text, expected) != NULL, !cases[i].are_all_named);
        assert_says(text, "Most telling next: ");
        ifig_narrowing_free(narrowing);
    }
}
END_TEST

START_TEST(next_observations_come_most_telling_first_and_not_those_made)
{
    IfigNarrowing *narrowing =
        narrow((const char *const[]){"reaction=DR", "index=1.54-1.55", NULL});
    IfigClue clue;
    double bits, before = 100.0;
    size_t count = 0;
    for (; ifig_narrowing_next(narrowing, count, &clue, &bits); count++) {
        ck_assert(clue != IFIG_CLUE_REACTION && clue != IFIG_CLUE_INDEX);
        ck_assert_double_le(bits, before);
        ck_assert_double_le(bits, log2((double)ifig_narrowing_count(narrowing)));
        before = bits;
    }
    ck_assert_uint_ge(count, 3);
    ifig_narrowing_free(narrowing);
}
END_TEST

START_TEST(a_single_species_is_no_answer)
{
    char text[4096];
    IfigNarrowing *narrowing = narrow((const char *const[]){"reaction=DR", "character=uniaxial",
                                                            "sign=+", "birefringence=0.047", NULL});
    ck_assert_uint_eq(ifig_narrowing_count(narrowing), 2);
    ifig_narrowing_free(narrowing);
    narrowing = narrow((const char *const[]){"reaction=DR", "character=uniaxial", "sign=+",
                                             "birefringence=0.047", "index=1.757-1.804", NULL});
    ck_assert_uint_eq(ifig_narrowing_count(narrowing), 1);
    ck_assert(holds(narrowing, "benitoite"));
    ck_assert_int_eq(ifig_narrowing_describe(narrowing, text, sizeof text, NULL), IFIG_OK);
    assert_says(text,
                "One of the 164 species of this catalogue fits, benitoite; others, treated or "
                "composite stones may fit as well.");
    assert_says(text,
                "Confirm by what was not observed yet: 2V, count of rings, bull's eye or body "
                "colour.");
    assert_says(text, "evidence, not an identification");
    ifig_narrowing_free(narrowing);
}
END_TEST

START_TEST(a_users_own_species_takes_part)
{
    IfigSpecies *made = NULL;
    ck_assert_int_eq(ifig_species_from_indices((const double[]){1.30, 1.45}, 2, 0, &made, NULL),
                     IFIG_OK);
    ck_assert_int_eq(ifig_catalogue_add(catalogue, made, NULL), IFIG_OK);
    IfigNarrowing *narrowing =
        narrow((const char *const[]){"birefringence=0.15", "sign=+", "colour=red", NULL});
    ck_assert(holds(narrowing, "measured")); /* its colours are not known */
    ifig_narrowing_free(narrowing);
}
END_TEST

START_TEST(bad_arguments_are_refused)
{
    IfigNarrowing *narrowing = NULL;
    const IfigObservation empty = {.clue = IFIG_CLUE_REACTION};
    const IfigObservation turned = {.clue = IFIG_CLUE_INDEX, .low = 2, .high = 1};
    const IfigObservation foreign = {.clue = (IfigClue)99, .words = 1};
    ck_assert_int_eq(ifig_narrow(NULL, NULL, 0, NULL, 3, &narrowing, NULL), IFIG_ERROR_ARGUMENT);
    const IfigObservation *bad[] = {NULL, &empty, &turned, &foreign};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        ck_assert_int_eq(ifig_narrow(catalogue, bad[i], 1, NULL, 3, &narrowing, NULL),
                         IFIG_ERROR_ARGUMENT);
    }
    ck_assert_int_eq(ifig_narrow(catalogue, NULL, 0, NULL, 0, &narrowing, NULL), IFIG_ERROR_RANGE);
    ck_assert_ptr_null(narrowing);
    ifig_narrowing_free(NULL);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("narrow");
    tcase_add_checked_fixture(facts, open_catalogue, close_catalogue);
    tcase_add_test(facts, no_observation_keeps_all_and_excludes_none);
    tcase_add_test(facts, a_species_fits_what_is_read_off_its_own_traits);
    tcase_add_test(facts, a_species_fits_each_of_its_words_and_the_ends_of_its_ranges);
    tcase_add_test(facts, one_more_observation_never_adds_a_species);
    tcase_add_test(facts, what_a_dark_stone_excludes);
    tcase_add_test(facts, a_small_angle_is_not_told_from_none);
    tcase_add_test(facts, a_missing_bulls_eye_leaves_natural_quartz_and_excludes_the_untwinned);
    tcase_add_test(facts, two_edges_far_apart_are_not_overlooked);
    tcase_add_test(facts, near_misses_are_excluded_by_one_observation_and_stand_nearest_first);
    tcase_add_test(facts, what_no_stone_shows_is_refused_and_both_are_named);
    tcase_add_test(facts, what_a_stone_may_show_is_not_refused);
    tcase_add_test(facts, what_the_catalogue_has_not_leaves_none_but_near_misses);
    tcase_add_test(facts, of_many_that_fit_twelve_are_named_and_the_others_counted);
    tcase_add_test(facts, next_observations_come_most_telling_first_and_not_those_made);
    tcase_add_test(facts, a_single_species_is_no_answer);
    tcase_add_test(facts, a_users_own_species_takes_part);
    tcase_add_test(facts, bad_arguments_are_refused);
    return run_case(facts, "narrow");
}
