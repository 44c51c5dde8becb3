/* SPDX-License-Identifier: MIT */
#include "failing_allocator.h"

#include <errno.h>
#include <stdatomic.h>
#include <stddef.h>

/* glibc's own, under the names it keeps for allocators that stand in front of it. */
extern void *__libc_malloc(size_t size);
extern void *__libc_calloc(size_t count, size_t size);
extern void *__libc_realloc(void *block, size_t size);
extern void *__libc_memalign(size_t alignment, size_t size);
extern void __libc_free(void *block);

/* The names that take the allocator's place, for the shared libraries as well. */
#pragma GCC visibility push(default)
void *malloc(size_t size);
void *calloc(size_t count, size_t size);
void *realloc(void *block, size_t size);
void *aligned_alloc(size_t alignment, size_t size);
int posix_memalign(void **block, size_t alignment, size_t size);
void free(void *block);
#pragma GCC visibility pop

static atomic_long asked, refused, live, victim;
static atomic_int persists, is_armed;

/* 1 where this allocation is to be refused. */
static int refuse(void)
{
    if (!atomic_load(&is_armed)) {
        return 0;
    }
    const long number = atomic_fetch_add(&asked, 1) + 1, wanted = atomic_load(&victim);
    const int hit = wanted > 0 && (number == wanted || (atomic_load(&persists) && number > wanted));
    if (hit) {
        atomic_fetch_add(&refused, 1);
        errno = ENOMEM;
    }
    return hit;
}

static void *counted(void *block)
{
    if (block != NULL) {
        atomic_fetch_add(&live, 1);
    }
    return block;
}

void *malloc(size_t size)
{
    return refuse() ? NULL : counted(__libc_malloc(size));
}

void *calloc(size_t count, size_t size)
{
    return refuse() ? NULL : counted(__libc_calloc(count, size));
}

void *realloc(void *block, size_t size)
{
    if (block == NULL) {
        return malloc(size);
    }
    return refuse() ? NULL : __libc_realloc(block, size);
}

void *aligned_alloc(size_t alignment, size_t size)
{
    return refuse() ? NULL : counted(__libc_memalign(alignment, size));
}

int posix_memalign(void **block, size_t alignment, size_t size)
{
    void *taken = aligned_alloc(alignment, size);
    if (taken == NULL) {
        return ENOMEM;
    }
    *block = taken;
    return 0;
}

void free(void *block)
{
    if (block != NULL) {
        atomic_fetch_sub(&live, 1);
        __libc_free(block);
    }
}

void failing_allocator_arm(long which, int persistently)
{
    atomic_store(&asked, 0);
    atomic_store(&refused, 0);
    atomic_store(&live, 0);
    atomic_store(&victim, which);
    atomic_store(&persists, persistently);
    atomic_store(&is_armed, 1);
}

long failing_allocator_disarm(void)
{
    atomic_store(&is_armed, 0);
    return atomic_load(&asked);
}

long failing_allocator_live_blocks(void)
{
    return atomic_load(&live);
}

long failing_allocator_refused(void)
{
    return atomic_load(&refused);
}
