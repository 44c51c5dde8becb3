/* SPDX-License-Identifier: MIT */
/** @file
 * Room 1, species: what a stone is made of, before any light meets it.
 *
 * A species is an immutable record: names, optic character and sign, principal refractive indices
 * at any visible wavelength along its own axes X, Y, Z, optical rotation, and the source of each
 * value. A catalogue holds the species compiled into the library and those a user adds.
 *
 * Axes: n_X <= n_Y <= n_Z at 589.3 nm (biaxial); Z is the optic axis c of a uniaxial stone, with
 * n_omega across it and n_epsilon along it. The axes keep their names at every wavelength, so that
 * where the axial planes cross (brookite) n_X may exceed n_Y in blue light.
 *
 * Threads: a species may be read by any number of threads at once. A catalogue may be read by many,
 * or changed by one.
 */
#ifndef INTERFIG_SPECIES_H
#define INTERFIG_SPECIES_H

#include "interfig/status.h"

IFIG_C_BEGIN

/** Optic character. */
typedef enum IfigOpticCharacter {
    IFIG_ISOTROPIC = 0, /**< singly refractive: one index */
    IFIG_UNIAXIAL,      /**< one optic axis: n_omega across it, n_epsilon along it */
    IFIG_BIAXIAL,       /**< two optic axes: n_alpha, n_beta, n_gamma */
    IFIG_AGGREGATE      /**< many grains: shows no figure of its own */
} IfigOpticCharacter;

/** How the indicatrix of a monoclinic stone turns with wavelength (Rosenbusch's three kinds). */
typedef enum IfigMonoclinicDispersion {
    IFIG_MONOCLINIC_NONE = 0, /**< the axes do not turn, or it is not known */
    IFIG_MONOCLINIC_INCLINED, /**< Y = b: the axes turn about Y, inside the optic axial plane */
    IFIG_MONOCLINIC_PARALLEL, /**< obtuse bisectrix = b: the axes turn about it */
    IFIG_MONOCLINIC_CROSSED   /**< acute bisectrix = b: the axes turn about it */
} IfigMonoclinicDispersion;

/** Hand of an optically active stone. Right-handed is dextrorotatory: seen looking toward the
 *  light, the plane of vibration turns clockwise. */
typedef enum IfigHand {
    IFIG_HAND_RIGHT = 0, /**< clockwise */
    IFIG_HAND_LEFT       /**< counter-clockwise */
} IfigHand;

/** The text columns of a species. */
typedef enum IfigSpeciesText {
    IFIG_TEXT_KEY = 0,        /**< short name in lower case, unique in its catalogue */
    IFIG_TEXT_NAME,           /**< display name */
    IFIG_TEXT_VARIETIES,      /**< variety and trade names, separated by ';' */
    IFIG_TEXT_NATURE,         /**< natural, synthetic, simulant, glass, organic, aggregate, user */
    IFIG_TEXT_CRYSTAL_SYSTEM, /**< cubic, tetragonal, ..., amorphous */
    IFIG_TEXT_ORIENTATION,    /**< how X, Y, Z lie to the crystal axes, as handbooks print it */
    IFIG_TEXT_PLEOCHROISM,    /**< colours along the principal directions */
    IFIG_TEXT_ABSORPTION,     /**< none, weak, distinct, strong */
    IFIG_TEXT_AXIAL_DISPERSION, /**< as handbooks print it: "r>v strong" */
    IFIG_TEXT_REACTION,         /**< usual polariscope reaction: SR, DR, AGG, ADR */
    IFIG_TEXT_NOTES,            /**< what else a gemmologist should know */
    IFIG_TEXT_SOURCE,           /**< where each value comes from */
    IFIG_TEXT_INDEX_SOURCE      /**< reference of the dispersion formulas, or how n was modelled */
} IfigSpeciesText;

/** The numbers of a species. Unknown or meaningless values are NaN. */
typedef struct IfigSpeciesFacts {
    IfigOpticCharacter character; /**< at 589.3 nm */
    int optic_sign;               /**< +1, -1, or 0 (isotropic, aggregate) */
    int may_be_either_sign;       /**< 1 where the species is found with both signs */
    int is_opaque;                /**< 1 where no light comes through at gem thickness */
    int is_optically_active;      /**< 1 where the plane of vibration is rotated */
    int is_measured_dispersion;   /**< 1: published formulas; 0: Cauchy from n_D and B-G */
    double n[3];                  /**< typical n along X, Y, Z at 589.3 nm */
    double n_low;                 /**< lowest index met with in stones */
    double n_high;                /**< highest index met with in stones */
    double birefringence_low;     /**< lowest met with */
    double birefringence_high;    /**< highest met with */
    double two_v_deg;             /**< typical acute optic angle at 589.3 nm, degrees, 0..90 */
    double two_v_low_deg;         /**< smallest met with */
    double two_v_high_deg;        /**< largest met with */
    double dispersion_bg;         /**< n(430.8 nm) - n(686.7 nm) of the trade's tables */
    IfigMonoclinicDispersion monoclinic; /**< how the axes turn with wavelength */
    double axes_turn_deg;                /**< turn of the axes from the C to the F line, degrees */
} IfigSpeciesFacts;

