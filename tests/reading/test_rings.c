/* SPDX-License-Identifier: MIT */
/* Rings: their angles by law, by exact waves, and in the picture. */
#include "reading_test.h"

START_TEST(rings_of_uniaxial_plates_stand_where_the_law_puts_them)
{
    /* Check values C1, C2, C4, C5: t no |sqrt(1 - s^2/ne^2) - sqrt(1 - s^2/no^2)| = m lambda (Born
     * & Wolf, Principles of Optics, interference in crystal plates, from memory). */
    static const struct {
        double omega, epsilon, thickness, ring[5];
    } cases[] = {{1.65834, 1.48613, 1, {5.118, 7.242, 8.874, 10.253, 11.469}},
                 {1.54421, 1.55331, 5, {10.134, 14.360, 17.624, 20.394, 22.851}},
                 {1.925, 1.984, 2, {7.988, 11.320, 13.892, 16.074, 18.009}},
                 {1.577, 1.571, 3, {16.392, 23.320, 28.743, 33.420, 37.646}}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        Bench bench;
        IfigSpecies *stone = uniaxial_stone(cases[i].omega, cases[i].epsilon);
        set_bench(&bench, stone, IFIG_VIEW_C, cases[i].thickness, 0);
        IfigReading reading = reading_of(&bench);
        ck_assert_uint_eq(reading.melatope[0].ring_count, IFIG_READING_RINGS_MAX);
        for (int ring = 0; ring < 5; ring++) {
            ck_assert_double_eq_tol(reading.melatope[0].ring_deg[ring], cases[i].ring[ring], 0.01);
        }
        clear_bench(&bench);
        ifig_species_free(stone);
    }
}
END_TEST

START_TEST(rotation_pulls_the_rings_of_quartz_inwards)
{
    /* Check value E12, law: D^2 = dl^2 + (2 rho t)^2 reaches 2 pi sooner. */
    Bench plain, active;
    IfigSpecies *stone = uniaxial_stone(1.54421, 1.55331);
    set_bench(&plain, stone, IFIG_VIEW_C, 5, 0);
    set_bench(&active, builtin("quartz"), IFIG_VIEW_C, 5, 0);
    IfigReading without = reading_of(&plain), with = reading_of(&active);
    for (int ring = 0; ring < 4; ring++) {
        ck_assert_double_lt(with.melatope[0].ring_deg[ring], without.melatope[0].ring_deg[ring]);
    }
    clear_bench(&plain);
    clear_bench(&active);
    ifig_species_free(stone);
}
END_TEST

START_TEST(each_ring_is_a_whole_number_of_wavelengths)
{
    static const char *const keys[] = {"muscovite", "borax", "titanite", "brookite", "quartz"};
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++) {
        Bench bench;
        IfigError error = IFIG_ERROR_INIT;
        set_bench(&bench, builtin(keys[i]), IFIG_VIEW_DEFAULT, 0.7, 20);
        IfigReading reading = reading_of(&bench);
        for (size_t m = 0; m < reading.melatope_count; m++) {
            const IfigMelatope *melatope = &reading.melatope[m];
            /* Outward of a centred uniaxial melatope is the first diagonal. */
            double phi = reading.melatope_count == 1 ? 45 : melatope->phi_deg;
            ck_assert_uint_ge(melatope->ring_count, 2);
            for (size_t ring = 0; ring < melatope->ring_count; ring++) {
                IfigProbe probe;
                ck_assert_int_eq(ifig_probe(&bench.scene, melatope->ring_deg[ring], phi, SODIUM_NM,
                                            &probe, &error),
                                 IFIG_OK);
                ck_assert_double_eq_tol(probe.wave.retardation_nm / SODIUM_NM, (double)ring + 1,
                                        1e-6);
            }
        }
        clear_bench(&bench);
    }
}
END_TEST

/* The azimuth of the ray of inclination theta on the straight line, in the sines of the rays'
 * angles, that leaves a melatope at an azimuth. */
static double azimuth_on_line(const IfigMelatope *from, double line_deg, double theta_deg)
{
    double sine = sin(from->theta_deg * IFIG_DEGREE), wanted = sin(theta_deg * IFIG_DEGREE);
    double x = sine * cos(from->phi_deg * IFIG_DEGREE), y = sine * sin(from->phi_deg * IFIG_DEGREE);
    double way_x = cos(line_deg * IFIG_DEGREE), way_y = sin(line_deg * IFIG_DEGREE);
    double along = x * way_x + y * way_y;
    double distance = sqrt(along * along + wanted * wanted - sine * sine) - along;
    return atan2(y + distance * way_y, x + distance * way_x) / IFIG_DEGREE;
}

