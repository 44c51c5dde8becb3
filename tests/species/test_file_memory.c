/* SPDX-License-Identifier: MIT */
/* A catalogue and a species file: every allocation fails in turn, once, and from then on. */
#include "../failing_memory.h"
#include "interfig/image.h"
#include "interfig/species_file.h"
#include "species_test.h"

static const char two_stones[] = "species:\n"
                                 "- {key: tern, n: [1.5, 1.6], varieties: [a, b]}\n"
                                 "- {key: harbour, n: 1.52}\n";

/* All the room does with memory; the last status, and how many species a failing file added. No
 * assertion in here: libcheck itself would run out of memory. */
static IfigStatus go_through(size_t *added_by_failure, IfigError *error)
{
    IfigCatalogue *catalogue = NULL;
    IfigSpecies *species = NULL;
    char *yaml = NULL;
    const double n = 1.5;
    IfigStatus status = ifig_catalogue_create(&catalogue, error);
    if (status == IFIG_OK) {
        size_t before = ifig_catalogue_count(catalogue);
        status =
            ifig_catalogue_read_text(catalogue, two_stones, sizeof two_stones - 1, NULL, error);
        *added_by_failure = status == IFIG_OK ? 0 : ifig_catalogue_count(catalogue) - before;
    }
    if (status == IFIG_OK) {
        status = ifig_species_from_indices(&n, 1, 0.0, &species, error);
    }
    if (status == IFIG_OK) {
        status = ifig_species_write_text(species, &yaml, error);
    }
    if (status == IFIG_OK) {
        status = ifig_catalogue_add(catalogue, species, error);
        species = status == IFIG_OK ? NULL : species;
    }
    ifig_text_free(yaml);
    ifig_species_free(species);
    ifig_catalogue_free(catalogue);
    return status;
}

START_TEST(each_failing_allocation_is_told_and_leaves_nothing_behind)
{
    for (for_good = 0; for_good <= 1; for_good++) {
        int failures = 0;
        for (long successes = 0;; successes++) {
            IfigError error = IFIG_ERROR_INIT;
            countdown = successes;
            size_t added_by_failure = 0;
            IfigStatus status = go_through(&added_by_failure, &error);
            countdown = -1;
            ck_assert_uint_eq(added_by_failure, 0);
            if (status == IFIG_OK) {
                break;
            }
            ck_assert_int_eq(status, IFIG_ERROR_MEMORY);
            ck_assert_ptr_nonnull(strstr(error.message, "no memory"));
            ck_assert_int_lt(++failures, 1000);
        }
        ck_assert_int_gt(failures, 10);
    }
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("memory");
    tcase_add_test(facts, each_failing_allocation_is_told_and_leaves_nothing_behind);
    return run_case(facts, "memory");
}
