/* SPDX-License-Identifier: MIT */
/* What the time of a figure depends on: not on how thick the stone is, on the size in proportion to
 * its pixels (both in processor time of two threads together), on threads as on as many hands (by
 * the clock on the wall). Ratios within one run; what is compared takes turns, so that another
 * program on the machine slows both. Medians of nine; of three at 8192 pixels. */
#include "bench.h"

#include <string.h>

enum { THICKNESSES = 4, SIZES = 6, THREADS = 2, MOST_PIXELS = 8192 };

typedef double Clock(void);

static double render_ms(const Bench *bench, uint32_t pixels, int threads, Clock *clock, void *rgb)
{
    const double start = clock();
    bench_render(bench, pixels, threads, rgb);
    return clock() - start;
}

static void thicknesses(const char *name, double stage_deg, void *rgb)
{
    static const double thickness_mm[THICKNESSES] = {0.03, 0.3, 3, 30};
    double values[THICKNESSES][BENCH_RUNS], least = 1e9, most = 0;
    for (int run = 0; run < BENCH_RUNS; run++) {
        for (int i = 0; i < THICKNESSES; i++) {
            Bench bench;
            bench_open(name, thickness_mm[i], stage_deg, &bench);
            values[i][run] = render_ms(&bench, 1024, 2, processor_ms, rgb);
            bench_close(&bench);
        }
    }
    printf("thickness  %-9s", name);
    for (int i = 0; i < THICKNESSES; i++) {
        const double ms = median(values[i], BENCH_RUNS);
        printf("  %g mm %.1f ms", thickness_mm[i], ms);
        least = ms < least ? ms : least;
        most = ms > most ? ms : most;
    }
    printf("  largest/smallest %.2f\n", most / least);
}

static void sizes(const char *name, double thickness_mm, double stage_deg, void *rgb)
{
    double reference = 0;
    Bench bench;
    bench_open(name, thickness_mm, stage_deg, &bench);
    printf("size       %-9s time a pixel over that at 1024:", name);
    for (int round = 0; round < SIZES; round++) {
        static const uint32_t order[SIZES] = {1024, 256, 512, 2048, 4096, MOST_PIXELS};
        const uint32_t pixels = order[round];
        const size_t runs = pixels == MOST_PIXELS ? 3 : BENCH_RUNS;
        double values[BENCH_RUNS], beside[BENCH_RUNS];
        for (size_t run = 0; run < runs; run++) {
            beside[run] = render_ms(&bench, 1024, 2, processor_ms, rgb);
            values[run] = render_ms(&bench, pixels, 2, processor_ms, rgb);
        }
        const double area = (double)pixels * pixels / (1024.0 * 1024.0);
        reference = median(beside, runs);
        printf("  %u: %.2f", pixels, median(values, runs) / area / reference);
        fflush(stdout);
    }
    printf("\n");
    bench_close(&bench);
}

static void threads(const char *name, double thickness_mm, double stage_deg, void *rgb)
{
    double values[THREADS][BENCH_RUNS];
    Bench bench;
    bench_open(name, thickness_mm, stage_deg, &bench);
    for (int run = 0; run < BENCH_RUNS; run++) {
        for (int i = 0; i < THREADS; i++) {
            values[i][run] = render_ms(&bench, 2048, i + 1, now_ms, rgb);
        }
    }
    const double one = median(values[0], BENCH_RUNS), two = median(values[1], BENCH_RUNS);
    printf("threads    %-9s 1: %.1f ms  2: %.1f ms  speed-up %.2f\n", name, one, two, one / two);
    bench_close(&bench);
}

int main(void)
{
    static const struct {
        const char *name;
        double thickness_mm, stage_deg;
    } stones[] = {{"topaz_f", 2, 40}, {"calcite", 1, 0}, {"quartz", 3, 0}};
    void *rgb = room((size_t)3 * MOST_PIXELS * MOST_PIXELS);
    memset(rgb, 0, (size_t)3 * MOST_PIXELS * MOST_PIXELS); /* no first touch within a measurement */
    for (size_t i = 0; i < sizeof stones / sizeof stones[0]; i++) {
        thicknesses(stones[i].name, stones[i].stage_deg, rgb);
        sizes(stones[i].name, stones[i].thickness_mm, stones[i].stage_deg, rgb);
        threads(stones[i].name, stones[i].thickness_mm, stones[i].stage_deg, rgb);
    }
    free(rgb);
    return 0;
}
