/* SPDX-License-Identifier: MIT */
/* Rectangles of a picture: the same bytes as in the whole, however it is cut and by whom. */
#include "figure_test.h"

#include "posix_threads.h"

#include <string.h>

/* Tilted, so that no two quarters are alike. */
static const Recipe topaz = {.key = "topaz_f", .thickness_mm = 2, .stage_deg = 30, .tilt_deg = 12};
static const Recipe rotating = {
    .key = "quartz", .thickness_mm = 3, .tilt_deg = 5, .layers = 2, .circular = 2};

/* A picture cut into rectangles of one size, whole or at the right and lower rim less. */
typedef struct Cutting {
    const IfigFigure *figure;
    uint32_t size, width, height;
    IfigPixelFormat format;
    unsigned char *pixels; /* of the whole picture */
} Cutting;

/* Render the rectangle whose top left corner is told and copy it to its place. */
static void render_one(const Cutting *cut, uint32_t left, uint32_t top)
{
    const IfigRectangle r = {left, top,
                             cut->width < cut->size - left ? cut->width : cut->size - left,
                             cut->height < cut->size - top ? cut->height : cut->size - top};
    size_t bytes = ifig_pixel_bytes(cut->format), row_bytes = r.width * bytes;
    IfigError error = IFIG_ERROR_INIT;
    unsigned char *part = malloc(row_bytes * r.height + 1);
    ck_assert_ptr_nonnull(part);
    part[row_bytes * r.height] = 0xA5;
    ck_assert_msg(ifig_figure_render_rectangle(cut->figure, cut->format, &r, part, &error) ==
                      IFIG_OK,
                  "%s", error.message);
    ck_assert_int_eq(part[row_bytes * r.height], 0xA5); /* not a byte more */
    for (uint32_t row = 0; row < r.height; row++) {
        memcpy(cut->pixels + ((size_t)(top + row) * cut->size + left) * bytes,
               part + row * row_bytes, row_bytes);
    }
    free(part);
}

/* From the last rectangle to the first. */
static void render_all(const Cutting *cut)
{
    uint32_t columns = (cut->size + cut->width - 1) / cut->width;
    uint32_t rows = (cut->size + cut->height - 1) / cut->height;
    for (uint32_t i = columns * rows; i > 0; i--) {
        render_one(cut, (i - 1) % columns * cut->width, (i - 1) / columns * cut->height);
    }
}

/* Cut a recipe's picture in each of the ways, one format after the other, and hold it to the whole.
 */
static void check_cuts(const Recipe *recipe, uint32_t size, const uint32_t (*cuts)[2], size_t count)
{
    Setup setup;
    set_up(recipe, &setup);
    IfigFigure *figure = figure_of(&setup.scene, size);
    for (int format = IFIG_PIXELS_SRGB8; format <= IFIG_PIXELS_XYZ; format++) {
        size_t bytes = (size_t)size * size * ifig_pixel_bytes((IfigPixelFormat)format);
        unsigned char *whole = rendered(figure, size, (IfigPixelFormat)format);
        Cutting cut = {figure, size, 0, 0, (IfigPixelFormat)format, malloc(bytes)};
        ck_assert_ptr_nonnull(cut.pixels);
        for (size_t i = (size_t)format; i < count; i += 3) {
            cut.width = cuts[i][0];
            cut.height = cuts[i][1];
            memset(cut.pixels, 0x55, bytes);
            render_all(&cut);
            ck_assert_msg(memcmp(cut.pixels, whole, bytes) == 0, "%u x %u of %u pixels differ",
                          cut.width, cut.height, size);
        }
        free(cut.pixels);
        free(whole);
    }
    ifig_figure_free(figure);
    take_down(&setup);
}

START_TEST(small_pictures_may_be_cut_down_to_single_pixels)
{
    static const uint32_t cuts[][2] = {{1, 1}, {7, 1},  {2, 3},  {1, 7},  {5, 5},   {8, 8},
                                       {9, 4}, {16, 3}, {1, 64}, {64, 1}, {17, 17}, {64, 64}};
    static const uint32_t sizes[] = {1, 2, 3, 11, 19};
    check_cuts(&topaz, sizes[_i], cuts, sizeof cuts / sizeof cuts[0]);
}
END_TEST

