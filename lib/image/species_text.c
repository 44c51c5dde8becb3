/* SPDX-License-Identifier: MIT */
/* A species as the text of a species file, exact to the last bit. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base.h"
#include "interfig/species_file.h"
#include "species_fields.h"

/* Text that grows; is_lost once memory ran out. */
typedef struct Writing {
    char *text;
    size_t used, room;
    int is_lost;
} Writing;

static void put(Writing *writing, const char *text)
{
    size_t length = strlen(text);
    if (writing->used + length + 1 > writing->room && !writing->is_lost) {
        size_t room = 2 * (writing->used + length + 1);
        char *grown = realloc(writing->text, room);
        if (grown == NULL) {
            writing->is_lost = 1;
        } else {
            writing->text = grown;
            writing->room = room;
        }
    }
    if (!writing->is_lost) {
        memcpy(writing->text + writing->used, text, length + 1);
        writing->used += length;
    }
}

/* The shortest decimal number that reads back to the same bits. */
static void put_number(Writing *writing, double value)
{
    IfigNumberText text = ifig_number_text(value, 17);
    for (int digits = 15; digits <= 16; digits++) {
        double read = 0.0;
        IfigNumberText shorter = ifig_number_text(value, digits);
        if (ifig_number_read(shorter.text, &read) && read == value) {
            text = shorter;
            break;
        }
    }
    put(writing, text.text);
}

static void put_numbers(Writing *writing, const double *values, size_t count)
{
    put(writing, "[");
    for (size_t i = 0; i < count; i++) {
        put(writing, i > 0 ? ", " : "");
        put_number(writing, values[i]);
    }
    put(writing, "]");
}

static void put_key(Writing *writing, const char *key)
{
    put(writing, "    ");
    put(writing, key);
    put(writing, ": ");
}

/* A text in double quotes. ifig_species_create lets no control characters in. */
static void put_quoted(Writing *writing, const char *text)
{
    put(writing, "\"");
    for (const char *at = text; *at != '\0'; at++) {
        char letter[3] = {'\\', *at, '\0'};
        put(writing, *at == '"' || *at == '\\' ? letter : letter + 1);
    }
    put(writing, "\"");
}

static void put_texts(Writing *writing, const IfigSpeciesRecord *record)
{
    for (int i = 0; i <= IFIG_TEXT_INDEX_SOURCE; i++) {
        /* These three have other defaults than the empty text. */
        int has_default =
            i == IFIG_TEXT_NATURE || i == IFIG_TEXT_SOURCE || i == IFIG_TEXT_INDEX_SOURCE;
        if (record->text[i][0] == '\0' && !has_default) {
            continue;
        }
        put(writing, i == 0 ? "  - " : "    ");
        put(writing, ifig_text_names[i]);
        put(writing, ": ");
        put_quoted(writing, record->text[i]);
        put(writing, "\n");
    }
}

static void put_words(Writing *writing, const IfigSpeciesFacts *facts)
{
    put_key(writing, "optic_character");
    put(writing, ifig_character_names[facts->character]);
    put(writing, "\n");
    if (facts->optic_sign != 0) {
        put_key(writing, "optic_sign");
        put(writing, facts->optic_sign > 0 ? "positive\n" : "negative\n");
    }
    if (facts->may_be_either_sign) {
        put(writing, "    may_be_either_sign: true\n");
    }
    if (facts->monoclinic != IFIG_MONOCLINIC_NONE) {
        put_key(writing, "monoclinic_dispersion");
        put(writing, ifig_monoclinic_names[facts->monoclinic]);
        put(writing, "\n");
    }
    if (facts->is_opaque) {
        put(writing, "    opaque: true\n");
    }
}

static void put_indices(Writing *writing, const IfigSpeciesFacts *facts)
{
    const double *n = facts->n;
    const double two[2] = {n[0], n[2]};
    put_key(writing, "n");
    if (n[0] == n[1] && n[1] == n[2]) {
        put_numbers(writing, n, 1);
    } else if (n[0] == n[1]) {
        put_numbers(writing, two, 2);
    } else {
        put_numbers(writing, n, 3);
    }
    put(writing, "\n");
}

static void put_known_numbers(Writing *writing, const IfigSpeciesRecord *record)
{
    for (size_t i = 0; i + 1 < ifig_number_field_count; i++) { /* the last is in rotation: */
        double value = 0.0;
        memcpy(&value, (const char *)record + ifig_number_fields[i].offset, sizeof value);
        if (!isnan(value)) {
            put_key(writing, ifig_number_fields[i].key);
            put_number(writing, value);
            put(writing, "\n");
        }
    }
}

static void put_dispersion(Writing *writing, const IfigSpeciesRecord *record)
{
    static const char *const axis_name[3] = {"x", "y", "z"};
    if (record->formula[0].type == 0) {
        return;
    }
    put(writing, "    dispersion:\n");
    for (int axis = 0; axis < 3; axis++) {
        const IfigDispersionFormula *formula = &record->formula[axis];
        put(writing, "      ");
        put(writing, axis_name[axis]);
        put(writing, ":\n        formula_type: ");
        put_number(writing, formula->type);
        put(writing, "\n        coefficients: ");
        put_numbers(writing, formula->coefficient, IFIG_FORMULA_TERMS);
        put(writing, "\n        low_um: ");
        put_number(writing, formula->low_um);
        put(writing, "\n        high_um: ");
        put_number(writing, formula->high_um);
        put(writing, "\n");
    }
}

static void put_rotation(Writing *writing, const IfigRotation *rotation)
{
    put(writing, "    rotation:\n      constant: ");
    put_number(writing, rotation->constant);
    put(writing, "\n      strength_um2: ");
    put_numbers(writing, rotation->strength_um2, 2);
    put(writing, "\n      pole_um2: ");
    put_numbers(writing, rotation->pole_um2, 2);
    put(writing, "\n      ratio_across: ");
    put_number(writing, rotation->ratio_across);
    put(writing, "\n");
}

IfigStatus ifig_species_write_text(const IfigSpecies *species, char **yaml, IfigError *error)
{
    if (yaml != NULL) {
        *yaml = NULL;
    }
    if (species == NULL || yaml == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "writing a species needs a species and a place for its text");
    }
    IfigSpeciesRecord record = IFIG_SPECIES_RECORD_INIT;
    IfigStatus status = ifig_species_record(species, &record, error);
    if (status != IFIG_OK) {
        return status;
    }
    Writing writing = {.text = NULL};
    put(&writing, "species:\n");
    put_texts(&writing, &record);
    put_words(&writing, &record.facts);
    put_indices(&writing, &record.facts);
    put_known_numbers(&writing, &record);
    put_dispersion(&writing, &record);
    if (record.facts.is_optically_active || record.rotation.ratio_across != 1.0 ||
        record.rotation.pole_um2[0] != 0.0 || record.rotation.pole_um2[1] != 0.0) {
        put_rotation(&writing, &record.rotation);
    }
    if (writing.is_lost) {
        free(writing.text);
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory to write a species");
    }
    *yaml = writing.text;
    return IFIG_OK;
}
