/* SPDX-License-Identifier: MIT */
/* interfig species: the catalogue, or all that is known of one stone. */
#include <math.h>
#include <string.h>

#include "commands.h"
#include "describe.h"
#include "output.h"
#include "scene.h"
#include "species_colours.h"
#include "species_json.h"
#include "species_words.h"

/* Columns that a text of every species in the catalogue fits into, with a gap of two. */
static int column_width(const IfigCatalogue *catalogue, IfigSpeciesText column)
{
    int widest = 0;
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const char *text = ifig_species_text(ifig_catalogue_at(catalogue, i), column);
        const int columns = ifig_cli_columns(text);
        widest = columns > widest ? columns : widest;
    }
    return widest + 2;
}

static void print_padded(const char *text, int width)
{
    printf("%s%*s", text, width - ifig_cli_columns(text), "");
}

static void print_row(const IfigSpecies *species, int key_width, int name_width)
{
    IfigSpeciesFacts facts;
    double n[3];
    char indices[32] = "", angle[8] = "";
    if (ifig_species_facts(species, &facts, NULL) != IFIG_OK ||
        ifig_cli_named_indices(species, facts.character, 589.3, n) != IFIG_OK) {
        return;
    }
    int used = 0;
    for (int i = 0; i < ifig_cli_index_count(facts.character); i++) {
        used += snprintf(indices + used, sizeof indices - (size_t)used, "%s%.3f", i > 0 ? " " : "",
                         n[i]);
    }
    if (!isnan(facts.two_v_deg)) {
        snprintf(angle, sizeof angle, "%.0f", facts.two_v_deg);
    }
    const char *sign = facts.may_be_either_sign ? "+/-"
                       : facts.optic_sign > 0   ? "+"
                       : facts.optic_sign < 0   ? "-"
                                                : "";
    print_padded(ifig_species_text(species, IFIG_TEXT_KEY), key_width);
    print_padded(ifig_species_text(species, IFIG_TEXT_NAME), name_width);
    printf("%-9s %-5s%s", ifig_cli_character_name(facts.character), sign, indices);
    printf(angle[0] != '\0' ? " %s\n" : "%s\n", angle);
}

static void print_catalogue(const IfigCatalogue *catalogue)
{
    const int key_width = column_width(catalogue, IFIG_TEXT_KEY);
    const int name_width = column_width(catalogue, IFIG_TEXT_NAME);
    print_padded("key", key_width);
    print_padded("name", name_width);
    printf("%-9s %-5s%-17s %s\n", "character", "sign", "n at 589.3 nm", "2V");
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        print_row(ifig_catalogue_at(catalogue, i), key_width, name_width);
    }
}

static void print_field(const char *heading, const char *text)
{
    if (text[0] != '\0') {
        printf("%-*s", IFIG_CLI_HEADING, heading);
        ifig_cli_wrap(stdout, IFIG_CLI_HEADING, IFIG_CLI_HEADING, text);
    }
}

/* "0.009 to 0.010", where known. */
static void print_range(const char *heading, double low, double high, const char *unit)
{
    char text[96];
    if (isnan(low) || isnan(high)) {
        return;
    }
    if (low < high) {
        snprintf(text, sizeof text, "%s to %s%s", ifig_cli_number(low).text,
                 ifig_cli_number(high).text, unit);
    } else {
        snprintf(text, sizeof text, "%s%s", ifig_cli_number(low).text, unit);
    }
    print_field(heading, text);
}

static void print_lines(const IfigSpecies *species, const IfigSpeciesFacts *facts)
{
    const int count = ifig_cli_index_count(facts->character);
    char head[48];
    printf("\n%-*s", IFIG_CLI_HEADING, "line");
    for (int i = 0; i < count; i++) {
        printf("%-9s ", ifig_cli_index_name(facts->character, i));
    }
    printf("%s%s\n", facts->character == IFIG_BIAXIAL ? "2V deg   2E deg in air  " : "",
           facts->is_optically_active ? "rotation deg/mm" : "");
    for (int line = 0; line < IFIG_CLI_LINE_COUNT; line++) {
        const double wavelength = ifig_cli_lines[line].wavelength_nm;
        double n[3];
        IfigOpticAxes axes;
        if (ifig_cli_named_indices(species, facts->character, wavelength, n) != IFIG_OK) {
            continue;
        }
        snprintf(head, sizeof head, "%s, %s nm", ifig_cli_lines[line].name,
                 ifig_cli_number(wavelength).text);
        printf("%-*s", IFIG_CLI_HEADING, head);
        for (int i = 0; i < count; i++) {
            printf("%-9.5f ", n[i]);
        }
        if (facts->character == IFIG_BIAXIAL &&
            ifig_optic_axes(species, wavelength, &axes, NULL) == IFIG_OK) {
            const double two_e = ifig_apparent_optic_angle_deg(axes.n[1], axes.two_v_deg, 1.0);
            printf("%-8.2f ", axes.two_v_deg);
            if (isnan(two_e)) {
                printf("%-15s", "cannot emerge");
            } else {
                printf("%-15.2f", two_e);
            }
        }
        if (facts->is_optically_active) {
            printf("%.2f", ifig_species_rotation_deg_per_mm(species, wavelength));
        }
        fputc('\n', stdout);
    }
    fputc('\n', stdout);
}

