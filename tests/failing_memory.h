/* SPDX-License-Identifier: MIT */
/* Allocations that fail when told to, for a program of one test file. The linker leads the
 * program's own calls here (--wrap), and so the sanitizers' allocators stay in place behind it. */
#ifndef IFIG_TEST_FAILING_MEMORY_H
#define IFIG_TEST_FAILING_MEMORY_H

#include <stddef.h>

void *__real_malloc(size_t size);
void *__real_calloc(size_t count, size_t size);
void *__real_realloc(void *old, size_t size);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t count, size_t size);
void *__wrap_realloc(void *old, size_t size);

static long countdown = -1; /* allocations that still succeed; negative: all */
static int for_good;        /* whether those after the failing one fail too */

static int must_fail(void)
{
    if (countdown < 0) {
        return 0;
    }
    if (countdown > 0) {
        countdown--;
        return 0;
    }
    countdown = for_good ? 0 : -1;
    return 1;
}

void *__wrap_malloc(size_t size)
{
    return must_fail() ? NULL : __real_malloc(size);
}

void *__wrap_calloc(size_t count, size_t size)
{
    return must_fail() ? NULL : __real_calloc(count, size);
}

void *__wrap_realloc(void *old, size_t size)
{
    return must_fail() ? NULL : __real_realloc(old, size);
}

#endif
