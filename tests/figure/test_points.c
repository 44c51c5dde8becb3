/* SPDX-License-Identifier: MIT */
/* Many points together, in real numbers, are what each is by itself from the definition. */
#include "figure_test.h"
#include "points.h"

/* 64 points of the disc and a little beyond, on a spiral. */
static void spread(const IfigFigure *figure, IfigPoints *points)
{
    points->count = IFIG_RAYS;
    for (size_t i = 0; i < IFIG_RAYS; i++) {
        double r = 1.1 * sqrt((double)i / (IFIG_RAYS - 1.0));
        const IfigRay ray = ifig_ray(figure->instrument.immersion_index,
                                     ifig_field_theta(&figure->instrument, r), 2.4 * (double)i);
        points->view[i] = ifig_point_view(&figure->instrument, &ray);
    }
}

static double worst_at(const IfigFigure *figure, size_t m)
{
    static IfigPoints points;
    static double value[IFIG_QUANTITIES_MAX * IFIG_RAYS];
    double worst = 0;
    spread(figure, &points);
    ifig_points_quantities(figure, &points, m, value);
    for (size_t i = 0; i < IFIG_RAYS; i++) {
        IfigSmooth exact;
        ifig_view_quantities(&points.view[i], &figure->medium[m], 1, &exact);
        for (size_t q = 0; q < figure->quantity_count; q++) {
            worst = fmax(worst, fabs(value[q * IFIG_RAYS + i] - exact.q[q]));
        }
    }
    return worst;
}

START_TEST(points_together_are_points_alone)
{
    static const Recipe recipes[] = {
        {.key = "topaz_f", .thickness_mm = 1, .tilt_deg = 20, .tilt_azimuth_deg = 35},
        {.key = "calcite", .thickness_mm = 1, .tilt_deg = 11, .tilt_azimuth_deg = -60},
        {.key = "titanite", .thickness_mm = 0.1, .view = IFIG_VIEW_Y, .stage_deg = 12},
        {.key = "quartz", .thickness_mm = 1, .tilt_deg = 25, .tilt_azimuth_deg = 100},
        {.key = "calcite", .thickness_mm = 1, .tilt_deg = 40, .circular = 1},
        {.key = "quartz", .thickness_mm = 1, .tilt_deg = 3, .circular = 2, .polars_deg = 20},
        {.key = "fluorite", .thickness_mm = 1},
        /* Total reflection within the field. */
        {.key = "calcite", .thickness_mm = 1, .tilt_deg = 50, .aperture = 1.6, .immersion = 1.7},
        {.key = "rutile", .thickness_mm = 1, .tilt_deg = 90},
    };
    for (int plate = 0; plate < 2; plate++) {
        Setup setup;
        IfigFigure *figure;
        IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
        set_up(&recipes[_i], &setup);
        if (plate) {
            setup.scene.instrument.plate = (IfigPlate){IFIG_PLATE_QUARTZ, 700.0, 30.0};
        }
        ck_assert_int_eq(ifig_figure_create(&setup.scene, &options, &figure, NULL), IFIG_OK);
        for (size_t m = 0; m < figure->node_count; m++) {
            ck_assert_double_lt(worst_at(figure, m), 2e-13);
        }
        ifig_figure_free(figure);
        take_down(&setup);
    }
}
END_TEST

START_TEST(most_points_need_no_second_look)
{
    static const Recipe recipe = {.key = "calcite", .thickness_mm = 1, .tilt_deg = 30};
    static IfigRays rays = {.count = IFIG_RAYS, .n_outside = 1.0, .has_real_fields = 1};
    static IfigLayerFields fields;
    Setup setup;
    IfigFigure *figure;
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    set_up(&recipe, &setup);
    ck_assert_int_eq(ifig_figure_create(&setup.scene, &options, &figure, NULL), IFIG_OK);
    for (size_t i = 0; i < IFIG_RAYS; i++) {
        IfigRay ray = ifig_ray(1.0, 1.5 * (double)i / IFIG_RAYS, 0.7 * (double)i);
        rays.cos_theta[i] = ray.cos_theta;
        rays.sin_theta[i] = ray.sin_theta;
        rays.cos_phi[i] = ray.cos_phi;
        rays.sin_phi[i] = ray.sin_phi;
    }
    ifig_lossless_fields(&figure->medium[0], &rays, &fields);
    for (size_t i = 0; i < IFIG_RAYS; i++) {
        ck_assert_double_eq(fields.missed[i], 0.0);
    }
    ifig_figure_free(figure);
    take_down(&setup);
}
END_TEST

/* A figure of one medium of unit tensor, between crossed polars. */
static IfigSymmetry symmetry_of(const IfigMedium *medium)
{
    IfigMedium own = *medium;
    const IfigFigure figure = {
        .instrument = IFIG_INSTRUMENT_INIT, .medium = &own, .node_count = 1, .layer_count = 1};
    return ifig_figure_symmetry(&figure);
}

START_TEST(a_picture_repeats_itself_only_as_all_of_its_tensors_do)
{
    /* A half turn about z keeps of a symmetric tensor xx, yy, zz, xy; a mirror along y keeps xz,
     * one along x yz; mirrors turn gyration round (Nye, Physical Properties of Crystals, chapters I
     * and XIV). */
    static const struct {
        int i, j;
        IfigSymmetry left;
    } parts[] = {
        {0, 1, IFIG_SYMMETRY_HALF_TURN}, {0, 2, IFIG_SYMMETRY_ROWS}, {1, 2, IFIG_SYMMETRY_COLUMNS}};
    const IfigMedium plain = {.epsilon = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}, .axis = {0, 0, 1}};
    ck_assert_int_eq(symmetry_of(&plain), IFIG_SYMMETRY_MIRRORS);
    for (size_t p = 0; p < sizeof parts / sizeof *parts; p++) {
        IfigMedium turned = plain, coloured = plain;
        const int i = parts[p].i, j = parts[p].j;
        turned.epsilon[i][j] = turned.epsilon[j][i] = 1e-3;
        coloured.absorption[i][j] = coloured.absorption[j][i] = 1e-3;
        ck_assert_int_eq(symmetry_of(&turned), parts[p].left);
        ck_assert_int_eq(symmetry_of(&coloured), parts[p].left);
    }
    for (int which = 0; which < 2; which++) {
        IfigMedium active = plain;
        *(which ? &active.gyration_across : &active.gyration_along) = 1e-4;
        ck_assert_int_eq(symmetry_of(&active), IFIG_SYMMETRY_HALF_TURN);
        active.axis[0] = 0.6, active.axis[2] = 0.8; /* leans */
        ck_assert_int_eq(symmetry_of(&active), IFIG_SYMMETRY_NONE);
        active.axis[0] = 0.6, active.axis[1] = 0.8, active.axis[2] = 0; /* lies */
        ck_assert_int_eq(symmetry_of(&active), IFIG_SYMMETRY_HALF_TURN);
    }
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("points");
    tcase_add_loop_test(facts, points_together_are_points_alone, 0, 9);
    tcase_add_test(facts, most_points_need_no_second_look);
    tcase_add_test(facts, a_picture_repeats_itself_only_as_all_of_its_tensors_do);
    return run_case(facts, "points");
}
