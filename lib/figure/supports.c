/* SPDX-License-Identifier: MIT */
/* The few wavelengths, taken from the lamp's samples, at which the light of a pixel is formed: see
 * carrier.h. Through count points the error of a polynomial at x is the product of (x - x_j) times
 * a derivative; the points are placed where the mean square of that product, weighted by what
 * each sample adds to the colour, is least: at the zeros of the weight's orthogonal polynomial. */
#include "carrier.h"

#include "base.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { FEW_SETS = IFIG_SUPPORT_SETS - 1 };
static const size_t set_sizes[FEW_SETS] = {3, 4, 5, 6, 8, 11, 16, 24, 34, 48, 62};
/* Retardations below which a polynomial through the supports carries the fringe by itself. */
static const double least_turns[FEW_SETS] = {0.25, 0.3, 0.35, 0.4, 0.6, 1.2,
                                             2.2,  4.0, 6.0,  9.0, 12.0};

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

/* The polynomial of degree count that is orthogonal to all lower ones under the weight, at the
 * samples: by the recurrence of three terms (Stieltjes 1884). */
static void orthogonal_polynomial(const IfigSpectrumSamples *samples, size_t count, double *now)
{
    double before[IFIG_SAMPLES_MOST] = {0}, norm_before = 0;
    for (size_t k = 0; k < samples->count; k++) {
        now[k] = 1.0;
    }
    for (size_t degree = 0; degree < count; degree++) {
        double norm = 0, middle = 0;
        for (size_t k = 0; k < samples->count; k++) {
            double square = importance(samples, k) * now[k] * now[k];
            norm += square;
            middle += square * place(samples, k);
        }
        for (size_t k = 0; k < samples->count; k++) {
            double back = degree > 0 ? norm / norm_before * before[k] : 0.0;
            double next = (place(samples, k) - middle / norm) * now[k] - back;
            before[k] = now[k];
            now[k] = next;
        }
        norm_before = norm;
    }
}

/* About count samples: the nearest to its zeros, of which two may stand between the same samples.
 */
static int choose_samples(const IfigSpectrumSamples *samples, size_t count, IfigSupports *s)
{
    double value[IFIG_SAMPLES_MOST];
    size_t found = 0;
    orthogonal_polynomial(samples, count, value);
    for (size_t k = 0; k + 1 < samples->count && found < count; k++) {
        if ((value[k] < 0) != (value[k + 1] < 0)) {
            size_t nearer = ifig_magnitude(value[k]) < ifig_magnitude(value[k + 1]) ? k : k + 1;
            size_t free = found > 0 ? s->sample[found - 1] + 1 : 0;
            s->sample[found++] = nearer < free ? free : nearer;
        }
    }
    s->count = found;
    return 10 * found >= 9 * count && s->sample[found - 1] < samples->count;
}

/* The point that matters most. */
static size_t reference_of(const IfigSupports *s)
{
    size_t most = 0;
    for (size_t j = 1; j < s->count; j++) {
        most = s->even[j][1] > s->even[most][1] ? j : most;
    }
    return most;
}

/* The weights of every sample through the points. */
static void fill_weights(const IfigSpectrumSamples *samples, IfigSupports *s)
{
    double node[IFIG_SUPPORTS_MAX], part[IFIG_SUPPORTS_MAX], factor[IFIG_SUPPORTS_MAX];
    memset(s->even, 0, sizeof s->even);
    for (size_t j = 0; j < s->count; j++) {
        node[j] = place(samples, s->sample[j]);
    }
    ifig_barycentric_factors(node, s->count, factor);
    for (size_t k = 0; k < samples->count; k++) {
        ifig_barycentric_weights(node, factor, s->count, place(samples, k), part);
        for (size_t j = 0; j < s->count; j++) {
            for (size_t i = 0; i < 3; i++) {
                double weight = part[j] * samples->weight[k][i];
                s->weight[(j * 3 + i) * IFIG_SAMPLES_PADDED + k] = (float)weight;
                s->even[j][i] += weight;
            }
        }
    }
    s->reference = reference_of(s);
}

/* Every sample for itself, where no polynomial serves. */
static void take_all(const IfigSpectrumSamples *samples, IfigSupports *s)
{
    s->count = samples->count;
    s->least_turns = INFINITY;
    for (size_t k = 0; k < samples->count; k++) {
        s->sample[k] = k;
        memcpy(s->even[k], samples->weight[k], sizeof s->even[k]);
    }
    s->reference = reference_of(s);
}

IfigStatus ifig_supports_create(IfigFigure *figure, IfigError *error)
{
    const IfigSpectrumSamples *samples = &figure->samples;
    if (samples->kernel != IFIG_KERNEL_SPLINE || figure->layer_count != 1) {
        return IFIG_OK;
    }
    figure->weight_plane = calloc((size_t)3 * IFIG_SAMPLES_PADDED, sizeof(double));
    if (figure->weight_plane == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for the weights of a spectrum");
    }
    for (size_t k = 0; k < 3 * samples->count; k++) {
        figure->weight_plane[k % 3 * IFIG_SAMPLES_PADDED + k / 3] = samples->weight[k / 3][k % 3];
    }
    for (size_t i = 0; i < FEW_SETS; i++) {
        IfigSupports *s = &figure->supports[i];
        s->weight = calloc(set_sizes[i] * 3 * IFIG_SAMPLES_PADDED, sizeof *s->weight);
        if (s->weight == NULL) {
            return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for the weights of a spectrum");
        }
        s->least_turns = least_turns[i];
        if (!choose_samples(samples, set_sizes[i], s)) {
            return IFIG_OK; /* a lamp of hardly more lines than supports */
        }
        fill_weights(samples, s);
        figure->support_set_count = i + 1;
    }
    take_all(samples, &figure->supports[FEW_SETS]);
    figure->support_set_count = IFIG_SUPPORT_SETS;
    return IFIG_OK;
}

void ifig_supports_free(IfigFigure *figure)
{
    for (size_t i = 0; i < IFIG_SUPPORT_SETS; i++) {
        free(figure->supports[i].weight);
    }
    free(figure->weight_plane);
    figure->weight_plane = NULL;
}
