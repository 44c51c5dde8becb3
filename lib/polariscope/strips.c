/* SPDX-License-Identifier: MIT */
/* The colours of lamellae: they change along one direction of the face alone, and are computed
 * along it once. */
#include "face.h"

#include "base.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Steps along a pixel, where lamellae stand upright and end sharply, and where they lie inclined.
 */
enum { SHARP_STEPS = 4, SMOOTH_STEPS = 2, LEAST_STEPS = 512, MOST_STEPS = 8192 };
/* Change of retardation from step to step, nm; lines of sight times wavelengths, at most. */
static const double STILL_NM = 40.0, MOST_SUMS = 1.6e7;

/* All wavelengths of a sum over the spectrum. */
typedef struct Spectrum {
    IfigSpectrumSamples samples;
    IfigPile *pile;
    double complex in[2];
    double complex (*out)[2];
} Spectrum;

static void spectrum_free(Spectrum *spectrum)
{
    ifig_spectrum_samples_free(&spectrum->samples);
    free(spectrum->pile);
    free(spectrum->out);
}

/* A retardation that no line of sight exceeds: the principal indices' largest difference. */
static double greatest_retardation(const IfigLayer *layer, int is_brazil)
{
    double n[3];
    if (is_brazil || ifig_species_indices(layer->species, 430.0, n, NULL) != IFIG_OK) {
        return 0.0;
    }
    double low = fmin(n[0], fmin(n[1], n[2])), high = fmax(n[0], fmax(n[1], n[2]));
    return (high - low) * layer->thickness_mm * 1e6;
}

