/* SPDX-License-Identifier: MIT */
/* A window of live tiles: muscovite at twelve turns of the stage, four tiles by three, as one raw
 * frame of 384 x 288 x 3 bytes on standard output. Each tile appears band by band, and a window
 * that is closed meanwhile stops the work within a tile's sixteenth. */
#include <interfig/interfig.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { TILE = 96, ACROSS = 4, DOWN = 3, WIDTH = TILE * ACROSS, HEIGHT = TILE * DOWN };

typedef struct Window {
    int is_open;
    unsigned char frame[HEIGHT][WIDTH][3];
} Window;

/* Called by the library now and then, from any of its threads, one at a time: 0 stops it. */
static int still_wanted(double share, void *context)
{
    const Window *window = context;
    (void)share; /* a window would draw its progress bar */
    return window->is_open;
}

/* Render a figure into its tile. A window would show each band as soon as it is copied. */
static IfigStatus draw_tile(const IfigScene *scene, Window *window, int tile, IfigError *error)
{
    static unsigned char band[TILE * TILE * 3];
    IfigFigure *figure;
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    options.pixels = TILE;
    options.progress = still_wanted;
    options.progress_context = window;
    IfigStatus status = ifig_figure_create(scene, &options, &figure, error);
    if (status != IFIG_OK) {
        return status;
    }
    uint32_t step = ifig_figure_band_rows(figure);
    for (uint32_t row = 0; row < TILE && status == IFIG_OK; row += step) {
        uint32_t rows = TILE - row < step ? TILE - row : step;
        status = ifig_figure_render(figure, IFIG_PIXELS_SRGB8, row, rows, band, error);
        for (uint32_t i = 0; i < rows && status == IFIG_OK; i++) {
            memcpy(window->frame[(uint32_t)(tile / ACROSS) * TILE + row + i][tile % ACROSS * TILE],
                   band + (size_t)i * TILE * 3, TILE * 3);
        }
    }
    ifig_figure_free(figure);
    return status;
}

int main(void)
{
    static Window window = {.is_open = 1};
    IfigError error = IFIG_ERROR_INIT;
    IfigCatalogue *catalogue = NULL;
    IfigLamp *lamp = NULL;
    IfigLayer stone = IFIG_LAYER_INIT;
    IfigScene scene = IFIG_SCENE_INIT;
    int done = 0;

    stone.thickness_mm = 0.1;
    scene.layers = &stone;
    scene.layer_count = 1;
    if (ifig_catalogue_create(&catalogue, &error) == IFIG_OK &&
        ifig_catalogue_find(catalogue, "muscovite", &stone.species, &error) == IFIG_OK &&
        ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &lamp, &error) == IFIG_OK) {
        scene.lamp = lamp;
        done = 1;
        for (int tile = 0; tile < ACROSS * DOWN && done; tile++) {
            stone.orientation.stage_deg = 7.5 * tile;
            done = draw_tile(&scene, &window, tile, &error) == IFIG_OK;
        }
    }
    if (done) {
        done = fwrite(window.frame, 1, sizeof window.frame, stdout) == sizeof window.frame;
    } else {
        fprintf(stderr, "%s\n", error.message);
    }
    ifig_lamp_free(lamp);
    ifig_catalogue_free(catalogue);
    return done ? EXIT_SUCCESS : EXIT_FAILURE;
}
