/* SPDX-License-Identifier: MIT */
/* The tests beside the polariscope, in words. */
#include "words.h"

#include "base.h"

#include <math.h>
#include <string.h>

#define BIT(n) (1u << (n))

IfigPhrase ifig_range_words(double low, double high, int decimals)
{
    const double scale = pow(10.0, decimals);
    const IfigNumberText from = ifig_number_text(floor(low * scale + 0.5) / scale + 0.0, 9);
    const IfigNumberText to = ifig_number_text(floor(high * scale + 0.5) / scale + 0.0, 9);
    IfigPhrase phrase = {""};
    if (strcmp(from.text, to.text) == 0) {
        ifig_add_to_phrase(&phrase, from.text, 0, 1, IFIG_ADVISE_OR);
        return phrase;
    }
    return ifig_phrase(IFIG_ADVISE_TO, (const char *[]){from.text, to.text});
}

/* A name that holds more than itself ("Beryl, aquamarine group") is cut at the comma's key. */
IfigPhrase ifig_stone_name(const IfigStone *stone)
{
    IfigPhrase phrase = {""};
    const char *name = stone->body_colour > 0
                           ? ifig_species_colour_name(stone->species, stone->body_colour)
                           : NULL;
    const char *key = name != NULL ? name : ifig_species_text(stone->species, IFIG_TEXT_KEY);
    for (size_t i = 0; key[i] != '\0' && i + 1 < sizeof phrase.text; i++) {
        phrase.text[i] = key[i] == '_' ? ' ' : key[i];
    }
    return phrase;
}

static void say_index(const IfigPair *pair, IfigPage *page)
{
    const IfigTraits *a = pair->a, *b = pair->b;
    const double limit = IFIG_REFRACTOMETER_LIMIT;
    const IfigNumberText said = ifig_number_text(limit, 4);
    const IfigPhrase of_a = ifig_range_words(a->n_low, a->n_high, 3);
    const IfigPhrase of_b = ifig_range_words(b->n_low, b->n_high, 3);
    const char *names[] = {pair->name_a.text, of_a.text, pair->name_b.text, of_b.text};
    const int a_over = a->n_low >= limit, b_over = b->n_low >= limit;
    if (a_over != b_over) {
        ifig_advise(page, IFIG_ADVISE_INDEX_OVER_ONE,
                    (const char *[]){names[a_over ? 0 : 2], names[a_over ? 2 : 0], said.text,
                                     names[a_over ? 3 : 1]});
    } else if (pair->contrast->clue[IFIG_CLUE_INDEX] >= IFIG_SURE_SOMETIMES) {
        const int is_sure = pair->contrast->clue[IFIG_CLUE_INDEX] >= IFIG_SURE_HARD;
        ifig_advise(page, is_sure ? IFIG_ADVISE_INDEX : IFIG_ADVISE_INDEX_MEETS, names);
    }
    if (pair->contrast->clue[IFIG_CLUE_BIREFRINGENCE] >= IFIG_SURE_HARD) {
        const int a_single = a->birefringence_high == 0.0, b_single = b->birefringence_high == 0.0;
        const IfigTraits *two = a_single ? b : a;
        const IfigPhrase gap = ifig_range_words(two->birefringence_low, two->birefringence_high, 3);
        if (a_single || b_single) {
            ifig_advise(
                page, IFIG_ADVISE_EDGES,
                (const char *[]){names[a_single ? 0 : 2], names[a_single ? 2 : 0], gap.text});
        }
    }
}

static void say_birefringence(const IfigPair *pair, IfigPage *page)
{
    const IfigTraits *a = pair->a, *b = pair->b;
    if (pair->contrast->clue[IFIG_CLUE_BIREFRINGENCE] < IFIG_SURE_HARD ||
        a->birefringence_high == 0.0 || b->birefringence_high == 0.0) {
        return;
    }
    const IfigPhrase of_a = ifig_range_words(a->birefringence_low, a->birefringence_high, 3);
    const IfigPhrase of_b = ifig_range_words(b->birefringence_low, b->birefringence_high, 3);
    ifig_advise(page, IFIG_ADVISE_BIREFRINGENCE,
                (const char *[]){pair->name_a.text, of_a.text, pair->name_b.text, of_b.text});
}

static void say_refractometer(const IfigPair *pair, IfigPage *page)
{
    say_index(pair, page);
    say_birefringence(pair, page);
}

static void say_gravity(const IfigPair *pair, IfigPage *page)
{
    const IfigPhrase a = ifig_range_words(pair->a->gravity_low, pair->a->gravity_high, 2);
    const IfigPhrase b = ifig_range_words(pair->b->gravity_low, pair->b->gravity_high, 2);
    const int is_sure = ifig_gravity_sureness(pair->a, pair->b) >= IFIG_SURE_HARD;
    ifig_advise(page, is_sure ? IFIG_ADVISE_GRAVITY : IFIG_ADVISE_GRAVITY_MEETS,
                (const char *[]){pair->name_a.text, a.text, pair->name_b.text, b.text});
}

