/* SPDX-License-Identifier: MIT */
/** @file
 * Room 9, advice: what tells two stones apart, and what a set of observations leaves possible.
 *
 * Ranges count, not typical values alone: two stones are told apart by a clue only where all that
 * is met with in the one lies outside all that is met with in the other. Nothing here names a stone
 * while others fit: a figure is evidence, not an identification.
 *
 * Threads: every call may be made by any number of threads at once.
 */
#ifndef INTERFIG_ADVICE_H
#define INTERFIG_ADVICE_H

#include "interfig/polariscope.h"

IFIG_C_BEGIN

/** What can be observed. */
typedef enum IfigClue {
    IFIG_CLUE_REACTION = 0,  /**< SR, DR, AGG, ADR */
    IFIG_CLUE_CHARACTER,     /**< isotropic, uniaxial, biaxial */
    IFIG_CLUE_SIGN,          /**< +, - */
    IFIG_CLUE_TWO_V,         /**< degrees */
    IFIG_CLUE_RINGS,         /**< orders of colour within the field of the lens */
    IFIG_CLUE_BULLS_EYE,     /**< yes, no */
    IFIG_CLUE_COLOUR,        /**< a body colour's hue: red, blue, colourless, ... */
    IFIG_CLUE_INDEX,         /**< refractive index at 589.3 nm */
    IFIG_CLUE_BIREFRINGENCE, /**< n_gamma - n_alpha */
    IFIG_CLUE_COUNT
} IfigClue;

/** A clue's name as --observed and JSON write it: "reaction", "character", "sign", "two-v",
 *  "rings", "bulls-eye", "colour", "index", "birefringence"; NULL for an unknown one. */
IFIG_API const char *ifig_clue_name(IfigClue clue);

/** What is met with in one species. Words stand as bits, so that several may be true; NaN: unknown
 *  or without meaning. */
typedef struct IfigTraits {
    size_t size;         /**< sizeof(IfigTraits) */
    unsigned reactions;  /**< bit 1 << IfigReaction for each reaction that is seen */
    unsigned characters; /**< bit 1 << IfigOpticCharacter */
    unsigned signs;      /**< bit 1: positive; 2: negative; 4: has none */
    double two_v_low_deg, two_v_high_deg;
    double rings_low, rings_high; /**< orders within the field, by the lowest and highest
                                       birefringence; 0 where there is no figure */
    int bulls_eye;                /**< 1: optical rotation holds the cross off the centre */
    unsigned hues;                /**< bit 1 << IfigHue of body colours known; 0: unknown */
    double n_low, n_high;
    double birefringence_low, birefringence_high;
    double gravity_low, gravity_high; /**< specific gravity, where it is known */
} IfigTraits;

#define IFIG_TRAITS_INIT                                                                           \
    {                                                                                              \
        .size = sizeof(IfigTraits)                                                                 \
    }

/** Gather what is met with in a species.
 *  @param instrument    the lens and field in which rings are counted; NULL: the sphere
 *  @param thickness_mm  of the stone in which they are counted, 0.001 to 100
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE, IFIG_ERROR_MEMORY */
IFIG_API IfigStatus ifig_traits(const IfigSpecies *species, const IfigInstrument *instrument,
                                double thickness_mm, IfigTraits *traits, IfigError *error);

/** How surely a trainee sees a difference. */
typedef enum IfigSureness {
    IFIG_SURE_NOT = 0,   /**< does not separate the two: their ranges meet */
    IFIG_SURE_SOMETIMES, /**< separates only some stones of the two (DR; AGG against AGG) */
    IFIG_SURE_HARD,      /**< small difference: needs measuring, or luck with the orientation */
    IFIG_SURE_PRACTISED, /**< clear once the figure is found */
    IFIG_SURE_ANYONE     /**< seen at a glance */
} IfigSureness;

/** A tool other than the polariscope that can separate two stones. */
typedef enum IfigOtherTest {
    IFIG_TEST_REFRACTOMETER = 0,
    IFIG_TEST_SPECIFIC_GRAVITY,
    IFIG_TEST_SPECTROSCOPE,
    IFIG_TEST_DICHROSCOPE,
    IFIG_TEST_MAGNIFICATION,
    IFIG_TEST_THERMAL, /**< thermal conductivity: diamond and moissanite against the rest */
    IFIG_TEST_LABORATORY,
    IFIG_TEST_COUNT
} IfigOtherTest;

