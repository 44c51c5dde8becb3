/* SPDX-License-Identifier: MIT */
/* A command line, one word a line, changed by the word. For LLVMFuzzerCustomMutator. */
#ifndef IFIG_FUZZ_WORD_MUTATOR_H
#define IFIG_FUZZ_WORD_MUTATOR_H

#include <stddef.h>
#include <stdint.h>

/* Put an option of the table in, with a value that works; or change one word; or any bytes. */
size_t mutate_words(uint8_t *data, size_t size, size_t most, unsigned seed);

#endif