static const char *spectrum_words(const IfigTraits *traits)
{
    return traits->spectrum[0] != '\0' ? traits->spectrum
                                       : ifig_advice_message(IFIG_ADVISE_SPECTRUM_NONE);
}

static void say_spectrum(const IfigPair *pair, IfigPage *page)
{
    ifig_advise(page, IFIG_ADVISE_SPECTRUM,
                (const char *[]){pair->name_a.text, spectrum_words(pair->a), pair->name_b.text,
                                 spectrum_words(pair->b)});
}

static void say_dichroism(const IfigPair *pair, IfigPage *page)
{
    static const IfigAdvice words[] = {IFIG_ADVISE_PLEOCHROISM_NONE, IFIG_ADVISE_PLEOCHROISM_WEAK,
                                       IFIG_ADVISE_PLEOCHROISM_DISTINCT,
                                       IFIG_ADVISE_PLEOCHROISM_STRONG};
    ifig_advise(
        page, IFIG_ADVISE_DICHROSCOPE,
        (const char *[]){pair->name_a.text, ifig_advice_message(words[pair->a->pleochroism]),
                         pair->name_b.text, ifig_advice_message(words[pair->b->pleochroism])});
}

static int is_moulded(const IfigStone *stone)
{
    return ifig_is_of_nature(stone, "glass") ||
           (ifig_is_of_nature(stone, "simulant") &&
            strcmp(ifig_species_text(stone->species, IFIG_TEXT_CRYSTAL_SYSTEM), "amorphous") == 0);
}

static void say_magnification(const IfigPair *pair, IfigPage *page)
{
    const char *names[] = {pair->name_a.text, pair->name_b.text};
    if (ifig_differs_by_doubling(pair->a, pair->b)) {
        const int is_first = pair->a->birefringence_low > pair->b->birefringence_low;
        ifig_advise(page, IFIG_ADVISE_DOUBLING,
                    (const char *[]){names[is_first ? 0 : 1], names[is_first ? 1 : 0]});
    } else if (is_moulded(pair->first) != is_moulded(pair->second)) {
        ifig_advise(page, IFIG_ADVISE_BUBBLES, is_moulded(pair->first) ? names : names + 1);
    } else {
        ifig_advise(page, IFIG_ADVISE_INCLUSIONS, NULL);
    }
    if (pair->contrast->is_synthetic_pair && pair->a->bulls_eye != 0 && pair->b->bulls_eye != 0) {
        ifig_advise(page, IFIG_ADVISE_BRAZIL, NULL);
    }
}

static void say_thermal(const IfigPair *pair, IfigPage *page)
{
    const char *names[] = {pair->name_a.text, pair->name_b.text};
    const int is_first = pair->a->conducts_heat;
    ifig_advise(page, IFIG_ADVISE_THERMAL,
                (const char *[]){names[is_first ? 0 : 1], names[is_first ? 1 : 0]});
}

static void say_laboratory(const IfigPair *pair, IfigPage *page)
{
    (void)pair;
    ifig_advise(page, IFIG_ADVISE_LABORATORY, NULL);
}

static void say_test(const IfigPair *pair, IfigOtherTest test, IfigPage *page)
{
    typedef void Say(const IfigPair *, IfigPage *);
    static Say *const say[IFIG_TEST_COUNT] = {
        [IFIG_TEST_REFRACTOMETER] = say_refractometer, [IFIG_TEST_SPECIFIC_GRAVITY] = say_gravity,
        [IFIG_TEST_SPECTROSCOPE] = say_spectrum,       [IFIG_TEST_DICHROSCOPE] = say_dichroism,
        [IFIG_TEST_MAGNIFICATION] = say_magnification, [IFIG_TEST_THERMAL] = say_thermal,
        [IFIG_TEST_LABORATORY] = say_laboratory};
    say[test](pair, page);
}

/* What a hand would reach for in vain. */
static void say_vain_tests(const IfigPair *pair, IfigPage *page)
{
    const double limit = IFIG_REFRACTOMETER_LIMIT;
    const char *values[] = {pair->name_a.text, pair->name_b.text, ifig_number_text(limit, 4).text};
    if (pair->a->n_low >= limit && pair->b->n_low >= limit) {
        ifig_advise(page, IFIG_ADVISE_INDEX_OVER_BOTH, values);
    }
    if (pair->a->conducts_heat && pair->b->conducts_heat) {
        ifig_advise(page, IFIG_ADVISE_THERMAL_BOTH, values);
    }
}

void ifig_say_other_tests(const IfigPair *pair, IfigPage *page)
{
    const unsigned tests = pair->contrast->other_tests;
    const IfigOtherTest first = pair->contrast->first_test;
    ifig_advise(page,
                pair->contrast->is_polariscope_blind ? IFIG_ADVISE_FIRST_TEST : IFIG_ADVISE_CONFIRM,
                (const char *[]){ifig_advice_test(first)});
    say_test(pair, first, page);
    for (int i = 0; i < IFIG_TEST_COUNT; i++) {
        if ((tests & BIT(i)) != 0 && (IfigOtherTest)i != first) {
            say_test(pair, (IfigOtherTest)i, page);
        }
    }
    say_vain_tests(pair, page);
}
