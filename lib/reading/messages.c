/* SPDX-License-Identifier: MIT */
/* Every sentence and word of a reading, in English. Another language is another set of these
 * tables. */
#include "reading.h"

static const char *const MESSAGES[IFIG_SAY_COUNT] = {
    [IFIG_SAY_SINGLY_REFRACTIVE] = "Singly refractive: no optic axis, no sign.",
    [IFIG_SAY_SINGLY_DARK] = "No figure: dark at every turn of the stage, but for faint light near "
                             "the rim, with a cross in "
                             "it, that oblique faces let through.",
    [IFIG_SAY_SINGLY_LIT] = "No figure: the same light at every turn of the stage.",
    [IFIG_SAY_UNIAXIAL] = "Doubly refractive, uniaxial {1}: one optic axis.",
    [IFIG_SAY_BIAXIAL] = "Doubly refractive, biaxial {1}: two optic axes.",
    [IFIG_SAY_POSITIVE] = "positive",
    [IFIG_SAY_NEGATIVE] = "negative",
    [IFIG_SAY_PLATE_LEFT_OUT] = "The accessory plate is left out of this reading.",
    [IFIG_SAY_ANGLE_V] = "Angle between the axes inside the stone, 2V: {1} deg in blue (486.1 nm), "
                         "{2} deg in yellow (589.3 nm), {3} deg in red (656.3 nm).",
    [IFIG_SAY_ANGLE_E] = "Seen {4} along the acute bisectrix, 2E: {1}, {2} and {3} deg.",
    [IFIG_SAY_NO_ANGLE_E] = "Across the acute bisectrix the axes cannot leave the stone {1}: "
                            "2E does not exist.",
    [IFIG_SAY_IN_AIR] = "in air",
    [IFIG_SAY_IN_LIQUID] = "in the liquid",
    [IFIG_SAY_RED_LARGER] = "The angle is larger in red: r > v.",
    [IFIG_SAY_VIOLET_LARGER] = "The angle is larger in violet: r < v.",
    [IFIG_SAY_ALIKE] = "The angle is the same in all colours.",
    [IFIG_SAY_CROSSED_PLANES] = "The axes of blue lie in a plane across that of red: crossed axial "
                                "planes. With them at 45 deg "
                                "to the polars no brush is black in white light.",
    [IFIG_SAY_INCLINED] = "Inclined dispersion: the fringes are alike across the line of the "
                          "melatopes, but not at its two ends.",
    [IFIG_SAY_PARALLEL] =
        "Parallel dispersion: the fringes are alike at both melatopes, but not at "
        "the two sides of their line.",
    [IFIG_SAY_CROSSED] = "Crossed dispersion: the fringes are alike only after half a turn.",
    [IFIG_SAY_MELATOPE_CENTRE] = "A melatope stands at the centre of the picture.",
    [IFIG_SAY_MELATOPE_IN_FIELD] =
        "A melatope stands {1} deg from the centre toward azimuth {2} deg (x {3}, y {4}; rim 1).",
    [IFIG_SAY_MELATOPE_BEYOND] =
        "A melatope lies {1} deg outside the field, toward azimuth {2} deg.",
    [IFIG_SAY_MELATOPE_NOT_LEAVING] =
        "An optic axis toward azimuth {1} deg cannot leave the stone {2}: total reflection.",
    [IFIG_SAY_CENTRE] = "At the centre: {1}, order {2}, retardation {3} nm.",
    [IFIG_SAY_RINGS_DARK] =
        "Dark rings of {1} nm, outward from {2}, stand at {3} deg from the centre.",
    [IFIG_SAY_RINGS_BRIGHT] =
        "Between parallel polars rings of whole wavelengths are bright: of {1} nm, outward from "
        "{2}, at {3} deg from the centre.",
    [IFIG_SAY_RINGS_OTHER] =
        "Rings of whole wavelengths of {1} nm, outward from {2}, stand at {3} deg from the "
        "centre.",
    [IFIG_SAY_RINGS_BEYOND] = "No ring of {1} nm fits into the field outward from {2}.",
    [IFIG_SAY_THE_MELATOPE] = "the melatope",
    [IFIG_SAY_EACH_MELATOPE] = "each melatope",
    [IFIG_SAY_MELATOPE_AT] = "the melatope at azimuth {1} deg",
    [IFIG_SAY_ORDERS] = "The field spans {1} orders: retardation {2} to {3} nm.",
    [IFIG_SAY_BRUSH_CROSS] = "The dark brushes form a cross.",
    [IFIG_SAY_BRUSH_EYE] = "The arms of a dark cross end at the innermost ring.",
    [IFIG_SAY_BRUSH_TWO] = "Two dark brushes, each through a melatope.",
    [IFIG_SAY_BRUSH_ONE] = "One dark brush, through the melatope in the field.",
    [IFIG_SAY_BRUSH_ARMS] = "Dark arms without a melatope in the field.",
    [IFIG_SAY_BRUSH_NONE] = "No dark brush reaches the rim.",
    [IFIG_SAY_BRUSH_POLARS] = "Between these polars no brush is dark.",
    [IFIG_SAY_BRUSH_RIM] = "They cut the rim at {1} deg.",
    [IFIG_SAY_FRINGES] =
        "With the melatopes at 45 deg to the polars, the brush through the melatope "
        "now at azimuth {1} deg is {2} on its concave side and {3} on its convex "
        "side, the one toward the acute bisectrix.",
    [IFIG_SAY_FRINGES_ALIKE] = "With the melatopes at 45 deg to the polars, each brush is {2} on "
                               "its concave side and {3} on "
                               "its convex side, the one toward the acute bisectrix.",
    [IFIG_SAY_NO_FRINGES] = "No fringe of colour along the brushes.",
    [IFIG_SAY_RED] = "red",
    [IFIG_SAY_BLUE] = "blue",
    [IFIG_SAY_EYE] = "Bull's eye: optical rotation lights the centre, {1}.",
    [IFIG_SAY_PLATE] =
        "A full-wave plate with its slow direction NE-SW: {1}. Where retardation rises, "
        "grey becomes blue and rings move inward; where it falls, yellow and outward.",
    [IFIG_SAY_PLATE_BETWEEN] = "Between the melatopes it {1}.",
    [IFIG_SAY_PLATE_QUADRANT] = "{1} {2}",
    [IFIG_SAY_NE] = "NE",
    [IFIG_SAY_NW] = "NW",
    [IFIG_SAY_SW] = "SW",
    [IFIG_SAY_SE] = "SE",
    [IFIG_SAY_RISES] = "rises",
    [IFIG_SAY_FALLS] = "falls",
    [IFIG_SAY_STAYS] = "neither",
    [IFIG_SAY_NO_NUMBER] = "none",
    [IFIG_SAY_LIST_COMMA] = ", ",
    [IFIG_SAY_LIST_AND] = " and ",
    [IFIG_SAY_CAUTION] = "A figure is evidence, not an identification: confirm it by refractive "
                         "index, specific gravity or spectrum.",
};

