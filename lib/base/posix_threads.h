/* SPDX-License-Identifier: MIT */
/* POSIX threads, where there are any. WebAssembly's system interface has none: there every lock
 * opens, no further thread is to be had, and the caller's own does all the work. The stand-ins bear
 * the POSIX names, so that no other file need know. */
#ifndef IFIG_BASE_POSIX_THREADS_H
#define IFIG_BASE_POSIX_THREADS_H

#if !defined(__wasi__)

#include <pthread.h>
#include <sched.h>

#else

#include <errno.h>
#include <stddef.h>

typedef int pthread_t;
typedef int pthread_mutex_t;
typedef int cpu_set_t;
#define CPU_COUNT(set) (*(set))

static inline int pthread_create(pthread_t *thread, const void *attributes, void *(*work)(void *),
                                 void *argument)
{
    (void)thread, (void)attributes, (void)work, (void)argument;
    return EAGAIN;
}

static inline int pthread_join(pthread_t thread, void **result)
{
    (void)thread, (void)result;
    return EINVAL;
}

static inline int pthread_mutex_init(pthread_mutex_t *lock, const void *attributes)
{
    (void)attributes;
    *lock = 0;
    return 0;
}

static inline int pthread_mutex_lock(pthread_mutex_t *lock)
{
    (void)lock;
    return 0;
}

static inline int pthread_mutex_unlock(pthread_mutex_t *lock)
{
    (void)lock;
    return 0;
}

static inline int pthread_mutex_destroy(pthread_mutex_t *lock)
{
    (void)lock;
    return 0;
}

static inline int sched_getaffinity(int process, size_t size, cpu_set_t *set)
{
    (void)process, (void)size;
    *set = 1;
    return 0;
}

#endif

#endif
