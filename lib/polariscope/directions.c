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

/* Rows of the storage: base, 2 x 6 of tensors, gyration 2, axis 3, per_nm, weights 3, work 6. */
enum { ROWS = 1 + 12 + 2 + 3 + 1 + 3 + 6 };

static void lay_out(IfigHuntSpectrum *s)
{
    double *row = s->storage;
    double **const single[] = {&s->base, &s->gyration_along, &s->gyration_across, &s->per_nm};
    for (size_t i = 0; i < sizeof single / sizeof single[0]; i++, row += s->count) {
        *single[i] = row;
    }
    for (size_t i = 0; i < 6; i++, row += 3 * s->count) {
        s->deviator[i] = row;
        s->loss[i] = row + s->count;
        s->work[i] = row + 2 * s->count;
    }
    for (size_t i = 0; i < 3; i++, row += 2 * s->count) {
        s->axis[i] = row;
        s->weight[i] = row + s->count;
    }
}

static void fill_sample(IfigHuntSpectrum *s, size_t k, const IfigMedium *medium,
                        const double weight[3])
{
    double deviator[6], loss[6];
    six_of(medium->epsilon, medium->mean_square_index, deviator);
    six_of(medium->absorption, 0.0, loss);
    s->base[k] = medium->mean_square_index;
    s->gyration_along[k] = medium->gyration_along;
    s->gyration_across[k] = medium->gyration_across;
    s->per_nm[k] = 1.0 / medium->wavelength_nm;
    s->is_absorbing |= medium->is_absorbing;
    for (size_t i = 0; i < 6; i++) {
        s->deviator[i][k] = deviator[i];
        s->loss[i][k] = loss[i];
    }
    for (size_t i = 0; i < 3; i++) {
        s->axis[i][k] = medium->axis[i];
        s->weight[i][k] = weight[i];
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
        .storage = calloc(samples->count * ROWS, sizeof(double)),
    };
    if (spectrum->storage == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for the directions of a stone");
    }
    lay_out(spectrum);
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
    free(spectrum->storage);
    *spectrum = (IfigHuntSpectrum){.count = 0};
}

/* The rows that the loops fill: phase in turns, light without fringe and depth of the fringe, and
 * the square's constant and terms in cos 4a and sin 4a. */
enum { TURNS, EVEN, DEPTH, STILL, COSINE, SINE };

IFIG_INLINE double faces(double n, double n_outside)
{
    double sum = n + n_outside;
    return n_outside > 0.0 ? 4.0 * n * n_outside / (sum * sum) : 1.0;
}

IFIG_INLINE void gather(double *const rows[6], size_t k, double six[6])
{
    for (size_t i = 0; i < 6; i++) {
        six[i] = rows[i][k];
    }
}

IFIG_INLINE double gyration_at(const IfigHuntSpectrum *s, const IfigDirection *d, size_t k)
{
    double cosine =
        s->axis[0][k] * d->along[0] + s->axis[1][k] * d->along[1] + s->axis[2][k] * d->along[2];
    return gyration(s->gyration_along[k], s->gyration_across[k], cosine);
}

/* Keeps a division by H^2 finite at an optic axis, where the light is nil. */
static const double NO_DIFFERENCE = 1e-30;

IFIG_CLONES
static void clear_waves(const IfigHuntSpectrum *s, const IfigDirection *d, const Products *p,
                        double thickness_nm)
{
    double *const *row = s->work;
    for (size_t k = 0; k < s->count; k++) {
        double deviator[6];
        gather(s->deviator, k, deviator);
        Across a = across(p, deviator, s->base[k]);
        double g = gyration_at(s, d, k);
        double line = a.m3 * a.m3 + a.m1 * a.m1, h2 = line + g * g + NO_DIFFERENCE;
        double h = sqrt(h2), n2 = sqrt(a.m0 + h), n1 = sqrt(a.m0 - h), over = 1.0 / h2;
        double t1 = faces(n1, s->n_outside), t2 = faces(n2, s->n_outside);
        row[TURNS][k] = 2.0 * h / (n1 + n2) * thickness_nm * s->per_nm[k];
        row[EVEN][k] = 0.25 * (t1 * t1 + t2 * t2);
        row[DEPTH][k] = 0.5 * t1 * t2;
        row[STILL][k] = (0.5 * line + g * g) * over;
        row[COSINE][k] = 0.5 * (a.m1 * a.m1 - a.m3 * a.m3) * over;
        row[SINE][k] = -a.m1 * a.m3 * over;
    }
}

/* The same for a stone that absorbs: e, C, H and the indices are complex; the phase that absorption
 * adds at the faces, below 1e-4 radians, is left out. */
