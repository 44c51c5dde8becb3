/* SPDX-License-Identifier: MIT */
#include "colour.h"

#include <string.h>
#include <strings.h>

#include "arguments.h"

static int is_letter_or_digit(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
}

int ifig_cli_is_plain(const char *word)
{
    for (const char *at = word; *at != '\0'; at++) {
        if (!is_letter_or_digit(*at) && (at == word || strchr(" -_", *at) == NULL)) {
            return 0;
        }
    }
    return word[0] != '\0';
}

void ifig_cli_write_plain_word(FILE *out, const char *word)
{
    const char *quote = strchr(word, ' ') != NULL ? "'" : "";
    fprintf(out, "%s%s%s", quote, word, quote);
}

IfigCliColourNames ifig_cli_colour_names(const IfigSpecies *species)
{
    IfigCliColourNames names = {""};
    const int count = ifig_species_colour_count(species);
    int used = 0;
    for (int i = 1; i <= count && used >= 0 && (size_t)used < sizeof names.text; i++) {
        used += snprintf(names.text + used, sizeof names.text - (size_t)used, "%s%s",
                         i == 1       ? ""
                         : i == count ? " or "
                                      : ", ",
                         ifig_species_colour_name(species, i));
    }
    return names;
}

/* The colour that a word means: a variety, or the name of a colour; 0 for none. */
static int find_colour(const IfigSpecies *species, const char *word)
{
    int colour = ifig_species_colour_of_word(species, word);
    for (int i = 1; colour == 0 && i <= ifig_species_colour_count(species); i++) {
        colour = strcasecmp(word, ifig_species_colour_name(species, i)) == 0 ? i : 0;
    }
    return colour;
}

static IfigCliStatus refuse_colour(const IfigCliSettings *settings, const IfigSpecies *species)
{
    const char *key = ifig_species_text(species, IFIG_TEXT_KEY);
    const char *word = settings->colour_word;
    if (ifig_species_colour_count(species) == 0) {
        return ifig_cli_refuse(
            settings,
            "--colour: '%s' is no colour of %s, which has none in the catalogue; "
            "leave --colour out",
            ifig_cli_shown(word).text, key);
    }
    return ifig_cli_refuse(settings, "--colour: '%s' is no colour of %s; choose %s",
                           ifig_cli_shown(word).text, key, ifig_cli_colour_names(species).text);
}

IfigCliStatus ifig_cli_open_colour(IfigCliSettings *settings, IfigCliScene *scene)
{
    const IfigSpecies *species = scene->species;
    int colour = 0;
    if (settings->range != IFIG_CLI_RANGE_NONE && ifig_species_colour_count(species) > 0) {
        settings->given[IFIG_CLI_COLOURLESS] = 1;
    }
    if (settings->given[IFIG_CLI_COLOURLESS]) {
        return ifig_species_colour_count(species) > 0
                   ? IFIG_CLI_OK
                   : ifig_cli_refuse(settings, "--colourless: %s has no body colour to leave out",
                                     ifig_species_text(species, IFIG_TEXT_KEY));
    }
    if (settings->given[IFIG_CLI_COLOUR]) {
        colour = find_colour(species, settings->colour_word);
        if (colour == 0) {
            return refuse_colour(settings, species);
        }
    } else if (settings->word != NULL) {
        colour = ifig_species_colour_of_word(species, settings->word);
    }
    const int is_typed_plainly = !settings->given[IFIG_CLI_COLOUR] && settings->word != NULL &&
                                 ifig_cli_is_plain(settings->word);
    if (colour != 0 && !is_typed_plainly) { /* the recipe then holds key and colour */
        settings->given[IFIG_CLI_COLOUR] = 1;
        settings->colour_word = ifig_species_colour_name(species, colour);
    }
    scene->layer[0].body_colour = colour;
    return IFIG_CLI_OK;
}

void ifig_cli_write_colour(FILE *out, const IfigCliOption *option, const IfigCliSettings *settings)
{
    if (settings->given[IFIG_CLI_COLOUR]) {
        fprintf(out, " --%s ", option->name);
        ifig_cli_write_plain_word(out, settings->colour_word);
    }
}

void ifig_cli_write_colourless(FILE *out, const IfigCliOption *option,
                               const IfigCliSettings *settings)
{
    if (settings->given[IFIG_CLI_COLOURLESS]) {
        fprintf(out, " --%s", option->name);
    }
}

/* 1 where the word typed has turned the colour on, or would have. */
static int is_variety(const IfigCliSettings *settings, const IfigCliScene *scene)
{
    return !settings->given[IFIG_CLI_COLOUR] && settings->word != NULL &&
           ifig_cli_is_plain(settings->word) &&
           ifig_species_colour_of_word(scene->species, settings->word) > 0;
}

const char *ifig_cli_recipe_stone(const IfigCliSettings *settings, const IfigCliScene *scene)
{
    if (settings->index_count > 0 || settings->layer_count > 0) {
        return "";
    }
    return is_variety(settings, scene) ? settings->word
                                       : ifig_species_text(scene->species, IFIG_TEXT_KEY);
}

void ifig_cli_describe_colour(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    const char *name =
        ifig_species_colour_name(scene->layer[0].species, scene->layer[0].body_colour);
    if (settings->given[IFIG_CLI_COLOURLESS]) {
        fputs(", colourless", out);
    } else if (name != NULL && settings->layer_count == 0) {
        fprintf(out, ", body colour of %s", name);
    }
}

/* Letters and digits as they are, in lower case; '_' for the rest. */
static void make_safe(char *text)
{
    for (; *text != '\0'; text++) {
        const int is_capital = *text >= 'A' && *text <= 'Z';
        *text = is_capital ? (char)(*text - 'A' + 'a') : is_letter_or_digit(*text) ? *text : '_';
    }
}

IfigCliStem ifig_cli_stone_stem(const IfigCliSettings *settings, const IfigCliScene *scene)
{
    IfigCliStem stem;
    const char *key = ifig_species_text(scene->species, IFIG_TEXT_KEY);
    const char *name = ifig_species_colour_name(scene->species, scene->layer[0].body_colour);
    if (settings->given[IFIG_CLI_COLOURLESS]) {
        snprintf(stem.text, sizeof stem.text, "%s_colourless", key);
    } else if (name == NULL) {
        snprintf(stem.text, sizeof stem.text, "%s", key);
    } else if (is_variety(settings, scene)) {
        snprintf(stem.text, sizeof stem.text, "%.*s", 150, settings->word);
    } else {
        snprintf(stem.text, sizeof stem.text, "%s_%s", key, name);
    }
    make_safe(stem.text);
    return stem;
}
