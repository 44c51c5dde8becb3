/* SPDX-License-Identifier: MIT */
/* A first figure: quartz of 3 mm across its axis, as first_figure.png. */
#include <interfig/interfig.h>

#include <stdio.h>
#include <stdlib.h>

enum { SIDE = 512 };

static IfigStatus write_png(const char *path, const unsigned char *rgb, IfigError *error)
{
    IfigPngWriter *writer;
    IfigPngOptions options = IFIG_PNG_OPTIONS_INIT;
    options.width = options.height = SIDE;
    IfigStatus status = ifig_png_open(path, &options, &writer, error);
    if (status != IFIG_OK) {
        return status;
    }
    status = ifig_png_write_rows(writer, rgb, SIDE, error);
    if (status != IFIG_OK) {
        ifig_png_discard(writer);
        return status;
    }
    return ifig_png_close(writer, error);
}

int main(void)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigCatalogue *catalogue = NULL;
    IfigLamp *lamp = NULL;
    IfigFigure *figure = NULL;
    IfigLayer stone = IFIG_LAYER_INIT; /* 3 mm, the optic axis toward you */
    IfigScene scene = IFIG_SCENE_INIT; /* a glass ball on the stone, crossed polars */
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    unsigned char *rgb = malloc(3 * SIDE * SIDE);
    int done = 0;

    scene.layers = &stone;
    scene.layer_count = 1;
    options.pixels = SIDE;
    if (rgb != NULL && ifig_catalogue_create(&catalogue, &error) == IFIG_OK &&
        ifig_catalogue_find(catalogue, "quartz", &stone.species, &error) == IFIG_OK &&
        ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &lamp, &error) == IFIG_OK) {
        scene.lamp = lamp;
        done = ifig_figure_create(&scene, &options, &figure, &error) == IFIG_OK &&
               ifig_figure_render(figure, IFIG_PIXELS_SRGB8, 0, SIDE, rgb, &error) == IFIG_OK &&
               write_png("first_figure.png", rgb, &error) == IFIG_OK;
    }
    if (!done) {
        fprintf(stderr, "%s\n", rgb != NULL ? error.message : "no memory");
    }
    ifig_figure_free(figure);
    ifig_lamp_free(lamp);
    ifig_catalogue_free(catalogue);
    free(rgb);
    return done ? EXIT_SUCCESS : EXIT_FAILURE;
}
