/* SPDX-License-Identifier: MIT */
/* What the tests of advice share: stones by the words of a user, and what is said of them. */
#ifndef IFIG_ADVICE_TEST_H
#define IFIG_ADVICE_TEST_H

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "../run_case.h"
#include "advice.h"

static const double STONE_MM = 3.0;

/* The catalogue of a case, made before and freed after each test. */
static IfigCatalogue *catalogue;

static inline void open_catalogue(void)
{
    ck_assert_int_eq(ifig_catalogue_create(&catalogue, NULL), IFIG_OK);
}

static inline void close_catalogue(void)
{
    ifig_catalogue_free(catalogue);
}

static inline IfigStone stone(const char *word)
{
    IfigStone found = {.species = NULL};
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_catalogue_find(catalogue, word, &found.species, &error) == IFIG_OK, "%s",
                  error.message);
    found.body_colour = ifig_species_colour_of_word(found.species, word);
    return found;
}

static inline IfigTraits traits_of_stone(IfigStone one)
{
    IfigTraits traits = IFIG_TRAITS_INIT;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_traits(&one, NULL, STONE_MM, &traits, &error) == IFIG_OK, "%s",
                  error.message);
    return traits;
}

static inline IfigTraits traits_of(const char *word)
{
    return traits_of_stone(stone(word));
}

static inline IfigPairContrast contrast_stones(IfigStone a, IfigStone b)
{
    IfigPairContrast contrast = IFIG_PAIR_CONTRAST_INIT;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_contrast(&a, &b, NULL, STONE_MM, &contrast, &error) == IFIG_OK, "%s",
                  error.message);
    return contrast;
}

static inline IfigPairContrast contrast_of(const char *a, const char *b)
{
    return contrast_stones(stone(a), stone(b));
}

static inline IfigObservation seen(const char *text)
{
    IfigObservation observation;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_observation_read(text, &observation, &error) == IFIG_OK, "%s",
                  error.message);
    return observation;
}

/* Both words stand in a text, whatever else does. */
static inline void assert_says(const char *text, const char *words)
{
    ck_assert_msg(strstr(text, words) != NULL, "'%s' is not said in: %s", words, text);
}

static inline void assert_silent(const char *text, const char *words)
{
    ck_assert_msg(strstr(text, words) == NULL, "'%s' is said in: %s", words, text);
}

#endif
