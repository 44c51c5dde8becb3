/* SPDX-License-Identifier: MIT */
/* One layer that does not absorb, met by many rays at once: the propagator and the faces of
 * propagator.c in numbers that need no complex arithmetic, so that a compiler makes vectors of
 * them. The tests hold one to the other. */
#ifndef IFIG_LOSSLESS_H
#define IFIG_LOSSLESS_H

#include "wave.h"

enum { IFIG_RAYS = 64 };

/* Rays; the field sent in and the conjugate of the one let out, in (p, s), real and imaginary. */
typedef struct IfigRays {
    size_t count; /* at most IFIG_RAYS */
    double n_outside;
    double cos_theta[IFIG_RAYS], sin_theta[IFIG_RAYS], cos_phi[IFIG_RAYS], sin_phi[IFIG_RAYS];
    double in_re[2][IFIG_RAYS], in_im[2][IFIG_RAYS];
    double out_re[2][IFIG_RAYS], out_im[2][IFIG_RAYS];
    int has_real_fields; /* the imaginary parts are 0, and not looked at */
} IfigRays;

/* <out| faces |in> without the layer's turn (u) and with it (v). */
typedef struct IfigLayerFields {
    double h2[IFIG_RAYS];
    double u_re[IFIG_RAYS], v_re[IFIG_RAYS], u_im[IFIG_RAYS], v_im[IFIG_RAYS];
    double missed[IFIG_RAYS]; /* 1: too near total reflection, ask ifig_propagator instead */
} IfigLayerFields;

void ifig_lossless_fields(const IfigMedium *medium, const IfigRays *rays, IfigLayerFields *fields);

#endif
