/* SPDX-License-Identifier: MIT */
/* Words of a user that the libraries take: an observation, the name of a stone. */
#include <string.h>

#include "interfig/interfig.h"
#include "target.h"

static void observe(const char *text)
{
    IfigObservation observation;
    IfigError error = IFIG_ERROR_INIT;
    if (ifig_observation_read(text, &observation, &error) != IFIG_OK) {
        must(error.message[0] != '\0' && strchr(error.message, '\n') == NULL);
        return;
    }
    must(observation.clue >= 0 && observation.clue < IFIG_CLUE_COUNT);
    must(!(observation.low > observation.high));
    canary(observation.clue == IFIG_CLUE_TWO_V && observation.low > 65);
}

static void look_up(const char *text)
{
    IfigCatalogue *catalogue = NULL;
    const IfigSpecies *species = NULL;
    IfigError error = IFIG_ERROR_INIT;
    must(ifig_catalogue_create(&catalogue, NULL) == IFIG_OK);
    const IfigStatus status = ifig_catalogue_find(catalogue, text, &species, &error);
    must((status == IFIG_OK) == (species != NULL));
    must(status == IFIG_OK || strchr(error.message, '\n') == NULL);
    ifig_catalogue_free(catalogue);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char *text = malloc(size + 1);
    must(text != NULL);
    memcpy(text, data, size);
    text[size] = '\0';
    if (strchr(text, '=') != NULL) {
        observe(text);
    } else { /* a hundred times slower: it weighs the word against every name */
        look_up(text);
    }
    free(text);
    return 0;
}
