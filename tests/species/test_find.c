/* SPDX-License-Identifier: MIT */
/* Names, varieties and slips of the pen: common practice, no source, unless said. */
#include "species_test.h"

#include <stdio.h>

static IfigStatus find(const char *word, const char **key, IfigError *error)
{
    IfigCatalogue *catalogue = make_catalogue();
    const IfigSpecies *species = NULL;
    IfigStatus status = ifig_catalogue_find(catalogue, word, &species, error);
    *key = species != NULL ? ifig_species_text(species, IFIG_TEXT_KEY) : "";
    ck_assert_int_eq(status == IFIG_OK, species != NULL);
    ifig_catalogue_free(catalogue);
    return status;
}

static void expect_key(const char *word, const char *key)
{
    IfigError error = IFIG_ERROR_INIT;
    const char *found;
    IfigStatus status = find(word, &found, &error);
    ck_assert_msg(status == IFIG_OK && strcmp(found, key) == 0, "'%s' gives '%s' %s", word, found,
                  error.message);
}

static void expect_message(const char *word, IfigStatus status, const char *message)
{
    IfigError error = IFIG_ERROR_INIT;
    const char *found;
    ck_assert_int_eq(find(word, &found, &error), status);
    ck_assert_int_eq(error.status, status);
    ck_assert_str_eq(error.message, message);
}

START_TEST(a_key_finds_its_species)
{
    expect_key("quartz", "quartz");
    expect_key("quartz_synthetic", "quartz_synthetic");
}
END_TEST

START_TEST(every_key_finds_its_own_species)
{
    IfigCatalogue *catalogue = make_catalogue();
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const IfigSpecies *species = ifig_catalogue_at(catalogue, i), *found = NULL;
        const char *key = ifig_species_text(species, IFIG_TEXT_KEY);
        ck_assert_int_eq(ifig_catalogue_find(catalogue, key, &found, NULL), IFIG_OK);
        ck_assert_ptr_eq(found, species);
    }
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(every_name_leads_to_a_species_or_a_choice)
{
    IfigCatalogue *catalogue = make_catalogue();
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const char *name = ifig_species_text(ifig_catalogue_at(catalogue, i), IFIG_TEXT_NAME);
        const IfigSpecies *found = NULL;
        ck_assert_int_eq(ifig_catalogue_find(catalogue, name, &found, NULL), IFIG_OK);
        ck_assert_str_eq(ifig_species_text(found, IFIG_TEXT_NAME), name);
    }
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(every_key_in_capitals_finds_its_own_species)
{
    IfigCatalogue *catalogue = make_catalogue();
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const IfigSpecies *species = ifig_catalogue_at(catalogue, i), *found = NULL;
        char capitals[64];
        snprintf(capitals, sizeof capitals, "%s", ifig_species_text(species, IFIG_TEXT_KEY));
        for (char *letter = capitals; *letter != '\0'; letter++) {
            *letter = (char)(*letter >= 'a' && *letter <= 'z' ? *letter - 'a' + 'A' : *letter);
        }
        ck_assert_msg(ifig_catalogue_find(catalogue, capitals, &found, NULL) == IFIG_OK, "%s",
                      capitals);
        ck_assert_ptr_eq(found, species);
    }
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(a_variety_finds_its_species)
{
    expect_key("ruby", "corundum");
    expect_key("sapphire", "corundum");
    expect_key("amethyst", "quartz");
    expect_key("kunzite", "spodumene");
    expect_key("iceland spar", "calcite");
}
END_TEST

START_TEST(case_blanks_hyphens_and_underscores_do_not_matter)
{
    expect_key("RUBY", "corundum");
    expect_key("  Rock-Crystal ", "quartz");
    expect_key("rock_crystal", "quartz");
    expect_key("Quartz Synthetic", "quartz_synthetic");
    expect_key("rockcrystal", "quartz");
}
END_TEST

START_TEST(accents_do_not_matter)
{
    expect_key("p\xc3\xa9ridot", "peridot");
    expect_key("P\xc3\x89RIDOT", "peridot");
    expect_key("pe\xcc\x81ridot", "peridot"); /* combining accent, as some systems write it */
    expect_key("T\xc3\xb6paz_f", "topaz_f");
}
END_TEST

START_TEST(a_remark_in_brackets_may_be_left_out)
{
    expect_key("titanite", "sphene");
    expect_key("vesuvianite", "idocrase");
}
END_TEST

START_TEST(a_variety_of_the_natural_stone_wins_over_its_synthetic)
{
    expect_key("emerald", "emerald");
    expect_key("alexandrite", "alexandrite");
}
END_TEST

