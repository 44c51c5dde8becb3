/* SPDX-License-Identifier: MIT */
/* The few wavelengths at which a figure's optics are exact, and the way from them to every sample
 * of the lamp's spectrum.
 *
 * Dispersion is a smooth function of x = 1 / lambda^2 (Sellmeier and Cauchy both are functions of
 * it) or of 1 / lambda, so polynomials in either through Chebyshev points converge geometrically.
 * Cauchy's formula is a polynomial in the former. Of a pole in the infrared, as the formulas of
 * calcite and quartz have, the latter stands further off: 6 points for 10. Their number is raised
 * until one of the two meets exact optics at other wavelengths; if none ever does, every sample is
 * exact. */
#include "figure.h"

#include "base.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_NODES = 48 };

/* Directions in which the choice is tried, as points of the disc. */
static const double TRIAL_POINTS[][2] = {{0.02, 0.03},  {0.41, 0.07},  {-0.33, 0.29}, {0.1, -0.52},
                                         {0.77, 0.21},  {-0.6, -0.55}, {-0.9, 0.1},   {0.15, 0.93},
                                         {0.57, -0.74}, {-0.5, 0.01}};
enum {
    TRIALS = sizeof TRIAL_POINTS / sizeof TRIAL_POINTS[0],
    MOST_TRIALS = TRIALS + 2 * IFIG_AXIS_WAVELENGTHS * IFIG_LAYERS_MAX
};

double ifig_chebyshev_point(size_t index, size_t count)
{
    return -cos(IFIG_PI * ((double)index + 0.5) / (double)count);
}

void ifig_barycentric_factors(const double *node, size_t count, double *factor)
{
    for (size_t i = 0; i < count; i++) {
        double product = 1.0;
        for (size_t j = 0; j < count; j++) {
            product *= j == i ? 1.0 : 2.0 * (node[i] - node[j]);
        }
        factor[i] = 1.0 / product;
    }
}

void ifig_barycentric_weights(const double *node, const double *factor, size_t count, double x,
                              double *weight)
{
    double sum = 0.0;
    for (size_t i = 0; i < count; i++) {
        if (x == node[i]) {
            memset(weight, 0, count * sizeof *weight);
            weight[i] = 1.0;
            return;
        }
        weight[i] = factor[i] / (x - node[i]);
        sum += weight[i];
    }
    for (size_t i = 0; i < count; i++) {
        weight[i] /= sum;
    }
}

/* k0 d of a layer. */
static double depth(const IfigFigure *figure, size_t layer, double wavelength_nm)
{
    return 2.0 * IFIG_PI * figure->thickness_nm[layer] / wavelength_nm;
}

/* What rounding leaves of a difference of two squares near n^2. */
static const double LAST_DIGITS = 1e-15;

static double tolerated_h2(const IfigFigure *figure, double x, double h2)
{
    double h = h2 > 0.0 ? sqrt(h2) : 0.0;
    double tolerated = fmax(fmax(2e-4 * h / x, 2.5e-5 / (x * x)), LAST_DIGITS);
    /* Beyond hundreds of orders the lamp's width has long washed the fringes out. */
    return figure->samples.count > 1 ? fmax(tolerated, 2e-6 * h2) : tolerated;
}

double ifig_tolerated(const IfigFigure *figure, size_t q, const IfigSmooth *exact,
                      double wavelength_nm)
{
    size_t layers = figure->layer_count, subsets = figure->subset_count;
    if (q < layers) {
        return tolerated_h2(figure, depth(figure, q, wavelength_nm), exact->q[q]);
    }
    if (q >= layers + 2 * subsets) { /* absorption: a share of the light */
        size_t layer = (q - layers - 2 * subsets) % layers;
        double x = depth(figure, layer, wavelength_nm), h2 = exact->q[layer];
        int of_mean = q >= 2 * layers + 2 * subsets;
        return of_mean ? 2e-5 / x : fmax(tolerated_h2(figure, x, h2), 4e-5 * sqrt(fabs(h2)) / x);
    }
    double tolerated = 2e-6;
    size_t subset = (q - layers) % subsets;
    for (size_t layer = 0; layer < layers; layer++) {
        if (subset >> layer & 1) {
            double h2 = exact->q[layer], x = depth(figure, layer, wavelength_nm);
            tolerated = fmin(tolerated, 2e-6 * fmax(h2 > 0.0 ? sqrt(h2) : 0.0, 1.0 / x));
        }
    }
    return tolerated;
}

