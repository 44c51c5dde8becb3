/* SPDX-License-Identifier: MIT */
#include "check_settings.h"

#include "arguments.h"

/* What a stack has no place for. */
static IfigCliStatus check_layers(const IfigCliSettings *settings)
{
    static const struct {
        int option;
        const char *why;
    } apart[] = {
        {IFIG_CLI_INDICES, "each layer names its species"},
        {IFIG_CLI_THICKNESS, "each layer has its own thickness"},
        {IFIG_CLI_HAND, "each layer has its own hand"},
        {IFIG_CLI_COLOUR, "a variety named in a layer brings its colour"},
        {IFIG_CLI_STRAIN, "only a single stone can be strained"},
        {IFIG_CLI_RANGE, "only a single species has one range"},
    };
    if (settings->word != NULL) {
        return ifig_cli_refuse(settings, "both SPECIES '%s' and --layers are given; leave one out",
                               ifig_cli_shown(settings->word).text);
    }
    for (size_t i = 0; i < sizeof apart / sizeof *apart; i++) {
        if (settings->given[apart[i].option]) {
            const char *name = ifig_cli_option(apart[i].option)->name;
            return ifig_cli_refuse(settings,
                                   "--%s and --layers contradict each other: %s; leave --%s out",
                                   name, apart[i].why, name);
        }
    }
    return IFIG_CLI_OK;
}

static IfigCliStatus check_stone(const IfigCliSettings *settings)
{
    const int has_indices = settings->given[IFIG_CLI_INDICES];
    if (settings->layer_count > 0) {
        return check_layers(settings);
    }
    if (settings->word != NULL && has_indices) {
        return ifig_cli_refuse(settings, "both SPECIES '%s' and --indices are given; leave one out",
                               ifig_cli_shown(settings->word).text);
    }
    if (settings->word == NULL && !has_indices) {
        return ifig_cli_refuse(settings,
                               "no stone is given; name a SPECIES, such as quartz, or give "
                               "--indices, such as --indices 1.544,1.553");
    }
    if (settings->given[IFIG_CLI_ROTATION] && !has_indices) {
        return ifig_cli_refuse(settings,
                               "--rotation goes with --indices alone; a species brings its "
                               "own: choose its hand by --hand left or --hand right");
    }
    if (settings->given[IFIG_CLI_HAND] && has_indices) {
        return ifig_cli_refuse(settings,
                               "--hand goes with a SPECIES alone; with --indices the sign "
                               "of --rotation is the hand, positive right-handed");
    }
    return IFIG_CLI_OK;
}

static IfigCliStatus check_polars(const IfigCliSettings *settings)
{
    const int has_polariser = settings->given[IFIG_CLI_POLARISER];
    const int has_analyser = settings->given[IFIG_CLI_ANALYSER];
    if (!settings->given[IFIG_CLI_POLARS]) {
        if (has_polariser && !has_analyser && settings->polariser.kind != IFIG_POLAR_LINEAR) {
            return ifig_cli_refuse(settings,
                                   "--polariser is circular and --analyser is missing; give "
                                   "both, or --polars circular");
        }
        return IFIG_CLI_OK;
    }
    if (has_analyser) {
        return ifig_cli_refuse(settings, "--polars and --analyser contradict each other; leave one "
                                         "out");
    }
    if (has_polariser && settings->polars == IFIG_CLI_POLARS_CIRCULAR) {
        return ifig_cli_refuse(settings, "--polars circular and --polariser contradict each other; "
                                         "leave one out");
    }
    if (has_polariser && settings->polariser.kind != IFIG_POLAR_LINEAR) {
        return ifig_cli_refuse(settings, "--polars crossed or parallel and a circular --polariser "
                                         "contradict each other; give --polariser and --analyser");
    }
    return IFIG_CLI_OK;
}

/* What the catalogue knows of a species it does not know of measured indices. */
static IfigCliStatus check_additions(const IfigCliSettings *settings)
{
    static const int additions[] = {IFIG_CLI_COLOUR, IFIG_CLI_COLOURLESS, IFIG_CLI_STRAIN,
                                    IFIG_CLI_RANGE};
    static const int apart[] = {IFIG_CLI_COLOUR, IFIG_CLI_STRAIN};
    const char *name;
    for (size_t i = 0; i < sizeof additions / sizeof *additions; i++) {
        name = ifig_cli_option(additions[i])->name;
        if (settings->given[additions[i]] && settings->given[IFIG_CLI_INDICES]) {
            return ifig_cli_refuse(settings,
                                   "--%s goes with a SPECIES alone: nothing is known of measured "
                                   "indices but themselves",
                                   name);
        }
    }
    for (size_t i = 0; i < sizeof apart / sizeof *apart; i++) {
        name = ifig_cli_option(apart[i])->name;
        if (settings->given[apart[i]] && settings->range != IFIG_CLI_RANGE_NONE) {
            return ifig_cli_refuse(settings,
                                   "--range and --%s contradict each other: a range is shown "
                                   "without colour or strain; leave one out",
                                   name);
        }
    }
    if (settings->given[IFIG_CLI_COLOUR] && settings->given[IFIG_CLI_COLOURLESS]) {
        return ifig_cli_refuse(settings, "--colour and --colourless contradict each other; leave "
                                         "one out");
    }
    return IFIG_CLI_OK;
}

IfigCliStatus ifig_cli_check_settings(const IfigCliSettings *settings)
{
    if (settings->given[IFIG_CLI_PLATE_SLOW] && settings->plate == IFIG_PLATE_NONE) {
        return ifig_cli_refuse(settings,
                               "--plate-slow: a plate-slow without a plate; give the plate "
                               "too, such as --plate full-wave");
    }
    IfigCliStatus status = check_stone(settings);
    if (status == IFIG_CLI_OK) {
        status = check_additions(settings);
    }
    return status == IFIG_CLI_OK ? check_polars(settings) : status;
}

IfigCliStatus ifig_cli_check_opaque(const char *where, const IfigSpecies *species)
{
    const char *key = ifig_species_text(species, IFIG_TEXT_KEY);
    IfigSpeciesFacts facts;
    if (ifig_species_facts(species, &facts, NULL) != IFIG_OK) {
        return IFIG_CLI_DEFECT;
    }
    if (facts.is_opaque) {
        return ifig_cli_complain(IFIG_CLI_DATA,
                                 "%s%s is opaque, so no light comes through to show an "
                                 "interference figure; choose a transparent stone, such as quartz",
                                 where, key);
    }
    return IFIG_CLI_OK;
}

IfigCliStatus ifig_cli_check_species(const char *where, const IfigSpecies *species)
{
    const char *key = ifig_species_text(species, IFIG_TEXT_KEY);
    IfigSpeciesFacts facts;
    if (ifig_species_facts(species, &facts, NULL) != IFIG_OK) {
        return IFIG_CLI_DEFECT;
    }
    if (facts.character == IFIG_AGGREGATE) {
        return ifig_cli_complain(
            IFIG_CLI_DATA,
            "%s%s is an aggregate of many grains that lie every "
            "way, so it shows no interference figure; choose a single crystal, "
            "such as quartz",
            where, key);
    }
    return ifig_cli_check_opaque(where, species);
}
