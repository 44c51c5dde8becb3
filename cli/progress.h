/* SPDX-License-Identifier: MIT */
/* How far a long job is, for a reader who waits at a terminal. */
#ifndef IFIG_CLI_PROGRESS_H
#define IFIG_CLI_PROGRESS_H

#include <stdint.h>
#include <time.h>

typedef struct IfigCliClock {
    struct timespec start;
    uint32_t height, frames; /* rows of a frame; frames in all */
    int is_shown;
} IfigCliClock;

IfigCliClock ifig_cli_start_clock(uint32_t height, uint32_t frames);
/* Show the rows done, on a terminal and once a second has gone by. */
void ifig_cli_show_progress(IfigCliClock *clock, uint64_t rows_done);
/* Take away what was shown. */
void ifig_cli_end_progress(const IfigCliClock *clock);

#endif
