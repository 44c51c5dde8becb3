/* SPDX-License-Identifier: MIT */
/* Polynomials of a patch away from optic axes, and the points they are held to: see plain.h. */
#include "plain.h"

#include "fringe_wave.h"

#include <string.h>

/* Waves of a support at the Chebyshev points of a patch; then what its mean over a pixel adds to
 * the phase, and to the fringe z exp(-2 pi i t). */
struct IfigPlainNodes {
    double turns[NN], even[NN], cosine[NN], sine[NN];
    double lift[NN], even_lift[NN], re[NN], im[NN], more_re[NN], more_im[NN];
};
typedef IfigPlainNodes Nodes;

size_t ifig_plain_nodes_size(void)
{
    return IFIG_PLAIN_SUPPORTS * sizeof(Nodes);
}

/* Derivatives times a pixel's sides, x and y of them. */
typedef struct Slopes {
    double x[NN], y[NN], bend_x[NN], bend_y[NN];
} Slopes;

/* A pixel's sides in p and q. */
typedef struct Pixel {
    double x, y;
} Pixel;

IFIG_INLINE void waves(const IfigFigure *figure, IfigFieldKind kind, const double *c, double per_h,
                       const IfigBasis *basis, const IfigPatch *patch, Nodes *restrict n)
{
    for (size_t j = 0; j < N; j++) {
        double row[7][N] = {{0}}, ty = patch->y + patch->half_y * basis->point[j];
        for (size_t q = 0; q < figure->quantity_count; q++) {
            collapse(c + q * NN, ty, row[q]);
        }
        for (size_t i = 0; i < N; i++) {
            double tx = patch->x + patch->half_x * basis->point[i];
            IfigFields fields = {horner(row[0], tx), horner(row[1], tx), horner(row[2], tx),
                                 horner(row[3], tx), horner(row[4], tx), horner(row[5], tx),
                                 horner(row[6], tx)};
            IfigWave wave = ifig_wave(&fields, kind, per_h);
            n->turns[j * N + i] = wave.turns;
            n->even[j * N + i] = wave.even;
            n->cosine[j * N + i] = wave.cosine;
            n->sine[j * N + i] = wave.sine;
        }
    }
}

IFIG_INLINE void slopes(const IfigBasis *basis, Pixel pixel, const double *value, Slopes *s)
{
    ifig_basis_along_x(basis->slope, value, s->x);
    ifig_basis_along_y(basis->slope, value, s->y);
    ifig_basis_along_x(basis->bend, value, s->bend_x);
    ifig_basis_along_y(basis->bend, value, s->bend_y);
    for (size_t i = 0; i < NN; i++) {
        s->x[i] *= pixel.x;
        s->y[i] *= pixel.y;
        s->bend_x[i] *= pixel.x * pixel.x;
        s->bend_y[i] *= pixel.y * pixel.y;
    }
}

/* The mean over a pixel as in fringe_few.c. */
IFIG_INLINE void means(const IfigBasis *basis, Pixel pixel, const Slopes *t, int has_sine,
                       Nodes *restrict n)
{
    Slopes a, b, c;
    slopes(basis, pixel, n->even, &a);
    slopes(basis, pixel, n->cosine, &b);
    memset(&c, 0, sizeof c);
    if (has_sine) {
        slopes(basis, pixel, n->sine, &c);
    }
    for (size_t i = 0; i < NN; i++) {
        double sx = ifig_sinc_turns(t->x[i]), sy = ifig_sinc_turns(t->y[i]), left = sx * sy;
        double odd_x = ifig_odd_sinc_turns(t->x[i], sx) * sy;
        double odd_y = ifig_odd_sinc_turns(t->y[i], sy) * sx;
        n->lift[i] = (t->bend_x[i] + t->bend_y[i]) * (1.0 / 24.0);
        n->even_lift[i] = (a.bend_x[i] + a.bend_y[i]) * (1.0 / 24.0);
        n->re[i] = left * n->cosine[i];
        n->im[i] = -left * n->sine[i];
        n->more_re[i] =
            left * (b.bend_x[i] + b.bend_y[i]) * (1.0 / 24.0) + (c.x[i] * odd_x + c.y[i] * odd_y);
        n->more_im[i] =
            (b.x[i] * odd_x + b.y[i] * odd_y) - left * (c.bend_x[i] + c.bend_y[i]) * (1.0 / 24.0);
    }
}

/* Everything about one support, and the slopes of its phase. */
IFIG_CLONES
static void make_nodes(const IfigFigure *figure, const double *c, double per_h,
                       const IfigBasis *basis, const IfigPatch *patch, Pixel pixel, Slopes *t,
                       Nodes *n)
{
    if (figure->is_absorbing) {
        waves(figure, IFIG_FIELDS_ABSORBING, c, per_h, basis, patch, n);
    } else if (figure->is_complex) {
        waves(figure, IFIG_FIELDS_COMPLEX, c, per_h, basis, patch, n);
    } else {
        waves(figure, IFIG_FIELDS_REAL, c, per_h, basis, patch, n);
    }
    slopes(basis, pixel, n->turns, t);
    means(basis, pixel, t, figure->is_absorbing || figure->is_complex, n);
}

