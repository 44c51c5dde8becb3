/* SPDX-License-Identifier: MIT */
/* Coloured plates of the catalogue against Berreman's 4 x 4 system with a complex permittivity,
 * taken apart by LAPACK. */
#include "random_plate.h"

#include <stdio.h>
#include <string.h>

/* A body colour of a species whose axes do not turn with the wavelength. */
static const struct {
    const char *key, *colour;
} stones[] = {
    {"corundum", "ruby"},           {"tourmaline_elbaite", "verdelite"},
    {"zircon_high", "blue zircon"}, {"spinel", "red spinel"},
    {"quartz", "amethyst"},         {"alexandrite", "alexandrite"},
    {"tanzanite", "tanzanite"},     {"iolite", "iolite"},
    {"andalusite", "andalusite"},
};
enum { STONES = sizeof stones / sizeof *stones };

/* The reference gets the indices and kappa = alpha lambda / 4 pi of the stone at one wavelength;
 * and its gyration by rho = pi G / (lambda n), Nye, Physical Properties of Crystals, ch. XIV. */
static RandomPlate draw_coloured(Random *random, size_t which)
{
    const PlateKind kind = {3, 0};
    RandomPlate plate = draw_plate(random, kind);
    BerremanPlate *r = &plate.reference;
    double per_mm[3];
    ifig_species_free(plate.species);
    plate.species = NULL;
    plate.layer.species = builtin(stones[which].key);
    plate.layer.body_colour =
        ifig_species_colour_of_word(plate.layer.species, stones[which].colour);
    ck_assert_int_gt(plate.layer.body_colour, 0);
    ck_assert_int_eq(ifig_species_indices(plate.layer.species, r->wavelength_nm, r->n, NULL),
                     IFIG_OK);
    ck_assert_int_eq(ifig_species_absorption(plate.layer.species, plate.layer.body_colour,
                                             r->wavelength_nm, per_mm, NULL),
                     IFIG_OK);
    for (int i = 0; i < 3; i++) {
        r->extinction[i] = per_mm[i] * 1e-6 * r->wavelength_nm / (4.0 * acos(-1.0));
    }
    double rotation = ifig_species_rotation_deg_per_mm(plate.layer.species, r->wavelength_nm);
    r->gyration_along = rotation / 180.0 * 1e-6 * r->wavelength_nm * r->n[0];
    r->gyration_across = -0.449 * r->gyration_along; /* quartz, as in test_rotation.c */
    return plate;
}

START_TEST(coloured_plates_agree_with_lapack_below_1e_9)
{
    Random random = {1815};
    double worst = 0, weakest = 1;
    for (size_t i = 0; i < 100 * STONES; i++) {
        BerremanWave reference;
        RandomPlate plate = draw_coloured(&random, i % STONES);
        ck_assert_msg(berreman_wave(&plate.reference, &reference), "no reference for %zu", i);
        IfigPlateWave wave = wave_of(&plate.layer, 1, beam_of(&plate.reference));
        double error = jones_error(&wave, reference.jones);
        ck_assert_msg(error < 1e-9, "%s, plate %zu: Jones error %.2e", stones[i % STONES].key, i,
                      error);
        worst = fmax(worst, error);
        weakest = fmin(weakest, largest_share(&wave));
    }
    ck_assert_double_lt(weakest, 0.01); /* colours that matter were among them */
    printf("%d coloured plates, largest Jones error %.2e, least light %.2e\n", 100 * STONES, worst,
           weakest);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("absorption oracle");
    tcase_add_test(facts, coloured_plates_agree_with_lapack_below_1e_9);
    return run_case(facts, "wave absorption oracle");
}
