/* SPDX-License-Identifier: MIT */
/* Section H of the check values: isogyres, and what turning the stage does to them. The instrument
 * is an objective with its condenser, the liquid about the stone's own index where faces would blur
 * the law. */
#include "optics_test.h"

#include "wave.h"

/* Topaz of 2V 65 and a stone of small 2V, both positive. */
static IfigSpecies *topaz(void)
{
    return biaxial_stone(1.610, 1.61287, 1.620);
}

static IfigSpecies *small_angle_stone(void)
{
    return biaxial_stone(1.6000, 1.60008, 1.620);
}

/* A point of the figure in sines of the angle outside, as an objective maps it. */
static Beam beam_at(double n_outside, double wavelength_nm, double x, double y)
{
    Beam beam = {n_outside, wavelength_nm, asin(hypot(x, y)) / IFIG_DEGREE,
                 atan2(y, x) / IFIG_DEGREE};
    return beam;
}

/* Along a circle about the centre, or about any point. */
typedef struct Circle {
    IfigLayer layer;
    double n_outside, wavelength_nm, x, y, radius;
} Circle;

static double light_on_circle(double azimuth_deg, const void *context)
{
    const Circle *c = context;
    double a = azimuth_deg * IFIG_DEGREE;
    return crossed_light(&c->layer, beam_at(c->n_outside, c->wavelength_nm,
                                            c->x + c->radius * cos(a), c->y + c->radius * sin(a)));
}

/* Half the angle between the optic axes as the figure shows it, a sine. */
static double melatope_sine(const IfigSpecies *stone, double n_outside)
{
    IfigOpticAxes axes;
    ck_assert_int_eq(ifig_optic_axes(stone, SODIUM_NM, &axes, NULL), IFIG_OK);
    return axes.n[1] / n_outside * sin(0.5 * axes.two_v_deg * IFIG_DEGREE);
}

START_TEST(h1_isogyres_lie_alike_in_every_light)
{
    /* Every direction whose vibration is parallel to a polar is dark, for all wavelengths where the
     * axes do not disperse: Wikipedia, Conoscopic interference pattern; law. */
    static const double nm[3] = {450, 550, 650};
    IfigSpecies *stone = topaz();
    Circle circle = {layer_of(stone, IFIG_VIEW_ACUTE_BISECTRIX, 0.05), 1.613, 0, 0, 0, 0};
    circle.layer.orientation.stage_deg = 45;
    double vertex = melatope_sine(stone, 1.613);
    for (int r = 0; r < 5; r++) {
        double place[3];
        circle.radius = vertex * (1.05 + 0.1 * r);
        for (int i = 0; i < 3; i++) {
            circle.wavelength_nm = nm[i];
            place[i] = lowest(light_on_circle, &circle, 2, 45);
            ck_assert_double_lt(light_on_circle(place[i], &circle), 1e-6);
        }
        ck_assert_double_eq_tol(place[1], place[0], 0.02);
        ck_assert_double_eq_tol(place[2], place[0], 0.02);
    }
    ifig_species_free(stone);
}
END_TEST

START_TEST(h2_a_centred_uniaxial_figure_stands_still_as_the_stage_turns)
{
    /* Wikipedia, Conoscopic interference pattern: arms parallel to the polars. */
    Random random = {2};
    IfigLayer layer = layer_of(builtin("calcite"), IFIG_VIEW_C, 1), turned = layer;
    for (int i = 0; i < 400; i++) {
        Beam beam = {1, random_between(&random, 400, 700), random_between(&random, 0, 60),
                     random_between(&random, -180, 180)};
        turned.orientation.stage_deg = random_between(&random, 0, 360);
        ck_assert_double_eq_tol(crossed_light(&turned, beam), crossed_light(&layer, beam), 1e-9);
        beam.phi_deg = 90.0 * (i % 4);
        ck_assert_double_eq_tol(crossed_light(&turned, beam), 0, 1e-12);
    }
}
END_TEST

