/* SPDX-License-Identifier: MIT */
/* The weights of the supports for one rung of the ladder of retardations: see carrier.h. */
#include "carrier.h"

#include <string.h>

/* exp(2 pi i P_k) D_k for every sample; D_k from the carrier's step to the neighbours. */
IFIG_INLINE void damped_carrier(const IfigFigure *figure, const IfigCarrier *carrier, double turns,
                                double *restrict re, double *restrict im)
{
    size_t last = figure->samples.count - 1;
    const double *offset = carrier->offset, *slope = carrier->slope;
    for (size_t k = 0; k <= last; k++) {
        double phase = turns > 0.0 ? offset[k] + slope[k] * turns : 0.0;
        re[k] = ifig_cosine_turns(phase);
        im[k] = ifig_sine_turns(phase);
    }
    for (size_t k = 0; k <= last && turns > 0.0; k++) {
        size_t before = k > 0 ? k - 1 : k, behind = k < last ? k + 1 : k;
        double rise = offset[behind] - offset[before] + (slope[behind] - slope[before]) * turns;
        double step = rise / (double)(behind - before);
        double left = ifig_spline_of_sinc(ifig_sinc_turns(step), step);
        re[k] *= left;
        im[k] *= left;
    }
}

IFIG_CLONES
static void make_rung(const IfigFigure *figure, const IfigCarrier *carrier, double turns,
                      IfigRung rung)
{
    const IfigSupports *s = carrier->supports;
    double re[IFIG_SAMPLES_MOST], im[IFIG_SAMPLES_MOST];
    double sum_re[4 * IFIG_SUPPORTS_MAX] = {0}, sum_im[4 * IFIG_SUPPORTS_MAX] = {0};
    damped_carrier(figure, carrier, turns, re, im);
    for (size_t k = 0; k < figure->samples.count; k++) {
        const double *weight = s->weight + 4 * k * s->count;
        for (size_t i = 0; i < 4 * s->count; i++) {
            sum_re[i] += weight[i] * re[k];
            sum_im[i] += weight[i] * im[k];
        }
    }
    for (size_t j = 0; j < s->count; j++) {
        size_t k = s->sample[j];
        double phase = turns > 0.0 ? carrier->offset[k] + carrier->slope[k] * turns : 0.0;
        double c = ifig_cosine_turns(phase), d = ifig_sine_turns(phase);
        for (size_t i = 0; i < 4; i++) {
            rung[j][0][i] = (float)(sum_re[4 * j + i] * c + sum_im[4 * j + i] * d);
            rung[j][1][i] = (float)(sum_im[4 * j + i] * c - sum_re[4 * j + i] * d);
        }
    }
}

void ifig_ladder(const IfigFigure *figure, IfigLadder *ladder)
{
    double gone = IFIG_CARRIER_GONE_NM / figure->samples.step_nm;
    ladder->coarse = IFIG_CARRIER_COARSE_NM / figure->samples.step_nm;
    ladder->count = (int32_t)(6.0 * ladder->coarse + (gone - 2.0 * ladder->coarse));
}

/* The turns at which a rung stands: the inverse of ifig_ladder_place. */
static double rung_turns(const IfigLadder *ladder, int32_t place)
{
    double coarse = ladder->coarse;
    return place < 4.0 * coarse   ? place / 4.0
           : place < 6.0 * coarse ? coarse + (place - 4.0 * coarse) / 2.0
                                  : 2.0 * coarse + (place - 6.0 * coarse);
}

const IfigRung *ifig_carrier_make_rung(const IfigFigure *figure, IfigCarrier *carrier,
                                       int32_t place)
{
    make_rung(figure, carrier, rung_turns(&carrier->ladder, place), carrier->rung[place]);
    carrier->is_made[place] = 1;
    return (const IfigRung *)&carrier->rung[place];
}
