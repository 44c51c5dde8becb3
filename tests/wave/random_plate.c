/* SPDX-License-Identifier: MIT */
#include "random_plate.h"

#include <string.h>

static void draw_indices(Random *random, PlateKind kind, double n[3])
{
    double low = random_between(random, 1.3, 2.7);
    double spread = random_between(random, 0, 1);
    spread = 0.3 * spread * spread;
    double middle = random_between(random, 0.02, 0.98);
    if (kind.distinct_indices == 1) {
        spread = 0;
    }
    n[0] = n[1] = low;
    n[2] = low + spread;
    if (kind.distinct_indices == 3) {
        n[1] = low + middle * spread;
    } else if (middle < 0.5) { /* optically negative */
        n[0] = n[1] = low + spread;
        n[2] = low;
    }
}

static IfigSpecies *make_species(const BerremanPlate *plate, PlateKind kind, double rotation,
                                 double ratio)
{
    IfigSpeciesRecord record = IFIG_SPECIES_RECORD_INIT;
    record.text[IFIG_TEXT_KEY] = "drawn";
    record.facts.character = kind.distinct_indices == 1   ? IFIG_ISOTROPIC
                             : kind.distinct_indices == 2 ? IFIG_UNIAXIAL
                                                          : IFIG_BIAXIAL;
    memcpy(record.facts.n, plate->n, sizeof plate->n);
    record.rotation.constant = rotation;
    record.rotation.ratio_across = ratio;
    IfigSpecies *species = NULL;
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_species_create(&record, &species, &error) == IFIG_OK, "%s", error.message);
    return species;
}

/* View z stands X, Y, Z along the lab's axes; a tilt of b toward azimuth -c and a stage turn of a +
 * c then make Rz(a) Ry(b) Rz(c). */
static RandomPlate finish_plate(Random *random, PlateKind kind, const BerremanPlate *reference)
{
    RandomPlate plate = {.reference = *reference};
    BerremanPlate *r = &plate.reference;
    double rotation = 0, ratio = 1;
    if (kind.is_active) {
        rotation = random_between(random, -315, 315);
        ratio = kind.distinct_indices == 1 ? 1 : random_between(random, -1, 2);
    }
    /* Nye, Physical Properties of Crystals, ch. XIV: rho = pi G / (lambda n). */
    r->gyration_along =
        rotation * 1e-6 * (acos(-1.0) / 180) * r->wavelength_nm * r->n[1] / acos(-1.0);
    r->gyration_across = ratio * r->gyration_along;
    plate.species = make_species(r, kind, rotation, ratio);
    plate.layer = layer_of(plate.species, IFIG_VIEW_Z, r->thickness_mm);
    plate.layer.orientation.tilt_azimuth_deg = -r->euler_deg[2];
    plate.layer.orientation.tilt_deg = r->euler_deg[1];
    plate.layer.orientation.stage_deg = r->euler_deg[0] + r->euler_deg[2];
    return plate;
}

RandomPlate draw_plate(Random *random, PlateKind kind)
{
    BerremanPlate plate = {.n_outside = 1};
    draw_indices(random, kind, plate.n);
    plate.euler_deg[0] = random_between(random, -180, 180);
    plate.euler_deg[1] = acos(random_between(random, -1, 1)) * 180 / acos(-1.0);
    plate.euler_deg[2] = random_between(random, -180, 180);
    plate.wavelength_nm = random_between(random, 400, 700);
    plate.thickness_mm = random_between(random, 0.01, 5);
    plate.theta_deg = random_between(random, 0, 75);
    plate.phi_deg = random_between(random, -180, 180);
    return finish_plate(random, kind, &plate);
}

/* Columns: a unit vector, and two more across it, the first turned by `roll`. */
static void frame_about(const double up[3], double roll, double frame[3][3])
{
    double helper[3] = {fabs(up[0]) < 0.5, fabs(up[0]) >= 0.5, 0}, a[3], b[3], length = 0;
    for (int i = 0; i < 3; i++) {
        a[i] = helper[(i + 1) % 3] * up[(i + 2) % 3] - helper[(i + 2) % 3] * up[(i + 1) % 3];
        length += a[i] * a[i];
    }
    for (int i = 0; i < 3; i++) {
        a[i] /= sqrt(length);
    }
    for (int i = 0; i < 3; i++) {
        b[i] = up[(i + 1) % 3] * a[(i + 2) % 3] - up[(i + 2) % 3] * a[(i + 1) % 3];
    }
    for (int i = 0; i < 3; i++) {
        frame[i][0] = up[i];
        frame[i][1] = cos(roll) * a[i] + sin(roll) * b[i];
        frame[i][2] = cos(roll) * b[i] - sin(roll) * a[i];
    }
}

RandomPlate draw_plate_at_axis(Random *random, PlateKind kind, double away)
{
    RandomPlate start = draw_plate(random, kind);
    BerremanPlate plate = start.reference;
    const double *n = plate.n, degree = acos(-1.0) / 180;
    ifig_species_free(start.species);
    double v = 0; /* from Z, in the plane X Z: both waves have n[1] along an optic axis */
    if (kind.distinct_indices == 3) {
        v = atan(sqrt((1 / (n[0] * n[0]) - 1 / (n[1] * n[1])) /
                      (1 / (n[1] * n[1]) - 1 / (n[2] * n[2]))));
    }
    const double axis[3] = {sin(v), 0, cos(v)};
    double sine = sin(plate.theta_deg * degree) / n[1];
    double s[3] = {sine * cos(plate.phi_deg * degree), sine * sin(plate.phi_deg * degree),
                   sqrt(1 - sine * sine)};
    double from[3][3], to[3][3], aside[3][3], off = random_between(random, 0, away), r[3][3];
    frame_about(axis, 0, from);
    frame_about(s, 0, aside);
    double length = hypot(1, off);
    for (int i = 0; i < 3; i++) {
        s[i] = (s[i] + off * aside[i][1]) / length;
    }
    frame_about(s, random_between(random, -3, 3), to);
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            r[i][j] = to[i][0] * from[j][0] + to[i][1] * from[j][1] + to[i][2] * from[j][2];
        }
    }
    plate.euler_deg[0] = atan2(r[1][2], r[0][2]) / degree;
    plate.euler_deg[1] = atan2(hypot(r[0][2], r[1][2]), r[2][2]) / degree;
    plate.euler_deg[2] = atan2(r[2][1], -r[2][0]) / degree;
    return finish_plate(random, kind, &plate);
}
