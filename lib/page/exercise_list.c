/* SPDX-License-Identifier: MIT */
/* The stones of an exercise, as a teacher names them. */
#include "exercise.h"

#include <stdlib.h>
#include <string.h>

/* Stones whose figures every class can find: common practice, no source. */
static const char *const COMMON[] = {
    "quartz",      "corundum", "aquamarine", "tourmaline_elbaite", "zircon_high", "moissanite",
    "apatite",     "calcite",  "topaz_f",    "topaz_oh",           "tanzanite",   "sinhalite",
    "sillimanite", "barite",   "gypsum",     "orthoclase",         "muscovite"};

const char *ifig_exercise_common(size_t index)
{
    return index < sizeof COMMON / sizeof *COMMON ? COMMON[index] : NULL;
}

typedef struct List {
    const IfigCatalogue *catalogue;
    const IfigSpecies **species;
    size_t count;
} List;

static void add(List *list, const IfigSpecies *species)
{
    for (size_t i = 0; i < list->count; i++) {
        if (list->species[i] == species) {
            return;
        }
    }
    list->species[list->count++] = species;
}

/* NULL, or why a stone shows no figure. */
static const char *why_no_figure(const IfigSpecies *species)
{
    IfigSpeciesFacts facts;
    if (ifig_species_facts(species, &facts, NULL) != IFIG_OK) {
        return "is unknown";
    }
    return facts.is_opaque                     ? "is opaque"
           : facts.character == IFIG_ISOTROPIC ? "is isotropic"
           : facts.character == IFIG_AGGREGATE ? "is an aggregate"
                                               : NULL;
}

static void add_all(List *list, IfigOpticCharacter character)
{
    for (size_t i = 0; i < ifig_catalogue_count(list->catalogue); i++) {
        const IfigSpecies *const species = ifig_catalogue_at(list->catalogue, i);
        IfigSpeciesFacts facts;
        if (ifig_species_facts(species, &facts, NULL) == IFIG_OK && facts.character == character &&
            why_no_figure(species) == NULL) {
            add(list, species);
        }
    }
}

static IfigStatus add_word(List *list, const char *word, IfigError *error)
{
    const IfigSpecies *species = NULL;
    if (strcmp(word, "uniaxial") == 0 || strcmp(word, "biaxial") == 0) {
        add_all(list, word[0] == 'u' ? IFIG_UNIAXIAL : IFIG_BIAXIAL);
        return IFIG_OK;
    }
    if (strcmp(word, "common") == 0) {
        IfigStatus status = IFIG_OK;
        for (size_t i = 0; ifig_exercise_common(i) != NULL && status == IFIG_OK; i++) {
            status = add_word(list, ifig_exercise_common(i), error);
        }
        return status;
    }
    IfigStatus status = ifig_catalogue_find(list->catalogue, word, &species, error);
    if (status == IFIG_OK && why_no_figure(species) != NULL) {
        status = ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                           "'%s' %s and shows no figure to ask about; leave it out",
                           ifig_word_text(word).text, why_no_figure(species));
    } else if (status == IFIG_OK) {
        add(list, species);
    }
    return status;
}

/* The next entry without the blanks about it. */
static char *cut(char **at)
{
    char *const start = *at + strspn(*at, " ");
    char *end = start + strcspn(start, ",");
    *at = *end == ',' ? end + 1 : end;
    while (end > start && end[-1] == ' ') {
        end--;
    }
    *end = '\0';
    return start;
}

IfigStatus ifig_exercise_species(const IfigCatalogue *catalogue, const char *words,
                                 const IfigSpecies **species, size_t *count, IfigError *error)
{
    if (catalogue == NULL || words == NULL || species == NULL || count == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "a list of stones was given a null pointer; give a catalogue, a list and "
                         "room for the stones");
    }
    List list = {catalogue, species, 0};
    IfigStatus status = IFIG_OK;
    char *const copy = strdup(words);
    if (copy == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for a list of stones; shorten it");
    }
    char *at = copy;
    int has_more = 1;
    while (has_more && status == IFIG_OK) {
        has_more = strchr(at, ',') != NULL;
        const char *const word = cut(&at);
        status = word[0] == '\0'
                     ? ifig_fail(error, IFIG_ERROR_SYNTAX,
                                 "a list of stones has an empty entry; write names or the groups "
                                 "uniaxial, biaxial and common with one comma between them")
                     : add_word(&list, word, error);
    }
    free(copy);
    *count = status == IFIG_OK ? list.count : 0;
    return status;
}
