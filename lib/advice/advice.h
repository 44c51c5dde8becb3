/* SPDX-License-Identifier: MIT */
/* Room 9: advice. Enters: species and observations. Leaves: what tells them apart, in an order of
 * how surely it is seen. */
#ifndef IFIG_ADVICE_ROOM_H
#define IFIG_ADVICE_ROOM_H

#include "base.h"
#include "interfig/advice.h"
#include "polariscope.h"

enum { IFIG_SIGN_POSITIVE = 1, IFIG_SIGN_NEGATIVE = 2, IFIG_SIGN_NONE = 4 };
enum { IFIG_EYE_NO = 1, IFIG_EYE_YES = 2 };

/* hues.c: whether a stretch of text is a word, without regard to case, '-', '_' and blank; bits of
 * hues named in a list of words separated by ';'; of one word of `length`, which
 * may also name a shade (pink, brown); and the hue of a body colour, 3 mm in daylight. */
int ifig_is_alike(const char *text, size_t length, const char *word);
unsigned ifig_hues_of_list(const char *list);
unsigned ifig_hues_of_word(const char *word, size_t length);
IfigStatus ifig_hue_of_colour(const IfigStone *stone, unsigned *hues, IfigError *error);

/* orders.c: orders in the field at the lowest and highest birefringence. */
IfigStatus ifig_count_orders(const IfigStone *stone, const IfigInstrument *instrument,
                             double thickness_mm, IfigTraits *traits, IfigError *error);

/* traits.c: bits of the bull's eye that is met with. */
unsigned ifig_eye_bits(const IfigTraits *traits);

/* sureness.c */
IfigSureness ifig_clue_sureness(IfigClue clue, const IfigTraits *a, const IfigTraits *b);
IfigSureness ifig_gravity_sureness(const IfigTraits *a, const IfigTraits *b);
/* other_tests.c: tests that can, and the one to take first. */
void ifig_find_other_tests(const IfigStone *first, const IfigStone *second,
                           IfigPairContrast *contrast);
/* Back facets seen doubled in the one and single in the other. */
int ifig_differs_by_doubling(const IfigTraits *a, const IfigTraits *b);
int ifig_differs_by_blur(const IfigTraits *a, const IfigTraits *b);
int ifig_is_moulded(const IfigStone *stone);
int ifig_is_of_nature(const IfigStone *stone, const char *nature);

/* fit.c: the numbers of a clue, where it has numbers; words' bits; and whether an observation fits,
 * and how far it misses. */
int ifig_clue_has_number(IfigClue clue);
/* What a single number is widened by. */
double ifig_clue_width(IfigClue clue);
unsigned ifig_trait_words(const IfigTraits *traits, IfigClue clue);
/* 1: low and high were set; 0: the species has no such number; -1: it is not known. */
int ifig_trait_range(const IfigTraits *traits, IfigClue clue, double *low, double *high);
int ifig_observation_fits(const IfigObservation *observation, const IfigTraits *traits,
                          double *missed_by);

/* contradiction.c: IFIG_ERROR_SYNTAX where two observations exclude each other in any stone. */
IfigStatus ifig_check_contradictions(const IfigObservation *observed, size_t count,
                                     IfigError *error);

/* information.c: expected information of observing a clue, in bits, over candidates taken as
 * equally likely, given what was observed. traits: count pointers. */
double ifig_expected_bits(const IfigTraits *const *traits, size_t count, IfigClue clue,
                          const IfigObservation *observed, size_t observed_count);

typedef struct IfigNearMiss {
    const IfigSpecies *species;
    IfigClue clue;
    double missed_by, distance;
} IfigNearMiss;

struct IfigNarrowing {
    size_t catalogue_count, observed_count;
    const IfigSpecies **fitting;
    size_t fitting_count;
    IfigNearMiss *near;
    size_t near_count;
    IfigClue next[IFIG_CLUE_COUNT];
    double next_bits[IFIG_CLUE_COUNT];
    size_t next_count;
    int is_seen[IFIG_CLUE_COUNT];
};

