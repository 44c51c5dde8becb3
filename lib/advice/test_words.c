/* SPDX-License-Identifier: MIT */
/* The tests beside the polariscope, in words. */
#include "words.h"

#include "base.h"

#include <math.h>
#include <string.h>

#define BIT(n) (1u << (n))

static void add(IfigPhrase *phrase, const char *text, size_t length)
{
    const size_t used = strlen(phrase->text), room = sizeof phrase->text - 1 - used;
    const size_t taken = length < room ? length : room;
    memcpy(phrase->text + used, text, taken);
    phrase->text[used + taken] = '\0';
}

/* To a fixed number of decimals: 1.7 as "1.70". */
static IfigPhrase decimals_of(double value, int decimals)
{
    const double scale = pow(10.0, decimals);
    const IfigNumberText plain = ifig_number_text(round(value * scale) / scale + 0.0, 9);
    const char *point = strchr(plain.text, '.');
    IfigPhrase phrase = {""};
    add(&phrase, plain.text, strlen(plain.text));
    add(&phrase, ".", point == NULL && decimals > 0 ? 1 : 0);
    for (int given = point != NULL ? (int)strlen(point + 1) : 0; given < decimals; given++) {
        add(&phrase, "0", 1);
    }
    return phrase;
}

IfigPhrase ifig_range_words(double low, double high, int decimals)
{
    const IfigPhrase from = decimals_of(low, decimals), to = decimals_of(high, decimals);
    return strcmp(from.text, to.text) == 0
               ? from
               : ifig_phrase(IFIG_ADVISE_TO, (const char *[]){from.text, to.text});
}

/* A display name within a sentence: "Garnet, almandine" as "almandine garnet", "Corundum" without
 * its capital but "YAG" with it; what stands in brackets is left out. */
static IfigPhrase in_sentence(const char *name)
{
    IfigPhrase head = {""}, phrase = {""};
    size_t length = strcspn(name, "(");
    length -= length > 0 && name[length] == '(' && name[length - 1] == ' ' ? 1 : 0;
    const size_t comma = strcspn(name, ",");
    add(&head, name, comma < length ? comma : length);
    if (head.text[0] >= 'A' && head.text[0] <= 'Z' && head.text[1] >= 'a' && head.text[1] <= 'z') {
        head.text[0] = (char)(head.text[0] - 'A' + 'a');
    }
    if (comma + 2 < length) {
        add(&phrase, name + comma + 2, length - comma - 2);
    }
    if (strstr(phrase.text, head.text) == NULL) {
        add(&phrase, " ", phrase.text[0] != '\0' ? 1 : 0);
        add(&phrase, head.text, strlen(head.text));
    }
    return phrase;
}

IfigPhrase ifig_stone_name(const IfigStone *stone)
{
    const char *colour = ifig_species_colour_name(stone->species, stone->body_colour);
    IfigPhrase phrase = {""};
    if (stone->name != NULL) {
        const IfigWordText word = ifig_word_text(stone->name);
        add(&phrase, word.text, strlen(word.text));
        return phrase;
    }
    if (colour == NULL) {
        return in_sentence(ifig_species_text(stone->species, IFIG_TEXT_NAME));
    }
    if (ifig_is_of_nature(stone, "synthetic")) {
        return ifig_phrase(IFIG_ADVISE_SYNTHETIC, (const char *[]){colour});
    }
    add(&phrase, colour, strlen(colour));
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

static void say_blur(const IfigPair *pair, IfigPage *page)
{
    const int is_first = pair->a->reactions == BIT(IFIG_REACTION_AGG);
    const IfigTraits *sharp = is_first ? pair->b : pair->a;
    const IfigPhrase gap = ifig_range_words(sharp->birefringence_low, sharp->birefringence_high, 3);
    const char *names[] = {pair->name_a.text, pair->name_b.text};
    ifig_advise(page, IFIG_ADVISE_BLUR,
                (const char *[]){names[is_first ? 0 : 1], names[is_first ? 1 : 0], gap.text});
}

static void say_refractometer(const IfigPair *pair, IfigPage *page)
{
    say_index(pair, page);
    if (ifig_differs_by_blur(pair->a, pair->b)) {
        say_blur(pair, page);
    }
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

static void say_magnification(const IfigPair *pair, IfigPage *page)
{
    const char *names[] = {pair->name_a.text, pair->name_b.text};
    if (ifig_differs_by_doubling(pair->a, pair->b)) {
        const int is_first = pair->a->birefringence_low > pair->b->birefringence_low;
        ifig_advise(page, IFIG_ADVISE_DOUBLING,
                    (const char *[]){names[is_first ? 0 : 1], names[is_first ? 1 : 0]});
    } else if (ifig_is_moulded(pair->first) != ifig_is_moulded(pair->second)) {
        ifig_advise(page, IFIG_ADVISE_BUBBLES, ifig_is_moulded(pair->first) ? names : names + 1);
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

static void say_fire(const IfigPair *pair, IfigPage *page)
{
    const double seen = 0.01;
    IfigSpeciesFacts a, b;
    if (ifig_species_facts(pair->first->species, &a, NULL) != IFIG_OK ||
        ifig_species_facts(pair->second->species, &b, NULL) != IFIG_OK ||
        !(fabs(a.dispersion_bg - b.dispersion_bg) >= seen)) {
        return;
    }
    const IfigPhrase of_a = ifig_range_words(a.dispersion_bg, a.dispersion_bg, 3);
    const IfigPhrase of_b = ifig_range_words(b.dispersion_bg, b.dispersion_bg, 3);
    const char *values[] = {pair->name_a.text, of_a.text,         pair->name_b.text,
                            of_b.text,         pair->name_a.text, of_a.text};
    ifig_advise(page, IFIG_ADVISE_FIRE, a.dispersion_bg > b.dispersion_bg ? values : values + 2);
}

/* What a hand would reach for in vain, and what the eye can do there. */
static void say_vain_tests(const IfigPair *pair, IfigPage *page)
{
    const double limit = IFIG_REFRACTOMETER_LIMIT;
    const char *values[] = {pair->name_a.text, pair->name_b.text, ifig_number_text(limit, 4).text};
    if (pair->a->n_low >= limit && pair->b->n_low >= limit) {
        ifig_advise(page, IFIG_ADVISE_INDEX_OVER_BOTH, values);
        say_fire(pair, page);
    }
    if (pair->a->conducts_heat && pair->b->conducts_heat) {
        ifig_advise(page, IFIG_ADVISE_THERMAL_BOTH, values);
    }
}

void ifig_say_other_tests(const IfigPair *pair, IfigPage *page)
{
    const unsigned tests = pair->contrast->other_tests;
    const IfigOtherTest first = pair->contrast->first_test;
    const int is_unsure = pair->contrast->polariscope < IFIG_SURE_HARD;
    ifig_advise(page, is_unsure ? IFIG_ADVISE_FIRST_TEST : IFIG_ADVISE_CONFIRM,
                (const char *[]){ifig_advice_test(first)});
    say_test(pair, first, page);
    for (int i = 0; i < IFIG_TEST_COUNT; i++) {
        if ((tests & BIT(i)) != 0 && (IfigOtherTest)i != first) {
            say_test(pair, (IfigOtherTest)i, page);
        }
    }
    say_vain_tests(pair, page);
}
