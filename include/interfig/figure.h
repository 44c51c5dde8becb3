/* SPDX-License-Identifier: MIT */
/** @file
 * Room 6, figure: the picture that the eye sees over the lens, and the numbers at one of its
 * points.
 *
 * Exact optics at every point (ifig_plate_wave), summed over the lamp's whole spectrum and over the
 * area of each pixel: a thick stone fades to white of higher order, without false colours.
 *
 * Threads: a figure is immutable once made and may be rendered from by many threads at once.
 */
#ifndef INTERFIG_FIGURE_H
#define INTERFIG_FIGURE_H

#include <stdint.h>

#include "interfig/instrument.h"
#include "interfig/light.h"
#include "interfig/wave.h"

IFIG_C_BEGIN

/** Everything a figure is made from. Borrowed: layers, their species and the lamp must outlive what
 *  is made from them. Initialise with IFIG_SCENE_INIT. */
typedef struct IfigScene {
    size_t size;               /**< sizeof(IfigScene) */
    const IfigLayer *layers;   /**< light enters the first */
    size_t layer_count;        /**< 1 to IFIG_LAYERS_MAX */
    IfigInstrument instrument; /**< lens, field and polars */
    const IfigLamp *lamp;      /**< what shines through */
} IfigScene;

/** A sphere on the stone, crossed polars; layers and lamp are still to be given. */
#define IFIG_SCENE_INIT                                                                            \
    {                                                                                              \
        .size = sizeof(IfigScene), .instrument = IFIG_INSTRUMENT_INIT                              \
    }

/** What a pixel is written as. Rows stand top first, without gaps, three values a pixel. */
typedef enum IfigPixelFormat {
    IFIG_PIXELS_SRGB8 = 0, /**< uint8_t R, G, B */
    IFIG_PIXELS_SRGB16,    /**< uint16_t R, G, B */
    IFIG_PIXELS_XYZ        /**< float X, Y, Z under the lamp; stone-free parallel polars: Y = 1 */
} IfigPixelFormat;

/** Called now and then with the share done, 0 to 1; a return of 0 cancels. May come from any of the
 *  rendering threads, one at a time. */
typedef int (*IfigProgress)(double share, void *context);

/** How a figure is rendered. Initialise with IFIG_FIGURE_OPTIONS_INIT. */
typedef struct IfigFigureOptions {
    size_t size;           /**< sizeof(IfigFigureOptions) */
    uint32_t pixels;       /**< width and height, 1 to 65535; the disc is inscribed */
    double exposure_stops; /**< brightness doubles with each, -20 to 20; XYZ is left as it is */
    int threads; /**< 1 to 256; 0: one for each processor. The pixels never depend on it */
    IfigProgress progress;  /**< may be NULL */
    void *progress_context; /**< handed to progress as it is */
} IfigFigureOptions;

/** 1024 pixels, exposure 0, a thread for each processor. */
#define IFIG_FIGURE_OPTIONS_INIT                                                                   \
    {                                                                                              \
        .size = sizeof(IfigFigureOptions), .pixels = 1024                                          \
    }

/** A figure made ready; opaque. */
typedef struct IfigFigure IfigFigure;

/** Check a scene and make a figure ready. Free it with ifig_figure_free.
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE, IFIG_ERROR_UNSUITABLE, IFIG_ERROR_MEMORY
 */
IFIG_API IfigStatus ifig_figure_create(const IfigScene *scene, const IfigFigureOptions *options,
                                       IfigFigure **figure, IfigError *error);
/** Free a figure. NULL is allowed. */
IFIG_API void ifig_figure_free(IfigFigure *figure);
/** A picture is computed in squares of this many rows and columns, counted from its top left
 *  corner; ask for whole ones, and nothing is computed twice. 0 for NULL. */
IFIG_API uint32_t ifig_figure_band_rows(const IfigFigure *figure);
/** Render rows first_row to first_row + row_count - 1, counted from the top.
 *  @param[out] pixels  row_count x size x 3 values of the format; after a failure some may be
 * written
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE, IFIG_ERROR_MEMORY, IFIG_ERROR_CANCELLED
 */
IFIG_API IfigStatus ifig_figure_render(const IfigFigure *figure, IfigPixelFormat format,
                                       uint32_t first_row, uint32_t row_count, void *pixels,
                                       IfigError *error);

/** Part of a picture, in pixels from its top left corner. */
typedef struct IfigRectangle {
    uint32_t left;   /**< its first column */
    uint32_t top;    /**< its first row */
    uint32_t width;  /**< 1 to what the picture has from there */
    uint32_t height; /**< the same */
} IfigRectangle;

/** Render a rectangle of the picture: the bytes that the whole picture has there, however it is
 * cut. For windows that show what is done, begin in the middle, or draw only what has come into
 * view. Progress tells the share of the rectangle.
 *  @param[out] pixels  height x width x 3 values of the format, without gaps; after a failure some
 *                      may be written
 *  @return as ifig_figure_render */
IFIG_API IfigStatus ifig_figure_render_rectangle(const IfigFigure *figure, IfigPixelFormat format,
                                                 const IfigRectangle *rectangle, void *pixels,
                                                 IfigError *error);

/** The numbers at one direction. */
typedef struct IfigProbe {
    double wavelength_nm; /**< of the wave below */
    IfigPlateWave wave;   /**< Jones matrix and retardation at that wavelength */
    double transmittance; /**< share of the light behind the polariser that leaves the analyser */
    int has_colour;       /**< 1 where the lamp's colour was asked for */
    double xyz[3];        /**< under the lamp; stone-free parallel polars: Y = 1 */
    double srgb[3];       /**< encoded, 0 to 1, as the picture shows it at exposure 0 */
} IfigProbe;

/** Compute the numbers at one direction from exact waves alone, each wavelength by itself: the
 *  definition that the picture is held to.
 *  @param theta_deg      of the ray in the outside medium, 0 to below 90
 *  @param phi_deg        its azimuth, -3600 to 3600
 *  @param wavelength_nm  380 to 780; 0: 589.3 (or the lamp's single line), and the colour under the
 *                        lamp as well
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE, IFIG_ERROR_UNSUITABLE, IFIG_ERROR_MEMORY
 */
IFIG_API IfigStatus ifig_probe(const IfigScene *scene, double theta_deg, double phi_deg,
                               double wavelength_nm, IfigProbe *probe, IfigError *error);

IFIG_C_END

#endif
