/* SPDX-License-Identifier: MIT */
/* interfig figure, face and turn: the picture. */
#include <string.h>
#include <unistd.h>

#include "arguments.h"
#include "commands.h"
#include "describe.h"
#include "labelled.h"
#include "picture.h"
#include "recipe.h"
#include "scene.h"
#include "turn.h"

/* What a picture holds that can be rendered anew. */
typedef struct Origin {
    char *recipe, *species, *lamp;
} Origin;

static void free_origin(Origin *origin)
{
    ifig_text_free(origin->recipe);
    ifig_text_free(origin->species);
    ifig_text_free(origin->lamp);
}

/* Read a text that the picture may hold; missing is fine, then *text is NULL. */
static IfigCliStatus read_text(const char *path, const char *keyword, char **text)
{
    IfigError error = IFIG_ERROR_INIT;
    const IfigStatus status = ifig_png_read_text(path, keyword, text, &error);
    if (status == IFIG_OK || (status == IFIG_ERROR_NOT_FOUND && access(path, F_OK) == 0)) {
        return IFIG_CLI_OK;
    }
    return ifig_cli_complain(ifig_cli_exit_status(status, IFIG_CLI_FILE), "--again: %s",
                             error.message);
}

/* One line where another program or other data made the picture: the pixels may differ. */
static IfigCliStatus warn_of_change(const char *path)
{
    char *software = NULL, *hash = NULL, mine[40];
    IfigCliStatus status = read_text(path, "Software", &software);
    if (status == IFIG_CLI_OK) {
        status = read_text(path, "Catalogue", &hash);
    }
    snprintf(mine, sizeof mine, "interfig %s", ifig_version());
    const int is_other = software == NULL || strcmp(software, mine) != 0;
    const int has_changed = hash == NULL || strcmp(hash, ifig_catalogue_hash()) != 0;
    if (status == IFIG_CLI_OK && (is_other || has_changed)) {
        ifig_cli_complain(IFIG_CLI_OK, "warning: '%s' was made by %s%s; the new picture may differ",
                          ifig_cli_shown(path).text,
                          software != NULL ? ifig_cli_shown(software).text : "another program",
                          has_changed ? " with another catalogue" : "");
    }
    ifig_text_free(software);
    ifig_text_free(hash);
    return status;
}

static IfigCliStatus read_origin(const char *path, Origin *origin)
{
    IfigCliStatus status = read_text(path, "Recipe", &origin->recipe);
    if (status == IFIG_CLI_OK && origin->recipe == NULL) {
        return ifig_cli_complain(IFIG_CLI_DATA,
                                 "--again: '%s' holds no recipe; give a PNG that "
                                 "interfig wrote",
                                 ifig_cli_shown(path).text);
    }
    if (status == IFIG_CLI_OK) {
        status = read_text(path, "Species", &origin->species);
    }
    if (status == IFIG_CLI_OK) {
        status = read_text(path, "Lamp", &origin->lamp);
    }
    return status == IFIG_CLI_OK ? warn_of_change(path) : status;
}

/* --again brings every other option with it. */
static IfigCliStatus check_company(const IfigCliSettings *settings)
{
    if (settings->word != NULL) {
        return ifig_cli_refuse(settings, "--again brings its own stone; leave SPECIES '%s' out",
                               ifig_cli_shown(settings->word).text);
    }
    for (int id = 0; id < IFIG_CLI_OPTION_COUNT; id++) {
        const int may_be = id == IFIG_CLI_AGAIN || id == IFIG_CLI_OUTPUT || id == IFIG_CLI_FORCE ||
                           id == IFIG_CLI_THREADS;
        if (settings->given[id] && !may_be) {
            return ifig_cli_refuse(settings,
                                   "--again renders a picture as it was, so %s has no place "
                                   "beside it; -o, --force and --threads have",
                                   ifig_cli_label(ifig_cli_option(id)).text);
        }
    }
    return IFIG_CLI_OK;
}

