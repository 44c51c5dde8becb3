/* SPDX-License-Identifier: MIT */
/* Points of the picture all together: one layer that does not absorb is computed in real numbers
 * (lossless.h), stacks, absorbing layers and rays near total reflection one by one. */
#include "points.h"

#include <string.h>

static void one_by_one(const IfigFigure *figure, const IfigPointView *view, size_t m, size_t i,
                       double *value)
{
    IfigSmooth smooth;
    ifig_view_quantities(view, &figure->medium[m * figure->layer_count], figure->layer_count,
                         &smooth);
    for (size_t q = 0; q < figure->quantity_count; q++) {
        value[q * IFIG_RAYS + i] = smooth.q[q];
    }
}

/* What the views have at a wavelength, component by component. */
static void make_rays(const IfigFigure *figure, const IfigPoints *points, double wavelength_nm,
                      IfigRays *rays)
{
    int has_plate = figure->instrument.plate.material != IFIG_PLATE_NONE;
    rays->count = points->count;
    rays->n_outside = figure->instrument.immersion_index;
    rays->has_real_fields = !figure->is_complex;
    for (size_t i = 0; i < points->count; i++) {
        const IfigPointView *view = &points->view[i];
        double complex out[2] = {view->out[0], view->out[1]};
        if (has_plate) {
            ifig_analyser_field(view->instrument, &view->ray, wavelength_nm, out);
        }
        rays->cos_theta[i] = view->ray.cos_theta;
        rays->sin_theta[i] = view->ray.sin_theta;
        rays->cos_phi[i] = view->ray.cos_phi;
        rays->sin_phi[i] = view->ray.sin_phi;
        for (size_t part = 0; part < 2; part++) {
            rays->in_re[part][i] = creal(view->in[part]);
            rays->in_im[part][i] = cimag(view->in[part]);
            rays->out_re[part][i] = creal(out[part]);
            rays->out_im[part][i] = -cimag(out[part]);
        }
    }
}

void ifig_points_quantities(const IfigFigure *figure, const IfigPoints *points, size_t m,
                            double *value)
{
    const IfigMedium *medium = &figure->medium[m * figure->layer_count];
    int together = figure->layer_count == 1 && !figure->is_absorbing;
    IfigLayerFields fields;
    if (together) {
        IfigRays rays;
        make_rays(figure, points, medium->wavelength_nm, &rays);
        ifig_lossless_fields(medium, &rays, &fields);
        const double *part[] = {fields.h2, fields.u_re, fields.v_re, fields.u_im, fields.v_im};
        for (size_t q = 0; q < figure->quantity_count; q++) {
            memcpy(value + q * IFIG_RAYS, part[q], points->count * sizeof *value);
        }
    }
    for (size_t i = 0; i < points->count; i++) {
        if (!together || fields.missed[i] != 0.0) {
            one_by_one(figure, &points->view[i], m, i, value);
        }
    }
}
