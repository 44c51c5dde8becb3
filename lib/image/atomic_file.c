/* SPDX-License-Identifier: MIT */
/* A file that appears whole or not at all. The bytes go into a new file in the target's own folder
 * (a rename across file systems is no rename), are brought to disk, and take the target's name in
 * one step. What is no plain file is written in place: a pipe cannot be replaced, and a device must
 * not be. */
#include "image.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { BUFFER_SIZE = 65536, NAME_TRIES = 100 };

struct IfigAtomicFile {
    int descriptor; /* -1 when closed */
    int keep_existing;
    char *path;      /* as the caller gave it; for messages */
    char *target;    /* absolute, symbolic links resolved; NULL when written in place */
    char *temporary; /* absolute; NULL when written in place, or no longer there */
    size_t filled;
    unsigned char buffer[BUFFER_SIZE];
};

static IfigStatus fail(const IfigAtomicFile *file, IfigStatus status, int number, IfigError *error)
{
    return ifig_fail_file(error, status, IFIG_FILE_WRITE, file->path, number);
}

/* A program may have been started with its standard streams closed; a file that took the number of
 * one of them would receive every message printed there. */
static int above_standard_streams(int descriptor)
{
    if (descriptor < 0 || descriptor > STDERR_FILENO) {
        return descriptor;
    }
    const int moved = fcntl(descriptor, F_DUPFD_CLOEXEC, STDERR_FILENO + 1);
    const int number = errno;
    close(descriptor);
    errno = number;
    return moved;
}

static int open_retrying(const char *path, int flags, mode_t mode)
{
    int descriptor;
    do {
        descriptor = open(path, flags | O_CLOEXEC | O_NOCTTY, mode);
    } while (descriptor < 0 && errno == EINTR);
    return above_standard_streams(descriptor);
}

static IfigStatus open_in_place(IfigAtomicFile *file, int standing, IfigError *error)
{
    file->descriptor = standing >= 0 ? fcntl(standing, F_DUPFD_CLOEXEC, STDERR_FILENO + 1)
                                     : open_retrying(file->path, O_WRONLY, 0);
    return file->descriptor >= 0 ? IFIG_OK : fail(file, IFIG_ERROR_CREATE, errno, error);
}

/* Owner first, since a change of owner may take mode bits away. Neither is worth failing for: only
 * root may give files away, and some file systems have no modes; the file then has the caller's. */
static void take_over_rights(int descriptor, const struct stat *old)
{
    mode_t mode = old->st_mode & (S_IRWXU | S_IRWXG | S_IRWXO);
    if (fchown(descriptor, old->st_uid, old->st_gid) != 0 &&
        fchown(descriptor, (uid_t)-1, old->st_gid) != 0) {
        mode &= ~(mode_t)S_IRWXG; /* the new file's group was granted nothing */
    }
    (void)fchmod(descriptor, mode);
}

/* The kernel applies the umask to a new file's mode: it cannot be read without changing it. A file
 * that will replace a private one is private from the start. */
static IfigStatus open_beside(IfigAtomicFile *file, const struct stat *old, IfigError *error)
{
    if (file->target == NULL) {
        return fail(file, errno == ENOMEM ? IFIG_ERROR_MEMORY : IFIG_ERROR_CREATE, errno, error);
    }
    int number = EEXIST;
    for (unsigned attempt = 0; attempt < NAME_TRIES && number == EEXIST; attempt++) {
        char *const name = ifig_place_temporary(file->target, attempt);
        if (name == NULL) {
            return fail(file, IFIG_ERROR_MEMORY, ENOMEM, error);
        }
        file->descriptor = open_retrying(name, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW,
                                         old != NULL ? S_IRUSR | S_IWUSR : 0666);
        if (file->descriptor >= 0) {
            file->temporary = name;
            if (old != NULL) {
                take_over_rights(file->descriptor, old);
            }
            return IFIG_OK;
        }
        number = errno;
        free(name);
    }
    return fail(file, IFIG_ERROR_CREATE, number, error);
}

static IfigStatus begin(IfigAtomicFile *file, IfigError *error)
{
    const int standing = ifig_place_descriptor(file->path);
    if (standing >= 0) {
        return open_in_place(file, standing, error);
    }
    struct stat old;
    if (stat(file->path, &old) != 0) {
        if (errno != ENOENT) {
            return fail(file, IFIG_ERROR_CREATE, errno, error);
        }
        if (lstat(file->path, &old) == 0) {
            return ifig_fail(error, IFIG_ERROR_CREATE,
                             "cannot write '%s': it is a symbolic link that leads nowhere; remove "
                             "the link or create what it points to",
                             ifig_path_text(file->path).text);
        }
        file->target = ifig_place_absolute(file->path);
        return open_beside(file, NULL, error);
    }
    if (S_ISDIR(old.st_mode)) {
        return fail(file, IFIG_ERROR_CREATE, EISDIR, error);
    }
    if (!S_ISREG(old.st_mode)) {
        return open_in_place(file, -1, error);
    }
    if (file->keep_existing) {
        return fail(file, IFIG_ERROR_CREATE, EEXIST, error);
    }
    /* The folder alone decides over a rename; a file that its owner write-protected is spared. */
    if (faccessat(AT_FDCWD, file->path, W_OK, AT_EACCESS) != 0) {
        return fail(file, IFIG_ERROR_CREATE, errno, error);
    }
    file->target = realpath(file->path, NULL);
    return open_beside(file, &old, error);
}

