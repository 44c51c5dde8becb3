/* SPDX-License-Identifier: MIT */
/** @file
 * Room 8, polariscope: the stone without the lens. What it shows while it is turned in parallel
 * light, what its face looks like, and where the patch of spectrum colours lies.
 *
 * The scene's instrument stands without a lens (IFIG_LENS_NONE): its field is the half angle of the
 * cone that enters the eye from one place of the stone. Brightness is the share, by the eye's own
 * sensitivity (Y), of the light behind the polariser that comes through the analyser: 1 is the
 * stone-free field between parallel polars.
 *
 * Threads: every call may be made by any number of threads at once.
 */
#ifndef INTERFIG_POLARISCOPE_H
#define INTERFIG_POLARISCOPE_H

#include "interfig/figure.h"

IFIG_C_BEGIN

/** The four reactions of the trade. */
typedef enum IfigReaction {
    IFIG_REACTION_SR = 0, /**< singly refractive: dark through the whole turn */
    IFIG_REACTION_DR,     /**< doubly refractive: dark four times a turn */
    IFIG_REACTION_AGG,    /**< aggregate: never dark */
    IFIG_REACTION_ADR     /**< anomalous: singly refractive, lit by strain */
} IfigReaction;

/** What the face as a whole does through a turn, whatever the stone is. */
typedef enum IfigAppearance {
    IFIG_LOOKS_DARK = 0,   /**< dark throughout */
    IFIG_LOOKS_FOUR_DARK,  /**< dark four times a turn, bright between */
    IFIG_LOOKS_NEVER_DARK, /**< lit all the way round */
    IFIG_LOOKS_PATCHY      /**< dark and light parts at once, that wander as the stone turns */
} IfigAppearance;

/** What runs through the stone. */
typedef enum IfigPattern {
    IFIG_PATTERN_USUAL = 0,   /**< plain; grains for an aggregate */
    IFIG_PATTERN_PLAIN,       /**< nothing: the same all over the face */
    IFIG_PATTERN_BANDS,       /**< strain in parallel bands */
    IFIG_PATTERN_CROSS_HATCH, /**< strain in two sets of bands that cross */
    IFIG_PATTERN_SNAKE,       /**< strain without order: dark snakes that wander */
    IFIG_PATTERN_INCLUSION,   /**< strain around a sphere that does not fit its place (Lame) */
    IFIG_PATTERN_TWINS,       /**< twin lamellae (corundum) */
    IFIG_PATTERN_BRAZIL,      /**< wedges of left in right quartz, across the optic axis */
    IFIG_PATTERN_GRAINS       /**< many small grains through the thickness */
} IfigPattern;

/** What runs through the stone, in numbers. Initialise with IFIG_TEXTURE_INIT. */
typedef struct IfigTexture {
    size_t size;         /**< sizeof(IfigTexture) */
    IfigPattern pattern; /**< IFIG_PATTERN_USUAL: what the stone usually has */
    double stress_mpa;   /**< greatest stress of a strain pattern, or the misfit pressure of an
                              inclusion, tension positive, -10000 to 10000; 0: none */
    double width_mm;     /**< of the face, 0.1 to 100 */
    double grain_mm;     /**< of an aggregate's grains, 0.001 to 10; 0: the species' own */
    unsigned seed;       /**< of what is random: the same seed gives the same stone */
} IfigTexture;

/** The usual pattern of the stone, without stress, on a face of 8 mm. */
#define IFIG_TEXTURE_INIT                                                                          \
    {                                                                                              \
        .size = sizeof(IfigTexture), .width_mm = 8.0, .seed = 1                                    \
    }

/** Turns at which the brightness is told: every degree. */
#define IFIG_BLINK_TURNS 360
/** How far the analyser is opened: every degree from crossed to parallel. */
#define IFIG_BLINK_OPENED 91
/** Turns at which the colour is told: 0, 22.5, 45, ... degrees. */
#define IFIG_BLINK_COLOURS 16
/** A face is called dark where it is no brighter than this share of the light that its stone lets
 * through between parallel polars at the same place; common practice, no source. */
#define IFIG_DARK_SHARE 0.02

