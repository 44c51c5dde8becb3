/* SPDX-License-Identifier: MIT */
/* Away from optic axes polynomials carry the colour of a pixel (plain.h): as all samples of the
 * lamp give it. Where an axis stands in the patch they are not used. */
#include "figure_test.h"
#include "plain.h"

#include <stdio.h>

enum { PIXELS = 1024, SIDE = 64 };

typedef struct Patch {
    IfigFigure *figure;
    IfigTile tile;
    IfigCarrier carrier;
    IfigPlain plain;
    int fits;
} Patch;

static void *room(size_t bytes)
{
    void *memory = calloc(1, bytes);
    ck_assert_ptr_nonnull(memory);
    return memory;
}

/* A square of SIDE pixels about a point of the picture's disc. */
static void fit_patch(const Recipe *recipe, double x, double y, Setup *setup, Patch *p)
{
    static const IfigPatch whole = {0, 0, 1, 1};
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    options.pixels = PIXELS;
    set_up(recipe, setup);
    ck_assert_int_eq(ifig_figure_create(&setup->scene, &options, &p->figure, NULL), IFIG_OK);
    p->tile = (IfigTile){.x = x, .y = y, .half = SIDE / (double)PIXELS, .pixel = 2.0 / SIDE};
    p->tile.at_nodes = room(ifig_tile_node_coefficient_count(p->figure) * sizeof(double));
    p->tile.coefficient = room(ifig_tile_coefficient_count(p->figure) * sizeof(double));
    ck_assert(ifig_tile_fit(p->figure, &p->tile));
    ck_assert_int_eq(ifig_carrier_create(p->figure, &p->carrier, NULL), IFIG_OK);
    ck_assert(ifig_carrier_fit(p->figure, &p->tile, &whole, 0, &p->carrier));
    IfigPlainNodes *nodes = room(ifig_plain_nodes_size());
    p->fits = ifig_plain_fit(p->figure, &p->tile, &whole, &p->carrier, nodes, &p->plain);
    free(nodes);
}

static void drop(Setup *setup, Patch *p)
{
    free(p->tile.at_nodes);
    free(p->tile.coefficient);
    ifig_carrier_free(&p->carrier);
    ifig_figure_free(p->figure);
    take_down(setup);
}

/* A channel of 255 levels. */
static double level(const IfigFigure *figure, const IfigLightRow *row, size_t x, int channel)
{
    const double *m = figure->raster.plain_colour[channel];
    double linear = m[0] * (double)row->xyz[0][x] + m[1] * (double)row->xyz[1][x] +
                    m[2] * (double)row->xyz[2][x];
    return 255.0 * ifig_srgb_encode(linear < 0 ? 0 : linear > 1 ? 1 : linear);
}

/* The most that a row of plain pixels is off by; rung after rung is made on the way. */
static double worst_of_row(Patch *p, uint32_t row, double *workspace, IfigPlainWork *work)
{
    static IfigLightRow plain, exact;
    double worst = 0, side = p->tile.pixel, ty = 1.0 - (row + 0.5) * side, tx = -1.0 + 0.5 * side;
    ifig_plain_row(p->figure, &p->carrier, &p->plain, tx, ty, side, SIDE, work,
                   (IfigRowPlace){&plain, 3});
    ifig_fringe_row(p->figure, &p->tile, tx, ty, side, SIDE, workspace, (IfigRowPlace){&exact, 3},
                    NULL);
    for (size_t x = 3; x < SIDE + 3; x++) {
        for (int i = 0; i < 3; i++) {
            worst =
                fmax(worst, fabs(level(p->figure, &plain, x, i) - level(p->figure, &exact, x, i)));
        }
    }
    return worst;
}

static const struct {
    Recipe recipe;
    double x, y;
} places[] = {
    {{.key = "topaz_f", .thickness_mm = 2, .tilt_deg = 4, .stage_deg = 40}, 0.1, -0.3},
    {{.key = "topaz_f", .thickness_mm = 0.03, .stage_deg = 40}, 0.5, 0.5},
    {{.key = "calcite", .thickness_mm = 1, .tilt_deg = 5}, -0.5, 0.4},
    {{.key = "calcite", .thickness_mm = 0.2, .tilt_deg = 5}, 0.55, 0.1},
    {{.key = "quartz", .thickness_mm = 3, .tilt_deg = 5, .tilt_azimuth_deg = 70}, -0.3, -0.4},
    {{.key = "quartz", .thickness_mm = 0.03}, 0.3, 0.5},
    {{.key = "ruby", .thickness_mm = 2, .tilt_deg = 10, .stage_deg = 30}, 0.5, -0.5},
    {{.key = "calcite", .thickness_mm = 1, .circular = 1}, 0.6, 0.1},
};
enum { PLACES = sizeof places / sizeof places[0] };

START_TEST(plain_pixels_are_those_of_all_samples)
{
    Setup setup;
    Patch p;
    double worst = 0;
    fit_patch(&places[_i].recipe, places[_i].x, places[_i].y, &setup, &p);
    ck_assert(p.fits);
    ifig_tile_samples(p.figure, &p.tile);
    double *workspace = room(ifig_fringe_workspace_size(p.figure) * sizeof *workspace);
    IfigPlainWork *work = room(ifig_plain_work_size());
    for (uint32_t row = 0; row < SIDE; row++) {
        worst = fmax(worst, worst_of_row(&p, row, workspace, work));
    }
    printf("%s: at most %.4f of a level\n", places[_i].recipe.key, worst);
    ck_assert_double_lt(worst, 0.05);
    free(work);
    free(workspace);
    drop(&setup, &p);
}
END_TEST

START_TEST(no_pixel_beside_an_axis_is_plain)
{
    static const Recipe recipe = {.key = "calcite", .thickness_mm = 1};
    Setup setup;
    Patch p;
    fit_patch(&recipe, 0.01, 0.02, &setup, &p);
    ck_assert(!p.fits);
    drop(&setup, &p);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("plain");
    tcase_add_loop_test(facts, plain_pixels_are_those_of_all_samples, 0, PLACES);
    tcase_add_test(facts, no_pixel_beside_an_axis_is_plain);
    return run_case(facts, "plain");
}
