/* SPDX-License-Identifier: MIT */
/* Allocations of the room fail in turn, once, and from then on. The linker leads this program's
 * calls of malloc and calloc here (--wrap). */
#include "advice_test.h"

void *__real_malloc(size_t size);
void *__real_calloc(size_t count, size_t size);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t count, size_t size);

static long countdown = -1; /* allocations that still succeed; negative: all */
static int for_good;        /* whether those after the failing one fail too */

static int must_fail(void)
{
    if (countdown < 0) {
        return 0;
    }
    if (countdown > 0) {
        countdown--;
        return 0;
    }
    countdown = for_good ? 0 : -1;
    return 1;
}

void *__wrap_malloc(size_t size)
{
    return must_fail() ? NULL : __real_malloc(size);
}

void *__wrap_calloc(size_t count, size_t size)
{
    return must_fail() ? NULL : __real_calloc(count, size);
}

/* All the room does with memory. No assertion in here: libcheck itself would run out of it. */
static IfigStatus go_through(const IfigStone *ruby, const IfigStone *spinel, IfigError *error)
{
    IfigPairContrast contrast = IFIG_PAIR_CONTRAST_INIT;
    IfigNarrowing *narrowing = NULL;
    IfigStatus status = ifig_contrast(ruby, spinel, NULL, STONE_MM, &contrast, error);
    if (status == IFIG_OK) {
        status = ifig_narrow(catalogue, NULL, 0, NULL, STONE_MM, &narrowing, error);
    }
    ifig_narrowing_free(narrowing);
    return status;
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

int main(void)
{
    TCase *facts = tcase_create("memory of advice");
    tcase_add_checked_fixture(facts, open_catalogue, close_catalogue);
    tcase_add_test(facts, a_failing_allocation_is_told_and_leaves_nothing_behind);
    return run_case(facts, "memory of advice");
}