IfigStatus ifig_atomic_open(const char *path, int keep_existing, IfigAtomicFile **file,
                            IfigError *error)
{
    IfigAtomicFile *const made = calloc(1, sizeof *made);
    char *const copy = strdup(path);
    *file = NULL;
    if (made == NULL || copy == NULL) {
        free(made);
        free(copy);
        return ifig_fail_file(error, IFIG_ERROR_MEMORY, IFIG_FILE_WRITE, path, ENOMEM);
    }
    made->descriptor = -1;
    made->keep_existing = keep_existing;
    made->path = copy;
    const IfigStatus status = begin(made, error);
    if (status != IFIG_OK) {
        ifig_atomic_discard(made);
        return status;
    }
    *file = made;
    return IFIG_OK;
}

/* 0, or an errno. A short write is no error; an interrupted one is begun again; a pipe that someone
 * set to non-blocking is waited for. */
static int write_all(int descriptor, const unsigned char *bytes, size_t count)
{
    while (count > 0) {
        const ssize_t written = write(descriptor, bytes, count);
        if (written > 0) {
            bytes += written;
            count -= (size_t)written;
        } else if (written == 0) {
            return EIO;
        } else if (errno == EAGAIN) {
            struct pollfd wait = {.fd = descriptor, .events = POLLOUT};
            (void)poll(&wait, 1, -1);
        } else if (errno != EINTR) {
            return errno;
        }
    }
    return 0;
}

static IfigStatus flush(IfigAtomicFile *file, IfigError *error)
{
    const int number = write_all(file->descriptor, file->buffer, file->filled);
    file->filled = 0;
    return number == 0 ? IFIG_OK : fail(file, IFIG_ERROR_IO, number, error);
}

IfigStatus ifig_atomic_write(IfigAtomicFile *file, const void *bytes, size_t count,
                             IfigError *error)
{
    const unsigned char *next = bytes;
    while (count > 0) {
        const size_t room = BUFFER_SIZE - file->filled;
        const size_t taken = count < room ? count : room;
        memcpy(file->buffer + file->filled, next, taken);
        file->filled += taken;
        next += taken;
        count -= taken;
        if (file->filled == BUFFER_SIZE) {
            const IfigStatus status = flush(file, error);
            if (status != IFIG_OK) {
                return status;
            }
        }
    }
    return IFIG_OK;
}

/* 0, or an errno. Pipes, and some file systems, cannot be told to settle. */
static int settle(int descriptor)
{
    int result;
    do {
        result = fsync(descriptor);
    } while (result != 0 && errno == EINTR);
    return result == 0 || errno == EINVAL || errno == ENOTSUP ? 0 : errno;
}

/* Networked file systems report a full disk only here. An interrupted close has closed. */
static int close_file(IfigAtomicFile *file)
{
    const int result = close(file->descriptor);
    file->descriptor = -1;
    return result == 0 || errno == EINTR ? 0 : errno;
}

/* Take a name only if it is free, in one step; by link(2) where the file system has no such step.
 */
static int rename_if_free(const char *from, const char *to)
{
#ifdef RENAME_NOREPLACE
    if (renameat2(AT_FDCWD, from, AT_FDCWD, to, RENAME_NOREPLACE) == 0) {
        return 0;
    }
    if (errno != EINVAL && errno != ENOSYS && errno != ENOTSUP) {
        return errno;
    }
#endif
    if (link(from, to) != 0) {
        return errno;
    }
    unlink(from);
    return 0;
}

static IfigStatus take_place(IfigAtomicFile *file, IfigError *error)
{
    int number = 0;
    if (file->keep_existing) {
        number = rename_if_free(file->temporary, file->target);
    } else if (rename(file->temporary, file->target) != 0) {
        number = errno;
    }
    if (number != 0) {
        return fail(file, number == EEXIST ? IFIG_ERROR_CREATE : IFIG_ERROR_IO, number, error);
    }
    free(file->temporary);
    file->temporary = NULL;
    return IFIG_OK;
}

/* A new name is safe from a power cut only when its folder, too, is on disk. A folder that may be
 * entered but not read cannot be told to settle. */
static IfigStatus settle_folder(IfigAtomicFile *file, IfigError *error)
{
    char *const slash = strrchr(file->target, '/');
    slash[slash == file->target] = '\0';
    const int descriptor = open_retrying(file->target, O_RDONLY | O_DIRECTORY, 0);
    const int number = descriptor >= 0 ? settle(descriptor) : errno;
    if (descriptor >= 0) {
        close(descriptor);
    }
    if (number == 0 || (descriptor < 0 && number == EACCES)) {
        return IFIG_OK;
    }
    return ifig_fail(
        error, IFIG_ERROR_IO,
        "'%s' is written, but the disk did not confirm its folder and may lose it in a "
        "power cut; check the disk and write it again",
        ifig_path_text(file->path).text);
}

IfigStatus ifig_atomic_commit(IfigAtomicFile *file, IfigError *error)
{
    IfigStatus status = flush(file, error);
    if (status == IFIG_OK) {
        const int unsettled = settle(file->descriptor);
        const int unclosed = close_file(file);
        if (unsettled != 0 || unclosed != 0) {
            status = fail(file, IFIG_ERROR_IO, unsettled != 0 ? unsettled : unclosed, error);
        }
    }
    if (status == IFIG_OK && file->target != NULL) {
        status = take_place(file, error);
        if (status == IFIG_OK) {
            status = settle_folder(file, error);
        }
    }
    ifig_atomic_discard(file);
    return status;
}

void ifig_atomic_discard(IfigAtomicFile *file)
{
    if (file == NULL) {
        return;
    }
    if (file->temporary != NULL) {
        unlink(file->temporary);
    }
    if (file->descriptor >= 0) {
        close(file->descriptor);
    }
    free(file->temporary);
    free(file->target);
    free(file->path);
    free(file);
}

const char *ifig_atomic_temporary_path(const IfigAtomicFile *file)
{
    return file->temporary;
}
