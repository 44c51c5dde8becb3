/* SPDX-License-Identifier: MIT */
/* What must look alike, over many random stones. */
#include "draws.h"

START_TEST(a_stack_turned_over_passes_light_the_same_way_back)
{
    /* Reciprocity (Potton, Rep. Prog. Phys. 67, 717 (2004)): back along the same ray the Jones
     * matrix is the transpose. Turning stack and ray about the north axis brings that ray to
     * (theta, -phi), with p reversed; a stone at Rz(a) Ry(b) Rz(c) comes to Rz(-a) Ry(b + 180)
     * Rz(c). */
    Random random = {101};
    IfigSpecies *stones[STONES];
    double worst = 0;
    draw_stones(&random, stones);
    for (int i = 0; i < DRAWS; i++) {
        IfigLayer stack[3], over[3];
        size_t count = (size_t)(1 + i % 3);
        for (size_t l = 0; l < count; l++) {
            stack[l] = draw_layer(&random, stones);
            IfigLayer turned = stack[l];
            IfigOrientation *o = &turned.orientation;
            o->stage_deg = -o->stage_deg - 2 * o->tilt_azimuth_deg;
            o->tilt_deg -= 180;
            over[count - 1 - l] = turned;
        }
        Beam beam = draw_beam(&random), back = beam;
        back.phi_deg = -beam.phi_deg;
        IfigPlateWave there = wave_of(stack, count, beam), home = wave_of(over, count, back);
        double complex expected[2][2] = {{element(&there, 0, 0), -element(&there, 1, 0)},
                                         {-element(&there, 0, 1), element(&there, 1, 1)}};
        worst = fmax(worst, largest_difference(&home, expected));
    }
    ck_assert_double_lt(worst, 1e-8);
    free_stones(stones);
}
END_TEST

START_TEST(a_mirrored_stone_of_the_other_hand_gives_the_mirrored_figure)
{
    /* The mirror that swaps north and south turns Rz(a) Ry(b) Rz(c) to Rz(-a) Ry(b) Rz(-c), phi to
     * -phi, s to -s, and the hand. */
    Random random = {102};
    IfigSpecies *stones[STONES];
    double worst = 0;
    draw_stones(&random, stones);
    for (int i = 0; i < DRAWS; i++) {
        IfigLayer layer = draw_layer(&random, stones), mirrored = layer;
        mirrored.orientation.stage_deg = -layer.orientation.stage_deg;
        mirrored.orientation.tilt_azimuth_deg = -layer.orientation.tilt_azimuth_deg;
        mirrored.hand = layer.hand == IFIG_HAND_LEFT ? IFIG_HAND_RIGHT : IFIG_HAND_LEFT;
        Beam beam = draw_beam(&random), other = beam;
        other.phi_deg = -beam.phi_deg;
        IfigPlateWave one = wave_of(&layer, 1, beam), two = wave_of(&mirrored, 1, other);
        double complex expected[2][2] = {{element(&one, 0, 0), -element(&one, 0, 1)},
                                         {-element(&one, 1, 0), element(&one, 1, 1)}};
        worst = fmax(worst, largest_difference(&two, expected));
    }
    ck_assert_double_lt(worst, 1e-9);
    free_stones(stones);
}
END_TEST

/* The light at one direction through a whole instrument. */
static double probe(const IfigScene *scene, Beam beam)
{
    IfigProbe result;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_probe(scene, beam.theta_deg, beam.phi_deg, beam.wavelength_nm, &result,
                             &error) == IFIG_OK,
                  "%s", error.message);
    return result.transmittance;
}

static void draw_scene(Random *random, int i, IfigScene *scene)
{
    scene->instrument.lens = i % 2 ? IFIG_LENS_OBJECTIVE : IFIG_LENS_SPHERE;
    scene->instrument.polariser.kind = (IfigPolarKind)(i % 3);
    scene->instrument.analyser.kind = (IfigPolarKind)(i / 3 % 3);
    scene->instrument.polariser.azimuth_deg = random_between(random, -180, 180);
    scene->instrument.analyser.azimuth_deg = random_between(random, -180, 180);
}

