/* SPDX-License-Identifier: MIT */
#include "traits.h"

#include <math.h>
#include <string.h>

#include "json.h"
#include "output.h"
#include "words.h"

enum { CHARACTERS = IFIG_AGGREGATE + 1, REACTIONS = IFIG_REACTION_ADR + 1, SIGNS = 3 };

static const char *reaction_of(int bit)
{
    return ifig_reaction_text((IfigReaction)bit);
}

static const char *hue_of(int bit)
{
    return ifig_hue_name((IfigHue)bit);
}

typedef const char *WordOf(int bit);

static void write_bits(unsigned bits, int count, WordOf *word_of, IfigCliTrait *trait)
{
    size_t used = 0;
    for (int bit = 0; bit < count; bit++) {
        if ((bits & 1u << bit) != 0 && used < sizeof trait->text) {
            used += (size_t)snprintf(trait->text + used, sizeof trait->text - used, "%s%s",
                                     used > 0 ? ", " : "", word_of(bit));
        }
    }
}

/* Both ends to so many decimals; one where they are alike. */
static void write_range(double low, double high, int decimals, const char *unit,
                        IfigCliTrait *trait)
{
    char upper[32];
    if (!isfinite(low) || !isfinite(high)) {
        return;
    }
    snprintf(trait->text, 32, "%.*f", decimals, low);
    snprintf(upper, sizeof upper, "%.*f", decimals, high);
    const size_t used = strlen(trait->text);
    const int are_alike = strcmp(trait->text, upper) == 0;
    snprintf(trait->text + used, sizeof trait->text - used, "%s%s%s", are_alike ? "" : " to ",
             are_alike ? "" : upper, unit);
}

/* Likewise; "none" where there is none at all. */
static void write_amount(double low, double high, int decimals, IfigCliTrait *trait)
{
    if (high == 0.0) {
        memcpy(trait->text, "none", sizeof "none");
    } else {
        write_range(low, high, decimals, "", trait);
    }
}

IfigCliTrait ifig_cli_trait(const IfigTraits *traits, IfigClue clue)
{
    IfigCliTrait trait = {""};
    switch (clue) {
    case IFIG_CLUE_REACTION:
        write_bits(traits->reactions, REACTIONS, reaction_of, &trait);
        break;
    case IFIG_CLUE_CHARACTER:
        write_bits(traits->characters, CHARACTERS, ifig_cli_trait_character, &trait);
        break;
    case IFIG_CLUE_SIGN:
        write_bits(traits->signs, SIGNS, ifig_cli_trait_sign, &trait);
        break;
    case IFIG_CLUE_TWO_V:
        write_range(traits->two_v_low_deg, traits->two_v_high_deg, 0, " deg", &trait);
        break;
    case IFIG_CLUE_RINGS:
        write_amount(traits->rings_low, traits->rings_high, 1, &trait);
        break;
    case IFIG_CLUE_BULLS_EYE:
        snprintf(trait.text, sizeof trait.text, "%s",
                 traits->bulls_eye == 2 ? "yes, no"
                 : traits->bulls_eye    ? "yes"
                                        : "no");
        break;
    case IFIG_CLUE_COLOUR:
        write_bits(traits->hues, IFIG_HUE_COUNT, hue_of, &trait);
        break;
    case IFIG_CLUE_INDEX:
        write_range(traits->n_low, traits->n_high, 3, "", &trait);
        break;
    case IFIG_CLUE_BIREFRINGENCE:
        write_amount(traits->birefringence_low, traits->birefringence_high, 3, &trait);
        break;
    case IFIG_CLUE_COUNT:
        break;
    }
    if (trait.text[0] == '\0') {
        memcpy(trait.text, "-", sizeof "-");
    }
    return trait;
}

static json_t *json_of_bits(unsigned bits, int count, WordOf *word_of)
{
    json_t *array = json_array();
    for (int bit = 0; bit < count; bit++) {
        if ((bits & 1u << bit) != 0) {
            json_array_append_new(array, json_string(word_of(bit)));
        }
    }
    return array;
}

/* Both where natural stones may be twinned left in right. */
static json_t *json_of_bulls_eye(int kind)
{
    return kind == 2 ? json_pack("[s,s]", "yes", "no") : json_pack("[s]", kind ? "yes" : "no");
}

/* [low, high], or null. */
static json_t *json_of_range(double low, double high)
{
    const double ends[2] = {low, high};
    return isfinite(low) && isfinite(high) ? ifig_cli_json_numbers(ends, 2) : json_null();
}

void ifig_cli_json_traits(json_t *object, const IfigTraits *traits)
{
    json_object_set_new(object, "reaction",
                        json_of_bits(traits->reactions, REACTIONS, reaction_of));
    json_object_set_new(object, "character",
                        json_of_bits(traits->characters, CHARACTERS, ifig_cli_trait_character));
    json_object_set_new(object, "sign", json_of_bits(traits->signs, SIGNS, ifig_cli_trait_sign));
    json_object_set_new(object, "two_v_deg",
                        json_of_range(traits->two_v_low_deg, traits->two_v_high_deg));
    json_object_set_new(object, "rings", json_of_range(traits->rings_low, traits->rings_high));
    json_object_set_new(object, "bulls_eye", json_of_bulls_eye(traits->bulls_eye));
    json_object_set_new(object, "colour", json_of_bits(traits->hues, IFIG_HUE_COUNT, hue_of));
    json_object_set_new(object, "index", json_of_range(traits->n_low, traits->n_high));
    json_object_set_new(object, "birefringence",
                        json_of_range(traits->birefringence_low, traits->birefringence_high));
    json_object_set_new(object, "specific_gravity",
                        json_of_range(traits->gravity_low, traits->gravity_high));
}
