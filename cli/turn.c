/* SPDX-License-Identifier: MIT */
#include "turn.h"

#include <string.h>

#include "arguments.h"
#include "layers.h"

/* What can move. */
typedef struct Motion {
    int option; /* that stands still otherwise */
    const char *name;
    const char *verb;
    const char *unit;
    double low, high; /* as that option's */
    double from, to;
} Motion;

static const Motion motions[] = {
    [IFIG_CLI_MOTION_STAGE] = {IFIG_CLI_STAGE, "stage", "the stage turns", "deg", -3600, 3600, 0,
                               90},
    [IFIG_CLI_MOTION_TILT] = {IFIG_CLI_TILT, "tilt", "the tilt goes", "deg", -180, 180, 0, 30},
    [IFIG_CLI_MOTION_THICKNESS] = {IFIG_CLI_THICKNESS, "thickness", "the thickness goes", "mm",
                                   0.001, 100, 0.1, 3},
    [IFIG_CLI_MOTION_PLATE] = {IFIG_CLI_PLATE, "plate", "the wedge goes", "nm", 0, 100000, 0, 1650},
    [IFIG_CLI_MOTION_ANALYSER] = {IFIG_CLI_ANALYSER, "analyser", "the analyser turns", "deg", -3600,
                                  3600, 90, 180},
};

static int is_turn(const IfigCliSettings *settings)
{
    return settings->command == IFIG_CLI_TURN;
}

static const Motion *motion_of(const IfigCliSettings *settings)
{
    return &motions[settings->what];
}

static IfigCliStatus check_end(const IfigCliSettings *settings, int option, double value)
{
    const Motion *motion = motion_of(settings);
    const char *name = ifig_cli_option(option)->name;
    if (value >= motion->low && value <= motion->high) {
        return IFIG_CLI_OK;
    }
    return ifig_cli_refuse(
        settings,
        "--%s: '%s' is out of range; allowed with --what %s: %s to %s %s; for "
        "example: --%s %s",
        name, ifig_cli_number(value).text, motion->name, ifig_cli_number(motion->low).text,
        ifig_cli_number(motion->high).text, motion->unit, name,
        ifig_cli_number(option == IFIG_CLI_FROM ? motion->from : motion->to).text);
}

/* What moves stands nowhere; only a tilt has an azimuth beside it. */
static IfigCliStatus check_company(const IfigCliSettings *settings)
{
    const Motion *motion = motion_of(settings);
    if (settings->what == IFIG_CLI_MOTION_THICKNESS && settings->layer_count > 0) {
        return ifig_cli_refuse(settings,
                               "--what thickness and --layers contradict each other: each "
                               "layer has its own thickness; let something else move");
    }
    if (settings->what == IFIG_CLI_MOTION_TILT) {
        return settings->tilt_deg == 0.0
                   ? IFIG_CLI_OK
                   : ifig_cli_refuse(settings,
                                     "--tilt and --what tilt contradict each other; beside "
                                     "--what, --tilt gives the azimuth alone: --tilt 0,%s",
                                     ifig_cli_number(settings->tilt_azimuth_deg).text);
    }
    if (settings->given[motion->option]) {
        return ifig_cli_refuse(settings,
                               "--%s and --what %s contradict each other; leave --%s out: --from "
                               "and --to say where it goes",
                               motion->name, motion->name, motion->name);
    }
    if (settings->what == IFIG_CLI_MOTION_ANALYSER && settings->given[IFIG_CLI_POLARS]) {
        return ifig_cli_refuse(settings,
                               "--polars and --what analyser contradict each other; leave "
                               "--polars out: --from and --to say where the analyser goes");
    }
    return IFIG_CLI_OK;
}

static void set_first(IfigCliSettings *settings)
{
    settings->given[motion_of(settings)->option] = 1;
    switch ((IfigCliMotion)settings->what) {
    case IFIG_CLI_MOTION_STAGE:
        settings->stage_deg = settings->from;
        break;
    case IFIG_CLI_MOTION_TILT:
        settings->tilt_deg = settings->from;
        break;
    case IFIG_CLI_MOTION_THICKNESS:
        settings->thickness_mm = settings->from;
        break;
    case IFIG_CLI_MOTION_PLATE:
        settings->plate = IFIG_PLATE_QUARTZ;
        settings->plate_nm = settings->from;
        break;
    case IFIG_CLI_MOTION_ANALYSER:
        settings->analyser = (IfigPolar){IFIG_POLAR_LINEAR, settings->from};
        break;
    }
}

