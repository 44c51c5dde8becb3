/* SPDX-License-Identifier: MIT */
/* The optics alone of what programs.py times whole, in memory, as the library computes them: one
 * line a task, its name and milliseconds. Medians of nine, two threads. */
#include "bench.h"

#include <string.h>

enum { TURN_FRAMES = 37, TURN_PIXELS = 512, MOST_PIXELS = 4096 };

typedef void Task(const Bench *bench, void *rgb);

static void figure(const Bench *bench, void *rgb)
{
    bench_render(bench, 1024, 2, rgb);
}

/* As `interfig turn`: a quarter turn of the stage. */
static void turn(const Bench *bench, void *rgb)
{
    Bench turned = *bench;
    turned.scene.layers = &turned.layer;
    for (int frame = 0; frame < TURN_FRAMES; frame++) {
        turned.layer.orientation.stage_deg = 90.0 * frame / (TURN_FRAMES - 1);
        bench_render(&turned, TURN_PIXELS, 2, rgb);
    }
}

static void hunt(const Bench *bench, void *rgb)
{
    IfigHunt found = IFIG_HUNT_INIT;
    IfigPageOptions page = IFIG_PAGE_OPTIONS_INIT;
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigError error = IFIG_ERROR_INIT;
    options.pixels = ifig_page_hunt_pixels(&page);
    options.threads = 2;
    fail_on(ifig_hunt(&bench->scene, &found, &error), &error);
    fail_on(ifig_hunt_map(&bench->scene, &options, rgb, &error), &error);
}

static void blink(const Bench *bench, void *rgb)
{
    Bench away = *bench;
    IfigTexture texture = IFIG_TEXTURE_INIT;
    IfigBlink seen = IFIG_BLINK_INIT;
    IfigError error = IFIG_ERROR_INIT;
    away.scene.layers = &away.layer;
    away.scene.instrument.lens = IFIG_LENS_NONE;
    away.layer.orientation.view = IFIG_VIEW_X;
    (void)rgb;
    fail_on(ifig_blink(&away.scene, &texture, &seen, &error), &error);
}

int main(void)
{
    static const struct {
        const char *name;
        Task *task;
    } tasks[] = {{"figure", figure}, {"turn", turn}, {"hunt", hunt}, {"blink", blink}};
    void *rgb = room((size_t)3 * MOST_PIXELS * MOST_PIXELS);
    memset(rgb, 0, (size_t)3 * MOST_PIXELS * MOST_PIXELS); /* no first touch in a measurement */
    for (size_t i = 0; i < sizeof tasks / sizeof tasks[0]; i++) {
        double values[BENCH_RUNS];
        for (int run = 0; run < BENCH_RUNS; run++) {
            Bench bench;
            const double start = now_ms();
            bench_open("quartz", 3, 0, &bench);
            tasks[i].task(&bench, rgb);
            bench_close(&bench);
            values[run] = now_ms() - start;
        }
        printf("%s %.3f\n", tasks[i].name, median(values, BENCH_RUNS));
    }
    free(rgb);
    return 0;
}