/** One species; opaque, immutable. */
typedef struct IfigSpecies IfigSpecies;
/** A set of species to look names up in; opaque. */
typedef struct IfigCatalogue IfigCatalogue;

/** Make a catalogue of the species compiled into the library. Free it with ifig_catalogue_free.
 *  @param[out] catalogue  the new catalogue; NULL after a failure
 *  @param error           may be NULL
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_MEMORY */
IFIG_API IfigStatus ifig_catalogue_create(IfigCatalogue **catalogue, IfigError *error);
/** Free a catalogue and the species that were added to it. NULL is allowed. */
IFIG_API void ifig_catalogue_free(IfigCatalogue *catalogue);
/** SHA-256 of the compiled-in data, 64 hexadecimal digits. Static storage. */
IFIG_API const char *ifig_catalogue_hash(void);
/** How many species a catalogue holds; 0 for NULL. */
IFIG_API size_t ifig_catalogue_count(const IfigCatalogue *catalogue);
/** The species at a place, 0 <= index < count, in the order of the data file, then as added; NULL
 *  outside. The catalogue owns it. */
IFIG_API const IfigSpecies *ifig_catalogue_at(const IfigCatalogue *catalogue, size_t index);
/** Give a species to a catalogue, which owns it from then on (also frees it). A species of the same
 *  key is overridden: look-ups find the new one at the old one's place.
 *  @return IFIG_OK; IFIG_ERROR_ARGUMENT or IFIG_ERROR_MEMORY (the caller still owns the species) */
IFIG_API IfigStatus ifig_catalogue_add(IfigCatalogue *catalogue, IfigSpecies *species,
                                       IfigError *error);
/** Look a species up by key, name or variety, without regard to case, spaces, '-' and '_'.
 *  An exact key wins over a name, a name over a variety, a variety over a word of a name.
 *  @param word  what the user typed, UTF-8
 *  @param[out] species  owned by the catalogue
 *  @return IFIG_OK; IFIG_ERROR_NOT_FOUND (the message suggests the nearest names);
 *          IFIG_ERROR_AMBIGUOUS (the message lists the keys that the word fits) */
IFIG_API IfigStatus ifig_catalogue_find(const IfigCatalogue *catalogue, const char *word,
                                        const IfigSpecies **species, IfigError *error);

/** Make a species from measured indices alone, without dispersion. Free it with ifig_species_free.
 *  @param indices  one (isotropic), two (omega, epsilon) or three (alpha <= beta <= gamma), each
 *                  from 1 to 5. Equal values give the simpler character.
 *  @param count    1, 2 or 3
 *  @param rotation_deg_per_mm  optical rotation, positive right-handed, alike at all wavelengths
 *                  and in all directions; 0 for none; within +-100000
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE, IFIG_ERROR_MEMORY */
IFIG_API IfigStatus ifig_species_from_indices(const double *indices, size_t count,
                                              double rotation_deg_per_mm, IfigSpecies **species,
                                              IfigError *error);
/** Free a species that no catalogue owns. NULL is allowed. */
IFIG_API void ifig_species_free(IfigSpecies *species);

/** One text column; "" where there is nothing to say. Never NULL; lives as long as the species. */
IFIG_API const char *ifig_species_text(const IfigSpecies *species, IfigSpeciesText column);
/** The numbers of a species. @return IFIG_OK or IFIG_ERROR_ARGUMENT */
IFIG_API IfigStatus ifig_species_facts(const IfigSpecies *species, IfigSpeciesFacts *facts,
                                       IfigError *error);

/** Principal refractive indices along X, Y, Z at a wavelength.
 *  Measured formulas where the catalogue has them; else Cauchy's two terms from n_D and the B-G
 *  interval, n = A + B / lambda^2, the same B along each axis, with n_Y of a biaxial stone set so
 *  that 2V is the species' own at each wavelength.
 *  @param wavelength_nm  in vacuum or air as each source has it (below 3e-5 in n), 360 to 830
 *  @param[out] n         n_X, n_Y, n_Z; three equal values for an isotropic stone
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE */
IFIG_API IfigStatus ifig_species_indices(const IfigSpecies *species, double wavelength_nm,
                                         double n[3], IfigError *error);
