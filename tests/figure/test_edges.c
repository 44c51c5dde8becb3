/* SPDX-License-Identifier: MIT */
/* The edges of what may be asked of a figure: thin and thick, wide and flat, dark and totally
 * reflected, every view. */
#include "figure_test.h"

START_TEST(singly_refractive_stone_is_dark_along_the_polars)
{
    /* Steep faces pass p better than s (Fresnel's law), and a sheet polariser met at 55 degrees
     * passes a field turned by up to 15 degrees from its own: sin^2 of that is 0.07. So light
     * stands between the arms near the rim. Along the polars and at the centre none comes through;
     * in the mean over a pixel across an arm a twelfth of the square of the field's change stays,
     * 2e-6 in a picture half as large. */
    const Recipe recipe = {.key = "spinel", .thickness_mm = 5};
    Picture picture = picture_of(&recipe, 511);
    double most = 0;
    for (int i = -240; i <= 240; i++) {
        ck_assert_double_lt(fabs((double)pixel_at(&picture, (uint32_t)(255 + i), 255)[1]), 1e-6);
        ck_assert_double_lt(fabs((double)pixel_at(&picture, 255, (uint32_t)(255 + i))[1]), 1e-6);
        uint32_t diagonal = (uint32_t)(255 + i * 70 / 100);
        most = fmax(most, (double)pixel_at(&picture, diagonal, diagonal)[1]);
    }
    ck_assert_double_gt(most, 1e-4);
    ck_assert_double_lt(most, 0.07);
    free(picture.xyz);
}
END_TEST

/* Recipes at the edge of what may be asked for. */
static const Recipe edges[] = {
    {.key = "calcite", .thickness_mm = 3, .aperture = 0.9999, .field_deg = 89.18},
    {.key = "fluorite", .thickness_mm = 3, .aperture = 1.7, .immersion = 1.74},
    {.key = "quartz", .thickness_mm = 3, .aperture = 1.7, .immersion = 1.74},
    {.key = "topaz_f", .thickness_mm = 2, .aperture = 1.3, .immersion = 1.515},
    {.key = "calcite", .thickness_mm = 0.001},
    {.key = "rutile", .thickness_mm = 100},
    {.key = "brookite", .thickness_mm = 100, .stage_deg = 45},
    {.key = "quartz", .thickness_mm = 100, .layers = 2},
    {.key = "titanite", .thickness_mm = 100, .line_nm = 380},
    {.key = "calcite", .thickness_mm = 2, .aperture = 1.55, .immersion = 1.6, .circular = 1},
    {.key = "sulphur", .thickness_mm = 1, .tilt_deg = 180, .aperture = 1.9, .immersion = 2.1},
};

static void check_finite(const Recipe *recipe, uint32_t size)
{
    Picture picture = picture_of(recipe, size);
    for (size_t p = 0; p < (size_t)size * size; p++) {
        for (int i = 0; i < 3; i++) {
            double value = (double)picture.xyz[p][i];
            ck_assert_msg(isfinite(value) && value > -2e-3, "%s, view %s: %g at %zu", recipe->key,
                          ifig_view_name(recipe->view), value, p);
        }
        /* No more light than the lamp sends in. */
        ck_assert_double_le((double)picture.xyz[p][1], 1.001);
    }
    free(picture.xyz);
}

START_TEST(edges_of_what_may_be_asked_give_finite_light)
{
    check_finite(&edges[_i], 40);
}
END_TEST

START_TEST(widest_field_gives_finite_light)
{
    Setup setup;
    const Recipe recipe = {.key = "calcite", .thickness_mm = 3, .field_deg = 89.9};
    set_up(&recipe, &setup);
    setup.scene.instrument.sphere_index = 2.0;
    IfigFigure *figure = figure_of(&setup.scene, 96);
    float *xyz = rendered(figure, 96, IFIG_PIXELS_XYZ);
    for (size_t i = 0; i < 3 * 96 * 96; i++) {
        ck_assert(isfinite(xyz[i]) && xyz[i] > -1e-3F && xyz[i] < 2.0F);
    }
    free(xyz);
    ifig_figure_free(figure);
    take_down(&setup);
}
END_TEST

START_TEST(light_beyond_total_reflection_is_black)
{
    /* Fluorite n = 1.4338 in 1.74: beyond kx = 1.4338 (Snell) nothing enters the stone. */
    const Recipe recipe = {.key = "fluorite",
                           .thickness_mm = 3,
                           .aperture = 1.7,
                           .immersion = 1.74,
                           .line_nm = 589.3,
                           .circular = 2};
    Picture picture = picture_of(&recipe, 200);
    ck_assert_double_gt(light_at_polar(&picture, 1.40 / 1.7, 20), 0.2);
    ck_assert_double_lt(fabs(light_at_polar(&picture, 1.46 / 1.7, 20)), 1e-6);
    ck_assert_double_lt(fabs(light_at_polar(&picture, 0.97, 100)), 1e-6);
    free(picture.xyz);
}
END_TEST

START_TEST(every_view_of_six_species_renders)
{
    static const char *const keys[] = {"quartz", "calcite",  "topaz_f",
                                       "sphene", "brookite", "spinel"};
    int rendered_views = 0;
    for (int view = IFIG_VIEW_DEFAULT; view <= IFIG_VIEW_Z; view++) {
        double rotation[3][3];
        IfigOrientation orientation = IFIG_ORIENTATION_INIT;
        orientation.view = (IfigView)view;
        if (ifig_orientation_matrix(builtin(keys[_i]), &orientation, rotation, NULL) == IFIG_OK) {
            Recipe recipe = {.key = keys[_i],
                             .thickness_mm = 1,
                             .view = (IfigView)view,
                             .tilt_deg = 7,
                             .stage_deg = 33};
            check_finite(&recipe, 48);
            rendered_views++;
        }
    }
    ck_assert_int_ge(rendered_views, 4);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("edges");
    tcase_add_test(facts, singly_refractive_stone_is_dark_along_the_polars);
    tcase_add_loop_test(facts, edges_of_what_may_be_asked_give_finite_light, 0,
                        (int)(sizeof edges / sizeof edges[0]));
    tcase_add_test(facts, widest_field_gives_finite_light);
    tcase_add_test(facts, light_beyond_total_reflection_is_black);
    tcase_add_loop_test(facts, every_view_of_six_species_renders, 0, 6);
    return run_case(facts, "edges");
}
