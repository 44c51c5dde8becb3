/* SPDX-License-Identifier: MIT */
/* What a record must satisfy before it becomes a species. embed.py asks the same of the compiled-in
 * rows; tests/species puts those through here as well. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base.h"
#include "species.h"

static const char *const axis_name[3] = {"X", "Y", "Z"};

static IfigStatus check_key(const char *key, IfigError *error)
{
    enum { LONGEST = 64 };
    if (key == NULL || key[0] == '\0') {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the species has no key; give it a short name of a-z, 0-9 and '_'");
    }
    size_t plain = strspn(key, "abcdefghijklmnopqrstuvwxyz0123456789_");
    if (key[plain] != '\0' || plain > LONGEST) {
        return ifig_fail(error, IFIG_ERROR_SYNTAX,
                         "the key '%s' must be 1 to %d letters of a-z, 0-9 and '_'",
                         ifig_word_text(key).text, LONGEST);
    }
    if (strspn(key, "_") == plain) { /* look-ups leave '_' out: nobody could call it that */
        return ifig_fail(error, IFIG_ERROR_SYNTAX,
                         "the key '%s' must hold a letter of a-z or a digit",
                         ifig_word_text(key).text);
    }
    return IFIG_OK;
}

static IfigStatus check_text(const char *what, const char *text, size_t longest, IfigError *error)
{
    unsigned long code_point = 0;
    const char *at = text == NULL ? "" : text;
    for (size_t length; *at != '\0'; at += length) {
        length = ifig_utf8_read(at, &code_point);
        if (length == 0 || !ifig_is_printable(code_point)) {
            return ifig_fail(error, IFIG_ERROR_SYNTAX,
                             "the %s holds a byte that is not printable UTF-8 after '%s'; write it "
                             "as one line of plain text",
                             what, ifig_word_text(text).text);
        }
    }
    if (text != NULL && (size_t)(at - text) > longest) {
        return ifig_fail(error, IFIG_ERROR_RANGE, "the %s is %zu bytes long; at most %zu", what,
                         (size_t)(at - text), longest);
    }
    return IFIG_OK;
}

static IfigStatus check_texts(const IfigSpeciesRecord *record, IfigError *error)
{
    static const char *const what[IFIG_SPECIES_TEXT_COUNT] = {
        "key",         "name",        "varieties",   "nature",           "crystal_system",
        "orientation", "pleochroism", "absorption",  "axial_dispersion", "reaction",
        "notes",       "source",      "index_source"};
    IfigStatus status = check_key(record->text[IFIG_TEXT_KEY], error);
    for (int i = IFIG_TEXT_NAME; i < IFIG_SPECIES_TEXT_COUNT && status == IFIG_OK; i++) {
        status = check_text(what[i], record->text[i], i == IFIG_TEXT_NAME ? 200 : 4000, error);
    }
    return status;
}

static IfigStatus check_unless_unknown(const char *what, double value, double low, double high,
                                       const char *unit, IfigError *error)
{
    return isnan(value) ? IFIG_OK : ifig_check_range(what, value, low, high, unit, error);
}

static IfigStatus check_pair(const char *what, double low, double high, double lowest,
                             double highest, IfigError *error)
{
    IfigStatus status = check_unless_unknown(what, low, lowest, highest, "", error);
    if (status == IFIG_OK) {
        status = check_unless_unknown(what, high, lowest, highest, "", error);
    }
    if (status == IFIG_OK && low > high) {
        status = ifig_fail(error, IFIG_ERROR_RANGE, "the range of %s, %s to %s, falls", what,
                           ifig_number_text(low, 9).text, ifig_number_text(high, 9).text);
    }
    return status;
}

