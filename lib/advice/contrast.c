/* SPDX-License-Identifier: MIT */
/* Two stones side by side: every clue judged, and ranked. */
#include "advice.h"

#include "base.h"

/* Insertion keeps equal clues in the order in which a stone is examined. */
static void rank(IfigPairContrast *contrast)
{
    for (int i = 0; i < IFIG_CLUE_COUNT; i++) {
        int place = i;
        for (; place > 0 && contrast->clue[contrast->ranked[place - 1]] < contrast->clue[i];
             place--) {
            contrast->ranked[place] = contrast->ranked[place - 1];
        }
        contrast->ranked[place] = (IfigClue)i;
    }
}

static void judge(IfigPairContrast *contrast)
{
    const IfigTraits *a = &contrast->traits[0], *b = &contrast->traits[1];
    const int is_strain_alone = (a->reactions ^ b->reactions) == 1u << IFIG_REACTION_ADR;
    IfigSureness best = IFIG_SURE_NOT;
    contrast->is_polariscope_blind = 1;
    for (int i = 0; i < IFIG_CLUE_COUNT; i++) {
        contrast->clue[i] = ifig_clue_sureness((IfigClue)i, a, b);
        if (i <= IFIG_CLUE_BULLS_EYE && contrast->clue[i] > IFIG_SURE_NOT) {
            best = contrast->clue[i] > best ? contrast->clue[i] : best;
            contrast->is_polariscope_blind &= i == IFIG_CLUE_REACTION && is_strain_alone;
        }
    }
    const IfigSureness colour = contrast->clue[IFIG_CLUE_COLOUR];
    contrast->polariscope = colour > best ? colour : best;
}

IfigStatus ifig_contrast(const IfigStone *first, const IfigStone *second,
                         const IfigInstrument *instrument, double thickness_mm,
                         IfigPairContrast *contrast, IfigError *error)
{
    if (contrast == NULL || contrast->size != sizeof *contrast) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_contrast: the contrast is NULL or of an unknown size; start from "
                         "IFIG_PAIR_CONTRAST_INIT");
    }
    *contrast = (IfigPairContrast)IFIG_PAIR_CONTRAST_INIT;
    contrast->thickness_mm = thickness_mm;
    contrast->traits[0] = contrast->traits[1] = (IfigTraits)IFIG_TRAITS_INIT;
    IfigStatus status = ifig_traits(first, instrument, thickness_mm, &contrast->traits[0], error);
    if (status == IFIG_OK) {
        status = ifig_traits(second, instrument, thickness_mm, &contrast->traits[1], error);
    }
    if (status == IFIG_OK) {
        judge(contrast);
        rank(contrast);
        ifig_find_other_tests(first, second, contrast);
    }
    return status;
}
