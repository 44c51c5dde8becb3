/* SPDX-License-Identifier: MIT */
#include "recipe.h"

#include <math.h>
#include <string.h>

#include "base.h"

static IfigWordText shown(const IfigRecipe *recipe, IfigYamlPlace place)
{
    return ifig_word_text(ifig_yaml_text(&recipe->tree, place));
}

IfigStatus ifig_recipe_text(const IfigRecipe *recipe, IfigYamlPlace place, const char *key,
                            const char **text, IfigError *error)
{
    if (ifig_yaml_node(&recipe->tree, place)->kind != IFIG_YAML_SCALAR) {
        return ifig_yaml_fail(&recipe->tree, place, error,
                              "'%s' must be text, not a list or mapping", key);
    }
    *text = ifig_yaml_text(&recipe->tree, place);
    return (*text)[0] != '\0'
               ? IFIG_OK
               : ifig_yaml_fail(&recipe->tree, place, error,
                                "'%s' is empty; write its value, or leave the key out", key);
}

IfigStatus ifig_recipe_word(const IfigRecipe *recipe, IfigYamlPlace place, const char *key,
                            const char *const *words, int *value, IfigError *error)
{
    const char *text = "";
    char allowed[160] = "";
    const IfigStatus status = ifig_recipe_text(recipe, place, key, &text, error);
    for (int i = 0; status == IFIG_OK && words[i] != NULL; i++) {
        if (strcmp(words[i], text) == 0) {
            *value = i;
            return IFIG_OK;
        }
        if (i > 0) {
            strncat(allowed, words[i + 1] != NULL ? ", " : " or ",
                    sizeof allowed - 1 - strlen(allowed));
        }
        strncat(allowed, words[i], sizeof allowed - 1 - strlen(allowed));
    }
    return status != IFIG_OK
               ? status
               : ifig_yaml_fail(&recipe->tree, place, error, "%s: '%s' is not known; allowed: %s",
                                key, shown(recipe, place).text, allowed);
}

IfigStatus ifig_recipe_switch(const IfigRecipe *recipe, IfigYamlPlace place, const char *key,
                              int *is_on, IfigError *error)
{
    static const char *const words[] = {"no", "yes", "false", "true", NULL};
    int value = 0;
    const IfigStatus status = ifig_recipe_word(recipe, place, key, words, &value, error);
    *is_on = value % 2;
    return status;
}

IfigStatus ifig_recipe_number(const IfigRecipe *recipe, IfigYamlPlace place, const char *key,
                              const IfigRecipeRange *range, double *value, IfigError *error)
{
    const char *text = "";
    const IfigStatus status = ifig_recipe_text(recipe, place, key, &text, error);
    if (status != IFIG_OK) {
        return status;
    }
    const int is_number = ifig_number_read(text, value);
    if (is_number && *value >= range->low && *value <= range->high &&
        (!range->is_whole || *value == floor(*value))) {
        return IFIG_OK;
    }
    return ifig_yaml_fail(&recipe->tree, place, error, "%s: '%s' is %s; allowed: %s to %s%s%s", key,
                          ifig_word_text(text).text,
                          !is_number                                   ? "not a number"
                          : range->is_whole && *value != floor(*value) ? "not a whole number"
                                                                       : "out of range",
                          ifig_number_text(range->low, 6).text,
                          ifig_number_text(range->high, 6).text, range->unit[0] != '\0' ? " " : "",
                          range->unit);
}

IfigStatus ifig_recipe_list(IfigRecipe *recipe, IfigYamlPlace place, const char *key,
                            const char *const **texts, size_t *count, IfigError *error)
{
    const IfigYamlNode *const node = ifig_yaml_node(&recipe->tree, place);
    const int is_list = node->kind == IFIG_YAML_LIST;
    *count = is_list ? node->child_count : 1;
    if (*count == 0) {
        return ifig_yaml_fail(&recipe->tree, place, error,
                              "'%s' is an empty list; fill it, or leave the key out", key);
    }
    const char **const list = ifig_recipe_take(recipe, *count * sizeof *list, error);
    IfigStatus status = list != NULL ? IFIG_OK : IFIG_ERROR_MEMORY;
    IfigYamlPlace at = is_list ? node->first : place;
    for (size_t i = 0; i < *count && status == IFIG_OK; i++) {
        status = ifig_recipe_text(recipe, at, key, &list[i], error);
        at = ifig_yaml_node(&recipe->tree, at)->next;
    }
    *texts = list;
    return status;
}

IfigStatus ifig_recipe_unknown(const IfigRecipe *recipe, IfigYamlPlace key, const char *where,
                               const char *const *keys, IfigError *error)
{
    const char *const word = ifig_yaml_text(&recipe->tree, key);
    const char *nearest = keys[0];
    size_t least = SIZE_MAX;
    char all[240] = "";
    for (size_t i = 0; keys[i] != NULL; i++) {
        const size_t distance = ifig_edit_distance(word, keys[i]);
        if (distance < least) {
            least = distance;
            nearest = keys[i];
        }
        strncat(all, i > 0 ? ", " : "", sizeof all - 1 - strlen(all));
        strncat(all, keys[i], sizeof all - 1 - strlen(all));
    }
    if (least <= 1 + strlen(word) / 3) {
        return ifig_yaml_fail(&recipe->tree, key, error,
                              "unknown key '%s' of %s; did you mean '%s'?",
                              ifig_word_text(word).text, where, nearest);
    }
    return ifig_yaml_fail(&recipe->tree, key, error, "unknown key '%s' of %s; its keys are %s",
                          ifig_word_text(word).text, where, all);
}
