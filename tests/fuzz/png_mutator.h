/* SPDX-License-Identifier: MIT */
/* A PNG changed so that the reader is not stopped at its door: mostly within one chunk, whose
 * length follows, and with check sums that fit. For a target's LLVMFuzzerCustomMutator. */
#ifndef IFIG_FUZZ_PNG_MUTATOR_H
#define IFIG_FUZZ_PNG_MUTATOR_H

#include <stddef.h>
#include <stdint.h>

int is_png(const uint8_t *data, size_t size);
/* As LLVMFuzzerCustomMutator has it; bytes that are no PNG are changed anywhere. */
size_t mutate_png(uint8_t *data, size_t size, size_t most, unsigned seed);

#endif
