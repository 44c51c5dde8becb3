/* SPDX-License-Identifier: MIT */
/* A row of pixels away from optic axes: see plain.h. */
#include "plain.h"

#include <string.h>

enum { LANES = 8, LEAST_TOGETHER = 6 };

enum { ROOM = MOST + LANES }; /* lanes beyond the last pixel are read, and come to nothing */

/* z exp(-2 pi i P_j(R_n)) of each support, A, and the rung, pixel by pixel. */
struct IfigPlainWork {
    float re[IFIG_PLAIN_SUPPORTS][ROOM], im[IFIG_PLAIN_SUPPORTS][ROOM];
    float even[3][ROOM], p[MOST], off_rung[MOST];
    int32_t place[MOST];
};

typedef float Floats __attribute__((vector_size(4 * LANES)));
typedef float Colour __attribute__((vector_size(16)));

size_t ifig_plain_work_size(void)
{
    return sizeof(IfigPlainWork);
}

/* Where the row's pixels stand on the ladder, and how far off their rungs, in turns. */
IFIG_INLINE void find_rungs(const IfigPlain *plain, const IfigCarrier *carrier, IfigRungs rungs,
                            double p0, double step, double q, size_t count,
                            IfigPlainWork *restrict w)
{
    const IfigLadder ladder = carrier->ladder;
    double row[N], least = carrier->least_turns;
    double per_turn = rungs == IFIG_RUNGS_FOUR ? 4.0 : rungs == IFIG_RUNGS_ONE ? 1.0 : 0.0;
    double turns_per_rung = rungs == IFIG_RUNGS_FOUR ? 0.25 : per_turn;
    int32_t first = rungs == IFIG_RUNGS_ONE ? (int32_t)(4.0 * ladder.coarse) : 0;
    collapse(plain->turns, q, row);
    for (size_t x = 0; x < count; x++) {
        double p = p0 + (double)(int32_t)x * step, within = p < 1.0 ? p : 1.0;
        double turns = horner(row, within), rung = ifig_nearest(turns * per_turn);
        int32_t place = rungs == IFIG_RUNGS_MIXED ? ifig_ladder_place(&ladder, least, turns)
                                                  : (int32_t)rung + first;
        double at =
            rungs == IFIG_RUNGS_MIXED ? ifig_ladder_turns(&ladder, place) : rung * turns_per_rung;
        w->p[x] = (float)within;
        w->off_rung[x] = (float)(turns - at);
        w->place[x] = place < ladder.count ? place : ladder.count;
    }
}

/* The fringe of one support. */
IFIG_INLINE void fringe(const IfigPlain *plain, size_t j, int has_im, int is_near, float q,
                        size_t count, IfigPlainWork *restrict w)
{
    float offset = plain->offset[j];
    const float shift = 12582912.0F; /* 1.5 x 2^23: adding it rounds */
    float away[N], re[N], im[N], slope = plain->slope[j];
    collapse_float(plain->away[j], q, away);
    collapse_float(plain->re[j], q, re);
    collapse_float(plain->im[j], q, im);
    for (size_t x = 0; x < count; x++) {
        float p = w->p[x], without = !is_near && w->place[x] == 0 ? offset : 0.0F;
        float turns = slope * w->off_rung[x] + horner_float(away, p) + without;
        float part = is_near ? turns : turns - ((turns + shift) - shift);
        float cosine = is_near ? ifig_cosine_quarter_part(part) : ifig_cosine_part(part);
        float sine = is_near ? ifig_sine_quarter_part(part) : ifig_sine_part(part);
        float real = horner_float(re, p);
        if (has_im) {
            float imaginary = horner_float(im, p);
            w->re[j][x] = real * cosine - imaginary * sine;
            w->im[j][x] = real * sine + imaginary * cosine;
        } else {
            w->re[j][x] = real * cosine;
            w->im[j][x] = real * sine;
        }
    }
}

