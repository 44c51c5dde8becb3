/* SPDX-License-Identifier: MIT */
/* Where the patch lies: its size against thickness, the chance to miss it, and the usual cuts. */
#include "hunt.h"

#include "base.h"
#include "species.h"

#include <math.h>
#include <string.h>

static const double USUAL_MM[IFIG_HUNT_THICKNESSES - 1] = {0.5, 1.0, 2.0, 5.0, 10.0};

/* The stone's own frame. */
static const double UNTURNED[3][3] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};

static IfigStatus check_stone(const IfigLayer *layer, IfigError *error)
{
    const char *key = ifig_species_text(layer->species, IFIG_TEXT_KEY);
    IfigSpeciesFacts facts;
    ifig_species_facts(layer->species, &facts, NULL);
    if (facts.character == IFIG_AGGREGATE) {
        return ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                         "%s is an aggregate: its grains lie every way, it is lit from every side "
                         "and has no patch to hunt for; choose a single crystal",
                         key);
    }
    if (facts.is_opaque) {
        return ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                         "%s lets no light through at gem thickness, so there is no patch to hunt "
                         "for; choose a transparent species",
                         key);
    }
    if (layer->stress_mpa != 0.0) {
        return ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                         "a hunt looks at the unstrained stone from all sides; set the stress, "
                         "now %s MPa, to 0",
                         ifig_number_text(layer->stress_mpa, 6).text);
    }
    return IFIG_OK;
}

IfigStatus ifig_hunt_check(const IfigScene *scene, const char *caller, IfigError *error)
{
    if (scene == NULL || scene->size != sizeof *scene || scene->lamp == NULL ||
        scene->layers == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "%s: the scene is NULL, has an unknown size, no layer or no lamp; start "
                         "from IFIG_SCENE_INIT",
                         caller);
    }
    if (scene->layer_count != 1) {
        return ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                         "a hunt looks at one stone; leave %zu of the %zu layers out",
                         scene->layer_count - 1, scene->layer_count);
    }
    /* Before the layers' own check, whose word on aggregates is about figures. */
    const IfigLayer *layer = scene->layers;
    IfigStatus status = IFIG_OK;
    if (layer->size == sizeof *layer && layer->species != NULL) {
        status = check_stone(layer, error);
    }
    if (status == IFIG_OK) {
        status = ifig_check_layers(scene->layers, scene->layer_count, error);
    }
    return status == IFIG_OK ? ifig_instrument_check(&scene->instrument, error) : status;
}

/* How far the nearest axis is from a table's normal, and how far to lean the stone in air. */
static void measure_cut(const IfigOpticAxes *axes, IfigTableCut *cut)
{
    double nearest = 90.0;
    for (int i = 0; i < axes->count; i++) {
        const double *a = axes->axis[i], *b = cut->direction;
        double along = fabs(a[0] * b[0] + a[1] * b[1] + a[2] * b[2]);
        double across = hypot(hypot(a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2]),
                              a[0] * b[1] - a[1] * b[0]);
        nearest = fmin(nearest, atan2(across, along) / IFIG_DEGREE);
    }
    double sine = axes->n[1] * sin(nearest * IFIG_DEGREE);
    cut->nearest_axis_deg = nearest;
    cut->most_outside_deg = sine <= 1.0 ? asin(sine) / IFIG_DEGREE : (double)NAN;
}

static void add_cut(IfigHunt *hunt, const char *name, const double direction[3])
{
    if (hunt->cut_count < IFIG_HUNT_CUTS) {
        IfigTableCut *cut = &hunt->cut[hunt->cut_count++];
        cut->name = name;
        memcpy(cut->direction, direction, sizeof cut->direction);
        measure_cut(&hunt->axes, cut);
    }
}