/* The variable of the polynomials: 1 / lambda or its square. */
typedef enum NodeVariable { BY_SQUARE, BY_WAVENUMBER } NodeVariable;

static double variable_of(NodeVariable variable, double wavelength_nm)
{
    double wavenumber = 1.0 / wavelength_nm;
    return variable == BY_SQUARE ? wavenumber * wavenumber : wavenumber;
}

/* Where the nodes stand: x from -1 (longest wavelength) to 1 (shortest). */
static double node_wavelength(const IfigSpectrumSamples *samples, NodeVariable variable, double x)
{
    double low = variable_of(variable, samples->wavelength_nm[samples->count - 1]);
    double high = variable_of(variable, samples->wavelength_nm[0]);
    double there = low + (high - low) * 0.5 * (x + 1.0);
    return 1.0 / (variable == BY_SQUARE ? sqrt(there) : there);
}

static double node_place(const IfigSpectrumSamples *samples, NodeVariable variable,
                         double wavelength_nm)
{
    double low = variable_of(variable, samples->wavelength_nm[samples->count - 1]);
    double high = variable_of(variable, samples->wavelength_nm[0]);
    return (variable_of(variable, wavelength_nm) - low) / (high - low) * 2.0 - 1.0;
}

static IfigStatus media_at(const IfigScene *scene, double (*rotation)[3][3], double wavelength_nm,
                           IfigMedium *media, IfigError *error)
{
    IfigStatus status = IFIG_OK;
    for (size_t i = 0; status == IFIG_OK && i < scene->layer_count; i++) {
        status = ifig_layer_medium(&scene->layers[i], rotation[i], wavelength_nm, &media[i], error);
    }
    return status;
}

/* Make nodes of a given number: media, and the matrix from nodes to samples. */
static IfigStatus make_nodes(const IfigScene *scene, double (*rotation)[3][3], size_t count,
                             NodeVariable variable, IfigFigure *figure, IfigError *error)
{
    size_t samples = figure->samples.count;
    free(figure->medium);
    free(figure->interpolation);
    figure->medium = calloc(count * figure->layer_count, sizeof *figure->medium);
    figure->interpolation =
        calloc(samples * count + IFIG_TILE_NODES, sizeof *figure->interpolation);
    figure->node_count = count;
    if (figure->medium == NULL || figure->interpolation == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for %zu wavelengths", count);
    }
    int every = count == samples;
    double node[MOST_NODES] = {0}, factor[MOST_NODES];
    for (size_t m = 0; m < count; m++) {
        double wavelength = figure->samples.wavelength_nm[every ? m : 0];
        if (!every) {
            node[m] = ifig_chebyshev_point(m, count);
            wavelength = node_wavelength(&figure->samples, variable, node[m]);
        }
        IfigStatus status =
            media_at(scene, rotation, wavelength, &figure->medium[m * figure->layer_count], error);
        if (status != IFIG_OK) {
            return status;
        }
    }
    if (!every) {
        ifig_barycentric_factors(node, count, factor);
    }
    for (size_t k = 0; k < samples; k++) {
        double row[MOST_NODES];
        if (every) {
            figure->interpolation[k * samples + k] = 1.0;
            continue;
        }
        double place = node_place(&figure->samples, variable, figure->samples.wavelength_nm[k]);
        ifig_barycentric_weights(node, factor, count, place, row);
        for (size_t m = 0; m < count; m++) {
            figure->interpolation[m * samples + k] = row[m];
        }
    }
    return IFIG_OK;
}

