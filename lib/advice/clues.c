/* SPDX-License-Identifier: MIT */
/* Clues, tests and sureness by name. */
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
    return (int)clue >= 0 && clue < IFIG_CLUE_COUNT ? names[clue] : NULL;
}

const char *ifig_other_test_name(IfigOtherTest test)
{
    static const char *const names[IFIG_TEST_COUNT] = {
        [IFIG_TEST_REFRACTOMETER] = "refractometer",
        [IFIG_TEST_SPECIFIC_GRAVITY] = "specific-gravity",
        [IFIG_TEST_SPECTROSCOPE] = "spectroscope",
        [IFIG_TEST_DICHROSCOPE] = "dichroscope",
        [IFIG_TEST_MAGNIFICATION] = "magnification",
        [IFIG_TEST_THERMAL] = "thermal",
        [IFIG_TEST_LABORATORY] = "laboratory"};
    return (int)test >= 0 && test < IFIG_TEST_COUNT ? names[test] : NULL;
}

const char *ifig_sureness_name(IfigSureness sureness)
{
    static const char *const names[] = {"not", "sometimes", "hard", "practised", "anyone"};
    return (int)sureness >= 0 && sureness <= IFIG_SURE_ANYONE ? names[sureness] : NULL;
}
