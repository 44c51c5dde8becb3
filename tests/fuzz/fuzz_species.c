/* SPDX-License-Identifier: MIT */
/* A user's species file: refused with a place and a remedy, or read, written and read again to the
 * same text. */
#include <string.h>

#include "interfig/image.h"
#include "interfig/species_file.h"
#include "line_mutator.h"
#include "target.h"

size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t most, unsigned seed)
{
    return mutate_lines(data, size, most, seed);
}

static void write_and_read(const IfigSpecies *species)
{
    IfigCatalogue *catalogue = NULL;
    const IfigSpecies *again = NULL;
    char *first = NULL, *second = NULL;
    must(ifig_species_write_text(species, &first, NULL) == IFIG_OK);
    must(ifig_catalogue_create(&catalogue, NULL) == IFIG_OK);
    must(ifig_catalogue_read_text(catalogue, first, strlen(first), NULL, NULL) == IFIG_OK);
    must(ifig_catalogue_find(catalogue, ifig_species_text(species, IFIG_TEXT_KEY), &again, NULL) ==
         IFIG_OK);
    must(ifig_species_write_text(again, &second, NULL) == IFIG_OK);
    must(strcmp(first, second) == 0);
    ifig_text_free(first);
    ifig_text_free(second);
    ifig_catalogue_free(catalogue);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    IfigCatalogue *catalogue = NULL;
    IfigError error = IFIG_ERROR_INIT;
    must(ifig_catalogue_create(&catalogue, NULL) == IFIG_OK);
    const size_t before = ifig_catalogue_count(catalogue);
    const IfigStatus status =
        ifig_catalogue_read_text(catalogue, (const char *)data, size, "fuzz.yaml", &error);
    if (status == IFIG_OK) {
        for (size_t i = before; i < ifig_catalogue_count(catalogue); i++) {
            const IfigSpecies *species = ifig_catalogue_at(catalogue, i);
            IfigSpeciesFacts facts;
            must(ifig_species_facts(species, &facts, NULL) == IFIG_OK);
            canary(facts.n[0] > 1.75 || facts.n[0] < 1.49);
            write_and_read(species);
        }
    } else {
        must(ifig_catalogue_count(catalogue) == before);
        must(error.message[0] != '\0' && strchr(error.message, '\n') == NULL);
    }
    ifig_catalogue_free(catalogue);
    return 0;
}
