/* SPDX-License-Identifier: MIT */
/* Figures of biaxial stones against what books say of them. */
#include "published_test.h"

enum { SIZE = 513 };

static const double HALF_RIGHT_ANGLE = 45.0;

/* Recipes whose melatopes lie within the field; in sodium light, so that dispersion does not blur
 * the brushes. In oil: faces in air turn the plane of vibration of rays as steep as topaz' axes,
 * which leave at 60 degrees, and light the axes up (Fresnel's law: 3 per cent at 45 degrees). */
static const Recipe topaz = {
    .key = "topaz_f", .thickness_mm = 2, .aperture = 1.0, .immersion = 1.6, .line_nm = 589.3};
static const Recipe muscovite = {
    .key = "muscovite", .thickness_mm = 0.1, .aperture = 0.7, .immersion = 1.6, .line_nm = 589.3};

/* Where the optic axes of a recipe are seen. */
static void melatopes_of(const Recipe *recipe, double x[2], double y[2])
{
    Setup setup;
    set_up(recipe, &setup);
    for (int i = 0; i < 2; i++) {
        ck_assert_int_eq(melatope(&setup.scene, i, SODIUM_NM, &x[i], &y[i]), 1);
        ck_assert_double_lt(hypot(x[i], y[i]), 1.0);
    }
    take_down(&setup);
}

START_TEST(acute_bisectrix_shows_a_closed_cross_in_the_parallel_position)
{
    /* Wikipedia, Conoscopic interference pattern; Bloss (1961). */
    Recipe recipe = _i == 0 ? topaz : muscovite;
    recipe.immersion = 0; /* in air as well */
    recipe.aperture = 0.9;
    Picture picture = picture_of(&recipe, SIZE);
    double brightest = 0;
    for (int k = -94; k <= 94; k += 2) {
        double r = 0.01 * k;
        ck_assert_double_lt(light_at(&picture, r, 0), 2e-3);
        ck_assert_double_lt(light_at(&picture, 0, r), 2e-3);
        brightest = fmax(brightest, light_at(&picture, r, 0.3));
    }
    ck_assert_double_gt(brightest, 0.3);
    free(picture.xyz);
}
END_TEST

START_TEST(brushes_pivot_on_the_melatopes)
{
    /* Wikipedia, Conoscopic interference pattern: the vertex of each hyperbola is an optic axis,
     * farthest apart at 45 degrees. Positions: the axis refracted into air, sin E = n_beta sin V
     * (Bloss 1961). Near an axis a brush turns against the stage (geolearningpoint.com): the plane
     * of vibration is half the sum of the azimuths from the two axes (Biot & Fresnel). */
    Recipe recipe = *(_i % 2 == 0 ? &topaz : &muscovite);
    recipe.thickness_mm = _i % 2 == 0 ? 0.5 : 0.1; /* no ring within a pixel of the axis */
    recipe.stage_deg = _i / 2 * 15.0;
    double x[2], y[2];
    melatopes_of(&recipe, x, y);
    Picture picture = picture_of(&recipe, SIZE);
    for (int i = 0; i < 2; i++) {
        ck_assert_double_lt(light_at(&picture, x[i], y[i]), 5e-3);
        Path path = {&picture, x[i], y[i], 0.05};
        for (int side = 0; side < 2; side++) {
            double expected = -recipe.stage_deg + 180 * side;
            double dark = darkest_near(&path, expected, 60);
            ck_assert_double_eq_tol(dark, expected, 12);
            ck_assert_double_lt(light_round(dark, &path), 0.1 * light_round(dark + 90, &path));
        }
    }
    if (_i / 2 == 3) { /* 45 degrees: open between the brushes */
        ck_assert_double_gt(light_at(&picture, 0, 0), 0.1);
    }
    free(picture.xyz);
}
END_TEST

START_TEST(melatopes_stand_where_the_refracted_axes_do)
{
    /* Circular polars take the brushes away and leave sin^2(delta/2), least at an axis, where the
     * surfaces of the indicatrix meet in a cone. */
    Recipe recipe = *(_i == 0 ? &topaz : &muscovite);
    recipe.circular = 1;
    recipe.stage_deg = 20;
    double x[2], y[2], dx, dy;
    melatopes_of(&recipe, x, y);
    Picture picture = picture_of(&recipe, SIZE);
    for (int i = 0; i < 2; i++) {
        vertex_near(&picture, x[i], y[i], 3, &dx, &dy);
        printf("%s: melatope %d off by (%.3f, %.3f) pixels\n", recipe.key, i, dx, dy);
        ck_assert_double_lt(hypot(dx, dy), 0.1);
    }
    free(picture.xyz);
}
END_TEST