/* messages.c: every sentence and word of one language. {1} to {9} stand for the values. */
typedef enum IfigAdvice {
    IFIG_ADVISE_TURN = 0,
    IFIG_ADVISE_REACTION_SR,
    IFIG_ADVISE_REACTION_DR,
    IFIG_ADVISE_REACTION_AGG,
    IFIG_ADVISE_REACTION_ADR,
    IFIG_ADVISE_OR,
    IFIG_ADVISE_AND,
    IFIG_ADVISE_COMMA,
    IFIG_ADVISE_TO,
    IFIG_ADVISE_OPEN_ANALYSER,
    IFIG_ADVISE_TRAP_AXIS,
    IFIG_ADVISE_TRAP_ACROSS,
    IFIG_ADVISE_CHARACTER,
    IFIG_ADVISE_SHOWS_ISOTROPIC,
    IFIG_ADVISE_SHOWS_UNIAXIAL,
    IFIG_ADVISE_SHOWS_BIAXIAL,
    IFIG_ADVISE_SHOWS_AGGREGATE,
    IFIG_ADVISE_SMALL_ANGLE,
    IFIG_ADVISE_SIGN,
    IFIG_ADVISE_POSITIVE,
    IFIG_ADVISE_NEGATIVE,
    IFIG_ADVISE_NO_SIGN,
    IFIG_ADVISE_EYE,
    IFIG_ADVISE_EYE_TWINNED,
    IFIG_ADVISE_TWO_V,
    IFIG_ADVISE_RINGS,
    IFIG_ADVISE_COLOUR,
    IFIG_ADVISE_BLIND,
    IFIG_ADVISE_BLIND_OPAQUE,
    IFIG_ADVISE_ONE_SPECIES,
    IFIG_ADVISE_SYNTHETIC,
    IFIG_ADVISE_STRAIN_HINT,
    IFIG_ADVISE_UNSURE,
    IFIG_ADVISE_AGAINST,
    IFIG_ADVISE_FIRST_TEST,
    IFIG_ADVISE_CONFIRM,
    IFIG_ADVISE_INDEX,
    IFIG_ADVISE_INDEX_OVER_ONE,
    IFIG_ADVISE_INDEX_OVER_BOTH,
    IFIG_ADVISE_INDEX_MEETS,
    IFIG_ADVISE_EDGES,
    IFIG_ADVISE_BIREFRINGENCE,
    IFIG_ADVISE_BLUR,
    IFIG_ADVISE_FIRE,
    IFIG_ADVISE_GRAVITY,
    IFIG_ADVISE_GRAVITY_MEETS,
    IFIG_ADVISE_SPECTRUM,
    IFIG_ADVISE_SPECTRUM_NONE,
    IFIG_ADVISE_DICHROSCOPE,
    IFIG_ADVISE_PLEOCHROISM_NONE,
    IFIG_ADVISE_PLEOCHROISM_WEAK,
    IFIG_ADVISE_PLEOCHROISM_DISTINCT,
    IFIG_ADVISE_PLEOCHROISM_STRONG,
    IFIG_ADVISE_DOUBLING,
    IFIG_ADVISE_INCLUSIONS,
    IFIG_ADVISE_BUBBLES,
    IFIG_ADVISE_BRAZIL,
    IFIG_ADVISE_THERMAL,
    IFIG_ADVISE_THERMAL_BOTH,
    IFIG_ADVISE_LABORATORY,
    IFIG_ADVISE_CAUTION,
    IFIG_ADVISE_COUNT_NONE,
    IFIG_ADVISE_COUNT_ONE,
    IFIG_ADVISE_COUNT_MANY,
    IFIG_ADVISE_FITTING,
    IFIG_ADVISE_MORE,
    IFIG_ADVISE_NEAR,
    IFIG_ADVISE_NEAR_BY,
    IFIG_ADVISE_NEAR_BY_WORD,
    IFIG_ADVISE_NEAR_BY_NONE,
    IFIG_ADVISE_NEXT,
    IFIG_ADVISE_NEXT_BITS,
    IFIG_ADVISE_NEXT_NONE,
    IFIG_ADVISE_NEXT_OTHER,
    IFIG_ADVISE_COUNT
} IfigAdvice;
const char *ifig_advice_message(IfigAdvice message);
const char *ifig_advice_test(IfigOtherTest test);
const char *ifig_advice_clue(IfigClue clue);
/* phrases.c: a message with its values, and a line end; a value at its head gets a capital. */
void ifig_advise(IfigPage *page, IfigAdvice message, const char *const *value);
/* The same into text of its own. */
typedef struct IfigPhrase {
    char text[512];
} IfigPhrase;
IfigPhrase ifig_phrase(IfigAdvice message, const char *const *value);
/* "a, b or c": add a word to a list of `count`. */
void ifig_add_to_phrase(IfigPhrase *phrase, const char *word, size_t index, size_t count,
                        IfigAdvice last_joint);

#endif
