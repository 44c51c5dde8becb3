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

const char *ifig_cli_sureness_phrase(IfigSureness sureness)
{
    static const char *const phrases[] = {[IFIG_SURE_NOT] = "does not separate them",
                                          [IFIG_SURE_SOMETIMES] = "separates only some stones",
                                          [IFIG_SURE_HARD] = "hard: measure, or be lucky",
                                          [IFIG_SURE_PRACTISED] = "clear to the practised eye",
                                          [IFIG_SURE_ANYONE] = "anyone sees it"};
    return phrases[sureness];
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
