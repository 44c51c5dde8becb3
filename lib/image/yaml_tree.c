/* SPDX-License-Identifier: MIT */
#include "yaml_tree.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <yaml.h>

#include "base.h"
#include "image.h"

enum {
    DEEPEST = 6,     /* root, list, species, dispersion, axis, coefficients */
    MOST_KEYS = 100, /* in one mapping: more than any has a use for */
    MOST_NODES = 200000
};

static IfigStatus fail_at(const IfigYamlTree *tree, size_t line, size_t column, IfigError *error,
                          const char *message)
{
    return ifig_fail(error, IFIG_ERROR_SYNTAX, "%s:%zu:%zu: %s", ifig_path_text(tree->name).text,
                     line, column, message);
}

static IfigStatus fail_at_mark(const IfigYamlTree *tree, const yaml_mark_t *mark, IfigError *error,
                               const char *message)
{
    return fail_at(tree, mark->line + 1, mark->column + 1, error, message);
}

IfigStatus ifig_yaml_fail(const IfigYamlTree *tree, IfigYamlPlace place, IfigError *error,
                          const char *format, ...)
{
    char message[sizeof((IfigError *)0)->message];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(message, sizeof message, format, arguments);
    va_end(arguments);
    const IfigYamlNode *node = ifig_yaml_node(tree, place);
    return fail_at(tree, node->line, node->column, error, message);
}

const IfigYamlNode *ifig_yaml_node(const IfigYamlTree *tree, IfigYamlPlace place)
{
    return &tree->nodes[place];
}

const char *ifig_yaml_text(const IfigYamlTree *tree, IfigYamlPlace place)
{
    const IfigYamlNode *node = &tree->nodes[place];
    return node->kind == IFIG_YAML_SCALAR ? tree->text + node->text : "";
}

void ifig_yaml_free(IfigYamlTree *tree)
{
    free(tree->nodes);
    free(tree->text);
    *tree = (IfigYamlTree){.name = tree->name};
}

/* Twice the room of a growing array; NULL without memory. */
static void *grow(void *array, size_t *room, size_t needed, size_t size)
{
    if (needed <= *room) {
        return array;
    }
    size_t wanted = *room < 64 ? 64 : *room;
    while (wanted < needed) {
        wanted *= 2;
    }
    void *grown = realloc(array, wanted * size);
    if (grown != NULL) {
        *room = wanted;
    }
    return grown;
}

/* Every character printable, or a tab or line end: else say where. */
static IfigStatus check_characters(const char *text, size_t length, const IfigYamlTree *tree,
                                   IfigError *error)
{
    size_t line = 1, column = 1;
    size_t at = length >= 3 && memcmp(text, "\xef\xbb\xbf", 3) == 0 ? 3 : 0;
    while (at < length) {
        /* Copied out, so that a character cut off by the end is not read beyond it. */
        char character[5] = "";
        memcpy(character, text + at, length - at < 4 ? length - at : 4);
        unsigned long code_point = 0;
        size_t taken = ifig_utf8_read(character, &code_point);
        int is_blank = code_point == '\t' || code_point == '\n' || code_point == '\r';
        if (taken == 0 || !(is_blank || ifig_is_printable(code_point))) {
            return fail_at(tree, line, column, error,
                           taken == 0 ? "this byte is not UTF-8; save the file as UTF-8"
                                      : "a control character does not belong in text; delete it");
        }
        at += taken;
        column++;
        if (code_point == '\n' || (code_point == '\r' && !(at < length && text[at] == '\n'))) {
            line++;
            column = 1;
        }
    }
    return IFIG_OK;
}

/* The collections that are open, outermost first. */
typedef struct Open {
    IfigYamlPlace place[DEEPEST], last[DEEPEST];
    size_t depth;
} Open;

