/* SPDX-License-Identifier: MIT */
/* Whether a figure answers the question put to it: held to its reading. */
#include "exercise.h"

#include <math.h>

double ifig_melatope_radius(const IfigMelatope *melatope)
{
    const double none = 99.0;
    return isfinite(melatope->x) && isfinite(melatope->y) ? hypot(melatope->x, melatope->y) : none;
}

const IfigMelatope *ifig_nearest_melatope(const IfigReading *reading)
{
    const IfigMelatope *const first = &reading->melatope[0];
    return reading->melatope_count < 2 ||
                   ifig_melatope_radius(first) <= ifig_melatope_radius(&reading->melatope[1])
               ? first
               : &reading->melatope[1];
}

/* How many melatopes lie within that share of the picture's radius. */
static int melatopes_within(const IfigReading *reading, double radius)
{
    int count = 0;
    for (size_t i = 0; i < reading->melatope_count; i++) {
        count += ifig_melatope_radius(&reading->melatope[i]) < radius;
    }
    return count;
}

/* Between two melatopes, rim 1; large where only one is seen. */
static double separation(const IfigReading *reading)
{
    const double far = 9.0;
    const IfigMelatope *const one = &reading->melatope[0], *const two = &reading->melatope[1];
    return reading->melatope_count == 2 && isfinite(one->x) && isfinite(two->x)
               ? hypot(one->x - two->x, one->y - two->y)
               : far;
}

/* Rings that a quarter turn away from the polars can be told by the plate: in some quadrants the
 * colours rise, in others they fall. */
static int plate_tells(const IfigReading *reading)
{
    int rises = 0, falls = 0;
    for (int i = 0; i < 4; i++) {
        rises += reading->plate[i] == IFIG_PLATE_RISES;
        falls += reading->plate[i] == IFIG_PLATE_FALLS;
    }
    return rises > 0 && falls > 0;
}

static int tells_character(int level, const IfigReading *reading)
{
    if (reading->character == IFIG_UNIAXIAL) {
        return melatopes_within(reading, 0.85) == 1;
    }
    /* Two melatopes that nearly meet pass for one. */
    return separation(reading) > 0.35 && melatopes_within(reading, 0.88) >= (level == 1 ? 2 : 1);
}

/* The optic axial plane lies that near to the diagonals, where the brushes part farthest. */
static int is_diagonal(const IfigQuestion *question, double within_deg)
{
    return fabs(remainder(question->layer.orientation.stage_deg - 45.0, 90.0)) <= within_deg;
}

static int tells_sign(int level, const IfigQuestion *question, const IfigReading *reading)
{
    if (reading->character == IFIG_UNIAXIAL) {
        return melatopes_within(reading, 0.7) == 1 && plate_tells(reading);
    }
    const int two = melatopes_within(reading, 0.9) == 2 && separation(reading) > 0.35;
    const int one = level == 3 && melatopes_within(reading, 0.5) == 1;
    /* Near a right angle both bisectrices look alike. */
    const double most = two ? 75.0 : 60.0;
    const int tells = two ? reading->plate_between != IFIG_PLATE_EFFECT_NONE : plate_tells(reading);
    return (two || one) && reading->two_v_deg[IFIG_READING_D] <= most && tells &&
           is_diagonal(question, two ? 20.0 : 45.0);
}

/* Two melatopes to measure between; or one at the centre, its brush in the diagonal, whose bend
 * tells (Wright, The methods of petrographic-microscopic research, 1911; from memory). */
static int tells_two_v(const IfigQuestion *question, const IfigReading *reading)
{
    const double two_v = reading->two_v_deg[IFIG_READING_D];
    if (question->layer.orientation.view == IFIG_VIEW_OPTIC_AXIS) {
        return melatopes_within(reading, 0.3) == 1 && melatopes_within(reading, 1.0) == 1 &&
               is_diagonal(question, 10.0) && two_v >= 15.0 && two_v <= 60.0;
    }
    return melatopes_within(reading, 0.93) == 2 && separation(reading) > 0.2;
}

static int tells_species(const IfigReading *reading)
{
    return reading->character == IFIG_UNIAXIAL
               ? melatopes_within(reading, 0.7) == 1
               : melatopes_within(reading, 0.93) == 2 && separation(reading) > 0.2;
}

static int tells_axis(const IfigReading *reading)
{
    const double clear_deg = 15.0;
    const IfigMelatope *const melatope = ifig_nearest_melatope(reading);
    const double radius = ifig_melatope_radius(melatope);
    if (melatopes_within(reading, 1.05) != 1 || radius < 0.2 || radius > 0.9 ||
        fabs(radius - 0.5) < 0.1) {
        return 0;
    }
    const double azimuth = atan2(melatope->y, melatope->x) / IFIG_DEGREE;
    return fabs(remainder(azimuth, 90.0)) > clear_deg;
}

