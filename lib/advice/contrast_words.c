/* SPDX-License-Identifier: MIT */
/* A contrast in words: which sentences are true of two stones. The sentences are in messages.c. */
#include "words.h"

#include "base.h"

#include <math.h>
#include <string.h>

#define BIT(n) (1u << (n))

static IfigPhrase bits_in_words(unsigned bits, const IfigAdvice *word, int count)
{
    IfigPhrase phrase = {""};
    size_t total = 0, index = 0;
    for (int i = 0; i < count; i++) {
        total += (bits >> i) & 1u;
    }
    for (int i = 0; i < count; i++) {
        if ((bits & BIT(i)) != 0) {
            ifig_add_to_phrase(&phrase, ifig_advice_message(word[i]), index++, total,
                               IFIG_ADVISE_OR);
        }
    }
    return phrase;
}

static IfigPhrase reaction_words(const IfigTraits *traits)
{
    static const IfigAdvice words[] = {
        [IFIG_REACTION_SR] = IFIG_ADVISE_REACTION_SR,
        [IFIG_REACTION_DR] = IFIG_ADVISE_REACTION_DR,
        [IFIG_REACTION_AGG] = IFIG_ADVISE_REACTION_AGG,
        [IFIG_REACTION_ADR] = IFIG_ADVISE_REACTION_ADR,
    };
    return bits_in_words(traits->reactions, words, 4);
}

static IfigPhrase character_words(const IfigTraits *traits)
{
    static const IfigAdvice words[] = {
        [IFIG_ISOTROPIC] = IFIG_ADVISE_SHOWS_ISOTROPIC,
        [IFIG_UNIAXIAL] = IFIG_ADVISE_SHOWS_UNIAXIAL,
        [IFIG_BIAXIAL] = IFIG_ADVISE_SHOWS_BIAXIAL,
        [IFIG_AGGREGATE] = IFIG_ADVISE_SHOWS_AGGREGATE,
    };
    return bits_in_words(traits->characters, words, 4);
}

static IfigPhrase sign_words(const IfigTraits *traits)
{
    static const IfigAdvice words[] = {IFIG_ADVISE_POSITIVE, IFIG_ADVISE_NEGATIVE};
    return bits_in_words(traits->signs & ~(unsigned)IFIG_SIGN_NONE, words, 2);
}

static IfigPhrase hue_words(const IfigTraits *traits)
{
    IfigPhrase phrase = {""};
    size_t total = 0, index = 0;
    for (int i = 0; i < IFIG_HUE_COUNT; i++) {
        total += (traits->hues >> i) & 1u;
    }
    for (int i = 0; i < IFIG_HUE_COUNT; i++) {
        if ((traits->hues & BIT(i)) != 0) {
            ifig_add_to_phrase(&phrase, ifig_hue_name((IfigHue)i), index++, total, IFIG_ADVISE_OR);
        }
    }
    return phrase;
}

static void say_reaction(const IfigPair *pair, IfigPage *page)
{
    const IfigPhrase a = reaction_words(pair->a), b = reaction_words(pair->b);
    ifig_advise(page, IFIG_ADVISE_TURN,
                (const char *[]){pair->name_a.text, a.text, pair->name_b.text, b.text});
    const unsigned strain = BIT(IFIG_REACTION_ADR), blink = BIT(IFIG_REACTION_DR);
    for (int i = 0; i < 2; i++) {
        const IfigTraits *one = i == 0 ? pair->a : pair->b, *other = i == 0 ? pair->b : pair->a;
        const char *one_name = i == 0 ? pair->name_a.text : pair->name_b.text;
        const char *other_name = i == 0 ? pair->name_b.text : pair->name_a.text;
        const int is_doubly = (other->reactions & blink) != 0;
        if (is_doubly && (one->reactions & strain) != 0) {
            ifig_advise(page, IFIG_ADVISE_OPEN_ANALYSER, (const char *[]){one_name, other_name});
        }
        if (is_doubly && (one->reactions & BIT(IFIG_REACTION_SR)) != 0) {
            ifig_advise(page,
                        other->is_cut_across ? IFIG_ADVISE_TRAP_ACROSS : IFIG_ADVISE_TRAP_AXIS,
                        (const char *[]){other_name});
        }
    }
}