/* Whether some pixel must be taken apart, as fringe_few.c judges, with something to spare: what
 * lies between the nodes was not looked at. */
static int has_bent_pixels(const Nodes *n, const Slopes *t)
{
    for (size_t i = 0; i < NN; i++) {
        double bend_x = ifig_magnitude(t->bend_x[i]), bend_y = ifig_magnitude(t->bend_y[i]);
        double bend = bend_x > bend_y ? bend_x : bend_y;
        double steep = ifig_magnitude(t->x[i]) + ifig_magnitude(t->y[i]);
        double steepest = steep + 0.5 * (bend_x + bend_y);
        if ((n->turns[i] < 66.0 && bend > 0.2 && steep > 0.08) ||
            (steepest > 0.15 * n->turns[i] && steepest > 0.003)) {
            return 1;
        }
    }
    return 0;
}

/* Where the patch stands on the ladder. */
static void choose_rungs(const IfigCarrier *carrier, const double turns[NN], IfigPlain *plain)
{
    double least = turns[0], most = turns[0], c = carrier->ladder.coarse;
    double first = carrier->least_turns;
    for (size_t i = 1; i < NN; i++) {
        least = turns[i] < least ? turns[i] : least;
        most = turns[i] > most ? turns[i] : most;
    }
    double spare = 0.15 * (most - least) + 1e-3 * most;
    least -= spare;
    most += spare;
    plain->rungs = most < first                ? IFIG_RUNGS_NONE
                   : least > first && most < c ? IFIG_RUNGS_FOUR
                   : least >= 2.0 * c          ? IFIG_RUNGS_ONE
                                               : IFIG_RUNGS_MIXED;
}

/* Coefficients of value + more. */
static void fit(const IfigBasis *basis, const double *value, const double *more, float out[NN])
{
    double sum[NN];
    for (size_t i = 0; i < NN; i++) {
        sum[i] = value[i] + (more != NULL ? more[i] : 0.0);
    }
    ifig_basis_coefficients(basis, sum);
    for (size_t i = 0; i < NN; i++) {
        out[i] = (float)sum[i];
    }
}

/* Of one support what is left of its phase when the carrier is taken away. */
static void fit_away(const IfigCarrier *carrier, const Nodes *n, const Nodes *reference, size_t j,
                     int with_lift, IfigPlain *plain)
{
    double away[NN];
    size_t k = carrier->supports->sample[j];
    for (size_t i = 0; i < NN; i++) {
        double here = n->turns[i] + (with_lift ? n->lift[i] : 0.0);
        double there = reference->turns[i] + (with_lift ? reference->lift[i] : 0.0);
        away[i] = here - carrier->line.offset[k] - carrier->line.slope[k] * there;
    }
    fit(&carrier->basis, away, NULL, plain->away[j]);
}

/* All polynomials, with what the mean over a pixel adds or without. */
static void fit_all(const IfigCarrier *carrier, const Nodes *nodes, int with_mean, int has_sine,
                    IfigPlain *plain)
{
    const IfigBasis *basis = &carrier->basis;
    const IfigSupports *s = carrier->supports;
    const Nodes *reference = &nodes[s->reference];
    double even[3][NN] = {{0}};
    for (size_t i = 0; i < NN; i++) {
        plain->turns[i] = reference->turns[i] + (with_mean ? reference->lift[i] : 0.0);
    }
    ifig_basis_coefficients(basis, plain->turns);
    for (size_t j = 0; j < s->count; j++) {
        const Nodes *n = &nodes[j];
        for (size_t i = 0; i < NN; i++) {
            double a = n->even[i] + (with_mean ? n->even_lift[i] : 0.0);
            even[0][i] += s->even[j][0] * a;
            even[1][i] += s->even[j][1] * a;
            even[2][i] += s->even[j][2] * a;
        }
        fit_away(carrier, n, reference, j, with_mean, plain);
        fit(basis, n->re, with_mean ? n->more_re : NULL, plain->re[j]);
        if (with_mean || has_sine) {
            fit(basis, n->im, with_mean ? n->more_im : NULL, plain->im[j]);
        }
    }
    for (size_t i = 0; i < 3; i++) {
        fit(basis, even[i], NULL, plain->even[i]);
    }
}

static double value_at(const float c[NN], double p, double q)
{
    double value = 0;
    for (size_t j = N; j-- > 0;) {
        double row = 0;
        for (size_t i = N; i-- > 0;) {
            row = row * p + (double)c[j * N + i];
        }
        value = value * q + row;
    }
    return value;
}

