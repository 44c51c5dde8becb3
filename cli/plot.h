/* SPDX-License-Identifier: MIT */
/* The plots of blink and hunt, where -o asks for one. */
#ifndef IFIG_CLI_PLOT_H
#define IFIG_CLI_PLOT_H

#include "scene.h"

/* Draw into the file of -o; without -o nothing is done. What is wrong has been complained about. */
IfigCliStatus ifig_cli_plot_blink(const IfigCliSettings *settings, const IfigCliScene *scene,
                                  const IfigBlink *blink);
IfigCliStatus ifig_cli_plot_hunt(const IfigCliSettings *settings, const IfigCliScene *scene,
                                 const IfigHunt *hunt);

#endif
