/* SPDX-License-Identifier: MIT */
/* Labels of figures: where they stand, that none lies over another, and that they are true. */
#include "figure_plate.h"
#include "figure_recipes.h"
#include "page_test.h"

static const double SIDES_MM[] = {24.0, 43.4, 60.0, 86.7, 108.0, 166.0};
enum { SIDE_COUNT = sizeof SIDES_MM / sizeof SIDES_MM[0] };

/* A canvas as large as a box, a view of a recipe in it, and its plan. */
typedef struct Plan {
    Bench bench;
    IfigCanvas *canvas;
    IfigReading reading;
    IfigFigureView view;
    IfigFigurePlan plan;
} Plan;

static Plan *open_plan(const Recipe *recipe, double side, IfigLabels labels)
{
    const IfigSheet sheet = {side, side, "A figure of the tests", NULL};
    IfigPageOptions options = IFIG_PAGE_OPTIONS_INIT;
    IfigError error = IFIG_ERROR_INIT;
    Plan *const made = calloc(1, sizeof *made);
    options.format = IFIG_PAGE_SVG;
    made->reading = (IfigReading)IFIG_READING_INIT;
    ck_assert_msg(open_bench(recipe, &made->bench, &error) == IFIG_OK, "%s", error.message);
    ck_assert_msg(ifig_reading(&made->bench.scene, &made->reading, &error) == IFIG_OK, "%s",
                  error.message);
    ck_assert_int_eq(ifig_canvas_open("never-written", &options, &sheet, &made->canvas, NULL),
                     IFIG_OK);
    const IfigFigureFrame frame = ifig_figure_frame(ifig_canvas_box(made->canvas), labels);
    ck_assert_int_eq(ifig_view_open(&made->bench.scene, &made->reading, frame, &made->view, &error),
                     IFIG_OK);
    ifig_figure_plan(made->canvas, &made->view, labels, &made->plan);
    ck_assert_int_eq(ifig_canvas_status(made->canvas), IFIG_OK);
    return made;
}

static void close_plan(Plan *made)
{
    ifig_canvas_discard(made->canvas);
    close_bench(&made->bench);
    free(made);
}

/* Recipes by name. */
static const Recipe *recipe_of(const char *name)
{
    for (int i = 0; i < RECIPE_COUNT; i++) {
        if (strcmp(RECIPES[i].name, name) == 0) {
            return &RECIPES[i];
        }
    }
    ck_abort_msg("no recipe %s", name);
    return NULL;
}

static const IfigLabel *label_of(const Plan *made, const char *text)
{
    for (size_t i = 0; i < made->plan.label_count; i++) {
        if (made->plan.labels[i].is_placed && strcmp(made->plan.labels[i].text, text) == 0) {
            return &made->plan.labels[i];
        }
    }
    return NULL;
}

static void check_apart(const Plan *made, const Recipe *recipe, double side)
{
    const IfigFigurePlan *const plan = &made->plan;
    const double hair = 1e-9;
    for (size_t i = 0; i < plan->label_count; i++) {
        const IfigBox box = plan->labels[i].box;
        ck_assert_msg(box.x >= -hair && box.y >= -hair && box.x + box.width <= side + hair &&
                          box.y + box.height <= side + hair,
                      "%s at %g mm: '%s' leaves the box", recipe->name, side, plan->words[i]);
        for (size_t k = 0; k < i; k++) {
            ck_assert_msg(!ifig_box_overlap(box, plan->labels[k].box),
                          "%s at %g mm: '%s' over '%s'", recipe->name, side, plan->words[i],
                          plan->words[k]);
        }
        for (size_t k = 0; k < plan->mark_count; k++) {
            const IfigPlanMark *const mark = &plan->marks[k];
            const IfigBox place = {mark->at.x - mark->radius, mark->at.y - mark->radius,
                                   2.0 * mark->radius, 2.0 * mark->radius};
            ck_assert_msg(!ifig_box_overlap(box, place), "%s at %g mm: '%s' over a mark",
                          recipe->name, side, plan->words[i]);
        }
    }
    for (size_t i = 0; i < plan->mark_count; i++) {
        for (size_t k = 0; k < i; k++) {
            const IfigPlanMark *const one = &plan->marks[i], *const other = &plan->marks[k];
            ck_assert_msg(hypot(one->at.x - other->at.x, one->at.y - other->at.y) >=
                              0.85 * (one->radius + other->radius),
                          "%s at %g mm: marks %zu and %zu meet", recipe->name, side, i, k);
        }
    }
}

