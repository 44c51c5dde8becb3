/* SPDX-License-Identifier: MIT */
#include "species_fields.h"

#include <stdlib.h>
#include <string.h>

#include "base.h"

const char *const ifig_text_names[IFIG_TEXT_INDEX_SOURCE + 1] = {
    "key",         "name",        "varieties",   "nature",           "crystal_system",
    "orientation", "pleochroism", "absorption",  "axial_dispersion", "reaction",
    "notes",       "source",      "index_source"};
const char *const ifig_character_names[IFIG_AGGREGATE + 1] = {"isotropic", "uniaxial", "biaxial",
                                                              "aggregate"};
const char *const ifig_monoclinic_names[IFIG_MONOCLINIC_CROSSED + 1] = {"none", "inclined",
                                                                        "parallel", "crossed"};

#define FACT(name) offsetof(IfigSpeciesRecord, facts.name)
const IfigNumberField ifig_number_fields[] = {
    {"n_low", FACT(n_low), 1.0, 5.0},
    {"n_high", FACT(n_high), 1.0, 5.0},
    {"birefringence_low", FACT(birefringence_low), 0.0, 4.0},
    {"birefringence_high", FACT(birefringence_high), 0.0, 4.0},
    {"two_v_deg", FACT(two_v_deg), 0.0, 90.0},
    {"two_v_low_deg", FACT(two_v_low_deg), 0.0, 90.0},
    {"two_v_high_deg", FACT(two_v_high_deg), 0.0, 90.0},
    {"two_v_c_deg", offsetof(IfigSpeciesRecord, two_v_c_deg), -90.0, 180.0},
    {"two_v_f_deg", offsetof(IfigSpeciesRecord, two_v_f_deg), -90.0, 180.0},
    {"dispersion_bg", FACT(dispersion_bg), 0.0, 1.0},
    {"axes_turn_deg", FACT(axes_turn_deg), -90.0, 90.0},
    {"rotation_deg_per_mm", offsetof(IfigSpeciesRecord, rotation.constant), -1e5, 1e5},
};
const size_t ifig_number_field_count = sizeof ifig_number_fields / sizeof *ifig_number_fields;

enum {
    TEXTS = IFIG_TEXT_INDEX_SOURCE + 1,
    NUMBERS = sizeof ifig_number_fields / sizeof *ifig_number_fields
};

/* What is read besides texts and numbers. */
typedef enum Special {
    SPECIAL_N = 0,
    SPECIAL_CHARACTER,
    SPECIAL_SIGN,
    SPECIAL_EITHER_SIGN,
    SPECIAL_MONOCLINIC,
    SPECIAL_OPAQUE,
    SPECIAL_DISPERSION,
    SPECIAL_ROTATION,
    SPECIALS
} Special;
static const char *const special_names[SPECIALS] = {
    "n",      "optic_character", "optic_sign", "may_be_either_sign", "monoclinic_dispersion",
    "opaque", "dispersion",      "rotation"};

/* A record on its way: what the file said, before it is made sense of. */
typedef struct Draft {
    const IfigYamlTree *tree;
    IfigSpeciesRecord record;
    double n[3];
    size_t n_count;
    int has_character;
    char *varieties;  /* joined from a list */
    unsigned seen[2]; /* rotation_deg_per_mm, rotation */
} Draft;

static size_t place_in(const char *word, const char *const *words, size_t count)
{
    size_t place = 0;
    while (place < count && strcmp(words[place], word) != 0) {
        place++;
    }
    return place;
}

/* The place of a word among those allowed. */
static IfigStatus read_word(const Draft *draft, IfigYamlPlace value, const char *key,
                            const char *const *words, size_t count, size_t *place, IfigError *error)
{
    const char *word = ifig_yaml_text(draft->tree, value);
    *place = place_in(word, words, count);
    if (*place < count) {
        return IFIG_OK;
    }
    char list[120] = "";
    for (size_t i = 0; i < count && strlen(list) + strlen(words[i]) + 3 < sizeof list; i++) {
        strcat(list, i > 0 ? ", " : "");
        strcat(list, words[i]);
    }
    return ifig_yaml_fail(draft->tree, value, error, "%s is '%s'; it must be one of %s", key,
                          ifig_word_text(word).text, list);
}

static IfigStatus read_yes(const Draft *draft, IfigYamlPlace value, const char *key, int *answer,
                           IfigError *error)
{
    static const char *const words[] = {"false", "no", "0", "true", "yes", "1"};
    size_t place = 0;
    IfigStatus status = read_word(draft, value, key, words, 6, &place, error);
    *answer = place >= 3 && place < 6;
    return status;
}

static IfigStatus read_sign(Draft *draft, IfigYamlPlace value, IfigError *error)
{
    static const char *const words[] = {"positive", "negative", "either", "+", "-", "+/-"};
    size_t place = 0;
    IfigStatus status = read_word(draft, value, "optic_sign", words, 6, &place, error);
    if (status == IFIG_OK && place % 3 == 2) {
        draft->record.facts.may_be_either_sign = 1;
    } else if (status == IFIG_OK) {
        draft->record.facts.optic_sign = place % 3 == 0 ? 1 : -1;
    }
    return status;
}

