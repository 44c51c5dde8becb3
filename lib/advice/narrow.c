/* SPDX-License-Identifier: MIT */
/* A catalogue narrowed down by observations. */
#include "advice.h"

#include "base.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* What the candidates are judged by while the search is made. */
typedef struct Search {
    const IfigObservation *observed;
    size_t observed_count;
    IfigTraits *traits;         /* of every species */
    const IfigTraits **fitting; /* of those that fit */
} Search;

/* In widths of a reading: a word misread counts as two, a number that is not there as ten. */
static double distance_of(IfigClue clue, double missed_by)
{
    const double word = 2.0, missing = 10.0;
    return !ifig_clue_has_number(clue) ? word
           : isnan(missed_by)          ? missing
                                       : missed_by / ifig_clue_width(clue);
}

static void weigh(IfigNarrowing *narrowing, Search *search, const IfigSpecies *species,
                  const IfigTraits *traits)
{
    IfigNearMiss miss = {species, IFIG_CLUE_REACTION, 0.0, 0.0};
    size_t missed = 0;
    for (size_t i = 0; i < search->observed_count; i++) {
        double by;
        if (!ifig_observation_fits(&search->observed[i], traits, &by)) {
            miss.clue = search->observed[i].clue;
            miss.missed_by = by;
            missed++;
        }
    }
    if (missed == 0) {
        search->fitting[narrowing->fitting_count] = traits;
        narrowing->fitting[narrowing->fitting_count++] = species;
    } else if (missed == 1) {
        miss.distance = distance_of(miss.clue, miss.missed_by);
        narrowing->near[narrowing->near_count++] = miss;
    }
}

/* Nearest first, those equally near in the catalogue's order. */
static void sort_near(IfigNarrowing *narrowing)
{
    for (size_t i = 1; i < narrowing->near_count; i++) {
        const IfigNearMiss miss = narrowing->near[i];
        size_t place = i;
        for (; place > 0 && narrowing->near[place - 1].distance > miss.distance; place--) {
            narrowing->near[place] = narrowing->near[place - 1];
        }
        narrowing->near[place] = miss;
    }
}

static void find_next(IfigNarrowing *narrowing, const Search *search)
{
    const double least_bits = 0.005; /* less is rounding, or as good as nothing */
    for (int i = 0; i < IFIG_CLUE_COUNT && narrowing->fitting_count > 1; i++) {
        const double bits =
            ifig_expected_bits(search->fitting, narrowing->fitting_count, (IfigClue)i,
                               search->observed, search->observed_count);
        size_t place = narrowing->next_count;
        if (bits < least_bits) {
            continue;
        }
        for (; place > 0 && narrowing->next_bits[place - 1] < bits; place--) {
            narrowing->next[place] = narrowing->next[place - 1];
            narrowing->next_bits[place] = narrowing->next_bits[place - 1];
        }
        narrowing->next[place] = (IfigClue)i;
        narrowing->next_bits[place] = bits;
        narrowing->next_count++;
    }
}

static IfigStatus search_all(IfigNarrowing *narrowing, Search *search,
                             const IfigCatalogue *catalogue, const IfigInstrument *instrument,
                             double thickness_mm, IfigError *error)
{
    for (size_t i = 0; i < narrowing->catalogue_count; i++) {
        const IfigStone stone = {.species = ifig_catalogue_at(catalogue, i)};
        search->traits[i] = (IfigTraits)IFIG_TRAITS_INIT;
        const IfigStatus status =
            ifig_traits(&stone, instrument, thickness_mm, &search->traits[i], error);
        if (status != IFIG_OK) {
            return status;
        }
        weigh(narrowing, search, stone.species, &search->traits[i]);
    }
    sort_near(narrowing);
    find_next(narrowing, search);
    return IFIG_OK;
}

