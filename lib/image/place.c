/* SPDX-License-Identifier: MIT */
/* Where a file will go: what a path stands for, and under which name the file waits. */
#include "image.h"

#include <errno.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/random.h>
#include <time.h>
#include <unistd.h>

/* Opening /dev/stdout anew would start at the front
 * of a file that the shell opened for appending. */
int ifig_place_descriptor(const char *path)
{
    static const char *const folders[] = {"/dev/fd/", "/proc/self/fd/"};
    if (strcmp(path, "-") == 0 || strcmp(path, "/dev/stdout") == 0) {
        return STDOUT_FILENO;
    }
    if (strcmp(path, "/dev/stderr") == 0) {
        return STDERR_FILENO;
    }
    for (size_t i = 0; i < sizeof folders / sizeof folders[0]; i++) {
        const size_t length = strlen(folders[i]);
        double number;
        if (strncmp(path, folders[i], length) == 0 && ifig_number_read(path + length, &number) &&
            number >= 0.0 && number <= 65535.0) {
            return (int)number;
        }
    }
    return -1;
}

char *ifig_place_absolute(const char *path)
{
    const char *const slash = strrchr(path, '/');
    const char *const name = slash != NULL ? slash + 1 : path;
    if (name[0] == '\0') {
        errno = EISDIR;
        return NULL;
    }
    char *const folder = slash != NULL ? strndup(path, (size_t)(slash + 1 - path)) : strdup(".");
    char *const absolute = folder != NULL ? realpath(folder, NULL) : NULL;
    char *target = NULL;
    if (absolute != NULL && asprintf(&target, "%s/%s", absolute, name) < 0) {
        target = NULL;
        errno = ENOMEM;
    }
    const int number = errno;
    free(absolute);
    free(folder);
    errno = number;
    return target;
}

static uint64_t random_number(unsigned attempt)
{
    uint64_t number;
    if (getrandom(&number, sizeof number, GRND_NONBLOCK) == (ssize_t)sizeof number) {
        return number;
    }
    /* Only a name that is free is needed: O_EXCL guards against a guess. */
    struct timespec now = {0, 0};
    clock_gettime(CLOCK_MONOTONIC, &now);
    number = (uint64_t)now.tv_nsec ^ ((uint64_t)now.tv_sec << 30) ^ ((uint64_t)getpid() << 44);
    return number + attempt;
}

/* A name of fixed length, so that the longest name a folder can hold still has a temporary one. */
char *ifig_place_temporary(const char *target, unsigned attempt)
{
    const int folder_length = (int)(strrchr(target, '/') - target);
    const uint64_t number = random_number(attempt);
    char *name = NULL;
    if (asprintf(&name, "%.*s/.interfig-%08lx%08lx.part", folder_length, target,
                 (unsigned long)(number >> 32), (unsigned long)(number & 0xffffffffU)) < 0) {
        errno = ENOMEM;
        return NULL;
    }
    return name;
}
