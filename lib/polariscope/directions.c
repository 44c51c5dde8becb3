/* SPDX-License-Identifier: MIT */
/* Light that goes straight through the stone in any direction s: two waves whose indices are those
 * of the ellipse across s (Born & Wolf, Principles of Optics, 15.2), with gyration
 * (n^2 - n1^2)(n^2 - n2^2) = G^2 (Nye, Physical Properties of Crystals, ch. XIV).
 *
 * The inverse of the impermeability across s is the permittivity across s less what goes along it,
 *   C_ij = e_ij - e_is e_sj / e_ss + i G [s x]_ij,
 * and n^2 are its eigenvalues m0 +- H, H^2 = m3^2 + m1^2 + G^2, with m0, m3 half the sum and half
 * the difference of C's diagonal and m1 its real off-diagonal element. That is the propagator of
 * lib/wave at normal incidence, Q^2 = C, in closed form. The isotropic part of e takes no part in
 * m3 and m1, so that nothing cancels next to an optic axis.
 *
 * Of the light behind a polariser, turned by a against the stone, there comes through an analyser
 * across it
 *   |t1 exp(i phi1) - t2 exp(i phi2)|^2 / 4 |m1 cos 2a - m3 sin 2a + i G|^2 / |H|^2,
 * t = 4 n0 n / (n0 + n)^2 the two faces, crossed once. The square is a constant and terms in cos 4a
 * and sin 4a; terms in 2a, which only a stone that both rotates and absorbs has, change sign with a
 * quarter turn and are left out: the mean of both such turns is told. */
#include "hunt.h"

#include "base.h"
#include "fringe_math.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

IfigDirection ifig_direction(const double along[3])
{
    /* Duff et al., J. Comput. Graph. Tech. 6(1), 1 (2017): no branch near a pole. */
    IfigDirection d;
    double z = along[2], sign = copysign(1.0, z);
    double a = -1.0 / (sign + z), b = along[0] * along[1] * a;
    memcpy(d.along, along, sizeof d.along);
    d.first[0] = 1.0 + sign * along[0] * along[0] * a;
    d.first[1] = sign * b;
    d.first[2] = -sign * along[0];
    d.second[0] = b;
    d.second[1] = sign + along[1] * along[1] * a;
    d.second[2] = -along[1];
    return d;
}

/* The products that turn a symmetric tensor's six elements into u . T v. */
static void products(const double u[3], const double v[3], double p[6])
{
    p[0] = u[0] * v[0];
    p[1] = u[1] * v[1];
    p[2] = u[2] * v[2];
    p[3] = u[0] * v[1] + u[1] * v[0];
    p[4] = u[0] * v[2] + u[2] * v[0];
    p[5] = u[1] * v[2] + u[2] * v[1];
}

/* All the products of a direction: across (11, 22, 12), and across with along (1s, 2s). */
typedef struct Products {
    double p11[6], p22[6], p12[6], p1s[6], p2s[6];
} Products;

static Products all_products(const IfigDirection *d)
{
    Products p;
    products(d->first, d->first, p.p11);
    products(d->second, d->second, p.p22);
    products(d->first, d->second, p.p12);
    products(d->first, d->along, p.p1s);
    products(d->second, d->along, p.p2s);
    return p;
}

IFIG_INLINE double form(const double p[6], const double t[6])
{
    return p[0] * t[0] + p[1] * t[1] + p[2] * t[2] + p[3] * t[3] + p[4] * t[4] + p[5] * t[5];
}

/* Half the sum, half the difference and the off-diagonal element of C without gyration. */
typedef struct Across {
    double m0, m3, m1;
} Across;

IFIG_INLINE Across across(const Products *p, const double deviator[6], double base)
{
    double d11 = form(p->p11, deviator), d22 = form(p->p22, deviator);
    double u1 = form(p->p1s, deviator), u2 = form(p->p2s, deviator);
    double along = base + (deviator[0] + deviator[1] + deviator[2]) - (d11 + d22);
    double r = 0.5 / along;
    Across a = {base + 0.5 * (d11 + d22) - r * (u1 * u1 + u2 * u2),
                0.5 * (d11 - d22) - r * (u1 * u1 - u2 * u2),
                form(p->p12, deviator) - 2.0 * r * u1 * u2};
    return a;
}

IFIG_INLINE double gyration(double along, double across_axis, double cosine)
{
    return across_axis + (along - across_axis) * cosine * cosine;
}

