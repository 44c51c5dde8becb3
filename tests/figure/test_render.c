/* SPDX-License-Identifier: MIT */
/* How a figure is rendered: threads, bands, sizes, formats, refusals. */
#include "figure_test.h"

#include <string.h>

static const Recipe topaz = {.key = "topaz_f", .thickness_mm = 2, .stage_deg = 30};

static IfigFigure *threaded_figure(const IfigScene *scene, uint32_t size, int threads,
                                   double exposure_stops)
{
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigFigure *figure = NULL;
    options.pixels = size;
    options.threads = threads;
    options.exposure_stops = exposure_stops;
    ck_assert_int_eq(ifig_figure_create(scene, &options, &figure, NULL), IFIG_OK);
    return figure;
}

START_TEST(pixels_are_the_same_for_any_number_of_threads)
{
    static const int threads[] = {2, 3, 7};
    enum { SIZE = 257 };
    Setup setup;
    set_up(&topaz, &setup);
    IfigFigure *alone = threaded_figure(&setup.scene, SIZE, 1, 0);
    unsigned char *expected = rendered(alone, SIZE, IFIG_PIXELS_SRGB8);
    float *expected_xyz = rendered(alone, SIZE, IFIG_PIXELS_XYZ);
    for (size_t i = 0; i < 3; i++) {
        IfigFigure *figure = threaded_figure(&setup.scene, SIZE, threads[i], 0);
        unsigned char *codes = rendered(figure, SIZE, IFIG_PIXELS_SRGB8);
        float *xyz = rendered(figure, SIZE, IFIG_PIXELS_XYZ);
        ck_assert_mem_eq(codes, expected, 3 * SIZE * SIZE);
        ck_assert_mem_eq(xyz, expected_xyz, 3 * SIZE * SIZE * sizeof *xyz);
        free(xyz);
        free(codes);
        ifig_figure_free(figure);
    }
    free(expected_xyz);
    free(expected);
    ifig_figure_free(alone);
    take_down(&setup);
}
END_TEST

/* Render in bands of a height, from the last to the first. */
static void render_bands(const IfigFigure *figure, uint32_t size, uint32_t height,
                         unsigned char *codes)
{
    for (uint32_t end = size; end > 0;) {
        uint32_t rows = end < height ? end : height;
        end -= rows;
        ck_assert_int_eq(ifig_figure_render(figure, IFIG_PIXELS_SRGB8, end, rows,
                                            codes + (size_t)3 * size * end, NULL),
                         IFIG_OK);
    }
}

START_TEST(bands_of_any_height_make_up_the_whole_picture)
{
    static const uint32_t sizes[] = {1, 2, 3, 17, 63, 65, 257};
    uint32_t size = sizes[_i];
    size_t bytes = (size_t)3 * size * size;
    Setup setup;
    set_up(&topaz, &setup);
    IfigFigure *figure = figure_of(&setup.scene, size);
    uint32_t heights[] = {1, 5, ifig_figure_band_rows(figure), 64};
    unsigned char *whole = rendered(figure, size, IFIG_PIXELS_SRGB8);
    unsigned char *banded = malloc(bytes);
    for (size_t i = 0; i < 4; i++) {
        if (size == 257 && heights[i] == 1) {
            continue; /* tile rows are computed anew for each band: too slow to be worth it */
        }
        memset(banded, 0x55, bytes);
        render_bands(figure, size, heights[i], banded);
        ck_assert_mem_eq(banded, whole, bytes);
    }
    free(banded);
    free(whole);
    ifig_figure_free(figure);
    take_down(&setup);
}
END_TEST

