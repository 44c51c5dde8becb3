/* SPDX-License-Identifier: MIT */
/* One figure of a recipe. Keys that the page does not know are options of the scene, which the
 * caller checks. */
#include <stdio.h>
#include <string.h>

#include "base.h"
#include "recipe.h"

enum { OBSERVE_MAX = 12 };

typedef IfigStatus Reader(IfigRecipe *recipe, IfigYamlPlace place, IfigPageItem *item,
                          IfigError *error);

static IfigStatus read_title(IfigRecipe *recipe, IfigYamlPlace place, IfigPageItem *item,
                             IfigError *error)
{
    return ifig_recipe_text(recipe, place, "title", &item->title, error);
}

static IfigStatus read_caption(IfigRecipe *recipe, IfigYamlPlace place, IfigPageItem *item,
                               IfigError *error)
{
    const IfigStatus status = ifig_recipe_text(recipe, place, "caption", &item->caption, error);
    if (status == IFIG_OK && strcmp(item->caption, "reading") == 0) {
        item->caption = NULL;
        item->caption_is_reading = 1;
    }
    return status;
}

static IfigStatus read_show(IfigRecipe *recipe, IfigYamlPlace place, IfigPageItem *item,
                            IfigError *error)
{
    static const char *const words[] = {"figure", "face", NULL};
    int value = 0;
    const IfigStatus status = ifig_recipe_word(recipe, place, "show", words, &value, error);
    item->show = (IfigPageShow)value;
    return status;
}

static IfigStatus read_reading(IfigRecipe *recipe, IfigYamlPlace place, IfigPageItem *item,
                               IfigError *error)
{
    static const char *const words[] = {"none", "short", "full", NULL};
    int value = 0;
    const IfigStatus status = ifig_recipe_word(recipe, place, "reading", words, &value, error);
    item->reading = (IfigPageReadingKind)value;
    return status;
}

static IfigStatus read_labels(IfigRecipe *recipe, IfigYamlPlace place, IfigPageItem *item,
                              IfigError *error)
{
    static const char *const words[] = {"none", "basic", "full", NULL};
    int value = 0;
    const IfigStatus status = ifig_recipe_word(recipe, place, "labels", words, &value, error);
    item->labels = (IfigLabels)value;
    return status;
}

static IfigStatus read_sketch(IfigRecipe *recipe, IfigYamlPlace place, IfigPageItem *item,
                              IfigError *error)
{
    return ifig_recipe_switch(recipe, place, "sketch", &item->has_sketch, error);
}

static IfigStatus read_new_page(IfigRecipe *recipe, IfigYamlPlace place, IfigPageItem *item,
                                IfigError *error)
{
    return ifig_recipe_switch(recipe, place, "new-page", &item->begins_page, error);
}

static IfigStatus read_observe(IfigRecipe *recipe, IfigYamlPlace place, IfigPageItem *item,
                               IfigError *error)
{
    const IfigStatus status =
        ifig_recipe_list(recipe, place, "observe", &item->observe, &item->observe_count, error);
    if (status == IFIG_OK && item->observe_count > OBSERVE_MAX) {
        return ifig_yaml_fail(&recipe->tree, place, error,
                              "observe: %zu lines to fill in are too many; allowed: 1 to 12",
                              item->observe_count);
    }
    return status;
}

/* A name counts from the recipe's folder. */
static IfigStatus read_file(IfigRecipe *recipe, IfigYamlPlace place, IfigPagePhoto *photo,
                            IfigError *error)
{
    const IfigStatus status = ifig_recipe_text(recipe, place, "photo", &photo->path, error);
    if (status != IFIG_OK || photo->path[0] == '/' || recipe->folder == NULL) {
        return status;
    }
    const size_t size = strlen(recipe->folder) + strlen(photo->path) + 2;
    char *const path = ifig_recipe_take(recipe, size, error);
    if (path == NULL) {
        return IFIG_ERROR_MEMORY;
    }
    snprintf(path, size, "%s/%s", recipe->folder, photo->path);
    photo->path = path;
    return IFIG_OK;
}

static IfigStatus read_circle(IfigRecipe *recipe, IfigYamlPlace place, IfigPagePhoto *photo,
                              IfigError *error)
{
    static const IfigRecipeRange anywhere = {-65535, 65535, "pixels", 0},
                                 size = {4, 65535, "pixels", 0};
    const IfigYamlNode *const node = ifig_yaml_node(&recipe->tree, place);
    double *const numbers[3] = {&photo->x, &photo->y, &photo->radius};
    photo->is_found = strcmp(ifig_yaml_text(&recipe->tree, place), "found") == 0;
    if (photo->is_found) {
        return IFIG_OK;
    }
    if (node->kind != IFIG_YAML_LIST || node->child_count != 3) {
        return ifig_yaml_fail(&recipe->tree, place, error,
                              "circle: write found, or [x, y, radius] in pixels from the top left "
                              "corner, such as [800, 600, 410]");
    }
    IfigStatus status = IFIG_OK;
    IfigYamlPlace at = node->first;
    for (int i = 0; i < 3 && status == IFIG_OK; i++) {
        status =
            ifig_recipe_number(recipe, at, "circle", i == 2 ? &size : &anywhere, numbers[i], error);
        at = ifig_yaml_node(&recipe->tree, at)->next;
    }
    return status;
}

