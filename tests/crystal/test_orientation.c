/* SPDX-License-Identifier: MIT */
/* How the stone lies: R = Rz(stage) Rot(u, tilt) R0(view), columns X, Y, Z in the lab, x east, y
 * north, z toward the observer. */
#include "crystal.h"
#include "optics_test.h"

#include <string.h>

typedef double Matrix3[3][3];

static void matrix_of(const IfigSpecies *species, IfigOrientation orientation, Matrix3 r)
{
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_orientation_matrix(species, &orientation, r, &error) == IFIG_OK, "%s",
                  error.message);
}

/* Where a direction of the crystal points in the lab. */
static void check_points(const IfigSpecies *species, IfigView view, const double crystal[3],
                         const double lab[3])
{
    IfigOrientation orientation = IFIG_ORIENTATION_INIT;
    Matrix3 r;
    orientation.view = view;
    matrix_of(species, orientation, r);
    for (int i = 0; i < 3; i++) {
        double value = r[i][0] * crystal[0] + r[i][1] * crystal[1] + r[i][2] * crystal[2];
        ck_assert_msg(fabs(value - lab[i]) < 1e-12, "view %s: component %d is %.15f, not %.15f",
                      ifig_view_name(view), i, value, lab[i]);
    }
}

static const double X[3] = {1, 0, 0}, Y[3] = {0, 1, 0}, Z[3] = {0, 0, 1};
#define EAST X
#define UP   Z

START_TEST(a_uniaxial_stone_stands_on_its_c_axis_with_x_east)
{
    IfigSpecies *stone = uniaxial_stone(1.55, 1.54);
    static const IfigView views[] = {IFIG_VIEW_DEFAULT, IFIG_VIEW_C, IFIG_VIEW_OPTIC_AXIS};
    for (int i = 0; i < 3; i++) {
        check_points(stone, views[i], Z, UP);
        check_points(stone, views[i], X, EAST);
    }
    ck_assert_int_eq(ifig_default_view(stone), IFIG_VIEW_C);
    ifig_species_free(stone);
}
END_TEST

START_TEST(views_along_the_axes_put_the_next_axis_east)
{
    static const double *const axis[] = {X, Y, Z};
    IfigSpecies *stones[] = {stone_of((const double[]){1.5}, 1, 0), uniaxial_stone(1.5, 1.6),
                             biaxial_stone(1.5, 1.55, 1.6)};
    for (int s = 0; s < 3; s++) {
        for (int i = 0; i < 3; i++) {
            IfigView view = (IfigView)((int)IFIG_VIEW_X + i);
            check_points(stones[s], view, axis[i], UP);
            check_points(stones[s], view, axis[(i + 1) % 3], EAST);
        }
        ifig_species_free(stones[s]);
    }
}
END_TEST

START_TEST(a_positive_stone_shows_z_as_acute_bisectrix)
{
    IfigSpecies *stone = biaxial_stone(1.610, 1.613, 1.620);
    check_points(stone, IFIG_VIEW_DEFAULT, Z, UP);
    check_points(stone, IFIG_VIEW_ACUTE_BISECTRIX, Z, UP);
    check_points(stone, IFIG_VIEW_ACUTE_BISECTRIX, X, EAST);
    check_points(stone, IFIG_VIEW_OBTUSE_BISECTRIX, X, UP);
    check_points(stone, IFIG_VIEW_OBTUSE_BISECTRIX, Z, EAST);
    check_points(stone, IFIG_VIEW_OPTIC_NORMAL, Y, UP);
    check_points(stone, IFIG_VIEW_OPTIC_NORMAL, Z, EAST);
    ifig_species_free(stone);
}
END_TEST

START_TEST(a_negative_stone_shows_x_as_acute_bisectrix)
{
    IfigSpecies *stone = biaxial_stone(1.530, 1.680, 1.686);
    check_points(stone, IFIG_VIEW_ACUTE_BISECTRIX, X, UP);
    check_points(stone, IFIG_VIEW_ACUTE_BISECTRIX, Z, EAST);
    check_points(stone, IFIG_VIEW_OBTUSE_BISECTRIX, Z, UP);
    check_points(stone, IFIG_VIEW_OBTUSE_BISECTRIX, X, EAST);
    check_points(stone, IFIG_VIEW_OPTIC_NORMAL, Y, UP);
    check_points(stone, IFIG_VIEW_OPTIC_NORMAL, X, EAST);
    ifig_species_free(stone);
}
END_TEST

