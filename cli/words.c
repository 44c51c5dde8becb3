/* SPDX-License-Identifier: MIT */
#include "words.h"

#include "describe.h"

const char *ifig_cli_appearance_word(IfigAppearance appearance)
{
    static const char *const words[] = {[IFIG_LOOKS_DARK] = "dark",
                                        [IFIG_LOOKS_FOUR_DARK] = "four-dark",
                                        [IFIG_LOOKS_NEVER_DARK] = "never-dark",
                                        [IFIG_LOOKS_PATCHY] = "patchy"};
    return words[appearance];
}

const char *ifig_cli_sureness_word(IfigSureness sureness)
{
    static const char *const words[] = {[IFIG_SURE_NOT] = "not",
                                        [IFIG_SURE_SOMETIMES] = "sometimes",
                                        [IFIG_SURE_HARD] = "hard",
                                        [IFIG_SURE_PRACTISED] = "practised",
                                        [IFIG_SURE_ANYONE] = "anyone"};
    return words[sureness];
}

const char *ifig_cli_sureness_phrase(IfigSureness sureness)
{
    static const char *const phrases[] = {[IFIG_SURE_NOT] = "does not separate them",
                                          [IFIG_SURE_SOMETIMES] = "separates only some stones",
                                          [IFIG_SURE_HARD] = "hard: measure, or be lucky",
                                          [IFIG_SURE_PRACTISED] = "clear to the practised eye",
                                          [IFIG_SURE_ANYONE] = "anyone sees it"};
    return phrases[sureness];
}

const char *ifig_cli_test_word(IfigOtherTest test)
{
    static const char *const words[] = {[IFIG_TEST_REFRACTOMETER] = "refractometer",
                                        [IFIG_TEST_SPECIFIC_GRAVITY] = "specific gravity",
                                        [IFIG_TEST_SPECTROSCOPE] = "spectroscope",
                                        [IFIG_TEST_DICHROSCOPE] = "dichroscope",
                                        [IFIG_TEST_MAGNIFICATION] = "magnification",
                                        [IFIG_TEST_THERMAL] = "thermal conductivity",
                                        [IFIG_TEST_LABORATORY] = "laboratory"};
    return words[test];
}

const char *ifig_cli_hue_word(IfigHue hue)
{
    return hue == IFIG_HUE_NEUTRAL ? "colourless"
                                   : ifig_colour_text((IfigColour){hue, IFIG_TONE_FULL});
}

const char *ifig_cli_trait_character(int bit)
{
    return ifig_cli_character_name((IfigOpticCharacter)bit);
}

const char *ifig_cli_trait_sign(int bit)
{
    static const char *const words[] = {"positive", "negative", "none"};
    return words[bit];
}
