/* SPDX-License-Identifier: MIT */
/* A species is a range. Its record is changed to the value at either end and a stone made from it.
 *
 * Published dispersion formulas belong to one crystal, so all three stones get Cauchy's two terms
 * from n and the B-G interval: they differ by the value alone. */
#include "range.h"

#include <math.h>

#include "arguments.h"

const char *const ifig_cli_range_words[] = {"2V", "birefringence", NULL};

/* The width of what parts two figures, as a share of a figure. */
static const uint32_t GAP_SHARE = 16;
static const uint32_t WIDEST = 65535; /* of a PNG here */
static const double DEGREE = 3.14159265358979323846 / 180.0;

/* 2V at another wavelength follows; NaN stays: as at 589.3 nm. */
static void shift_angle(double shift, double *two_v_deg)
{
    if (!isnan(*two_v_deg)) {
        *two_v_deg = fmax(-90.0, fmin(180.0, *two_v_deg + shift));
    }
}

/* n_Y that makes an acute angle 2V: 1/n_Y^2 lies sin^2(V_Z) of the way from 1/n_X^2 to 1/n_Z^2
 * (Born & Wolf, Principles of Optics, 15.3.3). */
static void open_angle(double two_v_deg, IfigSpeciesRecord *record)
{
    const double least_deg = 0.01; /* a biaxial record needs three different indices */
    IfigSpeciesFacts *facts = &record->facts;
    const double angle = fmax(two_v_deg, least_deg);
    const double v_z = facts->optic_sign < 0 ? 90.0 - 0.5 * angle : 0.5 * angle;
    const double share = sin(v_z * DEGREE) * sin(v_z * DEGREE);
    const double x = 1.0 / (facts->n[0] * facts->n[0]), z = 1.0 / (facts->n[2] * facts->n[2]);
    const double shift = angle - facts->two_v_deg;
    facts->n[1] = 1.0 / sqrt(x - share * (x - z));
    facts->two_v_deg = angle;
    shift_angle(shift, &record->two_v_c_deg);
    shift_angle(shift, &record->two_v_f_deg);
}

/* The outer indices move alike from the middle between them; 2V stays. */
static void spread_indices(double birefringence, IfigSpeciesRecord *record)
{
    IfigSpeciesFacts *facts = &record->facts;
    const double middle = 0.5 * (facts->n[0] + facts->n[2]);
    const double least = 1e-7; /* none at all would be another optic character */
    const double half = copysign(0.5 * fmax(birefringence, least), facts->n[2] - facts->n[0]);
    facts->n[0] = middle - half;
    facts->n[2] = middle + half;
    if (facts->character == IFIG_UNIAXIAL) {
        facts->n[1] = facts->n[0];
    } else {
        open_angle(facts->two_v_deg, record);
    }
}

static IfigStatus make_stone(const IfigCliScene *scene, int range, double value,
                             IfigSpecies **stone, IfigError *error)
{
    IfigSpeciesRecord record = IFIG_SPECIES_RECORD_INIT;
    const IfigStatus status = ifig_species_record(scene->species, &record, error);
    if (status != IFIG_OK) {
        return status;
    }
    for (int axis = 0; axis < 3; axis++) {
        record.formula[axis] = (IfigDispersionFormula){0};
    }
    if (range == IFIG_CLI_RANGE_2V) {
        open_angle(value, &record);
    } else {
        spread_indices(value, &record);
    }
    return ifig_species_create(&record, stone, error);
}

/* Low, typical and high. */
static void take_values(int range, const IfigSpeciesFacts *facts, double value[3])
{
    const int is_angle = range == IFIG_CLI_RANGE_2V;
    value[0] = is_angle ? facts->two_v_low_deg : facts->birefringence_low;
    value[1] = is_angle ? facts->two_v_deg : fabs(facts->n[2] - facts->n[0]);
    value[2] = is_angle ? facts->two_v_high_deg : facts->birefringence_high;
}

