/* SPDX-License-Identifier: MIT */
/* Print the hashes of 50 pictures and of what is said of the first ten, for builds to be compared:
 * recipe_hashes [PICTURES]. */
#include "recipes.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>

int main(int count, char **arguments)
{
    const unsigned pictures = count > 1 ? (unsigned)strtoul(arguments[1], NULL, 10) : 50;
    IfigCatalogue *catalogue = open_catalogue();
    for (unsigned i = 0; i < pictures; i++) {
        Recipe recipe;
        recipe_draw(catalogue, 14, i, &recipe);
        recipe.options.pixels = recipe.options.pixels < 32 ? recipe.options.pixels : 32;
        printf("picture %u %016" PRIx64 "\n", i, recipe_hash(&recipe, 2));
        if (i < pictures / 5) {
            printf("words %u %016" PRIx64 "\n", i, words_hash(catalogue, &recipe));
        }
        recipe_free(&recipe);
    }
    ifig_catalogue_free(catalogue);
    return 0;
}
