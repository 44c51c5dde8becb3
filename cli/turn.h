/* SPDX-License-Identifier: MIT */
/* interfig turn: what moves, from where to where, and how a frame is set. A still figure has one
 * frame, in which nothing moves. */
#ifndef IFIG_CLI_TURN_H
#define IFIG_CLI_TURN_H

#include <stdio.h>

#include "exit_status.h"
#include "scene_parts.h"

/* What --what names, in this order. */
typedef enum IfigCliMotion {
    IFIG_CLI_MOTION_STAGE = 0,
    IFIG_CLI_MOTION_TILT,
    IFIG_CLI_MOTION_THICKNESS,
    IFIG_CLI_MOTION_PLATE,
    IFIG_CLI_MOTION_ANALYSER
} IfigCliMotion;

/* Bring --what, --from, --to and --steps to what they stand for and set the settings for the first
 * frame; refuse what contradicts them. Nothing to do where the command is not turn. */
IfigCliStatus ifig_cli_prepare_turn(IfigCliSettings *settings);

/* 1 where the command is turn and this option's value is what moves: a recipe then leaves it out.
 */
int ifig_cli_is_moved(const IfigCliSettings *settings, int option);
uint32_t ifig_cli_frame_count(const IfigCliSettings *settings);
/* The scene of a frame. Its layers are those in `layer`, an array of IFIG_LAYERS_MAX; lamp and
 * species are borrowed. */
void ifig_cli_set_frame(const IfigCliSettings *settings, const IfigCliScene *scene, uint32_t frame,
                        IfigLayer *layer, IfigScene *frame_scene);
/* "; the stage turns from 0 to 90 deg in 37 frames of 100 ms"; nothing for a still figure. */
void ifig_cli_describe_motion(FILE *out, const IfigCliSettings *settings);
/* "stage_0_to_90", for a file's name; "" for a still figure. */
typedef struct IfigCliMotionName {
    char text[80];
} IfigCliMotionName;
IfigCliMotionName ifig_cli_motion_name(const IfigCliSettings *settings);

#endif