START_TEST(h3_an_off_centre_cross_travels_in_a_circle_with_arms_along_the_polars)
{
    /* The same page. The axis at 5 degrees inside lies at sin = no sin 5 outside, at the stage's
     * own azimuth; on a small circle about it the four darkest points stand E, N, W and S. */
    IfigSpecies *stone = uniaxial_stone(1.55, 1.56);
    Circle circle = {layer_of(stone, IFIG_VIEW_C, 1), 1.55, SODIUM_NM, 0, 0, 0.03};
    circle.layer.orientation.tilt_deg = 5;
    for (int stage = 0; stage < 360; stage += 15) {
        circle.layer.orientation.stage_deg = stage;
        circle.x = sin(5 * IFIG_DEGREE) * cos(stage * IFIG_DEGREE);
        circle.y = sin(5 * IFIG_DEGREE) * sin(stage * IFIG_DEGREE);
        Beam axis = beam_at(1.55, SODIUM_NM, circle.x, circle.y);
        ck_assert_double_eq_tol(retardation_of(&circle.layer, axis), 0, 1e-6);
        for (int arm = 0; arm < 360; arm += 90) {
            double dark = lowest(light_on_circle, &circle, arm - 40, arm + 40);
            ck_assert_double_eq_tol(dark, arm, 1);
            ck_assert_double_lt(light_on_circle(dark, &circle), 1e-6);
        }
    }
    ifig_species_free(stone);
}
END_TEST

START_TEST(h4_a_bisectrix_figure_opens_from_a_cross_into_two_brushes)
{
    /* The same page: cross in the parallel position, two hyperbolas at 45 degrees, their vertices
     * the optic axes. */
    IfigSpecies *stone = topaz();
    IfigLayer layer = layer_of(stone, IFIG_VIEW_ACUTE_BISECTRIX, 0.1);
    double c = melatope_sine(stone, 1.613);
    for (int i = 1; i < 40; i++) {
        double r = 0.02 * i;
        ck_assert_double_eq_tol(crossed_light(&layer, beam_at(1.613, SODIUM_NM, r, 0)), 0, 1e-12);
        ck_assert_double_eq_tol(crossed_light(&layer, beam_at(1.613, SODIUM_NM, 0, r)), 0, 1e-12);
    }
    layer.orientation.stage_deg = 45;
    double diagonal = sqrt(0.5);
    for (int side = -1; side <= 1; side += 2) {
        double eye = side * c * diagonal;
        ck_assert_double_eq_tol(crossed_light(&layer, beam_at(1.613, SODIUM_NM, eye, eye)), 0,
                                1e-9);
    }
    /* Bright at the centre, where 0.1 mm delays by 287 nm, and across it. */
    ck_assert_double_gt(crossed_light(&layer, beam_at(1.613, SODIUM_NM, 0, 0)), 0.9);
    ck_assert_double_gt(crossed_light(&layer, beam_at(1.613, SODIUM_NM, 0.1, -0.1)), 0.9);
    ifig_species_free(stone);
}
END_TEST

START_TEST(h5_the_brush_of_a_small_angle_is_a_rectangular_hyperbola)
{
    /* Law (Biot-Fresnel): the vibration's azimuth is half the sum of the azimuths from the two
     * axes, so at 45 degrees x^2 - y^2 = c^2, x along the line of the axes. */
    IfigSpecies *stone = small_angle_stone();
    double c = melatope_sine(stone, 1.6);
    Circle circle = {layer_of(stone, IFIG_VIEW_ACUTE_BISECTRIX, 0.5), 1.6, SODIUM_NM, 0, 0, 0};
    circle.layer.orientation.stage_deg = 45;
    ck_assert_double_lt(c, 0.08);
    for (int i = 0; i < 8; i++) {
        double ratio = 1.05 + 0.15 * i;
        circle.radius = ratio * c;
        double off = 0.5 * acos(1 / (ratio * ratio)) / IFIG_DEGREE;
        double dark = lowest(light_on_circle, &circle, 45 - off - 3, 45 - off + 3);
        ck_assert_double_eq_tol(dark, 45 - off, 0.4);
    }
    ifig_species_free(stone);
}
END_TEST

