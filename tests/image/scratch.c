/* SPDX-License-Identifier: MIT */
#include "scratch.h"

#include <dirent.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static char folder[256];

const uint8_t scratch_pixels[SCRATCH_HEIGHT * SCRATCH_WIDTH * 3] = {
    0,  1,  2,  3,  4,  5,  250, 251, 252, 253, 254, 255, 10, 20, 30,  40, 50, 60,
    70, 80, 90, 99, 98, 97, 255, 0,   0,   0,   255, 0,   0,  0,  255, 7,  77, 177,
};

void scratch_setup(void)
{
    snprintf(folder, sizeof folder, "%s/image-test-XXXXXX", P_tmpdir);
    ck_assert_ptr_nonnull(mkdtemp(folder));
}

static int each_entry(const char *path, int remove_it)
{
    int count = 0;
    DIR *const entries = opendir(path);
    ck_assert_ptr_nonnull(entries);
    for (const struct dirent *entry = readdir(entries); entry != NULL; entry = readdir(entries)) {
        if (strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0) {
            count++;
            if (remove_it) {
                unlinkat(dirfd(entries), entry->d_name, 0);
                unlinkat(dirfd(entries), entry->d_name, AT_REMOVEDIR);
            }
        }
    }
    closedir(entries);
    return count;
}

void scratch_teardown(void)
{
    each_entry(folder, 1);
    rmdir(folder);
}

const char *scratch_path(const char *name)
{
    static char paths[8][1024];
    static unsigned next;
    char *const path = paths[next++ % 8];
    snprintf(path, sizeof paths[0], "%s/%s", folder, name);
    return path;
}

int scratch_count(void)
{
    return each_entry(folder, 0);
}

int scratch_descriptors(void)
{
    int count = 0;
    for (int i = 0; i < 256; i++) {
        count += fcntl(i, F_GETFD) >= 0;
    }
    return count;
}

ScratchBytes scratch_read(const char *path)
{
    ScratchBytes bytes = {NULL, 0};
    FILE *const file = fopen(path, "rb");
    ck_assert_msg(file != NULL, "%s is not there", path);
    ck_assert_int_eq(fseek(file, 0, SEEK_END), 0);
    bytes.count = (size_t)ftell(file);
    rewind(file);
    bytes.at = calloc(bytes.count + 1, 1);
    ck_assert_ptr_nonnull(bytes.at);
    ck_assert_uint_eq(fread(bytes.at, 1, bytes.count, file), bytes.count);
    fclose(file);
    return bytes;
}

void scratch_write(const char *path, const void *bytes, size_t count)
{
    FILE *const file = fopen(path, "wb");
    ck_assert_msg(file != NULL, "cannot write %s", path);
    ck_assert_uint_eq(fwrite(bytes, 1, count, file), count);
    ck_assert_int_eq(fclose(file), 0);
}

IfigPngOptions scratch_options(void)
{
    IfigPngOptions options = IFIG_PNG_OPTIONS_INIT;
    options.width = SCRATCH_WIDTH;
    options.height = SCRATCH_HEIGHT;
    return options;
}

IfigStatus scratch_png(const char *path, const IfigPngOptions *options, IfigError *error)
{
    const IfigPngOptions plain = scratch_options();
    IfigPngWriter *writer = NULL;
    IfigStatus status = ifig_png_open(path, options != NULL ? options : &plain, &writer, error);
    if (status == IFIG_OK) {
        status = ifig_png_write_rows(writer, scratch_pixels, SCRATCH_HEIGHT, error);
        if (status == IFIG_OK) {
            return ifig_png_close(writer, error);
        }
        ifig_png_discard(writer);
    }
    return status;
}
