/* SPDX-License-Identifier: MIT */
/** @file
 * Room 7, reading: what a trained eye reads off a figure, in numbers and then in words.
 *
 * Everything is computed from the waves that make the picture, so a caption cannot contradict it.
 * Places follow from the optic axes at one wavelength: the lamp's single line, or 589.3 nm. An
 * accessory plate in the instrument is left out: a reading tells what such a plate would do. A body
 * colour takes part in the colours alone.
 *
 * A figure is evidence, not an identification.
 *
 * Threads: every call may be made by any number of threads at once.
 */
#ifndef INTERFIG_READING_H
#define INTERFIG_READING_H

#include "interfig/figure.h"

IFIG_C_BEGIN

/** Wavelengths at which 2V and 2E are told: 486.1 (F), 589.3 (D), 656.3 nm (C). */
enum { IFIG_READING_F = 0, IFIG_READING_D, IFIG_READING_C, IFIG_READING_LINES };
/** Dark rings told for each melatope. */
#define IFIG_READING_RINGS_MAX 8
/** Places where a brush may cut the rim. */
#define IFIG_READING_BRUSHES_MAX 16
/** Room that ifig_reading_describe needs at most. */
#define IFIG_READING_TEXT_MAX 4096

/** The sense in which the optic angle changes with colour. */
typedef enum IfigAxialDispersion {
    IFIG_AXIAL_DISPERSION_NONE = 0,       /**< less than 0.05 degrees from F to C */
    IFIG_AXIAL_DISPERSION_RED_LARGER,     /**< r > v */
    IFIG_AXIAL_DISPERSION_VIOLET_LARGER,  /**< r < v */
    IFIG_AXIAL_DISPERSION_CROSSED_PLANES, /**< the axes of F and of C lie in crossed planes */
    IFIG_AXIAL_DISPERSION_ABSENT          /**< not biaxial: there is no angle */
} IfigAxialDispersion;

/** How the polars stand. */
typedef enum IfigPolarsKind {
    IFIG_POLARS_CROSSED = 0,      /**< linear, 90 degrees apart */
    IFIG_POLARS_PARALLEL,         /**< linear, one direction */
    IFIG_POLARS_CROSSED_CIRCULAR, /**< one left, one right: dark without a stone */
    IFIG_POLARS_OTHER             /**< between these, or one linear and one circular */
} IfigPolarsKind;

/** What a full-wave plate with its slow direction NE-SW does to the retardation at a place. */
typedef enum IfigPlateEffect {
    IFIG_PLATE_EFFECT_NONE = 0, /**< neither: on a brush, outside the picture, singly refractive */
    IFIG_PLATE_RISES,           /**< slow on slow: grey becomes blue */
    IFIG_PLATE_FALLS            /**< slow on fast: grey becomes yellow */
} IfigPlateEffect;

/** The quadrants, in the order of azimuths. */
enum { IFIG_QUADRANT_NE = 0, IFIG_QUADRANT_NW, IFIG_QUADRANT_SW, IFIG_QUADRANT_SE };

/** The shape of the dark brushes. */
typedef enum IfigBrushShape {
    IFIG_BRUSH_NONE = 0, /**< no dark brush reaches the rim */
    IFIG_BRUSH_CROSS,    /**< a cross that is closed at the melatope, or between two */
    IFIG_BRUSH_TWO,      /**< two brushes, each through a melatope */
    IFIG_BRUSH_ONE,      /**< one brush, through the one melatope in the field */
    IFIG_BRUSH_ARMS      /**< dark arms whose melatopes lie outside the field */
} IfigBrushShape;

/** A fringe of colour beside a brush. */
typedef enum IfigFringe {
    IFIG_FRINGE_NONE = 0, /**< too little dispersion to be seen */
    IFIG_FRINGE_RED,      /**< reddish */
    IFIG_FRINGE_BLUE      /**< bluish */
} IfigFringe;

/** A colour in words: a hue and how it looks. Greys have a hue of their own. */
typedef enum IfigHue {
    IFIG_HUE_NEUTRAL = 0,  /**< tone: black, dark grey, grey, light grey, white */
    IFIG_HUE_RED,          /**< pale: pink */
    IFIG_HUE_ORANGE,       /**< dark: brown */
    IFIG_HUE_YELLOW,       /**< yellow */
    IFIG_HUE_YELLOW_GREEN, /**< yellow green */
    IFIG_HUE_GREEN,        /**< green */
    IFIG_HUE_BLUE_GREEN,   /**< blue green */
    IFIG_HUE_BLUE,         /**< blue */
    IFIG_HUE_VIOLET,       /**< violet */
    IFIG_HUE_PURPLE,       /**< purple */
    IFIG_HUE_COUNT         /**< how many there are */
} IfigHue;
/** How a colour looks beside its hue. */
typedef enum IfigTone {
    IFIG_TONE_FULL = 0,         /**< neutral: grey */
    IFIG_TONE_DARK,             /**< neutral: dark grey */
    IFIG_TONE_PALE,             /**< neutral: light grey */
    IFIG_TONE_GREYISH,          /**< neutral: black */
    IFIG_TONE_WHITISH,          /**< neutral: white */
    IFIG_TONE_HIGH_ORDER_WHITE, /**< neutral only: white of higher order */
    IFIG_TONE_COUNT             /**< how many there are */
} IfigTone;
/** A colour in words: ifig_colour_text puts them together. */
typedef struct IfigColour {
    IfigHue hue;   /**< which colour; neutral: none */
    IfigTone tone; /**< how dark, pale or dull */
} IfigColour;

