/* SPDX-License-Identifier: MIT */
/* Run a target over the inputs of a folder: replay FOLDER */
#include <dirent.h>
#include <stdio.h>
#include <string.h>

#include "target.h"

enum { INPUT_MAX = 1 << 20 };

static int replay_file(const char *folder, const char *name)
{
    static uint8_t bytes[INPUT_MAX];
    char path[512];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *in = fopen(path, "rb");
    if (in == NULL) {
        perror(path);
        return 0;
    }
    const size_t size = fread(bytes, 1, sizeof bytes, in);
    fclose(in);
    uint8_t *input = malloc(size > 0 ? size : 1); /* its own block, so that overruns are seen */
    must(input != NULL);
    memcpy(input, bytes, size);
    LLVMFuzzerTestOneInput(input, size);
    free(input);
    return 1;
}

int main(int count, char **words)
{
    int replayed = 0;
    DIR *entries = count == 2 ? opendir(words[1]) : NULL;
    if (entries == NULL) {
        fprintf(stderr, "replay: give a folder of inputs\n");
        return EXIT_FAILURE;
    }
    for (struct dirent *entry; (entry = readdir(entries)) != NULL;) {
        if (entry->d_name[0] != '.') {
            replayed += replay_file(words[1], entry->d_name);
        }
    }
    closedir(entries);
    printf("%d inputs replayed\n", replayed);
    return replayed > 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
