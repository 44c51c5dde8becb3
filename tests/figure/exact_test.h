/* SPDX-License-Identifier: MIT */
/* The definition that pixels are held to: exact waves at many points within the pixel and at every
 * nanometre or finer, summed. No polynomial, no tile, no closed form of an average over a pixel. */
#ifndef IFIG_EXACT_TEST_H
#define IFIG_EXACT_TEST_H

#include "figure_test.h"

#include <string.h>

#include "fringe_stack.h"

enum { FIRST_NM = 380, FINEST = 4, WAVELENGTHS_MOST = 400 * FINEST + 1, MOST_POINTS = 48 };

/* Media and weights of a scene at each wavelength, or at its lamp's one line. */
typedef struct Exact {
    const IfigScene *scene;
    int count;
    double wavelength_nm[WAVELENGTHS_MOST], weight[WAVELENGTHS_MOST][3];
    IfigMedium media[WAVELENGTHS_MOST][2];
    IfigSpectralKernel kernel;
} Exact;

/* finer: samples in each nanometre, at most FINEST. */
static inline void prepare(const IfigScene *scene, int finer, Exact *exact)
{
    double line = ifig_lamp_line_nm(scene->lamp), white = 0, rotation[2][3][3];
    exact->scene = scene;
    exact->count = line > 0 ? 1 : 400 * finer + 1;
    exact->kernel = line > 0 ? IFIG_KERNEL_NONE : IFIG_KERNEL_LINEAR;
    for (size_t j = 0; j < scene->layer_count; j++) {
        const IfigLayer *layer = &scene->layers[j];
        ck_assert_int_eq(
            ifig_orientation_matrix(layer->species, &layer->orientation, rotation[j], NULL),
            IFIG_OK);
    }
    for (int k = 0; k < exact->count; k++) {
        double nm = line > 0 ? line : FIRST_NM + (double)k / finer;
        double power = line > 0 ? 1.0 : ifig_lamp_power(scene->lamp, nm);
        exact->wavelength_nm[k] = nm;
        ifig_colour_matching(nm, exact->weight[k]);
        for (int i = 0; i < 3; i++) {
            exact->weight[k][i] *= power;
        }
        white += exact->weight[k][1];
        for (size_t j = 0; j < scene->layer_count; j++) {
            IfigStatus status = ifig_layer_medium(
                &scene->layers[j], (const double(*)[3])rotation[j], nm, &exact->media[k][j], NULL);
            if (status != IFIG_OK) { /* an assertion writes at every call */
                ck_abort_msg("no medium at %g nm", nm);
            }
        }
    }
    for (int k = 0; k < exact->count; k++) {
        for (int i = 0; i < 3; i++) {
            exact->weight[k][i] /= white;
        }
    }
}

/* Add the XYZ of one point of the disc, times its share of the pixel. */
static inline void add_point(const Exact *exact, double x, double y, double share, double xyz[3])
{
    const IfigScene *scene = exact->scene;
    size_t layers = scene->layer_count, subsets = (size_t)1 << layers;
    const IfigRay ray = ifig_ray(scene->instrument.immersion_index,
                                 ifig_field_theta(&scene->instrument, hypot(x, y)), atan2(y, x));
    const IfigPointView view = ifig_point_view(&scene->instrument, &ray);
    IfigLayerPhase before[2] = {{0}}, here[2] = {{0}};
    for (int k = 0; k < exact->count; k++) {
        IfigSmooth smooth;
        double complex u[4];
        double step[2] = {0, 0}, light;
        ifig_view_quantities(&view, exact->media[k], layers, &smooth);
        for (size_t j = 0; j < layers; j++) {
            const double *loss = &smooth.q[layers + 2 * subsets + j];
            double depth = 2e6 * IFIG_PI * scene->layers[j].thickness_mm / exact->wavelength_nm[k];
            here[j] = ifig_layer_phase(smooth.q[j] + I * loss[0], loss[layers], depth);
            step[j] = k > 0 ? here[j].turns - before[j].turns : 0.0;
        }
        for (size_t s = 0; s < subsets; s++) {
            u[s] = smooth.q[layers + s] + I * smooth.q[layers + subsets + s];
        }
        ifig_stack_light(layers, exact->kernel, here, step, 1, u, &light);
        for (int i = 0; i < 3; i++) {
            xyz[i] += share * exact->weight[k][i] * light;
        }
        memcpy(before, here, sizeof before);
    }
}

/* Points and shares of Gauss's quadrature over 0 to 1: zeros of the Legendre polynomial by Newton's
 * steps from Tricomi's start (Press et al., Numerical Recipes, 4.6). */
static inline void gauss_points(int n, double *point, double *share)
{
    for (int i = 0; i < n; i++) {
        double z = cos(IFIG_PI * (i + 0.75) / (n + 0.5)), slope = 1;
        for (int round = 0; round < 8; round++) {
            double p = 1, before = 0;
            for (int j = 0; j < n; j++) {
                double next = ((2 * j + 1) * z * p - j * before) / (j + 1);
                before = p;
                p = next;
            }
            slope = n * (z * p - before) / (z * z - 1);
            z -= p / slope;
        }
        point[i] = 0.5 * (1 + z);
        share[i] = 1 / ((1 - z * z) * slope * slope);
    }
}

/* The mean over n x n points of a pixel. */
static inline void mean_of_points(const Exact *exact, uint32_t size, uint32_t column, uint32_t row,
                                  int n, double xyz[3])
{
    double radius = 0.5 * size, point[MOST_POINTS], share[MOST_POINTS];
    gauss_points(n, point, share);
    memset(xyz, 0, 3 * sizeof *xyz);
    for (int a = 0; a < n; a++) {
        for (int b = 0; b < n; b++) {
            add_point(exact, (column + point[a]) / radius - 1.0, 1.0 - (row + point[b]) / radius,
                      share[a] * share[b], xyz);
        }
    }
}

/* The mean over a pixel's area: points are added until X, Y and Z change by less than tolerated, or
 * there are MOST_POINTS a side; returns the last change. The fringes of a single line need the most
 * points from the start. */
static inline double exact_pixel(const Exact *exact, uint32_t size, uint32_t column, uint32_t row,
                                 double tolerated, double xyz[3])
{
    static const int points[] = {2, 4, 6, 9, 14, 22, 33, MOST_POINTS};
    const int most = (int)(sizeof points / sizeof points[0]) - 1;
    double coarse[3], change = 1.0;
    int round = exact->count > 1 ? 0 : most - 1;
    mean_of_points(exact, size, column, row, points[round], xyz);
    while (change > tolerated && round < most) {
        round++;
        memcpy(coarse, xyz, sizeof coarse);
        mean_of_points(exact, size, column, row, points[round], xyz);
        change = 0;
        for (int i = 0; i < 3; i++) {
            change = fmax(change, fabs(xyz[i] - coarse[i]));
        }
    }
    return change;
}

/* What the picture would show, in levels of 255 not yet rounded. */
static inline void levels_of(const IfigLamp *lamp, const double xyz[3], double level[3])
{
    double rgb[3];
    ifig_colour_linear(lamp, xyz, 0, rgb);
    ifig_colour_into_gamut(rgb);
    for (int i = 0; i < 3; i++) {
        level[i] = 255.0 * ifig_srgb_encode(rgb[i]);
    }
}

#endif
