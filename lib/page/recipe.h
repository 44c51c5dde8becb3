/* SPDX-License-Identifier: MIT */
/* Inside the page room: a recipe while it is read. */
#ifndef IFIG_PAGE_RECIPE_ROOM_H
#define IFIG_PAGE_RECIPE_ROOM_H

#include <stddef.h>

#include "interfig/page_recipe.h"
#include "yaml_tree.h"

enum { IFIG_RECIPE_ITEMS_MAX = 200 };

/* Pieces of memory that live and die with a recipe. */
typedef struct IfigRecipePiece {
    struct IfigRecipePiece *next;
    max_align_t memory[];
} IfigRecipePiece;

/* What the public structure stands in. Texts point into the tree. */
typedef struct IfigRecipe {
    IfigPageRecipe shown; /* first: the one is cast to the other */
    IfigYamlTree tree;
    IfigRecipePiece *pieces;
    char *folder; /* that photos count from; NULL: where the program stands */
} IfigRecipe;

/* Zeroed memory; NULL, with the error said, where there is none. */
void *ifig_recipe_take(IfigRecipe *recipe, size_t size, IfigError *error);

/* recipe_values.c: a value of the tree, checked; failures name the place. */
IfigStatus ifig_recipe_text(const IfigRecipe *recipe, IfigYamlPlace place, const char *key,
                            const char **text, IfigError *error);
IfigStatus ifig_recipe_switch(const IfigRecipe *recipe, IfigYamlPlace place, const char *key,
                              int *is_on, IfigError *error);
/* words ends with NULL; *value is the place of the word. */
IfigStatus ifig_recipe_word(const IfigRecipe *recipe, IfigYamlPlace place, const char *key,
                            const char *const *words, int *value, IfigError *error);
typedef struct IfigRecipeRange {
    double low, high;
    const char *unit;
    int is_whole;
} IfigRecipeRange;
IfigStatus ifig_recipe_number(const IfigRecipe *recipe, IfigYamlPlace place, const char *key,
                              const IfigRecipeRange *range, double *value, IfigError *error);
/* A word, or a list of them. */
IfigStatus ifig_recipe_list(IfigRecipe *recipe, IfigYamlPlace place, const char *key,
                            const char *const **texts, size_t *count, IfigError *error);
/* Fail for a key that is none of `keys` (ends with NULL), naming the nearest. */
IfigStatus ifig_recipe_unknown(const IfigRecipe *recipe, IfigYamlPlace key, const char *where,
                               const char *const *keys, IfigError *error);

/* recipe_item.c */
IfigStatus ifig_recipe_read_item(IfigRecipe *recipe, IfigYamlPlace place, IfigPageItem *item,
                                 IfigError *error);

#endif
