/* SPDX-License-Identifier: MIT */
/* Look a species up by what people call it. */
#include <string.h>

#include "base.h"
#include "species.h"

/* 1 where the folded word is a run of whole words of the text, from `from` on: "lapis lazuli" typed
 * as one word or two. */
static int fits_run(const char *from, const char *word)
{
    static const char separators[] = " ,;()/-";
    size_t matched = 0, at = 0;
    while (from[at] != '\0' && from[at] != ';') {
        size_t length = strcspn(from + at, separators);
        IfigFoldedWord folded = ifig_fold(from + at, length);
        size_t size = strlen(folded.text);
        if (strncmp(folded.text, word + matched, size) != 0) {
            return 0;
        }
        matched += size;
        if (word[matched] == '\0') {
            return 1;
        }
        at += length;
        while (from[at] != '\0' && from[at] != ';' && strchr(separators, from[at]) != NULL) {
            at++;
        }
    }
    return 0;
}

static IfigFit fit_of(const IfigSpecies *species, const IfigFoldedWord *word)
{
    IfigCallingWalk walk = {0, 0};
    IfigCalling calling;
    while (ifig_next_calling(species, &walk, &calling)) {
        if (calling.fit == IFIG_FIT_WORD) {
            if (fits_run(calling.text, word->text)) {
                return IFIG_FIT_WORD;
            }
            continue;
        }
        IfigFoldedWord folded = ifig_fold(calling.text, calling.length);
        if (!folded.is_cut && strcmp(folded.text, word->text) == 0) {
            return calling.fit;
        }
    }
    return IFIG_FIT_NONE;
}

/* What was found so far: the best fit and how many species share it. */
typedef struct Findings {
    IfigFit fit;
    size_t count;
    const IfigSpecies *first, *natural, *own;
    size_t natural_count, own_count;
} Findings;

static Findings look_through(const IfigCatalogue *catalogue, const IfigFoldedWord *word)
{
    Findings found = {.fit = IFIG_FIT_NONE};
    for (size_t i = 0; i < catalogue->count; i++) {
        const IfigSpecies *species = catalogue->species[i];
        IfigFit fit = fit_of(species, word);
        if (fit == IFIG_FIT_NONE || fit > found.fit) {
            continue;
        }
        if (fit < found.fit) {
            found = (Findings){.fit = fit, .first = species};
        }
        const char *nature = species->record.text[IFIG_TEXT_NATURE];
        found.count++;
        if (strcmp(nature, "natural") == 0) {
            found.natural = species;
            found.natural_count++;
        } else if (strcmp(nature, "user") == 0) {
            found.own = species;
            found.own_count++;
        }
    }
    return found;
}

/* The one species meant, or NULL. By name or variety a user's own stone goes before the natural
 * one, and that before its synthetic. */
static const IfigSpecies *choose(const Findings *found)
{
    if (found->count == 1) {
        return found->first;
    }
    if (found->fit == IFIG_FIT_WORD) {
        return NULL;
    }
    if (found->own_count == 1) {
        return found->own;
    }
    return found->own_count == 0 && found->natural_count == 1 ? found->natural : NULL;
}

static IfigStatus fail_ambiguous(const IfigCatalogue *catalogue, const char *word,
                                 const IfigFoldedWord *folded, const Findings *found,
                                 IfigError *error)
{
    enum { MOST = 8 };
    char list[MOST * 68] = "";
    size_t used = 0, listed = 0;
    for (size_t i = 0; i < catalogue->count && listed < MOST; i++) {
        const char *key = catalogue->species[i]->record.text[IFIG_TEXT_KEY];
        if (fit_of(catalogue->species[i], folded) != found->fit) {
            continue;
        }
        size_t length = strlen(key);
        if (used + length + 3 > sizeof list) {
            break;
        }
        if (listed > 0) {
            memcpy(list + used, ", ", 2);
            used += 2;
        }
        memcpy(list + used, key, length);
        used += length;
        listed++;
    }
    list[used] = '\0';
    if (found->count > listed) {
        return ifig_fail(error, IFIG_ERROR_AMBIGUOUS,
                         "'%s' fits several species: %s and %zu more; give one of these",
                         ifig_word_text(word).text, list, found->count - listed);
    }
    return ifig_fail(error, IFIG_ERROR_AMBIGUOUS,
                     "'%s' fits several species: %s; give one of these", ifig_word_text(word).text,
                     list);
}

IfigStatus ifig_catalogue_find(const IfigCatalogue *catalogue, const char *word,
                               const IfigSpecies **species, IfigError *error)
{
    enum { LONGEST = 2000 }; /* bytes that can still fold to a name; the rest is not looked at */
    if (species != NULL) {
        *species = NULL;
    }
    if (catalogue == NULL || word == NULL || species == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "looking up a species needs a catalogue, a word and a place for it");
    }
    IfigFoldedWord folded = ifig_fold(word, LONGEST);
    if (folded.text[0] == '\0') {
        return ifig_fail(error, IFIG_ERROR_NOT_FOUND,
                         "the name of the species is empty; give a key, a name or a variety, such "
                         "as quartz");
    }
    Findings found = {.fit = IFIG_FIT_NONE};
    if (!folded.is_cut && strnlen(word, LONGEST) < LONGEST) {
        found = look_through(catalogue, &folded);
    }
    if (found.fit == IFIG_FIT_NONE) {
        char suggestion[320];
        ifig_suggest(catalogue, &folded, suggestion, sizeof suggestion);
        return ifig_fail(error, IFIG_ERROR_NOT_FOUND, "no species is called '%s'%s",
                         ifig_word_text(word).text, suggestion);
    }
    *species = choose(&found);
    return *species != NULL ? IFIG_OK : fail_ambiguous(catalogue, word, &folded, &found, error);
}