/* By hue; columns: full, dark, pale, greyish, whitish, and for neutral alone of higher order. */
static const char *const COLOURS[IFIG_HUE_COUNT][IFIG_TONE_COUNT] = {
    [IFIG_HUE_NEUTRAL] = {"grey", "dark grey", "light grey", "black", "white",
                          "white of higher order"},
    [IFIG_HUE_RED] = {"red", "dark red", "pink", "greyish red", "pinkish white", NULL},
    [IFIG_HUE_ORANGE] = {"orange", "brown", "pale orange", "greyish orange", "orange white", NULL},
    [IFIG_HUE_YELLOW] = {"yellow", "dark yellow", "pale yellow", "greyish yellow",
                         "yellowish white", NULL},
    [IFIG_HUE_YELLOW_GREEN] = {"yellow green", "dark yellow green", "pale yellow green",
                               "greyish yellow green", "yellowish white", NULL},
    [IFIG_HUE_GREEN] = {"green", "dark green", "pale green", "greyish green", "greenish white",
                        NULL},
    [IFIG_HUE_BLUE_GREEN] = {"blue green", "dark blue green", "pale blue green",
                             "greyish blue green", "greenish white", NULL},
    [IFIG_HUE_BLUE] = {"blue", "dark blue", "pale blue", "greyish blue", "bluish white", NULL},
    [IFIG_HUE_VIOLET] = {"violet", "dark violet", "pale violet", "greyish violet", "violet white",
                         NULL},
    [IFIG_HUE_PURPLE] = {"purple", "dark purple", "pale purple", "greyish purple", "purplish white",
                         NULL},
};

static const char *const DISPERSIONS[] = {
    [IFIG_AXIAL_DISPERSION_NONE] = "none",
    [IFIG_AXIAL_DISPERSION_RED_LARGER] = "r>v",
    [IFIG_AXIAL_DISPERSION_VIOLET_LARGER] = "r<v",
    [IFIG_AXIAL_DISPERSION_CROSSED_PLANES] = "crossed planes",
};

const char *ifig_message(IfigMessage message)
{
    return MESSAGES[message];
}

const char *ifig_colour_text(IfigColour colour)
{
    const int is_known = (int)colour.hue >= 0 && colour.hue < IFIG_HUE_COUNT &&
                         (int)colour.tone >= 0 && colour.tone < IFIG_TONE_COUNT;
    return is_known ? COLOURS[colour.hue][colour.tone] : NULL;
}

const char *ifig_axial_dispersion_text(IfigAxialDispersion dispersion)
{
    return (int)dispersion >= 0 && dispersion < IFIG_AXIAL_DISPERSION_ABSENT
               ? DISPERSIONS[dispersion]
               : NULL;
}
