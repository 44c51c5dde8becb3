/* SPDX-License-Identifier: MIT */
/* What each target of the fuzzer offers. The same function is run by libFuzzer on inputs that it
 * makes up and by replay.c on those that are kept in corpus/.
 *
 * IFIG_CANARY plants a fault that none of the kept inputs reaches and that the fuzzer must find: a
 * harness that no longer runs its code cannot pass for a clean one. */
#ifndef IFIG_FUZZ_TARGET_H
#define IFIG_FUZZ_TARGET_H

#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#pragma GCC visibility push(default)
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);
/* A target that knows the form of its input changes it itself, by means of libFuzzer's own. */
size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t most, unsigned seed);
size_t LLVMFuzzerMutate(uint8_t *data, size_t size, size_t most) __attribute__((weak));
#pragma GCC visibility pop

/* Stop where what must hold does not. */
static inline void must(int holds)
{
    if (!holds) {
        abort();
    }
}

static inline void canary(int sings)
{
#ifdef IFIG_CANARY
    must(!sings);
#else
    (void)sings;
#endif
}

#endif
