/* SPDX-License-Identifier: MIT */
#include "commands.h"

#include <string.h>

#include "describe.h"
#include "options.h"

static const char EVIDENCE[] =
    "A figure is evidence, not an identification: confirm it by refractive index, specific gravity "
    "or spectrum.";
static const char EYES[] = IFIG_CLI_EYES;

static const char STONE[] =
    "SPECIES is a key, a name or a variety from 'interfig species': quartz, 'rock crystal', ruby.";
static const char FACETS[] =
    "The stone is a plate with flat, parallel faces; light that runs crosswise through a faceted "
    "stone, or comes back from its facets, can light what should be dark.";

static const IfigCliCommand commands[] = {
    {IFIG_CLI_FIGURE,
     "figure",
     "the interference figure that a stone should show",
     {"SPECIES [options]", "--again FILE.png [-o NEW.png]"},
     {"interfig figure quartz",
      "interfig figure topaz_f --lens objective:0.9 --stage 45 --labels full -o topaz.pdf",
      "interfig figure --indices 1.544,1.553 --lamp sodium --size 512 -o mine.png"},
     {STONE,
      "The stone is a plate with flat, parallel faces, colourless unless a variety such as ruby, "
      "or --colour, gives it a body colour; a faceted stone bends and dims its figure.",
      EVIDENCE, EYES},
     ifig_cli_run_figure},
    {IFIG_CLI_TURN,
     "turn",
     "a figure that moves, as an animated PNG picture",
     {"SPECIES [options]", "--again FILE.png [-o NEW.png]"},
     {"interfig turn muscovite --thickness 0.1 --size 256 -o turning.png",
      "interfig turn quartz --what thickness --from 0.5 --to 8 --steps 6",
      "interfig turn calcite --thickness 0.1 --what plate --to 1100 --steps 5"},
     {STONE,
      "The first frame stands at --from, the last at --to, the others at equal steps between them; "
      "a viewer that knows no animated PNG shows the first. "
      "With --what tilt, --tilt 0,AZIMUTH says toward where.",
      EVIDENCE, EYES},
     ifig_cli_run_figure},
    {IFIG_CLI_PROBE,
     "probe",
     "the numbers at one direction: retardation, Jones matrix, colour",
     {"SPECIES [options]", NULL},
     {"interfig probe calcite --thickness 1 --at 20,45",
      "interfig probe quartz --wavelength 546.1 --json",
      "interfig probe --indices 1.61,1.612,1.618 --view y --polars parallel"},
     {STONE,
      "The retardation is exact: 2 d h, with no small-angle formula in it. The Jones matrix has "
      "rows "
      "out and columns in, p in the plane of the ray and the line of sight, s across it; its "
      "overall "
      "phase is free.",
      EVIDENCE, EYES},
     ifig_cli_run_probe},
    {IFIG_CLI_READING,
     "reading",
     "what a trained eye reads off a figure: axes, rings, brushes, sign",
     {"SPECIES [options]", NULL},
     {"interfig reading topaz_f --stage 45", "interfig reading quartz --json",
      "interfig reading muscovite --thickness 0.5 --lens objective:0.85"},
     {STONE,
      "Each word is drawn from the waves that make the picture. Angles are those of the rays in "
      "the "
      "medium around the stone; azimuths count counter-clockwise from east.",
      EVIDENCE, EYES},
     ifig_cli_run_reading},
    {IFIG_CLI_BLINK,
     "blink",
     "the stone turned between the polars without a lens, and the verdict",
     {"SPECIES [options]", NULL},
     {"interfig blink quartz", "interfig blink glass --stress 20 --json",
      "interfig blink corundum --view c"},
     {"SPECIES as in 'interfig species': quartz, 'rock crystal', ruby; aggregates such as "
      "chalcedony too. It is looked at away from its optic axes unless --view says otherwise.",
      FACETS, EVIDENCE, EYES},
     ifig_cli_run_blink},
    {IFIG_CLI_FACE,
     "face",
     "the stone's face between the polars without a lens, as a PNG picture",
     {"SPECIES [options]", "--again FILE.png [-o NEW.png]"},
     {"interfig face glass --pattern snake --size 256 -o strained.png",
      "interfig face quartz --pattern brazil --size 256",
      "interfig face chalcedony --size 256 --stage 30"},
     {"SPECIES as in 'interfig species': quartz, 'rock crystal', ruby; aggregates such as "
      "chalcedony too. It is looked at away from its optic axes unless --view says otherwise.",
      FACETS, EVIDENCE, EYES},
     ifig_cli_run_figure},
    {IFIG_CLI_HUNT,
     "hunt",
     "where the patch of spectrum colours lies, and how to turn to it",
     {"SPECIES [options]", NULL},
     {"interfig hunt quartz", "interfig hunt topaz_f --thickness 5", "interfig hunt iolite --json"},
     {STONE,
      "The stone is thought of as a ball, so that every direction has the same thickness. The "
      "patch "
      "holds the directions with a retardation of less than four orders.",
      EVIDENCE, EYES},
     ifig_cli_run_hunt},
    {IFIG_CLI_CONTRAST,
     "contrast",
     "what tells two to six stones apart, surest first",
     {"SPECIES SPECIES [SPECIES ...] [options]", NULL},
     {"interfig contrast ruby almandine", "interfig contrast aquamarine topaz_f --json",
      "interfig contrast moissanite diamond cubic_zirconia"},
     {STONE,
      "Ranges count, not typical values: a clue separates two stones only where all that is met "
      "with in the one lies outside all that is met with in the other.",
      EVIDENCE, EYES},
     ifig_cli_run_contrast},
    {IFIG_CLI_NARROW,
     "narrow",
     "which stones fit what was seen, and what to look at next",
     {"--observed KEY=VALUE [KEY=VALUE ...] [options]", NULL},
     {"interfig narrow --observed character=uniaxial sign=+",
      "interfig narrow --observed index=1.54-1.56 --observed bulls-eye=yes",
      "interfig narrow --observed reaction=SR --observed colour=red --json"},
     {"Several species fit most observations, and stones outside the catalogue may fit as well: "
      "this list is where to look next, never a name for the stone.",
      EVIDENCE, EYES, NULL},
     ifig_cli_run_narrow},
    {IFIG_CLI_PAGE,
     "page",
     "a handout of labelled figures, ready to print, from a recipe",
     {"RECIPE.yaml -o FILE.pdf [options]", NULL},
     {"interfig page first_figures.yaml -o first_figures.pdf",
      "interfig page first_figures.yaml -o first_figures.png --dpi 100",
      "interfig page first_figures.yaml --print-recipe"},
     {"RECIPE.yaml is text. At its head: title, subtitle, paper (a4, letter, or either, which "
      "prints unscaled on both), columns (1 to 4), diameter (of the figures, mm), pages (the most "
      "there may be), intro, notes, and figures, a list. Of each figure: stone, any option of "
      "'interfig figure' by its name (thickness: 3), show (figure, or face with the options of "
      "'interfig face'), title, caption (your words, or reading), reading (full, short, none), "
      "labels (none, basic, full), sketch (yes: an empty circle), observe (a list of lines to fill "
      "in), photo (a PNG or JPEG; file, circle: found or [x, y, radius], turn), new-page (yes).",
      "The shortest recipe: {title: First figures, figures: [{stone: quartz}, {stone: topaz_f}]}. "
      "'interfig figure quartz --print-recipe' prints one to begin with. Print at 100 % and check "
      "the ruler of 50 mm. Of PNG and SVG, further pages go to NAME-2 and so on.",
      EVIDENCE, EYES},
     ifig_cli_run_page},
    {IFIG_CLI_EXERCISE,
     "exercise",
     "questions on figures for a class, and the answers, in a folder",
     {"-o DIR [options]", NULL},
     {"interfig exercise -o tonight",
      "interfig exercise --count 4 --from quartz,ruby,topaz_oh --seed 7 -o small",
      "interfig exercise --level 2 --count 6 --title 'Tern Harbour evening class' -o club"},
     {"DIR then holds exercise.pdf for the class, answers.pdf, the figures q01.png and so on, and "
      "exercise.csv and exercise.json for a learning platform; both tables hold the answers. It is "
      "filled whole or not made at all.",
      "Common stones are quartz, corundum, aquamarine, tourmaline_elbaite, zircon_high, "
      "moissanite, "
      "apatite, calcite, topaz_f, topaz_oh, tanzanite, sinhalite, sillimanite, barite, gypsum, "
      "orthoclase "
      "and muscovite. The same list, count, level and seed give the same files.",
      EVIDENCE, EYES},
     ifig_cli_run_exercise},
    {IFIG_CLI_CHART,
     "chart",
     "the chart of interference colours, with species on it",
     {"[options]", NULL},
     {"interfig chart -o colours.pdf",
      "interfig chart --lamp tungsten --orders 3 --thickness 0.03 -o section.svg",
      "interfig chart --thickness 1 --species ruby,quartz,apatite --strips none --json"},
     {"A plate of one stone in white light, at 45 degrees between the polars. The usual colours "
      "have one retardation at all wavelengths; a stone on a strip has its own, drawn against the "
      "retardation at 589.3 nm.",
      "Species stand where their typical birefringence is; a stone shows it in full only along one "
      "direction, and stones vary.",
      EVIDENCE, EYES},
     ifig_cli_run_chart},
    {IFIG_CLI_SPECIES,
     "species",
     "the catalogue: every stone it knows, or all about one",
     {"[NAME] [options]", NULL},
     {"interfig species", "interfig species ruby", "interfig species 'topaz_f' --json"},
     {"NAME is a key, a name or a variety, in any case: ruby finds corundum.",
      "A file of your own for --species-file looks like this: "
      "species: [{key: club_topaz, name: Club topaz, n: [1.609, 1.612, 1.619], two_v_deg: 62}]",
      EVIDENCE, NULL},
     ifig_cli_run_species},
    {IFIG_CLI_COMPLETION,
     "completion",
     "what a shell needs to complete interfig's words",
     {"SHELL", NULL},
     {"interfig completion bash", "interfig completion zsh", "interfig completion fish"},
     {"SHELL is bash, zsh or fish. An installed interfig has brought the three already; else keep "
      "what is printed where your shell looks for it.",
      NULL, NULL, NULL},
     ifig_cli_run_completion},
    {IFIG_CLI_HELP_COMMAND,
     "help",
     "help on a command, or on the exit statuses",
     {"[COMMAND | exit-codes]", NULL},
     {"interfig help", "interfig help figure", "interfig help exit-codes"},
     {NULL, NULL, NULL, NULL},
     ifig_cli_run_help},
};

