/* SPDX-License-Identifier: MIT */
#include "scene.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "arguments.h"
#include "check_settings.h"
#include "colour.h"
#include "lamp_file.h"
#include "layers.h"
#include "plate.h"
#include "range.h"
#include "strain.h"
#include "texture.h"

static IfigCliStatus complain_of(IfigStatus status, IfigCliSubject subject, const IfigError *error)
{
    return ifig_cli_complain(ifig_cli_exit_status(status, subject), "%s", error->message);
}

/* What the library says against words of the command line or of a recipe. */
static IfigCliStatus refuse_words(const IfigCliSettings *settings, const char *option,
                                  IfigStatus status, const IfigError *error)
{
    const IfigCliStatus ending = ifig_cli_exit_status(status, IFIG_CLI_WORDS);
    return ending == IFIG_CLI_USAGE ? ifig_cli_refuse(settings, "%s%s", option, error->message)
                                    : complain_of(status, IFIG_CLI_WORDS, error);
}

static IfigCliStatus add_files(const IfigCliSettings *settings, const IfigCliKept *kept,
                               IfigCatalogue *catalogue)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigStatus status = IFIG_OK;
    if (kept->species != NULL) {
        status = ifig_catalogue_read_text(catalogue, kept->species, strlen(kept->species),
                                          settings->origin, &error);
        return status == IFIG_OK ? IFIG_CLI_OK : complain_of(status, IFIG_CLI_FILE, &error);
    }
    if (settings->origin != NULL && settings->species_file_count > 0) {
        return ifig_cli_refuse(settings, "its stone came from a file, which the picture does not "
                                         "hold; render it from the command line");
    }
    for (size_t i = 0; i < settings->species_file_count && status == IFIG_OK; i++) {
        status = ifig_catalogue_read_file(catalogue, settings->species_files[i], &error);
    }
    return status == IFIG_OK ? IFIG_CLI_OK : complain_of(status, IFIG_CLI_FILE, &error);
}

IfigCliStatus ifig_cli_open_catalogue(const IfigCliSettings *settings, const IfigCliKept *kept,
                                      IfigCatalogue **catalogue)
{
    IfigError error = IFIG_ERROR_INIT;
    const IfigStatus status = ifig_catalogue_create(catalogue, &error);
    return status == IFIG_OK ? add_files(settings, kept, *catalogue)
                             : complain_of(status, IFIG_CLI_WORDS, &error);
}

IfigCliStatus ifig_cli_find_species(const IfigCliSettings *settings, const IfigCatalogue *catalogue,
                                    const IfigSpecies **species)
{
    IfigError error = IFIG_ERROR_INIT;
    const IfigStatus status = ifig_catalogue_find(catalogue, settings->word, species, &error);
    if (status == IFIG_ERROR_NOT_FOUND) {
        return ifig_cli_refuse(settings, "SPECIES: %s ('interfig species' lists them all)",
                               error.message);
    }
    return status == IFIG_OK ? IFIG_CLI_OK : refuse_words(settings, "SPECIES: ", status, &error);
}

/* 1 for a species of the library itself, which no picture needs to keep. */
static int is_compiled_in(const IfigSpecies *species)
{
    IfigCatalogue *catalogue = NULL;
    const IfigSpecies *own = NULL;
    if (ifig_catalogue_create(&catalogue, NULL) == IFIG_OK) {
        ifig_catalogue_find(catalogue, ifig_species_text(species, IFIG_TEXT_KEY), &own, NULL);
        ifig_catalogue_free(catalogue); /* what is compiled in lives on */
    }
    return own == species;
}

/* What an earlier layer holds already is not written again. */
static int is_written(const IfigCliScene *scene, size_t index)
{
    for (size_t i = 0; i < index; i++) {
        if (scene->layer[i].species == scene->layer[index].species) {
            return 1;
        }
    }
    return 0;
}

