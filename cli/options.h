/* SPDX-License-Identifier: MIT */
/* The one table of options: the command line is read by it, the help and the recipe are written
 * from it. */
#ifndef IFIG_CLI_OPTIONS_H
#define IFIG_CLI_OPTIONS_H

#include <stdio.h>

#include "output.h"
#include "settings.h"

/* The commands, as bits. */
enum {
    IFIG_CLI_FIGURE = 1,
    IFIG_CLI_TURN = 2,
    IFIG_CLI_PROBE = 4,
    IFIG_CLI_READING = 8,
    IFIG_CLI_BLINK = 16,
    IFIG_CLI_FACE = 32,
    IFIG_CLI_HUNT = 64,
    IFIG_CLI_CONTRAST = 128,
    IFIG_CLI_NARROW = 256,
    IFIG_CLI_SPECIES = 512,
    IFIG_CLI_PAGE = 1024,
    IFIG_CLI_EXERCISE = 2048,
    IFIG_CLI_CHART = 4096,
    IFIG_CLI_COMPLETION = 8192,
    IFIG_CLI_HELP_COMMAND = 16384
};

/* Commands that look at one stone. */
enum {
    IFIG_CLI_OF_ONE_STONE = IFIG_CLI_FIGURE | IFIG_CLI_TURN | IFIG_CLI_PROBE | IFIG_CLI_READING |
                            IFIG_CLI_BLINK | IFIG_CLI_FACE | IFIG_CLI_HUNT
};

typedef enum IfigCliGroup {
    IFIG_CLI_GROUP_EXERCISE = 0,
    IFIG_CLI_GROUP_STONE,
    IFIG_CLI_GROUP_INSTRUMENT,
    IFIG_CLI_GROUP_MOTION,
    IFIG_CLI_GROUP_DIRECTION,
    IFIG_CLI_GROUP_CHART,
    IFIG_CLI_GROUP_PICTURE,
    IFIG_CLI_GROUP_OTHER,
    IFIG_CLI_GROUP_COUNT
} IfigCliGroup;

/* What is wrong with a value, for a message: "is not a number". */
typedef struct IfigCliWrong {
    char text[200];
} IfigCliWrong;

/* What a shell offers for a value beside IfigCliOption.offers. */
typedef enum IfigCliOffered {
    IFIG_CLI_OFFERED_WORDS = 0,
    IFIG_CLI_OFFERED_SPECIES_LIST, /* species with commas between them */
    IFIG_CLI_OFFERED_COLOUR        /* body colours */
} IfigCliOffered;

typedef struct IfigCliOption IfigCliOption;

/* Take a value into the settings: 1, or 0 and what is wrong with it. */
typedef int IfigCliReader(const IfigCliOption *option, const char *text, IfigCliSettings *settings,
                          IfigCliWrong *wrong);
/* Print the option as a recipe spells it, with a blank before it; nothing where it has no part. */
typedef void IfigCliWriter(FILE *out, const IfigCliOption *option, const IfigCliSettings *settings);

struct IfigCliOption {
    const char *name;
    char letter; /* 0: none */
    char may_repeat;
    char tells_itself;       /* the help already says what is allowed */
    unsigned char group;     /* IfigCliGroup */
    unsigned short commands; /* bits */
    const char *argument;    /* NULL: a switch, which takes no value */
    const char *help;
    const char *standard; /* the default, in words; NULL: none */
    const char *example;  /* a value that works */
    const char *allowed;  /* in words; NULL: low to high, unit */
    double low, high;
    const char *unit;
    const char *const *words;  /* a closed choice, ends with NULL; the first word stands for low */
    const char *const *offers; /* words that a shell completes, other values being allowed too; ends
                                  with NULL; NULL: those of the closed choice */
    unsigned char offered;     /* IfigCliOffered */
    size_t offset;             /* of the plain value in the settings */
    IfigCliReader *read;       /* NULL: a switch */
    IfigCliWriter *write;      /* NULL: no part of a recipe */
};

/* The options about the stone, a table of their own; options.c holds the rest. */
enum { IFIG_CLI_STONE_OPTION_COUNT = IFIG_CLI_OBSERVED + 1 };
extern const IfigCliOption ifig_cli_stone_options[IFIG_CLI_STONE_OPTION_COUNT];
/* An option by its place, 0 <= id < IFIG_CLI_OPTION_COUNT. */
const IfigCliOption *ifig_cli_option(int id);

/* The allowed values in words: "0.001 to 100 mm". */
typedef struct IfigCliAllowed {
    char text[160];
} IfigCliAllowed;
IfigCliAllowed ifig_cli_allowed(const IfigCliOption *option);

/* readers.c: the values; writers.c: the recipe. */
IfigCliReader ifig_cli_read_plain, ifig_cli_read_whole, ifig_cli_read_word, ifig_cli_read_text;
IfigCliReader ifig_cli_read_indices, ifig_cli_read_pair, ifig_cli_read_lens, ifig_cli_read_lamp;
IfigCliReader ifig_cli_read_title, ifig_cli_read_polar, ifig_cli_read_species_file,
    ifig_cli_read_depth;
IfigCliWriter ifig_cli_write_plain, ifig_cli_write_whole, ifig_cli_write_word;
IfigCliWriter ifig_cli_write_indices, ifig_cli_write_pair, ifig_cli_write_lens;
IfigCliWriter ifig_cli_write_list, ifig_cli_write_lamp, ifig_cli_write_polar,
    ifig_cli_write_species_file;

/* The views and lamps by name; each ends with NULL. */
extern const char *const ifig_cli_view_words[];
extern const char *const ifig_cli_lamp_words[];

#endif
