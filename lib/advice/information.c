/* SPDX-License-Identifier: MIT */
/* What an observation is expected to tell: the mutual information of its outcome and the species,
 * I = H(outcome) - mean of H(outcome | species), in bits, the candidates equally likely (Shannon,
 * Bell Syst. Tech. J. 27, 379 (1948)). */
#include "advice.h"

#include <math.h>
#include <string.h>

/* Outcomes; the last one is "no such number". */
enum { BINS = 1024, NONE = BINS - 1 };

typedef struct Outcomes {
    double chance[BINS];
} Outcomes;

/* What can be told apart: common practice, no source. */
static double bin_width(IfigClue clue)
{
    return clue == IFIG_CLUE_INDEX           ? 0.01
           : clue == IFIG_CLUE_BIREFRINGENCE ? 0.005
           : clue == IFIG_CLUE_TWO_V         ? 10.0
                                             : 1.0;
}

/* The last bin is open: more rings than that are not counted, and a stone over the refractometer's
 * limit shows no edge. */
static int bin_count(IfigClue clue)
{
    const double countable_rings = 20.0;
    const double most = clue == IFIG_CLUE_RINGS   ? countable_rings
                        : clue == IFIG_CLUE_INDEX ? IFIG_REFRACTOMETER_LIMIT
                                                  : (NONE - 1) * bin_width(clue);
    return (int)lround(most / bin_width(clue)) + 1;
}

static double entropy(const Outcomes *outcomes)
{
    double bits = 0.0;
    for (int i = 0; i < BINS; i++) {
        const double p = outcomes->chance[i];
        bits -= p > 0.0 ? p * log2(p) : 0.0;
    }
    return bits;
}

/* A value on the border of two bins belongs to the upper one, but for rounding. */
static int bin_of(double value, IfigClue clue)
{
    const double rounding = 1e-6;
    const int last = bin_count(clue) - 1;
    const double bin = floor(value / bin_width(clue) + rounding);
    return bin > last ? last : (int)bin;
}

static void spread(double low, double high, IfigClue clue, Outcomes *outcomes)
{
    const double width = bin_width(clue);
    const int last = bin_count(clue) - 1;
    if (high - low < 1e-6 * width) {
        outcomes->chance[bin_of(low, clue)] = 1.0;
        return;
    }
    for (int bin = bin_of(low, clue); bin <= last; bin++) {
        const double from = fmax(low, bin * width);
        const double to = bin == last ? high : fmin(high, (bin + 1) * width);
        if (to <= from && bin * width > high) {
            break;
        }
        outcomes->chance[bin] = fmax(0.0, to - from) / (high - low);
    }
}

/* A range that an earlier observation has narrowed; one that only meets it at an end stays. */
static void narrow_range(const IfigObservation *seen, double *low, double *high)
{
    const double from = fmax(*low, seen->low), to = fmin(*high, seen->high);
    if (from <= to) {
        *low = from;
        *high = to;
    }
}

static int words_of(const IfigTraits *traits, IfigClue clue, const IfigObservation *observed,
                    size_t observed_count, Outcomes *outcomes)
{
    unsigned words = ifig_trait_words(traits, clue);
    int total = 0;
    for (size_t i = 0; i < observed_count; i++) {
        if (observed[i].clue == clue && words != 0) {
            words &= observed[i].words;
        }
    }
    for (unsigned rest = words; rest != 0; rest &= rest - 1) {
        total++;
    }
    for (int i = 0; words >> i != 0; i++) {
        outcomes->chance[i] = (words >> i & 1u) != 0 ? 1.0 / total : 0.0;
    }
    return total > 0;
}

/* 0 where nothing is known of it. */
static int outcomes_of(const IfigTraits *traits, IfigClue clue, const IfigObservation *observed,
                       size_t observed_count, Outcomes *outcomes)
{
    memset(outcomes, 0, sizeof *outcomes);
    if (!ifig_clue_has_number(clue)) {
        return words_of(traits, clue, observed, observed_count, outcomes);
    }
    double low, high;
    const int is_unread =
        clue == IFIG_CLUE_BIREFRINGENCE && traits->n_high >= IFIG_REFRACTOMETER_LIMIT;
    const int known = is_unread ? 0 : ifig_trait_range(traits, clue, &low, &high);
    if (known == 0) {
        outcomes->chance[NONE] = 1.0;
    }
    if (known <= 0) {
        return known == 0;
    }
    for (size_t i = 0; i < observed_count; i++) {
        if (observed[i].clue == clue) {
            narrow_range(&observed[i], &low, &high);
        }
    }
    spread(low, high, clue, outcomes);
    return 1;
}

/* A number or a colour that was seen tells nothing more when it is looked at again, nor a
 * refractometer that showed no edge. */
static int is_read_already(IfigClue clue, const IfigObservation *observed, size_t count)
{
    const double no_edge = IFIG_REFRACTOMETER_LIMIT - 2.0 * bin_width(IFIG_CLUE_INDEX);
    for (size_t i = 0; i < count; i++) {
        const IfigObservation *seen = &observed[i];
        if (seen->clue != clue || (clue != IFIG_CLUE_COLOUR && !ifig_clue_has_number(clue))) {
            continue;
        }
        if (clue == IFIG_CLUE_COLOUR || !isnan(seen->value) ||
            seen->high - seen->low <= bin_width(clue) ||
            (clue == IFIG_CLUE_INDEX && seen->low >= no_edge - 1e-9)) {
            return 1;
        }
    }
    return 0;
}

/* What stays dark, or light all the way round, shows neither a figure nor two edges. */
static int is_never_seen(IfigClue clue, const IfigObservation *observed, size_t count)
{
    const unsigned blink = 1u << IFIG_REACTION_DR;
    const unsigned axes = 1u << IFIG_UNIAXIAL | 1u << IFIG_BIAXIAL;
    const int needs_figure =
        clue != IFIG_CLUE_REACTION && clue != IFIG_CLUE_COLOUR && clue != IFIG_CLUE_INDEX;
    for (size_t i = 0; i < count && needs_figure; i++) {
        const IfigObservation *seen = &observed[i];
        if ((seen->clue == IFIG_CLUE_REACTION && (seen->words & blink) == 0) ||
            (seen->clue == IFIG_CLUE_CHARACTER && (seen->words & axes) == 0)) {
            return 1;
        }
    }
    return 0;
}

/* Species of which nothing is known stand for the mean of the others: they tell nothing. */
double ifig_expected_bits(const IfigTraits *const *traits, size_t count, IfigClue clue,
                          const IfigObservation *observed, size_t observed_count)
{
    Outcomes mean = {{0}}, one;
    double inner = 0.0;
    size_t known = 0;
    if (is_read_already(clue, observed, observed_count) ||
        is_never_seen(clue, observed, observed_count)) {
        return 0.0;
    }
    for (size_t i = 0; i < count; i++) {
        if (outcomes_of(traits[i], clue, observed, observed_count, &one)) {
            known++;
            inner += entropy(&one);
            for (int bin = 0; bin < BINS; bin++) {
                mean.chance[bin] += one.chance[bin];
            }
        }
    }
    if (known == 0) {
        return 0.0;
    }
    for (int bin = 0; bin < BINS; bin++) {
        mean.chance[bin] /= (double)known;
    }
    const double share = (double)known / (double)count;
    return fmax(0.0, share * (entropy(&mean) - inner / (double)known));
}