/* The YAML of the species that came from a user's file, in one list. */
static IfigCliStatus write_species(IfigCliSettings *settings, IfigCliScene *scene)
{
    static const char head[] = "species:\n";
    IfigError error = IFIG_ERROR_INIT;
    IfigStatus status = IFIG_OK;
    size_t length = 0, count = 0;
    FILE *out = open_memstream(&scene->species_text, &length);
    for (size_t i = 0; out != NULL && status == IFIG_OK && i < scene->layer_count; i++) {
        char *text = NULL;
        if (is_compiled_in(scene->layer[i].species) || is_written(scene, i)) {
            continue;
        }
        status = ifig_species_write_text(scene->layer[i].species, &text, &error);
        if (status == IFIG_OK) {
            fputs(text + (count++ > 0 ? strlen(head) : 0), out);
        }
        ifig_text_free(text);
    }
    if (out == NULL || fclose(out) != 0) {
        return ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory to write a species");
    }
    if (status == IFIG_OK && count == 0) { /* the user's files have no part in the picture */
        settings->species_file_count = 0;
        free(scene->species_text);
        scene->species_text = NULL;
    }
    return status == IFIG_OK ? IFIG_CLI_OK : complain_of(status, IFIG_CLI_WORDS, &error);
}

static IfigCliStatus open_species(IfigCliSettings *settings, const IfigCliKept *kept,
                                  IfigCliScene *scene)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigStatus status = IFIG_OK;
    IfigCliStatus ending = IFIG_CLI_OK;
    if (settings->index_count > 0) {
        status = ifig_species_from_indices(settings->indices, (size_t)settings->index_count,
                                           settings->rotation_deg_per_mm, &scene->measured, &error);
        scene->species = scene->measured;
    } else {
        ending = ifig_cli_open_catalogue(settings, kept, &scene->catalogue);
        if (ending == IFIG_CLI_OK) {
            ending = settings->layer_count > 0
                         ? ifig_cli_find_layers(settings, scene)
                         : ifig_cli_find_species(settings, scene->catalogue, &scene->species);
        }
    }
    if (ending != IFIG_CLI_OK || status != IFIG_OK) {
        return ending != IFIG_CLI_OK ? ending
                                     : refuse_words(settings, "--indices: ", status, &error);
    }
    if (settings->layer_count == 0) {
        scene->layer[0] = (IfigLayer)IFIG_LAYER_INIT;
        scene->layer[0].species = scene->species;
        scene->layer[0].hand = (IfigHand)settings->hand;
        scene->layer[0].thickness_mm = settings->thickness_mm;
    }
    scene->layer_count = settings->layer_count > 0 ? settings->layer_count : 1;
    status = ifig_species_facts(scene->species, &scene->facts, &error);
    if (status != IFIG_OK) {
        return complain_of(status, IFIG_CLI_WORDS, &error);
    }
    return settings->species_file_count > 0 && settings->index_count == 0
               ? write_species(settings, scene)
               : IFIG_CLI_OK;
}

/* What lies in the stone besides its indices. */
static IfigCliStatus open_stone(IfigCliSettings *settings, IfigCliScene *scene)
{
    /* Without a lens an aggregate shows something too: that it never goes dark. */
    const int takes_aggregates =
        settings->command != IFIG_CLI_HUNT &&
        (ifig_cli_is_bare(settings) || settings->command == IFIG_CLI_CONTRAST);
    IfigCliStatus status = takes_aggregates ? ifig_cli_check_opaque("", scene->species)
                                            : ifig_cli_check_species("", scene->species);
    if (status == IFIG_CLI_OK) {
        status = ifig_cli_open_texture(settings, scene);
    }
    if (status != IFIG_CLI_OK || settings->layer_count > 0 || settings->index_count > 0) {
        return status;
    }
    if (settings->given[IFIG_CLI_HAND] && !scene->facts.is_optically_active) {
        return ifig_cli_refuse(settings,
                               "--hand: %s is not optically active, so it has no hand; "
                               "leave --hand out",
                               ifig_species_text(scene->species, IFIG_TEXT_KEY));
    }
    status = ifig_cli_open_range(settings, scene);
    if (status == IFIG_CLI_OK) {
        status = ifig_cli_open_colour(settings, scene);
    }
    return status == IFIG_CLI_OK ? ifig_cli_open_strain(settings, scene) : status;
}

