/* SPDX-License-Identifier: MIT */
/* What the tests of the species room share. */
#ifndef IFIG_SPECIES_TEST_H
#define IFIG_SPECIES_TEST_H

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "../run_case.h"
#include "species.h"

static inline IfigCatalogue *make_catalogue(void)
{
    IfigCatalogue *catalogue = NULL;
    ck_assert_int_eq(ifig_catalogue_create(&catalogue, NULL), IFIG_OK);
    return catalogue;
}

/* A compiled-in species; lives as long as the program. */
static inline const IfigSpecies *builtin(const char *key)
{
    IfigCatalogue *catalogue = make_catalogue();
    const IfigSpecies *species = NULL;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_catalogue_find(catalogue, key, &species, &error) == IFIG_OK, "%s",
                  error.message);
    ifig_catalogue_free(catalogue);
    return species;
}

/* n along an axis (0, 1, 2: X, Y, Z). */
static inline double index_at(const IfigSpecies *species, int axis, double wavelength_nm)
{
    double n[3] = {0.0, 0.0, 0.0};
    ck_assert_int_eq(ifig_species_indices(species, wavelength_nm, n, NULL), IFIG_OK);
    return n[axis];
}

/* 2V by the indices at a wavelength; negative where the optic axial plane has crossed. */
static inline double two_v_at(const IfigSpecies *species, double wavelength_nm)
{
    double n[3];
    ck_assert_int_eq(ifig_species_indices(species, wavelength_nm, n, NULL), IFIG_OK);
    return ifig_acute_angle_deg(ifig_beta_share_of_indices(n));
}

/* A record of the indices given, to be spoilt by a test. */
static inline IfigSpeciesRecord record_of(IfigOpticCharacter character, double x, double y,
                                          double z)
{
    IfigSpeciesRecord record = IFIG_SPECIES_RECORD_INIT;
    record.text[IFIG_TEXT_KEY] = "tern";
    record.facts.character = character;
    record.facts.n[0] = x;
    record.facts.n[1] = y;
    record.facts.n[2] = z;
    return record;
}

static inline int same_double(double a, double b)
{
    return (isnan(a) && isnan(b)) || memcmp(&a, &b, sizeof a) == 0;
}

#endif