static void dyed_waves(const IfigHuntSpectrum *s, const IfigDirection *d, const Products *p,
                       double thickness_nm)
{
    double *const *row = s->work;
    for (size_t k = 0; k < s->count; k++) {
        double re[6], im[6];
        gather(s->deviator, k, re);
        gather(s->loss, k, im);
        double complex e11 = form(p->p11, re) + I * form(p->p11, im);
        double complex e22 = form(p->p22, re) + I * form(p->p22, im);
        double complex u1 = form(p->p1s, re) + I * form(p->p1s, im);
        double complex u2 = form(p->p2s, re) + I * form(p->p2s, im);
        double complex e12 = form(p->p12, re) + I * form(p->p12, im);
        double complex trace = re[0] + re[1] + re[2] + I * (im[0] + im[1] + im[2]);
        double complex r = 0.5 / (s->base[k] + trace - e11 - e22);
        double complex m0 = s->base[k] + 0.5 * (e11 + e22) - r * (u1 * u1 + u2 * u2);
        double complex m3 = 0.5 * (e11 - e22) - r * (u1 * u1 - u2 * u2);
        double complex m1 = e12 - 2.0 * r * u1 * u2;
        double g = gyration_at(s, d, k);
        double complex h2 = m3 * m3 + m1 * m1 + g * g, h = csqrt(h2);
        double complex n2 = csqrt(m0 + h), n1 = csqrt(m0 - h);
        double depth = thickness_nm * s->per_nm[k], over = 1.0 / (cabs(h2) + NO_DIFFERENCE);
        double e1 = exp(-2.0 * IFIG_PI * depth * cimag(n1)) * faces(creal(n1), s->n_outside);
        double e2 = exp(-2.0 * IFIG_PI * depth * cimag(n2)) * faces(creal(n2), s->n_outside);
        double square1 = creal(m1 * conj(m1)), square3 = creal(m3 * conj(m3));
        row[TURNS][k] = creal(2.0 * h / (n1 + n2)) * depth;
        row[EVEN][k] = 0.25 * (e1 * e1 + e2 * e2);
        row[DEPTH][k] = 0.5 * e1 * e2;
        row[STILL][k] = (0.5 * (square1 + square3) + g * g) * over;
        row[COSINE][k] = 0.5 * (square1 - square3) * over;
        row[SINE][k] = -creal(m1 * conj(m3)) * over;
    }
}

/* What the steps between samples and the width of the pixel leave of each fringe. */
IFIG_INLINE double fringe_at(const IfigHuntSpectrum *s, size_t k, const double slope_nm[2])
{
    const double *turns = s->work[TURNS];
    size_t before = k > 0 ? k - 1 : 0, behind = k + 1 < s->count ? k + 1 : k;
    double step = (turns[behind] - turns[before]) / (double)(behind > before ? behind - before : 1);
    double left =
        s->kernel == IFIG_KERNEL_SPLINE ? ifig_spline_of_sinc(ifig_sinc_turns(step), step) : 1.0;
    return left * ifig_sinc_turns(slope_nm[0] * s->per_nm[k]) *
           ifig_sinc_turns(slope_nm[1] * s->per_nm[k]) * ifig_cosine_turns(turns[k]);
}

IFIG_CLONES
static void add_up(const IfigHuntSpectrum *s, const double slope_nm[2], double sum[3][3])
{
    double *const *row = s->work;
    for (size_t k = 0; k < s->count; k++) {
        row[EVEN][k] -= row[DEPTH][k] * fringe_at(s, k, slope_nm);
    }
    for (int i = 0; i < 3; i++) {
        double still = 0, cosine = 0, sine = 0;
        for (size_t k = 0; k < s->count; k++) {
            double light = s->weight[i][k] * row[EVEN][k];
            still += light * row[STILL][k];
            cosine += light * row[COSINE][k];
            sine += light * row[SINE][k];
        }
        sum[0][i] = still;
        sum[1][i] = cosine;
        sum[2][i] = sine;
    }
}

void ifig_hunt_brightest(const IfigHuntSpectrum *spectrum, const IfigDirection *direction,
                         double thickness_nm, const double slope_nm[2], double xyz[3])
{
    const Products p = all_products(direction);
    double sum[3][3];
    if (spectrum->is_absorbing) {
        dyed_waves(spectrum, direction, &p, thickness_nm);
    } else {
        clear_waves(spectrum, direction, &p, thickness_nm);
    }
    add_up(spectrum, slope_nm, sum);
    double size = hypot(sum[1][1], sum[2][1]);
    double cosine = size > 0 ? sum[1][1] / size : 1.0, sine = size > 0 ? sum[2][1] / size : 0.0;
    for (int i = 0; i < 3; i++) {
        xyz[i] = sum[0][i] + cosine * sum[1][i] + sine * sum[2][i];
    }
}