static IfigStatus check_ranges(const IfigSpeciesRecord *record, IfigError *error)
{
    const IfigSpeciesFacts *facts = &record->facts;
    const struct {
        const char *what;
        double value, low, high;
        const char *unit;
    } numbers[] = {
        {"two_v_deg", facts->two_v_deg, 0.0, 90.0, "degrees"},
        {"two_v_c_deg", record->two_v_c_deg, -90.0, 180.0, "degrees"},
        {"two_v_f_deg", record->two_v_f_deg, -90.0, 180.0, "degrees"},
        {"dispersion_bg", facts->dispersion_bg, 0.0, 1.0, ""},
        {"axes_turn_deg", facts->axes_turn_deg, -90.0, 90.0, "degrees"},
    };
    IfigStatus status = check_pair("n", facts->n_low, facts->n_high, 1.0, 5.0, error);
    if (status == IFIG_OK) {
        status = check_pair("birefringence", facts->birefringence_low, facts->birefringence_high,
                            0.0, 4.0, error);
    }
    if (status == IFIG_OK) {
        status =
            check_pair("two_v_deg", facts->two_v_low_deg, facts->two_v_high_deg, 0.0, 90.0, error);
    }
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers && status == IFIG_OK; i++) {
        status = check_unless_unknown(numbers[i].what, numbers[i].value, numbers[i].low,
                                      numbers[i].high, numbers[i].unit, error);
    }
    return status;
}

static IfigStatus check_kinds(const IfigSpeciesRecord *record, IfigError *error)
{
    const IfigSpeciesFacts *facts = &record->facts;
    int is_biaxial = facts->character == IFIG_BIAXIAL;
    if ((int)facts->character < IFIG_ISOTROPIC || facts->character > IFIG_AGGREGATE ||
        (int)facts->monoclinic < IFIG_MONOCLINIC_NONE ||
        facts->monoclinic > IFIG_MONOCLINIC_CROSSED || facts->optic_sign < -1 ||
        facts->optic_sign > 1) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the optic character, the sign or the monoclinic dispersion of '%s' is "
                         "not one the library knows",
                         record->text[IFIG_TEXT_KEY]);
    }
    if (!is_biaxial && (!isnan(facts->two_v_deg) || !isnan(record->two_v_c_deg) ||
                        !isnan(record->two_v_f_deg) || facts->monoclinic)) {
        return ifig_fail(error, IFIG_ERROR_RANGE,
                         "only a biaxial stone has a two_v_deg or a monoclinic_dispersion; give "
                         "three different indices, or leave it out");
    }
    if (facts->monoclinic == IFIG_MONOCLINIC_NONE && !isnan(facts->axes_turn_deg) &&
        facts->axes_turn_deg != 0.0) {
        return ifig_fail(error, IFIG_ERROR_RANGE,
                         "axes_turn_deg needs to know about which axis: give monoclinic_dispersion "
                         "(inclined, parallel or crossed)");
    }
    if (facts->optic_sign != 0 && !is_biaxial && facts->character != IFIG_UNIAXIAL) {
        return ifig_fail(error, IFIG_ERROR_RANGE,
                         "only a uniaxial or biaxial stone has an optic_sign; leave it out");
    }
    return IFIG_OK;
}

