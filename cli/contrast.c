/* SPDX-License-Identifier: MIT */
/* interfig contrast: what tells stones apart. */
#include "contrast.h"

#include <stdlib.h>
#include <string.h>

#include "arguments.h"
#include "colour.h"
#include "commands.h"
#include "describe.h"
#include "json.h"
#include "plot.h"
#include "scene.h"
#include "traits.h"
#include "words.h"

enum { TEXT_MAX = 4096, PAIRS_MAX = IFIG_CLI_WORDS_MAX * (IFIG_CLI_WORDS_MAX - 1) / 2 };

/* Two of the stones, compared. */
typedef struct Pair {
    size_t first, second;
    IfigPairContrast contrast;
    char words[TEXT_MAX];
} Pair;

typedef struct Answer {
    size_t stone_count, pair_count;
    IfigTraits traits[IFIG_CLI_WORDS_MAX];
    Pair pairs[PAIRS_MAX];
} Answer;

const char *ifig_cli_stone_word(const IfigCliSettings *settings, const IfigCliScene *scenes,
                                size_t index)
{
    enum { LONGEST = 40 };
    const char *word = settings->words[index];
    return ifig_cli_is_plain(word) && strlen(word) <= LONGEST
               ? word
               : ifig_species_text(scenes[index].species, IFIG_TEXT_KEY);
}

int ifig_cli_shows_face_alone(const IfigCliScene *scene)
{
    return scene->facts.character == IFIG_ISOTROPIC || scene->facts.character == IFIG_AGGREGATE;
}

void ifig_cli_name_stones(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scenes)
{
    for (size_t i = 0; i < settings->word_count; i++) {
        fprintf(out, "%s%s",
                i == 0                         ? ""
                : i + 1 < settings->word_count ? ", "
                                               : " and ",
                ifig_cli_stone_word(settings, scenes, i));
    }
}

static IfigCliStatus check_words(const IfigCliSettings *settings)
{
    if (settings->word_count >= 2) {
        return IFIG_CLI_OK;
    }
    if (settings->word_count == 0) {
        return ifig_cli_refuse(settings, "no stones are given; contrast needs two to six, such as: "
                                         "interfig contrast ruby almandine");
    }
    return ifig_cli_refuse(settings,
                           "'%s' stands alone; contrast needs two to six stones, such as: interfig "
                           "contrast ruby almandine",
                           ifig_cli_shown(settings->word).text);
}

/* Two words may mean one stone: ruby and corundum in red. */
static IfigCliStatus check_stone(const IfigCliSettings *settings, const IfigCliScene *scenes,
                                 size_t last)
{
    const char *key = ifig_species_text(scenes[last].species, IFIG_TEXT_KEY);
    for (size_t i = 0; i < last; i++) {
        if (scenes[i].layer[0].body_colour == scenes[last].layer[0].body_colour &&
            strcmp(key, ifig_species_text(scenes[i].species, IFIG_TEXT_KEY)) == 0) {
            return ifig_cli_refuse(settings, "'%s' and '%s' are one stone, %s; name different ones",
                                   ifig_cli_shown(settings->words[i]).text,
                                   ifig_cli_shown(settings->words[last]).text,
                                   ifig_species_text(scenes[last].species, IFIG_TEXT_NAME));
        }
    }
    return IFIG_CLI_OK;
}

static IfigCliStatus open_stones(const IfigCliSettings *settings, IfigCliScene *scenes,
                                 size_t *opened)
{
    const double parted_deg = 45.0; /* where a biaxial stone's brushes part and no cross does */
    const IfigCliKept nothing = {NULL, NULL};
    IfigCliStatus status = check_words(settings);
    while (status == IFIG_CLI_OK && *opened < settings->word_count) {
        IfigCliSettings one = *settings;
        one.word = settings->words[*opened];
        one.stage_deg = parted_deg;
        status = ifig_cli_open_scene(&one, &nothing, &scenes[*opened]);
        ++*opened;
        if (status == IFIG_CLI_OK) {
            status = check_stone(settings, scenes, *opened - 1);
        }
    }
    return status;
}

static IfigStone stone_of(const IfigCliSettings *settings, const IfigCliScene *scenes, size_t index)
{
    return (IfigStone){.species = scenes[index].species,
                       .body_colour = scenes[index].layer[0].body_colour,
                       .name = ifig_cli_stone_word(settings, scenes, index)};
}

