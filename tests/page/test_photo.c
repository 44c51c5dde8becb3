/* SPDX-License-Identifier: MIT */
/* Photographs made by hand, of discs whose place is known. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "../run_case.h"
#include "photo.h"

/* A photo of a figure-like disc: rings and a dark cross within, a dim uneven surround, and noise
 * from a generator that is the same on each run. */
static IfigPhoto make_photo(uint32_t width, uint32_t height, IfigCircle disc, double noise)
{
    IfigPhoto photo = {malloc((size_t)3 * width * height), width, height};
    uint64_t state = 7;
    ck_assert_ptr_nonnull(photo.rgb);
    for (uint32_t i = 0; i < width * height; i++) {
        const double x = (i % width + 0.5 - disc.x) / disc.radius;
        const double y = (i / width + 0.5 - disc.y) / disc.radius;
        const double r = hypot(x, y), cross = fmin(fabs(x), fabs(y));
        double light = r < 1.0 ? 60.0 + 150.0 * fmin(1.0, 4.0 * cross) + 30.0 * cos(25.0 * r * r)
                               : 25.0 + 10.0 * sin(i % width / 37.0);
        for (int c = 0; c < 3; c++) {
            state = state * 6364136223846793005u + 1442695040888963407u;
            const double random = (double)(state >> 40) / (double)(1 << 24) - 0.5;
            const double value = light * (1.0 - 0.1 * c) + 2.0 * noise * random;
            photo.rgb[3 * i + (uint32_t)c] = (uint8_t)fmax(0.0, fmin(255.0, value));
        }
    }
    return photo;
}

static void expect_found(IfigCircle disc, uint32_t width, uint32_t height, double noise)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigCircle found = {0, 0, 0};
    IfigPhoto photo = make_photo(width, height, disc, noise);
    ck_assert_msg(ifig_photo_find_circle(&photo, "p", &found, &error) == IFIG_OK, "%s",
                  error.message);
    const double within = 1.5 + 0.004 * disc.radius; /* less than a fringe is wide */
    ck_assert_double_le(hypot(found.x - disc.x, found.y - disc.y), within);
    ck_assert_double_le(fabs(found.radius - disc.radius), within);
    ifig_photo_free(&photo);
}

START_TEST(a_disc_is_found_wherever_it_lies)
{
    expect_found((IfigCircle){400, 300, 250}, 800, 600, 0);
    expect_found((IfigCircle){180.3, 420.8, 120}, 800, 600, 0);
    expect_found((IfigCircle){1500, 900, 700}, 3000, 2000, 0);
    expect_found((IfigCircle){60, 60, 40}, 120, 120, 0);
}
END_TEST

START_TEST(a_disc_is_found_under_noise)
{
    expect_found((IfigCircle){400, 300, 250}, 800, 600, 25);
    expect_found((IfigCircle){210, 390, 150}, 800, 600, 40);
}
END_TEST

START_TEST(a_disc_that_the_frame_cuts_is_found)
{
    expect_found((IfigCircle){400, 220, 260}, 800, 600, 10);
}
END_TEST

START_TEST(specks_beside_the_disc_do_not_matter)
{
    IfigError error = IFIG_ERROR_INIT;
    const IfigCircle disc = {400, 300, 200};
    IfigCircle found = {0, 0, 0};
    IfigPhoto photo = make_photo(800, 600, disc, 10);
    for (uint32_t y = 40; y < 100; y++) { /* a lamp in the corner */
        memset(photo.rgb + 3 * ((size_t)y * 800 + 30), 250, 3 * 70);
    }
    ck_assert_int_eq(ifig_photo_find_circle(&photo, "p", &found, &error), IFIG_OK);
    ck_assert_double_le(hypot(found.x - disc.x, found.y - disc.y), 2.5);
    ck_assert_double_le(fabs(found.radius - disc.radius), 2.5);
    ifig_photo_free(&photo);
}
END_TEST

