/* SPDX-License-Identifier: MIT */
/* How chance lays a stone. The generator is our own, so that a seed means the same everywhere. */
#include "exercise.h"

#include <math.h>

static const uint64_t GOLDEN = 0x9E3779B97F4A7C15u;

/* SplitMix64 (Steele, Lea and Flood, Proc. OOPSLA 2014, 453), on a counter. */
static uint64_t mixed(uint64_t value)
{
    value = (value ^ (value >> 30)) * 0xBF58476D1CE4E5B9u;
    value = (value ^ (value >> 27)) * 0x94D049BB133111EBu;
    return value ^ (value >> 31);
}

double ifig_exercise_uniform(IfigExercise *exercise)
{
    exercise->drawn++;
    return (double)(mixed(mixed(exercise->state + GOLDEN) + exercise->drawn * GOLDEN) >> 11) *
           0x1p-53;
}

size_t ifig_exercise_pick(IfigExercise *exercise, size_t count)
{
    const size_t picked = (size_t)(ifig_exercise_uniform(exercise) * (double)count);
    return picked < count ? picked : count - 1;
}

/* Both axes of a biaxial stone come into the field about the acute bisectrix: n_beta sin V. */
static int shows_both_axes(const IfigExerciseStone *stone)
{
    const IfigInstrument usual = IFIG_INSTRUMENT_INIT;
    const double rim = sin(ifig_instrument_field_deg(&usual) * IFIG_DEGREE);
    return stone->facts.n[1] * sin(0.5 * stone->facts.two_v_deg * IFIG_DEGREE) < 0.97 * rim;
}

static int may_be_asked(const IfigExerciseStone *stone, IfigQuestionKind kind, int level)
{
    const int needs_both = kind == IFIG_QUESTION_TWO_V || kind == IFIG_QUESTION_SPECIES ||
                           (kind == IFIG_QUESTION_SIGN && level < 3) ||
                           (kind == IFIG_QUESTION_CHARACTER && level == 1);
    return stone->facts.character == IFIG_BIAXIAL ? !needs_both || shows_both_axes(stone)
                                                  : kind != IFIG_QUESTION_TWO_V;
}

IfigExerciseStone *ifig_exercise_stone(IfigExercise *exercise, IfigQuestionKind kind)
{
    enum { LOOKS = 4 };
    IfigExerciseStone *chosen = NULL;
    /* Both characters are asked about equally often, however long the list is on either side. */
    const int is_uniaxial = ifig_exercise_uniform(exercise) < 0.5;
    for (int looks = 0, tries = 0; looks < LOOKS && tries < 400; tries++) {
        IfigExerciseStone *const stone =
            &exercise->stone[ifig_exercise_pick(exercise, exercise->stone_count)];
        const int is_wanted = tries >= 200 || kind == IFIG_QUESTION_TWO_V ||
                              (stone->facts.character == IFIG_UNIAXIAL) == is_uniaxial;
        if (may_be_asked(stone, kind, exercise->level) && is_wanted) {
            chosen = chosen == NULL || stone->asked < chosen->asked ? stone : chosen;
            looks++;
        }
    }
    return chosen;
}

static double whole(IfigExercise *exercise, double low, double high)
{
    return low + (double)ifig_exercise_pick(exercise, (size_t)(high - low) + 1);
}

static IfigView draw_view(IfigExercise *exercise, const IfigExerciseStone *stone,
                          IfigQuestionKind kind)
{
    const int is_biaxial = stone->facts.character == IFIG_BIAXIAL;
    const double chance = ifig_exercise_uniform(exercise);
    const IfigView usual = is_biaxial ? IFIG_VIEW_ACUTE_BISECTRIX : IFIG_VIEW_C;
    if (exercise->level < 3 || !is_biaxial || kind == IFIG_QUESTION_SPECIES) {
        return usual;
    }
    return chance < 0.5    ? usual
           : chance < 0.9  ? IFIG_VIEW_OPTIC_AXIS
           : chance < 0.95 ? IFIG_VIEW_OBTUSE_BISECTRIX
                           : IFIG_VIEW_OPTIC_NORMAL;
}

