/* SPDX-License-Identifier: MIT */
/* Interference colours against retardation. */
#include "interfig/retardation.h"

#include "base.h"
#include "fringe_math.h"
#include "reading.h"

#include <math.h>
#include <stdlib.h>

/* As in reading.c: the sensitive tint, which ends the first order on charts. */
static const double ORDER_NM = 551.0;
static const double LINE_C_NM = 656.3, LINE_D_NM = 589.3, LINE_F_NM = 486.1;
/* Less than any stone has: 0.01 nm of retardation a millimetre. */
static const double NO_BIREFRINGENCE = 1e-8;

IfigStatus ifig_retarder_birefringence(const IfigRetarder *retarder, double wavelength_nm,
                                       double *birefringence, IfigError *error)
{
    double n[3];
    if (retarder == NULL || retarder->species == NULL || birefringence == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_retarder_birefringence needs a species and room for the answer");
    }
    const IfigStatus status = ifig_species_indices(retarder->species, wavelength_nm, n, error);
    if (status != IFIG_OK) {
        return status;
    }
    switch (retarder->section) {
    case IFIG_VIEW_X:
        *birefringence = n[2] - n[1];
        break;
    case IFIG_VIEW_Z:
        *birefringence = n[1] - n[0];
        break;
    case IFIG_VIEW_DEFAULT:
    case IFIG_VIEW_Y:
        *birefringence = n[2] - n[0];
        break;
    default:
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the section of a plate on a chart is across X, Y or Z; give IFIG_VIEW_X, "
                         "IFIG_VIEW_Y or IFIG_VIEW_Z");
    }
    return IFIG_OK;
}

int ifig_retarder_is_dispersed(const IfigRetarder *retarder)
{
    const double seen = 1e-3;
    double d, f, c;
    return ifig_retarder_birefringence(retarder, LINE_D_NM, &d, NULL) == IFIG_OK &&
           ifig_retarder_birefringence(retarder, LINE_F_NM, &f, NULL) == IFIG_OK &&
           ifig_retarder_birefringence(retarder, LINE_C_NM, &c, NULL) == IFIG_OK &&
           fabs(d) > NO_BIREFRINGENCE && fabs(f - c) > seen * fabs(d);
}

double ifig_order_nm(const IfigLamp *lamp)
{
    const double line = lamp != NULL ? ifig_lamp_line_nm(lamp) : 0.0;
    return line > 0.0 ? line : ORDER_NM;
}

/* The spectrum of a lamp behind a plate: turns of phase at each sample for each nanometre of
 * retardation at 589.3 nm, and how they change to the next sample. */
typedef struct Spectrum {
    IfigSpectrumSamples samples;
    double *turns, *step;
} Spectrum;

static IfigStatus share_of_d(const IfigRetarder *retarder, double wavelength_nm, double *share,
                             IfigError *error)
{
    double here, at_d;
    *share = 1.0;
    if (retarder == NULL || retarder->species == NULL) {
        return IFIG_OK;
    }
    IfigStatus status = ifig_retarder_birefringence(retarder, wavelength_nm, &here, error);
    if (status == IFIG_OK) {
        status = ifig_retarder_birefringence(retarder, LINE_D_NM, &at_d, error);
    }
    if (status == IFIG_OK && fabs(at_d) <= NO_BIREFRINGENCE) {
        status = ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                           "%s shows no birefringence in this section, so it has no interference "
                           "colours; choose another section or a doubly refractive stone",
                           ifig_species_text(retarder->species, IFIG_TEXT_KEY));
    }
    *share = status == IFIG_OK ? here / at_d : 1.0;
    return status;
}

