/* SPDX-License-Identifier: MIT */
/* Species made at run time, and catalogues that take them in. */
#include "species_test.h"

static void expect_refused(const IfigSpeciesRecord *record, const char *part_of_message)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigSpecies *species = NULL;
    IfigStatus status = ifig_species_create(record, &species, &error);
    ck_assert_msg(status != IFIG_OK && error.status == status, "made: %s", part_of_message);
    ck_assert_ptr_null(species);
    ck_assert_msg(strstr(error.message, part_of_message) != NULL, "'%s' lacks '%s'", error.message,
                  part_of_message);
}

static IfigSpecies *make(const IfigSpeciesRecord *record)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigSpecies *species = NULL;
    ck_assert_msg(ifig_species_create(record, &species, &error) == IFIG_OK, "%s", error.message);
    return species;
}

START_TEST(every_compiled_in_species_passes_the_checks_of_a_users)
{
    IfigCatalogue *catalogue = make_catalogue();
    ck_assert_uint_gt(ifig_catalogue_count(catalogue), 150);
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        IfigError error = IFIG_ERROR_INIT;
        const IfigSpecies *species = ifig_catalogue_at(catalogue, i);
        ck_assert_msg(ifig_record_check(&species->record, &error) == IFIG_OK, "%s: %s",
                      ifig_species_text(species, IFIG_TEXT_KEY), error.message);
        ck_assert_str_ne(ifig_species_text(species, IFIG_TEXT_SOURCE), "");
        ck_assert_str_ne(ifig_species_text(species, IFIG_TEXT_INDEX_SOURCE), "");
    }
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(signs_of_the_catalogue_agree_with_the_indices)
{
    /* beta nearer alpha is positive: Tulane EENS 2110, Biaxial Minerals; open within 2 degrees of
     * 2V = 90 */
    IfigCatalogue *catalogue = make_catalogue();
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const IfigSpeciesFacts *facts = &ifig_catalogue_at(catalogue, i)->record.facts;
        int by_indices = facts->n[2] > facts->n[0] ? 1 : -1;
        if (facts->character == IFIG_BIAXIAL && facts->two_v_deg < 88.0) {
            by_indices = ifig_beta_share_of_indices(facts->n) < 0.5 ? 1 : -1;
            ck_assert_int_eq(facts->optic_sign, by_indices);
        } else if (facts->character == IFIG_UNIAXIAL) {
            ck_assert_int_eq(facts->optic_sign, by_indices);
        } else if (facts->character != IFIG_BIAXIAL) {
            ck_assert_int_eq(facts->optic_sign, 0);
        }
    }
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(the_hash_is_sixty_four_hexadecimal_digits)
{
    ck_assert_uint_eq(strlen(ifig_catalogue_hash()), 64);
    ck_assert_uint_eq(strspn(ifig_catalogue_hash(), "0123456789abcdef"), 64);
}
END_TEST

START_TEST(one_index_makes_an_isotropic_stone)
{
    const double n = 1.72;
    IfigSpecies *species = NULL;
    ck_assert_int_eq(ifig_species_from_indices(&n, 1, 0.0, &species, NULL), IFIG_OK);
    ck_assert_int_eq(species->record.facts.character, IFIG_ISOTROPIC);
    for (int axis = 0; axis < 3; axis++) {
        ck_assert_double_eq(index_at(species, axis, 450.0), 1.72);
    }
    ifig_species_free(species);
}
END_TEST

START_TEST(two_indices_make_a_uniaxial_stone_of_their_sign)
{
    const double beryl[2] = {1.577, 1.571};
    IfigSpecies *species = NULL;
    ck_assert_int_eq(ifig_species_from_indices(beryl, 2, 0.0, &species, NULL), IFIG_OK);
    ck_assert_int_eq(species->record.facts.character, IFIG_UNIAXIAL);
    ck_assert_int_eq(species->record.facts.optic_sign, -1);
    ck_assert_double_eq(index_at(species, 1, 700.0), 1.577);
    ck_assert_double_eq(index_at(species, 2, 700.0), 1.571);
    ck_assert_str_eq(ifig_species_text(species, IFIG_TEXT_NAME), "Stone of n 1.577, 1.571");
    ifig_species_free(species);
}
END_TEST

