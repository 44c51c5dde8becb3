/* SPDX-License-Identifier: MIT */
/* The user's species file: what is read, and the way there and back. */
#include <stdio.h>
#include <unistd.h>

#include "interfig/image.h"
#include "interfig/species_file.h"
#include "species_test.h"

static const char club[] = "# Stones of the Tern Harbour lapidary club\n"
                           "species:\n"
                           "  - key: harbour_topaz\n"
                           "    name: Topaz, harbour find\n"
                           "    varieties: [tern topaz, sea topaz]\n"
                           "    n: [1.609, 1.612, 1.619]\n"
                           "    two_v_deg: 66\n"
                           "    two_v_c_deg: 66.8\n"
                           "    two_v_f_deg: 65.0\n"
                           "    dispersion_bg: 0.014\n"
                           "    optic_sign: positive\n"
                           "    source: club notebook, page 12\n"
                           "  - key: harbour_quartz\n"
                           "    n: [1.544, 1.553]\n"
                           "    rotation_deg_per_mm: 21.7\n"
                           "  - {key: harbour_glass, n: 1.52, opaque: yes}\n";

static IfigStatus read_text(IfigCatalogue *catalogue, const char *text, IfigError *error)
{
    return ifig_catalogue_read_text(catalogue, text, strlen(text), "club.yaml", error);
}

static const IfigSpecies *find(const IfigCatalogue *catalogue, const char *word)
{
    const IfigSpecies *species = NULL;
    ck_assert_int_eq(ifig_catalogue_find(catalogue, word, &species, NULL), IFIG_OK);
    return species;
}