static IfigStatus read_photo_key(IfigRecipe *recipe, IfigYamlPlace key, IfigPagePhoto *photo,
                                 IfigError *error)
{
    static const char *const keys[] = {"file", "circle", "turn", NULL};
    static const IfigRecipeRange turns = {-3600, 3600, "degrees", 0};
    const char *const name = ifig_yaml_text(&recipe->tree, key);
    const IfigYamlPlace value = ifig_yaml_node(&recipe->tree, key)->next;
    if (strcmp(name, keys[0]) == 0) {
        return read_file(recipe, value, photo, error);
    }
    if (strcmp(name, keys[1]) == 0) {
        return read_circle(recipe, value, photo, error);
    }
    if (strcmp(name, keys[2]) == 0) {
        return ifig_recipe_number(recipe, value, "turn", &turns, &photo->turn_deg, error);
    }
    return ifig_recipe_unknown(recipe, key, "a photo", keys, error);
}

static IfigStatus read_photo(IfigRecipe *recipe, IfigYamlPlace place, IfigPageItem *item,
                             IfigError *error)
{
    const IfigYamlNode *const node = ifig_yaml_node(&recipe->tree, place);
    IfigPagePhoto *const photo = &item->photo;
    photo->is_found = 1;
    photo->line = node->line;
    photo->column = node->column;
    if (node->kind != IFIG_YAML_MAPPING) {
        return read_file(recipe, place, photo, error);
    }
    IfigStatus status = IFIG_OK;
    IfigYamlPlace key = node->first;
    for (size_t i = 0; i < node->child_count && status == IFIG_OK; i += 2) {
        status = read_photo_key(recipe, key, photo, error);
        key = ifig_yaml_node(&recipe->tree, ifig_yaml_node(&recipe->tree, key)->next)->next;
    }
    return status != IFIG_OK || photo->path != NULL
               ? status
               : ifig_yaml_fail(&recipe->tree, place, error,
                                "photo: no file is named; add file: NAME.jpg");
}

/* Each key of KEYS in its place. */
static const char *const KEYS[] = {"title",  "caption", "show",  "reading",  "labels",
                                   "sketch", "observe", "photo", "new-page", NULL};
static Reader *const READERS[] = {read_title,  read_caption, read_show,  read_reading, read_labels,
                                  read_sketch, read_observe, read_photo, read_new_page};

const char *const *ifig_page_figure_keys(void)
{
    return KEYS;
}

static IfigStatus read_setting(IfigRecipe *recipe, IfigYamlPlace key, IfigPageSetting *setting,
                               IfigError *error)
{
    const IfigYamlNode *const node = ifig_yaml_node(&recipe->tree, key);
    const IfigYamlNode *const value = ifig_yaml_node(&recipe->tree, node->next);
    setting->name = ifig_yaml_text(&recipe->tree, key);
    setting->key_line = node->line;
    setting->key_column = node->column;
    setting->line = value->line;
    setting->column = value->column;
    return ifig_recipe_list(recipe, node->next, setting->name, &setting->values,
                            &setting->value_count, error);
}

static IfigStatus read_key(IfigRecipe *recipe, IfigYamlPlace key, IfigPageItem *item,
                           IfigPageSetting *settings, IfigError *error)
{
    for (size_t i = 0; KEYS[i] != NULL; i++) {
        if (strcmp(ifig_yaml_text(&recipe->tree, key), KEYS[i]) == 0) {
            return READERS[i](recipe, ifig_yaml_node(&recipe->tree, key)->next, item, error);
        }
    }
    return read_setting(recipe, key, &settings[item->setting_count++], error);
}

IfigStatus ifig_recipe_read_item(IfigRecipe *recipe, IfigYamlPlace place, IfigPageItem *item,
                                 IfigError *error)
{
    const IfigYamlNode *const node = ifig_yaml_node(&recipe->tree, place);
    item->line = node->line;
    item->column = node->column;
    if (node->kind != IFIG_YAML_MAPPING || node->child_count == 0) {
        return ifig_yaml_fail(&recipe->tree, place, error,
                              "a figure must be keys with values, such as 'stone: quartz'");
    }
    IfigPageSetting *const settings =
        ifig_recipe_take(recipe, node->child_count / 2 * sizeof *settings, error);
    IfigStatus status = settings != NULL ? IFIG_OK : IFIG_ERROR_MEMORY;
    IfigYamlPlace key = node->first;
    for (size_t i = 0; i < node->child_count && status == IFIG_OK; i += 2) {
        status = read_key(recipe, key, item, settings, error);
        key = ifig_yaml_node(&recipe->tree, ifig_yaml_node(&recipe->tree, key)->next)->next;
    }
    item->settings = settings;
    return status;
}