START_TEST(what_is_no_disc_is_not_found)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigCircle found = {0, 0, 0};
    IfigPhoto photo = make_photo(600, 400, (IfigCircle){-9000, -9000, 10}, 30); /* all surround */
    ck_assert_int_eq(ifig_photo_find_circle(&photo, "dark.jpg", &found, &error),
                     IFIG_ERROR_UNSUITABLE);
    ck_assert_ptr_nonnull(strstr(error.message, "circle: [x, y, radius]"));
    memset(photo.rgb, 0, (size_t)3 * 600 * 400);
    for (uint32_t y = 100; y < 300; y++) { /* a bright square */
        memset(photo.rgb + 3 * ((size_t)y * 600 + 200), 220, 3 * 200);
    }
    ck_assert_int_eq(ifig_photo_find_circle(&photo, "p", &found, &error), IFIG_ERROR_UNSUITABLE);
    ifig_photo_free(&photo);
}
END_TEST

/* A photo of four quadrants: red upper right, green upper left, blue lower left, white the last. */
static IfigPhoto quadrants(void)
{
    enum { SIDE = 200 };
    static const uint8_t colours[4][3] = {{255, 0, 0}, {0, 255, 0}, {0, 0, 255}, {255, 255, 255}};
    IfigPhoto photo = {malloc(3 * SIDE * SIDE), SIDE, SIDE};
    ck_assert_ptr_nonnull(photo.rgb);
    for (int i = 0; i < SIDE * SIDE; i++) {
        const int right = i % SIDE >= SIDE / 2, low = i / SIDE >= SIDE / 2;
        memcpy(photo.rgb + 3 * i, colours[low ? 2 + right : 1 - right], 3);
    }
    return photo;
}

START_TEST(a_photo_turns_counter_clockwise)
{
    const IfigCircle disc = {100, 100, 90};
    IfigPhoto photo = quadrants();
    uint8_t rgb[3 * 60 * 60];
    const uint8_t *const upper_right = rgb + 3 * (15 * 60 + 45);
    const uint8_t *const upper_left = rgb + 3 * (15 * 60 + 15);
    ifig_photo_disc(&photo, &disc, 0.0, 60, rgb);
    ck_assert_int_eq(upper_right[0], 255);
    ck_assert_int_eq(upper_right[1], 0);
    ifig_photo_disc(&photo, &disc, 90.0, 60, rgb); /* red goes from the right to the left */
    ck_assert_int_eq(upper_left[0], 255);
    ck_assert_int_eq(upper_left[1], 0);
    ck_assert_int_eq(upper_right[2], 255); /* white comes up on the right */
    ifig_photo_free(&photo);
}
END_TEST

START_TEST(a_small_disc_is_the_mean_of_what_it_covers)
{
    const IfigCircle disc = {100, 100, 100};
    IfigPhoto photo = quadrants();
    for (uint32_t i = 0; i < 200 * 200; i++) { /* black and white by turns */
        memset(photo.rgb + 3 * i, (i + i / 200) % 2 == 0 ? 255 : 0, 3);
    }
    uint8_t rgb[3 * 20 * 20];
    ifig_photo_disc(&photo, &disc, 0.0, 20, rgb);
    /* half the light: code 255 sqrt(1/2) by the square law that stands for sRGB's curve */
    ck_assert_int_ge(rgb[3 * (10 * 20 + 10)], 178);
    ck_assert_int_le(rgb[3 * (10 * 20 + 10)], 182);
    ifig_photo_free(&photo);
}
END_TEST

int main(void)
{
    TCase *const facts = tcase_create("photo");
    tcase_add_test(facts, a_disc_is_found_wherever_it_lies);
    tcase_add_test(facts, a_disc_is_found_under_noise);
    tcase_add_test(facts, a_disc_that_the_frame_cuts_is_found);
    tcase_add_test(facts, specks_beside_the_disc_do_not_matter);
    tcase_add_test(facts, what_is_no_disc_is_not_found);
    tcase_add_test(facts, a_photo_turns_counter_clockwise);
    tcase_add_test(facts, a_small_disc_is_the_mean_of_what_it_covers);
    return run_case(facts, "page photo");
}
