/* SPDX-License-Identifier: MIT */
/* Lamp x observer, integrated exactly against cubic B-splines. Between neighbouring knots of the
 * lamp, of the observer (1 nm) and of the B-splines (whole nm too) the integrand is a polynomial of
 * degree 1 + 1 + 3 = 5, for which the Gauss-Legendre rule of three points is exact (Abramowitz and
 * Stegun 1964, table 25.4): a line of a measured lamp keeps its energy however narrow it is. */
#include "lamp.h"

#include <math.h>
#include <string.h>

/* Offsets from the middle, in half lengths: sqrt(3/5). Weights add to 1. */
static const double gauss_offset[3] = {-0.77459666924148337704, 0.0, 0.77459666924148337704};
static const double gauss_weight[3] = {5.0 / 18.0, 8.0 / 18.0, 5.0 / 18.0};

/* The greatest power in the visible. Dividing by it keeps a spectrum in any unit within doubles. */
static double greatest_power(const IfigLamp *lamp)
{
    double most = fmax(ifig_lamp_power(lamp, IFIG_VISIBLE_FIRST_NM),
                       ifig_lamp_power(lamp, IFIG_VISIBLE_LAST_NM));
    for (size_t k = 0; k < lamp->count; k++) {
        if (lamp->wavelength_nm[k] >= IFIG_VISIBLE_FIRST_NM &&
            lamp->wavelength_nm[k] <= IFIG_VISIBLE_LAST_NM) {
            most = fmax(most, lamp->power[k]);
        }
    }
    return most;
}

/* The four cubic B-splines that overlap a cell, at `t` of its length, from the left one on. */
static void spline_values(double t, double value[4])
{
    const double u = 1.0 - t;
    value[0] = u * u * u / 6.0;
    value[1] = 2.0 / 3.0 - t * t * (2.0 - t) / 2.0;
    value[2] = 2.0 / 3.0 - u * u * (2.0 - u) / 2.0;
    value[3] = t * t * t / 6.0;
}

/* The power on [start, end], a stretch of the lamp's spectrum without a knot inside. */
typedef struct Stretch {
    double start;
    double end;
    double start_power;
    double end_power;
} Stretch;

/* Add the stretch, which lies in the cell after sample `cell`, to the moments of its B-splines. */
static void add_stretch(Stretch s, size_t step_nm, size_t cell, double (*moment)[3])
{
    const double cell_start = IFIG_VISIBLE_FIRST_NM + (double)(cell * step_nm);
    for (int j = 0; j < 3; j++) {
        const double place = (1.0 + gauss_offset[j]) / 2.0; /* 0 to 1 along the stretch */
        const double wavelength = s.start + place * (s.end - s.start);
        const double energy = gauss_weight[j] * (s.end - s.start) *
                              (s.start_power + place * (s.end_power - s.start_power));
        double spline[4];
        double observer[3];
        spline_values((wavelength - cell_start) / (double)step_nm, spline);
        ifig_colour_matching(wavelength, observer);
        for (size_t m = 0; m < 4; m++) {
            for (int i = 0; i < 3; i++) {
                moment[cell + m][i] += energy * spline[m] * observer[i];
            }
        }
    }
}

/* The lamp's power between knots k and k + 1, at a wavelength there. */
static double power_between(const IfigLamp *lamp, size_t k, double wavelength_nm)
{
    const double fraction = (wavelength_nm - lamp->wavelength_nm[k]) /
                            (lamp->wavelength_nm[k + 1] - lamp->wavelength_nm[k]);
    return lamp->power[k] + fraction * (lamp->power[k + 1] - lamp->power[k]);
}

void ifig_spline_moments(const IfigLamp *lamp, size_t step_nm, size_t count, double (*moment)[3])
{
    memset(moment, 0, (count + 2) * sizeof *moment);
    const double unit = greatest_power(lamp);
    if (!(unit > 0)) {
        return;
    }
    for (size_t k = 0; k + 1 < lamp->count; k++) {
        double start = fmax(lamp->wavelength_nm[k], IFIG_VISIBLE_FIRST_NM);
        const double last = fmin(lamp->wavelength_nm[k + 1], IFIG_VISIBLE_LAST_NM);
        while (start < last) {
            const double end = fmin(floor(start) + 1.0, last);
            const size_t cell = (size_t)(start - IFIG_VISIBLE_FIRST_NM) / step_nm;
            const Stretch stretch = {start, end, power_between(lamp, k, start) / unit,
                                     power_between(lamp, k, end) / unit};
            add_stretch(stretch, step_nm, cell, moment);
            start = end;
        }
    }
}
