/* SPDX-License-Identifier: MIT */
/* A stack of grains that lie every way: held to a Monte Carlo on Stokes vectors, to exact waves,
 * and to what an aggregate shows. */
#include "blink_test.h"
#include "depolarisation.h"
#include "polariscope.h"

/* One column of grains. */
typedef struct Grains {
    const IfigSpecies *species;
    double thickness_mm, grain_mm;
    unsigned seed, place;
} Grains;

static IfigStatus stacks(Grains grains, const double *wavelength_nm, size_t count,
                         IfigJonesXy *jones, IfigError *error)
{
    IfigLayer layer = layer_of(grains.species, IFIG_VIEW_DEFAULT, grains.thickness_mm);
    IfigScene scene = IFIG_SCENE_INIT;
    IfigTexture texture = IFIG_TEXTURE_INIT;
    scene.layers = &layer;
    scene.layer_count = 1;
    texture.grain_mm = grains.grain_mm;
    texture.seed = grains.seed;
    return ifig_grain_stack(&scene, &texture, grains.place, wavelength_nm, count, jones, error);
}

static IfigJonesXy stack_of(Grains grains, double wavelength_nm)
{
    IfigJonesXy jones;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(stacks(grains, &wavelength_nm, 1, &jones, &error) == IFIG_OK, "%s",
                  error.message);
    return jones;
}

static double square(double complex z)
{
    return creal(z * conj(z));
}

/* The columns here and the stacks there are draws of the same law: their means differ by chance
 * alone, four standard errors of both together. */
START_TEST(depolarisation_is_that_of_stokes_vectors_behind_random_plates)
{
    enum { COLUMNS = 20000 };
    IfigSpecies *stone = uniaxial_stone(1.5, 1.512);
    for (int row = 0; row < DEPOLARISATION_ROWS; row++) {
        const double grain_mm = 0.015;
        double sum = 0, squares = 0;
        for (unsigned place = 0; place < COLUMNS; place++) {
            IfigJonesXy jones = stack_of(
                (Grains){stone, grain_mm * DEPOLARISATION[row].layers, grain_mm, 7, place}, 550.0);
            double along = square(jones.m[0][0]), across = square(jones.m[1][0]);
            double polarised = (along - across) / (along + across);
            sum += polarised;
            squares += polarised * polarised;
        }
        double mean = sum / COLUMNS, spread = sqrt(squares / COLUMNS - mean * mean);
        double error = hypot(spread / sqrt(COLUMNS), DEPOLARISATION[row].error);
        ck_assert_msg(fabs(mean - DEPOLARISATION[row].polarised) < 4 * error,
                      "%d plates: %f here, %f there, standard error %f", DEPOLARISATION[row].layers,
                      mean, DEPOLARISATION[row].polarised, error);
    }
    ifig_species_free(stone);
}
END_TEST

START_TEST(a_cubic_grain_is_a_bare_plate)
{
    const double n = 1.72;
    IfigSpecies *stone = stone_of(&n, 1, 0);
    IfigJonesXy jones = stack_of((Grains){stone, 0.05, 0.05, 3, 9}, 550.0);
    IfigLayer layer = layer_of(stone, IFIG_VIEW_Z, 0.05);
    IfigPlateWave wave = wave_of(&layer, 1, (Beam){1.0, 550.0, 0, 0});
    ck_assert_double_eq_tol(square(jones.m[0][0]), square(element(&wave, 0, 0)), 1e-12);
    ck_assert_double_eq_tol(square(jones.m[1][1]), square(element(&wave, 1, 1)), 1e-12);
    ck_assert_double_lt(square(jones.m[0][1]) + square(jones.m[1][0]), 1e-24);
    ifig_species_free(stone);
}
END_TEST

/* The greatest retardation among many single grains is that of a plate that holds the axis, by
 * exact waves. */
START_TEST(single_grains_have_the_indices_of_exact_waves)
{
    IfigSpecies *stone = uniaxial_stone(1.6, 1.61);
    double most = 0;
    for (unsigned place = 0; place < 20000; place++) {
        IfigJonesXy jones = stack_of((Grains){stone, 0.01, 0.01, 1, place}, 550.0);
        /* trace of a retarder between two faces: 2 t cos(delta / 2), t alike to a thousandth */
        double determinant = cabs(jones.m[0][0] * jones.m[1][1] - jones.m[0][1] * jones.m[1][0]);
        double half = cabs(jones.m[0][0] + jones.m[1][1]) / (2.0 * sqrt(determinant));
        most = fmax(most, acos(fmin(half, 1.0)) * 550.0 / IFIG_PI);
    }
    IfigLayer layer = layer_of(stone, IFIG_VIEW_X, 0.01);
    double exact = retardation_of(&layer, (Beam){1.0, 550.0, 0, 0});
    ck_assert_double_eq_tol(exact, 100.0, 1e-6);
    ck_assert_double_eq_tol(most, exact, 0.05);
    ifig_species_free(stone);
}
END_TEST

