/* SPDX-License-Identifier: MIT */
/* Figures of quartz, which turns the plane of vibration, against what books say of them. */
#include "published_test.h"

enum { SIZE = 512 };

static const double ROTATION = 21.72; /* deg/mm at D: Soret & Sarasin, in Winkelmann, Handbuch der
                                         Physik, p. 801 */

static Recipe quartz(double thickness_mm)
{
    return (Recipe){
        .key = "quartz", .thickness_mm = thickness_mm, .line_nm = 589.3, .aperture = 0.4};
}

/* Two faces at right angles to the light, no = 1.5442 (Fresnel). */
static double two_faces(void)
{
    double n = 1.5442, face = 4 * n / ((1 + n) * (1 + n));
    return face * face;
}

/* Phase of a quartz plate without rotation at a sine outside (Born & Wolf 15.4, from memory;
 * indices of Ghosh, Opt. Commun. 163, 95 (1999)). */
static double phase_at(double thickness_mm, double sine)
{
    double no = 1.54421, ne = 1.55331;
    double path = thickness_mm * 1e6 * no *
                  (sqrt(1 - sine * sine / (ne * ne)) - sqrt(1 - sine * sine / (no * no)));
    return 2 * IFIG_PI * path / SODIUM_NM;
}

START_TEST(centre_is_lit_as_the_rotation_has_it)
{
    /* sin^2 of the rotation: 0.1367 for 1 mm in sodium light (Malus). */
    Recipe recipe = quartz(1);
    Picture picture = picture_of(&recipe, 255);
    double light = (double)pixel_at(&picture, 127, 127)[1] / two_faces();
    ck_assert_double_eq_tol(light, 0.1367, 0.001);
    free(picture.xyz);
}
END_TEST

START_TEST(biquartz_quenches_yellow_green_between_parallel_polars)
{
    /* Universite du Mans, Biquartz de Soleil: 3.75 mm turn 0.56 um by 90 degrees. */
    Recipe recipe = quartz(3.75);
    Setup setup;
    static const double nm[] = {480, 560, 650};
    double light[3];
    for (int i = 0; i < 3; i++) {
        recipe.line_nm = nm[i];
        set_up(&recipe, &setup);
        setup.scene.instrument.analyser.azimuth_deg = 0;
        IfigFigure *figure = figure_of(&setup.scene, 63);
        float(*xyz)[3] = rendered(figure, 63, IFIG_PIXELS_XYZ);
        light[i] = (double)xyz[31 * 63 + 31][1];
        free(xyz);
        ifig_figure_free(figure);
        take_down(&setup);
    }
    ck_assert_double_lt(light[1], 1e-3);
    ck_assert_double_gt(light[0], 0.1);
    ck_assert_double_gt(light[2], 0.1);
}
END_TEST

START_TEST(quartz_shows_a_bulls_eye)
{
    /* Common practice, no source; the law below gives the numbers. No dark cross within the inner
     * ring; outside, the arms stand. */
    Recipe recipe = quartz(5);
    Picture picture = picture_of(&recipe, SIZE);
    for (int arm = 0; arm < 4; arm++) {
        for (double sine = 0.02; sine < 0.11; sine += 0.02) { /* ring 1: 0.157 */
            double on = light_at_polar(&picture, sine / 0.4, 90 * arm);
            double between = light_at_polar(&picture, sine / 0.4, 90 * arm + 45);
            ck_assert_double_gt(on, 0.5 * between);
        }
        double sine = 0.365; /* between rings 4 and 5 */
        ck_assert_double_lt(light_at_polar(&picture, sine / 0.4, 90 * arm),
                            0.04 * light_at_polar(&picture, sine / 0.4, 90 * arm + 45));
    }
    free(picture.xyz);
}
END_TEST

START_TEST(light_of_a_quartz_plate_follows_the_law)
{
    /* I = sin^2(D/2) [1 - (delta/D)^2 cos^2 2a], D^2 = delta^2 + (2 rho t)^2: Fresnel's elliptic
     * waves in quartz, check value E9. */
    Recipe recipe = quartz(5);
    Picture picture = picture_of(&recipe, SIZE);
    double worst = 0, turn = 2 * ROTATION * 5 * IFIG_DEGREE;
    for (double sine = 0.01; sine < 0.25; sine += 0.005) {
        for (int a = 0; a < 360; a += 9) {
            double delta = phase_at(5, sine), d = hypot(delta, turn);
            double c = delta / d * cos(2 * a * IFIG_DEGREE), s = sin(0.5 * d);
            double law = two_faces() * s * s * (1 - c * c);
            worst = fmax(worst, fabs(light_at_polar(&picture, sine / 0.4, a) - law));
        }
    }
    printf("quartz 5 mm: %.3f off the small-angle law within 14 degrees\n", worst);
    ck_assert_double_lt(worst, 0.02);
    free(picture.xyz);
}
END_TEST

START_TEST(rotation_pulls_rings_inwards)
{
    /* Check value E12: dark where D = 2 pi m, so that delta is less than 2 pi m. */
    Recipe recipe = quartz(5);
    Picture picture = picture_of(&recipe, 1024);
    static const double without_deg[] = {10.134, 14.360, 17.624};
    double turn = 2 * ROTATION * 5 / 360;
    for (int m = 1; m <= 3; m++) {
        double expected =
            sin(without_deg[m - 1] * IFIG_DEGREE) / 0.4 * pow(1 - turn * turn / (m * m), 0.25);
        double r = dark_ring_near(&picture, expected, 0.2 / m);
        printf("quartz 5 mm, ring %d: r %.4f, by the law %.4f\n", m, r, expected);
        ck_assert_double_eq_tol(r, expected, 0.01 * expected);
    }
    free(picture.xyz);
}
END_TEST