/* Pictures of which a half or a quarter is computed: what is cut out lies anywhere. */
START_TEST(pictures_that_repeat_themselves_may_be_cut_anyhow)
{
    static const Recipe mirrored = {.key = "topaz_f", .thickness_mm = 2};
    static const Recipe turned = {.key = "topaz_f", .thickness_mm = 2, .stage_deg = 30};
    static const uint32_t cuts[][2] = {{1, 1}, {3, 2}, {2, 3}, {9, 9}, {8, 5}, {19, 4}};
    static const uint32_t coarse[][2] = {{100, 150}, {300, 20}, {150, 100}};
    for (uint32_t size = 18; size <= 19; size++) {
        check_cuts(&mirrored, size, cuts, sizeof cuts / sizeof cuts[0]);
        check_cuts(&turned, size, cuts, sizeof cuts / sizeof cuts[0]);
    }
    check_cuts(&mirrored, 301, coarse, sizeof coarse / sizeof coarse[0]);
    check_cuts(&turned, 301, coarse, sizeof coarse / sizeof coarse[0]);
}
END_TEST

START_TEST(large_pictures_may_be_cut_anyhow)
{
    static const uint32_t cuts[][2] = {{64, 64},  {65, 63},  {257, 10}, {32, 64},
                                       {100, 50}, {10, 257}, {257, 257}};
    check_cuts(&topaz, 257, cuts, sizeof cuts / sizeof cuts[0]);
    check_cuts(&rotating, 70, cuts, sizeof cuts / sizeof cuts[0]);
}
END_TEST

/* Single pixels of a large picture, along a line through the rim, the brushes and the rings. */
START_TEST(a_single_pixel_is_that_of_the_picture)
{
    enum { SIZE = 600 };
    Setup setup;
    set_up(&topaz, &setup);
    IfigFigure *figure = figure_of(&setup.scene, SIZE);
    unsigned char *whole = rendered(figure, SIZE, IFIG_PIXELS_SRGB8), pixel[3];
    for (uint32_t i = 0; i < SIZE; i += 41) {
        const IfigRectangle r = {i, (i * 7 + 3) % SIZE, 1, 1};
        ck_assert_int_eq(ifig_figure_render_rectangle(figure, IFIG_PIXELS_SRGB8, &r, pixel, NULL),
                         IFIG_OK);
        ck_assert_mem_eq(pixel, whole + 3 * ((size_t)r.top * SIZE + r.left), 3);
    }
    free(whole);
    ifig_figure_free(figure);
    take_down(&setup);
}
END_TEST

/* What a thread of the caller's own renders: every fourth column of rectangles. */
typedef struct Share {
    const Cutting *cut;
    uint32_t first;
} Share;

static void *render_share(void *argument)
{
    const Share *share = argument;
    const Cutting *cut = share->cut;
    for (uint32_t left = share->first * cut->width; left < cut->size; left += 4 * cut->width) {
        for (uint32_t top = 0; top < cut->size; top += cut->height) {
            render_one(cut, left, top);
        }
    }
    return NULL;
}

START_TEST(threads_may_render_rectangles_of_one_figure_at_once)
{
    enum { SIZE = 250 };
    static const int threads[] = {1, 2, 5};
    Setup setup;
    set_up(&topaz, &setup);
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    options.pixels = SIZE;
    options.threads = threads[_i];
    IfigFigure *figure = NULL;
    ck_assert_int_eq(ifig_figure_create(&setup.scene, &options, &figure, NULL), IFIG_OK);
    unsigned char *whole = rendered(figure, SIZE, IFIG_PIXELS_SRGB8);
    const Cutting cut = {figure, SIZE, 40, 70, IFIG_PIXELS_SRGB8, calloc(SIZE, 3 * SIZE)};
    pthread_t thread[4];
    Share share[4];
    for (uint32_t i = 0; i < 4; i++) {
        share[i] = (Share){&cut, i};
        ck_assert_int_eq(pthread_create(&thread[i], NULL, render_share, &share[i]), 0);
    }
    for (int i = 0; i < 4; i++) {
        ck_assert_int_eq(pthread_join(thread[i], NULL), 0);
    }
    ck_assert_mem_eq(cut.pixels, whole, 3 * SIZE * SIZE);
    free(cut.pixels);
    free(whole);
    ifig_figure_free(figure);
    take_down(&setup);
}
END_TEST

