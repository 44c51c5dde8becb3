/* SPDX-License-Identifier: MIT */
/* The picture of a face, held to exact waves. */
#include "face_test.h"

#include <string.h>

enum { SIZE = 96 };

START_TEST(a_plain_face_is_the_colour_of_the_probe)
{
    Stone stone;
    stone_ready(&stone, "corundum", IFIG_PATTERN_USUAL, 0, 1.3);
    stone.layer.orientation.view = IFIG_VIEW_Y;
    stone.layer.orientation.stage_deg = 27;
    IfigProbe probe;
    ck_assert_int_eq(ifig_probe(&stone.scene, 0, 0, 0, &probe, NULL), IFIG_OK);
    float(*xyz)[3] = face_pixels(&stone, SIZE, IFIG_PIXELS_XYZ);
    for (int i = 0; i < 3; i++) {
        ck_assert_double_eq_tol((double)xyz[SIZE * 30 + 40][i], probe.xyz[i], 1e-6);
    }
    free(xyz);
    stone_gone(&stone);
}
END_TEST

/* The stress of one place, evenly through the whole stone. */
static void even_stone(const Stone *stone, double x, double y, IfigLayer *layer)
{
    IfigStressPath path;
    double stage = stone->layer.orientation.stage_deg * IFIG_DEGREE;
    ck_assert_int_eq(ifig_stress_path(&stone->texture, stone->layer.thickness_mm,
                                      cos(stage) * x + sin(stage) * y,
                                      cos(stage) * y - sin(stage) * x, &path, NULL),
                     IFIG_OK);
    *layer = stone->layer;
    layer->stress_mpa = path.difference_mpa_mm / layer->thickness_mm;
    layer->stress_azimuth_deg = path.azimuth_deg;
}

static void hold_to_probe(const Stone *stone)
{
    enum { FINE = 800 }; /* pixels so small that the mean over one is the light at its middle */
    float(*xyz)[3] = face_pixels(stone, FINE, IFIG_PIXELS_XYZ);
    for (uint32_t row = 80; row < FINE; row += 131) {
        for (uint32_t column = 50; column < FINE; column += 173) {
            double x = middle_of(column, FINE), y = -middle_of(row, FINE), shown[3];
            if (hypot(x, y) > 0.95) {
                continue;
            }
            Stone even = *stone;
            IfigProbe probe;
            even_stone(stone, x, y, &even.layer);
            even.scene.layers = &even.layer;
            ck_assert_int_eq(ifig_probe(&even.scene, 0, 0, 0, &probe, NULL), IFIG_OK);
            for (int i = 0; i < 3; i++) {
                shown[i] = (double)xyz[row * FINE + column][i];
            }
            ck_assert_double_lt(levels_apart(stone, shown, probe.xyz), 0.5);
        }
    }
    free(xyz);
}

START_TEST(each_place_of_a_strained_face_is_an_evenly_strained_stone)
{
    static const char *const species[] = {"glass", "plastic_pmma", "diamond", "glass"};
    static const double mpa[] = {20, 15, -60, 15};
    for (int i = 0; i < 4; i++) {
        Stone stone;
        stone_ready(&stone, species[i], (IfigPattern)(IFIG_PATTERN_BANDS + i), mpa[i], 4);
        stone.layer.orientation.stage_deg = 25;
        hold_to_probe(&stone);
        stone.scene.instrument.plate = (IfigPlate){IFIG_PLATE_GYPSUM, 550, 45};
        stone.scene.instrument.analyser.azimuth_deg = 110;
        hold_to_probe(&stone);
        stone.scene.instrument.analyser.kind = IFIG_POLAR_LEFT;
        hold_to_probe(&stone);
        stone_gone(&stone);
    }
}
END_TEST

START_TEST(each_place_of_a_strained_face_has_the_jones_matrix_of_the_wave)
{
    Stone stone;
    stone_ready(&stone, "glass", IFIG_PATTERN_SNAKE, 80, 6);
    stone.layer.orientation.stage_deg = -40;
    for (double x = -0.6; x < 0.7; x += 0.3) {
        IfigLayer even;
        IfigPlateWave wave;
        even_stone(&stone, x, 0.2, &even);
        ck_assert_int_eq(ifig_plate_wave(&even, 1, 1, 500, 0, 0, &wave, NULL), IFIG_OK);
        IfigJonesXy jones = jones_at(&stone, x, 0.2, 500);
        for (int i = 0; i < 4; i++) {
            ck_assert_double_lt(cabs(jones.m[i / 2][i % 2] - wave.jones.element[i / 2][i % 2].re -
                                     I * wave.jones.element[i / 2][i % 2].im),
                                1e-9);
        }
    }
    stone_gone(&stone);
}
END_TEST

