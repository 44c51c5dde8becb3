/* SPDX-License-Identifier: MIT */
/** @file
 * Room 9, image: species in a text file of the user's own. Links libyaml; the optics do not.
 *
 * The file is YAML 1.1, UTF-8, at most 1 MiB: a mapping with the one key `species`, a list of at
 * most 1000 mappings. Their keys are the columns of the catalogue:
 *
 *     species:
 *       - key: harbour_topaz                 # needed: a-z, 0-9, '_'
 *         name: Topaz, harbour find
 *         varieties: [tern topaz, sea topaz] # or one text, separated by ';'
 *         n: [1.609, 1.612, 1.619]           # needed: n; omega, epsilon; or alpha, beta, gamma
 *         two_v_deg: 62
 *         two_v_c_deg: 62.8                  # at 656.3 nm; two_v_f_deg at 486.1 nm
 *         two_v_f_deg: 61.0
 *         dispersion_bg: 0.014
 *         notes: measured on the club's refractometer
 *         source: club notebook, page 12     # "user" where it is left out
 *
 * Also: nature, crystal_system, optic_character (isotropic, uniaxial, biaxial, aggregate; else from
 * the number of indices), optic_sign (positive, negative, "+", "-", "+/-"), may_be_either_sign,
 * n_low, n_high, birefringence_low, birefringence_high, two_v_low_deg, two_v_high_deg,
 * axial_dispersion, monoclinic_dispersion (none, inclined, parallel, crossed), axes_turn_deg,
 * opaque, orientation, pleochroism, absorption, reaction, index_source, rotation_deg_per_mm (alike
 * in all directions) or rotation (constant, strength_um2, pole_um2, ratio_across), and dispersion:
 * for each axis (iso; o, e; alpha, beta, gamma; or x, y, z) formula_type, coefficients, low_um,
 * high_um, as in species_record.h.
 *
 * Refused, each with file:line:column, the allowed range and the remedy: aliases, anchors, tags,
 * directives, several documents, nesting deeper than 6, unknown and repeated keys, decimal commas,
 * invalid UTF-8, and whatever ifig_species_create refuses.
 */
#ifndef INTERFIG_SPECIES_FILE_H
#define INTERFIG_SPECIES_FILE_H

#include "interfig/species.h"

IFIG_C_BEGIN

/** Add the species of a file to a catalogue: all of them or, after an error, none.
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_NOT_FOUND (no such file), IFIG_ERROR_SYNTAX,
 *          IFIG_ERROR_IO, IFIG_ERROR_MEMORY */
IFIG_API IfigStatus ifig_catalogue_read_file(IfigCatalogue *catalogue, const char *path,
                                             IfigError *error);

/** The same from text in memory.
 *  @param text             need not end with a NUL
 *  @param length           of it in bytes
 *  @param name_for_errors  what messages call it; NULL: "text"
 *  @return as ifig_catalogue_read_file, but never IFIG_ERROR_NOT_FOUND or IFIG_ERROR_IO */
IFIG_API IfigStatus ifig_catalogue_read_text(IfigCatalogue *catalogue, const char *text,
                                             size_t length, const char *name_for_errors,
                                             IfigError *error);

/** Write a species as such a file, which reads back to the same species bit for bit.
 *  @param[out] yaml  free it with ifig_text_free (image.h)
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_MEMORY */
IFIG_API IfigStatus ifig_species_write_text(const IfigSpecies *species, char **yaml,
                                            IfigError *error);

IFIG_C_END

#endif
