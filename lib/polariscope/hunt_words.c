/* SPDX-License-Identifier: MIT */
/* A hunt in words: which sentences are true of the numbers. The sentences are in hunt_messages.c.
 */
#include "hunt.h"

#include "base.h"

#include <math.h>

static void say(IfigPage *page, IfigHuntMessage message, const char *const *value)
{
    ifig_page_fill(page, ifig_hunt_message(message), value);
}

static void say_line(IfigPage *page, IfigHuntMessage message, const char *const *value)
{
    say(page, message, value);
    ifig_page_put(page, "\n");
}

/* To a tenth; below one to two digits. */
static IfigNumberText tenth(double value)
{
    return fabs(value) < 1.0 ? ifig_number_text(value, 2)
                             : ifig_number_text(floor(10.0 * value + 0.5) / 10.0, 9);
}

static IfigNumberText whole(double value)
{
    return ifig_number_text(floor(value + 0.5), 9);
}

/* A whole number to two digits: a chance is not known better. */
static IfigNumberText two_digits(double value)
{
    double unit = 1.0;
    while (value >= 100.0 * unit) {
        unit *= 10.0;
    }
    return ifig_number_text(unit * floor(value / unit + 0.5), 9);
}

/* Shares at which a patch is all there is, or most of it. */
static const double EVERYWHERE = 0.9999, NEARLY = 0.5;

/* A uniaxial stone is dark along its axis unless it rotates the plane of vibration. */
static int is_lit_along_axis(const IfigHunt *hunt)
{
    return hunt->axes.count == 1 && hunt->false_single[0] == 0.0;
}

static void say_axes(IfigPage *page, const IfigHunt *hunt)
{
    const IfigNumberText angle = tenth(hunt->axes.two_v_deg);
    const char *values[] = {angle.text};
    say_line(page, hunt->axes.count == 1 ? IFIG_HUNT_ONE_PATCH : IFIG_HUNT_TWO_PATCHES, values);
}

static void say_other_sizes(IfigPage *page, const IfigHunt *hunt)
{
    char text[512] = "";
    IfigPage list = ifig_page(text, sizeof text);
    for (size_t i = 1; i < IFIG_HUNT_THICKNESSES; i++) {
        const IfigNumberText radius = tenth(hunt->patch_radius_deg[i]);
        const IfigNumberText mm = ifig_number_text(hunt->thickness_mm[i], 6);
        const char *values[] = {radius.text, mm.text};
        const char *joint = ifig_hunt_message(
            i + 1 == IFIG_HUNT_THICKNESSES ? IFIG_HUNT_LIST_AND : IFIG_HUNT_LIST_COMMA);
        ifig_page_put(&list, i > 1 ? joint : "");
        say(&list, hunt->patch_share[i] >= EVERYWHERE ? IFIG_HUNT_SIZES_ALL : IFIG_HUNT_SIZES_ITEM,
            values);
    }
    const char *values[] = {text};
    say_line(page, IFIG_HUNT_SIZES, values);
}

static void say_size(IfigPage *page, const IfigHunt *hunt)
{
    const IfigNumberText mm = ifig_number_text(hunt->thickness_mm[0], 6);
    const IfigNumberText radius = tenth(hunt->patch_radius_deg[0]);
    const IfigNumberText share = tenth(100.0 * hunt->patch_share[0]);
    const char *values[] = {mm.text, radius.text, share.text};
    const int is_biaxial = hunt->axes.count == 2;
    if (hunt->patch_share[0] >= EVERYWHERE) {
        say_line(page, IFIG_HUNT_EVERYWHERE, values);
    } else {
        say(page, is_biaxial ? IFIG_HUNT_SIZE_TWO : IFIG_HUNT_SIZE_ONE, values);
        if (is_biaxial && hunt->patch_radius_deg[0] > 0.5 * hunt->axes.two_v_deg) {
            ifig_page_put(page, " ");
            say(page, IFIG_HUNT_MERGED, values);
        }
        if (hunt->patch_share[0] > NEARLY) {
            ifig_page_put(page, " ");
            say(page, IFIG_HUNT_NEARLY_EVERYWHERE, values);
        }
        ifig_page_put(page, "\n");
    }
    if (hunt->patch_share[IFIG_HUNT_THICKNESSES - 1] < EVERYWHERE) {
        say_other_sizes(page, hunt);
    }
    say_line(page,
             is_biaxial                ? IFIG_HUNT_ALONG_EVEN
             : is_lit_along_axis(hunt) ? IFIG_HUNT_ALONG_LIT
                                       : IFIG_HUNT_ALONG_DARK,
             NULL);
}

