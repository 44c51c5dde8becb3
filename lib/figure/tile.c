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
    double r = sqrt(x * x + y * y), theta = ifig_field_theta(&figure->instrument, r);
    const IfigRay ray = {.n_outside = figure->instrument.immersion_index,
                         .cos_theta = cos(theta),
                         .sin_theta = sin(theta),
                         .cos_phi = r > 0.0 ? x / r : 1.0,
                         .sin_phi = r > 0.0 ? y / r : 0.0};
    return ifig_point_view(&figure->instrument, &ray);
}

/* How far from the centre of the disc some part of a pixel may still be seen. */
static double outermost(const IfigTile *tile)
{
    return 1.0 + 1.5 * tile->pixel * tile->half;
}

/* The points of the list. One outside the disc, where there are no pixels, is drawn in to the rim,
 * towards the corner of the tile that lies nearest to the centre of the disc. */
static void test_points(const IfigTile *tile, double at[TESTS][2])
{
    double rim = outermost(tile);
    double corner_x = tile->x > 0.0 ? -1.0 : 1.0, corner_y = tile->y > 0.0 ? -1.0 : 1.0;
    double x = tile->x + tile->half * corner_x, y = tile->y + tile->half * corner_y;
    for (size_t i = 0; i < TESTS; i++) {
        double dx = tile->half * (TEST_POINTS[i][0] - corner_x);
        double dy = tile->half * (TEST_POINTS[i][1] - corner_y);
        double square = dx * dx + dy * dy, product = x * dx + y * dy,
               beyond = x * x + y * y - rim * rim;
        double reach =
            beyond < 0.0 ? (sqrt(product * product - square * beyond) - product) / square : 0.0;
        double share = reach < 1.0 ? reach : 1.0;
        at[i][0] = corner_x + share * dx / tile->half;
        at[i][1] = corner_y + share * dy / tile->half;
    }
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

/* Whether a layer's h^2 falls so much across the tile that its polynomial must be looked at where
 * it is least. */
static int falls(const double *c, const double at[TESTS][2])
{
    double least = INFINITY, most = 0;
    for (size_t i = 0; i < TESTS; i++) {
        double h2 = polynomial(c, at[i][0], at[i][1]);
        least = h2 < least ? h2 : least;
        most = h2 > most ? h2 : most;
    }
    return !(least > 0.3 * most);
}

/* Hold the tile's polynomials at wavelength node m to exact points: those of the list, whose views
 * are the first of `points`, and where h^2 is least. */
static int node_agrees(const IfigFigure *figure, const IfigTile *tile, IfigPoints *points, size_t m,
                       double wavelength_nm)
{
    const double *c = tile->at_nodes + m * figure->quantity_count * NN;
    double at[TESTS + IFIG_LAYERS_MAX][2], exact[IFIG_QUANTITIES_MAX * NN];
    int agrees = 1;
    test_points(tile, at);
    points->count = TESTS;
    for (size_t layer = 0; layer < figure->layer_count; layer++) {
        if (falls(c + layer * NN, at)) {
            size_t i = points->count++;
            find_least(c + layer * NN, at[i]);
            points->view[i] = view_of(figure, tile, at[i][0], at[i][1]);
        }
    }
    ifig_points_quantities(figure, points, m, exact);
    for (size_t i = 0; i < points->count && agrees; i++) {
        agrees = point_agrees(figure, c, at[i], exact, i, wavelength_nm);
    }
    return agrees;
}

/* The points through which a tile's polynomials go. Beyond the disc the lens gathers light at ever
 * steeper angles, and at last none: a row of points ends at the rim, or half way where less of it
 * lies within. */
typedef struct Nodes {
    IfigBasis basis;
    IfigBasisRows rows;
    int is_whole; /* all points are those of the basis */
    IfigPoints points;
} Nodes;

/* Pixels along a side: smaller tiles may stick out so far that it would matter what the polynomials
 * do beyond their points, which are therefore spread over all of them. */
static const double LEAST_CUT = 16.0;

static void place_row(const IfigFigure *figure, const IfigTile *tile, size_t j, Nodes *nodes)
{
    const IfigBasis *basis = &nodes->basis;
    double rim = tile->pixel * LEAST_CUT > 2.0 ? 2.0 : outermost(tile);
    double y = tile->y + tile->half * basis->point[j];
    double reach = rim * rim > y * y ? sqrt(rim * rim - y * y) : 0.0;
    double first = (-reach - tile->x) / tile->half, last = (reach - tile->x) / tile->half;
    if (tile->x > 0.0) {
        first = -1.0;
        last = last < 0.0 ? 0.0 : last > 1.0 ? 1.0 : last;
    } else {
        first = first > 0.0 ? 0.0 : first < -1.0 ? -1.0 : first;
        last = 1.0;
    }
    nodes->is_whole &= first == -1.0 && last == 1.0;
    for (size_t i = 0; i < N; i++) {
        nodes->rows.at[j][i] = 0.5 * (first + last) + 0.5 * (last - first) * basis->point[i];
        nodes->points.view[j * N + i] =
            view_of(figure, tile, nodes->rows.at[j][i], basis->point[j]);
    }
}

static void place_nodes(const IfigFigure *figure, const IfigTile *tile, Nodes *nodes)
{
    ifig_basis(&nodes->basis);
    nodes->points.count = NN;
    nodes->is_whole = 1;
    for (size_t j = 0; j < N; j++) {
        place_row(figure, tile, j, nodes);
    }
    if (!nodes->is_whole) {
        ifig_basis_rows(&nodes->rows);
    }
}

static void fit_node(const IfigFigure *figure, const Nodes *nodes, size_t m, double *c)
{
    ifig_points_quantities(figure, &nodes->points, m, c);
    for (size_t q = 0; q < figure->quantity_count; q++) {
        if (nodes->is_whole) {
            ifig_basis_coefficients(&nodes->basis, c + q * NN);
        } else {
            ifig_basis_rows_coefficients(&nodes->basis, &nodes->rows, c + q * NN);
        }
    }
}

int ifig_tile_fit(const IfigFigure *figure, IfigTile *tile)
{
    const IfigSpectrumSamples *samples = &figure->samples;
    size_t block = figure->quantity_count * NN, last = figure->node_count - 1;
    double at[TESTS][2];
    Nodes nodes;
    IfigPoints tests; /* their views stay the same for all wavelengths */
    place_nodes(figure, tile, &nodes);
    test_points(tile, at);
    for (size_t i = 0; i < TESTS; i++) {
        tests.view[i] = view_of(figure, tile, at[i][0], at[i][1]);
    }
    /* The wavelengths that ask most first: where they miss, the rest is not worth the time. */
    tile->has_samples = 0;
    fit_node(figure, &nodes, last, tile->at_nodes + last * block);
    int agrees = node_agrees(figure, tile, &tests, last, samples->wavelength_nm[0]);
    for (size_t m = 0; m < last && (agrees || tile->must_fit); m++) {
        fit_node(figure, &nodes, m, tile->at_nodes + m * block);
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