static double dot(const double a[3], const double b[3])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/* The six elements of a symmetric matrix less `base` on its diagonal. */
static void six_of(const double m[3][3], double base, double six[6])
{
    const double elements[6] = {m[0][0] - base, m[1][1] - base, m[2][2] - base,
                                m[0][1],        m[0][2],        m[1][2]};
    memcpy(six, elements, sizeof elements);
}

double ifig_direction_retardation(const IfigMedium *medium, const IfigDirection *direction,
                                  double thickness_nm)
{
    const Products p = all_products(direction);
    double deviator[6], base = medium->mean_square_index;
    six_of(medium->epsilon, base, deviator);
    Across a = across(&p, deviator, base);
    double g = gyration(medium->gyration_along, medium->gyration_across,
                        dot(direction->along, medium->axis));
    double h = sqrt(a.m3 * a.m3 + a.m1 * a.m1 + g * g);
    return thickness_nm * 2.0 * h / (sqrt(a.m0 + h) + sqrt(a.m0 - h));
}

/* Rows of the samples: what is read and what is written. */
enum {
    BASE,                /* mean square index */
    DEVIATOR,            /* epsilon less base: six rows */
    LOSS = DEVIATOR + 6, /* imaginary part of epsilon: six rows */
    G_ALONG = LOSS + 6,
    G_ACROSS,
    AXIS,              /* of the gyration: three rows */
    PER_NM = AXIS + 3, /* 1 / wavelength */
    WEIGHT,            /* X, Y, Z */
    ROWS_READ = WEIGHT + 3
};
enum {
    TURNS,  /* phase between the two waves */
    EVEN,   /* light without the fringe */
    DEPTH,  /* of the fringe */
    STILL,  /* |m1 cos 2a - m3 sin 2a + i G|^2 / |H|^2: its constant, */
    COSINE, /* its term in cos 4a */
    SINE,   /* and in sin 4a */
    ROWS_WRITTEN
};

size_t ifig_hunt_work_size(const IfigHuntSpectrum *spectrum)
{
    return ROWS_WRITTEN * spectrum->count;
}

double ifig_hunt_per_nm(const IfigHuntSpectrum *spectrum, size_t k)
{
    return spectrum->rows[PER_NM * spectrum->count + k];
}

double ifig_hunt_weight(const IfigHuntSpectrum *spectrum, size_t k)
{
    return spectrum->rows[(WEIGHT + 1) * spectrum->count + k];
}

static void fill_sample(IfigHuntSpectrum *s, size_t k, const IfigMedium *medium,
                        const double weight[3])
{
    double deviator[6], loss[6];
    double *row = s->rows + k;
    six_of(medium->epsilon, medium->mean_square_index, deviator);
    six_of(medium->absorption, 0.0, loss);
    row[BASE * s->count] = medium->mean_square_index;
    row[G_ALONG * s->count] = medium->gyration_along;
    row[G_ACROSS * s->count] = medium->gyration_across;
    row[PER_NM * s->count] = 1.0 / medium->wavelength_nm;
    s->is_absorbing |= medium->is_absorbing;
    for (size_t i = 0; i < 6; i++) {
        row[(DEVIATOR + i) * s->count] = deviator[i];
        row[(LOSS + i) * s->count] = loss[i];
    }
    for (size_t i = 0; i < 3; i++) {
        row[(AXIS + i) * s->count] = medium->axis[i];
        row[(WEIGHT + i) * s->count] = weight[i];
    }
}

IfigStatus ifig_hunt_spectrum_create(const IfigLayer *layer, const double rotation[3][3],
                                     const IfigInstrument *instrument,
                                     const IfigSpectrumSamples *samples, IfigHuntSpectrum *spectrum,
                                     IfigError *error)
{
    *spectrum = (IfigHuntSpectrum){
        .count = samples->count,
        .kernel = samples->kernel,
        .n_outside = instrument != NULL ? instrument->immersion_index : 0.0,
        .rows = calloc(samples->count * (ROWS_READ + ROWS_WRITTEN), sizeof(double)),
    };
    if (spectrum->rows == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for the directions of a stone");
    }
    spectrum->work = spectrum->rows + ROWS_READ * samples->count;
    IfigStatus status = IFIG_OK;
    for (size_t k = 0; status == IFIG_OK && k < samples->count; k++) {
        IfigMedium medium;
        status = ifig_layer_medium(layer, rotation, samples->wavelength_nm[k], &medium, error);
        if (status == IFIG_OK) {
            fill_sample(spectrum, k, &medium, samples->weight[k]);
        }
    }
    if (status != IFIG_OK) {
        ifig_hunt_spectrum_free(spectrum);
    }
    return status;
}

