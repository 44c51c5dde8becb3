/* SPDX-License-Identifier: MIT */
#include "texture.h"

#include <math.h>
#include <string.h>

#include "arguments.h"
#include "describe.h"
#include "strain.h"

const char *const ifig_cli_pattern_words[] = {
    "plain", "bands", "cross-hatch", "snake", "inclusion", "twins", "brazil", "grains", NULL};

/* Of a strain pattern without --stress: in glass 3 mm thick a first-order white. */
static const double USUAL_STRESS_MPA = 20.0;

int ifig_cli_is_face(const IfigCliSettings *settings)
{
    return settings->command == IFIG_CLI_FACE ||
           (settings->command == IFIG_CLI_TURN && settings->of_face);
}

int ifig_cli_is_bare(const IfigCliSettings *settings)
{
    return ifig_cli_is_face(settings) || settings->command == IFIG_CLI_BLINK ||
           settings->command == IFIG_CLI_HUNT;
}

static int is_strain(int pattern)
{
    return pattern >= IFIG_PATTERN_BANDS && pattern <= IFIG_PATTERN_INCLUSION;
}

static const char *pattern_word(int pattern)
{
    return ifig_cli_pattern_words[pattern - IFIG_PATTERN_PLAIN];
}

void ifig_cli_write_texture(FILE *out, const IfigCliOption *option, const IfigCliSettings *settings)
{
    const int is_stress = option == ifig_cli_option(IFIG_CLI_STRESS);
    const int is_grain = option == ifig_cli_option(IFIG_CLI_GRAIN);
    if (!ifig_cli_is_face(settings) || (is_stress && !is_strain(settings->pattern)) ||
        (is_grain && settings->grain_mm == 0.0)) {
        return;
    }
    if (option == ifig_cli_option(IFIG_CLI_SEED)) {
        ifig_cli_write_whole(out, option, settings);
    } else if (option->words != NULL) {
        ifig_cli_write_word(out, option, settings);
    } else {
        ifig_cli_write_plain(out, option, settings);
    }
}

/* turn takes the options of figure and of face; those of the other have no part in it. */
static IfigCliStatus check_turn(const IfigCliSettings *settings)
{
    static const int of_figure[] = {IFIG_CLI_LENS, IFIG_CLI_FIELD, IFIG_CLI_STRAIN};
    static const int of_face[] = {IFIG_CLI_PATTERN, IFIG_CLI_STRESS, IFIG_CLI_WIDTH,
                                  IFIG_CLI_GRAIN,   IFIG_CLI_SEED,   IFIG_CLI_CONE};
    const int is_face = settings->of_face;
    const int *apart = is_face ? of_figure : of_face;
    const size_t count =
        is_face ? sizeof of_figure / sizeof *of_figure : sizeof of_face / sizeof *of_face;
    for (size_t i = 0; i < count; i++) {
        if (settings->given[apart[i]]) {
            return ifig_cli_refuse(settings, "--%s goes with --of %s alone; %s",
                                   ifig_cli_option(apart[i])->name, is_face ? "figure" : "face",
                                   is_face ? "leave it out: a face is seen without a lens, and "
                                             "strained by --pattern and --stress"
                                           : "give --of face too, or leave it out");
        }
    }
    return IFIG_CLI_OK;
}

/* A stress belongs to a strain pattern, grains to grains. */
static IfigCliStatus check_pattern(const IfigCliSettings *settings)
{
    const int pattern = settings->pattern;
    const int is_told = pattern != IFIG_PATTERN_USUAL;
    if (is_told && settings->given[IFIG_CLI_STRESS] && !is_strain(pattern)) {
        return ifig_cli_refuse(settings,
                               "--stress and --pattern %s contradict each other: stress makes "
                               "bands, cross-hatch, snake or inclusion; leave one out",
                               pattern_word(pattern));
    }
    if (is_told && settings->given[IFIG_CLI_GRAIN] && pattern != IFIG_PATTERN_GRAINS) {
        return ifig_cli_refuse(settings,
                               "--grain and --pattern %s contradict each other: only grains have "
                               "a size; leave one out",
                               pattern_word(pattern));
    }
    if (settings->given[IFIG_CLI_GRAIN] && settings->given[IFIG_CLI_STRESS]) {
        return ifig_cli_refuse(settings, "--grain and --stress contradict each other: an aggregate "
                                         "of grains is not strained here; leave one out");
    }
    if (settings->layer_count > 0 && (is_told || settings->given[IFIG_CLI_STRESS])) {
        return ifig_cli_refuse(settings,
                               "--%s and --layers contradict each other: only a single stone has "
                               "a pattern; leave one out",
                               is_told ? "pattern" : "stress");
    }
    return IFIG_CLI_OK;
}

