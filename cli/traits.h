/* SPDX-License-Identifier: MIT */
/* What is met with in a species, as text and as JSON. */
#ifndef IFIG_CLI_TRAITS_H
#define IFIG_CLI_TRAITS_H

#include <jansson.h>

#include "interfig/interfig.h"

/* A trait in short: "DR", "1.762 to 1.770"; "-" where it is unknown or without meaning. */
typedef struct IfigCliTrait {
    char text[80];
} IfigCliTrait;
IfigCliTrait ifig_cli_trait(const IfigTraits *traits, IfigClue clue);
/* Add every trait to an object. */
void ifig_cli_json_traits(json_t *object, const IfigTraits *traits);

#endif
