/* SPDX-License-Identifier: MIT */
/* What may run through which stone. */
#include "texture.h"

#include "base.h"
#include "species.h"

#include <math.h>
#include <string.h>

/* Planes by which stones are twinned over and over, as unit normals in X, Y, Z of the species.
 * Angle of a rhombohedron {h 0 -h l} to c: tan = 2 / sqrt(3) c/a h / l. Where a uniaxial stone has
 * three such planes, the one whose normal leans toward X is taken.
 *   corundum: {1 0 -1 1}, c/a 1.3652 of the morphological cell ({1 0 -1 2} of the structural one):
 *     57.6 degrees; plane: open teaching pages of the Univ. of the Western Cape, seen; axial ratio
 *     from memory. In synthetic stones by gliding (from memory).
 *   calcite: {0 1 -1 2}, c/a 0.8543: 26.25 degrees; dolomite: {0 2 -2 1}, c/a 0.832: 62.5;
 * aragonite and cerussite: {1 1 0}, a/b 0.6224 and 0.6100; all from memory (Deer, Howie & Zussman).
 */
typedef struct TwinPlane {
    const char *species_key;
    double normal[3];
} TwinPlane;

static const TwinPlane TWIN_PLANES[] = {
    {"corundum", {0.844427773, 0, 0.535669428}},
    {"corundum_synthetic", {0.844427773, 0, 0.535669428}},
    {"calcite", {0.442349943, 0, 0.896842533}},
    {"dolomite", {0.887054099, 0, 0.461665494}},
    {"aragonite", {0, 0.848988895, 0.528410688}}, /* X = c, Y = a, Z = b */
    {"cerussite", {0, 0.520759202, 0.85370361}},  /* X = c, Y = b, Z = a */
};

enum { TWIN_PLANE_COUNT = sizeof TWIN_PLANES / sizeof TWIN_PLANES[0] };

const double *ifig_twin_normal(const IfigSpecies *species)
{
    const char *key = ifig_species_text(species, IFIG_TEXT_KEY);
    for (size_t i = 0; i < TWIN_PLANE_COUNT; i++) {
        if (strcmp(key, TWIN_PLANES[i].species_key) == 0) {
            return TWIN_PLANES[i].normal;
        }
    }
    return NULL;
}

/* Sebastiano Vigna's splitmix64: a counter goes in, so that no place depends on another. */
static uint64_t scatter(uint64_t x)
{
    x += 0x9e3779b97f4a7c15u;
    x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9u;
    x = (x ^ (x >> 27)) * 0x94d049bb133111ebu;
    return x ^ (x >> 31);
}

double ifig_texture_draw(unsigned seed, uint64_t stream, uint64_t index)
{
    uint64_t bits = scatter(scatter(scatter(seed) ^ stream) ^ index);
    return (double)(bits >> 11) * 0x1p-53;
}

int ifig_is_strain_pattern(IfigPattern pattern)
{
    return pattern >= IFIG_PATTERN_BANDS && pattern <= IFIG_PATTERN_INCLUSION;
}

static int is_aggregate(const IfigSpecies *species)
{
    IfigSpeciesFacts facts;
    return ifig_species_facts(species, &facts, NULL) == IFIG_OK &&
           facts.character == IFIG_AGGREGATE;
}

IfigPattern ifig_pattern_of(const IfigTexture *texture, const IfigSpecies *species)
{
    if (texture != NULL && texture->pattern != IFIG_PATTERN_USUAL) {
        return texture->pattern;
    }
    return is_aggregate(species) ? IFIG_PATTERN_GRAINS : IFIG_PATTERN_PLAIN;
}

static IfigStatus check_strained(const IfigSpecies *species, IfigError *error)
{
    IfigSpeciesFacts facts;
    const char *key = ifig_species_text(species, IFIG_TEXT_KEY);
    ifig_species_facts(species, &facts, NULL);
    if (facts.character == IFIG_AGGREGATE) {
        return ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                         "%s is an aggregate: its grains hide any strain; choose the pattern of "
                         "grains, or a singly refractive stone",
                         key);
    }
    if (facts.character != IFIG_ISOTROPIC) {
        return ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                         "%s is doubly refractive: patterns of strain are computed for singly "
                         "refractive stones alone; choose such a stone, or give this one an even "
                         "stress",
                         key);
    }
    if (isnan(ifig_species_stress_optic_per_tpa(species))) {
        return ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                         "no stress-optic coefficient is known for %s; choose glass, diamond, "
                         "spinel, yag or plastic_pmma",
                         key);
    }
    return IFIG_OK;
}

