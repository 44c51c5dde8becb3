/* SPDX-License-Identifier: MIT */
#include "page_item.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "arguments.h"
#include "commands.h"
#include "describe.h"
#include "plot.h"
#include "scene.h"

static const char STONE[] = "stone";

static void set_place(const IfigPageRecipe *recipe, size_t line, size_t column, IfigCliItem *item)
{
    const size_t length = strlen(recipe->name), most = 256;
    snprintf(item->place, sizeof item->place, "%s%s:%zu:%zu", length > most ? "..." : "",
             recipe->name + (length > most ? length - most : 0), line, column);
    for (char *at = item->place; *at != '\0'; at++) {
        *at = (unsigned char)*at < 0x20 || *at == 0x7f ? '?' : *at;
    }
    item->settings.place = item->place;
}

static IfigCliStatus no_memory(void)
{
    return ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory for the figures of a page");
}

/* Keep a text as long as the item. */
static const char *keep(IfigCliItem *item, char *text)
{
    if (text == NULL || item->text_count == IFIG_CLI_ITEM_TEXTS_MAX) {
        free(text);
        return NULL;
    }
    item->texts[item->text_count++] = text;
    return text;
}

/* "10,45" of a list of 10 and 45. */
static const char *joined(IfigCliItem *item, const IfigPageSetting *setting)
{
    size_t size = 1;
    if (setting->value_count == 1) {
        return setting->values[0];
    }
    for (size_t i = 0; i < setting->value_count; i++) {
        size += strlen(setting->values[i]) + 1;
    }
    char *const text = calloc(size, 1);
    for (size_t i = 0; text != NULL && i < setting->value_count; i++) {
        strcat(text, i > 0 ? "," : "");
        strcat(text, setting->values[i]);
    }
    return keep(item, text);
}

/* A file that lies beside the recipe is meant rather than one where the program stands. */
static const char *beside(const IfigPageRecipe *recipe, IfigCliItem *item, const char *value)
{
    const char *const slash = strrchr(recipe->name, '/');
    char *path = NULL;
    if (slash == NULL || value[0] == '/' ||
        asprintf(&path, "%.*s/%s", (int)(slash - recipe->name), recipe->name, value) < 0) {
        return value;
    }
    if (access(path, F_OK) != 0) {
        free(path);
        return value;
    }
    return keep(item, path);
}

static int is_page_key(const char *name)
{
    for (const char *const *key = ifig_page_figure_keys(); *key != NULL; key++) {
        if (strcmp(*key, name) == 0) {
            return 1;
        }
    }
    return strcmp(name, STONE) == 0;
}

/* 1 for an option that a figure of a recipe may have. */
static int has_part(int id, int command)
{
    const IfigCliOption *const option = ifig_cli_option(id);
    const int is_the_pages = id == IFIG_CLI_SIZE || id == IFIG_CLI_DEPTH || id == IFIG_CLI_DPI ||
                             id == IFIG_CLI_RANGE || is_page_key(option->name);
    return (option->commands & command) != 0 && !is_the_pages &&
           (option->write != NULL || id == IFIG_CLI_POLARS);
}

static IfigCliStatus refuse_unknown(const IfigPageSetting *setting, const IfigCliItem *item)
{
    enum { NAMES_MAX = IFIG_CLI_OPTION_COUNT + 16 };
    const char *names[NAMES_MAX];
    size_t count = 0;
    names[count++] = STONE;
    for (const char *const *key = ifig_page_figure_keys(); *key != NULL && count < 16; key++) {
        names[count++] = *key;
    }
    for (int id = 0; id < IFIG_CLI_OPTION_COUNT; id++) {
        if (has_part(id, item->settings.command)) {
            names[count++] = ifig_cli_option(id)->name;
        }
    }
    const char *const nearest = ifig_nearest_word(setting->name, names, count);
    const IfigCliShown shown = ifig_cli_shown(setting->name);
    return nearest != NULL
               ? ifig_cli_refuse(&item->settings,
                                 "unknown key '%s' of a figure; did you mean '%s'?", shown.text,
                                 nearest)
               : ifig_cli_refuse(&item->settings,
                                 "unknown key '%s' of a figure; 'interfig page --help' and "
                                 "'interfig figure --help' list them all",
                                 shown.text);
}