/* varieties as a list: joined with ';'. */
static IfigStatus join_varieties(Draft *draft, IfigYamlPlace list, IfigError *error)
{
    const IfigYamlNode *node = ifig_yaml_node(draft->tree, list);
    size_t total = 1;
    IfigYamlPlace item = node->first;
    for (size_t i = 0; i < node->child_count; i++) {
        const char *text = ifig_yaml_text(draft->tree, item);
        if (text[0] == '\0' || strchr(text, ';') != NULL) {
            return ifig_yaml_fail(draft->tree, item, error,
                                  "a variety must be text without ';'; give each its own place in "
                                  "the list");
        }
        total += strlen(text) + 1;
        item = ifig_yaml_node(draft->tree, item)->next;
    }
    draft->varieties = calloc(total, 1);
    if (draft->varieties == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory to read a species");
    }
    char *end = draft->varieties;
    item = node->first;
    for (size_t i = 0; i < node->child_count; i++) {
        if (i > 0) {
            *end++ = ';';
        }
        const char *text = ifig_yaml_text(draft->tree, item);
        memcpy(end, text, strlen(text) + 1);
        end += strlen(text);
        item = ifig_yaml_node(draft->tree, item)->next;
    }
    draft->record.text[IFIG_TEXT_VARIETIES] = draft->varieties;
    return IFIG_OK;
}

static IfigStatus take_text(Draft *draft, size_t column, IfigYamlPlace value, IfigError *error)
{
    const IfigYamlNode *node = ifig_yaml_node(draft->tree, value);
    if (column == IFIG_TEXT_VARIETIES && node->kind == IFIG_YAML_LIST) {
        return join_varieties(draft, value, error);
    }
    if (node->kind != IFIG_YAML_SCALAR) {
        return ifig_yaml_fail(draft->tree, value, error,
                              "%s must be text on one line; put text "
                              "with ': ', '#' or brackets in quotes",
                              ifig_text_names[column]);
    }
    draft->record.text[column] = ifig_yaml_text(draft->tree, value);
    return IFIG_OK;
}

static IfigStatus take_number(Draft *draft, size_t field, IfigYamlPlace value, IfigError *error)
{
    const IfigNumberField *known = &ifig_number_fields[field];
    const double range[2] = {known->low, known->high};
    double number = 0.0;
    size_t count = 0;
    if (ifig_yaml_node(draft->tree, value)->kind != IFIG_YAML_SCALAR) {
        return ifig_yaml_fail(draft->tree, value, error, "%s must be one number", known->key);
    }
    IfigStatus status =
        ifig_yaml_numbers(draft->tree, value, known->key, 1, range, &number, &count, error);
    memcpy((char *)&draft->record + known->offset, &number, sizeof number);
    return status;
}

static IfigStatus take_special(Draft *draft, Special special, IfigYamlPlace value, IfigError *error)
{
    static const double index_range[2] = {1.0, 5.0};
    IfigSpeciesFacts *facts = &draft->record.facts;
    size_t place = 0;
    IfigStatus status = IFIG_OK;
    switch (special) {
    case SPECIAL_N:
        return ifig_yaml_numbers(draft->tree, value, "n", 3, index_range, draft->n, &draft->n_count,
                                 error);
    case SPECIAL_CHARACTER:
        status = read_word(draft, value, "optic_character", ifig_character_names, 4, &place, error);
        facts->character = (IfigOpticCharacter)place;
        draft->has_character = 1;
        return status;
    case SPECIAL_SIGN:
        return read_sign(draft, value, error);
    case SPECIAL_EITHER_SIGN:
        return read_yes(draft, value, "may_be_either_sign", &facts->may_be_either_sign, error);
    case SPECIAL_MONOCLINIC:
        status = read_word(draft, value, "monoclinic_dispersion", ifig_monoclinic_names, 4, &place,
                           error);
        facts->monoclinic = (IfigMonoclinicDispersion)place;
        return status;
    case SPECIAL_OPAQUE:
        return read_yes(draft, value, "opaque", &facts->is_opaque, error);
    case SPECIAL_DISPERSION:
        return ifig_yaml_dispersion(draft->tree, value, &draft->record, error);
    case SPECIAL_ROTATION:
    default:
        return ifig_yaml_rotation(draft->tree, value, &draft->record, error);
    }
}

static IfigStatus fail_unknown(const Draft *draft, IfigYamlPlace key, IfigError *error)
{
    const char *known[TEXTS + NUMBERS + SPECIALS];
    size_t count = 0;
    for (size_t i = 0; i < TEXTS; i++) {
        known[count++] = ifig_text_names[i];
    }
    for (size_t i = 0; i < NUMBERS; i++) {
        known[count++] = ifig_number_fields[i].key;
    }
    for (size_t i = 0; i < SPECIALS; i++) {
        known[count++] = special_names[i];
    }
    return ifig_yaml_unknown_key(draft->tree, key, known, count, error);
}