/** Where an optic axis leaves the stone. NaN where there is no such value. */
typedef struct IfigMelatope {
    int leaves;              /**< 0: totally reflected at the face, no ray outside sees it */
    double theta_deg;        /**< in the outside medium; NaN where it does not leave */
    double phi_deg;          /**< azimuth of its tangential wave vector, -180 to 180 */
    double x;                /**< in the picture, rim 1; may lie beyond; NaN where none sees it */
    double y;                /**< as x */
    int in_field;            /**< within the rim */
    double beyond_field_deg; /**< how far outside the rim, degrees of theta; NaN inside */
    size_t ring_count;       /**< dark rings found outward of it, before the ray grazes the face */
    double ring_deg[IFIG_READING_RINGS_MAX]; /**< theta of each, nearest first */
    IfigFringe concave; /**< beside its brush with the axes at 45 degrees to the polars, on the
                             side away from the acute bisectrix */
    IfigFringe convex;  /**< the same, toward the acute bisectrix */
} IfigMelatope;

/** A figure read. Initialise with IFIG_READING_INIT. */
typedef struct IfigReading {
    size_t size;                          /**< sizeof(IfigReading) */
    IfigOpticCharacter character;         /**< at 589.3 nm */
    int optic_sign;                       /**< at 589.3 nm: +1, -1; 0: isotropic */
    int is_optically_active;              /**< 1 where the plane of vibration is rotated */
    double wavelength_nm;                 /**< of places, retardations and rings */
    double field_deg;                     /**< half angle of the rim in the outside medium */
    double immersion_index;               /**< of that medium */
    IfigPolarsKind polars;                /**< how they stand */
    int plate_left_out;                   /**< 1: the instrument holds a plate that was left out */
    double two_v_deg[IFIG_READING_LINES]; /**< acute angle; NaN where the stone is not biaxial */
    double two_e_deg[IFIG_READING_LINES]; /**< in the outside medium; NaN also where the axes cannot
                                               leave a plate across the acute bisectrix */
    IfigAxialDispersion dispersion;       /**< of the optic axes, F to C */
    IfigMonoclinicDispersion monoclinic;  /**< the species' own */
    size_t melatope_count;                /**< 0, 1 or 2 */
    IfigMelatope melatope[2];             /**< where the optic axes leave */
    double centre_retardation_nm;         /**< of light along the stone's normal */
    int centre_order;                     /**< 1: up to 551 nm, 2: up to 1102 nm, ... */
    double centre_srgb[3];                /**< encoded, 0 to 1 */
    IfigColour centre_colour;             /**< the same in words */
    double least_nm;                      /**< least retardation within the field */
    double most_nm;                       /**< greatest retardation within the field */
    double orders_in_field;               /**< (most - least) / wavelength */
    double brightest;                     /**< most light in the field by phase-averaged
                                               transmittance at wavelength_nm */
    IfigBrushShape brush_shape;           /**< of the dark brushes */
    size_t brush_count;                   /**< places where they cut the rim */
    double brush_azimuth_deg[IFIG_READING_BRUSHES_MAX]; /**< where brushes cut the rim, 0 to 360 */
    int bulls_eye;                 /**< rotation holds the arms off the centre: 1 */
    double eye_srgb[3];            /**< the light inside the bull's eye, encoded, 0 to 1 */
    IfigColour eye_colour;         /**< the same in words */
    IfigPlateEffect plate[4];      /**< by quadrant, next to the melatope or the centre */
    IfigPlateEffect plate_between; /**< midway between two melatopes in the field */
} IfigReading;

/** Ready for ifig_reading to fill. */
#define IFIG_READING_INIT                                                                          \
    {                                                                                              \
        .size = sizeof(IfigReading)                                                                \
    }

/** Read a figure.
 *  Melatopes: the wave normal along an optic axis has the tangential component n_beta (a_x, a_y) =
 *  n_outside sin(theta) (cos phi, sin phi). Rings: places outward on the line through the melatopes
 *  (uniaxial: on the diagonal between the arms nearest to outward) where the retardation is a whole
 *  number of wavelengths. Brushes: least transmittance, averaged over the phase between the two
 *  waves, around the rim.
 *  @param scene    one layer without stress; others are refused
 *  @param reading  its size set
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE, IFIG_ERROR_UNSUITABLE (a stack, a
 *          stone under stress, an aggregate, a view the stone has not), IFIG_ERROR_MEMORY */
IFIG_API IfigStatus ifig_reading(const IfigScene *scene, IfigReading *reading, IfigError *error);

/** A reading in plain English, each sentence or group of them a line that ends with a line feed.
 *  @param[out] text  room for `size` bytes; IFIG_READING_TEXT_MAX always suffices
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE (too little room) */
IFIG_API IfigStatus ifig_reading_describe(const IfigReading *reading, char *text, size_t size,
                                          IfigError *error);

/** A colour in words, from its CIELAB lightness, chroma and hue (CIE 015:2018, white D65).
 *  @param srgb  encoded, 0 to 1; NULL: IFIG_HUE_COUNT, which no colour has
 *  @param retardation_nm  beyond 2000 what is colourless is called white of higher order */
IFIG_API IfigColour ifig_colour_of(const double srgb[3], double retardation_nm);
/** The words for a colour, English: "pale yellow". Static storage; NULL for an unknown one. */
IFIG_API const char *ifig_colour_text(IfigColour colour);
/** "r>v", "r<v", "none", "crossed planes"; NULL where there is no optic angle. Static storage. */
IFIG_API const char *ifig_axial_dispersion_text(IfigAxialDispersion dispersion);

IFIG_C_END

#endif