/* The cuts of the trade, and where none is known the two extremes. */
static void list_cuts(const IfigSpecies *species, IfigHunt *hunt)
{
    const char *key = ifig_species_text(species, IFIG_TEXT_KEY);
    for (size_t i = 0; i < ifig_usual_cut_count; i++) {
        if (strcmp(ifig_usual_cuts[i].species_key, key) == 0) {
            add_cut(hunt, ifig_usual_cuts[i].name, ifig_usual_cuts[i].direction);
        }
    }
    if (hunt->cut_count > 0 || hunt->axes.count == 0) {
        return;
    }
    if (hunt->axes.count == 1) {
        static const double across_axis[3] = {1, 0, 0};
        add_cut(hunt, "table across the c axis", hunt->axes.axis[0]);
        add_cut(hunt, "table along the c axis", across_axis);
    } else {
        add_cut(hunt, "table across the acute bisectrix", hunt->axes.acute_bisectrix);
        add_cut(hunt, "table along the plane of both bisectrices", hunt->axes.optic_normal);
    }
}

static void measure_patch(const IfigMedium *medium, IfigHunt *hunt, size_t i)
{
    const int ends = 2 * hunt->axes.count;
    if (ends == 0) {
        return;
    }
    hunt->patch_sr[i] = ifig_hunt_patch(medium, &hunt->axes, hunt->thickness_mm[i] * 1e6,
                                        IFIG_PATCH_RETARDATION_NM);
    hunt->patch_share[i] = fmin(hunt->patch_sr[i] / (4.0 * IFIG_PI), 1.0);
    /* 1 - cos r = 2 sin^2(r / 2) */
    double half_sine = sqrt(hunt->patch_sr[i] / ends / (4.0 * IFIG_PI));
    hunt->patch_radius_deg[i] = 2.0 * asin(fmin(half_sine, 1.0)) / IFIG_DEGREE;
}

static IfigStatus measure(const IfigScene *scene, const IfigSpectrumSamples *samples,
                          IfigHunt *hunt, IfigError *error)
{
    IfigLayer bare = *scene->layers;
    bare.body_colour = 0;
    IfigHuntSpectrum spectrum = {.count = 0};
    IfigMedium sodium, line;
    const double line_nm = ifig_lamp_line_nm(scene->lamp);
    IfigStatus status = ifig_layer_medium(&bare, UNTURNED, IFIG_SODIUM_D_NM, &sodium, error);
    if (status == IFIG_OK) {
        status = ifig_layer_medium(&bare, UNTURNED, line_nm > 0 ? line_nm : IFIG_SODIUM_D_NM, &line,
                                   error);
    }
    if (status == IFIG_OK) {
        status = ifig_hunt_spectrum_create(&bare, UNTURNED, NULL, samples, &spectrum, error);
    }
    if (status == IFIG_OK) {
        const double coherence_nm = ifig_hunt_coherence_nm(&spectrum);
        for (size_t i = 0; i < IFIG_HUNT_THICKNESSES; i++) {
            measure_patch(&sodium, hunt, i);
            hunt->false_single[i] = ifig_hunt_false_single(
                &spectrum, &line, &hunt->axes, hunt->thickness_mm[i] * 1e6, coherence_nm);
        }
    }
    ifig_hunt_spectrum_free(&spectrum);
    return status;
}

IfigStatus ifig_hunt(const IfigScene *scene, IfigHunt *hunt, IfigError *error)
{
    if (hunt == NULL || hunt->size != sizeof *hunt) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_hunt: the result is NULL or has an unknown size; start from "
                         "IFIG_HUNT_INIT");
    }
    *hunt = (IfigHunt)IFIG_HUNT_INIT;
    IfigSpectrumSamples samples = {.count = 0};
    IfigStatus status = ifig_hunt_check(scene, "ifig_hunt", error);
    if (status == IFIG_OK) {
        status = ifig_optic_axes(scene->layers->species, IFIG_SODIUM_D_NM, &hunt->axes, error);
    }
    if (status == IFIG_OK) {
        status = ifig_lamp_samples(scene->lamp, &samples, error);
    }
    if (status == IFIG_OK) {
        hunt->thickness_mm[0] = scene->layers->thickness_mm;
        memcpy(&hunt->thickness_mm[1], USUAL_MM, sizeof USUAL_MM);
        list_cuts(scene->layers->species, hunt);
        status = measure(scene, &samples, hunt, error);
    }
    ifig_spectrum_samples_free(&samples);
    return status;
}
