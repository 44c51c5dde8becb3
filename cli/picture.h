/* SPDX-License-Identifier: MIT */
/* The pixels and the words of a figure, into a PNG file. */
#ifndef IFIG_CLI_PICTURE_H
#define IFIG_CLI_PICTURE_H

#include "exit_status.h"
#include "scene_parts.h"

/* Render the scene into a file, with its recipe. What is wrong has been complained about, and then
 * no file was made and an older one left as it was.
 * @param keep_existing  1: refuse where the file exists already */
IfigCliStatus ifig_cli_make_picture(const IfigCliSettings *settings, const IfigCliScene *scene,
                                    const char *path, int keep_existing);

#endif