void ifig_hunt_spectrum_free(IfigHuntSpectrum *spectrum)
{
    free(spectrum->rows);
    *spectrum = (IfigHuntSpectrum){.count = 0};
}

/* One face in, one face out. */
IFIG_INLINE double faces(double n, double n_outside)
{
    double sum = n + n_outside;
    return n_outside > 0.0 ? 4.0 * n * n_outside / (sum * sum) : 1.0;
}

/* Six rows' values at a sample. */
IFIG_INLINE void gather(const double *row, size_t n, size_t k, double six[6])
{
    for (size_t i = 0; i < 6; i++) {
        six[i] = row[i * n + k];
    }
}

IFIG_INLINE double gyration_at(const double *in, size_t n, const double s[3], size_t k)
{
    double cosine =
        in[AXIS * n + k] * s[0] + in[(AXIS + 1) * n + k] * s[1] + in[(AXIS + 2) * n + k] * s[2];
    return gyration(in[G_ALONG * n + k], in[G_ACROSS * n + k], cosine);
}

/* Keeps a division by H^2 finite at an optic axis, where the light is nil. */
#define NO_DIFFERENCE 1e-30

/* A direction as the loops take it. */
typedef struct Look {
    Products p;
    double along[3];
    double n_outside, thickness_nm;
} Look;

/* The rows do not overlap: in is read, out is written. */
IFIG_CLONES
static void clear_waves(const Look *look, size_t n, const double *restrict in, double *restrict out)
{
    const Look at = *look;
    for (size_t k = 0; k < n; k++) {
        double deviator[6];
        gather(in + DEVIATOR * n, n, k, deviator);
        Across a = across(&at.p, deviator, in[BASE * n + k]);
        double g = gyration_at(in, n, at.along, k);
        double line = a.m3 * a.m3 + a.m1 * a.m1, h2 = line + g * g + NO_DIFFERENCE;
        double h = sqrt(h2), n2 = sqrt(a.m0 + h), n1 = sqrt(a.m0 - h), over = 1.0 / h2;
        double t1 = faces(n1, at.n_outside), t2 = faces(n2, at.n_outside);
        out[TURNS * n + k] = 2.0 * h / (n1 + n2) * at.thickness_nm * in[PER_NM * n + k];
        out[EVEN * n + k] = 0.25 * (t1 * t1 + t2 * t2);
        out[DEPTH * n + k] = 0.5 * t1 * t2;
        out[STILL * n + k] = (0.5 * line + g * g) * over;
        out[COSINE * n + k] = 0.5 * (a.m1 * a.m1 - a.m3 * a.m3) * over;
        out[SINE * n + k] = -a.m1 * a.m3 * over;
    }
}

/* The square root whose real part is not negative, without the special cases of libm's. */
IFIG_INLINE double complex root(double complex z)
{
    double re = creal(z), im = cimag(z), size = sqrt(re * re + im * im);
    double large = sqrt(0.5 * (size + fabs(re))), small = 0.5 * fabs(im) / (large + 1e-300);
    double real = re >= 0 ? large : small, imaginary = re >= 0 ? small : large;
    return real + I * copysign(imaginary, im);
}

/* The same for a stone that absorbs: e, C, H and the indices are complex; the phase that absorption
 * adds at the faces, below 1e-4 radians, is left out. */
