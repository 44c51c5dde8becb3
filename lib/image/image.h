/* SPDX-License-Identifier: MIT */
/* Room 9: image. Enters: rows of sRGB pixels and words about them, or the path of a file. Leaves: a
 * PNG that stands whole at its place or not at all, or text read from a file. Here stand the parts
 * the room's files share; the contract is interfig/image.h. */
#ifndef IFIG_IMAGE_ROOM_H
#define IFIG_IMAGE_ROOM_H

#include <stddef.h>

#include "base.h"
#include "interfig/image.h"

/* The longest text read from a file or kept in one, bytes. */
enum { IFIG_TEXT_MAX = 1048576 };

/* words.c: how trouble with files is told. */

/* A path as a message shows it: the front cut off where it is long, so that the remedy fits. */
typedef struct IfigPathText {
    char text[256];
} IfigPathText;
IfigPathText ifig_path_text(const char *path);

/* 1 where a string is UTF-8 throughout. */
int ifig_utf8_is_valid(const char *text);

typedef enum IfigFileUse { IFIG_FILE_READ = 0, IFIG_FILE_WRITE } IfigFileUse;
/* Say that a file could not be read or written, why (an errno) and what helps; returns status. */
IfigStatus ifig_fail_file(IfigError *error, IfigStatus status, IfigFileUse use, const char *path,
                          int number);

/* place.c: where a file will go. */

/* The descriptor that a path stands for ("-", "/dev/stdout", "/dev/fd/3"), or -1. */
int ifig_place_descriptor(const char *path);
/* The absolute path of a file that does not exist yet; free it with free. NULL with errno. */
char *ifig_place_absolute(const char *path);
/* A random name in the folder of an absolute path; free it with free. NULL with errno. */
char *ifig_place_temporary(const char *target, unsigned attempt);

/* atomic_file.c: a file that appears whole or not at all. */

typedef struct IfigAtomicFile IfigAtomicFile;
/* path: "-" is standard output; devices, pipes and standard output are written in place. */
IfigStatus ifig_atomic_open(const char *path, int keep_existing, IfigAtomicFile **file,
                            IfigError *error);
IfigStatus ifig_atomic_write(IfigAtomicFile *file, const void *bytes, size_t count,
                             IfigError *error);
/* Bring the file to disk and to its place. Frees it in every case. */
IfigStatus ifig_atomic_commit(IfigAtomicFile *file, IfigError *error);
/* Remove what was begun. NULL is allowed. */
void ifig_atomic_discard(IfigAtomicFile *file);
/* Where the bytes lie until the commit; NULL where they are written in place. */
const char *ifig_atomic_temporary_path(const IfigAtomicFile *file);

/* text_file.c: reading. */

/* Open for reading; refuses folders. The caller closes the descriptor. */
IfigStatus ifig_input_open(const char *path, int *descriptor, IfigError *error);
/* Read until count bytes are there or the file ends; *got says how many came. */
IfigStatus ifig_input_read(int descriptor, const char *path, void *bytes, size_t count, size_t *got,
                           IfigError *error);

#endif