static IfigStatus spectrum_create(const IfigScene *scene, int is_brazil, Spectrum *spectrum,
                                  IfigError *error)
{
    const IfigLayer *layer = &scene->layers[0];
    double rotation[2][3][3];
    IfigStatus status = ifig_twin_rotations(scene, is_brazil, rotation, error);
    if (status == IFIG_OK) {
        status = ifig_fine_samples(scene->lamp, greatest_retardation(layer, is_brazil),
                                   &spectrum->samples, error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    size_t count = spectrum->samples.count;
    spectrum->pile = calloc(count, sizeof *spectrum->pile);
    spectrum->out = calloc(count, sizeof *spectrum->out);
    if (spectrum->pile == NULL || spectrum->out == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for %zu wavelengths", count);
    }
    const IfigRay straight = ifig_ray(scene->instrument.immersion_index, 0, 0);
    ifig_polariser_field(&scene->instrument, &straight, spectrum->in);
    for (size_t k = 0; status == IFIG_OK && k < count; k++) {
        double nm = spectrum->samples.wavelength_nm[k];
        ifig_analyser_field(&scene->instrument, &straight, nm, spectrum->out[k]);
        status = ifig_pile_ready(layer, rotation, is_brazil, scene->instrument.immersion_index, nm,
                                 &spectrum->pile[k], error);
    }
    return status;
}

/* X, Y, Z of a line of sight. */
static void light_through(const Spectrum *spectrum, const IfigSlab *slab, size_t count,
                          double xyz[3])
{
    memset(xyz, 0, 3 * sizeof *xyz);
    for (size_t k = 0; k < spectrum->samples.count; k++) {
        double complex field[2] = {spectrum->in[0], spectrum->in[1]};
        ifig_pile_pass(&spectrum->pile[k], slab, count, field);
        const double complex *out = spectrum->out[k];
        double complex through = conj(out[0]) * field[0] + conj(out[1]) * field[1];
        double light = creal(through) * creal(through) + cimag(through) * cimag(through);
        for (int c = 0; c < 3; c++) {
            xyz[c] += spectrum->samples.weight[k][c] * light;
        }
    }
}

static void fill_set(const Spectrum *spectrum, size_t set, IfigStrips *strips)
{
    double(*sum)[3] = strips->sum[set];
    for (size_t i = 0; i < strips->count; i++) {
        IfigSlab slab[IFIG_SLABS_MOST];
        double xyz[3], along = strips->first_mm + ((double)i + 0.5) * strips->step_mm;
        size_t count = ifig_slabs_at(&strips->slabs, set, along, slab);
        light_through(spectrum, slab, count, xyz);
        for (int c = 0; c < 3; c++) {
            sum[i + 1][c] = sum[i][c] + xyz[c];
        }
    }
}

/* Steps enough for the pixels, and for the fringes within one: where lamellae wedge out, the
 * retardation changes fast. */
static double steps_of(const Spectrum *spectrum, const IfigSlabs *slabs, double retardation_nm,
                       double length_mm, uint32_t pixels)
{
    int is_sharp = slabs->rise * slabs->thickness_mm < 0.1 * slabs->pitch_mm;
    double wanted = (double)pixels * (is_sharp ? SHARP_STEPS : SMOOTH_STEPS);
    if (!is_sharp) {
        double slope = retardation_nm / (slabs->thickness_mm * slabs->rise); /* nm a mm */
        wanted = fmax(wanted, slope * length_mm / STILL_NM);
    }
    double most = fmin(MOST_STEPS, MOST_SUMS / (double)spectrum->samples.count);
    return floor(fmin(fmax(wanted, LEAST_STEPS), fmax(most, LEAST_STEPS)));
}

/* Room for the sums: across the whole face, and a pixel more. */
static IfigStatus make_room(const Spectrum *spectrum, double retardation_nm, uint32_t pixels,
                            IfigStrips *strips, IfigError *error)
{
    const IfigSlabs *slabs = &strips->slabs;
    double reach = fmax(slabs->slope, 1e-9) * slabs->half_width_mm * (1.0 + 4.0 / pixels);
    strips->first_mm = slabs->is_brazil ? -reach * 4.0 / pixels : -reach;
    double length = reach - strips->first_mm;
    double steps = steps_of(spectrum, slabs, retardation_nm, length, pixels);
    strips->count = (size_t)steps;
    strips->step_mm = length / steps;
    for (int set = 0; set < (slabs->is_brazil ? IFIG_SLAB_SETS - 1 : 1); set++) {
        strips->sum[set] = calloc(strips->count + 1, sizeof *strips->sum[set]);
        if (strips->sum[set] == NULL) {
            return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for the colours of lamellae");
        }
    }
    return IFIG_OK;
}

IfigStatus ifig_strips_create(const IfigScene *scene, const IfigTexture *texture, uint32_t pixels,
                              IfigStrips *strips, IfigError *error)
{
    const IfigLayer *layer = &scene->layers[0];
    Spectrum spectrum = {.pile = NULL};
    double rotation[3][3];
    IfigStatus status =
        ifig_orientation_matrix(layer->species, &layer->orientation, rotation, error);
    if (status == IFIG_OK) {
        ifig_slabs_ready(scene, texture, (const double(*)[3])rotation, &strips->slabs);
        status = spectrum_create(scene, strips->slabs.is_brazil, &spectrum, error);
    }
    if (status == IFIG_OK) {
        double retardation = greatest_retardation(layer, strips->slabs.is_brazil);
        status = make_room(&spectrum, retardation, pixels, strips, error);
    }
    if (status == IFIG_OK) {
        const IfigSlab whole = {0, layer->thickness_mm};
        light_through(&spectrum, &whole, 1, strips->alone);
        for (size_t set = 0; set < IFIG_SLAB_SETS; set++) {
            if (strips->sum[set] != NULL) {
                fill_set(&spectrum, set, strips);
            }
        }
    }
    spectrum_free(&spectrum);
    return status;
}

void ifig_strips_free(IfigStrips *strips)
{
    for (int set = 0; set < IFIG_SLAB_SETS; set++) {
        free(strips->sum[set]);
        strips->sum[set] = NULL;
    }
}

/* A running sum between its rows. */
static double sum_at(const IfigStrips *strips, size_t set, double place, int c)
{
    double held = fmin(fmax(place, 0.0), (double)strips->count);
    size_t low = (size_t)held < strips->count ? (size_t)held : strips->count - 1;
    const double(*sum)[3] = (const double(*)[3])strips->sum[set];
    return sum[low][c] + (held - (double)low) * (sum[low + 1][c] - sum[low][c]);
}

/* The mean over a stretch, in steps. */
static void mean_between(const IfigStrips *strips, size_t set, double middle, double length,
                         double weight, double xyz[3])
{
    double half = 0.5 * fmax(length, 1.0);
    double from = fmax(middle - half, 0.0), to = fmin(middle + half, (double)strips->count);
    for (int c = 0; c < 3; c++) {
        xyz[c] +=
            weight * (sum_at(strips, set, to, c) - sum_at(strips, set, from, c)) / (to - from);
    }
}

/* The mean over a square about a place. Seen along the slope, a square is a stretch as long as its
 * one side, blurred by the other. */
static void light_at(const IfigStrips *strips, double x, double y, double side, double xyz[3])
{
    enum { BLURRED = 6 };
    IfigSlabPlace place = ifig_slabs_place(&strips->slabs, x, y);
    if (strips->sum[place.set] == NULL) {
        memcpy(xyz, strips->alone, 3 * sizeof *xyz);
        return;
    }
    double middle = (place.along_mm - strips->first_mm) / strips->step_mm;
    double steps = side * strips->slabs.half_width_mm / strips->step_mm;
    double one = steps * fabs(place.slope_x), other = steps * fabs(place.slope_y);
    double length = fmax(one, other), blur = fmin(one, other);
    memset(xyz, 0, 3 * sizeof *xyz);
    for (int i = 0; i < BLURRED; i++) {
        double shift = ((i + 0.5) / BLURRED - 0.5) * blur;
        mean_between(strips, place.set, middle + shift, length, 1.0 / BLURRED, xyz);
    }
}

void ifig_strips_light(const IfigStrips *strips, double x, double y, double side, double xyz[3])
{
    enum { FINER = 4 };
    if (ifig_slabs_margin(&strips->slabs, x, y) > side) {
        light_at(strips, x, y, side, xyz);
        return;
    }
    /* Where sets meet: the mean of finer places. */
    memset(xyz, 0, 3 * sizeof *xyz);
    for (int i = 0; i < FINER * FINER; i++) {
        double part[3], right = ((i % FINER + 0.5) / FINER - 0.5) * side;
        double up = ((i / FINER + 0.5) / FINER - 0.5) * side;
        light_at(strips, x + right, y + up, side / FINER, part);
        for (int c = 0; c < 3; c++) {
            xyz[c] += part[c] / (FINER * FINER);
        }
    }
}