IfigCliStatus ifig_cli_prepare_turn(IfigCliSettings *settings)
{
    const int usual_size = 512;
    if (!is_turn(settings)) {
        return IFIG_CLI_OK;
    }
    const Motion *motion = motion_of(settings);
    settings->size = settings->given[IFIG_CLI_SIZE] ? settings->size : usual_size;
    settings->from = settings->given[IFIG_CLI_FROM] ? settings->from : motion->from;
    settings->to = settings->given[IFIG_CLI_TO] ? settings->to : motion->to;
    IfigCliStatus status = check_end(settings, IFIG_CLI_FROM, settings->from);
    if (status == IFIG_CLI_OK) {
        status = check_end(settings, IFIG_CLI_TO, settings->to);
    }
    if (status == IFIG_CLI_OK && settings->from == settings->to) {
        status = ifig_cli_refuse(settings,
                                 "--from and --to are both %s %s, so nothing would move; give two "
                                 "different ones, or take interfig figure for a still picture",
                                 ifig_cli_number(settings->from).text, motion->unit);
    }
    if (status == IFIG_CLI_OK) {
        status = check_company(settings);
    }
    if (status == IFIG_CLI_OK) {
        set_first(settings);
    }
    return status;
}

int ifig_cli_is_moved(const IfigCliSettings *settings, int option)
{
    return is_turn(settings) && option == motion_of(settings)->option;
}

uint32_t ifig_cli_frame_count(const IfigCliSettings *settings)
{
    return is_turn(settings) ? (uint32_t)settings->steps : 1;
}

void ifig_cli_set_frame(const IfigCliSettings *settings, const IfigCliScene *scene, uint32_t frame,
                        IfigLayer *layer, IfigScene *frame_scene)
{
    memcpy(layer, scene->layer, sizeof scene->layer);
    *frame_scene = scene->scene;
    frame_scene->layers = layer;
    if (!is_turn(settings)) {
        return;
    }
    const uint32_t last = (uint32_t)settings->steps - 1;
    const double share = (double)frame / (double)last;
    const double value =
        frame == last ? settings->to : settings->from + share * (settings->to - settings->from);
    switch ((IfigCliMotion)settings->what) {
    case IFIG_CLI_MOTION_STAGE:
        for (size_t i = 0; i < scene->layer_count; i++) {
            layer[i].orientation.stage_deg = ifig_cli_layer_stage_deg(settings, i, value);
        }
        break;
    case IFIG_CLI_MOTION_TILT:
        for (size_t i = 0; i < scene->layer_count; i++) {
            layer[i].orientation.tilt_deg = value;
        }
        break;
    case IFIG_CLI_MOTION_THICKNESS:
        layer->thickness_mm = value;
        break;
    case IFIG_CLI_MOTION_PLATE:
        frame_scene->instrument.plate.retardation_nm = value;
        break;
    case IFIG_CLI_MOTION_ANALYSER:
        frame_scene->instrument.analyser.azimuth_deg = value;
        break;
    }
}

void ifig_cli_describe_motion(FILE *out, const IfigCliSettings *settings)
{
    if (is_turn(settings)) {
        const Motion *motion = motion_of(settings);
        fprintf(out, "; %s from %s to %s %s in %d frames of %d ms", motion->verb,
                ifig_cli_number(settings->from).text, ifig_cli_number(settings->to).text,
                motion->unit, settings->steps, settings->delay_ms);
    }
}

IfigCliMotionName ifig_cli_motion_name(const IfigCliSettings *settings)
{
    IfigCliMotionName name = {""};
    if (is_turn(settings)) {
        snprintf(name.text, sizeof name.text, "_%s_%s_to_%s", motion_of(settings)->name,
                 ifig_cli_number(settings->from).text, ifig_cli_number(settings->to).text);
    }
    return name;
}
