/* SPDX-License-Identifier: MIT */
/* What is met with in a species, gathered from its record. */
#include "advice.h"

#include "base.h"

#include <math.h>
#include <string.h>

#define BIT(n) (1u << (n))

static unsigned usual_reaction(IfigOpticCharacter character)
{
    return character == IFIG_ISOTROPIC   ? BIT(IFIG_REACTION_SR)
           : character == IFIG_AGGREGATE ? BIT(IFIG_REACTION_AGG)
                                         : BIT(IFIG_REACTION_DR);
}

/* "DR; SR; ADR seen": the reactions of the trade, by name. */
static unsigned reactions_of(const char *text, IfigOpticCharacter character)
{
    unsigned reactions = 0;
    for (; *text != '\0'; text += strcspn(text, " ,;"), text += strspn(text, " ,;")) {
        const size_t length = strcspn(text, " ,;");
        for (int i = IFIG_REACTION_SR; i <= IFIG_REACTION_ADR; i++) {
            const char *name = ifig_reaction_text((IfigReaction)i);
            if (strlen(name) == length && strncmp(name, text, length) == 0) {
                reactions |= BIT(i);
            }
        }
    }
    return reactions != 0 ? reactions : usual_reaction(character);
}

static void gather_two_v(const IfigSpeciesFacts *facts, IfigTraits *traits)
{
    traits->two_v_low_deg = traits->two_v_high_deg = (double)NAN;
    if (facts->character == IFIG_BIAXIAL) {
        const int is_range = !isnan(facts->two_v_low_deg) && !isnan(facts->two_v_high_deg);
        traits->two_v_low_deg = is_range ? facts->two_v_low_deg : facts->two_v_deg;
        traits->two_v_high_deg = is_range ? facts->two_v_high_deg : facts->two_v_deg;
    }
}

static unsigned characters_of(const IfigSpeciesFacts *facts, const IfigTraits *traits)
{
    unsigned characters = BIT(facts->character);
    if (traits->two_v_low_deg <= IFIG_LOOKS_UNIAXIAL_DEG) {
        characters |= BIT(IFIG_UNIAXIAL);
    }
    if ((traits->reactions & (BIT(IFIG_REACTION_SR) | BIT(IFIG_REACTION_ADR))) != 0) {
        characters |= BIT(IFIG_ISOTROPIC);
    }
    if ((traits->reactions & BIT(IFIG_REACTION_AGG)) != 0) {
        characters |= BIT(IFIG_AGGREGATE);
    }
    return characters;
}

/* A 2V that passes 90 degrees turns the sign. */
static unsigned signs_of(const IfigSpeciesFacts *facts, const IfigTraits *traits)
{
    unsigned signs = 0;
    if ((traits->characters & (BIT(IFIG_ISOTROPIC) | BIT(IFIG_AGGREGATE))) != 0) {
        signs |= IFIG_SIGN_NONE;
    }
    if (facts->character == IFIG_UNIAXIAL || facts->character == IFIG_BIAXIAL) {
        const int is_either = facts->may_be_either_sign || traits->two_v_high_deg >= 90.0;
        signs |= is_either || facts->optic_sign > 0 ? IFIG_SIGN_POSITIVE : 0u;
        signs |= is_either || facts->optic_sign < 0 ? IFIG_SIGN_NEGATIVE : 0u;
    }
    return signs;
}

static void gather_indices(const IfigSpeciesFacts *facts, IfigTraits *traits)
{
    const double *n = facts->n;
    const int is_range = !isnan(facts->n_low) && !isnan(facts->n_high);
    traits->n_low = is_range ? facts->n_low : fmin(n[0], n[2]);
    traits->n_high = is_range ? facts->n_high : fmax(n[0], n[2]);
    traits->birefringence_low = facts->birefringence_low;
    traits->birefringence_high = facts->birefringence_high;
    if (facts->character == IFIG_AGGREGATE) {
        traits->birefringence_low = traits->birefringence_high = (double)NAN;
    } else if (isnan(facts->birefringence_low) || isnan(facts->birefringence_high)) {
        traits->birefringence_low = traits->birefringence_high = fabs(n[2] - n[0]);
    }
}

/* Wedges of the other hand are a fault of growth in nature, seldom of what is grown slowly on a
 * seed without twins: common practice, from memory. */
static int bulls_eye_of(const IfigSpecies *species, const IfigSpeciesFacts *facts)
{
    if (facts->character != IFIG_UNIAXIAL || !facts->is_optically_active) {
        return 0;
    }
    return strcmp(ifig_species_text(species, IFIG_TEXT_NATURE), "natural") == 0 ? 2 : 1;
}