/** How well two species are told apart. */
typedef struct IfigPairContrast {
    size_t first, second; /**< places in the list of species */
    IfigSureness clue[IFIG_CLUE_COUNT];
    IfigClue ranked[IFIG_CLUE_COUNT]; /**< clues by sureness, best first; equal ones in the order
                                           in which a stone is examined */
    IfigSureness polariscope; /**< best of the clues that need no other tool (reaction to bull's
                                   eye, and colour) */
    int is_polariscope_blind; /**< 1: no polariscope separates them */
    unsigned other_tests;     /**< bit 1 << IfigOtherTest for each that can */
    IfigOtherTest first_test; /**< the one to take first */
} IfigPairContrast;

/** Compare two species. @return as ifig_traits */
IFIG_API IfigStatus ifig_contrast(const IfigSpecies *first, const IfigSpecies *second,
                                  const IfigInstrument *instrument, double thickness_mm,
                                  IfigPairContrast *contrast, IfigError *error);
/** The advice on two species in plain English, a sentence a line: what to look at first, what each
 *  shows, traps on the way (a table cut across the axis), the test that can where the polariscope
 *  cannot. 4096 bytes always suffice. */
IFIG_API IfigStatus ifig_contrast_describe(const IfigSpecies *first, const IfigSpecies *second,
                                           const IfigPairContrast *contrast, char *text,
                                           size_t size, IfigError *error);

/** One observation. */
typedef struct IfigObservation {
    IfigClue clue;
    unsigned words;   /**< reaction, character, sign, bull's-eye (1 no, 2 yes), hue: bits as in
                           IfigTraits, any of which was seen */
    double low, high; /**< two-v, rings, index, birefringence: the measured range */
} IfigObservation;

/** Read an observation as a user writes it: "reaction=DR", "two-v=60", "index=1.54-1.55". A single
 *  number is widened by what is usual: index 0.003 (refractometer), birefringence 0.002, two-v 10
 *  degrees, rings a quarter.
 *  @return IFIG_OK; IFIG_ERROR_SYNTAX or IFIG_ERROR_RANGE (the message names the key or value, what
 *          is allowed, and the nearest key) */
IFIG_API IfigStatus ifig_observation_read(const char *text, IfigObservation *observation,
                                          IfigError *error);

/** Species left by a set of observations; opaque. */
typedef struct IfigNarrowing IfigNarrowing;
/** Narrow a catalogue down. Free the result with ifig_narrowing_free.
 *  @return IFIG_OK; IFIG_ERROR_SYNTAX where two observations contradict each other, whatever the
 *          stone (the message names both); IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE,
 *          IFIG_ERROR_MEMORY */
IFIG_API IfigStatus ifig_narrow(const IfigCatalogue *catalogue, const IfigObservation *observed,
                                size_t count, const IfigInstrument *instrument, double thickness_mm,
                                IfigNarrowing **narrowing, IfigError *error);
IFIG_API void ifig_narrowing_free(IfigNarrowing *narrowing);
/** How many species fit every observation, and the species at a place. */
IFIG_API size_t ifig_narrowing_count(const IfigNarrowing *narrowing);
IFIG_API const IfigSpecies *ifig_narrowing_at(const IfigNarrowing *narrowing, size_t index);
/** Species that only one observation excludes, that one, and how far it misses: nearest first. */
IFIG_API size_t ifig_narrowing_near_count(const IfigNarrowing *narrowing);
IFIG_API const IfigSpecies *ifig_narrowing_near_at(const IfigNarrowing *narrowing, size_t index,
                                                   IfigClue *excluded_by, double *missed_by);
/** The next most telling observations: expected information over the species that fit, in bits,
 *  most first. @return 1, or 0 where index is beyond the last that tells anything */
IFIG_API int ifig_narrowing_next(const IfigNarrowing *narrowing, size_t index, IfigClue *clue,
                                 double *bits);

IFIG_C_END

#endif
