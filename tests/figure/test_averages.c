/* SPDX-License-Identifier: MIT */
/* No false colours from the sampling of wavelengths, no moire from the sampling of pixels: a
 * picture against the box average of a much larger one, whose fringes are resolved. */
#include "figure_test.h"

#include <stdio.h>
#include <string.h>

enum { SIZE = 256, REACH = 4 /* a 9 x 9 mean */ };

static const Recipe calcite_10 = {.key = "calcite", .thickness_mm = 10};
static const Recipe zircon_8 = {.key = "zircon_high", .thickness_mm = 8};
static const Recipe calcite_30 = {.key = "calcite", .thickness_mm = 30};
static const Recipe sodium_30 = {.key = "calcite", .thickness_mm = 30, .line_nm = 589.3};

/* Mean linear XYZ over boxes of `finer` pixels a side of the picture of finer x SIZE pixels, the
 * top rows alone: the figures here look the same upside down (c axis up, crossed polars). */
static void box_average(const IfigScene *scene, uint32_t finer, uint32_t rows, float (*mean)[3])
{
    uint32_t size = finer * SIZE;
    IfigFigure *figure = figure_of(scene, size);
    float(*band)[3] = malloc((size_t)finer * size * sizeof *band);
    ck_assert_ptr_nonnull(band);
    for (uint32_t row = 0; row < rows; row++) {
        double sum[SIZE][3];
        memset(sum, 0, sizeof sum);
        ck_assert_int_eq(
            ifig_figure_render(figure, IFIG_PIXELS_XYZ, row * finer, finer, band, NULL), IFIG_OK);
        for (size_t p = 0; p < (size_t)finer * size; p++) {
            for (int i = 0; i < 3; i++) {
                sum[p % size / finer][i] += (double)band[p][i];
            }
        }
        for (int column = 0; column < SIZE; column++) {
            for (int i = 0; i < 3; i++) {
                mean[row * SIZE + (uint32_t)column][i] = (float)(sum[column][i] / (finer * finer));
            }
        }
    }
    free(band);
    ifig_figure_free(figure);
}

static void levels_of(const IfigLamp *lamp, const float xyz[3], double level[3])
{
    double rgb[3], seen[3] = {(double)xyz[0], (double)xyz[1], (double)xyz[2]};
    ifig_colour_linear(lamp, seen, 0, rgb);
    ifig_colour_into_gamut(rgb);
    for (int i = 0; i < 3; i++) {
        level[i] = 255.0 * ifig_srgb_encode(rgb[i]);
    }
}

static double radius_at(uint32_t column, uint32_t row)
{
    return hypot(column + 0.5 - 0.5 * SIZE, row + 0.5 - 0.5 * SIZE) / (0.5 * SIZE);
}

/* Pixels clear of the rim, where the disc's edge is blended in. */
static int inside(uint32_t column, uint32_t row)
{
    return radius_at(column, row) < 1.0 - 2.0 / (0.5 * SIZE);
}

/* The residue in levels of 1/255: mean, worst pixel, worst 9 x 9 mean (a patch or a line that an
 * eye would pick out of noise), and worst mean over a ring one pixel wide of 20 pixels or more. */
typedef struct Residue {
    double mean, worst, smoothed, radial;
} Residue;

static double smoothed_at(double (*difference)[3], uint32_t rows, uint32_t column, uint32_t row,
                          int channel)
{
    double sum = 0;
    int count = 0;
    for (int dy = -REACH; dy <= REACH; dy++) {
        for (int dx = -REACH; dx <= REACH; dx++) {
            uint32_t x = (uint32_t)((int)column + dx), y = (uint32_t)((int)row + dy);
            if (y < rows && x < SIZE && inside(x, y)) {
                sum += difference[y * SIZE + x][channel];
                count++;
            }
        }
    }
    return sum / count;
}

static double worst_ring(double (*difference)[3], uint32_t rows)
{
    double sum[SIZE][3] = {{0}}, worst = 0;
    int count[SIZE] = {0};
    for (uint32_t p = 0; p < rows * SIZE; p++) {
        uint32_t ring = (uint32_t)(radius_at(p % SIZE, p / SIZE) * 0.5 * SIZE);
        if (inside(p % SIZE, p / SIZE)) {
            count[ring]++;
            for (int i = 0; i < 3; i++) {
                sum[ring][i] += difference[p][i];
            }
        }
    }
    for (int ring = 0; ring < SIZE; ring++) {
        for (int i = 0; i < 3 && count[ring] >= 20; i++) {
            worst = fmax(worst, fabs(sum[ring][i] / count[ring]));
        }
    }
    return worst;
}

static Residue residue_of(const Recipe *recipe, uint32_t finer, uint32_t rows)
{
    static float mean[SIZE * SIZE][3];
    static double difference[SIZE * SIZE][3];
    Setup setup;
    Residue residue = {0};
    size_t count = 0;
    set_up(recipe, &setup);
    box_average(&setup.scene, finer, rows, mean);
    Picture picture = picture_of(recipe, SIZE);
    for (uint32_t p = 0; p < rows * SIZE; p++) {
        double wanted[3], got[3];
        levels_of(setup.lamp, mean[p], wanted);
        levels_of(setup.lamp, picture.xyz[p], got);
        for (int i = 0; i < 3; i++) {
            difference[p][i] = inside(p % SIZE, p / SIZE) ? got[i] - wanted[i] : 0.0;
            residue.mean += fabs(difference[p][i]);
            residue.worst = fmax(residue.worst, fabs(difference[p][i]));
        }
        count += inside(p % SIZE, p / SIZE) ? 3 : 0;
    }
    residue.mean /= (double)count;
    for (uint32_t p = 0; p < rows * SIZE; p++) {
        for (int i = 0; i < 3 && inside(p % SIZE, p / SIZE); i++) {
            residue.smoothed =
                fmax(residue.smoothed, fabs(smoothed_at(difference, rows, p % SIZE, p / SIZE, i)));
        }
    }
    residue.radial = worst_ring(difference, rows);
    free(picture.xyz);
    take_down(&setup);
    return residue;
}

