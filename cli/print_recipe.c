/* SPDX-License-Identifier: MIT */
#include "print_recipe.h"

#include <stdlib.h>
#include <string.h>

#include "arguments.h"
#include "colour.h"
#include "contrast.h"
#include "plot.h"
#include "recipe.h"
#include "scene.h"
#include "texture.h"
#include "turn.h"

/* A value in YAML: as it is where no reader could take it for anything else. */
static void write_value(const char *text)
{
    static const char plain[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
                                "_./,-:";
    const size_t length = strlen(text);
    const int begins_well = text[0] != ':' && text[0] != ',' &&
                            (text[0] != '-' || strspn(text, "-.0123456789,") == length);
    if (length > 0 && strspn(text, plain) == length && begins_well && text[length - 1] != ':' &&
        strcmp(text, "-") != 0) {
        fputs(text, stdout);
        return;
    }
    putchar('"'); /* double quotes take line feeds too */
    for (const char *at = text; *at != '\0'; at++) {
        if (*at == '"' || *at == '\\') {
            putchar('\\');
        }
        fputs(*at == '\n' ? "\\n" : *at == '\t' ? "\\t" : "", stdout);
        if (*at != '\n' && *at != '\t') {
            putchar(*at);
        }
    }
    putchar('"');
}

static void write_key(const char *key, const char *value)
{
    printf("    %s: ", key);
    write_value(value);
    putchar('\n');
}

/* The line of a recipe inside a picture, as keys: one table of writers serves both. */
static void write_options(char *line)
{
    static const char *const not_on_a_page[] = {"--size", "--depth", "--dpi", NULL};
    char *word, *value = NULL;
    for (word = ifig_cli_next_word(&line); word != NULL; word = value) {
        int is_left_out = 0;
        for (int i = 0; not_on_a_page[i] != NULL; i++) {
            is_left_out |= strcmp(word, not_on_a_page[i]) == 0;
        }
        value = ifig_cli_next_word(&line);
        const int has_value = value != NULL && strncmp(value, "--", 2) != 0;
        const int is_file =
            strcmp(word, "--species-file") == 0 || (has_value && strncmp(value, "./", 2) == 0);
        if (strncmp(word, "--", 2) == 0 && !is_left_out && !is_file) {
            write_key(word + 2, has_value ? value : "yes");
        }
        if (has_value) {
            value = ifig_cli_next_word(&line);
        }
    }
}

/* Files by the names they were given: a picture keeps what they held, a recipe cannot. */
static void write_files(const IfigCliSettings *settings)
{
    if (settings->lamp == IFIG_CLI_LAMP_FILE) {
        write_key("lamp", settings->lamp_word);
    }
    for (size_t i = 0; i < settings->species_file_count; i++) {
        if (i == 0) {
            puts("    species-file:");
        }
        fputs("      - ", stdout);
        write_value(settings->species_files[i]);
        putchar('\n');
    }
}

/* "  - stone: quartz" and its options. */
static IfigCliStatus write_item(const IfigCliSettings *settings, const IfigCliScene *scene)
{
    const char *const stone = ifig_cli_recipe_stone(settings, scene);
    char *line = NULL;
    size_t length = 0;
    FILE *const out = open_memstream(&line, &length);
    if (out == NULL) {
        return ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory for a recipe");
    }
    ifig_cli_write_recipe(out, settings, NULL, 0);
    if (fclose(out) != 0) {
        free(line);
        return ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory for a recipe");
    }
    printf("  - show: %s\n", settings->command == IFIG_CLI_FACE ? "face" : "figure");
    if (stone[0] != '\0') {
        write_key("stone", stone);
    }
    char *options = line;
    ifig_cli_next_word(&options); /* interfig */
    ifig_cli_next_word(&options); /* figure */
    write_options(options);
    write_files(settings);
    free(line);
    return IFIG_CLI_OK;
}

static void write_head(const IfigCliSettings *settings, const IfigCliScene *scene, int columns)
{
    char *const name = ifig_cli_write_text(ifig_cli_write_stone, settings, scene);
    fputs("# interfig page FILE.yaml -o FILE.pdf\ntitle: ", stdout);
    write_value(name != NULL ? name : "A stone");
    printf("\ncolumns: %d\nfigures:\n", columns);
    free(name);
}

/* Open a scene for settings of another command, print it, close it. */
static IfigCliStatus print_one(IfigCliSettings settings, int command, int columns)
{
    const IfigCliKept nothing = {NULL, NULL};
    IfigCliScene scene;
    settings.command = command;
    IfigCliStatus status = ifig_cli_open_scene(&settings, &nothing, &scene);
    if (status == IFIG_CLI_OK) {
        if (columns > 0) {
            write_head(&settings, &scene, columns);
        }
        status = write_item(&settings, &scene);
    }
    ifig_cli_close_scene(&scene);
    return status;
}

static IfigCliStatus print_figure(const IfigCliSettings *settings)
{
    if (settings->given[IFIG_CLI_AGAIN]) {
        return ifig_cli_refuse(settings, "--print-recipe and --again do not go together: the "
                                         "picture holds its recipe already");
    }
    if (settings->range != IFIG_CLI_RANGE_NONE) {
        return ifig_cli_refuse(settings, "--print-recipe and --range do not go together: a page "
                                         "draws one figure for each item; leave --range out");
    }
    return print_one(*settings, settings->command, 1);
}

static void set_moment(IfigCliSettings *settings, double value)
{
    switch ((IfigCliMotion)settings->what) {
    case IFIG_CLI_MOTION_STAGE:
        settings->stage_deg = value;
        break;
    case IFIG_CLI_MOTION_TILT:
        settings->tilt_deg = value;
        break;
    case IFIG_CLI_MOTION_THICKNESS:
        settings->thickness_mm = value;
        break;
    case IFIG_CLI_MOTION_PLATE:
        settings->plate_nm = value;
        break;
    case IFIG_CLI_MOTION_ANALYSER:
        settings->analyser.azimuth_deg = value;
        break;
    }
}

/* What moves, as up to six still figures at equal steps. */
static IfigCliStatus print_turn(IfigCliSettings *settings)
{
    enum { STILLS_MAX = 6, COLUMNS = 3 };
    IfigCliStatus status = ifig_cli_prepare_turn(settings);
    const int stills = settings->steps < STILLS_MAX ? settings->steps : STILLS_MAX;
    for (int i = 0; i < stills && status == IFIG_CLI_OK; i++) {
        IfigCliSettings still = *settings;
        set_moment(&still, settings->from + i * (settings->to - settings->from) / (stills - 1));
        status = print_one(still, settings->of_face ? IFIG_CLI_FACE : IFIG_CLI_FIGURE,
                           i == 0 ? COLUMNS : 0);
    }
    return status;
}

/* The face at four turns. */
static IfigCliStatus print_blink(const IfigCliSettings *settings)
{
    enum { TURNS = 4 };
    const double step = 22.5;
    IfigCliStatus status = IFIG_CLI_OK;
    for (int i = 0; i < TURNS && status == IFIG_CLI_OK; i++) {
        IfigCliSettings turned = *settings;
        turned.stage_deg += i * step;
        status = print_one(turned, IFIG_CLI_FACE, i == 0 ? TURNS : 0);
    }
    return status;
}

/* Each stone's figure; the face of one that shows none. */
static IfigCliStatus print_contrast(const IfigCliSettings *settings)
{
    const IfigCliKept nothing = {NULL, NULL};
    IfigCliStatus status = IFIG_CLI_OK;
    if (settings->word_count < 2) {
        return ifig_cli_refuse(settings,
                               "contrast takes 2 to %d stones; name them, such as ruby "
                               "almandine",
                               IFIG_CLI_WORDS_MAX);
    }
    for (size_t i = 0; i < settings->word_count && status == IFIG_CLI_OK; i++) {
        const int columns = settings->word_count <= 3   ? (int)settings->word_count
                            : settings->word_count == 4 ? 2
                                                        : 3;
        IfigCliSettings one = *settings, trial = *settings;
        IfigCliScene scene;
        trial.word = one.word = settings->words[i];
        status = ifig_cli_open_scene(&trial, &nothing, &scene);
        const int is_face = status == IFIG_CLI_OK && ifig_cli_shows_face_alone(&scene);
        ifig_cli_close_scene(&scene);
        if (status == IFIG_CLI_OK) {
            status =
                print_one(one, is_face ? IFIG_CLI_FACE : IFIG_CLI_FIGURE, i == 0 ? columns : 0);
        }
    }
    return status;
}

IfigCliStatus ifig_cli_print_recipe(IfigCliSettings *settings)
{
    switch (settings->command) {
    case IFIG_CLI_FIGURE:
    case IFIG_CLI_FACE:
        return print_figure(settings);
    case IFIG_CLI_TURN:
        return print_turn(settings);
    case IFIG_CLI_PROBE:
        return print_one(*settings, IFIG_CLI_FIGURE, 1);
    case IFIG_CLI_READING: {
        const IfigCliStatus status = print_one(*settings, IFIG_CLI_FIGURE, 1);
        if (status == IFIG_CLI_OK) {
            write_key("reading", "full");
        }
        return status;
    }
    case IFIG_CLI_BLINK:
        return print_blink(settings);
    case IFIG_CLI_CONTRAST:
        return print_contrast(settings);
    case IFIG_CLI_HUNT:
        return ifig_cli_refuse(settings,
                               "--print-recipe: a page holds figures and faces, not the map that "
                               "hunt draws; write the map by -o map.pdf, or take interfig figure "
                               "--print-recipe for the figure in the patch");
    default:
        return ifig_cli_refuse(settings,
                               "--print-recipe: this command draws nothing that a page could hold; "
                               "take it with figure, face, turn, blink, contrast or page");
    }
}

/* page.c's own keys. */

static void write_text(const char *indent, const char *key, const char *text)
{
    if (text != NULL) {
        printf("%s%s: ", indent, key);
        write_value(text);
        putchar('\n');
    }
}

static void write_photo(const IfigPagePhoto *photo)
{
    if (photo->path == NULL) {
        return;
    }
    puts("    photo:");
    write_text("      ", "file", photo->path);
    if (photo->is_found) {
        puts("      circle: found");
    } else {
        printf("      circle: [%s, %s, %s]\n", ifig_cli_number(photo->x).text,
               ifig_cli_number(photo->y).text, ifig_cli_number(photo->radius).text);
    }
    printf("      turn: %s\n", ifig_cli_number(photo->turn_deg).text);
}

static void write_surroundings(const IfigPageItem *item)
{
    static const char *const readings[] = {"none", "short", "full"};
    write_text("    ", "title", item->title);
    write_text("    ", "caption", item->caption_is_reading ? "reading" : item->caption);
    write_text("    ", "reading", readings[item->reading]);
    write_text("    ", "sketch", item->has_sketch ? "yes" : NULL);
    write_text("    ", "new-page", item->begins_page ? "yes" : NULL);
    for (size_t i = 0; i < item->observe_count; i++) {
        fputs(i == 0 ? "    observe:\n      - " : "      - ", stdout);
        write_value(item->observe[i]);
        putchar('\n');
    }
    write_photo(&item->photo);
}

IfigCliStatus ifig_cli_print_page_recipe(const IfigPageRecipe *recipe, const IfigCliItem *items)
{
    static const char *const papers[] = {"either", "a4", "letter"};
    IfigCliStatus status = IFIG_CLI_OK;
    write_text("", "title", recipe->title);
    write_text("", "subtitle", recipe->subtitle);
    write_text("", "paper", papers[recipe->paper]);
    printf("columns: %u\n", recipe->columns);
    if (recipe->diameter_mm > 0.0) {
        printf("diameter: %s\n", ifig_cli_number(recipe->diameter_mm).text);
    }
    if (recipe->most_pages > 0) {
        printf("pages: %u\n", recipe->most_pages);
    }
    write_text("", "language", recipe->language);
    write_text("", "intro", recipe->intro);
    puts("figures:");
    for (size_t i = 0; i < recipe->item_count && status == IFIG_CLI_OK; i++) {
        status = write_item(&items[i].settings, &items[i].scene);
        write_surroundings(&recipe->items[i]);
    }
    write_text("", "notes", recipe->notes);
    return status;
}
