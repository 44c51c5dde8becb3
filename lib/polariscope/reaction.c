/* SPDX-License-Identifier: MIT */
/* The reactions by name. */
#include "polariscope.h"

const char *ifig_reaction_text(IfigReaction reaction)
{
    switch (reaction) {
    case IFIG_REACTION_SR:
        return "SR";
    case IFIG_REACTION_DR:
        return "DR";
    case IFIG_REACTION_AGG:
        return "AGG";
    case IFIG_REACTION_ADR:
        return "ADR";
    }
    return NULL;
}