/* Half a level is what rounding to 8 bits takes off a pixel anyway; a patch that stays below it
 * cannot be told from none, and a ring is held to less, as the eye follows lines. */
static void check_residue(const char *name, const Residue *residue)
{
    printf("%-24s residue: mean %.4f, worst pixel %.2f, worst 9 x 9 mean %.3f, worst ring %.3f\n",
           name, residue->mean, residue->worst, residue->smoothed, residue->radial);
    ck_assert_double_lt(residue->mean, 0.25);
    ck_assert_double_lt(residue->smoothed, 0.5);
    ck_assert_double_lt(residue->radial, 0.3);
}

#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
enum { FINER = 8 }; /* checks of memory, not of light */
#else
enum { FINER = 16 };
#endif

START_TEST(calcite_of_10_mm_is_the_average_of_a_4096_pixel_picture)
{
    Residue residue = residue_of(&calcite_10, FINER, SIZE / 2);
    check_residue("calcite 10 mm", &residue);
}
END_TEST

START_TEST(zircon_of_8_mm_is_the_average_of_a_4096_pixel_picture)
{
    Residue residue = residue_of(&zircon_8, FINER, SIZE / 2);
    check_residue("zircon 8 mm", &residue);
}
END_TEST

START_TEST(sodium_fringes_finer_than_a_pixel_leave_no_moire)
{
    /* 30 mm of calcite: near the rim some 40 fringes cross a pixel, at the centre none. */
    Residue residue = residue_of(&sodium_30, FINER, SIZE / 2);
    check_residue("calcite 30 mm, sodium", &residue);
}
END_TEST

START_TEST(sodium_fringes_that_cannot_be_seen_leave_an_even_field)
{
    /* Where more than ten fringes cross a pixel along x and along y, sinc x sinc leaves at most
     * 1/(10 pi)^2 = 0.1 per cent of them; sampled at a point, they would be moire of full contrast.
     * The smooth field is taken as the mean over a neighbourhood. */
    Picture picture = picture_of(&sodium_30, SIZE);
    double worst = 0;
    for (uint32_t row = 8; row < SIZE - 8; row++) {
        for (uint32_t column = 8; column < SIZE - 8; column++) {
            double r = radius_at(column, row), mean = 0;
            double x = fabs(column + 0.5 - 0.5 * SIZE), y = fabs(row + 0.5 - 0.5 * SIZE);
            if (r > 0.9 || fmin(x, y) < 0.5 * SIZE * 0.45) {
                continue;
            }
            for (uint32_t n = 0; n < 81; n++) {
                mean += (double)pixel_at(&picture, column + n % 9 - 4, row + n / 9 - 4)[1] / 81;
            }
            worst = fmax(worst, fabs((double)pixel_at(&picture, column, row)[1] / mean - 1.0));
        }
    }
    printf("sodium, unseen fringes: %.3f of the field left\n", worst);
    ck_assert_double_lt(worst, 0.01);
    free(picture.xyz);
}
END_TEST

/* Largest difference between channels of an 8-bit pixel beyond a radius. */
static int largest_chroma(const Recipe *recipe, double from)
{
    Setup setup;
    int largest = 0;
    set_up(recipe, &setup);
    IfigFigure *figure = figure_of(&setup.scene, SIZE);
    unsigned char *codes = rendered(figure, SIZE, IFIG_PIXELS_SRGB8);
    for (uint32_t p = 0; p < SIZE * SIZE; p++) {
        const unsigned char *c = codes + 3 * p;
        if (inside(p % SIZE, p / SIZE) && radius_at(p % SIZE, p / SIZE) > from) {
            largest = abs(c[0] - c[1]) > largest ? abs(c[0] - c[1]) : largest;
            largest = abs(c[2] - c[1]) > largest ? abs(c[2] - c[1]) : largest;
        }
    }
    free(codes);
    ifig_figure_free(figure);
    take_down(&setup);
    return largest;
}

START_TEST(thick_calcite_shows_no_false_colours)
{
    /* Beyond r = 0.25 of a 55 degree sphere the path difference exceeds 90 orders (from ring 1 of
     * 1 mm at 5.118 degrees): white of higher order (Univ. of Toronto atlas, Interference Colours
     * of a Quartz Wedge). The dispersion of the faces may leave a level or two. */
    int chroma = largest_chroma(&calcite_30, 0.25);
    int centre = largest_chroma(&calcite_30, 0.0);
    printf("calcite 30 mm: chroma %d of 255 beyond r = 0.25, %d at the centre\n", chroma, centre);
    ck_assert_int_le(chroma, 2);
    ck_assert_int_ge(centre, 30);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("averages");
    tcase_add_test(facts, calcite_of_10_mm_is_the_average_of_a_4096_pixel_picture);
    tcase_add_test(facts, zircon_of_8_mm_is_the_average_of_a_4096_pixel_picture);
    tcase_add_test(facts, sodium_fringes_finer_than_a_pixel_leave_no_moire);
    tcase_add_test(facts, sodium_fringes_that_cannot_be_seen_leave_an_even_field);
    tcase_add_test(facts, thick_calcite_shows_no_false_colours);
    return run_case(facts, "averages");
}
