/* SPDX-License-Identifier: MIT */
/* The stress of --strain. */
#ifndef IFIG_CLI_STRAIN_H
#define IFIG_CLI_STRAIN_H

#include "options.h"
#include "scene_parts.h"

IfigCliWriter ifig_cli_write_strain;

/* Refuse a stone whose stress-optic coefficient is not known.
 * @param option  that asks for it: "--strain" */
IfigCliStatus ifig_cli_check_stress(const IfigCliSettings *settings, const IfigCliScene *scene,
                                    const char *option);
/* Strain the scene's one stone, where its stress-optic coefficient is known. */
IfigCliStatus ifig_cli_open_strain(const IfigCliSettings *settings, IfigCliScene *scene);
/* ", under a tension of 50 MPa along 30 deg", or nothing. */
void ifig_cli_describe_strain(FILE *out, const IfigCliSettings *settings);

#endif
