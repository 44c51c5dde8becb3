/* SPDX-License-Identifier: MIT */
/* A face made ready: everything that the colour of a place depends on, in tables. */
#ifndef IFIG_FACE_H
#define IFIG_FACE_H

#include "texture.h"

/* XYZ of a strained stone as a function of its retardation alone, and of the azimuth by quadratic
 * forms: six terms (strain_light.c). */
enum { IFIG_STRAIN_TERMS = 6 };

typedef struct IfigStrainLight {
    double nm_per_mpa_mm; /* retardation of a path difference: K, its sign included */
    double step_nm;
    size_t count;
    double (*term)[IFIG_STRAIN_TERMS][3]; /* count rows */
} IfigStrainLight;

/* XYZ along the slope of lamellae, as running sums, so that the mean over any stretch is one
 * difference (strips.c). */
typedef struct IfigStrips {
    IfigSlabs slabs;
    double first_mm, step_mm;
    size_t count; /* steps; sums: count + 1 rows a set */
    double (*sum[IFIG_SLAB_SETS])[3];
    double alone[3]; /* the host by itself */
} IfigStrips;

/* XYZ of columns of grains; a place of the face takes one by its cell (columns.c). */
typedef struct IfigColumns {
    IfigGrainCells grains;
    double (*xyz)[3];
    double mean[3];
} IfigColumns;

struct IfigFace {
    IfigRaster raster;
    IfigPattern pattern;
    double turn[2]; /* cosine and sine of the stage */
    double plain[3];
    IfigStressField field;
    IfigStressSum even; /* the layer's own even stress, summed, at stage 0 */
    uint32_t finer;     /* samples along a pixel's side */
    IfigStrainLight strain;
    IfigStrips strips;
    IfigColumns columns;
};

IfigStatus ifig_strain_light_create(const IfigScene *scene, double greatest_mpa_mm,
                                    IfigStrainLight *strain, IfigError *error);
/* sum: at the stage of the scene. */
void ifig_strain_light(const IfigStrainLight *strain, IfigStressSum sum, double xyz[3]);

IfigStatus ifig_strips_create(const IfigScene *scene, const IfigTexture *texture, uint32_t pixels,
                              IfigStrips *strips, IfigError *error);
void ifig_strips_free(IfigStrips *strips);
/* The mean over a square pixel, side in half faces. */
void ifig_strips_light(const IfigStrips *strips, double x, double y, double side, double xyz[3]);

IfigStatus ifig_columns_create(const IfigScene *scene, const IfigTexture *texture,
                               IfigColumns *columns, IfigError *error);
/* The mean over a square pixel, side in half faces; cosine, sine: of the stage. */
void ifig_columns_light(const IfigColumns *columns, double x, double y, double side,
                        const double turn[2], double xyz[3]);

#endif
