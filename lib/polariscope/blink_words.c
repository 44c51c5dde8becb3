/* SPDX-License-Identifier: MIT */
/* A verdict in words. */
#include "polariscope.h"

#include "base.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

/* Below these the words change, not the verdict: a retardation that turns less light than an eye
 * notices, and lights that an eye takes as alike (verdict.c); common practice, no source. */
static const double FAINT_NM = 100.0;
static const double ALIKE = 1.25;

/* Text that grows; `used` counts on beyond the room, so that the lack is known at the end. */
typedef struct Sheet {
    char *text;
    size_t size, used;
} Sheet;

#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
static void
say(Sheet *sheet, const char *format, ...)
{
    char *at = sheet->used < sheet->size ? sheet->text + sheet->used : NULL;
    size_t room = at != NULL ? sheet->size - sheet->used : 0;
    va_list values;
    va_start(values, format);
    int length = vsnprintf(at, room, format, values);
    va_end(values);
    sheet->used += length > 0 ? (size_t)length : 0;
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

static void say_along_axis(Sheet *sheet, const IfigBlink *blink)
{
    if (blink->appearance == IFIG_LOOKS_DARK) {
        say(sheet, "Doubly refractive (DR), but dark through the whole turn: you look along an "
                   "optic axis.\n");
    } else {
        say(sheet, "Doubly refractive (DR), but never dark: you look along an optic axis, where a "
                   "biaxial stone, or one that rotates the light as quartz does, is lit at every "
                   "turn.\n");
    }
    say(sheet,
        "Turn (tilt) the stone to another side and turn it again: it will go dark four times "
        "a turn.\n");
}

static void say_dark_double(Sheet *sheet, const IfigBlink *blink)
{
    const IfigNumberText nm = tenth_text(blink->retardation_nm);
    if (blink->retardation_nm < FAINT_NM) {
        say(sheet,
            "Doubly refractive (DR), but it looks dark: its retardation of %s nm is too small to "
            "light it up. Look through a thicker piece, or from another side.\n",
            nm.text);
    } else {
        say(sheet,
            "Doubly refractive (DR), but it looks dark: in this light its two waves leave in step "
            "(%s nm). Use white light, or tilt the stone.\n",
            nm.text);
    }
}

static void say_double(Sheet *sheet, const IfigBlink *blink)
{
    if (blink->is_along_optic_axis && blink->appearance != IFIG_LOOKS_PATCHY) {
        say_along_axis(sheet, blink);
        return;
    }
    switch (blink->appearance) {
    case IFIG_LOOKS_DARK:
        say_dark_double(sheet, blink);
        break;
    case IFIG_LOOKS_FOUR_DARK:
        say(sheet, "Doubly refractive (DR): dark %d times a turn, bright between.\n",
            blink->extinctions_per_turn);
        break;
    case IFIG_LOOKS_NEVER_DARK:
        say(sheet, "Doubly refractive (DR), but never dark in this arrangement: take crossed "
                   "linear polars and no plate, a narrow cone, or another side of the stone.\n");
        break;
    case IFIG_LOOKS_PATCHY:
        say(sheet, "Doubly refractive (DR): its parts go dark at different turns, as in a twin.\n");
        break;
    }
}

static void say_single(Sheet *sheet, const IfigBlink *blink)
{
    const int is_dark = blink->appearance == IFIG_LOOKS_DARK;
    say(sheet, is_dark ? "Singly refractive (SR): dark through the whole turn.\n"
                       : "Singly refractive (SR), yet lit: not by double refraction, but because "
                         "it rotates the light, or because of how the polars stand.\n");
}

static void say_strained(Sheet *sheet, const IfigBlink *blink)
{
    say(sheet, "Singly refractive with strain (ADR, anomalous double refraction): ");
    switch (blink->appearance) {
    case IFIG_LOOKS_FOUR_DARK:
        say(sheet,
            "dark %d times a turn as a doubly refractive stone, since the strain points "
            "the same way all over.\n",
            blink->extinctions_per_turn);
        break;
    case IFIG_LOOKS_PATCHY:
        say(sheet, "lit in parts that wander as the stone turns; no turn darkens the whole "
                   "face.\n");
        break;
    default:
        say(sheet, "lit at every turn.\n");
        break;
    }
}

static void say_verdict(Sheet *sheet, const IfigBlink *blink)
{
    switch (blink->reaction) {
    case IFIG_REACTION_SR:
        say_single(sheet, blink);
        break;
    case IFIG_REACTION_DR:
        say_double(sheet, blink);
        break;
    case IFIG_REACTION_AGG:
        say(sheet, blink->appearance == IFIG_LOOKS_NEVER_DARK
                       ? "Aggregate (AGG): never dark, much the same light at every turn.\n"
                       : "Aggregate (AGG), but so few grains lie behind one another that some "
                         "turns darken it.\n");
        break;
    case IFIG_REACTION_ADR:
        say_strained(sheet, blink);
        break;
    }
}

/* A turn to a tenth of a degree; 359.99 is 0. */
static IfigNumberText turn_text(double deg)
{
    return tenth_text(fmod(deg + 0.05, 360.0) - 0.05);
}

static void say_brightness(Sheet *sheet, const IfigBlink *blink)
{
    const double told_apart = 0.001;
    const IfigNumberText least = light_text(blink->least), most = light_text(blink->most);
    if (blink->most - blink->least < told_apart) {
        say(sheet, "Brightness %s at every turn", most.text);
    } else {
        say(sheet, "Brightness %s at a turn of %s deg, %s at %s deg, %s on the mean", least.text,
            turn_text(blink->darkest_deg).text, most.text, turn_text(blink->brightest_deg).text,
            light_text(blink->mean).text);
    }
    say(sheet, "; 1 is the bare light between parallel polars.\n");
}

static void say_retardation(Sheet *sheet, const IfigBlink *blink)
{
    say(sheet,
        blink->reaction == IFIG_REACTION_AGG
            ? "Greatest retardation of one grain at 589.3 nm: %s nm.\n"
            : "Retardation along the line of sight at 589.3 nm: %s nm.\n",
        tenth_text(blink->retardation_nm).text);
}

/* Why the rule of the opened analyser fails, where it does. */
static void say_rule(Sheet *sheet, const IfigBlink *blink)
{
    const int is_single =
        blink->reaction == IFIG_REACTION_SR || blink->reaction == IFIG_REACTION_ADR;
    if (blink->follows_opening_rule) {
        say(sheet, is_single ? ", as the rule has it for a singly refractive stone.\n"
                             : ", as the rule has it for a doubly refractive stone.\n");
    } else if (is_single) {
        say(sheet, ". The rule that a strained stone brightens fails here: so much strain acts as "
                   "double refraction.\n");
    } else {
        say(sheet, ". The rule that a doubly refractive stone stays or darkens fails here: its "
                   "retardation along this line of sight turns little of the light, as strain "
                   "does. Do not take it for a strained single one: look from another side or "
                   "through a thicker piece.\n");
    }
}

static void say_opening(Sheet *sheet, const IfigBlink *blink)
{
    const double ratio = blink->opened_over_crossed;
    const IfigNumberText before = light_text(blink->opened[0]);
    const IfigNumberText after = light_text(blink->opened[IFIG_BLINK_OPENED - 1]);
    if (isnan(blink->opened[0])) {
        say(sheet, "Circular polars have no azimuth: there is no analyser to open.\n");
        return;
    }
    if (isnan(ratio)) {
        say(sheet, "Opened by 90 deg, the analyser lets %s through, from nothing", after.text);
    } else {
        say(sheet, "Opened by 90 deg at the brightest turn, %s goes to %s, %s times as much: it %s",
            before.text, after.text, ifig_number_text(ratio, 3).text,
            ratio >= ALIKE         ? "brightens"
            : ratio <= 1.0 / ALIKE ? "darkens"
                                   : "stays much the same");
    }
    say_rule(sheet, blink);
}

IfigStatus ifig_blink_describe(const IfigBlink *blink, char *text, size_t size, IfigError *error)
{
    if (blink == NULL || blink->size != sizeof *blink || text == NULL || size == 0) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_blink_describe: a pointer is NULL, the room is none, or the verdict "
                         "has an unknown size; start from IFIG_BLINK_INIT");
    }
    Sheet sheet = {text, size, 0};
    text[0] = '\0';
    say_verdict(&sheet, blink);
    say_brightness(&sheet, blink);
    say_retardation(&sheet, blink);
    say_opening(&sheet, blink);
    if (sheet.used >= size) {
        text[0] = '\0';
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the verdict needs room for %zu bytes, not %zu; 4096 always suffice",
                         sheet.used + 1, size);
    }
    return IFIG_OK;
}
