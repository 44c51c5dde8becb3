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
#include "interfig/reading.h"

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
    IFIG_CLUE_COUNT          /**< how many there are */
} IfigClue;

/** A clue's name as --observed and JSON write it: "reaction", "character", "sign", "two-v",
 *  "rings", "bulls-eye", "colour", "index", "birefringence"; NULL for an unknown one. Static
 *  storage. */
IFIG_API const char *ifig_clue_name(IfigClue clue);

/** A stone to be compared: a species, or one of its coloured varieties. */
typedef struct IfigStone {
    const IfigSpecies *species; /**< borrowed; never NULL */
    int body_colour; /**< 1 to ifig_species_colour_count: the variety asked about ("ruby"); 0: the
                          species in all its colours */
    const char
        *name; /**< what sentences shall call it ("blue topaz"); NULL: by colour or species */
} IfigStone;

/** What is met with in one species. Words stand as bits, so that several may be true; NaN: unknown
 *  or without meaning. */
typedef struct IfigTraits {
    size_t size;           /**< sizeof(IfigTraits) */
    unsigned reactions;    /**< bit 1 << IfigReaction for each reaction that is seen */
    unsigned characters;   /**< bit 1 << IfigOpticCharacter for each that it shows: also isotropic
                                where it may stay dark, aggregate where it may stay light, and
                                uniaxial where 2V goes down to IFIG_LOOKS_UNIAXIAL_DEG */
    unsigned signs;        /**< bit 1: positive; 2: negative; 4: has none */
    double two_v_low_deg;  /**< least 2V met with */
    double two_v_high_deg; /**< greatest */
    double rings_low;      /**< orders within the field, by the lowest birefringence, in the default
                                view; 0 where there is no figure */
    double rings_high;     /**< the same by the highest */
    int bulls_eye;         /**< 1: optical rotation holds the cross off the centre; 2: as 1,
                                but natural stones twinned left in right may not show it */
    unsigned hues;         /**< bit 1 << IfigHue of body colours known; 0: unknown or many */
    double n_low;          /**< least index met with at 589.3 nm, of any direction */
    double n_high;         /**< greatest */
    double birefringence_low;  /**< least n_gamma - n_alpha; 0: isotropic; NaN: aggregate */
    double birefringence_high; /**< greatest */
    double gravity_low;        /**< least specific gravity, where it is known */
    double gravity_high;       /**< greatest */
    int pleochroism;           /**< 0: none, 1: weak, 2: distinct, 3: strong; the most that
                                    is met with */
    int is_opaque;             /**< 1: no light comes through at gem thickness */
    int conducts_heat;         /**< 1: a thermal probe takes it for a diamond */
    int is_cut_across;         /**< 1: the table is usually cut across the optic axis */
    char spectrum[112];        /**< what a hand spectroscope shows of it that tells; "": nothing */
} IfigTraits;

/** A 2V up to this is not told from none: the brushes hardly part. Common practice, no source. */
#define IFIG_LOOKS_UNIAXIAL_DEG 5.0

/** Room for a stone's traits. */
#define IFIG_TRAITS_INIT                                                                           \
    {                                                                                              \
        .size = sizeof(IfigTraits)                                                                 \
    }

/** Gather what is met with in a stone's species, and the hue of its body colour.
 *  @param stone         a body colour names the hues, those of 3 mm in daylight; 0: all hues that
 * the species is met with in
 *  @param instrument    the lens and field in which rings are counted; NULL: the sphere
 *  @param thickness_mm  of the stone in which they are counted, 0.001 to 100
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE, IFIG_ERROR_MEMORY */
IFIG_API IfigStatus ifig_traits(const IfigStone *stone, const IfigInstrument *instrument,
                                double thickness_mm, IfigTraits *traits, IfigError *error);
/** A hue as advice writes it: "colourless", "red", "yellow green"; NULL for an unknown one. Static
 *  storage. */
IFIG_API const char *ifig_hue_name(IfigHue hue);

/** How surely a trainee sees a difference. */
typedef enum IfigSureness {
    IFIG_SURE_NOT = 0,   /**< does not separate the two: their ranges meet */
    IFIG_SURE_SOMETIMES, /**< separates only some stones of the two (DR; AGG against AGG) */
    IFIG_SURE_HARD,      /**< small difference: needs measuring, or luck with the orientation */
    IFIG_SURE_PRACTISED, /**< clear once the figure is found */
    IFIG_SURE_ANYONE     /**< seen at a glance */
} IfigSureness;

