/* SPDX-License-Identifier: MIT */
/* The options about the stone; options.c holds the rest. */
#include "colour.h"
#include "layers.h"
#include "observed.h"
#include "options.h"
#include "range.h"
#include "strain.h"
#include "texture.h"

#define FIGURE    (IFIG_CLI_FIGURE | IFIG_CLI_TURN) /* turn takes all that figure takes */
#define STONE     IFIG_CLI_OF_ONE_STONE
#define SEVERAL   (IFIG_CLI_CONTRAST | IFIG_CLI_NARROW)
#define PATTERNED (IFIG_CLI_TURN | IFIG_CLI_BLINK | IFIG_CLI_FACE)
#define LAYERED   (FIGURE | IFIG_CLI_PROBE | IFIG_CLI_BLINK | IFIG_CLI_FACE)
#define SPECIES   IFIG_CLI_SPECIES

#define AT(member) offsetof(IfigCliSettings, member)

const char *const ifig_cli_view_words[] = {
    "c", "optic-axis", "acute-bisectrix", "obtuse-bisectrix", "optic-normal", "x", "y", "z", NULL};
static const char *const hand_words[] = {"right", "left", NULL};

/* Several members a line: laid out one by one the table would take three screens more. */
/* clang-format off */
const IfigCliOption ifig_cli_stone_options[IFIG_CLI_STONE_OPTION_COUNT] = {
    [IFIG_CLI_INDICES] = {
        .name = "indices", .tells_itself = 1, .argument = "N[,N[,N]]", .commands = STONE,
        .group = IFIG_CLI_GROUP_STONE,
        .help = "measured refractive indices in place of SPECIES: one (singly refractive), two "
                "(omega, epsilon) or three (alpha, beta, gamma), each 1 to 5; no dispersion",
        .allowed = "one, two or three numbers from 1 to 5, rising where they are three",
        .low = 1, .high = 5, .example = "1.544,1.553",
        .read = ifig_cli_read_indices, .write = ifig_cli_write_indices},
    [IFIG_CLI_ROTATION] = {
        .name = "rotation", .argument = "DEG_PER_MM", .commands = STONE,
        .group = IFIG_CLI_GROUP_STONE,
        .help = "optical rotation of a stone given by --indices, positive right-handed",
        .low = -100000, .high = 100000, .unit = "degrees per mm", .standard = "0",
        .example = "21.7",
        .offset = AT(rotation_deg_per_mm),
        .read = ifig_cli_read_plain, .write = ifig_cli_write_plain},
    [IFIG_CLI_HAND] = {
        .name = "hand", .tells_itself = 1, .argument = "right|left", .commands = STONE,
        .group = IFIG_CLI_GROUP_STONE, .help = "hand of an optically active species such as quartz",
        .allowed = "right or left", .words = hand_words, .standard = "right", .example = "left",
        .offset = AT(hand), .read = ifig_cli_read_word, .write = ifig_cli_write_word},
    [IFIG_CLI_COLOUR] = {
        .name = "colour", .tells_itself = 1, .argument = "NAME", .commands = STONE,
        .group = IFIG_CLI_GROUP_STONE,
        .help = "a body colour of the species, as 'interfig species NAME' lists them; a variety "
                "such as ruby brings its own",
        .allowed = "a body colour that 'interfig species NAME' lists", .example = "'blue sapphire'",
        .standard = "that of the variety named as SPECIES, if any", .offset = AT(colour_word),
        .offered = IFIG_CLI_OFFERED_COLOUR,
        .read = ifig_cli_read_text, .write = ifig_cli_write_colour},
    [IFIG_CLI_COLOURLESS] = {
        .name = "colourless", .commands = STONE, .group = IFIG_CLI_GROUP_STONE,
        .help = "leave the body colour of a variety out", .write = ifig_cli_write_colourless},
    [IFIG_CLI_LAYERS] = {
        .name = "layers", .tells_itself = 1, .argument = "LAYER,LAYER...",
        .commands = LAYERED, .group = IFIG_CLI_GROUP_STONE,
        .help = "2 to 4 layers in place of SPECIES and --thickness, each SPECIES:HAND:MM; HAND is "
                "right, left, or an azimuth in degrees by which the layer is turned about the line "
                "of sight; light enters the first",
        .allowed = "2 to 4 of SPECIES:HAND:MM with commas between; HAND right, left or -3600 to "
                   "3600 degrees; MM 0.001 to 100",
        .low = 0.001, .high = 100, .example = "quartz:right:2.5,quartz:left:2.5",
        .read = ifig_cli_read_layers, .write = ifig_cli_write_layers},
    [IFIG_CLI_SPECIES_FILE] = {
        .name = "species-file", .tells_itself = 1, .argument = "FILE.yaml",
        .commands = STONE | SEVERAL | SPECIES | IFIG_CLI_CHART | IFIG_CLI_EXERCISE,
        .group = IFIG_CLI_GROUP_STONE, .may_repeat = 1,
        .help = "add the species of this file to the catalogue; may be given 16 times",
        .allowed = "the name of a YAML file", .example = "mine.yaml",
        .read = ifig_cli_read_species_file, .write = ifig_cli_write_species_file},
    [IFIG_CLI_THICKNESS] = {
        .name = "thickness", .argument = "MM", .commands = STONE | SEVERAL | IFIG_CLI_CHART,
        .group = IFIG_CLI_GROUP_STONE, .help = "thickness of the stone along the line of sight",
        .low = 0.001, .high = 100, .unit = "mm",
        .standard = "3 (chart: 0.06, the top of its axis, 0.005 to 20)", .example = "3",
        .offset = AT(thickness_mm), .read = ifig_cli_read_plain, .write = ifig_cli_write_plain},
    [IFIG_CLI_VIEW] = {
        .name = "view", .argument = "DIRECTION", .commands = STONE,
        .group = IFIG_CLI_GROUP_STONE, .help = "the direction of the crystal that looks at you",
        .allowed = "c, optic-axis, acute-bisectrix, obtuse-bisectrix, optic-normal, x, y or z",
        .words = ifig_cli_view_words, .low = IFIG_VIEW_C,
        .standard = "the optic axis (uniaxial), the acute bisectrix (biaxial), z (isotropic); "
                    "blink and face: away from the axes, x, optic-normal, z, but c with "
                    "--pattern brazil",
        .example = "optic-axis", .offset = AT(view),
        .read = ifig_cli_read_word, .write = ifig_cli_write_word},
    [IFIG_CLI_TILT] = {
        .name = "tilt", .argument = "DEG[,AZIMUTH]", .commands = STONE,
        .group = IFIG_CLI_GROUP_STONE,
        .help = "lean the viewed direction away from the centre, inside the stone, toward an "
                "azimuth counted counter-clockwise from east",
        .allowed = "-180 to 180 degrees, azimuth -3600 to 3600 degrees", .low = -180, .high = 180,
        .standard = "0,0", .example = "10,45", .offset = AT(tilt_deg),
        .read = ifig_cli_read_pair, .write = ifig_cli_write_pair},
    [IFIG_CLI_STAGE] = {
        .name = "stage", .argument = "DEG", .commands = STONE & ~IFIG_CLI_HUNT,
        .group = IFIG_CLI_GROUP_STONE, .help = "turn the stone counter-clockwise",
        .low = -3600, .high = 3600, .unit = "degrees", .standard = "0", .example = "45",
        .offset = AT(stage_deg), .read = ifig_cli_read_plain, .write = ifig_cli_write_plain},
    [IFIG_CLI_STRAIN] = {
        .name = "strain", .argument = "MPA[,AZIMUTH]", .commands = FIGURE | IFIG_CLI_PROBE,
        .group = IFIG_CLI_GROUP_STONE,
        .help = "a uniform stress across the line of sight, tension positive, along an azimuth "
                "that turns with the stage",
        .allowed = "-10000 to 10000 MPa, azimuth -3600 to 3600 degrees", .low = -10000,
        .high = 10000, .standard = "0,0", .example = "50,30", .offset = AT(stress_mpa),
        .read = ifig_cli_read_pair, .write = ifig_cli_write_strain},
    [IFIG_CLI_RANGE] = {
        .name = "range", .argument = "2V|birefringence", .commands = IFIG_CLI_FIGURE,
        .group = IFIG_CLI_GROUP_STONE,
        .help = "three figures side by side: the lowest, the typical and the highest value met "
                "with in the species, without body colour",
        .allowed = "2V or birefringence", .words = ifig_cli_range_words, .low = IFIG_CLI_RANGE_2V,
        .example = "2V", .offset = AT(range),
        .read = ifig_cli_read_word, .write = ifig_cli_write_word},
    [IFIG_CLI_PATTERN] = {
        .name = "pattern", .tells_itself = 1, .argument = "PATTERN", .commands = PATTERNED,
        .group = IFIG_CLI_GROUP_STONE,
        .help = "what runs through the stone: strain in bands, cross-hatch, snake or inclusion (a "
                "sphere that does not fit its place); twins (lamellae), brazil (wedges of left in "
                "right quartz), grains, or plain",
        .allowed = "plain, bands, cross-hatch, snake, inclusion, twins, brazil or grains",
        .words = ifig_cli_pattern_words, .low = IFIG_PATTERN_PLAIN,
        .standard = "plain; grains for an aggregate; with --stress, snake for what is amorphous "
                    "and cross-hatch for crystals",
        .example = "cross-hatch", .offset = AT(pattern),
        .read = ifig_cli_read_word, .write = ifig_cli_write_texture},
    [IFIG_CLI_STRESS] = {
        .name = "stress", .argument = "MPA", .commands = PATTERNED, .group = IFIG_CLI_GROUP_STONE,
        .help = "greatest stress of a strain pattern, or the pressure on an inclusion; tension "
                "positive",
        .low = -10000, .high = 10000, .unit = "MPa",
        .standard = "20 with a strain pattern, else none", .example = "20",
        .offset = AT(pattern_stress_mpa),
        .read = ifig_cli_read_plain, .write = ifig_cli_write_texture},
    [IFIG_CLI_WIDTH] = {
        .name = "width", .argument = "MM", .commands = PATTERNED, .group = IFIG_CLI_GROUP_STONE,
        .help = "of the face, which a pattern is laid across", .low = 0.1, .high = 100,
        .unit = "mm", .standard = "8", .example = "8", .offset = AT(width_mm),
        .read = ifig_cli_read_plain, .write = ifig_cli_write_texture},
    [IFIG_CLI_GRAIN] = {
        .name = "grain", .argument = "MM", .commands = PATTERNED, .group = IFIG_CLI_GROUP_STONE,
        .help = "size of the grains of an aggregate", .low = 0.001, .high = 10, .unit = "mm",
        .standard = "the species' own", .example = "0.05", .offset = AT(grain_mm),
        .read = ifig_cli_read_plain, .write = ifig_cli_write_texture},
    [IFIG_CLI_SEED] = {
        .name = "seed", .argument = "N", .commands = PATTERNED | IFIG_CLI_EXERCISE,
        .group = IFIG_CLI_GROUP_STONE,
        .help = "of what is random in a pattern or an exercise: the same seed gives the same one",
        .low = 0,
        .high = 2147483647, .standard = "1", .example = "1", .offset = AT(seed),
        .read = ifig_cli_read_whole, .write = ifig_cli_write_texture},
    [IFIG_CLI_OBSERVED] = {
        .name = "observed", .tells_itself = 1, .argument = "KEY=VALUE",
        .commands = IFIG_CLI_NARROW, .group = IFIG_CLI_GROUP_STONE, .may_repeat = 1,
        .help = "what was seen: reaction=SR|DR|AGG|ADR, character=isotropic|uniaxial|biaxial, "
                "sign=+|-, two-v=DEG, rings=N, bulls-eye=yes|no, colour=HUE, index=N, "
                "birefringence=N; a number may be a range such as 1.54-1.55; may be given 32 times",
        .allowed = "KEY=VALUE", .example = "reaction=DR", .read = ifig_cli_read_observed},
};
/* clang-format on */