/* The strongest word of the column on absorption. */
static int pleochroism_of(const IfigSpecies *species, const IfigSpeciesFacts *facts)
{
    const char *text = ifig_species_text(species, IFIG_TEXT_ABSORPTION);
    if (facts->character != IFIG_UNIAXIAL && facts->character != IFIG_BIAXIAL) {
        return 0;
    }
    return strstr(text, "strong") != NULL     ? 3
           : strstr(text, "distinct") != NULL ? 2
           : strstr(text, "weak") != NULL     ? 1
                                              : 0;
}

unsigned ifig_eye_bits(const IfigTraits *traits)
{
    return traits->bulls_eye == 0   ? IFIG_EYE_NO
           : traits->bulls_eye == 1 ? IFIG_EYE_YES
                                    : (unsigned)(IFIG_EYE_NO | IFIG_EYE_YES);
}

/* "ruby: lines; blue sapphire: bands": those of the body colour alone, where one is named. */
static void take_spectrum(const IfigStone *stone, const char *text, IfigTraits *traits)
{
    const char *colour = ifig_species_colour_name(stone->species, stone->body_colour);
    const char *mark = strstr(text, ": ");
    traits->spectrum[0] = '\0';
    if (mark == NULL || colour == NULL) {
        strncat(traits->spectrum, text, sizeof traits->spectrum - 1);
        return;
    }
    const char *found = strstr(text, colour);
    if (found != NULL && strncmp(found + strlen(colour), ": ", 2) == 0) {
        found += strlen(colour) + 2;
        const size_t length = strcspn(found, ";");
        strncat(traits->spectrum, found,
                length < sizeof traits->spectrum ? length : sizeof traits->spectrum - 1);
    }
}

static IfigStatus gather_trade(const IfigStone *stone, IfigTraits *traits, IfigError *error)
{
    IfigSpeciesTrade trade;
    const IfigStatus status = ifig_species_trade(stone->species, &trade, error);
    if (status != IFIG_OK) {
        return status;
    }
    traits->gravity_low = trade.gravity_low;
    traits->gravity_high = trade.gravity_high;
    traits->conducts_heat = trade.conducts_heat;
    traits->is_cut_across = trade.is_cut_across;
    take_spectrum(stone, trade.spectrum, traits);
    traits->hues = ifig_hues_of_list(trade.hues);
    return stone->body_colour > 0 ? ifig_hue_of_colour(stone, &traits->hues, error) : IFIG_OK;
}

static IfigStatus check_arguments(const IfigStone *stone, const IfigInstrument *instrument,
                                  double thickness_mm, const IfigTraits *traits, IfigError *error)
{
    if (stone == NULL || stone->species == NULL || traits == NULL ||
        traits->size != sizeof *traits) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_traits: the stone or the traits are NULL or of an unknown size; "
                         "start from IFIG_TRAITS_INIT");
    }
    IfigStatus status = ifig_instrument_check(instrument, error);
    if (status == IFIG_OK) {
        status = ifig_check_range("the thickness", thickness_mm, 0.001, 100.0, "mm", error);
    }
    if (status == IFIG_OK) {
        status = ifig_check_range("body colour", stone->body_colour, 0,
                                  ifig_species_colour_count(stone->species), "", error);
    }
    return status;
}

IfigStatus ifig_traits(const IfigStone *stone, const IfigInstrument *instrument,
                       double thickness_mm, IfigTraits *traits, IfigError *error)
{
    const IfigInstrument sphere = IFIG_INSTRUMENT_INIT;
    const IfigInstrument *lens = instrument != NULL ? instrument : &sphere;
    IfigSpeciesFacts facts;
    IfigStatus status = check_arguments(stone, lens, thickness_mm, traits, error);
    if (status == IFIG_OK) {
        status = ifig_species_facts(stone->species, &facts, error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    *traits = (IfigTraits)IFIG_TRAITS_INIT;
    traits->reactions =
        reactions_of(ifig_species_text(stone->species, IFIG_TEXT_REACTION), facts.character);
    gather_two_v(&facts, traits);
    traits->characters = characters_of(&facts, traits);
    traits->signs = signs_of(&facts, traits);
    gather_indices(&facts, traits);
    traits->bulls_eye = bulls_eye_of(stone->species, &facts);
    traits->pleochroism = pleochroism_of(stone->species, &facts);
    traits->is_opaque = facts.is_opaque;
    status = gather_trade(stone, traits, error);
    return status == IFIG_OK ? ifig_count_orders(stone, lens, thickness_mm, traits, error) : status;
}
