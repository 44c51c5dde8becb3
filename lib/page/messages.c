/* SPDX-License-Identifier: MIT */
/* Every word that a page adds of its own, in English. Another language is another such table. */
#include "messages.h"

#include <stddef.h>
#include <string.h>

static const char *const MESSAGES[IFIG_PAGE_SAY_COUNT] = {
    [IFIG_PAGE_SAY_BLINK_TURN] = "The stone turned between the polars",
    [IFIG_PAGE_SAY_BLINK_TURN_AXIS] = "turn of the stone (degrees)",
    [IFIG_PAGE_SAY_BLINK_OPENED] = "The analyser opened",
    [IFIG_PAGE_SAY_BLINK_OPENED_AXIS] = "analyser opened by (degrees)",
    [IFIG_PAGE_SAY_BLINK_BRIGHTNESS] = "brightness (share of the light)",
    [IFIG_PAGE_SAY_BLINK_BRIGHTEST] = "brightest",
    [IFIG_PAGE_SAY_BLINK_COLOURS] = "What the eye sees at 16 turns",
    [IFIG_PAGE_SAY_BLINK_TURN_WORDS] = "A curve of the stone's brightness against its turn through "
                                       "a whole circle: least {1}, most "
                                       "{2} of the light behind the polariser.",
    [IFIG_PAGE_SAY_BLINK_OPENED_WORDS] =
        "A curve of the stone's brightness, at its brightest turn, against the opening of the "
        "analyser: {1} with the polars as they stood, {2} with the analyser opened by 90 degrees.",
    [IFIG_PAGE_SAY_BLINK_COLOURS_WORDS] =
        "Sixteen discs in the colours of the stone at turns of 0, 22.5, 45 and so on to 337.5 "
        "degrees.",
    [IFIG_PAGE_SAY_DEGREES] = "{1}\xc2\xb0",
    [IFIG_PAGE_SAY_WORD] = "{1}",
    [IFIG_PAGE_SAY_LIST] = "{1}; {2}",
    [IFIG_PAGE_SAY_HUNT_WORDS] =
        "A map of all directions of view, a half sphere in equal areas, each direction in the "
        "colour that the stone shows there at its brightest turn. Marked: {1}.",
    [IFIG_PAGE_SAY_HUNT_LEGEND] = "How to read the map",
    [IFIG_PAGE_SAY_HUNT_CRYSTAL_AXIS] = "axis of the indicatrix",
    [IFIG_PAGE_SAY_HUNT_OPTIC_AXIS] =
        "optic axis: the patch of spectrum colours lies around it, and the lens shows its figure "
        "there",
    [IFIG_PAGE_SAY_HUNT_TABLE] = "looking straight through a usual table",
    [IFIG_PAGE_SAY_HUNT_CIRCLES] =
        "tilt from the direction at the centre, in degrees inside the stone",
    [IFIG_PAGE_SAY_HUNT_RIM] =
        "Each point is one direction of looking through the stone; opposite points of the rim are "
        "the same direction. Equal areas are equal chances for a stone picked up at random.",
    [IFIG_PAGE_SAY_FIGURE_WORDS] = "{1}: what the polariscope shows. {2}",
};

const char *ifig_page_message(IfigPageMessage message)
{
    return MESSAGES[message];
}

static void append(IfigPageText *out, const char *from, size_t count)
{
    const size_t used = strlen(out->text), room = sizeof out->text - 1 - used;
    size_t taken = count < room ? count : room;
    while (taken > 0 && taken < count && ((unsigned char)from[taken] & 0xc0) == 0x80) {
        taken--; /* cut before a UTF-8 character, not inside it */
    }
    memcpy(out->text + used, from, taken);
    out->text[used + taken] = '\0';
}

IfigPageText ifig_page_say(IfigPageMessage message, const char *first, const char *second)
{
    IfigPageText out = {""};
    for (const char *at = MESSAGES[message]; *at != '\0';) {
        const int is_first = strncmp(at, "{1}", 3) == 0, is_second = strncmp(at, "{2}", 3) == 0;
        if (is_first || is_second) {
            const char *const words = is_first ? first : second;
            append(&out, words != NULL ? words : "", words != NULL ? strlen(words) : 0);
            at += 3;
        } else {
            append(&out, at++, 1);
        }
    }
    return out;
}