IFIG_CLONES
static void dyed_waves(const Look *at, size_t n, const double *restrict in, double *restrict out)
{
    const Products *p = &at->p;
    for (size_t k = 0; k < n; k++) {
        double re[6], im[6];
        gather(in + DEVIATOR * n, n, k, re);
        gather(in + LOSS * n, n, k, im);
        double complex e11 = form(p->p11, re) + I * form(p->p11, im);
        double complex e22 = form(p->p22, re) + I * form(p->p22, im);
        double complex u1 = form(p->p1s, re) + I * form(p->p1s, im);
        double complex u2 = form(p->p2s, re) + I * form(p->p2s, im);
        double complex e12 = form(p->p12, re) + I * form(p->p12, im);
        double complex trace = re[0] + re[1] + re[2] + I * (im[0] + im[1] + im[2]);
        double complex r = 0.5 / (in[BASE * n + k] + trace - e11 - e22);
        double complex m0 = in[BASE * n + k] + 0.5 * (e11 + e22) - r * (u1 * u1 + u2 * u2);
        double complex m3 = 0.5 * (e11 - e22) - r * (u1 * u1 - u2 * u2);
        double complex m1 = e12 - 2.0 * r * u1 * u2;
        double g = gyration_at(in, n, at->along, k);
        double complex h2 = m3 * m3 + m1 * m1 + g * g, h = root(h2);
        double complex n2 = root(m0 + h), n1 = root(m0 - h);
        double depth = at->thickness_nm * in[PER_NM * n + k];
        double over = 1.0 / (creal(h * conj(h)) + NO_DIFFERENCE);
        double e1 = ifig_exponential_decay(2.0 * IFIG_PI * depth * cimag(n1)) *
                    faces(creal(n1), at->n_outside);
        double e2 = ifig_exponential_decay(2.0 * IFIG_PI * depth * cimag(n2)) *
                    faces(creal(n2), at->n_outside);
        double square1 = creal(m1 * conj(m1)), square3 = creal(m3 * conj(m3));
        out[TURNS * n + k] = creal(2.0 * h / (n1 + n2)) * depth;
        out[EVEN * n + k] = 0.25 * (e1 * e1 + e2 * e2);
        out[DEPTH * n + k] = 0.5 * e1 * e2;
        out[STILL * n + k] = (0.5 * (square1 + square3) + g * g) * over;
        out[COSINE * n + k] = 0.5 * (square1 - square3) * over;
        out[SINE * n + k] = -creal(m1 * conj(m3)) * over;
    }
}

/* Take the fringe off the even light, so much of it as the width of the pixel and the step from
 * sample to sample leave. */
IFIG_CLONES
static void take_fringe(size_t n, int is_spline, const double slope_nm[2],
                        const double *restrict per_nm, const double *restrict turns,
                        const double *restrict depth, double *restrict even)
{
    const double right = slope_nm[0], up = slope_nm[1];
    for (size_t k = 0; k < n; k++) {
        double left = ifig_sinc_turns(right * per_nm[k]) * ifig_sinc_turns(up * per_nm[k]);
        size_t before = k - (k > 0 ? 1 : 0), behind = k + (k + 1 < n ? 1 : 0);
        double step = (turns[behind] - turns[before]) * (behind - before > 1 ? 0.5 : 1.0);
        double kept = is_spline ? ifig_spline_of_sinc(ifig_sinc_turns(step), step) : 1.0;
        even[k] -= depth[k] * left * kept * ifig_cosine_turns(turns[k]);
    }
}

/* The sum over the lamp at the turn at which Y is greatest. */
static void add_up(size_t n, const double *weight, const double *row, double xyz[3])
{
    double cosine = 0, sine = 0, x = 0, y = 0, z = 0;
    for (size_t k = 0; k < n; k++) {
        double light = weight[n + k] * row[EVEN * n + k];
        cosine += light * row[COSINE * n + k];
        sine += light * row[SINE * n + k];
    }
    double size = hypot(cosine, sine);
    cosine = size > 0 ? cosine / size : 1.0;
    sine = size > 0 ? sine / size : 0.0;
    for (size_t k = 0; k < n; k++) {
        double turned =
            row[STILL * n + k] + cosine * row[COSINE * n + k] + sine * row[SINE * n + k];
        double light = row[EVEN * n + k] * turned;
        x += weight[k] * light;
        y += weight[n + k] * light;
        z += weight[2 * n + k] * light;
    }
    xyz[0] = x;
    xyz[1] = y;
    xyz[2] = z;
}

void ifig_hunt_brightest(const IfigHuntSpectrum *spectrum, const IfigDirection *direction,
                         double thickness_nm, const double slope_nm[2], double xyz[3])
{
    const size_t n = spectrum->count;
    double *row = spectrum->work;
    Look look = {.p = all_products(direction),
                 .n_outside = spectrum->n_outside,
                 .thickness_nm = thickness_nm};
    memcpy(look.along, direction->along, sizeof look.along);
    if (spectrum->is_absorbing) {
        dyed_waves(&look, n, spectrum->rows, row);
    } else {
        clear_waves(&look, n, spectrum->rows, row);
    }
    take_fringe(n, spectrum->kernel == IFIG_KERNEL_SPLINE, slope_nm, spectrum->rows + PER_NM * n,
                row + TURNS * n, row + DEPTH * n, row + EVEN * n);
    add_up(n, spectrum->rows + WEIGHT * n, row, xyz);
}
