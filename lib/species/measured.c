/* SPDX-License-Identifier: MIT */
/* A species made from measured indices alone: what a refractometer tells. */
#include <stdio.h>

#include "base.h"
#include "species.h"

/* Put one, two or three indices along X, Y, Z; equal ones give the simpler character. */
static IfigOpticCharacter lay_along_axes(const double *indices, size_t count, double n[3])
{
    double first = indices[0], last = indices[count - 1];
    if (count == 1 || first == last) {
        n[0] = n[1] = n[2] = first;
        return IFIG_ISOTROPIC;
    }
    if (count == 2 || indices[1] == first) {
        n[0] = n[1] = first;
        n[2] = last;
        return IFIG_UNIAXIAL;
    }
    if (indices[1] == last) { /* n_beta = n_gamma: Z, the optic axis, is where n is least */
        n[0] = n[1] = last;
        n[2] = first;
        return IFIG_UNIAXIAL;
    }
    n[0] = first;
    n[1] = indices[1];
    n[2] = last;
    return IFIG_BIAXIAL;
}

static IfigStatus check_indices(const double *indices, size_t count, IfigError *error)
{
    static const char *const name[3][3] = {
        {"n", "", ""}, {"n_omega", "n_epsilon", ""}, {"n_alpha", "n_beta", "n_gamma"}};
    for (size_t i = 0; i < count; i++) {
        IfigStatus status = ifig_check_range(name[count - 1][i], indices[i], 1.0, 5.0, "", error);
        if (status != IFIG_OK) {
            return status;
        }
    }
    if (count == 3 && (indices[0] > indices[1] || indices[1] > indices[2])) {
        return ifig_fail(error, IFIG_ERROR_RANGE,
                         "the indices %s, %s, %s do not rise; give n_alpha <= n_beta <= n_gamma",
                         ifig_number_text(indices[0], 9).text, ifig_number_text(indices[1], 9).text,
                         ifig_number_text(indices[2], 9).text);
    }
    return IFIG_OK;
}

IfigStatus ifig_species_from_indices(const double *indices, size_t count,
                                     double rotation_deg_per_mm, IfigSpecies **species,
                                     IfigError *error)
{
    if (species == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "there is no place to put the species");
    }
    *species = NULL;
    if (indices == NULL || count < 1 || count > 3) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "a stone has one, two or three indices: n, or n_omega and n_epsilon, or "
                         "n_alpha, n_beta and n_gamma");
    }
    IfigStatus status = check_indices(indices, count, error);
    if (status == IFIG_OK) {
        status = ifig_check_range("the rotation", rotation_deg_per_mm, -1e5, 1e5, "deg/mm", error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    IfigSpeciesRecord record = IFIG_SPECIES_RECORD_INIT;
    record.facts.character = lay_along_axes(indices, count, record.facts.n);
    record.rotation.constant = rotation_deg_per_mm;
    char name[96];
    int length = snprintf(name, sizeof name, "Stone of n");
    for (size_t i = 0; i < count; i++) {
        length += snprintf(name + length, sizeof name - (size_t)length, "%s %s", i > 0 ? "," : "",
                           ifig_number_text(indices[i], 9).text);
    }
    record.text[IFIG_TEXT_KEY] = "measured";
    record.text[IFIG_TEXT_NAME] = name;
    record.text[IFIG_TEXT_NATURE] = "user";
    record.text[IFIG_TEXT_SOURCE] = "indices as given";
    record.text[IFIG_TEXT_INDEX_SOURCE] = "indices as given, the same at every wavelength";
    return ifig_species_create(&record, species, error);
}
