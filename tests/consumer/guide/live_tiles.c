/* SPDX-License-Identifier: MIT */
/* A window of live tiles: muscovite, 512 x 512 pixels, rendered tile by tile from the centre
 * outward, each shown as soon as it is done. The window is a raw frame of 512 x 512 x 3 bytes,
 * written to standard output at the end; each tile is told on standard error. A number as argument
 * closes the window when so many tiles are shown: that stops the work within a tile. */
#include <interfig/interfig.h>

#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SIZE = 512, MOST_TILES = 4096, GREY = 128 };

typedef struct Window {
    atomic_int is_open; /* the library asks from threads of its own */
    int shown, most;
    unsigned char frame[SIZE][SIZE][3];
} Window;

/* Called by the library now and then, from any of its threads, one at a time: 0 stops it. */
static int still_wanted(double share, void *context)
{
    Window *window = context;
    (void)share; /* of the tile that is being rendered */
    return atomic_load(&window->is_open);
}

/* A tile has come: a real window would draw it. */
static void show(Window *window, const IfigRectangle *tile, const unsigned char *rgb)
{
    for (size_t row = 0; row < tile->height; row++) {
        memcpy(window->frame[tile->top + row][tile->left], rgb + row * tile->width * 3,
               tile->width * (size_t)3);
    }
    fprintf(stderr, "%u %u\n", (unsigned)tile->left, (unsigned)tile->top);
    if (++window->shown == window->most) {
        atomic_store(&window->is_open, 0);
    }
}

/* How far a tile's middle lies from the picture's, squared, in half pixels. */
static long distance(const IfigRectangle *tile)
{
    long x = 2L * (long)tile->left + (long)tile->width - SIZE;
    long y = 2L * (long)tile->top + (long)tile->height - SIZE;
    return x * x + y * y;
}

static int nearer(const void *a, const void *b)
{
    const long first = distance(a), second = distance(b);
    return (first > second) - (first < second);
}

/* Cut the picture into tiles, nearest the centre first. Each holds two by two of the squares that
 * the library computes at once, so that there is work for four threads. */
static size_t cut(const IfigFigure *figure, IfigRectangle *tiles)
{
    const uint32_t side = 2 * ifig_figure_band_rows(figure);
    size_t count = 0;
    for (uint32_t top = 0; top < SIZE; top += side) {
        for (uint32_t left = 0; left < SIZE && count < MOST_TILES; left += side) {
            tiles[count++] = (IfigRectangle){left, top, SIZE - left < side ? SIZE - left : side,
                                             SIZE - top < side ? SIZE - top : side};
        }
    }
    qsort(tiles, count, sizeof *tiles, nearer);
    return count;
}

static IfigStatus render_tiles(const IfigFigure *figure, Window *window, IfigError *error)
{
    static IfigRectangle tiles[MOST_TILES];
    static unsigned char rgb[SIZE * SIZE * 3]; /* no tile needs more */
    const size_t count = cut(figure, tiles);
    IfigStatus status = IFIG_OK;
    for (size_t i = 0; i < count && status == IFIG_OK; i++) {
        status = ifig_figure_render_rectangle(figure, IFIG_PIXELS_SRGB8, &tiles[i], rgb, error);
        if (status == IFIG_OK) {
            show(window, &tiles[i], rgb);
        }
    }
    return status;
}

static IfigStatus render_scene(const IfigScene *scene, Window *window, IfigError *error)
{
    IfigFigure *figure;
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    options.pixels = SIZE;
    options.progress = still_wanted;
    options.progress_context = window;
    IfigStatus status = ifig_figure_create(scene, &options, &figure, error);
    if (status == IFIG_OK) {
        status = render_tiles(figure, window, error);
        ifig_figure_free(figure);
    }
    return status;
}

int main(int argc, char **argv)
{
    static Window window;
    IfigError error = IFIG_ERROR_INIT;
    IfigCatalogue *catalogue = NULL;
    IfigLamp *lamp = NULL;
    IfigLayer stone = IFIG_LAYER_INIT;
    IfigScene scene = IFIG_SCENE_INIT;
    IfigStatus status;

    atomic_init(&window.is_open, 1);
    window.most = argc > 1 ? atoi(argv[1]) : 0;
    memset(window.frame, GREY, sizeof window.frame);
    stone.thickness_mm = 0.1;
    stone.orientation.stage_deg = 30.0;
    scene.layers = &stone;
    scene.layer_count = 1;
    status = ifig_catalogue_create(&catalogue, &error);
    if (status == IFIG_OK) {
        status = ifig_catalogue_find(catalogue, "muscovite", &stone.species, &error);
    }
    if (status == IFIG_OK) {
        status = ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &lamp, &error);
    }
    if (status == IFIG_OK) {
        scene.lamp = lamp;
        status = render_scene(&scene, &window, &error);
    }
    ifig_lamp_free(lamp);
    ifig_catalogue_free(catalogue);
    if (status != IFIG_OK && status != IFIG_ERROR_CANCELLED) { /* closed: no failure */
        fprintf(stderr, "%s\n", error.message);
        return EXIT_FAILURE;
    }
    return fwrite(window.frame, 1, sizeof window.frame, stdout) == sizeof window.frame
               ? EXIT_SUCCESS
               : EXIT_FAILURE;
}
