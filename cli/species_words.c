/* SPDX-License-Identifier: MIT */
#include "species_words.h"

#include "describe.h"

const IfigCliLine ifig_cli_lines[IFIG_CLI_LINE_COUNT] = {{"F", 486.1}, {"D", 589.3}, {"C", 656.3}};

int ifig_cli_index_count(IfigOpticCharacter character)
{
    return character == IFIG_UNIAXIAL ? 2 : character == IFIG_BIAXIAL ? 3 : 1;
}

const char *ifig_cli_index_name(IfigOpticCharacter character, int index)
{
    static const char *const uniaxial[] = {"omega", "epsilon"};
    static const char *const biaxial[] = {"alpha", "beta", "gamma"};
    return character == IFIG_UNIAXIAL  ? uniaxial[index]
           : character == IFIG_BIAXIAL ? biaxial[index]
                                       : "n";
}

IfigStatus ifig_cli_named_indices(const IfigSpecies *species, IfigOpticCharacter character,
                                  double wavelength_nm, double n[3])
{
    const IfigStatus status = ifig_species_indices(species, wavelength_nm, n, NULL);
    if (character == IFIG_UNIAXIAL) {
        n[1] = n[2]; /* n_X = n_Y = omega, n_Z = epsilon */
    }
    return status;
}

const char *ifig_cli_sign_phrase(const IfigSpeciesFacts *facts)
{
    return facts->may_be_either_sign ? "either" : ifig_cli_sign_name(facts->optic_sign);
}

const char *ifig_cli_monoclinic_name(IfigMonoclinicDispersion kind)
{
    static const char *const names[] = {"none", "inclined", "parallel", "crossed"};
    return names[kind];
}

const char *ifig_cli_text_key(IfigSpeciesText column)
{
    static const char *const keys[] = {
        "key",         "name",        "varieties",   "nature",           "crystal_system",
        "orientation", "pleochroism", "absorption",  "axial_dispersion", "reaction",
        "notes",       "source",      "index_source"};
    return keys[column];
}