START_TEST(a_word_that_fits_several_species_lists_their_keys)
{
    IfigError error = IFIG_ERROR_INIT;
    const char *found;
    ck_assert_int_eq(find("Garnet", &found, &error), IFIG_ERROR_AMBIGUOUS);
    ck_assert_ptr_nonnull(strstr(error.message, "'Garnet' fits several species: pyrope, "));
    ck_assert_ptr_nonnull(strstr(error.message, "almandine"));
    ck_assert_ptr_nonnull(strstr(error.message, "; give one of these"));
}
END_TEST

START_TEST(of_many_species_that_fit_eight_are_named_and_the_others_counted)
{
    static const char *const keys[] = {"tern_a", "tern_b", "tern_c", "tern_d", "tern_e",
                                       "tern_f", "tern_g", "tern_h", "tern_i", "tern_j"};
    IfigCatalogue *own = make_catalogue();
    const IfigSpecies *found = NULL;
    IfigError error = IFIG_ERROR_INIT;
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++) {
        IfigSpeciesRecord record = record_of(IFIG_ISOTROPIC, 1.5, 1.5, 1.5);
        IfigSpecies *species = NULL;
        record.text[IFIG_TEXT_KEY] = keys[i];
        record.text[IFIG_TEXT_NAME] = "Harbour stone";
        ck_assert_int_eq(ifig_species_create(&record, &species, NULL), IFIG_OK);
        ck_assert_int_eq(ifig_catalogue_add(own, species, NULL), IFIG_OK);
    }
    ck_assert_int_eq(ifig_catalogue_find(own, "harbour stone", &found, &error),
                     IFIG_ERROR_AMBIGUOUS);
    ck_assert_ptr_nonnull(strstr(error.message, "tern_h and 2 more; give one of these"));
    ck_assert_ptr_null(strstr(error.message, "tern_i"));
    ifig_catalogue_free(own);
}
END_TEST

START_TEST(a_slip_gets_a_suggestion)
{
    expect_message("quarz", IFIG_ERROR_NOT_FOUND,
                   "no species is called 'quarz'; did you mean quartz?");
    expect_message("saphire", IFIG_ERROR_NOT_FOUND,
                   "no species is called 'saphire'; did you mean sapphire?");
    expect_message("daimond", IFIG_ERROR_NOT_FOUND,
                   "no species is called 'daimond'; did you mean diamond?");
    expect_message("tourmalin", IFIG_ERROR_NOT_FOUND,
                   "no species is called 'tourmalin'; did you mean Tourmaline?");
    expect_message("aquam", IFIG_ERROR_NOT_FOUND,
                   "no species is called 'aquam'; did you mean aquamarine?");
}
END_TEST

START_TEST(a_word_like_nothing_gets_no_suggestion)
{
    expect_message("xyzzyx", IFIG_ERROR_NOT_FOUND,
                   "no species is called 'xyzzyx', nor anything like it; the catalogue's list has "
                   "every name");
}
END_TEST

START_TEST(an_empty_word_is_said_to_be_empty)
{
    const char *const message = "the name of the species is empty; give a key, a name or a "
                                "variety, such as quartz";
    expect_message("", IFIG_ERROR_NOT_FOUND, message);
    expect_message(" -_ ", IFIG_ERROR_NOT_FOUND, message);
}
END_TEST

START_TEST(a_word_of_a_megabyte_is_refused_in_one_line)
{
    enum { SIZE = 1 << 20 };
    static const char fill[] = {'a', ' ', '-', '\n', (char)0xff, (char)0xc3};
    char *word = malloc(SIZE + 1);
    ck_assert_ptr_nonnull(word);
    for (size_t i = 0; i < sizeof fill; i++) {
        memset(word, fill[i], SIZE);
        word[SIZE] = '\0';
        IfigError error = IFIG_ERROR_INIT;
        const char *found;
        ck_assert_int_eq(find(word, &found, &error), IFIG_ERROR_NOT_FOUND);
        ck_assert_uint_lt(strlen(error.message), 200);
    }
    memset(word, ' ', SIZE);
    memcpy(word + SIZE - 6, "quartz", 6);
    IfigError error = IFIG_ERROR_INIT;
    const char *found;
    ck_assert_int_eq(find(word, &found, &error), IFIG_ERROR_NOT_FOUND);
    free(word);
}
END_TEST

