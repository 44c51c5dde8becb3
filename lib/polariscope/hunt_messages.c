/* SPDX-License-Identifier: MIT */
/* Every sentence of the hunt, in English. Another language is another table. */
#include "hunt.h"

static const char *const MESSAGES[IFIG_HUNT_MESSAGE_COUNT] = {
    [IFIG_HUNT_SINGLY_DARK] = "Singly refractive: dark in every direction, and no patch of "
                              "spectrum colours anywhere.",
    [IFIG_HUNT_SINGLY_LIT] = "Singly refractive, but it rotates the plane of vibration: lit alike "
                             "in every direction and at every turn, without a patch. Turn the "
                             "analyser: its colour changes.",
    [IFIG_HUNT_ONE_PATCH] = "Doubly refractive, uniaxial: one optic axis, with a patch of spectrum "
                            "colours about each of its two ends.",
    [IFIG_HUNT_TWO_PATCHES] = "Doubly refractive, biaxial: two optic axes {1} deg apart, each with "
                              "a patch of spectrum colours about its two ends.",
    [IFIG_HUNT_MERGED] = "At {1} mm the two patches run together.",
    [IFIG_HUNT_SIZE_ONE] = "In {1} mm of the stone the patch reaches {2} deg to every side of the "
                           "axis, inside the stone: {3} % of all directions.",
    [IFIG_HUNT_SIZE_TWO] = "In {1} mm of the stone each patch reaches about {2} deg from its axis, "
                           "inside the stone; both together fill {3} % of all directions.",
    [IFIG_HUNT_SIZES] = "The thinner the stone the larger the patch: {1}.",
    [IFIG_HUNT_SIZES_ITEM] = "{1} deg at {2} mm",
    [IFIG_HUNT_EVERYWHERE] = "At {1} mm the stone shows low colours in every direction: there is "
                             "no edge to the patch. Hunt for the darkest place in it, or look "
                             "through more of the stone.",
    [IFIG_HUNT_NEARLY_EVERYWHERE] = "Most directions show colours: hunt for the darkest place "
                                    "among them.",
    [IFIG_HUNT_ALONG_DARK] = "Along the axis itself the stone stays dark through the whole turn, "
                             "as a singly refractive one does; lean it a little and the colours "
                             "come.",
    [IFIG_HUNT_ALONG_LIT] = "Along the axis itself it never goes dark: the stone rotates the plane "
                            "of vibration. Lay the sphere on there and look for the bull's-eye.",
    [IFIG_HUNT_ALONG_EVEN] = "Along an axis the stone hardly changes through a turn, dark or "
                             "evenly lit; lean it a little and the colours come.",
    [IFIG_HUNT_CUT_STRAIGHT] = "Cut with the {1}: look straight down through the table. The stone "
                               "looks singly refractive there.",
    [IFIG_HUNT_CUT_STRAIGHT_LIT] = "Cut with the {1}: look straight down through the table. The "
                                   "stone stays lit there all the way round.",
    [IFIG_HUNT_CUT_STRAIGHT_EVEN] = "Cut with the {1}: look straight down through the table, along "
                                    "an axis.",
    [IFIG_HUNT_CUT_LEAN] = "Cut with the {1}: {4} is {2} deg off. Lean the stone {3} deg in "
                           "air and look through the table; turn it about the table's normal until "
                           "the patch comes.",
    [IFIG_HUNT_CUT_LEAN_FAR] = "Cut with the {1}: {4} is {2} deg off. It would take a "
                               "lean of {3} deg in air to see it through the table: easier through "
                               "the crown facets at the side.",
    [IFIG_HUNT_CUT_SIDE] = "Cut with the {1}: {4} is {2} deg off, and light along it "
                           "cannot leave through the table. Look in through the crown on one side "
                           "and out through the pavilion on the other.",
    [IFIG_HUNT_CUT_GIRDLE] = "Cut with the {1}: {4} lies {2} deg off, next to the "
                             "plane of the girdle, and cannot be seen through the table. Look "
                             "through the stone from girdle to girdle, and turn it about the "
                             "table's normal until the patch comes.",
    [IFIG_HUNT_CUTS_VARY] =
        "These are usual cuts; a stone may be cut otherwise. Where the patch is "
        "not found, look through the stone in every direction.",
    [IFIG_HUNT_FALSE_NONE] = "No direction stays dark through a turn: this stone is not taken for "
                             "a singly refractive one at {1} mm.",
    [IFIG_HUNT_FALSE_ONE_IN] = "One direction in {1} stays dark through a turn at {2} mm: a false "
                               "single. Look in three directions before you call a stone singly "
                               "refractive.",
    [IFIG_HUNT_FALSE_OFTEN] =
        "{1} % of all directions stay dark through a turn at {2} mm: so weak, "
        "or so thin, that the stone is easily taken for a singly refractive "
        "one. Look through its longest way.",
    [IFIG_HUNT_FALSE_ALL] = "At {1} mm no direction lights up: the stone is too thin, or too "
                            "weakly doubly refractive, to be told from a singly refractive one.",
    [IFIG_HUNT_FALSE_RARE] =
        "Fewer than one direction in 100000 stay dark through a turn at {1} mm: "
        "this stone is hardly ever taken for a singly refractive one.",
    [IFIG_HUNT_SIZES_ALL] = "every direction at {2} mm",
    [IFIG_HUNT_THE_AXIS] = "the axis",
    [IFIG_HUNT_NEAREST_AXIS] = "the nearest axis",
    [IFIG_HUNT_LIST_COMMA] = ", ",
    [IFIG_HUNT_LIST_AND] = " and ",
    [IFIG_HUNT_CAUTION] = "What the polariscope shows is evidence, not an identification.",
};

const char *ifig_hunt_message(IfigHuntMessage message)
{
    return MESSAGES[message];
}
