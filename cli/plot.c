/* SPDX-License-Identifier: MIT */
#include "plot.h"

#include "output.h"

IfigCliStatus ifig_cli_plot_blink(const IfigCliSettings *settings, const IfigCliScene *scene,
                                  const IfigBlink *blink)
{
    (void)settings, (void)scene, (void)blink;
    return IFIG_CLI_OK;
}

IfigCliStatus ifig_cli_plot_hunt(const IfigCliSettings *settings, const IfigCliScene *scene,
                                 const IfigHunt *hunt)
{
    (void)settings, (void)scene, (void)hunt;
    return IFIG_CLI_OK;
}