/* Progress as a caller sees it. */
typedef struct Watch {
    int calls, stop_at;
    double last;
} Watch;

static int watch(double share, void *context)
{
    Watch *seen = context;
    ck_assert_double_gt(share, seen->last);
    seen->last = share;
    return ++seen->calls != seen->stop_at;
}

static IfigStatus render_watched(Watch *seen)
{
    enum { SIZE = 128 };
    const IfigRectangle rectangle = {10, 20, 60, 50};
    unsigned char pixels[60 * 50 * 3];
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigFigure *figure = NULL;
    Setup setup;
    set_up(&topaz, &setup);
    options.pixels = SIZE;
    options.threads = 2;
    options.progress = watch;
    options.progress_context = seen;
    ck_assert_int_eq(ifig_figure_create(&setup.scene, &options, &figure, NULL), IFIG_OK);
    IfigStatus status =
        ifig_figure_render_rectangle(figure, IFIG_PIXELS_SRGB8, &rectangle, pixels, NULL);
    ifig_figure_free(figure);
    take_down(&setup);
    return status;
}

START_TEST(progress_counts_the_rectangle_alone)
{
    Watch seen = {0};
    ck_assert_int_eq(render_watched(&seen), IFIG_OK);
    ck_assert_double_eq(seen.last, 1.0);
    /* Bands of 16: columns 0 to 4 and rows 1 to 4 of the picture's 8 x 8. */
    ck_assert_int_eq(seen.calls, 5 * 4);
}
END_TEST

START_TEST(progress_cancels_a_rectangle)
{
    Watch seen = {.stop_at = 3};
    ck_assert_int_eq(render_watched(&seen), IFIG_ERROR_CANCELLED);
    ck_assert_int_eq(seen.calls, 3);
}
END_TEST

START_TEST(rectangles_that_reach_outside_are_refused)
{
    static const IfigRectangle outside[] = {
        {0, 0, 0, 1},          {0, 0, 1, 0},         {0, 0, 9, 1}, {0, 0, 1, 9},
        {8, 0, 1, 1},          {0, 8, 1, 1},         {7, 0, 2, 1}, {1, 1, UINT32_MAX, 1},
        {1, 1, 1, UINT32_MAX}, {UINT32_MAX, 0, 1, 1}};
    const IfigRectangle corner = {7, 7, 1, 1};
    const IfigPixelFormat format = IFIG_PIXELS_SRGB8;
    unsigned char codes[3 * 8 * 8];
    Setup setup;
    set_up(&topaz, &setup);
    IfigFigure *figure = figure_of(&setup.scene, 8);
    for (size_t i = 0; i < sizeof outside / sizeof outside[0]; i++) {
        IfigError error = IFIG_ERROR_INIT;
        ck_assert_int_eq(ifig_figure_render_rectangle(figure, format, &outside[i], codes, &error),
                         IFIG_ERROR_RANGE);
        ck_assert_msg(strstr(error.message, "8 x 8") != NULL, "%s", error.message);
    }
    ck_assert_int_eq(ifig_figure_render_rectangle(figure, format, &corner, codes, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_figure_render_rectangle(figure, format, NULL, codes, NULL),
                     IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_figure_render_rectangle(figure, format, &corner, NULL, NULL),
                     IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_figure_render_rectangle(NULL, format, &corner, codes, NULL),
                     IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_figure_render_rectangle(figure, (IfigPixelFormat)3, &corner, codes, NULL),
                     IFIG_ERROR_ARGUMENT);
    ifig_figure_free(figure);
    take_down(&setup);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("rectangles");
    tcase_add_loop_test(facts, small_pictures_may_be_cut_down_to_single_pixels, 0, 5);
    tcase_add_test(facts, pictures_that_repeat_themselves_may_be_cut_anyhow);
    tcase_add_test(facts, large_pictures_may_be_cut_anyhow);
    tcase_add_test(facts, a_single_pixel_is_that_of_the_picture);
    tcase_add_loop_test(facts, threads_may_render_rectangles_of_one_figure_at_once, 0, 3);
    tcase_add_test(facts, progress_counts_the_rectangle_alone);
    tcase_add_test(facts, progress_cancels_a_rectangle);
    tcase_add_test(facts, rectangles_that_reach_outside_are_refused);
    return run_case(facts, "rectangles");
}
