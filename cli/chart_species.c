/* SPDX-License-Identifier: MIT */
/* The species of a chart: those asked for, or those that most collections hold. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "arguments.h"
#include "chart.h"

enum { WORD_MAX = 128 };

/* Those a class meets first come first: they choose their places. */
static const char USUAL[] =
    "quartz,calcite,corundum,topaz_f,peridot,zircon_high,tourmaline_elbaite,emerald,apatite,"
    "orthoclase,spodumene,tanzanite,iolite,andalusite,kyanite,diopside,epidote,benitoite,sphene,"
    "chrysoberyl,danburite,moissanite,rutile_synthetic,idocrase,apophyllite,brookite,muscovite,"
    "dioptase,cassiterite,lithium_niobate,phenakite,dolomite,hambergite,enstatite,albite,anhydrite,"
    "sinhalite,kornerupine,sillimanite,brazilianite,euclase,datolite,rhodochrosite,smithsonite,"
    "scheelite,barite,taaffeite,scapolite,axinite,leucite";
static const char USUAL_STRIPS[] = "tanzanite:z,moissanite,sphene:z,brookite:z";
static const char ALL[] = "all", NONE[] = "none";
static const char *const SECTIONS[] = {"x", "y", "z"};

const char *ifig_cli_section_word(const IfigRetarder *retarder)
{
    return SECTIONS[retarder->section == IFIG_VIEW_DEFAULT ? 1 : retarder->section - IFIG_VIEW_X];
}

static double birefringence_of(const IfigRetarder *retarder)
{
    const double sodium_nm = 589.3;
    double birefringence = 0.0;
    ifig_retarder_birefringence(retarder, sodium_nm, &birefringence, NULL);
    return fabs(birefringence);
}

/* Take the next word of a list into `word`; the rest of the list, NULL at its end. */
static const char *next_word(const char *list, char word[WORD_MAX])
{
    const size_t length = strcspn(list, ",");
    snprintf(word, WORD_MAX, "%.*s", (int)(length < WORD_MAX ? length : WORD_MAX - 1), list);
    return list[length] == ',' ? list + length + 1 : NULL;
}

static IfigCliStatus find(const IfigCliSettings *settings, const IfigCliChart *chart,
                          const char *option, const char *word, const IfigSpecies **species)
{
    IfigError error = IFIG_ERROR_INIT;
    if (word[0] == '\0') {
        return ifig_cli_refuse(settings,
                               "%s: an entry of the list is empty; write species with one comma "
                               "between them, such as quartz,topaz_f",
                               option);
    }
    const IfigStatus status = ifig_catalogue_find(chart->scene.catalogue, word, species, &error);
    return status == IFIG_OK
               ? IFIG_CLI_OK
               : ifig_cli_refuse(settings, "%s: %s ('interfig species' lists them all)", option,
                                 error.message);
}

static IfigCliStatus add_species(const IfigCliSettings *settings, IfigCliChart *chart,
                                 const char *word)
{
    const IfigSpecies *species = NULL;
    IfigCliStatus status = find(settings, chart, "--species", word, &species);
    if (status != IFIG_CLI_OK) {
        return status;
    }
    const IfigRetarder whole = {species, IFIG_VIEW_DEFAULT};
    if (!(birefringence_of(&whole) > 0.0)) {
        return ifig_cli_refuse(settings,
                               "--species: %s has no birefringence, so it has no place on a chart "
                               "of interference colours; leave it out",
                               ifig_species_text(species, IFIG_TEXT_KEY));
    }
    for (size_t i = 0; i < chart->species_count; i++) {
        if (chart->species[i] == species) {
            return ifig_cli_refuse(settings, "--species: %s is there twice; name it once",
                                   ifig_species_text(species, IFIG_TEXT_KEY));
        }
    }
    if (chart->species_count == IFIG_CLI_CHART_SPECIES_MAX) {
        return ifig_cli_refuse(settings, "--species: more than %d species; name fewer",
                               IFIG_CLI_CHART_SPECIES_MAX);
    }
    chart->species[chart->species_count++] = species;
    return IFIG_CLI_OK;
}

static IfigCliStatus add_list(const IfigCliSettings *settings, IfigCliChart *chart,
                              const char *list)
{
    IfigCliStatus status = IFIG_CLI_OK;
    char word[WORD_MAX];
    while (list != NULL && status == IFIG_CLI_OK) {
        list = next_word(list, word);
        status = add_species(settings, chart, word);
    }
    return status;
}

/* Every doubly refractive species that lets light through, the usual ones first. */
static IfigCliStatus add_all(const IfigCliSettings *settings, IfigCliChart *chart)
{
    IfigCliStatus status = add_list(settings, chart, USUAL);
    const size_t count = ifig_catalogue_count(chart->scene.catalogue);
    for (size_t i = 0; i < count && chart->species_count < IFIG_CLI_CHART_SPECIES_MAX; i++) {
        const IfigSpecies *species = ifig_catalogue_at(chart->scene.catalogue, i);
        const IfigRetarder whole = {species, IFIG_VIEW_DEFAULT};
        IfigSpeciesFacts facts;
        int is_there = ifig_species_facts(species, &facts, NULL) != IFIG_OK || facts.is_opaque ||
                       facts.character == IFIG_AGGREGATE || !(birefringence_of(&whole) > 0.0);
        for (size_t k = 0; k < chart->species_count && !is_there; k++) {
            is_there = chart->species[k] == species;
        }
        if (!is_there) {
            chart->species[chart->species_count++] = species;
        }
    }
    return status;
}

