/* SPDX-License-Identifier: MIT */
/* A reading in words: which sentences are true of the numbers. The sentences are in messages.c. */
#include "reading.h"

#include "base.h"

#include <math.h>
#include <string.h>

static void end_line(IfigPage *page)
{
    ifig_page_put(page, "\n");
    page->in_line = 0;
}

/* A message with its values; a blank before it where it follows another on the line. */
static void say(IfigPage *page, IfigMessage message, const char *const *value)
{
    if (page->in_line) {
        ifig_page_put(page, " ");
    }
    page->in_line = 1;
    ifig_page_fill(page, ifig_message(message), value);
}

static void say_line(IfigPage *page, IfigMessage message, const char *const *value)
{
    say(page, message, value);
    end_line(page);
}

/* A number to a tenth. */
static IfigNumberText tenth(double value)
{
    IfigNumberText none = {""};
    if (isnan(value)) {
        strncpy(none.text, ifig_message(IFIG_SAY_NO_NUMBER), sizeof none.text - 1);
        return none;
    }
    return ifig_number_text(floor(10.0 * value + 0.5) / 10.0 + 0.0, 9);
}

/* "1, 2 and 3". */
typedef struct List {
    char text[512];
    IfigPage page;
} List;

static void start_list(List *list)
{
    list->page = ifig_page(list->text, sizeof list->text);
}

static void add_to_list(List *list, const char *word, size_t index, size_t count)
{
    if (index > 0) {
        const char *joint =
            ifig_message(index + 1 == count ? IFIG_SAY_LIST_AND : IFIG_SAY_LIST_COMMA);
        ifig_page_put(&list->page, joint);
    }
    ifig_page_put(&list->page, word);
}

static const char *medium(const IfigReading *reading)
{
    return ifig_message(reading->immersion_index > 1.0 ? IFIG_SAY_IN_LIQUID : IFIG_SAY_IN_AIR);
}

static void say_character(IfigPage *page, const IfigReading *reading)
{
    if (reading->character == IFIG_ISOTROPIC) {
        const double dim = 0.2;
        const int is_dark = reading->brightest < dim;
        say(page, IFIG_SAY_SINGLY_REFRACTIVE, NULL);
        say_line(page, is_dark ? IFIG_SAY_SINGLY_DARK : IFIG_SAY_SINGLY_LIT, NULL);
        return;
    }
    const char *sign[] = {
        ifig_message(reading->optic_sign > 0 ? IFIG_SAY_POSITIVE : IFIG_SAY_NEGATIVE)};
    say_line(page, reading->character == IFIG_UNIAXIAL ? IFIG_SAY_UNIAXIAL : IFIG_SAY_BIAXIAL,
             sign);
}

static void say_angles(IfigPage *page, const IfigReading *reading)
{
    static const IfigMessage senses[] = {
        [IFIG_AXIAL_DISPERSION_NONE] = IFIG_SAY_ALIKE,
        [IFIG_AXIAL_DISPERSION_RED_LARGER] = IFIG_SAY_RED_LARGER,
        [IFIG_AXIAL_DISPERSION_VIOLET_LARGER] = IFIG_SAY_VIOLET_LARGER,
        [IFIG_AXIAL_DISPERSION_CROSSED_PLANES] = IFIG_SAY_CROSSED_PLANES};
    IfigNumberText v[IFIG_READING_LINES], e[IFIG_READING_LINES];
    int leave = 0;
    for (int i = 0; i < IFIG_READING_LINES; i++) {
        v[i] = tenth(reading->two_v_deg[i]);
        e[i] = tenth(reading->two_e_deg[i]);
        leave |= !isnan(reading->two_e_deg[i]);
    }
    const char *inside[] = {v[0].text, v[1].text, v[2].text};
    const char *outside[] = {e[0].text, e[1].text, e[2].text, medium(reading)};
    const char *where[] = {medium(reading)};
    say(page, IFIG_SAY_ANGLE_V, inside);
    say(page, leave ? IFIG_SAY_ANGLE_E : IFIG_SAY_NO_ANGLE_E, leave ? outside : where);
    say_line(page, senses[reading->dispersion], NULL);
}

/* A melatope nearer to the centre than this stands there: it has no azimuth. */
static const double CENTRED_DEG = 0.05;

static void say_melatope(IfigPage *page, const IfigReading *reading, const IfigMelatope *melatope)
{
    const IfigNumberText theta = tenth(melatope->theta_deg), phi = tenth(melatope->phi_deg);
    const IfigNumberText beyond = tenth(melatope->beyond_field_deg);
    const IfigNumberText x = ifig_number_text(floor(1000.0 * melatope->x + 0.5) / 1000.0 + 0.0, 6);
    const IfigNumberText y = ifig_number_text(floor(1000.0 * melatope->y + 0.5) / 1000.0 + 0.0, 6);
    const char *inside[] = {theta.text, phi.text, x.text, y.text};
    const char *outside[] = {beyond.text, phi.text};
    const char *reflected[] = {phi.text, medium(reading)};
    if (!melatope->leaves) {
        say(page, IFIG_SAY_MELATOPE_NOT_LEAVING, reflected);
    } else if (!melatope->in_field) {
        say(page, IFIG_SAY_MELATOPE_BEYOND, outside);
    } else if (melatope->theta_deg < CENTRED_DEG) {
        say(page, IFIG_SAY_MELATOPE_CENTRE, NULL);
    } else {
        say(page, IFIG_SAY_MELATOPE_IN_FIELD, inside);
    }
}

