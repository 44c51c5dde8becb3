/* SPDX-License-Identifier: MIT */
/* What a species file may not hold, and what is said about it. */
#include <stdio.h>

#include "interfig/species_file.h"
#include "species_test.h"

static IfigStatus read_text(IfigCatalogue *catalogue, const char *text, IfigError *error)
{
    return ifig_catalogue_read_text(catalogue, text, strlen(text), "club.yaml", error);
}

/* clang-format off */
#define TERN "species:\n- key: tern\n"
/* A text, the place to blame and a part of what must be said. */
static const struct {
    const char *text, *place, *message;
} hostile[] = {
    {"", "1:1", "empty"},
    {"# nothing\n", "1:1", "empty"},
    {"quartz\n", "1:1", "begins with 'species:'"},
    {"- key: tern\n", "1:1", "begins with 'species:'"},
    {"{}\n", "1:1", "begins with 'species:'"},
    {"specie: []\n", "1:1", "did you mean species?"},
    {"species: []\n", "1:10", "a list of 1 to 1000 species"},
    {"species: {key: tern, n: 1.5}\n", "1:10", "a list of 1 to 1000 species"},
    {"species:\n", "1:9", "a list of 1 to 1000 species"},
    {"species: [tern]\n", "1:11", "a species must be a mapping"},
    {"species: [[1, 2]]\n", "1:11", "a species must be a mapping"},
    {"species:\n- n: 1.5\n", "2:3", "no key"},
    {TERN, "2:3", "no indices"},
    {"species:\n- key: Tern Stone\n  n: 1.5\n", "2:3", "a-z, 0-9 and '_'"},
    {"species:\n- key: tern\n  n: 1.5\n- key: tern\n  n: 1.6\n", "4:3", "belongs to species 1"},
    {"species:\n- key: _\n  n: 1.5\n", "2:3", "a letter of a-z or a digit"},
    {"species:\n- key: tern_1\n  n: 1.5\n- key: _tern1_\n  n: 1.6\n", "4:3", "'_' left out"},
    {TERN "  n: 1.5\n  n: 1.6\n", "4:3", "a second time, first in line 3"},
    {"species: []\nspecies: []\n", "2:1", "a second time, first in line 1"},
    {TERN "  n: 1.5\n  two_w_deg: 60\n", "4:3", "did you mean two_v_deg?"},
    {TERN "  n: 1.5\n  colour: red\n", "4:3", "there is no key 'colour' here; known are key, "},
    {TERN "  n: 1,544\n", "3:6", "with a decimal point, not a comma"},
    {TERN "  n: [1,544, 1,553]\n", "3:6", "a list of 1 to 3 numbers"},
    {TERN "  n: [1,544]\n", "3:9", "n is 544; it must lie between 1 and 5"},
    {TERN "  n: 0.9\n", "3:6", "n is 0.9; it must lie between 1 and 5"},
    {TERN "  n: 1e999\n", "3:6", "finite number"},
    {TERN "  n: nan\n", "3:6", "finite number"},
    {TERN "  n: .inf\n", "3:6", "finite number"},
    {TERN "  n: 0x1p0\n", "3:6", "finite number"},
    {TERN "  n: ''\n", "3:6", "it is empty"},
    {TERN "  n:\n", "3:5", "it is empty"},
    {TERN "  n: {o: 1.5}\n", "3:6", "a list of 1 to 3 numbers"},
    {TERN "  n: [1.5, [1.6]]\n", "3:12", "must be a number"},
    {TERN "  n: []\n", "3:6", "a list of 1 to 3 numbers"},
    {TERN "  n: [1.6, 1.5, 1.7]\n", "2:3", "biaxial three that rise"},
    {TERN "  n: [1.5, 1.5]\n", "2:3", "uniaxial two different ones"},
    {TERN "  n: [1.5, 1.6]\n  optic_sign: negative\n", "2:3", "make the stone +"},
    {TERN "  n: [1.5, 1.6]\n  optic_sign: up\n", "4:15", "it must be one of positive, negative"},
    {TERN "  n: [1.5, 1.6]\n  optic_sign: -\n", "4:15", "in quotes"},
    {TERN "  n: 1.5\n  optic_character: cubic\n", "4:20", "one of isotropic, uniaxial"},
    {TERN "  n: 1.5\n  optic_character: [biaxial]\n", "4:20", "one of isotropic, uniaxial"},
    {TERN "  n: 1.5\n  opaque: perhaps\n", "4:11", "one of false, no, 0, true, yes, 1"},
    {TERN "  n: 1.5\n  two_v_deg: 30\n", "2:3", "only a biaxial stone"},
    {TERN "  n: [1.609, 1.612, 1.619]\n  two_v_deg: 10\n", "2:3", "asks for a middle index"},
    {TERN "  n: 1.5\n  dispersion_bg: -0.1\n", "4:18", "must lie between 0 and 1"},
    {TERN "  n: 1.5\n  dispersion_bg: [0.1]\n", "4:18", "must be one number"},
    {TERN "  n: 1.5\n  notes: [a, b]\n", "4:10", "must be text on one line"},
    {TERN "  n: 1.5\n  notes: |\n    a\n    b\n", "2:3", "the notes holds"},
    {TERN "  n: 1.5\n  notes: \"a\\0b\"\n", "4:10", "NUL"},
    {TERN "  n: 1.5\n  notes: \"a\\eb\"\n", "2:3", "the notes holds"},
    {TERN "  n: 1.5\n  varieties: [a, 'b;c']\n", "4:18", "without ';'"},
    {TERN "  n: 1.5\n  dispersion: 2\n", "4:15", "a mapping of axes"},
    {TERN "  n: 1.5\n  dispersion: {w: {formula_type: 1}}\n", "4:16", "there is no key 'w' here"},
    {TERN "  n: 1.5\n  dispersion: {iso: 3}\n", "4:21", "a formula must be a mapping"},
    {TERN "  n: 1.5\n  dispersion: {iso: {coefficients: [1]}}\n", "4:21", "no formula_type"},
    {TERN "  n: 1.5\n  dispersion: {iso: {formula_type: 7}}\n", "4:36", "between 1 and 6"},
    {TERN "  n: 1.5\n  dispersion: {iso: {formula_type: 1.5}}\n", "4:36", "must be whole"},
    {TERN "  n: 1.5\n  dispersion: {iso: {formula_typo: 1}}\n", "4:22", "did you mean formula"},
    {TERN "  n: 1.5\n  dispersion: {iso: {formula_type: 5, coefficients: [1,2,3,4,5,6,7,8,9,10,"
          "11,12,13,14,15,16,17,18]}}\n", "4:53", "a list of 1 to 17 numbers"},
    {TERN "  n: 1.5\n  dispersion: {iso: {formula_type: 5, coefficients: [1.6]}}\n", "2:3",
     "gives n 1.6 at 589.3 nm"},
    {TERN "  n: [1.5, 1.6]\n  dispersion: {o: {formula_type: 5, coefficients: [1.5]}}\n", "2:3",
     "along Z is of type 0"},
    {TERN "  n: 1.5\n  dispersion: {iso: {formula_type: 5, coefficients: [1.5]}, x: {formula_type: "
          "5, coefficients: [1.5]}}\n", "4:61", "has a formula already"},
    {TERN "  n: 1.5\n  rotation: 21.7\n", "4:13", "rotation_deg_per_mm"},
    {TERN "  n: 1.5\n  rotation: {strength: 3}\n", "4:14", "did you mean strength_um2?"},
    {TERN "  n: 1.5\n  rotation: {pole_um2: [0.2]}\n", "4:25", "between 0 and 0.08"},
    {TERN "  n: 1.5\n  rotation: {constant: 1}\n  rotation_deg_per_mm: 1\n", "2:3", "keep one"},
    {"species: &all\n- key: tern\n  n: 1.5\n", "1:10", "anchors"},
    {"species:\n- &a\n  key: tern\n- *a\n", "2:3", "anchors"},
    {"species: *all\n", "1:10", "aliases"},
    {TERN "  n: !!float 1.5\n", "3:6", "tags"},
    {TERN "  n: ! 1.5\n", "3:6", "tags"},
    {"species: !!seq []\n", "1:10", "tags"},
    {"%YAML 1.1\n---\nspecies: []\n", "1:1", "directives"},
    {"%TAG ! tag:tern,2020:\n---\nspecies: []\n", "1:1", "directives"},
    {TERN "  n: 1.5\n---\n" TERN, "4:1", "a second document"},
    {"species: [[[[[[[1]]]]]]]\n", "1:15", "nested deeper than 6"},
    {"? [a, b]\n: c\n", "1:3", "a key must be a word"},
    {"species:\n- key: tern\n\tn: 1.5\n", "3:1", "indent with blanks"},
    {"species: [\n", "2:1", "compare the indentation"},
    {"species: 'open\n", "2:1", "compare the indentation"},
    {TERN "  n: \xff\n", "3:6", "not UTF-8"},
    {"species:\n- key: t\xc3\n", "2:9", "not UTF-8"},
    {"species:\n- key: \xed\xa0\x80\n", "2:8", "not UTF-8"},
    {"species:\n- key: \x1b[2J\n", "2:8", "control character"},
    {"\xff\xfes\0p", "1:1", "not UTF-8"}, /* UTF-16 */
};

