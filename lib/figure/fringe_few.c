/* SPDX-License-Identifier: MIT */
/* The inner loop for squares whose colour a few wavelengths carry (carrier.h): A, B, C and the
 * phase at the centres of a row's pixels and their neighbours, the mean over each pixel
 * (support_row.h), and the weights of the pixel's rung. Changes of the phase are taken at the
 * reference support, and are slope_j times as large at support j (carrier.h), where the square's
 * test allows. Where there is no carrier the colour is a sum over supports of their own light: that
 * of a support whose axis is near is taken from finer samples (fringe_bent.c), the others' as it
 * is. */
#include "fringe_bent.h"

#include <string.h>

enum { MOST_J = IFIG_SUPPORTS_MAX };

/* Waves of all supports, and what their A add up to. */
typedef struct FewRow {
    IfigWaveRow wave[MOST_J];
    float even[3][WIDE];
} FewRow;

/* Means over each pixel: the real and imaginary part of z, and A. */
typedef struct MeanRow {
    float re[MOST_J][MOST], im[MOST_J][MOST], even[3][MOST];
} MeanRow;

struct IfigFewWork {
    double tx0, side; /* of the strip's first pixel centre; of a pixel */
    size_t count;
    FewRow row[3];
    IfigChange change;
    MeanRow mean;
    int32_t place[MOST], bent[MOST];      /* on the ladder; whether some support is bent */
    unsigned char own_bent[MOST_J][MOST]; /* which */
    IfigBentWork finer;
};

/* A row and its neighbours, all supports. */
typedef struct FewRows {
    const FewRow *above, *here, *below;
} FewRows;

/* X, Y, Z, (unused). */
typedef float Colour __attribute__((vector_size(16)));

size_t ifig_few_work_size(void)
{
    return sizeof(IfigFewWork);
}

static IfigWaveRows rows_of(const FewRows *rows, size_t j)
{
    return (IfigWaveRows){&rows->above->wave[j], &rows->here->wave[j], &rows->below->wave[j]};
}

IFIG_CLONES
static void prepare_row(const IfigFigure *figure, const IfigCarrier *carrier, double tx0, double ty,
                        double side, size_t count, FewRow *row)
{
    const IfigSupports *s = carrier->supports;
    size_t wide = count + 2;
    double tx[WIDE];
    for (size_t x = 0; x < wide; x++) {
        tx[x] = tx0 + ((double)x - 1.0) * side;
    }
    memset(row->even, 0, sizeof row->even);
    for (size_t j = 0; j < s->count; j++) {
        wave_row(figure, carrier, j, tx, ty, wide, &row->wave[j]);
        for (size_t i = 0; i < 3; i++) {
            float weight = (float)s->even[j][i];
            for (size_t x = 0; x < wide; x++) {
                row->even[i][x] += weight * row->wave[j].even[x];
            }
        }
    }
}

/* What the spectral kernel leaves of a sample's fringe: a rung has it in its weights. */
IFIG_INLINE float left_of_spectrum(const FewRow *here, size_t j, size_t supports, size_t x)
{
    size_t last = supports - 1, before = j > 0 ? j - 1 : j, after = j < last ? j + 1 : j;
    double part = after - before == 2 ? 0.5 : 1.0;
    double step = here->wave[after].turns[x + 1] - here->wave[before].turns[x + 1];
    return ifig_spline_part((float)(part * step));
}

/* Places on the ladder, and A; 1 where some fringe of the row can be seen. */
IFIG_INLINE int row_places(const IfigCarrier *carrier, const FewRows *rows, size_t count,
                           IfigFewWork *restrict work)
{
    const double *turns = rows->here->wave[carrier->supports->reference].turns;
    double least = carrier->least_turns;
    int32_t seen = 0;
    for (size_t x = 0; x < count; x++) {
        int32_t place = ifig_ladder_place(&carrier->ladder, least, turns[x + 1]);
        work->place[x] = place;
        work->change.rung[x] = ifig_ladder_turns(&carrier->ladder, place);
        seen |= place < carrier->ladder.count;
    }
    for (size_t i = 0; i < 3; i++) {
        float *restrict even = work->mean.even[i];
        for (size_t x = 0; x < count; x++) {
            even[x] =
                mean_of_five(rows->above->even[i], rows->here->even[i], rows->below->even[i], x);
        }
    }
    return seen;
}

/* Note which pixels are bent. */
IFIG_INLINE void note_bent(size_t count, size_t j, IfigFewWork *restrict work)
{
    for (size_t x = 0; x < count; x++) {
        work->bent[x] |= work->change.bent[x];
        work->own_bent[j][x] = work->change.bent[x] != 0;
    }
}

