/* SPDX-License-Identifier: MIT */
/* Body colours: words, bands, and what published spectra and handbooks say of them. */
#include <stdio.h>

#include "interfig/light.h"
#include "species_test.h"

static int colour_of(const char *key, const char *word)
{
    int colour = ifig_species_colour_of_word(builtin(key), word);
    ck_assert_msg(colour > 0, "%s has no colour '%s'", key, word);
    return colour;
}

/* Absorption per mm of light that vibrates along an axis (0, 1, 2: X, Y, Z). */
static double absorbed(const char *key, const char *word, int axis, double nm)
{
    double per_mm[3];
    ck_assert_int_eq(ifig_species_absorption(builtin(key), colour_of(key, word), nm, per_mm, NULL),
                     IFIG_OK);
    return per_mm[axis];
}

START_TEST(a_variety_turns_its_colour_on_in_any_spelling)
{
    const IfigSpecies *corundum = builtin("corundum");
    static const char with_umlaut[] = "r\xc3\xbc\x62y"; /* UTF-8, U+00FC */
    const char *const spellings[] = {"ruby", "Ruby", "RUBY", " ruby ", with_umlaut};
    ck_assert_int_eq(ifig_species_colour_count(corundum), 3);
    for (size_t i = 0; i < 5; i++) {
        int colour = ifig_species_colour_of_word(corundum, spellings[i]);
        ck_assert_int_gt(colour, 0);
        ck_assert_str_eq(ifig_species_colour_name(corundum, colour), "ruby");
    }
    ck_assert_int_eq(ifig_species_colour_of_word(corundum, "blue-sapphire"),
                     ifig_species_colour_of_word(corundum, "Blue Sapphire"));
}
END_TEST

START_TEST(a_word_that_is_no_variety_turns_nothing_on)
{
    const IfigSpecies *corundum = builtin("corundum");
    static const char *const words[] = {"",      "corundum",      "emerald", "rub",
                                        "rubyx", "ruby;sapphire", ";"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        ck_assert_msg(ifig_species_colour_of_word(corundum, words[i]) == 0, "'%s'", words[i]);
    }
    ck_assert_int_eq(ifig_species_colour_of_word(corundum, NULL), 0);
    ck_assert_int_eq(ifig_species_colour_of_word(NULL, "ruby"), 0);
    ck_assert_int_eq(ifig_species_colour_of_word(builtin("emerald"), "ruby"), 0);
    ck_assert_int_eq(ifig_species_colour_count(builtin("topaz_f")), 0);
    ck_assert_int_eq(ifig_species_colour_count(NULL), 0);
    ck_assert_ptr_null(ifig_species_colour_name(corundum, 0));
    ck_assert_ptr_null(ifig_species_colour_name(corundum, 4));
    ck_assert_str_eq(ifig_species_colour_source(corundum, 0), "");
}
END_TEST

