/* SPDX-License-Identifier: MIT */
#include "progress.h"

#include <stdio.h>
#include <unistd.h>

enum { BAR = 40 };

IfigCliClock ifig_cli_start_clock(uint32_t height, uint32_t frames)
{
    IfigCliClock clock = {.height = height, .frames = frames};
    clock_gettime(CLOCK_MONOTONIC, &clock.start);
    return clock;
}

static double seconds_since(const struct timespec *start)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)(now.tv_sec - start->tv_sec) + 1e-9 * (double)(now.tv_nsec - start->tv_nsec);
}

void ifig_cli_show_progress(IfigCliClock *clock, uint64_t rows_done)
{
    static const char full[] = "########################################";
    if (!isatty(STDERR_FILENO) || (!clock->is_shown && seconds_since(&clock->start) < 1.0)) {
        return;
    }
    clock->is_shown = 1;
    const double share = (double)rows_done / ((double)clock->height * clock->frames);
    const int filled = (int)(share * BAR);
    fprintf(stderr, "\rinterfig: [%.*s%*s] %3.0f %%", filled, full, BAR - filled, "",
            100.0 * share);
    if (clock->frames > 1) {
        fprintf(stderr, ", frame %u of %u", (unsigned)(rows_done / clock->height), clock->frames);
    }
    fflush(stderr);
}

void ifig_cli_end_progress(const IfigCliClock *clock)
{
    if (clock->is_shown) {
        fprintf(stderr, "\r%79s\r", "");
        fflush(stderr);
    }
}
