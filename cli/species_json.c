/* SPDX-License-Identifier: MIT */
#include "species_json.h"

#include <math.h>
#include <string.h>

#include "describe.h"
#include "json.h"
#include "species_colours.h"
#include "species_words.h"

static json_t *sign_of(const IfigSpeciesFacts *facts)
{
    const char *sign = ifig_cli_sign_phrase(facts);
    return sign[0] != '\0' ? json_string(sign) : json_null();
}

/* A number; where there is none, null and the reason. */
static void set_number(json_t *object, json_t *reasons, const char *key, double value,
                       const char *reason)
{
    json_object_set_new(object, key, ifig_cli_json_number(value));
    if (isnan(value)) {
        json_object_set_new(reasons, key, json_string(reason));
    }
}

static const char *why_no_angle(const IfigSpeciesFacts *facts)
{
    return facts->character == IFIG_BIAXIAL ? "not known"
                                            : "only a biaxial stone has an optic angle";
}

static const char *why_no_birefringence(const IfigSpeciesFacts *facts)
{
    return facts->character == IFIG_ISOTROPIC ? "a singly refractive stone has none" : "not known";
}

static json_t *line_of(const IfigSpecies *species, const IfigSpeciesFacts *facts,
                       const IfigCliLine *line)
{
    json_t *object = json_object(), *reasons = json_object();
    double n[3], two_v = NAN, two_e = NAN, rotation = NAN;
    IfigOpticAxes axes;
    const IfigStatus status =
        ifig_cli_named_indices(species, facts->character, line->wavelength_nm, n);
    json_object_set_new(object, "line", json_string(line->name));
    json_object_set_new(object, "wavelength_nm", ifig_cli_json_number(line->wavelength_nm));
    json_object_set_new(object, "n",
                        status == IFIG_OK
                            ? ifig_cli_json_numbers(n, ifig_cli_index_count(facts->character))
                            : json_null());
    if (facts->character == IFIG_BIAXIAL &&
        ifig_optic_axes(species, line->wavelength_nm, &axes, NULL) == IFIG_OK) {
        two_v = axes.two_v_deg;
        two_e = ifig_apparent_optic_angle_deg(axes.n[1], two_v, 1.0);
    }
    if (facts->is_optically_active) {
        rotation = ifig_species_rotation_deg_per_mm(species, line->wavelength_nm);
    }
    set_number(object, reasons, "two_v_deg", two_v, why_no_angle(facts));
    set_number(object, reasons, "two_e_air_deg", two_e,
               isnan(two_v) ? why_no_angle(facts)
                            : "total reflection: the axes cannot emerge in air");
    set_number(object, reasons, "rotation_deg_per_mm", rotation, "not optically active");
    json_object_set_new(object, "reasons", reasons);
    return object;
}

static void set_facts(json_t *object, const IfigSpecies *species, const IfigSpeciesFacts *facts)
{
    json_t *reasons = json_object(), *lines = json_array();
    const char *no_birefringence = why_no_birefringence(facts), *no_angle = why_no_angle(facts);
    json_object_set_new(object, "is_opaque", json_boolean(facts->is_opaque));
    json_object_set_new(object, "is_optically_active", json_boolean(facts->is_optically_active));
    json_object_set_new(object, "is_measured_dispersion",
                        json_boolean(facts->is_measured_dispersion));
    json_object_set_new(object, "monoclinic_dispersion",
                        json_string(ifig_cli_monoclinic_name(facts->monoclinic)));
    set_number(object, reasons, "n_low", facts->n_low, "not known");
    set_number(object, reasons, "n_high", facts->n_high, "not known");
    set_number(object, reasons, "birefringence_low", facts->birefringence_low, no_birefringence);
    set_number(object, reasons, "birefringence_high", facts->birefringence_high, no_birefringence);
    set_number(object, reasons, "two_v_deg", facts->two_v_deg, no_angle);
    set_number(object, reasons, "two_v_low_deg", facts->two_v_low_deg, no_angle);
    set_number(object, reasons, "two_v_high_deg", facts->two_v_high_deg, no_angle);
    set_number(object, reasons, "dispersion_bg", facts->dispersion_bg, "not known");
    set_number(object, reasons, "axes_turn_deg", facts->axes_turn_deg,
               "the axes of this stone do not turn with the wavelength");
    set_number(object, reasons, "stress_optic_per_tpa", ifig_species_stress_optic_per_tpa(species),
               "not known");
    for (int i = 0; i < IFIG_CLI_LINE_COUNT; i++) {
        json_array_append_new(lines, line_of(species, facts, &ifig_cli_lines[i]));
    }
    json_object_set_new(object, "lines", lines);
    json_object_set_new(object, "reasons", reasons);
}

IfigCliStatus ifig_cli_print_species_json(const IfigSpecies *species)
{
    IfigSpeciesFacts facts;
    json_t *object = json_object();
    if (object == NULL || ifig_species_facts(species, &facts, NULL) != IFIG_OK) {
        return ifig_cli_print_json(NULL);
    }
    json_object_set_new(object, "schema_version", json_integer(1));
    for (int column = IFIG_TEXT_KEY; column <= IFIG_TEXT_INDEX_SOURCE; column++) {
        const char *text = ifig_species_text(species, (IfigSpeciesText)column);
        json_object_set_new(object, ifig_cli_text_key((IfigSpeciesText)column), json_string(text));
    }
    json_object_set_new(object, "character", json_string(ifig_cli_character_name(facts.character)));
    json_object_set_new(object, "sign", sign_of(&facts));
    json_object_set_new(object, "body_colours", ifig_cli_json_of_colours(species, facts.character));
    set_facts(object, species, &facts);
    return ifig_cli_print_json(object);
}

static json_t *row_of(const IfigSpecies *species)
{
    IfigSpeciesFacts facts;
    double n[3];
    json_t *object = json_object();
    if (ifig_species_facts(species, &facts, NULL) != IFIG_OK ||
        ifig_cli_named_indices(species, facts.character, 589.3, n) != IFIG_OK) {
        return object;
    }
    json_object_set_new(object, "key", json_string(ifig_species_text(species, IFIG_TEXT_KEY)));
    json_object_set_new(object, "name", json_string(ifig_species_text(species, IFIG_TEXT_NAME)));
    json_object_set_new(object, "character", json_string(ifig_cli_character_name(facts.character)));
    json_object_set_new(object, "sign", sign_of(&facts));
    json_object_set_new(object, "n",
                        ifig_cli_json_numbers(n, ifig_cli_index_count(facts.character)));
    json_object_set_new(object, "two_v_deg", ifig_cli_json_number(facts.two_v_deg));
    if (isnan(facts.two_v_deg)) {
        json_object_set_new(object, "reason", json_string(why_no_angle(&facts)));
    }
    return object;
}

IfigCliStatus ifig_cli_print_catalogue_json(const IfigCatalogue *catalogue)
{
    json_t *object = json_object(), *rows = json_array();
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        json_array_append_new(rows, row_of(ifig_catalogue_at(catalogue, i)));
    }
    json_object_set_new(object, "schema_version", json_integer(1));
    json_object_set_new(object, "catalogue", json_string(ifig_catalogue_hash()));
    json_object_set_new(object, "species", rows);
    return ifig_cli_print_json(object);
}