/* clang-format on */

START_TEST(hostile_text_is_refused_with_its_place_and_changes_nothing)
{
    IfigCatalogue *catalogue = make_catalogue();
    size_t before = ifig_catalogue_count(catalogue);
    for (size_t i = 0; i < sizeof hostile / sizeof *hostile; i++) {
        char start[64];
        IfigError error = IFIG_ERROR_INIT;
        snprintf(start, sizeof start, "club.yaml:%s: ", hostile[i].place);
        ck_assert_msg(read_text(catalogue, hostile[i].text, &error) == IFIG_ERROR_SYNTAX,
                      "case %zu, %s: read", i, hostile[i].message);
        ck_assert_msg(strncmp(error.message, start, strlen(start)) == 0 &&
                          strstr(error.message, hostile[i].message) != NULL,
                      "case %zu: '%s' lacks '%s%s'", i, error.message, start, hostile[i].message);
        ck_assert_uint_eq(ifig_catalogue_count(catalogue), before);
    }
    ifig_catalogue_free(catalogue);
}
END_TEST

/* Text made of a head, a part repeated, and a tail. */
static char *repeat(const char *head, const char *part, size_t times, const char *tail)
{
    size_t length = strlen(part);
    char *text = malloc(strlen(head) + times * length + strlen(tail) + 1);
    ck_assert_ptr_nonnull(text);
    strcpy(text, head);
    char *end = text + strlen(head);
    for (size_t i = 0; i < times; i++, end += length) {
        memcpy(end, part, length);
    }
    strcpy(end, tail);
    return text;
}