START_TEST(every_short_word_of_odd_bytes_is_answered)
{
    IfigCatalogue *catalogue = make_catalogue();
    for (int first = 1; first < 256; first++) {
        for (int second = 0; second < 256; second += 51) {
            char word[3] = {(char)first, (char)second, '\0'};
            const IfigSpecies *species = NULL;
            IfigError error = IFIG_ERROR_INIT;
            (void)ifig_catalogue_find(catalogue, word, &species, &error);
            for (const char *c = error.message; *c != '\0'; c++) {
                ck_assert((unsigned char)*c >= 0x20);
            }
        }
    }
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(missing_arguments_are_refused)
{
    IfigCatalogue *catalogue = make_catalogue();
    const IfigSpecies *species = builtin("quartz");
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_int_eq(ifig_catalogue_find(NULL, "quartz", &species, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_ptr_null(species);
    ck_assert_int_eq(ifig_catalogue_find(catalogue, NULL, &species, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_catalogue_find(catalogue, "quartz", NULL, NULL), IFIG_ERROR_ARGUMENT);
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(the_nearest_word_is_found_or_none)
{
    static const char *const words[] = {"notes", "source", "two_v_deg"};
    ck_assert_str_eq(ifig_nearest_word("sourse", words, 3), "source");
    ck_assert_str_eq(ifig_nearest_word("two_v", words, 3), "two_v_deg");
    ck_assert_ptr_null(ifig_nearest_word("two_v", words, 2));
    ck_assert_ptr_null(ifig_nearest_word("zebra", words, 3));
    ck_assert_ptr_null(ifig_nearest_word(NULL, words, 3));
}
END_TEST

START_TEST(blanks_hyphens_and_apostrophes_of_a_word_processor_do_not_matter)
{
    expect_key("rock\tcrystal", "quartz");
    expect_key("rock\xc2\xa0"
               "crystal",
               "quartz"); /* no-break space */
    expect_key("rock\xe2\x80\x90"
               "crystal",
               "quartz"); /* U+2010 */
    expect_key("rock\xe2\x80\x91"
               "crystal",
               "quartz"); /* U+2011 */
    expect_key("'quartz\xe2\x80\x99", "quartz");
    expect_key("\xe2\x80\x98quartz'", "quartz");
}
END_TEST

START_TEST(a_sign_of_multiplication_is_no_letter)
{
    IfigError error = IFIG_ERROR_INIT;
    const char *found;
    ck_assert_int_eq(find("quartz\xc3\x97", &found, &error), IFIG_ERROR_NOT_FOUND);
    ck_assert_ptr_nonnull(strstr(error.message, "did you mean quartz"));
}
END_TEST

START_TEST(of_two_stones_of_ones_own_neither_is_chosen)
{
    IfigCatalogue *own = make_catalogue();
    const IfigSpecies *found = NULL;
    for (int i = 0; i < 2; i++) {
        IfigSpeciesRecord record = record_of(IFIG_ISOTROPIC, 1.5, 1.5, 1.5);
        IfigSpecies *species = NULL;
        record.text[IFIG_TEXT_KEY] = i == 0 ? "tern_a" : "tern_b";
        record.text[IFIG_TEXT_NAME] = "Harbour stone";
        ck_assert_int_eq(ifig_species_create(&record, &species, NULL), IFIG_OK);
        ck_assert_int_eq(ifig_catalogue_add(own, species, NULL), IFIG_OK);
    }
    ck_assert_int_eq(ifig_catalogue_find(own, "harbour stone", &found, NULL), IFIG_ERROR_AMBIGUOUS);
    ifig_catalogue_free(own);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("find");
    tcase_add_test(facts, a_key_finds_its_species);
    tcase_add_test(facts, every_key_finds_its_own_species);
    tcase_add_test(facts, every_key_in_capitals_finds_its_own_species);
    tcase_add_test(facts, every_name_leads_to_a_species_or_a_choice);
    tcase_add_test(facts, a_variety_finds_its_species);
    tcase_add_test(facts, case_blanks_hyphens_and_underscores_do_not_matter);
    tcase_add_test(facts, accents_do_not_matter);
    tcase_add_test(facts, a_remark_in_brackets_may_be_left_out);
    tcase_add_test(facts, a_variety_of_the_natural_stone_wins_over_its_synthetic);
    tcase_add_test(facts, a_word_that_fits_several_species_lists_their_keys);
    tcase_add_test(facts, of_many_species_that_fit_eight_are_named_and_the_others_counted);
    tcase_add_test(facts, a_slip_gets_a_suggestion);
    tcase_add_test(facts, a_word_like_nothing_gets_no_suggestion);
    tcase_add_test(facts, an_empty_word_is_said_to_be_empty);
    tcase_add_test(facts, a_word_of_a_megabyte_is_refused_in_one_line);
    tcase_add_test(facts, every_short_word_of_odd_bytes_is_answered);
    tcase_add_test(facts, missing_arguments_are_refused);
    tcase_add_test(facts, the_nearest_word_is_found_or_none);
    tcase_add_test(facts, blanks_hyphens_and_apostrophes_of_a_word_processor_do_not_matter);
    tcase_add_test(facts, a_sign_of_multiplication_is_no_letter);
    tcase_add_test(facts, of_two_stones_of_ones_own_neither_is_chosen);
    return run_case(facts, "find");
}