/** Refractive index above which a refractometer shows no edge: its liquid's. Common practice, no
 *  source. */
#define IFIG_REFRACTOMETER_LIMIT 1.81

/** A tool other than the polariscope that can separate two stones. */
typedef enum IfigOtherTest {
    IFIG_TEST_REFRACTOMETER = 0, /**< the refractive index, up to IFIG_REFRACTOMETER_LIMIT */
    IFIG_TEST_SPECIFIC_GRAVITY,  /**< weighed in air and in water, or in heavy liquids */
    IFIG_TEST_SPECTROSCOPE,      /**< the absorption lines and bands of its colour */
    IFIG_TEST_DICHROSCOPE,       /**< the two colours of a pleochroic stone */
    IFIG_TEST_MAGNIFICATION,     /**< inclusions and growth marks: natural or synthetic */
    IFIG_TEST_THERMAL,    /**< thermal conductivity: diamond and moissanite against the rest */
    IFIG_TEST_LABORATORY, /**< spectra and analyses that no bench has */
    IFIG_TEST_COUNT       /**< how many there are */
} IfigOtherTest;
/** A test's name as JSON writes it: "refractometer", "specific-gravity", "spectroscope",
 *  "dichroscope", "magnification", "thermal", "laboratory"; NULL for an unknown one. Static
 *  storage. */
IFIG_API const char *ifig_other_test_name(IfigOtherTest test);
/** "not", "sometimes", "hard", "practised", "anyone"; NULL for an unknown one. Static storage. */
IFIG_API const char *ifig_sureness_name(IfigSureness sureness);

/** How well two stones are told apart. */
typedef struct IfigPairContrast {
    size_t size;                        /**< sizeof(IfigPairContrast) */
    IfigTraits traits[2];               /**< of the first and of the second stone */
    double thickness_mm;                /**< for which their rings are counted */
    IfigSureness clue[IFIG_CLUE_COUNT]; /**< what each clue does for the two, by IfigClue */
    IfigClue ranked[IFIG_CLUE_COUNT];   /**< clues by sureness, best first; equal ones in the order
                                             in which a stone is examined */
    IfigSureness polariscope; /**< best of the clues that need no other tool (reaction to bull's
                                   eye, and colour) */
    int is_polariscope_blind; /**< 1: no polariscope separates them: of reaction to bull's eye none
                                   is better than "not", but that one may show strain. Colour does
                                   not count here */
    int is_synthetic_pair;    /**< 1: one is natural, the other synthetic, and neither character nor
                                   index parts them */
    unsigned other_tests;     /**< bit 1 << IfigOtherTest for each that can */
    IfigOtherTest first_test; /**< the one to take first */
} IfigPairContrast;

/** Room for a comparison. */
#define IFIG_PAIR_CONTRAST_INIT                                                                    \
    {                                                                                              \
        .size = sizeof(IfigPairContrast)                                                           \
    }

/** Compare two stones. Two varieties of one species differ by colour alone.
 *  @param instrument    the lens and field in which rings are counted; NULL: the sphere
 *  @param thickness_mm  of the stones in which they are counted, 0.001 to 100
 *  @return as ifig_traits */
IFIG_API IfigStatus ifig_contrast(const IfigStone *first, const IfigStone *second,
                                  const IfigInstrument *instrument, double thickness_mm,
                                  IfigPairContrast *contrast, IfigError *error);
/** The advice on two stones in plain English, a sentence a line: what to look at first, what each
 *  shows, traps on the way (a table cut across the axis), the test that can where the polariscope
 *  cannot.
 *  @param[out] text  room for `size` bytes; 4096 always suffice for compiled-in species
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE (too little room) */
IFIG_API IfigStatus ifig_contrast_describe(const IfigStone *first, const IfigStone *second,
                                           const IfigPairContrast *contrast, char *text,
                                           size_t size, IfigError *error);

/** One observation. */
typedef struct IfigObservation {
    IfigClue clue;  /**< what was observed */
    unsigned words; /**< reaction, character, sign, bull's-eye (1 no, 2 yes), hue: bits as in
                         IfigTraits, any of which was seen */
    double low;     /**< two-v, rings, index, birefringence: where the measured range begins;
                         index: the lowest reading in a turn of the stone */
    double high;    /**< where it ends; index: the highest reading */
    double value;   /**< the single number that low and high were widened from; NaN for a range */
} IfigObservation;

