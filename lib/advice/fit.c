/* SPDX-License-Identifier: MIT */
/* Whether an observation fits what is met with in a species, and how far it misses. */
#include "advice.h"

#include <math.h>

/* What a single number is widened by: a refractometer read to its third decimal, two of its edges,
 * an angle and rings by eye. Common practice, no source. */
double ifig_clue_width(IfigClue clue)
{
    return clue == IFIG_CLUE_INDEX           ? 0.003
           : clue == IFIG_CLUE_BIREFRINGENCE ? 0.002
           : clue == IFIG_CLUE_TWO_V         ? 10.0
           : clue == IFIG_CLUE_RINGS         ? 0.25
                                             : 0.0;
}

int ifig_clue_has_number(IfigClue clue)
{
    return ifig_clue_width(clue) > 0.0;
}

unsigned ifig_trait_words(const IfigTraits *traits, IfigClue clue)
{
    switch (clue) {
    case IFIG_CLUE_REACTION:
        return traits->reactions;
    case IFIG_CLUE_CHARACTER:
        return traits->characters;
    case IFIG_CLUE_SIGN:
        return traits->signs;
    case IFIG_CLUE_BULLS_EYE:
        return ifig_eye_bits(traits);
    case IFIG_CLUE_COLOUR:
        return traits->hues;
    default:
        return 0;
    }
}

/* A uniaxial stone's 2V is none, which is not told from a few degrees. */
static int two_v_range(const IfigTraits *traits, double *low, double *high)
{
    const unsigned uniaxial = 1u << IFIG_UNIAXIAL, biaxial = 1u << IFIG_BIAXIAL;
    if ((traits->characters & biaxial) != 0) {
        *low = traits->two_v_low_deg;
        *high = traits->two_v_high_deg;
        return isnan(*low) ? -1 : 1;
    }
    *low = 0.0;
    *high = IFIG_LOOKS_UNIAXIAL_DEG;
    return (traits->characters & uniaxial) != 0;
}

int ifig_trait_range(const IfigTraits *traits, IfigClue clue, double *low, double *high)
{
    switch (clue) {
    case IFIG_CLUE_TWO_V:
        return two_v_range(traits, low, high);
    case IFIG_CLUE_RINGS:
        *low = traits->rings_low;
        *high = traits->rings_high;
        return 1;
    case IFIG_CLUE_INDEX:
        *low = traits->n_low;
        *high = traits->n_high;
        return 1;
    default:
        *low = traits->birefringence_low;
        *high = traits->birefringence_high;
        return isnan(*low) ? -1 : 1;
    }
}

/* Edges that part by so much more than was read are not overlooked, even where the range was meant
 * as bounds of one reading. */
static double overlooked_gap(const IfigObservation *observation, const IfigTraits *traits)
{
    const double not_overlooked = 0.03;
    const double gap = observation->high - observation->low;
    const int is_range = observation->clue == IFIG_CLUE_INDEX && isnan(observation->value);
    return is_range && traits->birefringence_low - gap > not_overlooked
               ? traits->birefringence_low - gap
               : 0.0;
}

int ifig_observation_fits(const IfigObservation *observation, const IfigTraits *traits,
                          double *missed_by)
{
    const double rounding = 1e-9;
    double low, high;
    if (!ifig_clue_has_number(observation->clue)) {
        const unsigned words = ifig_trait_words(traits, observation->clue);
        *missed_by = 1.0;
        return (observation->clue == IFIG_CLUE_COLOUR && words == 0) ||
               (words & observation->words) != 0;
    }
    const int known = ifig_trait_range(traits, observation->clue, &low, &high);
    if (known <= 0) {
        *missed_by = (double)NAN;
        return known < 0;
    }
    *missed_by = fmax(observation->low - high, low - observation->high);
    *missed_by = fmax(*missed_by, overlooked_gap(observation, traits));
    return *missed_by <= rounding;
}
