/* SPDX-License-Identifier: MIT */
/* Colours of retardation, against the waves of a plate and against what books say. */
#include "interfig/retardation.h"
#include "reading_test.h"

static IfigRetardationColour colour_of(const IfigLamp *lamp, IfigPolarsKind polars,
                                       const IfigRetarder *retarder, double nm)
{
    IfigRetardationColour colour;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_retardation_colours(lamp, polars, retarder, &nm, 1, &colour, &error) ==
                      IFIG_OK,
                  "%s", error.message);
    return colour;
}

static IfigLamp *lamp_of(int kind)
{
    IfigLamp *lamp = NULL;
    const IfigStatus status = kind <= IFIG_LAMP_FLUORESCENT
                                  ? ifig_lamp_create((IfigLampKind)kind, &lamp, NULL)
                                  : ifig_lamp_create_line(SODIUM_NM, &lamp, NULL);
    ck_assert_int_eq(status, IFIG_OK);
    return lamp;
}

/* The same plate as exact waves have it: ifig_probe sums 1601 wavelengths. In a liquid of its own
 * mean index, so that the faces take next to nothing. */
static void compare_with_waves(const IfigLamp *lamp, const IfigSpecies *stone, IfigView view,
                               double thickness_mm, double index, const IfigRetarder *retarder,
                               double nm, double tolerance)
{
    for (int parallel = 0; parallel < 2; parallel++) {
        Bench bench;
        IfigProbe probe;
        set_bench(&bench, stone, view, thickness_mm, 45);
        bench.scene.lamp = lamp;
        bench.scene.instrument.lens = IFIG_LENS_NONE;
        bench.scene.instrument.immersion_index = fmin(index, 2.5);
        bench.scene.instrument.analyser.azimuth_deg = parallel ? 0 : 90;
        ck_assert_int_eq(ifig_probe(&bench.scene, 0, 0, 0, &probe, NULL), IFIG_OK);
        const IfigRetardationColour colour =
            colour_of(lamp, parallel ? IFIG_POLARS_PARALLEL : IFIG_POLARS_CROSSED, retarder, nm);
        for (int i = 0; i < 3; i++) {
            ck_assert_double_eq_tol(colour.xyz[i], probe.xyz[i], tolerance);
        }
        clear_bench(&bench);
    }
}

START_TEST(the_usual_colours_are_those_of_a_plate_without_dispersion)
{
    IfigLamp *lamp = lamp_of(_i);
    IfigSpecies *stone = uniaxial_stone(1.3, 1.301);
    for (double nm = 45; nm < 4500; nm = 1.31 * nm + 60) {
        compare_with_waves(lamp, stone, IFIG_VIEW_X, nm * 1e-3, 1.3005, NULL, nm, 2e-4);
    }
    ifig_species_free(stone);
    ifig_lamp_free(lamp);
}
END_TEST

START_TEST(a_stones_own_colours_are_those_of_its_waves)
{
    static const struct {
        const char *key;
        IfigView view;
    } rows[] = {{"brookite", IFIG_VIEW_Z},        {"tanzanite", IFIG_VIEW_Z},
                {"powellite", IFIG_VIEW_X},       {"scheelite", IFIG_VIEW_Y},
                {"lithium_niobate", IFIG_VIEW_X}, {"ktp", IFIG_VIEW_Y}};
    IfigCatalogue *catalogue = NULL;
    IfigLamp *lamp = lamp_of(IFIG_LAMP_DAYLIGHT);
    ck_assert_int_eq(ifig_catalogue_create(&catalogue, NULL), IFIG_OK);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        IfigRetarder retarder = {NULL, rows[i].view};
        double birefringence, n[3];
        ck_assert_int_eq(ifig_catalogue_find(catalogue, rows[i].key, &retarder.species, NULL),
                         IFIG_OK);
        ck_assert_int_eq(ifig_retarder_birefringence(&retarder, SODIUM_NM, &birefringence, NULL),
                         IFIG_OK);
        ck_assert(ifig_retarder_is_dispersed(&retarder));
        ck_assert_int_eq(ifig_species_indices(retarder.species, SODIUM_NM, n, NULL), IFIG_OK);
        for (double nm = 300; nm < 2700; nm += 613) {
            compare_with_waves(lamp, retarder.species, rows[i].view,
                               nm * 1e-6 / fabs(birefringence), n[1], &retarder, nm, 3e-3);
        }
    }
    ifig_lamp_free(lamp);
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(crossed_and_parallel_polars_share_the_light)
{
    double white[3];
    IfigLamp *lamp = lamp_of(_i);
    ifig_lamp_white(lamp, white);
    for (double nm = 0; nm < 6000; nm += 97) {
        const IfigRetardationColour crossed = colour_of(lamp, IFIG_POLARS_CROSSED, NULL, nm);
        const IfigRetardationColour parallel = colour_of(lamp, IFIG_POLARS_PARALLEL, NULL, nm);
        for (int i = 0; i < 3; i++) {
            ck_assert_double_eq_tol(crossed.xyz[i] + parallel.xyz[i], white[i], 1e-12);
        }
    }
    ifig_lamp_free(lamp);
}
END_TEST