/* Does interpolation at sample k meet the exact quantities in one direction? */
static int meets(const IfigFigure *figure, const IfigSmooth *at_nodes, const IfigSmooth *exact,
                 size_t k)
{
    double wavelength = figure->samples.wavelength_nm[k];
    for (size_t q = 0; q < figure->quantity_count; q++) {
        double value = 0;
        for (size_t m = 0; m < figure->node_count; m++) {
            value += figure->interpolation[m * figure->samples.count + k] * at_nodes[m].q[q];
        }
        if (!(fabs(value - exact->q[q]) <= ifig_tolerated(figure, q, exact, wavelength))) {
            return 0;
        }
    }
    return 1;
}

/* Directions in which the choice is tried: at optic axes, which ask most, and anywhere. */
typedef struct Trials {
    IfigSightline at[MOST_TRIALS];
    size_t count;
} Trials;

static void make_trials(const IfigFigure *figure, const IfigAxes *axes, Trials *trials)
{
    memcpy(trials->at, axes->at, sizeof axes->at);
    trials->count = axes->count;
    for (size_t i = 0; i < TRIALS; i++) {
        double x = TRIAL_POINTS[i][0], y = TRIAL_POINTS[i][1];
        trials->at[trials->count++] =
            (IfigSightline){ifig_field_theta(&figure->instrument, hypot(x, y)), atan2(y, x)};
    }
}

static IfigStatus nodes_suffice(const IfigScene *scene, double (*rotation)[3][3],
                                const IfigFigure *figure, const Trials *trials, int *suffice,
                                IfigError *error)
{
    size_t stride = figure->samples.count / 9 + 1;
    *suffice = 1;
    for (size_t trial = 0; trial < trials->count && *suffice; trial++) {
        double theta = trials->at[trial].theta, phi = trials->at[trial].phi;
        IfigSmooth at_nodes[MOST_NODES];
        for (size_t m = 0; m < figure->node_count; m++) {
            ifig_point_quantities(&figure->instrument, &figure->medium[m * figure->layer_count],
                                  figure->layer_count, theta, phi, &at_nodes[m]);
        }
        for (size_t k = 0; k < figure->samples.count && *suffice; k += stride) {
            IfigMedium media[IFIG_LAYERS_MAX];
            IfigSmooth exact;
            IfigStatus status =
                media_at(scene, rotation, figure->samples.wavelength_nm[k], media, error);
            if (status != IFIG_OK) {
                return status;
            }
            ifig_point_quantities(&figure->instrument, media, figure->layer_count, theta, phi,
                                  &exact);
            *suffice = meets(figure, at_nodes, &exact, k);
        }
    }
    return IFIG_OK;
}

IfigStatus ifig_figure_nodes(const IfigScene *scene, const IfigAxes *axes, IfigFigure *figure,
                             IfigError *error)
{
    static const size_t counts[] = {3, 4, 5, 6, 7, 8, 10, 12, 16, 24, 32, MOST_NODES};
    double rotation[IFIG_LAYERS_MAX][3][3];
    IfigStatus status = IFIG_OK;
    for (size_t i = 0; status == IFIG_OK && i < scene->layer_count; i++) {
        status = ifig_orientation_matrix(scene->layers[i].species, &scene->layers[i].orientation,
                                         rotation[i], error);
    }
    Trials trials;
    make_trials(figure, axes, &trials);
    int suffice = 0;
    for (size_t i = 0; status == IFIG_OK && !suffice && i < 2 * sizeof counts / sizeof counts[0];
         i++) {
        size_t count = counts[i / 2];
        if (count >= figure->samples.count) {
            break;
        }
        status = make_nodes(scene, rotation, count, i % 2 == 0 ? BY_SQUARE : BY_WAVENUMBER, figure,
                            error);
        if (status == IFIG_OK) {
            status = nodes_suffice(scene, rotation, figure, &trials, &suffice, error);
        }
    }
    if (status == IFIG_OK && !suffice) {
        status = make_nodes(scene, rotation, figure->samples.count, BY_SQUARE, figure, error);
    }
    return status;
}
