/* SPDX-License-Identifier: MIT */
/* A recipe's file, and its keys above the figures. */
#include "recipe.h"

#include <stdlib.h>
#include <string.h>

#include "image.h"

void *ifig_recipe_take(IfigRecipe *recipe, size_t size, IfigError *error)
{
    IfigRecipePiece *const piece = calloc(1, sizeof *piece + size);
    if (piece == NULL) {
        ifig_fail(error, IFIG_ERROR_MEMORY, "no memory to read a recipe");
        return NULL;
    }
    piece->next = recipe->pieces;
    recipe->pieces = piece;
    return piece->memory;
}

static IfigStatus read_figures(IfigRecipe *recipe, IfigYamlPlace place, IfigError *error)
{
    const IfigYamlNode *const node = ifig_yaml_node(&recipe->tree, place);
    if (node->kind != IFIG_YAML_LIST) {
        return ifig_yaml_fail(&recipe->tree, place, error,
                              "'figures' must be a list; begin each figure with '- stone: NAME'");
    }
    if (node->child_count < 1 || node->child_count > IFIG_RECIPE_ITEMS_MAX) {
        return ifig_yaml_fail(&recipe->tree, place, error, "figures: %zu of them; allowed: 1 to %d",
                              node->child_count, IFIG_RECIPE_ITEMS_MAX);
    }
    IfigPageItem *const items = ifig_recipe_take(recipe, node->child_count * sizeof *items, error);
    IfigStatus status = items != NULL ? IFIG_OK : IFIG_ERROR_MEMORY;
    IfigYamlPlace at = node->first;
    for (size_t i = 0; i < node->child_count && status == IFIG_OK; i++) {
        status = ifig_recipe_read_item(recipe, at, &items[i], error);
        at = ifig_yaml_node(&recipe->tree, at)->next;
    }
    recipe->shown.items = items;
    recipe->shown.item_count = node->child_count;
    return status;
}

typedef enum Key {
    TITLE = 0,
    SUBTITLE,
    INTRO,
    NOTES,
    LANGUAGE,
    PAPER,
    COLUMNS,
    DIAMETER,
    PAGES,
    FIGURES,
    KEY_COUNT
} Key;
static const char *const KEYS[KEY_COUNT + 1] = {"title",    "subtitle", "intro",   "notes",
                                                "language", "paper",    "columns", "diameter",
                                                "pages",    "figures",  NULL};

static IfigStatus read_number(const IfigRecipe *recipe, IfigYamlPlace place, Key key,
                              double *number, IfigError *error)
{
    static const IfigRecipeRange ranges[KEY_COUNT] = {
        [COLUMNS] = {1, 4, "", 1}, [DIAMETER] = {15, 180, "mm", 0}, [PAGES] = {1, 500, "", 1}};
    return ifig_recipe_number(recipe, place, KEYS[key], &ranges[key], number, error);
}

static IfigStatus read_value(IfigRecipe *recipe, IfigYamlPlace place, Key key, IfigError *error)
{
    static const char *const papers[] = {"either", "a4", "letter", NULL};
    static const char *const languages[] = {"en", NULL};
    IfigPageRecipe *const shown = &recipe->shown;
    const char **const texts[] = {&shown->title, &shown->subtitle, &shown->intro, &shown->notes};
    int word = 0;
    double number = 0.0;
    IfigStatus status = IFIG_OK;
    switch (key) {
    case LANGUAGE:
        return ifig_recipe_word(recipe, place, KEYS[key], languages, &word, error);
    case PAPER:
        status = ifig_recipe_word(recipe, place, KEYS[key], papers, &word, error);
        shown->paper = (IfigPaper)word;
        return status;
    case COLUMNS:
        status = read_number(recipe, place, key, &number, error);
        shown->columns = (unsigned)number;
        return status;
    case DIAMETER:
        return read_number(recipe, place, key, &shown->diameter_mm, error);
    case PAGES:
        status = read_number(recipe, place, key, &number, error);
        shown->most_pages = (unsigned)number;
        return status;
    case FIGURES:
        return read_figures(recipe, place, error);
    default:
        return ifig_recipe_text(recipe, place, KEYS[key], texts[key], error);
    }
}

static IfigStatus read_key(IfigRecipe *recipe, IfigYamlPlace place, IfigError *error)
{
    for (int key = 0; key < KEY_COUNT; key++) {
        if (strcmp(ifig_yaml_text(&recipe->tree, place), KEYS[key]) == 0) {
            return read_value(recipe, ifig_yaml_node(&recipe->tree, place)->next, (Key)key, error);
        }
    }
    for (const char *const *key = ifig_page_figure_keys(); *key != NULL; key++) {
        if (strcmp(ifig_yaml_text(&recipe->tree, place), *key) == 0) {
            return ifig_yaml_fail(&recipe->tree, place, error,
                                  "the key '%s' belongs to a figure; indent it below '- stone:' in "
                                  "the list 'figures'",
                                  *key);
        }
    }
    return ifig_recipe_unknown(recipe, place, "a recipe", KEYS, error);
}