static IfigStatus take_key(Draft *draft, IfigYamlPlace key, IfigError *error)
{
    const char *word = ifig_yaml_text(draft->tree, key);
    IfigYamlPlace value = ifig_yaml_node(draft->tree, key)->next;
    size_t place = place_in(word, ifig_text_names, TEXTS);
    if (place < TEXTS) {
        return take_text(draft, place, value, error);
    }
    for (place = 0; place < NUMBERS; place++) {
        if (strcmp(word, ifig_number_fields[place].key) == 0) {
            draft->seen[0] |= place == NUMBERS - 1;
            return take_number(draft, place, value, error);
        }
    }
    place = place_in(word, special_names, SPECIALS);
    if (place < SPECIALS) {
        draft->seen[1] |= place == SPECIAL_ROTATION;
        return take_special(draft, (Special)place, value, error);
    }
    return fail_unknown(draft, key, error);
}

/* One, two or three indices along X, Y, Z. */
static void lay_indices(Draft *draft)
{
    IfigSpeciesFacts *facts = &draft->record.facts;
    if (!draft->has_character) {
        facts->character = draft->n_count == 1   ? IFIG_ISOTROPIC
                           : draft->n_count == 2 ? IFIG_UNIAXIAL
                                                 : IFIG_BIAXIAL;
    }
    facts->n[0] = draft->n[0];
    facts->n[1] = draft->n_count == 3 ? draft->n[1] : draft->n[0];
    facts->n[2] = draft->n[draft->n_count - 1];
}

static void fill_texts(IfigSpeciesRecord *record)
{
    const char **text = record->text;
    if (text[IFIG_TEXT_NATURE] == NULL) {
        text[IFIG_TEXT_NATURE] = "user";
    }
    if (text[IFIG_TEXT_SOURCE] == NULL) {
        text[IFIG_TEXT_SOURCE] = "user";
    }
    if (text[IFIG_TEXT_INDEX_SOURCE] == NULL) {
        text[IFIG_TEXT_INDEX_SOURCE] =
            record->formula[0].type != 0 ? text[IFIG_TEXT_SOURCE]
            : isnan(record->facts.dispersion_bg)
                ? "n at 589.3 nm, taken as the same at every wavelength"
                : "Cauchy's two terms from n at 589.3 nm and the B-G dispersion";
    }
}

static IfigStatus check_whole(const Draft *draft, IfigYamlPlace mapping, IfigError *error)
{
    if (draft->record.text[IFIG_TEXT_KEY] == NULL) {
        return ifig_yaml_fail(draft->tree, mapping, error,
                              "this species has no key; give it a short name of a-z, 0-9 and '_'");
    }
    if (draft->n_count == 0) {
        return ifig_yaml_fail(draft->tree, mapping, error,
                              "%s has no indices; give n, such as n: [1.544, 1.553]",
                              ifig_word_text(draft->record.text[IFIG_TEXT_KEY]).text);
    }
    if (draft->seen[0] && draft->seen[1]) {
        return ifig_yaml_fail(draft->tree, mapping, error,
                              "both rotation_deg_per_mm and rotation are given; keep one");
    }
    return IFIG_OK;
}

IfigStatus ifig_species_of_mapping(const IfigYamlTree *tree, IfigYamlPlace mapping,
                                   IfigSpecies **species, IfigError *error)
{
    const IfigYamlNode *node = ifig_yaml_node(tree, mapping);
    *species = NULL;
    if (node->kind != IFIG_YAML_MAPPING) {
        return ifig_yaml_fail(tree, mapping, error,
                              "a species must be a mapping with a key and n, such as: - key: "
                              "harbour_topaz");
    }
    Draft draft = {.tree = tree, .record = IFIG_SPECIES_RECORD_INIT};
    IfigStatus status = IFIG_OK;
    IfigYamlPlace key = node->first;
    for (size_t i = 0; i < node->child_count && status == IFIG_OK; i += 2) {
        status = take_key(&draft, key, error);
        key = ifig_yaml_node(tree, ifig_yaml_node(tree, key)->next)->next;
    }
    if (status == IFIG_OK) {
        status = check_whole(&draft, mapping, error);
    }
    if (status == IFIG_OK) {
        IfigError inner = IFIG_ERROR_INIT;
        lay_indices(&draft);
        fill_texts(&draft.record);
        status = ifig_species_create(&draft.record, species, &inner);
        if (status == IFIG_ERROR_MEMORY) {
            ifig_fail(error, status, "%s", inner.message);
        } else if (status != IFIG_OK) {
            status = ifig_yaml_fail(tree, mapping, error, "%s", inner.message);
        }
    }
    free(draft.varieties);
    return status;
}
