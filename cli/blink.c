/* SPDX-License-Identifier: MIT */
/* interfig blink: the stone turned between the polars, without a lens. */
#include <math.h>
#include <stdlib.h>

#include "colour.h"
#include "commands.h"
#include "describe.h"
#include "json.h"
#include "output.h"
#include "plot.h"
#include "scene.h"
#include "texture.h"
#include "words.h"

enum { TEXT_MAX = 4096, EXTINCTIONS_MAX = IFIG_BLINK_TURNS / 2 };

/* A place of the turn where the brightness goes through a least value. */
typedef struct Dip {
    double turn_deg, brightness;
} Dip;

static int by_brightness(const void *a, const void *b)
{
    const Dip *first = a, *second = b;
    return (first->brightness > second->brightness) - (first->brightness < second->brightness);
}

static int by_turn(const void *a, const void *b)
{
    const Dip *first = a, *second = b;
    return (first->turn_deg > second->turn_deg) - (first->turn_deg < second->turn_deg);
}

/* The deepest dips, as many as there are extinctions, in the order of the turn; between whole
 * degrees by the parabola through three of them. */
static int find_extinctions(const IfigBlink *blink, double turn_deg[EXTINCTIONS_MAX])
{
    Dip dips[IFIG_BLINK_TURNS];
    size_t count = 0;
    for (int i = 0; i < IFIG_BLINK_TURNS; i++) {
        const double before = blink->brightness[(i + IFIG_BLINK_TURNS - 1) % IFIG_BLINK_TURNS];
        const double here = blink->brightness[i];
        const double after = blink->brightness[(i + 1) % IFIG_BLINK_TURNS];
        const double bend = before - 2.0 * here + after;
        if (here <= before && here < after) { /* so that the parabola opens upward */
            const double turn = i + 0.5 * (before - after) / bend;
            const double whole_turn = IFIG_BLINK_TURNS, rounding = 1e-6;
            dips[count++] =
                (Dip){fmax(0.0, turn > whole_turn - rounding ? turn - whole_turn : turn), here};
        }
    }
    qsort(dips, count, sizeof *dips, by_brightness);
    const size_t asked = blink->extinctions_per_turn > 0 ? (size_t)blink->extinctions_per_turn : 0;
    count = count < asked ? count : asked;
    count = count < EXTINCTIONS_MAX ? count : EXTINCTIONS_MAX;
    qsort(dips, count, sizeof *dips, by_turn);
    for (size_t i = 0; i < count; i++) {
        turn_deg[i] = dips[i].turn_deg;
    }
    return (int)count;
}

static json_t *json_of_turns(void)
{
    json_t *array = json_array();
    for (int i = 0; i < IFIG_BLINK_TURNS; i++) {
        json_array_append_new(array, json_integer(i));
    }
    return array;
}

/* What was looked at, and how. */
static void add_stone(json_t *answer, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    ifig_cli_json_stone(answer, settings, scene);
    json_object_set_new(answer, "stage_deg", ifig_cli_json_number(settings->stage_deg));
    json_object_set_new(answer, "cone_deg", ifig_cli_json_number(settings->cone_deg));
    json_object_set_new(
        answer, "pattern",
        settings->pattern == IFIG_PATTERN_USUAL
            ? json_null()
            : json_string(ifig_cli_pattern_words[settings->pattern - IFIG_PATTERN_PLAIN]));
    json_object_set_new(answer, "stress_mpa", ifig_cli_json_number(settings->pattern_stress_mpa));
    json_object_set_new(answer, "seed", json_integer(settings->seed));
}

static void add_colours(json_t *answer, const IfigBlink *blink)
{
    json_t *colours = json_array();
    for (int i = 0; i < IFIG_BLINK_COLOURS; i++) {
        json_array_append_new(colours, ifig_cli_json_srgb(blink->colour_srgb[i]));
    }
    json_object_set_new(answer, "colours_srgb", colours);
}

/* Why the light with the analyser opened has nothing to be compared with. */
static const char *why_no_ratio(const IfigCliSettings *settings)
{
    return settings->analyser.kind != IFIG_POLAR_LINEAR ||
                   settings->polariser.kind != IFIG_POLAR_LINEAR
               ? "none: circular polars have no azimuth, so there is no analyser to open"
               : "none: no light comes through before the analyser is opened";
}

