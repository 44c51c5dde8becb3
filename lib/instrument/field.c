/* SPDX-License-Identifier: MIT */
/* Which ray each point of the picture sees. */
#include "instrument.h"

#include "base.h"

#include <math.h>

static const double SPHERE_FIELD_DEG = 55.0;
/* A pupil of 4 mm at 230 mm, the usual distance of sight; common practice, no source. */
static const double EYE_FIELD_DEG = 0.5;
static const double GRAZING = 0.5 * IFIG_PI - 1e-6;

/* Index of the ball over that of the medium it lies in. */
static double sphere_ratio(const IfigInstrument *instrument)
{
    return instrument->sphere_index / instrument->immersion_index;
}

/* Deviation by the two refractions at a ball's surface, for a ray that leaves parallel to z. */
static double sphere_theta(double ratio, double rho)
{
    return 2.0 * (asin(rho) - asin(rho / ratio));
}

/* The inverse: 1/2 theta = asin(rho) - asin(rho/n) gives, with the sine rule,
 * rho = sin(theta/2) / sqrt(1 - 2 cos(theta/2)/n + 1/n^2). */
static double sphere_rho(double ratio, double theta)
{
    double k = 1.0 / ratio;
    return sin(0.5 * theta) / sqrt(1.0 - 2.0 * k * cos(0.5 * theta) + k * k);
}

static IfigStatus check_polar(const char *what, const IfigPolar *polar, IfigError *error)
{
    if ((unsigned)polar->kind > IFIG_POLAR_RIGHT) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "%s: unknown kind of polar", what);
    }
    return ifig_check_range(what, polar->azimuth_deg, -3600, 3600, "degrees", error);
}

static IfigStatus check_plate(const IfigPlate *plate, IfigError *error)
{
    if ((unsigned)plate->material > IFIG_PLATE_QUARTZ) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "unknown material of the accessory plate");
    }
    IfigStatus status =
        ifig_check_range("retardation of the plate", plate->retardation_nm, 0, 100000, "nm", error);
    return status == IFIG_OK
               ? ifig_check_range("slow direction of the plate", plate->slow_azimuth_deg, -3600,
                                  3600, "degrees", error)
               : status;
}

static IfigStatus check_sphere(const IfigInstrument *instrument, IfigError *error)
{
    IfigStatus status =
        ifig_check_range("index of the sphere", instrument->sphere_index, 1.2, 3.0, "", error);
    if (status != IFIG_OK) {
        return status;
    }
    double ratio = sphere_ratio(instrument);
    if (ratio < 1.05) {
        return ifig_fail(error, IFIG_ERROR_RANGE,
                         "index of the sphere is %s; in a liquid of %s it must be at least %s",
                         ifig_number_text(instrument->sphere_index, 6).text,
                         ifig_number_text(instrument->immersion_index, 6).text,
                         ifig_number_text(1.05 * instrument->immersion_index, 6).text);
    }
    double widest = sphere_theta(ratio, 1.0) / IFIG_DEGREE;
    if (ifig_instrument_field_deg(instrument) >= widest) {
        return ifig_fail(error, IFIG_ERROR_RANGE,
                         "field is %s degrees; this sphere gathers less than %s: choose a smaller "
                         "field or a sphere of higher index",
                         ifig_number_text(ifig_instrument_field_deg(instrument), 6).text,
                         ifig_number_text(widest, 4).text);
    }
    return IFIG_OK;
}

static IfigStatus check_objective(const IfigInstrument *instrument, IfigError *error)
{
    double n = instrument->immersion_index;
    IfigStatus status = ifig_check_range("aperture of the objective", instrument->aperture, 0.01,
                                         0.9999 * n, "", error);
    if (status != IFIG_OK) {
        return status;
    }
    double widest = asin(instrument->aperture / n) / IFIG_DEGREE;
    return ifig_check_range("field", ifig_instrument_field_deg(instrument), 0.1,
                            widest * (1 + 1e-12), "degrees with this objective", error);
}

