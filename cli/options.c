/* SPDX-License-Identifier: MIT */
#include "options.h"

#include "labelled.h"
#include "plate.h"
#include "texture.h"

#define TURN    IFIG_CLI_TURN
#define PICTURE (IFIG_CLI_FIGURE | TURN | IFIG_CLI_FACE)
#define CHART   IFIG_CLI_CHART
#define DRAWN   (IFIG_CLI_BLINK | IFIG_CLI_HUNT | IFIG_CLI_CONTRAST | CHART)
#define STONE   IFIG_CLI_OF_ONE_STONE
#define SEVERAL (IFIG_CLI_CONTRAST | IFIG_CLI_NARROW)
#define LENSED  (IFIG_CLI_FIGURE | TURN | IFIG_CLI_PROBE | IFIG_CLI_READING | SEVERAL)
#define BARE    (TURN | IFIG_CLI_BLINK | IFIG_CLI_FACE | IFIG_CLI_HUNT)
#define ASKED   IFIG_CLI_EXERCISE
#define EVERY                                                                                      \
    (STONE | SEVERAL | ASKED | IFIG_CLI_SPECIES | IFIG_CLI_PAGE | CHART | IFIG_CLI_COMPLETION |    \
     IFIG_CLI_HELP_COMMAND)
#define TOLD                                                                                       \
    (IFIG_CLI_PROBE | IFIG_CLI_READING | IFIG_CLI_BLINK | IFIG_CLI_HUNT | SEVERAL |                \
     IFIG_CLI_SPECIES | CHART)

#define AT(member) offsetof(IfigCliSettings, member)

const char *const ifig_cli_lamp_words[] = {"daylight",    "tungsten", "led",
                                           "fluorescent", "sodium",   NULL};
static const char *const polars_words[] = {"crossed", "parallel", "circular", NULL};
static const char *const what_words[] = {"stage", "tilt", "thickness", "plate", "analyser", NULL};
static const char *const labels_words[] = {"none", "basic", "full", NULL};
static const char *const lens_offers[] = {"sphere", "objective:0.65", "objective:0.85", NULL};
static const char *const polar_offers[] = {"left", "right", NULL};
static const char *const list_offers[] = {"uniaxial", "biaxial", "common", NULL};
static const char *const marked_offers[] = {"all", "none", NULL};
static const char *const strips_offers[] = {"none", NULL};
static const char *const of_words[] = {"figure", "face", NULL};