/* By how many degrees a pattern of m arms turns, counter-clockwise, from one radius to another. */
static double winding_deg(const Picture *picture, int m, double from, double to)
{
    double turned = 0;
    double complex before = harmonic(picture, 0, 0, from, m);
    for (double r = from + 0.002; r < to; r += 0.002) {
        double complex here = harmonic(picture, 0, 0, r, m);
        turned -= carg(here * conj(before)) / m / IFIG_DEGREE;
        before = here;
    }
    return turned;
}

/* The number of arms: the harmonic, 1 to 8, that is strongest on the mean of a range of radii. */
static int arms_of(const Picture *picture, double from, double to)
{
    double strength[9] = {0};
    int most = 1;
    for (double r = from; r < to; r += 0.01) {
        for (int m = 1; m <= 8; m++) {
            strength[m] += cabs(harmonic(picture, 0, 0, r, m));
        }
    }
    for (int m = 1; m <= 8; m++) {
        most = strength[m] > strength[most] ? m : most;
    }
    for (int m = 1; m <= 8; m++) {
        ck_assert(m % 2 == 0 || strength[m] < 0.05 * strength[most]);
    }
    return most;
}

START_TEST(one_plate_between_linear_polars_shows_no_spiral)
{
    /* The law of E9 depends on cos^2 2a alone: four-fold and mirror symmetric, nothing winds. */
    Recipe recipe = quartz(5);
    Picture picture = picture_of(&recipe, SIZE);
    double worst = 0;
    for (double r = 0.05; r < 0.95; r += 0.01) {
        for (int a = 3; a < 45; a += 6) {
            worst =
                fmax(worst, fabs(light_at_polar(&picture, r, a) - light_at_polar(&picture, r, -a)));
        }
    }
    printf("one plate: unlike its mirror image by %.4f\n", worst);
    ck_assert_double_lt(worst, 0.01);
    free(picture.xyz);
}
END_TEST

START_TEST(circular_light_on_one_side_gives_a_spiral_of_two_arms)
{
    /* Airy (1831), from memory. The arms turn with the hand of the quartz. */
    Recipe recipe = quartz(5);
    recipe.circular = 2;
    Picture right = picture_of(&recipe, SIZE);
    Setup setup;
    set_up(&recipe, &setup);
    setup.layer[0].hand = IFIG_HAND_LEFT;
    IfigFigure *figure = figure_of(&setup.scene, SIZE);
    Picture left = {SIZE, rendered(figure, SIZE, IFIG_PIXELS_XYZ), setup.scene.instrument};
    ck_assert_int_eq(arms_of(&right, 0.2, 0.9), 2);
    ck_assert_int_eq(arms_of(&left, 0.2, 0.9), 2);
    /* Between the dark rings at 0.393 and 0.606, where the arms are cut. */
    double a = winding_deg(&right, 2, 0.41, 0.59), b = winding_deg(&left, 2, 0.41, 0.59);
    printf("two-armed spirals wind %.0f and %.0f degrees\n", a, b);
    ck_assert_double_gt(fabs(a), 30);
    ck_assert_double_eq_tol(a, -b, 5);
    free(left.xyz);
    free(right.xyz);
    ifig_figure_free(figure);
    take_down(&setup);
}
END_TEST

START_TEST(right_on_left_quartz_shows_airys_spiral_of_four_arms)
{
    /* Airy (1831); techniklexikon.net: fourfold, two plates of opposite hand. The order of the
     * plates sets the sense; the centre is dark, as the rotations cancel. */
    Recipe recipe = quartz(4);
    recipe.layers = 2;
    Picture first = picture_of(&recipe, SIZE);
    recipe.layers = -2;
    Picture second = picture_of(&recipe, SIZE);
    ck_assert_double_lt(light_at(&first, 0, 0), 1e-4);
    ck_assert_double_lt(light_at(&second, 0, 0), 1e-4);
    ck_assert_int_eq(arms_of(&first, 0.15, 0.45), 4);
    ck_assert_int_eq(arms_of(&second, 0.15, 0.45), 4);
    double a = winding_deg(&first, 4, 0.1, 0.45), b = winding_deg(&second, 4, 0.1, 0.45);
    printf("four-armed spirals wind %.1f and %.1f degrees\n", a, b);
    ck_assert_double_gt(fabs(a), 15);
    ck_assert_double_eq_tol(a, -b, 0.5);
    free(second.xyz);
    free(first.xyz);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("rotation");
    tcase_add_test(facts, centre_is_lit_as_the_rotation_has_it);
    tcase_add_test(facts, biquartz_quenches_yellow_green_between_parallel_polars);
    tcase_add_test(facts, quartz_shows_a_bulls_eye);
    tcase_add_test(facts, light_of_a_quartz_plate_follows_the_law);
    tcase_add_test(facts, rotation_pulls_rings_inwards);
    tcase_add_test(facts, one_plate_between_linear_polars_shows_no_spiral);
    tcase_add_test(facts, circular_light_on_one_side_gives_a_spiral_of_two_arms);
    tcase_add_test(facts, right_on_left_quartz_shows_airys_spiral_of_four_arms);
    return run_case(facts, "published: quartz");
}
