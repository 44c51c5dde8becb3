/* SPDX-License-Identifier: MIT */
/* How long libpng itself takes to encode a picture, and how large it gets: bench_png FILE.png. The
 * first line is the program's own choice (lib/image/png_write.c); the table is what it was chosen
 * from. One thread, into memory. A time is the median of nine. */
#include "bench.h"

#include <png.h>
#include <setjmp.h>
#include <string.h>
#include <zlib.h>

typedef struct Picture {
    png_image image;
    unsigned char *rgb;
} Picture;

typedef struct Setting {
    const char *name;
    int filters, strategy, level;
} Setting;

static void fail(const char *what)
{
    fprintf(stderr, "bench_png: %s\n", what);
    exit(70);
}

static Picture read_picture(const char *path)
{
    Picture picture = {.image = {.version = PNG_IMAGE_VERSION}};
    if (!png_image_begin_read_from_file(&picture.image, path)) {
        fail(picture.image.message);
    }
    picture.image.format = PNG_FORMAT_RGB;
    picture.rgb = room(PNG_IMAGE_SIZE(picture.image));
    if (!png_image_finish_read(&picture.image, NULL, picture.rgb, 0, NULL)) {
        fail(picture.image.message);
    }
    return picture;
}

static void count_bytes(png_structp png, png_bytep bytes, size_t count)
{
    (void)bytes;
    *(size_t *)png_get_io_ptr(png) += count;
}

static void nothing(png_structp png)
{
    (void)png;
}

static size_t encode(const Picture *picture, const Setting *setting)
{
    size_t size = 0;
    const png_uint_32 width = picture->image.width, height = picture->image.height;
    png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, NULL, NULL, NULL);
    png_infop info = png != NULL ? png_create_info_struct(png) : NULL;
    if (info == NULL || setjmp(png_jmpbuf(png))) {
        fail("libpng failed");
    }
    png_set_write_fn(png, &size, count_bytes, nothing);
    png_set_IHDR(png, info, width, height, 8, PNG_COLOR_TYPE_RGB, PNG_INTERLACE_NONE,
                 PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
    png_set_filter(png, PNG_FILTER_TYPE_BASE, setting->filters);
    png_set_compression_strategy(png, setting->strategy);
    png_set_compression_level(png, setting->level);
    png_set_compression_buffer_size(png, 65536);
    png_write_info(png, info);
    for (png_uint_32 row = 0; row < height; row++) {
        png_write_row(png, picture->rgb + (size_t)3 * width * row);
    }
    png_write_end(png, NULL);
    png_destroy_write_struct(&png, &info);
    return size;
}

static void measure(const Picture *picture, const Setting *setting)
{
    double values[BENCH_RUNS];
    size_t size = 0;
    for (int run = 0; run < BENCH_RUNS; run++) {
        const double start = now_ms();
        size = encode(picture, setting);
        values[run] = now_ms() - start;
    }
    printf("%-28s %8.2f ms %9zu bytes\n", setting->name, median(values, BENCH_RUNS), size);
}

int main(int count, char **words)
{
    static const Setting settings[] = {
        {"chosen: Up, level 4", PNG_FILTER_UP, Z_DEFAULT_STRATEGY, 4},
        {"libpng's own: all, level 6", PNG_ALL_FILTERS, Z_FILTERED, 6},
        {"Up, level 1", PNG_FILTER_UP, Z_DEFAULT_STRATEGY, 1},
        {"Up, level 2", PNG_FILTER_UP, Z_DEFAULT_STRATEGY, 2},
        {"Up, level 3", PNG_FILTER_UP, Z_DEFAULT_STRATEGY, 3},
        {"Up, level 4, filtered", PNG_FILTER_UP, Z_FILTERED, 4},
        {"Up, level 5", PNG_FILTER_UP, Z_DEFAULT_STRATEGY, 5},
        {"Up, level 6", PNG_FILTER_UP, Z_DEFAULT_STRATEGY, 6},
        {"Up, runs only", PNG_FILTER_UP, Z_RLE, 4},
        {"Up, Huffman only", PNG_FILTER_UP, Z_HUFFMAN_ONLY, 4},
        {"Sub, level 4", PNG_FILTER_SUB, Z_DEFAULT_STRATEGY, 4},
        {"Average, level 4", PNG_FILTER_AVG, Z_DEFAULT_STRATEGY, 4},
        {"Paeth, level 1", PNG_FILTER_PAETH, Z_DEFAULT_STRATEGY, 1},
        {"Paeth, level 4", PNG_FILTER_PAETH, Z_DEFAULT_STRATEGY, 4},
        {"Paeth, runs only", PNG_FILTER_PAETH, Z_RLE, 4},
        {"all, level 4", PNG_ALL_FILTERS, Z_DEFAULT_STRATEGY, 4},
        {"no filter, level 4", PNG_FILTER_NONE, Z_DEFAULT_STRATEGY, 4},
    };
    if (count != 2) {
        fail("give one PNG file");
    }
    Picture picture = read_picture(words[1]);
    for (size_t i = 0; i < sizeof settings / sizeof settings[0]; i++) {
        measure(&picture, &settings[i]);
    }
    free(picture.rgb);
    return 0;
}
