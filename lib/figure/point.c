/* SPDX-License-Identifier: MIT */
/* The smooth quantities of a stack of layers at one point and wavelength, exactly. */
#include "figure.h"

#include "base.h"

#include <math.h>

typedef struct FieldPair {
    double complex x, y;
} FieldPair;

static FieldPair apply(const IfigMatrix2 *matrix, FieldPair field)
{
    FieldPair result = {matrix->m[0][0] * field.x + matrix->m[0][1] * field.y,
                        matrix->m[1][0] * field.x + matrix->m[1][1] * field.y};
    return result;
}

/* Where a mode is totally reflected no fringe forms: the layer passes the other mode alone, or
 * none. Writes the matrix that takes the place of "1", and sets h to 0. */
static void without_fringe(const IfigPropagator *propagator, IfigMatrix2 *base)
{
    double complex h = csqrt(propagator->half_difference_squared);
    if (cimag(propagator->mean + h) > cimag(propagator->mean - h)) {
        h = -h; /* the mode that propagates is mean + h */
    }
    int none = propagator->evanescent == 2; /* h may be 0 here */
    for (int i = 0; i < 2; i++) {
        for (int j = 0; j < 2; j++) {
            double complex turned = none ? 0.0 : propagator->turn.m[i][j] / h;
            base->m[i][j] = none ? 0.0 : 0.5 * ((i == j ? 1.0 : 0.0) + turned);
        }
    }
}

/* Carry the fields of all subsets through one layer: each doubles, without and with its turn. h2:
 * the real and imaginary parts of h^2, and the imaginary part of the mean. */
static void pass_layer(const IfigPropagator *propagator, size_t layer, FieldPair *field,
                       double h2[3])
{
    size_t half = (size_t)1 << layer;
    IfigMatrix2 base;
    int evanescent = propagator->evanescent > 0;
    if (evanescent) {
        without_fringe(propagator, &base);
    }
    for (size_t s = 0; s < half; s++) {
        FieldPair turned = {0, 0};
        if (evanescent) {
            field[s] = apply(&base, field[s]);
        } else {
            turned = apply(&propagator->turn, field[s]);
        }
        field[half + s] = turned;
    }
    h2[0] = evanescent ? 0.0 : creal(propagator->half_difference_squared);
    h2[1] = evanescent ? 0.0 : cimag(propagator->half_difference_squared);
    h2[2] = evanescent ? 0.0 : cimag(propagator->mean);
}

IfigPointView ifig_point_view(const IfigInstrument *instrument, double theta, double phi)
{
    IfigPointView view = {.instrument = instrument, .theta = theta, .phi = phi};
    view.ray = ifig_ray(instrument->immersion_index, theta, phi);
    ifig_polariser_field(instrument, theta, phi, view.in);
    if (instrument->plate.material == IFIG_PLATE_NONE) {
        ifig_analyser_field(instrument, theta, phi, 0.0, view.out);
    }
    return view;
}

void ifig_point_quantities(const IfigInstrument *instrument, const IfigMedium *media,
                           size_t layer_count, double theta, double phi, IfigSmooth *smooth)
{
    IfigPointView view = ifig_point_view(instrument, theta, phi);
    ifig_view_quantities(&view, media, layer_count, smooth);
}

void ifig_view_quantities(const IfigPointView *view, const IfigMedium *media, size_t layer_count,
                          IfigSmooth *smooth)
{
    const IfigRay *ray = &view->ray;
    double complex out[2] = {view->out[0], view->out[1]};
    if (view->instrument->plate.material != IFIG_PLATE_NONE) {
        ifig_analyser_field(view->instrument, view->theta, view->phi, media[0].wavelength_nm, out);
    }

    size_t subsets = (size_t)1 << layer_count;
    FieldPair field[IFIG_SUBSETS_MAX] = {{ray->cos_theta * view->in[0], view->in[1]}};
    IfigPropagator before, here;
    for (size_t layer = 0; layer <= layer_count; layer++) {
        int leaves = layer == layer_count;
        if (!leaves) {
            ifig_propagator(&media[layer], ray, &here);
        }
        IfigMatrix2 face = ifig_face(layer > 0 ? &before : NULL, leaves ? NULL : &here, ray);
        for (size_t s = 0; s < (size_t)1 << layer; s++) {
            field[s] = apply(&face, field[s]);
        }
        if (!leaves) {
            double h2[3];
            pass_layer(&here, layer, field, h2);
            smooth->q[layer] = h2[0];
            smooth->q[layer_count + 2 * subsets + layer] = h2[1];
            smooth->q[2 * layer_count + 2 * subsets + layer] = h2[2];
            before = here;
        }
    }
    for (size_t s = 0; s < subsets; s++) {
        double complex u = conj(out[0]) * field[s].x / ray->cos_theta + conj(out[1]) * field[s].y;
        smooth->q[layer_count + s] = creal(u);
        smooth->q[layer_count + subsets + s] = cimag(u);
    }
}
