/* SPDX-License-Identifier: MIT */
/* A chart in JSON. */
#include <stdlib.h>

#include "chart.h"
#include "json.h"
#include "output.h"

static const double STEP_NM = 5.0;

static IfigPolarsKind polars_of(const IfigCliSettings *settings)
{
    return settings->polars == IFIG_CLI_POLARS_PARALLEL ? IFIG_POLARS_PARALLEL
                                                        : IFIG_POLARS_CROSSED;
}

static json_t *json_of_colours(const IfigRetardationColour *colours, size_t count)
{
    json_t *array = json_array();
    for (size_t i = 0; i < count; i++) {
        json_t *object = json_object();
        json_object_set_new(object, "retardation_nm",
                            ifig_cli_json_number(colours[i].retardation_nm));
        json_object_set_new(object, "xyz", ifig_cli_json_numbers(colours[i].xyz, 3));
        json_object_set_new(object, "srgb", ifig_cli_json_srgb(colours[i].srgb));
        json_object_set_new(object, "colour", json_string(ifig_colour_text(colours[i].colour)));
        json_array_append_new(array, object);
    }
    return array;
}

/* The colours of one strip; what is wrong has been complained about, and then *array is NULL. */
static IfigCliStatus make_colours(const IfigCliSettings *settings, const IfigCliChart *chart,
                                  const IfigRetarder *retarder, json_t **array)
{
    IfigError error = IFIG_ERROR_INIT;
    const double most = ifig_order_nm(chart->scene.lamp) * settings->orders;
    const size_t count = (size_t)(most / STEP_NM + 1e-9) + 1;
    double *retardation = malloc(count * sizeof *retardation);
    IfigRetardationColour *colours = malloc(count * sizeof *colours);
    IfigStatus status = IFIG_ERROR_MEMORY;
    *array = NULL;
    for (size_t i = 0; retardation != NULL && i < count; i++) {
        retardation[i] = STEP_NM * (double)i;
    }
    if (retardation != NULL && colours != NULL) {
        status = ifig_retardation_colours(chart->scene.lamp, polars_of(settings), retarder,
                                          retardation, count, colours, &error);
    } else {
        snprintf(error.message, sizeof error.message, "no memory for the colours of the chart");
    }
    if (status == IFIG_OK) {
        *array = json_of_colours(colours, count);
    }
    free(retardation);
    free(colours);
    return status == IFIG_OK ? IFIG_CLI_OK
                             : ifig_cli_complain(ifig_cli_exit_status(status, IFIG_CLI_WORDS), "%s",
                                                 error.message);
}

static double birefringence_at(const IfigRetarder *retarder, double wavelength_nm)
{
    double birefringence = 0.0;
    ifig_retarder_birefringence(retarder, wavelength_nm, &birefringence, NULL);
    return birefringence;
}

static json_t *json_of_species(const IfigCliChart *chart)
{
    json_t *array = json_array();
    for (size_t i = 0; i < chart->species_count; i++) {
        const IfigRetarder whole = {chart->species[i], IFIG_VIEW_DEFAULT};
        const double birefringence = birefringence_at(&whole, 589.3);
        IfigSpeciesFacts facts;
        json_t *object = json_object();
        ifig_species_facts(chart->species[i], &facts, NULL);
        json_object_set_new(object, "species",
                            json_string(ifig_species_text(chart->species[i], IFIG_TEXT_KEY)));
        json_object_set_new(object, "name",
                            json_string(ifig_species_text(chart->species[i], IFIG_TEXT_NAME)));
        json_object_set_new(
            object, "birefringence",
            ifig_cli_json_number(birefringence < 0.0 ? -birefringence : birefringence));
        json_object_set_new(object, "birefringence_low",
                            ifig_cli_json_number(facts.birefringence_low));
        json_object_set_new(object, "birefringence_high",
                            ifig_cli_json_number(facts.birefringence_high));
        json_array_append_new(array, object);
    }
    return array;
}

static IfigCliStatus add_strips(const IfigCliSettings *settings, const IfigCliChart *chart,
                                json_t *answer)
{
    json_t *array = json_array();
    IfigCliStatus status = IFIG_CLI_OK;
    json_object_set_new(answer, "strips", array);
    for (size_t i = 0; i < chart->strip_count && status == IFIG_CLI_OK; i++) {
        const IfigRetarder *strip = &chart->strips[i];
        json_t *object = json_object(), *colours;
        status = make_colours(settings, chart, strip, &colours);
        json_object_set_new(object, "species",
                            json_string(ifig_species_text(strip->species, IFIG_TEXT_KEY)));
        json_object_set_new(object, "section", json_string(ifig_cli_section_word(strip)));
        json_object_set_new(object, "birefringence_486_nm",
                            ifig_cli_json_number(birefringence_at(strip, 486.1)));
        json_object_set_new(object, "birefringence_589_nm",
                            ifig_cli_json_number(birefringence_at(strip, 589.3)));
        json_object_set_new(object, "birefringence_656_nm",
                            ifig_cli_json_number(birefringence_at(strip, 656.3)));
        json_object_set_new(object, "colours", colours);
        json_array_append_new(array, object);
    }
    return status;
}

IfigCliStatus ifig_cli_print_chart_json(const IfigCliSettings *settings, const IfigCliChart *chart)
{
    json_t *answer = json_object(), *colours;
    json_object_set_new(answer, "schema_version", json_integer(1));
    json_object_set_new(
        answer, "polars",
        json_string(polars_of(settings) == IFIG_POLARS_CROSSED ? "crossed" : "parallel"));
    json_object_set_new(answer, "orders", json_integer(settings->orders));
    json_object_set_new(answer, "order_nm", ifig_cli_json_number(ifig_order_nm(chart->scene.lamp)));
    json_object_set_new(answer, "thickness_mm", ifig_cli_json_number(settings->thickness_mm));
    IfigCliStatus status = make_colours(settings, chart, NULL, &colours);
    json_object_set_new(answer, "colours", colours);
    json_object_set_new(answer, "species", json_of_species(chart));
    if (status == IFIG_CLI_OK) {
        status = add_strips(settings, chart, answer);
    }
    if (status != IFIG_CLI_OK) {
        json_decref(answer);
        return status;
    }
    return ifig_cli_print_json(answer);
}
