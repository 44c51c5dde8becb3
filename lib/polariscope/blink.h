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

#endif
