/* SPDX-License-Identifier: MIT */
/* Room 5: light. Enters: a lamp. Leaves: the wavelengths at which a figure must be known and the
 * weight of each in X, Y and Z; then the colour of the sum. */
#ifndef IFIG_LIGHT_ROOM_H
#define IFIG_LIGHT_ROOM_H

#include "interfig/light.h"

enum {
    IFIG_SAMPLES_MOST = 401 /* the visible by 1 nm */
};

/* How a sum over equally spaced samples stands for the integral over wavelength of a weight g times
 * exp(i phi), where phi changes by `step` radians from sample to sample: each sample of the fringe
 * is multiplied by D(step/2), the Fourier transform of the kernel that interpolates g. */
typedef enum IfigSpectralKernel {
    IFIG_KERNEL_NONE = 0, /* one line: no integral, D = 1 */
    IFIG_KERNEL_LINEAR, /* g linear between samples: D(x) = sinc^2 x. For sums so fine that it does
                           not matter (probe.c); no lamp's own samples use it */
    IFIG_KERNEL_SPLINE  /* g a cubic spline: D(x) = sinc^4 x / (1 - 2/3 sin^2 x) (Unser, IEEE
                           Signal Process. Mag. 16, 22 (1999), the cardinal cubic spline) */
} IfigSpectralKernel;

/* The samples of a lamp's spectrum. weight[k] sums to the lamp's white, Y = 1. */
typedef struct IfigSpectrumSamples {
    size_t count;
    double step_nm; /* 0 for one line */
    IfigSpectralKernel kernel;
    double *wavelength_nm; /* count values, rising */
    double (*weight)[3];   /* count rows: X, Y, Z */
} IfigSpectrumSamples;

/* Smooth lamps (daylight, tungsten, white LED): 81 samples at 5 nm. Others: 401 at 1 nm. Each
 * weight is the value, times the step, of the cubic spline nearest (least squares) to lamp x
 * observer; it may be slightly negative beside a line. One line: one sample. Free with
 * ifig_spectrum_samples_free. */
IfigStatus ifig_lamp_samples(const IfigLamp *lamp, IfigSpectrumSamples *samples, IfigError *error);
/* The same at most step_nm apart, which divides the visible's 400 nm. */
IfigStatus ifig_lamp_samples_within(const IfigLamp *lamp, size_t step_nm,
                                    IfigSpectrumSamples *samples, IfigError *error);
void ifig_spectrum_samples_free(IfigSpectrumSamples *samples);

/* ifig_colour_linear as a matrix: rgb = matrix xyz. */
void ifig_colour_matrix(const IfigLamp *lamp, double exposure_stops, double matrix[3][3]);

#endif
