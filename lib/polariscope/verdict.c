/* SPDX-License-Identifier: MIT */
/* What a turn says of the stone. */
#include "blink.h"

#include "base.h"
#include "texture.h"

#include <math.h>

/* The face is dark as a whole where no more than this share of it is lit, and partly dark from the
 * same share on; common practice, no source. */
static const double OVERSEEN = 0.02;
/* Of the greatest retardation that the thickness allows: below it the line of sight lies close to
 * an optic axis (within 10 degrees in a uniaxial stone: sin^2). */
static const double NEAR_AXIS = 0.03;
/* An eye that compares two lights one after the other takes those that differ by less than a
 * quarter as alike; common practice, no source. */
static const double NOTICEABLE = 1.25;

/* Dark places in a turn: stretches of degrees at which the face as a whole is dark. */
static int count_extinctions(const IfigTurn *turn)
{
    int count = 0;
    for (int degree = 0; degree < IFIG_BLINK_TURNS; degree++) {
        int before = (degree + IFIG_BLINK_TURNS - 1) % IFIG_BLINK_TURNS;
        count +=
            turn->dark_share[degree] >= 1.0 - OVERSEEN && turn->dark_share[before] < 1.0 - OVERSEEN;
    }
    return count;
}

static IfigAppearance appearance_of(const IfigTurn *turn, int extinctions)
{
    double darkest = 0, lightest = 1;
    for (int degree = 0; degree < IFIG_BLINK_TURNS; degree++) {
        darkest = fmax(darkest, turn->dark_share[degree]);
        lightest = fmin(lightest, turn->dark_share[degree]);
    }
    if (lightest >= 1.0 - OVERSEEN) {
        return IFIG_LOOKS_DARK;
    }
    if (extinctions > 0) {
        return IFIG_LOOKS_FOUR_DARK;
    }
    return darkest > OVERSEEN ? IFIG_LOOKS_PATCHY : IFIG_LOOKS_NEVER_DARK;
}

/* What the layers are by themselves, at 589.3 nm. */
typedef struct Substance {
    int is_double; /* some layer is doubly refractive */
    double possible_nm;
} Substance;

static IfigStatus substance_of(const IfigScene *scene, Substance *substance, IfigError *error)
{
    *substance = (Substance){0, 0};
    for (size_t i = 0; i < scene->layer_count; i++) {
        IfigOpticAxes axes;
        IfigStatus status =
            ifig_optic_axes(scene->layers[i].species, IFIG_SODIUM_D_NM, &axes, error);
        if (status != IFIG_OK) {
            return status;
        }
        substance->is_double |= axes.character == IFIG_UNIAXIAL || axes.character == IFIG_BIAXIAL;
        substance->possible_nm += scene->layers[i].thickness_mm * 1e6 * (axes.n[2] - axes.n[0]);
    }
    return IFIG_OK;
}

static IfigStatus plain_retardation(const IfigScene *scene, double *nm, IfigError *error)
{
    IfigPlateWave wave;
    IfigStatus status =
        ifig_plate_wave(scene->layers, scene->layer_count, scene->instrument.immersion_index,
                        IFIG_SODIUM_D_NM, 0, 0, &wave, error);
    *nm = status == IFIG_OK ? wave.retardation_nm : 0.0;
    return status;
}

/* Of strain: the greatest at the places looked at. */
static IfigStatus strain_retardation(const IfigScene *scene, const IfigTexture *texture, double *nm,
                                     IfigError *error)
{
    const IfigLayer *layer = &scene->layers[0];
    const double per_tpa = ifig_species_stress_optic_per_tpa(layer->species);
    IfigStatus status = IFIG_OK;
    *nm = 0;
    for (size_t i = 0; status == IFIG_OK && i < 1024; i++) {
        IfigStressPath path = {0, 0};
        double x, y;
        ifig_face_place(i, &x, &y);
        status = ifig_stress_path(texture, layer->thickness_mm, x, y, &path, error);
        /* 1e-6 from TPa^-1 to MPa^-1, 1e6 from mm to nm */
        *nm = fmax(*nm, fabs(per_tpa) * path.difference_mpa_mm);
    }
    return status;
}

/* Of one grain, lying as it may. */
static IfigStatus grain_retardation(const IfigScene *scene, const IfigTexture *texture, double *nm,
                                    IfigError *error)
{
    double grain_mm = texture->grain_mm, birefringence = 0;
    IfigStatus status =
        ifig_grain_facts(scene->layers[0].species, &grain_mm, &birefringence, error);
    *nm = 1e6 * fmin(grain_mm, scene->layers[0].thickness_mm) * birefringence;
    return status;
}

static IfigStatus retardation_of(const IfigScene *scene, const IfigTexture *texture, double *nm,
                                 IfigError *error)
{
    if (ifig_is_strain_pattern(texture->pattern)) {
        return strain_retardation(scene, texture, nm, error);
    }
    return texture->pattern == IFIG_PATTERN_GRAINS ? grain_retardation(scene, texture, nm, error)
                                                   : plain_retardation(scene, nm, error);
}

/* A singly refractive stone is anomalous where strain lights it; one that merely rotates the light
 * (sodium chlorate) is not. */
static IfigReaction reaction_of_single(const IfigScene *scene, const IfigTexture *texture,
                                       const IfigBlink *blink)
{
    int is_strained = ifig_is_strain_pattern(texture->pattern);
    for (size_t i = 0; i < scene->layer_count; i++) {
        is_strained |= scene->layers[i].stress_mpa != 0.0;
    }
    return is_strained && blink->appearance != IFIG_LOOKS_DARK ? IFIG_REACTION_ADR
                                                               : IFIG_REACTION_SR;
}

/* "Opened, a doubly refractive stone stays or darkens, a strained one brightens." An aggregate is
 * made of doubly refractive grains. */
static int follows_rule(const IfigBlink *blink)
{
    const double ratio = blink->opened_over_crossed;
    if (blink->reaction == IFIG_REACTION_SR || blink->reaction == IFIG_REACTION_ADR) {
        return !(ratio < NOTICEABLE); /* a stone that lets nothing through brightens as well */
    }
    return ratio < NOTICEABLE;
}

IfigStatus ifig_blink_judge(const IfigScene *scene, const IfigTexture *texture,
                            const IfigTurn *turn, IfigBlink *blink, IfigError *error)
{
    Substance substance = {0, 0};
    IfigStatus status = retardation_of(scene, texture, &blink->retardation_nm, error);
    blink->extinctions_per_turn = count_extinctions(turn);
    blink->appearance = appearance_of(turn, blink->extinctions_per_turn);
    if (texture->pattern == IFIG_PATTERN_GRAINS) {
        blink->reaction =
            blink->appearance == IFIG_LOOKS_DARK ? IFIG_REACTION_SR : IFIG_REACTION_AGG;
    } else {
        if (status == IFIG_OK) {
            status = substance_of(scene, &substance, error);
        }
        blink->reaction =
            substance.is_double ? IFIG_REACTION_DR : reaction_of_single(scene, texture, blink);
        blink->is_along_optic_axis = substance.is_double &&
                                     blink->appearance != IFIG_LOOKS_FOUR_DARK &&
                                     blink->retardation_nm < NEAR_AXIS * substance.possible_nm;
    }
    blink->follows_opening_rule = follows_rule(blink);
    return status;
}
