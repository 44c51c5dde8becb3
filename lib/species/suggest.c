/* SPDX-License-Identifier: MIT */
/* What a mistyped word may have meant. */
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "base.h"
#include "species.h"

enum { MOST_SUGGESTIONS = 3 };

/* How many wrong letters still look like a slip: one in three, at most three. */
static size_t forgiven(size_t length)
{
    size_t third = length / 3;
    return third < 1 ? 1 : third > 3 ? 3 : third;
}

typedef struct Suggestion {
    IfigCalling calling;
    IfigFoldedWord folded;
} Suggestion;

/* The nearest so far, all at the same distance. */
typedef struct Nearest {
    Suggestion list[MOST_SUGGESTIONS];
    size_t count;
    size_t distance;
} Nearest;

static size_t distance_between(const IfigFoldedWord *word, const IfigFoldedWord *other)
{
    size_t length = strlen(word->text);
    if (length >= 3 && strncmp(word->text, other->text, length) == 0) {
        return 1; /* a word begun and not finished */
    }
    size_t other_length = strlen(other->text);
    size_t gap = length > other_length ? length - other_length : other_length - length;
    return gap > forgiven(length) ? SIZE_MAX : ifig_edit_distance(word->text, other->text);
}

static void consider(Nearest *nearest, const IfigFoldedWord *word, const IfigCalling *calling)
{
    IfigFoldedWord folded = ifig_fold(calling->text, calling->length);
    size_t distance = distance_between(word, &folded);
    if (folded.is_cut || distance > nearest->distance) {
        return;
    }
    if (distance < nearest->distance) {
        nearest->distance = distance;
        nearest->count = 0;
    }
    /* "tourmaline" says as much as "tourmaline_elbaite": of two that begin alike, the shorter. */
    size_t kept = 0;
    for (size_t i = 0; i < nearest->count; i++) {
        const char *listed = nearest->list[i].folded.text;
        if (strncmp(listed, folded.text, strlen(listed)) == 0) {
            return;
        }
        if (strncmp(listed, folded.text, strlen(folded.text)) != 0) {
            nearest->list[kept++] = nearest->list[i];
        }
    }
    nearest->count = kept;
    if (kept < MOST_SUGGESTIONS) {
        nearest->list[nearest->count++] = (Suggestion){*calling, folded};
    }
}

static void write_suggestions(const Nearest *nearest, char *text, size_t size)
{
    size_t used = 0;
    for (size_t i = 0; i < nearest->count; i++) {
        const IfigCalling *calling = &nearest->list[i].calling;
        const char *before = i == 0 ? "; did you mean " : i + 1 < nearest->count ? ", " : " or ";
        size_t needed = strlen(before) + calling->length;
        if (used + needed + 2 > size) {
            break;
        }
        memcpy(text + used, before, strlen(before));
        memcpy(text + used + strlen(before), calling->text, calling->length);
        used += needed;
    }
    if (used > 0) {
        text[used++] = '?';
    }
    text[used] = '\0';
}

void ifig_suggest(const IfigCatalogue *catalogue, const IfigFoldedWord *word, char *text,
                  size_t size)
{
    Nearest nearest = {.count = 0, .distance = forgiven(strlen(word->text))};
    text[0] = '\0';
    for (size_t i = 0; i < catalogue->count && !word->is_cut; i++) {
        IfigCallingWalk walk = {0, 0};
        IfigCalling calling;
        while (ifig_next_calling(catalogue->species[i], &walk, &calling)) {
            consider(&nearest, word, &calling);
        }
    }
    if (nearest.count == 0) {
        snprintf(text, size, ", nor anything like it; the catalogue's list has every name");
        return;
    }
    write_suggestions(&nearest, text, size);
}

const char *ifig_nearest_word(const char *word, const char *const *words, size_t count)
{
    const char *nearest = NULL;
    if (word == NULL || words == NULL) {
        return NULL;
    }
    size_t length = strnlen(word, 1000);
    size_t least = forgiven(length) + 1;
    for (size_t i = 0; i < count; i++) {
        int is_begun = length >= 3 && strncmp(word, words[i], length) == 0;
        size_t distance = is_begun ? 1 : ifig_edit_distance(word, words[i]);
        if (distance < least) {
            least = distance;
            nearest = words[i];
        }
    }
    return nearest;
}
