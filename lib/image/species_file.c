/* SPDX-License-Identifier: MIT */
#include "interfig/species_file.h"

#include <stdlib.h>
#include <string.h>

#include "base.h"
#include "image.h"
#include "species_fields.h"

enum { MOST_SPECIES = 1000 };

/* The list behind the one key `species`. */
static IfigStatus find_list(const IfigYamlTree *tree, IfigYamlPlace *list, IfigError *error)
{
    const IfigYamlNode *root = ifig_yaml_node(tree, tree->root);
    if (root->kind != IFIG_YAML_MAPPING || root->child_count == 0) {
        return ifig_yaml_fail(tree, tree->root, error,
                              "a species file begins with 'species:' and a list below it");
    }
    IfigYamlPlace key = root->first;
    for (size_t i = 0; i < root->child_count; i += 2) {
        if (strcmp(ifig_yaml_text(tree, key), "species") != 0) {
            static const char *const known[] = {"species"};
            return ifig_yaml_unknown_key(tree, key, known, 1, error);
        }
        *list = ifig_yaml_node(tree, key)->next;
        key = ifig_yaml_node(tree, *list)->next;
    }
    const IfigYamlNode *node = ifig_yaml_node(tree, *list);
    if (node->kind != IFIG_YAML_LIST || node->child_count == 0 ||
        node->child_count > MOST_SPECIES) {
        return ifig_yaml_fail(tree, *list, error,
                              "'species' must be a list of 1 to %d species, each with a '-' before "
                              "it",
                              MOST_SPECIES);
    }
    return IFIG_OK;
}

/* Whether two keys are the same to a look-up, which leaves '_' out: the second would take the place
 * of the first. */
static int is_same_key(const char *one, const char *other)
{
    for (;; one++, other++) {
        one += strspn(one, "_");
        other += strspn(other, "_");
        if (*one != *other || *one == '\0') {
            return *one == *other;
        }
    }
}

static IfigStatus check_new_key(const IfigYamlTree *tree, IfigYamlPlace place,
                                IfigSpecies *const *species, size_t count, IfigError *error)
{
    const char *key = ifig_species_text(species[count], IFIG_TEXT_KEY);
    for (size_t i = 0; i < count; i++) {
        const char *other = ifig_species_text(species[i], IFIG_TEXT_KEY);
        if (is_same_key(other, key)) {
            return ifig_yaml_fail(
                tree, place, error,
                "the key '%s' belongs to species %zu of this file already%s; give "
                "each its own",
                key, i + 1, strcmp(other, key) == 0 ? "" : ", '_' left out");
        }
    }
    return IFIG_OK;
}

/* Make the species of a list; *made counts those to free after a failure. */
static IfigStatus make_species(const IfigYamlTree *tree, IfigYamlPlace list, IfigSpecies **species,
                               size_t *made, IfigError *error)
{
    const IfigYamlNode *node = ifig_yaml_node(tree, list);
    IfigYamlPlace item = node->first;
    IfigStatus status = IFIG_OK;
    for (size_t i = 0; i < node->child_count && status == IFIG_OK; i++) {
        status = ifig_species_of_mapping(tree, item, &species[i], error);
        if (status == IFIG_OK) {
            *made = i + 1;
            status = check_new_key(tree, item, species, i, error);
        }
        item = ifig_yaml_node(tree, item)->next;
    }
    return status;
}

static IfigStatus add_tree(IfigCatalogue *catalogue, const IfigYamlTree *tree, IfigError *error)
{
    IfigYamlPlace list = 0;
    IfigStatus status = find_list(tree, &list, error);
    if (status != IFIG_OK) {
        return status;
    }
    size_t count = ifig_yaml_node(tree, list)->child_count, made = 0;
    IfigSpecies **species = calloc(count, sizeof *species);
    if (species == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for the species of a file");
    }
    status = make_species(tree, list, species, &made, error);
    if (status == IFIG_OK) {
        status = ifig_catalogue_add_all(catalogue, species, count, error);
    }
    for (size_t i = 0; i < made && status != IFIG_OK; i++) {
        ifig_species_free(species[i]);
    }
    free(species);
    return status;
}

IfigStatus ifig_catalogue_read_text(IfigCatalogue *catalogue, const char *text, size_t length,
                                    const char *name_for_errors, IfigError *error)
{
    if (catalogue == NULL || text == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "reading species needs a catalogue and a text");
    }
    IfigYamlTree tree;
    IfigStatus status = ifig_yaml_parse(
        text, length, name_for_errors != NULL ? name_for_errors : "text", &tree, error);
    if (status == IFIG_OK) {
        status = add_tree(catalogue, &tree, error);
    }
    ifig_yaml_free(&tree);
    return status;
}

IfigStatus ifig_catalogue_read_file(IfigCatalogue *catalogue, const char *path, IfigError *error)
{
    char *text = NULL;
    if (catalogue == NULL || path == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "reading species needs a catalogue and the path of a file");
    }
    IfigStatus status = ifig_file_read_text(path, &text, error);
    if (status == IFIG_OK) {
        status = ifig_catalogue_read_text(catalogue, text, strlen(text), path, error);
    }
    ifig_text_free(text);
    return status;
}
