/* SPDX-License-Identifier: MIT */
/* Stress frozen into a stone, summed along the line of sight.
 *
 * Bands, cross-hatch and snake are sums of plane waves, each a tension and pressure along its own
 * crests: sigma = S cos(k r + phase) t t, t across k, so that div sigma = 0. That is what the Airy
 * function phi = -S / k^2 cos(k r + phase) gives by sigma_xx = phi_yy, sigma_yy = phi_xx,
 * sigma_xy = -phi_xy. They are alike through the whole thickness (plane stress), and the axes of
 * the inclusion's stress are radial at every depth by its symmetry: nowhere do the principal
 * directions turn along a line of sight, and the retardations simply add. In a real stone they may
 * turn.
 *
 * Inclusion: Lame's sphere (Timoshenko & Goodier, Theory of Elasticity, art. 136, from memory) in
 * an endless solid, the light passing from face to face at normal incidence. With rho the distance
 * from its axis, sigma_rho - sigma_phi = (sigma_r - sigma_t) rho^2 / r^2 = -3/2 S a^3 rho^2 / r^5,
 * and the integral of rho^2 / (rho^2 + z^2)^(5/2) over z is (s - s^3 / 3) / rho^2, s = z / r.
 * Within the sphere the stress is hydrostatic. */
#include "texture.h"

#include "base.h"
#include "fringe_math.h"

#include <math.h>
#include <string.h>

/* In half faces. */
static const double BAND_PERIOD = 0.4, HATCH_PERIOD = 0.4;
static const double SNAKE_SHORTEST = 0.7, SNAKE_LONGEST = 1.8;
static const double INCLUSION_RADIUS = 0.2; /* a tenth of the face's width */

/* A wave of stress whose crests stand across the direction (cosine, sine). */
static IfigStressWave wave_along(double cosine, double sine, double period, double phase,
                                 double amplitude)
{
    return (IfigStressWave){.kx = cosine / period,
                            .ky = sine / period,
                            .phase = phase,
                            .xx = amplitude * sine * sine,
                            .yy = amplitude * cosine * cosine,
                            .xy = -amplitude * sine * cosine};
}

/* Waves every way, of a few lengths, the shorter ones weaker. */
static void snake_waves(unsigned seed, IfigStressField *field)
{
    for (uint64_t i = 0; i < IFIG_STRESS_WAVES; i++) {
        double angle = IFIG_PI * ((double)i + ifig_texture_draw(seed, 1, i)) / IFIG_STRESS_WAVES;
        double share = ifig_texture_draw(seed, 2, i);
        double period = SNAKE_SHORTEST * pow(SNAKE_LONGEST / SNAKE_SHORTEST, share);
        field->wave[i] = wave_along(cos(angle), sin(angle), period, ifig_texture_draw(seed, 3, i),
                                    period / SNAKE_LONGEST);
    }
    field->wave_count = IFIG_STRESS_WAVES;
}

static double size_of(IfigStressSum sum)
{
    return sqrt(sum.difference * sum.difference + sum.shear * sum.shear);
}

/* Scale the waves so that the greatest difference of the principal stresses on the face is 1. */
static void scale_to_greatest(IfigStressField *field)
{
    const int half = 64;
    double most = 0;
    for (int j = -half; j <= half; j++) {
        for (int i = -half; i <= half; i++) {
            if (i * i + j * j <= half * half) {
                double here = size_of(ifig_stress_sum(field, (double)i / half, (double)j / half));
                most = here > most ? here : most;
            }
        }
    }
    for (size_t i = 0; i < field->wave_count; i++) {
        field->wave[i].xx /= most;
        field->wave[i].yy /= most;
        field->wave[i].xy /= most;
    }
}

static IfigStatus inclusion(const IfigTexture *texture, double thickness_mm, IfigStressField *field,
                            IfigError *error)
{
    double half_width = 0.5 * texture->width_mm;
    field->radius = INCLUSION_RADIUS;
    field->half_depth = 0.5 * thickness_mm / half_width;
    field->inclusion_mpa_mm = texture->stress_mpa * half_width;
    if (field->half_depth < field->radius) {
        return ifig_fail(
            error, IFIG_ERROR_UNSUITABLE,
            "an inclusion %s mm across (a fifth of the face's width) does not fit into "
            "a stone %s mm thick; make the stone thicker or its face narrower",
            ifig_number_text(2.0 * field->radius * half_width, 4).text,
            ifig_number_text(thickness_mm, 4).text);
    }
    return IFIG_OK;
}

