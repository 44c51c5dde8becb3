/* SPDX-License-Identifier: MIT */
/* The parts of a species file that hold numbers in lists: indices, dispersion, rotation. */
#include <string.h>

#include "base.h"
#include "species_fields.h"

static const double any_number[2] = {-1e30, 1e30};

IfigStatus ifig_yaml_unknown_key(const IfigYamlTree *tree, IfigYamlPlace key,
                                 const char *const *known, size_t count, IfigError *error)
{
    const char *word = ifig_yaml_text(tree, key);
    const char *nearest = ifig_nearest_word(word, known, count);
    if (nearest != NULL) {
        return ifig_yaml_fail(tree, key, error, "there is no key '%s' here; did you mean %s?",
                              ifig_word_text(word).text, nearest);
    }
    char list[400] = "";
    for (size_t i = 0; i < count && strlen(list) + strlen(known[i]) + 3 < sizeof list; i++) {
        strcat(list, i > 0 ? ", " : "");
        strcat(list, known[i]);
    }
    return ifig_yaml_fail(tree, key, error, "there is no key '%s' here; known are %s",
                          ifig_word_text(word).text, list);
}

static IfigStatus read_number(const IfigYamlTree *tree, IfigYamlPlace place, const char *key,
                              const double range[2], double *value, IfigError *error)
{
    const char *text = ifig_yaml_text(tree, place);
    if (ifig_yaml_node(tree, place)->kind != IFIG_YAML_SCALAR || text[0] == '\0') {
        return ifig_yaml_fail(tree, place, error, "%s must be a number%s", key,
                              text[0] == '\0' ? ", but it is empty; give one or leave the key out"
                                              : "");
    }
    if (!ifig_number_read(text, value)) {
        return ifig_yaml_fail(tree, place, error, "%s is '%s'; it must be a finite number%s", key,
                              ifig_word_text(text).text,
                              strchr(text, ',') != NULL ? ", with a decimal point, not a comma"
                                                        : " with a decimal point");
    }
    if (*value < range[0] || *value > range[1]) {
        return ifig_yaml_fail(tree, place, error, "%s is %s; it must lie between %s and %s", key,
                              ifig_number_text(*value, 9).text, ifig_number_text(range[0], 9).text,
                              ifig_number_text(range[1], 9).text);
    }
    return IFIG_OK;
}

IfigStatus ifig_yaml_numbers(const IfigYamlTree *tree, IfigYamlPlace place, const char *key,
                             size_t most, const double range[2], double *values, size_t *count,
                             IfigError *error)
{
    const IfigYamlNode *node = ifig_yaml_node(tree, place);
    if (node->kind == IFIG_YAML_SCALAR) {
        *count = 1;
        return read_number(tree, place, key, range, values, error);
    }
    if (node->kind != IFIG_YAML_LIST || node->child_count < 1 || node->child_count > most) {
        return ifig_yaml_fail(tree, place, error,
                              "%s must be a list of 1 to %zu numbers, such as [1.5, 1.6]; each "
                              "has a decimal point, not a comma",
                              key, most);
    }
    IfigStatus status = IFIG_OK;
    IfigYamlPlace item = node->first;
    for (size_t i = 0; i < node->child_count && status == IFIG_OK; i++) {
        status = read_number(tree, item, key, range, &values[i], error);
        item = ifig_yaml_node(tree, item)->next;
    }
    *count = node->child_count;
    return status;
}

/* One key of a formula. */
static IfigStatus take_formula_key(const IfigYamlTree *tree, IfigYamlPlace key,
                                   IfigDispersionFormula *formula, IfigError *error)
{
    static const char *const known[] = {"formula_type", "coefficients", "low_um", "high_um"};
    static const double types[2] = {1.0, 6.0}, micrometres[2] = {0.1, 50.0};
    const char *word = ifig_yaml_text(tree, key);
    IfigYamlPlace value = ifig_yaml_node(tree, key)->next;
    size_t count = 0;
    if (strcmp(word, "formula_type") == 0) {
        double type = 0.0;
        IfigStatus status = read_number(tree, value, word, types, &type, error);
        formula->type = status == IFIG_OK ? (int)type : 0;
        if (status == IFIG_OK && (double)formula->type != type) {
            return ifig_yaml_fail(tree, value, error, "formula_type must be whole, 1 to 6");
        }
        return status;
    }
    if (strcmp(word, "coefficients") == 0) {
        return ifig_yaml_numbers(tree, value, word, IFIG_FORMULA_TERMS, any_number,
                                 formula->coefficient, &count, error);
    }
    if (strcmp(word, "low_um") == 0) {
        return read_number(tree, value, word, micrometres, &formula->low_um, error);
    }
    if (strcmp(word, "high_um") == 0) {
        return read_number(tree, value, word, micrometres, &formula->high_um, error);
    }
    return ifig_yaml_unknown_key(tree, key, known, sizeof known / sizeof *known, error);
}

