/* SPDX-License-Identifier: MIT */
/* Fringes of a stack, along a row and for single samples: see fringe_signs.h. */
#include "fringe_stack.h"

#include "fringe_signs.h"

#include <math.h>
#include <string.h>

IfigLayerPhase ifig_layer_phase(double complex h2, double mean_imaginary, double x)
{
    /* Above 1e-20 the quotient v / h is safe, and below it nothing is lit. */
    double complex h = csqrt(creal(h2) > 1e-20 || cimag(h2) != 0.0 ? h2 : 1e-20);
    IfigLayerPhase phase = {.h = h, .turns = x * creal(h) / IFIG_PI};
    phase.mean_loss = x * mean_imaginary;
    phase.half_loss = x * cimag(h);
    return phase;
}

static void set_lane(Lanes *l, size_t layer, size_t x, const IfigLayerPhase *phase, double step)
{
    l->here.h_re[layer][x] = creal(phase->h);
    l->here.h_im[layer][x] = cimag(phase->h);
    l->turns[layer][x] = phase->turns;
    l->across[layer][x] = phase->across;
    l->up[layer][x] = phase->up;
    l->step[layer][x] = step;
    l->mean_loss[layer][x] = phase->mean_loss;
    l->half_loss[layer][x] = phase->half_loss;
}

void ifig_stack_light(size_t layer_count, IfigSpectralKernel kernel, const IfigLayerPhase *phase,
                      const double *step, size_t count, const double complex *u, double *light)
{
    const size_t subset_count = (size_t)1 << layer_count;
    Lanes lanes;
    for (size_t x = 0; x < count; x++) {
        for (size_t layer = 0; layer < layer_count; layer++) {
            set_lane(&lanes, layer, x, &phase[layer], step[layer]);
        }
        for (size_t s = 0; s < subset_count; s++) {
            lanes.here.re[s][x] = creal(u[x * subset_count + s]);
            lanes.here.im[s][x] = cimag(u[x * subset_count + s]);
        }
    }
    lanes_light(layer_count, 1, kernel, count, &lanes, NULL, light);
}

/* Read a field along a row at spectral sample k. around: see add_products. */
IFIG_INLINE void read_field(const double *c, const double *tx, double ty, double side, size_t count,
                            double *restrict here, double *around[4])
{
    double row[N], x_row[N], y_row[N], bend[N];
    collapse(c, ty, row);
    for (size_t x = 0; x < count; x++) {
        here[x] = horner(row, tx[x]);
    }
    if (around[0] == NULL) {
        return;
    }
    differentiate(row, x_row, bend);
    collapse_slopes(c, ty, y_row, bend);
    for (size_t x = 0; x < count; x++) {
        double half_x = 0.5 * side * horner(x_row, tx[x]);
        double half_y = 0.5 * side * horner(y_row, tx[x]);
        around[0][x] = here[x] - half_x;
        around[1][x] = here[x] + half_x;
        around[2][x] = here[x] - half_y;
        around[3][x] = here[x] + half_y;
    }
}

/* The fields of every subset. */
IFIG_INLINE void read_fields(const IfigFigure *figure, const double *c, const double *tx, double ty,
                             double side, size_t count, Lanes *l, Amplitudes *around)
{
    const double *fields = c + figure->layer_count * NN;
    for (size_t s = 0; s < figure->subset_count; s++) {
        double *re[4] = {NULL}, *im[4] = {NULL};
        for (size_t i = 0; i < 4 && around != NULL; i++) {
            re[i] = around[i].re[s];
            im[i] = around[i].im[s];
        }
        read_field(fields + s * NN, tx, ty, side, count, l->here.re[s], re);
        if (figure->is_complex) {
            read_field(fields + (figure->subset_count + s) * NN, tx, ty, side, count, l->here.im[s],
                       im);
        } else {
            memset(l->here.im[s], 0, count * sizeof(double));
            for (size_t i = 0; i < 4 && around != NULL; i++) {
                memset(im[i], 0, count * sizeof(double));
            }
        }
    }
}

/* h at the middles of the samples' sides: it changes as the phase does. */
IFIG_INLINE void move_h(const Lanes *l, size_t layer_count, size_t count, Amplitudes *around)
{
    for (size_t layer = 0; layer < layer_count; layer++) {
        for (size_t side = 0; side < 4; side++) {
            const double *change = side < 2 ? l->across[layer] : l->up[layer];
            double half = side % 2 ? 0.5 : -0.5;
            for (size_t x = 0; x < count; x++) {
                double share = 1.0 + half * change[x] / l->turns[layer][x];
                share = share > 0.25 ? share : 0.25; /* at an optic axis */
                around[side].h_re[layer][x] = l->here.h_re[layer][x] * share;
                around[side].h_im[layer][x] = l->here.h_im[layer][x] * share;
            }
        }
    }
}

