/* SPDX-License-Identifier: MIT */
/* One mapping of a species file as a record, and the words that reader and writer share. */
#ifndef IFIG_SPECIES_FIELDS_H
#define IFIG_SPECIES_FIELDS_H

#include "interfig/species_record.h"
#include "yaml_tree.h"

/* The texts of a record by IfigSpeciesText, optic characters and monoclinic dispersions by their
 * enums, as the files name them. */
extern const char *const ifig_text_names[IFIG_TEXT_INDEX_SOURCE + 1];
extern const char *const ifig_character_names[IFIG_AGGREGATE + 1];
extern const char *const ifig_monoclinic_names[IFIG_MONOCLINIC_CROSSED + 1];

/* The numbers of a record that stand for themselves. */
typedef struct IfigNumberField {
    const char *key;
    size_t offset; /* of the double in IfigSpeciesRecord */
    double low, high;
} IfigNumberField;
extern const IfigNumberField ifig_number_fields[];
extern const size_t ifig_number_field_count;

/* Make a species of a mapping of the tree. Free it with ifig_species_free. */
IfigStatus ifig_species_of_mapping(const IfigYamlTree *tree, IfigYamlPlace mapping,
                                   IfigSpecies **species, IfigError *error);

/* A list of up to `most` numbers (or a single one), each from low to high. */
IfigStatus ifig_yaml_numbers(const IfigYamlTree *tree, IfigYamlPlace place, const char *key,
                             size_t most, const double range[2], double *values, size_t *count,
                             IfigError *error);
/* dispersion: and rotation: of a species. */
IfigStatus ifig_yaml_dispersion(const IfigYamlTree *tree, IfigYamlPlace place,
                                IfigSpeciesRecord *record, IfigError *error);
IfigStatus ifig_yaml_rotation(const IfigYamlTree *tree, IfigYamlPlace place,
                              IfigSpeciesRecord *record, IfigError *error);
/* Refuse a key that is not one of those known, with the nearest of them. */
IfigStatus ifig_yaml_unknown_key(const IfigYamlTree *tree, IfigYamlPlace key,
                                 const char *const *known, size_t count, IfigError *error);

#endif
