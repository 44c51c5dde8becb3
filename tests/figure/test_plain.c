/* SPDX-License-Identifier: MIT */
/* Away from optic axes polynomials carry the colour of a pixel (plain.h): as all samples of the
 * lamp give it. Where an axis stands in the patch they are not used. */
#include "patch_test.h"
#include "plain.h"

#include <stdio.h>

static int fit_plain(Patch *p, IfigPlain *plain)
{
    IfigPlainNodes *nodes = room(ifig_plain_nodes_size());
    int fits = ifig_plain_fit(p->figure, &p->tile, &whole_patch, &p->carrier, nodes, plain);
    free(nodes);
    return fits;
}

/* The most that a row of plain pixels is off by; rung after rung is made on the way. */
static double worst_of_row(Patch *p, const IfigPlain *plain, uint32_t row, IfigPlainWork *work)
{
    static IfigLightRow by_plain, exact;
    double worst = 0, side = p->tile.pixel, ty = 1.0 - (row + 0.5) * side, tx = -1.0 + 0.5 * side;
    ifig_plain_row(p->figure, &p->carrier, plain, tx, ty, side, SIDE, work,
                   (IfigRowPlace){&by_plain, 3});
    ifig_fringe_row(p->figure, &p->tile, tx, ty, side, SIDE, p->workspace,
                    (IfigRowPlace){&exact, 3}, NULL);
    for (size_t x = 3; x < SIDE + 3; x++) {
        worst = fmax(worst, apart(p->figure, &by_plain, &exact, x));
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
    /* Here some pixels have no carrier, and the lines of the whole picture do not serve. */
    {{.key = "titanite", .thickness_mm = 0.04, .stage_deg = 20, .tilt_deg = 5}, 0.35, -0.2},
    /* Bands so narrow that fringes are left where the phase steps by much from sample to sample. */
    {{.key = "calcite", .thickness_mm = 1, .lamp = IFIG_LAMP_FLUORESCENT}, -0.6, 0.6},
    {{.key = "calcite", .thickness_mm = 2, .lamp = IFIG_LAMP_FLUORESCENT}, -0.5, 0.5},
};
enum { PLACES = sizeof places / sizeof places[0] };

START_TEST(plain_pixels_are_those_of_all_samples)
{
    static IfigPlain plain;
    Patch p;
    double worst = 0;
    fit_patch(&places[_i].recipe, places[_i].x, places[_i].y, 0, &p);
    ck_assert(fit_plain(&p, &plain));
    IfigPlainWork *work = room(ifig_plain_work_size());
    for (uint32_t row = 0; row < SIDE; row++) {
        worst = fmax(worst, worst_of_row(&p, &plain, row, work));
    }
    printf("%s: at most %.4f of a level\n", places[_i].recipe.key, worst);
    ck_assert_double_lt(worst, 0.05);
    free(work);
    drop(&p);
}
END_TEST

START_TEST(no_pixel_beside_an_axis_is_plain)
{
    static const Recipe recipe = {.key = "calcite", .thickness_mm = 1};
    static IfigPlain plain;
    Patch p;
    fit_patch(&recipe, 0.01, 0.02, 0, &p);
    ck_assert(!fit_plain(&p, &plain));
    drop(&p);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("plain");
    tcase_add_loop_test(facts, plain_pixels_are_those_of_all_samples, 0, PLACES);
    tcase_add_test(facts, no_pixel_beside_an_axis_is_plain);
    return run_case(facts, "plain");
}