static void draw_tilt(IfigExercise *exercise, IfigQuestionKind kind, IfigOrientation *orientation)
{
    static const double least[4] = {0, 0, 3, 4}, most[4] = {0, 0, 15, 28};
    const int level = exercise->level;
    if (level < 2 || (kind == IFIG_QUESTION_TWO_V && orientation->view == IFIG_VIEW_OPTIC_AXIS)) {
        return; /* the bend of one brush is judged at the centre */
    }
    const double low = kind == IFIG_QUESTION_AXIS ? 5.0 : least[level];
    orientation->tilt_deg = whole(exercise, low, most[level]);
    orientation->tilt_azimuth_deg = whole(exercise, 0, 359);
}

static void draw_orientation(IfigExercise *exercise, const IfigExerciseStone *stone,
                             IfigQuestionKind kind, IfigOrientation *orientation)
{
    const int is_biaxial = stone->facts.character == IFIG_BIAXIAL;
    *orientation = (IfigOrientation)IFIG_ORIENTATION_INIT;
    orientation->view = draw_view(exercise, stone, kind);
    draw_tilt(exercise, kind, orientation);
    if (exercise->level == 1) {
        /* A cross, or the two brushes farthest apart, in either diagonal. */
        orientation->stage_deg = is_biaxial ? 45.0 * whole(exercise, 0, 3) : 0.0;
    } else if (is_biaxial) {
        orientation->stage_deg =
            exercise->level == 2 ? 15.0 * whole(exercise, 0, 23) : whole(exercise, 0, 359);
    }
}

static IfigPlate draw_plate(IfigExercise *exercise, IfigQuestionKind kind)
{
    const IfigPlate none = {IFIG_PLATE_NONE, 0.0, 45.0};
    const double chance = ifig_exercise_uniform(exercise);
    const double slow_deg =
        exercise->level == 3 && ifig_exercise_uniform(exercise) < 0.4 ? 135.0 : 45.0;
    if (kind == IFIG_QUESTION_SIGN) {
        return (IfigPlate){IFIG_PLATE_GYPSUM, 550.0, slow_deg};
    }
    if (exercise->level < 3 || kind == IFIG_QUESTION_TWO_V || chance > 0.35) {
        return none;
    }
    return chance < 0.2 ? (IfigPlate){IFIG_PLATE_GYPSUM, 550.0, slow_deg}
                        : (IfigPlate){IFIG_PLATE_MICA, 137.5, slow_deg};
}

/* Orders of colour within the field: enough to see, few enough to follow. */
static void wanted_orders(int level, IfigQuestionKind kind, double *low, double *high)
{
    static const double range[IFIG_QUESTION_KINDS][3][2] = {
        [IFIG_QUESTION_CHARACTER] = {{3, 14}, {1.5, 18}, {1.5, 40}},
        [IFIG_QUESTION_SIGN] = {{1.5, 8}, {1.2, 9}, {1.2, 10}},
        [IFIG_QUESTION_TWO_V] = {{3, 14}, {1.5, 16}, {1, 24}},
        [IFIG_QUESTION_SPECIES] = {{3, 14}, {2, 15}, {1.5, 16}},
        [IFIG_QUESTION_AXIS] = {{2, 9}, {2, 18}, {1.5, 40}},
    };
    *low = range[kind][level - 1][0];
    *high = range[kind][level - 1][1];
}

/* A thickness of the ladder with so many orders; at level 1 one of the three largest. 0: none. */
static double draw_thickness(IfigExercise *exercise, IfigQuestionKind kind, double orders_per_mm)
{
    static const double ladder[] = {0.03, 0.05, 0.1, 0.2, 0.3, 0.5, 0.7, 1,
                                    1.5,  2,    3,   4,   5,   6,   8,   10};
    enum { STEPS = sizeof ladder / sizeof *ladder };
    double low, high;
    size_t first = STEPS, count = 0;
    wanted_orders(exercise->level, kind, &low, &high);
    for (size_t i = 0; i < STEPS; i++) {
        const double orders = orders_per_mm * ladder[i];
        if (orders >= low && orders <= high) {
            first = count == 0 ? i : first;
            count++;
        }
    }
    if (count == 0) {
        return 0.0;
    }
    if (exercise->level == 1 && count > 3) {
        first += count - 3;
        count = 3;
    }
    return ladder[first + ifig_exercise_pick(exercise, count)];
}