static IfigStatus check_twinned(const IfigSpecies *species, IfigError *error)
{
    if (ifig_twin_normal(species) == NULL) {
        return ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                         "no twin lamellae are known of %s; choose corundum, calcite, dolomite, "
                         "aragonite or cerussite",
                         ifig_species_text(species, IFIG_TEXT_KEY));
    }
    return IFIG_OK;
}

/* Brazil's law in synthetic quartz needs a twinned seed: Koivula & Fritsch, Gems & Gemology 25, 159
 * (1989), abstract seen. */
static IfigStatus check_brazil(const IfigSpecies *species, IfigError *error)
{
    const char *key = ifig_species_text(species, IFIG_TEXT_KEY);
    if (strcmp(key, "quartz_synthetic") == 0) {
        return ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                         "synthetic quartz is as a rule grown without Brazil twins: they point to "
                         "a natural stone; choose quartz");
    }
    if (strcmp(key, "quartz") != 0) {
        return ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                         "Brazil twins are left in right quartz, and %s is no quartz; choose "
                         "quartz, amethyst or citrine",
                         key);
    }
    return IFIG_OK;
}

/* A crystal that an aggregate of the catalogue is made of: quartz of quartzite. */
static int makes_aggregates(const IfigSpecies *species)
{
    const char *key = ifig_species_text(species, IFIG_TEXT_KEY);
    for (size_t i = 0; i < ifig_builtin_grains_count; i++) {
        const char *grain = ifig_builtin_grains[i].grain_key;
        if (grain != NULL && strcmp(grain, key) == 0) {
            return 1;
        }
    }
    return 0;
}

static IfigStatus check_grains(const IfigSpecies *species, IfigError *error)
{
    if (strstr(ifig_species_text(species, IFIG_TEXT_REACTION), "AGG") == NULL &&
        !is_aggregate(species) && !makes_aggregates(species)) {
        return ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                         "%s is not found as an aggregate of grains; choose chalcedony, jadeite, "
                         "nephrite or another aggregate",
                         ifig_species_text(species, IFIG_TEXT_KEY));
    }
    return IFIG_OK;
}

IfigStatus ifig_texture_numbers(const IfigTexture *texture, IfigError *error)
{
    if (texture->size != sizeof *texture || (unsigned)texture->pattern > IFIG_PATTERN_GRAINS) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the texture has an unknown size or pattern; start from "
                         "IFIG_TEXTURE_INIT");
    }
    IfigStatus status =
        ifig_check_range("stress", texture->stress_mpa, -10000, 10000, "MPa", error);
    if (status == IFIG_OK) {
        status = ifig_check_range("width of the face", texture->width_mm, 0.1, 100, "mm", error);
    }
    if (status == IFIG_OK && texture->grain_mm != 0.0) {
        status = ifig_check_range("size of the grains", texture->grain_mm, 0.001, 10, "mm", error);
    }
    return status;
}

IfigStatus ifig_texture_check(const IfigTexture *texture, const IfigSpecies *species,
                              IfigError *error)
{
    if (species == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "the species of a texture is NULL");
    }
    IfigStatus status = texture != NULL ? ifig_texture_numbers(texture, error) : IFIG_OK;
    if (status != IFIG_OK) {
        return status;
    }
    switch (ifig_pattern_of(texture, species)) {
    case IFIG_PATTERN_BANDS:
    case IFIG_PATTERN_CROSS_HATCH:
    case IFIG_PATTERN_SNAKE:
    case IFIG_PATTERN_INCLUSION:
        return check_strained(species, error);
    case IFIG_PATTERN_TWINS:
        return check_twinned(species, error);
    case IFIG_PATTERN_BRAZIL:
        return check_brazil(species, error);
    case IFIG_PATTERN_GRAINS:
        return check_grains(species, error);
    case IFIG_PATTERN_PLAIN:
        if (is_aggregate(species)) {
            return ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                             "%s is an aggregate: it has no plain face; choose the pattern of "
                             "grains",
                             ifig_species_text(species, IFIG_TEXT_KEY));
        }
        break;
    case IFIG_PATTERN_USUAL:
        break;
    }
    return IFIG_OK;
}
