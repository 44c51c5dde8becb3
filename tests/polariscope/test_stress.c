/* SPDX-License-Identifier: MIT */
/* Stress frozen into a stone. */
#include "face_test.h"

static IfigTexture texture_of(IfigPattern pattern, double mpa)
{
    IfigTexture texture = IFIG_TEXTURE_INIT;
    texture.pattern = pattern;
    texture.stress_mpa = mpa;
    return texture;
}

static IfigStressPath path_at(const IfigTexture *texture, double thickness_mm, double x, double y)
{
    IfigStressPath path;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_stress_path(texture, thickness_mm, x, y, &path, &error) == IFIG_OK, "%s",
                  error.message);
    return path;
}

START_TEST(a_megapascal_on_ten_millimetres_of_bk7_retards_27_7_nm)
{
    /* K = 2.77 per TPa: SCHOTT data sheet of N-BK7, from memory; law of Brewster. In the middle of
     * a band the stress is the texture's own, along y. */
    IfigTexture bands = texture_of(IFIG_PATTERN_BANDS, 1);
    IfigStressPath path = path_at(&bands, 10, 0, 0.3);
    double per_tpa = ifig_species_stress_optic_per_tpa(builtin("glass"));
    ck_assert_double_eq_tol(per_tpa * path.difference_mpa_mm, 27.7, 0.1);
    ck_assert_double_eq_tol(fabs(path.azimuth_deg), 90.0, 1e-9);
    bands.stress_mpa = -1; /* pressure along y: more tensile along x */
    ck_assert_double_eq_tol(path_at(&bands, 10, 0, 0.3).azimuth_deg, 0.0, 1e-9);
}
END_TEST

/* sigma_rho - sigma_phi of Lame's sphere along a line of sight, by Simpson's rule. S 1 MPa, in mm.
 * sigma_r = -(a/r)^3, sigma_t = (a/r)^3 / 2 (Timoshenko & Goodier, Theory of Elasticity, art. 136,
 * from memory). */
static double lame_by_simpson(double a, double half_depth, double rho)
{
    const int steps = 200000;
    double from = rho < a ? sqrt(a * a - rho * rho) : 0.0, sum = 0;
    double step = (half_depth - from) / steps;
    for (int i = 0; i <= steps; i++) {
        double z = from + i * step, r = hypot(rho, z), cube = a * a * a / (r * r * r);
        double sine = rho / r, cosine = z / r;
        double radial = -cube * sine * sine + 0.5 * cube * cosine * cosine;
        sum += (i == 0 || i == steps ? 1 : i % 2 ? 4 : 2) * (radial - 0.5 * cube);
    }
    return 2.0 * sum * step / 3.0;
}

START_TEST(the_stress_around_an_inclusion_is_lames_integrated)
{
    IfigTexture inclusion = texture_of(IFIG_PATTERN_INCLUSION, 50);
    for (double place = 0.01; place < 1.0; place += 0.03) {
        double rho = place * 4.0; /* a face 8 mm wide; a sphere of radius 0.8 mm */
        double expected = 50.0 * lame_by_simpson(0.8, 1.5, rho);
        IfigStressPath path = path_at(&inclusion, 3, place * 0.6, place * 0.8);
        ck_assert_double_le(expected, 0); /* pressed radially: more tensile around */
        ck_assert_double_eq_tol(path.difference_mpa_mm, -expected, 1e-8 - 1e-7 * expected);
        if (path.difference_mpa_mm > 1e-6) {
            double azimuth = fmod(path.azimuth_deg + 360.0 - 53.130102354 + 1.0, 180.0) - 1.0;
            ck_assert_double_eq_tol(azimuth, 90.0, 1e-6);
        }
    }
}
END_TEST

START_TEST(in_an_endless_solid_an_inclusion_adds_up_to_2_s_a3_over_rho2)
{
    IfigTexture inclusion = texture_of(IFIG_PATTERN_INCLUSION, 50);
    inclusion.width_mm = 0.8; /* a sphere of 0.08 mm, in 100 mm */
    double expected = 2.0 * 50.0 * pow(0.08, 3) / pow(0.5 * 0.4, 2);
    ck_assert_double_eq_tol(path_at(&inclusion, 100, 0.5, 0).difference_mpa_mm, expected,
                            1e-4 * expected);
    ck_assert_double_eq(path_at(&inclusion, 100, 0, 0).difference_mpa_mm, 0);
}
END_TEST

