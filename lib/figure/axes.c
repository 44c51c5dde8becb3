/* SPDX-License-Identifier: MIT */
/* Where the optic axes are seen, and how fast they wander with the wavelength. Next to an axis h^2
 * falls to nothing, and what stands in for exact optics must be best there. */
#include "figure.h"

#include "base.h"

#include <math.h>

/* Wavelengths whose axes are looked at. */
static const double AXIS_NM[IFIG_AXIS_WAVELENGTHS] = {430, 530, 630, 730};

/* The axis is a wave normal of index n_beta, whose tangential part is kept at the faces. */
static IfigSightline axis_direction(const IfigFigure *figure, const IfigOpticAxes *axes, int which,
                                    const double (*rotation)[3], int *is_seen)
{
    double normal[3] = {0, 0, 0};
    double rim = ifig_instrument_field_deg(&figure->instrument) * IFIG_DEGREE;
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            normal[i] += rotation[i][j] * axes->axis[which][j];
        }
    }
    double up = normal[2] < 0 ? -1.0 : 1.0, index = axes->n[1];
    if (axes->character == IFIG_UNIAXIAL) {
        index = axes->optic_sign > 0 ? axes->n[0] : axes->n[2];
    }
    double sine = index * hypot(normal[0], normal[1]) / figure->instrument.immersion_index;
    double theta = sine < 1.0 ? asin(sine) : 0.5 * IFIG_PI;
    *is_seen = theta < rim;
    return (IfigSightline){fmin(theta, rim), atan2(up * normal[1], up * normal[0])};
}

/* The turns of a layer's phase in a direction. */
static IfigStatus turns_at(const IfigScene *scene, const IfigFigure *figure, size_t layer,
                           const double (*rotation)[3], const IfigSightline *at,
                           double wavelength_nm, double *turns, IfigError *error)
{
    IfigMedium medium;
    IfigSmooth smooth;
    IfigStatus status =
        ifig_layer_medium(&scene->layers[layer], rotation, wavelength_nm, &medium, error);
    if (status == IFIG_OK) {
        ifig_point_quantities(&figure->instrument, &medium, 1, at->theta, at->phi, &smooth);
        *turns = 2.0 * figure->thickness_nm[layer] / wavelength_nm * sqrt(fabs(smooth.q[0]));
    }
    return status;
}

IfigStatus ifig_figure_axes(const IfigScene *scene, const IfigFigure *figure, IfigAxes *found,
                            IfigError *error)
{
    IfigStatus status = IFIG_OK;
    *found = (IfigAxes){.count = 0};
    for (size_t i = 0; i < scene->layer_count; i++) {
        double rotation[3][3];
        const IfigLayer *layer = &scene->layers[i];
        status = ifig_orientation_matrix(layer->species, &layer->orientation, rotation, error);
        for (size_t w = 0; status == IFIG_OK && w < IFIG_AXIS_WAVELENGTHS; w++) {
            IfigOpticAxes axes = {.count = 0};
            status = ifig_optic_axes(layer->species, AXIS_NM[w], &axes, error);
            for (int which = 0; status == IFIG_OK && which < axes.count; which++) {
                double turns = 0, before = 0; /* an active stone turns at its axis too */
                int is_seen = 0;
                IfigSightline *at = &found->at[found->count++];
                *at = axis_direction(figure, &axes, which, rotation, &is_seen);
                status = turns_at(scene, figure, i, rotation, at, AXIS_NM[w], &before, error);
                if (status == IFIG_OK) {
                    status =
                        turns_at(scene, figure, i, rotation, at, AXIS_NM[w] + 1.0, &turns, error);
                }
                if (is_seen) {
                    found->turns_per_nm = fmax(found->turns_per_nm, fabs(turns - before));
                }
            }
        }
        if (status != IFIG_OK) {
            return status;
        }
    }
    return status;
}