START_TEST(a_club_file_adds_its_stones)
{
    IfigCatalogue *catalogue = make_catalogue();
    size_t before = ifig_catalogue_count(catalogue);
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(read_text(catalogue, club, &error) == IFIG_OK, "%s", error.message);
    ck_assert_uint_eq(ifig_catalogue_count(catalogue), before + 3);
    const IfigSpecies *topaz = find(catalogue, "sea topaz");
    ck_assert_str_eq(ifig_species_text(topaz, IFIG_TEXT_NAME), "Topaz, harbour find");
    ck_assert_str_eq(ifig_species_text(topaz, IFIG_TEXT_VARIETIES), "tern topaz;sea topaz");
    ck_assert_double_eq_tol(two_v_at(topaz, 656.3), 66.8, 1e-6);
    const IfigSpecies *quartz = find(catalogue, "harbour quartz");
    ck_assert_str_eq(ifig_species_text(quartz, IFIG_TEXT_NAME), "harbour_quartz");
    ck_assert_str_eq(ifig_species_text(quartz, IFIG_TEXT_NATURE), "user");
    ck_assert_str_eq(ifig_species_text(quartz, IFIG_TEXT_SOURCE), "user");
    ck_assert_int_eq(quartz->record.facts.optic_sign, 1);
    ck_assert_double_eq(ifig_species_rotation_deg_per_mm(quartz, 450.0), 21.7);
    ck_assert_int_eq(find(catalogue, "harbourglass")->record.facts.is_opaque, 1);
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(formulas_and_axes_are_read)
{
    /* quartz: G. Ghosh, Opt. Commun. 163, 95 (1999) */
    IfigCatalogue *catalogue = make_catalogue();
    IfigError error = IFIG_ERROR_INIT;
    IfigStatus status = read_text(
        catalogue,
        "species:\n- key: tern\n  n: [1.5442, 1.5533]\n  dispersion:\n"
        "    o: {formula_type: 2, coefficients: [0.28604141, 1.07044083, 1.00585997e-2, 1.10202242,"
        " 100]}\n"
        "    e: {formula_type: 2, coefficients: [0.28851804, 1.09509924, 1.02101864e-2, 1.15662475,"
        " 100], low_um: 0.2, high_um: 2.05}\n",
        &error);
    ck_assert_msg(status == IFIG_OK, "%s", error.message);
    for (int axis = 0; axis < 3; axis++) {
        ck_assert_double_eq(index_at(find(catalogue, "tern"), axis, 450.0),
                            index_at(builtin("quartz"), axis, 450.0));
    }
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(crlf_and_a_byte_order_mark_are_taken)
{
    IfigCatalogue *catalogue = make_catalogue();
    IfigError error = IFIG_ERROR_INIT;
    const char *text = "\xef\xbb\xbfspecies:\r\n  - key: tern\r\n    n: 1.5\r\n";
    ck_assert_msg(read_text(catalogue, text, &error) == IFIG_OK, "%s", error.message);
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(text_cut_anywhere_is_refused_or_read_whole)
{
    for (size_t length = 0; length < sizeof club; length++) {
        IfigCatalogue *catalogue = make_catalogue();
        size_t before = ifig_catalogue_count(catalogue);
        char *copy = malloc(length + 1); /* a reader beyond the end would be caught */
        ck_assert_ptr_nonnull(copy);
        memcpy(copy, club, length);
        IfigStatus status = ifig_catalogue_read_text(catalogue, copy, length, NULL, NULL);
        ck_assert(status == IFIG_OK || status == IFIG_ERROR_SYNTAX);
        ck_assert(status == IFIG_OK || ifig_catalogue_count(catalogue) == before);
        free(copy);
        ifig_catalogue_free(catalogue);
    }
}
END_TEST

START_TEST(one_error_in_a_file_keeps_all_its_species_out)
{
    char text[sizeof club + 64];
    snprintf(text, sizeof text, "%s  - {key: harbour_flaw, n: 9}\n", club);
    IfigCatalogue *catalogue = make_catalogue();
    size_t before = ifig_catalogue_count(catalogue);
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_int_eq(read_text(catalogue, text, &error), IFIG_ERROR_SYNTAX);
    ck_assert_str_eq(error.message, "club.yaml:17:28: n is 9; it must lie between 1 and 5");
    ck_assert_uint_eq(ifig_catalogue_count(catalogue), before);
    ifig_catalogue_free(catalogue);
}
END_TEST

static void expect_same_record(const IfigSpecies *one, const IfigSpecies *other)
{
    IfigSpeciesRecord a = one->record, b = other->record;
    for (int i = 0; i < IFIG_SPECIES_TEXT_COUNT; i++) {
        ck_assert_str_eq(a.text[i], b.text[i]);
    }
    /* Field by field, since unknown numbers are NaN of any sign. */
    const double *const numbers[][2] = {
        {&a.facts.n[0], &b.facts.n[0]},
        {&a.facts.n[1], &b.facts.n[1]},
        {&a.facts.n[2], &b.facts.n[2]},
        {&a.facts.n_low, &b.facts.n_low},
        {&a.facts.n_high, &b.facts.n_high},
        {&a.facts.birefringence_low, &b.facts.birefringence_low},
        {&a.facts.birefringence_high, &b.facts.birefringence_high},
        {&a.facts.two_v_deg, &b.facts.two_v_deg},
        {&a.facts.two_v_low_deg, &b.facts.two_v_low_deg},
        {&a.facts.two_v_high_deg, &b.facts.two_v_high_deg},
        {&a.facts.dispersion_bg, &b.facts.dispersion_bg},
        {&a.facts.axes_turn_deg, &b.facts.axes_turn_deg},
        {&a.two_v_c_deg, &b.two_v_c_deg},
        {&a.two_v_f_deg, &b.two_v_f_deg},
    };
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        ck_assert_msg(same_double(*numbers[i][0], *numbers[i][1]), "%s: number %zu", a.text[0], i);
    }
    ck_assert_int_eq(a.facts.character, b.facts.character);
    ck_assert_int_eq(a.facts.optic_sign, b.facts.optic_sign);
    ck_assert_int_eq(a.facts.may_be_either_sign, b.facts.may_be_either_sign);
    ck_assert_int_eq(a.facts.is_opaque, b.facts.is_opaque);
    ck_assert_int_eq(a.facts.is_optically_active, b.facts.is_optically_active);
    ck_assert_int_eq(a.facts.is_measured_dispersion, b.facts.is_measured_dispersion);
    ck_assert_int_eq(a.facts.monoclinic, b.facts.monoclinic);
    ck_assert_int_eq(memcmp(&a.rotation, &b.rotation, sizeof a.rotation), 0);
    for (int axis = 0; axis < 3; axis++) {
        ck_assert_int_eq(a.formula[axis].type, b.formula[axis].type);
        ck_assert(same_double(a.formula[axis].low_um, b.formula[axis].low_um));
        ck_assert(same_double(a.formula[axis].high_um, b.formula[axis].high_um));
        ck_assert_int_eq(memcmp(a.formula[axis].coefficient, b.formula[axis].coefficient,
                                sizeof a.formula[axis].coefficient),
                         0);
    }
}

static void expect_to_come_back(const IfigSpecies *species)
{
    IfigCatalogue *other = make_catalogue();
    IfigError error = IFIG_ERROR_INIT;
    char *yaml = NULL;
    ck_assert_int_eq(ifig_species_write_text(species, &yaml, &error), IFIG_OK);
    ck_assert_msg(read_text(other, yaml, &error) == IFIG_OK, "%s\n%s", error.message, yaml);
    expect_same_record(species, find(other, ifig_species_text(species, IFIG_TEXT_KEY)));
    ifig_text_free(yaml);
    ifig_catalogue_free(other);
}

START_TEST(every_species_comes_back_from_text_bit_for_bit)
{
    IfigCatalogue *catalogue = make_catalogue();
    ck_assert_int_eq(read_text(catalogue, club, NULL), IFIG_OK);
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        expect_to_come_back(ifig_catalogue_at(catalogue, i));
    }
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(odd_numbers_and_texts_come_back_bit_for_bit)
{
    IfigSpeciesRecord record = record_of(IFIG_BIAXIAL, 1.0 + 0x1p-52, 4.0 / 3.0, 5.0 - 0x1p-50);
    record.text[IFIG_TEXT_NOTES] = "a \"quoted\" \\ {b}: #c, 'd' - \xc3\xa9\xf0\x9f\x92\x8e %e ";
    record.text[IFIG_TEXT_NAME] = "- *&!|>";
    record.text[IFIG_TEXT_VARIETIES] = "yes;no;null;~;0x10";
    record.text[IFIG_TEXT_SOURCE] = "";
    record.rotation.constant = -1.0 / 3.0;
    record.rotation.strength_um2[1] = 4.9e-324;
    record.facts.birefringence_low = -0.0;
    record.facts.two_v_low_deg = 0.1 + 0.2;
    IfigSpecies *species = NULL;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_species_create(&record, &species, &error) == IFIG_OK, "%s", error.message);
    expect_to_come_back(species);
    ifig_species_free(species);

    const double indices[3] = {1.0 / 0.6, 1.7, 1.7 + 0x1p-52};
    ck_assert_int_eq(ifig_species_from_indices(indices, 3, -7.3, &species, NULL), IFIG_OK);
    expect_to_come_back(species);
    ifig_species_free(species);
}
END_TEST

START_TEST(a_file_on_disk_is_read_and_a_missing_one_named)
{
    char path[] = "species_file_XXXXXX";
    int descriptor = mkstemp(path);
    ck_assert_int_ge(descriptor, 0);
    ck_assert_int_eq(write(descriptor, club, sizeof club - 1), (ssize_t)(sizeof club - 1));
    close(descriptor);
    IfigCatalogue *catalogue = make_catalogue();
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_int_eq(ifig_catalogue_read_file(catalogue, path, &error), IFIG_OK);
    (void)find(catalogue, "harbour_glass");
    unlink(path);
    ck_assert_int_eq(ifig_catalogue_read_file(catalogue, path, &error), IFIG_ERROR_NOT_FOUND);
    ck_assert_ptr_nonnull(strstr(error.message, path));
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(missing_arguments_are_refused)
{
    IfigCatalogue *catalogue = make_catalogue();
    char *yaml = NULL;
    ck_assert_int_eq(ifig_catalogue_read_file(NULL, "x", NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_catalogue_read_file(catalogue, NULL, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_catalogue_read_text(NULL, "", 0, NULL, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_catalogue_read_text(catalogue, NULL, 0, NULL, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_species_write_text(NULL, &yaml, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_species_write_text(builtin("quartz"), NULL, NULL), IFIG_ERROR_ARGUMENT);
    ifig_catalogue_free(catalogue);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("species_file");
    tcase_add_test(facts, a_club_file_adds_its_stones);
    tcase_add_test(facts, formulas_and_axes_are_read);
    tcase_add_test(facts, crlf_and_a_byte_order_mark_are_taken);
    tcase_add_test(facts, text_cut_anywhere_is_refused_or_read_whole);
    tcase_add_test(facts, one_error_in_a_file_keeps_all_its_species_out);
    tcase_add_test(facts, every_species_comes_back_from_text_bit_for_bit);
    tcase_add_test(facts, odd_numbers_and_texts_come_back_bit_for_bit);
    tcase_add_test(facts, a_file_on_disk_is_read_and_a_missing_one_named);
    tcase_add_test(facts, missing_arguments_are_refused);
    tcase_set_timeout(facts, 30);
    return run_case(facts, "species_file");
}