/* The file's name, and whether an older one of that name must stay. */
static IfigCliStatus choose_file(const IfigCliSettings *settings, const IfigCliScene *scene,
                                 char *name, size_t size, const char **path)
{
    *path = settings->output;
    if (settings->output != NULL) {
        const int is_output = strcmp(settings->output, "-") == 0;
        return is_output && isatty(STDOUT_FILENO)
                   ? ifig_cli_refuse(settings, "-o -: standard output is a terminal, which cannot "
                                               "show a PNG; lead it into a file or a pipe")
                   : IFIG_CLI_OK;
    }
    if (!ifig_cli_default_file_name(settings, scene, name, size)) {
        return ifig_cli_refuse(settings, "the default file name is too long; give one by -o FILE");
    }
    *path = name;
    if (!settings->given[IFIG_CLI_FORCE] && access(name, F_OK) == 0) {
        return ifig_cli_complain(IFIG_CLI_NO_CREATE,
                                 "'%s' exists; give --force to replace it or "
                                 "-o FILE for another name",
                                 name);
    }
    return IFIG_CLI_OK;
}

/* Words go where the picture does not. */
static void say_result(const IfigCliSettings *settings, const IfigCliScene *scene, const char *path)
{
    const int is_piped = strcmp(path, "-") == 0;
    FILE *out = is_piped ? stderr : stdout;
    const IfigCliSight sight = ifig_cli_sight(settings, scene);
    ifig_cli_print_word(out, is_piped ? "standard output" : path);
    fputs(": ", out);
    ifig_cli_describe(out, settings, scene);
    ifig_cli_describe_motion(out, settings);
    fprintf(out, "%s%s\n", sight.text[0] != '\0' ? "; " : "", sight.text);
}

static IfigCliStatus render(IfigCliSettings *settings, const IfigCliKept *kept)
{
    IfigCliScene scene;
    char name[256];
    const char *path = NULL;
    IfigCliStatus status = ifig_cli_prepare_turn(settings);
    if (status != IFIG_CLI_OK) {
        return status;
    }
    status = ifig_cli_open_scene(settings, kept, &scene);
    if (status == IFIG_CLI_OK) {
        status = choose_file(settings, &scene, name, sizeof name, &path);
    }
    if (status == IFIG_CLI_OK) {
        status = ifig_cli_check_labelled(settings, path);
    }
    if (status == IFIG_CLI_OK) {
        const int keep = settings->output == NULL && !settings->given[IFIG_CLI_FORCE];
        status = ifig_cli_make_picture(settings, &scene, path, keep);
    }
    if (status == IFIG_CLI_OK) {
        say_result(settings, &scene, path);
    }
    ifig_cli_close_scene(&scene);
    return status;
}

static IfigCliStatus render_again(const IfigCliSettings *settings)
{
    Origin origin = {NULL, NULL, NULL};
    IfigCliSettings recipe;
    IfigCliStatus status = check_company(settings);
    if (status == IFIG_CLI_OK) {
        status = read_origin(settings->again, &origin);
    }
    if (status == IFIG_CLI_OK) {
        status = ifig_cli_read_recipe(origin.recipe, settings->again, settings->command, &recipe);
    }
    if (status == IFIG_CLI_OK) {
        const IfigCliKept kept = {origin.species, origin.lamp};
        recipe.output = settings->output;
        recipe.threads = settings->threads;
        recipe.given[IFIG_CLI_FORCE] = settings->given[IFIG_CLI_FORCE];
        status = render(&recipe, &kept);
    }
    free_origin(&origin);
    return status;
}

IfigCliStatus ifig_cli_run_figure(IfigCliSettings *settings)
{
    const IfigCliKept nothing = {NULL, NULL};
    return settings->given[IFIG_CLI_AGAIN] ? render_again(settings) : render(settings, &nothing);
}
