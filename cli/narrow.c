/* SPDX-License-Identifier: MIT */
/* interfig narrow: which species of the catalogue fit what was seen, and what to look at next. */
#include <math.h>

#include "arguments.h"
#include "commands.h"
#include "describe.h"
#include "json.h"
#include "observed.h"
#include "output.h"
#include "scene.h"
#include "traits.h"

enum { NEAR_SHOWN = 8, TEXT_MAX = 4096 };

static IfigCliStatus narrow(const IfigCliSettings *settings, const IfigCatalogue *catalogue,
                            const IfigInstrument *instrument, IfigNarrowing **narrowing)
{
    IfigObservation observed[IFIG_CLI_OBSERVED_MAX];
    IfigError error = IFIG_ERROR_INIT;
    const IfigCliStatus ending = ifig_cli_open_observed(settings, observed);
    if (ending != IFIG_CLI_OK) {
        return ending;
    }
    const IfigStatus status = ifig_narrow(catalogue, observed, settings->observed_count, instrument,
                                          settings->thickness_mm, narrowing, &error);
    if (status == IFIG_ERROR_SYNTAX) { /* two that contradict each other */
        return ifig_cli_refuse(settings, "--observed: %s", error.message);
    }
    return status == IFIG_OK ? IFIG_CLI_OK
                             : ifig_cli_complain(ifig_cli_exit_status(status, IFIG_CLI_WORDS), "%s",
                                                 error.message);
}

/* What is met with in a species; without any trait where that cannot be told. */
static IfigTraits traits_of(const IfigCliSettings *settings, const IfigInstrument *instrument,
                            const IfigSpecies *species)
{
    IfigTraits traits = IFIG_TRAITS_INIT;
    ifig_traits(&(IfigStone){.species = species}, instrument, settings->thickness_mm, &traits,
                NULL);
    return traits;
}

static json_t *json_of_species(const IfigSpecies *species)
{
    return json_pack("{s:s,s:s}", "key", ifig_species_text(species, IFIG_TEXT_KEY), "name",
                     ifig_species_text(species, IFIG_TEXT_NAME));
}

static json_t *json_of_near(const IfigNarrowing *narrowing)
{
    json_t *array = json_array();
    for (size_t i = 0; i < ifig_narrowing_near_count(narrowing); i++) {
        IfigClue clue;
        double missed_by;
        json_t *object = json_of_species(ifig_narrowing_near_at(narrowing, i, &clue, &missed_by));
        json_object_set_new(object, "excluded_by", json_string(ifig_clue_name(clue)));
        json_object_set_new(object, "missed_by", ifig_cli_json_number(missed_by));
        json_array_append_new(array, object);
    }
    return array;
}

static json_t *json_of_next(const IfigNarrowing *narrowing)
{
    json_t *array = json_array();
    IfigClue clue;
    double bits;
    for (size_t i = 0; ifig_narrowing_next(narrowing, i, &clue, &bits); i++) {
        json_array_append_new(array, json_pack("{s:s,s:o}", "clue", ifig_clue_name(clue), "bits",
                                               ifig_cli_json_number(bits)));
    }
    return array;
}

static IfigCliStatus print_json(const IfigCliSettings *settings, const IfigInstrument *instrument,
                                const IfigNarrowing *narrowing)
{
    char words[TEXT_MAX] = "";
    json_t *answer = json_object(), *observed = json_array(), *fit = json_array();
    ifig_narrowing_describe(narrowing, words, sizeof words, NULL);
    for (size_t i = 0; i < settings->observed_count; i++) {
        json_array_append_new(observed, json_string(settings->observed[i]));
    }
    for (size_t i = 0; i < ifig_narrowing_count(narrowing); i++) {
        const IfigSpecies *species = ifig_narrowing_at(narrowing, i);
        const IfigTraits traits = traits_of(settings, instrument, species);
        json_t *object = json_of_species(species);
        ifig_cli_json_traits(object, &traits);
        json_array_append_new(fit, object);
    }
    json_object_set_new(answer, "schema_version", json_integer(1));
    json_object_set_new(answer, "observed", observed);
    json_object_set_new(answer, "candidates", fit);
    json_object_set_new(answer, "just_excluded", json_of_near(narrowing));
    json_object_set_new(answer, "next", json_of_next(narrowing));
    json_object_set_new(answer, "words", ifig_cli_json_lines(words));
    json_object_set_new(answer, "caution", json_string(ifig_cli_evidence));
    return ifig_cli_print_json(answer);
}

static int widest_name(const IfigNarrowing *narrowing)
{
    int widest = 4;
    for (size_t i = 0; i < ifig_narrowing_count(narrowing); i++) {
        const int columns =
            ifig_cli_columns(ifig_species_text(ifig_narrowing_at(narrowing, i), IFIG_TEXT_NAME));
        widest = columns > widest ? columns : widest;
    }
    return widest;
}