/* No point of an arrow or tick lies within a word. */
static void check_lines(const Plan *made, const Recipe *recipe, double side)
{
    enum { SAMPLES = 50 };
    const IfigFigurePlan *const plan = &made->plan;
    for (size_t i = 0; i < plan->line_count; i++) {
        const IfigPlanLine *const line = &plan->lines[i];
        for (int k = 0; k <= SAMPLES; k++) {
            const double share = (double)k / SAMPLES;
            const IfigBox spot = {line->from.x + share * (line->to.x - line->from.x),
                                  line->from.y + share * (line->to.y - line->from.y), 0.0, 0.0};
            for (size_t l = 0; l < plan->label_count; l++) {
                ck_assert_msg(!ifig_box_overlap(spot, plan->labels[l].box),
                              "%s at %g mm: a line through '%s'", recipe->name, side,
                              plan->words[l]);
            }
        }
    }
}

START_TEST(nothing_lies_over_anything_on_forty_figures_at_six_sizes)
{
    const Recipe *const recipe = &RECIPES[_i];
    for (int k = 0; k < SIDE_COUNT; k++) {
        for (int labels = IFIG_LABELS_BASIC; labels <= IFIG_LABELS_FULL; labels++) {
            Plan *const made = open_plan(recipe, SIDES_MM[k], (IfigLabels)labels);
            check_apart(made, recipe, SIDES_MM[k]);
            check_lines(made, recipe, SIDES_MM[k]);
            close_plan(made);
        }
    }
}
END_TEST

START_TEST(polars_and_scale_are_always_named_on_a_figure_of_60_mm)
{
    const Recipe *const recipe = &RECIPES[_i];
    Plan *const made = open_plan(recipe, 60.0, IFIG_LABELS_BASIC);
    const int is_circular = recipe->polars == 2;
    ck_assert_ptr_nonnull(label_of(made, is_circular ? "P \xe2\x86\xbb" : "P"));
    ck_assert_ptr_nonnull(label_of(made, is_circular ? "A \xe2\x86\xba" : "A"));
    ck_assert_ptr_nonnull(label_of(made, "0\xc2\xb0"));
    ck_assert_ptr_nonnull(
        label_of(made, recipe->immersion_index > 1.0 ? "angle in liquid" : "angle in air"));
    size_t melatopes = 0;
    for (size_t i = 0; i < made->reading.melatope_count; i++) {
        melatopes += (size_t)made->reading.melatope[i].in_field;
    }
    ck_assert(melatopes == 0 || label_of(made, "M") != NULL || label_of(made, "2 M") != NULL);
    ck_assert(recipe->plate == 0 || label_of(made, "plate \xce\xb3") != NULL);
    close_plan(made);
}
END_TEST

/* The phase of exp(i (k r - omega t)) rises with the index: of two waves in a very thin plate the
 * slow one is ahead in phase (Born & Wolf, Principles of Optics, 15.4). */