/* Several members a line: laid out one by one the table would take three screens more. */
/* clang-format off */
static const IfigCliOption table[IFIG_CLI_OPTION_COUNT] = { /* from IFIG_CLI_LENS on */
    [IFIG_CLI_LENS] = {
        .name = "lens", .tells_itself = 1, .argument = "LENS", .commands = LENSED,
        .group = IFIG_CLI_GROUP_INSTRUMENT,
        .help = "sphere[:INDEX], a glass ball of index 1.2 to 3 laid on the stone in a "
                "polariscope; or objective:NA, a microscope objective of NA 0.01 to below "
                "--immersion, with its condenser",
        .allowed = "sphere, sphere:1.2 to sphere:3, or objective:0.01 to objective:2.49975, with "
                   "NA below --immersion",
        .standard = "sphere:1.5", .example = "objective:0.85",
        .offers = lens_offers, .read = ifig_cli_read_lens, .write = ifig_cli_write_lens},
    [IFIG_CLI_FIELD] = {
        .name = "field", .argument = "DEG", .commands = LENSED,
        .group = IFIG_CLI_GROUP_INSTRUMENT,
        .help = "half angle at the rim of the picture, in the medium around the stone",
        .low = 0.1, .high = 89.9, .unit = "degrees",
        .standard = "55 (sphere), the whole aperture (objective)", .example = "30",
        .offset = AT(field_deg), .read = ifig_cli_read_plain, .write = ifig_cli_write_plain},
    [IFIG_CLI_CONE] = {
        .name = "cone", .argument = "DEG", .commands = BARE, .group = IFIG_CLI_GROUP_INSTRUMENT,
        .help = "half angle of the cone of rays that the bare eye takes in from one place of the "
                "stone",
        .low = 0.1, .high = 10, .unit = "degrees", .standard = "0.5", .example = "0.5",
        .offset = AT(cone_deg), .read = ifig_cli_read_plain, .write = ifig_cli_write_texture},
    [IFIG_CLI_IMMERSION] = {
        .name = "immersion", .argument = "INDEX", .commands = STONE | SEVERAL,
        .group = IFIG_CLI_GROUP_INSTRUMENT,
        .help = "refractive index of the liquid around the stone",
        .low = 1, .high = 2.5, .standard = "1 (air)", .example = "1.33",
        .offset = AT(immersion_index), .read = ifig_cli_read_plain, .write = ifig_cli_write_plain},
    [IFIG_CLI_LAMP] = {
        .name = "lamp", .tells_itself = 1, .argument = "LAMP",
        .commands = STONE | IFIG_CLI_CONTRAST | CHART,
        .group = IFIG_CLI_GROUP_INSTRUMENT,
        .help = "daylight (D65), tungsten (A), led (LED-B3), fluorescent (FL11), sodium (589.3 "
                "nm), a single wavelength, 380 to 780 nm, or a CSV file of wavelengths in nm and "
                "powers",
        .allowed = "daylight, tungsten, led, fluorescent, sodium, 380 to 780 nm, or a CSV file",
        .words = ifig_cli_lamp_words, .low = 380, .high = 780, .standard = "daylight",
        .example = "sodium",
        .read = ifig_cli_read_lamp, .write = ifig_cli_write_lamp},
    [IFIG_CLI_POLARISER] = {
        .name = "polariser", .argument = "DEG", .commands = STONE & ~IFIG_CLI_HUNT,
        .group = IFIG_CLI_GROUP_INSTRUMENT,
        .help = "azimuth of the lower polar, counter-clockwise from east; left or right: circular",
        .allowed = "-3600 to 3600 degrees, left or right", .low = -3600, .high = 3600,
        .standard = "0", .example = "45", .offset = AT(polariser),
        .offers = polar_offers, .read = ifig_cli_read_polar, .write = ifig_cli_write_polar},
    [IFIG_CLI_ANALYSER] = {
        .name = "analyser", .argument = "DEG", .commands = STONE & ~IFIG_CLI_HUNT,
        .group = IFIG_CLI_GROUP_INSTRUMENT, .help = "azimuth of the upper polar, likewise",
        .allowed = "-3600 to 3600 degrees, left or right", .low = -3600, .high = 3600,
        .standard = "polariser + 90", .example = "90", .offset = AT(analyser),
        .offers = polar_offers, .read = ifig_cli_read_polar, .write = ifig_cli_write_polar},
    [IFIG_CLI_POLARS] = {
        .name = "polars", .tells_itself = 1, .argument = "HOW",
        .commands = (STONE & ~IFIG_CLI_HUNT) | CHART,
        .group = IFIG_CLI_GROUP_INSTRUMENT,
        .help = "both polars at once: crossed, parallel, or circular (right below, left above: "
                "dark without a stone; not on a chart)",
        .allowed = "crossed, parallel or circular", .words = polars_words, .standard = "crossed",
        .example = "crossed", .offset = AT(polars), .read = ifig_cli_read_word},
    [IFIG_CLI_PLATE] = {
        .name = "plate", .tells_itself = 1, .argument = "PLATE", .commands = STONE & ~IFIG_CLI_HUNT,
        .group = IFIG_CLI_GROUP_INSTRUMENT,
        .help = "an accessory plate below the analyser: full-wave[:NM] (gypsum, 550 nm unless "
                "told), quarter-wave[:NM] (mica, 137.5) or wedge:NM (quartz), NM 0 to 100000",
        .allowed = "full-wave, quarter-wave, either with :NM, or wedge:NM; NM 0 to 100000 nm",
        .words = ifig_cli_plate_words, .low = 0, .high = 100000, .standard = "none",
        .example = "full-wave", .read = ifig_cli_read_plate, .write = ifig_cli_write_plate},
    [IFIG_CLI_PLATE_SLOW] = {
        .name = "plate-slow", .argument = "DEG", .commands = STONE & ~IFIG_CLI_HUNT,
        .group = IFIG_CLI_GROUP_INSTRUMENT,
        .help = "azimuth of the slow direction of the plate, counter-clockwise from east",
        .low = -3600, .high = 3600, .unit = "degrees", .standard = "45", .example = "45",
        .offset = AT(plate_slow_deg),
        .read = ifig_cli_read_plain, .write = ifig_cli_write_plate_slow},
    [IFIG_CLI_COUNT] = {
        .name = "count", .argument = "N", .commands = ASKED, .group = IFIG_CLI_GROUP_EXERCISE,
        .help = "how many questions, no two alike", .low = 1, .high = IFIG_EXERCISE_MOST,
        .unit = "questions", .standard = "12", .example = "12", .offset = AT(count),
        .read = ifig_cli_read_whole},
    [IFIG_CLI_FROM_LIST] = {
        .name = "from", .tells_itself = 1, .argument = "LIST", .commands = ASKED,
        .group = IFIG_CLI_GROUP_EXERCISE,
        .help = "the stones, with commas between them: keys, names, varieties, or the groups "
                "uniaxial, biaxial and common",
        .allowed = "stones with commas between them, or uniaxial, biaxial, common",
        .standard = "common", .example = "quartz,ruby,topaz_oh", .offset = AT(list),
        .offers = list_offers, .offered = IFIG_CLI_OFFERED_SPECIES_LIST,
        .read = ifig_cli_read_text},
    [IFIG_CLI_LEVEL] = {
        .name = "level", .tells_itself = 1, .argument = "1|2|3", .commands = ASKED,
        .group = IFIG_CLI_GROUP_EXERCISE,
        .help = "1: centred, a plate for the sign alone; 2: tilted by up to 15 degrees and turned; "
                "3: tilted by up to 28, one optic axis, thin and thick stones, plates",
        .allowed = "1 to 3", .low = 1, .high = 3, .standard = "1", .example = "2",
        .offset = AT(level), .read = ifig_cli_read_whole},
    [IFIG_CLI_TITLE] = {
        .name = "title", .tells_itself = 1, .argument = "TEXT", .commands = ASKED,
        .group = IFIG_CLI_GROUP_EXERCISE, .help = "at the head of the pages, at most 120 bytes",
        .allowed = "1 to 120 bytes of text in one line", .standard = "one of its own",
        .example = "'Evening class'", .offset = AT(title), .read = ifig_cli_read_title},
    [IFIG_CLI_OF] = {
        .name = "of", .tells_itself = 1, .argument = "figure|face", .commands = TURN,
        .group = IFIG_CLI_GROUP_MOTION,
        .help = "what is seen: the figure over a lens, or the stone's face without one",
        .allowed = "figure or face", .words = of_words, .standard = "figure", .example = "face",
        .offset = AT(of_face), .read = ifig_cli_read_word, .write = ifig_cli_write_texture},
    [IFIG_CLI_WHAT] = {
        .name = "what", .argument = "MOTION", .commands = TURN, .group = IFIG_CLI_GROUP_MOTION,
        .help = "what changes from frame to frame; plate: a quartz wedge is pushed in",
        .allowed = "stage, tilt, thickness, plate or analyser", .words = what_words,
        .standard = "stage", .example = "stage", .offset = AT(what),
        .read = ifig_cli_read_word, .write = ifig_cli_write_word},
    [IFIG_CLI_FROM] = {
        .name = "from", .tells_itself = 1, .argument = "N", .commands = TURN,
        .group = IFIG_CLI_GROUP_MOTION,
        .help = "where the first frame stands: degrees, mm (thickness) or nm (plate)",
        .allowed = "-3600 to 3600 degrees (stage, analyser), -180 to 180 degrees (tilt), 0.001 to "
                   "100 mm (thickness), 0 to 100000 nm (plate)",
        .low = -3600, .high = 100000, .standard = "0; thickness 0.1, analyser 90", .example = "10",
        .offset = AT(from), .read = ifig_cli_read_plain, .write = ifig_cli_write_plain},
    [IFIG_CLI_TO] = {
        .name = "to", .argument = "N", .commands = TURN, .group = IFIG_CLI_GROUP_MOTION,
        .help = "where the last frame stands",
        .allowed = "-3600 to 3600 degrees (stage, analyser), -180 to 180 degrees (tilt), 0.001 to "
                   "100 mm (thickness), 0 to 100000 nm (plate)",
        .low = -3600, .high = 100000,
        .standard = "90; tilt 30, thickness 3, plate 1650, analyser 180", .example = "60",
        .offset = AT(to), .read = ifig_cli_read_plain, .write = ifig_cli_write_plain},
    [IFIG_CLI_STEPS] = {
        .name = "steps", .argument = "N", .commands = TURN, .group = IFIG_CLI_GROUP_MOTION,
        .help = "how many frames, at equal steps, the first and the last among them", .low = 2,
        .high = 10000, .unit = "frames", .standard = "37", .example = "37", .offset = AT(steps),
        .read = ifig_cli_read_whole, .write = ifig_cli_write_whole},
    [IFIG_CLI_DELAY] = {
        .name = "delay", .argument = "MS", .commands = TURN, .group = IFIG_CLI_GROUP_MOTION,
        .help = "how long each frame is shown", .low = 10, .high = 60000, .unit = "milliseconds",
        .standard = "100", .example = "100", .offset = AT(delay_ms),
        .read = ifig_cli_read_whole, .write = ifig_cli_write_whole},
    [IFIG_CLI_AT] = {
        .name = "at", .argument = "THETA,PHI", .commands = IFIG_CLI_PROBE,
        .group = IFIG_CLI_GROUP_DIRECTION,
        .help = "the ray, in the medium around the stone: its angle to the line of sight and its "
                "azimuth",
        .allowed = "THETA 0 to 89.999 degrees, PHI -3600 to 3600 degrees", .low = 0, .high = 89.999,
        .standard = "0,0", .example = "20,45", .offset = AT(theta_deg), .read = ifig_cli_read_pair},
    [IFIG_CLI_WAVELENGTH] = {
        .name = "wavelength", .argument = "NM", .commands = IFIG_CLI_PROBE,
        .group = IFIG_CLI_GROUP_DIRECTION,
        .help = "the numbers at this wavelength, without the lamp's colour",
        .low = 380, .high = 780, .unit = "nm", .standard = "589.3, and the colour under the lamp",
        .example = "589.3", .offset = AT(wavelength_nm), .read = ifig_cli_read_plain},
    [IFIG_CLI_ORDERS] = {
        .name = "orders", .argument = "N", .commands = CHART, .group = IFIG_CLI_GROUP_CHART,
        .help = "how many orders of colour, each of 551 nm, or of the wavelength of a lamp of a "
                "single one",
        .low = 1, .high = 8, .unit = "orders", .standard = "5", .example = "5",
        .offset = AT(orders), .read = ifig_cli_read_whole, .write = ifig_cli_write_whole},
    [IFIG_CLI_MARKED] = {
        .name = "species", .tells_itself = 1, .argument = "LIST", .commands = CHART,
        .group = IFIG_CLI_GROUP_CHART,
        .help = "the species marked, with commas between them; all: every one of the catalogue "
                "whose name finds room; none",
        .allowed = "species with commas between them, all or none",
        .standard = "about fifty gemstones, as many as find room", .example = "quartz,topaz_f,ruby",
        .offers = marked_offers, .offered = IFIG_CLI_OFFERED_SPECIES_LIST,
        .offset = AT(marked), .read = ifig_cli_read_text, .write = ifig_cli_write_list},
    [IFIG_CLI_STRIPS] = {
        .name = "strips", .tells_itself = 1, .argument = "LIST", .commands = CHART,
        .group = IFIG_CLI_GROUP_CHART,
        .help = "one to four stones whose birefringence changes with wavelength, each with a strip "
                "of its own anomalous colours: SPECIES[:x|y|z], y unless told, with commas between "
                "them; x, y, z: the line of sight; none",
        .allowed = "one to four of SPECIES[:x|y|z] with commas between them, or none",
        .standard = "tanzanite:z,moissanite,sphene:z,brookite:z; none with a lamp of a single "
                    "wavelength",
        .example = "sphene:z,moissanite", .offset = AT(strips),
        .offers = strips_offers, .offered = IFIG_CLI_OFFERED_SPECIES_LIST,
        .read = ifig_cli_read_text, .write = ifig_cli_write_list},
    [IFIG_CLI_JSON] = {
        .name = "json", .commands = TOLD, .group = IFIG_CLI_GROUP_OTHER,
        .help = "print JSON (schema_version 1), every number to its last bit"},
    [IFIG_CLI_SIZE] = {
        .name = "size", .argument = "PX", .commands = PICTURE | ASKED,
        .group = IFIG_CLI_GROUP_PICTURE,
        .help = "width and height of the picture", .low = 1, .high = 65535, .unit = "pixels",
        .standard = "1024 (figure, face), 512 (turn), 600 (exercise: 100 to 4096)",
        .example = "1024", .offset = AT(size),
        .read = ifig_cli_read_whole, .write = ifig_cli_write_whole},
    [IFIG_CLI_DEPTH] = {
        .name = "depth", .tells_itself = 1, .argument = "8|16", .commands = PICTURE,
        .group = IFIG_CLI_GROUP_PICTURE,
        .help = "bits of each colour", .low = 8, .high = 16, .allowed = "8 or 16", .standard = "8",
        .example = "8", .offset = AT(depth),
        .read = ifig_cli_read_depth, .write = ifig_cli_write_whole},
    [IFIG_CLI_DPI] = {
        .name = "dpi", .argument = "N", .commands = PICTURE | DRAWN | IFIG_CLI_PAGE | ASKED,
        .group = IFIG_CLI_GROUP_PICTURE,
        .help = "pixels an inch when printed", .low = 1, .high = 100000, .unit = "pixels an inch",
        .standard = "300 (figure, turn, face), 200 (blink, hunt, contrast, exercise, chart: 50 to "
                    "1200), 300 (page: 50 to 1200)",
        .example = "300", .offset = AT(dpi),
        .read = ifig_cli_read_plain, .write = ifig_cli_write_plain},
    [IFIG_CLI_EXPOSURE] = {
        .name = "exposure", .argument = "STOPS", .commands = PICTURE,
        .group = IFIG_CLI_GROUP_PICTURE, .help = "brighter or darker: each stop doubles the light",
        .low = -20, .high = 20, .unit = "stops", .standard = "0", .example = "1",
        .offset = AT(exposure_stops), .read = ifig_cli_read_plain, .write = ifig_cli_write_plain},
    [IFIG_CLI_LABELS] = {
        .name = "labels", .argument = "HOW", .commands = IFIG_CLI_FIGURE,
        .group = IFIG_CLI_GROUP_PICTURE,
        .help = "none; basic: melatopes, an isogyre, the polars, an angle scale; or full: also the "
                "orders of the rings, vibration directions, optic axial plane, bisectrices, tilt",
        .allowed = "none, basic or full", .words = labels_words, .standard = "none",
        .example = "full", .offset = AT(labels),
        .read = ifig_cli_read_word, .write = ifig_cli_write_labels},
    [IFIG_CLI_OUTPUT] = {
        .name = "output", .tells_itself = 1, .letter = 'o', .argument = "FILE",
        .commands = PICTURE | DRAWN | IFIG_CLI_PAGE | ASKED,
        .group = IFIG_CLI_GROUP_PICTURE,
        .help = "where the picture goes; an older file is replaced, whole or not at all; - is "
                "standard output. figure, turn and face write a PNG; figure a sheet with its "
                "reading where the name ends in .pdf or .svg; blink, hunt, contrast and chart draw "
                "a plate, a PNG, PDF or SVG as the name ends, and take no -; page likewise, "
                "where - is a PDF; exercise fills a new folder",
        .allowed = "the name of a file, or -; of a folder (exercise)",
        .standard = "a name from species, view and thickness, which must not exist yet (figure, "
                    "turn, face); no picture (blink, hunt, contrast); "
                    "chart.pdf, likewise (chart)",
        .example = "figure.png", .offset = AT(output), .read = ifig_cli_read_text},
    [IFIG_CLI_FORCE] = {
        .name = "force", .commands = PICTURE | CHART | ASKED, .group = IFIG_CLI_GROUP_PICTURE,
        .help = "replace an older file of the default name, or the folder of an older exercise"},
    [IFIG_CLI_THREADS] = {
        .name = "threads", .argument = "N",
        .commands = PICTURE | IFIG_CLI_HUNT | IFIG_CLI_CONTRAST | ASKED,
        .group = IFIG_CLI_GROUP_PICTURE,
        .help = "processors to use; the picture does not depend on it", .low = 1, .high = 256,
        .standard = "all there are", .example = "2", .offset = AT(threads),
        .read = ifig_cli_read_whole},
    [IFIG_CLI_AGAIN] = {
        .name = "again", .tells_itself = 1, .argument = "FILE.png", .commands = PICTURE,
        .group = IFIG_CLI_GROUP_PICTURE,
        .help = "render a figure anew from the recipe inside it; goes with -o, --force and "
                "--threads alone",
        .allowed = "the name of a PNG that interfig wrote", .example = "quartz_c_3mm.png",
        .offset = AT(again), .read = ifig_cli_read_text},
    [IFIG_CLI_PRINT_RECIPE] = {
        .name = "print-recipe", .commands = STONE | SEVERAL | IFIG_CLI_SPECIES | IFIG_CLI_PAGE,
        .group = IFIG_CLI_GROUP_OTHER,
        .help = "make no picture; print the recipe that reproduces it, for 'interfig page'"},
    [IFIG_CLI_HELP] = {
        .name = "help", .letter = 'h', .commands = EVERY,
        .group = IFIG_CLI_GROUP_OTHER, .help = "this help"},
};
/* clang-format on */

const IfigCliOption *ifig_cli_option(int id)
{
    return id < IFIG_CLI_STONE_OPTION_COUNT ? &ifig_cli_stone_options[id] : &table[id];
}

IfigCliAllowed ifig_cli_allowed(const IfigCliOption *option)
{
    IfigCliAllowed allowed;
    if (option->allowed != NULL) {
        snprintf(allowed.text, sizeof allowed.text, "%s", option->allowed);
    } else {
        snprintf(allowed.text, sizeof allowed.text, "%s to %s%s%s",
                 ifig_cli_number(option->low).text, ifig_cli_number(option->high).text,
                 option->unit != NULL ? " " : "", option->unit != NULL ? option->unit : "");
    }
    return allowed;
}