static IfigStatus compare(const IfigCliSettings *settings, const IfigCliScene *scenes, Pair *pair,
                          IfigError *error)
{
    const IfigStone a = stone_of(settings, scenes, pair->first);
    const IfigStone b = stone_of(settings, scenes, pair->second);
    pair->contrast = (IfigPairContrast)IFIG_PAIR_CONTRAST_INIT;
    IfigStatus status = ifig_contrast(&a, &b, &scenes[0].scene.instrument, settings->thickness_mm,
                                      &pair->contrast, error);
    if (status == IFIG_OK) {
        status =
            ifig_contrast_describe(&a, &b, &pair->contrast, pair->words, sizeof pair->words, error);
    }
    return status;
}

static IfigStatus find_answer(const IfigCliSettings *settings, const IfigCliScene *scenes,
                              Answer *answer, IfigError *error)
{
    IfigStatus status = IFIG_OK;
    answer->stone_count = settings->word_count;
    for (size_t i = 0; i < answer->stone_count && status == IFIG_OK; i++) {
        const IfigStone stone = stone_of(settings, scenes, i);
        answer->traits[i] = (IfigTraits)IFIG_TRAITS_INIT;
        status = ifig_traits(&stone, &scenes[0].scene.instrument, settings->thickness_mm,
                             &answer->traits[i], error);
    }
    for (size_t i = 0; i < answer->stone_count; i++) {
        for (size_t j = i + 1; j < answer->stone_count && status == IFIG_OK; j++) {
            Pair *pair = &answer->pairs[answer->pair_count++];
            pair->first = i;
            pair->second = j;
            status = compare(settings, scenes, pair, error);
        }
    }
    return status;
}

static void print_traits(const IfigCliSettings *settings, const IfigCliScene *scenes,
                         const Answer *answer)
{
    int width[IFIG_CLI_WORDS_MAX];
    printf("%-15s", "");
    for (size_t i = 0; i < answer->stone_count; i++) {
        width[i] = (int)strlen(ifig_cli_stone_word(settings, scenes, i));
        for (int clue = 0; clue < IFIG_CLUE_COUNT; clue++) {
            const int length = (int)strlen(ifig_cli_trait(&answer->traits[i], (IfigClue)clue).text);
            width[i] = length > width[i] ? length : width[i];
        }
        const int is_last = i + 1 == answer->stone_count;
        printf("%-*s", is_last ? 0 : width[i] + 2, ifig_cli_stone_word(settings, scenes, i));
    }
    for (int clue = 0; clue < IFIG_CLUE_COUNT; clue++) {
        printf("\n%-15s", ifig_clue_name((IfigClue)clue));
        for (size_t i = 0; i < answer->stone_count; i++) {
            const int is_last = i + 1 == answer->stone_count;
            printf("%-*s", is_last ? 0 : width[i] + 2,
                   ifig_cli_trait(&answer->traits[i], (IfigClue)clue).text);
        }
    }
    fputc('\n', stdout);
}

/* What separates them, surest first; then what does not. */
static void print_clues(const IfigPairContrast *contrast)
{
    int useless = 0;
    for (int i = 0; i < IFIG_CLUE_COUNT; i++) {
        const IfigClue clue = contrast->ranked[i];
        if (contrast->clue[clue] == IFIG_SURE_NOT) {
            printf("%s%s", useless++ == 0 ? "  does not separate them: " : ", ",
                   ifig_clue_name(clue));
        } else {
            printf("  %d. %-14s %s\n", i + 1, ifig_clue_name(clue),
                   ifig_cli_sureness_phrase(contrast->clue[clue]));
        }
    }
    fputs(useless > 0 ? "\n" : "", stdout);
}

static void print_pair(const IfigCliSettings *settings, const IfigCliScene *scenes,
                       const Pair *pair)
{
    const IfigPairContrast *contrast = &pair->contrast;
    printf("\n%s against %s\n", ifig_cli_stone_word(settings, scenes, pair->first),
           ifig_cli_stone_word(settings, scenes, pair->second));
    ifig_cli_print_lines(stdout, pair->words);
    print_clues(contrast);
    printf("  other tests: %s first", ifig_other_test_name(contrast->first_test));
    for (int test = 0; test < IFIG_TEST_COUNT; test++) {
        if ((contrast->other_tests & 1u << test) != 0 && test != (int)contrast->first_test) {
            printf(", %s", ifig_other_test_name((IfigOtherTest)test));
        }
    }
    fputc('\n', stdout);
}

static void print_text(const IfigCliSettings *settings, const IfigCliScene *scenes,
                       const Answer *answer)
{
    print_traits(settings, scenes, answer);
    for (size_t i = 0; i < answer->pair_count; i++) {
        print_pair(settings, scenes, &answer->pairs[i]);
    }
}