static IfigCliStatus add_strip(const IfigCliSettings *settings, IfigCliChart *chart, char *word)
{
    IfigRetarder strip = {NULL, IFIG_VIEW_DEFAULT};
    char *const colon = strchr(word, ':');
    const char *key;
    if (colon != NULL) {
        *colon = '\0';
        for (int i = 0; i < 3; i++) {
            strip.section =
                strcmp(colon + 1, SECTIONS[i]) == 0 ? (IfigView)(IFIG_VIEW_X + i) : strip.section;
        }
        if (strip.section == IFIG_VIEW_DEFAULT) {
            return ifig_cli_refuse(settings,
                                   "--strips: '%s' is no line of sight; write x, y or z behind the "
                                   "colon, such as sphene:z",
                                   ifig_cli_shown(colon + 1).text);
        }
    }
    const IfigCliStatus status = find(settings, chart, "--strips", word, &strip.species);
    if (status != IFIG_CLI_OK) {
        return status;
    }
    key = ifig_species_text(strip.species, IFIG_TEXT_KEY);
    if (!(birefringence_of(&strip) > 0.0)) {
        return ifig_cli_refuse(settings,
                               "--strips: %s shows no birefringence along %s; choose another line "
                               "of sight or a doubly refractive stone",
                               key, ifig_cli_section_word(&strip));
    }
    if (!ifig_retarder_is_dispersed(&strip)) {
        return ifig_cli_refuse(settings,
                               "--strips: of %s along %s the catalogue does not know how the "
                               "birefringence changes with wavelength, so its strip would be the "
                               "usual one; choose another, such as sphene:z or moissanite",
                               key, ifig_cli_section_word(&strip));
    }
    if (chart->strip_count == IFIG_CLI_CHART_STRIPS_MAX) {
        return ifig_cli_refuse(settings, "--strips: more than %d strips find no room; name fewer",
                               IFIG_CLI_CHART_STRIPS_MAX);
    }
    chart->strips[chart->strip_count++] = strip;
    return IFIG_CLI_OK;
}

static IfigCliStatus add_strips(const IfigCliSettings *settings, IfigCliChart *chart)
{
    IfigCliStatus status = IFIG_CLI_OK;
    const int is_line = ifig_lamp_line_nm(chart->scene.lamp) > 0.0;
    const char *list = settings->strips != NULL ? settings->strips : is_line ? NONE : USUAL_STRIPS;
    char word[WORD_MAX];
    if (strcmp(list, NONE) == 0) {
        return IFIG_CLI_OK;
    }
    if (is_line) {
        return ifig_cli_refuse(settings,
                               "--strips: under a lamp of a single wavelength no stone has "
                               "anomalous colours; leave --strips out or choose another --lamp");
    }
    while (list != NULL && status == IFIG_CLI_OK) {
        list = next_word(list, word);
        status = add_strip(settings, chart, word);
    }
    return status;
}

/* The lists anew, as keys; NULL: no memory. */
static char *spell_species(const IfigCliChart *chart)
{
    char *text = NULL;
    size_t length;
    FILE *out = open_memstream(&text, &length);
    for (size_t i = 0; out != NULL && i < chart->species_count; i++) {
        fprintf(out, "%s%s", i > 0 ? "," : "", ifig_species_text(chart->species[i], IFIG_TEXT_KEY));
    }
    if (out != NULL && chart->species_count == 0) {
        fputs(NONE, out);
    }
    return out != NULL && fclose(out) == 0 ? text : NULL;
}

static char *spell_strips(const IfigCliChart *chart)
{
    char *text = NULL;
    size_t length;
    FILE *out = open_memstream(&text, &length);
    for (size_t i = 0; out != NULL && i < chart->strip_count; i++) {
        fprintf(out, "%s%s:%s", i > 0 ? "," : "",
                ifig_species_text(chart->strips[i].species, IFIG_TEXT_KEY),
                ifig_cli_section_word(&chart->strips[i]));
    }
    if (out != NULL && chart->strip_count == 0) {
        fputs(NONE, out);
    }
    return out != NULL && fclose(out) == 0 ? text : NULL;
}

static IfigCliStatus spell_lists(IfigCliSettings *settings, IfigCliChart *chart)
{
    chart->marked_text = spell_species(chart);
    chart->strips_text = spell_strips(chart);
    if (chart->marked_text == NULL || chart->strips_text == NULL) {
        return ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory for the species of the chart");
    }
    if (!chart->may_leave_out) { /* the usual ones and "all" stand as they are */
        settings->marked = chart->marked_text;
    }
    settings->strips = chart->strips_text;
    return IFIG_CLI_OK;
}

IfigCliStatus ifig_cli_open_chart_species(IfigCliSettings *settings, IfigCliChart *chart)
{
    const char *const list = settings->marked;
    IfigCliStatus status = IFIG_CLI_OK;
    chart->may_leave_out = list == NULL || strcmp(list, ALL) == 0;
    if (list == NULL) {
        status = add_list(settings, chart, USUAL);
    } else if (strcmp(list, ALL) == 0) {
        status = add_all(settings, chart);
    } else if (strcmp(list, NONE) != 0) {
        status = add_list(settings, chart, list);
    }
    if (status == IFIG_CLI_OK) {
        status = add_strips(settings, chart);
    }
    return status == IFIG_CLI_OK ? spell_lists(settings, chart) : status;
}
