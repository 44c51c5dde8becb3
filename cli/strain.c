/* SPDX-License-Identifier: MIT */
#include "strain.h"

#include <math.h>

#include "arguments.h"

/* The keys of the species whose coefficient is known: "quartz, corundum". */
typedef struct Keys {
    char text[400];
} Keys;

static Keys keys_known(const IfigCatalogue *catalogue)
{
    Keys keys = {""};
    int used = 0;
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const IfigSpecies *species = ifig_catalogue_at(catalogue, i);
        if (!isnan(ifig_species_stress_optic_per_tpa(species)) && (size_t)used < sizeof keys.text) {
            used += snprintf(keys.text + used, sizeof keys.text - (size_t)used, "%s%s",
                             used > 0 ? ", " : "", ifig_species_text(species, IFIG_TEXT_KEY));
        }
    }
    return keys;
}

IfigCliStatus ifig_cli_check_stress(const IfigCliSettings *settings, const IfigCliScene *scene,
                                    const char *option)
{
    if (!isnan(ifig_species_stress_optic_per_tpa(scene->species))) {
        return IFIG_CLI_OK;
    }
    if (scene->measured != NULL) {
        return ifig_cli_refuse(settings,
                               "%s goes with a SPECIES alone: nothing is known of "
                               "measured indices but themselves",
                               option);
    }
    return ifig_cli_refuse(
        settings, "%s: no stress-optic coefficient is known for %s; it is for %s", option,
        ifig_species_text(scene->species, IFIG_TEXT_KEY), keys_known(scene->catalogue).text);
}

IfigCliStatus ifig_cli_open_strain(const IfigCliSettings *settings, IfigCliScene *scene)
{
    if (settings->given[IFIG_CLI_STRAIN]) {
        const IfigCliStatus status = ifig_cli_check_stress(settings, scene, "--strain");
        if (status != IFIG_CLI_OK) {
            return status;
        }
    }
    scene->layer[0].stress_mpa = settings->stress_mpa;
    scene->layer[0].stress_azimuth_deg = settings->stress_azimuth_deg;
    return IFIG_CLI_OK;
}

void ifig_cli_write_strain(FILE *out, const IfigCliOption *option, const IfigCliSettings *settings)
{
    if (settings->stress_mpa != 0.0) {
        ifig_cli_write_pair(out, option, settings);
    }
}

void ifig_cli_describe_strain(FILE *out, const IfigCliSettings *settings)
{
    if (settings->stress_mpa != 0.0) {
        fprintf(out, ", under a %s of %s MPa along %s deg",
                settings->stress_mpa > 0 ? "tension" : "pressure",
                ifig_cli_number(fabs(settings->stress_mpa)).text,
                ifig_cli_number(settings->stress_azimuth_deg).text);
    }
}
