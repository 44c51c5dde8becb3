/* SPDX-License-Identifier: MIT */
/* What runs through a stone: the stress at a place, the slabs along a line of sight. Shared by the
 * files that compute a face and the whole stone. */
#ifndef IFIG_TEXTURE_H
#define IFIG_TEXTURE_H

#include "polariscope.h"

/* A number from 0 to below 1 that depends on nothing but these three. */
double ifig_texture_draw(unsigned seed, uint64_t stream, uint64_t index);
/* The numbers of a texture alone. */
IfigStatus ifig_texture_numbers(const IfigTexture *texture, IfigError *error);
/* 1 for the patterns that stress makes. */
int ifig_is_strain_pattern(IfigPattern pattern);
/* Texture and scene together: one layer, no lens, a line of sight that the pattern can be seen
 * along. */
IfigStatus ifig_face_check(const IfigScene *scene, const IfigTexture *texture, IfigError *error);

/* A plane by which a species is twinned over and over, as a unit normal in its own X, Y, Z; NULL
 * where none is known. */
const double *ifig_twin_normal(const IfigSpecies *species);

/* strain.c: a field of stress, summed along the line of sight, in a form that is quick at any
 * place. */
enum { IFIG_STRESS_WAVES = 20 };

/* A plane wave of stress: sigma = amplitude cos(k r + phase) along its own crests, which has no
 * divergence. Phases in turns; xx, yy, xy: crest x crest, times the amplitude. */
typedef struct IfigStressWave {
    double kx, ky, phase, xx, yy, xy;
} IfigStressWave;

typedef struct IfigStressField {
    size_t wave_count;
    IfigStressWave wave[IFIG_STRESS_WAVES];
    double path_mpa_mm;        /* the texture's stress times the thickness */
    double radius, half_depth; /* of the inclusion and of the stone, in half faces; 0: none */
    double inclusion_mpa_mm;   /* S times half a face's width */
} IfigStressField;

/* A stress along the line of sight without its isotropic part: sigma_xx - sigma_yy and 2 sigma_xy,
 * summed. */
typedef struct IfigStressSum {
    double difference, shear;
} IfigStressSum;

/* Other patterns leave a field of no stress. */
IfigStatus ifig_stress_field(const IfigTexture *texture, double thickness_mm,
                             IfigStressField *field, IfigError *error);
/* x, y: half faces, at stage 0; any. */
IfigStressSum ifig_stress_sum(const IfigStressField *field, double x, double y);
/* All three of xx, yy, xy, without the inclusion's isotropic part. */
void ifig_stress_tensor(const IfigStressField *field, double x, double y, double tensor[3]);

/* slabs.c: lamellae of a twin (other) in their host, all parallel. */
enum { IFIG_SLABS_MOST = 96, IFIG_SLAB_SETS = 4 };

typedef struct IfigSlab {
    int other; /* 0: host, 1: twin */
    double thickness_mm;
} IfigSlab;

typedef struct IfigSlabs {
    unsigned seed;
    int is_brazil;
    double half_width_mm, thickness_mm;
    double stage;              /* radians */
    double rise;               /* of the planes' normal along the line of sight */
    double pitch_mm;           /* from lamella to lamella along the normal */
    double least, most;        /* share of a lamella in its pitch */
    double across_x, across_y; /* the normal across the face, in the lab */
    double slope;              /* its length */
} IfigSlabs;

/* rotation: of the host, stage included. */
void ifig_slabs_ready(const IfigScene *scene, const IfigTexture *texture,
                      const double rotation[3][3], IfigSlabs *slabs);
/* Which set of lamellae a place of the face belongs to (the last one: host alone), how far it lies
 * along their slope, and the direction of the slope across the face. */
typedef struct IfigSlabPlace {
    size_t set;
    double along_mm, slope_x, slope_y;
} IfigSlabPlace;

/* x, y: half faces, in the lab. */
IfigSlabPlace ifig_slabs_place(const IfigSlabs *slabs, double x, double y);
/* How far a place is, in half faces, from where another set begins; large where there is one. */
double ifig_slabs_margin(const IfigSlabs *slabs, double x, double y);
/* The slabs of a line of sight, light entering the first; their number. */
size_t ifig_slabs_at(const IfigSlabs *slabs, size_t set, double along_mm,
                     IfigSlab slab[IFIG_SLABS_MOST]);

/* pile.c: host and twin at one wavelength, at normal incidence. */
typedef struct IfigPile {
    double wavelength_nm;
    double complex h[2]; /* half the difference of the indices */
    double per_mm[2];    /* turns of h a mm */
    IfigPropagator medium[2];
    IfigMatrix2 in[2], out[2], change[2]; /* faces; change: from this medium to the other */
    int is_complex;
} IfigPile;

/* Media of a layer and of its twin: rotation[0] and [1]. is_brazil: the twin is of the other hand.
 */
IfigStatus ifig_pile_ready(const IfigLayer *layer, double rotation[2][3][3], int is_brazil,
                           double n_outside, double wavelength_nm, IfigPile *pile,
                           IfigError *error);
/* Carry a field through the slabs, faces included. */
void ifig_pile_pass(const IfigPile *pile, const IfigSlab *slab, size_t count,
                    double complex field[2]);

/* grain_cells.c: the columns of grains of an aggregate, as a face cuts them. A face may hold
 * millions; each is one of those that are computed, turned about the line of sight. */
enum { IFIG_GRAIN_TURNS = 8 };

typedef struct IfigGrainCells {
    unsigned seed, columns;
    double grain_mm, half_width; /* of the face, in grains */
    double birefringence;        /* of a grain, greatest */
    double spot; /* radius of the place whose columns the eye sees as one, in half faces */
} IfigGrainCells;

IfigStatus ifig_grain_cells_ready(const IfigScene *scene, const IfigTexture *texture,
                                  IfigGrainCells *grains, IfigError *error);
/* The column at a place (half faces, stage 0), times IFIG_GRAIN_TURNS, plus its turn. */
unsigned ifig_grain_column(const IfigGrainCells *grains, double x, double y);
/* The column of a node of a lattice, likewise. */
unsigned ifig_grain_node(const IfigGrainCells *grains, double column, double row);

/* face_jones.c: the host's orientation and its twin's; matrices of a stone turned by an angle. */
IfigStatus ifig_twin_rotations(const IfigScene *scene, int is_brazil, double rotation[2][3][3],
                               IfigError *error);
void ifig_turn_jones(double angle, size_t count, IfigJonesXy *jones);

/* spectrum.c: samples of a lamp that stand close enough for fringes of a retardation. */
IfigStatus ifig_fine_samples(const IfigLamp *lamp, double retardation_nm,
                             IfigSpectrumSamples *samples, IfigError *error);

#endif
