/* SPDX-License-Identifier: MIT */
/* Orders of colour within the field, at either end of a species' range of birefringence.
 *
 * The outer indices move alike from the middle between them while n_Y keeps its share, and so 2V;
 * the retardation is that of the reading (ifig_sight_retardation), in the default view. */
#include "advice.h"

#include "base.h"
#include "species.h"

#include <math.h>

/* In the default view the extremes stand on the axes of the picture, at the rim, the centre or a
 * melatope: the grid holds these places. */
enum { RADII = 8, AZIMUTHS = 24 };
static const double LINE_NM = 589.3;

/* A stone of another birefringence. */
static IfigStatus make_stone(const IfigSpecies *species, double birefringence, IfigSpecies **made,
                             IfigError *error)
{
    IfigSpeciesRecord known = IFIG_SPECIES_RECORD_INIT, record = IFIG_SPECIES_RECORD_INIT;
    const IfigStatus status = ifig_species_record(species, &known, error);
    if (status != IFIG_OK) {
        return status;
    }
    const double *n = known.facts.n;
    const double middle = 0.5 * (n[0] + n[2]);
    const double half = copysign(0.5 * birefringence, n[2] - n[0]);
    record.text[IFIG_TEXT_KEY] = "range";
    record.facts.character = known.facts.character;
    record.rotation = known.rotation;
    record.facts.n[0] = record.facts.n[1] = middle - half;
    record.facts.n[2] = middle + half;
    if (known.facts.character == IFIG_BIAXIAL) {
        const double x = 1.0 / (record.facts.n[0] * record.facts.n[0]);
        const double z = 1.0 / (record.facts.n[2] * record.facts.n[2]);
        record.facts.n[1] = 1.0 / sqrt(x - ifig_beta_share_of_indices(n) * (x - z));
    }
    return ifig_species_create(&record, made, error);
}

typedef struct Span {
    double least, most;
} Span;

static void take(const IfigSight *sight, IfigTangent tangent, Span *span)
{
    const double nm = ifig_sight_retardation(sight, tangent);
    if (!isnan(nm)) {
        span->least = fmin(span->least, nm);
        span->most = fmax(span->most, nm);
    }
}

static IfigStatus orders_of(const IfigSpecies *species, const IfigInstrument *instrument,
                            double thickness_mm, double *orders, IfigError *error)
{
    IfigLayer layer = IFIG_LAYER_INIT;
    IfigScene scene = IFIG_SCENE_INIT;
    IfigSight sight;
    IfigTangent axis[2];
    size_t count = 0;
    layer.species = species;
    layer.thickness_mm = thickness_mm;
    scene.layers = &layer;
    scene.layer_count = 1;
    scene.instrument = *instrument;
    IfigStatus status = ifig_sight_create(&scene, LINE_NM, &sight, error);
    if (status == IFIG_OK) {
        status = ifig_axis_tangents(&scene, &sight, axis, &count, error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    Span span = {HUGE_VAL, 0.0};
    const double rim = ifig_sight_tangent(&sight, 1.0, 0.0).x;
    for (size_t i = 0; i < count; i++) {
        if (hypot(axis[i].x, axis[i].y) <= rim) {
            take(&sight, axis[i], &span);
        }
    }
    take(&sight, (IfigTangent){0, 0}, &span);
    for (int i = 0; i < RADII * AZIMUTHS; i++) {
        const double r = (double)(i / AZIMUTHS + 1) / RADII;
        const double azimuth = 2.0 * IFIG_PI * (i % AZIMUTHS) / AZIMUTHS;
        take(&sight, ifig_sight_tangent(&sight, r * cos(azimuth), r * sin(azimuth)), &span);
    }
    *orders = span.least > span.most ? 0.0 : (span.most - span.least) / LINE_NM;
    return IFIG_OK;
}

static IfigStatus orders_at(const IfigSpecies *species, const IfigInstrument *instrument,
                            double thickness_mm, double birefringence, double *orders,
                            IfigError *error)
{
    const double least = 1e-6; /* none to speak of; without any it would be another character */
    IfigSpecies *stone = NULL;
    *orders = 0.0;
    if (birefringence < least) {
        return IFIG_OK;
    }
    IfigStatus status = make_stone(species, birefringence, &stone, error);
    if (status == IFIG_OK) {
        status = orders_of(stone, instrument, thickness_mm, orders, error);
    }
    ifig_species_free(stone);
    return status;
}

IfigStatus ifig_count_orders(const IfigStone *stone, const IfigInstrument *instrument,
                             double thickness_mm, IfigTraits *traits, IfigError *error)
{
    IfigSpeciesFacts facts;
    IfigStatus status = ifig_species_facts(stone->species, &facts, error);
    traits->rings_low = traits->rings_high = 0.0;
    if (status != IFIG_OK ||
        (facts.character != IFIG_UNIAXIAL && facts.character != IFIG_BIAXIAL)) {
        return status;
    }
    status = orders_at(stone->species, instrument, thickness_mm, traits->birefringence_low,
                       &traits->rings_low, error);
    if (status == IFIG_OK && traits->birefringence_high == traits->birefringence_low) {
        traits->rings_high = traits->rings_low;
    } else if (status == IFIG_OK) {
        status = orders_at(stone->species, instrument, thickness_mm, traits->birefringence_high,
                           &traits->rings_high, error);
    }
    return status;
}
