/* SPDX-License-Identifier: MIT */
/* The few wavelengths, taken from the lamp's samples, at which the light of a pixel is formed: see
 * carrier.h. Through count points the error of a polynomial at x is the product of (x - x_j) times
 * a derivative; the points are moved until the mean square of that product, weighted by what each
 * sample adds to the colour, is least (the zeros of the weight's orthogonal polynomial, moved to
 * the nearest samples). */
#include "carrier.h"

#include "base.h"

#include <stdlib.h>
#include <string.h>

static const size_t set_sizes[IFIG_SUPPORT_SETS] = {4, 5, 6, 8};

/* Wavenumber of a sample, in 1 / um: the variable of the polynomials. */
static double place(const IfigSpectrumSamples *samples, size_t k)
{
    return 1e3 / samples->wavelength_nm[k];
}

static double importance(const IfigSpectrumSamples *samples, size_t k)
{
    double sum = 0;
    for (int i = 0; i < 3; i++) {
        sum += ifig_magnitude(samples->weight[k][i]);
    }
    return sum;
}

static double mean_square(const IfigSpectrumSamples *samples, const size_t *sample, size_t count)
{
    double sum = 0;
    for (size_t k = 0; k < samples->count; k++) {
        double product = 1.0;
        for (size_t j = 0; j < count; j++) {
            product *= place(samples, k) - place(samples, sample[j]);
        }
        sum += importance(samples, k) * product * product;
    }
    return sum;
}

/* Start at equal shares of the colour, then move one point at a time while it helps. */
static void choose_samples(const IfigSpectrumSamples *samples, IfigSupports *s)
{
    double total = 0, passed = 0;
    size_t chosen = 0;
    for (size_t k = 0; k < samples->count; k++) {
        total += importance(samples, k);
    }
    for (size_t k = 0; k < samples->count && chosen < s->count; k++) {
        passed += importance(samples, k);
        size_t left = samples->count - 1 - k;
        if (passed > total * ((double)chosen + 0.5) / (double)s->count ||
            left < s->count - chosen) {
            s->sample[chosen++] = k;
        }
    }
    double least = mean_square(samples, s->sample, s->count);
    for (int moved = 1; moved;) {
        moved = 0;
        for (size_t j = 0; j < s->count; j++) {
            size_t low = j > 0 ? s->sample[j - 1] + 1 : 0, here = s->sample[j];
            size_t high = j + 1 < s->count ? s->sample[j + 1] - 1 : samples->count - 1;
            for (int step = -1; step <= 1; step += 2) {
                if ((step < 0 && here <= low) || (step > 0 && here >= high)) {
                    continue;
                }
                s->sample[j] = step < 0 ? here - 1 : here + 1;
                double now = mean_square(samples, s->sample, s->count);
                if (now < least) {
                    least = now;
                    here = s->sample[j];
                    moved = 1;
                }
                s->sample[j] = here;
            }
        }
    }
}

/* The weights of every sample through the points, and the point that matters most. */
static void fill_weights(const IfigSpectrumSamples *samples, IfigSupports *s)
{
    double node[IFIG_SUPPORTS_MAX], part[IFIG_SUPPORTS_MAX];
    memset(s->even, 0, sizeof s->even);
    s->reference = 0;
    for (size_t j = 0; j < s->count; j++) {
        node[j] = place(samples, s->sample[j]);
    }
    for (size_t k = 0; k < samples->count; k++) {
        ifig_barycentric_weights(node, s->count, place(samples, k), part);
        for (size_t j = 0; j < s->count; j++) {
            for (size_t i = 0; i < 3; i++) {
                double weight = part[j] * samples->weight[k][i];
                s->weight[(k * s->count + j) * 4 + i] = weight;
                s->even[j][i] += weight;
            }
        }
    }
    for (size_t j = 1; j < s->count; j++) {
        s->reference = s->even[j][1] > s->even[s->reference][1] ? j : s->reference;
    }
}

IfigStatus ifig_supports_create(IfigFigure *figure, IfigError *error)
{
    const IfigSpectrumSamples *samples = &figure->samples;
    if (samples->kernel != IFIG_KERNEL_SPLINE || figure->layer_count != 1) {
        return IFIG_OK;
    }
    for (size_t i = 0; i < IFIG_SUPPORT_SETS; i++) {
        IfigSupports *s = &figure->supports[i];
        s->count = set_sizes[i];
        s->weight = calloc(samples->count * s->count * 4, sizeof *s->weight);
        if (s->weight == NULL) {
            return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for the weights of a spectrum");
        }
        choose_samples(samples, s);
        fill_weights(samples, s);
    }
    figure->support_set_count = IFIG_SUPPORT_SETS;
    return IFIG_OK;
}

void ifig_supports_free(IfigFigure *figure)
{
    for (size_t i = 0; i < IFIG_SUPPORT_SETS; i++) {
        free(figure->supports[i].weight);
    }
}