static IfigStatus check_key(const IfigYamlTree *tree, const Open *open, IfigYamlPlace key,
                            IfigError *error)
{
    const IfigYamlNode *mapping = &tree->nodes[open->place[open->depth - 1]];
    if (tree->nodes[key].kind != IFIG_YAML_SCALAR) {
        return ifig_yaml_fail(tree, key, error, "a key must be a word, not a list or mapping");
    }
    if (mapping->child_count / 2 >= MOST_KEYS) {
        return ifig_yaml_fail(tree, key, error, "more than %d keys in one mapping", MOST_KEYS);
    }
    IfigYamlPlace other = mapping->first;
    for (size_t i = 0; i + 1 < mapping->child_count; i += 2) {
        if (strcmp(ifig_yaml_text(tree, other), ifig_yaml_text(tree, key)) == 0) {
            return ifig_yaml_fail(tree, key, error,
                                  "the key '%s' stands here a second time, first in line %zu; keep "
                                  "one of them",
                                  ifig_word_text(ifig_yaml_text(tree, key)).text,
                                  tree->nodes[other].line);
        }
        other = tree->nodes[tree->nodes[other].next].next;
    }
    return IFIG_OK;
}

/* Hang a node into the innermost open collection. */
static IfigStatus attach(IfigYamlTree *tree, Open *open, IfigYamlPlace place, IfigError *error)
{
    if (open->depth == 0) {
        tree->root = place;
        return IFIG_OK;
    }
    size_t top = open->depth - 1;
    IfigYamlNode *parent = &tree->nodes[open->place[top]];
    if (parent->kind == IFIG_YAML_MAPPING && parent->child_count % 2 == 0) {
        IfigStatus status = check_key(tree, open, place, error);
        if (status != IFIG_OK) {
            return status;
        }
    }
    if (parent->first == 0) {
        parent->first = place;
    } else {
        tree->nodes[open->last[top]].next = place;
    }
    open->last[top] = place;
    parent->child_count++;
    return IFIG_OK;
}

static IfigStatus add_node(IfigYamlTree *tree, Open *open, IfigYamlKind kind,
                           const yaml_event_t *event, IfigError *error)
{
    if (tree->count >= MOST_NODES) {
        return fail_at_mark(tree, &event->start_mark, error, "the text has too many parts");
    }
    IfigYamlNode *nodes = grow(tree->nodes, &tree->room, tree->count + 1, sizeof *nodes);
    if (nodes == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory to read a text file");
    }
    tree->nodes = nodes;
    nodes[tree->count] = (IfigYamlNode){.kind = kind,
                                        .line = event->start_mark.line + 1,
                                        .column = event->start_mark.column + 1,
                                        .text = tree->text_used};
    if (kind == IFIG_YAML_SCALAR) {
        size_t length = event->data.scalar.length;
        size_t needed = tree->text_used + length + 1;
        char *text = grow(tree->text, &tree->text_room, needed, 1);
        if (text == NULL) {
            return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory to read a text file");
        }
        tree->text = text;
        memcpy(text + tree->text_used, event->data.scalar.value, length);
        text[tree->text_used + length] = '\0';
        tree->text_used = needed;
        if (memchr(event->data.scalar.value, '\0', length) != NULL) {
            return fail_at_mark(tree, &event->start_mark, error, "a NUL does not belong in text");
        }
    }
    return attach(tree, open, tree->count++, error);
}

static IfigStatus open_collection(IfigYamlTree *tree, Open *open, IfigYamlKind kind,
                                  const yaml_event_t *event, IfigError *error)
{
    if (open->depth >= DEEPEST) {
        return fail_at_mark(tree, &event->start_mark, error,
                            "nested deeper than 6; nothing needs more");
    }
    IfigStatus status = add_node(tree, open, kind, event, error);
    if (status == IFIG_OK) {
        open->last[open->depth] = 0;
        open->place[open->depth++] = tree->count - 1;
    }
    return status;
}

static IfigStatus check_plain(const IfigYamlTree *tree, const yaml_event_t *event,
                              const yaml_char_t *anchor, const yaml_char_t *tag, IfigError *error)
{
    if (anchor != NULL) {
        return fail_at_mark(tree, &event->start_mark, error,
                            "anchors (&) are not read; write the value itself");
    }
    if (tag != NULL) {
        return fail_at_mark(tree, &event->start_mark, error,
                            "tags (!) are not read; write the value alone");
    }
    return IFIG_OK;
}

static IfigStatus take_document_start(const IfigYamlTree *tree, const yaml_event_t *event,
                                      IfigError *error)
{
    int has_directive = event->data.document_start.version_directive != NULL ||
                        event->data.document_start.tag_directives.start !=
                            event->data.document_start.tag_directives.end;
    if (has_directive) {
        return fail_at_mark(tree, &event->start_mark, error,
                            "directives (%) are not read; delete the line");
    }
    if (tree->root != 0) {
        return fail_at_mark(tree, &event->start_mark, error,
                            "a second document begins here; keep one in a file");
    }
    return IFIG_OK;
}

