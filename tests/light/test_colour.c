/* SPDX-License-Identifier: MIT */
/* Adaptation, gamut mapping and the sRGB encoding. */
#include "light_test.h"

#include <math.h>

static const double srgb_white[3] = {0.3127 / 0.3290, 1.0, 0.3583 / 0.3290};
/* IEC 61966-2-1 prints 0.2126, 0.7152, 0.0722; further digits from its primaries and white. */
static const double luminance[3] = {0.2126390059, 0.7151686788, 0.0721923154};

static double luminance_of(const double rgb[3])
{
    return luminance[0] * rgb[0] + luminance[1] * rgb[1] + luminance[2] * rgb[2];
}

static void multiply(const double a[3][3], const double b[3][3], double result[3][3])
{
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            result[i][j] = a[i][0] * b[0][j] + a[i][1] * b[1][j] + a[i][2] * b[2][j];
        }
    }
}

/* XYZ -> linear sRGB, without adaptation. */
static void srgb_matrix(double matrix[3][3])
{
    IfigLamp *lamp = make_lamp(IFIG_LAMP_DAYLIGHT);
    double white[3];
    double adapted[3][3];
    double back[3][3];
    ifig_lamp_white(lamp, white);
    ifig_colour_matrix(lamp, 0, adapted);
    ifig_bradford_matrix(srgb_white, white, back);
    multiply((const double(*)[3])adapted, (const double(*)[3])back, matrix);
    ifig_lamp_free(lamp);
}

START_TEST(white_of_every_lamp_becomes_one_one_one)
{
    IfigLamp *lamp = make_lamp((IfigLampKind)_i);
    double white[3];
    double rgb[3];
    ifig_lamp_white(lamp, white);
    ifig_colour_linear(lamp, white, 0, rgb);
    for (int i = 0; i < 3; i++) {
        ck_assert_double_eq_tol(rgb[i], 1.0, 1e-12);
    }
    ifig_colour_linear(lamp, white, -3, rgb);
    for (int i = 0; i < 3; i++) {
        ck_assert_double_eq_tol(rgb[i], 0.125, 1e-12);
    }
    ifig_lamp_free(lamp);
}
END_TEST

START_TEST(matrix_is_the_published_one_of_srgb)
{
    /* IEC 61966-2-1:1999, equation of clause 5.2, four digits, themselves the inverse of four
     * digits: off by up to 4e-4. */
    static const double published[3][3] = {
        {3.2406, -1.5372, -0.4986}, {-0.9689, 1.8758, 0.0415}, {0.0557, -0.2040, 1.0570}};
    /* CSS Color 4 (W3C), sample code, from the same chromaticities, from memory. */
    static const double exact[3][3] = {
        {3.2409699419045213, -1.5373831775700935, -0.4986107602930033},
        {-0.9692436362808798, 1.8759675015077206, 0.0415550574071756},
        {0.0556300796969936, -0.2039769588889765, 1.0569715142428784}};
    double matrix[3][3];
    srgb_matrix(matrix);
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            ck_assert_double_eq_tol(matrix[i][j], published[i][j], 4e-4);
            ck_assert_double_eq_tol(matrix[i][j], exact[i][j], 1e-12);
        }
    }
}
END_TEST

START_TEST(bradford_matrix_from_tungsten_to_daylight_is_the_published_one)
{
    /* Lindbloom, Chromatic Adaptation (web page), A to D65, as copied in several open programs; its
     * whites are those of ASTM E308. Seven digits. */
    static const double a[3] = {1.09850, 1.0, 0.35585};
    static const double d65[3] = {0.95047, 1.0, 1.08883};
    static const double published[3][3] = {{0.8446965, -0.1179225, 0.3948108},
                                           {-0.1366303, 1.1041226, 0.1291718},
                                           {0.0798489, -0.1348999, 3.1924009}};
    double matrix[3][3];
    ifig_bradford_matrix(a, d65, matrix);
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            ck_assert_double_eq_tol(matrix[i][j], published[i][j], 1e-7);
        }
    }
}
END_TEST

START_TEST(sodium_light_is_shown_yellow_and_as_bright_as_a_screen_can)
{
    IfigLamp *lamp = make_line(589.3);
    double white[3];
    double rgb[3];
    ifig_lamp_white(lamp, white);
    ifig_colour_linear(lamp, white, 0, rgb);
    ck_assert_double_lt(rgb[2], 0.0);
    const double brightness = luminance_of(rgb);
    ifig_colour_into_gamut(rgb);
    ck_assert_double_eq_tol(rgb[0], 1.0, 1e-12);
    ck_assert_double_eq_tol(rgb[2], 0.0, 1e-12);
    ck_assert(rgb[1] > 0.2 && rgb[1] < 0.8);
    ck_assert_double_eq_tol(luminance_of(rgb), brightness, 1e-9);
    ifig_lamp_free(lamp);
}
END_TEST