START_TEST(one_stop_of_exposure_doubles_the_light)
{
    enum { SIZE = 96 };
    Setup setup;
    set_up(&topaz, &setup);
    IfigFigure *plain = threaded_figure(&setup.scene, SIZE, 0, -1);
    IfigFigure *brighter = threaded_figure(&setup.scene, SIZE, 0, 0);
    uint16_t *a = rendered(plain, SIZE, IFIG_PIXELS_SRGB16);
    uint16_t *b = rendered(brighter, SIZE, IFIG_PIXELS_SRGB16);
    size_t compared = 0;
    for (size_t p = 0; p < SIZE * SIZE; p++) {
        double x = (double)(p % SIZE) + 0.5 - 0.5 * SIZE, y = (double)(p / SIZE) + 0.5 - 0.5 * SIZE;
        const uint16_t *dim = a + 3 * p, *lit = b + 3 * p;
        int inside = hypot(x, y) < 0.5 * SIZE - 1;
        for (int i = 0; i < 3; i++) {
            /* A channel at the gamut's edge may have been drawn toward grey. */
            inside &= lit[i] < 65535 && dim[i] > 0;
        }
        for (int i = 0; inside && i < 3; i++) {
            double half = ifig_srgb_decode(dim[i] / 65535.0);
            double full = ifig_srgb_decode(lit[i] / 65535.0);
            ck_assert_double_eq_tol(full, 2.0 * half, 6e-5);
            compared++;
        }
    }
    ck_assert_uint_gt(compared, SIZE * SIZE);
    free(b);
    free(a);
    ifig_figure_free(brighter);
    ifig_figure_free(plain);
    take_down(&setup);
}
END_TEST

START_TEST(a_million_times_the_light_is_white_and_a_millionth_black)
{
    /* Under the sanitizers no number on the way may be too large for its type. */
    enum { SIZE = 64 };
    Setup setup;
    set_up(&topaz, &setup);
    IfigFigure *dark = threaded_figure(&setup.scene, SIZE, 1, -20);
    IfigFigure *bright = threaded_figure(&setup.scene, SIZE, 1, 20);
    unsigned char *black = rendered(dark, SIZE, IFIG_PIXELS_SRGB8);
    unsigned char *white = rendered(bright, SIZE, IFIG_PIXELS_SRGB8);
    for (uint32_t x = SIZE / 4; x < 3 * SIZE / 4; x++) {
        const size_t at = 3 * ((size_t)SIZE / 3 * SIZE + x);
        for (size_t i = at; i < at + 3; i++) {
            ck_assert_uint_eq(black[i], 0);
            ck_assert_uint_eq(white[i], 255);
        }
    }
    free(white);
    free(black);
    ifig_figure_free(bright);
    ifig_figure_free(dark);
    take_down(&setup);
}
END_TEST

START_TEST(exposure_leaves_xyz_as_it_is)
{
    enum { SIZE = 40 };
    Setup setup;
    set_up(&topaz, &setup);
    IfigFigure *plain = threaded_figure(&setup.scene, SIZE, 0, 0);
    IfigFigure *brighter = threaded_figure(&setup.scene, SIZE, 0, 3);
    float *a = rendered(plain, SIZE, IFIG_PIXELS_XYZ);
    float *b = rendered(brighter, SIZE, IFIG_PIXELS_XYZ);
    ck_assert_mem_eq(a, b, 3 * SIZE * SIZE * sizeof *a);
    free(b);
    free(a);
    ifig_figure_free(brighter);
    ifig_figure_free(plain);
    take_down(&setup);
}
END_TEST

START_TEST(sixteen_bits_agree_with_eight)
{
    enum { SIZE = 128 };
    Setup setup;
    set_up(&topaz, &setup);
    IfigFigure *figure = figure_of(&setup.scene, SIZE);
    unsigned char *eight = rendered(figure, SIZE, IFIG_PIXELS_SRGB8);
    uint16_t *sixteen = rendered(figure, SIZE, IFIG_PIXELS_SRGB16);
    for (size_t i = 0; i < 3 * SIZE * SIZE; i++) {
        /* 65535 / 255 = 257; half a step of each. */
        ck_assert_double_le(fabs(sixteen[i] / 257.0 - eight[i]), 0.5 + 0.5 / 257.0 + 1e-9);
    }
    free(sixteen);
    free(eight);
    ifig_figure_free(figure);
    take_down(&setup);
}
END_TEST

