/* SPDX-License-Identifier: MIT */
/* Axes: ticks at 1, 2, 5, and values where they belong. */
#include "page_test.h"

START_TEST(ticks_step_by_one_two_or_five)
{
    ck_assert_double_eq_tol(ifig_plot_step(0.0, 1.0, 5), 0.2, 1e-12);
    ck_assert_double_eq_tol(ifig_plot_step(0.0, 1.0, 10), 0.1, 1e-12);
    ck_assert_double_eq_tol(ifig_plot_step(0.0, 2750.0, 6), 500.0, 1e-9);
    ck_assert_double_eq_tol(ifig_plot_step(0.0, 0.011, 5), 0.005, 1e-12);
    ck_assert_double_eq_tol(ifig_plot_step(-90.0, 90.0, 4), 50.0, 1e-9);
}
END_TEST

START_TEST(a_value_stands_at_its_share_of_the_axis_and_y_grows_upward)
{
    const IfigPlot plot = {
        {10.0, 20.0, 60.0, 40.0}, {0.0, 360.0, 90.0, NULL}, {0.0, 2.0, 0, NULL}, 0};
    const IfigPoint low = ifig_plot_point(&plot, 0.0, 0.0);
    const IfigPoint high = ifig_plot_point(&plot, 90.0, 1.5);
    ck_assert_double_eq_tol(low.x, 10.0, 1e-12);
    ck_assert_double_eq_tol(low.y, 60.0, 1e-12);
    ck_assert_double_eq_tol(high.x, 25.0, 1e-12);
    ck_assert_double_eq_tol(high.y, 30.0, 1e-12);
}
END_TEST

int main(void)
{
    TCase *const facts = tcase_create("plot");
    tcase_add_test(facts, ticks_step_by_one_two_or_five);
    tcase_add_test(facts, a_value_stands_at_its_share_of_the_axis_and_y_grows_upward);
    return run_case(facts, "page plot");
}
