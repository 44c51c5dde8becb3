/* SPDX-License-Identifier: MIT */
/* interfig reading: what a trained eye reads off the figure, in words or in JSON. */
#include <stdio.h>

#include "commands.h"
#include "describe.h"
#include "json.h"
#include "output.h"
#include "scene.h"

static json_t *word_or_null(const char *word)
{
    return word != NULL && word[0] != '\0' ? json_string(word) : json_null();
}

/* Values at the three lines, by wavelength. */
static json_t *by_line(const double values[IFIG_READING_LINES])
{
    static const char *const lines[IFIG_READING_LINES] = {"486.1", "589.3", "656.3"};
    json_t *object = json_object();
    for (int i = 0; i < IFIG_READING_LINES; i++) {
        json_object_set_new(object, lines[i], ifig_cli_json_number(values[i]));
    }
    return object;
}

static json_t *json_of_melatope(const IfigMelatope *melatope)
{
    json_t *object = json_object();
    json_object_set_new(object, "theta_deg", ifig_cli_json_number(melatope->theta_deg));
    json_object_set_new(object, "phi_deg", ifig_cli_json_number(melatope->phi_deg));
    json_object_set_new(object, "x", ifig_cli_json_number(melatope->x));
    json_object_set_new(object, "y", ifig_cli_json_number(melatope->y));
    json_object_set_new(object, "in_field", json_boolean(melatope->in_field));
    return object;
}

static json_t *json_of_centre(const IfigReading *reading)
{
    const int is_lit = reading->centre_order > 0;
    json_t *object = json_object();
    json_object_set_new(object, "retardation_nm",
                        ifig_cli_json_number(reading->centre_retardation_nm));
    json_object_set_new(object, "order",
                        is_lit ? json_integer(reading->centre_order) : json_null());
    json_object_set_new(object, "colour", json_string(ifig_colour_text(reading->centre_colour)));
    json_object_set_new(object, "srgb", ifig_cli_json_srgb(reading->centre_srgb));
    return object;
}

static json_t *json_of_brushes(const IfigReading *reading)
{
    static const char *const shapes[] = {[IFIG_BRUSH_NONE] = "none",
                                         [IFIG_BRUSH_CROSS] = "cross",
                                         [IFIG_BRUSH_TWO] = "two brushes",
                                         [IFIG_BRUSH_ONE] = "one brush",
                                         [IFIG_BRUSH_ARMS] = "arms"};
    json_t *object = json_object();
    json_object_set_new(object, "shape", json_string(shapes[reading->brush_shape]));
    json_object_set_new(
        object, "rim_azimuths_deg",
        ifig_cli_json_numbers(reading->brush_azimuth_deg, (int)reading->brush_count));
    return object;
}

static const char *fringe_word(IfigFringe fringe)
{
    return fringe == IFIG_FRINGE_RED ? "red" : fringe == IFIG_FRINGE_BLUE ? "blue" : NULL;
}

static const char *effect_word(IfigPlateEffect effect)
{
    return effect == IFIG_PLATE_RISES ? "rises" : effect == IFIG_PLATE_FALLS ? "falls" : NULL;
}

static json_t *json_of_plate(const IfigReading *reading)
{
    static const char *const quadrants[4] = {"ne", "nw", "sw", "se"};
    json_t *object = json_object();
    for (int i = 0; i < 4; i++) {
        json_object_set_new(object, quadrants[i], word_or_null(effect_word(reading->plate[i])));
    }
    json_object_set_new(object, "between", word_or_null(effect_word(reading->plate_between)));
    return object;
}

static void add_melatopes(json_t *answer, const IfigReading *reading)
{
    json_t *melatopes = json_array(), *rings = json_array(), *fringes = json_array();
    for (size_t i = 0; i < reading->melatope_count; i++) {
        const IfigMelatope *melatope = &reading->melatope[i];
        json_t *sides = json_object();
        json_object_set_new(sides, "concave", word_or_null(fringe_word(melatope->concave)));
        json_object_set_new(sides, "convex", word_or_null(fringe_word(melatope->convex)));
        json_array_append_new(fringes, sides);
        json_array_append_new(melatopes, json_of_melatope(melatope));
        json_array_append_new(rings,
                              ifig_cli_json_numbers(melatope->ring_deg, (int)melatope->ring_count));
    }
    json_object_set_new(answer, "melatopes", melatopes);
    json_object_set_new(answer, "rings_deg", rings);
    json_object_set_new(answer, "fringe_sides", fringes);
}

static IfigCliStatus print_json(const IfigCliScene *scene, const IfigReading *reading,
                                const char *words)
{
    const char *key =
        scene->measured != NULL ? "indices" : ifig_species_text(scene->species, IFIG_TEXT_KEY);
    json_t *answer = json_object();
    json_object_set_new(answer, "schema_version", json_integer(1));
    json_object_set_new(answer, "species", json_string(key));
    json_object_set_new(answer, "optic_character",
                        json_string(ifig_cli_character_name(reading->character)));
    json_object_set_new(answer, "optic_sign",
                        word_or_null(ifig_cli_sign_name(reading->optic_sign)));
    json_object_set_new(answer, "wavelength_nm", ifig_cli_json_number(reading->wavelength_nm));
    json_object_set_new(answer, "two_v_deg", by_line(reading->two_v_deg));
    json_object_set_new(answer, "two_e_deg", by_line(reading->two_e_deg));
    json_object_set_new(answer, "dispersion",
                        word_or_null(ifig_axial_dispersion_text(reading->dispersion)));
    add_melatopes(answer, reading);
    json_object_set_new(answer, "centre", json_of_centre(reading));
    json_object_set_new(answer, "orders_in_field", ifig_cli_json_number(reading->orders_in_field));
    json_object_set_new(answer, "brushes", json_of_brushes(reading));
    json_object_set_new(answer, "bulls_eye", json_boolean(reading->bulls_eye));
    json_object_set_new(answer, "bulls_eye_colour",
                        reading->bulls_eye ? word_or_null(ifig_colour_text(reading->eye_colour))
                                           : json_null());
    json_object_set_new(answer, "full_wave_plate", json_of_plate(reading));
    json_object_set_new(answer, "words", ifig_cli_json_lines(words));
    return ifig_cli_print_json(answer);
}

static void print_text(const IfigCliSettings *settings, const IfigCliScene *scene,
                       const char *words)
{
    ifig_cli_describe(stdout, settings, scene);
    fputs("\n\n", stdout);
    ifig_cli_print_lines(stdout, words);
}

static IfigCliStatus tell(const IfigCliSettings *settings, const IfigCliScene *scene)
{
    IfigReading reading = IFIG_READING_INIT;
    char words[IFIG_READING_TEXT_MAX];
    IfigError error = IFIG_ERROR_INIT;
    IfigStatus status = ifig_reading(&scene->scene, &reading, &error);
    if (status == IFIG_OK) {
        status = ifig_reading_describe(&reading, words, sizeof words, &error);
    }
    if (status != IFIG_OK) {
        return ifig_cli_complain(ifig_cli_exit_status(status, IFIG_CLI_WORDS), "%s", error.message);
    }
    if (settings->given[IFIG_CLI_JSON]) {
        return print_json(scene, &reading, words);
    }
    print_text(settings, scene, words);
    return IFIG_CLI_OK;
}

IfigCliStatus ifig_cli_run_reading(IfigCliSettings *settings)
{
    return ifig_cli_tell_of_scene(settings, tell);
}
