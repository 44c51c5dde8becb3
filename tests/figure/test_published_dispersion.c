/* SPDX-License-Identifier: MIT */
/* Colour fringes of dispersed optic axes against what books say of them. */
#include "published_test.h"

enum { SIZE = 513 };

/* Red less blue, of linear sRGB, on either side of a brush at 45 degrees, on the line of the axes:
 * positive is reddish. */
typedef struct Fringes {
    double convex, concave; /* toward the centre, away from it */
} Fringes;

static double red_less_blue(const Picture *picture, const IfigLamp *lamp, double x, double y)
{
    double xyz[3], rgb[3];
    colour_at(picture, x, y, xyz);
    ifig_colour_linear(lamp, xyz, 0, rgb);
    return rgb[0] - rgb[2];
}

/* The brush is as wide as its colours stand apart: its sides are where the axes of the C and the F
 * line leave. */
static Fringes fringes_of(const Recipe *recipe)
{
    Setup setup;
    double x[2] = {0, 0}, y[2] = {0, 0};
    set_up(recipe, &setup);
    ck_assert_int_eq(melatope(&setup.scene, 0, 656.3, &x[0], &y[0]), 1);
    ck_assert_int_eq(melatope(&setup.scene, 0, 486.1, &x[1], &y[1]), 1);
    int outer = hypot(x[1], y[1]) > hypot(x[0], y[0]), inner = !outer;
    ck_assert_double_lt(hypot(x[outer], y[outer]), 0.97);
    Picture picture = picture_of(recipe, SIZE);
    Fringes fringes = {red_less_blue(&picture, setup.lamp, x[inner], y[inner]),
                       red_less_blue(&picture, setup.lamp, x[outer], y[outer])};
    printf("%s: red less blue %.3f on the convex side, %.3f on the concave\n", recipe->key,
           fringes.convex, fringes.concave);
    free(picture.xyz);
    take_down(&setup);
    return fringes;
}

START_TEST(brush_is_blue_on_its_concave_side_where_the_angle_is_larger_for_red)
{
    /* Britannica 1911, Polarization of Light, quoted at yourdictionary "bisectrix": the fringe on
     * the concave side has the colour with the smaller axial angle; Bloss (1961): r > v at 45
     * degrees is red on the convex side. In oil, so that the faces turn nothing. */
    static const char *const larger_for_red[] = {"topaz_f", "hemimorphite", "cerussite"};
    static const double thickness[] = {0.3, 0.3, 0.05}, aperture[] = {1.0, 1.0, 0.5};
    const Recipe recipe = {.key = larger_for_red[_i],
                           .thickness_mm = thickness[_i],
                           .stage_deg = 45,
                           .aperture = aperture[_i],
                           .immersion = 1.6};
    Fringes fringes = fringes_of(&recipe);
    ck_assert_double_gt(fringes.convex, 0.01);
    ck_assert_double_lt(fringes.concave, -0.01);
}
END_TEST

START_TEST(brush_is_red_on_its_concave_side_where_the_angle_is_smaller_for_red)
{
    static const char *const smaller_for_red[] = {"tanzanite", "anhydrite", "grandidierite"};
    static const double thickness[] = {0.3, 0.1, 0.1};
    const Recipe recipe = {.key = smaller_for_red[_i],
                           .thickness_mm = thickness[_i],
                           .stage_deg = 45,
                           .aperture = 1.0,
                           .immersion = 1.6};
    Fringes fringes = fringes_of(&recipe);
    ck_assert_double_lt(fringes.convex, -0.01);
    ck_assert_double_gt(fringes.concave, 0.01);
}
END_TEST

/* The most by which pixels differ from those mirrored across the line of the axes (E-W at stage 0),
 * across the line at right angles to it, and turned by half. */
typedef struct Mirrors {
    double along, across, half_turn;
} Mirrors;