START_TEST(every_line_reaches_the_edge_of_the_gamut_and_keeps_its_hue)
{
    /* Same hue: the colour lies on the straight line from the grey to the lamp's own colour. */
    double matrix[3][3];
    srgb_matrix(matrix);
    for (int wavelength = 380; wavelength <= 780; wavelength++) {
        IfigLamp *lamp = make_line(wavelength);
        double white[3];
        double rgb[3];
        double own[3];
        ifig_lamp_white(lamp, white);
        ifig_colour_linear(lamp, white, 0, rgb);
        ifig_colour_into_gamut(rgb);
        ck_assert_double_eq_tol(fmax(rgb[0], fmax(rgb[1], rgb[2])), 1.0, 1e-12);
        ck_assert_double_eq_tol(fmin(rgb[0], fmin(rgb[1], rgb[2])), 0.0, 1e-12);
        const double grey = luminance_of(rgb);
        for (int i = 0; i < 3; i++) {
            own[i] = matrix[i][0] * white[0] + matrix[i][1] * white[1] + matrix[i][2] * white[2];
        }
        ck_assert_double_eq_tol((rgb[0] - grey) * (own[1] - 1.0), (rgb[1] - grey) * (own[0] - 1.0),
                                1e-8 * (1.0 + fabs(own[0]) + fabs(own[1])));
        ifig_lamp_free(lamp);
    }
}
END_TEST

START_TEST(half_the_transmittance_in_sodium_light_is_half_as_bright_and_as_yellow)
{
    IfigLamp *lamp = make_line(589.3);
    double xyz[3];
    double full[3];
    double half[3];
    ifig_lamp_white(lamp, xyz);
    ifig_colour_linear(lamp, xyz, 0, full);
    ifig_colour_linear(lamp, xyz, -1, half);
    ifig_colour_into_gamut(full);
    ifig_colour_into_gamut(half);
    for (int i = 0; i < 3; i++) {
        ck_assert_double_eq_tol(half[i], full[i] / 2, 1e-12);
    }
    ifig_lamp_free(lamp);
}
END_TEST

START_TEST(gamut_mapping_keeps_luminance_and_direction)
{
    /* A deterministic cloud of colours, -1 to 2 in each component. */
    unsigned state = 1;
    int inside = 0;
    int mapped = 0;
    for (int n = 0; n < 20000; n++) {
        double before[3];
        double rgb[3];
        for (int i = 0; i < 3; i++) {
            state = state * 1664525u + 1013904223u;
            before[i] = rgb[i] = 3.0 * (state >> 8) / 16777216.0 - 1.0;
        }
        const double grey = luminance_of(before);
        ifig_colour_into_gamut(rgb);
        const double least = fmin(before[0], fmin(before[1], before[2]));
        const double most = fmax(before[0], fmax(before[1], before[2]));
        if (least >= 0 && most <= 1) {
            ck_assert(rgb[0] == before[0] && rgb[1] == before[1] && rgb[2] == before[2]);
            inside++;
        } else if (grey > 1e-9 && grey < 1 - 1e-9) {
            ck_assert_double_eq_tol(luminance_of(rgb), grey, 1e-8);
            ck_assert_double_eq_tol((rgb[0] - grey) * (before[1] - grey),
                                    (rgb[1] - grey) * (before[0] - grey), 1e-8);
            const double edge =
                fmin(fmin(rgb[0], fmin(rgb[1], rgb[2])), 1.0 - fmax(rgb[0], fmax(rgb[1], rgb[2])));
            ck_assert_double_eq_tol(edge, 0.0, 1e-12); /* no further than needed */
            mapped++;
        }
        for (int i = 0; i < 3; i++) {
            ck_assert(rgb[i] >= 0 && rgb[i] <= 1);
        }
    }
    ck_assert_int_gt(inside, 200);
    ck_assert_int_gt(mapped, 5000);
}
END_TEST

START_TEST(gamut_mapping_leaves_nothing_outside_whatever_comes)
{
    static const double odd[] = {NAN, INFINITY, -INFINITY, 1e308, -1e308, 0, 1, 0.5, -1e-320};
    enum { COUNT = sizeof odd / sizeof odd[0] };
    for (int n = 0; n < COUNT * COUNT * COUNT; n++) {
        double rgb[3] = {odd[n % COUNT], odd[n / COUNT % COUNT], odd[n / COUNT / COUNT]};
        ifig_colour_into_gamut(rgb);
        for (int i = 0; i < 3; i++) {
            ck_assert(rgb[i] >= 0 && rgb[i] <= 1);
        }
    }
    double bright[3] = {3.0, 0.9, -0.1};
    double dark[3] = {0.1, -0.5, 0.3};
    ifig_colour_into_gamut(bright);
    ifig_colour_into_gamut(dark);
    for (int i = 0; i < 3; i++) {
        ck_assert_double_eq(bright[i], 1.0);
        ck_assert_double_eq(dark[i], 0.0);
    }
}
END_TEST

