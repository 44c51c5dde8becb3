/* SPDX-License-Identifier: MIT */
#include "scene.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "arguments.h"
#include "lamp_file.h"
#include "plate.h"

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

static IfigCliStatus open_species(const IfigCliSettings *settings, const IfigCliKept *kept,
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
            ending = ifig_cli_find_species(settings, scene->catalogue, &scene->species);
        }
    }
    if (ending != IFIG_CLI_OK || status != IFIG_OK) {
        return ending != IFIG_CLI_OK ? ending
                                     : refuse_words(settings, "--indices: ", status, &error);
    }
    status = ifig_species_facts(scene->species, &scene->facts, &error);
    if (status == IFIG_OK && settings->species_file_count > 0 && settings->index_count == 0) {
        status = ifig_species_write_text(scene->species, &scene->species_text, &error);
    }
    return status == IFIG_OK ? IFIG_CLI_OK : complain_of(status, IFIG_CLI_WORDS, &error);
}

static IfigCliStatus check_species(const IfigCliSettings *settings, const IfigCliScene *scene)
{
    const char *key = ifig_species_text(scene->species, IFIG_TEXT_KEY);
    if (scene->facts.character == IFIG_AGGREGATE) {
        return ifig_cli_complain(
            IFIG_CLI_DATA,
            "%s is an aggregate of many grains that lie every "
            "way, so it shows no interference figure; choose a single crystal, "
            "such as quartz",
            key);
    }
    if (scene->facts.is_opaque) {
        return ifig_cli_complain(IFIG_CLI_DATA,
                                 "%s is opaque, so no light comes through to make an "
                                 "interference figure; choose a transparent stone, such as quartz",
                                 key);
    }
    if (settings->given[IFIG_CLI_HAND] && !scene->facts.is_optically_active) {
        return ifig_cli_refuse(settings,
                               "--hand: %s is not optically active, so it has no hand; "
                               "leave --hand out",
                               key);
    }
    return IFIG_CLI_OK;
}

static IfigCliStatus open_layer(IfigCliSettings *settings, IfigCliScene *scene)
{
    IfigError error = IFIG_ERROR_INIT;
    double rotation[3][3];
    if (settings->view == IFIG_VIEW_DEFAULT) {
        settings->view = (int)ifig_default_view(scene->species);
    }
    scene->layer = (IfigLayer)IFIG_LAYER_INIT;
    scene->layer.species = scene->species;
    scene->layer.hand = (IfigHand)settings->hand;
    scene->layer.thickness_mm = settings->thickness_mm;
    scene->layer.orientation.view = (IfigView)settings->view;
    scene->layer.orientation.tilt_deg = settings->tilt_deg;
    scene->layer.orientation.tilt_azimuth_deg = settings->tilt_azimuth_deg;
    scene->layer.orientation.stage_deg = settings->stage_deg;
    const IfigStatus status =
        ifig_orientation_matrix(scene->species, &scene->layer.orientation, rotation, &error);
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

static IfigCliStatus open_lamp(const IfigCliSettings *settings, const IfigCliKept *kept,
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

static IfigCliStatus open_instrument(IfigCliSettings *settings, IfigCliScene *scene)
{
    const double least_ratio = 1.05, most_share = 0.9999;
    IfigInstrument *instrument = &scene->scene.instrument;
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
        status = open_instrument(settings, scene);
    }
    if (status == IFIG_CLI_OK) {
        status = open_species(settings, kept, scene);
    }
    if (status == IFIG_CLI_OK) {
        status = check_species(settings, scene);
    }
    if (status == IFIG_CLI_OK) {
        status = open_layer(settings, scene);
    }
    if (status == IFIG_CLI_OK) {
        status = open_lamp(settings, kept, scene);
    }
    scene->scene.layers = &scene->layer;
    scene->scene.layer_count = 1;
    scene->scene.lamp = scene->lamp;
    return status;
}

void ifig_cli_close_scene(IfigCliScene *scene)
{
    ifig_lamp_free(scene->lamp);
    ifig_species_free(scene->measured);
    ifig_catalogue_free(scene->catalogue);
    ifig_text_free(scene->species_text);
    free(scene->lamp_text);
}
