/* SPDX-License-Identifier: MIT */
/* Two observations that no stone whatever can show.
 *
 * Every stone is one of a few kinds, and an observation leaves some of them: two that leave none in
 * common contradict each other. */
#include "advice.h"

#include "base.h"

#include <math.h>

enum {
    SINGLE = 1 << 0,   /* isotropic and dark */
    STRAINED = 1 << 1, /* isotropic and lit by strain */
    UNIAXIAL_POSITIVE = 1 << 2,
    UNIAXIAL_NEGATIVE = 1 << 3,
    BIAXIAL_POSITIVE = 1 << 4,
    BIAXIAL_NEGATIVE = 1 << 5,
    GRAINS = 1 << 6,
    UNIAXIAL = UNIAXIAL_POSITIVE | UNIAXIAL_NEGATIVE,
    BIAXIAL = BIAXIAL_POSITIVE | BIAXIAL_NEGATIVE,
    ANY = (1 << 7) - 1
};

/* The kinds that each bit of an observation's words leaves. Grains of any character, a cubic one
 * too, make an aggregate; a small 2V is not told from none. */
static const unsigned REACTIONS[] = {[IFIG_REACTION_SR] = SINGLE,
                                     [IFIG_REACTION_DR] = UNIAXIAL | BIAXIAL | GRAINS,
                                     [IFIG_REACTION_AGG] = ANY,
                                     [IFIG_REACTION_ADR] = STRAINED};
static const unsigned CHARACTERS[] = {[IFIG_ISOTROPIC] = SINGLE | STRAINED,
                                      [IFIG_UNIAXIAL] = UNIAXIAL,
                                      [IFIG_BIAXIAL] = BIAXIAL,
                                      [IFIG_AGGREGATE] = GRAINS};
static const unsigned SIGNS[] = {UNIAXIAL_POSITIVE | BIAXIAL_POSITIVE,
                                 UNIAXIAL_NEGATIVE | BIAXIAL_NEGATIVE, SINGLE | STRAINED | GRAINS};
static const unsigned EYES[] = {ANY, UNIAXIAL};

static unsigned kinds_of_words(unsigned words, const unsigned *kinds, size_t count)
{
    unsigned left = 0;
    for (size_t i = 0; i < count; i++) {
        left |= (words >> i & 1u) != 0 ? kinds[i] : 0u;
    }
    return left;
}

static unsigned kinds_left(const IfigObservation *seen)
{
    switch (seen->clue) {
    case IFIG_CLUE_REACTION:
        return kinds_of_words(seen->words, REACTIONS, sizeof REACTIONS / sizeof *REACTIONS);
    case IFIG_CLUE_CHARACTER:
        return kinds_of_words(seen->words, CHARACTERS, sizeof CHARACTERS / sizeof *CHARACTERS);
    case IFIG_CLUE_SIGN:
        return kinds_of_words(seen->words, SIGNS, sizeof SIGNS / sizeof *SIGNS);
    case IFIG_CLUE_BULLS_EYE:
        return kinds_of_words(seen->words, EYES, sizeof EYES / sizeof *EYES);
    case IFIG_CLUE_TWO_V:
        return seen->low <= IFIG_LOOKS_UNIAXIAL_DEG ? UNIAXIAL | BIAXIAL : BIAXIAL;
    case IFIG_CLUE_RINGS:
        return seen->low > 0.0 ? ANY & ~(unsigned)SINGLE : ANY;
    case IFIG_CLUE_BIREFRINGENCE:
        return seen->low > 0.0 ? UNIAXIAL | BIAXIAL | GRAINS : ANY;
    default:
        return ANY;
    }
}

/* The same clue twice. Two indices are those of two edges; two colours those of a stone that shows
 * both. */
static int is_denied(const IfigObservation *a, const IfigObservation *b)
{
    if (a->clue != b->clue || a->clue == IFIG_CLUE_INDEX || a->clue == IFIG_CLUE_COLOUR) {
        return 0;
    }
    return ifig_clue_has_number(a->clue) ? a->low > b->high || b->low > a->high
                                         : (a->words & b->words) == 0;
}

/* The edges of a stone part by its birefringence at the turn where they stand farthest apart. */
static int is_gap_too_small(const IfigObservation *index, const IfigObservation *birefringence)
{
    const double reading = 0.002;
    return index->clue == IFIG_CLUE_INDEX && birefringence->clue == IFIG_CLUE_BIREFRINGENCE &&
           isnan(index->value) && index->high - index->low + reading < birefringence->low;
}

IfigStatus ifig_check_contradictions(const IfigObservation *observed, size_t count,
                                     IfigError *error)
{
    for (size_t i = 0; i < count; i++) {
        for (size_t j = 0; j < i; j++) {
            const IfigObservation *a = &observed[j], *b = &observed[i];
            if ((kinds_left(a) & kinds_left(b)) == 0 || is_denied(a, b) || is_gap_too_small(a, b) ||
                is_gap_too_small(b, a)) {
                return ifig_fail(error, IFIG_ERROR_SYNTAX,
                                 "'%s' and '%s' contradict each other: no stone shows both; "
                                 "observe again, or leave one out",
                                 ifig_observation_text(a).text, ifig_observation_text(b).text);
            }
        }
    }
    return IFIG_OK;
}
