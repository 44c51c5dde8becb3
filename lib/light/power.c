/* SPDX-License-Identifier: MIT */
/* What a lamp says of itself. */
#include "lamp.h"

#include <math.h>

double ifig_lamp_power(const IfigLamp *lamp, double wavelength_nm)
{
    const size_t count = lamp != NULL ? lamp->count : 0;
    if (count == 0 || !(wavelength_nm >= lamp->wavelength_nm[0] &&
                        wavelength_nm <= lamp->wavelength_nm[count - 1])) {
        return 0.0;
    }
    size_t low = 0;
    size_t high = count - 1;
    while (high - low > 1) {
        const size_t middle = low + (high - low) / 2;
        if (lamp->wavelength_nm[middle] <= wavelength_nm) {
            low = middle;
        } else {
            high = middle;
        }
    }
    const double fraction = (wavelength_nm - lamp->wavelength_nm[low]) /
                            (lamp->wavelength_nm[high] - lamp->wavelength_nm[low]);
    return lamp->power[low] + fraction * (lamp->power[high] - lamp->power[low]);
}

double ifig_lamp_line_nm(const IfigLamp *lamp)
{
    return lamp != NULL ? lamp->line_nm : 0.0;
}

void ifig_lamp_white(const IfigLamp *lamp, double xyz[3])
{
    for (int i = 0; i < 3 && xyz != NULL; i++) {
        xyz[i] = lamp != NULL ? lamp->white[i] : NAN;
    }
}