static IfigStatus take_event(IfigYamlTree *tree, Open *open, const yaml_event_t *event,
                             IfigError *error)
{
    IfigStatus status = IFIG_OK;
    switch (event->type) {
    case YAML_DOCUMENT_START_EVENT:
        return take_document_start(tree, event, error);
    case YAML_ALIAS_EVENT:
        return fail_at_mark(tree, &event->start_mark, error,
                            "aliases (*) are not read; write the value itself");
    case YAML_SCALAR_EVENT:
        status = check_plain(tree, event, event->data.scalar.anchor, event->data.scalar.tag, error);
        return status == IFIG_OK ? add_node(tree, open, IFIG_YAML_SCALAR, event, error) : status;
    case YAML_SEQUENCE_START_EVENT:
        status = check_plain(tree, event, event->data.sequence_start.anchor,
                             event->data.sequence_start.tag, error);
        return status == IFIG_OK ? open_collection(tree, open, IFIG_YAML_LIST, event, error)
                                 : status;
    case YAML_MAPPING_START_EVENT:
        status = check_plain(tree, event, event->data.mapping_start.anchor,
                             event->data.mapping_start.tag, error);
        return status == IFIG_OK ? open_collection(tree, open, IFIG_YAML_MAPPING, event, error)
                                 : status;
    case YAML_SEQUENCE_END_EVENT:
    case YAML_MAPPING_END_EVENT:
        open->depth--;
        return IFIG_OK;
    default:
        return IFIG_OK;
    }
}

static IfigStatus fail_in_parser(const IfigYamlTree *tree, const yaml_parser_t *parser,
                                 IfigError *error)
{
    if (parser->error == YAML_MEMORY_ERROR) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory to read a text file");
    }
    const char *problem = parser->problem != NULL ? parser->problem : "not YAML";
    const char *remedy = strstr(problem, "block sequence entries") != NULL
                             ? "put a '-' that stands alone in quotes: \"-\""
                         : strstr(problem, "mapping values are not allowed") != NULL
                             ? "put text that holds a colon and a blank in quotes"
                         : strstr(problem, "cannot start any token") != NULL ||
                                 strstr(problem, "tab character") != NULL
                             ? "indent with blanks, and put text with signs in quotes"
                             : "compare the indentation, brackets and quotes with the lines above";
    char message[256];
    snprintf(message, sizeof message, "%s; %s", problem, remedy);
    return fail_at_mark(tree, &parser->problem_mark, error, message);
}

static IfigStatus parse_events(yaml_parser_t *parser, IfigYamlTree *tree, IfigError *error)
{
    Open open = {.depth = 0};
    for (int is_over = 0; !is_over;) {
        yaml_event_t event;
        if (!yaml_parser_parse(parser, &event)) {
            return fail_in_parser(tree, parser, error);
        }
        is_over = event.type == YAML_STREAM_END_EVENT;
        IfigStatus status = take_event(tree, &open, &event, error);
        yaml_event_delete(&event);
        if (status != IFIG_OK) {
            return status;
        }
    }
    return tree->root != 0 ? IFIG_OK : fail_at(tree, 1, 1, error, "the file is empty");
}

IfigStatus ifig_yaml_parse(const char *text, size_t length, const char *name, IfigYamlTree *tree,
                           IfigError *error)
{
    yaml_parser_t parser;
    *tree = (IfigYamlTree){.name = name, .count = 1}; /* node 0 is none */
    if (length > IFIG_TEXT_MAX) {
        return fail_at(tree, 1, 1, error, "the text is longer than 1048576 bytes; split it");
    }
    IfigStatus status = check_characters(text, length, tree, error);
    if (status != IFIG_OK) {
        return status;
    }
    if (!yaml_parser_initialize(&parser)) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory to read a text file");
    }
    yaml_parser_set_encoding(&parser, YAML_UTF8_ENCODING);
    yaml_parser_set_input_string(&parser, (const unsigned char *)text, length);
    status = parse_events(&parser, tree, error);
    yaml_parser_delete(&parser);
    if (status != IFIG_OK) {
        ifig_yaml_free(tree);
    }
    return status;
}