IFIG_CLONES
static void prepare_row(const IfigPlain *plain, const IfigCarrier *carrier, double p0, double step,
                        double q, size_t count, IfigPlainWork *w)
{
    switch (plain->rungs) {
    case IFIG_RUNGS_NONE:
        find_rungs(plain, carrier, IFIG_RUNGS_NONE, p0, step, q, count, w);
        break;
    case IFIG_RUNGS_FOUR:
        find_rungs(plain, carrier, IFIG_RUNGS_FOUR, p0, step, q, count, w);
        break;
    case IFIG_RUNGS_ONE:
        find_rungs(plain, carrier, IFIG_RUNGS_ONE, p0, step, q, count, w);
        break;
    case IFIG_RUNGS_MIXED:
        find_rungs(plain, carrier, IFIG_RUNGS_MIXED, p0, step, q, count, w);
        break;
    }
    for (size_t i = 0; i < 3; i++) {
        float row[N];
        collapse_float(plain->even[i], (float)q, row);
        for (size_t x = 0; x < count; x++) {
            w->even[i][x] = horner_float(row, w->p[x]);
        }
    }
    for (size_t j = 0; j < plain->count; j++) {
        if (plain->has_im && plain->is_near) {
            fringe(plain, j, 1, 1, (float)q, count, w);
        } else if (plain->has_im) {
            fringe(plain, j, 1, 0, (float)q, count, w);
        } else {
            fringe(plain, j, 0, 0, (float)q, count, w);
        }
    }
}

/* A, and the fringes by the weights of one rung, of at most LANES pixels. */
IFIG_INLINE void colour_lanes(const IfigRung *rung, size_t supports, const IfigPlainWork *w,
                              size_t x, size_t lanes, float *const to[3])
{
    Floats light[3] = {{0}}, re, im;
    for (size_t j = 0; j < supports; j++) {
        memcpy(&re, &w->re[j][x], sizeof re);
        memcpy(&im, &w->im[j][x], sizeof im);
        for (size_t i = 0; i < 3; i++) {
            light[i] += re * rung[j][0][i] - im * rung[j][1][i];
        }
    }
    for (size_t i = 0; i < 3; i++) {
        Floats even;
        memcpy(&even, &w->even[i][x], sizeof even);
        even += light[i];
        memcpy(to[i] + x, &even, lanes * sizeof(float));
    }
}

/* The same of one pixel: X, Y and Z side by side. */
IFIG_INLINE void colour_pixel(const IfigRung *rung, size_t supports, const IfigPlainWork *w,
                              size_t x, float *const to[3])
{
    Colour light = {0}, re, im;
    for (size_t j = 0; j < supports; j++) {
        memcpy(&re, rung[j][0], sizeof re);
        memcpy(&im, rung[j][1], sizeof im);
        light += w->re[j][x] * re - w->im[j][x] * im;
    }
    for (size_t i = 0; i < 3; i++) {
        to[i][x] = w->even[i][x] + light[i];
    }
}

/* A, and the fringes by the weights of their rungs: pixels of one rung together. */
IFIG_CLONES
static void colour_row(const IfigFigure *figure, IfigCarrier *carrier, const IfigPlainWork *w,
                       size_t count, float *const to[3])
{
    size_t supports = carrier->supports->count;
    for (size_t x = 0, end = 0; x < count; x = end) {
        int32_t place = w->place[x];
        while (end < count && w->place[end] == place) {
            end++;
        }
        if (place >= carrier->ladder.count) {
            for (size_t i = 0; i < 3; i++) {
                memcpy(to[i] + x, &w->even[i][x], (end - x) * sizeof(float));
            }
            continue;
        }
        const IfigRung *rung = ifig_carrier_rung(figure, carrier, place);
        for (; x + LEAST_TOGETHER <= end; x += LANES) {
            colour_lanes(rung, supports, w, x, end - x < LANES ? end - x : LANES, to);
        }
        for (; x < end; x++) {
            colour_pixel(rung, supports, w, x, to);
        }
    }
}

void ifig_plain_row(const IfigFigure *figure, IfigCarrier *carrier, const IfigPlain *plain,
                    double tx0, double ty, double side, size_t count, IfigPlainWork *work,
                    IfigRowPlace to)
{
    const IfigPatch *patch = &plain->patch;
    double p0 = (tx0 - patch->x) / patch->half_x, q = (ty - patch->y) / patch->half_y;
    size_t padded = (count + 15) / 16 * 16;
    prepare_row(plain, carrier, p0, side / patch->half_x, q, padded, work);
    float *const planes[3] = {to.row->xyz[0] + to.column, to.row->xyz[1] + to.column,
                              to.row->xyz[2] + to.column};
    colour_row(figure, carrier, work, count, planes);
}