START_TEST(colours_bear_the_names_of_quinckes_scale)
{
    /* Quincke's scale as reprinted by Iddings, Johannsen and Winchell, from memory; the words of
     * ours that each name covers, to within the next name (551: deep red, purple),
     * and pale hues with full ones. Second-order
     * green is greenish white to turquoise: Sorensen, Eur. J. Mineral. 25, 5 (2013), abstract: no
     * full green between 700 and 830 nm. */
    static const struct {
        double nm;
        const char *words;
    } scale[] = {{0, "black"},
                 {40, "dark grey|grey"},
                 {259, "white"},
                 {332, "yellow|pale yellow"},
                 {536, "red|purple"},
                 {575, "violet"},
                 {664, "blue|pale blue"},
                 {910, "yellow|pale yellow"},
                 {1128, "violet"},
                 {1258, "blue green"},
                 {1376, "green|yellow green"}};
    IfigLamp *lamp = lamp_of(IFIG_LAMP_DAYLIGHT);
    for (size_t i = 0; i < sizeof scale / sizeof *scale; i++) {
        const IfigRetardationColour colour =
            colour_of(lamp, IFIG_POLARS_CROSSED, NULL, scale[i].nm);
        const char *const name = ifig_colour_text(colour.colour);
        const char *const at = strstr(scale[i].words, name);
        const size_t length = strlen(name);
        ck_assert_msg(at != NULL && (at == scale[i].words || at[-1] == '|') &&
                          (at[length] == '\0' || at[length] == '|'),
                      "%g nm: %s", scale[i].nm, name);
    }
    for (double nm = 720; nm <= 820; nm += 10) {
        const IfigRetardationColour colour = colour_of(lamp, IFIG_POLARS_CROSSED, NULL, nm);
        const double *const rgb = colour.srgb;
        ck_assert_msg(rgb[1] > 0.85 && fmin(rgb[0], rgb[2]) > 0.25, "%g nm is a deep green", nm);
    }
    ifig_lamp_free(lamp);
}
END_TEST

START_TEST(under_a_single_line_an_order_is_a_wavelength_and_ends_dark)
{
    IfigLamp *sodium = lamp_of(IFIG_LAMP_FLUORESCENT + 1), *daylight = lamp_of(IFIG_LAMP_DAYLIGHT);
    ck_assert_double_eq(ifig_order_nm(sodium), SODIUM_NM);
    ck_assert_double_eq(ifig_order_nm(daylight), 551.0);
    for (int order = 1; order <= 8; order++) {
        const double end = order * SODIUM_NM, middle = end - 0.5 * SODIUM_NM;
        ck_assert_double_lt(colour_of(sodium, IFIG_POLARS_CROSSED, NULL, end).xyz[1], 1e-12);
        ck_assert_double_gt(colour_of(sodium, IFIG_POLARS_CROSSED, NULL, middle).xyz[1],
                            1.0 - 1e-12);
    }
    ifig_lamp_free(sodium);
    ifig_lamp_free(daylight);
}
END_TEST

