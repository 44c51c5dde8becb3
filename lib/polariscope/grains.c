/* SPDX-License-Identifier: MIT */
/* A stack of small grains that lie every way.
 *
 * At normal incidence the two waves of a grain vibrate along the axes of the section of 1/epsilon
 * across the light, and 1/n^2 are its lengths there: exact, without a wave that walks off being
 * lost, as the face is wider than a grain is thick. Reflections at the boundaries between grains
 * (about a hundredth each in calcite, a millionth in quartz), their slanting, and the rotation of a
 * grain (a degree in 0.05 mm of quartz) are left out: what is computed is how the polarisation is
 * scrambled, not how the light is scattered. */
#include "texture.h"

#include "base.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Evenly distributed over all rotations: Shoemake, in Graphics Gems III (1992), 124. */
static void random_rotation(unsigned seed, unsigned place, size_t layer, double rotation[3][3])
{
    double share = ifig_texture_draw(seed, place, 3 * layer + 0);
    double one = 2.0 * IFIG_PI * ifig_texture_draw(seed, place, 3 * layer + 1);
    double two = 2.0 * IFIG_PI * ifig_texture_draw(seed, place, 3 * layer + 2);
    double x = sqrt(1.0 - share) * sin(one), y = sqrt(1.0 - share) * cos(one);
    double z = sqrt(share) * sin(two), w = sqrt(share) * cos(two);
    rotation[0][0] = 1.0 - 2.0 * (y * y + z * z);
    rotation[0][1] = 2.0 * (x * y - z * w);
    rotation[0][2] = 2.0 * (x * z + y * w);
    rotation[1][0] = 2.0 * (x * y + z * w);
    rotation[1][1] = 1.0 - 2.0 * (x * x + z * z);
    rotation[1][2] = 2.0 * (y * z - x * w);
    rotation[2][0] = 2.0 * (x * z - y * w);
    rotation[2][1] = 2.0 * (y * z + x * w);
    rotation[2][2] = 1.0 - 2.0 * (x * x + y * y);
}

/* One grain across the light: the indices of its two waves, and cos and sin of twice the azimuth of
 * the slower one. */
typedef struct Section {
    double slow, fast, cosine, sine;
} Section;

static Section section_of(const double axes[3][3], const double inverse_square[3])
{
    double xx = 0, yy = 0, xy = 0;
    for (int i = 0; i < 3; i++) {
        xx += inverse_square[i] * axes[0][i] * axes[0][i];
        yy += inverse_square[i] * axes[1][i] * axes[1][i];
        xy += inverse_square[i] * axes[0][i] * axes[1][i];
    }
    double mean = 0.5 * (xx + yy), half = 0.5 * (xx - yy), length = sqrt(half * half + xy * xy);
    Section section = {1.0 / sqrt(mean - length), 1.0 / sqrt(mean + length), 1.0, 0.0};
    if (length > 0.0) {
        section.cosine = -half / length;
        section.sine = -xy / length;
    }
    return section;
}

/* even + odd (cos 2a, sin 2a; sin 2a, -cos 2a), times a matrix: what acts on the slow wave as
 * even + odd and on the fast one as even - odd. */
static void act(const Section *section, double complex even, double complex odd, IfigJonesXy *jones)
{
    double complex xx = even + odd * section->cosine, yy = even - odd * section->cosine;
    double complex xy = odd * section->sine;
    for (int column = 0; column < 2; column++) {
        double complex x = jones->m[0][column], y = jones->m[1][column];
        jones->m[0][column] = xx * x + xy * y;
        jones->m[1][column] = xy * x + yy * y;
    }
}

static void pass_face(const Section *section, double n_outside, int leaves, IfigJonesXy *jones)
{
    double slow = 2.0 * (leaves ? section->slow : n_outside) / (section->slow + n_outside);
    double fast = 2.0 * (leaves ? section->fast : n_outside) / (section->fast + n_outside);
    act(section, 0.5 * (slow + fast), 0.5 * (slow - fast), jones);
}

/* The substance of the grains at one wavelength. */
typedef struct Substance {
    double inverse_square[3]; /* 1/n^2 along X, Y, Z */
    double turn[3][3];        /* of the axes, where they are dispersed */
    double depth;             /* pi times a grain's thickness over the wavelength */
} Substance;

/* The grains of one column. */
typedef struct Column {
    unsigned seed, place;
    size_t layers;
    double grain_nm, n_outside;
    int axes_turn;
} Column;

static IfigStatus substance_of(const IfigSpecies *grain, const Column *column, double wavelength_nm,
                               Substance *substance, IfigError *error)
{
    double n[3];
    IfigStatus status = ifig_species_indices(grain, wavelength_nm, n, error);
    if (status == IFIG_OK) {
        ifig_axes_turn(grain, wavelength_nm, substance->turn);
        substance->depth = IFIG_PI * column->grain_nm / wavelength_nm;
        for (int i = 0; i < 3; i++) {
            substance->inverse_square[i] = 1.0 / (n[i] * n[i]);
        }
    }
    return status;
}