/** A stone turned between the polars. */
typedef struct IfigBlink {
    size_t size;                         /**< sizeof(IfigBlink) */
    double brightness[IFIG_BLINK_TURNS]; /**< at the scene's stage + 0, 1, ... 359 degrees */
    double least;                        /**< of the turn */
    double most;                         /**< of the turn */
    double mean;                         /**< of the turn */
    double brightest_deg;                /**< the turn at which most is found */
    double darkest_deg;                  /**< the turn at which least is found */
    int extinctions_per_turn;            /**< dark places in a turn; 0 where dark throughout */
    double contrast;                     /**< (most - least) / (most + least); 0 without light */
    double opened[IFIG_BLINK_OPENED];    /**< at the brightest turn, analyser opened by 0 ... 90;
                                              NaN with circular polars, which cannot be opened */
    double opened_over_crossed;          /**< opened[90] / opened[0]; NaN where opened[0] is
                                              nothing (below 1e-7) */
    double colour_srgb[IFIG_BLINK_COLOURS][3]; /**< encoded, 0 to 1, the face as a whole */
    double retardation_nm;     /**< at 589.3 nm along the line of sight; of strain: greatest on
                                    the face; of grains: greatest of one grain */
    IfigAppearance appearance; /**< from the curve alone */
    IfigReaction reaction;     /**< of the stone: what the curve shows, set right where
                                    the stone is looked at along an optic axis */
    int is_along_optic_axis;   /**< 1: doubly refractive, and this line of sight hides
                                    it: turn the stone */
    int follows_opening_rule;  /**< 1: "opened, a doubly refractive stone stays or
                                    darkens, a strained one brightens" holds here */
} IfigBlink;

/** Room for a blink. */
#define IFIG_BLINK_INIT                                                                            \
    {                                                                                              \
        .size = sizeof(IfigBlink)                                                                  \
    }

/** Turn a stone through a whole turn between its polars, then open the analyser at the brightest
 *  turn. The analyser is opened from where it stands toward the polariser's azimuth.
 *  @param scene    lens: none; polars linear and crossed unless one wants to see otherwise
 *  @param texture  NULL: the usual one. A pattern looks at the mean over the face
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE, IFIG_ERROR_UNSUITABLE (a view or a
 *          pattern that the stone has not), IFIG_ERROR_MEMORY */
IFIG_API IfigStatus ifig_blink(const IfigScene *scene, const IfigTexture *texture, IfigBlink *blink,
                               IfigError *error);
/** "SR", "DR", "AGG", "ADR"; NULL for an unknown one. Static storage. */
IFIG_API const char *ifig_reaction_text(IfigReaction reaction);
/** A verdict in plain English, a sentence a line, each with its numbers.
 *  @param[out] text  room for `size` bytes; 4096 always suffice
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE (too little room) */
IFIG_API IfigStatus ifig_blink_describe(const IfigBlink *blink, char *text, size_t size,
                                        IfigError *error);

/** The light path through a strained stone at one place of its face. */
typedef struct IfigStressPath {
    double difference_mpa_mm; /**< of the two principal stresses across the path, summed along it;
                                   never negative */
    double azimuth_deg;       /**< of the greater (more tensile) one, at stage 0 */
} IfigStressPath;

/** The stress along the line of sight at a place of the face.
 *  Bands: sigma_yy = S cos(2 pi x / p); cross-hatch: two such sets; snake: a random Airy stress
 *  function; each in equilibrium without load. Inclusion: a sphere of a tenth of the face's width
 *  under pressure S in an endless solid (Lame): sigma_r = -S (a/r)^3, sigma_t = S/2 (a/r)^3.
 *  @param thickness_mm  of the stone, 0.001 to 100
 *  @param x,y           -1 to 1 across the face, at stage 0
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE (a place off the face) */
IFIG_API IfigStatus ifig_stress_path(const IfigTexture *texture, double thickness_mm, double x,
                                     double y, IfigStressPath *path, IfigError *error);

/** A face made ready; opaque, immutable. */
typedef struct IfigFace IfigFace;
/** Make the picture of a stone's face ready. The disc of the picture is the face; it turns with the
 *  scene's stage. Free it with ifig_face_free.
 *  @return as ifig_blink */
IFIG_API IfigStatus ifig_face_create(const IfigScene *scene, const IfigTexture *texture,
                                     const IfigFigureOptions *options, IfigFace **face,
                                     IfigError *error);
/** Free a face. NULL is allowed. */
IFIG_API void ifig_face_free(IfigFace *face);
/** Render rows first_row to first_row + row_count - 1 of the face.
 *  @param[out] pixels  as ifig_figure_render
 *  @return as ifig_figure_render */
IFIG_API IfigStatus ifig_face_render(const IfigFace *face, IfigPixelFormat format,
                                     uint32_t first_row, uint32_t row_count, void *pixels,
                                     IfigError *error);
/** Render a rectangle of the face.
 *  @param[out] pixels  as ifig_figure_render_rectangle
 *  @return as ifig_figure_render_rectangle */
IFIG_API IfigStatus ifig_face_render_rectangle(const IfigFace *face, IfigPixelFormat format,
                                               const IfigRectangle *rectangle, void *pixels,
                                               IfigError *error);

/** Retardation up to which the polariscope shows spectrum colours: four orders; beyond, white of
 *  higher order. */
