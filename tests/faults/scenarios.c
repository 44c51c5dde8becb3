/* SPDX-License-Identifier: MIT */
#include "bench.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "interfig/species_file.h"
#include "interfig/species_record.h"

static char folder[64], file[96];

void scenarios_open(void)
{
    snprintf(folder, sizeof folder, "/tmp/interfig-faults-XXXXXX");
    if (mkdtemp(folder) == NULL) {
        abort();
    }
    snprintf(file, sizeof file, "%s/out", folder);
}

/* Remove every file of the folder; how many there were. */
static int empty_folder(void)
{
    int count = 0;
    DIR *entries = opendir(folder);
    for (struct dirent *entry; entries != NULL && (entry = readdir(entries)) != NULL;) {
        if (entry->d_name[0] != '.' || strlen(entry->d_name) > 2) {
            char path[400];
            snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
            unlink(path);
            count++;
        }
    }
    closedir(entries);
    return count;
}

void scenarios_close(void)
{
    empty_folder();
    rmdir(folder);
}

/* FNV-1a of the file's bytes, 0 where there is none. */
static uint64_t file_hash(void)
{
    uint64_t hash = 0xcbf29ce484222325u;
    FILE *in = fopen(file, "rb");
    if (in == NULL) {
        return 0;
    }
    for (int byte; (byte = getc(in)) != EOF;) {
        hash = (hash ^ (uint64_t)byte) * 0x100000001b3u;
    }
    fclose(in);
    return hash;
}

int scenario_keeps_folder(const Scenario *scenario, IfigStatus status)
{
    static const Scenario *known;
    static uint64_t whole; /* of the file that a run without faults, the first, has written */
    const uint64_t hash = file_hash();
    if (known != scenario) {
        known = scenario;
        whole = hash;
    }
    const int count = empty_folder();
    return scenario->writes && status == IFIG_OK ? count == 1 && hash == whole : count == 0;
}

static IfigStatus look_up(const Scenario *scenario)
{
    const IfigSpecies *species = NULL;
    IfigCatalogue *catalogue = NULL;
    IfigError error = IFIG_ERROR_INIT;
    IfigStatus status = ifig_catalogue_create(&catalogue, &error);
    if (status == IFIG_OK) {
        status = ifig_catalogue_find(catalogue, scenario->key, &species, &error);
        status =
            status == IFIG_ERROR_MEMORY ? status : IFIG_OK; /* unknown ones are asked as well */
    }
    ifig_catalogue_free(catalogue);
    return status;
}

static IfigStatus make_lamp_alone(const Scenario *scenario)
{
    IfigLamp *lamp = NULL;
    const IfigStatus status = bench_lamp(scenario->lamp, &lamp);
    ifig_lamp_free(lamp);
    return status;
}

static IfigStatus make_stone(const Scenario *scenario)
{
    static const double n[] = {1.61, 1.62, 1.63};
    IfigSpecies *species = NULL;
    IfigCatalogue *catalogue = NULL;
    char *yaml = NULL;
    IfigStatus status = ifig_species_from_indices(n, (size_t)scenario->layers, 0, &species, NULL);
    if (status == IFIG_OK && scenario->writes == 0 && scenario->depth == 1) {
        status = ifig_species_write_text(species, &yaml, NULL);
    }
    if (status == IFIG_OK) {
        status = ifig_catalogue_create(&catalogue, NULL);
    }
    if (status == IFIG_OK && scenario->depth == 2) {
        status = ifig_catalogue_add(catalogue, species, NULL);
        species = status == IFIG_OK ? NULL : species;
    }
    ifig_text_free(yaml);
    ifig_species_free(species);
    ifig_catalogue_free(catalogue);
    return status;
}

enum { SIZE = 24 };

static IfigStatus render(const Scenario *scenario)
{
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigFigure *figure = NULL;
    static float pixels[SIZE * SIZE * 3];
    Bench bench;
    options.pixels = SIZE;
    options.threads = scenario->threads > 0 ? scenario->threads : 1;
    IfigStatus status = bench_set_up(scenario, &bench);
    if (status == IFIG_OK) {
        status = ifig_figure_create(&bench.scene, &options, &figure, NULL);
    }
    if (status == IFIG_OK) {
        status =
            ifig_figure_render(figure, (IfigPixelFormat)scenario->format, 0, SIZE, pixels, NULL);
    }
    ifig_figure_free(figure);
    bench_take_down(&bench);
    return status;
}

static IfigStatus probe(const Scenario *scenario)
{
    IfigProbe answer;
    Bench bench;
    IfigStatus status = bench_set_up(scenario, &bench);
    if (status == IFIG_OK) {
        status = ifig_probe(&bench.scene, 20, 30, 550, &answer, NULL);
    }
    bench_take_down(&bench);
    return status;
}

