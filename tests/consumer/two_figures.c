/* SPDX-License-Identifier: MIT */
/* A stranger's program in C: quartz of 3 mm and a tilted sheet of muscovite, 128 pixels each, as
 * raw RGB on standard output. */
#include <interfig/interfig.h>

#include <stdio.h>
#include <string.h>

enum { SIDE = 128 };

static IfigStatus write_figure(const IfigLayer *stone, const IfigLamp *lamp, IfigError *error)
{
    static unsigned char rgb[3 * SIDE * SIDE];
    IfigFigure *figure = NULL;
    IfigScene scene = IFIG_SCENE_INIT;
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    scene.layers = stone;
    scene.layer_count = 1;
    scene.lamp = lamp;
    options.pixels = SIDE;
    IfigStatus status = ifig_figure_create(&scene, &options, &figure, error);
    if (status == IFIG_OK) {
        status = ifig_figure_render(figure, IFIG_PIXELS_SRGB8, 0, SIDE, rgb, error);
    }
    if (status == IFIG_OK && fwrite(rgb, 1, sizeof rgb, stdout) != sizeof rgb) {
        status = error->status = IFIG_ERROR_IO;
        strcpy(error->message, "standard output cannot be written");
    }
    ifig_figure_free(figure);
    return status;
}

int main(void)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigCatalogue *catalogue = NULL;
    IfigLamp *lamp = NULL;
    IfigLayer quartz = IFIG_LAYER_INIT, muscovite = IFIG_LAYER_INIT;
    muscovite.thickness_mm = 0.1;
    muscovite.orientation.tilt_deg = 20;
    muscovite.orientation.tilt_azimuth_deg = 30;
    muscovite.orientation.stage_deg = 45;
    int done = ifig_catalogue_create(&catalogue, &error) == IFIG_OK &&
               ifig_catalogue_find(catalogue, "quartz", &quartz.species, &error) == IFIG_OK &&
               ifig_catalogue_find(catalogue, "muscovite", &muscovite.species, &error) == IFIG_OK &&
               ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &lamp, &error) == IFIG_OK &&
               write_figure(&quartz, lamp, &error) == IFIG_OK &&
               write_figure(&muscovite, lamp, &error) == IFIG_OK;
    if (!done) {
        fprintf(stderr, "%s\n", error.message);
    }
    ifig_lamp_free(lamp);
    ifig_catalogue_free(catalogue);
    return done ? 0 : 1;
}
