/* SPDX-License-Identifier: MIT */
/* What is seldom asked for: other polars than crossed ones, oil, total reflection. */
#include "reading_test.h"

#include "reading.h"

/* The words for what a bench shows. */
typedef struct Said {
    char text[IFIG_READING_TEXT_MAX];
} Said;

static Said said_of(const Bench *bench)
{
    Said said;
    IfigReading reading = reading_of(bench);
    ck_assert_int_eq(ifig_reading_describe(&reading, said.text, sizeof said.text, NULL), IFIG_OK);
    return said;
}

static void assert_says(const Said *said, const char *phrase)
{
    ck_assert_msg(strstr(said->text, phrase) != NULL, "not '%s' in: %s", phrase, said->text);
}

static void set_polars(Bench *bench, IfigPolar lower, IfigPolar upper)
{
    bench->scene.instrument.polariser = lower;
    bench->scene.instrument.analyser = upper;
}

START_TEST(rings_are_called_by_how_the_polars_stand)
{
    static const struct {
        IfigPolar lower, upper;
        const char *rings, *brushes;
    } cases[] = {
        {{IFIG_POLAR_LINEAR, 0}, {IFIG_POLAR_LINEAR, 90}, "Dark rings of 589.3 nm", "a cross"},
        {{IFIG_POLAR_LINEAR, 20}, {IFIG_POLAR_LINEAR, 20}, "Between parallel polars", ""},
        {{IFIG_POLAR_LINEAR, 0}, {IFIG_POLAR_LINEAR, 50}, "Rings of whole wavelengths of", ""},
        {{IFIG_POLAR_LEFT, 0}, {IFIG_POLAR_RIGHT, 0}, "Dark rings of", "no brush is dark"},
        {{IFIG_POLAR_LEFT, 0}, {IFIG_POLAR_LEFT, 0}, "Rings of whole wavelengths", "no brush"},
        {{IFIG_POLAR_LEFT, 0}, {IFIG_POLAR_LINEAR, 0}, "Rings of whole wavelengths", "no brush"},
        {{IFIG_POLAR_LINEAR, 0}, {IFIG_POLAR_LEFT, 0}, "Rings of whole wavelengths", "no brush"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        Bench bench;
        set_bench(&bench, builtin("calcite"), IFIG_VIEW_C, 1, 0);
        light_by_sodium(&bench);
        set_polars(&bench, cases[i].lower, cases[i].upper);
        Said said = said_of(&bench);
        assert_says(&said, cases[i].rings);
        assert_says(&said, cases[i].brushes);
        clear_bench(&bench);
    }
}
END_TEST

START_TEST(a_figure_in_oil_is_told_as_in_the_liquid)
{
    Bench bench;
    set_bench(&bench, builtin("topaz_f"), IFIG_VIEW_ACUTE_BISECTRIX, 1, 0);
    Said said = said_of(&bench);
    assert_says(&said, "Seen in air along the acute bisectrix");
    use_objective(&bench, 1.25, 1.515);
    said = said_of(&bench);
    assert_says(&said, "Seen in the liquid along the acute bisectrix");
    clear_bench(&bench);
}
END_TEST

/* Law: the retardation of a uniaxial plate, c along the light, at tangent s of the ray. */
static double uniaxial_nm(double no, double ne, double s)
{
    return 1e6 * no * fabs(sqrt(1 - s * s / (ne * ne)) - sqrt(1 - s * s / (no * no)));
}

START_TEST(beyond_the_critical_angle_nothing_is_read)
{
    /* In oil of index 1.515 a stone of lower index reflects totally where 1.515 sin(theta) passes
     * that index. The field then spans what lies within, to the last of 40 circles there. */
    Bench bench;
    const double no = 1.40, ne = 1.42, oil = 1.515, aperture = 1.45;
    IfigSpecies *stone = uniaxial_stone(no, ne);
    set_bench(&bench, stone, IFIG_VIEW_C, 1, 0);
    use_objective(&bench, aperture, oil);
    IfigReading reading = reading_of(&bench);
    ck_assert_double_gt(oil * sin(reading.field_deg * IFIG_DEGREE), ne);
    ck_assert_double_eq_tol(reading.least_nm, 0, 1e-6);
    ck_assert_double_le(reading.most_nm, uniaxial_nm(no, ne, no));
    ck_assert_double_ge(reading.most_nm, uniaxial_nm(no, ne, no - aperture / 40));
    clear_bench(&bench);
    ifig_species_free(stone);
}
END_TEST

START_TEST(an_axis_that_cannot_leave_is_told)
{
    Bench bench;
    set_bench(&bench, builtin("topaz_f"), IFIG_VIEW_OBTUSE_BISECTRIX, 1, 0);
    IfigReading reading = reading_of(&bench);
    Said said = said_of(&bench);
    ck_assert_uint_eq(reading.melatope_count, 2);
    ck_assert_int_eq(reading.melatope[0].leaves, 0);
    ck_assert(isnan(reading.melatope[0].theta_deg) && isnan(reading.melatope[0].x));
    ck_assert_uint_eq(reading.melatope[0].ring_count, 0);
    assert_says(&said, "cannot leave the stone in air: total reflection");
    clear_bench(&bench);
}
END_TEST

START_TEST(an_accessory_plate_is_left_out_and_told)
{
    Bench bench;
    set_bench(&bench, builtin("calcite"), IFIG_VIEW_C, 1, 0);
    IfigReading bare = reading_of(&bench);
    bench.scene.instrument.plate =
        (IfigPlate){.material = IFIG_PLATE_GYPSUM, .retardation_nm = 551, .slow_azimuth_deg = 45};
    IfigReading reading = reading_of(&bench);
    Said said = said_of(&bench);
    ck_assert_int_eq(reading.plate_left_out, 1);
    assert_says(&said, "The accessory plate is left out of this reading.");
    ck_assert_mem_eq(bare.centre_srgb, reading.centre_srgb, sizeof bare.centre_srgb);
    clear_bench(&bench);
}
END_TEST

START_TEST(one_axis_of_two_in_the_field_is_where_the_plate_is_read)
{
    /* Along one axis of topaz the other lies 60 degrees off, outside the field; the stage turns it
     * to either side, so that each of the two is once the one that is seen. */
    for (int turned = 0; turned < 2; turned++) {
        Bench bench;
        set_bench(&bench, builtin("topaz_f"), IFIG_VIEW_ACUTE_BISECTRIX, 1, 0);
        bench.layer.orientation.tilt_deg = 30;
        bench.layer.orientation.tilt_azimuth_deg = turned * 180.0;
        IfigReading reading = reading_of(&bench);
        Said said = said_of(&bench);
        ck_assert_uint_eq(reading.melatope_count, 2);
        ck_assert_int_ne(reading.melatope[0].in_field, reading.melatope[1].in_field);
        ck_assert_int_eq(reading.plate_between, IFIG_PLATE_EFFECT_NONE);
        ck_assert_int_ne(reading.plate[IFIG_QUADRANT_NE], IFIG_PLATE_EFFECT_NONE);
        assert_says(&said, "positive");
        clear_bench(&bench);
    }
}
END_TEST

START_TEST(of_many_rings_the_first_are_counted)
{
    /* 30 mm of calcite: 30e6 (1.658 - 1.486) sin^2 / 589 orders, hundreds in the field. */
    Bench bench;
    set_bench(&bench, builtin("calcite"), IFIG_VIEW_C, 30, 0);
    IfigReading reading = reading_of(&bench);
    ck_assert_uint_eq(reading.melatope[0].ring_count, IFIG_READING_RINGS_MAX);
    for (int i = 1; i < IFIG_READING_RINGS_MAX; i++) {
        ck_assert_double_gt(reading.melatope[0].ring_deg[i], reading.melatope[0].ring_deg[i - 1]);
    }
    clear_bench(&bench);
}
END_TEST

START_TEST(a_ray_that_no_wave_follows_has_neither_retardation_nor_slow_direction)
{
    Bench bench;
    IfigSight sight;
    set_bench(&bench, builtin("quartz"), IFIG_VIEW_X, 1, 0);
    use_objective(&bench, 1.5, 1.8);
    ck_assert_int_eq(ifig_sight_create(&bench.scene, SODIUM_NM, &sight, NULL), IFIG_OK);
    const IfigTangent straight = {0, 0}, beyond = {1.7, 0}; /* its indices are 1.544 and 1.553 */
    ck_assert(!isnan(ifig_sight_retardation(&sight, straight)));
    ck_assert(!isnan(ifig_sight_slow_along(&sight, straight, 0)));
    ck_assert(isnan(ifig_sight_retardation(&sight, beyond)));
    ck_assert(isnan(ifig_sight_slow_along(&sight, beyond, 0)));
    clear_bench(&bench);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("seldom");
    tcase_add_test(facts, rings_are_called_by_how_the_polars_stand);
    tcase_add_test(facts, a_figure_in_oil_is_told_as_in_the_liquid);
    tcase_add_test(facts, beyond_the_critical_angle_nothing_is_read);
    tcase_add_test(facts, an_axis_that_cannot_leave_is_told);
    tcase_add_test(facts, an_accessory_plate_is_left_out_and_told);
    tcase_add_test(facts, one_axis_of_two_in_the_field_is_where_the_plate_is_read);
    tcase_add_test(facts, of_many_rings_the_first_are_counted);
    tcase_add_test(facts, a_ray_that_no_wave_follows_has_neither_retardation_nor_slow_direction);
    return run_case(facts, "readings of what is seldom asked for");
}