static IfigStatus read_figure(const Scenario *scenario)
{
    IfigReading reading = IFIG_READING_INIT;
    static char text[IFIG_READING_TEXT_MAX];
    Bench bench;
    IfigStatus status = bench_set_up(scenario, &bench);
    if (status == IFIG_OK) {
        status = ifig_reading(&bench.scene, &reading, NULL);
    }
    if (status == IFIG_OK) {
        status = ifig_reading_describe(&reading, text, sizeof text, NULL);
    }
    bench_take_down(&bench);
    return status;
}

static IfigStatus read_species(const Scenario *scenario)
{
    IfigCatalogue *catalogue = NULL;
    IfigError error = IFIG_ERROR_INIT;
    IfigStatus status = ifig_catalogue_create(&catalogue, &error);
    if (status == IFIG_OK) {
        status =
            ifig_catalogue_read_text(catalogue, scenario->key, strlen(scenario->key), NULL, &error);
        status = status == IFIG_ERROR_SYNTAX && scenario->depth == 1 ? IFIG_OK : status;
    }
    ifig_catalogue_free(catalogue);
    return status;
}

static IfigStatus write_png(const Scenario *scenario)
{
    static const IfigImageText words[] = {{"Title", "Quartz of the evening class"},
                                          {"Description", "a bull's-eye, \xc2\xb5"}};
    static const unsigned char rows[SIZE * 3 * 2] = {0};
    IfigPngOptions options = IFIG_PNG_OPTIONS_INIT;
    IfigPngWriter *writer = NULL;
    options.width = SIZE;
    options.height = 2;
    options.depth = scenario->depth;
    options.frame_count = (uint32_t)scenario->frames;
    options.text = scenario->layers ? words : NULL;
    options.text_count = scenario->layers ? 2 : 0;
    IfigStatus status = ifig_png_open(file, &options, &writer, NULL);
    const int frames = scenario->frames > 1 ? scenario->frames : 1;
    for (int i = 0; i < 2 * frames && status == IFIG_OK; i++) {
        status = ifig_png_write_rows(writer, rows, 1, NULL);
    }
    if (status == IFIG_OK) {
        return ifig_png_close(writer, NULL);
    }
    ifig_png_discard(writer);
    return status;
}

/* The file is written out of the faults' reach only where the first of the two fails. */
static IfigStatus write_and_read(const Scenario *scenario)
{
    char *text = NULL;
    IfigStatus status = write_png(scenario);
    if (status == IFIG_OK) {
        status = ifig_png_read_text(file, scenario->key, &text, NULL);
        unlink(file);
    }
    ifig_text_free(text);
    return status;
}

static IfigStatus read_file(const Scenario *scenario)
{
    char *text = NULL;
    const IfigStatus status = ifig_file_read_text(scenario->key, &text, NULL);
    ifig_text_free(text);
    return status;
}

static const char ONE[] = "species:\n  - key: club_topaz\n    name: Club topaz\n"
                          "    n: [1.609, 1.612, 1.619]\n    two_v_deg: 62\n";
static const char TWO[] = "species:\n  - {key: a_stone, name: A, n: [1.5, 1.6]}\n"
                          "  - {key: b_stone, name: B, n: [1.7], dispersion_bg: 0.02, source: x}\n";
static const char FORMULA[] =
    "species:\n  - key: formula_stone\n    name: F\n    n: [1.5, 1.6]\n    dispersion:\n"
    "      o: {formula_type: 3, coefficients: [2.25], low_um: 0.4, high_um: 0.8}\n"
    "      e: {formula_type: 3, coefficients: [2.56], low_um: 0.4, high_um: 0.8}\n";
static const char WRONG[] = "species:\n  - {key: a_stone, name: A, n: [1.5, 1.6], nmae: x}\n";
static const char CUT[] = "species:\n  - {key: a_stone, n: [1.5";

#define FIGURE(what, ...)                                                                          \
    {                                                                                              \
        .name = "figure " what, .run = render, __VA_ARGS__                                         \
    }
#define PROBE(what, ...)                                                                           \
    {                                                                                              \
        .name = "probe " what, .run = probe, __VA_ARGS__                                           \
    }
#define READING(what, ...)                                                                         \
    {                                                                                              \
        .name = "reading " what, .run = read_figure, __VA_ARGS__                                   \
    }
#define PNG(what, ...)                                                                             \
    {                                                                                              \
        .name = "png " what, .run = write_png, .writes = 1, .may_do_without = 1, __VA_ARGS__       \
    }