enum { COMMAND_COUNT = sizeof commands / sizeof commands[0] };

const IfigCliCommand *ifig_cli_command(int index)
{
    return index < COMMAND_COUNT ? &commands[index] : NULL;
}

const IfigCliCommand *ifig_cli_find_command(const char *name)
{
    for (int i = 0; i < COMMAND_COUNT; i++) {
        if (strcmp(commands[i].name, name) == 0) {
            return &commands[i];
        }
    }
    return NULL;
}

const char *ifig_cli_command_name(int bit)
{
    for (int i = 0; i < COMMAND_COUNT; i++) {
        if (commands[i].bit == bit) {
            return commands[i].name;
        }
    }
    return "";
}

IfigCliCommandNames ifig_cli_command_names(void)
{
    IfigCliCommandNames names = {""};
    size_t used = 0;
    for (int i = 0; i < COMMAND_COUNT && used < sizeof names.text; i++) {
        const char *gap = i == 0 ? "" : i + 1 < COMMAND_COUNT ? ", " : " and ";
        used += (size_t)snprintf(names.text + used, sizeof names.text - used, "%s%s", gap,
                                 commands[i].name);
    }
    return names;
}

/* "interfig quartz": the newcomer knows the stone, not yet the command. */
static int is_species(const char *word)
{
    IfigCatalogue *catalogue;
    const IfigSpecies *species;
    int found = 0;
    if (ifig_catalogue_create(&catalogue, NULL) == IFIG_OK) {
        found = ifig_catalogue_find(catalogue, word, &species, NULL) == IFIG_OK;
        ifig_catalogue_free(catalogue);
    }
    return found;
}

IfigCliStatus ifig_cli_refuse_command(const char *word)
{
    const char *names[COMMAND_COUNT];
    for (int i = 0; i < COMMAND_COUNT; i++) {
        names[i] = commands[i].name;
    }
    const char *nearest = ifig_nearest_word(word, names, COMMAND_COUNT);
    const IfigCliShown shown = ifig_cli_shown(word);
    if (nearest == NULL && is_species(word)) {
        return ifig_cli_complain(IFIG_CLI_USAGE,
                                 "'%s' is a stone, not a command; type: interfig figure '%s'",
                                 shown.text, shown.text);
    }
    if (nearest == NULL) {
        return ifig_cli_complain(IFIG_CLI_USAGE, "unknown command '%s'; the commands are %s",
                                 shown.text, ifig_cli_command_names().text);
    }
    return ifig_cli_complain(IFIG_CLI_USAGE,
                             "unknown command '%s'; did you mean %s? The commands are %s",
                             shown.text, nearest, ifig_cli_command_names().text);
}
