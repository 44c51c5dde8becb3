/* SPDX-License-Identifier: MIT */
/* The recipe of a handout: refused with a place and a remedy, or read within the header's promises.
 */
#include <string.h>

#include "interfig/page_recipe.h"
#include "line_mutator.h"
#include "target.h"

size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t most, unsigned seed)
{
    return mutate_lines(data, size, most, seed);
}

static void check_photo(const IfigPagePhoto *photo)
{
    must(photo->path == NULL || photo->path[0] != '\0');
    must(photo->path == NULL || (photo->line >= 1 && photo->column >= 1));
    must(photo->path == NULL || photo->is_found || photo->radius >= 4.0);
    must(photo->turn_deg >= -3600.0 && photo->turn_deg <= 3600.0);
}

static void check_item(const IfigPageItem *item)
{
    must(item->line >= 1 && item->column >= 1);
    must(item->title == NULL || item->title[0] != '\0');
    must(item->caption == NULL || !item->caption_is_reading);
    must(item->show >= IFIG_PAGE_SHOW_FIGURE && item->show <= IFIG_PAGE_SHOW_FACE);
    must(item->reading >= IFIG_PAGE_READING_NONE && item->reading <= IFIG_PAGE_READING_FULL);
    must(item->labels >= IFIG_LABELS_NONE && item->labels <= IFIG_LABELS_FULL);
    for (size_t i = 0; i < item->observe_count; i++) {
        must(item->observe[i] != NULL && item->observe[i][0] != '\0');
    }
    for (size_t i = 0; i < item->setting_count; i++) {
        const IfigPageSetting *const setting = &item->settings[i];
        must(setting->name != NULL && setting->value_count >= 1);
        must(setting->line >= setting->key_line && setting->key_line >= item->line);
        for (size_t k = 0; k < setting->value_count; k++) {
            must(setting->values[k] != NULL && setting->values[k][0] != '\0');
        }
    }
    check_photo(&item->photo);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    IfigPageRecipe *recipe = NULL;
    IfigError error = IFIG_ERROR_INIT;
    const IfigStatus status =
        ifig_page_recipe_read_text((const char *)data, size, "fuzz.yaml", &recipe, &error);
    must((status == IFIG_OK) == (recipe != NULL));
    if (recipe == NULL) {
        must(strncmp(error.message, "fuzz.yaml:", strlen("fuzz.yaml:")) == 0);
        must(strchr(error.message, '\n') == NULL);
        return 0;
    }
    must(recipe->title != NULL && recipe->language != NULL);
    must(recipe->columns >= 1 && recipe->columns <= 4);
    must(recipe->diameter_mm == 0.0 || (recipe->diameter_mm >= 15 && recipe->diameter_mm <= 180));
    must(recipe->item_count >= 1 && recipe->item_count <= 200);
    canary(recipe->item_count == 2 || recipe->columns == 1 || recipe->columns == 4);
    for (size_t i = 0; i < recipe->item_count; i++) {
        check_item(&recipe->items[i]);
    }
    ifig_page_recipe_free(recipe);
    return 0;
}
