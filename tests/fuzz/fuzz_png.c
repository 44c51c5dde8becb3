/* SPDX-License-Identifier: MIT */
/* A PNG whose text is asked for. */
#include <string.h>

#include "interfig/image.h"
#include "memory_file.h"
#include "png_mutator.h"
#include "target.h"

size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t most, unsigned seed)
{
    return mutate_png(data, size, most, seed);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    IfigError error = IFIG_ERROR_INIT;
    char *text = NULL;
    const MemoryFile file = open_memory_file(data, size);
    const IfigStatus status = ifig_png_read_text(file.path, "Recipe", &text, &error);
    must((status == IFIG_OK) == (text != NULL));
    must(status == IFIG_OK || (error.message[0] != '\0' && strchr(error.message, '\n') == NULL));
    canary(text != NULL && strchr(text, 0xc3) != NULL); /* a letter beyond ASCII */
    ifig_text_free(text);
    close_memory_file(&file);
    return 0;
}