static void say_centre(IfigPage *page, const IfigReading *reading)
{
    const IfigNumberText nm = tenth(reading->centre_retardation_nm);
    const IfigNumberText order = ifig_number_text(reading->centre_order, 9);
    const char *values[] = {ifig_colour_text(reading->centre_colour), order.text, nm.text};
    say_line(page, IFIG_SAY_CENTRE, values);
    if (reading->bulls_eye) {
        const char *colour[] = {ifig_colour_text(reading->eye_colour)};
        say_line(page, IFIG_SAY_EYE, colour);
    }
}

/* Theta of the rings within the field. */
static void list_rings(const IfigReading *reading, const IfigMelatope *melatope, List *list)
{
    size_t inside = 0;
    while (inside < melatope->ring_count && melatope->ring_deg[inside] <= reading->field_deg) {
        inside++;
    }
    start_list(list);
    for (size_t i = 0; i < inside; i++) {
        add_to_list(list, tenth(melatope->ring_deg[i]).text, i, inside);
    }
}

static void say_rings(IfigPage *page, const IfigReading *reading, const List *rings,
                      const char *whence)
{
    const int are_dark =
        reading->polars == IFIG_POLARS_CROSSED || reading->polars == IFIG_POLARS_CROSSED_CIRCULAR;
    const IfigNumberText nm = tenth(reading->wavelength_nm);
    const char *values[] = {nm.text, whence, rings->text};
    say_line(page,
             rings->page.used == 0                     ? IFIG_SAY_RINGS_BEYOND
             : are_dark                                ? IFIG_SAY_RINGS_DARK
             : reading->polars == IFIG_POLARS_PARALLEL ? IFIG_SAY_RINGS_BRIGHT
                                                       : IFIG_SAY_RINGS_OTHER,
             values);
}

/* One sentence where both melatopes have the same rings. */
static void say_all_rings(IfigPage *page, const IfigReading *reading)
{
    const IfigMelatope *m = reading->melatope;
    const int has_two = reading->melatope_count == 2 && m[0].in_field && m[1].in_field;
    List rings[2];
    for (size_t i = 0; i < reading->melatope_count; i++) {
        list_rings(reading, &m[i], &rings[i]);
    }
    if (has_two && strcmp(rings[0].text, rings[1].text) == 0) {
        say_rings(page, reading, &rings[0], ifig_message(IFIG_SAY_EACH_MELATOPE));
        return;
    }
    for (size_t i = 0; i < reading->melatope_count; i++) {
        char text[128];
        IfigPage whence = {text, sizeof text, 0, 0};
        const IfigNumberText phi = tenth(m[i].phi_deg);
        const char *azimuth[] = {phi.text};
        say(&whence, m[i].theta_deg < CENTRED_DEG ? IFIG_SAY_THE_MELATOPE : IFIG_SAY_MELATOPE_AT,
            azimuth);
        if (m[i].in_field) {
            say_rings(page, reading, &rings[i], text);
        }
    }
}

static void say_melatopes(IfigPage *page, const IfigReading *reading)
{
    for (size_t i = 0; i < reading->melatope_count; i++) {
        say_melatope(page, reading, &reading->melatope[i]);
    }
    if (reading->melatope_count > 0) {
        end_line(page);
    }
    say_all_rings(page, reading);
}

static void say_orders(IfigPage *page, const IfigReading *reading)
{
    const IfigNumberText orders = tenth(reading->orders_in_field);
    const IfigNumberText least = tenth(reading->least_nm), most = tenth(reading->most_nm);
    const char *values[] = {orders.text, least.text, most.text};
    say_line(page, IFIG_SAY_ORDERS, values);
}

