/* SPDX-License-Identifier: MIT */
/* Many threads at once on one catalogue, for ThreadSanitizer: pictures (each by two threads of its
 * own), readings, blinks, hunts, advice, and mistakes whose messages must not mix. Exits 1 where
 * anything differs from what one thread alone gets. stress [ROUNDS] */
#include "recipes.h"

#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { THREADS = 8, RECIPES = 10 };

typedef struct Work {
    const IfigCatalogue *catalogue;
    const Recipe *recipes;
    const uint64_t *pictures, *words;
    unsigned number, rounds;
    unsigned renders, failures;
} Work;

/* 1 where a mistake is told in its own words. */
static int mistake_is_told(const IfigCatalogue *catalogue, unsigned number)
{
    char word[32];
    const IfigSpecies *species = NULL;
    IfigError error = IFIG_ERROR_INIT;
    snprintf(word, sizeof word, "nosuchstone%u", number);
    return ifig_catalogue_find(catalogue, word, &species, &error) == IFIG_ERROR_NOT_FOUND &&
           strstr(error.message, word) != NULL;
}

static void *work_through(void *argument)
{
    Work *const work = argument;
    for (unsigned round = 0; round < work->rounds; round++) {
        const unsigned i = (work->number + round) % RECIPES;
        if (recipe_hash(&work->recipes[i], 1 + (int)(round % 2)) != work->pictures[i]) {
            work->failures++;
        }
        if (round % 32 == 0 && words_hash(work->catalogue, &work->recipes[i]) != work->words[i]) {
            work->failures++;
        }
        if (!mistake_is_told(work->catalogue, 100 * work->number + round % 100)) {
            work->failures++;
        }
        work->renders++;
    }
    return NULL;
}

int main(int count, char **arguments)
{
    static Recipe recipes[RECIPES];
    uint64_t pictures[RECIPES], words[RECIPES];
    Work work[THREADS];
    pthread_t thread[THREADS];
    const unsigned rounds = count > 1 ? (unsigned)strtoul(arguments[1], NULL, 10) : 125;
    IfigCatalogue *catalogue = open_catalogue();
    for (unsigned i = 0; i < RECIPES; i++) {
        recipe_draw(catalogue, 17, i, &recipes[i]);
        if (i % 5 != 0) {
            recipe_quicken(&recipes[i]);
        }
        recipes[i].options.pixels = recipes[i].options.pixels < 17 ? recipes[i].options.pixels : 17;
        pictures[i] = recipe_hash(&recipes[i], 1);
        words[i] = words_hash(catalogue, &recipes[i]);
    }
    for (unsigned t = 0; t < THREADS; t++) {
        work[t] = (Work){catalogue, recipes, pictures, words, t, rounds, 0, 0};
        if (pthread_create(&thread[t], NULL, work_through, &work[t]) != 0) {
            return 71;
        }
    }
    unsigned failures = 0, renders = 0;
    for (unsigned t = 0; t < THREADS; t++) {
        pthread_join(thread[t], NULL);
        failures += work[t].failures;
        renders += work[t].renders;
    }
    for (unsigned i = 0; i < RECIPES; i++) {
        recipe_free(&recipes[i]);
    }
    ifig_catalogue_free(catalogue);
    printf("%d threads, %u renders and as many mistakes: %u differ\n", THREADS, renders, failures);
    return failures == 0 ? 0 : 1;
}
