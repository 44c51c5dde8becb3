/* SPDX-License-Identifier: MIT */
/* An observation as a user writes it. */
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
    canary(observation.clue == IFIG_CLUE_TWO_V && (observation.low < 50 || observation.low > 65));
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char *text = malloc(size + 1);
    must(text != NULL);
    memcpy(text, data, size);
    text[size] = '\0';
    observe(text);
    free(text);
    return 0;
}
