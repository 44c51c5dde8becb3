/* SPDX-License-Identifier: MIT */
/* Room for carriers, and lines that stand for the whole picture: where dispersion of birefringence
 * is all that tells wavelengths apart, t_k is nearly the same multiple of t_R everywhere. Squares
 * that pass the test with these lines share the weights made for them; see carrier.h. */
#include "carrier.h"
#include "points.h"

#include "base.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Directions that are looked at: on the rim, and within. */
enum { AROUND = 12, RINGS = 2, DIRECTIONS = AROUND * RINGS };
static const double RING[RINGS] = {1.0, 0.6};

/* h^2 of every direction at every exact wavelength: h2[m][i]. */
static void look_around(const IfigFigure *figure, double (*h2)[DIRECTIONS])
{
    IfigPoints points = {.count = DIRECTIONS};
    double value[IFIG_QUANTITIES_MAX * IFIG_RAYS];
    double rim = ifig_instrument_field_deg(&figure->instrument) * IFIG_DEGREE;
    for (size_t i = 0; i < points.count; i++) {
        double phi = 2.0 * IFIG_PI * ((double)i + 0.3) / AROUND;
        const IfigRay ray =
            ifig_ray(figure->instrument.immersion_index, RING[i / AROUND] * rim, phi);
        points.view[i] = ifig_point_view(&figure->instrument, &ray);
    }
    for (size_t m = 0; m < figure->node_count; m++) {
        ifig_points_quantities(figure, &points, m, value);
        memcpy(h2[m], value, sizeof h2[m]);
    }
}

/* h / lambda of sample k in every direction; 0 where there is none. */
static void turns_around(const IfigFigure *figure, const double (*h2)[DIRECTIONS], size_t k,
                         double turns[DIRECTIONS])
{
    for (size_t i = 0; i < DIRECTIONS; i++) {
        double sum = 0;
        for (size_t m = 0; m < figure->node_count; m++) {
            sum += figure->interpolation[m * figure->samples.count + k] * h2[m][i];
        }
        turns[i] = sum > 0.0 ? sqrt(sum) / figure->samples.wavelength_nm[k] : 0.0;
    }
}

IfigStatus ifig_carrier_look_around(IfigFigure *figure, IfigError *error)
{
    if (figure->support_set_count == 0) {
        return IFIG_OK;
    }
    double(*h2)[DIRECTIONS] = malloc(figure->node_count * sizeof *h2);
    if (h2 == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for the phases of a figure");
    }
    const double(*around)[DIRECTIONS] = (const double(*)[DIRECTIONS])h2;
    double middle[DIRECTIONS], turns[DIRECTIONS];
    look_around(figure, h2);
    turns_around(figure, around, figure->samples.count / 2, middle);
    for (size_t k = 0; k < figure->samples.count; k++) {
        double product = 0, square = 0;
        turns_around(figure, around, k, turns);
        for (size_t i = 0; i < DIRECTIONS; i++) {
            product += middle[i] * turns[i];
            square += middle[i] * middle[i];
        }
        figure->whole_turns[k] = square > 0.0 ? product / square : 0.0;
    }
    free(h2);
    return IFIG_OK;
}

/* The lines of the whole picture for one set of supports; their room. */
static int make_whole(const IfigFigure *figure, const IfigSupports *supports, size_t rungs,
                      double *none, IfigLines *lines)
{
    const double *turns = figure->whole_turns;
    size_t count = figure->samples.count;
    double at_reference = turns[supports->sample[supports->reference]];
    if (supports->weight == NULL || !(at_reference > 0.0)) {
        return 1;
    }
    lines->offset = none;
    lines->slope = malloc(count * sizeof *lines->slope);
    lines->is_made = calloc(rungs, 1);
    lines->rung = malloc(rungs * supports->count * sizeof *lines->rung);
    for (size_t k = 0; k < count && lines->slope != NULL; k++) {
        lines->slope[k] = turns[k] / at_reference;
    }
    return lines->slope != NULL && lines->is_made != NULL && lines->rung != NULL;
}

IfigStatus ifig_carrier_create(const IfigFigure *figure, IfigCarrier *carrier, IfigError *error)
{
    size_t count = figure->samples.count;
    *carrier = (IfigCarrier){.supports = NULL};
    if (figure->support_set_count == 0) {
        return IFIG_OK;
    }
    ifig_ladder(figure, &carrier->ladder);
    ifig_basis(&carrier->basis);
    size_t rungs = (size_t)carrier->ladder.count;
    IfigLines *fitted = &carrier->fitted;
    carrier->none = calloc(count, sizeof *carrier->none);
    fitted->offset = malloc(count * sizeof *fitted->offset);
    fitted->slope = malloc(count * sizeof *fitted->slope);
    fitted->is_made = malloc(rungs);
    fitted->rung = malloc(rungs * IFIG_SUPPORTS_MAX * sizeof *fitted->rung);
    carrier->point = malloc(IFIG_CARRIER_POINTS * sizeof *carrier->point);
    carrier->at_node = malloc(figure->node_count * sizeof *carrier->at_node);
    carrier->coefficient =
        malloc(IFIG_SUPPORTS_MAX * figure->quantity_count * NN * sizeof *carrier->coefficient);
    int has_room = carrier->none != NULL && fitted->offset != NULL && fitted->slope != NULL &&
                   fitted->is_made != NULL && fitted->rung != NULL && carrier->point != NULL &&
                   carrier->at_node != NULL && carrier->coefficient != NULL;
    for (size_t set = 0; set < figure->support_set_count && has_room; set++) {
        has_room =
            make_whole(figure, &figure->supports[set], rungs, carrier->none, &carrier->whole[set]);
    }
    if (!has_room) {
        ifig_carrier_free(carrier);
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for the weights of a tile");
    }
    return IFIG_OK;
}

static void free_lines(IfigLines *lines)
{
    free(lines->slope);
    free(lines->is_made);
    free(lines->rung);
}

void ifig_carrier_free(IfigCarrier *carrier)
{
    for (size_t set = 0; set < IFIG_SUPPORT_SETS; set++) {
        free_lines(&carrier->whole[set]);
    }
    free(carrier->fitted.offset);
    free_lines(&carrier->fitted);
    free(carrier->none);
    free(carrier->point);
    free(carrier->at_node);
    free(carrier->coefficient);
    *carrier = (IfigCarrier){.supports = NULL};
}