START_TEST(an_inclusion_shows_a_dark_cross_along_the_polars_however_it_is_turned)
{
    /* common practice, no source */
    for (double stage = 0; stage < 90; stage += 22.5) {
        Stone stone;
        stone_ready(&stone, "diamond", IFIG_PATTERN_INCLUSION, 100, 3);
        stone.layer.orientation.stage_deg = stage;
        float(*xyz)[3] = face_pixels(&stone, 97, IFIG_PIXELS_XYZ);
        for (double r = -0.95; r < 1.0; r += 0.1) {
            IfigJonesXy across = jones_at(&stone, r, 0, 550), along = jones_at(&stone, 0, r, 550);
            ck_assert_double_lt(cabs(across.m[1][0]), 1e-9);
            ck_assert_double_lt(cabs(along.m[1][0]), 1e-9);
        }
        for (uint32_t i = 1; i < 96; i++) { /* a pixel has width */
            ck_assert_double_lt((double)xyz[48 * 97 + i][1], 0.005);
            ck_assert_double_lt((double)xyz[i * 97 + 48][1], 0.005);
        }
        for (int i = 0; i < 4; i++) { /* lit between, in all four quarters alike */
            int right = i % 2 ? 9 : -9, down = i / 2 ? 9 : -9;
            double here = (double)xyz[(48 + down) * 97 + 48 + right][1];
            ck_assert_double_gt(here, 0.1);
            ck_assert_double_eq_tol(here, (double)xyz[39 * 97 + 39][1], 1e-6);
        }
        free(xyz);
        stone_gone(&stone);
    }
}
END_TEST

START_TEST(bands_are_dark_along_the_polars_and_brightest_between)
{
    /* isoclinics: Coker & Filon, A Treatise on Photo-Elasticity (1931), from memory */
    double before = 0;
    for (double stage = 0; stage <= 45; stage += 15) {
        Stone stone;
        stone_ready(&stone, "glass", IFIG_PATTERN_BANDS, 15, 5);
        stone.layer.orientation.stage_deg = stage;
        float(*xyz)[3] = face_pixels(&stone, SIZE, IFIG_PIXELS_XYZ);
        double light = mean_light((const float(*)[3])xyz, SIZE);
        if (stage == 0) {
            ck_assert_double_lt(light, 1e-7);
        } else {
            ck_assert_double_gt(light, 1.2 * before);
        }
        before = fmax(light, 1e-3);
        free(xyz);
        stone_gone(&stone);
    }
}
END_TEST

START_TEST(an_unstrained_singly_refractive_face_is_black)
{
    for (int pattern = IFIG_PATTERN_USUAL; pattern <= IFIG_PATTERN_INCLUSION; pattern++) {
        Stone stone;
        stone_ready(&stone, "glass", (IfigPattern)pattern, 0, 5);
        float(*xyz)[3] = face_pixels(&stone, 32, IFIG_PIXELS_XYZ);
        ck_assert_double_lt(mean_light((const float(*)[3])xyz, 32), 1e-12);
        free(xyz);
        stone_gone(&stone);
    }
}
END_TEST

START_TEST(opening_the_analyser_brightens_a_strained_face)
{
    /* common practice, no source */
    for (int pattern = IFIG_PATTERN_BANDS; pattern <= IFIG_PATTERN_INCLUSION; pattern++) {
        Stone stone;
        stone_ready(&stone, "glass", (IfigPattern)pattern, 8, 5);
        stone.layer.orientation.stage_deg = 30;
        float(*crossed)[3] = face_pixels(&stone, SIZE, IFIG_PIXELS_XYZ);
        stone.scene.instrument.analyser.azimuth_deg = 0;
        float(*opened)[3] = face_pixels(&stone, SIZE, IFIG_PIXELS_XYZ);
        double dark = mean_light((const float(*)[3])crossed, SIZE);
        double bright = mean_light((const float(*)[3])opened, SIZE);
        ck_assert_double_gt(bright, 1.2 * dark);
        /* Two faces of n 1.52 and nothing else: what one lacks the other has. */
        ck_assert_double_eq_tol(bright + dark, 0.917, 0.01);
        free(crossed);
        free(opened);
        stone_gone(&stone);
    }
}
END_TEST

START_TEST(a_quarter_turn_of_the_stage_turns_the_face_and_keeps_its_light)
{
    /* Between crossed polars a quarter turn changes nothing but the place. */
    static const struct {
        const char *key;
        IfigPattern pattern;
    } stones[] = {{"glass", IFIG_PATTERN_SNAKE},
                  {"corundum", IFIG_PATTERN_TWINS},
                  {"quartz", IFIG_PATTERN_BRAZIL}};
    for (int s = 0; s < 3; s++) {
        Stone stone;
        stone_ready(&stone, stones[s].key, stones[s].pattern, 25, 4);
        float(*before)[3] = face_pixels(&stone, SIZE, IFIG_PIXELS_XYZ);
        stone.layer.orientation.stage_deg = 90;
        float(*behind)[3] = face_pixels(&stone, SIZE, IFIG_PIXELS_XYZ);
        double strays = 0;
        for (uint32_t row = 0; row < SIZE; row++) {
            for (uint32_t column = 0; column < SIZE; column++) {
                float *turned = behind[(SIZE - 1 - column) * SIZE + row];
                strays += fabs((double)(before[row * SIZE + column][1] - turned[1]));
            }
        }
        ck_assert_double_lt(strays / (SIZE * SIZE), 1e-5);
        free(before);
        free(behind);
        stone_gone(&stone);
    }
}
END_TEST

