/* SPDX-License-Identifier: MIT */
/* Inside the page room: every word that a page adds of its own. */
#ifndef IFIG_PAGE_MESSAGES_H
#define IFIG_PAGE_MESSAGES_H

typedef enum IfigPageMessage {
    IFIG_PAGE_SAY_BLINK_TURN = 0,
    IFIG_PAGE_SAY_BLINK_TURN_AXIS,
    IFIG_PAGE_SAY_BLINK_OPENED,
    IFIG_PAGE_SAY_BLINK_OPENED_AXIS,
    IFIG_PAGE_SAY_BLINK_BRIGHTNESS,
    IFIG_PAGE_SAY_BLINK_BRIGHTEST,
    IFIG_PAGE_SAY_BLINK_COLOURS,
    IFIG_PAGE_SAY_BLINK_TURN_WORDS,
    IFIG_PAGE_SAY_BLINK_OPENED_WORDS,
    IFIG_PAGE_SAY_BLINK_COLOURS_WORDS,
    IFIG_PAGE_SAY_DEGREES,
    IFIG_PAGE_SAY_WORD,
    IFIG_PAGE_SAY_LIST,
    IFIG_PAGE_SAY_HUNT_WORDS,
    IFIG_PAGE_SAY_HUNT_LEGEND,
    IFIG_PAGE_SAY_HUNT_CRYSTAL_AXIS,
    IFIG_PAGE_SAY_HUNT_OPTIC_AXIS,
    IFIG_PAGE_SAY_HUNT_TABLE,
    IFIG_PAGE_SAY_HUNT_CIRCLES,
    IFIG_PAGE_SAY_HUNT_RIM,
    IFIG_PAGE_SAY_FIGURE_WORDS,
    IFIG_PAGE_SAY_COUNT
} IfigPageMessage;

const char *ifig_page_message(IfigPageMessage message);
typedef struct IfigPageText {
    char text[1024];
} IfigPageText;
/* A message with {1} and {2} filled in; arguments may be NULL where the message has none. */
IfigPageText ifig_page_say(IfigPageMessage message, const char *first, const char *second);

#endif
