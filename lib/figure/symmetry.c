/* SPDX-License-Identifier: MIT */
/* Pictures that repeat themselves, of which a half or a quarter is computed.
 *
 * The lens and the disc are round. A half turn about z takes linear and circular polars and the
 * plate to themselves, up to a sign of the field; a mirror along x or y does so only with linear
 * polars at 0 or 90 degrees and no plate, and it turns gyration round. A stone tilted along a polar
 * keeps one of them. What is left to ask is
 * whether the stone's tensors stay the same, at every wavelength at which the optics are exact: its
 * axes and faces may be dispersed. */
#include "figure.h"

#include <math.h>

/* What a component of a tensor may be before it counts: over 100 mm it turns the phase by less than
 * 1e-6 of a turn. */
static const double NOTHING = 1e-12;

static int is_nothing(double component)
{
    return fabs(component) < NOTHING;
}

static int medium_takes_half_turn(const IfigMedium *m)
{
    int is_active = m->gyration_along != 0.0 || m->gyration_across != 0.0;
    int axis_stays = is_nothing(m->axis[2]) || (is_nothing(m->axis[0]) && is_nothing(m->axis[1]));
    return is_nothing(m->epsilon[0][2]) && is_nothing(m->epsilon[1][2]) &&
           is_nothing(m->absorption[0][2]) && is_nothing(m->absorption[1][2]) &&
           (!is_active || axis_stays);
}

/* Two components of a tensor, xy, and xz or yz. */
static int is_without(const double tensor[3][3], int along)
{
    return is_nothing(tensor[0][1]) && is_nothing(tensor[along][2]);
}

/* A mirror that turns x (0) or y (1) round. */
static int medium_takes_mirror(const IfigMedium *m, int along)
{
    return is_without(m->epsilon, along) && is_without(m->absorption, along) &&
           m->gyration_along == 0.0 && m->gyration_across == 0.0;
}

static int polar_takes_mirrors(const IfigPolar *polar)
{
    return polar->kind == IFIG_POLAR_LINEAR && fmod(polar->azimuth_deg, 90.0) == 0.0;
}

IfigSymmetry ifig_figure_symmetry(const IfigFigure *figure)
{
    const IfigInstrument *instrument = &figure->instrument;
    int half_turn = 1, columns = polar_takes_mirrors(&instrument->polariser) &&
                                 polar_takes_mirrors(&instrument->analyser) &&
                                 instrument->plate.material == IFIG_PLATE_NONE;
    int rows = columns;
    for (size_t i = 0; i < figure->node_count * figure->layer_count; i++) {
        half_turn &= medium_takes_half_turn(&figure->medium[i]);
        columns &= medium_takes_mirror(&figure->medium[i], 0);
        rows &= medium_takes_mirror(&figure->medium[i], 1);
    }
    return rows && columns ? IFIG_SYMMETRY_MIRRORS
           : half_turn     ? IFIG_SYMMETRY_HALF_TURN
           : rows          ? IFIG_SYMMETRY_ROWS
           : columns       ? IFIG_SYMMETRY_COLUMNS
                           : IFIG_SYMMETRY_NONE;
}
