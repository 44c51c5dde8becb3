/* SPDX-License-Identifier: MIT */
/* Honest values to put beside the one wrong value of a call. */
#ifndef IFIG_SPECIMENS_H
#define IFIG_SPECIMENS_H

#include <limits.h>
#include <math.h>
#include <stdint.h>

#include "interfig/interfig.h"

enum {
    HONEST_COUNT = IFIG_LAYERS_MAX + 1, /* of each structure or number: counts are got wrong too */
    HONEST_ROOM = 8192                  /* bytes for text and pixels */
};

/* Made once, before any thread starts, and only read from then on. */
typedef struct Specimens {
    IfigCatalogue *catalogue;
    const IfigSpecies *species;
    IfigSpecies *spare_species; /* no catalogue owns it */
    IfigLamp *lamp;
    IfigFigure *figure;
    IfigFace *face;
    IfigNarrowing *narrowing;
    const IfigSpecies *several[2];
    IfigExercise *exercise;
    IfigPageRecipe *recipe;
    IfigLayer layer;
    IfigScene scene;
    char *long_text;
} Specimens;

/* 1 when made. */
int specimens_make(void);
void specimens_free(void);
const Specimens *specimens(void);

void prepare_IfigExerciseOptions(IfigExerciseOptions *options);
void prepare_IfigFigureOptions(IfigFigureOptions *options);
void prepare_IfigLabelledFigure(IfigLabelledFigure *figure);
void prepare_IfigLayer(IfigLayer *layer);
void prepare_IfigObservation(IfigObservation *observation);
void prepare_IfigPageChart(IfigPageChart *chart);
void prepare_IfigPageFigure(IfigPageFigure *figure);
void prepare_IfigPageMap(IfigPageMap *map);
void prepare_IfigPageOptions(IfigPageOptions *options);
void prepare_IfigPageRecipe(IfigPageRecipe *recipe);
void prepare_IfigPageScene(IfigPageScene *scene);
void prepare_IfigPageTable(IfigPageTable *table);
void prepare_IfigPageWords(IfigPageWords *words);
void prepare_IfigPairContrast(IfigPairContrast *contrast);
void prepare_IfigPngOptions(IfigPngOptions *options);
void prepare_IfigRectangle(IfigRectangle *rectangle);
void prepare_IfigRetarder(IfigRetarder *retarder);
void prepare_IfigScene(IfigScene *scene);
void prepare_IfigSpeciesRecord(IfigSpeciesRecord *record);
void prepare_IfigStone(IfigStone *stone);

/* Fill an array of numbers with a value that most of them may have. */
void honest_numbers(void *numbers, size_t bytes);
/* Room of this thread's own for HONEST_ROOM bytes. */
void *honest_room(void);
/* A writer of this thread's own, onto the null device; the same one until the thread's next call
 * of close_writer. */
IfigPngWriter *honest_writer(void);
void close_writer(void);
const char *const *honest_words(void);
IfigSpecies *const *honest_list(void);
/* 100000 letters, longer than any word, path or key. */
const char *long_text(void);

/* Read every byte of a text that a function gave (NULL is allowed); always -1: it has no status. */
int said(const char *text);

#endif