/* Where sigma_xx,x + sigma_xy,y and sigma_xy,x + sigma_yy,y vanish, nothing moves. */
START_TEST(every_pattern_is_in_equilibrium)
{
    static const IfigPattern patterns[] = {IFIG_PATTERN_BANDS, IFIG_PATTERN_CROSS_HATCH,
                                           IFIG_PATTERN_SNAKE};
    const double h = 1e-4;
    Random random = {5};
    for (int trial = 0; trial < 300; trial++) {
        IfigTexture texture = texture_of(patterns[trial % 3], 40);
        IfigStressField field;
        texture.seed = (unsigned)trial;
        ck_assert_int_eq(ifig_stress_field(&texture, 5, &field, NULL), IFIG_OK);
        double x = random_between(&random, -0.7, 0.7), y = random_between(&random, -0.7, 0.7);
        double east[3], west[3], north[3], south[3];
        ifig_stress_tensor(&field, x + h, y, east);
        ifig_stress_tensor(&field, x - h, y, west);
        ifig_stress_tensor(&field, x, y + h, north);
        ifig_stress_tensor(&field, x, y - h, south);
        double along_x = (east[0] - west[0] + north[2] - south[2]) / (2 * h);
        double along_y = (east[2] - west[2] + north[1] - south[1]) / (2 * h);
        ck_assert_double_lt(hypot(along_x, along_y), 200 * 1e-4); /* slopes are of the order 1000 */
    }
}
END_TEST

START_TEST(the_greatest_stress_of_a_snake_is_the_one_asked_for)
{
    for (unsigned seed = 0; seed < 12; seed++) {
        IfigTexture snake = texture_of(IFIG_PATTERN_SNAKE, 30);
        double most = 0;
        snake.seed = seed;
        IfigStressField field;
        ck_assert_int_eq(ifig_stress_field(&snake, 5, &field, NULL), IFIG_OK);
        for (int i = 0; i < 90000; i++) {
            double x = i % 300 / 149.5 - 1.0, y = i / 300 / 149.5 - 1.0;
            if (hypot(x, y) <= 1.0) {
                IfigStressSum sum = ifig_stress_sum(&field, x, y);
                most = fmax(most, hypot(sum.difference, sum.shear));
            }
        }
        ck_assert_double_eq_tol(most, 150.0, 1.0);
        IfigStressPath path = path_at(&snake, 5, 0.2, 0.4);
        snake.stress_mpa = 60; /* twice the stress, the same snake */
        IfigStressPath twice = path_at(&snake, 5, 0.2, 0.4);
        ck_assert_double_eq_tol(twice.difference_mpa_mm, 2 * path.difference_mpa_mm, 1e-9);
        ck_assert_double_eq_tol(twice.azimuth_deg, path.azimuth_deg, 1e-9);
    }
}
END_TEST

START_TEST(places_off_the_face_and_wild_numbers_are_refused)
{
    IfigTexture texture = texture_of(IFIG_PATTERN_SNAKE, 30);
    IfigStressPath path;
    ck_assert_int_eq(ifig_stress_path(&texture, 5, 0.8, 0.7, &path, NULL), IFIG_ERROR_RANGE);
    ck_assert_int_eq(ifig_stress_path(&texture, 5, NAN, 0, &path, NULL), IFIG_ERROR_RANGE);
    ck_assert_int_eq(ifig_stress_path(&texture, 0, 0, 0, &path, NULL), IFIG_ERROR_RANGE);
    ck_assert_int_eq(ifig_stress_path(NULL, 5, 0, 0, &path, NULL), IFIG_ERROR_ARGUMENT);
    texture.stress_mpa = NAN;
    ck_assert_int_eq(ifig_stress_path(&texture, 5, 0, 0, &path, NULL), IFIG_ERROR_RANGE);
    texture = texture_of(IFIG_PATTERN_INCLUSION, 30);
    ck_assert_int_eq(ifig_stress_path(&texture, 1.5, 0, 0, &path, NULL), IFIG_ERROR_UNSUITABLE);
    texture.width_mm = 0;
    ck_assert_int_eq(ifig_stress_path(&texture, 5, 0, 0, &path, NULL), IFIG_ERROR_RANGE);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("stress");
    tcase_add_test(facts, a_megapascal_on_ten_millimetres_of_bk7_retards_27_7_nm);
    tcase_add_test(facts, the_stress_around_an_inclusion_is_lames_integrated);
    tcase_add_test(facts, in_an_endless_solid_an_inclusion_adds_up_to_2_s_a3_over_rho2);
    tcase_add_test(facts, every_pattern_is_in_equilibrium);
    tcase_add_test(facts, the_greatest_stress_of_a_snake_is_the_one_asked_for);
    tcase_add_test(facts, places_off_the_face_and_wild_numbers_are_refused);
    return run_case(facts, "polariscope stress");
}