IfigCliStatus ifig_cli_prepare_texture(IfigCliSettings *settings)
{
    IfigCliStatus status = IFIG_CLI_OK;
    if (settings->command == IFIG_CLI_TURN) {
        status = check_turn(settings);
    }
    if (!ifig_cli_is_bare(settings)) {
        return status;
    }
    settings->lens = IFIG_LENS_NONE;
    settings->field_deg = settings->cone_deg;
    return status == IFIG_CLI_OK ? check_pattern(settings) : status;
}

/* What a stress without a pattern is spread as: glass cools without order, crystals strain along
 * their own directions; common practice, no source. */
static int usual_strain(const IfigSpecies *species)
{
    return strcmp(ifig_species_text(species, IFIG_TEXT_CRYSTAL_SYSTEM), "amorphous") == 0
               ? IFIG_PATTERN_SNAKE
               : IFIG_PATTERN_CROSS_HATCH;
}

IfigCliStatus ifig_cli_open_texture(IfigCliSettings *settings, IfigCliScene *scene)
{
    const int is_aggregate = scene->facts.character == IFIG_AGGREGATE;
    scene->texture = (IfigTexture)IFIG_TEXTURE_INIT;
    if (!ifig_cli_is_bare(settings)) {
        return IFIG_CLI_OK;
    }
    if (settings->given[IFIG_CLI_GRAIN] && !is_aggregate &&
        settings->pattern != IFIG_PATTERN_GRAINS) {
        return ifig_cli_refuse(settings,
                               "--grain: %s is no aggregate, so it has no grains; leave --grain "
                               "out, or give --pattern grains",
                               ifig_cli_stone_name(scene));
    }
    if (settings->pattern == IFIG_PATTERN_USUAL && settings->given[IFIG_CLI_STRESS]) {
        settings->pattern = usual_strain(scene->species);
    }
    if (is_strain(settings->pattern)) {
        const IfigCliStatus status = ifig_cli_check_stress(
            settings, scene, settings->given[IFIG_CLI_STRESS] ? "--stress" : "--pattern");
        if (status != IFIG_CLI_OK) {
            return status;
        }
        if (!settings->given[IFIG_CLI_STRESS]) {
            settings->pattern_stress_mpa = USUAL_STRESS_MPA;
        }
    }
    scene->texture.pattern = (IfigPattern)settings->pattern;
    scene->texture.stress_mpa = settings->pattern_stress_mpa;
    scene->texture.width_mm = settings->width_mm;
    scene->texture.grain_mm = settings->grain_mm;
    scene->texture.seed = (unsigned)settings->seed;
    return IFIG_CLI_OK;
}

IfigView ifig_cli_bare_view(const IfigCliSettings *settings, const IfigSpecies *species)
{
    const IfigView along = ifig_default_view(species);
    if (settings->command == IFIG_CLI_HUNT || settings->pattern == IFIG_PATTERN_BRAZIL) {
        return along;
    }
    return along == IFIG_VIEW_C                 ? IFIG_VIEW_X
           : along == IFIG_VIEW_ACUTE_BISECTRIX ? IFIG_VIEW_OPTIC_NORMAL
                                                : along;
}

void ifig_cli_describe_texture(FILE *out, const IfigCliSettings *settings)
{
    static const char *const phrases[] = {[IFIG_PATTERN_BANDS] = "in bands",
                                          [IFIG_PATTERN_CROSS_HATCH] = "in a cross-hatch",
                                          [IFIG_PATTERN_SNAKE] = "in snakes without order",
                                          [IFIG_PATTERN_INCLUSION] = "about an inclusion"};
    if (!ifig_cli_is_bare(settings) || settings->pattern == IFIG_PATTERN_USUAL) {
        return;
    }
    if (is_strain(settings->pattern)) {
        fprintf(out, ", strained by %s MPa %s", ifig_cli_number(settings->pattern_stress_mpa).text,
                phrases[settings->pattern]);
    } else if (settings->pattern == IFIG_PATTERN_TWINS) {
        fputs(", with twin lamellae", out);
    } else if (settings->pattern == IFIG_PATTERN_BRAZIL) {
        fputs(", with wedges of the other hand", out);
    } else if (settings->pattern == IFIG_PATTERN_GRAINS) {
        fputs(", of many small grains", out);
    }
}