START_TEST(luminance_weights_belong_to_the_matrix)
{
    /* They are the Y row of the matrix's inverse, and gamut mapping judges brightness by them: just
     * below luminance 1 a colour stays a colour, just above it is white. */
    double matrix[3][3];
    srgb_matrix(matrix);
    for (int j = 0; j < 3; j++) {
        double column = 0.0;
        for (int i = 0; i < 3; i++) {
            column += luminance[i] * matrix[i][j];
        }
        ck_assert_double_eq_tol(column, j == 1 ? 1.0 : 0.0, 1e-9);
    }
    for (int i = 0; i < 3; i++) {
        double below[3] = {0.0, 0.0, 0.0};
        double above[3] = {0.0, 0.0, 0.0};
        below[i] = (1.0 - 1e-8) / luminance[i];
        above[i] = (1.0 + 1e-8) / luminance[i];
        ifig_colour_into_gamut(below);
        ifig_colour_into_gamut(above);
        ck_assert_double_lt(fmin(below[0], fmin(below[1], below[2])), 1.0);
        ck_assert(above[0] == 1 && above[1] == 1 && above[2] == 1);
    }
}
END_TEST

START_TEST(srgb_encoding_has_its_published_values)
{
    /* IEC 61966-2-1:1999, clause 5.2: the constants as printed. */
    ck_assert_double_eq(ifig_srgb_encode(0.002), 12.92 * 0.002);
    ck_assert_double_eq(ifig_srgb_encode(0.0031308), 12.92 * 0.0031308);
    ck_assert_double_eq_tol(ifig_srgb_encode(0.5), 1.055 * pow(0.5, 1.0 / 2.4) - 0.055, 1e-15);
    ck_assert_double_eq_tol(ifig_srgb_encode(1.0), 1.0, 1e-15);
    ck_assert_double_eq(ifig_srgb_decode(0.04045), 0.04045 / 12.92);
    /* From memory: middle grey 0.18 is 46.1 %, code 128 is 21.586 % linear. */
    ck_assert_double_eq_tol(ifig_srgb_encode(0.18), 0.46136, 1e-5);
    ck_assert_double_eq_tol(ifig_srgb_decode(128.0 / 255.0), 0.21586, 1e-5);
}
END_TEST

START_TEST(srgb_encoding_clamps_and_never_gives_nan)
{
    ck_assert_double_eq(ifig_srgb_encode(-0.1), 0);
    ck_assert_double_eq(ifig_srgb_encode(NAN), 0);
    ck_assert_double_eq(ifig_srgb_encode(-INFINITY), 0);
    ck_assert_double_eq_tol(ifig_srgb_encode(INFINITY), 1, 1e-15);
    ck_assert_double_eq(ifig_srgb_decode(NAN), 0);
    ck_assert_double_eq_tol(ifig_srgb_decode(7), 1, 1e-15);
}
END_TEST

START_TEST(srgb_decoding_undoes_the_encoding_of_every_16_bit_code)
{
    /* The standard's two branches miss each other by 3e-8 at the seam; 16 bits are 1.5e-5. */
    double before = -1.0;
    for (int code = 0; code <= 65535; code++) {
        const double encoded = code / 65535.0;
        const double linear = ifig_srgb_decode(encoded);
        ck_assert_double_eq_tol(ifig_srgb_encode(linear), encoded, 5e-8);
        ck_assert_double_gt(linear, before);
        before = linear;
    }
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("facts");
    tcase_add_loop_test(facts, white_of_every_lamp_becomes_one_one_one, 0, 4);
    tcase_add_test(facts, matrix_is_the_published_one_of_srgb);
    tcase_add_test(facts, bradford_matrix_from_tungsten_to_daylight_is_the_published_one);
    tcase_add_test(facts, sodium_light_is_shown_yellow_and_as_bright_as_a_screen_can);
    tcase_add_test(facts, every_line_reaches_the_edge_of_the_gamut_and_keeps_its_hue);
    tcase_add_test(facts, half_the_transmittance_in_sodium_light_is_half_as_bright_and_as_yellow);
    tcase_add_test(facts, gamut_mapping_keeps_luminance_and_direction);
    tcase_add_test(facts, gamut_mapping_leaves_nothing_outside_whatever_comes);
    tcase_add_test(facts, luminance_weights_belong_to_the_matrix);
    tcase_add_test(facts, srgb_encoding_has_its_published_values);
    tcase_add_test(facts, srgb_encoding_clamps_and_never_gives_nan);
    tcase_add_test(facts, srgb_decoding_undoes_the_encoding_of_every_16_bit_code);
    return run_case(facts, "colour");
}