START_TEST(an_optic_axis_view_leans_the_acute_bisectrix_east)
{
    const double n[2][3] = {{1.610, 1.613, 1.620}, {1.530, 1.680, 1.686}};
    for (int i = 0; i < 2; i++) {
        IfigSpecies *stone = stone_of(n[i], 3, 0);
        IfigOpticAxes axes;
        ck_assert_int_eq(ifig_optic_axes(stone, SODIUM_NM, &axes, NULL), IFIG_OK);
        double v = 0.5 * axes.two_v_deg * IFIG_DEGREE, lean[3] = {sin(v), 0, cos(v)};
        const double far[3] = {sin(2 * v), 0, cos(2 * v)};
        check_points(stone, IFIG_VIEW_OPTIC_AXIS, axes.axis[0], UP);
        check_points(stone, IFIG_VIEW_OPTIC_AXIS, axes.acute_bisectrix, lean);
        check_points(stone, IFIG_VIEW_OPTIC_AXIS, axes.axis[1], far);
        ifig_species_free(stone);
    }
}
END_TEST

START_TEST(a_tilt_moves_the_viewed_direction_toward_its_azimuth)
{
    for (int i = 0; i < 12; i++) {
        IfigOrientation orientation = IFIG_ORIENTATION_INIT;
        Matrix3 r;
        double azimuth = 30.0 * i * IFIG_DEGREE, tilt = 20 * IFIG_DEGREE, stage = 50 * IFIG_DEGREE;
        orientation.tilt_deg = 20;
        orientation.tilt_azimuth_deg = 30 * i;
        orientation.stage_deg = 50; /* which then carries it on, counter-clockwise */
        matrix_of(builtin("quartz"), orientation, r);
        ck_assert_double_eq_tol(r[0][2], sin(tilt) * cos(azimuth + stage), 1e-14);
        ck_assert_double_eq_tol(r[1][2], sin(tilt) * sin(azimuth + stage), 1e-14);
        ck_assert_double_eq_tol(r[2][2], cos(tilt), 1e-14);
    }
}
END_TEST

START_TEST(a_stage_turn_is_counter_clockwise)
{
    IfigOrientation orientation = IFIG_ORIENTATION_INIT;
    Matrix3 r;
    orientation.stage_deg = 90;
    matrix_of(builtin("topaz_f"), orientation, r); /* X stood east: it goes north */
    ck_assert_double_eq_tol(r[0][0], 0, 1e-14);
    ck_assert_double_eq_tol(r[1][0], 1, 1e-14);
    ck_assert_double_eq_tol(r[2][2], 1, 1e-14);
}
END_TEST

START_TEST(every_orientation_is_a_proper_turn)
{
    static const char *const keys[] = {"quartz", "topaz_f", "aragonite", "spinel"};
    Random random = {3};
    for (int i = 0; i < 2000; i++) {
        IfigOrientation orientation = IFIG_ORIENTATION_INIT;
        Matrix3 r;
        orientation.view = i % 4 == 3   ? (IfigView)((int)IFIG_VIEW_X + i / 4 % 3)
                           : i % 4 == 0 ? (IfigView)(i / 4 % 3)
                                        : (IfigView)((int)IFIG_VIEW_OPTIC_AXIS + i / 4 % 7);
        orientation.tilt_deg = random_between(&random, -180, 180);
        orientation.tilt_azimuth_deg = random_between(&random, -3600, 3600);
        orientation.stage_deg = random_between(&random, -3600, 3600);
        matrix_of(builtin(keys[i % 4]), orientation, r);
        for (int a = 0; a < 3; a++) {
            int b = (a + 1) % 3, c = (a + 2) % 3;
            for (int k = 0; k < 3; k++) {
                int l = (k + 1) % 3, m = (k + 2) % 3;
                double cross = r[l][a] * r[m][b] - r[m][a] * r[l][b];
                ck_assert_double_eq_tol(cross, r[k][c], 1e-14);
            }
        }
    }
}
END_TEST

