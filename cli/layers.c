/* SPDX-License-Identifier: MIT */
#include "layers.h"

#include <math.h>
#include <string.h>

#include "arguments.h"
#include "check_settings.h"

#define WRONG(wrong, ...) snprintf((wrong)->text, sizeof(wrong)->text, __VA_ARGS__)

enum { FIELD_COUNT = 3, FIELD_SIZE = 80 };
static const char *const hands[] = {"right", "left", NULL};
static const double AZIMUTH_MOST = 3600.0;

/* A stretch of text without the blanks around it; 0 where it is too long. */
static int copy_field(const char *text, size_t length, char field[FIELD_SIZE])
{
    while (length > 0 && *text == ' ') {
        text++;
        length--;
    }
    while (length > 0 && text[length - 1] == ' ') {
        length--;
    }
    snprintf(field, FIELD_SIZE, "%.*s", (int)(length < FIELD_SIZE ? length : FIELD_SIZE), text);
    return length < sizeof((IfigCliLayer *)0)->species;
}

static int read_turn(const char *text, size_t place, IfigCliLayer *layer, IfigCliWrong *wrong)
{
    for (int hand = 0; hands[hand] != NULL; hand++) {
        if (strcmp(text, hands[hand]) == 0) {
            layer->has_hand = 1;
            layer->hand = hand == 0 ? IFIG_HAND_RIGHT : IFIG_HAND_LEFT;
            return 1;
        }
    }
    if (!ifig_cli_read_number(text, &layer->azimuth_deg)) {
        const char *nearest = ifig_nearest_word(text, hands, 2);
        WRONG(wrong, "is wrong in layer %zu: hand '%s' is neither right, left nor an azimuth%s%s%s",
              place, ifig_cli_shown(text).text, nearest != NULL ? " (did you mean " : "",
              nearest != NULL ? nearest : "", nearest != NULL ? "?)" : "");
        return 0;
    }
    if (!(fabs(layer->azimuth_deg) <= AZIMUTH_MOST)) {
        WRONG(wrong, "is wrong in layer %zu: azimuth '%s' is out of range", place,
              ifig_cli_shown(text).text);
        return 0;
    }
    return 1;
}

/* "quartz:right:2.5" */
static int read_layer(const IfigCliOption *option, const char *text, size_t length, size_t place,
                      IfigCliLayer *layer, IfigCliWrong *wrong)
{
    char field[FIELD_COUNT][FIELD_SIZE] = {"", "", ""};
    int count = 0, fits = 1;
    for (size_t at = 0; at <= length && count < FIELD_COUNT; count++) {
        const char *colon = memchr(text + at, ':', length - at);
        /* the last field takes what is left, so that a fourth makes it no number */
        const int is_last = count == FIELD_COUNT - 1 || colon == NULL;
        const size_t size = is_last ? length - at : (size_t)(colon - text) - at;
        fits = copy_field(text + at, size, field[count]) && fits;
        at += size + 1;
    }
    *layer = (IfigCliLayer){.hand = IFIG_HAND_RIGHT};
    if (count < FIELD_COUNT) {
        WRONG(wrong, "is wrong in layer %zu: '%s' is not SPECIES:HAND:MM", place,
              ifig_cli_shown(field[0]).text);
        return 0;
    }
    if (field[0][0] == '\0' || !fits) {
        WRONG(wrong, "is wrong in layer %zu: %s", place,
              fits ? "the species is missing" : "a part is too long");
        return 0;
    }
    memcpy(layer->species, field[0], sizeof layer->species);
    if (!read_turn(field[1], place, layer, wrong)) {
        return 0;
    }
    const int is_number = ifig_cli_read_number(field[2], &layer->thickness_mm);
    if (!is_number ||
        !(layer->thickness_mm >= option->low && layer->thickness_mm <= option->high)) {
        WRONG(wrong, "is wrong in layer %zu: thickness '%s' is %s", place,
              ifig_cli_shown(field[2]).text, is_number ? "out of range" : "not a number");
        return 0;
    }
    return 1;
}

int ifig_cli_read_layers(const IfigCliOption *option, const char *text, IfigCliSettings *settings,
                         IfigCliWrong *wrong)
{
    for (size_t count = 0;;) {
        const size_t length = strcspn(text, ",");
        if (count == IFIG_LAYERS_MAX) {
            WRONG(wrong, "holds more than %d layers", IFIG_LAYERS_MAX);
            return 0;
        }
        if (!read_layer(option, text, length, count + 1, &settings->layers[count], wrong)) {
            return 0;
        }
        settings->layer_count = ++count;
        if (text[length] == '\0' && count < 2) {
            WRONG(wrong, "holds one layer; name a single stone as SPECIES with --thickness");
            return 0;
        }
        if (text[length] == '\0') {
            return 1;
        }
        text += length + 1;
    }
}

void ifig_cli_write_layers(FILE *out, const IfigCliOption *option, const IfigCliSettings *settings)
{
    for (size_t i = 0; i < settings->layer_count; i++) {
        const IfigCliLayer *layer = &settings->layers[i];
        if (i == 0) {
            fprintf(out, " --%s '", option->name);
        }
        fprintf(out, "%s%s:%s:%s", i > 0 ? "," : "", layer->species,
                layer->has_hand ? hands[layer->hand == IFIG_HAND_LEFT]
                                : ifig_cli_number(layer->azimuth_deg).text,
                ifig_cli_number(layer->thickness_mm).text);
    }
    fputs(settings->layer_count > 0 ? "'" : "", out);
}