static void say_cut(IfigPage *page, const IfigHunt *hunt, const IfigTableCut *cut)
{
    /* Leaning further than this a table is too narrow to see through; nearer than that to the plane
     * of the girdle an axis is seen from girdle to girdle. Common practice, no source. */
    const double straight = 1.0, far = 60.0, girdle = 70.0;
    const IfigNumberText off = whole(cut->nearest_axis_deg);
    const IfigNumberText lean = whole(isnan(cut->most_outside_deg) ? 0 : cut->most_outside_deg);
    const int is_biaxial = hunt->axes.count == 2;
    const char *axis = ifig_hunt_message(is_biaxial ? IFIG_HUNT_NEAREST_AXIS : IFIG_HUNT_THE_AXIS);
    const char *values[] = {cut->name, off.text, lean.text, axis};
    IfigHuntMessage message = IFIG_HUNT_CUT_LEAN;
    if (cut->nearest_axis_deg < straight) {
        message = is_biaxial                ? IFIG_HUNT_CUT_STRAIGHT_EVEN
                  : is_lit_along_axis(hunt) ? IFIG_HUNT_CUT_STRAIGHT_LIT
                                            : IFIG_HUNT_CUT_STRAIGHT;
    } else if (isnan(cut->most_outside_deg)) {
        message = cut->nearest_axis_deg > girdle ? IFIG_HUNT_CUT_GIRDLE : IFIG_HUNT_CUT_SIDE;
    } else if (cut->most_outside_deg > far) {
        message = IFIG_HUNT_CUT_LEAN_FAR;
    }
    say_line(page, message, values);
}

static void say_chance(IfigPage *page, const IfigHunt *hunt)
{
    const double rare = 1e-5, often = 0.1, all = 0.9999, chance = hunt->false_single[0];
    const IfigNumberText mm = ifig_number_text(hunt->thickness_mm[0], 6);
    const IfigNumberText percent = whole(100.0 * chance);
    const IfigNumberText number = two_digits(chance > 0 ? 1.0 / chance : 0.0);
    const char *alone[] = {mm.text}, *one[] = {number.text, mm.text};
    const char *share[] = {percent.text, mm.text};
    if (chance < rare) {
        say_line(page, chance > 0 ? IFIG_HUNT_FALSE_RARE : IFIG_HUNT_FALSE_NONE, alone);
    } else if (chance >= all) {
        say_line(page, IFIG_HUNT_FALSE_ALL, alone);
    } else {
        say_line(page, chance > often ? IFIG_HUNT_FALSE_OFTEN : IFIG_HUNT_FALSE_ONE_IN,
                 chance > often ? share : one);
    }
}

static void say_all(IfigPage *page, const IfigHunt *hunt)
{
    if (hunt->axes.count == 0) {
        say_line(page, hunt->false_single[0] > 0 ? IFIG_HUNT_SINGLY_DARK : IFIG_HUNT_SINGLY_LIT,
                 NULL);
    } else {
        say_axes(page, hunt);
        say_size(page, hunt);
        for (size_t i = 0; i < hunt->cut_count && i < IFIG_HUNT_CUTS; i++) {
            say_cut(page, hunt, &hunt->cut[i]);
        }
        say_line(page, IFIG_HUNT_CUTS_VARY, NULL);
        say_chance(page, hunt);
    }
    say_line(page, IFIG_HUNT_CAUTION, NULL);
}

IfigStatus ifig_hunt_describe(const IfigHunt *hunt, char *text, size_t size, IfigError *error)
{
    if (hunt == NULL || hunt->size != sizeof *hunt || text == NULL || size == 0) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_hunt_describe: the hunt or the text is NULL or has no size");
    }
    IfigPage page = ifig_page(text, size);
    say_all(&page, hunt);
    return ifig_page_end(&page, "ifig_hunt_describe", error);
}
