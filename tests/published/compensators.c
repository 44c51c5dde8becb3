/* SPDX-License-Identifier: MIT */
/* Accessory plates: check values F (compensators) and G (optic sign). */
#include "optics_test.h"

#include "interfig/figure.h"

static const double GREEN_NM = 546.1;

/* Transmittance at one direction and wavelength. */
static double through(const IfigLayer *stone, const IfigInstrument *instrument, double nm,
                      double theta_deg, double phi_deg)
{
    IfigLamp *lamp = NULL;
    IfigScene scene = IFIG_SCENE_INIT;
    IfigProbe probe;
    ck_assert_int_eq(ifig_lamp_create_line(nm, &lamp, NULL), IFIG_OK);
    scene.layers = stone;
    scene.layer_count = 1;
    scene.instrument = *instrument;
    scene.lamp = lamp;
    ck_assert_int_eq(ifig_probe(&scene, theta_deg, phi_deg, nm, &probe, NULL), IFIG_OK);
    ifig_lamp_free(lamp);
    return probe.transmittance;
}

/* A plate cut along its axis, slow direction NE-SW, in its own liquid so that faces do nothing. */
static IfigLayer specimen(IfigSpecies **species, double retardation_nm)
{
    const double indices[2] = {1.5, 1.501};
    IfigLayer layer = IFIG_LAYER_INIT;
    ck_assert_int_eq(ifig_species_from_indices(indices, 2, 0, species, NULL), IFIG_OK);
    layer.species = *species;
    layer.orientation.view = IFIG_VIEW_X; /* Z, the slow direction, lies north */
    layer.orientation.stage_deg = -45;
    layer.thickness_mm = retardation_nm * 1e-6 / (indices[1] - indices[0]);
    return layer;
}

static IfigInstrument bench(void)
{
    IfigInstrument instrument = IFIG_INSTRUMENT_INIT;
    instrument.lens = IFIG_LENS_OBJECTIVE;
    instrument.aperture = 0.4;
    instrument.immersion_index = 1.5;
    return instrument;
}

/* The turn of the analyser from crossed at which a Senarmont compensator is darkest, degrees: from
 * T(A) = a + b cos 2A + c sin 2A at three azimuths. */
static double senarmont_turn(double retardation_nm)
{
    IfigSpecies *species;
    IfigLayer stone = specimen(&species, retardation_nm);
    IfigInstrument instrument = bench();
    instrument.plate = (IfigPlate){IFIG_PLATE_MICA, 0.25 * GREEN_NM, 0};
    double t[3];
    for (int i = 0; i < 3; i++) {
        instrument.analyser.azimuth_deg = 90 + 60 * i;
        t[i] = through(&stone, &instrument, GREEN_NM, 0, 0);
    }
    ifig_species_free(species);
    double mean = (t[0] + t[1] + t[2]) / 3;
    double b = 0, c = 0;
    for (int i = 0; i < 3; i++) {
        b += 2.0 / 3 * (t[i] - mean) * cos(2 * (60 * i) * IFIG_DEGREE);
        c += 2.0 / 3 * (t[i] - mean) * sin(2 * (60 * i) * IFIG_DEGREE);
    }
    double darkest = 0.5 * atan2(-c, -b) / IFIG_DEGREE;
    return darkest < 0 ? darkest + 180 : darkest;
}

START_TEST(senarmont_turns_a_degree_for_3_034_nm_at_546_1)
{
    /* F1, F2: angle = 180 G / lambda (law; common practice, no source); 137 nm: 45.2 deg */
    static const double nm[] = {20, 137, 250, 400, 500};
    for (int i = 0; i < 5; i++) {
        double turn = senarmont_turn(nm[i]);
        double either =
            fmin(fabs(turn - 180 * nm[i] / GREEN_NM), fabs(180 - turn - 180 * nm[i] / GREEN_NM));
        ck_assert_double_lt(either, 0.06);
    }
    ck_assert_double_eq_tol(GREEN_NM / 180, 3.034, 0.001);
    /* the turn grows one way with retardation: it is no sign of chance */
    double first = senarmont_turn(50), second = senarmont_turn(100), third = senarmont_turn(150);
    ck_assert_double_gt((second - first) * (third - second), 0);
}
END_TEST