/* A rectangle across several tiles, and a single pixel. */
static void check_rectangles(const IfigFace *face, const uint8_t *whole)
{
    static const IfigRectangle rectangles[] = {{11, 5, 40, 33}, {69, 35, 1, 1}};
    for (size_t i = 0; i < 2; i++) {
        const IfigRectangle *r = &rectangles[i];
        uint8_t part[3 * 40 * 33];
        ck_assert_int_eq(ifig_face_render_rectangle(face, IFIG_PIXELS_SRGB8, r, part, NULL),
                         IFIG_OK);
        for (uint32_t row = 0; row < r->height; row++) {
            ck_assert_mem_eq(part + (size_t)3 * row * r->width,
                             whole + 3 * ((size_t)(r->top + row) * 70 + r->left),
                             (size_t)3 * r->width);
        }
    }
}

START_TEST(rows_are_the_same_in_any_bands_and_with_any_threads)
{
    for (int pattern = IFIG_PATTERN_SNAKE; pattern <= IFIG_PATTERN_BRAZIL; pattern++) {
        Stone stone;
        IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
        IfigFace *face = NULL;
        stone_ready(&stone,
                    pattern == IFIG_PATTERN_TWINS    ? "corundum"
                    : pattern == IFIG_PATTERN_BRAZIL ? "quartz"
                                                     : "glass",
                    (IfigPattern)pattern, 25, 4);
        stone.layer.orientation.stage_deg = 33;
        uint8_t *whole = face_pixels(&stone, 70, IFIG_PIXELS_SRGB8), part[3 * 70 * 9];
        options.pixels = 70;
        options.threads = 1;
        ck_assert_int_eq(ifig_face_create(&stone.scene, &stone.texture, &options, &face, NULL),
                         IFIG_OK);
        for (uint32_t row = 0; row + 9 <= 70; row += 7) {
            ck_assert_int_eq(ifig_face_render(face, IFIG_PIXELS_SRGB8, row, 9, part, NULL),
                             IFIG_OK);
            ck_assert_int_eq(memcmp(part, whole + 3 * 70 * row, sizeof part), 0);
        }
        check_rectangles(face, whole);
        ck_assert_int_eq(ifig_face_render(face, IFIG_PIXELS_SRGB8, 65, 9, part, NULL),
                         IFIG_ERROR_RANGE);
        ck_assert_int_eq(whole[0], IFIG_SURROUND_CODE);
        ifig_face_free(face);
        free(whole);
        stone_gone(&stone);
    }
}
END_TEST

static int refuse(double share, void *context)
{
    (void)share;
    ++*(int *)context;
    return 0;
}

START_TEST(a_face_can_be_cancelled)
{
    Stone stone;
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigFace *face = NULL;
    int asked = 0;
    static uint8_t pixels[3 * 128 * 128];
    stone_ready(&stone, "glass", IFIG_PATTERN_SNAKE, 25, 4);
    options.pixels = 128;
    options.progress = refuse;
    options.progress_context = &asked;
    ck_assert_int_eq(ifig_face_create(&stone.scene, &stone.texture, &options, &face, NULL),
                     IFIG_OK);
    ck_assert_int_eq(ifig_face_render(face, IFIG_PIXELS_SRGB8, 0, 128, pixels, NULL),
                     IFIG_ERROR_CANCELLED);
    ck_assert_int_gt(asked, 0);
    ifig_face_free(face);
    stone_gone(&stone);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("face");
    tcase_add_test(facts, a_plain_face_is_the_colour_of_the_probe);
    tcase_add_test(facts, each_place_of_a_strained_face_is_an_evenly_strained_stone);
    tcase_add_test(facts, each_place_of_a_strained_face_has_the_jones_matrix_of_the_wave);
    tcase_add_test(facts, an_inclusion_shows_a_dark_cross_along_the_polars_however_it_is_turned);
    tcase_add_test(facts, bands_are_dark_along_the_polars_and_brightest_between);
    tcase_add_test(facts, an_unstrained_singly_refractive_face_is_black);
    tcase_add_test(facts, opening_the_analyser_brightens_a_strained_face);
    tcase_add_test(facts, a_quarter_turn_of_the_stage_turns_the_face_and_keeps_its_light);
    tcase_add_test(facts, rows_are_the_same_in_any_bands_and_with_any_threads);
    tcase_add_test(facts, a_face_can_be_cancelled);
    return run_case(facts, "polariscope face");
}