static Mirrors mirrors_of(const Recipe *recipe)
{
    Picture picture = picture_of(recipe, SIZE);
    Mirrors unlike = {0, 0, 0};
    for (uint32_t row = 0; row < SIZE; row++) {
        for (uint32_t column = 0; column < SIZE; column++) {
            const float *here = pixel_at(&picture, column, row);
            const float *down = pixel_at(&picture, column, SIZE - 1 - row);
            const float *over = pixel_at(&picture, SIZE - 1 - column, row);
            const float *round = pixel_at(&picture, SIZE - 1 - column, SIZE - 1 - row);
            for (int i = 0; i < 3; i++) {
                double value = (double)here[i];
                unlike.along = fmax(unlike.along, fabs(value - (double)down[i]));
                unlike.across = fmax(unlike.across, fabs(value - (double)over[i]));
                unlike.half_turn = fmax(unlike.half_turn, fabs(value - (double)round[i]));
            }
        }
    }
    free(picture.xyz);
    printf("%s: unlike across the line of the axes %.1e, across the other %.1e, half a turn %.1e\n",
           recipe->key, unlike.along, unlike.across, unlike.half_turn);
    return unlike;
}

/* What approximation may take off a pixel beside an optic axis, and what an eye may see. */
static const double SAME = 3e-3, PLAIN = 0.02;

static Recipe bisectrix(const char *key, double thickness_mm)
{
    return (Recipe){.key = key, .thickness_mm = thickness_mm, .aperture = 1.0, .immersion = 1.515};
}

START_TEST(orthorhombic_fringes_are_symmetric_about_both_lines)
{
    /* Britannica 1911, the same passage. */
    const Recipe recipe = bisectrix(_i == 0 ? "topaz_f" : "tanzanite", 1);
    Mirrors unlike = mirrors_of(&recipe);
    ck_assert_double_lt(unlike.along, SAME);
    ck_assert_double_lt(unlike.across, SAME);
    ck_assert_double_lt(unlike.half_turn, SAME);
}
END_TEST

START_TEST(inclined_fringes_are_symmetric_about_the_line_of_the_axes_only)
{
    /* Common practice, from memory: gypsum, diopside; b is the optic normal. */
    const Recipe recipe = bisectrix(_i == 0 ? "gypsum" : "diopside", 1);
    Mirrors unlike = mirrors_of(&recipe);
    ck_assert_double_lt(unlike.along, SAME);
    ck_assert_double_gt(unlike.across, PLAIN);
    ck_assert_double_gt(unlike.half_turn, PLAIN);
}
END_TEST

START_TEST(parallel_fringes_are_symmetric_about_the_line_across_the_axes_only)
{
    /* Orthoclase, from memory; b is the obtuse bisectrix. */
    const Recipe recipe = bisectrix(_i == 0 ? "orthoclase" : "sanidine", 1);
    Mirrors unlike = mirrors_of(&recipe);
    ck_assert_double_gt(unlike.along, PLAIN);
    ck_assert_double_lt(unlike.across, SAME);
    ck_assert_double_gt(unlike.half_turn, PLAIN);
}
END_TEST

START_TEST(crossed_fringes_have_a_half_turn_only)
{
    /* Borax: Handbook of Mineralogy, X = b, r>v strong, crossed; b is the acute bisectrix. */
    const Recipe recipe = bisectrix("borax", 1);
    Mirrors unlike = mirrors_of(&recipe);
    ck_assert_double_gt(unlike.along, PLAIN);
    ck_assert_double_gt(unlike.across, PLAIN);
    ck_assert_double_lt(unlike.half_turn, SAME);
}
END_TEST

/* Brookite as its two colours see it; circular polars leave the melatopes alone dark. */
static Recipe brookite(double line_nm)
{
    return (Recipe){.key = "brookite",
                    .thickness_mm = 0.6,
                    .aperture = 0.7,
                    .immersion = 1.6,
                    .line_nm = line_nm,
                    .circular = 1};
}

