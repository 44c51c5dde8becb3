/* SPDX-License-Identifier: MIT */
#include "json.h"

#include <math.h>
#include <string.h>

#include "colour.h"
#include "describe.h"
#include "output.h"

json_t *ifig_cli_json_number(double value)
{
    return isfinite(value) ? json_real(value + 0.0) : json_null();
}

json_t *ifig_cli_json_numbers(const double *values, int count)
{
    json_t *array = json_array();
    for (int i = 0; i < count; i++) {
        if (json_array_append_new(array, ifig_cli_json_number(values[i])) != 0) {
            json_decref(array);
            return NULL;
        }
    }
    return array;
}

json_t *ifig_cli_json_lines(const char *words)
{
    json_t *array = json_array();
    while (*words != '\0') {
        const size_t length = strcspn(words, "\n");
        json_array_append_new(array, json_stringn(words, length));
        words += length + (words[length] == '\n');
    }
    return array;
}

json_t *ifig_cli_json_srgb(const double srgb[3])
{
    json_t *array = json_array();
    for (int i = 0; i < 3; i++) {
        json_array_append_new(array, json_integer((json_int_t)floor(255.0 * srgb[i] + 0.5)));
    }
    return array;
}

void ifig_cli_json_stone(json_t *answer, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    const IfigLayer *first = &scene->layer[0];
    const char *colour = ifig_species_colour_name(first->species, first->body_colour);
    const char *key = settings->layer_count > 0 ? "layers"
                      : scene->measured != NULL ? "indices"
                                                : ifig_species_text(scene->species, IFIG_TEXT_KEY);
    json_object_set_new(answer, "species", json_string(key));
    json_object_set_new(answer, "body_colour",
                        colour != NULL && settings->layer_count == 0 ? json_string(colour)
                                                                     : json_null());
    json_object_set_new(answer, "thickness_mm",
                        settings->layer_count > 0 ? json_null()
                                                  : ifig_cli_json_number(settings->thickness_mm));
    json_object_set_new(answer, "view",
                        settings->view == IFIG_VIEW_DEFAULT
                            ? json_null()
                            : json_string(ifig_cli_view_word(settings)));
    json_object_set_new(answer, "tilt_deg", ifig_cli_json_number(settings->tilt_deg));
    json_object_set_new(answer, "tilt_azimuth_deg",
                        ifig_cli_json_number(settings->tilt_azimuth_deg));
}

IfigCliStatus ifig_cli_print_json(json_t *value)
{
    /* JSON_REAL_PRECISION(17), in full, since the macro casts with a sign. */
    const size_t flags = JSON_INDENT(2) | ((size_t)(17 & 0x1F) << 11);
    if (value == NULL) {
        return ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory for the answer");
    }
    json_dumpf(value, stdout, flags);
    fputc('\n', stdout);
    json_decref(value);
    return IFIG_CLI_OK; /* whether it arrived, the end of the program asks */
}
