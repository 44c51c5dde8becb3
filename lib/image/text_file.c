/* SPDX-License-Identifier: MIT */
/* Reading small text files whole, and the reads that PNG files share. */
#include "image.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static IfigStatus fail(const char *path, int number, IfigError *error)
{
    const int is_absent = number == ENOENT || number == ENOTDIR;
    return ifig_fail_file(error, is_absent ? IFIG_ERROR_NOT_FOUND : IFIG_ERROR_IO, IFIG_FILE_READ,
                          path, number);
}

IfigStatus ifig_input_open(const char *path, int *descriptor, IfigError *error)
{
    struct stat now;
    int opened;
    do {
        opened = open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY);
    } while (opened < 0 && errno == EINTR);
    if (opened < 0) {
        return fail(path, errno, error);
    }
    if (fstat(opened, &now) == 0 && S_ISDIR(now.st_mode)) {
        close(opened);
        return fail(path, EISDIR, error);
    }
    *descriptor = opened;
    return IFIG_OK;
}

IfigStatus ifig_input_read(int descriptor, const char *path, void *bytes, size_t count, size_t *got,
                           IfigError *error)
{
    unsigned char *const start = bytes;
    *got = 0;
    while (*got < count) {
        const ssize_t taken = read(descriptor, start + *got, count - *got);
        if (taken == 0) {
            break;
        }
        if (taken > 0) {
            *got += (size_t)taken;
        } else if (errno != EINTR) {
            return fail(path, errno, error);
        }
    }
    return IFIG_OK;
}

static IfigStatus check_contents(const char *path, const char *bytes, size_t count,
                                 IfigError *error)
{
    if (count > IFIG_TEXT_MAX) {
        return ifig_fail(error, IFIG_ERROR_SYNTAX,
                         "'%s' is longer than 1048576 bytes; a text file for this program is at "
                         "most that long",
                         ifig_path_text(path).text);
    }
    if (memchr(bytes, '\0', count) != NULL) {
        return ifig_fail(error, IFIG_ERROR_SYNTAX,
                         "'%s' is a binary file: it holds a NUL byte; give a text file in UTF-8",
                         ifig_path_text(path).text);
    }
    return IFIG_OK;
}

IfigStatus ifig_file_read_text(const char *path, char **text, IfigError *error)
{
    if (text != NULL) {
        *text = NULL;
    }
    if (path == NULL || text == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_file_read_text was given a null pointer; give a path and a place "
                         "for the text");
    }
    int descriptor = -1;
    IfigStatus status = ifig_input_open(path, &descriptor, error);
    if (status != IFIG_OK) {
        return status;
    }
    size_t count = 0;
    char *const bytes = malloc(IFIG_TEXT_MAX + 2); /* one more than allowed, and the NUL */
    if (bytes == NULL) {
        status = ifig_fail_file(error, IFIG_ERROR_MEMORY, IFIG_FILE_READ, path, ENOMEM);
    } else {
        status = ifig_input_read(descriptor, path, bytes, IFIG_TEXT_MAX + 1, &count, error);
    }
    if (status == IFIG_OK) {
        status = check_contents(path, bytes, count, error);
    }
    close(descriptor);
    if (status != IFIG_OK) {
        free(bytes);
        return status;
    }
    bytes[count] = '\0';
    char *const fitted = realloc(bytes, count + 1);
    *text = fitted != NULL ? fitted : bytes;
    return IFIG_OK;
}

void ifig_text_free(char *text)
{
    free(text);
}
