/* SPDX-License-Identifier: MIT */
#include "lamp.h"

void ifig_colour_matching(double wavelength_nm, double xyz[3])
{
    const double place = wavelength_nm - IFIG_OBSERVER_FIRST_NM;
    const int inside = place >= 0 && place <= IFIG_OBSERVER_COUNT - 1; /* not a NaN either */
    size_t row = inside ? (size_t)place : 0;
    if (row > IFIG_OBSERVER_COUNT - 2) {
        row = IFIG_OBSERVER_COUNT - 2;
    }
    const double fraction = place - (double)row;
    for (int i = 0; i < 3 && xyz != NULL; i++) {
        const double before = ifig_observer_table[row][i];
        const double after = ifig_observer_table[row + 1][i];
        xyz[i] = inside ? before + fraction * (after - before) : 0.0;
    }
}
