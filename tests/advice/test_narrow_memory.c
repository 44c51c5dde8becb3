/* SPDX-License-Identifier: MIT */
/* A contrast and a narrowing: allocations fail in turn, once, and from then on. */
#include "../failing_memory.h"
#include "advice_test.h"

/* No assertion in here: libcheck itself would run out of memory. */
static IfigStatus narrow_down(IfigError *error)
{
    IfigNarrowing *narrowing = NULL;
    const IfigStatus status = ifig_narrow(catalogue, NULL, 0, NULL, STONE_MM, &narrowing, error);
    ifig_narrowing_free(narrowing);
    return status;
}

/* All the room does with memory. */
static IfigStatus go_through(const IfigStone *ruby, const IfigStone *spinel, IfigError *error)
{
    IfigPairContrast contrast = IFIG_PAIR_CONTRAST_INIT;
    const IfigStatus status = ifig_contrast(ruby, spinel, NULL, STONE_MM, &contrast, error);
    return status == IFIG_OK ? narrow_down(error) : status;
}

START_TEST(a_failing_allocation_is_told_and_leaves_nothing_behind)
{
    const long each = 24, stride = 29; /* the first ones by turns, then some of the many alike */
    const IfigStone ruby = stone("ruby"), spinel = stone("red spinel");
    for (for_good = 0; for_good <= 1; for_good++) {
        int failures = 0;
        for (long successes = 0;; successes += successes < each ? 1 : stride) {
            IfigError error = IFIG_ERROR_INIT;
            countdown = successes;
            const IfigStatus status = go_through(&ruby, &spinel, &error);
            countdown = -1;
            if (status == IFIG_OK) {
                break;
            }
            ck_assert_int_eq(status, IFIG_ERROR_MEMORY);
            assert_says(error.message, "memory");
            failures++;
        }
        ck_assert_int_gt(failures, (int)each);
    }
}
END_TEST

START_TEST(a_narrowing_that_gets_none_of_its_first_allocations_says_so)
{
    for (long successes = 0; successes < 24; successes++) {
        IfigError error = IFIG_ERROR_INIT;
        countdown = successes;
        const IfigStatus status = narrow_down(&error);
        countdown = -1;
        ck_assert_int_eq(status, IFIG_ERROR_MEMORY);
        assert_says(error.message, "memory");
    }
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("memory of advice");
    tcase_add_checked_fixture(facts, open_catalogue, close_catalogue);
    tcase_add_test(facts, a_failing_allocation_is_told_and_leaves_nothing_behind);
    tcase_add_test(facts, a_narrowing_that_gets_none_of_its_first_allocations_says_so);
    return run_case(facts, "memory of advice");
}