START_TEST(h7_indices_of_any_wave_normal_obey_the_identity_of_the_two_axes)
{
    /* 1/n1^2 - 1/n2^2 = (1/na^2 - 1/ng^2) sin T1 sin T2, T from the two axes (Born & Wolf,
     * Principles of Optics, 15.3.3). Both indices from the propagator, the wave normal upright. */
    static const double n[3] = {1.610, 1.61287, 1.620};
    IfigSpecies *stone = topaz();
    IfigOpticAxes axes;
    Random random = {7};
    ck_assert_int_eq(ifig_optic_axes(stone, SODIUM_NM, &axes, NULL), IFIG_OK);
    for (int i = 0; i < 2000; i++) {
        IfigOrientation orientation = IFIG_ORIENTATION_INIT;
        orientation.view = IFIG_VIEW_Z;
        orientation.tilt_deg = i == 0 ? 0 : random_between(&random, -180, 180);
        orientation.tilt_azimuth_deg = random_between(&random, -180, 180);
        double r[3][3], product = 1;
        IfigMedium medium;
        IfigPropagator wave;
        IfigRay ray = ifig_ray(1, 0, 0);
        ck_assert_int_eq(ifig_orientation_matrix(stone, &orientation, r, NULL), IFIG_OK);
        ck_assert_int_eq(ifig_medium(stone, IFIG_HAND_RIGHT, r, SODIUM_NM, &medium, NULL), IFIG_OK);
        ifig_propagator(&medium, &ray, &wave);
        double mean = creal(wave.mean), h = sqrt(creal(wave.half_difference_squared));
        for (int a = 0; a < 2; a++) {
            double cosine = 0;
            for (int k = 0; k < 3; k++) {
                cosine += r[2][k] * axes.axis[a][k];
            }
            product *= sqrt(1 - cosine * cosine);
        }
        double left = pow(mean - h, -2) - pow(mean + h, -2);
        double right = (pow(n[0], -2) - pow(n[2], -2)) * product;
        ck_assert_double_eq_tol(left, right, 1e-12);
        if (i == 0) { /* topaz along Z */
            ck_assert_double_eq_tol(left, 0.00137175, 5e-9);
        }
    }
    ifig_species_free(stone);
}
END_TEST

START_TEST(h9_an_optic_axis_figure_has_no_extinctions_and_a_brush_that_turns_against_the_stage)
{
    /* Even on turning: common practice, from memory; one brush, turning against the stage:
     * geolearningpoint.com. Law near the axis: the brush stands at minus the stage's angle. */
    IfigSpecies *stone = topaz();
    Circle circle = {layer_of(stone, IFIG_VIEW_OPTIC_AXIS, 0.3), 1.613, SODIUM_NM, 0, 0, 0.02};
    for (int stage = 0; stage <= 90; stage += 10) {
        circle.layer.orientation.stage_deg = stage;
        Beam centre = {1.613, SODIUM_NM, 0, 0};
        ck_assert_double_eq_tol(crossed_light(&circle.layer, centre), 0, 1e-12);
        for (int side = 0; side < 360; side += 180) {
            double dark = lowest(light_on_circle, &circle, side - stage - 40, side - stage + 40);
            ck_assert_double_eq_tol(dark, side - stage, 4);
        }
        /* only one brush: across it there is light */
        ck_assert_double_gt(light_on_circle(90 - stage, &circle),
                            100 * light_on_circle(-stage, &circle));
    }
    ifig_species_free(stone);
}
END_TEST

START_TEST(h11_a_doubly_refractive_plate_is_dark_four_times_a_turn)
{
    /* Common practice, from memory; law. */
    IfigLayer layer = layer_of(builtin("topaz_f"), IFIG_VIEW_X, 0.1);
    Beam square = {1, 550, 0, 0};
    int dark = 0;
    for (int stage = 0; stage < 360; stage++) {
        layer.orientation.stage_deg = stage;
        dark += crossed_light(&layer, square) < 1e-6;
        ck_assert(stage % 90 != 0 || crossed_light(&layer, square) < 1e-12);
    }
    ck_assert_int_eq(dark, 4);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("isogyres");
    tcase_add_test(facts, h1_isogyres_lie_alike_in_every_light);
    tcase_add_test(facts, h2_a_centred_uniaxial_figure_stands_still_as_the_stage_turns);
    tcase_add_test(facts, h3_an_off_centre_cross_travels_in_a_circle_with_arms_along_the_polars);
    tcase_add_test(facts, h4_a_bisectrix_figure_opens_from_a_cross_into_two_brushes);
    tcase_add_test(facts, h5_the_brush_of_a_small_angle_is_a_rectangular_hyperbola);
    tcase_add_test(facts, h7_indices_of_any_wave_normal_obey_the_identity_of_the_two_axes);
    tcase_add_test(
        facts, h9_an_optic_axis_figure_has_no_extinctions_and_a_brush_that_turns_against_the_stage);
    tcase_add_test(facts, h11_a_doubly_refractive_plate_is_dark_four_times_a_turn);
    return run_case(facts, "isogyres");
}