/* Share of the light that rotation lets through along the axis: a grey cross passes for a bull's
 * eye no more than a bull's eye for a cross. */
static double eye_light(const IfigQuestion *question, const IfigReading *reading)
{
    const double turn_deg =
        ifig_species_rotation_deg_per_mm(question->layer.species, reading->wavelength_nm) *
        question->layer.thickness_mm;
    const double across = sin(turn_deg * IFIG_DEGREE);
    return reading->bulls_eye ? across * across : 0.0;
}

int ifig_exercise_is_answered(const IfigExercise *exercise, const IfigExerciseStone *stone,
                              const IfigQuestion *question, const IfigReading *reading)
{
    const IfigQuestionKind kind = question->kind;
    const double least_light = 0.02, dim_eye = 0.15;
    if (reading->character != stone->facts.character ||
        reading->optic_sign != stone->facts.optic_sign || reading->brightest < least_light ||
        (exercise->level < 3 && kind != IFIG_QUESTION_SPECIES &&
         eye_light(question, reading) > dim_eye)) {
        return 0;
    }
    switch (kind) {
    case IFIG_QUESTION_CHARACTER:
        return tells_character(exercise->level, reading);
    case IFIG_QUESTION_SIGN:
        return tells_sign(exercise->level, question, reading);
    case IFIG_QUESTION_TWO_V:
        return tells_two_v(question, reading);
    case IFIG_QUESTION_SPECIES:
        return tells_species(reading);
    case IFIG_QUESTION_AXIS:
    case IFIG_QUESTION_KINDS:
        break;
    }
    return tells_axis(reading);
}

double ifig_orders_on_axis(const IfigQuestion *question)
{
    IfigQuestion centred = *question;
    IfigReading reading = IFIG_READING_INIT;
    centred.layer.orientation.tilt_deg = 0.0;
    centred.instrument.plate.material = IFIG_PLATE_NONE;
    IfigScene scene = ifig_question_scene(&centred, NULL);
    IfigLamp *lamp = NULL;
    double orders = NAN;
    if (ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &lamp, NULL) == IFIG_OK) {
        scene.lamp = lamp;
        orders = ifig_reading(&scene, &reading, NULL) == IFIG_OK ? reading.orders_in_field : NAN;
    }
    ifig_lamp_free(lamp);
    return orders;
}

/* Rings grow as the thickness, so that they are counted once for each stone. */
static int open_traits(IfigExerciseStone *stone, const IfigInstrument *instrument)
{
    const double thickness_mm = 1.0;
    const IfigStone asked = {.species = stone->species};
    IfigInstrument plain = *instrument;
    if (!stone->has_traits) {
        plain.plate.material = IFIG_PLATE_NONE;
        stone->traits = (IfigTraits)IFIG_TRAITS_INIT;
        stone->has_traits =
            ifig_traits(&asked, &plain, thickness_mm, &stone->traits, NULL) == IFIG_OK;
    }
    return stone->has_traits;
}

int ifig_exercise_could_be(IfigExerciseStone *stone, const IfigQuestion *question,
                           const IfigReading *reading, double orders)
{
    const double two_v_margin_deg = 10.0, ring_ratio = 1.6, bright_eye = 0.33;
    if (!open_traits(stone, &question->instrument)) {
        return 1; /* what is not known excludes nothing */
    }
    const IfigTraits traits = stone->traits;
    const double rings_low = traits.rings_low * question->layer.thickness_mm;
    const double rings_high = traits.rings_high * question->layer.thickness_mm;
    if ((traits.characters & 1u << reading->character) == 0) {
        return 0;
    }
    if (question->instrument.plate.material == IFIG_PLATE_GYPSUM &&
        (traits.signs & (reading->optic_sign > 0 ? 1u : 2u)) == 0) {
        return 0;
    }
    if (eye_light(question, reading) > bright_eye && traits.bulls_eye == 0) {
        return 0;
    }
    const double two_v = reading->two_v_deg[IFIG_READING_D];
    if (reading->character == IFIG_BIAXIAL && (two_v < traits.two_v_low_deg - two_v_margin_deg ||
                                               two_v > traits.two_v_high_deg + two_v_margin_deg)) {
        return 0;
    }
    return !(orders * ring_ratio < rings_low || orders > ring_ratio * rings_high);
}
