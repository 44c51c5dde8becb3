/* SPDX-License-Identifier: MIT */
/* Two stones as sentences name them. */
#ifndef IFIG_ADVICE_WORDS_H
#define IFIG_ADVICE_WORDS_H

#include "advice.h"

typedef struct IfigPair {
    const IfigStone *first, *second;
    const IfigTraits *a, *b;
    const IfigPairContrast *contrast;
    IfigPhrase name_a, name_b;
    int is_one_species;
} IfigPair;

/* "ruby", "synthetic ruby", "almandine"; "1.76 to 1.83", to a number of decimals. */
IfigPhrase ifig_stone_name(const IfigStone *stone);
IfigPhrase ifig_range_words(double low, double high, int decimals);

/* test_words.c: the tests beside the polariscope, the first one first. */
void ifig_say_other_tests(const IfigPair *pair, IfigPage *page);

#endif