START_TEST(three_indices_make_a_biaxial_stone_of_their_two_v)
{
    /* chrysoberyl 1.745, 1.748, 1.754: 2V 70.7, positive, by Mallard's formula */
    const double n[3] = {1.745, 1.748, 1.754};
    IfigSpecies *species = NULL;
    ck_assert_int_eq(ifig_species_from_indices(n, 3, 0.0, &species, NULL), IFIG_OK);
    ck_assert_int_eq(species->record.facts.character, IFIG_BIAXIAL);
    ck_assert_int_eq(species->record.facts.optic_sign, 1);
    ck_assert_double_eq_tol(species->record.facts.two_v_deg, 70.7, 0.05);
    for (int axis = 0; axis < 3; axis++) {
        ck_assert_double_eq_tol(index_at(species, axis, 500.0), n[axis], 1e-14);
    }
    ifig_species_free(species);
}
END_TEST

START_TEST(equal_indices_give_the_simpler_character)
{
    static const struct {
        double n[3];
        size_t count;
        IfigOpticCharacter character;
        double along_x, along_z;
    } cases[] = {
        {{1.5, 1.5}, 2, IFIG_ISOTROPIC, 1.5, 1.5},
        {{1.5, 1.5, 1.5}, 3, IFIG_ISOTROPIC, 1.5, 1.5},
        {{1.5, 1.5, 1.6}, 3, IFIG_UNIAXIAL, 1.5, 1.6},
        {{1.5, 1.6, 1.6}, 3, IFIG_UNIAXIAL, 1.6, 1.5}, /* Z, the optic axis, is the fast one */
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        IfigSpecies *species = NULL;
        ck_assert_int_eq(ifig_species_from_indices(cases[i].n, cases[i].count, 0.0, &species, NULL),
                         IFIG_OK);
        ck_assert_int_eq(species->record.facts.character, cases[i].character);
        ck_assert_double_eq(index_at(species, 0, 589.3), cases[i].along_x);
        ck_assert_double_eq(index_at(species, 1, 589.3), cases[i].along_x);
        ck_assert_double_eq(index_at(species, 2, 589.3), cases[i].along_z);
        ifig_species_free(species);
    }
}
END_TEST

