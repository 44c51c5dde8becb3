/* SPDX-License-Identifier: MIT */
/* interfig chart: the colours of retardation, as a plate and as numbers. */
#include "chart.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "arguments.h"
#include "commands.h"
#include "describe.h"
#include "plot.h"
#include "recipe.h"
#include "scene.h"
#include "signals.h"

static const char DEFAULT_FILE[] = "chart.pdf";
static const double USUAL_MM = 0.06, LEAST_MM = 0.005, MOST_MM = 20.0;

static const char CAPTION[] =
    "How to read it: go from a stone's thickness at the left to the right until the colour below "
    "is "
    "the one seen; the slanting line there leads to the birefringence. Or lay a ruler from the "
    "corner at the bottom left to a species' dot, follow it to the thickness, and look down.";
static const char ON_STRIPS[] =
    " A stone on a strip is retarded by another share in blue and in red light, so it leaves the "
    "usual row of colours: their names and orders do not hold for it.";
static const char CAUTION[] =
    "Dots are typical values; a stone shows its full birefringence only along one direction, and "
    "stones vary. Inks reach fewer colours than the eye. A figure is evidence, not an "
    "identification: confirm it by refractive index, specific gravity or spectrum. Never look at "
    "the sun or any intense source through polarisers.";

static void write_title(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    (void)scene;
    fputs(settings->polars == IFIG_CLI_POLARS_PARALLEL
              ? "Interference colours between parallel polars"
              : "Interference colours: thickness, birefringence, retardation",
          out);
}

static void write_subtitle(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    fputs(settings->polars == IFIG_CLI_POLARS_PARALLEL ? "Parallel polars" : "Crossed polars", out);
    ifig_cli_describe_lamp(out, settings);
    fprintf(out,
            "; the stone at 45 degrees to the polars; an order is %s nm; species by their "
            "birefringence at 589.3 nm",
            ifig_cli_number(ifig_order_nm(scene->lamp)).text);
}

static void write_recipe(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    (void)scene;
    ifig_cli_write_recipe(out, settings, NULL, 0);
    if (settings->polars == IFIG_CLI_POLARS_PARALLEL) {
        fputs(" --polars parallel", out);
    }
}

static IfigCliStatus check_settings(IfigCliSettings *settings)
{
    if (settings->polars == IFIG_CLI_POLARS_CIRCULAR) {
        return ifig_cli_refuse(
            settings, "--polars: circular polars show the colours of crossed ones; allowed "
                      "on a chart: crossed or parallel; for example: --polars crossed");
    }
    if (!settings->given[IFIG_CLI_THICKNESS]) {
        settings->thickness_mm = USUAL_MM;
    }
    if (!(settings->thickness_mm >= LEAST_MM && settings->thickness_mm <= MOST_MM)) {
        return ifig_cli_refuse(settings,
                               "--thickness: '%s' is out of range; allowed at the top of a chart: "
                               "0.005 to 20 mm; for example: --thickness 0.06",
                               ifig_cli_number(settings->thickness_mm).text);
    }
    return IFIG_CLI_OK;
}

/* Only JSON was asked for where no file was named beside it. */
static int is_drawn(const IfigCliSettings *settings)
{
    return settings->output != NULL || !settings->given[IFIG_CLI_JSON];
}

static IfigCliStatus choose_file(IfigCliSettings *settings, int *keep)
{
    *keep = settings->output == NULL && !settings->given[IFIG_CLI_FORCE];
    if (*keep && access(DEFAULT_FILE, F_OK) == 0) {
        return ifig_cli_complain(IFIG_CLI_NO_CREATE,
                                 "'%s' exists; give --force to replace it or -o FILE for another "
                                 "name",
                                 DEFAULT_FILE);
    }
    settings->output = settings->output == NULL ? DEFAULT_FILE : settings->output;
    return IFIG_CLI_OK;
}

static IfigPageChart page_of(const IfigCliSettings *settings, const IfigCliChart *chart)
{
    IfigPageChart page = IFIG_PAGE_CHART_INIT;
    page.lamp = chart->scene.lamp;
    page.polars =
        settings->polars == IFIG_CLI_POLARS_PARALLEL ? IFIG_POLARS_PARALLEL : IFIG_POLARS_CROSSED;
    page.orders = settings->orders;
    page.thickness_mm = settings->thickness_mm;
    page.species = chart->species;
    page.species_count = chart->species_count;
    page.may_leave_out = chart->may_leave_out;
    page.strips = chart->strips;
    page.strip_count = chart->strip_count;
    return page;
}

static IfigCliStatus draw(IfigCliSettings *settings, const IfigCliChart *chart)
{
    IfigCliTextWriter *const writers[3] = {write_title, write_subtitle, write_recipe};
    const IfigPageChart page = page_of(settings, chart);
    IfigCliPlate plate;
    char caption[sizeof CAPTION + sizeof ON_STRIPS];
    IfigError error = IFIG_ERROR_INIT;
    int keep;
    IfigCliStatus ending = choose_file(settings, &keep);
    if (ending != IFIG_CLI_OK) {
        return ending;
    }
    ending = ifig_cli_open_plate(settings, &chart->scene, writers, &plate);
    if (ending == IFIG_CLI_OK) {
        plate.options.keep_existing = keep;
        snprintf(caption, sizeof caption, "%s%s", CAPTION, chart->strip_count > 0 ? ON_STRIPS : "");
        plate.words.caption = caption;
        plate.words.caution = CAUTION;
        ifig_cli_hold_signals();
        const IfigStatus status =
            ifig_page_chart(settings->output, &plate.options, &page, &plate.words, &error);
        ifig_cli_release_signals();
        ending = ifig_cli_end_plate(status, &error);
    }
    ifig_cli_close_plate(&plate);
    return ending;
}

static void say_result(const IfigCliSettings *settings, const IfigCliChart *chart)
{
    ifig_cli_print_word(stdout, settings->output);
    printf(": interference colours of 0 to %s nm",
           ifig_cli_number(ifig_order_nm(chart->scene.lamp) * settings->orders).text);
    ifig_cli_describe_lamp(stdout, settings);
    printf(", %s polars, to %s mm\n",
           settings->polars == IFIG_CLI_POLARS_PARALLEL ? "parallel" : "crossed",
           ifig_cli_number(settings->thickness_mm).text);
}

IfigCliStatus ifig_cli_run_chart(IfigCliSettings *settings)
{
    const IfigCliKept nothing = {NULL, NULL};
    IfigCliChart chart;
    memset(&chart, 0, sizeof chart);
    IfigCliStatus status = check_settings(settings);
    if (status == IFIG_CLI_OK) {
        status = ifig_cli_open_catalogue(settings, &nothing, &chart.scene.catalogue);
    }
    if (status == IFIG_CLI_OK) {
        status = ifig_cli_open_lamp(settings, &nothing, &chart.scene);
    }
    if (status == IFIG_CLI_OK) {
        status = ifig_cli_open_chart_species(settings, &chart);
    }
    if (status == IFIG_CLI_OK && is_drawn(settings)) {
        status = draw(settings, &chart);
    }
    if (status == IFIG_CLI_OK && settings->given[IFIG_CLI_JSON]) {
        status = ifig_cli_print_chart_json(settings, &chart);
    } else if (status == IFIG_CLI_OK) {
        say_result(settings, &chart);
    }
    ifig_cli_close_scene(&chart.scene);
    free(chart.marked_text);
    free(chart.strips_text);
    return status;
}
