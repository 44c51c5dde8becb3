/* SPDX-License-Identifier: MIT */
/* The advice room's closed choices as words, for text and for JSON. */
#ifndef IFIG_CLI_WORDS_H
#define IFIG_CLI_WORDS_H

#include "interfig/interfig.h"

/* "dark", "four dark places", "never dark", "patchy" */
const char *ifig_cli_appearance_word(IfigAppearance appearance);
/* "anyone sees it" */
const char *ifig_cli_sureness_phrase(IfigSureness sureness);
/* "isotropic", ... by the place of its bit. */
const char *ifig_cli_trait_character(int bit);
/* "positive", "negative", "none" by the place of its bit. */
const char *ifig_cli_trait_sign(int bit);

#endif
