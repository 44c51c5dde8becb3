/* SPDX-License-Identifier: MIT */
/* What the measuring of a turn (blink.c) hands on to the verdict (verdict.c). */
#ifndef IFIG_BLINK_H
#define IFIG_BLINK_H

#include "parallel.h"

typedef struct IfigTurn {
    IfigPattern pattern;
    double dark_share[IFIG_BLINK_TURNS]; /* how much of the face is dark at each turn, 0 to 1 */
} IfigTurn;

/* verdict.c: fill in retardation, appearance, extinctions, reaction, and the flags. texture: with
 * its pattern settled. */
IfigStatus ifig_blink_judge(const IfigScene *scene, const IfigTexture *texture,
                            const IfigTurn *turn, IfigBlink *blink, IfigError *error);

/* blink_messages.c: every sentence of the verdict. {1} to {9} stand for the values. */
typedef enum IfigBlinkMessage {
    IFIG_BLINK_ALONG_DARK = 0,
    IFIG_BLINK_ALONG_LIT,
    IFIG_BLINK_TURN_IT,
    IFIG_BLINK_DOUBLE_FAINT,
    IFIG_BLINK_DOUBLE_IN_STEP,
    IFIG_BLINK_DOUBLE,
    IFIG_BLINK_DOUBLE_NEVER_DARK,
    IFIG_BLINK_DOUBLE_PATCHY,
    IFIG_BLINK_SINGLE,
    IFIG_BLINK_SINGLE_LIT,
    IFIG_BLINK_STRAINED,
    IFIG_BLINK_STRAINED_FOUR_DARK,
    IFIG_BLINK_STRAINED_PATCHY,
    IFIG_BLINK_STRAINED_LIT,
    IFIG_BLINK_AGGREGATE,
    IFIG_BLINK_AGGREGATE_FEW,
    IFIG_BLINK_EVEN,
    IFIG_BLINK_BRIGHTNESS,
    IFIG_BLINK_UNIT,
    IFIG_BLINK_RETARDATION_OF_GRAIN,
    IFIG_BLINK_RETARDATION,
    IFIG_BLINK_RULE_SINGLE,
    IFIG_BLINK_RULE_DOUBLE,
    IFIG_BLINK_NO_RULE_SINGLE,
    IFIG_BLINK_NO_RULE_DOUBLE,
    IFIG_BLINK_NOTHING_TO_OPEN,
    IFIG_BLINK_OPENED_FROM_NOTHING,
    IFIG_BLINK_OPENED_TO,
    IFIG_BLINK_BRIGHTENS,
    IFIG_BLINK_DARKENS,
    IFIG_BLINK_STAYS,
    IFIG_BLINK_MESSAGE_COUNT
} IfigBlinkMessage;
const char *ifig_blink_message(IfigBlinkMessage message);

#endif
