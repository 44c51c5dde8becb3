/* SPDX-License-Identifier: MIT */
/* Text changed by the line, since bytes changed anywhere mostly stop the reader at the first of
 * them. For LLVMFuzzerCustomMutator. */
#ifndef IFIG_FUZZ_LINE_MUTATOR_H
#define IFIG_FUZZ_LINE_MUTATOR_H

#include <stddef.h>
#include <stdint.h>

/* One line's bytes changed, or a line said again elsewhere, or a digit or any bytes changed. */
size_t mutate_lines(uint8_t *data, size_t size, size_t most, unsigned seed);
/* Text put in after a line, counted round; nothing where there is no room. Returns the new size. */
size_t insert_after_line(uint8_t *data, size_t size, size_t most, unsigned line, const char *text,
                         size_t length);

#endif