static void print_row(const char *key, const char *name, int widest, const char *reaction,
                      const char *n, const char *birefringence)
{
    printf("%-22s  %s%*s  ", key, name, widest - ifig_cli_columns(name), "");
    printf("%-10s %-16s %s\n", reaction, n, birefringence);
}

static void print_candidates(const IfigCliSettings *settings, const IfigInstrument *instrument,
                             const IfigNarrowing *narrowing)
{
    const size_t count = ifig_narrowing_count(narrowing);
    const int widest = widest_name(narrowing);
    if (count == 0) {
        ifig_cli_wrap(stdout, 0, 0,
                      "No species of the catalogue fits all that was observed. Look again at what "
                      "excludes those below; or the stone is not in the catalogue.");
        return;
    }
    if (count == 1) {
        ifig_cli_wrap(stdout, 0, 0,
                      "One species of the catalogue fits; stones that are not in it may fit as "
                      "well.");
    } else {
        printf("%zu species of the catalogue fit.\n", count);
    }
    fputc('\n', stdout);
    print_row("key", "name", widest, "reaction", "index", "birefringence");
    for (size_t i = 0; i < count; i++) {
        const IfigSpecies *species = ifig_narrowing_at(narrowing, i);
        const IfigTraits traits = traits_of(settings, instrument, species);
        print_row(ifig_species_text(species, IFIG_TEXT_KEY),
                  ifig_species_text(species, IFIG_TEXT_NAME), widest,
                  ifig_cli_trait(&traits, IFIG_CLUE_REACTION).text,
                  ifig_cli_trait(&traits, IFIG_CLUE_INDEX).text,
                  ifig_cli_trait(&traits, IFIG_CLUE_BIREFRINGENCE).text);
    }
}

/* 1 where a miss is a number in the clue's own unit, not a word. */
static int is_measured(IfigClue clue)
{
    return clue == IFIG_CLUE_TWO_V || clue == IFIG_CLUE_RINGS || clue == IFIG_CLUE_INDEX ||
           clue == IFIG_CLUE_BIREFRINGENCE;
}

static void print_near(const IfigNarrowing *narrowing)
{
    const size_t count = ifig_narrowing_near_count(narrowing);
    if (count > 0) {
        fputs("\njust excluded, by one observation alone\n", stdout);
    }
    for (size_t i = 0; i < count && i < NEAR_SHOWN; i++) {
        IfigClue clue;
        double missed_by;
        const IfigSpecies *species = ifig_narrowing_near_at(narrowing, i, &clue, &missed_by);
        printf("  %-22s by %s", ifig_species_text(species, IFIG_TEXT_KEY), ifig_clue_name(clue));
        if (is_measured(clue) && isfinite(missed_by)) {
            printf(", which misses by %s", ifig_cli_rounded(missed_by, 2).text);
        }
        fputc('\n', stdout);
    }
    if (count > NEAR_SHOWN) {
        printf("  and %zu more\n", count - NEAR_SHOWN);
    }
}

static void print_next(const IfigNarrowing *narrowing)
{
    IfigClue clue;
    double bits;
    if (ifig_narrowing_count(narrowing) < 2) {
        return;
    }
    if (!ifig_narrowing_next(narrowing, 0, &clue, &bits)) {
        fputc('\n', stdout);
        ifig_cli_wrap(stdout, 0, 0,
                      "Nothing that can be observed here parts them further: take specific "
                      "gravity, spectrum or inclusions.");
        return;
    }
    fputs("\nmost telling next (expected information)\n", stdout);
    for (size_t i = 0; ifig_narrowing_next(narrowing, i, &clue, &bits); i++) {
        printf("  %-22s %.2f bits\n", ifig_clue_name(clue), bits);
    }
}

static IfigCliStatus tell(IfigCliSettings *settings, const IfigCatalogue *catalogue,
                          const IfigInstrument *instrument)
{
    IfigNarrowing *narrowing = NULL;
    IfigCliStatus status = narrow(settings, catalogue, instrument, &narrowing);
    if (status == IFIG_CLI_OK && settings->given[IFIG_CLI_JSON]) {
        status = print_json(settings, instrument, narrowing);
    } else if (status == IFIG_CLI_OK) {
        print_candidates(settings, instrument, narrowing);
        print_near(narrowing);
        print_next(narrowing);
        fputc('\n', stdout);
        ifig_cli_wrap(stdout, 0, 0, ifig_cli_evidence);
    }
    ifig_narrowing_free(narrowing);
    return status;
}

IfigCliStatus ifig_cli_run_narrow(IfigCliSettings *settings)
{
    const IfigCliKept nothing = {NULL, NULL};
    IfigInstrument instrument = IFIG_INSTRUMENT_INIT;
    IfigCatalogue *catalogue = NULL;
    IfigCliStatus status = ifig_cli_open_instrument(settings, &instrument);
    if (status == IFIG_CLI_OK) {
        status = ifig_cli_open_catalogue(settings, &nothing, &catalogue);
    }
    if (status == IFIG_CLI_OK) {
        status = tell(settings, catalogue, &instrument);
    }
    ifig_catalogue_free(catalogue);
    return status;
}
