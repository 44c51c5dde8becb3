/* SPDX-License-Identifier: MIT */
/* A figure with labels, or on a sheet: what the page room draws. */
#ifndef IFIG_CLI_LABELLED_H
#define IFIG_CLI_LABELLED_H

#include "exit_status.h"
#include "options.h"
#include "scene_parts.h"

/* 1 where the figure has labels, or its file is a PDF or an SVG. */
int ifig_cli_is_labelled(const IfigCliSettings *settings, const char *path);
/* Writes nothing where there are none, so that a plain picture's recipe is as short as it was. */
IfigCliWriter ifig_cli_write_labels;
/* Refuse what such a figure cannot be, before anything is rendered. A sheet whose figure was given
 * no size gets one here, so that its recipe tells it. */
IfigCliStatus ifig_cli_check_labelled(IfigCliSettings *settings, const char *path);
/* A PNG: the square alone, as many pixels as --size; a PDF or SVG: a sheet with title, key and
 * reading. What is wrong has been complained about.
 * @param words  its resolution, texts and keep_existing; the first text is the title */
IfigCliStatus ifig_cli_write_labelled(const IfigCliSettings *settings, const IfigCliScene *scene,
                                      const char *path, const IfigPngOptions *words);

#endif