START_TEST(indices_that_no_stone_has_are_refused)
{
    static const struct {
        double n[3];
        size_t count;
        double rotation;
        IfigStatus status;
    } cases[] = {
        {{0.999}, 1, 0, IFIG_ERROR_RANGE},         {{5.001}, 1, 0, IFIG_ERROR_RANGE},
        {{NAN, 1.5}, 2, 0, IFIG_ERROR_RANGE},      {{1.5, INFINITY}, 2, 0, IFIG_ERROR_RANGE},
        {{-1.5, 1.5}, 2, 0, IFIG_ERROR_RANGE},     {{1.6, 1.5, 1.7}, 3, 0, IFIG_ERROR_RANGE},
        {{1.5, 1.7, 1.6}, 3, 0, IFIG_ERROR_RANGE}, {{1.5}, 0, 0, IFIG_ERROR_ARGUMENT},
        {{1.5}, 4, 0, IFIG_ERROR_ARGUMENT},        {{1.5}, 1, NAN, IFIG_ERROR_RANGE},
        {{1.5}, 1, 100001, IFIG_ERROR_RANGE},      {{1.5}, 1, -INFINITY, IFIG_ERROR_RANGE},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        IfigError error = IFIG_ERROR_INIT;
        IfigSpecies *species = (IfigSpecies *)&error; /* must be cleared */
        ck_assert_int_eq(ifig_species_from_indices(cases[i].n, cases[i].count, cases[i].rotation,
                                                   &species, &error),
                         cases[i].status);
        ck_assert_ptr_null(species);
        ck_assert_str_ne(error.message, "");
    }
    IfigSpecies *species = NULL;
    ck_assert_int_eq(ifig_species_from_indices(NULL, 1, 0, &species, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_species_from_indices(cases[0].n, 1, 0, NULL, NULL), IFIG_ERROR_ARGUMENT);
}
END_TEST

START_TEST(a_record_that_makes_no_sense_is_refused_with_its_reason)
{
    IfigSpeciesRecord good = record_of(IFIG_BIAXIAL, 1.609, 1.612, 1.619);
    IfigSpeciesRecord r = good;
    ifig_species_free(make(&r));
    r.text[IFIG_TEXT_KEY] = NULL, expect_refused(&r, "no key"), r = good;
    r.text[IFIG_TEXT_KEY] = "Tern Topaz", expect_refused(&r, "the key 'Tern Topaz'"), r = good;
    r.text[IFIG_TEXT_NOTES] = "a\nb", expect_refused(&r, "the notes holds"), r = good;
    r.text[IFIG_TEXT_SOURCE] = "\xff", expect_refused(&r, "the source holds"), r = good;
    r.size = 8, expect_refused(&r, "foreign size"), r = good;
    r.facts.n[1] = 1.7, expect_refused(&r, "biaxial three that rise"), r = good;
    r.facts.n[0] = 0.5, expect_refused(&r, "between 1 and 5"), r = good;
    r.facts.optic_sign = -1, expect_refused(&r, "make the stone +"), r = good;
    r.facts.optic_sign = 2, expect_refused(&r, "not one the library knows"), r = good;
    r.facts.character = (IfigOpticCharacter)9, expect_refused(&r, "not one"), r = good;
    r.facts.two_v_deg = 91, expect_refused(&r, "between 0 and 90 degrees"), r = good;
    r.facts.two_v_deg = 5, expect_refused(&r, "asks for a middle index of 1.609"), r = good;
    r.two_v_c_deg = -91, expect_refused(&r, "two_v_c_deg is -91"), r = good;
    r.facts.n_low = 1.7, r.facts.n_high = 1.6, expect_refused(&r, "falls"), r = good;
    r.facts.dispersion_bg = 1.5, expect_refused(&r, "dispersion_bg is 1.5"), r = good;
    r.facts.dispersion_bg = INFINITY, expect_refused(&r, "dispersion_bg is inf"), r = good;
    r.facts.axes_turn_deg = 3, expect_refused(&r, "about which axis"), r = good;
    r.formula[0] = (IfigDispersionFormula){1, 0.3, 1.1, {0.5}};
    expect_refused(&r, "along Y is of type 0"), r = good;
    r.rotation.ratio_across = NAN, expect_refused(&r, "ratio_across is nan"), r = good;
    r.rotation.pole_um2[1] = 0.2, expect_refused(&r, "a rotation pole"), r = good;
    r = record_of(IFIG_ISOTROPIC, 1.5, 1.5, 1.5);
    r.facts.two_v_deg = 30, expect_refused(&r, "only a biaxial stone"), r.facts.two_v_deg = NAN;
    r.facts.optic_sign = 1, expect_refused(&r, "has an optic_sign"), r.facts.optic_sign = 0;
    r.facts.n[0] = 1.05, r.facts.n[1] = 1.05, r.facts.n[2] = 1.05, r.facts.dispersion_bg = 0.2;
    expect_refused(&r, "it must stay between 1 and 10"), r.facts.dispersion_bg = NAN;
    r = record_of(IFIG_UNIAXIAL, 1.5, 1.5, 1.6);
    r.facts.optic_sign = -1, expect_refused(&r, "make the stone +");
}
END_TEST

START_TEST(each_number_that_contradicts_another_is_refused)
{
    IfigSpeciesRecord good = record_of(IFIG_BIAXIAL, 1.609, 1.616, 1.619), r = good;
    r.facts.optic_sign = 1, expect_refused(&r, "make the stone -"), r = good;
    r.facts.optic_sign = -2, expect_refused(&r, "not one the library knows"), r = good;
    r.facts.monoclinic = (IfigMonoclinicDispersion)-1, expect_refused(&r, "not one"), r = good;
    r.facts.monoclinic = (IfigMonoclinicDispersion)9, expect_refused(&r, "not one"), r = good;
    r.facts.character = (IfigOpticCharacter)-1, expect_refused(&r, "not one"), r = good;
    r.facts.n_low = 0.9, expect_refused(&r, "between 1 and 5"), r = good;
    r.facts.n_high = 5.1, expect_refused(&r, "between 1 and 5"), r = good;
    r.facts.birefringence_high = -1, expect_refused(&r, "between 0 and 4"), r = good;
    r.facts.two_v_high_deg = 91, expect_refused(&r, "between 0 and 90"), r = good;
    r.rotation.constant = 1e6, expect_refused(&r, "the rotation"), r = good;
    r.rotation.strength_um2[0] = -1e6, expect_refused(&r, "a rotation strength"), r = good;
    r.facts.axes_turn_deg = 0, ifig_species_free(make(&r)), r = good;
    r.facts.monoclinic = IFIG_MONOCLINIC_INCLINED, r.facts.axes_turn_deg = 3;
    ifig_species_free(make(&r));
    good = record_of(IFIG_UNIAXIAL, 1.6, 1.6, 1.5), r = good;
    r.facts.optic_sign = 1, expect_refused(&r, "make the stone -"), r = good;
    r.two_v_c_deg = 20, expect_refused(&r, "only a biaxial stone"), r = good;
    r.two_v_f_deg = 20, expect_refused(&r, "only a biaxial stone"), r = good;
    r.facts.monoclinic = IFIG_MONOCLINIC_CROSSED, expect_refused(&r, "only a biaxial"), r = good;
    r.facts.n[1] = 1.5, expect_refused(&r, "do not fit the optic character"), r = good;
    r.facts.n[2] = 1.6, expect_refused(&r, "do not fit the optic character"), r = good;
    good = record_of(IFIG_ISOTROPIC, 1.5, 1.5, 1.5), r = good;
    r.facts.n[1] = 1.6, expect_refused(&r, "do not fit the optic character"), r = good;
    r.facts.n[2] = 1.6, expect_refused(&r, "do not fit the optic character"), r = good;
    r.text[IFIG_TEXT_KEY] = "", expect_refused(&r, "no key"), r = good;
    r.text[IFIG_TEXT_NAME] = "", ifig_species_free(make(&r));
}
END_TEST

START_TEST(a_formula_must_agree_with_n_and_keep_to_sense)
{
    IfigSpeciesRecord r = record_of(IFIG_ISOTROPIC, 1.5, 1.5, 1.5);
    const IfigDispersionFormula fits = {5, 0.3, 1.1, {1.5}};
    r.formula[0] = r.formula[1] = r.formula[2] = fits;
    ifig_species_free(make(&r));
    r.formula[2].coefficient[0] = 1.501;
    expect_refused(&r, "along Z gives n 1.501 at 589.3 nm");
    r.formula[2] = fits, r.formula[1].low_um = 2.0;
    expect_refused(&r, "the range must rise");
    r.formula[1] = fits, r.formula[1].low_um = 0.05;
    expect_refused(&r, "between 0.1 and 50");
    r.formula[1] = fits, r.formula[1].high_um = 51.0;
    expect_refused(&r, "between 0.1 and 50");
    r.formula[1] = fits, r.formula[1].type = 7;
    expect_refused(&r, "along Y is of type 7");
    r.formula[1].type = -1;
    expect_refused(&r, "along Y is of type -1");
    r.formula[1] = fits, r.formula[0].coefficient[5] = NAN;
    expect_refused(&r, "coefficient 6");
    /* A pole at 500 nm: n^2 - 1 = 1.25 (1 - pole/L^2) L^2 / (L^2 - pole) is right at D only. */
    double pole = 0.25, square = 0.5893 * 0.5893;
    const IfigDispersionFormula wild = {2, 0.3, 1.1, {0.0, 1.25 * (square - pole) / square, pole}};
    r.formula[0] = r.formula[1] = r.formula[2] = wild;
    expect_refused(&r, "it must stay between 1 and 10");
}
END_TEST

START_TEST(a_record_is_taken_apart_and_put_together_again)
{
    IfigCatalogue *catalogue = make_catalogue();
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        IfigSpeciesRecord record = IFIG_SPECIES_RECORD_INIT, again = IFIG_SPECIES_RECORD_INIT;
        ck_assert_int_eq(ifig_species_record(ifig_catalogue_at(catalogue, i), &record, NULL),
                         IFIG_OK);
        IfigSpecies *species = make(&record);
        ck_assert_int_eq(ifig_species_record(species, &again, NULL), IFIG_OK);
        ck_assert_int_eq(memcmp(&record.facts, &again.facts, sizeof record.facts), 0);
        ck_assert_str_eq(record.text[IFIG_TEXT_NOTES], again.text[IFIG_TEXT_NOTES]);
        ck_assert_ptr_ne(record.text[IFIG_TEXT_KEY], again.text[IFIG_TEXT_KEY]);
        ifig_species_free(species);
    }
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(a_catalogue_owns_what_it_is_given)
{
    IfigCatalogue *catalogue = make_catalogue();
    size_t before = ifig_catalogue_count(catalogue);
    IfigSpeciesRecord record = record_of(IFIG_ISOTROPIC, 1.5, 1.5, 1.5);
    IfigSpecies *species = make(&record);
    const IfigSpecies *found = NULL;
    ck_assert_int_eq(ifig_catalogue_add(catalogue, species, NULL), IFIG_OK);
    ck_assert_uint_eq(ifig_catalogue_count(catalogue), before + 1);
    ck_assert_ptr_eq(ifig_catalogue_at(catalogue, before), species);
    ck_assert_ptr_null(ifig_catalogue_at(catalogue, before + 1));
    ck_assert_int_eq(ifig_catalogue_find(catalogue, "tern", &found, NULL), IFIG_OK);
    ck_assert_ptr_eq(found, species);
    ck_assert_int_eq(ifig_catalogue_add(catalogue, species, NULL), IFIG_ERROR_ARGUMENT);
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(a_species_of_the_same_key_takes_the_place_of_the_old_one)
{
    IfigCatalogue *catalogue = make_catalogue();
    size_t count = ifig_catalogue_count(catalogue);
    const IfigSpecies *old = NULL, *found = NULL;
    ck_assert_int_eq(ifig_catalogue_find(catalogue, "topaz_f", &old, NULL), IFIG_OK);
    IfigSpeciesRecord record = record_of(IFIG_ISOTROPIC, 1.5, 1.5, 1.5);
    record.text[IFIG_TEXT_KEY] = "topazf";
    for (int i = 0; i < 2; i++) {
        IfigSpecies *species = make(&record);
        ck_assert_int_eq(ifig_catalogue_add(catalogue, species, NULL), IFIG_OK);
        ck_assert_uint_eq(ifig_catalogue_count(catalogue), count);
        ck_assert_int_eq(ifig_catalogue_find(catalogue, "topaz_f", &found, NULL), IFIG_OK);
        ck_assert_ptr_eq(found, species);
    }
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(a_users_variety_goes_before_the_natural_one)
{
    IfigCatalogue *catalogue = make_catalogue();
    IfigSpeciesRecord record = record_of(IFIG_ISOTROPIC, 1.5, 1.5, 1.5);
    record.text[IFIG_TEXT_VARIETIES] = "ruby;paste";
    record.text[IFIG_TEXT_NATURE] = "user";
    IfigSpecies *species = make(&record);
    const IfigSpecies *found = NULL;
    ck_assert_int_eq(ifig_catalogue_add(catalogue, species, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_catalogue_find(catalogue, "ruby", &found, NULL), IFIG_OK);
    ck_assert_ptr_eq(found, species);
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(several_species_are_added_all_or_none)
{
    IfigCatalogue *catalogue = make_catalogue();
    size_t before = ifig_catalogue_count(catalogue);
    IfigSpeciesRecord record = record_of(IFIG_ISOTROPIC, 1.5, 1.5, 1.5);
    IfigSpecies *good = make(&record);
    IfigSpecies *const with_gap[2] = {good, NULL}, *const twice[2] = {good, good};
    ck_assert_int_eq(ifig_catalogue_add_all(catalogue, with_gap, 2, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_catalogue_add_all(catalogue, twice, 2, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_uint_eq(ifig_catalogue_count(catalogue), before);
    ck_assert_int_eq(ifig_catalogue_add_all(catalogue, NULL, 0, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_catalogue_add_all(catalogue, with_gap, 1, NULL), IFIG_OK);
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(compiled_in_species_are_neither_freed_nor_given_away)
{
    IfigSpecies *quartz = (IfigSpecies *)(uintptr_t)builtin("quartz");
    IfigCatalogue *catalogue = make_catalogue();
    ck_assert_int_eq(ifig_catalogue_add(catalogue, quartz, NULL), IFIG_ERROR_ARGUMENT);
    ifig_species_free(quartz);
    ck_assert_str_eq(ifig_species_text(quartz, IFIG_TEXT_KEY), "quartz");
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(missing_arguments_are_answered)
{
    IfigSpeciesFacts facts;
    IfigSpeciesRecord record;
    ck_assert_int_eq(ifig_catalogue_create(NULL, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_uint_eq(ifig_catalogue_count(NULL), 0);
    ck_assert_ptr_null(ifig_catalogue_at(NULL, 0));
    ck_assert_str_eq(ifig_species_text(NULL, IFIG_TEXT_KEY), "");
    ck_assert_str_eq(ifig_species_text(builtin("quartz"), (IfigSpeciesText)99), "");
    ck_assert_int_eq(ifig_species_facts(NULL, &facts, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_species_facts(builtin("quartz"), NULL, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_species_record(NULL, &record, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_species_create(NULL, NULL, NULL), IFIG_ERROR_ARGUMENT);
    ifig_catalogue_free(NULL);
    ifig_species_free(NULL);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("record");
    tcase_add_test(facts, every_compiled_in_species_passes_the_checks_of_a_users);
    tcase_add_test(facts, signs_of_the_catalogue_agree_with_the_indices);
    tcase_add_test(facts, the_hash_is_sixty_four_hexadecimal_digits);
    tcase_add_test(facts, one_index_makes_an_isotropic_stone);
    tcase_add_test(facts, two_indices_make_a_uniaxial_stone_of_their_sign);
    tcase_add_test(facts, three_indices_make_a_biaxial_stone_of_their_two_v);
    tcase_add_test(facts, equal_indices_give_the_simpler_character);
    tcase_add_test(facts, indices_that_no_stone_has_are_refused);
    tcase_add_test(facts, a_record_that_makes_no_sense_is_refused_with_its_reason);
    tcase_add_test(facts, each_number_that_contradicts_another_is_refused);
    tcase_add_test(facts, a_formula_must_agree_with_n_and_keep_to_sense);
    tcase_add_test(facts, a_record_is_taken_apart_and_put_together_again);
    tcase_add_test(facts, a_catalogue_owns_what_it_is_given);
    tcase_add_test(facts, a_species_of_the_same_key_takes_the_place_of_the_old_one);
    tcase_add_test(facts, a_users_variety_goes_before_the_natural_one);
    tcase_add_test(facts, several_species_are_added_all_or_none);
    tcase_add_test(facts, compiled_in_species_are_neither_freed_nor_given_away);
    tcase_add_test(facts, missing_arguments_are_answered);
    return run_case(facts, "record");
}
