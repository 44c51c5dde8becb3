/* SPDX-License-Identifier: MIT */
/* Bytes as a file in memory, for readers that want a path: no disk is worn. */
#ifndef IFIG_FUZZ_MEMORY_FILE_H
#define IFIG_FUZZ_MEMORY_FILE_H

#include <stddef.h>
#include <stdint.h>

typedef struct MemoryFile {
    char path[64];
    int descriptor;
} MemoryFile;

MemoryFile open_memory_file(const uint8_t *data, size_t size);
void close_memory_file(const MemoryFile *file);

#endif
