/* SPDX-License-Identifier: MIT */
/* What the trade knows of a species beside its optics. */
#include "species.h"

#include "base.h"

#include <math.h>
#include <string.h>

IfigStatus ifig_species_trade(const IfigSpecies *species, IfigSpeciesTrade *trade, IfigError *error)
{
    if (species == NULL || trade == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_species_trade needs a species and room for what is known of it");
    }
    *trade = (IfigSpeciesTrade){(double)NAN, (double)NAN, 0, 0, "", "", ""};
    if (species->owned_text != NULL) {
        return IFIG_OK; /* a user's own: the trade has not met it */
    }
    const char *key = ifig_species_text(species, IFIG_TEXT_KEY);
    for (size_t i = 0; i < ifig_builtin_trade_count; i++) {
        if (strcmp(ifig_builtin_trade[i].species_key, key) == 0) {
            *trade = ifig_builtin_trade[i].trade;
            break;
        }
    }
    return IFIG_OK;
}
