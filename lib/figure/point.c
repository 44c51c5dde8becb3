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

/* A stack met by one ray: the propagator of each layer and the faces between. */
typedef struct MetStack {
    size_t layer_count;
    IfigRay ray;
    IfigPropagator layer[IFIG_LAYERS_MAX];
    IfigMatrix2 face[IFIG_LAYERS_MAX + 1];
} MetStack;

static void meet(const IfigRay *ray, const IfigMedium *media, size_t layer_count, MetStack *stack)
{
    stack->layer_count = layer_count;
    stack->ray = *ray;
    for (size_t layer = 0; layer <= layer_count; layer++) {
        const IfigPropagator *before = layer > 0 ? &stack->layer[layer - 1] : NULL;
        IfigPropagator *here = layer < layer_count ? &stack->layer[layer] : NULL;
        if (here != NULL) {
            ifig_propagator(&media[layer], &stack->ray, here);
        }
        stack->face[layer] = ifig_face(before, here, &stack->ray);
    }
}

/* From the field of a polarisation (p, s) before the stack to the fields of all subsets behind it,
 * tangential. h2: of each layer, as pass_layer leaves it. */
static void carry(const MetStack *stack, double complex p, double complex s,
                  FieldPair field[IFIG_SUBSETS_MAX], double (*h2)[3])
{
    field[0] = (FieldPair){stack->ray.cos_theta * p, s};
    for (size_t layer = 0; layer <= stack->layer_count; layer++) {
        for (size_t i = 0; i < (size_t)1 << layer; i++) {
            field[i] = apply(&stack->face[layer], field[i]);
        }
        if (layer < stack->layer_count) {
            pass_layer(&stack->layer[layer], layer, field, h2[layer]);
        }
    }
}

IfigPointView ifig_point_view(const IfigInstrument *instrument, const IfigRay *ray)
{
    IfigPointView view = {.instrument = instrument, .ray = *ray};
    ifig_polariser_field(instrument, ray, view.in);
    if (instrument->plate.material == IFIG_PLATE_NONE) {
        ifig_analyser_field(instrument, ray, 0.0, view.out);
    }
    return view;
}

void ifig_point_quantities(const IfigInstrument *instrument, const IfigMedium *media,
                           size_t layer_count, double theta, double phi, IfigSmooth *smooth)
{
    const IfigRay ray = ifig_ray(instrument->immersion_index, theta, phi);
    const IfigPointView view = ifig_point_view(instrument, &ray);
    ifig_view_quantities(&view, media, layer_count, smooth);
}

void ifig_view_quantities(const IfigPointView *view, const IfigMedium *media, size_t layer_count,
                          IfigSmooth *smooth)
{
    MetStack stack;
    FieldPair field[IFIG_SUBSETS_MAX];
    double h2[IFIG_LAYERS_MAX][3];
    double complex out[2] = {view->out[0], view->out[1]};
    if (view->instrument->plate.material != IFIG_PLATE_NONE) {
        ifig_analyser_field(view->instrument, &view->ray, media[0].wavelength_nm, out);
    }
    meet(&view->ray, media, layer_count, &stack);
    carry(&stack, view->in[0], view->in[1], field, h2);

    size_t subsets = (size_t)1 << layer_count;
    for (size_t layer = 0; layer < layer_count; layer++) {
        smooth->q[layer] = h2[layer][0];
        smooth->q[layer_count + 2 * subsets + layer] = h2[layer][1];
        smooth->q[2 * layer_count + 2 * subsets + layer] = h2[layer][2];
    }
    for (size_t s = 0; s < subsets; s++) {
        double complex u =
            conj(out[0]) * field[s].x / stack.ray.cos_theta + conj(out[1]) * field[s].y;
        smooth->q[layer_count + s] = creal(u);
        smooth->q[layer_count + subsets + s] = cimag(u);
    }
}

void ifig_point_matrices(double n_outside, const IfigMedium *media, size_t layer_count,
                         double theta, double phi, IfigPointMatrices *point)
{
    const IfigRay ray = ifig_ray(n_outside, theta, phi);
    MetStack stack;
    meet(&ray, media, layer_count, &stack);
    for (int column = 0; column < 2; column++) {
        FieldPair field[IFIG_SUBSETS_MAX];
        carry(&stack, column == 0, column == 1, field, point->h2);
        for (size_t s = 0; s < (size_t)1 << layer_count; s++) {
            point->u[s].m[0][column] = field[s].x / stack.ray.cos_theta;
            point->u[s].m[1][column] = field[s].y;
        }
    }
}
