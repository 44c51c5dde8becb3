/* SPDX-License-Identifier: MIT */
/* Every sentence of the verdict, in English. Another language is another table. */
#include "blink.h"

static const char *const MESSAGES[IFIG_BLINK_MESSAGE_COUNT] = {
    [IFIG_BLINK_ALONG_DARK] =
        "Doubly refractive (DR), but dark through the whole turn: you look along an optic axis.\n",
    [IFIG_BLINK_ALONG_LIT] =
        "Doubly refractive (DR), but never dark: you look along an optic axis, where a biaxial "
        "stone, or one that rotates the light as quartz does, is lit at every turn.\n",
    [IFIG_BLINK_TURN_IT] = "Turn (tilt) the stone to another side and turn it again: it will go "
                           "dark four times a turn.\n",
    [IFIG_BLINK_DOUBLE_FAINT] =
        "Doubly refractive (DR), but it looks dark: its retardation of {1} nm is too small to "
        "light it up. Look through a thicker piece, or from another side.\n",
    [IFIG_BLINK_DOUBLE_IN_STEP] =
        "Doubly refractive (DR), but it looks dark: in this light its two waves leave in step ({1} "
        "nm). Use white light, or tilt the stone.\n",
    [IFIG_BLINK_DOUBLE] = "Doubly refractive (DR): dark {1} times a turn, bright between.\n",
    [IFIG_BLINK_DOUBLE_NEVER_DARK] =
        "Doubly refractive (DR), but never dark in this arrangement: take crossed linear polars "
        "and no plate, a narrow cone, or another side of the stone.\n",
    [IFIG_BLINK_DOUBLE_PATCHY] =
        "Doubly refractive (DR): its parts go dark at different turns, as in a twin.\n",
    [IFIG_BLINK_SINGLE] = "Singly refractive (SR): dark through the whole turn.\n",
    [IFIG_BLINK_SINGLE_LIT] = "Singly refractive (SR), yet lit: not by double refraction, but "
                              "because it rotates the light, or because of how the polars stand.\n",
    [IFIG_BLINK_STRAINED] = "Singly refractive with strain (ADR, anomalous double refraction): ",
    [IFIG_BLINK_STRAINED_FOUR_DARK] = "dark {1} times a turn as a doubly refractive stone, since "
                                      "the strain points the same way all over.\n",
    [IFIG_BLINK_STRAINED_PATCHY] =
        "lit in parts that wander as the stone turns; no turn darkens the whole face.\n",
    [IFIG_BLINK_STRAINED_LIT] = "lit at every turn.\n",
    [IFIG_BLINK_AGGREGATE] = "Aggregate (AGG): never dark, much the same light at every turn.\n",
    [IFIG_BLINK_AGGREGATE_FEW] =
        "Aggregate (AGG), but so few grains lie behind one another that some turns darken it.\n",
    [IFIG_BLINK_EVEN] = "Brightness {1} at every turn",
    [IFIG_BLINK_BRIGHTNESS] =
        "Brightness {1} at a turn of {2} deg, {3} at {4} deg, {5} on the mean",
    [IFIG_BLINK_UNIT] = "; 1 is the bare light between parallel polars.\n",
    [IFIG_BLINK_RETARDATION_OF_GRAIN] = "Greatest retardation of one grain at 589.3 nm: {1} nm.\n",
    [IFIG_BLINK_RETARDATION] = "Retardation along the line of sight at 589.3 nm: {1} nm.\n",
    [IFIG_BLINK_RULE_SINGLE] = ", as the rule has it for a singly refractive stone.\n",
    [IFIG_BLINK_RULE_DOUBLE] = ", as the rule has it for a doubly refractive stone.\n",
    [IFIG_BLINK_NO_RULE_SINGLE] = ". The rule that a strained stone brightens fails here: so much "
                                  "strain acts as double refraction.\n",
    [IFIG_BLINK_NO_RULE_DOUBLE] =
        ". The rule that a doubly refractive stone stays or darkens fails here: its retardation "
        "along this line of sight turns little of the light, as strain does. Do not take it for a "
        "strained single one: look from another side or through a thicker piece.\n",
    [IFIG_BLINK_NOTHING_TO_OPEN] =
        "Circular polars have no azimuth: there is no analyser to open.\n",
    [IFIG_BLINK_OPENED_FROM_NOTHING] =
        "Opened by 90 deg, the analyser lets {1} through, from nothing",
    [IFIG_BLINK_OPENED_TO] =
        "Opened by 90 deg at the brightest turn, {1} goes to {2}, {3} times as much: it {4}",
    [IFIG_BLINK_BRIGHTENS] = "brightens",
    [IFIG_BLINK_DARKENS] = "darkens",
    [IFIG_BLINK_STAYS] = "stays much the same",
};

const char *ifig_blink_message(IfigBlinkMessage message)
{
    return MESSAGES[message];
}
