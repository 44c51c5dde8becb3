/* SPDX-License-Identifier: MIT */
/* The accessory plate: its option, its recipe, its words. */
#include "plate.h"

#include <string.h>

#define WRONG(wrong, ...) snprintf((wrong)->text, sizeof(wrong)->text, __VA_ARGS__)

const char *const ifig_cli_plate_words[] = {"full-wave", "quarter-wave", "wedge", NULL};

/* What a microscope's plates have: common practice, no source. 0: there is no usual one. */
static const double usual_nm[] = {[IFIG_PLATE_NONE] = 0,
                                  [IFIG_PLATE_GYPSUM] = 550,
                                  [IFIG_PLATE_MICA] = 137.5,
                                  [IFIG_PLATE_QUARTZ] = 0};

int ifig_cli_read_plate(const IfigCliOption *option, const char *text, IfigCliSettings *settings,
                        IfigCliWrong *wrong)
{
    IfigCliOption part = *option;
    char word[24];
    const size_t length = strcspn(text, ":");
    snprintf(word, sizeof word, "%.*s", (int)(length < sizeof word ? length : sizeof word), text);
    part.low = IFIG_PLATE_GYPSUM;
    part.offset = offsetof(IfigCliSettings, plate);
    if (!ifig_cli_read_word(&part, word, settings, wrong)) {
        return 0;
    }
    settings->plate_nm = usual_nm[settings->plate];
    if (text[length] == ':') {
        part = *option;
        part.offset = offsetof(IfigCliSettings, plate_nm);
        return ifig_cli_read_plain(&part, text + length + 1, settings, wrong);
    }
    if (settings->plate == IFIG_PLATE_QUARTZ) {
        WRONG(wrong, "lacks its retardation");
        return 0;
    }
    return 1;
}

void ifig_cli_write_plate(FILE *out, const IfigCliOption *option, const IfigCliSettings *settings)
{
    if (settings->plate != IFIG_PLATE_NONE) {
        fprintf(out, " --%s %s:%s", option->name,
                ifig_cli_plate_words[settings->plate - IFIG_PLATE_GYPSUM],
                ifig_cli_number(settings->plate_nm).text);
    }
}

void ifig_cli_write_plate_slow(FILE *out, const IfigCliOption *option,
                               const IfigCliSettings *settings)
{
    if (settings->plate != IFIG_PLATE_NONE) {
        fprintf(out, " --%s %s", option->name, ifig_cli_number(settings->plate_slow_deg).text);
    }
}

IfigPlate ifig_cli_plate(const IfigCliSettings *settings)
{
    return (IfigPlate){(IfigPlateMaterial)settings->plate, settings->plate_nm,
                       settings->plate_slow_deg};
}

void ifig_cli_describe_plate(FILE *out, const IfigCliSettings *settings)
{
    static const char *const names[] = {[IFIG_PLATE_NONE] = "",
                                        [IFIG_PLATE_GYPSUM] = "full-wave plate",
                                        [IFIG_PLATE_MICA] = "quarter-wave plate",
                                        [IFIG_PLATE_QUARTZ] = "quartz wedge"};
    if (settings->plate != IFIG_PLATE_NONE) {
        fprintf(out, ", %s of %s nm with its slow direction at %s deg", names[settings->plate],
                ifig_cli_number(settings->plate_nm).text,
                ifig_cli_number(settings->plate_slow_deg).text);
    }
}
