/* SPDX-License-Identifier: MIT */
/** @file
 * Room 1, species: the plain record behind a species, for those who bring their own stones (from a
 * file, a measurement, a data base) or write one down to be read again.
 */
#ifndef INTERFIG_SPECIES_RECORD_H
#define INTERFIG_SPECIES_RECORD_H

#include <math.h>

#include "interfig/species.h"

IFIG_C_BEGIN

/** Coefficients a dispersion formula can have. */
#define IFIG_FORMULA_TERMS 17

/** A published dispersion formula n(lambda), lambda in micrometres, C1 the first coefficient:
 *
 *      type 0: none
 *      type 1: n^2 - 1 = C1 + C2 L^2 / (L^2 - C3^2) + C4 L^2 / (L^2 - C5^2) + ...
 *      type 2: n^2 - 1 = C1 + C2 L^2 / (L^2 - C3) + C4 L^2 / (L^2 - C5) + ...
 *      type 3: n^2 = C1 + C2 L^C3 + C4 L^C5 + ...
 *      type 4: n^2 = C1 + C2 L^C3 / (L^2 - C4^C5) + C6 L^C7 / (L^2 - C8^C9)
 *                    + C10 L^C11 + C12 L^C13 + ...
 *      type 5: n = C1 + C2 L^C3 + C4 L^C5 + ...
 *      type 6: n - 1 = C1 + C2 / (C3 - L^-2) + C4 / (C5 - L^-2) + ...
 *
 *  A term whose leading coefficient is 0 is left out. low_um and high_um say in which range the
 *  formula was fitted; it is used as it stands from 360 to 830 nm. */
typedef struct IfigDispersionFormula {
    int type;                               /**< 0 to 6, as above */
    double low_um;                          /**< where the fit begins */
    double high_um;                         /**< where the fit ends */
    double coefficient[IFIG_FORMULA_TERMS]; /**< C1, C2, ... */
} IfigDispersionFormula;

/** Optical rotation of a right-handed stone, Drude's sum, lambda in micrometres:
 *  rho (deg/mm) = constant + sum of strength_um2[i] / (L^2 - pole_um2[i]).
 *  All zeros: none. */
typedef struct IfigRotation {
    double constant;        /**< deg/mm, alike at all wavelengths */
    double strength_um2[2]; /**< of each term, deg/mm um^2 */
    double pole_um2[2];     /**< of each term, um^2 */
    double ratio_across;    /**< g11 / g33 of the gyration tensor; 1: alike in all directions */
} IfigRotation;

/** All that is known of a species. Initialise with IFIG_SPECIES_RECORD_INIT: every number unknown.
 */
typedef struct IfigSpeciesRecord {
    size_t size;                                  /**< sizeof(IfigSpeciesRecord) */
    const char *text[IFIG_TEXT_INDEX_SOURCE + 1]; /**< by IfigSpeciesText; NULL reads as "" */
    IfigSpeciesFacts facts;                       /**< numbers; NaN: unknown */
    IfigDispersionFormula formula[3]; /**< along X, Y, Z; type 0: Cauchy from the facts */
    double two_v_c_deg; /**< optic angle at 656.3 nm about the bisectrix that is acute at 589.3 nm,
                             -90 to 180; negative where the optic axial plane has crossed to stand
                             at right angles; NaN: as at 589.3 nm */
    double two_v_f_deg; /**< the same at 486.1 nm */
    IfigRotation rotation; /**< all zeros: none */
} IfigSpeciesRecord;

/** Every number unknown, no formula, no rotation. */
#define IFIG_SPECIES_RECORD_INIT                                                                   \
    {                                                                                              \
        .size = sizeof(IfigSpeciesRecord),                                                         \
        .facts = {.n = {NAN, NAN, NAN},                                                            \
                  .n_low = NAN,                                                                    \
                  .n_high = NAN,                                                                   \
                  .birefringence_low = NAN,                                                        \
                  .birefringence_high = NAN,                                                       \
                  .two_v_deg = NAN,                                                                \
                  .two_v_low_deg = NAN,                                                            \
                  .two_v_high_deg = NAN,                                                           \
                  .dispersion_bg = NAN,                                                            \
                  .axes_turn_deg = NAN},                                                           \
        .two_v_c_deg = NAN, .two_v_f_deg = NAN, .rotation = {                                      \
            .ratio_across = 1.0                                                                    \
        }                                                                                          \
    }

/** Make a species from a record. Free it with ifig_species_free, or give it to a catalogue.
 *
 *  Needed: a key of 1 to 64 letters a-z, digits and '_'; facts.character; facts.n along X, Y, Z,
 *  each from 1 to 5, rising for a biaxial stone. Filled in where unknown: the name (the key), the
 *  optic sign and 2V (from the indices); is_optically_active and is_measured_dispersion always.
 *  Refused: a sign that contradicts the indices, a 2V that asks for an n_Y
 *  more than 0.002 from the one given, a formula more than 0.0005 from n, indices that leave 1 to
 * 10 anywhere from 360 to 830 nm, text that is not printable UTF-8 in one line.
 *  @param record    borrowed during the call; texts are copied
 *  @param[out] species  NULL after a failure
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE, IFIG_ERROR_SYNTAX (text),
 *          IFIG_ERROR_MEMORY */
IFIG_API IfigStatus ifig_species_create(const IfigSpeciesRecord *record, IfigSpecies **species,
                                        IfigError *error);

/** The record behind a species: ifig_species_create makes the same species of it again, bit for
 *  bit. Its texts live as long as the species.
 *  @param record  its size set
 *  @return IFIG_OK or IFIG_ERROR_ARGUMENT */
IFIG_API IfigStatus ifig_species_record(const IfigSpecies *species, IfigSpeciesRecord *record,
                                        IfigError *error);

/** Give `count` species to a catalogue, as ifig_catalogue_add does: all of them or, after a
 *  failure, none (the caller still owns them).
 *  @return as ifig_catalogue_add */
IFIG_API IfigStatus ifig_catalogue_add_all(IfigCatalogue *catalogue, IfigSpecies *const *species,
                                           size_t count, IfigError *error);

/** The word that a mistyped one most likely stood for, or NULL where none is near: one that
 *  it begins, or at most a third of its letters wrong.
 *  @param words  `count` words to choose from
 *  @return one of these, the caller's own; NULL also where word or words is NULL */
IFIG_API const char *ifig_nearest_word(const char *word, const char *const *words, size_t count);

IFIG_C_END

#endif