static IfigCliStatus refuse_partless(int id, const IfigCliItem *item)
{
    const char *const name = ifig_cli_option(id)->name;
    if (id == IFIG_CLI_RANGE) {
        return ifig_cli_refuse(&item->settings,
                               "range draws three figures in one; on a page give each a figure of "
                               "its own, by its indices");
    }
    if (id == IFIG_CLI_SIZE || id == IFIG_CLI_DEPTH || id == IFIG_CLI_DPI) {
        return ifig_cli_refuse(&item->settings,
                               "%s has no place on a page, which gives a figure the pixels it "
                               "prints; leave it out, and see 'diameter' and interfig page --dpi",
                               name);
    }
    return ifig_cli_refuse(&item->settings, "%s has no place in a recipe; leave it out", name);
}

/* "colourless: yes" */
static IfigCliStatus take_switch(int id, const char *value, IfigCliItem *item)
{
    const int is_on = strcmp(value, "yes") == 0 || strcmp(value, "true") == 0;
    if (is_on) {
        return ifig_cli_take_option(item->settings.command, id, NULL, &item->settings);
    }
    return strcmp(value, "no") == 0 || strcmp(value, "false") == 0
               ? IFIG_CLI_OK
               : ifig_cli_refuse(&item->settings, "%s: '%s' is not known; allowed: yes or no",
                                 ifig_cli_option(id)->name, ifig_cli_shown(value).text);
}

static IfigCliStatus take_files(const IfigPageRecipe *recipe, int id,
                                const IfigPageSetting *setting, IfigCliItem *item)
{
    IfigCliStatus status = IFIG_CLI_OK;
    for (size_t i = 0; i < setting->value_count && status == IFIG_CLI_OK; i++) {
        const char *const path = beside(recipe, item, setting->values[i]);
        status = path == NULL
                     ? no_memory()
                     : ifig_cli_take_option(item->settings.command, id, path, &item->settings);
    }
    return status;
}

static IfigCliStatus take_setting(const IfigPageRecipe *recipe, const IfigPageSetting *setting,
                                  IfigCliItem *item)
{
    int id = 0;
    while (id < IFIG_CLI_OPTION_COUNT && strcmp(ifig_cli_option(id)->name, setting->name) != 0) {
        id++;
    }
    set_place(recipe, setting->key_line, setting->key_column, item);
    if (strcmp(setting->name, STONE) != 0 && id == IFIG_CLI_OPTION_COUNT) {
        return refuse_unknown(setting, item);
    }
    const int is_known_here =
        id < IFIG_CLI_OPTION_COUNT && (ifig_cli_option(id)->commands & item->settings.command) != 0;
    if (is_known_here && !has_part(id, item->settings.command)) {
        return refuse_partless(id, item);
    }
    set_place(recipe, setting->line, setting->column, item);
    if (id == IFIG_CLI_SPECIES_FILE || id == IFIG_CLI_LAMP) {
        return take_files(recipe, id, setting, item);
    }
    const char *const value = joined(item, setting);
    if (value == NULL) {
        return no_memory();
    }
    if (id == IFIG_CLI_OPTION_COUNT) {
        item->settings.word = item->settings.words[0] = value;
        item->settings.word_count = 1;
        return IFIG_CLI_OK;
    }
    return ifig_cli_option(id)->argument == NULL
               ? take_switch(id, value, item)
               : ifig_cli_take_option(item->settings.command, id, value, &item->settings);
}

