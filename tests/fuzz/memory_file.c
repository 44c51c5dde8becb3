/* SPDX-License-Identifier: MIT */
#include "memory_file.h"

#include <stdio.h>
#include <sys/mman.h>
#include <unistd.h>

#include "target.h"

MemoryFile open_memory_file(const uint8_t *data, size_t size)
{
    MemoryFile file = {.descriptor = memfd_create("input", MFD_CLOEXEC)};
    must(file.descriptor >= 0 && write(file.descriptor, data, size) == (ssize_t)size);
    snprintf(file.path, sizeof file.path, "/proc/self/fd/%d", file.descriptor);
    return file;
}

void close_memory_file(const MemoryFile *file)
{
    close(file->descriptor);
}
