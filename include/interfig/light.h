/* SPDX-License-Identifier: MIT */
/** @file
 * Room 5, light: from a lamp and a transmitted spectrum to a colour on a screen.
 *
 * Spectrum x CIE 1931 2 degree observer -> XYZ (white of the bare lamp has Y = 1) -> the eye adapts
 * to the lamp (Bradford) -> linear sRGB (IEC 61966-2-1, white D65) -> gamut mapping that keeps
 * luminance and dominant wavelength -> 8 or 16 bit.
 *
 * A lamp whose own colour lies outside sRGB (sodium, any single line) is too saturated for the eye
 * to adapt to: its figures are shown in the lamp's own colour, drawn into the gamut, and full
 * transmittance is the brightest such colour a screen can show.
 *
 * Threads: a lamp is immutable once made; any number of threads may read it.
 */
#ifndef INTERFIG_LIGHT_H
#define INTERFIG_LIGHT_H

#include "interfig/status.h"

IFIG_C_BEGIN

/** Lamps with a published spectrum (CIE 015:2018). */
typedef enum IfigLampKind {
    IFIG_LAMP_DAYLIGHT = 0, /**< D65 */
    IFIG_LAMP_TUNGSTEN,     /**< A */
    IFIG_LAMP_LED,          /**< LED-B3, white */
    IFIG_LAMP_FLUORESCENT   /**< FL11 */
} IfigLampKind;

/** A lamp; opaque, immutable. */
typedef struct IfigLamp IfigLamp;

/** Make a lamp of a published spectrum. Free with ifig_lamp_free.
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_MEMORY */
IFIG_API IfigStatus ifig_lamp_create(IfigLampKind kind, IfigLamp **lamp, IfigError *error);
/** Make a lamp of a single line. Free with ifig_lamp_free.
 *  @param wavelength_nm  380 to 780 (sodium: 589.3)
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE, IFIG_ERROR_MEMORY */
IFIG_API IfigStatus ifig_lamp_create_line(double wavelength_nm, IfigLamp **lamp, IfigError *error);
/** Make a lamp from a measured spectrum: relative power at `count` rising wavelengths, linear
 * between them, nothing outside; both lists are copied. Free with ifig_lamp_free. At least two
 * values, none negative or non-finite, wavelengths within 1 to 100000 nm, some power between 380
 * and 780 nm.
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_SYNTAX (the message names the entry, counted
 *          from 1, and what is wrong with it), IFIG_ERROR_MEMORY */
IFIG_API IfigStatus ifig_lamp_create_spectrum(const double *wavelength_nm, const double *power,
                                              size_t count, IfigLamp **lamp, IfigError *error);
/** Free a lamp. NULL is allowed. */
IFIG_API void ifig_lamp_free(IfigLamp *lamp);
/** Relative spectral power at wavelength_nm, linear between the table's values; 0 outside it, and
 * for a lamp of a single line, and for NULL, 0 everywhere. */
IFIG_API double ifig_lamp_power(const IfigLamp *lamp, double wavelength_nm);
/** The wavelength of a lamp of a single line, nm; 0 for every other lamp, and for NULL. */
IFIG_API double ifig_lamp_line_nm(const IfigLamp *lamp);
/** XYZ of the bare lamp, Y = 1.
 *  @param[out] xyz  NaN for a lamp that is NULL */
IFIG_API void ifig_lamp_white(const IfigLamp *lamp, double xyz[3]);

/** CIE 1931 2 degree colour matching functions at a wavelength, linear between the 1 nm values
 *  (CIE 015:2018).
 *  @param wavelength_nm  any
 *  @param[out] xyz       0 outside 360 to 830 nm */
IFIG_API void ifig_colour_matching(double wavelength_nm, double xyz[3]);
/** Linear sRGB as the adapted eye sees XYZ under a lamp, before gamut mapping: Bradford adaptation
 *  from the lamp's white to D65 (Lam 1985; the matrix of ICC.1:2022 annex E), then IEC 61966-2-1.
 *  The lamp's own white becomes (1, 1, 1), or the lamp's own colour where it is too saturated.
 *  @param exposure_stops  brightness doubles with each stop
 *  @param[out] rgb        NaN where lamp or xyz is NULL */
IFIG_API void ifig_colour_linear(const IfigLamp *lamp, const double xyz[3], double exposure_stops,
                                 double rgb[3]);
/** Bring linear sRGB into 0..1: toward the grey of the same luminance, no further than needed;
 *  a luminance above 1 becomes white, below 0 black, and so does what is not a number.
 *  @param[in,out] rgb  NULL: nothing is done */
IFIG_API void ifig_colour_into_gamut(double rgb[3]);
/** The sRGB encoding of a linear value (IEC 61966-2-1), 0..1 to 0..1; clamped outside. */
IFIG_API double ifig_srgb_encode(double linear);
/** The inverse of ifig_srgb_encode: encoded 0..1 to linear 0..1; clamped outside. */
IFIG_API double ifig_srgb_decode(double encoded);

IFIG_C_END

#endif
