/* SPDX-License-Identifier: MIT */
/* Body colours as hues. */
#include "advice.h"

#include "base.h"

#include <math.h>
#include <string.h>

static const double NOMINAL_MM = 3.0; /* the depth that absorption.csv is drawn for */

typedef struct HueWord {
    const char *word;
    unsigned hues;
} HueWord;

#define HUE_BIT(hue) (1u << (hue))
#define HUE(name)    HUE_BIT(IFIG_HUE_##name)

/* The first IFIG_HUE_COUNT words name one hue each, in the order of IfigHue. */
static const HueWord HUE_WORDS[] = {
    {"colourless", HUE(NEUTRAL)},
    {"red", HUE(RED)},
    {"orange", HUE(ORANGE)},
    {"yellow", HUE(YELLOW)},
    {"yellow green", HUE(YELLOW_GREEN)},
    {"green", HUE(GREEN)},
    {"blue green", HUE(BLUE_GREEN)},
    {"blue", HUE(BLUE)},
    {"violet", HUE(VIOLET)},
    {"purple", HUE(PURPLE)},
    {"neutral", HUE(NEUTRAL)},
    {"white", HUE(NEUTRAL)},
    {"grey", HUE(NEUTRAL)},
    {"black", HUE(NEUTRAL)},
    {"pink", HUE(RED) | HUE(PURPLE)},
    {"brown", HUE(ORANGE) | HUE(YELLOW)},
};

const char *ifig_hue_name(IfigHue hue)
{
    return (int)hue >= 0 && hue < IFIG_HUE_COUNT ? HUE_WORDS[hue].word : NULL;
}

static char folded(char letter)
{
    if (letter == '_' || letter == ' ') {
        return '-';
    }
    return letter >= 'A' && letter <= 'Z' ? (char)(letter - 'A' + 'a') : letter;
}

int ifig_is_alike(const char *text, size_t length, const char *word)
{
    if (strlen(word) != length) {
        return 0;
    }
    for (size_t i = 0; i < length; i++) {
        if (folded(text[i]) != folded(word[i])) {
            return 0;
        }
    }
    return 1;
}

unsigned ifig_hues_of_word(const char *word, size_t length)
{
    for (size_t i = 0; i < sizeof HUE_WORDS / sizeof *HUE_WORDS; i++) {
        if (ifig_is_alike(word, length, HUE_WORDS[i].word)) {
            return HUE_WORDS[i].hues;
        }
    }
    return 0;
}

unsigned ifig_hues_of_list(const char *list)
{
    unsigned hues = 0;
    while (*list != '\0') {
        const size_t length = strcspn(list, ";");
        hues |= ifig_hues_of_word(list, length);
        list += length + (list[length] == ';' ? 1 : 0);
    }
    return hues;
}

/* What passes of the light that vibrates along an axis, or (axis 3) of the mean of the three. */
static double passes(const double per_mm[3], int axis)
{
    double sum = 0;
    for (int i = 0; i < 3; i++) {
        sum += axis == 3 || axis == i ? exp(-per_mm[i] * NOMINAL_MM) : 0.0;
    }
    return axis == 3 ? sum / 3.0 : sum;
}

static IfigStatus hue_along(const IfigStone *stone, const IfigLamp *lamp,
                            const IfigSpectrumSamples *samples, int axis, unsigned *hues,
                            IfigError *error)
{
    double xyz[3] = {0, 0, 0}, rgb[3];
    for (size_t k = 0; k < samples->count; k++) {
        double per_mm[3];
        const IfigStatus status = ifig_species_absorption(stone->species, stone->body_colour,
                                                          samples->wavelength_nm[k], per_mm, error);
        if (status != IFIG_OK) {
            return status;
        }
        for (int i = 0; i < 3; i++) {
            xyz[i] += passes(per_mm, axis) * samples->weight[k][i];
        }
    }
    ifig_colour_linear(lamp, xyz, 0, rgb);
    ifig_colour_into_gamut(rgb);
    for (int i = 0; i < 3; i++) {
        rgb[i] = ifig_srgb_encode(rgb[i]);
    }
    *hues |= HUE_BIT(ifig_colour_of(rgb, 0).hue);
    return IFIG_OK;
}

/* A pleochroic stone is called by any of its colours; a pale direction does not make it colourless.
 */
IfigStatus ifig_hue_of_colour(const IfigStone *stone, unsigned *hues, IfigError *error)
{
    enum { MEAN = 3 };
    IfigLamp *lamp = NULL;
    IfigSpectrumSamples samples = {0};
    unsigned found = 0;
    IfigStatus status = ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &lamp, error);
    if (status == IFIG_OK) {
        status = ifig_lamp_samples(lamp, &samples, error);
    }
    for (int axis = 0; axis <= MEAN && status == IFIG_OK; axis++) {
        status = hue_along(stone, lamp, &samples, axis, &found, error);
    }
    const unsigned coloured = found & ~HUE(NEUTRAL);
    *hues = coloured != 0 ? coloured : found;
    ifig_spectrum_samples_free(&samples);
    ifig_lamp_free(lamp);
    return status;
}