/** Angle by which the axes of a monoclinic stone have turned from their place at 589.3 nm, degrees
 *  about the fixed axis that ifig_species_facts names; a straight line in 1 / wavelength^2 between
 *  the C and F lines, as Cauchy's is.
 *  @param wavelength_nm  360 to 830
 *  @return 0 for every other stone and for NULL; NaN outside that range */
IFIG_API double ifig_species_axes_turn_deg(const IfigSpecies *species, double wavelength_nm);
/** How many body colours the catalogue knows for a species (corundum: ruby, blue sapphire, ...);
 *  0 for NULL. */
IFIG_API int ifig_species_colour_count(const IfigSpecies *species);
/** The name of a body colour, 1 <= colour <= count ("ruby"); NULL outside. Static storage. */
IFIG_API const char *ifig_species_colour_name(const IfigSpecies *species, int colour);
/** The body colour that a variety's name turns on ("Ruby", "blue sapphire"), without regard to
 * case, spaces, '-' and '_'; 0 for a word that names none, and for NULL. */
IFIG_API int ifig_species_colour_of_word(const IfigSpecies *species, const char *word);
/** Where the bands of a body colour come from; "" for colour 0, an unknown one, and NULL. Static
 *  storage. */
IFIG_API const char *ifig_species_colour_source(const IfigSpecies *species, int colour);
/** Absorption of light that vibrates along X, Y, Z: I = I0 exp(-per_mm t), t in mm; a sum of
 * Gaussian bands in wavenumber, of a nominal gem's depth.
 *  @param colour         0 (colourless: all 0) to ifig_species_colour_count
 *  @param wavelength_nm  360 to 830
 *  @param[out] per_mm    along X, Y, Z, natural logarithm
 *  @return IFIG_OK, IFIG_ERROR_ARGUMENT, IFIG_ERROR_RANGE */
IFIG_API IfigStatus ifig_species_absorption(const IfigSpecies *species, int colour,
                                            double wavelength_nm, double per_mm[3],
                                            IfigError *error);
/** Stress-optic coefficient K in TPa^-1: n_along - n_across = K (stress along - stress across),
 *  tension positive; NaN where none is known, and for NULL. One number stands for all
 *  directions. */
IFIG_API double ifig_species_stress_optic_per_tpa(const IfigSpecies *species);
/** What the grains of an aggregate are: a species of one crystal, which lives as long as the
 *  program; NULL where that is not known (a user's own aggregate). A crystal is its own grain. */
IFIG_API const IfigSpecies *ifig_species_grain(const IfigSpecies *species);
/** Usual thickness of a grain of an aggregate, mm; NaN where it has none, and for NULL. */
IFIG_API double ifig_species_grain_mm(const IfigSpecies *species);
/** How the grains lie and hang together; "" where it is not known, and for NULL. Static storage. */
IFIG_API const char *ifig_species_grain_texture(const IfigSpecies *species);
/** Where that is known from; "" where it is not, and for NULL. Static storage. */
IFIG_API const char *ifig_species_grain_source(const IfigSpecies *species);
/** What the trade knows of a species beside its optics. Texts live as long as the program. */
typedef struct IfigSpeciesTrade {
    double gravity_low;   /**< least specific gravity met with; NaN where it is not known */
    double gravity_high;  /**< greatest */
    int conducts_heat;    /**< 1: a thermal probe takes it for a diamond */
    int is_cut_across;    /**< 1: the table is usually cut across the optic axis */
    const char *hues;     /**< every hue it is met with in, separated by ';'; "": many or unknown */
    const char *spectrum; /**< what a hand spectroscope shows that tells; "": nothing */
    const char *source;   /**< where this comes from */
} IfigSpeciesTrade;
/** What the trade knows of a compiled-in species; nothing for one made at run time.
 *  @return IFIG_OK or IFIG_ERROR_ARGUMENT */
IFIG_API IfigStatus ifig_species_trade(const IfigSpecies *species, IfigSpeciesTrade *trade,
                                       IfigError *error);
/** Optical rotation along the axis of a right-handed stone, degrees per mm (Drude's sum:
 *  IfigRotation in species_record.h).
 *  @param wavelength_nm  360 to 830
 *  @return 0 where there is none, and for NULL; NaN outside that range */
IFIG_API double ifig_species_rotation_deg_per_mm(const IfigSpecies *species, double wavelength_nm);

IFIG_C_END

#endif