static json_t *json_of_stone(const IfigCliScene *scene, const IfigTraits *traits)
{
    const IfigLayer *layer = &scene->layer[0];
    const char *colour = ifig_species_colour_name(layer->species, layer->body_colour);
    json_t *object = json_object();
    json_object_set_new(object, "species",
                        json_string(ifig_species_text(scene->species, IFIG_TEXT_KEY)));
    json_object_set_new(object, "body_colour", colour != NULL ? json_string(colour) : json_null());
    ifig_cli_json_traits(object, traits);
    return object;
}

static json_t *json_of_pair(const IfigCliScene *scenes, const Pair *pair)
{
    const IfigPairContrast *contrast = &pair->contrast;
    json_t *object = json_object(), *ranked = json_array(), *tests = json_array();
    for (int i = 0; i < IFIG_CLUE_COUNT; i++) {
        const IfigClue clue = contrast->ranked[i];
        json_array_append_new(ranked,
                              json_pack("{s:s,s:s}", "clue", ifig_clue_name(clue), "sureness",
                                        ifig_sureness_name(contrast->clue[clue])));
    }
    for (int test = 0; test < IFIG_TEST_COUNT; test++) {
        if ((contrast->other_tests & 1u << test) != 0) {
            json_array_append_new(tests, json_string(ifig_other_test_name((IfigOtherTest)test)));
        }
    }
    json_object_set_new(object, "first",
                        json_string(ifig_species_text(scenes[pair->first].species, IFIG_TEXT_KEY)));
    json_object_set_new(
        object, "second",
        json_string(ifig_species_text(scenes[pair->second].species, IFIG_TEXT_KEY)));
    json_object_set_new(object, "ranked", ranked);
    json_object_set_new(object, "polariscope",
                        json_string(ifig_sureness_name(contrast->polariscope)));
    json_object_set_new(object, "is_polariscope_blind",
                        json_boolean(contrast->is_polariscope_blind));
    json_object_set_new(object, "first_test",
                        json_string(ifig_other_test_name(contrast->first_test)));
    json_object_set_new(object, "other_tests", tests);
    json_object_set_new(object, "words", ifig_cli_json_lines(pair->words));
    return object;
}

static IfigCliStatus print_json(const IfigCliSettings *settings, const IfigCliScene *scenes,
                                const Answer *answer)
{
    json_t *object = json_object(), *stones = json_array(), *pairs = json_array();
    for (size_t i = 0; i < answer->stone_count; i++) {
        json_array_append_new(stones, json_of_stone(&scenes[i], &answer->traits[i]));
    }
    for (size_t i = 0; i < answer->pair_count; i++) {
        json_array_append_new(pairs, json_of_pair(scenes, &answer->pairs[i]));
    }
    json_object_set_new(object, "schema_version", json_integer(1));
    json_object_set_new(object, "thickness_mm", ifig_cli_json_number(settings->thickness_mm));
    json_object_set_new(object, "species", stones);
    json_object_set_new(object, "pairs", pairs);
    return ifig_cli_print_json(object);
}

/* The plate of -o; the advice goes below it where there is one pair. */
static IfigCliStatus draw(const IfigCliSettings *settings, const IfigCliScene *scenes,
                          const Answer *answer)
{
    return ifig_cli_plot_contrast(settings, scenes, answer->traits,
                                  answer->pair_count == 1 ? answer->pairs[0].words : NULL);
}

static IfigCliStatus tell(const IfigCliSettings *settings, const IfigCliScene *scenes)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigCliStatus ending;
    Answer *answer = calloc(1, sizeof *answer);
    if (answer == NULL) {
        return ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory for the answer");
    }
    const IfigStatus status = find_answer(settings, scenes, answer, &error);
    ending = status == IFIG_OK ? draw(settings, scenes, answer)
                               : ifig_cli_complain(ifig_cli_exit_status(status, IFIG_CLI_WORDS),
                                                   "%s", error.message);
    if (ending == IFIG_CLI_OK && settings->given[IFIG_CLI_JSON]) {
        ending = print_json(settings, scenes, answer);
    } else if (ending == IFIG_CLI_OK) {
        print_text(settings, scenes, answer);
    }
    free(answer);
    return ending;
}

IfigCliStatus ifig_cli_run_contrast(IfigCliSettings *settings)
{
    IfigCliScene scenes[IFIG_CLI_WORDS_MAX];
    size_t opened = 0;
    IfigCliStatus status = open_stones(settings, scenes, &opened);
    if (status == IFIG_CLI_OK) {
        status = tell(settings, scenes);
    }
    for (size_t i = 0; i < opened; i++) {
        ifig_cli_close_scene(&scenes[i]);
    }
    return status;
}
