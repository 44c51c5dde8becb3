/* SPDX-License-Identifier: MIT */
/* The stone between the polars without the lens, and what tells it from others. */
#include "bench.h"

#include "interfig/retardation.h"

enum { SIZE = 12 };

/* The scene without a lens, and the pattern asked for. */
static IfigStatus bench_bare(const Scenario *scenario, Bench *bench, IfigTexture *texture)
{
    const IfigStatus status = bench_set_up(scenario, bench);
    bench->scene.instrument.lens = IFIG_LENS_NONE;
    *texture = (IfigTexture)IFIG_TEXTURE_INIT;
    texture->pattern = scenario->pattern;
    texture->stress_mpa = scenario->depth;
    return status;
}

static IfigStatus turn(const Scenario *scenario)
{
    IfigTexture texture;
    IfigBlink blink = IFIG_BLINK_INIT;
    static char text[4000];
    Bench bench;
    IfigStatus status = bench_bare(scenario, &bench, &texture);
    if (status == IFIG_OK) {
        status = ifig_blink(&bench.scene, &texture, &blink, NULL);
    }
    if (status == IFIG_OK) {
        status = ifig_blink_describe(&blink, text, sizeof text, NULL);
    }
    bench_take_down(&bench);
    return status;
}

static IfigStatus draw_face(const Scenario *scenario)
{
    IfigTexture texture;
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigFace *face = NULL;
    static uint8_t pixels[SIZE * SIZE * 3];
    Bench bench;
    options.pixels = SIZE;
    options.threads = scenario->threads > 0 ? scenario->threads : 1;
    IfigStatus status = bench_bare(scenario, &bench, &texture);
    if (status == IFIG_OK) {
        status = ifig_face_create(&bench.scene, &texture, &options, &face, NULL);
    }
    if (status == IFIG_OK) {
        status = ifig_face_render(face, IFIG_PIXELS_SRGB8, 0, SIZE, pixels, NULL);
    }
    ifig_face_free(face);
    bench_take_down(&bench);
    return status;
}

static IfigStatus hunt(const Scenario *scenario)
{
    IfigHunt found = IFIG_HUNT_INIT;
    static char text[4000];
    Bench bench;
    IfigStatus status = bench_set_up(scenario, &bench);
    if (status == IFIG_OK) {
        status = ifig_hunt(&bench.scene, &found, NULL);
    }
    if (status == IFIG_OK) {
        status = ifig_hunt_describe(&found, text, sizeof text, NULL);
    }
    bench_take_down(&bench);
    return status;
}

static IfigStatus draw_map(const Scenario *scenario)
{
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    static uint8_t pixels[SIZE * SIZE * 3];
    Bench bench;
    options.pixels = SIZE;
    options.threads = scenario->threads > 0 ? scenario->threads : 1;
    IfigStatus status = bench_set_up(scenario, &bench);
    if (status == IFIG_OK) {
        status = ifig_hunt_map(&bench.scene, &options, pixels, NULL);
    }
    bench_take_down(&bench);
    return status;
}

/* key against itself in all colours: what takes memory is the counting of rings and the colours. */
static IfigStatus contrast(const Scenario *scenario)
{
    IfigInstrument lens = IFIG_INSTRUMENT_INIT;
    IfigPairContrast found = IFIG_PAIR_CONTRAST_INIT;
    static char text[8000];
    Bench bench;
    IfigStatus status = bench_set_up(scenario, &bench);
    if (status == IFIG_OK) {
        const IfigStone first = {.species = bench.layer[0].species,
                                 .body_colour = bench.layer[0].body_colour},
                        second = {.species = bench.layer[0].species};
        status = ifig_contrast(&first, &second, &lens, 3.0, &found, NULL);
        if (status == IFIG_OK) {
            status = ifig_contrast_describe(&first, &second, &found, text, sizeof text, NULL);
        }
    }
    bench_take_down(&bench);
    return status;
}

static IfigStatus colours(const Scenario *scenario)
{
    static const double nm[] = {100, 300, 550, 1100};
    IfigRetardationColour colour[4];
    Bench bench;
    IfigStatus status = bench_set_up(scenario, &bench);
    if (status == IFIG_OK) {
        const IfigRetarder retarder = {.species = bench.layer[0].species};
        status = ifig_retardation_colours(bench.lamp, IFIG_POLARS_CROSSED, &retarder, nm, 4, colour,
                                          NULL);
    }
    bench_take_down(&bench);
    return status;
}

#define TURN(what, ...)                                                                            \
    {                                                                                              \
        .name = "turn " what, .run = turn, __VA_ARGS__                                             \
    }
#define FACE(what, ...)                                                                            \
    {                                                                                              \
        .name = "face " what, .run = draw_face, __VA_ARGS__                                        \
    }

const Scenario stone_scenarios[] = {
    TURN("of quartz", .key = "quartz"),
    TURN("of ruby", .key = "ruby"),
    TURN("of spinel", .key = "spinel"),
    TURN("of two layers", .key = "quartz", .layers = 2),
    TURN("of evenly strained diamond", .key = "diamond", .stress_mpa = 60),
    TURN("of diamond in bands", .key = "diamond", .pattern = IFIG_PATTERN_BANDS, .depth = 60),
    TURN("of twinned corundum", .key = "corundum", .pattern = IFIG_PATTERN_TWINS, .lamp = 5),
    TURN("of jadeite in grains", .key = "jadeite", .lamp = 5),
    FACE("of quartz", .key = "quartz"),
    FACE("of diamond in bands", .key = "diamond", .pattern = IFIG_PATTERN_BANDS, .depth = 60),
    FACE("of twinned corundum", .key = "corundum", .pattern = IFIG_PATTERN_TWINS),
    FACE("of Brazil twins", .key = "quartz", .pattern = IFIG_PATTERN_BRAZIL),
    FACE("of jadeite in grains", .key = "jadeite", .lamp = 5, .thickness_mm = 0.05),
    FACE("by two threads", .key = "quartz", .threads = 2, .may_do_without = 1),
    {.name = "hunt in quartz", .run = hunt, .key = "quartz"},
    {.name = "hunt in topaz in sodium light", .run = hunt, .key = "topaz_f", .lamp = 5},
    {.name = "map of topaz", .run = draw_map, .key = "topaz_f"},
    {.name = "map by two threads",
     .run = draw_map,
     .key = "quartz",
     .threads = 2,
     .may_do_without = 1},
    {.name = "two stones told apart", .run = contrast, .key = "ruby"},
    {.name = "colours of retardations", .run = colours, .key = "quartz"},
};
const size_t stone_scenario_count = sizeof stone_scenarios / sizeof stone_scenarios[0];
