/* SPDX-License-Identifier: MIT */
#include "polariscope.h"
#include "base.h"
IfigPattern ifig_pattern_of(const IfigTexture *texture, const IfigSpecies *species)
{
    IfigSpeciesFacts facts;
    ifig_species_facts(species, &facts, NULL);
    return texture->pattern != IFIG_PATTERN_USUAL ? texture->pattern
           : facts.character == IFIG_AGGREGATE    ? IFIG_PATTERN_GRAINS
                                                  : IFIG_PATTERN_PLAIN;
}
IfigStatus ifig_texture_check(const IfigTexture *texture, const IfigSpecies *species,
                              IfigError *error)
{
    (void)texture;
    (void)species;
    (void)error;
    return IFIG_OK;
}
IfigStatus ifig_stress_path(const IfigTexture *texture, double thickness_mm, double x, double y,
                            IfigStressPath *path, IfigError *error)
{
    (void)x;
    (void)y;
    (void)error;
    path->difference_mpa_mm = texture->stress_mpa * thickness_mm;
    path->azimuth_deg = 0;
    return IFIG_OK;
}
IfigStatus ifig_face_jones(const IfigScene *scene, const IfigTexture *texture, double x, double y,
                           const double *wavelength_nm, size_t count, IfigJonesXy *jones,
                           IfigError *error)
{
    unsigned place = (unsigned)((x + 1) * 30000) * 65536u + (unsigned)((y + 1) * 30000);
    return ifig_grain_stack(scene, texture, place, wavelength_nm, count, jones, error);
}
