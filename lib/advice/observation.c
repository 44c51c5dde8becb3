/* SPDX-License-Identifier: MIT */
/* An observation as a user writes it, read and written. */
#include "advice.h"

#include "base.h"
#include "interfig/species_record.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct Word {
    const char *text;
    unsigned bits;
} Word;

/* The words of each clue; the first for a bit is the one it is written by. */
static const Word WORDS[IFIG_CLUE_COUNT][10] = {
    [IFIG_CLUE_REACTION] = {{"SR", 1u << IFIG_REACTION_SR},
                            {"DR", 1u << IFIG_REACTION_DR},
                            {"AGG", 1u << IFIG_REACTION_AGG},
                            {"ADR", 1u << IFIG_REACTION_ADR}},
    [IFIG_CLUE_CHARACTER] = {{"isotropic", 1u << IFIG_ISOTROPIC},
                             {"uniaxial", 1u << IFIG_UNIAXIAL},
                             {"biaxial", 1u << IFIG_BIAXIAL},
                             {"aggregate", 1u << IFIG_AGGREGATE}},
    [IFIG_CLUE_SIGN] = {{"+", IFIG_SIGN_POSITIVE},
                        {"-", IFIG_SIGN_NEGATIVE},
                        {"none", IFIG_SIGN_NONE},
                        {"positive", IFIG_SIGN_POSITIVE},
                        {"negative", IFIG_SIGN_NEGATIVE}},
    [IFIG_CLUE_BULLS_EYE] = {{"no", IFIG_EYE_NO}, {"yes", IFIG_EYE_YES}},
};

static const char *const ALLOWED[IFIG_CLUE_COUNT] = {
    [IFIG_CLUE_REACTION] = "SR, DR, AGG, ADR",
    [IFIG_CLUE_CHARACTER] = "isotropic, uniaxial, biaxial, aggregate",
    [IFIG_CLUE_SIGN] = "+, -, none",
    [IFIG_CLUE_TWO_V] = "degrees from 0 to 90, as 60 or 55-65",
    [IFIG_CLUE_RINGS] = "orders from 0 to 10000, as 4 or 3-5",
    [IFIG_CLUE_BULLS_EYE] = "yes, no",
    [IFIG_CLUE_COLOUR] = "colourless, red, pink, orange, brown, yellow, yellow-green, green, "
                         "blue-green, blue, violet, purple, white, grey, black",
    [IFIG_CLUE_INDEX] = "numbers from 1 to 5, as 1.544 or 1.544-1.553, or over (the "
                        "refractometer's limit)",
    [IFIG_CLUE_BIREFRINGENCE] = "numbers from 0 to 4, as 0.009 or 0.008-0.010",
};

static const double LEAST[IFIG_CLUE_COUNT] = {[IFIG_CLUE_INDEX] = 1.0};
static const double MOST[IFIG_CLUE_COUNT] = {[IFIG_CLUE_TWO_V] = 90.0,
                                             [IFIG_CLUE_RINGS] = 10000.0,
                                             [IFIG_CLUE_INDEX] = 5.0,
                                             [IFIG_CLUE_BIREFRINGENCE] = 4.0};
/* Liquids reach from 1.79 to 1.81. */
static const double OVER = 1.79;

static unsigned bits_of_word(IfigClue clue, const char *text, size_t length)
{
    if (clue == IFIG_CLUE_COLOUR) {
        return ifig_hues_of_word(text, length);
    }
    for (const Word *word = WORDS[clue]; word->text != NULL; word++) {
        if (ifig_is_alike(text, length, word->text)) {
            return word->bits;
        }
    }
    return 0;
}

static IfigStatus refuse_value(IfigClue clue, const char *value, IfigStatus status,
                               IfigError *error)
{
    return ifig_fail(error, status, "%s is '%s'; it takes %s", ifig_clue_name(clue),
                     ifig_word_text(value).text, ALLOWED[clue]);
}

static IfigStatus read_words(const char *value, IfigObservation *observation, IfigError *error)
{
    for (const char *at = value;; at++) {
        const size_t length = strcspn(at, "/");
        const unsigned bits = bits_of_word(observation->clue, at, length);
        if (bits == 0) {
            return refuse_value(observation->clue, value, IFIG_ERROR_SYNTAX, error);
        }
        observation->words |= bits;
        at += length;
        if (*at == '\0') {
            return IFIG_OK;
        }
    }
}

static int read_part(const char *text, size_t length, double *number)
{
    char part[32];
    if (length == 0 || length >= sizeof part) {
        return 0;
    }
    memcpy(part, text, length);
    part[length] = '\0';
    return ifig_number_read(part, number);
}

static void widen(IfigObservation *observation)
{
    const double width = ifig_clue_width(observation->clue);
    observation->low = fmax(LEAST[observation->clue], observation->value - width);
    observation->high = fmin(MOST[observation->clue], observation->value + width);
}

