/* SPDX-License-Identifier: MIT */
/* A reading in the few words that a beginner needs. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "sheet.h"

typedef struct Words {
    char text[1024];
} Words;

static void add(Words *words, IfigPageMessage message, const char *first, const char *second)
{
    const IfigPageText sentence = ifig_page_say(message, first, second);
    size_t used = strlen(words->text);
    const size_t length = strlen(sentence.text);
    if (used + 1 + length >= sizeof words->text) {
        return;
    }
    if (used > 0) {
        words->text[used++] = ' ';
    }
    memcpy(words->text + used, sentence.text, length + 1);
}

static void add_character(Words *words, const IfigReading *reading)
{
    const int sign = reading->optic_sign;
    const IfigPageMessage biaxial = sign > 0   ? IFIG_PAGE_SAY_SHORT_BIAXIAL_POSITIVE
                                    : sign < 0 ? IFIG_PAGE_SAY_SHORT_BIAXIAL_NEGATIVE
                                               : IFIG_PAGE_SAY_SHORT_BIAXIAL_NEITHER;
    const IfigPageMessage uniaxial =
        sign > 0 ? IFIG_PAGE_SAY_SHORT_UNIAXIAL_POSITIVE : IFIG_PAGE_SAY_SHORT_UNIAXIAL_NEGATIVE;
    add(words,
        reading->character == IFIG_ISOTROPIC  ? IFIG_PAGE_SAY_SHORT_ISOTROPIC
        : reading->character == IFIG_UNIAXIAL ? uniaxial
        : reading->character == IFIG_BIAXIAL  ? biaxial
                                              : IFIG_PAGE_SAY_SHORT_AGGREGATE,
        NULL, NULL);
}

static void add_angles(Words *words, const IfigReading *reading)
{
    const int yellow = 1;
    const double two_v = reading->two_v_deg[yellow], two_e = reading->two_e_deg[yellow];
    if (isfinite(two_v) && isfinite(two_e)) {
        add(words, IFIG_PAGE_SAY_SHORT_ANGLES, ifig_number_text(round(two_v), 3).text,
            ifig_number_text(round(two_e), 3).text);
    } else if (isfinite(two_v)) {
        add(words, IFIG_PAGE_SAY_SHORT_ANGLE, ifig_number_text(round(two_v), 3).text, NULL);
    }
}

static void add_brushes(Words *words, const IfigReading *reading)
{
    static const IfigPageMessage messages[] = {
        [IFIG_BRUSH_CROSS] = IFIG_PAGE_SAY_SHORT_CROSS,
        [IFIG_BRUSH_TWO] = IFIG_PAGE_SAY_SHORT_TWO_BRUSHES,
        [IFIG_BRUSH_ONE] = IFIG_PAGE_SAY_SHORT_ONE_BRUSH,
        [IFIG_BRUSH_ARMS] = IFIG_PAGE_SAY_SHORT_ARMS,
    };
    if (reading->bulls_eye) {
        add(words, IFIG_PAGE_SAY_SHORT_BULLS_EYE, ifig_colour_text(reading->eye_colour), NULL);
    } else if (reading->brush_shape != IFIG_BRUSH_NONE) {
        add(words, messages[reading->brush_shape], NULL, NULL);
    }
    if (reading->orders_in_field >= 1.0) {
        const int digits = reading->orders_in_field < 10.0 ? 2 : 3;
        const double step = reading->orders_in_field < 10.0 ? 0.1 : 1.0;
        add(words, IFIG_PAGE_SAY_SHORT_ORDERS,
            ifig_number_text(round(reading->orders_in_field / step) * step, digits).text, NULL);
    }
}

/* "NE and SW", of the quadrants in which the plate does that. */
static void join_quadrants(const IfigReading *reading, IfigPlateEffect effect, char *text,
                           size_t size)
{
    text[0] = '\0';
    for (int quadrant = 0; quadrant < 4; quadrant++) {
        const char *const name =
            ifig_page_message((IfigPageMessage)(IFIG_PAGE_SAY_QUADRANT_NE + quadrant));
        if (reading->plate[quadrant] == effect) {
            const IfigPageText joined = ifig_page_say(IFIG_PAGE_SAY_AND, text, name);
            const char *const words = text[0] != '\0' ? joined.text : name;
            const size_t length = strlen(words) < size ? strlen(words) : size - 1;
            memmove(text, words, length);
            text[length] = '\0';
        }
    }
}

static void add_plate(Words *words, const IfigReading *reading)
{
    char rises[64], falls[64];
    join_quadrants(reading, IFIG_PLATE_RISES, rises, sizeof rises);
    join_quadrants(reading, IFIG_PLATE_FALLS, falls, sizeof falls);
    if (reading->plate_between != IFIG_PLATE_EFFECT_NONE) {
        add(words,
            reading->plate_between == IFIG_PLATE_RISES ? IFIG_PAGE_SAY_SHORT_PLATE_BETWEEN_RISES
                                                       : IFIG_PAGE_SAY_SHORT_PLATE_BETWEEN_FALLS,
            NULL, NULL);
    } else if (rises[0] != '\0' && falls[0] != '\0') {
        add(words, IFIG_PAGE_SAY_SHORT_PLATE_BOTH, rises, falls);
    } else if (rises[0] != '\0') {
        add(words, IFIG_PAGE_SAY_SHORT_PLATE_ALL_RISE, rises, NULL);
    } else if (falls[0] != '\0') {
        add(words, IFIG_PAGE_SAY_SHORT_PLATE_ALL_FALL, falls, NULL);
    }
}

char *ifig_sheet_short_reading(const IfigReading *reading, int has_plate)
{
    Words words = {""};
    add_character(&words, reading);
    if (reading->character == IFIG_UNIAXIAL || reading->character == IFIG_BIAXIAL) {
        add_angles(&words, reading);
        add_brushes(&words, reading);
        if (has_plate) {
            add_plate(&words, reading);
        }
    }
    return strdup(words.text);
}