static IfigCliStatus check_range(const IfigCliSettings *settings, const IfigCliScene *scene,
                                 const double value[3])
{
    const char *word = ifig_cli_range_words[settings->range - IFIG_CLI_RANGE_2V];
    const char *key = ifig_species_text(scene->species, IFIG_TEXT_KEY);
    if (scene->facts.character == IFIG_ISOTROPIC ||
        (settings->range == IFIG_CLI_RANGE_2V && scene->facts.character != IFIG_BIAXIAL)) {
        return ifig_cli_refuse(
            settings, "--range: %s is %s and has no %s", key,
            scene->facts.character == IFIG_ISOTROPIC ? "singly refractive" : "uniaxial", word);
    }
    if (isnan(value[0]) || isnan(value[2])) {
        return ifig_cli_refuse(settings, "--range: the range of %s is not known for %s", word, key);
    }
    if (value[0] == value[2]) {
        return ifig_cli_refuse(settings,
                               "--range: %s is met with in %s at one value alone, %s; leave "
                               "--range out",
                               word, key, ifig_cli_number(value[0]).text);
    }
    if (ifig_cli_picture_width(settings) > WIDEST) {
        return ifig_cli_refuse(settings,
                               "--size %d makes a picture of %u columns with --range; %u are the "
                               "most: choose a --size of at most 20000",
                               settings->size, ifig_cli_picture_width(settings), WIDEST);
    }
    return IFIG_CLI_OK;
}

IfigCliStatus ifig_cli_open_range(IfigCliSettings *settings, IfigCliScene *scene)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigStatus status = IFIG_OK;
    if (settings->range == IFIG_CLI_RANGE_NONE) {
        return IFIG_CLI_OK;
    }
    take_values(settings->range, &scene->facts, scene->range_value);
    const IfigCliStatus ending = check_range(settings, scene, scene->range_value);
    for (int i = 0; i < 3 && status == IFIG_OK && ending == IFIG_CLI_OK; i++) {
        status =
            make_stone(scene, settings->range, scene->range_value[i], &scene->range[i], &error);
    }
    if (status != IFIG_OK) {
        return ifig_cli_complain(ifig_cli_exit_status(status, IFIG_CLI_WORDS), "--range: %s",
                                 error.message);
    }
    return ending;
}

uint32_t ifig_cli_panel_count(const IfigCliSettings *settings)
{
    return settings->range == IFIG_CLI_RANGE_NONE ? 1 : 3;
}

static uint32_t gap(const IfigCliSettings *settings)
{
    const uint32_t columns = (uint32_t)settings->size / GAP_SHARE;
    return columns > 0 ? columns : 1;
}

uint32_t ifig_cli_panel_left(const IfigCliSettings *settings, uint32_t panel)
{
    return panel * ((uint32_t)settings->size + gap(settings));
}

uint32_t ifig_cli_picture_width(const IfigCliSettings *settings)
{
    const uint32_t last = ifig_cli_panel_count(settings) - 1;
    return ifig_cli_panel_left(settings, last) + (uint32_t)settings->size;
}

void ifig_cli_set_panel(const IfigCliScene *scene, uint32_t panel, IfigLayer *layer)
{
    if (scene->range[panel] != NULL) {
        layer->species = scene->range[panel];
    }
}

void ifig_cli_describe_range(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    static const char *const names[] = {"low", "typical", "high"};
    if (settings->range == IFIG_CLI_RANGE_NONE) {
        return;
    }
    const int is_angle = settings->range == IFIG_CLI_RANGE_2V;
    fprintf(out, "; from left to right: %s ",
            ifig_cli_range_words[settings->range - IFIG_CLI_RANGE_2V]);
    for (int i = 0; i < 3; i++) {
        fprintf(out, "%s%s%s (%s)", i > 0 ? ", " : "",
                ifig_cli_rounded(scene->range_value[i], 4).text, is_angle ? " deg" : "", names[i]);
    }
}

IfigCliRangeName ifig_cli_range_name(const IfigCliSettings *settings)
{
    IfigCliRangeName name = {""};
    if (settings->range != IFIG_CLI_RANGE_NONE) {
        snprintf(name.text, sizeof name.text, "_range_%s",
                 ifig_cli_range_words[settings->range - IFIG_CLI_RANGE_2V]);
    }
    return name;
}