static void say_character(const IfigPair *pair, IfigPage *page)
{
    const IfigPhrase a = character_words(pair->a), b = character_words(pair->b);
    ifig_advise(page, IFIG_ADVISE_CHARACTER,
                (const char *[]){pair->name_a.text, a.text, pair->name_b.text, b.text});
    if (pair->contrast->clue[IFIG_CLUE_CHARACTER] <= IFIG_SURE_HARD) {
        const int is_first =
            pair->a->two_v_low_deg <= pair->b->two_v_low_deg || isnan(pair->b->two_v_low_deg);
        if (!isnan(is_first ? pair->a->two_v_low_deg : pair->b->two_v_low_deg)) {
            ifig_advise(page, IFIG_ADVISE_SMALL_ANGLE,
                        (const char *[]){is_first ? pair->name_a.text : pair->name_b.text});
        }
    }
}

static void say_sign(const IfigPair *pair, IfigPage *page)
{
    const IfigPhrase a = sign_words(pair->a), b = sign_words(pair->b);
    ifig_advise(page, IFIG_ADVISE_SIGN,
                (const char *[]){pair->name_a.text, a.text, pair->name_b.text, b.text});
}

static void say_eye(const IfigPair *pair, IfigPage *page)
{
    const int is_first = pair->a->bulls_eye != 0;
    const char *with = is_first ? pair->name_a.text : pair->name_b.text;
    const char *without = is_first ? pair->name_b.text : pair->name_a.text;
    ifig_advise(page, IFIG_ADVISE_EYE, (const char *[]){with, without});
    if ((is_first ? pair->a : pair->b)->bulls_eye == 2) {
        ifig_advise(page, IFIG_ADVISE_EYE_TWINNED, (const char *[]){with});
    }
}

static void say_two_v(const IfigPair *pair, IfigPage *page)
{
    const IfigPhrase a = ifig_range_words(pair->a->two_v_low_deg, pair->a->two_v_high_deg, 0);
    const IfigPhrase b = ifig_range_words(pair->b->two_v_low_deg, pair->b->two_v_high_deg, 0);
    ifig_advise(page, IFIG_ADVISE_TWO_V,
                (const char *[]){pair->name_a.text, a.text, pair->name_b.text, b.text});
}

static void say_rings(const IfigPair *pair, IfigPage *page)
{
    const IfigPhrase a = ifig_range_words(pair->a->rings_low, pair->a->rings_high, 1);
    const IfigPhrase b = ifig_range_words(pair->b->rings_low, pair->b->rings_high, 1);
    ifig_advise(page, IFIG_ADVISE_RINGS,
                (const char *[]){pair->name_a.text, a.text, pair->name_b.text, b.text,
                                 ifig_number_text(pair->contrast->thickness_mm, 6).text});
}

static void say_colour(const IfigPair *pair, IfigPage *page)
{
    const IfigPhrase a = hue_words(pair->a), b = hue_words(pair->b);
    ifig_advise(page, IFIG_ADVISE_COLOUR,
                (const char *[]){pair->name_a.text, a.text, pair->name_b.text, b.text});
}

/* Clues of the polariscope, in the order of their rank; where a figure tells nothing because one
 * of the two has none, the reaction has said it. */
static void say_polariscope(const IfigPair *pair, IfigPage *page)
{
    typedef void Say(const IfigPair *, IfigPage *);
    static Say *const say[IFIG_CLUE_COUNT] = {
        [IFIG_CLUE_REACTION] = say_reaction, [IFIG_CLUE_CHARACTER] = say_character,
        [IFIG_CLUE_SIGN] = say_sign,         [IFIG_CLUE_TWO_V] = say_two_v,
        [IFIG_CLUE_RINGS] = say_rings,       [IFIG_CLUE_BULLS_EYE] = say_eye,
        [IFIG_CLUE_COLOUR] = say_colour};
    for (int i = 0; i < IFIG_CLUE_COUNT; i++) {
        const IfigClue clue = pair->contrast->ranked[i];
        if (say[clue] != NULL && pair->contrast->clue[clue] >= IFIG_SURE_HARD) {
            say[clue](pair, page);
        }
    }
}

