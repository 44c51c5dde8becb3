/* SPDX-License-Identifier: MIT */
/* The clues by name. */
#include "advice.h"

const char *ifig_clue_name(IfigClue clue)
{
    static const char *const names[IFIG_CLUE_COUNT] = {[IFIG_CLUE_REACTION] = "reaction",
                                                       [IFIG_CLUE_CHARACTER] = "character",
                                                       [IFIG_CLUE_SIGN] = "sign",
                                                       [IFIG_CLUE_TWO_V] = "two-v",
                                                       [IFIG_CLUE_RINGS] = "rings",
                                                       [IFIG_CLUE_BULLS_EYE] = "bulls-eye",
                                                       [IFIG_CLUE_COLOUR] = "colour",
                                                       [IFIG_CLUE_INDEX] = "index",
                                                       [IFIG_CLUE_BIREFRINGENCE] = "birefringence"};
    return clue >= 0 && clue < IFIG_CLUE_COUNT ? names[clue] : NULL;
}
