/* SPDX-License-Identifier: MIT */
/* The body colours of a species: each principal ray by itself, through a nominal thickness, faces
 * left out, as the eye adapted to the lamp sees it. */
#include "species_colours.h"

#include <math.h>
#include <string.h>

#include "json.h"
#include "output.h"
#include "species_words.h"

static const double THICKNESS_MM = 3.0;

enum { LAMP_COUNT = 2 };
static const struct {
    const char *name;
    IfigLampKind kind;
} lamps[LAMP_COUNT] = {{"daylight", IFIG_LAMP_DAYLIGHT}, {"tungsten", IFIG_LAMP_TUNGSTEN}};

/* What a ray looks like. */
typedef struct Ray {
    char code[8]; /* "#rrggbb" */
    const char *word;
} Ray;

/* Along Z where the first is 2. */
static int axis_of(IfigOpticCharacter character, int ray)
{
    return character == IFIG_UNIAXIAL && ray == 1 ? 2 : ray;
}

static const char *ray_name(IfigOpticCharacter character, int ray)
{
    static const char *const uniaxial[] = {"o", "e"}, *const biaxial[] = {"x", "y", "z"};
    return character == IFIG_UNIAXIAL  ? uniaxial[ray]
           : character == IFIG_BIAXIAL ? biaxial[ray]
                                       : "all";
}

/* XYZ of the lamp's light that vibrates along an axis, Y of the bare lamp 1. */
static void sum_spectrum(const IfigSpecies *species, int colour, int axis, const IfigLamp *lamp,
                         double xyz[3])
{
    double white = 0.0;
    memset(xyz, 0, 3 * sizeof *xyz);
    for (int nm = 380; nm <= 780; nm++) {
        double per_mm[3], observer[3];
        if (ifig_species_absorption(species, colour, nm, per_mm, NULL) != IFIG_OK) {
            continue;
        }
        const double power = ifig_lamp_power(lamp, nm);
        ifig_colour_matching(nm, observer);
        white += power * observer[1];
        for (int i = 0; i < 3; i++) {
            xyz[i] += power * observer[i] * exp(-per_mm[axis] * THICKNESS_MM);
        }
    }
    for (int i = 0; i < 3; i++) {
        xyz[i] /= white;
    }
}

static Ray look(const IfigSpecies *species, int colour, int axis, const IfigLamp *lamp)
{
    double xyz[3], rgb[3], srgb[3];
    Ray ray;
    unsigned byte[3];
    sum_spectrum(species, colour, axis, lamp, xyz);
    ifig_colour_linear(lamp, xyz, 0.0, rgb);
    ifig_colour_into_gamut(rgb);
    for (int i = 0; i < 3; i++) {
        srgb[i] = ifig_srgb_encode(rgb[i]);
        byte[i] = (unsigned)floor(255.0 * srgb[i] + 0.5) & 0xffu;
    }
    snprintf(ray.code, sizeof ray.code, "#%02x%02x%02x", byte[0], byte[1], byte[2]);
    ray.word = ifig_colour_text(ifig_colour_of(srgb, 0.0));
    return ray;
}

/* The lamps; 0 where memory ran out. */
static int make_lamps(IfigLamp *made[LAMP_COUNT])
{
    int count = 0;
    for (int i = 0; i < LAMP_COUNT; i++) {
        made[i] = NULL;
        count += ifig_lamp_create(lamps[i].kind, &made[i], NULL) == IFIG_OK;
    }
    return count == LAMP_COUNT;
}

static void free_lamps(IfigLamp *made[LAMP_COUNT])
{
    for (int i = 0; i < LAMP_COUNT; i++) {
        ifig_lamp_free(made[i]);
    }
}

static void print_colour(const IfigSpecies *species, IfigOpticCharacter character, int colour,
                         IfigLamp *const made[LAMP_COUNT])
{
    char line[200];
    printf("%-*s%s, %s mm\n", IFIG_CLI_HEADING, colour == 1 ? "body colours" : "",
           ifig_species_colour_name(species, colour), ifig_cli_number(THICKNESS_MM).text);
    for (int r = 0; r < ifig_cli_index_count(character); r++) {
        int used = snprintf(line, sizeof line, "  %s: ", ray_name(character, r));
        for (int i = 0; i < LAMP_COUNT; i++) {
            const Ray ray = look(species, colour, axis_of(character, r), made[i]);
            used += snprintf(line + used, sizeof line - (size_t)used, "%s%s %s %s",
                             i > 0 ? "; " : "", lamps[i].name, ray.code, ray.word);
        }
        printf("%*s%s\n", IFIG_CLI_HEADING, "", line);
    }
    printf("%*s", IFIG_CLI_HEADING, "");
    snprintf(line, sizeof line, "  sources: ");
    fputs(line, stdout);
    ifig_cli_wrap(stdout, IFIG_CLI_HEADING + (int)strlen(line), IFIG_CLI_HEADING + 4,
                  ifig_species_colour_source(species, colour));
}

void ifig_cli_print_colours(const IfigSpecies *species, IfigOpticCharacter character)
{
    IfigLamp *made[LAMP_COUNT];
    if (make_lamps(made)) {
        for (int colour = 1; colour <= ifig_species_colour_count(species); colour++) {
            print_colour(species, character, colour, made);
        }
    }
    free_lamps(made);
}

static json_t *json_of_colour(const IfigSpecies *species, IfigOpticCharacter character, int colour,
                              IfigLamp *const made[LAMP_COUNT])
{
    json_t *object = json_object(), *rays = json_array();
    for (int r = 0; r < ifig_cli_index_count(character); r++) {
        json_t *one = json_object();
        json_object_set_new(one, "ray", json_string(ray_name(character, r)));
        for (int i = 0; i < LAMP_COUNT; i++) {
            const Ray ray = look(species, colour, axis_of(character, r), made[i]);
            json_object_set_new(one, lamps[i].name,
                                json_pack("{s:s,s:s}", "srgb", ray.code, "word", ray.word));
        }
        json_array_append_new(rays, one);
    }
    json_object_set_new(object, "name", json_string(ifig_species_colour_name(species, colour)));
    json_object_set_new(object, "thickness_mm", ifig_cli_json_number(THICKNESS_MM));
    json_object_set_new(object, "rays", rays);
    json_object_set_new(object, "source", json_string(ifig_species_colour_source(species, colour)));
    return object;
}

json_t *ifig_cli_json_of_colours(const IfigSpecies *species, IfigOpticCharacter character)
{
    IfigLamp *made[LAMP_COUNT];
    json_t *colours = json_array();
    if (make_lamps(made)) {
        for (int colour = 1; colour <= ifig_species_colour_count(species); colour++) {
            json_array_append_new(colours, json_of_colour(species, character, colour, made));
        }
    }
    free_lamps(made);
    return colours;
}