START_TEST(large_hostile_text_is_refused_quickly)
{
    const struct {
        const char *head, *part;
        size_t times;
        const char *tail, *message;
    } cases[] = {
        {"species: ", "[", 100000, "", "nested deeper"},
        {"species: ", "{a: ", 100000, "", "nested deeper"},
        {"species:\n", "- - - - - - - - ", 50000, "", "nested deeper"},
        {"species:\n", "- key: tern\n  n: 1.5\n", 1001, "", "1 to 1000"},
        {"species:\n- key: ", "a", 1000000, "\n  n: 1.5\n", "1 to 64 letters"},
        {"species:\n- key: a\n  notes: ", "a", 1000000, "\n  n: 1.5\n", "at most 4000"},
        {"species:\n- key: a\n  n: ", "1", 1000000, "\n", "finite number"},
        {"species:\n- key: a\n  n: [", "1.5,", 250000, "]\n", "too many parts"},
        {"species:\n- key: a\n  n: [", "1.5,", 150000, "]\n", "a list of 1 to 3"},
        {"", "# nothing\n", 110000, "", "longer than 1048576"},
        {"species:\n- ", "\xc3", 1000000, "", "not UTF-8"},
        {"", "? ", 500000, "", "a key must be a word"},
    };
    IfigCatalogue *catalogue = make_catalogue();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char *text = repeat(cases[i].head, cases[i].part, cases[i].times, cases[i].tail);
        IfigError error = IFIG_ERROR_INIT;
        ck_assert_int_eq(read_text(catalogue, text, &error), IFIG_ERROR_SYNTAX);
        ck_assert_msg(strstr(error.message, cases[i].message) != NULL, "case %zu: %s", i,
                      error.message);
        free(text);
    }
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(more_than_a_hundred_keys_in_one_mapping_are_refused)
{
    char *text = calloc(1, 8192);
    ck_assert_ptr_nonnull(text);
    strcpy(text, "species:\n");
    for (int i = 0; i < 101; i++) {
        snprintf(text + strlen(text), 24, "key%d: 1\n", i);
    }
    IfigCatalogue *catalogue = make_catalogue();
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_int_eq(read_text(catalogue, text, &error), IFIG_ERROR_SYNTAX);
    ck_assert_ptr_nonnull(strstr(error.message, "more than 100 keys"));
    ifig_catalogue_free(catalogue);
    free(text);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("species_hostile");
    tcase_add_test(facts, hostile_text_is_refused_with_its_place_and_changes_nothing);
    tcase_add_test(facts, large_hostile_text_is_refused_quickly);
    tcase_add_test(facts, more_than_a_hundred_keys_in_one_mapping_are_refused);
    tcase_set_timeout(facts, 30);
    return run_case(facts, "species_hostile");
}
