/* SPDX-License-Identifier: MIT */
/* A scenario's stone, lamp and scene. */
#ifndef IFIG_FAULT_BENCH_H
#define IFIG_FAULT_BENCH_H

#include "scenarios.h"

/* All that a picture needs, taken and given back. */
typedef struct Bench {
    IfigCatalogue *catalogue;
    IfigLamp *lamp;
    IfigLayer layer[IFIG_LAYERS_MAX];
    IfigScene scene;
} Bench;

IfigStatus bench_lamp(int kind, IfigLamp **lamp);
/* Whatever it returns, bench_take_down gives back what was taken. */
IfigStatus bench_set_up(const Scenario *scenario, Bench *bench);
void bench_take_down(Bench *bench);

#endif
