/* SPDX-License-Identifier: MIT */
/* The stones of interfig contrast, one scene each. */
#ifndef IFIG_CLI_CONTRAST_H
#define IFIG_CLI_CONTRAST_H

#include <stdio.h>

#include "exit_status.h"
#include "scene_parts.h"

/* "ruby": a stone as it was called, or its species' key where that was not in plain letters. */
const char *ifig_cli_stone_word(const IfigCliSettings *settings, const IfigCliScene *scenes,
                                size_t index);
/* 1 where a stone shows no figure, so that its face stands in for it. */
int ifig_cli_shows_face_alone(const IfigCliScene *scene);
/* "ruby, almandine and spinel" */
void ifig_cli_name_stones(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scenes);

#endif