START_TEST(the_slow_arrow_lies_along_the_wave_that_lags)
{
    const Recipe *const recipe = &RECIPES[_i];
    Plan *const made = open_plan(recipe, 86.7, IFIG_LABELS_FULL);
    static const double places[][2] = {{0, 0}, {0.4, 0.3}, {-0.5, 0.5}, {0.1, -0.7}};
    IfigLayer layer = made->bench.layer;
    layer.thickness_mm = 0.001;
    layer.hand = IFIG_HAND_RIGHT;
    for (int i = 0; i < 4; i++) {
        double slow, theta, phi;
        IfigPlateWave wave;
        if (!ifig_view_slow(&made->view, places[i][0], places[i][1], &slow)) {
            continue;
        }
        ifig_instrument_direction(&made->bench.scene.instrument, places[i][0], places[i][1], &theta,
                                  &phi, NULL);
        ck_assert_int_eq(ifig_plate_wave(&layer, 1, made->bench.scene.instrument.immersion_index,
                                         made->reading.wavelength_nm, theta, phi, &wave, NULL),
                         IFIG_OK);
        /* Rotated to the arrows, the matrix is diagonal: slow first. */
        const double psi = (slow - phi) * IFIG_DEGREE, c = cos(psi), s = sin(psi);
        double re[2], im[2];
        for (int k = 0; k < 2; k++) {
            const double u[2] = {k == 0 ? c : -s, k == 0 ? s : c};
            re[k] = im[k] = 0.0;
            for (int a = 0; a < 2; a++) {
                for (int b = 0; b < 2; b++) {
                    re[k] += u[a] * u[b] * wave.jones.element[a][b].re;
                    im[k] += u[a] * u[b] * wave.jones.element[a][b].im;
                }
            }
        }
        const double lag = atan2(im[0] * re[1] - re[0] * im[1], re[0] * re[1] + im[0] * im[1]);
        const double exact = 2.0 * IFIG_PI * wave.retardation_nm / made->reading.wavelength_nm;
        ck_assert_msg(fabs(lag - exact) < 0.02 * exact + 2e-4, "%s at %d: lag %g, exact %g",
                      recipe->name, i, lag, exact);
    }
    close_plan(made);
}
END_TEST

START_TEST(a_ring_stands_where_the_retardation_is_its_number_of_wavelengths)
{
    const Recipe *const recipe = &RECIPES[_i];
    Plan *const made = open_plan(recipe, 86.7, IFIG_LABELS_FULL);
    for (size_t i = 0; i < made->reading.melatope_count; i++) {
        IfigViewRing rings[IFIG_READING_RINGS_MAX];
        const size_t count = ifig_view_rings(&made->view, i, rings);
        for (size_t k = 0; k < count; k++) {
            const IfigFigureFrame *const frame = &made->view.frame;
            const double x = (rings[k].at.x - frame->centre.x) / frame->radius;
            const double y = (frame->centre.y - rings[k].at.y) / frame->radius;
            double theta, phi;
            IfigProbe probe;
            IfigScene scene = made->bench.scene;
            ck_assert_int_eq(ifig_instrument_direction(&scene.instrument, x, y, &theta, &phi, NULL),
                             IFIG_OK);
            ck_assert_int_eq(
                ifig_probe(&scene, theta, phi, made->reading.wavelength_nm, &probe, NULL), IFIG_OK);
            ck_assert_double_eq_tol(probe.wave.retardation_nm / made->reading.wavelength_nm,
                                    rings[k].order, 1e-3);
            ck_assert(k == 0 || rings[k].order == rings[k - 1].order + 1);
        }
    }
    close_plan(made);
}
END_TEST

START_TEST(the_trace_of_the_axial_plane_goes_through_the_melatopes)
{
    const Recipe *const recipe = &RECIPES[_i];
    Plan *const made = open_plan(recipe, 86.7, IFIG_LABELS_FULL);
    IfigPoint trace[IFIG_TRACE_POINTS];
    if (made->view.axes.count == 2 && ifig_view_axial_plane(&made->view, trace) > 0) {
        const IfigPoint centre = made->view.frame.centre;
        const double radius = made->view.frame.radius;
        ck_assert_double_eq_tol(hypot(trace[0].x - centre.x, trace[0].y - centre.y), radius, 0.02);
        for (size_t i = 0; i < made->reading.melatope_count; i++) {
            const IfigMelatope *const melatope = &made->reading.melatope[i];
            const IfigPoint at = ifig_view_at(&made->view, melatope->x, melatope->y);
            double nearest = HUGE_VAL;
            for (int k = 1; k < IFIG_TRACE_POINTS; k++) {
                const double dx = trace[k].x - trace[k - 1].x, dy = trace[k].y - trace[k - 1].y;
                const double share = ((at.x - trace[k - 1].x) * dx + (at.y - trace[k - 1].y) * dy) /
                                     (dx * dx + dy * dy);
                const double on = fmin(fmax(share, 0.0), 1.0);
                const double away =
                    hypot(at.x - trace[k - 1].x - on * dx, at.y - trace[k - 1].y - on * dy);
                nearest = isfinite(away) ? fmin(nearest, away) : nearest;
            }
            const double out = hypot(melatope->x, melatope->y);
            ck_assert_msg(!(out < 0.97) || nearest < 0.02, "%s: %g mm", recipe->name, nearest);
        }
    }
    close_plan(made);
}
END_TEST