START_TEST(views_a_stone_has_not_are_refused_with_those_it_has)
{
    static const struct {
        const char *key;
        IfigView view;
        const char *words;
    } refused[] = {
        {"quartz", IFIG_VIEW_ACUTE_BISECTRIX, "choose c, optic-axis, x, y or z"},
        {"quartz", IFIG_VIEW_OBTUSE_BISECTRIX, "'obtuse-bisectrix'"},
        {"quartz", IFIG_VIEW_OPTIC_NORMAL, "uniaxial"},
        {"topaz_f", IFIG_VIEW_C, "choose optic-axis, acute-bisectrix"},
        {"spinel", IFIG_VIEW_C, "isotropic"},
        {"spinel", IFIG_VIEW_OPTIC_AXIS, "choose x, y or z"},
    };
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) {
        IfigOrientation orientation = IFIG_ORIENTATION_INIT;
        IfigError error = IFIG_ERROR_INIT;
        Matrix3 r;
        orientation.view = refused[i].view;
        ck_assert_int_eq(ifig_orientation_matrix(builtin(refused[i].key), &orientation, r, &error),
                         IFIG_ERROR_UNSUITABLE);
        ck_assert_msg(strstr(error.message, refused[i].words) != NULL &&
                          strstr(error.message, refused[i].key) != NULL,
                      "'%s' lacks '%s'", error.message, refused[i].words);
    }
}
END_TEST

START_TEST(turns_that_are_no_numbers_are_refused)
{
    const IfigSpecies *quartz = builtin("quartz");
    static const double spoilt[] = {NAN, INFINITY, -INFINITY, 3601};
    IfigError error = IFIG_ERROR_INIT;
    Matrix3 r;
    for (int i = 0; i < 12; i++) {
        static const char *const names[] = {"tilt is", "tilt azimuth", "stage turn"};
        IfigOrientation o = IFIG_ORIENTATION_INIT;
        *(i % 3 == 0   ? &o.tilt_deg
          : i % 3 == 1 ? &o.tilt_azimuth_deg
                       : &o.stage_deg) = spoilt[i / 3];
        ck_assert_int_eq(ifig_orientation_matrix(quartz, &o, r, &error), IFIG_ERROR_RANGE);
        ck_assert_msg(strstr(error.message, names[i % 3]) != NULL, "'%s'", error.message);
    }
    IfigOrientation unknown = IFIG_ORIENTATION_INIT;
    unknown.view = (IfigView)99;
    ck_assert_int_eq(ifig_orientation_matrix(quartz, &unknown, r, &error), IFIG_ERROR_ARGUMENT);
    unknown = (IfigOrientation){0};
    ck_assert_int_eq(ifig_orientation_matrix(quartz, &unknown, r, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_orientation_matrix(NULL, NULL, r, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_orientation_matrix(quartz, NULL, NULL, &error), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_orientation_matrix(quartz, NULL, r, &error), IFIG_OK);
    ck_assert_ptr_null(ifig_view_name((IfigView)99));
    ck_assert_str_eq(ifig_view_name(IFIG_VIEW_OPTIC_NORMAL), "optic-normal");
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("orientation");
    tcase_add_test(facts, a_uniaxial_stone_stands_on_its_c_axis_with_x_east);
    tcase_add_test(facts, views_along_the_axes_put_the_next_axis_east);
    tcase_add_test(facts, a_positive_stone_shows_z_as_acute_bisectrix);
    tcase_add_test(facts, a_negative_stone_shows_x_as_acute_bisectrix);
    tcase_add_test(facts, an_optic_axis_view_leans_the_acute_bisectrix_east);
    tcase_add_test(facts, a_tilt_moves_the_viewed_direction_toward_its_azimuth);
    tcase_add_test(facts, a_stage_turn_is_counter_clockwise);
    tcase_add_test(facts, every_orientation_is_a_proper_turn);
    tcase_add_test(facts, views_a_stone_has_not_are_refused_with_those_it_has);
    tcase_add_test(facts, turns_that_are_no_numbers_are_refused);
    return run_case(facts, "crystal orientation");
}
