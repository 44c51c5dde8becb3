/* SPDX-License-Identifier: MIT */
/* Every allocation of a scenario is refused in turn, once and from there on. Each time the call
 * says so (or does without), nothing leaks, no file is left half-written, and the next call works.
 */
#include "failing_allocator.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "../run_case.h"
#include "scenarios.h"

typedef struct Tally {
    long faults;
} Tally;

/* What is wrong with a scenario; "" for nothing. */
typedef struct Verdict {
    char text[200];
} Verdict;

#define WRONG(...)                                                                                 \
    do {                                                                                           \
        Verdict verdict;                                                                           \
        snprintf(verdict.text, sizeof verdict.text, __VA_ARGS__);                                  \
        return verdict;                                                                            \
    } while (0)

static IfigStatus run(const Scenario *scenario, long which, int persistently)
{
    failing_allocator_arm(which, persistently);
    const IfigStatus status = scenario->run(scenario);
    failing_allocator_disarm();
    return status;
}

static int is_told(IfigStatus status)
{
    /* An output that cannot be opened for want of memory is one that cannot be created. */
    return status == IFIG_ERROR_MEMORY || status == IFIG_ERROR_CREATE || status == IFIG_ERROR_IO;
}

/* Refuse one allocation and look at what became of it. *refused: 0 where there was none such. */
static Verdict refuse_one(const Scenario *scenario, long which, int persistently, long *refused)
{
    const IfigStatus status = run(scenario, which, persistently);
    const long live = failing_allocator_live_blocks();
    *refused = failing_allocator_refused();
    if (live != 0) {
        WRONG("%s: allocation %ld refused: %ld blocks leak", scenario->name, which, live);
    }
    if (*refused == 0 && status != IFIG_OK) {
        WRONG("%s: fails without a fault", scenario->name);
    }
    if (*refused > 0 && status == IFIG_OK && !scenario->may_do_without) {
        WRONG("%s: allocation %ld refused, and not told", scenario->name, which);
    }
    if (status != IFIG_OK && !is_told(status)) {
        WRONG("%s: allocation %ld refused: status %d", scenario->name, which, (int)status);
    }
    if (!scenario_keeps_folder(scenario, status)) {
        WRONG("%s: allocation %ld refused: the folder holds a wrong file", scenario->name, which);
    }
    return (Verdict){""};
}

static Verdict refuse_each(const Scenario *scenario, int persistently, Tally *tally)
{
    long refused = 1;
    for (long which = 1; refused > 0; which++) {
        const Verdict verdict = refuse_one(scenario, which, persistently, &refused);
        if (verdict.text[0] != '\0') {
            return verdict;
        }
        tally->faults += refused > 0;
    }
    return refuse_one(scenario, 0, 0, &refused); /* the next call works */
}

/* Each of these scenarios, broken at each of its allocations. */
static void break_all(const Scenario *scenario, size_t count)
{
    Tally tally = {0};
    scenarios_open();
    for (size_t i = 0; i < count; i++) {
        const long before = tally.faults;
        run(&scenario[i], 0, 0); /* whatever libc keeps for good is taken here */
        scenario_keeps_folder(&scenario[i], IFIG_OK);
        for (int persistently = 0; persistently <= 1; persistently++) {
            const Verdict verdict = refuse_each(&scenario[i], persistently, &tally);
            ck_assert_msg(verdict.text[0] == '\0', "%s", verdict.text);
        }
        printf("%-44s %5ld faults\n", scenario[i].name, tally.faults - before);
    }
    scenarios_close();
    printf("%zu scenarios, %ld refused allocations\n", count, tally.faults);
}

START_TEST(every_refused_allocation_is_told_and_leaks_nothing)
{
    break_all(scenarios, scenario_count);
    ck_assert_uint_ge(scenario_count, 60);
}
END_TEST

START_TEST(so_is_every_one_of_a_stone_without_a_lens_and_of_advice)
{
    break_all(stone_scenarios, stone_scenario_count);
}
END_TEST

/* Canary: a scenario that forgets to look at its allocation, and one that leaks after a fault. */
static IfigStatus careless(const Scenario *scenario)
{
    (void)scenario;
    char *volatile block = malloc(16); /* volatile: the pair must not be optimised away */
    free(block);
    return IFIG_OK;
}

static IfigStatus leaky(const Scenario *scenario)
{
    (void)scenario;
    char *volatile first = malloc(16), *volatile second = malloc(16);
    if (second == NULL) {
        return IFIG_ERROR_MEMORY; /* first is forgotten */
    }
    free(first);
    free(second);
    return first == NULL ? IFIG_ERROR_MEMORY : IFIG_OK;
}

START_TEST(a_careless_call_and_a_leak_are_found)
{
    static const Scenario planted[] = {{.name = "careless", .run = careless},
                                       {.name = "leaky", .run = leaky}};
    Tally tally = {0};
    scenarios_open();
    ck_assert_ptr_nonnull(strstr(refuse_each(&planted[0], 0, &tally).text, "not told"));
    ck_assert_ptr_nonnull(strstr(refuse_each(&planted[1], 0, &tally).text, "leak"));
    scenarios_close();
}
END_TEST

/* Run with any argument: the stones; without: the others, and the canaries. */
int main(int count, char **words)
{
    (void)words;
    TCase *facts = tcase_create("refused allocations");
    if (count > 1) {
        tcase_add_test(facts, so_is_every_one_of_a_stone_without_a_lens_and_of_advice);
    } else {
        tcase_add_test(facts, every_refused_allocation_is_told_and_leaks_nothing);
        tcase_add_test(facts, a_careless_call_and_a_leak_are_found);
    }
    return run_case(facts, "faults");
}
