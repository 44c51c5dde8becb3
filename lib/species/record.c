/* SPDX-License-Identifier: MIT */
/* A species made at run time from a plain record, and taken apart again. */
#include <stdlib.h>
#include <string.h>

#include "base.h"
#include "species.h"

/* Copy the texts of the record into one block behind the species; -1 without memory. */
static int own_texts(IfigSpecies *species)
{
    const char **text = species->record.text;
    size_t total = 1;
    for (int i = 0; i < IFIG_SPECIES_TEXT_COUNT; i++) {
        total += text[i] == NULL ? 0 : strlen(text[i]) + 1;
    }
    char *block = malloc(total);
    if (block == NULL) {
        return -1;
    }
    species->owned_text = block;
    *block++ = '\0'; /* shared by all that have nothing to say */
    for (int i = 0; i < IFIG_SPECIES_TEXT_COUNT; i++) {
        if (text[i] == NULL || text[i][0] == '\0') {
            text[i] = species->owned_text;
            continue;
        }
        size_t size = strlen(text[i]) + 1;
        memcpy(block, text[i], size);
        text[i] = block;
        block += size;
    }
    return 0;
}

static void drop_minus_zero(double *values, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        values[i] += 0.0;
    }
}

/* Minus zero would not come back from text: every zero of a record is plain. */
static void drop_minus_zeros(IfigSpeciesRecord *record)
{
    IfigSpeciesFacts *facts = &record->facts;
    double *const single[] = {
        &facts->birefringence_low,  &facts->birefringence_high,    &facts->two_v_deg,
        &facts->two_v_low_deg,      &facts->two_v_high_deg,        &facts->dispersion_bg,
        &facts->axes_turn_deg,      &record->two_v_c_deg,          &record->two_v_f_deg,
        &record->rotation.constant, &record->rotation.ratio_across};
    for (size_t i = 0; i < sizeof single / sizeof *single; i++) {
        drop_minus_zero(single[i], 1);
    }
    for (int axis = 0; axis < 3; axis++) {
        drop_minus_zero(record->formula[axis].coefficient, IFIG_FORMULA_TERMS);
    }
    drop_minus_zero(record->rotation.strength_um2, 2);
    drop_minus_zero(record->rotation.pole_um2, 2);
}

/* What follows from the indices where the record leaves it open. */
static void fill_in(IfigSpeciesRecord *record)
{
    IfigSpeciesFacts *facts = &record->facts;
    const double *n = facts->n;
    if (record->text[IFIG_TEXT_NAME] == NULL || record->text[IFIG_TEXT_NAME][0] == '\0') {
        record->text[IFIG_TEXT_NAME] = record->text[IFIG_TEXT_KEY];
    }
    if (facts->character == IFIG_UNIAXIAL && facts->optic_sign == 0) {
        facts->optic_sign = n[2] > n[0] ? 1 : -1;
    }
    if (facts->character == IFIG_BIAXIAL) {
        double share = ifig_beta_share_of_indices(n);
        if (facts->optic_sign == 0) {
            facts->optic_sign = share > 0.5 ? -1 : 1;
        }
        if (isnan(facts->two_v_deg)) {
            facts->two_v_deg = ifig_acute_angle_deg(share);
        }
    }
    const IfigRotation *rotation = &record->rotation;
    facts->is_optically_active = rotation->constant != 0.0 || rotation->strength_um2[0] != 0.0 ||
                                 rotation->strength_um2[1] != 0.0;
    facts->is_measured_dispersion = record->formula[0].type != 0;
}

IfigStatus ifig_species_create(const IfigSpeciesRecord *record, IfigSpecies **species,
                               IfigError *error)
{
    if (species == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "there is no place to put the species");
    }
    *species = NULL;
    if (record == NULL || record->size != sizeof *record) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the species record is missing or of a foreign size; start it from "
                         "IFIG_SPECIES_RECORD_INIT");
    }
    IfigStatus status = ifig_record_check(record, error);
    if (status != IFIG_OK) {
        return status;
    }
    IfigSpecies *made = calloc(1, sizeof *made);
    if (made == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for a species");
    }
    made->record = *record;
    fill_in(&made->record);
    drop_minus_zeros(&made->record);
    if (own_texts(made) != 0) {
        free(made);
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for the texts of a species");
    }
    *species = made;
    return IFIG_OK;
}

void ifig_species_free(IfigSpecies *species)
{
    if (species != NULL && species->owned_text != NULL) {
        free(species->owned_text);
        free(species);
    }
}

IfigStatus ifig_species_record(const IfigSpecies *species, IfigSpeciesRecord *record,
                               IfigError *error)
{
    if (species == NULL || record == NULL || record->size != sizeof *record) {
        return ifig_fail(
            error, IFIG_ERROR_ARGUMENT,
            "ifig_species_record needs a species and room for its record, started from "
            "IFIG_SPECIES_RECORD_INIT");
    }
    *record = species->record;
    return IFIG_OK;
}

const char *ifig_species_text(const IfigSpecies *species, IfigSpeciesText column)
{
    if (species == NULL || (int)column < 0 || (int)column >= IFIG_SPECIES_TEXT_COUNT) {
        return "";
    }
    return species->record.text[column];
}

IfigStatus ifig_species_facts(const IfigSpecies *species, IfigSpeciesFacts *facts, IfigError *error)
{
    if (species == NULL || facts == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_species_facts needs a species and room for its facts");
    }
    *facts = species->record.facts;
    return IFIG_OK;
}