START_TEST(rings_of_a_leaning_uniaxial_stone_are_counted_on_the_diagonal_of_the_polars)
{
    static const double polariser[] = {0, 25, -60}, diagonal[] = {45, 25 + 45, -60 + 90 + 45};
    for (size_t i = 0; i < 3; i++) {
        Bench bench;
        IfigError error = IFIG_ERROR_INIT;
        set_bench(&bench, builtin("calcite"), IFIG_VIEW_C, 0.3, 0);
        bench.layer.orientation.tilt_deg = 6;
        bench.layer.orientation.tilt_azimuth_deg = diagonal[i] - 25;
        bench.scene.instrument.polariser.azimuth_deg = polariser[i];
        bench.scene.instrument.analyser.azimuth_deg = polariser[i] + 90;
        IfigReading reading = reading_of(&bench);
        const IfigMelatope *melatope = &reading.melatope[0];
        ck_assert_double_gt(melatope->theta_deg, 5);
        ck_assert_uint_ge(melatope->ring_count, 3);
        for (size_t ring = 0; ring < 3; ring++) {
            double theta = melatope->ring_deg[ring];
            IfigProbe probe;
            ck_assert_int_eq(ifig_probe(&bench.scene, theta,
                                        azimuth_on_line(melatope, diagonal[i], theta), SODIUM_NM,
                                        &probe, &error),
                             IFIG_OK);
            ck_assert_double_eq_tol(probe.wave.retardation_nm / SODIUM_NM, (double)ring + 1, 1e-6);
        }
        clear_bench(&bench);
    }
}
END_TEST

/* Dark places along a diagonal of the picture, outward, as theta. */
static size_t dark_rings(const Bench *bench, float (*xyz)[3], double azimuth_deg, double ring[4])
{
    size_t found = 0;
    int has_been_bright = 0; /* since the last dark place */
    double before = HUGE_VAL, here = HUGE_VAL, phi;
    const double step = 0.25 / PIXELS, way_x = cos(azimuth_deg * IFIG_DEGREE),
                 way_y = sin(azimuth_deg * IFIG_DEGREE);
    for (double r = 4.0 / PIXELS; r < 0.95 && found < 4; r += step) {
        double next = brightness_at(xyz, r * way_x, r * way_y);
        has_been_bright |= here < HUGE_VAL && here > 0.3;
        if (has_been_bright && here < before && here <= next && here < 0.15) {
            double at = r - step;
            ck_assert_int_eq(ifig_instrument_direction(&bench->scene.instrument, at * way_x,
                                                       at * way_y, &ring[found], &phi, NULL),
                             IFIG_OK);
            found++;
            has_been_bright = 0;
        }
        before = here;
        here = next;
    }
    return found;
}

START_TEST(rings_stand_where_the_picture_is_dark)
{
    static const struct {
        const char *key;
        double thickness;
    } cases[] = {{"calcite", 0.3}, {"zircon_high", 0.5}, {"quartz", 3}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        Bench bench;
        double ring[4];
        set_bench(&bench, builtin(cases[i].key), IFIG_VIEW_C, cases[i].thickness, 0);
        light_by_sodium(&bench);
        IfigReading reading = reading_of(&bench);
        float(*xyz)[3] = picture_of(&bench);
        ck_assert_uint_eq(dark_rings(&bench, xyz, 45, ring), 4);
        for (int k = 0; k < 4; k++) {
            /* A pixel spans 0.2 degrees or less. */
            ck_assert_double_eq_tol(ring[k], reading.melatope[0].ring_deg[k], 0.2);
        }
        free(xyz);
        clear_bench(&bench);
    }
}
END_TEST

START_TEST(orders_in_the_field_are_counted_from_the_least_retardation)
{
    /* Law: at the melatope none; at the rim of a uniaxial plate as in the first test. */
    Bench bench;
    const double no = 1.65834, ne = 1.48613, s = sin(55 * IFIG_DEGREE);
    IfigSpecies *stone = uniaxial_stone(no, ne);
    set_bench(&bench, stone, IFIG_VIEW_C, 1, 0);
    IfigReading reading = reading_of(&bench);
    double most = 1e6 * no * fabs(sqrt(1 - s * s / (ne * ne)) - sqrt(1 - s * s / (no * no)));
    ck_assert_double_eq_tol(reading.orders_in_field, most / SODIUM_NM, 1e-3);
    ck_assert_double_eq_tol(reading.least_nm, 0, 1e-6);
    clear_bench(&bench);
    /* Along a bisectrix of topaz, 2E beyond the rim, the least lies on the rim, the most elsewhere.
     */
    set_bench(&bench, builtin("topaz_f"), IFIG_VIEW_ACUTE_BISECTRIX, 1, 0);
    reading = reading_of(&bench);
    ck_assert_double_gt(reading.least_nm, 0);
    ck_assert_double_lt(reading.least_nm, reading.centre_retardation_nm);
    ck_assert_double_gt(reading.most_nm, reading.centre_retardation_nm);
    ck_assert_double_eq_tol(reading.orders_in_field,
                            (reading.most_nm - reading.least_nm) / SODIUM_NM, 1e-9);
    clear_bench(&bench);
    ifig_species_free(stone);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("rings");
    tcase_add_test(facts, rings_of_uniaxial_plates_stand_where_the_law_puts_them);
    tcase_add_test(facts, rotation_pulls_the_rings_of_quartz_inwards);
    tcase_add_test(facts, each_ring_is_a_whole_number_of_wavelengths);
    tcase_add_test(facts,
                   rings_of_a_leaning_uniaxial_stone_are_counted_on_the_diagonal_of_the_polars);
    tcase_add_test(facts, rings_stand_where_the_picture_is_dark);
    tcase_add_test(facts, orders_in_the_field_are_counted_from_the_least_retardation);
    return run_case(facts, "readings of rings");
}
