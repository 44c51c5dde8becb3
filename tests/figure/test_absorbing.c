/* SPDX-License-Identifier: MIT */
/* Stones with a body colour, alone and one on another, against their definition (exact_test.h). */
#include "exact_test.h"

enum { PIXELS = 128 };

typedef struct Coloured {
    const char *colour; /* the variety */
    Recipe recipe;
} Coloured;

static const Coloured cases[] = {
    {"ruby", {.key = "corundum", .thickness_mm = 2}},
    {"ruby", {.key = "corundum", .thickness_mm = 2, .line_nm = 589.3}},
    {"ruby", {.key = "corundum", .thickness_mm = 2, .tilt_deg = 12, .stage_deg = 20}},
    {"ruby", {.key = "corundum", .thickness_mm = 1, .layers = 2}},
    {"ruby", {.key = "corundum", .thickness_mm = 1, .layers = 2, .line_nm = 546.1}},
    {"yellow sapphire", {.key = "corundum", .thickness_mm = 1, .stage_deg = 30}},
    {"tanzanite", {.key = "tanzanite", .thickness_mm = 1, .stage_deg = 45}},
    {"tanzanite", {.key = "tanzanite", .thickness_mm = 3, .circular = 1}},
};

static void set_up_coloured(const Coloured *test, Setup *setup)
{
    set_up(&test->recipe, setup);
    for (size_t i = 0; i < setup->scene.layer_count; i++) {
        const int colour = ifig_species_colour_of_word(setup->layer[i].species, test->colour);
        ck_assert_msg(colour > 0, "no colour '%s'", test->colour);
        setup->layer[i].body_colour = colour;
    }
}

/* As test_exact.c and test_random_exact.c ask: a thousandth of the lamp's light (3 in a single
 * line, whose fringes have full contrast), and the code or one beside it. */
START_TEST(a_coloured_pixel_is_the_mean_of_exact_light_over_its_area)
{
    /* Places in the field's middle, half-way out, and near the rim. */
    static const double place[][2] = {{0.02, 0.01}, {0.5, 0.1}, {-0.35, 0.6}, {0.2, -0.88}};
    static Exact exact;
    Setup setup;
    set_up_coloured(&cases[_i], &setup);
    prepare(&setup.scene, 1, &exact);
    IfigFigure *figure = figure_of(&setup.scene, PIXELS);
    const double tolerated = cases[_i].recipe.line_nm > 0 ? 3e-3 : 1e-3;
    unsigned char *code = rendered(figure, PIXELS, IFIG_PIXELS_SRGB8);
    float(*light)[3] = rendered(figure, PIXELS, IFIG_PIXELS_XYZ);
    for (size_t i = 0; i < sizeof place / sizeof *place; i++) {
        const size_t column = (size_t)((1 + place[i][0]) * PIXELS / 2),
                     row = (size_t)((1 - place[i][1]) * PIXELS / 2), p = row * PIXELS + column;
        double xyz[3], level[3];
        exact_pixel(&exact, PIXELS, (uint32_t)column, (uint32_t)row, 3e-5, xyz);
        levels_of(setup.lamp, xyz, level);
        for (int c = 0; c < 3; c++) {
            const int drawn = code[3 * p + (size_t)c];
            ck_assert_double_eq_tol((double)light[p][c], xyz[c], tolerated);
            ck_assert_msg(labs(lround(level[c]) - drawn) <= 1, "case %d, place %zu: %.2f, drawn %d",
                          _i, i, level[c], drawn);
        }
    }
    free(light);
    free(code);
    ifig_figure_free(figure);
    take_down(&setup);
}
END_TEST

START_TEST(a_coloured_stone_takes_light_from_the_figure)
{
    /* Ruby lets less green through than colourless corundum, and hardly less red. */
    double sum[2][3] = {{0}};
    for (int coloured = 0; coloured < 2; coloured++) {
        Setup setup;
        set_up_coloured(&cases[0], &setup);
        setup.layer[0].body_colour *= coloured;
        IfigFigure *figure = figure_of(&setup.scene, PIXELS);
        unsigned char *code = rendered(figure, PIXELS, IFIG_PIXELS_SRGB8);
        for (size_t i = 0; i < 3 * PIXELS * PIXELS; i++) {
            sum[coloured][i % 3] += code[i];
        }
        free(code);
        ifig_figure_free(figure);
        take_down(&setup);
    }
    ck_assert_double_lt(sum[1][1], 0.8 * sum[0][1]);
    ck_assert_double_gt(sum[1][0] / sum[0][0], 1.2 * sum[1][1] / sum[0][1]);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("absorbing");
    tcase_add_loop_test(facts, a_coloured_pixel_is_the_mean_of_exact_light_over_its_area, 0,
                        (int)(sizeof cases / sizeof cases[0]));
    tcase_add_test(facts, a_coloured_stone_takes_light_from_the_figure);
    return run_case(facts, "figure absorbing");
}
