/* SPDX-License-Identifier: MIT */
/* The reading as a whole, from the wave to the words' numbers. */
#include "reading.h"

#include "base.h"

#include <math.h>
#include <string.h>

static const double SODIUM_D_NM = 589.3;
/* Where the first order ends: the sensitive tint, 551 nm (International Tables D, 1.6.4; charts).
 */
static const double ORDER_NM = 551.0;
/* A plane turned by less leaves 1 per cent of the light: the cross looks whole. */
static const double LEAST_TURN_DEG = 6.0;

static IfigStatus check_scene(const IfigScene *scene, const IfigReading *reading, IfigError *error)
{
    if (scene == NULL || scene->size != sizeof *scene || scene->lamp == NULL ||
        scene->layers == NULL || reading == NULL || reading->size != sizeof *reading) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_reading: the scene or the reading is NULL or of an unknown size, or "
                         "the scene has no lamp or no layers; start from IFIG_SCENE_INIT and "
                         "IFIG_READING_INIT");
    }
    if (scene->layer_count != 1) {
        return ifig_fail(
            error, IFIG_ERROR_UNSUITABLE,
            "a reading tells of one stone, and this stack has %s layers: its optic axes "
            "would be those of none of them; read each layer by itself",
            ifig_number_text((double)scene->layer_count, 3).text);
    }
    if (scene->layers[0].stress_mpa != 0.0) {
        return ifig_fail(
            error, IFIG_ERROR_UNSUITABLE,
            "stress of %s MPa moves the optic axes away from those of the species, which "
            "a reading tells of; read the stone without stress",
            ifig_number_text(scene->layers[0].stress_mpa, 6).text);
    }
    IfigStatus status = ifig_check_layers(scene->layers, 1, error);
    return status == IFIG_OK ? ifig_instrument_check(&scene->instrument, error) : status;
}

static IfigPolarsKind kind_of_polars(const IfigInstrument *instrument)
{
    const IfigPolar *lower = &instrument->polariser, *upper = &instrument->analyser;
    if (lower->kind == IFIG_POLAR_LINEAR && upper->kind == IFIG_POLAR_LINEAR) {
        double between = fabs(remainder(upper->azimuth_deg - lower->azimuth_deg, 180.0));
        return between > 90.0 - 1e-9 ? IFIG_POLARS_CROSSED
               : between < 1e-9      ? IFIG_POLARS_PARALLEL
                                     : IFIG_POLARS_OTHER;
    }
    int are_circular = lower->kind != IFIG_POLAR_LINEAR && upper->kind != IFIG_POLAR_LINEAR;
    return are_circular && lower->kind != upper->kind ? IFIG_POLARS_CROSSED_CIRCULAR
                                                      : IFIG_POLARS_OTHER;
}

static IfigStatus read_centre(const IfigScene *bare, IfigReading *reading, IfigError *error)
{
    IfigProbe probe;
    IfigStatus status = ifig_probe(bare, 0, 0, 0, &probe, error);
    if (status == IFIG_OK) {
        reading->centre_retardation_nm = probe.wave.retardation_nm;
        reading->centre_order = 1 + (int)floor(probe.wave.retardation_nm / ORDER_NM);
        memcpy(reading->centre_srgb, probe.srgb, sizeof probe.srgb);
        reading->centre_colour = ifig_colour_of(probe.srgb, probe.wave.retardation_nm);
    }
    return status;
}

/* Quartz along its axis: the plane of vibration leaves turned, so that no polar puts it out, and
 * the arms of the cross end around the axis. */
static IfigStatus read_eye(const IfigScene *bare, const IfigSight *sight, IfigReading *reading,
                           IfigError *error)
{
    const IfigMelatope *melatope = &reading->melatope[0];
    if (reading->character != IFIG_UNIAXIAL || reading->melatope_count == 0 ||
        !melatope->in_field || reading->polars != IFIG_POLARS_CROSSED) {
        return IFIG_OK;
    }
    IfigTangent axis = ifig_sight_tangent(sight, melatope->x, melatope->y);
    double nm = ifig_sight_retardation(sight, axis);
    if (!reading->is_optically_active || 180.0 * nm / sight->wavelength_nm < LEAST_TURN_DEG) {
        return IFIG_OK;
    }
    IfigProbe probe;
    IfigStatus status = ifig_probe(bare, melatope->theta_deg, melatope->phi_deg, 0, &probe, error);
    if (status == IFIG_OK) {
        reading->bulls_eye = 1;
        memcpy(reading->eye_srgb, probe.srgb, sizeof probe.srgb);
        reading->eye_colour = ifig_colour_of(probe.srgb, nm);
    }
    return status;
}

static IfigStatus read_places(const IfigScene *bare, IfigReading *reading, IfigError *error)
{
    IfigSight sight;
    IfigTangent tangent[2];
    size_t count = 0;
    IfigStatus status = ifig_sight_create(bare, reading->wavelength_nm, &sight, error);
    if (status == IFIG_OK) {
        status = ifig_read_axes(bare, &sight, reading, error);
    }
    if (status == IFIG_OK) {
        status = ifig_axis_tangents(bare, &sight, tangent, &count, error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    ifig_read_rings(&sight, tangent, count, reading);
    ifig_read_orders(&sight, reading);
    ifig_read_brushes(&sight, reading);
    ifig_read_plate(&sight, reading);
    return read_eye(bare, &sight, reading, error);
}

IfigStatus ifig_reading(const IfigScene *scene, IfigReading *reading, IfigError *error)
{
    IfigSpeciesFacts facts;
    IfigStatus status = check_scene(scene, reading, error);
    if (status == IFIG_OK) {
        status = ifig_species_facts(scene->layers[0].species, &facts, error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    IfigScene bare = *scene;
    const double line = ifig_lamp_line_nm(scene->lamp);
    bare.instrument.plate = (IfigPlate){IFIG_PLATE_NONE, 0, 0};
    *reading = (IfigReading)IFIG_READING_INIT;
    reading->wavelength_nm = line > 0.0 ? line : SODIUM_D_NM;
    reading->field_deg = ifig_instrument_field_deg(&scene->instrument);
    reading->immersion_index = scene->instrument.immersion_index;
    reading->polars = kind_of_polars(&scene->instrument);
    reading->plate_left_out = scene->instrument.plate.material != IFIG_PLATE_NONE;
    reading->is_optically_active = facts.is_optically_active;
    reading->monoclinic = facts.monoclinic;
    status = read_places(&bare, reading, error);
    if (status == IFIG_OK) {
        status = read_centre(&bare, reading, error);
    }
    return status == IFIG_OK ? ifig_read_fringes(&bare, reading, error) : status;
}