START_TEST(around_the_disc_is_the_surround)
{
    enum { SIZE = 100 };
    Setup setup;
    set_up(&topaz, &setup);
    IfigFigure *figure = figure_of(&setup.scene, SIZE);
    unsigned char *codes = rendered(figure, SIZE, IFIG_PIXELS_SRGB8);
    float(*xyz)[3] = rendered(figure, SIZE, IFIG_PIXELS_XYZ);
    size_t outside = 0;
    for (size_t p = 0; p < SIZE * SIZE; p++) {
        double x = (double)(p % SIZE) + 0.5 - 0.5 * SIZE, y = (double)(p / SIZE) + 0.5 - 0.5 * SIZE;
        for (int i = 0; hypot(x, y) > 0.5 * SIZE + 0.5 && i < 3; i++) {
            ck_assert_int_eq(codes[3 * p + (size_t)i], IFIG_SURROUND_CODE);
            ck_assert(xyz[p][i] == 0.0F);
            outside++;
        }
    }
    /* The corners left by the disc: 1 - pi/4 of the square, less the blended rim. */
    ck_assert_uint_gt(outside, 3 * 18 * SIZE * SIZE / 100);
    free(xyz);
    free(codes);
    ifig_figure_free(figure);
    take_down(&setup);
}
END_TEST

/* Progress as a caller sees it. */
typedef struct Watch {
    int calls, stop_at;
    double last;
    int fell;
} Watch;

static int watch(double share, void *context)
{
    Watch *seen = context;
    seen->fell |= share < seen->last || share > 1.0;
    seen->last = share;
    return ++seen->calls != seen->stop_at;
}

static IfigStatus render_watched(Watch *seen, IfigError *error)
{
    enum { SIZE = 64 };
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigFigure *figure = NULL;
    Setup setup;
    set_up(&topaz, &setup);
    options.pixels = SIZE;
    options.threads = 2;
    options.progress = watch;
    options.progress_context = seen;
    ck_assert_int_eq(ifig_figure_create(&setup.scene, &options, &figure, NULL), IFIG_OK);
    unsigned char *codes = malloc(3 * SIZE * SIZE);
    IfigStatus status = ifig_figure_render(figure, IFIG_PIXELS_SRGB8, 0, SIZE, codes, error);
    free(codes);
    ifig_figure_free(figure);
    take_down(&setup);
    return status;
}

START_TEST(progress_rises_to_one)
{
    Watch seen = {0};
    ck_assert_int_eq(render_watched(&seen, NULL), IFIG_OK);
    ck_assert_int_gt(seen.calls, 1);
    ck_assert_int_eq(seen.fell, 0);
    ck_assert_double_eq(seen.last, 1.0);
}
END_TEST

START_TEST(progress_can_cancel)
{
    Watch seen = {.stop_at = 3};
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_int_eq(render_watched(&seen, &error), IFIG_ERROR_CANCELLED);
    ck_assert_int_eq(error.status, IFIG_ERROR_CANCELLED);
    ck_assert_int_eq(seen.calls, 3);
}
END_TEST

/* What ifig_figure_create says to options or a scene that a case spoils. */
static void refused(const IfigScene *scene, const IfigFigureOptions *options, IfigStatus status,
                    const char *word)
{
    IfigFigure *figure = (IfigFigure *)&status;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_int_eq(ifig_figure_create(scene, options, &figure, &error), status);
    ck_assert_ptr_null(figure);
    ck_assert_int_eq(error.status, status);
    ck_assert_msg(strstr(error.message, word) != NULL, "\"%s\" lacks \"%s\"", error.message, word);
    ck_assert_ptr_null(strchr(error.message, '\n'));
}

