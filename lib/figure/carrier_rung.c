/* SPDX-License-Identifier: MIT */
/* The weights of the supports for one rung of the ladder of retardations: see carrier.h. */
#include "carrier.h"
#include "fringe_row.h"

/* exp(2 pi i P_k) D_k for every sample, 0 beyond them. */
typedef struct Damped {
    float re[IFIG_SAMPLES_PADDED], im[IFIG_SAMPLES_PADDED];
} Damped;

/* D_k from the carrier's step to the neighbours. Phases need double precision, where a large number
 * of turns is formed; after that no digit beyond a float's is seen. */
IFIG_INLINE void damped_carrier(const IfigCarrier *carrier, size_t count, double turns,
                                Damped *restrict damped)
{
    const double *restrict offset = carrier->line.offset, *restrict slope = carrier->line.slope;
    double phase[IFIG_SAMPLES_PADDED] = {0}, step[IFIG_SAMPLES_PADDED];
    for (size_t k = 0; k < count; k++) {
        phase[k] = offset[k] + slope[k] * turns;
    }
    ifig_carrier_steps(phase, count, step);
    for (size_t k = 0; k < count; k++) {
        float part = (float)(phase[k] - ifig_nearest(phase[k])),
              left = ifig_spline_part((float)step[k]);
        damped->re[k] = left * ifig_cosine_part(part);
        damped->im[k] = left * ifig_sine_part(part);
    }
}

_Static_assert(IFIG_LANES == 2 * N, "the sums below");

IFIG_INLINE float sum_of_lanes(const IfigFloats *one, const IfigFloats *two)
{
    IfigFloats sum = *one + *two;
    return ((sum[0] + sum[4]) + (sum[2] + sum[6])) + ((sum[1] + sum[5]) + (sum[3] + sum[7]));
}

/* One support's weights by X, Y or Z times the carrier of every sample, in lanes whose order is the
 * same on every machine. */
IFIG_INLINE void sum_products(const float *weight, const Damped *damped, size_t padded, float *re,
                              float *im)
{
    IfigFloats re_one = {0}, re_two = {0}, im_one = {0}, im_two = {0}, w, v;
    for (size_t k = 0; k < padded; k += 2 * N) {
        ifig_read_floats(weight + k, &w);
        ifig_read_floats(damped->re + k, &v);
        re_one += w * v;
        ifig_read_floats(damped->im + k, &v);
        im_one += w * v;
        ifig_read_floats(weight + k + N, &w);
        ifig_read_floats(damped->re + k + N, &v);
        re_two += w * v;
        ifig_read_floats(damped->im + k + N, &v);
        im_two += w * v;
    }
    *re = sum_of_lanes(&re_one, &re_two);
    *im = sum_of_lanes(&im_one, &im_two);
}

IFIG_CLONES
static void make_rung(const IfigFigure *figure, const IfigCarrier *carrier, double turns,
                      IfigRung *rung)
{
    const IfigSupports *s = carrier->supports;
    size_t count = figure->samples.count;
    size_t padded = (count + IFIG_LANES - 1) / IFIG_LANES * IFIG_LANES;
    Damped damped;
    damped_carrier(carrier, count, turns, &damped);
    for (size_t k = count; k < padded; k++) {
        damped.re[k] = damped.im[k] = 0.0F;
    }
    for (size_t j = 0; j < s->count; j++) {
        for (size_t i = 0; i < 3; i++) {
            sum_products(s->weight + (3 * j + i) * IFIG_SAMPLES_PADDED, &damped, padded,
                         &rung[j][0][i], &rung[j][1][i]);
        }
        rung[j][0][3] = rung[j][1][3] = 0.0F;
    }
}

/* Where there is no carrier: the polynomials through the supports alone. */
static void plain_rung(const IfigSupports *s, IfigRung *rung)
{
    for (size_t j = 0; j < s->count; j++) {
        for (size_t i = 0; i < 4; i++) {
            rung[j][0][i] = i < 3 ? (float)s->even[j][i] : 0.0F;
            rung[j][1][i] = 0.0F;
        }
    }
}

void ifig_ladder(const IfigFigure *figure, IfigLadder *ladder)
{
    double gone = IFIG_CARRIER_GONE_NM / figure->samples.step_nm;
    ladder->coarse = IFIG_CARRIER_COARSE_NM / figure->samples.step_nm;
    ladder->count = (int32_t)(6.0 * ladder->coarse + (gone - 2.0 * ladder->coarse));
}

const IfigRung *ifig_carrier_make_rung(const IfigFigure *figure, IfigCarrier *carrier,
                                       int32_t place)
{
    IfigRung *rung = carrier->line.rung + (size_t)place * carrier->supports->count;
    if (place == 0) {
        plain_rung(carrier->supports, rung);
    } else {
        make_rung(figure, carrier, ifig_ladder_turns(&carrier->ladder, place), rung);
    }
    carrier->line.is_made[place] = 1;
    return (const IfigRung *)rung;
}
