/* SPDX-License-Identifier: MIT */
/* interfig page: a handout from its recipe. */
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "arguments.h"
#include "commands.h"
#include "describe.h"
#include "page_item.h"
#include "print_recipe.h"

static int ends_in(const char *path, const char *end)
{
    const size_t length = strlen(path), tail = strlen(end);
    return length > tail && strcmp(path + length - tail, end) == 0;
}

static IfigCliStatus check_dpi(const IfigCliSettings *settings)
{
    const double least = 50.0, most = 1200.0;
    return !settings->given[IFIG_CLI_DPI] || (settings->dpi >= least && settings->dpi <= most)
               ? IFIG_CLI_OK
               : ifig_cli_refuse(settings,
                                 "--dpi: '%s' is out of range; allowed for a page: 50 to 1200; for "
                                 "example: --dpi 300",
                                 ifig_cli_number(settings->dpi).text);
}

static IfigCliStatus check_line(const IfigCliSettings *settings)
{
    if (settings->word == NULL) {
        return ifig_cli_refuse(
            settings, "no recipe is given; name one: interfig page RECIPE.yaml -o FILE.pdf "
                      "('interfig figure quartz --print-recipe' prints one)");
    }
    if (settings->given[IFIG_CLI_PRINT_RECIPE]) {
        return settings->output == NULL
                   ? IFIG_CLI_OK
                   : ifig_cli_refuse(settings, "--print-recipe makes no file; leave -o out");
    }
    if (settings->output == NULL) {
        return ifig_cli_refuse(settings, "-o is missing: it names the file and says by its ending "
                                         "what to write; for example: -o handout.pdf");
    }
    if (strcmp(settings->output, "-") == 0) {
        return isatty(STDOUT_FILENO)
                   ? ifig_cli_refuse(settings, "-o -: standard output is a terminal, which cannot "
                                               "show a PDF; lead it into a file or a pipe")
                   : check_dpi(settings);
    }
    if (!ends_in(settings->output, ".png") && !ends_in(settings->output, ".pdf") &&
        !ends_in(settings->output, ".svg")) {
        return ifig_cli_refuse(settings,
                               "-o: '%s' ends in neither .png, .pdf nor .svg, which says what to "
                               "write; for example: -o handout.pdf",
                               ifig_cli_shown(settings->output).text);
    }
    return check_dpi(settings);
}

static IfigCliStatus write_pages(const IfigCliSettings *settings, const IfigPageRecipe *recipe,
                                 const IfigPageScene *scenes)
{
    IfigPageOptions options = IFIG_PAGE_OPTIONS_INIT;
    IfigError error = IFIG_ERROR_INIT;
    char software[40];
    snprintf(software, sizeof software, "interfig %s", ifig_version());
    const IfigImageText text[] = {{"Software", software},
                                  {"Disclaimer", ifig_cli_evidence},
                                  {"Catalogue", ifig_catalogue_hash()}};
    const int is_piped = strcmp(settings->output, "-") == 0;
    options.dpi = settings->dpi;
    options.text = text;
    options.text_count = sizeof text / sizeof *text;
    options.format = is_piped ? IFIG_PAGE_PDF : IFIG_PAGE_BY_NAME;
    const IfigStatus status = ifig_page_write(settings->output, &options, recipe, scenes, &error);
    if (status != IFIG_OK) {
        const int is_of_recipe = status == IFIG_ERROR_UNSUITABLE || status == IFIG_ERROR_SYNTAX ||
                                 status == IFIG_ERROR_RANGE || status == IFIG_ERROR_NOT_FOUND;
        return ifig_cli_complain(
            ifig_cli_exit_status(status, is_of_recipe ? IFIG_CLI_FILE : IFIG_CLI_WORDS), "%s",
            error.message);
    }
    if (!is_piped) {
        ifig_cli_print_word(stdout, settings->output);
        printf(": %s, %zu figure%s\n", ifig_cli_shown(recipe->title).text, recipe->item_count,
               recipe->item_count == 1 ? "" : "s");
    }
    return IFIG_CLI_OK;
}

/* Every figure is set before the first is drawn: what is wrong is told at once. */
static IfigCliStatus make_pages(const IfigCliSettings *settings, const IfigPageRecipe *recipe)
{
    const size_t count = recipe->item_count;
    IfigCliItem *const items = calloc(count, sizeof *items);
    IfigPageScene *const scenes = calloc(count, sizeof *scenes);
    IfigCliStatus status = IFIG_CLI_OK;
    size_t opened = 0;
    if (items == NULL || scenes == NULL) {
        status = ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory for the figures of a page");
    }
    while (status == IFIG_CLI_OK && opened < count) {
        IfigCliItem *const item = &items[opened];
        status = ifig_cli_open_item(recipe, opened, item);
        scenes[opened++] = (IfigPageScene){.scene = &item->scene.scene,
                                           .texture = &item->scene.texture,
                                           .name = item->name,
                                           .description = item->description,
                                           .exposure_stops = item->settings.exposure_stops};
    }
    if (status == IFIG_CLI_OK) {
        status = settings->given[IFIG_CLI_PRINT_RECIPE] ? ifig_cli_print_page_recipe(recipe, items)
                                                        : write_pages(settings, recipe, scenes);
    }
    for (size_t i = 0; i < opened; i++) {
        ifig_cli_close_item(&items[i]);
    }
    free(items);
    free(scenes);
    return status;
}

IfigCliStatus ifig_cli_run_page(IfigCliSettings *settings)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigPageRecipe *recipe = NULL;
    const IfigCliStatus status = check_line(settings);
    if (status != IFIG_CLI_OK) {
        return status;
    }
    const IfigStatus read = ifig_page_recipe_read_file(settings->word, &recipe, &error);
    if (read != IFIG_OK) {
        return ifig_cli_complain(ifig_cli_exit_status(read, IFIG_CLI_FILE), "%s", error.message);
    }
    const IfigCliStatus ending = make_pages(settings, recipe);
    ifig_page_recipe_free(recipe);
    return ending;
}
