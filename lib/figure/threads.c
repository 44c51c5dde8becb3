/* SPDX-License-Identifier: MIT */
/* Work dealt out to threads. Threads live for one call: nothing is left behind that a fork or an
 * unloaded library could trip over. */
#include "figure.h"

#include "posix_threads.h"

enum { MOST_THREADS = 256 };

/* Processors this process may run on. */
static int processor_count(void)
{
    cpu_set_t set;
    if (sched_getaffinity(0, sizeof set, &set) == 0) {
        return CPU_COUNT(&set);
    }
    return 1;
}

void ifig_run_threads(int threads, uint32_t pieces, void *(*work)(void *), void *job)
{
    int wanted = threads > 0 ? threads : processor_count();
    wanted = wanted > MOST_THREADS ? MOST_THREADS : wanted;
    wanted = (uint32_t)wanted > pieces ? (int)pieces : wanted;
    pthread_t thread[MOST_THREADS];
    int started = 0;
    /* The caller's thread works too; where no more threads are to be had it works alone. */
    while (started < wanted - 1 && pthread_create(&thread[started], NULL, work, job) == 0) {
        started++;
    }
    work(job);
    for (int i = 0; i < started; i++) {
        pthread_join(thread[i], NULL);
    }
}
