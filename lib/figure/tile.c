/* SPDX-License-Identifier: MIT */
/* A tile's smooth quantities as polynomials: exact at Chebyshev points, tested at others. */
#include "basis.h"
#include "points.h"

#include <math.h>
#include <string.h>

_Static_assert((int)NN == (int)IFIG_RAYS, "a tile's points are computed together");

/* Points, away from the nodes, at which a tile is put to the test. */
static const double TEST_POINTS[][2] = {{-0.97, -0.96}, {0.98, -0.55}, {-0.35, 0.98}, {0.96, 0.97},
                                        {0.05, -0.08},  {-0.95, 0.41}, {0.47, 0.52}};
enum { TESTS = sizeof TEST_POINTS / sizeof TEST_POINTS[0] };

size_t ifig_tile_coefficient_count(const IfigFigure *figure)
{
    return figure->samples.count * figure->quantity_count * NN;
}

size_t ifig_tile_node_coefficient_count(const IfigFigure *figure)
{
    return figure->node_count * figure->quantity_count * NN;
}

static IfigPointView view_of(const IfigFigure *figure, const IfigTile *tile, double tx, double ty)
{
    double x = tile->x + tile->half * tx, y = tile->y + tile->half * ty;
    double theta = ifig_field_theta(&figure->instrument, sqrt(x * x + y * y));
    return ifig_point_view(&figure->instrument, theta, atan2(y, x));
}

static double polynomial(const double *c, double tx, double ty)
{
    double row[N];
    collapse(c, ty, row);
    return horner(row, tx);
}

/* Hold the polynomials of one wavelength node to exact point i: value[q * NN + i]. */
static int point_agrees(const IfigFigure *figure, const double *c, const double at[2],
                        const double *value, size_t i, double wavelength_nm)
{
    IfigSmooth exact;
    for (size_t q = 0; q < figure->quantity_count; q++) {
        exact.q[q] = value[q * NN + i];
    }
    for (size_t q = 0; q < figure->quantity_count; q++) {
        double tolerated = ifig_tolerated(figure, q, &exact, wavelength_nm);
        if (!(fabs(polynomial(c + q * NN, at[0], at[1]) - exact.q[q]) <= tolerated)) {
            return 0;
        }
    }
    return 1;
}

/* Where the polynomial of a layer's h^2 is least: on a grid, then closer and closer about the best.
 * Next to an optic axis h^2 falls to nothing, and there its polynomial must be best. */
static void find_least(const double *c, double at[2])
{
    double reach = 1.0, centre[2] = {0, 0}, least = INFINITY;
    for (int round = 0; round < 4; round++, reach *= 0.25) {
        for (int j = -4; j <= 4; j++) {
            double row[N], ty = centre[1] + reach * j / 4.0;
            collapse(c, ty, row);
            for (int i = -4; i <= 4; i++) {
                double tx = centre[0] + reach * i / 4.0;
                double value = fabs(tx) <= 1 && fabs(ty) <= 1 ? horner(row, tx) : INFINITY;
                if (value < least) {
                    least = value;
                    at[0] = tx;
                    at[1] = ty;
                }
            }
        }
        centre[0] = at[0];
        centre[1] = at[1];
    }
}

/* Hold the tile's polynomials at wavelength node m to exact points: those of the list, whose views
 * are the first of `points`, and where h^2 is least. */
static int node_agrees(const IfigFigure *figure, const IfigTile *tile, IfigPoints *points, size_t m,
                       double wavelength_nm)
{
    const double *c = tile->at_nodes + m * figure->quantity_count * NN;
    double at[TESTS + IFIG_LAYERS_MAX][2], exact[IFIG_QUANTITIES_MAX * NN];
    int agrees = 1;
    memcpy(at, TEST_POINTS, sizeof TEST_POINTS);
    points->count = TESTS + figure->layer_count;
    for (size_t i = TESTS; i < points->count; i++) {
        find_least(c + (i - TESTS) * NN, at[i]);
        points->view[i] = view_of(figure, tile, at[i][0], at[i][1]);
    }
    ifig_points_quantities(figure, points, m, exact);
    for (size_t i = 0; i < points->count && agrees; i++) {
        agrees = point_agrees(figure, c, at[i], exact, i, wavelength_nm);
    }
    return agrees;
}

static void fit_node(const IfigFigure *figure, const IfigPoints *points, const IfigBasis *basis,
                     size_t m, double *c)
{
    ifig_points_quantities(figure, points, m, c);
    for (size_t q = 0; q < figure->quantity_count; q++) {
        ifig_basis_coefficients(basis, c + q * NN);
    }
}

int ifig_tile_fit(const IfigFigure *figure, IfigTile *tile)
{
    const IfigSpectrumSamples *samples = &figure->samples;
    size_t block = figure->quantity_count * NN, last = figure->node_count - 1;
    IfigBasis basis;
    IfigPoints points, tests; /* their views stay the same for all wavelengths */
    ifig_basis(&basis);
    points.count = NN;
    for (size_t point = 0; point < NN; point++) {
        points.view[point] = view_of(figure, tile, basis.point[point % N], basis.point[point / N]);
    }
    for (size_t i = 0; i < TESTS; i++) {
        tests.view[i] = view_of(figure, tile, TEST_POINTS[i][0], TEST_POINTS[i][1]);
    }
    /* The wavelengths that ask most first: where they miss, the rest is not worth the time. */
    tile->has_samples = 0;
    fit_node(figure, &points, &basis, last, tile->at_nodes + last * block);
    int agrees = node_agrees(figure, tile, &tests, last, samples->wavelength_nm[0]);
    for (size_t m = 0; m < last && (agrees || tile->must_fit); m++) {
        fit_node(figure, &points, &basis, m, tile->at_nodes + m * block);
        if (m == 0) {
            agrees &=
                node_agrees(figure, tile, &tests, m, samples->wavelength_nm[samples->count - 1]);
        }
    }
    return agrees;
}

void ifig_tile_sample(const IfigFigure *figure, const IfigTile *tile, size_t k, double *c)
{
    size_t block = figure->quantity_count * NN, nodes = figure->node_count;
    memset(c, 0, block * sizeof *c);
    for (size_t m = 0; m < nodes; m++) {
        double weight = figure->interpolation[m * figure->samples.count + k];
        for (size_t i = 0; i < block && weight != 0.0; i++) {
            c[i] += weight * tile->at_nodes[m * block + i];
        }
    }
}

void ifig_tile_samples(const IfigFigure *figure, IfigTile *tile)
{
    size_t block = figure->quantity_count * NN;
    for (size_t k = 0; k < figure->samples.count && !tile->has_samples; k++) {
        ifig_tile_sample(figure, tile, k, tile->coefficient + k * block);
    }
    tile->has_samples = 1;
}