/* 1 where all layers have one usual view. */
static int have_one_view(const IfigCliScene *scene)
{
    int are_alike = 1;
    for (size_t i = 1; i < scene->layer_count; i++) {
        are_alike &= ifig_default_view(scene->layer[i].species) ==
                     ifig_default_view(scene->layer[0].species);
    }
    return are_alike;
}

static IfigCliStatus orient_layers(IfigCliSettings *settings, IfigCliScene *scene)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigStatus status = IFIG_OK;
    double rotation[3][3];
    if (settings->view == IFIG_VIEW_DEFAULT && have_one_view(scene)) {
        settings->view =
            (int)(ifig_cli_is_bare(settings) ? ifig_cli_bare_view(settings, scene->species)
                                             : ifig_default_view(scene->species));
    }
    for (size_t i = 0; i < scene->layer_count && status == IFIG_OK; i++) {
        IfigOrientation *orientation = &scene->layer[i].orientation;
        orientation->view = (IfigView)settings->view;
        orientation->tilt_deg = settings->tilt_deg;
        orientation->tilt_azimuth_deg = settings->tilt_azimuth_deg;
        orientation->stage_deg = ifig_cli_layer_stage_deg(settings, i, settings->stage_deg);
        status = ifig_orientation_matrix(scene->layer[i].species, orientation, rotation, &error);
    }
    if (status == IFIG_ERROR_UNSUITABLE) {
        return ifig_cli_refuse(settings, "--view: %s", error.message);
    }
    return status == IFIG_OK ? IFIG_CLI_OK : refuse_words(settings, "--view: ", status, &error);
}

static IfigCliStatus open_lamp_file(const IfigCliSettings *settings, const IfigCliKept *kept,
                                    IfigCliScene *scene)
{
    IfigError error = IFIG_ERROR_INIT;
    char *text = NULL;
    if (kept->lamp != NULL) {
        return ifig_cli_read_lamp_table(settings->origin, kept->lamp, &scene->lamp,
                                        &scene->lamp_text);
    }
    if (settings->origin != NULL) {
        return ifig_cli_refuse(settings,
                               "its lamp came from a file, which the picture does not hold; "
                               "render it from the command line");
    }
    const IfigStatus status = ifig_file_read_text(settings->lamp_word, &text, &error);
    const IfigCliStatus ending =
        status == IFIG_OK
            ? ifig_cli_read_lamp_table(settings->lamp_word, text, &scene->lamp, &scene->lamp_text)
            : ifig_cli_complain(ifig_cli_exit_status(status, IFIG_CLI_FILE), "--lamp: %s",
                                error.message);
    ifig_text_free(text);
    return ending;
}

IfigCliStatus ifig_cli_open_lamp(const IfigCliSettings *settings, const IfigCliKept *kept,
                                 IfigCliScene *scene)
{
    const double sodium_nm = 589.3;
    IfigError error = IFIG_ERROR_INIT;
    IfigStatus status;
    if (settings->lamp == IFIG_CLI_LAMP_FILE) {
        return open_lamp_file(settings, kept, scene);
    }
    if (settings->lamp == IFIG_CLI_LAMP_SODIUM || settings->lamp == IFIG_CLI_LAMP_LINE) {
        const int is_sodium = settings->lamp == IFIG_CLI_LAMP_SODIUM;
        status = ifig_lamp_create_line(is_sodium ? sodium_nm : settings->lamp_line_nm, &scene->lamp,
                                       &error);
    } else {
        status = ifig_lamp_create((IfigLampKind)settings->lamp, &scene->lamp, &error);
    }
    return status == IFIG_OK ? IFIG_CLI_OK : refuse_words(settings, "--lamp: ", status, &error);
}

static void resolve_polars(IfigCliSettings *settings)
{
    if (settings->given[IFIG_CLI_ANALYSER]) {
        return;
    }
    if (settings->polars == IFIG_CLI_POLARS_CIRCULAR) {
        settings->polariser = (IfigPolar){IFIG_POLAR_RIGHT, 0};
        settings->analyser = (IfigPolar){IFIG_POLAR_LEFT, 0};
        return;
    }
    const double turn = settings->polars == IFIG_CLI_POLARS_PARALLEL ? 0.0 : 90.0;
    /* Azimuths half a turn apart are one; this keeps the sum inside the allowed range. */
    const double azimuth = settings->polariser.azimuth_deg;
    settings->analyser =
        (IfigPolar){IFIG_POLAR_LINEAR, azimuth + turn <= 3600.0 ? azimuth + turn : azimuth - turn};
}

