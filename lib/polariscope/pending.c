/* SPDX-License-Identifier: MIT */
/* Stands in for grains.c. */
#include "texture.h"

#include "base.h"

IfigStatus ifig_grain_stack(const IfigScene *scene, const IfigTexture *texture, unsigned place,
                            const double *wavelength_nm, size_t count, IfigJonesXy *jones,
                            IfigError *error)
{
    (void)scene;
    (void)texture;
    (void)place;
    (void)wavelength_nm;
    (void)count;
    (void)jones;
    return ifig_fail(error, IFIG_ERROR_UNSUITABLE, "grains are not there yet");
}

IfigStatus ifig_grain_facts(const IfigSpecies *species, double *grain_mm, double *birefringence,
                            IfigError *error)
{
    (void)species;
    (void)error;
    *grain_mm = *grain_mm > 0.0 ? *grain_mm : 0.05;
    *birefringence = 0.01;
    return IFIG_OK;
}
