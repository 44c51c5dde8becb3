/* SPDX-License-Identifier: MIT */
/* A folder of its own for each test, and the files in it. */
#ifndef IFIG_TEST_SCRATCH_H
#define IFIG_TEST_SCRATCH_H

#include <check.h>
#include <stddef.h>
#include <stdint.h>

#include "interfig/image.h"

/* Checked fixture: an empty folder before a test; gone, with all in it, after. */
void scratch_setup(void);
void scratch_teardown(void);

/* The path of a name in the folder; lives until the eighth call after it. */
const char *scratch_path(const char *name);
/* How many entries the folder has. */
int scratch_count(void);
/* How many descriptors this process has open. */
int scratch_descriptors(void);

typedef struct ScratchBytes {
    unsigned char *at; /* ends with a NUL that does not count; free it */
    size_t count;
} ScratchBytes;
ScratchBytes scratch_read(const char *path);
void scratch_write(const char *path, const void *bytes, size_t count);

/* A 4 x 3 picture of 8 bits with options as given (NULL: the plain ones), written to path. */
enum { SCRATCH_WIDTH = 4, SCRATCH_HEIGHT = 3 };
extern const uint8_t scratch_pixels[SCRATCH_HEIGHT * SCRATCH_WIDTH * 3];
IfigPngOptions scratch_options(void);
IfigStatus scratch_png(const char *path, const IfigPngOptions *options, IfigError *error);

TCase *test_png_case(void);
TCase *test_png_frames_case(void);
TCase *test_place_case(void);
TCase *test_trouble_case(void);
TCase *test_png_text_case(void);
TCase *test_text_file_case(void);

#endif
