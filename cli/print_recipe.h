/* SPDX-License-Identifier: MIT */
/* --print-recipe: what a command would draw, as a recipe for interfig page. */
#ifndef IFIG_CLI_PRINT_RECIPE_H
#define IFIG_CLI_PRINT_RECIPE_H

#include "page_item.h"

/* Of the command of the settings. */
IfigCliStatus ifig_cli_print_recipe(IfigCliSettings *settings);
/* Of a page: its recipe with every option spelled out. */
IfigCliStatus ifig_cli_print_page_recipe(const IfigPageRecipe *recipe, const IfigCliItem *items);

#endif