static void say_blind(const IfigPair *pair, IfigPage *page)
{
    const unsigned strain = BIT(IFIG_REACTION_ADR);
    const char *names[] = {pair->name_a.text, pair->name_b.text};
    if (pair->is_one_species) {
        ifig_advise(page, IFIG_ADVISE_ONE_SPECIES, names);
        return;
    }
    if (pair->a->is_opaque || pair->b->is_opaque) {
        ifig_advise(page, IFIG_ADVISE_BLIND_OPAQUE, pair->a->is_opaque ? names : names + 1);
        return;
    }
    ifig_advise(page, IFIG_ADVISE_BLIND, names);
    const int is_hint = pair->contrast->clue[IFIG_CLUE_REACTION] == IFIG_SURE_SOMETIMES;
    const unsigned only_one = (pair->a->reactions ^ pair->b->reactions) & strain;
    if (is_hint && only_one != 0) {
        const int is_first = (pair->a->reactions & strain) != 0;
        ifig_advise(page, IFIG_ADVISE_STRAIN_HINT,
                    (const char *[]){names[is_first ? 0 : 1], names[is_first ? 1 : 0]});
    }
}

/* What only the one may show, where the clues part no more than some stones. */
static void say_against(const IfigPair *pair, IfigPage *page)
{
    const char *names[] = {pair->name_a.text, pair->name_b.text};
    const unsigned signs[2] = {pair->a->signs, pair->b->signs};
    ifig_advise(page, IFIG_ADVISE_UNSURE, names);
    for (int i = 0; i < 2 && pair->contrast->clue[IFIG_CLUE_SIGN] == IFIG_SURE_SOMETIMES; i++) {
        const IfigTraits only = {.signs = signs[i] & ~signs[1 - i]};
        const IfigPhrase word = sign_words(&only);
        if (word.text[0] != '\0') {
            ifig_advise(page, IFIG_ADVISE_AGAINST, (const char *[]){word.text, names[1 - i]});
        }
    }
}

/* The order of the clues is gone through as it stands: each must be one. */
static int is_ranked(const IfigPairContrast *contrast)
{
    for (int i = 0; i < IFIG_CLUE_COUNT; i++) {
        if ((int)contrast->ranked[i] < 0 || contrast->ranked[i] >= IFIG_CLUE_COUNT) {
            return 0;
        }
    }
    return 1;
}

IfigStatus ifig_contrast_describe(const IfigStone *first, const IfigStone *second,
                                  const IfigPairContrast *contrast, char *text, size_t size,
                                  IfigError *error)
{
    if (first == NULL || second == NULL || first->species == NULL || second->species == NULL ||
        contrast == NULL || contrast->size != sizeof *contrast || text == NULL || size == 0) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_contrast_describe: a pointer is NULL, the contrast is of an unknown "
                         "size, or there is no room");
    }
    if (!is_ranked(contrast)) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_contrast_describe: the contrast ranks a clue that there is not; "
                         "have it made by ifig_contrast");
    }
    IfigPage page = ifig_page(text, size);
    const IfigPair pair = {.first = first,
                           .second = second,
                           .a = &contrast->traits[0],
                           .b = &contrast->traits[1],
                           .contrast = contrast,
                           .name_a = ifig_stone_name(first),
                           .name_b = ifig_stone_name(second),
                           .is_one_species = first->species == second->species};
    if (contrast->is_polariscope_blind) {
        say_blind(&pair, &page);
    } else if (contrast->polariscope < IFIG_SURE_HARD) {
        say_against(&pair, &page);
    }
    say_polariscope(&pair, &page);
    if (!pair.is_one_species) {
        ifig_say_other_tests(&pair, &page);
    }
    ifig_advise(&page, IFIG_ADVISE_CAUTION, NULL);
    return ifig_page_end(&page, "ifig_contrast_describe", error);
}