START_TEST(brookite_has_its_axial_planes_at_right_angles_in_red_and_blue)
{
    /* Axes in (001) for red, (010) for blue, uniaxial between: from memory, check value I6. */
    double direction[2];
    static const double nm[] = {656, 470};
    for (int colour = 0; colour < 2; colour++) {
        const Recipe recipe = brookite(nm[colour]);
        Setup setup;
        double x = 0, y = 0, dx, dy;
        set_up(&recipe, &setup);
        ck_assert_int_eq(melatope(&setup.scene, 0, nm[colour], &x, &y), 1);
        take_down(&setup);
        Picture picture = picture_of(&recipe, SIZE);
        ck_assert_double_gt(hypot(x, y), 0.2);
        vertex_near(&picture, x, y, 4, &dx, &dy);
        printf("brookite at %.0f nm: melatope (%.3f, %.3f), off by (%.2f, %.2f) pixels\n",
               nm[colour], x, y, dx, dy);
        ck_assert_double_lt(hypot(dx, dy), 0.3);
        ck_assert_double_lt(light_at(&picture, x, y), 0.02);
        ck_assert_double_gt(light_at(&picture, -y, x), 0.1);
        direction[colour] = atan2(y, x) / IFIG_DEGREE;
        free(picture.xyz);
    }
    double between = fmod(fabs(direction[0] - direction[1]), 180);
    ck_assert_double_eq_tol(between, 90, 1e-6);
}
END_TEST

/* The least and the most light on the line of the melatopes and the line across, at 45 degrees,
 * where a stone without dispersion has its brushes. */
static double darkest_of_brushes(const Recipe *recipe)
{
    Picture picture = picture_of(recipe, SIZE);
    double least = 1;
    for (int i = 1; i <= 80; i++) {
        double r = 0.01 * i;
        for (int a = 0; a < 180; a += 45) {
            int diagonal = a % 90 == 45;
            least = diagonal ? fmin(least, fmin(light_at_polar(&picture, r, a),
                                                light_at_polar(&picture, r, a + 180)))
                             : least;
        }
    }
    free(picture.xyz);
    return least;
}

START_TEST(brookite_shows_no_black_brush_in_white_light)
{
    /* From memory, check value I6. At 45 degrees the brushes of the colours stand apart. A stone of
     * the same angle whose axes stay in their plane has black ones. */
    Recipe recipe = {.key = "brookite", .thickness_mm = 0.3, .stage_deg = 45, .aperture = 0.7};
    double white = darkest_of_brushes(&recipe);
    recipe.line_nm = 656;
    double red = darkest_of_brushes(&recipe);
    Recipe other = {.key = "muscovite", .thickness_mm = 0.1, .stage_deg = 45, .aperture = 0.9};
    double black = darkest_of_brushes(&other);
    printf("darkest of the brushes: brookite %.3f in daylight, %.4f in red; muscovite %.4f\n",
           white, red, black);
    ck_assert_double_gt(white, 0.05);
    ck_assert_double_lt(red, 0.02);
    ck_assert_double_lt(black, 0.02);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("dispersion");
    tcase_add_loop_test(facts, brush_is_blue_on_its_concave_side_where_the_angle_is_larger_for_red,
                        0, 3);
    tcase_add_loop_test(facts, brush_is_red_on_its_concave_side_where_the_angle_is_smaller_for_red,
                        0, 3);
    tcase_add_loop_test(facts, orthorhombic_fringes_are_symmetric_about_both_lines, 0, 2);
    tcase_add_loop_test(facts, inclined_fringes_are_symmetric_about_the_line_of_the_axes_only, 0,
                        2);
    tcase_add_loop_test(facts, parallel_fringes_are_symmetric_about_the_line_across_the_axes_only,
                        0, 2);
    tcase_add_test(facts, crossed_fringes_have_a_half_turn_only);
    tcase_add_test(facts, brookite_has_its_axial_planes_at_right_angles_in_red_and_blue);
    tcase_add_test(facts, brookite_shows_no_black_brush_in_white_light);
    return run_case(facts, "published: dispersion of the axes");
}