IfigStatus ifig_stress_field(const IfigTexture *texture, double thickness_mm,
                             IfigStressField *field, IfigError *error)
{
    memset(field, 0, sizeof *field);
    field->path_mpa_mm = 1.0;
    switch (texture->pattern) {
    case IFIG_PATTERN_BANDS:
        field->wave[0] = wave_along(1, 0, BAND_PERIOD, 0, 1);
        field->wave_count = 1;
        break;
    case IFIG_PATTERN_CROSS_HATCH:
        field->wave[0] = wave_along(1, 0, HATCH_PERIOD, 0, 1);
        field->wave[1] = wave_along(0, 1, HATCH_PERIOD, 0, 1);
        field->wave_count = 2;
        break;
    case IFIG_PATTERN_SNAKE:
        snake_waves(texture->seed, field);
        scale_to_greatest(field);
        break;
    case IFIG_PATTERN_INCLUSION:
        return inclusion(texture, thickness_mm, field, error);
    case IFIG_PATTERN_USUAL:
    case IFIG_PATTERN_PLAIN:
    case IFIG_PATTERN_TWINS:
    case IFIG_PATTERN_BRAZIL:
    case IFIG_PATTERN_GRAINS:
        break;
    }
    field->path_mpa_mm = texture->stress_mpa * thickness_mm;
    return IFIG_OK;
}

/* What is missing of the integral from 0 to z when z stops short of infinity, over rho^2:
 * 2/3 - s + s^3/3 = (1 - s)^2 (2 + s) / 3, s = z / r, written so that it holds next to the axis. */
static double missing(double z, double r)
{
    double share = 1.0 / (r * (r + z)); /* (1 - s) / rho^2 */
    return share * share * (2.0 + z / r) / 3.0;
}

/* sigma_rho - sigma_phi along the line of sight, over S a half face, over rho^2. */
static double lame_over_square(double a, double half_depth, double rho_squared)
{
    double through = rho_squared < a * a ? sqrt(a * a - rho_squared) : 0.0;
    double r = rho_squared < a * a ? a : sqrt(rho_squared);
    double depth = sqrt(rho_squared + half_depth * half_depth);
    return -3.0 * a * a * a * (missing(through, r) - missing(half_depth, depth));
}

void ifig_stress_tensor(const IfigStressField *field, double x, double y, double tensor[3])
{
    memset(tensor, 0, 3 * sizeof *tensor);
    for (size_t i = 0; i < field->wave_count; i++) {
        const IfigStressWave *wave = &field->wave[i];
        double swing = ifig_cosine_turns(wave->kx * x + wave->ky * y + wave->phase);
        tensor[0] += wave->xx * swing;
        tensor[1] += wave->yy * swing;
        tensor[2] += wave->xy * swing;
    }
    for (int i = 0; i < 3; i++) {
        tensor[i] *= field->path_mpa_mm;
    }
    if (field->radius > 0.0) {
        double square = x * x + y * y;
        double part =
            field->inclusion_mpa_mm * lame_over_square(field->radius, field->half_depth, square);
        tensor[0] += 0.5 * part * (x * x - y * y);
        tensor[1] -= 0.5 * part * (x * x - y * y);
        tensor[2] += part * x * y;
    }
}

IfigStressSum ifig_stress_sum(const IfigStressField *field, double x, double y)
{
    double tensor[3];
    ifig_stress_tensor(field, x, y, tensor);
    return (IfigStressSum){tensor[0] - tensor[1], 2.0 * tensor[2]};
}

IfigStatus ifig_stress_path(const IfigTexture *texture, double thickness_mm, double x, double y,
                            IfigStressPath *path, IfigError *error)
{
    if (texture == NULL || path == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "ifig_stress_path: a pointer is NULL");
    }
    IfigStatus status = ifig_texture_numbers(texture, error);
    if (status == IFIG_OK) {
        status = ifig_check_range("thickness", thickness_mm, 0.001, 100, "mm", error);
    }
    if (status == IFIG_OK && !(hypot(x, y) <= 1.0 + 1e-12)) {
        status = ifig_fail(error, IFIG_ERROR_RANGE,
                           "the place (%s, %s) lies outside the face's disc of radius 1",
                           ifig_number_text(x, 6).text, ifig_number_text(y, 6).text);
    }
    IfigStressField field;
    if (status == IFIG_OK) {
        status = ifig_stress_field(texture, thickness_mm, &field, error);
    }
    if (status == IFIG_OK) {
        IfigStressSum sum = ifig_stress_sum(&field, x, y);
        path->difference_mpa_mm = size_of(sum);
        path->azimuth_deg = 0.5 * atan2(sum.shear, sum.difference) / IFIG_DEGREE;
    }
    return status;
}
