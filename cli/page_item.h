/* SPDX-License-Identifier: MIT */
/* From an item of a page's recipe to settings and a scene. */
#ifndef IFIG_CLI_PAGE_ITEM_H
#define IFIG_CLI_PAGE_ITEM_H

#include "interfig/page_recipe.h"

#include "exit_status.h"
#include "scene_parts.h"

enum { IFIG_CLI_ITEM_TEXTS_MAX = 64 };

/* An item made ready; the settings point into its texts. */
typedef struct IfigCliItem {
    char place[320]; /* file:line:column */
    char *texts[IFIG_CLI_ITEM_TEXTS_MAX];
    size_t text_count;
    IfigCliSettings settings;
    IfigCliScene scene;
    int is_open;
    char *name, *description; /* of the scene */
} IfigCliItem;

/* Read the settings by the table of options and set the scene. What is wrong has been complained
 * about, its place in the recipe before it. Close the item in every case. */
IfigCliStatus ifig_cli_open_item(const IfigPageRecipe *recipe, size_t index, IfigCliItem *item);
void ifig_cli_close_item(IfigCliItem *item);

#endif
