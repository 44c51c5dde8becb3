/* SPDX-License-Identifier: MIT */
/* interfig hunt: where the patch of spectrum colours lies, and how large it is. */
#include <math.h>

#include "commands.h"
#include "describe.h"
#include "json.h"
#include "output.h"
#include "plot.h"
#include "scene.h"

enum { TEXT_MAX = 4096 };

static json_t *json_of_thickness(const IfigHunt *hunt, int i)
{
    json_t *object = json_object();
    json_object_set_new(object, "thickness_mm", ifig_cli_json_number(hunt->thickness_mm[i]));
    json_object_set_new(object, "patch_sr", ifig_cli_json_number(hunt->patch_sr[i]));
    json_object_set_new(object, "patch_share", ifig_cli_json_number(hunt->patch_share[i]));
    json_object_set_new(object, "patch_radius_deg",
                        ifig_cli_json_number(hunt->patch_radius_deg[i]));
    json_object_set_new(object, "false_single", ifig_cli_json_number(hunt->false_single[i]));
    return object;
}

static json_t *json_of_cut(const IfigTableCut *cut)
{
    json_t *object = json_object();
    json_object_set_new(object, "name", json_string(cut->name));
    json_object_set_new(object, "direction", ifig_cli_json_numbers(cut->direction, 3));
    json_object_set_new(object, "nearest_axis_deg", ifig_cli_json_number(cut->nearest_axis_deg));
    json_object_set_new(object, "most_outside_deg", ifig_cli_json_number(cut->most_outside_deg));
    if (!isfinite(cut->most_outside_deg)) {
        json_object_set_new(object, "reason",
                            json_string("total reflection: the axis never leaves through this "
                                        "table"));
    }
    return object;
}

static json_t *json_of_axes(const IfigHunt *hunt)
{
    json_t *axes = json_array();
    for (int i = 0; i < hunt->axes.count; i++) {
        json_array_append_new(axes, ifig_cli_json_numbers(hunt->axes.axis[i], 3));
    }
    return axes;
}

static IfigCliStatus print_json(const IfigCliSettings *settings, const IfigCliScene *scene,
                                const IfigHunt *hunt, const char *words)
{
    json_t *answer = json_object(), *patches = json_array(), *cuts = json_array();
    for (int i = 0; i < IFIG_HUNT_THICKNESSES; i++) {
        json_array_append_new(patches, json_of_thickness(hunt, i));
    }
    for (size_t i = 0; i < hunt->cut_count; i++) {
        json_array_append_new(cuts, json_of_cut(&hunt->cut[i]));
    }
    json_object_set_new(answer, "schema_version", json_integer(1));
    ifig_cli_json_stone(answer, settings, scene);
    json_object_set_new(answer, "two_v_deg",
                        ifig_cli_json_number(hunt->axes.count == 2 ? hunt->axes.two_v_deg : NAN));
    json_object_set_new(answer, "optic_axes", json_of_axes(hunt));
    json_object_set_new(answer, "patches", patches);
    json_object_set_new(answer, "cuts", cuts);
    json_object_set_new(answer, "words", ifig_cli_json_lines(words));
    return ifig_cli_print_json(answer);
}

static void print_table(const IfigHunt *hunt)
{
    printf("%-10s  %-12s  %-12s  %-14s  %s\n", "thickness", "patch", "solid angle", "of all",
           "chance to look");
    printf("%-10s  %-12s  %-12s  %-14s  %s\n", "mm", "radius deg", "sr", "directions",
           "singly refractive");
    for (int i = 0; i < IFIG_HUNT_THICKNESSES; i++) {
        printf("%-10s  %-12.1f  %-12.3f  %6.2f %%        %6.2f %%\n",
               ifig_cli_number(hunt->thickness_mm[i]).text, hunt->patch_radius_deg[i],
               hunt->patch_sr[i], 100.0 * hunt->patch_share[i], 100.0 * hunt->false_single[i]);
    }
}

static void print_text(const IfigCliSettings *settings, const IfigCliScene *scene,
                       const IfigHunt *hunt, const char *words)
{
    ifig_cli_describe(stdout, settings, scene);
    fputs("\n\n", stdout);
    ifig_cli_print_lines(stdout, words);
    fputc('\n', stdout);
    print_table(hunt);
}

static IfigCliStatus tell(const IfigCliSettings *settings, const IfigCliScene *scene)
{
    IfigHunt hunt = IFIG_HUNT_INIT;
    IfigError error = IFIG_ERROR_INIT;
    char words[TEXT_MAX];
    IfigStatus status = ifig_hunt(&scene->scene, &hunt, &error);
    if (status == IFIG_OK) {
        status = ifig_hunt_describe(&hunt, words, sizeof words, &error);
    }
    if (status != IFIG_OK) {
        return ifig_cli_complain(ifig_cli_exit_status(status, IFIG_CLI_WORDS), "%s", error.message);
    }
    const IfigCliStatus ending = ifig_cli_plot_hunt(settings, scene, &hunt, words);
    if (ending != IFIG_CLI_OK) {
        return ending;
    }
    if (settings->given[IFIG_CLI_JSON]) {
        return print_json(settings, scene, &hunt, words);
    }
    print_text(settings, scene, &hunt, words);
    return IFIG_CLI_OK;
}

IfigCliStatus ifig_cli_run_hunt(IfigCliSettings *settings)
{
    return ifig_cli_tell_of_scene(settings, tell);
}
