/* SPDX-License-Identifier: MIT */
/* Retardation along a line: from the south-west rim of the picture to the north-east, as values
 * separated by commas on standard output. The stone is a sheet of muscovite of 0.1 mm whose optic
 * axes lie on that line: there the retardation falls to nothing. */
#include <interfig/interfig.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { STEPS = 100 };

static IfigStatus print_line(const IfigScene *scene, IfigError *error)
{
    IfigStatus status = IFIG_OK;
    printf("radius,theta_deg,phi_deg,retardation_nm,transmittance\n");
    for (int i = 0; i <= STEPS && status == IFIG_OK; i++) {
        double radius = 2.0 * i / STEPS - 1.0, x = radius * sqrt(0.5), theta_deg, phi_deg;
        IfigProbe probe;
        status = ifig_instrument_direction(&scene->instrument, x, x, &theta_deg, &phi_deg, error);
        if (status == IFIG_OK) {
            status = ifig_probe(scene, theta_deg, phi_deg, 589.3, &probe, error);
        }
        if (status == IFIG_OK) {
            printf("%.2f,%.3f,%.1f,%.3f,%.6f\n", radius, theta_deg, phi_deg,
                   probe.wave.retardation_nm, probe.transmittance);
        }
    }
    return status;
}

int main(void)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigCatalogue *catalogue = NULL;
    IfigLamp *lamp = NULL;
    IfigLayer stone = IFIG_LAYER_INIT;
    IfigScene scene = IFIG_SCENE_INIT;
    int done = 0;

    stone.thickness_mm = 0.1;
    stone.orientation.stage_deg = 45;
    scene.layers = &stone;
    scene.layer_count = 1;
    if (ifig_catalogue_create(&catalogue, &error) == IFIG_OK &&
        ifig_catalogue_find(catalogue, "muscovite", &stone.species, &error) == IFIG_OK &&
        ifig_lamp_create_line(589.3, &lamp, &error) == IFIG_OK) {
        scene.lamp = lamp;
        done = print_line(&scene, &error) == IFIG_OK;
    }
    if (!done) {
        fprintf(stderr, "%s\n", error.message);
    }
    ifig_lamp_free(lamp);
    ifig_catalogue_free(catalogue);
    return done ? EXIT_SUCCESS : EXIT_FAILURE;
}
