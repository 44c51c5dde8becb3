/* SPDX-License-Identifier: MIT */
/* A verdict in words: which sentences are true of the numbers. The sentences are in
 * blink_messages.c. */
#include "blink.h"

#include "base.h"

#include <math.h>

/* Below these the words change, not the verdict: a retardation that turns less light than an eye
 * notices, and lights that an eye takes as alike (verdict.c); common practice, no source. */
static const double FAINT_NM = 100.0;
static const double ALIKE = 1.25;

/* A message, and one with a value. */
static void say(IfigPage *page, IfigBlinkMessage message)
{
    ifig_page_fill(page, ifig_blink_message(message), NULL);
}

static void say_value(IfigPage *page, IfigBlinkMessage message, IfigNumberText value)
{
    const char *values[] = {value.text};
    ifig_page_fill(page, ifig_blink_message(message), values);
}

/* A light to a thousandth, an angle or a length to a tenth. */
static IfigNumberText light_text(double light)
{
    return ifig_number_text(floor(1000.0 * light + 0.5) / 1000.0 + 0.0, 6);
}

static IfigNumberText tenth_text(double value)
{
    return ifig_number_text(floor(10.0 * value + 0.5) / 10.0 + 0.0, 9);
}

static void say_along_axis(IfigPage *page, const IfigBlink *blink)
{
    say(page, blink->appearance == IFIG_LOOKS_DARK ? IFIG_BLINK_ALONG_DARK : IFIG_BLINK_ALONG_LIT);
    say(page, IFIG_BLINK_TURN_IT);
}

static void say_dark_double(IfigPage *page, const IfigBlink *blink)
{
    say_value(page,
              blink->retardation_nm < FAINT_NM ? IFIG_BLINK_DOUBLE_FAINT
                                               : IFIG_BLINK_DOUBLE_IN_STEP,
              tenth_text(blink->retardation_nm));
}

static void say_double(IfigPage *page, const IfigBlink *blink)
{
    if (blink->is_along_optic_axis && blink->appearance != IFIG_LOOKS_PATCHY) {
        say_along_axis(page, blink);
        return;
    }
    switch (blink->appearance) {
    case IFIG_LOOKS_DARK:
        say_dark_double(page, blink);
        break;
    case IFIG_LOOKS_FOUR_DARK:
        say_value(page, IFIG_BLINK_DOUBLE, ifig_number_text(blink->extinctions_per_turn, 9));
        break;
    case IFIG_LOOKS_NEVER_DARK:
        say(page, IFIG_BLINK_DOUBLE_NEVER_DARK);
        break;
    case IFIG_LOOKS_PATCHY:
        say(page, IFIG_BLINK_DOUBLE_PATCHY);
        break;
    }
}

static void say_strained(IfigPage *page, const IfigBlink *blink)
{
    say(page, IFIG_BLINK_STRAINED);
    switch (blink->appearance) {
    case IFIG_LOOKS_FOUR_DARK:
        say_value(page, IFIG_BLINK_STRAINED_FOUR_DARK,
                  ifig_number_text(blink->extinctions_per_turn, 9));
        break;
    case IFIG_LOOKS_PATCHY:
        say(page, IFIG_BLINK_STRAINED_PATCHY);
        break;
    default:
        say(page, IFIG_BLINK_STRAINED_LIT);
        break;
    }
}

static void say_verdict(IfigPage *page, const IfigBlink *blink)
{
    switch (blink->reaction) {
    case IFIG_REACTION_SR:
        say(page, blink->appearance == IFIG_LOOKS_DARK ? IFIG_BLINK_SINGLE : IFIG_BLINK_SINGLE_LIT);
        break;
    case IFIG_REACTION_DR:
        say_double(page, blink);
        break;
    case IFIG_REACTION_AGG:
        say(page, blink->appearance == IFIG_LOOKS_NEVER_DARK ? IFIG_BLINK_AGGREGATE
                                                             : IFIG_BLINK_AGGREGATE_FEW);
        break;
    case IFIG_REACTION_ADR:
        say_strained(page, blink);
        break;
    }
}

/* A turn to a tenth of a degree; 359.99 is 0. */
static IfigNumberText turn_text(double deg)
{
    return tenth_text(fmod(deg + 0.05, 360.0) - 0.05);
}

static void say_brightness(IfigPage *page, const IfigBlink *blink)
{
    const double told_apart = 0.001;
    const IfigNumberText least = light_text(blink->least), most = light_text(blink->most);
    const IfigNumberText mean = light_text(blink->mean);
    const IfigNumberText darkest = turn_text(blink->darkest_deg);
    const IfigNumberText brightest = turn_text(blink->brightest_deg);
    const char *values[] = {least.text, darkest.text, most.text, brightest.text, mean.text};
    if (blink->most - blink->least < told_apart) {
        say_value(page, IFIG_BLINK_EVEN, most);
    } else {
        ifig_page_fill(page, ifig_blink_message(IFIG_BLINK_BRIGHTNESS), values);
    }
    say(page, IFIG_BLINK_UNIT);
}

static void say_retardation(IfigPage *page, const IfigBlink *blink)
{
    say_value(page,
              blink->reaction == IFIG_REACTION_AGG ? IFIG_BLINK_RETARDATION_OF_GRAIN
                                                   : IFIG_BLINK_RETARDATION,
              tenth_text(blink->retardation_nm));
}

/* Why the rule of the opened analyser fails, where it does. */
static void say_rule(IfigPage *page, const IfigBlink *blink)
{
    const int is_single =
        blink->reaction == IFIG_REACTION_SR || blink->reaction == IFIG_REACTION_ADR;
    if (blink->follows_opening_rule) {
        say(page, is_single ? IFIG_BLINK_RULE_SINGLE : IFIG_BLINK_RULE_DOUBLE);
    } else {
        say(page, is_single ? IFIG_BLINK_NO_RULE_SINGLE : IFIG_BLINK_NO_RULE_DOUBLE);
    }
}

static void say_opening(IfigPage *page, const IfigBlink *blink)
{
    const double ratio = blink->opened_over_crossed;
    const IfigNumberText before = light_text(blink->opened[0]);
    const IfigNumberText after = light_text(blink->opened[IFIG_BLINK_OPENED - 1]);
    const IfigNumberText times = ifig_number_text(ratio, 3);
    const char *values[] = {before.text, after.text, times.text,
                            ifig_blink_message(ratio >= ALIKE         ? IFIG_BLINK_BRIGHTENS
                                               : ratio <= 1.0 / ALIKE ? IFIG_BLINK_DARKENS
                                                                      : IFIG_BLINK_STAYS)};
    if (isnan(blink->opened[0])) {
        say(page, IFIG_BLINK_NOTHING_TO_OPEN);
        return;
    }
    if (isnan(ratio)) {
        say_value(page, IFIG_BLINK_OPENED_FROM_NOTHING, after);
    } else {
        ifig_page_fill(page, ifig_blink_message(IFIG_BLINK_OPENED_TO), values);
    }
    say_rule(page, blink);
}

IfigStatus ifig_blink_describe(const IfigBlink *blink, char *text, size_t size, IfigError *error)
{
    if (blink == NULL || blink->size != sizeof *blink || text == NULL || size == 0) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_blink_describe: a pointer is NULL, the room is none, or the verdict "
                         "has an unknown size; start from IFIG_BLINK_INIT");
    }
    IfigPage page = ifig_page(text, size);
    say_verdict(&page, blink);
    say_brightness(&page, blink);
    say_retardation(&page, blink);
    say_opening(&page, blink);
    return ifig_page_end(&page, "ifig_blink_describe", error);
}
