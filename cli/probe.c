/* SPDX-License-Identifier: MIT */
/* interfig probe: the numbers at one direction. */
#include <math.h>
#include <stdio.h>

#include "colour.h"
#include "commands.h"
#include "describe.h"
#include "json.h"
#include "output.h"
#include "scene.h"

static const char DARK[] = "total reflection: no light passes the stone in this direction";

/* The value as an 8-bit picture holds it. */
static int to_byte(double encoded)
{
    return (int)floor(255.0 * encoded + 0.5);
}

static json_t *json_of_jones(const IfigJones *jones)
{
    json_t *rows = json_array();
    for (int i = 0; i < 2; i++) {
        json_t *row = json_array();
        for (int j = 0; j < 2; j++) {
            const double parts[2] = {jones->element[i][j].re, jones->element[i][j].im};
            json_array_append_new(row, ifig_cli_json_numbers(parts, 2));
        }
        json_array_append_new(rows, row);
    }
    return rows;
}

static json_t *json_of_layers(const IfigCliScene *scene)
{
    json_t *layers = json_array();
    for (size_t i = 0; i < scene->layer_count; i++) {
        const IfigLayer *layer = &scene->layer[i];
        const char *colour = ifig_species_colour_name(layer->species, layer->body_colour);
        json_t *object = json_object();
        json_object_set_new(object, "species",
                            json_string(ifig_species_text(layer->species, IFIG_TEXT_KEY)));
        json_object_set_new(object, "hand",
                            json_string(layer->hand == IFIG_HAND_LEFT ? "left" : "right"));
        json_object_set_new(object, "body_colour",
                            colour != NULL ? json_string(colour) : json_null());
        json_object_set_new(object, "stage_deg",
                            ifig_cli_json_number(layer->orientation.stage_deg));
        json_object_set_new(object, "thickness_mm", ifig_cli_json_number(layer->thickness_mm));
        json_array_append_new(layers, object);
    }
    return layers;
}

static IfigCliStatus print_json(const IfigCliSettings *settings, const IfigCliScene *scene,
                                const IfigProbe *probe)
{
    const char *key =
        scene->measured != NULL ? "indices" : ifig_species_text(scene->species, IFIG_TEXT_KEY);
    const int is_dark = probe->wave.is_dark, is_stack = settings->layer_count > 0;
    const IfigLayer *first = &scene->layer[0];
    const char *colour = ifig_species_colour_name(first->species, first->body_colour);
    json_t *answer = json_object();
    json_object_set_new(answer, "schema_version", json_integer(1));
    json_object_set_new(answer, "species", json_string(is_stack ? "layers" : key));
    if (is_stack) {
        json_object_set_new(answer, "layers", json_of_layers(scene));
    } else if (colour != NULL) {
        json_object_set_new(answer, "body_colour", json_string(colour));
    }
    if (settings->stress_mpa != 0.0) {
        json_object_set_new(answer, "stress_mpa", ifig_cli_json_number(first->stress_mpa));
        json_object_set_new(answer, "stress_azimuth_deg",
                            ifig_cli_json_number(first->stress_azimuth_deg));
    }
    json_object_set_new(answer, "wavelength_nm", ifig_cli_json_number(probe->wavelength_nm));
    json_object_set_new(answer, "theta_deg", ifig_cli_json_number(settings->theta_deg));
    json_object_set_new(answer, "phi_deg", ifig_cli_json_number(settings->phi_deg));
    json_object_set_new(answer, "retardation_nm",
                        ifig_cli_json_number(is_dark ? NAN : probe->wave.retardation_nm));
    json_object_set_new(answer, "transmittance", ifig_cli_json_number(probe->transmittance));
    json_object_set_new(answer, "jones_ps", json_of_jones(&probe->wave.jones));
    if (probe->has_colour) {
        json_object_set_new(answer, "xyz", ifig_cli_json_numbers(probe->xyz, 3));
        json_object_set_new(answer, "srgb",
                            json_pack("[i,i,i]", to_byte(probe->srgb[0]), to_byte(probe->srgb[1]),
                                      to_byte(probe->srgb[2])));
    }
    if (is_dark) {
        json_object_set_new(answer, "reason", json_string(DARK));
    }
    return ifig_cli_print_json(answer);
}

static void print_complex(const IfigComplex *z)
{
    printf("  %9.6f %c %8.6f i", z->re, z->im < 0 ? '-' : '+', fabs(z->im));
}

static void print_colour(const IfigProbe *probe)
{
    int byte[3];
    for (int i = 0; i < 3; i++) {
        byte[i] = to_byte(probe->srgb[i]);
    }
    printf("colour XYZ       %.6f %.6f %.6f (Y 1: bare lamp, parallel polars)\n", probe->xyz[0],
           probe->xyz[1], probe->xyz[2]);
    printf("colour sRGB      %d %d %d (#%02x%02x%02x)\n", byte[0], byte[1], byte[2],
           (unsigned)byte[0], (unsigned)byte[1], (unsigned)byte[2]);
}

static void print_text(const IfigCliSettings *settings, const IfigCliScene *scene,
                       const IfigProbe *probe)
{
    fputs("stone            ", stdout);
    ifig_cli_describe(stdout, settings, scene);
    printf("\ndirection        theta %s deg, phi %s deg\n",
           ifig_cli_number(settings->theta_deg).text, ifig_cli_number(settings->phi_deg).text);
    printf("wavelength       %s nm\n", ifig_cli_number(probe->wavelength_nm).text);
    if (probe->wave.is_dark) {
        printf("retardation      none: %s\n", DARK);
    } else {
        printf("retardation      %s nm = %s wavelengths\n",
               ifig_cli_rounded(probe->wave.retardation_nm, 9).text,
               ifig_cli_rounded(probe->wave.retardation_nm / probe->wavelength_nm, 7).text);
    }
    printf("transmittance    %.8f\n", probe->transmittance);
    for (int i = 0; i < 2; i++) {
        fputs(i == 0 ? "Jones, p out     " : "       s out     ", stdout);
        print_complex(&probe->wave.jones.element[i][0]);
        print_complex(&probe->wave.jones.element[i][1]);
        fputs(i == 0 ? "   (columns: p in, s in)\n" : "\n", stdout);
    }
    if (probe->has_colour) {
        print_colour(probe);
    }
}

static IfigCliStatus tell(const IfigCliSettings *settings, const IfigCliScene *scene)
{
    IfigProbe probe;
    IfigError error = IFIG_ERROR_INIT;
    const IfigStatus status = ifig_probe(&scene->scene, settings->theta_deg, settings->phi_deg,
                                         settings->wavelength_nm, &probe, &error);
    if (status != IFIG_OK) {
        return ifig_cli_complain(ifig_cli_exit_status(status, IFIG_CLI_WORDS), "%s", error.message);
    }
    if (settings->given[IFIG_CLI_JSON]) {
        return print_json(settings, scene, &probe);
    }
    print_text(settings, scene, &probe);
    return IFIG_CLI_OK;
}

IfigCliStatus ifig_cli_run_probe(IfigCliSettings *settings)
{
    return ifig_cli_tell_of_scene(settings, tell);
}
