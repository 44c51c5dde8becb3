/* SPDX-License-Identifier: MIT */
/* From settings to a stone under a lens: what figure and probe have in common. */
#ifndef IFIG_CLI_SCENE_H
#define IFIG_CLI_SCENE_H

#include "exit_status.h"
#include "scene_parts.h"

/* Set the scene, and bring the settings to what they stand for (view, field, polars). What is wrong
 * has been complained about. Close the scene in every case. */
IfigCliStatus ifig_cli_open_scene(IfigCliSettings *settings, const IfigCliKept *kept,
                                  IfigCliScene *scene);
void ifig_cli_close_scene(IfigCliScene *scene);

/* What a command says of one scene; what is wrong it complains about. */
typedef IfigCliStatus IfigCliTeller(const IfigCliSettings *settings, const IfigCliScene *scene);
/* Open the scene, let it be told of, close it. */
IfigCliStatus ifig_cli_tell_of_scene(IfigCliSettings *settings, IfigCliTeller *tell);

/* The lamp of the settings, into the scene. */
IfigCliStatus ifig_cli_open_lamp(const IfigCliSettings *settings, const IfigCliKept *kept,
                                 IfigCliScene *scene);
/* The lens, the polars and the plate. */
IfigCliStatus ifig_cli_open_instrument(IfigCliSettings *settings, IfigInstrument *instrument);

/* A catalogue with the species of the user's files; free it with ifig_catalogue_free. */
IfigCliStatus ifig_cli_open_catalogue(const IfigCliSettings *settings, const IfigCliKept *kept,
                                      IfigCatalogue **catalogue);
/* Look up the word of the settings. */
IfigCliStatus ifig_cli_find_species(const IfigCliSettings *settings, const IfigCatalogue *catalogue,
                                    const IfigSpecies **species);

#endif