/* What a reader must know to set the stone up alike; usual settings go without saying. */
static void write_description(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    static const char *const lamps[] = {NULL, "tungsten light", "white LED light",
                                        "fluorescent light", "sodium light"};
    const char *const degree = "\xc2\xb0";
    if (settings->layer_count == 0) {
        fprintf(out, "%s mm", ifig_cli_number(settings->thickness_mm).text);
    } else {
        fprintf(out, "%zu layers", settings->layer_count);
    }
    if (settings->given[IFIG_CLI_VIEW] && scene->facts.character != IFIG_ISOTROPIC) {
        fprintf(out, ", view %s", ifig_cli_view_word(settings));
    }
    if (settings->tilt_deg != 0.0) {
        fprintf(out, ", tilted %s%s toward %s%s", ifig_cli_number(settings->tilt_deg).text, degree,
                ifig_cli_number(settings->tilt_azimuth_deg).text, degree);
    }
    if (settings->stage_deg != 0.0) {
        fprintf(out, ", stage %s%s", ifig_cli_number(settings->stage_deg).text, degree);
    }
    if (settings->lens == IFIG_LENS_OBJECTIVE) {
        fprintf(out, ", objective NA %s", ifig_cli_number(settings->aperture).text);
    }
    if (settings->lamp == IFIG_CLI_LAMP_FILE) {
        fputs(", a measured lamp", out);
    } else if (settings->lamp == IFIG_CLI_LAMP_LINE) {
        fprintf(out, ", light of %s nm", ifig_cli_number(settings->lamp_line_nm).text);
    } else if (lamps[settings->lamp] != NULL) {
        fprintf(out, ", %s", lamps[settings->lamp]);
    }
    if (settings->given[IFIG_CLI_POLARS] && settings->polars != IFIG_CLI_POLARS_CROSSED) {
        fprintf(out, ", %s polars",
                settings->polars == IFIG_CLI_POLARS_PARALLEL ? "parallel" : "circular");
    }
    if (settings->plate != IFIG_PLATE_NONE) {
        fprintf(out, ", %s",
                settings->plate == IFIG_PLATE_GYPSUM ? "full-wave plate"
                : settings->plate == IFIG_PLATE_MICA ? "quarter-wave plate"
                                                     : "quartz wedge");
    }
}

IfigCliStatus ifig_cli_open_item(const IfigPageRecipe *recipe, size_t index, IfigCliItem *item)
{
    const IfigCliKept nothing = {NULL, NULL};
    const IfigPageItem *const asked = &recipe->items[index];
    IfigCliStatus status = IFIG_CLI_OK;
    memset(item, 0, sizeof *item);
    item->settings = ifig_cli_default_settings();
    item->settings.command = asked->show == IFIG_PAGE_SHOW_FACE ? IFIG_CLI_FACE : IFIG_CLI_FIGURE;
    for (size_t i = 0; i < asked->setting_count && status == IFIG_CLI_OK; i++) {
        status = take_setting(recipe, &asked->settings[i], item);
    }
    if (status != IFIG_CLI_OK) {
        return status;
    }
    item->settings.labels = (int)asked->labels;
    set_place(recipe, asked->line, asked->column, item);
    item->is_open = 1;
    status = ifig_cli_open_scene(&item->settings, &nothing, &item->scene);
    if (status == IFIG_CLI_OK) {
        item->name = ifig_cli_write_text(ifig_cli_write_stone, &item->settings, &item->scene);
        item->description = ifig_cli_write_text(write_description, &item->settings, &item->scene);
        status = item->name != NULL && item->description != NULL ? IFIG_CLI_OK : no_memory();
    }
    return status;
}

void ifig_cli_close_item(IfigCliItem *item)
{
    if (item->is_open) {
        ifig_cli_close_scene(&item->scene);
    }
    for (size_t i = 0; i < item->text_count; i++) {
        free(item->texts[i]);
    }
    free(item->name);
    free(item->description);
}