START_TEST(stone_and_polars_turned_together_turn_the_picture)
{
    Random random = {103};
    IfigSpecies *stones[STONES];
    IfigLamp *lamp = NULL;
    double worst = 0;
    draw_stones(&random, stones);
    ck_assert_int_eq(ifig_lamp_create_line(SODIUM_NM, &lamp, NULL), IFIG_OK);
    for (int i = 0; i < DRAWS; i++) {
        IfigLayer layers[2] = {draw_layer(&random, stones), draw_layer(&random, stones)};
        IfigScene scene = IFIG_SCENE_INIT;
        scene.layers = layers;
        scene.layer_count = (size_t)(1 + i % 2);
        scene.lamp = lamp;
        draw_scene(&random, i, &scene);
        Beam beam = draw_beam(&random);
        double turn = random_between(&random, -180, 180), before = probe(&scene, beam);
        layers[0].orientation.stage_deg += turn;
        layers[1].orientation.stage_deg += turn;
        scene.instrument.polariser.azimuth_deg += turn;
        scene.instrument.analyser.azimuth_deg += turn;
        beam.phi_deg += turn;
        worst = fmax(worst, fabs(probe(&scene, beam) - before));
    }
    ck_assert_double_lt(worst, 1e-9);
    ifig_lamp_free(lamp);
    free_stones(stones);
}
END_TEST

START_TEST(half_a_turn_of_the_stage_turns_the_picture_by_half_and_keeps_its_centre)
{
    Random random = {104};
    IfigSpecies *stones[STONES];
    IfigLamp *lamp = NULL;
    double worst = 0;
    draw_stones(&random, stones);
    ck_assert_int_eq(ifig_lamp_create_line(SODIUM_NM, &lamp, NULL), IFIG_OK);
    for (int i = 0; i < DRAWS; i++) {
        IfigLayer layer = draw_layer(&random, stones);
        IfigScene scene = IFIG_SCENE_INIT;
        scene.layers = &layer;
        scene.layer_count = 1;
        scene.lamp = lamp;
        draw_scene(&random, i, &scene);
        Beam beam = draw_beam(&random);
        beam.theta_deg = i % 4 == 0 ? 0 : beam.theta_deg;
        double before = probe(&scene, beam);
        layer.orientation.stage_deg += 180;
        beam.phi_deg += i % 4 == 0 ? 0 : 180;
        worst = fmax(worst, fabs(probe(&scene, beam) - before));
    }
    ck_assert_double_lt(worst, 1e-9);
    ifig_lamp_free(lamp);
    free_stones(stones);
}
END_TEST

START_TEST(a_singly_refractive_stone_is_dark_between_crossed_polars_on_axis_and_along_both_polars)
{
    Random random = {105};
    for (int i = 0; i < DRAWS; i++) {
        IfigSpecies *stone = stone_of((const double[]){random_between(&random, 1.3, 2.6)}, 1, 0);
        IfigLayer layer = layer_of(stone, IFIG_VIEW_Z, random_between(&random, 0.01, 50));
        Beam beam = draw_beam(&random);
        double polariser = random_between(&random, -180, 180);
        beam.phi_deg = polariser + 90.0 * (i % 4);
        beam.theta_deg = i % 2 ? 0 : beam.theta_deg;
        IfigPlateWave wave = wave_of(&layer, 1, beam);
        ck_assert_double_lt(through_polars(&wave, beam, polariser, polariser + 90), 1e-20);
        ifig_species_free(stone);
    }
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("symmetry");
    tcase_add_test(facts, a_stack_turned_over_passes_light_the_same_way_back);
    tcase_add_test(facts, a_mirrored_stone_of_the_other_hand_gives_the_mirrored_figure);
    tcase_add_test(facts, stone_and_polars_turned_together_turn_the_picture);
    tcase_add_test(facts, half_a_turn_of_the_stage_turns_the_picture_by_half_and_keeps_its_centre);
    tcase_add_test(
        facts,
        a_singly_refractive_stone_is_dark_between_crossed_polars_on_axis_and_along_both_polars);
    return run_case(facts, "symmetry");
}