/* n_X, n_Y, n_Z: in range, in the order the character asks for, in step with the sign. */
static IfigStatus check_indices(const IfigSpeciesFacts *facts, IfigError *error)
{
    const double *n = facts->n;
    IfigStatus status = IFIG_OK;
    for (int i = 0; i < 3 && status == IFIG_OK; i++) {
        status = ifig_check_range("an index n", n[i], 1.0, 5.0, "", error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    int fits = facts->character == IFIG_ISOTROPIC  ? n[0] == n[1] && n[1] == n[2]
               : facts->character == IFIG_UNIAXIAL ? n[0] == n[1] && n[1] != n[2]
               : facts->character == IFIG_BIAXIAL  ? n[0] < n[1] && n[1] < n[2]
                                                   : 1;
    if (!fits) {
        return ifig_fail(error, IFIG_ERROR_RANGE,
                         "the indices %s, %s, %s do not fit the optic character: isotropic has one "
                         "index, uniaxial two different ones, biaxial three that rise",
                         ifig_number_text(n[0], 9).text, ifig_number_text(n[1], 9).text,
                         ifig_number_text(n[2], 9).text);
    }
    if (facts->character == IFIG_UNIAXIAL && facts->optic_sign != 0 &&
        facts->optic_sign != (n[2] > n[0] ? 1 : -1)) {
        return ifig_fail(error, IFIG_ERROR_RANGE,
                         "optic_sign is %s, but n_omega %s and n_epsilon %s make the stone %s; "
                         "leave it out or mend the indices",
                         facts->optic_sign > 0 ? "+" : "-", ifig_number_text(n[0], 9).text,
                         ifig_number_text(n[2], 9).text, n[2] > n[0] ? "+" : "-");
    }
    return IFIG_OK;
}

/* 2V and sign against n_Y: what they ask of n_Y must be what a refractometer could have read. */
static IfigStatus check_optic_angle(const IfigSpeciesFacts *facts, IfigError *error)
{
    static const double refractometer = 0.002; /* common practice, no source: read to 0.001 twice */
    const double *n = facts->n;
    if (facts->character != IFIG_BIAXIAL) {
        return IFIG_OK;
    }
    double from_indices = ifig_beta_share_of_indices(n);
    int sign_of_indices = from_indices > 0.5 ? -1 : 1;
    if (isnan(facts->two_v_deg)) {
        if (facts->optic_sign == 0 || facts->optic_sign == sign_of_indices) {
            return IFIG_OK;
        }
        return ifig_fail(error, IFIG_ERROR_RANGE,
                         "optic_sign is %s, but the indices %s, %s, %s make the stone %s; leave it "
                         "out, or give two_v_deg if it was measured",
                         facts->optic_sign > 0 ? "+" : "-", ifig_number_text(n[0], 9).text,
                         ifig_number_text(n[1], 9).text, ifig_number_text(n[2], 9).text,
                         sign_of_indices > 0 ? "+" : "-");
    }
    int sign = facts->optic_sign != 0 ? facts->optic_sign : sign_of_indices;
    double share = ifig_beta_share_of_angle(facts->two_v_deg, sign);
    double beta = 1.0 / sqrt((1.0 - share) / (n[0] * n[0]) + share / (n[2] * n[2]));
    if (fabs(beta - n[1]) <= refractometer) {
        return IFIG_OK;
    }
    return ifig_fail(error, IFIG_ERROR_RANGE,
                     "two_v_deg %s, sign %s, asks for a middle index of %s within %s, but %s is "
                     "given; leave out two_v_deg or mend the indices",
                     ifig_number_text(facts->two_v_deg, 6).text, sign > 0 ? "+" : "-",
                     ifig_number_text(beta, 5).text, ifig_number_text(refractometer, 3).text,
                     ifig_number_text(n[1], 9).text);
}

static IfigStatus check_formula(const IfigDispersionFormula *formula, const char *axis, double n,
                                IfigError *error)
{
    static const double agreement = 5e-4;
    if (!(formula->low_um >= 0.1 && formula->low_um < formula->high_um &&
          formula->high_um <= 50.0)) {
        return ifig_fail(error, IFIG_ERROR_RANGE,
                         "the dispersion formula along %s holds from %s to %s micrometres; the "
                         "range must rise and lie between 0.1 and 50",
                         axis, ifig_number_text(formula->low_um, 6).text,
                         ifig_number_text(formula->high_um, 6).text);
    }
    for (int i = 0; i < IFIG_FORMULA_TERMS; i++) {
        if (!isfinite(formula->coefficient[i])) {
            return ifig_fail(error, IFIG_ERROR_RANGE,
                             "coefficient %d of the dispersion formula along %s is not a finite "
                             "number",
                             i + 1, axis);
        }
    }
    double at_d = ifig_formula_index(formula, IFIG_LINE_D_NM);
    if (!(fabs(at_d - n) <= agreement)) {
        return ifig_fail(error, IFIG_ERROR_RANGE,
                         "the dispersion formula along %s gives n %s at 589.3 nm, but n is %s; "
                         "they must agree within %s",
                         axis, ifig_number_text(at_d, 6).text, ifig_number_text(n, 9).text,
                         ifig_number_text(agreement, 3).text);
    }
    return IFIG_OK;
}

static IfigStatus check_formulas(const IfigSpeciesRecord *record, IfigError *error)
{
    const int has_formulas = record->formula[0].type != 0;
    for (int axis = 0; axis < 3; axis++) {
        int type = record->formula[axis].type;
        if (type < 0 || type > 6 || (type != 0) != has_formulas) {
            return ifig_fail(error, IFIG_ERROR_RANGE,
                             "the dispersion formula along %s is of type %d; give a type from 1 to "
                             "6 for every axis, or no formula",
                             axis_name[axis], type);
        }
    }
    IfigStatus status = IFIG_OK;
    for (int axis = 0; axis < 3 && has_formulas && status == IFIG_OK; axis++) {
        status =
            check_formula(&record->formula[axis], axis_name[axis], record->facts.n[axis], error);
    }
    return status;
}

static IfigStatus check_rotation(const IfigRotation *rotation, IfigError *error)
{
    IfigStatus status =
        ifig_check_range("the rotation", rotation->constant, -1e5, 1e5, "deg/mm", error);
    for (int i = 0; i < 2 && status == IFIG_OK; i++) {
        status = ifig_check_range("a rotation strength", rotation->strength_um2[i], -1e5, 1e5,
                                  "deg um^2/mm", error);
        if (status == IFIG_OK) { /* below 360 nm, where the library is asked for nothing */
            status = ifig_check_range("a rotation pole", rotation->pole_um2[i], 0.0, 0.08, "um^2",
                                      error);
        }
    }
    if (status == IFIG_OK) {
        status = ifig_check_range("ratio_across", rotation->ratio_across, -10.0, 10.0, "", error);
    }
    return status;
}

/* Every wavelength that may be asked for must have an answer. */
static IfigStatus check_all_wavelengths(const IfigSpeciesRecord *record, IfigError *error)
{
    IfigSpeciesRecord filled = *record;
    if (record->facts.character == IFIG_BIAXIAL) {
        double share = ifig_beta_share_of_indices(record->facts.n);
        filled.facts.optic_sign = record->facts.optic_sign != 0 ? record->facts.optic_sign
                                  : share > 0.5                 ? -1
                                                                : 1;
        filled.facts.two_v_deg =
            isnan(record->facts.two_v_deg) ? ifig_acute_angle_deg(share) : record->facts.two_v_deg;
    }
    for (int nm = 360; nm <= 830; nm += 2) {
        double n[3];
        ifig_record_indices(&filled, nm, n);
        for (int axis = 0; axis < 3; axis++) {
            if (!(n[axis] >= 1.0 && n[axis] <= 10.0)) {
                return ifig_fail(error, IFIG_ERROR_RANGE,
                                 "n along %s becomes %s at %d nm; it must stay between 1 and 10 "
                                 "from 360 to 830 nm: mend the dispersion, or the range its "
                                 "formula holds in",
                                 axis_name[axis], ifig_number_text(n[axis], 6).text, nm);
            }
        }
    }
    return IFIG_OK;
}

IfigStatus ifig_record_check(const IfigSpeciesRecord *record, IfigError *error)
{
    IfigStatus status = check_texts(record, error);
    status = status == IFIG_OK ? check_ranges(record, error) : status;
    status = status == IFIG_OK ? check_kinds(record, error) : status;
    status = status == IFIG_OK ? check_indices(&record->facts, error) : status;
    status = status == IFIG_OK ? check_optic_angle(&record->facts, error) : status;
    status = status == IFIG_OK ? check_formulas(record, error) : status;
    status = status == IFIG_OK ? check_rotation(&record->rotation, error) : status;
    return status == IFIG_OK ? check_all_wavelengths(record, error) : status;
}