/* Hold the polynomials, without what the mean adds, to the sum over all samples at a point. */
static int point_agrees(const IfigFigure *figure, IfigCarrier *carrier, const IfigPlain *plain,
                        int has_sine, double p, double q, const IfigCarrierPoint *point)
{
    const IfigSupports *s = carrier->supports;
    double row[N], turns;
    collapse(plain->turns, q, row);
    turns = horner(row, p);
    int32_t place = ifig_ladder_place(&carrier->ladder, carrier->least_turns, turns);
    const IfigRung *rung =
        place < carrier->ladder.count ? ifig_carrier_rung(figure, carrier, place) : NULL;
    double complex even[3], fringe[3];
    for (int i = 0; i < 3; i++) {
        even[i] = point->even_sum[i] - value_at(plain->even[i], p, q);
        fringe[i] = point->fringe_sum[i];
    }
    for (size_t j = 0; j < s->count && rung != NULL; j++) {
        size_t k = s->sample[j];
        double phase =
            carrier->line.slope[k] * (turns - ifig_ladder_turns(&carrier->ladder, place)) +
            value_at(plain->away[j], p, q) + (place > 0 ? 0.0 : carrier->line.offset[k]);
        double im = has_sine ? value_at(plain->im[j], p, q) : 0.0;
        double complex z = (value_at(plain->re[j], p, q) + I * im) *
                           (ifig_cosine_turns(phase) + I * ifig_sine_turns(phase));
        for (int i = 0; i < 3; i++) {
            fringe[i] -= ((double)rung[j][0][i] + I * (double)rung[j][1][i]) * z;
        }
    }
    return ifig_carrier_agrees(figure, point, even, fringe, place > 0);
}

static int points_agree(const IfigFigure *figure, IfigCarrier *carrier, const IfigPlain *plain,
                        int has_sine)
{
    for (size_t i = 0; i < carrier->point_count; i++) {
        const IfigCarrierPoint *point = &carrier->point[i];
        double p = (point->at[0] - plain->patch.x) / plain->patch.half_x;
        double q = (point->at[1] - plain->patch.y) / plain->patch.half_y;
        if (!point_agrees(figure, carrier, plain, has_sine, p, q, point)) {
            return 0;
        }
    }
    return 1;
}

/* Whether the imaginary parts add up to a hundredth of a level of 255, in the dark. */
static int needs_im(const IfigSupports *s, const Nodes *nodes)
{
    double most = 0;
    for (size_t i = 0; i < NN; i++) {
        double sum = 0;
        for (size_t j = 0; j < s->count; j++) {
            sum += ifig_magnitude(s->even[j][1]) *
                   ifig_magnitude(nodes[j].im[i] + nodes[j].more_im[i]);
        }
        most = sum > most ? sum : most;
    }
    return most * 3294.6 > 0.003;
}

/* Whether every phase stays within a quarter of a turn of its rung's: rungs by four stand an eighth
 * of a turn away at most. */
static int is_near(const IfigPlain *plain)
{
    float most = 0.0F;
    for (size_t j = 0; j < plain->count; j++) {
        float slope = plain->slope[j], sum = 0.126F * (slope < 0.0F ? -slope : slope);
        for (size_t i = 0; i < NN; i++) {
            float away = plain->away[j][i];
            sum += away < 0.0F ? -away : away;
        }
        most = sum > most ? sum : most;
    }
    return plain->rungs == IFIG_RUNGS_FOUR && most < 0.25F;
}

int ifig_plain_fit(const IfigFigure *figure, const IfigTile *tile, const IfigPatch *patch,
                   IfigCarrier *carrier, IfigPlainNodes *nodes, IfigPlain *plain)
{
    const IfigSupports *s = carrier->supports;
    Pixel pixel = {tile->pixel / patch->half_x, tile->pixel / patch->half_y};
    int has_sine = figure->is_complex || figure->is_absorbing;
    if (s->count > IFIG_PLAIN_SUPPORTS) {
        return 0;
    }
    plain->patch = *patch;
    plain->count = s->count;
    for (size_t i = 0; i < s->count; i++) {
        size_t j = (s->reference + i) % s->count; /* the reference first */
        Slopes t;
        double per_h = 2.0 * figure->thickness_nm[0] / figure->samples.wavelength_nm[s->sample[j]];
        make_nodes(figure, carrier->coefficient + j * figure->quantity_count * NN, per_h,
                   &carrier->basis, patch, pixel, &t, &nodes[j]);
        if (i == 0 && has_bent_pixels(&nodes[j], &t)) {
            return 0;
        }
        if (i == 0) {
            choose_rungs(carrier, nodes[j].turns, plain);
        }
        plain->slope[j] = (float)carrier->line.slope[s->sample[j]];
        plain->offset[j] = (float)carrier->line.offset[s->sample[j]];
    }
    fit_all(carrier, nodes, 0, has_sine, plain);
    if (!points_agree(figure, carrier, plain, has_sine)) {
        return 0;
    }
    plain->has_im = needs_im(s, nodes);
    fit_all(carrier, nodes, 1, has_sine, plain);
    plain->is_near = is_near(plain);
    return 1;
}