static IfigStatus make_narrowing(const IfigCatalogue *catalogue, const IfigInstrument *instrument,
                                 double thickness_mm, Search *search, IfigNarrowing *made,
                                 IfigError *error)
{
    const size_t count = ifig_catalogue_count(catalogue);
    made->catalogue_count = count;
    made->observed_count = search->observed_count;
    made->fitting = calloc(count + 1, sizeof *made->fitting);
    made->near = calloc(count + 1, sizeof *made->near);
    search->traits = calloc(count + 1, sizeof *search->traits);
    search->fitting = calloc(count + 1, sizeof *search->fitting);
    IfigStatus status = IFIG_OK;
    if (made->fitting == NULL || made->near == NULL || search->traits == NULL ||
        search->fitting == NULL) {
        status = ifig_fail(error, IFIG_ERROR_MEMORY, "no memory to narrow the catalogue down");
    }
    for (size_t i = 0; i < search->observed_count; i++) {
        made->is_seen[search->observed[i].clue] = 1;
    }
    if (status == IFIG_OK) {
        status = search_all(made, search, catalogue, instrument, thickness_mm, error);
    }
    free(search->fitting);
    free(search->traits);
    return status;
}

static int is_sound(const IfigObservation *seen)
{
    const int is_known = (int)seen->clue >= 0 && seen->clue < IFIG_CLUE_COUNT;
    return is_known &&
           (ifig_clue_has_number(seen->clue) ? seen->low <= seen->high : seen->words != 0);
}

IfigStatus ifig_narrow(const IfigCatalogue *catalogue, const IfigObservation *observed,
                       size_t count, const IfigInstrument *instrument, double thickness_mm,
                       IfigNarrowing **narrowing, IfigError *error)
{
    if (narrowing == NULL || catalogue == NULL || (observed == NULL && count > 0)) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_narrow: the catalogue, the observations or the place for the result "
                         "is NULL");
    }
    *narrowing = NULL;
    for (size_t i = 0; i < count; i++) {
        if (!is_sound(&observed[i])) {
            return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                             "ifig_narrow: observation %s has no clue, words or range; read it by "
                             "ifig_observation_read",
                             ifig_number_text((double)i + 1.0, 9).text);
        }
    }
    IfigStatus status = ifig_check_contradictions(observed, count, error);
    if (status != IFIG_OK) {
        return status;
    }
    IfigNarrowing *made = calloc(1, sizeof *made);
    if (made == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory to narrow the catalogue down");
    }
    Search search = {.observed = observed, .observed_count = count};
    status = make_narrowing(catalogue, instrument, thickness_mm, &search, made, error);
    if (status != IFIG_OK) {
        ifig_narrowing_free(made);
        return status;
    }
    *narrowing = made;
    return IFIG_OK;
}

void ifig_narrowing_free(IfigNarrowing *narrowing)
{
    if (narrowing != NULL) {
        free(narrowing->fitting);
        free(narrowing->near);
        free(narrowing);
    }
}

size_t ifig_narrowing_count(const IfigNarrowing *narrowing)
{
    return narrowing != NULL ? narrowing->fitting_count : 0;
}

const IfigSpecies *ifig_narrowing_at(const IfigNarrowing *narrowing, size_t index)
{
    return index < ifig_narrowing_count(narrowing) ? narrowing->fitting[index] : NULL;
}

size_t ifig_narrowing_near_count(const IfigNarrowing *narrowing)
{
    return narrowing != NULL ? narrowing->near_count : 0;
}

const IfigSpecies *ifig_narrowing_near_at(const IfigNarrowing *narrowing, size_t index,
                                          IfigClue *excluded_by, double *missed_by)
{
    if (index >= ifig_narrowing_near_count(narrowing)) {
        return NULL;
    }
    const IfigNearMiss *miss = &narrowing->near[index];
    if (excluded_by != NULL) {
        *excluded_by = miss->clue;
    }
    if (missed_by != NULL) {
        *missed_by = miss->missed_by;
    }
    return miss->species;
}

int ifig_narrowing_next(const IfigNarrowing *narrowing, size_t index, IfigClue *clue, double *bits)
{
    if (narrowing == NULL || index >= narrowing->next_count) {
        return 0;
    }
    if (clue != NULL) {
        *clue = narrowing->next[index];
    }
    if (bits != NULL) {
        *bits = narrowing->next_bits[index];
    }
    return 1;
}
