/* SPDX-License-Identifier: MIT */
/* A species of one's own, in two layers: two equal plates, the second turned by a right angle, undo
 * each other at the centre of the field and leave a dark cross between them. */
#include <interfig/interfig.h>

#include <stdio.h>
#include <stdlib.h>

static IfigStatus make_species(IfigSpecies **species, IfigError *error)
{
    IfigSpeciesRecord record = IFIG_SPECIES_RECORD_INIT; /* every number unknown */
    record.text[IFIG_TEXT_KEY] = "tern_harbour_blue";
    record.text[IFIG_TEXT_NAME] = "Blue stone of the evening class";
    record.text[IFIG_TEXT_SOURCE] = "measured in the evening class";
    record.facts.character = IFIG_BIAXIAL;
    record.facts.n[0] = 1.612;
    record.facts.n[1] = 1.620;
    record.facts.n[2] = 1.644;
    record.facts.dispersion_bg = 0.016; /* the other wavelengths by Cauchy's formula */
    return ifig_species_create(&record, species, error);
}

/* The share of light at the centre of the field, through the first layer or through both. */
static IfigStatus print_centre(const char *what, IfigScene scene, size_t layers, IfigError *error)
{
    IfigProbe probe;
    scene.layer_count = layers;
    IfigStatus status = ifig_probe(&scene, 0, 0, 0, &probe, error);
    if (status == IFIG_OK) {
        printf("%s: transmittance %.6f at %.1f nm, colour %.3f %.3f %.3f\n", what,
               probe.transmittance, probe.wavelength_nm, probe.srgb[0], probe.srgb[1],
               probe.srgb[2]);
    }
    return status;
}

int main(void)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigSpecies *species = NULL;
    IfigLamp *lamp = NULL;
    IfigLayer layer[2] = {IFIG_LAYER_INIT, IFIG_LAYER_INIT};
    IfigScene scene = IFIG_SCENE_INIT;
    int done = 0;

    if (make_species(&species, &error) == IFIG_OK &&
        ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &lamp, &error) == IFIG_OK) {
        for (int i = 0; i < 2; i++) {
            layer[i].species = species;
            layer[i].thickness_mm = 0.05;
            layer[i].orientation.stage_deg = 45.0 + 90.0 * i;
        }
        scene.layers = layer;
        scene.lamp = lamp;
        done = print_centre("one layer", scene, 1, &error) == IFIG_OK &&
               print_centre("two crossed layers", scene, 2, &error) == IFIG_OK;
    }
    if (!done) {
        fprintf(stderr, "%s\n", error.message);
    }
    ifig_lamp_free(lamp);
    ifig_species_free(species); /* no catalogue owns it */
    return done ? EXIT_SUCCESS : EXIT_FAILURE;
}
