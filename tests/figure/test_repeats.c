/* SPDX-License-Identifier: MIT */
/* Pictures that repeat themselves: what is copied is what would have been computed. */
#include "figure_test.h"

typedef struct Case {
    Recipe recipe;
    double plate_nm;
    IfigSymmetry symmetry;
} Case;

static const Case cases[] = {
    {{.key = "calcite", .thickness_mm = 1}, 0, IFIG_SYMMETRY_MIRRORS},
    {{.key = "topaz_f", .thickness_mm = 2}, 0, IFIG_SYMMETRY_MIRRORS},
    {{.key = "topaz_f", .thickness_mm = 2, .aperture = 0.8}, 0, IFIG_SYMMETRY_MIRRORS},
    {{.key = "topaz_f", .thickness_mm = 2, .stage_deg = 30}, 0, IFIG_SYMMETRY_HALF_TURN},
    {{.key = "calcite", .thickness_mm = 1, .polars_deg = 20}, 0, IFIG_SYMMETRY_HALF_TURN},
    {{.key = "calcite", .thickness_mm = 1}, 550, IFIG_SYMMETRY_HALF_TURN},
    {{.key = "calcite", .thickness_mm = 1, .circular = 2}, 0, IFIG_SYMMETRY_HALF_TURN},
    {{.key = "quartz", .thickness_mm = 3, .circular = 1}, 300, IFIG_SYMMETRY_HALF_TURN},
    {{.key = "quartz", .thickness_mm = 3, .layers = -2}, 0, IFIG_SYMMETRY_HALF_TURN},
    {{.key = "quartz", .thickness_mm = 3, .view = IFIG_VIEW_X}, 0, IFIG_SYMMETRY_HALF_TURN},
    {{.key = "quartz", .thickness_mm = 3, .tilt_deg = 1}, 0, IFIG_SYMMETRY_NONE},
    /* Tilted along a polariser, a mirror stays; right and left quartz are each other's images. */
    {{.key = "calcite", .thickness_mm = 1, .tilt_deg = 0.01}, 0, IFIG_SYMMETRY_ROWS},
    {{.key = "calcite", .thickness_mm = 1, .tilt_deg = 7}, 0, IFIG_SYMMETRY_ROWS},
    {{.key = "topaz_f", .thickness_mm = 2, .tilt_deg = 7, .stage_deg = 90},
     0,
     IFIG_SYMMETRY_COLUMNS},
    {{.key = "calcite", .thickness_mm = 1, .tilt_deg = 7, .stage_deg = 1}, 0, IFIG_SYMMETRY_NONE},
    /* The axes of this monoclinic stone turn with wavelength about b, which lies in the face. */
    {{.key = "titanite", .thickness_mm = 0.1}, 0, IFIG_SYMMETRY_ROWS},
    {{.key = "titanite", .thickness_mm = 0.1, .stage_deg = 30}, 0, IFIG_SYMMETRY_NONE},
};
enum { CASES = sizeof cases / sizeof cases[0], MOST_SIDE = 128 };

static IfigFigure *figure_for(const Case *c, Setup *setup, uint32_t pixels)
{
    IfigFigure *figure;
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    options.pixels = pixels;
    set_up(&c->recipe, setup);
    if (c->plate_nm > 0) {
        setup->scene.instrument.plate = (IfigPlate){IFIG_PLATE_GYPSUM, c->plate_nm, 45.0};
    }
    ck_assert_int_eq(ifig_figure_create(&setup->scene, &options, &figure, NULL), IFIG_OK);
    return figure;
}

START_TEST(copies_are_what_would_have_been_computed)
{
    static const uint32_t sides[] = {MOST_SIDE - 1, MOST_SIDE};
    static uint8_t copied[3 * MOST_SIDE * MOST_SIDE], computed[sizeof copied];
    for (size_t s = 0; s < sizeof sides / sizeof sides[0]; s++) {
        uint32_t side = sides[s];
        Setup setup;
        IfigFigure *figure = figure_for(&cases[_i], &setup, side);
        ck_assert_int_eq(figure->raster.symmetry, cases[_i].symmetry);
        ck_assert_int_eq(ifig_figure_render(figure, IFIG_PIXELS_SRGB8, 0, side, copied, NULL), 0);
        figure->raster.symmetry = IFIG_SYMMETRY_NONE;
        ck_assert_int_eq(ifig_figure_render(figure, IFIG_PIXELS_SRGB8, 0, side, computed, NULL), 0);
        size_t more = 0;
        for (size_t i = 0; i < (size_t)3 * side * side; i++) {
            /* Either may be a level off the exact light. */
            ck_assert_int_le(abs(copied[i] - computed[i]), 2);
            more += abs(copied[i] - computed[i]) > 1;
        }
        ck_assert_uint_le(more, 3);
        ifig_figure_free(figure);
        take_down(&setup);
    }
}
END_TEST

/* Pixels so large that fringes are finer than they are may differ by more than a level; but the
 * smallest pictures are whole. */
START_TEST(tiny_pictures_are_filled)
{
    for (uint32_t side = 1; side <= 5; side++) {
        static float xyz[3 * 5 * 5];
        Setup setup;
        IfigFigure *figure = figure_for(&cases[_i], &setup, side);
        memset(xyz, 0xff, sizeof xyz);
        ck_assert_int_eq(ifig_figure_render(figure, IFIG_PIXELS_XYZ, 0, side, xyz, NULL), 0);
        for (size_t i = 0; i < (size_t)3 * side * side; i++) {
            ck_assert_float_finite(xyz[i]);
        }
        ifig_figure_free(figure);
        take_down(&setup);
    }
}
END_TEST

/* In every format, however the rows are cut. */
START_TEST(rows_are_those_of_the_whole)
{
    enum { SIDE = 47 };
    static float whole[3 * SIDE * SIDE], part[3 * SIDE * SIDE];
    static const uint32_t cuts[][2] = {{0, 10}, {10, 30}, {23, 1}, {24, 1}, {22, 3}, {40, 7}};
    static const int some[] = {0, 3, 7, 11};
    Setup setup;
    IfigFigure *figure = figure_for(&cases[some[_i]], &setup, SIDE);
    for (int format = IFIG_PIXELS_SRGB8; format <= IFIG_PIXELS_XYZ; format++) {
        size_t row = SIDE * ifig_pixel_bytes((IfigPixelFormat)format);
        ck_assert_int_eq(ifig_figure_render(figure, (IfigPixelFormat)format, 0, SIDE, whole, NULL),
                         0);
        for (size_t c = 0; c < sizeof cuts / sizeof cuts[0]; c++) {
            uint32_t first = cuts[c][0], count = cuts[c][1];
            ck_assert_int_eq(
                ifig_figure_render(figure, (IfigPixelFormat)format, first, count, part, NULL), 0);
            ck_assert_mem_eq(part, (const char *)whole + first * row, count * row);
        }
    }
    ifig_figure_free(figure);
    take_down(&setup);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("repeats");
    tcase_add_loop_test(facts, copies_are_what_would_have_been_computed, 0, CASES);
    tcase_add_loop_test(facts, tiny_pictures_are_filled, 0, CASES);
    tcase_add_loop_test(facts, rows_are_those_of_the_whole, 0, 4);
    return run_case(facts, "repeats");
}
