/* SPDX-License-Identifier: MIT */
/* What can tell two stones apart beside the polariscope: common practice, no source. */
#include "advice.h"

#include <string.h>

#define BIT(n) (1u << (n))

int ifig_differs_by_doubling(const IfigTraits *a, const IfigTraits *b)
{
    const double seen = 0.03, unseen = 0.015; /* by a tenfold loupe in a stone of usual size */
    return (a->birefringence_low >= seen && b->birefringence_high <= unseen) ||
           (b->birefringence_low >= seen && a->birefringence_high <= unseen);
}

int ifig_is_of_nature(const IfigStone *stone, const char *nature)
{
    return strcmp(ifig_species_text(stone->species, IFIG_TEXT_NATURE), nature) == 0;
}

int ifig_is_moulded(const IfigStone *stone)
{
    return ifig_is_of_nature(stone, "glass") ||
           (ifig_is_of_nature(stone, "simulant") &&
            strcmp(ifig_species_text(stone->species, IFIG_TEXT_CRYSTAL_SYSTEM), "amorphous") == 0);
}

/* Two edges that move against one that is blurred by grains of every direction. */
int ifig_differs_by_blur(const IfigTraits *a, const IfigTraits *b)
{
    const double seen = 0.004;
    const int a_blurred = a->reactions == BIT(IFIG_REACTION_AGG);
    const int b_blurred = b->reactions == BIT(IFIG_REACTION_AGG);
    const IfigTraits *sharp = a_blurred ? b : a;
    return a_blurred != b_blurred && sharp->birefringence_low >= seen &&
           sharp->n_high < IFIG_REFRACTOMETER_LIMIT;
}

static int differs_by_spectrum(const IfigTraits *a, const IfigTraits *b)
{
    return strcmp(a->spectrum, b->spectrum) != 0;
}

/* Two or three colours, distinct or strong, against one, or hardly more. */
static int differs_by_dichroism(const IfigTraits *a, const IfigTraits *b)
{
    const int more = a->pleochroism > b->pleochroism ? a->pleochroism : b->pleochroism;
    const int less = a->pleochroism > b->pleochroism ? b->pleochroism : a->pleochroism;
    return more >= 2 && less <= 1 && !a->is_opaque && !b->is_opaque;
}

static int is_seen_through_loupe(const IfigStone *first, const IfigStone *second,
                                 const IfigPairContrast *contrast)
{
    return contrast->is_synthetic_pair || ifig_is_moulded(first) != ifig_is_moulded(second) ||
           ifig_differs_by_doubling(&contrast->traits[0], &contrast->traits[1]);
}

static unsigned tests_that_can(const IfigStone *first, const IfigStone *second,
                               const IfigPairContrast *contrast)
{
    const IfigTraits *a = &contrast->traits[0], *b = &contrast->traits[1];
    unsigned tests = 0;
    if (first->species == second->species) {
        return 0;
    }
    if (contrast->clue[IFIG_CLUE_INDEX] >= IFIG_SURE_SOMETIMES ||
        contrast->clue[IFIG_CLUE_BIREFRINGENCE] >= IFIG_SURE_HARD || ifig_differs_by_blur(a, b)) {
        tests |= BIT(IFIG_TEST_REFRACTOMETER);
    }
    tests |=
        ifig_gravity_sureness(a, b) >= IFIG_SURE_SOMETIMES ? BIT(IFIG_TEST_SPECIFIC_GRAVITY) : 0u;
    tests |= differs_by_spectrum(a, b) ? BIT(IFIG_TEST_SPECTROSCOPE) : 0u;
    tests |= differs_by_dichroism(a, b) ? BIT(IFIG_TEST_DICHROSCOPE) : 0u;
    tests |= a->conducts_heat != b->conducts_heat ? BIT(IFIG_TEST_THERMAL) : 0u;
    tests |= is_seen_through_loupe(first, second, contrast) ? BIT(IFIG_TEST_MAGNIFICATION) : 0u;
    if (contrast->is_synthetic_pair || tests == 0) {
        tests |= BIT(IFIG_TEST_LABORATORY);
    }
    return tests;
}

/* The surest that is easily done, even on a set stone. */
static IfigOtherTest first_of(const IfigPairContrast *contrast)
{
    const IfigTraits *a = &contrast->traits[0], *b = &contrast->traits[1];
    const unsigned tests = contrast->other_tests;
    const int is_weighed = ifig_gravity_sureness(a, b) == IFIG_SURE_PRACTISED;
    const struct {
        IfigOtherTest test;
        int is_best;
    } order[] = {
        {IFIG_TEST_MAGNIFICATION, contrast->is_synthetic_pair},
        {IFIG_TEST_REFRACTOMETER, 1},
        {IFIG_TEST_THERMAL, 1},
        {IFIG_TEST_MAGNIFICATION, ifig_differs_by_doubling(a, b)},
        {IFIG_TEST_SPECIFIC_GRAVITY, is_weighed},
        {IFIG_TEST_SPECTROSCOPE, 1},
        {IFIG_TEST_SPECIFIC_GRAVITY, 1},
        {IFIG_TEST_DICHROSCOPE, 1},
        {IFIG_TEST_MAGNIFICATION, 1},
    };
    for (size_t i = 0; i < sizeof order / sizeof *order; i++) {
        if (order[i].is_best && (tests & BIT(order[i].test)) != 0) {
            return order[i].test;
        }
    }
    return IFIG_TEST_LABORATORY;
}

void ifig_find_other_tests(const IfigStone *first, const IfigStone *second,
                           IfigPairContrast *contrast)
{
    const int is_grown_pair =
        ifig_is_of_nature(first, "synthetic") != ifig_is_of_nature(second, "synthetic");
    contrast->is_synthetic_pair =
        is_grown_pair && contrast->traits[0].characters == contrast->traits[1].characters &&
        contrast->clue[IFIG_CLUE_SIGN] == IFIG_SURE_NOT &&
        contrast->clue[IFIG_CLUE_INDEX] <= IFIG_SURE_SOMETIMES &&
        ifig_gravity_sureness(&contrast->traits[0], &contrast->traits[1]) <= IFIG_SURE_SOMETIMES;
    contrast->other_tests = tests_that_can(first, second, contrast);
    contrast->first_test = first_of(contrast);
}