static IfigCliStatus print_json(const IfigCliSettings *settings, const IfigCliScene *scene,
                                const IfigBlink *blink, const char *words)
{
    double extinctions[EXTINCTIONS_MAX];
    const int count = find_extinctions(blink, extinctions);
    json_t *answer = json_object();
    json_object_set_new(answer, "schema_version", json_integer(1));
    add_stone(answer, settings, scene);
    json_object_set_new(answer, "reaction", json_string(ifig_reaction_text(blink->reaction)));
    json_object_set_new(answer, "appearance",
                        json_string(ifig_cli_appearance_word(blink->appearance)));
    json_object_set_new(answer, "extinctions_per_turn", json_integer(blink->extinctions_per_turn));
    json_object_set_new(answer, "extinctions_deg", ifig_cli_json_numbers(extinctions, count));
    json_object_set_new(answer, "turn_deg", json_of_turns());
    json_object_set_new(answer, "brightness",
                        ifig_cli_json_numbers(blink->brightness, IFIG_BLINK_TURNS));
    json_object_set_new(answer, "least", ifig_cli_json_number(blink->least));
    json_object_set_new(answer, "most", ifig_cli_json_number(blink->most));
    json_object_set_new(answer, "mean", ifig_cli_json_number(blink->mean));
    json_object_set_new(answer, "darkest_deg", ifig_cli_json_number(blink->darkest_deg));
    json_object_set_new(answer, "brightest_deg", ifig_cli_json_number(blink->brightest_deg));
    json_object_set_new(answer, "contrast", ifig_cli_json_number(blink->contrast));
    json_object_set_new(answer, "opened",
                        isfinite(blink->opened[0])
                            ? ifig_cli_json_numbers(blink->opened, IFIG_BLINK_OPENED)
                            : json_null());
    json_object_set_new(answer, "opened_over_crossed",
                        ifig_cli_json_number(blink->opened_over_crossed));
    if (!isfinite(blink->opened_over_crossed)) {
        json_object_set_new(answer, "reason", json_string(why_no_ratio(settings)));
    }
    add_colours(answer, blink);
    json_object_set_new(answer, "retardation_nm", ifig_cli_json_number(blink->retardation_nm));
    json_object_set_new(answer, "along_optic_axis", json_boolean(blink->is_along_optic_axis));
    json_object_set_new(answer, "follows_opening_rule", json_boolean(blink->follows_opening_rule));
    json_object_set_new(answer, "words", ifig_cli_json_lines(words));
    return ifig_cli_print_json(answer);
}

static void print_text(const IfigCliSettings *settings, const IfigCliScene *scene,
                       const IfigBlink *blink, const char *words)
{
    double extinctions[EXTINCTIONS_MAX];
    const int count = find_extinctions(blink, extinctions);
    ifig_cli_describe(stdout, settings, scene);
    fputs("\n\n", stdout);
    ifig_cli_print_lines(stdout, words);
    printf("\nreaction             %s\n", ifig_reaction_text(blink->reaction));
    printf("extinctions a turn   %d", blink->extinctions_per_turn);
    for (int i = 0; i < count && count <= 8; i++) {
        printf("%s%.1f", i == 0 ? ", at " : i + 1 < count ? ", " : " and ", extinctions[i]);
    }
    printf("%s\n", count > 0 && count <= 8 ? " deg of turn" : "");
    printf("brightness           %s to %s, mean %s (1: parallel polars without a stone)\n",
           ifig_cli_rounded(blink->least, 3).text, ifig_cli_rounded(blink->most, 3).text,
           ifig_cli_rounded(blink->mean, 3).text);
    printf("opened over crossed  %s\n", isfinite(blink->opened_over_crossed)
                                            ? ifig_cli_rounded(blink->opened_over_crossed, 3).text
                                            : why_no_ratio(settings));
    fputc('\n', stdout);
    ifig_cli_wrap(stdout, 0, 0, ifig_cli_evidence);
}

static IfigCliStatus tell(const IfigCliSettings *settings, const IfigCliScene *scene)
{
    IfigBlink blink = IFIG_BLINK_INIT;
    IfigError error = IFIG_ERROR_INIT;
    char words[TEXT_MAX];
    IfigStatus status = ifig_blink(&scene->scene, &scene->texture, &blink, &error);
    if (status == IFIG_OK) {
        status = ifig_blink_describe(&blink, words, sizeof words, &error);
    }
    if (status != IFIG_OK) {
        return ifig_cli_complain(ifig_cli_exit_status(status, IFIG_CLI_WORDS), "%s", error.message);
    }
    const IfigCliStatus ending = ifig_cli_plot_blink(settings, scene, &blink, words);
    if (ending != IFIG_CLI_OK) {
        return ending;
    }
    if (settings->given[IFIG_CLI_JSON]) {
        return print_json(settings, scene, &blink, words);
    }
    print_text(settings, scene, &blink, words);
    return IFIG_CLI_OK;
}

IfigCliStatus ifig_cli_run_blink(IfigCliSettings *settings)
{
    return ifig_cli_tell_of_scene(settings, tell);
}