IfigStatus ifig_instrument_check(const IfigInstrument *instrument, IfigError *error)
{
    if (instrument == NULL || instrument->size != sizeof *instrument ||
        (unsigned)instrument->lens > IFIG_LENS_NONE) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the instrument is NULL or of an unknown size or lens; start from "
                         "IFIG_INSTRUMENT_INIT");
    }
    IfigStatus status =
        ifig_check_range("immersion index", instrument->immersion_index, 1.0, 2.5, "", error);
    if (status == IFIG_OK && instrument->field_deg != 0.0) {
        status = ifig_check_range("field", instrument->field_deg, 0.1, 89.9, "degrees", error);
    }
    if (status == IFIG_OK) {
        status = check_polar("polariser", &instrument->polariser, error);
    }
    if (status == IFIG_OK) {
        status = check_polar("analyser", &instrument->analyser, error);
    }
    if (status == IFIG_OK) {
        status = check_plate(&instrument->plate, error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    switch (instrument->lens) {
    case IFIG_LENS_SPHERE:
        return check_sphere(instrument, error);
    case IFIG_LENS_OBJECTIVE:
        return check_objective(instrument, error);
    case IFIG_LENS_NONE:
        break;
    }
    return IFIG_OK;
}

double ifig_instrument_field_deg(const IfigInstrument *instrument)
{
    if (instrument == NULL) {
        return NAN;
    }
    if (instrument->field_deg > 0.0) {
        return instrument->field_deg;
    }
    switch (instrument->lens) {
    case IFIG_LENS_SPHERE:
        return SPHERE_FIELD_DEG;
    case IFIG_LENS_OBJECTIVE:
        return asin(instrument->aperture / instrument->immersion_index) / IFIG_DEGREE;
    case IFIG_LENS_NONE:
        break;
    }
    return EYE_FIELD_DEG;
}

double ifig_field_theta(const IfigInstrument *instrument, double r)
{
    double rim = ifig_instrument_field_deg(instrument) * IFIG_DEGREE, theta;
    if (instrument->lens == IFIG_LENS_SPHERE) {
        double ratio = sphere_ratio(instrument), rho = r * sphere_rho(ratio, rim);
        theta = rho < 1.0 ? sphere_theta(ratio, rho) : GRAZING;
    } else {
        double sine = r * sin(rim);
        theta = sine < 1.0 ? asin(sine) : GRAZING;
    }
    return theta < GRAZING ? theta : GRAZING;
}

IfigStatus ifig_instrument_direction(const IfigInstrument *instrument, double x, double y,
                                     double *theta_deg, double *phi_deg, IfigError *error)
{
    if (theta_deg == NULL || phi_deg == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_instrument_direction: a pointer is NULL");
    }
    IfigStatus status = ifig_instrument_check(instrument, error);
    if (status != IFIG_OK) {
        return status;
    }
    double r = hypot(x, y);
    if (!(r <= 1.0 + 1e-12)) {
        return ifig_fail(error, IFIG_ERROR_RANGE,
                         "the point (%s, %s) lies outside the picture's disc of radius 1",
                         ifig_number_text(x, 6).text, ifig_number_text(y, 6).text);
    }
    *theta_deg = ifig_field_theta(instrument, r) / IFIG_DEGREE;
    *phi_deg = atan2(y, x) / IFIG_DEGREE;
    return IFIG_OK;
}

IfigStatus ifig_instrument_position(const IfigInstrument *instrument, double theta_deg,
                                    double phi_deg, double *x, double *y, IfigError *error)
{
    if (x == NULL || y == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "ifig_instrument_position: a pointer is NULL");
    }
    IfigStatus status = ifig_instrument_check(instrument, error);
    if (status == IFIG_OK) {
        status = ifig_check_range("theta", theta_deg, 0, 90, "degrees", error);
    }
    if (status == IFIG_OK) {
        status = ifig_check_range("phi", phi_deg, -3600, 3600, "degrees", error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    double theta = theta_deg * IFIG_DEGREE,
           rim = ifig_instrument_field_deg(instrument) * IFIG_DEGREE;
    double r;
    if (instrument->lens == IFIG_LENS_SPHERE) {
        double ratio = sphere_ratio(instrument);
        if (theta > sphere_theta(ratio, 1.0)) {
            return ifig_fail(error, IFIG_ERROR_RANGE, "theta is %s degrees; the sphere gathers %s",
                             ifig_number_text(theta_deg, 6).text,
                             ifig_number_text(sphere_theta(ratio, 1.0) / IFIG_DEGREE, 4).text);
        }
        r = sphere_rho(ratio, theta) / sphere_rho(ratio, rim);
    } else {
        r = sin(theta) / sin(rim);
    }
    *x = r * cos(phi_deg * IFIG_DEGREE);
    *y = r * sin(phi_deg * IFIG_DEGREE);
    return IFIG_OK;
}
