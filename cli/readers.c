/* SPDX-License-Identifier: MIT */
/* The values of options: from a word of the command line into the settings. */
#include <string.h>
#include <unistd.h>

#include "options.h"

#define WRONG(wrong, ...) snprintf((wrong)->text, sizeof(wrong)->text, __VA_ARGS__)

enum { NUMBERS_MAX = 3 };

/* A slip that deserves its own advice: "2,5" for 2.5. 1 where it was one. */
static int blame_comma(const char *text, IfigCliWrong *wrong)
{
    char copy[40];
    double value;
    char *comma;
    snprintf(copy, sizeof copy, "%s", text);
    comma = strchr(copy, ',');
    if (comma == NULL || strlen(text) >= sizeof copy) {
        return 0;
    }
    *comma = '.';
    if (!ifig_cli_read_number(copy, &value)) {
        return 0;
    }
    WRONG(wrong, "is not one number: write %s", copy);
    return 1;
}

static int read_number(const IfigCliOption *option, const char *text, double *value,
                       IfigCliWrong *wrong)
{
    double number;
    if (!ifig_cli_read_number(text, &number)) {
        if (!blame_comma(text, wrong)) {
            WRONG(wrong, "is not a number");
        }
        return 0;
    }
    if (!(number >= option->low && number <= option->high)) {
        WRONG(wrong, "is out of range");
        return 0;
    }
    *value = number;
    return 1;
}

static void *place(const IfigCliOption *option, IfigCliSettings *settings)
{
    return (char *)settings + option->offset;
}

int ifig_cli_read_plain(const IfigCliOption *option, const char *text, IfigCliSettings *settings,
                        IfigCliWrong *wrong)
{
    return read_number(option, text, place(option, settings), wrong);
}

int ifig_cli_read_whole(const IfigCliOption *option, const char *text, IfigCliSettings *settings,
                        IfigCliWrong *wrong)
{
    double value;
    if (!read_number(option, text, &value, wrong)) {
        return 0;
    }
    const int whole = (int)value;
    if ((double)whole != value) {
        WRONG(wrong, "is not a whole number");
        return 0;
    }
    *(int *)place(option, settings) = whole;
    return 1;
}

int ifig_cli_read_depth(const IfigCliOption *option, const char *text, IfigCliSettings *settings,
                        IfigCliWrong *wrong)
{
    if (!ifig_cli_read_whole(option, text, settings, wrong)) {
        return 0;
    }
    if (settings->depth != 8 && settings->depth != 16) {
        WRONG(wrong, "is neither 8 nor 16");
        return 0;
    }
    return 1;
}

static size_t count_words(const char *const *words)
{
    size_t count = 0;
    while (words[count] != NULL) {
        count++;
    }
    return count;
}

/* The place of a word in a list; -1 where it is not there. */
static int find_word(const char *const *words, const char *text)
{
    for (int i = 0; words[i] != NULL; i++) {
        if (strcmp(words[i], text) == 0) {
            return i;
        }
    }
    return -1;
}

static void blame_word(const char *const *words, const char *text, IfigCliWrong *wrong)
{
    const char *nearest = ifig_nearest_word(text, words, count_words(words));
    if (nearest != NULL) {
        WRONG(wrong, "is unknown (did you mean %s?)", nearest);
    } else {
        WRONG(wrong, "is unknown");
    }
}

int ifig_cli_read_word(const IfigCliOption *option, const char *text, IfigCliSettings *settings,
                       IfigCliWrong *wrong)
{
    const int index = find_word(option->words, text);
    if (index < 0) {
        blame_word(option->words, text, wrong);
        return 0;
    }
    *(int *)place(option, settings) = (int)option->low + index;
    return 1;
}

int ifig_cli_read_title(const IfigCliOption *option, const char *text, IfigCliSettings *settings,
                        IfigCliWrong *wrong)
{
    enum { LONGEST = 120 };
    if (strlen(text) > LONGEST) {
        WRONG(wrong, "is longer than %d bytes", LONGEST);
        return 0;
    }
    if (!ifig_cli_is_printable(text)) {
        WRONG(wrong, "has a character that does not print, or is not UTF-8");
        return 0;
    }
    return ifig_cli_read_text(option, text, settings, wrong);
}

int ifig_cli_read_text(const IfigCliOption *option, const char *text, IfigCliSettings *settings,
                       IfigCliWrong *wrong)
{
    if (text[0] == '\0') {
        WRONG(wrong, "is empty");
        return 0;
    }
    *(const char **)place(option, settings) = text;
    return 1;
}

/* Numbers between commas: how many, or -1 where one is none, or there are more than `most`. */
static int split_numbers(const char *text, int most, double *values, IfigCliWrong *wrong)
{
    int count = 0;
    for (;;) {
        char one[64];
        const size_t length = strcspn(text, ",");
        snprintf(one, sizeof one, "%.*s", (int)(length < sizeof one ? length : sizeof one), text);
        if (count == most) {
            WRONG(wrong, "holds more than %d number%s; decimals take a point, as in 1.5", most,
                  most > 1 ? "s" : "");
            return -1;
        }
        if (length >= sizeof one || !ifig_cli_read_number(one, &values[count])) {
            WRONG(wrong,
                  most > 1 ? "is not made of numbers with commas between them" : "is not a number");
            return -1;
        }
        count++;
        text += length;
        if (*text == '\0') {
            return count;
        }
        text++;
    }
}

