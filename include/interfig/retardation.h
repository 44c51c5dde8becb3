/* SPDX-License-Identifier: MIT */
/** @file
 * Room 7, reading: interference colours against retardation, as a chart has them.
 *
 * A plate stands at 45 degrees between linear polars, in parallel light: crossed polars pass
 * sin^2(pi G / lambda), parallel ones the rest. On the usual chart the retardation G is alike at
 * all wavelengths (Sorensen, Eur. J. Mineral. 25, 5 (2013)). A stone's own colours differ from the
 * chart's where its birefringence changes with wavelength: G(lambda) = d [n_slow - n_fast](lambda).
 *
 * Threads: every call may be made by any number of threads at once.
 */
#ifndef INTERFIG_RETARDATION_H
#define INTERFIG_RETARDATION_H

#include "interfig/crystal.h"
#include "interfig/reading.h"

IFIG_C_BEGIN

/** A plate, as far as its retardation depends on wavelength. */
typedef struct IfigRetarder {
    const IfigSpecies *species; /**< NULL: retardation alike at all wavelengths */
    IfigView section; /**< the line of sight: IFIG_VIEW_X, _Y or _Z; IFIG_VIEW_DEFAULT is Y, along
                           which the whole birefringence shows. The small turn of a monoclinic
                           stone's axes with wavelength is left out */
} IfigRetarder;

/** A colour between polars. */
typedef struct IfigRetardationColour {
    double retardation_nm; /**< at 589.3 nm */
    double xyz[3];         /**< under the lamp; stone-free parallel polars: Y = 1 */
    double srgb[3];        /**< encoded, 0 to 1 */
    IfigColour colour;     /**< in words: ifig_colour_text */
} IfigRetardationColour;

/** How much light vibrating along the one direction of a section is slower than along the other:
 *  n_Z - n_Y (section X), n_Z - n_X (Y) or n_Y - n_X (Z). Negative where the two have changed
 *  places, as in brookite's section Z in blue light.
 *  @param wavelength_nm  360 to 830
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT (no species), IFIG_ERROR_RANGE */
IFIG_API IfigStatus ifig_retarder_birefringence(const IfigRetarder *retarder, double wavelength_nm,
                                                double *birefringence, IfigError *error);
/** 1 where the catalogue knows that the retardation changes with wavelength, by more than a
 *  thousandth of itself from 486.1 to 656.3 nm; 0 also for what shows no birefringence, and for
 *  NULL. */
IFIG_API int ifig_retarder_is_dispersed(const IfigRetarder *retarder);
/** Where the first order ends: 551 nm, the sensitive tint; under a lamp of a single line its
 *  wavelength, at which crossed polars are dark again. 551 for NULL. */
IFIG_API double ifig_order_nm(const IfigLamp *lamp);
/** The colours of retardations, summed over the lamp's whole spectrum.
 *  @param polars          IFIG_POLARS_CROSSED or IFIG_POLARS_PARALLEL
 *  @param retarder        NULL: retardation alike at all wavelengths
 *  @param retardation_nm  `count` values at 589.3 nm, each 0 to 100000
 *  @param[out] colours    room for `count`
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE, IFIG_ERROR_UNSUITABLE (the section shows
 *          no birefringence at 589.3 nm), IFIG_ERROR_MEMORY */
IFIG_API IfigStatus ifig_retardation_colours(const IfigLamp *lamp, IfigPolarsKind polars,
                                             const IfigRetarder *retarder,
                                             const double *retardation_nm, size_t count,
                                             IfigRetardationColour *colours, IfigError *error);

IFIG_C_END

#endif
