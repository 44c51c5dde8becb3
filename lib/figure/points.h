/* SPDX-License-Identifier: MIT */
/* Exact smooth quantities at many points of the picture at once. */
#ifndef IFIG_POINTS_H
#define IFIG_POINTS_H

#include "figure.h"
#include "lossless.h"

/* Where a tile's polynomials are exact, or are put to the test. */
typedef struct IfigPoints {
    size_t count; /* at most IFIG_RAYS */
    IfigPointView view[IFIG_RAYS];
} IfigPoints;

/* Quantity q of point i at wavelength node m becomes value[q * IFIG_RAYS + i]. */
void ifig_points_quantities(const IfigFigure *figure, const IfigPoints *points, size_t m,
                            double *value);

#endif