static IfigStatus read_formula(const IfigYamlTree *tree, IfigYamlPlace place,
                               IfigDispersionFormula *formula, IfigError *error)
{
    const IfigYamlNode *node = ifig_yaml_node(tree, place);
    /* Without a range of its own a formula is taken to hold wherever the library may ask. */
    *formula = (IfigDispersionFormula){.low_um = 0.36, .high_um = 0.83};
    if (node->kind != IFIG_YAML_MAPPING) {
        return ifig_yaml_fail(tree, place, error,
                              "a formula must be a mapping with formula_type and coefficients");
    }
    IfigStatus status = IFIG_OK;
    IfigYamlPlace key = node->first;
    for (size_t i = 0; i < node->child_count && status == IFIG_OK; i += 2) {
        status = take_formula_key(tree, key, formula, error);
        key = ifig_yaml_node(tree, ifig_yaml_node(tree, key)->next)->next;
    }
    if (status == IFIG_OK && formula->type == 0) {
        status = ifig_yaml_fail(tree, place, error, "the formula has no formula_type; give 1 to 6");
    }
    return status;
}

IfigStatus ifig_yaml_dispersion(const IfigYamlTree *tree, IfigYamlPlace place,
                                IfigSpeciesRecord *record, IfigError *error)
{
    static const char *const axes[] = {"iso", "o", "e", "alpha", "beta", "gamma", "x", "y", "z"};
    static const struct {
        int from, to; /* along X, Y, Z as 0, 1, 2 */
    } along[] = {{0, 2}, {0, 1}, {2, 2}, {0, 0}, {1, 1}, {2, 2}, {0, 0}, {1, 1}, {2, 2}};
    enum { AXES = sizeof axes / sizeof *axes };
    const IfigYamlNode *node = ifig_yaml_node(tree, place);
    if (node->kind != IFIG_YAML_MAPPING) {
        return ifig_yaml_fail(
            tree, place, error,
            "dispersion must be a mapping of axes (iso; o, e; alpha, beta, gamma; "
            "or x, y, z) to formulas");
    }
    IfigYamlPlace key = node->first;
    for (size_t i = 0; i < node->child_count; i += 2) {
        IfigYamlPlace value = ifig_yaml_node(tree, key)->next;
        int axis = 0;
        while (axis < AXES && strcmp(axes[axis], ifig_yaml_text(tree, key)) != 0) {
            axis++;
        }
        if (axis == AXES) {
            return ifig_yaml_unknown_key(tree, key, axes, AXES, error);
        }
        IfigDispersionFormula formula;
        IfigStatus status = read_formula(tree, value, &formula, error);
        if (status != IFIG_OK) {
            return status;
        }
        for (int a = along[axis].from; a <= along[axis].to; a++) {
            if (record->formula[a].type != 0) {
                return ifig_yaml_fail(tree, key, error,
                                      "%s names an axis that has a formula already", axes[axis]);
            }
            record->formula[a] = formula;
        }
        key = ifig_yaml_node(tree, value)->next;
    }
    return IFIG_OK;
}

IfigStatus ifig_yaml_rotation(const IfigYamlTree *tree, IfigYamlPlace place,
                              IfigSpeciesRecord *record, IfigError *error)
{
    IfigRotation *rotation = &record->rotation;
    const struct {
        const char *key;
        double *values;
        size_t most;
        double range[2];
    } parts[] = {{"constant", &rotation->constant, 1, {-1e5, 1e5}},
                 {"strength_um2", rotation->strength_um2, 2, {-1e5, 1e5}},
                 {"pole_um2", rotation->pole_um2, 2, {0.0, 0.08}},
                 {"ratio_across", &rotation->ratio_across, 1, {-10.0, 10.0}}};
    enum { PARTS = sizeof parts / sizeof *parts };
    const char *known[PARTS];
    for (size_t i = 0; i < PARTS; i++) {
        known[i] = parts[i].key;
    }
    const IfigYamlNode *node = ifig_yaml_node(tree, place);
    if (node->kind != IFIG_YAML_MAPPING) {
        return ifig_yaml_fail(tree, place, error,
                              "rotation must be a mapping of constant, strength_um2, pole_um2 and "
                              "ratio_across; one number for all goes into rotation_deg_per_mm");
    }
    IfigStatus status = IFIG_OK;
    IfigYamlPlace key = node->first;
    for (size_t i = 0; i < node->child_count && status == IFIG_OK; i += 2) {
        IfigYamlPlace value = ifig_yaml_node(tree, key)->next;
        size_t part = 0, count = 0;
        while (part < PARTS && strcmp(known[part], ifig_yaml_text(tree, key)) != 0) {
            part++;
        }
        status = part == PARTS
                     ? ifig_yaml_unknown_key(tree, key, known, PARTS, error)
                     : ifig_yaml_numbers(tree, value, known[part], parts[part].most,
                                         parts[part].range, parts[part].values, &count, error);
        key = ifig_yaml_node(tree, value)->next;
    }
    return status;
}
