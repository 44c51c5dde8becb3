/* SPDX-License-Identifier: MIT */
/* Making a figure ready: checks, spectral samples, exact wavelengths. */
#include "figure.h"

#include "base.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static IfigStatus check_scene(const IfigScene *scene, IfigError *error)
{
    if (scene == NULL || scene->size != sizeof *scene || scene->lamp == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the scene is NULL, has an unknown size or no lamp; start from "
                         "IFIG_SCENE_INIT");
    }
    IfigStatus status = ifig_check_layers(scene->layers, scene->layer_count, error);
    return status == IFIG_OK ? ifig_instrument_check(&scene->instrument, error) : status;
}

/* Whether u and v have imaginary parts: an active stone, a circular polar, or rays so oblique that
 * a mode may be totally reflected. */
static int needs_complex(const IfigScene *scene)
{
    const IfigInstrument *instrument = &scene->instrument;
    double sine = sin(ifig_instrument_field_deg(instrument) * IFIG_DEGREE);
    double kx = instrument->immersion_index * sine;
    int complex_fields = instrument->polariser.kind != IFIG_POLAR_LINEAR ||
                         instrument->analyser.kind != IFIG_POLAR_LINEAR ||
                         instrument->plate.material != IFIG_PLATE_NONE;
    for (size_t i = 0; i < scene->layer_count; i++) {
        IfigSpeciesFacts facts;
        ifig_species_facts(scene->layers[i].species, &facts, NULL);
        complex_fields |= facts.is_optically_active || kx > 0.9 * facts.n[0];
    }
    return complex_fields;
}

static int has_body_colour(const IfigScene *scene)
{
    int found = 0;
    for (size_t i = 0; i < scene->layer_count; i++) {
        found |= scene->layers[i].body_colour != 0;
    }
    return found;
}

/* One layer is summed over few of the lamp's samples, which may therefore stand close: by 5 nm the
 * kinks of a white LED's spectrum are missed by up to 0.4 of a level (samples.c), by 2 nm by 0.01.
 * Where a stone is so thick that its wandering axes' fringes pass by between samples, they stand
 * closer: next to them brookite 18.5 mm thick is off by 1.8 levels by 2 nm, 0.8 by 1 nm. Stacks are
 * summed over all. */
static IfigStatus read_samples(const IfigScene *scene, const IfigAxes *axes,
                               IfigSpectrumSamples *samples, IfigError *error)
{
    static const double most_turns_per_nm = 0.1;
    size_t step_nm = axes->turns_per_nm > most_turns_per_nm ? 1 : 2;
    return scene->layer_count == 1 ? ifig_lamp_samples_within(scene->lamp, step_nm, samples, error)
                                   : ifig_lamp_samples(scene->lamp, samples, error);
}

static IfigStatus choose_wavelengths(const IfigScene *scene, const IfigAxes *axes,
                                     IfigFigure *figure, IfigError *error)
{
    IfigStatus status = ifig_supports_create(figure, error);
    return status == IFIG_OK ? ifig_figure_nodes(scene, axes, figure, error) : status;
}

static IfigStatus make_ready(const IfigScene *scene, const IfigFigureOptions *options,
                             IfigFigure *figure, IfigError *error)
{
    figure->instrument = scene->instrument;
    figure->layer_count = scene->layer_count;
    figure->subset_count = (size_t)1 << scene->layer_count;
    figure->is_absorbing = has_body_colour(scene);
    figure->is_complex = figure->is_absorbing || needs_complex(scene);
    figure->quantity_count = scene->layer_count * (figure->is_absorbing ? 3 : 1) +
                             figure->subset_count * (figure->is_complex ? 2 : 1);
    for (size_t i = 0; i < scene->layer_count; i++) {
        figure->thickness_nm[i] = scene->layers[i].thickness_mm * 1e6;
    }
    IfigAxes axes;
    IfigStatus status = ifig_raster_create(options, scene->lamp, &figure->raster, error);
    if (status == IFIG_OK) {
        status = ifig_figure_axes(scene, figure, &axes, error);
    }
    if (status == IFIG_OK) {
        status = read_samples(scene, &axes, &figure->samples, error);
    }
    if (status == IFIG_OK) {
        status = choose_wavelengths(scene, &axes, figure, error);
    }
    /* Where no few wavelengths tell the others, close samples would cost as much again each. */
    if (status == IFIG_OK && figure->node_count == figure->samples.count) {
        ifig_spectrum_samples_free(&figure->samples);
        ifig_supports_free(figure);
        memset(figure->supports, 0, sizeof figure->supports);
        figure->support_set_count = 0;
        status = ifig_lamp_samples(scene->lamp, &figure->samples, error);
        if (status == IFIG_OK) {
            status = choose_wavelengths(scene, &axes, figure, error);
        }
    }
    if (status == IFIG_OK) {
        status = ifig_carrier_look_around(figure, error);
    }
    if (status == IFIG_OK) {
        figure->raster.symmetry = ifig_figure_symmetry(figure);
        ifig_figure_choose_finer(figure);
    }
    return status;
}

IfigStatus ifig_figure_create(const IfigScene *scene, const IfigFigureOptions *options,
                              IfigFigure **figure, IfigError *error)
{
    if (figure == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "ifig_figure_create: figure is NULL");
    }
    *figure = NULL;
    IfigStatus status = check_scene(scene, error);
    if (status != IFIG_OK) {
        return status;
    }
    IfigFigure *made = calloc(1, sizeof *made);
    if (made == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for a figure");
    }
    status = make_ready(scene, options, made, error);
    if (status != IFIG_OK) {
        ifig_figure_free(made);
        return status;
    }
    *figure = made;
    return IFIG_OK;
}

void ifig_figure_free(IfigFigure *figure)
{
    if (figure != NULL) {
        ifig_spectrum_samples_free(&figure->samples);
        ifig_supports_free(figure);
        free(figure->medium);
        free(figure->interpolation);
        free(figure);
    }
}

uint32_t ifig_figure_band_rows(const IfigFigure *figure)
{
    return figure != NULL ? figure->raster.tile_pixels : 0;
}
