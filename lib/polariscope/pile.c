/* SPDX-License-Identifier: MIT */
/* A pile of plates of two media at normal incidence. */
#include "texture.h"

#include "base.h"
#include "fringe_math.h"

static IfigStatus ready_medium(const IfigLayer *layer, const double rotation[3][3],
                               double wavelength_nm, const IfigRay *ray, IfigPropagator *propagator,
                               IfigError *error)
{
    IfigMedium medium;
    IfigStatus status = ifig_layer_medium(layer, rotation, wavelength_nm, &medium, error);
    if (status == IFIG_OK) {
        ifig_propagator(&medium, ray, propagator);
    }
    return status;
}

IfigStatus ifig_pile_ready(const IfigLayer *layer, double rotation[2][3][3], int is_brazil,
                           double n_outside, double wavelength_nm, IfigPile *pile, IfigError *error)
{
    IfigRay ray = ifig_ray(n_outside, 0, 0);
    IfigLayer twin = *layer;
    if (is_brazil) {
        twin.hand = layer->hand == IFIG_HAND_RIGHT ? IFIG_HAND_LEFT : IFIG_HAND_RIGHT;
    }
    IfigStatus status =
        ready_medium(layer, rotation[0], wavelength_nm, &ray, &pile->medium[0], error);
    if (status == IFIG_OK) {
        status = ready_medium(&twin, rotation[1], wavelength_nm, &ray, &pile->medium[1], error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    pile->wavelength_nm = wavelength_nm;
    pile->is_complex = 0;
    for (int i = 0; i < 2; i++) {
        const IfigPropagator *medium = &pile->medium[i];
        pile->in[i] = ifig_face(NULL, medium, &ray);
        pile->out[i] = ifig_face(medium, NULL, &ray);
        pile->change[i] = ifig_face(medium, &pile->medium[1 - i], &ray);
        pile->h[i] = csqrt(medium->half_difference_squared);
        pile->per_mm[i] = creal(pile->h[i]) * 1e6 / wavelength_nm;
        pile->is_complex |= cimag(pile->h[i]) != 0.0 || cimag(medium->mean) != 0.0;
    }
    return IFIG_OK;
}

IFIG_INLINE void apply(const IfigMatrix2 *matrix, double complex field[2])
{
    double complex x = matrix->m[0][0] * field[0] + matrix->m[0][1] * field[1];
    field[1] = matrix->m[1][0] * field[0] + matrix->m[1][1] * field[1];
    field[0] = x;
}

/* ifig_layer_matrix applied to a field, for media without loss. */
IFIG_INLINE void pass_clear(const IfigPile *pile, const IfigSlab *slab, double complex field[2])
{
    const IfigMatrix2 *turn = &pile->medium[slab->other].turn;
    double h = creal(pile->h[slab->other]);
    double turns = pile->per_mm[slab->other] * slab->thickness_mm;
    double even = ifig_cosine_turns(turns);
    double odd = turns > 1e-4 ? ifig_sine_turns(turns) / h
                              : 2e6 * IFIG_PI * slab->thickness_mm / pile->wavelength_nm;
    double complex x = turn->m[0][0] * field[0] + turn->m[0][1] * field[1];
    double complex y = turn->m[1][0] * field[0] + turn->m[1][1] * field[1];
    field[0] = even * field[0] + I * odd * x;
    field[1] = even * field[1] + I * odd * y;
}

void ifig_pile_pass(const IfigPile *pile, const IfigSlab *slab, size_t count,
                    double complex field[2])
{
    apply(&pile->in[slab[0].other], field);
    for (size_t i = 0; i < count; i++) {
        if (i > 0 && slab[i].other != slab[i - 1].other) {
            apply(&pile->change[slab[i - 1].other], field);
        }
        if (pile->is_complex) {
            double depth = 2e6 * IFIG_PI * slab[i].thickness_mm / pile->wavelength_nm;
            IfigMatrix2 layer = ifig_layer_matrix(&pile->medium[slab[i].other], depth);
            apply(&layer, field);
        } else {
            pass_clear(pile, &slab[i], field);
        }
    }
    apply(&pile->out[slab[count - 1].other], field);
}