static void say_brushes(IfigPage *page, const IfigReading *reading)
{
    static const IfigMessage shapes[] = {[IFIG_BRUSH_NONE] = IFIG_SAY_BRUSH_NONE,
                                         [IFIG_BRUSH_CROSS] = IFIG_SAY_BRUSH_CROSS,
                                         [IFIG_BRUSH_TWO] = IFIG_SAY_BRUSH_TWO,
                                         [IFIG_BRUSH_ONE] = IFIG_SAY_BRUSH_ONE,
                                         [IFIG_BRUSH_ARMS] = IFIG_SAY_BRUSH_ARMS};
    const int is_eye = reading->bulls_eye && reading->brush_shape == IFIG_BRUSH_CROSS;
    List list;
    start_list(&list);
    for (size_t i = 0; i < reading->brush_count; i++) {
        add_to_list(&list, tenth(reading->brush_azimuth_deg[i]).text, i, reading->brush_count);
    }
    const char *azimuths[] = {list.text};
    const int is_lit = reading->brush_count == 0 && reading->polars != IFIG_POLARS_CROSSED;
    say(page,
        is_eye   ? IFIG_SAY_BRUSH_EYE
        : is_lit ? IFIG_SAY_BRUSH_POLARS
                 : shapes[reading->brush_shape],
        NULL);
    if (reading->brush_count > 0) {
        say(page, IFIG_SAY_BRUSH_RIM, azimuths);
    }
    end_line(page);
}

static void say_fringes(IfigPage *page, const IfigReading *reading)
{
    static const IfigMessage kinds[] = {[IFIG_MONOCLINIC_INCLINED] = IFIG_SAY_INCLINED,
                                        [IFIG_MONOCLINIC_PARALLEL] = IFIG_SAY_PARALLEL,
                                        [IFIG_MONOCLINIC_CROSSED] = IFIG_SAY_CROSSED};
    const IfigMelatope *both = reading->melatope;
    const int are_alike = reading->melatope_count == 2 && both[0].concave == both[1].concave;
    int found = 0;
    for (size_t i = 0; i < reading->melatope_count && !(found && are_alike); i++) {
        const IfigMelatope *melatope = &both[i];
        const IfigNumberText phi = tenth(melatope->phi_deg);
        const int is_red = melatope->concave == IFIG_FRINGE_RED;
        const char *values[] = {phi.text, ifig_message(is_red ? IFIG_SAY_RED : IFIG_SAY_BLUE),
                                ifig_message(is_red ? IFIG_SAY_BLUE : IFIG_SAY_RED)};
        if (melatope->concave != IFIG_FRINGE_NONE) {
            say(page, are_alike ? IFIG_SAY_FRINGES_ALIKE : IFIG_SAY_FRINGES, values);
            found = 1;
        }
    }
    if (found && reading->monoclinic != IFIG_MONOCLINIC_NONE) {
        say(page, kinds[reading->monoclinic], NULL);
    }
    if (found) {
        end_line(page);
    } else if (reading->dispersion == IFIG_AXIAL_DISPERSION_NONE) {
        say_line(page, IFIG_SAY_NO_FRINGES, NULL);
    }
}

static const char *effect_word(IfigPlateEffect effect)
{
    return ifig_message(effect == IFIG_PLATE_RISES   ? IFIG_SAY_RISES
                        : effect == IFIG_PLATE_FALLS ? IFIG_SAY_FALLS
                                                     : IFIG_SAY_STAYS);
}

static void say_plate(IfigPage *page, const IfigReading *reading)
{
    static const IfigMessage quadrants[4] = {IFIG_SAY_NE, IFIG_SAY_NW, IFIG_SAY_SW, IFIG_SAY_SE};
    List list;
    int has_effect = 0;
    start_list(&list);
    for (size_t i = 0; i < 4; i++) {
        has_effect |= reading->plate[i] != IFIG_PLATE_EFFECT_NONE;
    }
    for (size_t i = 0; i < 4; i++) {
        char text[64];
        IfigPage quadrant = {text, sizeof text, 0, 0};
        const char *values[] = {ifig_message(quadrants[i]), effect_word(reading->plate[i])};
        say(&quadrant, IFIG_SAY_PLATE_QUADRANT, values);
        add_to_list(&list, text, i, 4);
    }
    const char *values[] = {list.text}, *between[] = {effect_word(reading->plate_between)};
    if (!has_effect) {
        return;
    }
    say(page, IFIG_SAY_PLATE, values);
    if (reading->plate_between != IFIG_PLATE_EFFECT_NONE) {
        say(page, IFIG_SAY_PLATE_BETWEEN, between);
    }
    end_line(page);
}

IfigStatus ifig_reading_describe(const IfigReading *reading, char *text, size_t size,
                                 IfigError *error)
{
    if (reading == NULL || reading->size != sizeof *reading || text == NULL || size == 0) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_reading_describe: the reading or the text is NULL or has no size");
    }
    IfigPage page = ifig_page(text, size);
    say_character(&page, reading);
    if (reading->plate_left_out) {
        say_line(&page, IFIG_SAY_PLATE_LEFT_OUT, NULL);
    }
    if (reading->character == IFIG_BIAXIAL) {
        say_angles(&page, reading);
    }
    if (reading->character != IFIG_ISOTROPIC) {
        say_melatopes(&page, reading);
        say_centre(&page, reading);
        say_orders(&page, reading);
        say_brushes(&page, reading);
        say_fringes(&page, reading);
        say_plate(&page, reading);
    }
    say_line(&page, IFIG_SAY_CAUTION, NULL);
    return ifig_page_end(&page, "ifig_reading_describe", error);
}