/* A stone of a small or a chosen optic angle and a small birefringence. */
static IfigSpecies *stone_of_two_v(double two_v_z_deg, double birefringence)
{
    double v = 0.5 * two_v_z_deg * IFIG_DEGREE, na = 1.6, ng = na + birefringence;
    double a = 1 / (na * na), g = 1 / (ng * ng);
    /* tan^2 V = (a - b) / (b - g), Born & Wolf 15.3.3 */
    double t = tan(v) * tan(v), b = (a + g * t) / (1 + t);
    return biaxial_stone(na, 1 / sqrt(b), ng);
}

START_TEST(isogyre_of_a_small_optic_angle_is_a_rectangular_hyperbola)
{
    /* x^2 - y^2 = c^2 along and across the line of the axes, c the melatope's distance: follows
     * from the law of Biot & Fresnel where angles are small. */
    IfigSpecies *stone = stone_of_two_v(8, 0.006);
    const Recipe recipe = {
        .stone = stone, .thickness_mm = 2, .stage_deg = 45, .aperture = 0.22, .line_nm = 589.3};
    double x[2], y[2], worst = 0;
    melatopes_of(&recipe, x, y);
    double c = hypot(x[0], y[0]);
    ck_assert_double_eq_tol(c, 1.6 * sin(4 * IFIG_DEGREE) / 0.22, 0.002);
    Picture picture = picture_of(&recipe, SIZE);
    for (int a = -30; a <= 30; a += 5) {
        double r = c / sqrt(cos(2 * a * IFIG_DEGREE));
        Path path = {&picture, 0, 0, HALF_RIGHT_ANGLE + a};
        double dark = darkest_between(&path, 0.8 * r, 1.2 * r);
        worst = fmax(worst, fabs(dark / r - 1));
    }
    printf("isogyre off the rectangular hyperbola by %.4f of its distance\n", worst);
    ck_assert_double_lt(worst, 0.01);
    free(picture.xyz);
    ifig_species_free(stone);
}
END_TEST

START_TEST(isochromes_are_cassinian_ovals)
{
    /* The retardation goes as sin T1 sin T2, T1 and T2 the angles from the two axes (Born & Wolf
     * 15.4, from memory): on a dark curve the product of the distances from the melatopes is
     * constant where angles are small. Circular polars leave these curves alone. */
    IfigSpecies *stone = stone_of_two_v(10, 0.006);
    const Recipe recipe = {
        .stone = stone, .thickness_mm = 30, .aperture = 0.25, .line_nm = 589.3, .circular = 1};
    double x[2], y[2];
    melatopes_of(&recipe, x, y);
    Picture picture = picture_of(&recipe, SIZE);
    double c = fabs(x[0]), across = 0, n = 1.6;
    /* Order m at the product m lambda n^2 NA^-2 / (t (ng - na)). */
    for (int m = 1; m <= 6; m++) {
        double product = m * 589.3 * n * n / (0.25 * 0.25 * 30e6 * 0.006), worst = 0;
        for (int a = 0; a <= 90; a += 15) {
            /* r^4 - 2 c^2 r^2 cos 2a + c^4 = product^2, the outer branch */
            double k = c * c * cos(2 * a * IFIG_DEGREE);
            double inner = k * k - c * c * c * c + product * product;
            if (inner < 0 || product < 0.6 * c * c) {
                continue;
            }
            double r = sqrt(k + sqrt(inner));
            if (!(r < 0.9) || k + sqrt(inner) < 0.04) {
                continue;
            }
            Path path = {&picture, 0, 0, a};
            double dark = darkest_between(&path, 0.93 * r, 1.07 * r);
            double d1 = hypot(dark * cos(a * IFIG_DEGREE) - c, dark * sin(a * IFIG_DEGREE));
            double d2 = hypot(dark * cos(a * IFIG_DEGREE) + c, dark * sin(a * IFIG_DEGREE));
            worst = fmax(worst, fabs(d1 * d2 / product - 1));
            across += 1;
        }
        ck_assert_msg(worst < 0.04, "order %d: %.3f off a Cassinian oval", m, worst);
    }
    ck_assert_double_ge(across, 12);
    free(picture.xyz);
    ifig_species_free(stone);
}
END_TEST

