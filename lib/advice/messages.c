/* SPDX-License-Identifier: MIT */
/* Every sentence and word of advice, in English. Another language is another set of these tables.
 */
#include "advice.h"

static const char *const MESSAGES[IFIG_ADVISE_COUNT] = {
    [IFIG_ADVISE_TURN] = "Turn each stone between crossed polars: {1} {2}; {3} {4}.",
    [IFIG_ADVISE_REACTION_SR] = "stays dark",
    [IFIG_ADVISE_REACTION_DR] = "blinks, dark four times a turn",
    [IFIG_ADVISE_REACTION_AGG] = "stays light all the way round",
    [IFIG_ADVISE_REACTION_ADR] = "lights up in bands or patches of strain",
    [IFIG_ADVISE_OR] = " or ",
    [IFIG_ADVISE_AND] = " and ",
    [IFIG_ADVISE_COMMA] = ", ",
    [IFIG_ADVISE_TO] = "{1} to {2}",
    [IFIG_ADVISE_OPEN_ANALYSER] =
        "Where a stone lights up, turn it to its brightest and open the analyser: a strained stone "
        "such as {1} grows noticeably brighter, a doubly refractive one such as {2} stays as it is "
        "or darkens.",
    [IFIG_ADVISE_TRAP_AXIS] =
        "Trap: looked at along an optic axis {1} does not blink either; call a stone single only "
        "when it stays dark in three directions that differ much.",
    [IFIG_ADVISE_TRAP_ACROSS] =
        "Trap: the table of {1} is commonly cut across its optic axis, so that through the table "
        "it "
        "looks singly refractive; lean the stone and look through its side.",
    [IFIG_ADVISE_CHARACTER] = "Under the lens {1} shows {2}; {3} shows {4}.",
    [IFIG_ADVISE_SHOWS_ISOTROPIC] = "no figure (isotropic)",
    [IFIG_ADVISE_SHOWS_UNIAXIAL] = "a cross that stays closed as the stone turns (uniaxial)",
    [IFIG_ADVISE_SHOWS_BIAXIAL] = "brushes that part as the stone turns (biaxial)",
    [IFIG_ADVISE_SHOWS_AGGREGATE] = "no figure (aggregate)",
    [IFIG_ADVISE_SMALL_ANGLE] =
        "The brushes of {1} may part little, and strain can part those of a uniaxial stone: turn "
        "slowly and watch the centre.",
    [IFIG_ADVISE_SIGN] = "Optic sign, by an accessory plate: {1} is {2}, {3} is {4}.",
    [IFIG_ADVISE_POSITIVE] = "positive",
    [IFIG_ADVISE_NEGATIVE] = "negative",
    [IFIG_ADVISE_NO_SIGN] = "of neither sign",
    [IFIG_ADVISE_EYE] =
        "Bull's eye: optical rotation lights the centre of the cross of {1}; {2} has none.",
    [IFIG_ADVISE_EYE_TWINNED] =
        "A natural {1} twinned left in right (Brazil twins) shows spirals there, or a distorted "
        "cross: a missing bull's eye excludes nothing.",
    [IFIG_ADVISE_TWO_V] =
        "Angle between the optic axes, 2V: {2} deg in {1}, {4} deg in {3}; estimate it by how far "
        "the brushes part.",
    [IFIG_ADVISE_RINGS] = "Stones {5} mm thick show {2} orders of rings in {1}, {4} in {3}; this "
                          "counts only between stones of one thickness.",
    [IFIG_ADVISE_COLOUR] = "Body colour: {1} is {2}; {3} is {4}.",
    [IFIG_ADVISE_BLIND] = "No polariscope separates {1} from {2}.",
    [IFIG_ADVISE_BLIND_OPAQUE] =
        "The polariscope is of no use here: no light comes through {1} at the thickness of a gem.",
    [IFIG_ADVISE_ONE_SPECIES] =
        "{1} and {2} are one species: nothing but the body colour sets them apart.",
    [IFIG_ADVISE_STRAIN_HINT] = "{1} is met with both dark and strained, {2} usually plain dark: "
                                "strain is a hint, no proof.",
    [IFIG_ADVISE_UNSURE] = "The polariscope alone does not settle {1} against {2}.",
    [IFIG_ADVISE_AGAINST] = "A figure that is {1} speaks against {2}; the contrary tells nothing.",
    [IFIG_ADVISE_SYNTHETIC] = "synthetic {1}",
    [IFIG_ADVISE_FIRST_TEST] = "Take next: {1}.",
    [IFIG_ADVISE_CONFIRM] = "Confirm by: {1}.",
    [IFIG_ADVISE_INDEX] = "Refractive index: {2} in {1}, {4} in {3}.",
    [IFIG_ADVISE_INDEX_OVER_ONE] = "Refractive index: {1} shows no edge, being over the "
                                   "refractometer's limit (about {3}); {2} "
                                   "shows one at {4}.",
    [IFIG_ADVISE_INDEX_OVER_BOTH] =
        "The refractometer is of no use: {1} and {2} both lie over its limit, about {3}.",
    [IFIG_ADVISE_INDEX_MEETS] = "Refractive index: {2} in {1}, {4} in {3}; the ranges all but "
                                "meet, most stones are parted.",
    [IFIG_ADVISE_EDGES] = "The refractometer shows one edge that stays with {1}, two that part by "
                          "{3} as the stone is "
                          "turned with {2}.",
    [IFIG_ADVISE_BIREFRINGENCE] = "Birefringence: {2} in {1}, {4} in {3}.",
    [IFIG_ADVISE_BLUR] =
        "The refractometer shows one blurred edge with {1}, two that part by {3} as "
        "the stone is turned with {2}.",
    [IFIG_ADVISE_FIRE] = "Fire, by eye: {1} (dispersion {2}) shows stronger spectrum colours than "
                         "{3} ({4}).",
    [IFIG_ADVISE_GRAVITY] = "Specific gravity, of a loose stone: {2} in {1}, {4} in {3}.",
    [IFIG_ADVISE_GRAVITY_MEETS] =
        "Specific gravity, of a loose stone: {2} in {1}, {4} in {3}; the ranges all but meet.",
    [IFIG_ADVISE_SPECTRUM] = "Spectroscope: of {1}, {2}; of {3}, {4}.",
    [IFIG_ADVISE_SPECTRUM_NONE] = "nothing that tells",
    [IFIG_ADVISE_DICHROSCOPE] = "Dichroscope: pleochroism is {2} in {1}, {4} in {3}.",
    [IFIG_ADVISE_PLEOCHROISM_NONE] = "absent",
    [IFIG_ADVISE_PLEOCHROISM_WEAK] = "weak",
    [IFIG_ADVISE_PLEOCHROISM_DISTINCT] = "distinct",
    [IFIG_ADVISE_PLEOCHROISM_STRONG] = "strong",
    [IFIG_ADVISE_DOUBLING] = "Loupe: through {1} the back facets look doubled, in a direction well "
                             "off its axis; through "
                             "{2} they do not.",
    [IFIG_ADVISE_INCLUSIONS] =
        "Magnification: inclusions and growth lines tell the natural stone from the one grown by "
        "man; curved lines and gas bubbles, or flux and a seed, against crystals and straight "
        "growth.",
    [IFIG_ADVISE_BUBBLES] =
        "Magnification: look for round gas bubbles, swirls and moulded edges in {1}.",
    [IFIG_ADVISE_BRAZIL] = "Between crossed polars, along the axis, Brazil twins are common in "
                           "natural amethyst and rare in the synthetic one: a clue for nature, no "
                           "proof.",
    [IFIG_ADVISE_THERMAL] = "Thermal probe: {1} conducts heat well, {2} does not.",
    [IFIG_ADVISE_THERMAL_BOTH] = "Trap: a thermal probe takes both {1} and {2} for a diamond; look "
                                 "for doubled facets instead.",
    [IFIG_ADVISE_LABORATORY] = "If doubt remains, a laboratory has to decide.",
    [IFIG_ADVISE_CAUTION] =
        "What is seen is evidence, not an identification: confirm it by a second "
        "test of another kind.",
    [IFIG_ADVISE_COUNT_NONE] =
        "None of the {1} species of this catalogue fits all that was observed: "
        "observe again, or it is a stone that the catalogue has not.",
    [IFIG_ADVISE_COUNT_ONE] =
        "One of the {1} species of this catalogue fits, {2}; others, treated or composite stones "
        "may fit as well.",
    [IFIG_ADVISE_COUNT_MANY] = "{2} of the {1} species of this catalogue fit.",
    [IFIG_ADVISE_FITTING] = "They are {1}.",
    [IFIG_ADVISE_MORE] = "{1} and {2} more",
    [IFIG_ADVISE_NEAR] = "Just excluded: {1}.",
    [IFIG_ADVISE_NEAR_BY] = "{1} ({2} misses by {3})",
    [IFIG_ADVISE_NEAR_BY_WORD] = "{1} (by its {2})",
    [IFIG_ADVISE_NEAR_BY_NONE] = "{1} (has no {2})",
    [IFIG_ADVISE_NEXT] = "Most telling next: {1}.",
    [IFIG_ADVISE_NEXT_BITS] = "{1} ({2} bits)",
    [IFIG_ADVISE_NEXT_NONE] =
        "No further observation of this kind tells these apart: take specific "
        "gravity, spectrum or magnification.",
    [IFIG_ADVISE_NEXT_OTHER] = "Confirm by what was not observed yet: {1}.",
};

