/* SPDX-License-Identifier: MIT */
/* A small YAML text as a tree, each node with its line and column. Refuses what a data file has no
 * need of and an attacker has: aliases, anchors, tags, directives, deep nesting, repeated keys. */
#ifndef IFIG_YAML_TREE_H
#define IFIG_YAML_TREE_H

#include <stddef.h>

#include "interfig/status.h"

typedef enum IfigYamlKind { IFIG_YAML_SCALAR = 0, IFIG_YAML_LIST, IFIG_YAML_MAPPING } IfigYamlKind;

/* A place in the tree's nodes; 0 is none. */
typedef size_t IfigYamlPlace;

/* Children of a mapping: key, value, key, value; keys are scalars, no two alike. */
typedef struct IfigYamlNode {
    IfigYamlKind kind;
    size_t line, column; /* from 1, in characters */
    size_t text;         /* offset of a scalar's text */
    IfigYamlPlace first, next;
    size_t child_count;
} IfigYamlNode;

typedef struct IfigYamlTree {
    const char *name; /* what messages call the text; borrowed */
    IfigYamlNode *nodes;
    size_t count, room;
    char *text;
    size_t text_used, text_room;
    IfigYamlPlace root;
} IfigYamlTree;

/* Parse at most 1 MiB of UTF-8. The tree is empty after a failure; free it in every case. */
IfigStatus ifig_yaml_parse(const char *text, size_t length, const char *name, IfigYamlTree *tree,
                           IfigError *error);
void ifig_yaml_free(IfigYamlTree *tree);

const IfigYamlNode *ifig_yaml_node(const IfigYamlTree *tree, IfigYamlPlace place);
/* The text of a scalar; "" for another kind. */
const char *ifig_yaml_text(const IfigYamlTree *tree, IfigYamlPlace place);

/* Fail with IFIG_ERROR_SYNTAX and "name:line:column: message". */
#if defined(__GNUC__)
__attribute__((format(printf, 4, 5)))
#endif
IfigStatus
ifig_yaml_fail(const IfigYamlTree *tree, IfigYamlPlace place, IfigError *error, const char *format,
               ...);

#endif
