/* SPDX-License-Identifier: MIT */
/* What a program does with the libraries, each deed small enough to be broken at every allocation.
 */
#ifndef IFIG_FAULT_SCENARIOS_H
#define IFIG_FAULT_SCENARIOS_H

#include "interfig/interfig.h"

typedef struct Scenario Scenario;
struct Scenario {
    const char *name;
    IfigStatus (*run)(const Scenario *scenario); /* frees all it takes */
    int may_do_without; /* 1: a fault may be made good (stdio, asprintf, fewer threads) */
    int writes;         /* 1: writes scenario_file() */
    const char *key;    /* a species, a text */
    double thickness_mm, stress_mpa;
    int layers, circular, format, lamp, threads, frames, depth;
    IfigPattern pattern;
};

extern const Scenario scenarios[];
extern const size_t scenario_count;
/* Of stones without the lens, and of what tells two apart. */
extern const Scenario stone_scenarios[];
extern const size_t stone_scenario_count;

/* A folder of their own. */
void scenarios_open(void);
void scenarios_close(void);
/* 1 where the folder holds what it should after the scenario: the file, the same as after the first
 * run, or nothing. Empties it. */
int scenario_keeps_folder(const Scenario *scenario, IfigStatus status);

#endif
