/* SPDX-License-Identifier: MIT */
/* A PNG whose text is asked for. The file is one in memory, so that no disk is worn. */
#include <stdio.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>
#include <zlib.h>

#include "interfig/image.h"
#include "target.h"

#pragma GCC visibility push(default)
size_t LLVMFuzzerMutate(uint8_t *data, size_t size, size_t most) __attribute__((weak));
size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t most, unsigned seed);
#pragma GCC visibility pop

enum { SIGNATURE = 8, FRAME = 12 };

static size_t number_at(const uint8_t *at)
{
    return (size_t)at[0] << 24 | (size_t)at[1] << 16 | (size_t)at[2] << 8 | at[3];
}

/* A changed chunk with its old check sum would be refused at the door: sum it anew. */
size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t most, unsigned seed)
{
    size = LLVMFuzzerMutate(data, size, most);
    size_t at = seed % 8 == 0 ? size : SIGNATURE; /* now and then leave them wrong */
    while (at + FRAME <= size && number_at(data + at) <= size - at - FRAME) {
        const size_t length = number_at(data + at);
        const unsigned long sum = crc32(0, data + at + 4, (uInt)(length + 4));
        for (size_t i = 0; i < 4; i++) {
            data[at + 8 + length + i] = (uint8_t)(sum >> (24 - 8 * i));
        }
        at += FRAME + length;
    }
    return size;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    IfigError error = IFIG_ERROR_INIT;
    char path[64], *text = NULL;
    const int memory = memfd_create("picture", MFD_CLOEXEC);
    must(memory >= 0 && write(memory, data, size) == (ssize_t)size);
    snprintf(path, sizeof path, "/proc/self/fd/%d", memory);
    const IfigStatus status = ifig_png_read_text(path, "Recipe", &text, &error);
    must((status == IFIG_OK) == (text != NULL));
    must(status == IFIG_OK || (error.message[0] != '\0' && strchr(error.message, '\n') == NULL));
    canary(text != NULL && (text[0] == 'x' || text[0] == 'k'));
    ifig_text_free(text);
    close(memory);
    return 0;
}