START_TEST(each_word_leads_to_its_species_and_each_colour_to_a_source)
{
    IfigCatalogue *catalogue = make_catalogue();
    for (size_t i = 0; i < ifig_builtin_colour_count; i++) {
        const IfigBodyColour *colour = &ifig_builtin_colours[i];
        const char *at = colour->words;
        ck_assert_uint_gt(strlen(colour->source), 20);
        while (*at != '\0') {
            char word[64];
            const IfigSpecies *species = NULL;
            size_t length = strcspn(at, ";");
            snprintf(word, sizeof word, "%.*s", (int)length, at);
            ck_assert_msg(ifig_catalogue_find(catalogue, word, &species, NULL) == IFIG_OK, "%s",
                          word);
            ck_assert_str_eq(ifig_species_text(species, IFIG_TEXT_KEY), colour->species_key);
            ck_assert_int_gt(ifig_species_colour_of_word(species, word), 0);
            at += length + (at[length] == ';');
        }
    }
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(a_stone_of_the_users_own_has_no_body_colour)
{
    IfigSpecies *species = NULL;
    IfigSpeciesRecord record = record_of(IFIG_UNIAXIAL, 1.77, 1.77, 1.76);
    record.text[IFIG_TEXT_KEY] = "corundum";
    ck_assert_int_eq(ifig_species_create(&record, &species, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_species_colour_of_word(species, "ruby"), 0);
    ck_assert(isnan(ifig_species_stress_optic_per_tpa(species)));
    ifig_species_free(species);
}
END_TEST

START_TEST(a_band_stands_at_half_its_height_at_half_its_width)
{
    /* absorption.csv, o ray of blue zircon: 638 nm, full width at half height 171 nm, 0.34 per mm,
     * in wavenumber; its other band, 260 nm, is nothing there */
    const double centre = 1.0 / 638.0, half = 0.5 * 171.0 / (638.0 * 638.0);
    ck_assert_double_eq_tol(absorbed("zircon_high", "blue zircon", 0, 638.0), 0.34, 1e-6);
    ck_assert_double_eq_tol(absorbed("zircon_high", "blue zircon", 0, 1.0 / (centre + half)), 0.17,
                            1e-6);
    ck_assert_double_eq_tol(absorbed("zircon_high", "blue zircon", 0, 1.0 / (centre - half)), 0.17,
                            1e-6);
}
END_TEST

START_TEST(the_rays_of_a_stone_are_its_axes)
{
    for (int nm = 380; nm <= 780; nm += 10) {
        /* uniaxial: X and Y are the o ray */
        ck_assert_double_eq(absorbed("corundum", "ruby", 0, nm),
                            absorbed("corundum", "ruby", 1, nm));
        ck_assert_double_eq(absorbed("spinel", "red spinel", 0, nm),
                            absorbed("spinel", "red spinel", 2, nm));
    }
    ck_assert_double_gt(
        fabs(absorbed("iolite", "iolite", 0, 570) - absorbed("iolite", "iolite", 1, 570)), 0.1);
}
END_TEST

START_TEST(without_a_colour_nothing_is_absorbed)
{
    double per_mm[3] = {1, 1, 1};
    ck_assert_int_eq(ifig_species_absorption(builtin("corundum"), 0, 550, per_mm, NULL), IFIG_OK);
    for (int i = 0; i < 3; i++) {
        ck_assert_double_eq(per_mm[i], 0.0);
    }
}
END_TEST

START_TEST(colours_and_wavelengths_out_of_range_are_refused)
{
    double per_mm[3];
    const IfigSpecies *corundum = builtin("corundum");
    static const struct {
        int colour;
        double nm;
    } cases[] = {{-1, 550}, {4, 550}, {1, 359.9}, {1, 830.1}, {1, NAN}, {1, INFINITY}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        ck_assert_int_eq(
            ifig_species_absorption(corundum, cases[i].colour, cases[i].nm, per_mm, NULL),
            IFIG_ERROR_RANGE);
    }
    ck_assert_int_eq(ifig_species_absorption(NULL, 0, 550, per_mm, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_species_absorption(corundum, 0, 550, NULL, NULL), IFIG_ERROR_ARGUMENT);
}
END_TEST

/* The wavelength of the most absorption between two others. */
static double darkest(const char *key, const char *word, int axis, double from, double to)
{
    const IfigSpecies *species = builtin(key);
    int colour = colour_of(key, word);
    double at = from, most = 0;
    for (double nm = from; nm <= to; nm += 0.5) {
        double per_mm[3];
        ck_assert_int_eq(ifig_species_absorption(species, colour, nm, per_mm, NULL), IFIG_OK);
        at = per_mm[axis] > most ? nm : at;
        most = fmax(most, per_mm[axis]);
    }
    return at;
}

START_TEST(bands_stand_where_published_spectra_have_them)
{
    static const struct {
        const char *key, *word;
        int axis;
        double from, to, published, tolerance;
    } bands[] = {
        /* McClure, J. Chem. Phys. 36, 2757 (1962), from memory */
        {"corundum", "ruby", 0, 480, 650, 556, 8},
        {"corundum", "ruby", 2, 500, 650, 546, 10}, /* its blue flank is a band of its own here */
        {"corundum", "ruby", 0, 380, 450, 408, 8},
        /* 430 and 600 nm, text of polarised spectra, seen; the rays after Wood & Nassau, Am.
         * Mineral. 53, 777 (1968), from memory */
        {"emerald", "emerald", 0, 380, 500, 430, 8},
        {"emerald", "emerald", 0, 520, 700, 604, 8},
        {"emerald", "emerald", 2, 520, 700, 630, 8},
        /* 16100 cm-1 along c: Parkin, Loeffler & Burns, Phys. Chem. Minerals 1, 301 (1977),
         * abstract seen */
        {"aquamarine", "aquamarine", 2, 500, 700, 621, 8},
        /* about 650 nm: Renfro, Gems & Gemology 52, 3 (2016), abstract seen */
        {"zircon_high", "blue zircon", 0, 500, 750, 650, 15},
        /* 18570 cm-1: Sci. Rep. 13 (2023), abstract seen */
        {"spinel", "red spinel", 0, 500, 650, 538.5, 8},
        /* two bands, 580 to 710 nm: Wongrawang et al., Mater. Res. Express 3, 026201 (2016), quoted
         */
        {"corundum", "blue sapphire", 0, 500, 780, 645, 65},
        {"corundum", "blue sapphire", 2, 500, 780, 645, 65},
    };
    for (size_t i = 0; i < sizeof bands / sizeof *bands; i++) {
        double at = darkest(bands[i].key, bands[i].word, bands[i].axis, bands[i].from, bands[i].to);
        ck_assert_msg(fabs(at - bands[i].published) <= bands[i].tolerance,
                      "%s, axis %d: darkest at %.1f nm, published %.1f", bands[i].word,
                      bands[i].axis, at, bands[i].published);
    }
}
END_TEST

START_TEST(the_o_ray_of_ruby_absorbs_green_1_8_times_as_much_as_the_e_ray)
{
    /* Cronemeyer, J. Opt. Soc. Am. 56, 1703 (1966), from memory */
    double o = absorbed("corundum", "ruby", 0, 556), e = absorbed("corundum", "ruby", 2, 546);
    ck_assert_double_eq_tol(o / e, 1.8, 0.2);
    /* both rays let red pass (the stone is red) */
    ck_assert_double_lt(absorbed("corundum", "ruby", 0, 680), 0.1 * o);
    ck_assert_double_lt(absorbed("corundum", "ruby", 2, 680), 0.1 * e);
}
END_TEST

/* CIELAB (CIE 015:2018, 8.2.1) of the mean of the three rays through a thickness, as an eye adapted
 * to the lamp sees it. */
typedef struct Lab {
    double lightness, a, b;
} Lab;

static double root_of(double t)
{
    const double d = 6.0 / 29.0;
    return t > d * d * d ? cbrt(t) : t / (3.0 * d * d) + 4.0 / 29.0;
}

static Lab seen(const char *key, const char *word, double thickness_mm, IfigLampKind kind)
{
    static const double matrix[3][3] = {{0.4124, 0.3576, 0.1805}, /* IEC 61966-2-1 */
                                        {0.2126, 0.7152, 0.0722},
                                        {0.0193, 0.1192, 0.9505}};
    IfigLamp *lamp = NULL;
    const IfigSpecies *species = builtin(key);
    int colour = colour_of(key, word);
    double xyz[3] = {0, 0, 0}, white = 0, rgb[3], root[3];
    ck_assert_int_eq(ifig_lamp_create(kind, &lamp, NULL), IFIG_OK);
    for (int nm = 380; nm <= 780; nm++) {
        double observer[3], per_mm[3], through = 0, power = ifig_lamp_power(lamp, nm);
        ck_assert_int_eq(ifig_species_absorption(species, colour, nm, per_mm, NULL), IFIG_OK);
        for (int axis = 0; axis < 3; axis++) {
            through += exp(-thickness_mm * per_mm[axis]) / 3.0;
        }
        ifig_colour_matching(nm, observer);
        white += power * observer[1];
        for (int i = 0; i < 3; i++) {
            xyz[i] += power * observer[i] * through;
        }
    }
    for (int i = 0; i < 3; i++) {
        xyz[i] /= white;
    }
    ifig_colour_linear(lamp, xyz, 0, rgb);
    ifig_lamp_free(lamp);
    for (int i = 0; i < 3; i++) {
        const double *m = matrix[i];
        root[i] = root_of((m[0] * rgb[0] + m[1] * rgb[1] + m[2] * rgb[2]) / (m[0] + m[1] + m[2]));
    }
    return (Lab){116 * root[1] - 16, 500 * (root[0] - root[1]), 200 * (root[1] - root[2])};
}

START_TEST(alexandrite_is_bluish_green_by_day_and_reddish_by_tungsten_light)
{
    /* common practice, no source */
    for (double thickness = 3; thickness <= 5; thickness++) {
        Lab day = seen("alexandrite", "alexandrite", thickness, IFIG_LAMP_DAYLIGHT);
        Lab lamp = seen("alexandrite", "alexandrite", thickness, IFIG_LAMP_TUNGSTEN);
        ck_assert_msg(day.a < -3, "day: a %.1f, b %.1f", day.a, day.b);
        ck_assert_msg(lamp.a > 3, "lamp: a %.1f, b %.1f", lamp.a, lamp.b);
    }
}
END_TEST

START_TEST(stones_have_the_hue_of_their_name)
{
    /* common practice, no source: degrees of the CIELAB hue angle, 0 red, 90 yellow, 180 green, 270
     * blue */
    static const struct {
        const char *key, *word;
        double from, to;
    } stones[] = {
        {"corundum", "ruby", -30, 40},
        {"corundum", "blue sapphire", 230, 310},
        {"corundum", "yellow sapphire", 60, 115},
        {"emerald", "emerald", 130, 190},
        {"aquamarine", "aquamarine", 170, 270},
        {"tourmaline_elbaite", "green tourmaline", 110, 180},
        {"tourmaline_elbaite", "rubellite", -40, 40},
        {"tanzanite", "tanzanite", 250, 330},
        {"peridot", "peridot", 90, 140},
        {"quartz", "amethyst", 290, 340},
        {"quartz", "citrine", 60, 110},
        {"spodumene", "kunzite", 300, 360},
        {"zircon_high", "blue zircon", 170, 280},
        {"spinel", "red spinel", -30, 45},
        {"iolite", "iolite", 240, 320},
    };
    for (size_t i = 0; i < sizeof stones / sizeof *stones; i++) {
        Lab lab = seen(stones[i].key, stones[i].word, 3, IFIG_LAMP_DAYLIGHT);
        double hue = atan2(lab.b, lab.a) * 180.0 / acos(-1.0);
        hue += hue < stones[i].from ? 360.0 : 0.0;
        hue -= hue >= stones[i].from + 360.0 ? 360.0 : 0.0;
        ck_assert_msg(hue <= stones[i].to && hypot(lab.a, lab.b) > 3,
                      "%s: hue %.0f, chroma %.1f, lightness %.0f", stones[i].word, hue,
                      hypot(lab.a, lab.b), lab.lightness);
    }
}
END_TEST

START_TEST(what_is_no_colour_of_a_stone_has_no_source)
{
    const IfigSpecies *corundum = builtin("corundum");
    char endless[4000];
    memset(endless, 'r', sizeof endless - 1);
    endless[sizeof endless - 1] = '\0';
    ck_assert_str_ne(ifig_species_colour_source(corundum, 1), "");
    ck_assert_str_eq(ifig_species_colour_source(corundum, 0), "");
    ck_assert_str_eq(ifig_species_colour_source(corundum, 99), "");
    ck_assert_str_eq(ifig_species_colour_source(builtin("spinel"), 99), "");
    ck_assert_int_eq(ifig_species_colour_of_word(corundum, endless), 0);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("colours");
    tcase_add_test(facts, a_variety_turns_its_colour_on_in_any_spelling);
    tcase_add_test(facts, a_word_that_is_no_variety_turns_nothing_on);
    tcase_add_test(facts, each_word_leads_to_its_species_and_each_colour_to_a_source);
    tcase_add_test(facts, a_stone_of_the_users_own_has_no_body_colour);
    tcase_add_test(facts, a_band_stands_at_half_its_height_at_half_its_width);
    tcase_add_test(facts, the_rays_of_a_stone_are_its_axes);
    tcase_add_test(facts, without_a_colour_nothing_is_absorbed);
    tcase_add_test(facts, colours_and_wavelengths_out_of_range_are_refused);
    tcase_add_test(facts, bands_stand_where_published_spectra_have_them);
    tcase_add_test(facts, the_o_ray_of_ruby_absorbs_green_1_8_times_as_much_as_the_e_ray);
    tcase_add_test(facts, alexandrite_is_bluish_green_by_day_and_reddish_by_tungsten_light);
    tcase_add_test(facts, stones_have_the_hue_of_their_name);
    tcase_add_test(facts, what_is_no_colour_of_a_stone_has_no_source);
    return run_case(facts, "colours");
}