/* The body colour that the layer's word turns on, and the word as a recipe spells it. */
static IfigCliStatus name_layer(const IfigCliSettings *settings, size_t place, IfigCliLayer *asked,
                                IfigLayer *layer)
{
    const int colour = ifig_species_colour_of_word(layer->species, asked->species);
    if (colour > 0 && !ifig_cli_is_plain(asked->species)) {
        return ifig_cli_refuse(settings, "--layers: layer %zu: write '%s' in plain letters", place,
                               ifig_cli_shown(asked->species).text);
    }
    if (colour == 0) {
        snprintf(asked->species, sizeof asked->species, "%s",
                 ifig_species_text(layer->species, IFIG_TEXT_KEY));
    }
    layer->body_colour = settings->given[IFIG_CLI_COLOURLESS] ? 0 : colour;
    return IFIG_CLI_OK;
}

static IfigCliStatus find_layer(IfigCliSettings *settings, const IfigCliScene *scene, size_t index,
                                IfigLayer *layer)
{
    IfigCliLayer *asked = &settings->layers[index];
    const size_t place = index + 1;
    char where[40];
    IfigError error = IFIG_ERROR_INIT;
    snprintf(where, sizeof where, "--layers: layer %zu: ", place);
    *layer = (IfigLayer)IFIG_LAYER_INIT;
    const IfigStatus found =
        ifig_catalogue_find(scene->catalogue, asked->species, &layer->species, &error);
    if (found == IFIG_ERROR_NOT_FOUND || found == IFIG_ERROR_AMBIGUOUS) {
        return ifig_cli_refuse(settings, "%s%s", where, error.message);
    }
    if (found != IFIG_OK) {
        return ifig_cli_complain(ifig_cli_exit_status(found, IFIG_CLI_WORDS), "%s", error.message);
    }
    IfigSpeciesFacts facts;
    IfigCliStatus status = ifig_cli_check_species(where, layer->species);
    if (status == IFIG_CLI_OK && asked->has_hand &&
        ifig_species_facts(layer->species, &facts, NULL) == IFIG_OK && !facts.is_optically_active) {
        status = ifig_cli_refuse(settings,
                                 "%s%s is not optically active, so it has no hand; give an azimuth "
                                 "in degrees, such as 0",
                                 where, ifig_species_text(layer->species, IFIG_TEXT_KEY));
    }
    layer->hand = (IfigHand)asked->hand;
    layer->thickness_mm = asked->thickness_mm;
    return status == IFIG_CLI_OK ? name_layer(settings, place, asked, layer) : status;
}

IfigCliStatus ifig_cli_find_layers(IfigCliSettings *settings, IfigCliScene *scene)
{
    int colours = 0;
    for (size_t i = 0; i < settings->layer_count; i++) {
        const IfigCliStatus status = find_layer(settings, scene, i, &scene->layer[i]);
        if (status != IFIG_CLI_OK) {
            return status;
        }
        colours += ifig_species_colour_count(scene->layer[i].species);
    }
    if (settings->given[IFIG_CLI_COLOURLESS] && colours == 0) {
        return ifig_cli_refuse(settings, "--colourless: no layer has a body colour to leave out");
    }
    scene->species = scene->layer[0].species;
    return IFIG_CLI_OK;
}

double ifig_cli_layer_stage_deg(const IfigCliSettings *settings, size_t layer, double stage_deg)
{
    const double turn = layer < settings->layer_count ? settings->layers[layer].azimuth_deg : 0.0;
    const double sum = stage_deg + turn;
    /* whole turns bring the sum back into the range that an orientation takes */
    return fabs(sum) <= AZIMUTH_MOST ? sum : sum - copysign(AZIMUTH_MOST, sum);
}

void ifig_cli_describe_layers(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    for (size_t i = 0; i < settings->layer_count; i++) {
        const IfigCliLayer *asked = &settings->layers[i];
        const IfigLayer *layer = &scene->layer[i];
        const char *key = ifig_species_text(layer->species, IFIG_TEXT_KEY);
        const char *colour = ifig_species_colour_name(layer->species, layer->body_colour);
        fprintf(out, "%s%s mm of ", i > 0 ? ", then " : "",
                ifig_cli_number(layer->thickness_mm).text);
        if (asked->has_hand) {
            fprintf(out, "%s-handed ", hands[layer->hand == IFIG_HAND_LEFT]);
        }
        fputs(key, out);
        if (colour != NULL) {
            fprintf(out, " with the body colour of %s", colour);
        }
        if (asked->azimuth_deg != 0.0) {
            fprintf(out, " turned %s deg", ifig_cli_number(asked->azimuth_deg).text);
        }
    }
}

IfigCliStem ifig_cli_layers_stem(const IfigCliSettings *settings, const IfigCliScene *scene)
{
    IfigCliStem stem = {""};
    int used = 0;
    for (size_t i = 0; i < settings->layer_count && (size_t)used < sizeof stem.text; i++) {
        const IfigCliLayer *asked = &settings->layers[i];
        const char *key = ifig_species_text(scene->layer[i].species, IFIG_TEXT_KEY);
        const char *colour =
            ifig_species_colour_name(scene->layer[i].species, scene->layer[i].body_colour);
        used += snprintf(stem.text + used, sizeof stem.text - (size_t)used, "%s%s_%s_%smm",
                         i > 0 ? "_" : "", colour != NULL ? colour : key,
                         asked->has_hand ? hands[asked->hand == IFIG_HAND_LEFT]
                                         : ifig_cli_number(asked->azimuth_deg).text,
                         ifig_cli_number(asked->thickness_mm).text);
    }
    for (char *at = stem.text; *at != '\0'; at++) {
        *at = *at == ' ' ? '_' : *at;
    }
    return stem;
}