int ifig_cli_read_indices(const IfigCliOption *option, const char *text, IfigCliSettings *settings,
                          IfigCliWrong *wrong)
{
    const int count = split_numbers(text, NUMBERS_MAX, settings->indices, wrong);
    for (int i = 0; i < count; i++) {
        const double n = settings->indices[i];
        if (!(n >= option->low && n <= option->high)) {
            WRONG(wrong, "holds an index out of range, %s; decimals take a point, as in 1.54",
                  ifig_cli_number(n).text);
            return 0;
        }
        if (count == NUMBERS_MAX && i > 0 && n < settings->indices[i - 1]) {
            WRONG(wrong, "does not rise: alpha, beta, gamma from the smallest to the largest");
            return 0;
        }
    }
    settings->index_count = count;
    return count > 0;
}

int ifig_cli_read_pair(const IfigCliOption *option, const char *text, IfigCliSettings *settings,
                       IfigCliWrong *wrong)
{
    const double azimuth_most = 3600.0;
    double values[2] = {0, 0};
    if (split_numbers(text, 2, values, wrong) < 0) {
        return 0;
    }
    if (!(values[0] >= option->low && values[0] <= option->high) ||
        !(values[1] >= -azimuth_most && values[1] <= azimuth_most)) {
        WRONG(wrong, "is out of range");
        return 0;
    }
    memcpy(place(option, settings), values, sizeof values);
    return 1;
}

int ifig_cli_read_lens(const IfigCliOption *option, const char *text, IfigCliSettings *settings,
                       IfigCliWrong *wrong)
{
    static const char *const lenses[] = {"sphere", "objective", NULL};
    IfigCliOption range = *option;
    char word[16];
    const size_t length = strcspn(text, ":");
    snprintf(word, sizeof word, "%.*s", (int)(length < sizeof word ? length : sizeof word), text);
    const int lens = find_word(lenses, word);
    if (lens < 0) {
        blame_word(lenses, word, wrong);
        return 0;
    }
    settings->lens = lens;
    if (lens == IFIG_LENS_SPHERE) {
        range.low = 1.2, range.high = 3.0;
        return text[length] == '\0' ||
               read_number(&range, text + length + 1, &settings->sphere_index, wrong);
    }
    if (text[length] == '\0') {
        WRONG(wrong, "lacks its numerical aperture");
        return 0;
    }
    range.low = 0.01, range.high = 0.9999 * 2.5;
    return read_number(&range, text + length + 1, &settings->aperture, wrong);
}

static int names_a_file(const char *text, const IfigCliSettings *settings)
{
    const size_t length = strlen(text);
    const int ends_as_table = length > 4 && strcmp(text + length - 4, ".csv") == 0;
    return strchr(text, '/') != NULL || ends_as_table ||
           (settings->origin == NULL && text[0] != '\0' && access(text, F_OK) == 0);
}

int ifig_cli_read_lamp(const IfigCliOption *option, const char *text, IfigCliSettings *settings,
                       IfigCliWrong *wrong)
{
    double number;
    const int word = find_word(ifig_cli_lamp_words, text);
    settings->lamp_word = text;
    settings->lamp = word >= 0 ? word : IFIG_CLI_LAMP_FILE;
    if (word >= 0) {
        return 1;
    }
    if (ifig_cli_read_number(text, &number)) {
        settings->lamp = IFIG_CLI_LAMP_LINE;
        return read_number(option, text, &settings->lamp_line_nm, wrong);
    }
    if (names_a_file(text, settings)) {
        return 1;
    }
    if (!blame_comma(text, wrong)) {
        blame_word(ifig_cli_lamp_words, text, wrong);
    }
    return 0;
}

int ifig_cli_read_polar(const IfigCliOption *option, const char *text, IfigCliSettings *settings,
                        IfigCliWrong *wrong)
{
    static const char *const turns[] = {"left", "right", NULL};
    IfigPolar *polar = place(option, settings);
    const int turn = find_word(turns, text);
    if (turn >= 0) {
        *polar = (IfigPolar){turn == 0 ? IFIG_POLAR_LEFT : IFIG_POLAR_RIGHT, 0};
        return 1;
    }
    polar->kind = IFIG_POLAR_LINEAR;
    return read_number(option, text, &polar->azimuth_deg, wrong);
}

int ifig_cli_read_species_file(const IfigCliOption *option, const char *text,
                               IfigCliSettings *settings, IfigCliWrong *wrong)
{
    (void)option;
    if (settings->species_file_count == IFIG_CLI_SPECIES_FILES_MAX) {
        WRONG(wrong, "is one file too many: put several species into one");
        return 0;
    }
    if (text[0] == '\0') {
        WRONG(wrong, "is empty");
        return 0;
    }
    settings->species_files[settings->species_file_count++] = text;
    return 1;
}