IfigCliStatus ifig_cli_open_instrument(IfigCliSettings *settings, IfigInstrument *instrument)
{
    const double least_ratio = 1.05, most_share = 0.9999;
    IfigError error = IFIG_ERROR_INIT;
    const double outside = settings->immersion_index;
    resolve_polars(settings);
    instrument->lens = (IfigLensKind)settings->lens;
    instrument->sphere_index = settings->sphere_index;
    instrument->aperture = settings->aperture;
    instrument->field_deg = settings->field_deg;
    instrument->immersion_index = outside;
    instrument->polariser = settings->polariser;
    instrument->analyser = settings->analyser;
    instrument->plate = ifig_cli_plate(settings);
    if (instrument->lens == IFIG_LENS_SPHERE && settings->sphere_index < least_ratio * outside) {
        return ifig_cli_refuse(settings,
                               "--lens: a sphere of index %s bends too little light in a "
                               "liquid of %s; allowed there: %s to 3; for example: --lens sphere:3",
                               ifig_cli_number(settings->sphere_index).text,
                               ifig_cli_number(outside).text,
                               ifig_cli_rounded(least_ratio * outside + 5e-7, 7).text);
    }
    if (instrument->lens == IFIG_LENS_OBJECTIVE && settings->aperture > most_share * outside) {
        return ifig_cli_refuse(settings,
                               "--lens: an objective of NA %s needs a liquid of higher "
                               "index than --immersion %s; allowed there: 0.01 to %s; for example: "
                               "--lens objective:0.85",
                               ifig_cli_number(settings->aperture).text,
                               ifig_cli_number(outside).text,
                               ifig_cli_number(most_share * outside).text);
    }
    settings->field_deg = ifig_instrument_field_deg(instrument);
    instrument->field_deg = settings->field_deg;
    const IfigStatus status = ifig_instrument_check(instrument, &error);
    return status == IFIG_OK ? IFIG_CLI_OK : refuse_words(settings, "--field: ", status, &error);
}

IfigCliStatus ifig_cli_open_scene(IfigCliSettings *settings, const IfigCliKept *kept,
                                  IfigCliScene *scene)
{
    memset(scene, 0, sizeof *scene);
    scene->scene = (IfigScene)IFIG_SCENE_INIT;
    IfigCliStatus status = ifig_cli_check_settings(settings);
    if (status == IFIG_CLI_OK) {
        status = ifig_cli_prepare_texture(settings);
    }
    if (status == IFIG_CLI_OK) {
        status = ifig_cli_open_instrument(settings, &scene->scene.instrument);
    }
    if (status == IFIG_CLI_OK) {
        status = open_species(settings, kept, scene);
    }
    if (status == IFIG_CLI_OK) {
        status = open_stone(settings, scene);
    }
    if (status == IFIG_CLI_OK) {
        status = orient_layers(settings, scene);
    }
    if (status == IFIG_CLI_OK) {
        status = ifig_cli_open_lamp(settings, kept, scene);
    }
    scene->scene.layers = scene->layer;
    scene->scene.layer_count = scene->layer_count;
    scene->scene.lamp = scene->lamp;
    return status;
}

void ifig_cli_close_scene(IfigCliScene *scene)
{
    ifig_lamp_free(scene->lamp);
    ifig_species_free(scene->measured);
    ifig_catalogue_free(scene->catalogue);
    for (int i = 0; i < 3; i++) {
        ifig_species_free(scene->range[i]);
    }
    free(scene->species_text);
    free(scene->lamp_text);
}

IfigCliStatus ifig_cli_tell_of_scene(IfigCliSettings *settings, IfigCliTeller *tell)
{
    const IfigCliKept nothing = {NULL, NULL};
    IfigCliScene scene;
    IfigCliStatus status = ifig_cli_open_scene(settings, &nothing, &scene);
    if (status == IFIG_CLI_OK) {
        status = tell(settings, &scene);
    }
    ifig_cli_close_scene(&scene);
    return status;
}
