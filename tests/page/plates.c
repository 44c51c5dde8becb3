/* SPDX-License-Identifier: MIT */
/* Draw a plate from results filled in by hand: page_plates blink|hunt|contrast FILE. Exit status:
 * that of the library; its message on standard error. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "leaks.h"
#include "interfig/page.h"

static const double PI = 3.14159265358979323846;

/* Crossed polars at 45 degrees in three wavelengths: enough to look at, not to measure. */
static void colour_of(double retardation_nm, double out[3])
{
    static const double nm[] = {610.0, 540.0, 460.0};
    for (int i = 0; i < 3; i++) {
        const double s = sin(PI * retardation_nm / nm[i]);
        out[i] = pow(s * s, 1.0 / 2.2);
    }
}

static IfigBlink make_blink(void)
{
    IfigBlink blink = IFIG_BLINK_INIT;
    double colour[3];
    colour_of(430.0, colour);
    for (int i = 0; i < IFIG_BLINK_TURNS; i++) {
        blink.brightness[i] = 0.001 + 0.41 * pow(sin(2.0 * (i - 12) * PI / 180.0), 2.0);
    }
    for (int i = 0; i < IFIG_BLINK_OPENED; i++) {
        blink.opened[i] = 0.411 - 0.3 * pow(sin(i * PI / 180.0), 2.0);
    }
    for (int i = 0; i < IFIG_BLINK_COLOURS; i++) {
        const double lit = fabs(sin(2.0 * (22.5 * i - 12.0) * PI / 180.0));
        for (int k = 0; k < 3; k++) {
            blink.colour_srgb[i][k] = colour[k] * pow(lit, 2.0 / 2.2);
        }
    }
    blink.least = 0.001;
    blink.most = 0.411;
    blink.brightest_deg = 57.0;
    blink.contrast = 0.99;
    return blink;
}

/* Retardation in all directions of a ball, optic axes in the plane of X at `half` degrees from the
 * centre. */
static uint8_t *make_map(uint32_t pixels, double half, double full_nm)
{
    uint8_t *const rgb = malloc((size_t)pixels * pixels * 3);
    const double sx = sin(half * PI / 180.0), cz = cos(half * PI / 180.0);
    for (uint32_t j = 0; rgb != NULL && j < pixels; j++) {
        for (uint32_t i = 0; i < pixels; i++) {
            const double x = (2.0 * i + 1.0) / pixels - 1.0, y = 1.0 - (2.0 * j + 1.0) / pixels;
            const double r = fmin(hypot(x, y), 1.0);
            const double tilt = 2.0 * asin(r / sqrt(2.0)), across = r > 0.0 ? sin(tilt) / r : 1.0;
            const double dx = x * across, dz = cos(tilt);
            const double one = dx * sx + dz * cz, other = -dx * sx + dz * cz;
            double colour[3];
            colour_of(full_nm * sqrt(fmax(0.0, (1.0 - one * one) * (1.0 - other * other))), colour);
            for (int k = 0; k < 3; k++) {
                rgb[3 * ((size_t)j * pixels + i) + (size_t)k] = (uint8_t)lround(255.0 * colour[k]);
            }
        }
    }
    return rgb;
}

static IfigPageWords words_of(const char *title, const char *subtitle, const char *caption)
{
    IfigPageWords words = IFIG_PAGE_WORDS_INIT;
    words.title = title;
    words.subtitle = subtitle;
    words.caption = caption;
    words.caution = "A figure is evidence, not an identification: confirm it by refractive index, "
                    "specific gravity or spectrum.";
    return words;
}

static IfigStatus draw_blink(const char *path, const IfigPageOptions *options, IfigError *error)
{
    const IfigBlink blink = make_blink();
    const IfigPageWords words = words_of(
        "Quartz turned between crossed polars", "2 mm thick, table along the c axis, D65",
        "Doubly refractive: dark four times a turn, brightest at 57 degrees.\n"
        "With the analyser opened at the brightest turn it darkens to a quarter, as a "
        "doubly refractive stone does; a strained singly refractive stone would brighten.");
    return ifig_page_blink(path, options, &blink, &words, error);
}