static IfigStatus open_spectrum(const IfigLamp *lamp, const IfigRetarder *retarder,
                                Spectrum *spectrum, IfigError *error)
{
    IfigStatus status = ifig_lamp_samples(lamp, &spectrum->samples, error);
    const size_t count = status == IFIG_OK ? spectrum->samples.count : 0;
    spectrum->turns = calloc(count + 1, sizeof *spectrum->turns);
    spectrum->step = calloc(count + 1, sizeof *spectrum->step);
    if (status == IFIG_OK && (spectrum->turns == NULL || spectrum->step == NULL)) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for the colours of a chart");
    }
    for (size_t k = 0; k < count && status == IFIG_OK; k++) {
        const double wavelength = spectrum->samples.wavelength_nm[k];
        double share;
        status = share_of_d(retarder, wavelength, &share, error);
        spectrum->turns[k] = share / wavelength;
    }
    for (size_t k = 0; k < count && count > 1; k++) {
        const size_t from = k > 0 ? k - 1 : 0, to = k + 1 < count ? k + 1 : k;
        spectrum->step[k] = (spectrum->turns[to] - spectrum->turns[from]) / (double)(to - from);
    }
    return status;
}

static void close_spectrum(Spectrum *spectrum)
{
    ifig_spectrum_samples_free(&spectrum->samples);
    free(spectrum->turns);
    free(spectrum->step);
}

/* cos of the phase, what its change within a sample's step leaves of it. */
static double fringe(const Spectrum *spectrum, size_t k, double retardation_nm)
{
    const double step = spectrum->step[k] * retardation_nm;
    const double left = spectrum->samples.kernel == IFIG_KERNEL_NONE
                            ? 1.0
                            : ifig_spline_of_sinc(ifig_sinc_turns(step), step);
    return left * cos(2.0 * IFIG_PI * spectrum->turns[k] * retardation_nm);
}

static void find_colour(const IfigLamp *lamp, const Spectrum *spectrum, double sign,
                        IfigRetardationColour *colour)
{
    double rgb[3];
    for (int i = 0; i < 3; i++) {
        colour->xyz[i] = 0.0;
    }
    for (size_t k = 0; k < spectrum->samples.count; k++) {
        const double light = 0.5 * (1.0 + sign * fringe(spectrum, k, colour->retardation_nm));
        for (int i = 0; i < 3; i++) {
            colour->xyz[i] += spectrum->samples.weight[k][i] * light;
        }
    }
    ifig_colour_linear(lamp, colour->xyz, 0.0, rgb);
    ifig_colour_into_gamut(rgb);
    for (int i = 0; i < 3; i++) {
        colour->srgb[i] = ifig_srgb_encode(rgb[i]);
    }
    colour->colour = ifig_colour_of(colour->srgb, colour->retardation_nm);
}

static IfigStatus check(const IfigLamp *lamp, IfigPolarsKind polars, const double *retardation_nm,
                        size_t count, IfigError *error)
{
    IfigStatus status = IFIG_OK;
    if (lamp == NULL || retardation_nm == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_retardation_colours needs a lamp, retardations and room for the "
                         "colours");
    }
    if (polars != IFIG_POLARS_CROSSED && polars != IFIG_POLARS_PARALLEL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the polars of a chart are crossed or parallel; give IFIG_POLARS_CROSSED "
                         "or IFIG_POLARS_PARALLEL");
    }
    for (size_t i = 0; i < count && status == IFIG_OK; i++) {
        status = ifig_check_range("a retardation", retardation_nm[i], 0.0, 1e5, "nm", error);
    }
    return status;
}

IfigStatus ifig_retardation_colours(const IfigLamp *lamp, IfigPolarsKind polars,
                                    const IfigRetarder *retarder, const double *retardation_nm,
                                    size_t count, IfigRetardationColour *colours, IfigError *error)
{
    Spectrum spectrum = {.turns = NULL};
    const double sign = polars == IFIG_POLARS_CROSSED ? -1.0 : 1.0;
    IfigStatus status = check(lamp, polars, retardation_nm, count, error);
    if (status == IFIG_OK && colours == NULL) {
        status = ifig_fail(error, IFIG_ERROR_ARGUMENT,
                           "ifig_retardation_colours was given no room for the colours");
    }
    if (status == IFIG_OK) {
        status = open_spectrum(lamp, retarder, &spectrum, error);
    }
    for (size_t i = 0; i < count && status == IFIG_OK; i++) {
        colours[i].retardation_nm = retardation_nm[i];
        find_colour(lamp, &spectrum, sign, &colours[i]);
    }
    close_spectrum(&spectrum);
    return status;
}