/* Thickness by birefringence, and a grain is no thicker than its stone. */
START_TEST(the_retardation_told_is_that_of_one_grain)
{
    static const struct {
        double thickness_mm, grain_mm, light_goes_mm;
    } stones[] = {{1.0, 0.1, 0.1}, {0.05, 0.1, 0.05}};
    const IfigSpecies *jadeite = builtin("jadeite");
    double n[3];
    ck_assert_int_eq(ifig_species_indices(ifig_species_grain(jadeite), 589.3, n, NULL), IFIG_OK);
    for (int i = 0; i < 2; i++) {
        Bench bench;
        IfigTexture texture = IFIG_TEXTURE_INIT;
        set_bench(&bench, jadeite, IFIG_VIEW_DEFAULT, stones[i].thickness_mm);
        light_by_line(&bench, 589.3);
        texture.grain_mm = stones[i].grain_mm;
        ck_assert_double_eq_tol(blink_of(&bench, &texture).retardation_nm,
                                1e6 * stones[i].light_goes_mm * (n[2] - n[0]), 0.1);
        clear_bench(&bench);
    }
}
END_TEST

START_TEST(grains_belong_to_their_seed_and_place)
{
    const IfigSpecies *quartz = builtin("quartz");
    const double wavelengths[] = {450, 550, 650};
    IfigJonesXy together[3];
    ck_assert_int_eq(stacks((Grains){quartz, 1, 0.1, 5, 8}, wavelengths, 3, together, NULL),
                     IFIG_OK);
    for (int k = 0; k < 3; k++) {
        IfigJonesXy alone = stack_of((Grains){quartz, 1, 0.1, 5, 8}, wavelengths[k]);
        ck_assert_int_eq(memcmp(&alone, &together[k], sizeof alone), 0);
    }
    IfigJonesXy seed = stack_of((Grains){quartz, 1, 0.1, 6, 8}, 550),
                place = stack_of((Grains){quartz, 1, 0.1, 5, 9}, 550);
    ck_assert_double_gt(cabs(seed.m[0][0] - together[1].m[0][0]), 1e-3);
    ck_assert_double_gt(cabs(place.m[0][0] - together[1].m[0][0]), 1e-3);
}
END_TEST

START_TEST(chalcedony_jadeite_and_nephrite_are_never_dark)
{
    static const char *const keys[] = {"chalcedony", "jadeite", "nephrite"};
    for (int i = 0; i < 3; i++) {
        Bench bench;
        IfigTexture texture = IFIG_TEXTURE_INIT;
        set_bench(&bench, builtin(keys[i]), IFIG_VIEW_DEFAULT, 3.0);
        for (unsigned seed = 1; seed <= 3; seed++) {
            texture.seed = seed;
            IfigBlink blink = blink_of(&bench, &texture);
            ck_assert_int_eq(blink.reaction, IFIG_REACTION_AGG);
            ck_assert_int_eq(blink.appearance, IFIG_LOOKS_NEVER_DARK);
            ck_assert_int_eq(blink.extinctions_per_turn, 0);
            /* Depolarised: half of what two faces pass, whatever the turn and the analyser. */
            ck_assert_double_eq_tol(blink.mean, 0.45, 0.04);
            ck_assert_double_lt(blink.contrast, 0.1);
            ck_assert_double_eq_tol(blink.opened_over_crossed, 1.0, 0.2);
            ck_assert_ptr_nonnull(strstr(words_of(&blink), "Aggregate (AGG): never dark"));
        }
        clear_bench(&bench);
    }
}
END_TEST

START_TEST(every_aggregate_of_the_catalogue_has_grains_and_a_source)
{
    IfigCatalogue *catalogue = NULL;
    ck_assert_int_eq(ifig_catalogue_create(&catalogue, NULL), IFIG_OK);
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const IfigSpecies *species = ifig_catalogue_at(catalogue, i);
        IfigSpeciesFacts facts, grain;
        ifig_species_facts(species, &facts, NULL);
        if (facts.character == IFIG_AGGREGATE) {
            ck_assert_ptr_nonnull(ifig_species_grain(species));
            ifig_species_facts(ifig_species_grain(species), &grain, NULL);
            ck_assert_int_ne(grain.character, IFIG_AGGREGATE);
            ck_assert_double_gt(ifig_species_grain_mm(species), 0.0009);
            ck_assert_str_ne(ifig_species_grain_texture(species), "");
            ck_assert_str_ne(ifig_species_grain_source(species), "");
        } else {
            ck_assert_ptr_eq(ifig_species_grain(species), species);
            ck_assert(isnan(ifig_species_grain_mm(species)));
        }
    }
    ck_assert_ptr_null(ifig_species_grain(NULL));
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(a_crystal_without_a_size_of_grain_is_asked_for_one)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigJonesXy jones;
    const double nm = 550;
    ck_assert_int_eq(stacks((Grains){builtin("quartz"), 3, 0, 1, 1}, &nm, 1, &jones, &error),
                     IFIG_ERROR_UNSUITABLE);
    ck_assert_ptr_nonnull(strstr(error.message, "give one, 0.001 to 10 mm"));
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("grains");
    tcase_add_test(facts, depolarisation_is_that_of_stokes_vectors_behind_random_plates);
    tcase_add_test(facts, a_cubic_grain_is_a_bare_plate);
    tcase_add_test(facts, single_grains_have_the_indices_of_exact_waves);
    tcase_add_test(facts, the_retardation_told_is_that_of_one_grain);
    tcase_add_test(facts, grains_belong_to_their_seed_and_place);
    tcase_add_test(facts, chalcedony_jadeite_and_nephrite_are_never_dark);
    tcase_add_test(facts, every_aggregate_of_the_catalogue_has_grains_and_a_source);
    tcase_add_test(facts, a_crystal_without_a_size_of_grain_is_asked_for_one);
    return run_case(facts, "grains");
}
