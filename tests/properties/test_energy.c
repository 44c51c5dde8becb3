/* SPDX-License-Identifier: MIT */
/* What must add up, and what must be smooth, over many random stones. */
#include "draws.h"

START_TEST(no_stack_gives_more_light_than_it_takes)
{
    Random random = {201};
    IfigSpecies *stones[STONES];
    double most = 0;
    draw_stones(&random, stones);
    for (int i = 0; i < DRAWS; i++) {
        IfigLayer stack[IFIG_LAYERS_MAX];
        size_t count = (size_t)(1 + i % IFIG_LAYERS_MAX);
        for (size_t l = 0; l < count; l++) {
            stack[l] = draw_layer(&random, stones);
        }
        Beam beam = draw_beam(&random);
        beam.theta_deg = random_between(&random, 0, 89.9);
        IfigPlateWave wave = wave_of(stack, count, beam);
        double share = largest_share(&wave);
        ck_assert_msg(share <= 1 + 1e-12 && share > 0, "draw %d gives %.15f", i, share);
        most = fmax(most, share);
    }
    ck_assert_double_gt(most, 0.9); /* and some lose next to nothing */
    free_stones(stones);
}
END_TEST

START_TEST(two_analysers_at_right_angles_share_the_light_whatever_their_azimuth)
{
    Random random = {202};
    IfigSpecies *stones[STONES];
    double worst = 0;
    draw_stones(&random, stones);
    for (int i = 0; i < DRAWS; i++) {
        IfigLayer layer = draw_layer(&random, stones);
        Beam beam = draw_beam(&random);
        double polariser = random_between(&random, 0, 180), sum[2];
        IfigPlateWave wave = wave_of(&layer, 1, beam);
        for (int k = 0; k < 2; k++) {
            double analyser = random_between(&random, 0, 180);
            sum[k] = through_polars(&wave, beam, polariser, analyser) +
                     through_polars(&wave, beam, polariser, analyser + 90);
        }
        worst = fmax(worst, fabs(sum[0] - sum[1]));
    }
    ck_assert_double_lt(worst, 1e-13);
    free_stones(stones);
}
END_TEST

START_TEST(crossed_and_parallel_light_add_up_without_a_fringe)
{
    /* Seen squarely, the two waves of a stone that does not rotate are linear and at right angles:
     * what leaves does not know the thickness. */
    Random random = {203};
    IfigSpecies *stones[STONES];
    double worst = 0, swing = 0;
    draw_stones(&random, stones);
    for (int i = 0; i < DRAWS; i++) {
        IfigLayer layer = draw_layer(&random, stones);
        layer.species = inactive_stone(stones, i);
        Beam beam = draw_beam(&random);
        beam.theta_deg = 0;
        double sum[2], crossed[2];
        for (int k = 0; k < 2; k++) {
            IfigPlateWave wave = wave_of(&layer, 1, beam);
            crossed[k] = through_polars(&wave, beam, 0, 90);
            sum[k] = crossed[k] + through_polars(&wave, beam, 0, 0);
            layer.thickness_mm = random_between(&random, 0.01, 5);
        }
        worst = fmax(worst, fabs(sum[0] - sum[1]));
        swing = fmax(swing, fabs(crossed[0] - crossed[1]));
    }
    ck_assert_double_lt(worst, 1e-9);
    ck_assert_double_gt(swing, 0.5); /* where each of them alone does */
    free_stones(stones);
}
END_TEST

START_TEST(twice_the_thickness_is_twice_the_retardation)
{
    Random random = {204};
    IfigSpecies *stones[STONES];
    draw_stones(&random, stones);
    for (int i = 0; i < DRAWS; i++) {
        IfigLayer layer = draw_layer(&random, stones);
        Beam beam = draw_beam(&random);
        double once = retardation_of(&layer, beam);
        IfigLayer pair[2] = {layer, layer};
        ck_assert_double_eq_tol(wave_of(pair, 2, beam).retardation_nm, 2 * once, 1e-6);
        layer.thickness_mm *= 2;
        ck_assert_double_le(fabs(retardation_of(&layer, beam) - 2 * once), 1e-14 * once);
    }
    free_stones(stones);
}
END_TEST

START_TEST(light_is_smooth_through_an_optic_axis)
{
    /* Steps of 1e-9 rad over the axis: the matrix may change by no more than the path allows, k0 d
     * times birefringence times the step, at most 4e-6 here. Conical refraction is a kink, no jump.
     */
    Random random = {205};
    for (int i = 0; i < 500; i++) {
        double low = random_between(&random, 1.4, 2.2),
               spread = random_between(&random, 0.001, 0.2);
        double n[3] = {low, low + spread * random_between(&random, 0.05, 0.95), low + spread};
        IfigSpecies *stone = stone_of(n, i % 2 ? 3 : 2, i % 4 < 2 ? 0 : 100);
        IfigLayer layer = layer_of(stone, IFIG_VIEW_OPTIC_AXIS, 1);
        layer.orientation.stage_deg = random_between(&random, 0, 360);
        layer.orientation.tilt_azimuth_deg = random_between(&random, 0, 360);
        Beam beam = {1, SODIUM_NM, 0, random_between(&random, 0, 360)};
        double limit = 2 * IFIG_PI * 1e6 / SODIUM_NM * spread * 1e-9 * 2 + 1e-10;
        IfigPlateWave before;
        for (int step = -20; step <= 20; step++) {
            layer.orientation.tilt_deg = step * 1e-9 / IFIG_DEGREE;
            IfigPlateWave here = wave_of(&layer, 1, beam);
            for (int e = 0; step > -20 && e < 4; e++) {
                double change = cabs(element(&here, e / 2, e % 2) - element(&before, e / 2, e % 2));
                ck_assert_msg(change < limit, "step %d: %.2e, limit %.2e", step, change, limit);
            }
            ck_assert(isfinite(here.retardation_nm));
            before = here;
        }
        ifig_species_free(stone);
    }
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("energy");
    tcase_add_test(facts, no_stack_gives_more_light_than_it_takes);
    tcase_add_test(facts, two_analysers_at_right_angles_share_the_light_whatever_their_azimuth);
    tcase_add_test(facts, crossed_and_parallel_light_add_up_without_a_fringe);
    tcase_add_test(facts, twice_the_thickness_is_twice_the_retardation);
    tcase_add_test(facts, light_is_smooth_through_an_optic_axis);
    return run_case(facts, "energy");
}