static void pass_layer(const Column *column, size_t layer, const Substance *substance, size_t count,
                       IfigJonesXy *jones)
{
    double rotation[3][3], axes[3][3];
    random_rotation(column->seed, column->place, layer, rotation);
    memcpy(axes, rotation, sizeof axes);
    for (size_t k = 0; k < count; k++) {
        if (column->axes_turn) {
            ifig_matrix3_multiply(rotation, substance[k].turn, axes);
        }
        Section section = section_of(axes, substance[k].inverse_square);
        double half = substance[k].depth * (section.slow - section.fast);
        if (layer == 0) {
            pass_face(&section, column->n_outside, 0, &jones[k]);
        }
        act(&section, cos(half), I * sin(half), &jones[k]);
        if (layer + 1 == column->layers) {
            pass_face(&section, column->n_outside, 1, &jones[k]);
        }
    }
}

static IfigStatus grain_of(const IfigSpecies *species, double *grain_mm, const IfigSpecies **grain,
                           IfigError *error)
{
    *grain = ifig_species_grain(species);
    if (*grain == NULL) {
        return ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                         "what the grains of %s are made of is not known; choose an aggregate of "
                         "the catalogue, or the crystal that its grains are",
                         ifig_species_text(species, IFIG_TEXT_KEY));
    }
    double own = ifig_species_grain_mm(species);
    if (*grain_mm == 0.0 && isnan(own)) {
        return ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                         "%s has no usual size of grain; give one, 0.001 to 10 mm",
                         ifig_species_text(species, IFIG_TEXT_KEY));
    }
    *grain_mm = *grain_mm == 0.0 ? own : *grain_mm;
    return ifig_check_range("size of the grains", *grain_mm, 0.001, 10, "mm", error);
}

IfigStatus ifig_grain_facts(const IfigSpecies *species, double *grain_mm, double *birefringence,
                            IfigError *error)
{
    const IfigSpecies *grain = NULL;
    double n[3];
    IfigStatus status = grain_of(species, grain_mm, &grain, error);
    if (status == IFIG_OK) {
        status = ifig_species_indices(grain, IFIG_SODIUM_D_NM, n, error);
    }
    if (status == IFIG_OK) {
        *birefringence = fmax(fmax(n[0], n[1]), n[2]) - fmin(fmin(n[0], n[1]), n[2]);
    }
    return status;
}

/* The grains that fill the layer's thickness, all as thick as one another. */
static IfigStatus column_of(const IfigScene *scene, const IfigTexture *texture, unsigned place,
                            Column *column, const IfigSpecies **grain, IfigError *error)
{
    const IfigLayer *layer = &scene->layers[0];
    IfigSpeciesFacts facts;
    double grain_mm = texture->grain_mm;
    IfigStatus status = grain_of(layer->species, &grain_mm, grain, error);
    if (status == IFIG_OK) {
        status = ifig_check_range("thickness", layer->thickness_mm, 0.001, 100, "mm", error);
    }
    if (status == IFIG_OK) {
        status = ifig_species_facts(*grain, &facts, error);
    }
    if (status == IFIG_OK) {
        double layers = fmax(1.0, floor(layer->thickness_mm / grain_mm + 0.5));
        *column = (Column){.seed = texture->seed,
                           .place = place,
                           .layers = (size_t)layers,
                           .grain_nm = layer->thickness_mm * 1e6 / layers,
                           .n_outside = scene->instrument.immersion_index,
                           .axes_turn = facts.monoclinic != IFIG_MONOCLINIC_NONE};
    }
    return status;
}

IfigStatus ifig_grain_stack(const IfigScene *scene, const IfigTexture *texture, unsigned place,
                            const double *wavelength_nm, size_t count, IfigJonesXy *jones,
                            IfigError *error)
{
    const IfigSpecies *grain = NULL;
    Column column;
    IfigStatus status = column_of(scene, texture, place, &column, &grain, error);
    if (status != IFIG_OK) {
        return status;
    }
    Substance *substance = calloc(count > 0 ? count : 1, sizeof *substance);
    if (substance == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for %zu wavelengths", count);
    }
    for (size_t k = 0; status == IFIG_OK && k < count; k++) {
        status = substance_of(grain, &column, wavelength_nm[k], &substance[k], error);
        jones[k] = (IfigJonesXy){{{1, 0}, {0, 1}}};
    }
    for (size_t layer = 0; status == IFIG_OK && layer < column.layers; layer++) {
        pass_layer(&column, layer, substance, count, jones);
    }
    free(substance);
    return status;
}