START_TEST(wedge_is_dark_where_it_takes_the_specimens_retardation_away)
{
    /* F3: common practice, no source */
    IfigSpecies *species;
    IfigLayer stone = specimen(&species, 700);
    IfigInstrument instrument = bench();
    const IfigPlate unit = {IFIG_PLATE_QUARTZ, 1000, -45};
    double ratio = ifig_plate_retardation_nm(&unit, SODIUM_NM) / 1000;
    instrument.plate = (IfigPlate){IFIG_PLATE_QUARTZ, 700 / ratio, -45};
    ck_assert_double_lt(through(&stone, &instrument, SODIUM_NM, 0, 0), 1e-5);
    instrument.plate.slow_azimuth_deg = 45; /* turned by 90 degrees it adds: 1400 nm */
    double sine = sin(IFIG_PI * 1400 / SODIUM_NM);
    ck_assert_double_eq_tol(through(&stone, &instrument, SODIUM_NM, 0, 0), sine * sine, 1e-3);
    ifig_species_free(species);
}
END_TEST

/* A uniaxial stone seen along its axis, without rotation. */
static IfigLayer on_axis(IfigSpecies **species, int positive)
{
    const double indices[2] = {positive ? 1.544 : 1.553, positive ? 1.553 : 1.544};
    IfigLayer layer = IFIG_LAYER_INIT;
    ck_assert_int_eq(ifig_species_from_indices(indices, 2, 0, species, NULL), IFIG_OK);
    layer.species = *species;
    layer.thickness_mm = 1;
    return layer;
}

/* The theta of the first dark place outward along phi, degrees, and its light. */
static double first_dark(const IfigLayer *stone, const IfigInstrument *instrument, double phi_deg,
                         double *light)
{
    double before = through(stone, instrument, SODIUM_NM, 0.5, phi_deg);
    double here = through(stone, instrument, SODIUM_NM, 0.55, phi_deg);
    for (double theta = 0.6; theta < 40; theta += 0.05) {
        double behind = through(stone, instrument, SODIUM_NM, theta, phi_deg);
        if (here < before && here <= behind) {
            *light = here;
            return theta - 0.05;
        }
        before = here;
        here = behind;
    }
    *light = 1;
    return 90;
}

START_TEST(quarter_wave_plate_leaves_two_dark_spots_where_it_subtracts)
{
    /* G7: uniaxial positive, slow NE-SW: spots close to the centre in NW and SE (common practice,
     * from memory); negative: in NE and SW. */
    for (int positive = 0; positive < 2; positive++) {
        IfigSpecies *species;
        IfigLayer stone = on_axis(&species, positive);
        IfigInstrument instrument = bench();
        instrument.immersion_index = 1;
        instrument.aperture = 0.9;
        instrument.plate = (IfigPlate){IFIG_PLATE_MICA, 0.25 * SODIUM_NM, 45};
        for (int quadrant = 0; quadrant < 4; quadrant++) {
            double light, theta = first_dark(&stone, &instrument, 45 + 90 * quadrant, &light);
            int subtracts = positive == quadrant % 2;
            ck_assert_double_lt(light, 0.01);
            /* A quarter of a wave takes the spot to 1/4 of the first ring's retardation, or the
             * ring to 3/4 of it: radii 1/2 and 0.87 of the ring's. */
            instrument.plate.material = IFIG_PLATE_NONE;
            double ring_light, ring = first_dark(&stone, &instrument, 45, &ring_light);
            instrument.plate.material = IFIG_PLATE_MICA;
            ck_assert_double_eq_tol(sin(theta * IFIG_DEGREE) / sin(ring * IFIG_DEGREE),
                                    subtracts ? 0.5 : 0.866, 0.02);
        }
        ifig_species_free(species);
    }
}
END_TEST

START_TEST(rings_move_inward_where_the_wedge_adds_and_outward_where_it_subtracts)
{
    /* G8: common practice, from memory; law */
    IfigSpecies *species;
    IfigLayer stone = on_axis(&species, 1);
    IfigInstrument instrument = bench();
    instrument.immersion_index = 1;
    instrument.aperture = 0.9;
    double before[2] = {0, 0}, light;
    for (int step = 0; step < 4; step++) {
        instrument.plate = (IfigPlate){IFIG_PLATE_QUARTZ, 100 + 100 * step, 45};
        double adds = first_dark(&stone, &instrument, 45, &light);
        double subtracts = first_dark(&stone, &instrument, 135, &light);
        if (step > 0) {
            ck_assert_double_lt(adds, before[0]);
            ck_assert_double_gt(subtracts, before[1]);
        }
        before[0] = adds;
        before[1] = subtracts;
    }
    ifig_species_free(species);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("compensators");
    tcase_add_test(facts, senarmont_turns_a_degree_for_3_034_nm_at_546_1);
    tcase_add_test(facts, wedge_is_dark_where_it_takes_the_specimens_retardation_away);
    tcase_add_test(facts, quarter_wave_plate_leaves_two_dark_spots_where_it_subtracts);
    tcase_add_test(facts, rings_move_inward_where_the_wedge_adds_and_outward_where_it_subtracts);
    return run_case(facts, "compensators");
}