START_TEST(bad_options_are_refused_with_a_word_about_them)
{
    const IfigFigureOptions usual = IFIG_FIGURE_OPTIONS_INIT;
    IfigFigureOptions options = usual;
    Setup setup;
    set_up(&topaz, &setup);
    options.pixels = 0;
    refused(&setup.scene, &options, IFIG_ERROR_RANGE, "size is 0");
    options.pixels = 100000;
    refused(&setup.scene, &options, IFIG_ERROR_RANGE, "65535");
    options = usual;
    options.exposure_stops = NAN;
    refused(&setup.scene, &options, IFIG_ERROR_RANGE, "exposure");
    options.exposure_stops = 21;
    refused(&setup.scene, &options, IFIG_ERROR_RANGE, "exposure");
    options = usual;
    options.threads = -1;
    refused(&setup.scene, &options, IFIG_ERROR_RANGE, "threads");
    options = usual;
    options.size = 3;
    refused(&setup.scene, &options, IFIG_ERROR_ARGUMENT, "IFIG_FIGURE_OPTIONS_INIT");
    refused(&setup.scene, NULL, IFIG_ERROR_ARGUMENT, "options");
    refused(NULL, &usual, IFIG_ERROR_ARGUMENT, "scene");
    setup.layer[0].thickness_mm = 0;
    refused(&setup.scene, &usual, IFIG_ERROR_RANGE, "thickness");
    setup.layer[0].thickness_mm = 1;
    setup.scene.instrument.field_deg = 91;
    refused(&setup.scene, &usual, IFIG_ERROR_RANGE, "field");
    setup.scene.instrument.field_deg = 0;
    setup.layer[0].orientation.view = IFIG_VIEW_C;
    refused(&setup.scene, &usual, IFIG_ERROR_UNSUITABLE, "acute-bisectrix");
    setup.layer[0].orientation.view = IFIG_VIEW_DEFAULT;
    setup.scene.lamp = NULL;
    refused(&setup.scene, &usual, IFIG_ERROR_ARGUMENT, "lamp");
    take_down(&setup);
}
END_TEST

START_TEST(rows_outside_the_picture_are_refused)
{
    unsigned char codes[3 * 8 * 8];
    Setup setup;
    IfigError error = IFIG_ERROR_INIT;
    set_up(&topaz, &setup);
    IfigFigure *figure = figure_of(&setup.scene, 8);
    const IfigPixelFormat format = IFIG_PIXELS_SRGB8;
    ck_assert_int_eq(ifig_figure_render(figure, format, 0, 9, codes, &error), IFIG_ERROR_RANGE);
    ck_assert_int_eq(ifig_figure_render(figure, format, 8, 1, codes, NULL), IFIG_ERROR_RANGE);
    ck_assert_int_eq(ifig_figure_render(figure, format, 0, 0, codes, NULL), IFIG_ERROR_RANGE);
    ck_assert_int_eq(ifig_figure_render(figure, format, 7, UINT32_MAX, codes, NULL),
                     IFIG_ERROR_RANGE);
    ck_assert_int_eq(ifig_figure_render(figure, (IfigPixelFormat)3, 0, 8, codes, NULL),
                     IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_figure_render(figure, format, 0, 8, NULL, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_figure_render(NULL, format, 0, 8, codes, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_uint_eq(ifig_figure_band_rows(NULL), 0);
    ifig_figure_free(figure);
    ifig_figure_free(NULL);
    take_down(&setup);
}
END_TEST

START_TEST(tiles_of_large_pictures_stay_small)
{
    Setup setup;
    set_up(&topaz, &setup);
    for (uint32_t size = 64; size <= 8192; size *= 2) {
        IfigFigure *figure = figure_of(&setup.scene, size);
        const uint32_t wanted = size / 8 < IFIG_TILE_MAX ? size / 8 : IFIG_TILE_MAX;
        ck_assert_uint_eq(ifig_figure_band_rows(figure), wanted);
        ifig_figure_free(figure);
    }
    ck_assert_uint_eq(ifig_figure_band_rows(NULL), 0);
    take_down(&setup);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("render");
    tcase_add_test(facts, pixels_are_the_same_for_any_number_of_threads);
    tcase_add_loop_test(facts, bands_of_any_height_make_up_the_whole_picture, 0, 7);
    tcase_add_test(facts, one_stop_of_exposure_doubles_the_light);
    tcase_add_test(facts, a_million_times_the_light_is_white_and_a_millionth_black);
    tcase_add_test(facts, exposure_leaves_xyz_as_it_is);
    tcase_add_test(facts, sixteen_bits_agree_with_eight);
    tcase_add_test(facts, around_the_disc_is_the_surround);
    tcase_add_test(facts, progress_rises_to_one);
    tcase_add_test(facts, progress_can_cancel);
    tcase_add_test(facts, bad_options_are_refused_with_a_word_about_them);
    tcase_add_test(facts, rows_outside_the_picture_are_refused);
    tcase_add_test(facts, tiles_of_large_pictures_stay_small);
    return run_case(facts, "render");
}