static const char *const TESTS[IFIG_TEST_COUNT] = {
    [IFIG_TEST_REFRACTOMETER] = "refractive index",
    [IFIG_TEST_SPECIFIC_GRAVITY] = "specific gravity",
    [IFIG_TEST_SPECTROSCOPE] = "spectroscope",
    [IFIG_TEST_DICHROSCOPE] = "dichroscope",
    [IFIG_TEST_MAGNIFICATION] = "magnification",
    [IFIG_TEST_THERMAL] = "thermal probe",
    [IFIG_TEST_LABORATORY] = "a laboratory",
};

static const char *const CLUES[IFIG_CLUE_COUNT] = {
    [IFIG_CLUE_REACTION] = "reaction",
    [IFIG_CLUE_CHARACTER] = "optic character",
    [IFIG_CLUE_SIGN] = "optic sign",
    [IFIG_CLUE_TWO_V] = "2V",
    [IFIG_CLUE_RINGS] = "count of rings",
    [IFIG_CLUE_BULLS_EYE] = "bull's eye",
    [IFIG_CLUE_COLOUR] = "body colour",
    [IFIG_CLUE_INDEX] = "refractive index",
    [IFIG_CLUE_BIREFRINGENCE] = "birefringence",
};

const char *ifig_advice_message(IfigAdvice message)
{
    return MESSAGES[message];
}

const char *ifig_advice_test(IfigOtherTest test)
{
    return TESTS[test];
}

const char *ifig_advice_clue(IfigClue clue)
{
    return CLUES[clue];
}
