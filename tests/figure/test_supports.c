/* SPDX-License-Identifier: MIT */
/* The few wavelengths that stand for all samples of the lamp (carrier.h, fringe_few.c), beside
 * optic axes, and where no few serve and every sample is its own support: against the definition of
 * a pixel (exact_test.h). */
#include "exact_test.h"
#include "patch_test.h"

#include <stdio.h>

enum { EVERY = 5 }; /* one pixel in so many is looked at */

/* Between 0 and 1 in red, green and blue: no colour that the screen cannot show is moved. */
static int is_in_gamut(const IfigFigure *figure, const IfigLightRow *row, size_t x)
{
    double least = 1, most = 0;
    for (int i = 0; i < 3; i++) {
        const double *m = figure->raster.plain_colour[i];
        double linear = m[0] * (double)row->xyz[0][x] + m[1] * (double)row->xyz[1][x] +
                        m[2] * (double)row->xyz[2][x];
        least = fmin(least, linear);
        most = fmax(most, linear);
    }
    return least > 0 && most < 1;
}

/* The most that pixels of a row are off by, in levels of 255. */
static double worst_of_row(const Patch *p, const Exact *exact, uint32_t left, uint32_t row,
                           const IfigLightRow *light, const unsigned char *bent, size_t *pixels)
{
    double worst = 0;
    for (uint32_t x = row % EVERY; x < SIDE; x += EVERY) {
        if (bent[x] || !is_in_gamut(p->figure, light, x)) {
            continue;
        }
        double xyz[3], defined[3];
        exact_pixel(exact, PIXELS, left + x, row, 1e-6, xyz);
        levels_of(p->setup.scene.lamp, xyz, defined);
        for (int i = 0; i < 3; i++) {
            worst = fmax(worst, fabs(level(p->figure, light, x, i) - defined[i]));
        }
        ++*pixels;
    }
    return worst;
}

/* Squares of SIDE pixels by their top left corner. every: between the axes of blue and red light,
 * where the sum has tens of turns. */
static const struct {
    Recipe recipe;
    uint32_t left, top;
    int every;
} places[] = {
    {{.key = "topaz_f", .thickness_mm = 2, .stage_deg = 40, .tilt_deg = 5}, 690, 300, 0},
    {{.key = "calcite", .thickness_mm = 1}, 470, 500, 0},
    {{.key = "quartz", .thickness_mm = 3}, 470, 500, 0},
    {{.key = "titanite", .thickness_mm = 0.5, .tilt_deg = 4.5, .stage_deg = 45}, 275, 685, 0},
    {{.key = "brookite", .thickness_mm = 0.5, .tilt_deg = 3, .stage_deg = 20}, 380, 20, 1},
    {{.key = "brookite", .thickness_mm = 0.5, .stage_deg = 45}, 600, 600, 1},
};
enum { PLACES = sizeof places / sizeof places[0] };

START_TEST(few_wavelengths_give_the_colour_of_all)
{
    static Exact exact;
    static IfigLightRow light;
    const uint32_t left = places[_i].left, top = places[_i].top;
    const double radius = 0.5 * PIXELS, middle = 0.5 * SIDE;
    double worst = 0;
    size_t pixels = 0;
    Patch p;
    fit_patch(&places[_i].recipe, (left + middle) / radius - 1.0, 1.0 - (top + middle) / radius, 1,
              &p);
    prepare(&p.setup.scene, 1, &exact);
    IfigFewWork *work = room(ifig_few_work_size());
    double side = p.tile.pixel, tx = -1.0 + 0.5 * side, ty = 1.0 - 0.5 * side;
    ifig_few_begin(p.figure, &p.carrier, tx, ty, side, SIDE, work);
    for (uint32_t row = 0; row < SIDE; row++) {
        unsigned char bent[IFIG_ROW_MAX];
        ifig_few_row(p.figure, &p.carrier, ty - row * side, row, work, (IfigRowPlace){&light, 0},
                     bent);
        if (row % EVERY == 0) {
            worst = fmax(worst, worst_of_row(&p, &exact, left, top + row, &light, bent, &pixels));
        }
    }
    const IfigSupports *supports = p.carrier.supports;
    printf("%s, %zu supports: %zu pixels, at most %.4f of a level\n", places[_i].recipe.key,
           supports->count, pixels, worst);
    fflush(stdout);
    ck_assert_int_eq(supports->weight == NULL, places[_i].every);
    ck_assert_uint_gt(pixels, 30);
    /* Where every wavelength has its axis near, the closed form of each one's mean misses some. */
    ck_assert_double_lt(worst, places[_i].every ? 0.15 : 0.05);
    free(work);
    drop(&p);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("supports");
    tcase_add_loop_test(facts, few_wavelengths_give_the_colour_of_all, 0, PLACES);
    return run_case(facts, "supports");
}