/* Mean light within a small circle about the centre. */
static double middle_light(const Recipe *recipe)
{
    Picture picture = picture_of(recipe, 129);
    double sum = 0;
    for (int ring = 1; ring <= 20; ring++) {
        sum += creal(harmonic(&picture, 0, 0, 0.045 * ring, 0)) * ring / 210.0;
    }
    free(picture.xyz);
    return sum;
}

START_TEST(optic_axis_section_stays_evenly_lit_as_the_stage_turns)
{
    /* Common practice, from memory: no four extinctions (internal conical refraction). A section on
     * the bisectrix, for comparison, goes dark. */
    Recipe recipe = {.key = "topaz_f",
                     .view = IFIG_VIEW_OPTIC_AXIS,
                     .thickness_mm = 2,
                     .aperture = 0.1,
                     .line_nm = 589.3};
    double least = 1, most = 0, other_least = 1, other_most = 0;
    for (int stage = 0; stage < 180; stage += 15) {
        recipe.stage_deg = stage;
        recipe.view = IFIG_VIEW_OPTIC_AXIS;
        double light = middle_light(&recipe);
        least = fmin(least, light);
        most = fmax(most, light);
        recipe.view = IFIG_VIEW_OPTIC_NORMAL;
        light = middle_light(&recipe);
        other_least = fmin(other_least, light);
        other_most = fmax(other_most, light);
    }
    printf("optic axis section: light %.4f to %.4f; optic normal: %.4f to %.4f\n", least, most,
           other_least, other_most);
    ck_assert_double_gt(least, 0.9 * most);
    ck_assert_double_gt(least, 0.05);
    ck_assert_double_lt(other_least, 0.05 * other_most);
}
END_TEST

/* The azimuths of a brush on either side of the centre, between which a straight one has 180
 * degrees. */
static double brush_opening_deg(double two_v_z_deg)
{
    IfigSpecies *stone = stone_of_two_v(two_v_z_deg, 0.006);
    const Recipe recipe = {.stone = stone,
                           .view = IFIG_VIEW_OPTIC_AXIS,
                           .thickness_mm = 1,
                           .stage_deg = 45,
                           .aperture = 0.5,
                           .line_nm = 589.3};
    Picture picture = picture_of(&recipe, SIZE);
    /* At 45 degrees the brush stands across the axial plane, which runs NE-SW. The acute bisectrix
     * lies to the north-east: the brush turns its convex side to it. */
    Path path = {&picture, 0, 0, 0.6};
    double first = darkest_near(&path, 150, 44), second = darkest_near(&path, 300, 44);
    free(picture.xyz);
    ifig_species_free(stone);
    return second - first;
}

START_TEST(brush_of_an_optic_axis_figure_is_straight_for_a_right_angle_and_bends_below)
{
    /* geolearningpoint.com: straight for 2V = 90, a right angle as 2V goes to 0. The side away from
     * the acute bisectrix (south-west) is the concave one, where less than 180 degrees lie. */
    double straight = brush_opening_deg(90), bent = brush_opening_deg(45);
    double sharp = brush_opening_deg(15);
    printf("brush opens by %.1f degrees for 2V 90, %.1f for 45, %.1f for 15\n", straight, bent,
           sharp);
    ck_assert_double_eq_tol(straight, 180, 4);
    ck_assert_double_lt(bent, 170);
    ck_assert_double_lt(sharp, bent - 15);
    ck_assert_double_gt(sharp, 90);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("biaxial");
    tcase_add_loop_test(facts, acute_bisectrix_shows_a_closed_cross_in_the_parallel_position, 0, 2);
    tcase_add_loop_test(facts, brushes_pivot_on_the_melatopes, 0, 12);
    tcase_add_loop_test(facts, melatopes_stand_where_the_refracted_axes_do, 0, 2);
    tcase_add_test(facts, isogyre_of_a_small_optic_angle_is_a_rectangular_hyperbola);
    tcase_add_test(facts, isochromes_are_cassinian_ovals);
    tcase_add_test(facts, optic_axis_section_stays_evenly_lit_as_the_stage_turns);
    tcase_add_test(facts,
                   brush_of_an_optic_axis_figure_is_straight_for_a_right_angle_and_bends_below);
    return run_case(facts, "published: biaxial figures");
}