START_TEST(brookite_changes_its_slow_direction_within_the_visible)
{
    /* Its optic axial planes of red and of blue light are crossed: common practice, no source. */
    IfigCatalogue *catalogue = NULL;
    IfigRetarder across = {NULL, IFIG_VIEW_Z};
    double blue, red;
    ck_assert_int_eq(ifig_catalogue_create(&catalogue, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_catalogue_find(catalogue, "brookite", &across.species, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_retarder_birefringence(&across, 486.1, &blue, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_retarder_birefringence(&across, 656.3, &red, NULL), IFIG_OK);
    ck_assert_double_lt(blue * red, 0.0);
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(what_cannot_be_is_refused)
{
    IfigSpecies *stone = uniaxial_stone(1.5, 1.6), *glass = NULL;
    IfigLamp *lamp = lamp_of(IFIG_LAMP_DAYLIGHT);
    const double n = 1.5, nm = 100, too_much = 1e6, none = NAN;
    IfigRetarder retarder = {stone, IFIG_VIEW_DEFAULT};
    IfigRetardationColour colour;
    double value;
    ck_assert_int_eq(ifig_species_from_indices(&n, 1, 0, &glass, NULL), IFIG_OK);
    ck_assert(!ifig_retarder_is_dispersed(&retarder));
    ck_assert(!ifig_retarder_is_dispersed(NULL));
#define REFUSED(status, lamp, polars, retarder, nm, colours)                                       \
    ck_assert_int_eq(ifig_retardation_colours(lamp, polars, retarder, nm, 1, colours, NULL), status)
    REFUSED(IFIG_ERROR_ARGUMENT, NULL, IFIG_POLARS_CROSSED, NULL, &nm, &colour);
    REFUSED(IFIG_ERROR_ARGUMENT, lamp, IFIG_POLARS_OTHER, NULL, &nm, &colour);
    REFUSED(IFIG_ERROR_ARGUMENT, lamp, IFIG_POLARS_CROSSED, NULL, NULL, &colour);
    REFUSED(IFIG_ERROR_ARGUMENT, lamp, IFIG_POLARS_CROSSED, NULL, &nm, NULL);
    REFUSED(IFIG_ERROR_RANGE, lamp, IFIG_POLARS_CROSSED, NULL, &too_much, &colour);
    REFUSED(IFIG_ERROR_RANGE, lamp, IFIG_POLARS_CROSSED, NULL, &none, &colour);
    retarder.section = IFIG_VIEW_Z;
    REFUSED(IFIG_ERROR_UNSUITABLE, lamp, IFIG_POLARS_CROSSED, &retarder, &nm, &colour);
    retarder.section = IFIG_VIEW_C;
    REFUSED(IFIG_ERROR_ARGUMENT, lamp, IFIG_POLARS_CROSSED, &retarder, &nm, &colour);
    retarder = (IfigRetarder){glass, IFIG_VIEW_DEFAULT};
    REFUSED(IFIG_ERROR_UNSUITABLE, lamp, IFIG_POLARS_CROSSED, &retarder, &nm, &colour);
    ck_assert_int_eq(ifig_retarder_birefringence(NULL, 589.3, &value, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_retarder_birefringence(&retarder, 3, &value, NULL), IFIG_ERROR_RANGE);
    ifig_lamp_free(lamp);
    ifig_species_free(glass);
    ifig_species_free(stone);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("retardation");
    const int lamps = IFIG_LAMP_FLUORESCENT + 2;
    tcase_set_timeout(facts, 60);
    tcase_add_loop_test(facts, the_usual_colours_are_those_of_a_plate_without_dispersion, 0, lamps);
    tcase_add_test(facts, a_stones_own_colours_are_those_of_its_waves);
    tcase_add_loop_test(facts, crossed_and_parallel_polars_share_the_light, 0, lamps);
    tcase_add_test(facts, colours_bear_the_names_of_quinckes_scale);
    tcase_add_test(facts, under_a_single_line_an_order_is_a_wavelength_and_ends_dark);
    tcase_add_test(facts, brookite_changes_its_slow_direction_within_the_visible);
    tcase_add_test(facts, what_cannot_be_is_refused);
    return run_case(facts, "colours of retardation");
}