static IfigStatus read_tree(IfigRecipe *recipe, IfigError *error)
{
    const IfigYamlNode *const root = ifig_yaml_node(&recipe->tree, recipe->tree.root);
    IfigStatus status = IFIG_OK;
    if (root->kind != IFIG_YAML_MAPPING) {
        return ifig_yaml_fail(&recipe->tree, recipe->tree.root, error,
                              "a recipe must be keys with values; begin with 'title: ...' and "
                              "'figures:'");
    }
    IfigYamlPlace key = root->first;
    for (size_t i = 0; i < root->child_count && status == IFIG_OK; i += 2) {
        status = read_key(recipe, key, error);
        key = ifig_yaml_node(&recipe->tree, ifig_yaml_node(&recipe->tree, key)->next)->next;
    }
    if (status == IFIG_OK && recipe->shown.title == NULL) {
        return ifig_yaml_fail(&recipe->tree, recipe->tree.root, error,
                              "the recipe has no title; add a line 'title: ...'");
    }
    if (status == IFIG_OK && recipe->shown.items == NULL) {
        return ifig_yaml_fail(&recipe->tree, recipe->tree.root, error,
                              "the recipe has no figures; add 'figures:' and a list of them");
    }
    return status;
}

/* "folder" of "folder/name.yaml"; NULL where the name has none. */
static IfigStatus set_names(IfigRecipe *recipe, const char *name, int is_file, IfigError *error)
{
    const char *const slash = is_file ? strrchr(name, '/') : NULL;
    const size_t size = strlen(name) + 1;
    char *const copy = ifig_recipe_take(recipe, size, error);
    if (copy == NULL) {
        return IFIG_ERROR_MEMORY;
    }
    memcpy(copy, name, size);
    recipe->shown.name = copy;
    if (slash != NULL) {
        const size_t length = slash == name ? 1 : (size_t)(slash - name);
        recipe->folder = ifig_recipe_take(recipe, length + 1, error);
        if (recipe->folder == NULL) {
            return IFIG_ERROR_MEMORY;
        }
        memcpy(recipe->folder, name, length);
    }
    return IFIG_OK;
}

static IfigStatus read_text(const char *text, size_t length, const char *name, int is_file,
                            IfigPageRecipe **shown, IfigError *error)
{
    IfigRecipe *const recipe = calloc(1, sizeof *recipe);
    if (recipe == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory to read a recipe");
    }
    recipe->shown = (IfigPageRecipe){.language = "en", .columns = 2};
    IfigStatus status = set_names(recipe, name, is_file, error);
    if (status == IFIG_OK) {
        status = ifig_yaml_parse(text, length, recipe->shown.name, &recipe->tree, error);
    }
    if (status == IFIG_OK) {
        status = read_tree(recipe, error);
    }
    if (status == IFIG_OK) {
        *shown = &recipe->shown;
    } else {
        ifig_page_recipe_free(&recipe->shown);
    }
    return status;
}

IfigStatus ifig_page_recipe_read_text(const char *text, size_t length, const char *name,
                                      IfigPageRecipe **recipe, IfigError *error)
{
    if (recipe != NULL) {
        *recipe = NULL;
    }
    if (text == NULL || name == NULL || recipe == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_page_recipe_read_text was given a null pointer; give the text, a "
                         "name for it and a place for the recipe");
    }
    return read_text(text, length, name, 0, recipe, error);
}

IfigStatus ifig_page_recipe_read_file(const char *path, IfigPageRecipe **recipe, IfigError *error)
{
    char *text = NULL;
    if (recipe != NULL) {
        *recipe = NULL;
    }
    if (path == NULL || recipe == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_page_recipe_read_file was given a null pointer; give a path and a "
                         "place for the recipe");
    }
    IfigStatus status = ifig_file_read_text(path, &text, error);
    if (status == IFIG_OK) {
        status = read_text(text, strlen(text), path, 1, recipe, error);
    }
    ifig_text_free(text);
    return status;
}

void ifig_page_recipe_free(IfigPageRecipe *shown)
{
    IfigRecipe *const recipe = (IfigRecipe *)shown;
    if (recipe == NULL) {
        return;
    }
    ifig_yaml_free(&recipe->tree);
    while (recipe->pieces != NULL) {
        IfigRecipePiece *const next = recipe->pieces->next;
        free(recipe->pieces);
        recipe->pieces = next;
    }
    free(recipe);
}