/* The '-' between two numbers: not a sign at the head, nor that of an exponent. NULL without one.
 */
static const char *find_dash(const char *value)
{
    for (const char *at = value; *at != '\0'; at++) {
        if (*at == '-' && at > value && at[-1] != 'e' && at[-1] != 'E') {
            return at;
        }
    }
    return NULL;
}

static IfigStatus read_number(const char *value, IfigObservation *observation, IfigError *error)
{
    const IfigClue clue = observation->clue;
    const size_t length = strlen(value);
    const char *dash = find_dash(value);
    double low = NAN, high = NAN;
    if (clue == IFIG_CLUE_INDEX && ifig_is_alike(value, length, "over")) {
        observation->low = OVER;
        observation->high = MOST[clue];
        return IFIG_OK;
    }
    const int is_range = dash != NULL;
    if (!read_part(value, is_range ? (size_t)(dash - value) : length, &low) ||
        (is_range && !read_part(dash + 1, strlen(dash + 1), &high))) {
        return refuse_value(clue, value, IFIG_ERROR_SYNTAX, error);
    }
    high = is_range ? high : low;
    if (low < LEAST[clue] || high > MOST[clue] || low > high) {
        return refuse_value(clue, value, IFIG_ERROR_RANGE, error);
    }
    observation->low = low;
    observation->high = high;
    if (!is_range) {
        observation->value = low;
        widen(observation);
    }
    return IFIG_OK;
}

static IfigStatus refuse_key(const char *text, size_t length, IfigError *error)
{
    const char *names[IFIG_CLUE_COUNT];
    char key[64] = "";
    strncat(key, text, length < sizeof key ? length : sizeof key - 1);
    for (int i = 0; i < IFIG_CLUE_COUNT; i++) {
        names[i] = ifig_clue_name((IfigClue)i);
    }
    const char *nearest = ifig_nearest_word(key, names, IFIG_CLUE_COUNT);
    return ifig_fail(
        error, IFIG_ERROR_SYNTAX,
        "'%s' cannot be observed%s%s%s; the keys are reaction, character, sign, two-v, "
        "rings, bulls-eye, colour, index, birefringence",
        ifig_word_text(key).text, nearest != NULL ? "; did you mean " : "",
        nearest != NULL ? nearest : "", nearest != NULL ? "?" : "");
}

IfigStatus ifig_observation_read(const char *text, IfigObservation *observation, IfigError *error)
{
    if (text == NULL || observation == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_observation_read: the text or the observation is NULL");
    }
    const size_t length = strcspn(text, "=");
    *observation = (IfigObservation){.low = NAN, .high = NAN, .value = NAN};
    if (text[length] == '\0') {
        return ifig_fail(error, IFIG_ERROR_SYNTAX,
                         "'%s' is no observation; write KEY=VALUE, as reaction=DR",
                         ifig_word_text(text).text);
    }
    for (int i = 0; i < IFIG_CLUE_COUNT; i++) {
        if (ifig_is_alike(text, length, ifig_clue_name((IfigClue)i))) {
            observation->clue = (IfigClue)i;
            return ifig_clue_has_number((IfigClue)i)
                       ? read_number(text + length + 1, observation, error)
                       : read_words(text + length + 1, observation, error);
        }
    }
    return refuse_key(text, length, error);
}

/* The word that a bit is written by. */
static const char *word_of_bit(IfigClue clue, unsigned bit)
{
    if (clue == IFIG_CLUE_COLOUR) {
        for (int i = 0; i < IFIG_HUE_COUNT; i++) {
            if (1u << i == bit) {
                return ifig_hue_name((IfigHue)i);
            }
        }
    }
    for (const Word *word = WORDS[clue]; clue != IFIG_CLUE_COLOUR && word->text != NULL; word++) {
        if (word->bits == bit) {
            return word->text;
        }
    }
    return "";
}

IfigObservationText ifig_observation_text(const IfigObservation *observation)
{
    IfigObservationText said = {""};
    const char *name = observation != NULL ? ifig_clue_name(observation->clue) : NULL;
    if (name == NULL) {
        return said;
    }
    int used = snprintf(said.text, sizeof said.text, "%s=", name);
    if (ifig_clue_has_number(observation->clue)) {
        const int is_single = !isnan(observation->value);
        snprintf(said.text + used, sizeof said.text - (size_t)used, "%s%s%s",
                 ifig_number_text(is_single ? observation->value : observation->low, 6).text,
                 is_single ? "" : "-",
                 is_single ? "" : ifig_number_text(observation->high, 6).text);
        return said;
    }
    for (unsigned bit = 1, index = 0; bit <= observation->words; bit <<= 1) {
        if ((observation->words & bit) != 0 && used < (int)sizeof said.text) {
            used += snprintf(said.text + used, sizeof said.text - (size_t)used, "%s%s",
                             index++ > 0 ? "/" : "", word_of_bit(observation->clue, bit));
        }
    }
    return said;
}
