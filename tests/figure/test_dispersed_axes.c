/* SPDX-License-Identifier: MIT */
/* Where the optic axis of one wavelength falls into a pixel, v / h is a quotient of rounding
 * errors: it once left bright specks along the line of the dispersed melatopes. */
#include "figure_test.h"

enum { SMALL = 200, FINER = 3 };

START_TEST(dispersed_melatopes_leave_no_specks)
{
    static const Recipe recipes[] = {
        {.key = "titanite", .thickness_mm = 0.2, .stage_deg = 45},
        {.key = "brookite", .thickness_mm = 0.3, .stage_deg = 45},
        {.key = "crocoite", .thickness_mm = 0.1, .stage_deg = 45},
    };
    Picture small = picture_of(&recipes[_i], SMALL);
    Picture large = picture_of(&recipes[_i], SMALL * FINER);
    double worst = 0;
    for (uint32_t y = 0; y < SMALL; y++) {
        for (uint32_t x = 0; x < SMALL; x++) {
            double dx = x + 0.5 - SMALL / 2, dy = y + 0.5 - SMALL / 2, mean = 0;
            if (hypot(dx, dy) > SMALL / 2 - 1) {
                continue; /* the rim */
            }
            for (uint32_t p = 0; p < FINER * FINER; p++) {
                mean += (double)pixel_at(&large, x * FINER + p % FINER, y * FINER + p / FINER)[1];
            }
            mean /= FINER * FINER;
            worst = fmax(worst, fabs((double)pixel_at(&small, x, y)[1] - mean));
        }
    }
    ck_assert_double_lt(worst, 0.004); /* about a level of 255; a speck was 0.3 */
    free(small.xyz);
    free(large.xyz);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("dispersed axes");
    tcase_add_loop_test(facts, dispersed_melatopes_leave_no_specks, 0, 3);
    return run_case(facts, "dispersed axes");
}