START_TEST(a_brush_is_dark_where_its_dot_stands)
{
    const Recipe *const recipe = &RECIPES[_i];
    Plan *const made = open_plan(recipe, 86.7, IFIG_LABELS_BASIC);
    for (size_t i = 0; i < made->plan.mark_count; i++) {
        const IfigPlanMark *const mark = &made->plan.marks[i];
        const IfigFigureFrame *const frame = &made->view.frame;
        double theta, phi;
        IfigProbe probe;
        IfigScene scene = made->bench.scene;
        scene.instrument.plate.material = IFIG_PLATE_NONE;
        if (mark->kind != IFIG_PLAN_DOT) {
            continue;
        }
        ck_assert_int_eq(ifig_instrument_direction(
                             &scene.instrument, (mark->at.x - frame->centre.x) / frame->radius,
                             (frame->centre.y - mark->at.y) / frame->radius, &theta, &phi, NULL),
                         IFIG_OK);
        ck_assert_int_eq(ifig_probe(&scene, theta, phi, made->reading.wavelength_nm, &probe, NULL),
                         IFIG_OK);
        ck_assert_msg(probe.transmittance < 0.45 * made->reading.brightest, "%s: %g of %g",
                      recipe->name, probe.transmittance, made->reading.brightest);
    }
    close_plan(made);
}
END_TEST

START_TEST(what_is_not_read_has_the_instruments_labels_alone)
{
    Plan *const made = open_plan(recipe_of("muscovite-45"), 86.7, IFIG_LABELS_FULL);
    IfigFigureView view;
    IfigFigurePlan *const plan = malloc(sizeof *plan);
    ck_assert_int_eq(ifig_view_open(&made->bench.scene, NULL, made->view.frame, &view, NULL),
                     IFIG_OK);
    ifig_figure_plan(made->canvas, &view, IFIG_LABELS_FULL, plan);
    ck_assert_uint_gt(plan->label_count, 5);
    ck_assert_uint_eq(plan->mark_count, 0);
    ck_assert_uint_lt(plan->label_count, made->plan.label_count);
    free(plan);
    close_plan(made);
}
END_TEST

START_TEST(full_labels_name_all_that_a_mica_shows)
{
    static const char *const words[] = {"P",
                                        "A",
                                        "M",
                                        "isogyre",
                                        "slow \xce\xb3\xe2\x80\xb2",
                                        "fast \xce\xb1\xe2\x80\xb2",
                                        "optic axial plane",
                                        "Bx\xe2\x82\x90",
                                        "3"};
    Plan *const made = open_plan(recipe_of("muscovite-45"), 86.7, IFIG_LABELS_FULL);
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        ck_assert_msg(label_of(made, words[i]) != NULL, "no '%s'", words[i]);
    }
    ck_assert_uint_eq(made->plan.without_room, 0);
    close_plan(made);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("labels of figures");
    tcase_add_loop_test(facts, nothing_lies_over_anything_on_forty_figures_at_six_sizes, 0,
                        RECIPE_COUNT);
    tcase_add_loop_test(facts, polars_and_scale_are_always_named_on_a_figure_of_60_mm, 0,
                        RECIPE_COUNT);
    tcase_add_loop_test(facts, the_slow_arrow_lies_along_the_wave_that_lags, 0, RECIPE_COUNT);
    tcase_add_loop_test(facts, a_ring_stands_where_the_retardation_is_its_number_of_wavelengths, 0,
                        RECIPE_COUNT);
    tcase_add_loop_test(facts, the_trace_of_the_axial_plane_goes_through_the_melatopes, 0,
                        RECIPE_COUNT);
    tcase_add_loop_test(facts, a_brush_is_dark_where_its_dot_stands, 0, RECIPE_COUNT);
    tcase_add_test(facts, what_is_not_read_has_the_instruments_labels_alone);
    tcase_add_test(facts, full_labels_name_all_that_a_mica_shows);
    return run_case(facts, "page figure");
}
