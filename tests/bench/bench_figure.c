/* SPDX-License-Identifier: MIT */
/* How long a whole figure takes, beside a plain loop of the same shape, in one run on one machine:
 * milliseconds depend on the machine, their ratio hardly does. Medians of nine, two threads.
 *
 *   floor   1024 x 1024 pixels, 81 cosines and 3 x 81 multiply-adds each, as a compiler vectorises
 *           them; nothing else
 *   figure  1024 x 1024 pixels from species to 8-bit sRGB in memory: exact modes, faces,
 * dispersion, sphere lens, daylight */
#include "bench.h"

#include <pthread.h>

enum { PIXELS = 1024, WAVELENGTHS = 81, BLOCK = 256 };

/* cos(2 pi t), good to 1e-6, by the same reduction as the library's. */
static inline float cosine_turns(float t)
{
    float r = t - ((t + 12582912.0f) - 12582912.0f);
    float q = 0.25f - (r < 0 ? -r : r), x = q * 6.2831853f, y = x * x;
    return x *
           (1.0f + y * (-0.16666667f + y * (8.3333310e-3f + y * (-1.9840874e-4f + y * 2.7e-6f))));
}

__attribute__((target_clones("default", "arch=x86-64-v3", "arch=x86-64-v4"))) static void
floor_block(const float *phase, const float (*weight)[4], float (*sum)[BLOCK])
{
    for (int k = 0; k < WAVELENGTHS; k++) {
        for (int x = 0; x < BLOCK; x++) {
            float c = cosine_turns(phase[x] * weight[k][3]);
            sum[0][x] += weight[k][0] * c;
            sum[1][x] += weight[k][1] * c;
            sum[2][x] += weight[k][2] * c;
        }
    }
}

static void *floor_half(void *result)
{
    float phase[BLOCK], weight[WAVELENGTHS][4], total = 0;
    for (int k = 0; k < WAVELENGTHS; k++) {
        for (int i = 0; i < 4; i++) {
            weight[k][i] = 1.0f / (float)(k + i + 40);
        }
    }
    for (int block = 0; block < PIXELS * PIXELS / 2 / BLOCK; block++) {
        float sum[3][BLOCK] = {{0}};
        for (int x = 0; x < BLOCK; x++) {
            phase[x] = (float)(block + x);
        }
        floor_block(phase, (const float(*)[4])weight, sum);
        total += sum[0][block % BLOCK];
    }
    *(float *)result = total;
    return NULL;
}

static double floor_ms(void)
{
    float result[2];
    pthread_t thread;
    double start = now_ms();
    if (pthread_create(&thread, NULL, floor_half, &result[0]) != 0) {
        exit(71);
    }
    floor_half(&result[1]);
    pthread_join(thread, NULL);
    return now_ms() - start;
}

static double figure_ms(const char *name, double thickness_mm, double stage_deg, double tilt_deg,
                        void *rgb)
{
    Bench bench;
    double start = now_ms();
    bench_open(name, thickness_mm, stage_deg, &bench);
    bench.layer.orientation.tilt_deg = tilt_deg;
    bench_render(&bench, PIXELS, 2, rgb);
    bench_close(&bench);
    return now_ms() - start;
}

int main(void)
{
    static const struct {
        const char *name, *what;
        double thickness_mm, stage_deg, tilt_deg;
    } cases[] = {{"topaz_f", "biaxial, tilted, turned", 2, 40, 4},
                 {"topaz_f", "the same, not tilted: a half turn repeats it", 2, 40, 0},
                 {"titanite", "biaxial, monoclinic, strongly dispersed, tilted", 0.5, 45, 4.5},
                 {"calcite", "uniaxial: mirrors repeat it", 1, 0, 0},
                 {"calcite", "uniaxial, tilted: a mirror repeats it", 1, 0, 5},
                 {"calcite", "uniaxial, tilted, turned", 1, 40, 5},
                 {"quartz", "uniaxial, optically active: a half turn repeats it", 3, 0, 0},
                 {"quartz", "uniaxial, optically active, tilted, turned", 3, 40, 5},
                 {"calcite", "uniaxial, 30 mm: mirrors repeat it", 30, 0, 0},
                 {"calcite", "uniaxial, 30 mm, tilted, turned", 30, 40, 5}};
    double values[BENCH_RUNS];
    void *rgb = room((size_t)3 * PIXELS * PIXELS);
    for (int i = 0; i < BENCH_RUNS; i++) {
        values[i] = floor_ms();
    }
    double lowest = median(values, BENCH_RUNS);
    printf("floor_ms %.1f\n", lowest);
    for (size_t c = 0; c < sizeof cases / sizeof cases[0]; c++) {
        for (int i = 0; i < BENCH_RUNS; i++) {
            values[i] = figure_ms(cases[c].name, cases[c].thickness_mm, cases[c].stage_deg,
                                  cases[c].tilt_deg, rgb);
        }
        double figure = median(values, BENCH_RUNS);
        printf("figure_ms %.1f  ratio to floor %.2f  %s (%s)\n", figure, figure / lowest,
               cases[c].name, cases[c].what);
    }
    free(rgb);
    return 0;
}