/* Orders within the field of a stone of 1 mm, from rays spread over it: near enough to choose a
 * thickness by. 0 where none passes. */
static double orders_per_mm(const IfigQuestion *question)
{
    enum { RADII = 5, AZIMUTHS = 16 };
    const double wavelength_nm = 589.3, outside = question->instrument.immersion_index;
    double least = HUGE_VAL, most = 0.0;
    for (int i = 0; i < RADII * AZIMUTHS; i++) {
        const double radius = (i / AZIMUTHS) * 0.995 / (RADII - 1);
        const double azimuth = (i % AZIMUTHS) * 2.0 * IFIG_PI / AZIMUTHS;
        double theta_deg, phi_deg;
        IfigPlateWave wave;
        if (ifig_instrument_direction(&question->instrument, radius * cos(azimuth),
                                      radius * sin(azimuth), &theta_deg, &phi_deg,
                                      NULL) == IFIG_OK &&
            ifig_plate_wave(&question->layer, 1, outside, wavelength_nm, theta_deg, phi_deg, &wave,
                            NULL) == IFIG_OK &&
            !wave.is_dark) {
            least = fmin(least, wave.retardation_nm);
            most = fmax(most, wave.retardation_nm);
        }
    }
    return most > least ? (most - least) / wavelength_nm : 0.0;
}

/* The very same stone, lie and kind: no need to look at the picture. */
static int is_asked_already(const IfigExercise *exercise, const IfigQuestion *question)
{
    const IfigOrientation *const lies = &question->layer.orientation;
    for (size_t i = 0; i < exercise->count; i++) {
        const IfigQuestion *const other = &exercise->question[i];
        const IfigOrientation *const lay = &other->layer.orientation;
        if (other->kind == question->kind && other->layer.species == question->layer.species &&
            !(fabs(other->layer.thickness_mm - question->layer.thickness_mm) > 0.0) &&
            lay->view == lies->view && !(fabs(lay->tilt_deg - lies->tilt_deg) > 2.0) &&
            !(fabs(remainder(lay->tilt_azimuth_deg - lies->tilt_azimuth_deg, 360.0)) > 4.0) &&
            !(fabs(remainder(lay->stage_deg - lies->stage_deg, 180.0)) > 4.0)) {
            return 1;
        }
    }
    return 0;
}

int ifig_exercise_lay(IfigExercise *exercise, const IfigExerciseStone *stone,
                      IfigQuestion *question, IfigReading *reading)
{
    *reading = (IfigReading)IFIG_READING_INIT;
    question->layer = (IfigLayer)IFIG_LAYER_INIT;
    question->layer.species = stone->species;
    question->layer.thickness_mm = 1.0;
    question->instrument = (IfigInstrument)IFIG_INSTRUMENT_INIT;
    question->instrument.field_deg = ifig_instrument_field_deg(&question->instrument);
    draw_orientation(exercise, stone, question->kind, &question->layer.orientation);
    const IfigPlate plate = draw_plate(exercise, question->kind);
    question->layer.thickness_mm =
        draw_thickness(exercise, question->kind, orders_per_mm(question));
    if (!(question->layer.thickness_mm > 0.0)) {
        return 0;
    }
    question->instrument.plate = plate;
    if (is_asked_already(exercise, question)) {
        return 0;
    }
    /* A reading leaves a plate out by itself. */
    const IfigScene scene = ifig_question_scene(question, exercise->lamp);
    return ifig_reading(&scene, reading, NULL) == IFIG_OK;
}
