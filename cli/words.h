/* SPDX-License-Identifier: MIT */
/* The advice room's closed choices as words, for text and for JSON. */
#ifndef IFIG_CLI_WORDS_H
#define IFIG_CLI_WORDS_H

#include "interfig/interfig.h"

/* "dark", "four dark places", "never dark", "patchy" */
const char *ifig_cli_appearance_word(IfigAppearance appearance);
/* "not", "sometimes", "hard", "practised", "anyone" */
const char *ifig_cli_sureness_word(IfigSureness sureness);
/* The same to a reader: "at a glance" */
const char *ifig_cli_sureness_phrase(IfigSureness sureness);
/* "refractometer", "specific gravity", ... */
const char *ifig_cli_test_word(IfigOtherTest test);
/* "red", ..., "colourless" for IFIG_HUE_NEUTRAL */
const char *ifig_cli_hue_word(IfigHue hue);
/* "isotropic", ... by the place of its bit. */
const char *ifig_cli_trait_character(int bit);
/* "positive", "negative", "none" by the place of its bit. */
const char *ifig_cli_trait_sign(int bit);

#endif
