/* SPDX-License-Identifier: MIT */
#include "fringe_bent.h"

#include <string.h>

/* Add a row of samples to the pixels that they belong to. */
IFIG_INLINE void add_samples(const IfigWaveRows *rows, const IfigBentWork *work, size_t parts,
                             size_t count, float *restrict even, float *restrict fringe)
{
    for (size_t x = 0; x < parts * count; x++) {
        even[x / parts] += mean_of_five(rows->above->even, rows->here->even, rows->below->even, x);
        fringe[x / parts] += work->re[x];
    }
}

IFIG_CLONES
static void bent_means(const IfigFigure *figure, const IfigCarrier *carrier, size_t j,
                       const IfigPixelRun *run, IfigBentWork *work, float *even, float *fringe)
{
    size_t parts = figure->bent_parts, samples = parts * run->count;
    double side = run->side / (double)parts, tx[WIDE];
    double top = run->ty + 0.5 * (run->side - side), left = run->tx - 0.5 * (run->side - side);
    float share = 1.0F / (float)(parts * parts);
    for (size_t x = 0; x < samples + 2; x++) {
        tx[x] = left + ((double)x - 1.0) * side;
    }
    memset(even, 0, run->count * sizeof *even);
    memset(fringe, 0, run->count * sizeof *fringe);
    memset(work->change.rung, 0, sizeof work->change.rung);
    wave_row(figure, carrier, j, tx, top + side, samples + 2, &work->row[0]);
    wave_row(figure, carrier, j, tx, top, samples + 2, &work->row[1]);
    for (size_t row = 0; row < parts; row++) {
        IfigWaveRow *below = &work->row[(row + 2) % 3];
        const IfigWaveRows rows = {&work->row[row % 3], &work->row[(row + 1) % 3], below};
        const IfigLine none = {0.0, 0.0};
        wave_row(figure, carrier, j, tx, top - (double)(row + 1) * side, samples + 2, below);
        int far = phase_changes(&rows, samples, 0.25F, &work->change);
        fringe_mean_of(figure, &rows, none, far, 1.0F, samples, &work->change, work->re, work->im);
        add_samples(&rows, work, parts, run->count, even, fringe);
    }
    for (size_t x = 0; x < run->count; x++) {
        even[x] *= share;
        fringe[x] *= share;
    }
}

void ifig_bent_means(const IfigFigure *figure, const IfigCarrier *carrier, size_t j,
                     const IfigPixelRun *run, IfigBentWork *work, float *even, float *fringe)
{
    bent_means(figure, carrier, j, run, work, even, fringe);
}
