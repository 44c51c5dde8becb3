/* SPDX-License-Identifier: MIT */
/* A set of species: those compiled in, then those a user adds. */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base.h"
#include "species.h"

IfigStatus ifig_catalogue_create(IfigCatalogue **catalogue, IfigError *error)
{
    if (catalogue == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "there is no place to put the catalogue");
    }
    *catalogue = NULL;
    IfigCatalogue *made = calloc(1, sizeof *made);
    const IfigSpecies **species = calloc(ifig_builtin_species_count, sizeof *species);
    if (made == NULL || species == NULL) {
        free(made);
        free(species);
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for the catalogue");
    }
    for (size_t i = 0; i < ifig_builtin_species_count; i++) {
        species[i] = &ifig_builtin_species[i];
    }
    made->species = species;
    made->count = ifig_builtin_species_count;
    *catalogue = made;
    return IFIG_OK;
}

void ifig_catalogue_free(IfigCatalogue *catalogue)
{
    if (catalogue == NULL) {
        return;
    }
    for (size_t i = 0; i < catalogue->owned_count; i++) {
        ifig_species_free(catalogue->owned[i]);
    }
    free(catalogue->owned);
    free(catalogue->species);
    free(catalogue);
}

const char *ifig_catalogue_hash(void)
{
    return ifig_builtin_hash;
}

size_t ifig_catalogue_count(const IfigCatalogue *catalogue)
{
    return catalogue == NULL ? 0 : catalogue->count;
}

const IfigSpecies *ifig_catalogue_at(const IfigCatalogue *catalogue, size_t index)
{
    return index < ifig_catalogue_count(catalogue) ? catalogue->species[index] : NULL;
}

/* Where a species of the same key stands, or count. "topaz_f" and "topazf" are the same to a
 * look-up, so they are the same here. */
static size_t place_of_key(const IfigCatalogue *catalogue, const char *key)
{
    IfigFoldedWord wanted = ifig_fold(key, strlen(key));
    size_t place = 0;
    for (; place < catalogue->count; place++) {
        const char *other = catalogue->species[place]->record.text[IFIG_TEXT_KEY];
        IfigFoldedWord folded = ifig_fold(other, strlen(other));
        if (strcmp(folded.text, wanted.text) == 0) {
            break;
        }
    }
    return place;
}

static int is_owned(const IfigCatalogue *catalogue, const IfigSpecies *species)
{
    for (size_t i = 0; i < catalogue->owned_count; i++) {
        if (catalogue->owned[i] == species) {
            return 1;
        }
    }
    return 0;
}

static IfigStatus check_newcomers(const IfigCatalogue *catalogue, IfigSpecies *const *species,
                                  size_t count, IfigError *error)
{
    enum { MOST = 1000000 }; /* far beyond any gemmologist's list, far below overflow */
    if (catalogue == NULL || (species == NULL && count > 0)) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "adding species needs a catalogue and the species to add");
    }
    if (count > MOST - catalogue->count) {
        return ifig_fail(error, IFIG_ERROR_RANGE, "a catalogue holds at most %d species", MOST);
    }
    for (size_t i = 0; i < count; i++) {
        if (species[i] == NULL || species[i]->owned_text == NULL ||
            is_owned(catalogue, species[i])) {
            return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                             "species %zu of those to add is missing, or a catalogue owns it "
                             "already; make one with ifig_species_create",
                             i + 1);
        }
        for (size_t j = 0; j < i; j++) {
            if (species[j] == species[i]) {
                return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                                 "species %zu and %zu of those to add are the same object", j + 1,
                                 i + 1);
            }
        }
    }
    return IFIG_OK;
}

/* Make room for more species, without changing what the catalogue holds. */
static IfigStatus make_room(IfigCatalogue *catalogue, size_t more, IfigError *error)
{
    const IfigSpecies **species =
        realloc(catalogue->species, (catalogue->count + more) * sizeof *species);
    if (species != NULL) {
        catalogue->species = species;
    }
    IfigSpecies **owned =
        realloc(catalogue->owned, (catalogue->owned_count + more) * sizeof *owned);
    if (owned != NULL) {
        catalogue->owned = owned;
    }
    return species != NULL && owned != NULL
               ? IFIG_OK
               : ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for %zu more species", more);
}

IfigStatus ifig_catalogue_add_all(IfigCatalogue *catalogue, IfigSpecies *const *species,
                                  size_t count, IfigError *error)
{
    IfigStatus status = check_newcomers(catalogue, species, count, error);
    if (status == IFIG_OK && count > 0) {
        status = make_room(catalogue, count, error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    for (size_t i = 0; i < count; i++) {
        size_t place = place_of_key(catalogue, species[i]->record.text[IFIG_TEXT_KEY]);
        catalogue->species[place] = species[i];
        catalogue->count += place == catalogue->count ? 1 : 0;
        catalogue->owned[catalogue->owned_count++] = species[i];
    }
    return IFIG_OK;
}

IfigStatus ifig_catalogue_add(IfigCatalogue *catalogue, IfigSpecies *species, IfigError *error)
{
    return ifig_catalogue_add_all(catalogue, &species, 1, error);
}