/* Each layer's phase at spectral sample k along a row, as the first pass left it. */
IFIG_INLINE void read_phases(const IfigFigure *figure, double *workspace, const int *averaged,
                             size_t k, size_t count, Lanes *l)
{
    size_t last = figure->samples.count - 1;
    size_t before = k > 0 ? k - 1 : k, behind = k < last ? k + 1 : k;
    double share = behind > before ? 1.0 / (double)(behind - before) : 0.0;
    for (size_t layer = 0; layer < figure->layer_count; layer++) {
        IfigPhaseRow row = ifig_phase_row(figure, workspace, layer, k);
        const double *first = ifig_phase_row(figure, workspace, layer, before).turns;
        const double *second = ifig_phase_row(figure, workspace, layer, behind).turns;
        for (size_t x = 0; x < count; x++) {
            l->here.h_re[layer][x] = sqrt(row.h2[x]);
            l->here.h_im[layer][x] = 0.0;
            l->turns[layer][x] = row.turns[x];
            l->across[layer][x] = averaged[layer] ? row.across[x] : 0.0;
            l->up[layer][x] = averaged[layer] ? row.up[x] : 0.0;
            l->step[layer][x] = (second[x] - first[x]) * share;
        }
    }
}

/* Make the phases of absorbing layers complex. */
static void add_losses(const IfigFigure *figure, const double *c, const double *tx, double ty,
                       size_t k, size_t count, Lanes *l)
{
    const double *losses = c + (figure->layer_count + 2 * figure->subset_count) * NN;
    double k0 = 2.0 * IFIG_PI / figure->samples.wavelength_nm[k], h2_row[N], mean_row[N];
    for (size_t layer = 0; layer < figure->layer_count; layer++) {
        collapse(losses + layer * NN, ty, h2_row);
        collapse(losses + (figure->layer_count + layer) * NN, ty, mean_row);
        for (size_t x = 0; x < count; x++) {
            double h = l->here.h_re[layer][x];
            IfigLayerPhase phase =
                ifig_layer_phase(h * h + I * horner(h2_row, tx[x]), horner(mean_row, tx[x]),
                                 k0 * figure->thickness_nm[layer]);
            phase.turns = l->turns[layer][x] * (creal(phase.h) / h);
            phase.across = l->across[layer][x];
            phase.up = l->up[layer][x];
            set_lane(l, layer, x, &phase, l->step[layer][x]);
        }
    }
}

/* Second pass: the light of every sample, summed over the spectrum. */
IFIG_CLONES
static void sum_row(const IfigFigure *figure, const IfigTile *tile, const double *tx, double ty,
                    double side, size_t count, double *workspace, const int *averaged,
                    double (*restrict sum)[MOST])
{
    int moves = 0, steep = 0;
    for (size_t layer = 0; layer < figure->layer_count; layer++) {
        moves |= averaged[layer];
    }
    for (size_t k = 0; k < figure->samples.count; k++) {
        const double *c = tile->coefficient + k * figure->quantity_count * NN;
        const double *weight = figure->samples.weight[k];
        Lanes lanes;
        Amplitudes room[4], *around = NULL;
        double light[MOST];
        int ask = moves && k % IFIG_ASK_SLOPES == 0;
        if (ask || (moves && steep)) {
            around = room;
        }
        read_fields(figure, c, tx, ty, side, count, &lanes, around);
        read_phases(figure, workspace, averaged, k, count, &lanes);
        if (figure->is_absorbing) {
            add_losses(figure, c, tx, ty, k, count, &lanes);
        }
        if (around != NULL) {
            move_h(&lanes, figure->layer_count, count, around);
        }
        double together = lanes_light(figure->layer_count, figure->is_absorbing,
                                      figure->samples.kernel, count, &lanes, around, light);
        steep = ask ? together > IFIG_STILL_SLOPES : steep;
        for (size_t x = 0; x < count; x++) {
            sum[0][x] += weight[0] * light[x];
            sum[1][x] += weight[1] * light[x];
            sum[2][x] += weight[2] * light[x];
        }
    }
}

void ifig_fringe_stack_row(const IfigFigure *figure, const IfigTile *tile, const double *tx,
                           double ty, double side, size_t count, double *workspace,
                           double (*sum)[IFIG_ROW_MAX], unsigned char *bent)
{
    int averaged[IFIG_LAYERS_MAX] = {0};
    for (size_t layer = 0; layer < figure->layer_count; layer++) {
        int flags = ifig_layer_phases(figure, tile, layer, tx, ty, side, count, workspace, bent);
        averaged[layer] = flags & IFIG_ROW_AVERAGED;
    }
    sum_row(figure, tile, tx, ty, side, count, workspace, averaged, sum);
}