#define IFIG_PATCH_RETARDATION_NM 2200.0
/** Thicknesses for which a patch is told. */
#define IFIG_HUNT_THICKNESSES 6
/** Ways of cutting the table that are told at most. */
#define IFIG_HUNT_CUTS 4

/** A way in which the stone is usually cut. */
typedef struct IfigTableCut {
    const char *name;        /**< "table across the c axis", always beginning with "table"; static
                                  storage */
    double direction[3];     /**< of the table's normal, in the stone's X, Y, Z; unit length */
    double nearest_axis_deg; /**< from the table's normal to the nearest optic axis, in the stone */
    double most_outside_deg; /**< how far to lean the stone in air for that axis to meet the eye,
                                  through the table (Snell's law with n_beta); NaN where it never
                                  leaves there: look through the side */
} IfigTableCut;

/** Where the patch lies. Initialise with IFIG_HUNT_INIT. */
typedef struct IfigHunt {
    size_t size;                                /**< sizeof(IfigHunt) */
    IfigOpticAxes axes;                         /**< at 589.3 nm */
    double thickness_mm[IFIG_HUNT_THICKNESSES]; /**< the scene's own first, then 0.5, 1, 2, 5, 10 */
    double patch_sr[IFIG_HUNT_THICKNESSES];    /**< solid angle, inside the stone, of the directions
                                                    with no more than IFIG_PATCH_RETARDATION_NM at
                                                    589.3 nm, both ends of each axis counted; 0 for
                                                    a singly refractive stone */
    double patch_share[IFIG_HUNT_THICKNESSES]; /**< of all directions, 0 to 1 */
    double patch_radius_deg[IFIG_HUNT_THICKNESSES]; /**< of a round patch of a quarter (biaxial) or
                                                 half (uniaxial) of that angle */
    double false_single[IFIG_HUNT_THICKNESSES]; /**< chance that a direction chosen at random stays
                                                 dark through a turn between crossed polars: at most
                                                 IFIG_DARK_SHARE of the light, under the lamp, at
                                                 its brightest turn; faces and body colour left
                                                 out. 0 to 1; 1 for a singly refractive stone that
                                                 does not rotate */
    size_t cut_count;                           /**< at most IFIG_HUNT_CUTS */
    IfigTableCut cut[IFIG_HUNT_CUTS];           /**< the usual cuts, the most usual first */
} IfigHunt;

/** Room for a hunt. */
#define IFIG_HUNT_INIT                                                                             \
    {                                                                                              \
        .size = sizeof(IfigHunt)                                                                   \
    }

/** Find where the patch lies, how large it is, and how easily a doubly refractive stone is taken
 *  for a single one. The stone is thought of as a ball: every direction has the same thickness, and
 *  light goes straight in and out. The polars count as linear and crossed, however they stand.
 * Usual cuts are common practice, from memory; a species without one of its own has two extremes.
 *  @param scene  one layer, without stress; how it lies does not matter
 *  @param[out] hunt  its size set
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE, IFIG_ERROR_UNSUITABLE (a stack, a stone
 *          under stress, an aggregate, an opaque stone), IFIG_ERROR_MEMORY */
IFIG_API IfigStatus ifig_hunt(const IfigScene *scene, IfigHunt *hunt, IfigError *error);
/** What to do, in plain English, a sentence a line.
 *  @param[out] text  room for `size` bytes; 4096 always suffice
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE (too little room) */
IFIG_API IfigStatus ifig_hunt_describe(const IfigHunt *hunt, char *text, size_t size,
                                       IfigError *error);
/** The map of all directions of view as a picture of pixels x pixels: the half sphere in Lambert's
 *  equal-area projection, the scene's view at the centre, each direction in the colour that the
 *  stone shows between crossed polars at that turn, one for all colours, at which it is brightest
 *  there. Losses at two faces, body colour, rotation and the dispersion of the axes are in it.
 *  @param scene  as ifig_hunt; its orientation, tilt and stage turn the map
 *  @param[out] rgb  options->pixels^2 x 3 bytes, sRGB, top row first
 *  @return as ifig_hunt, and IFIG_ERROR_CANCELLED */
IFIG_API IfigStatus ifig_hunt_map(const IfigScene *scene, const IfigFigureOptions *options,
                                  uint8_t *rgb, IfigError *error);
/** Where a direction of the stone stands on that map.
 *  @param direction  in the stone's X, Y, Z; its length does not matter, both ends count as one
 *  @param[out] x,y   rim 1; x to the right, y up
 *  @return as ifig_hunt */
IFIG_API IfigStatus ifig_hunt_place(const IfigScene *scene, const double direction[3], double *x,
                                    double *y, IfigError *error);

IFIG_C_END

#endif