const Scenario scenarios[] = {
    {.name = "look-up of a key", .run = look_up, .key = "quartz"},
    {.name = "look-up of a variety", .run = look_up, .key = "Ruby"},
    {.name = "look-up of a group word", .run = look_up, .key = "tourmaline"},
    {.name = "look-up of a mistyped word", .run = look_up, .key = "quarz"},
    {.name = "daylight", .run = make_lamp_alone, .lamp = IFIG_LAMP_DAYLIGHT},
    {.name = "fluorescent lamp", .run = make_lamp_alone, .lamp = IFIG_LAMP_FLUORESCENT},
    {.name = "measured lamp", .run = make_lamp_alone, .lamp = 4},
    {.name = "sodium lamp", .run = make_lamp_alone, .lamp = 5},
    {.name = "singly refractive stone", .run = make_stone, .layers = 1},
    {.name = "uniaxial stone", .run = make_stone, .layers = 2},
    {.name = "biaxial stone", .run = make_stone, .layers = 3},
    {.name = "stone written down", .run = make_stone, .layers = 3, .depth = 1},
    {.name = "uniaxial stone written down", .run = make_stone, .layers = 2, .depth = 1},
    {.name = "stone given to a catalogue", .run = make_stone, .layers = 3, .depth = 2},
    FIGURE("of quartz", .key = "quartz"),
    FIGURE("of quartz, 16 bit", .key = "quartz", .format = IFIG_PIXELS_SRGB16),
    FIGURE("of quartz, XYZ", .key = "quartz", .format = IFIG_PIXELS_XYZ),
    FIGURE("of calcite, 30 mm", .key = "calcite", .thickness_mm = 30),
    FIGURE("of topaz", .key = "topaz_f"),
    FIGURE("of ruby", .key = "ruby"),
    FIGURE("of tanzanite", .key = "tanzanite"),
    FIGURE("of brookite", .key = "brookite", .thickness_mm = 0.2),
    FIGURE("of borax", .key = "borax"),
    FIGURE("of spinel", .key = "spinel"),
    FIGURE("of strained diamond", .key = "diamond", .stress_mpa = 100),
    FIGURE("of strained corundum", .key = "corundum", .stress_mpa = 300),
    FIGURE("of two layers", .key = "quartz", .layers = 2),
    FIGURE("of three layers", .key = "quartz", .layers = 3),
    FIGURE("of four layers", .key = "topaz_f", .layers = 4, .thickness_mm = 0.3),
    FIGURE("in sodium light", .key = "quartz", .lamp = 5),
    FIGURE("in fluorescent light", .key = "muscovite", .lamp = IFIG_LAMP_FLUORESCENT),
    FIGURE("in a measured light", .key = "muscovite", .lamp = 4),
    FIGURE("between circular polars", .key = "calcite", .circular = 1),
    FIGURE("by two threads", .key = "quartz", .threads = 2, .may_do_without = 1),
    FIGURE("by four threads", .key = "topaz_f", .threads = 4, .may_do_without = 1),
    PROBE("of quartz", .key = "quartz"),
    PROBE("of two layers", .key = "quartz", .layers = 2),
    PROBE("of ruby", .key = "ruby"),
    PROBE("in sodium light", .key = "topaz_f", .lamp = 5),
    PROBE("of strained diamond", .key = "diamond", .stress_mpa = 50),
    READING("of quartz", .key = "quartz"),
    READING("of calcite", .key = "calcite"),
    READING("of topaz", .key = "topaz_f"),
    READING("of spinel", .key = "spinel"),
    READING("of muscovite in sodium light", .key = "muscovite", .lamp = 5, .thickness_mm = 0.2),
    READING("of ruby", .key = "ruby"),
    READING("of gypsum", .key = "gypsum"),
    {.name = "species file of one stone", .run = read_species, .key = ONE},
    {.name = "species file of two stones", .run = read_species, .key = TWO},
    {.name = "species file with formulas", .run = read_species, .key = FORMULA},
    {.name = "species file with a wrong key", .run = read_species, .key = WRONG, .depth = 1},
    {.name = "species file that is cut", .run = read_species, .key = CUT, .depth = 1},
    PNG("of 8 bits", .depth = 8),
    PNG("of 16 bits", .depth = 16),
    PNG("with words", .depth = 8, .layers = 1),
    PNG("of three frames", .depth = 8, .frames = 3),
    PNG("of two frames, 16 bits, words", .depth = 16, .frames = 2, .layers = 1),
    {.name = "title of a png",
     .run = write_and_read,
     .may_do_without = 1,
     .key = "Title",
     .depth = 8,
     .layers = 1},
    {.name = "description of a png",
     .run = write_and_read,
     .may_do_without = 1,
     .key = "Description",
     .depth = 8,
     .layers = 1},
    {.name = "text of an animated png",
     .run = write_and_read,
     .may_do_without = 1,
     .key = "Title",
     .depth = 16,
     .frames = 2,
     .layers = 1},
    {.name = "a text file", .run = read_file, .may_do_without = 1, .key = "/etc/hostname"},
};
const size_t scenario_count = sizeof scenarios / sizeof scenarios[0];
