/* SPDX-License-Identifier: MIT */
/* Room 1: species. Enters: a word, or measured indices. Leaves: an IfigSpecies, which answers with
 * its principal indices (X, Y, Z), its rotation and the turn of its axes at any wavelength in nm.
 * Here stands how such a record is laid out inside the library. */
#ifndef IFIG_SPECIES_ROOM_H
#define IFIG_SPECIES_ROOM_H

#include "interfig/species.h"
#include "interfig/species_record.h"

enum { IFIG_SPECIES_TEXT_COUNT = IFIG_TEXT_INDEX_SOURCE + 1 };

/* Fraunhofer's lines, nm: B and G of the trade's dispersion; C, D, F for what turns and opens. */
#define IFIG_LINE_B_NM 686.7
#define IFIG_LINE_C_NM 656.3
#define IFIG_LINE_D_NM 589.3
#define IFIG_LINE_F_NM 486.1
#define IFIG_LINE_G_NM 430.8

struct IfigSpecies {
    IfigSpeciesRecord record;
    char *owned_text; /* one block behind the texts of a species made at run time; else NULL */
};

/* One band of one body colour: alpha(nu) = peak exp(-4 ln2 ((nu - nu0) / dnu)^2), nu = 1 / lambda,
 * dnu = width / centre^2. peak_per_mm along X, Y, Z. */
typedef struct IfigAbsorptionBand {
    double centre_nm, width_nm;
    double peak_per_mm[3];
} IfigAbsorptionBand;

/* A body colour; words: what a user may call it, separated by ';'. */
typedef struct IfigBodyColour {
    const char *species_key, *name, *words, *source;
    const IfigAbsorptionBand *band;
    size_t band_count;
} IfigBodyColour;

/* The compiled-in body colours, those of a species one after another. */
extern const IfigBodyColour ifig_builtin_colours[];
extern const size_t ifig_builtin_colour_count;

/* Stress-optic coefficients of compiled-in species. */
typedef struct IfigStressOptic {
    const char *species_key;
    double per_tpa;
    const char *source;
} IfigStressOptic;
extern const IfigStressOptic ifig_builtin_stress_optic[];
extern const size_t ifig_builtin_stress_optic_count;

/* How the table of a species' cut stones usually lies: its normal along X, Y, Z. */
typedef struct IfigUsualCut {
    const char *species_key, *name;
    double direction[3];
} IfigUsualCut;
/* Written by embed_cuts.py from cuts.csv. */
extern const IfigUsualCut ifig_usual_cuts[];
extern const size_t ifig_usual_cut_count;

/* What the grains of a compiled-in aggregate are: a compiled-in species by its key, or indices of
 * their own. */
typedef struct IfigGrainRow {
    const char *species_key, *grain_key;
    const IfigSpecies *own; /* where grain_key is NULL */
    double grain_mm;
    const char *texture, *source;
} IfigGrainRow;
extern const IfigGrainRow ifig_builtin_grains[];
extern const size_t ifig_builtin_grains_count;

/* What the trade knows of compiled-in species, written by embed_trade.py. */
typedef struct IfigTradeRow {
    const char *species_key;
    IfigSpeciesTrade trade;
} IfigTradeRow;
extern const IfigTradeRow ifig_builtin_trade[];
extern const size_t ifig_builtin_trade_count;

/* The compiled-in records, written by embed.py from the CSV files beside this header. */
extern const IfigSpecies ifig_builtin_species[];
extern const size_t ifig_builtin_species_count;
extern const char ifig_builtin_hash[];

struct IfigCatalogue {
    const IfigSpecies **species; /* what look-ups see */
    size_t count;
    IfigSpecies **owned; /* to be freed; those overridden since too: a caller may hold them */
    size_t owned_count;
};

/* g33 (along Z) and g11 = g22 (across) of the gyration tensor at a wavelength, dimensionless, of a
 * right-handed stone: rho = pi G / (lambda n) (Nye, Physical Properties of Crystals, ch. XIV). */
void ifig_species_gyration(const IfigSpecies *species, double wavelength_nm, double *along,
                           double *across);

/* n of a formula at a wavelength in nm, in its range or not; NaN where it has none. */
double ifig_formula_index(const IfigDispersionFormula *formula, double wavelength_nm);

/* Where n_Y lies between n_X and n_Z: s of 1/n_Y^2 = (1 - s) / n_X^2 + s / n_Z^2. From the indices;
 * from an acute optic angle (negative: crossed) and the optic sign; and the angle back from s. */
double ifig_beta_share_of_indices(const double n[3]);
double ifig_beta_share_of_angle(double two_v_deg, int optic_sign);
double ifig_acute_angle_deg(double beta_share);
/* s of a Cauchy stone at a wavelength, from its 2V at the C, D and F lines. */
double ifig_beta_share_at(const IfigSpeciesRecord *record, double wavelength_nm);

/* The three principal indices of a record, without checks. */
void ifig_record_indices(const IfigSpeciesRecord *record, double wavelength_nm, double n[3]);
/* Refuse a record that makes no sense, as embed.py does for the compiled-in ones. */
IfigStatus ifig_record_check(const IfigSpeciesRecord *record, IfigError *error);

/* A word as look-ups compare it: lower case, without blanks, '-', '_' and apostrophes, accents
 * folded to their letters. Cut at 255 bytes: longer words match nothing. */
typedef struct IfigFoldedWord {
    char text[256];
    int is_cut;
} IfigFoldedWord;
IfigFoldedWord ifig_fold(const char *text, size_t length);

/* How well a word fits a species; a smaller fit wins. */
typedef enum IfigFit {
    IFIG_FIT_KEY = 0,
    IFIG_FIT_NAME,
    IFIG_FIT_VARIETY,
    IFIG_FIT_WORD, /* a word, or several in a row, of a name or variety */
    IFIG_FIT_NONE
} IfigFit;

/* One way to call a species: a stretch of its key, name or varieties. */
typedef struct IfigCalling {
    const char *text;
    size_t length;
    IfigFit fit;
} IfigCalling;

/* Walk the ways to call a species: start with a zeroed walk; 0 when there are no more. */
typedef struct IfigCallingWalk {
    int stage;
    size_t at;
} IfigCallingWalk;
int ifig_next_calling(const IfigSpecies *species, IfigCallingWalk *walk, IfigCalling *calling);

/* Write "; did you mean quartz?" or "" into text. */
void ifig_suggest(const IfigCatalogue *catalogue, const IfigFoldedWord *word, char *text,
                  size_t size);

#endif