static void print_optics(const IfigSpecies *species, const IfigSpeciesFacts *facts)
{
    char text[96];
    const char *sign = ifig_cli_sign_phrase(facts);
    snprintf(text, sizeof text, "%s%s%s%s%s", ifig_cli_character_name(facts->character),
             sign[0] != '\0' ? ", " : "", sign, sign[0] != '\0' ? " sign" : "",
             facts->is_opaque ? ", opaque" : "");
    print_field("character", text);
    print_range("indices met with", facts->n_low, facts->n_high, "");
    print_range("birefringence", facts->birefringence_low, facts->birefringence_high, "");
    const double two_v = round(facts->two_v_deg * 10.0) / 10.0;
    print_range("2V", two_v, two_v, " deg, typical");
    print_range("2V met with", facts->two_v_low_deg, facts->two_v_high_deg, " deg");
    print_range("dispersion B-G", facts->dispersion_bg, facts->dispersion_bg, "");
    const double per_tpa = ifig_species_stress_optic_per_tpa(species);
    print_range("stress-optic", per_tpa, per_tpa, " per TPa, tension positive");
    print_lines(species, facts);
    if (facts->monoclinic != IFIG_MONOCLINIC_NONE) {
        snprintf(text, sizeof text, "%s, the axes turn %s deg from C to F",
                 ifig_cli_monoclinic_name(facts->monoclinic),
                 ifig_cli_number(facts->axes_turn_deg).text);
        print_field("dispersion of axes", text);
    }
}

static void print_species(const IfigSpecies *species)
{
    IfigSpeciesFacts facts;
    if (ifig_species_facts(species, &facts, NULL) != IFIG_OK) {
        return;
    }
    print_field("key", ifig_species_text(species, IFIG_TEXT_KEY));
    print_field("name", ifig_species_text(species, IFIG_TEXT_NAME));
    print_field("varieties", ifig_species_text(species, IFIG_TEXT_VARIETIES));
    print_field("nature", ifig_species_text(species, IFIG_TEXT_NATURE));
    print_field("crystal system", ifig_species_text(species, IFIG_TEXT_CRYSTAL_SYSTEM));
    print_optics(species, &facts);
    print_field("axial dispersion", ifig_species_text(species, IFIG_TEXT_AXIAL_DISPERSION));
    print_field("orientation", ifig_species_text(species, IFIG_TEXT_ORIENTATION));
    print_field("pleochroism", ifig_species_text(species, IFIG_TEXT_PLEOCHROISM));
    ifig_cli_print_colours(species, facts.character);
    print_field("absorption", ifig_species_text(species, IFIG_TEXT_ABSORPTION));
    print_field("usual reaction", ifig_species_text(species, IFIG_TEXT_REACTION));
    print_field("notes", ifig_species_text(species, IFIG_TEXT_NOTES));
    print_field("sources", ifig_species_text(species, IFIG_TEXT_SOURCE));
    print_field("source of indices", ifig_species_text(species, IFIG_TEXT_INDEX_SOURCE));
}

IfigCliStatus ifig_cli_run_species(IfigCliSettings *settings)
{
    const IfigCliKept nothing = {NULL, NULL};
    const int is_json = settings->given[IFIG_CLI_JSON];
    IfigCatalogue *catalogue = NULL;
    const IfigSpecies *species = NULL;
    IfigCliStatus status = ifig_cli_open_catalogue(settings, &nothing, &catalogue);
    if (status == IFIG_CLI_OK && settings->word != NULL) {
        status = ifig_cli_find_species(settings, catalogue, &species);
    }
    if (status == IFIG_CLI_OK && is_json) {
        status = species != NULL ? ifig_cli_print_species_json(species)
                                 : ifig_cli_print_catalogue_json(catalogue);
    } else if (status == IFIG_CLI_OK && species != NULL) {
        print_species(species);
    } else if (status == IFIG_CLI_OK) {
        print_catalogue(catalogue);
    }
    ifig_catalogue_free(catalogue);
    return status;
}
