/* SPDX-License-Identifier: MIT */
/* What a record seldom holds, and more species than a catalogue does. */
#include "species_test.h"

static IfigSpecies *made_of(const IfigSpeciesRecord *record)
{
    IfigSpecies *species = NULL;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_species_create(record, &species, &error) == IFIG_OK, "%s", error.message);
    return species;
}

START_TEST(a_sign_that_the_indices_make_may_be_given_too)
{
    IfigSpeciesRecord r = record_of(IFIG_BIAXIAL, 1.609, 1.616, 1.619);
    r.facts.optic_sign = -1;
    IfigSpecies *species = made_of(&r);
    IfigSpeciesFacts facts;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_int_eq(ifig_species_facts(species, &facts, NULL), IFIG_OK);
    ck_assert_int_eq(facts.optic_sign, -1);
    ifig_species_free(species);
    r.facts.two_v_deg = 10;
    ck_assert_int_eq(ifig_species_create(&r, &species, &error), IFIG_ERROR_RANGE);
    ck_assert_ptr_nonnull(
        strstr(error.message, "two_v_deg 10, sign -, asks for a middle index of 1.618"));
}
END_TEST

START_TEST(either_term_of_a_rotation_makes_a_stone_active)
{
    for (int term = 0; term < 2; term++) {
        IfigSpeciesRecord r = record_of(IFIG_UNIAXIAL, 1.54, 1.54, 1.55);
        r.rotation.strength_um2[term] = 7.0;
        r.rotation.pole_um2[term] = 0.01;
        IfigSpecies *species = made_of(&r);
        IfigSpeciesFacts facts;
        ck_assert_int_eq(ifig_species_facts(species, &facts, NULL), IFIG_OK);
        ck_assert_int_eq(facts.is_optically_active, 1);
        ifig_species_free(species);
    }
}
END_TEST

START_TEST(a_catalogue_does_not_take_a_million_species_at_once)
{
    IfigCatalogue *catalogue = NULL;
    IfigSpecies *none = NULL;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_int_eq(ifig_catalogue_create(&catalogue, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_catalogue_add_all(catalogue, &none, 1000000, &error), IFIG_ERROR_RANGE);
    ck_assert_ptr_nonnull(strstr(error.message, "at most 1000000 species"));
    ifig_catalogue_free(catalogue);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("seldom");
    tcase_add_test(facts, a_sign_that_the_indices_make_may_be_given_too);
    tcase_add_test(facts, either_term_of_a_rotation_makes_a_stone_active);
    tcase_add_test(facts, a_catalogue_does_not_take_a_million_species_at_once);
    return run_case(facts, "record seldom");
}
