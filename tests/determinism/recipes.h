/* SPDX-License-Identifier: MIT */
/* Random recipes, the same on every machine: what is made from them must not depend on threads,
 * compilers, locales, forks. Public headers alone. */
#ifndef IFIG_TEST_RECIPES_H
#define IFIG_TEST_RECIPES_H

#include "interfig/interfig.h"

enum { RECIPE_PIXELS_MOST = 96 };

typedef struct Recipe {
    IfigScene scene; /* points into this recipe: do not copy it */
    IfigLayer layers[IFIG_LAYERS_MAX];
    IfigLamp *lamp;
    IfigFigureOptions options;
    IfigPixelFormat format;
    IfigTexture texture;
    int is_face; /* 1: a face without a lens; 0: a figure */
} Recipe;

/* Draw recipe `number` of a series; it is one that can be rendered. Ends the program where none is
 * found or memory runs out. Free it with recipe_free. */
void recipe_draw(const IfigCatalogue *catalogue, uint64_t seed, unsigned number, Recipe *recipe);
void recipe_free(Recipe *recipe);
/* The same recipe small and under a sodium lamp, which is quick. */
void recipe_quicken(Recipe *recipe);

/* Bytes of the whole picture. */
size_t recipe_bytes(const Recipe *recipe);
/* Render it so many rows at a time (0: all at once). */
IfigStatus recipe_render(const Recipe *recipe, int threads, uint32_t rows, void *pixels);
/* FNV-1a of the rendered picture. */
uint64_t recipe_hash(const Recipe *recipe, int threads);

/* FNV-1a, from HASH_START. */
#define HASH_START 0xcbf29ce484222325u
uint64_t hash_bytes(uint64_t hash, const void *bytes, size_t count);

/* Everything that is said of a stone, in words and numbers: reading, blink, hunt, contrast,
 * narrowing, look-ups, a species file. FNV-1a. */
uint64_t words_hash(const IfigCatalogue *catalogue, const Recipe *recipe);

IfigCatalogue *open_catalogue(void);

#endif
