/* SPDX-License-Identifier: MIT */
/* Body colours, absorption along the principal directions; and the stress-optic coefficients. */
#include "species.h"

#include "base.h"

#include <math.h>
#include <string.h>

/* The colours of a compiled-in species; a user's own has none. */
static const IfigBodyColour *first_colour(const IfigSpecies *species, int *count)
{
    const IfigBodyColour *first = NULL;
    *count = 0;
    if (species == NULL || species->owned_text != NULL) {
        return NULL;
    }
    const char *key = ifig_species_text(species, IFIG_TEXT_KEY);
    for (size_t i = 0; i < ifig_builtin_colour_count; i++) {
        if (strcmp(ifig_builtin_colours[i].species_key, key) == 0) {
            first = first == NULL ? &ifig_builtin_colours[i] : first;
            ++*count;
        }
    }
    return first;
}

static const IfigBodyColour *colour_at(const IfigSpecies *species, int colour)
{
    int count;
    const IfigBodyColour *first = first_colour(species, &count);
    return colour >= 1 && colour <= count ? first + colour - 1 : NULL;
}

int ifig_species_colour_count(const IfigSpecies *species)
{
    int count;
    first_colour(species, &count);
    return count;
}

const char *ifig_species_colour_name(const IfigSpecies *species, int colour)
{
    const IfigBodyColour *found = colour_at(species, colour);
    return found != NULL ? found->name : NULL;
}

const char *ifig_species_colour_source(const IfigSpecies *species, int colour)
{
    const IfigBodyColour *found = colour_at(species, colour);
    return found != NULL ? found->source : "";
}

/* Whether a folded word is one of the ';'-separated words. */
static int is_one_of(const IfigFoldedWord *word, const char *words)
{
    while (*words != '\0') {
        size_t length = strcspn(words, ";");
        IfigFoldedWord one = ifig_fold(words, length);
        if (strcmp(one.text, word->text) == 0) {
            return 1;
        }
        words += length + (words[length] == ';' ? 1 : 0);
    }
    return 0;
}

int ifig_species_colour_of_word(const IfigSpecies *species, const char *word)
{
    int count;
    const IfigBodyColour *first = first_colour(species, &count);
    if (word == NULL) {
        return 0;
    }
    IfigFoldedWord folded = ifig_fold(word, strlen(word));
    for (int i = 0; i < count; i++) {
        if (!folded.is_cut && is_one_of(&folded, first[i].words)) {
            return i + 1;
        }
    }
    return 0;
}

IfigStatus ifig_species_absorption(const IfigSpecies *species, int colour, double wavelength_nm,
                                   double per_mm[3], IfigError *error)
{
    if (species == NULL || per_mm == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT, "ifig_species_absorption: a pointer is NULL");
    }
    int count;
    const IfigBodyColour *first = first_colour(species, &count);
    IfigStatus status = ifig_check_range("body colour", colour, 0, count, "", error);
    if (status == IFIG_OK) {
        status = ifig_check_range("the wavelength", wavelength_nm, 360.0, 830.0, "nm", error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    memset(per_mm, 0, 3 * sizeof *per_mm);
    for (size_t i = 0; colour > 0 && i < first[colour - 1].band_count; i++) {
        const IfigAbsorptionBand *band = &first[colour - 1].band[i];
        double width = band->width_nm / (band->centre_nm * band->centre_nm);
        double off = (1.0 / wavelength_nm - 1.0 / band->centre_nm) / width;
        double shape = exp(-4.0 * 0.69314718055994531 * off * off); /* half at off = 1/2 */
        for (int axis = 0; axis < 3; axis++) {
            per_mm[axis] += band->peak_per_mm[axis] * shape;
        }
    }
    return IFIG_OK;
}

double ifig_species_stress_optic_per_tpa(const IfigSpecies *species)
{
    const char *key = species != NULL && species->owned_text == NULL
                          ? ifig_species_text(species, IFIG_TEXT_KEY)
                          : "";
    for (size_t i = 0; i < ifig_builtin_stress_optic_count; i++) {
        if (strcmp(ifig_builtin_stress_optic[i].species_key, key) == 0) {
            return ifig_builtin_stress_optic[i].per_tpa;
        }
    }
    return (double)NAN;
}