/** Read an observation as a user writes it: "reaction=DR", "two-v=60", "index=1.54-1.55", several
 *  words with '/' between them: "reaction=SR/ADR". A single number is widened by what is usual:
 *  index 0.003 (refractometer), birefringence 0.002, two-v 10 degrees, rings a quarter;
 * "index=over" is a stone over the refractometer's limit. sign: +, -, none; bulls-eye: yes, no.
 *  @return IFIG_OK; IFIG_ERROR_SYNTAX or IFIG_ERROR_RANGE (the message names the key or value, what
 *          is allowed, and the nearest key); IFIG_ERROR_ARGUMENT */
IFIG_API IfigStatus ifig_observation_read(const char *text, IfigObservation *observation,
                                          IfigError *error);

/** An observation as a user may write it. */
typedef struct IfigObservationText {
    char text[128]; /**< as IfigObservation is read: "index=1.54-1.55" */
} IfigObservationText;
/** The words of an observation, which ifig_observation_read reads again as the same. NULL gives "".
 */
IFIG_API IfigObservationText ifig_observation_text(const IfigObservation *observation);

/** Species left by a set of observations; opaque. */
typedef struct IfigNarrowing IfigNarrowing;
/** Narrow a catalogue down. Free the result with ifig_narrowing_free; the catalogue must outlive
 * it.
 *  @param observed      `count` observations, borrowed during the call; none: every species fits
 *  @param instrument    the lens and field in which rings are counted; NULL: the sphere
 *  @param thickness_mm  of the stone in which they are counted, 0.001 to 100
 *  @return IFIG_OK; IFIG_ERROR_SYNTAX where two observations contradict each other, whatever the
 *          stone (the message names both); IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE,
 *          IFIG_ERROR_MEMORY */
IFIG_API IfigStatus ifig_narrow(const IfigCatalogue *catalogue, const IfigObservation *observed,
                                size_t count, const IfigInstrument *instrument, double thickness_mm,
                                IfigNarrowing **narrowing, IfigError *error);
/** Free a narrowing; the species stay the catalogue's. NULL is allowed. */
IFIG_API void ifig_narrowing_free(IfigNarrowing *narrowing);
/** How many species fit every observation; 0 for NULL. */
IFIG_API size_t ifig_narrowing_count(const IfigNarrowing *narrowing);
/** A species that fits, the catalogue's own; NULL where index is not below ifig_narrowing_count. */
IFIG_API const IfigSpecies *ifig_narrowing_at(const IfigNarrowing *narrowing, size_t index);
/** How many species only one observation excludes; 0 for NULL. */
IFIG_API size_t ifig_narrowing_near_count(const IfigNarrowing *narrowing);
/** Such a species, the catalogue's own, the clue that excludes it, and how far it misses: in the
 * clue's own unit, 1 for a word, NaN where the species has no such number at all. Nearest first, by
 * what a single number is widened by; a word counts as two such widths, a missing number as ten.
 * NULL where index is not below the count; then nothing is written.
 *  @param[out] excluded_by,missed_by  NULL: not asked for */
IFIG_API const IfigSpecies *ifig_narrowing_near_at(const IfigNarrowing *narrowing, size_t index,
                                                   IfigClue *excluded_by, double *missed_by);
/** The next most telling observations: expected information over the species that fit, taken as
 *  equally likely, in bits (Shannon, Bell Syst. Tech. J. 27, 379 (1948)), most first. What can be
 *  read: words; index to 0.01 up to the refractometer's limit, birefringence 0.005, 2V 10 degrees,
 * one order of rings; a range is spread evenly.
 *  @param[out] clue,bits  NULL: not asked for
 *  @return 1, or 0 where index is beyond the last that tells anything, or narrowing is NULL */
IFIG_API int ifig_narrowing_next(const IfigNarrowing *narrowing, size_t index, IfigClue *clue,
                                 double *bits);
/** The state of the search in plain English, a sentence a line: how many fit, the nearest that were
 *  excluded and by what, what to observe next. It never names a stone as the answer.
 *  @param[out] text  room for `size` bytes; 4096 always suffice
 *  @return as ifig_contrast_describe */
IFIG_API IfigStatus ifig_narrowing_describe(const IfigNarrowing *narrowing, char *text, size_t size,
                                            IfigError *error);

IFIG_C_END

#endif
