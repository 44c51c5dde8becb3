/* SPDX-License-Identifier: MIT */
/* The grains of the aggregates. */
#include "species.h"

#include <math.h>
#include <string.h>

/* The row of a compiled-in aggregate; a user's own has none. */
static const IfigGrainRow *row_of(const IfigSpecies *species)
{
    const char *key = species != NULL && species->owned_text == NULL
                          ? ifig_species_text(species, IFIG_TEXT_KEY)
                          : "";
    for (size_t i = 0; i < ifig_builtin_grains_count; i++) {
        if (strcmp(ifig_builtin_grains[i].species_key, key) == 0) {
            return &ifig_builtin_grains[i];
        }
    }
    return NULL;
}

static const IfigSpecies *builtin_of_key(const char *key)
{
    for (size_t i = 0; i < ifig_builtin_species_count; i++) {
        if (strcmp(ifig_species_text(&ifig_builtin_species[i], IFIG_TEXT_KEY), key) == 0) {
            return &ifig_builtin_species[i];
        }
    }
    return NULL;
}

const IfigSpecies *ifig_species_grain(const IfigSpecies *species)
{
    const IfigGrainRow *row = row_of(species);
    if (row != NULL) {
        return row->own != NULL ? row->own : builtin_of_key(row->grain_key);
    }
    return species != NULL && species->record.facts.character != IFIG_AGGREGATE ? species : NULL;
}

double ifig_species_grain_mm(const IfigSpecies *species)
{
    const IfigGrainRow *row = row_of(species);
    return row != NULL ? row->grain_mm : (double)NAN;
}

const char *ifig_species_grain_texture(const IfigSpecies *species)
{
    const IfigGrainRow *row = row_of(species);
    return row != NULL ? row->texture : "";
}

const char *ifig_species_grain_source(const IfigSpecies *species)
{
    const IfigGrainRow *row = row_of(species);
    return row != NULL ? row->source : "";
}