IFIG_CLONES
static void mean_row(const IfigFigure *figure, const IfigCarrier *carrier, const FewRows *rows,
                     size_t count, IfigFewWork *work)
{
    const IfigSupports *s = carrier->supports;
    IfigChange *change = &work->change;
    int seen = row_places(carrier, rows, count, work);
    const IfigWaveRows reference = rows_of(rows, s->reference);
    int far = phase_changes(&reference, count, 0.25F / (float)carrier->largest_slope, change);
    memset(work->bent, 0, sizeof work->bent);
    note_bent(count, s->reference, work);
    for (size_t j = 0; j < s->count && seen; j++) {
        const IfigWaveRows here = rows_of(rows, j);
        size_t k = s->sample[j];
        const IfigLine line = {carrier->line.offset[k], carrier->line.slope[k]};
        float slope = (float)line.slope, *re = work->mean.re[j], *im = work->mean.im[j];
        if (carrier->own_changes) {
            far = phase_changes(&here, count, 0.25F, change);
            slope = 1.0F;
            note_bent(count, j, work);
        }
        fringe_mean_of(figure, &here, line, far, slope, count, change, re, im);
        for (size_t x = 0; x < count && s->weight == NULL; x++) {
            float left = left_of_spectrum(rows->here, j, s->count, x);
            re[x] *= left;
            im[x] *= left;
        }
    }
}

/* A, and the fringes by the weights of their rungs. */
static void colour_row(const IfigFigure *figure, IfigCarrier *carrier, const IfigFewWork *work,
                       size_t count, IfigRowPlace to)
{
    size_t supports = carrier->supports->count;
    const MeanRow *mean = &work->mean;
    for (size_t x = 0; x < count; x++) {
        Colour sum = {mean->even[0][x], mean->even[1][x], mean->even[2][x], 0.0F};
        int32_t place = work->place[x];
        if (place < carrier->ladder.count) {
            const IfigRung *rung = ifig_carrier_rung(figure, carrier, place);
            for (size_t j = 0; j < supports; j++) {
                Colour re, im;
                memcpy(&re, rung[j][0], sizeof re);
                memcpy(&im, rung[j][1], sizeof im);
                sum += re * mean->re[j][x] - im * mean->im[j][x];
            }
        }
        for (int i = 0; i < 3; i++) {
            to.row->xyz[i][to.column + x] = sum[i];
        }
    }
}

/* Put the light of one support, from finer samples, in the place of what it was, in pixels first to
 * end of a row. */
static void put_finer(const IfigFigure *figure, const IfigCarrier *carrier, const FewRows *rows,
                      double ty, size_t j, size_t first, size_t end, IfigFewWork *work,
                      IfigRowPlace to)
{
    const IfigSupports *s = carrier->supports;
    const IfigWaveRows here = rows_of(rows, j);
    float even[MOST], fringe[MOST];
    const IfigPixelRun run = {work->tx0 + (double)first * work->side, ty, work->side, end - first};
    ifig_bent_means(figure, carrier, j, &run, &work->finer, even, fringe);
    for (size_t x = first; x < end; x++) {
        float left = s->weight == NULL ? left_of_spectrum(rows->here, j, s->count, x) : 1.0F;
        float was = mean_of_five(here.above->even, here.here->even, here.below->even, x) +
                    work->mean.re[j][x];
        float more = even[x - first] + left * fringe[x - first] - was;
        for (size_t i = 0; i < 3; i++) {
            to.row->xyz[i][to.column + x] += (float)s->even[j][i] * more;
        }
    }
}

/* Where a run of pixels ends that begins at x: those of one support that are bent and have no
 * carrier, no more than finer samples have room for. */
static size_t end_of_run(const IfigFewWork *work, size_t j, size_t x, size_t most)
{
    size_t end = x;
    while (end < work->count && end - x < most && work->own_bent[j][end] && work->place[end] == 0) {
        end++;
    }
    return end;
}

/* Every support where it is bent and there is no carrier. Such pixels are not bent any more. */
static void unbend(const IfigFigure *figure, const IfigCarrier *carrier, const FewRows *rows,
                   double ty, IfigFewWork *work, IfigRowPlace to)
{
    for (size_t j = 0; j < carrier->supports->count; j++) {
        size_t x = 0;
        while (x < work->count) {
            size_t end = end_of_run(work, j, x, MOST / figure->bent_parts);
            if (end > x) {
                put_finer(figure, carrier, rows, ty, j, x, end, work, to);
            }
            x = end > x ? end : x + 1;
        }
    }
    for (size_t x = 0; x < work->count; x++) {
        work->bent[x] &= work->place[x] != 0;
    }
}

void ifig_few_begin(const IfigFigure *figure, const IfigCarrier *carrier, double tx0, double ty,
                    double side, size_t count, IfigFewWork *work)
{
    work->tx0 = tx0;
    work->side = side;
    work->count = count;
    prepare_row(figure, carrier, tx0, ty + side, side, count, &work->row[0]);
    prepare_row(figure, carrier, tx0, ty, side, count, &work->row[1]);
}

void ifig_few_row(const IfigFigure *figure, IfigCarrier *carrier, double ty, size_t number,
                  IfigFewWork *work, IfigRowPlace to, unsigned char *bent)
{
    FewRow *below = &work->row[(number + 2) % 3];
    const FewRows rows = {&work->row[number % 3], &work->row[(number + 1) % 3], below};
    size_t count = work->count;
    prepare_row(figure, carrier, work->tx0, ty - work->side, work->side, count, below);
    mean_row(figure, carrier, &rows, count, work);
    colour_row(figure, carrier, work, count, to);
    if (bent == NULL) {
        return;
    }
    if (carrier->own_changes && figure->bent_parts > 1) {
        unbend(figure, carrier, &rows, ty, work, to);
    }
    for (size_t x = 0; x < count; x++) {
        bent[x] = work->bent[x] != 0;
    }
}