static IfigStatus draw_hunt(const char *path, const IfigPageOptions *options, IfigError *error)
{
    static const IfigMapMark marks[] = {
        {0.0, 0.0, IFIG_MARK_CRYSTAL_AXIS, "Z, acute bisectrix"},
        {1.0, 0.0, IFIG_MARK_CRYSTAL_AXIS, "X"},
        {0.0, 1.0, IFIG_MARK_CRYSTAL_AXIS, "Y"},
        {0.372, 0.0, IFIG_MARK_OPTIC_AXIS, "melatope"},
        {-0.372, 0.0, IFIG_MARK_OPTIC_AXIS, "melatope"},
        {0.0, 0.0, IFIG_MARK_TABLE, "table across the c axis"},
        {0.03, 0.98, IFIG_MARK_TABLE, "table along the b axis"},
    };
    const uint32_t pixels = ifig_page_hunt_pixels(options);
    uint8_t *const rgb = make_map(pixels, 30.5, 9000.0);
    const IfigPageMap map = {rgb, pixels, marks, sizeof marks / sizeof marks[0]};
    const IfigPageWords words =
        words_of("Topaz: where the patch lies", "2 mm thick in every direction, D65",
                 "The patch lies around each optic axis, 30.5 degrees from the acute bisectrix.\n"
                 "Of a stone picked up at random one direction in 180 looks dark through the whole "
                 "turn.");
    const IfigStatus status = ifig_page_hunt(path, options, &map, &words, error);
    free(rgb);
    return status;
}

static IfigStatus draw_contrast(const char *path, const IfigPageOptions *options, size_t count,
                                IfigError *error)
{
    static const char *const names[] = {"Iolite",     "Amethyst",   "Tanzanite",
                                        "Aquamarine", "Blue topaz", "Blue zircon"};
    static const char *const cells[] = {
        "What to look at",
        "Iolite",
        "Amethyst",
        "Tanzanite",
        "How surely it is seen",
        "character",
        "biaxial",
        "uniaxial",
        "biaxial",
        "with practice",
        "sign",
        "negative, rarely positive",
        "positive",
        "positive",
        "with practice",
        "bull's eye",
        "no",
        "yes, through the c axis",
        "no",
        "with practice",
        "2V",
        "40 to 90\xc2\xb0",
        "none",
        "7 to 18\xc2\xb0",
        "needs measuring",
        "refractive index",
        "1.53 to 1.57",
        "1.544 to 1.553",
        "1.69 to 1.70",
        "another tool: refractometer",
    };
    const IfigPageTable table = {6, 5, cells};
    const uint32_t pixels = ifig_page_contrast_pixels(options, count);
    IfigPageFigure figures[6];
    for (size_t i = 0; i < count && i < 6; i++) {
        figures[i] =
            (IfigPageFigure){make_map(pixels, 10.0 * (double)i, 3000.0 + 800.0 * (double)i), pixels,
                             names[i], "biaxial, positive\n2V 20 degrees, 4 rings in the field"};
    }
    const IfigPageWords words = words_of("Three violet-blue stones", "2 mm thick, sphere lens, D65",
                                         "Look first for the figure: a bull's eye is amethyst, two "
                                         "brushes are iolite or tanzanite.\nBetween these two the "
                                         "refractometer decides.");
    const IfigStatus status =
        ifig_page_contrast(path, options, figures, count, &table, &words, error);
    for (size_t i = 0; i < count && i < 6; i++) {
        free((void *)(uintptr_t)figures[i].rgb);
    }
    return status;
}

int main(int count, char **arguments)
{
    IfigError error = IFIG_ERROR_INIT;
    const IfigPageOptions options = IFIG_PAGE_OPTIONS_INIT;
    if (count < 3) {
        return EXIT_FAILURE;
    }
    const char *const what = arguments[1];
    const size_t stones = count > 3 ? strtoul(arguments[3], NULL, 10) : 3;
    const IfigStatus status =
        strcmp(what, "blink") == 0  ? draw_blink(arguments[2], &options, &error)
        : strcmp(what, "hunt") == 0 ? draw_hunt(arguments[2], &options, &error)
                                    : draw_contrast(arguments[2], &options, stones, &error);
    if (status != IFIG_OK) {
        fprintf(stderr, "%s\n", error.message);
    }
    return (int)status;
}
