/* SPDX-License-Identifier: MIT */
/* The state of a search in words. The sentences are in messages.c. */
#include "words.h"

#include "base.h"

#include <math.h>

enum { MOST_NAMED = 12, MOST_NEAR = 5, MOST_NEXT = 3 };

static IfigPhrase name_of(const IfigSpecies *species)
{
    const IfigStone stone = {.species = species};
    return ifig_stone_name(&stone);
}

static void say_fitting(const IfigNarrowing *narrowing, IfigPage *page)
{
    const size_t count = narrowing->fitting_count;
    const size_t named = count > MOST_NAMED ? MOST_NAMED : count;
    const IfigNumberText all = ifig_number_text((double)narrowing->catalogue_count, 9);
    const IfigNumberText fit = ifig_number_text((double)count, 9);
    if (count <= 1) {
        const IfigPhrase only = count == 1 ? name_of(narrowing->fitting[0]) : (IfigPhrase){""};
        ifig_advise(page, count == 1 ? IFIG_ADVISE_COUNT_ONE : IFIG_ADVISE_COUNT_NONE,
                    (const char *[]){all.text, only.text});
        return;
    }
    IfigPhrase list = {""};
    for (size_t i = 0; i < named; i++) {
        ifig_add_to_phrase(&list, name_of(narrowing->fitting[i]).text, i,
                           named == count ? count : count + 1, IFIG_ADVISE_AND);
    }
    if (count > named) {
        const IfigNumberText more = ifig_number_text((double)(count - named), 9);
        list = ifig_phrase(IFIG_ADVISE_MORE, (const char *[]){list.text, more.text});
    }
    ifig_advise(page, IFIG_ADVISE_COUNT_MANY, (const char *[]){all.text, fit.text});
    ifig_advise(page, IFIG_ADVISE_FITTING, (const char *[]){list.text});
}

static IfigPhrase near_phrase(const IfigNearMiss *miss)
{
    const IfigPhrase name = name_of(miss->species);
    const IfigNumberText by = ifig_number_text(miss->missed_by, 2);
    const char *values[] = {name.text, ifig_advice_clue(miss->clue), by.text};
    const IfigAdvice how = !ifig_clue_has_number(miss->clue) ? IFIG_ADVISE_NEAR_BY_WORD
                           : isnan(miss->missed_by)          ? IFIG_ADVISE_NEAR_BY_NONE
                                                             : IFIG_ADVISE_NEAR_BY;
    return ifig_phrase(how, values);
}

static void say_near(const IfigNarrowing *narrowing, IfigPage *page)
{
    const size_t count = narrowing->near_count < MOST_NEAR ? narrowing->near_count : MOST_NEAR;
    IfigPhrase list = {""};
    for (size_t i = 0; i < count; i++) {
        ifig_add_to_phrase(&list, near_phrase(&narrowing->near[i]).text, i, count, IFIG_ADVISE_AND);
    }
    if (count > 0) {
        ifig_advise(page, IFIG_ADVISE_NEAR, (const char *[]){list.text});
    }
}

static void say_next(const IfigNarrowing *narrowing, IfigPage *page)
{
    const size_t count = narrowing->next_count < MOST_NEXT ? narrowing->next_count : MOST_NEXT;
    IfigPhrase list = {""};
    for (size_t i = 0; i < count; i++) {
        const double bits = round(100.0 * narrowing->next_bits[i]) / 100.0;
        const char *values[] = {ifig_advice_clue(narrowing->next[i]),
                                ifig_number_text(bits, 4).text};
        ifig_add_to_phrase(&list, ifig_phrase(IFIG_ADVISE_NEXT_BITS, values).text, i, count,
                           IFIG_ADVISE_AND);
    }
    if (count > 0) {
        ifig_advise(page, IFIG_ADVISE_NEXT, (const char *[]){list.text});
    } else if (narrowing->fitting_count > 1) {
        ifig_advise(page, IFIG_ADVISE_NEXT_NONE, NULL);
    }
}

/* One species left is no answer: what was not looked at yet may still speak against it. */
static void say_unseen(const IfigNarrowing *narrowing, IfigPage *page)
{
    IfigPhrase list = {""};
    size_t total = 0, index = 0;
    for (int i = 0; i < IFIG_CLUE_COUNT; i++) {
        total += !narrowing->is_seen[i];
    }
    for (int i = 0; i < IFIG_CLUE_COUNT; i++) {
        if (!narrowing->is_seen[i]) {
            ifig_add_to_phrase(&list, ifig_advice_clue((IfigClue)i), index++, total,
                               IFIG_ADVISE_OR);
        }
    }
    if (narrowing->fitting_count == 1 && total > 0) {
        ifig_advise(page, IFIG_ADVISE_NEXT_OTHER, (const char *[]){list.text});
    }
}

IfigStatus ifig_narrowing_describe(const IfigNarrowing *narrowing, char *text, size_t size,
                                   IfigError *error)
{
    if (narrowing == NULL || text == NULL || size == 0) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_narrowing_describe: a pointer is NULL, or there is no room");
    }
    IfigPage page = ifig_page(text, size);
    say_fitting(narrowing, &page);
    say_near(narrowing, &page);
    say_next(narrowing, &page);
    say_unseen(narrowing, &page);
    ifig_advise(&page, IFIG_ADVISE_CAUTION, NULL);
    return ifig_page_end(&page, "ifig_narrowing_describe", error);
}
