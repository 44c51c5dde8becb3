/* SPDX-License-Identifier: MIT */
/* The forward propagator of a plane-parallel medium: the definition that all faster code is held
 * to.
 *
 * With the frame turned so that the tangential wave vector is (kx, 0), in units of k0, Maxwell's
 * equations for E = (Ex, Ey), h = (Hy, -Hx) are
 *   dE/dz = i k0 (A E + B h),   dh/dz = i k0 (C E + D h)
 *   A = [-kx e31/e33, -kx e32/e33; 0, 0]        B = diag(1 - kx^2/e33, 1)
 *   C = [e11 - e13 e31/e33, e12 - e13 e32/e33; e21 - e23 e31/e33, e22 - e23 e32/e33 - kx^2]
 *   D = [-kx e13/e33, 0; -kx e23/e33, 0]
 * (Berreman, J. Opt. Soc. Am. 62, 502 (1972), eqs. 10-14, reordered.) The characteristic quartic
 * splits into a forward quadratic q^2 - s q + p and a backward one. By Cayley and Hamilton
 * Q^2 = s Q - p, which turns the equation for Q into a linear one:
 *   (s B^-1 - B^-1 A - D B^-1) Q = p B^-1 - D B^-1 A + C,
 * smooth through the optic axes, where a form that needs each mode's own vector divides by zero. */
#include "wave.h"

#include "base.h"

#include <math.h>
#include <string.h>

/* The four matrices of Berreman's system, and the coefficients of
 * q^4 + c[3] q^3 + c[2] q^2 + c[1] q + c[0]. */
typedef struct BerremanSystem {
    double complex a1, a2, b1, c11, c12, c21, c22, d1, d2;
    double complex c[4];
} BerremanSystem;

/* q^2 - s q + p. */
typedef struct Quadratic {
    double complex s, p;
} Quadratic;

/* a / b without the special cases of C's own complex division, which differ between compilers. */
static double complex divide(double complex a, double complex b)
{
    double scale = creal(b) * creal(b) + cimag(b) * cimag(b);
    return a * conj(b) / scale;
}

IfigRay ifig_ray(double n_outside, double theta, double phi)
{
    IfigRay ray = {n_outside, cos(theta), sin(theta), cos(phi), sin(phi)};
    return ray;
}

IfigMatrix2 ifig_matrix2_multiply(const IfigMatrix2 *a, const IfigMatrix2 *b)
{
    IfigMatrix2 c;
    for (int i = 0; i < 2; i++) {
        for (int j = 0; j < 2; j++) {
            c.m[i][j] = a->m[i][0] * b->m[0][j] + a->m[i][1] * b->m[1][j];
        }
    }
    return c;
}

/* a^-1 b */
static IfigMatrix2 solve(const IfigMatrix2 *a, const IfigMatrix2 *b)
{
    double complex determinant = a->m[0][0] * a->m[1][1] - a->m[0][1] * a->m[1][0];
    double complex inverse = divide(1.0, determinant);
    IfigMatrix2 x;
    for (int j = 0; j < 2; j++) {
        x.m[0][j] = (a->m[1][1] * b->m[0][j] - a->m[0][1] * b->m[1][j]) * inverse;
        x.m[1][j] = (a->m[0][0] * b->m[1][j] - a->m[1][0] * b->m[0][j]) * inverse;
    }
    return x;
}

/* The dielectric tensor in the turned frame, with gyration: D = e E + i g x E, g = G s, s the wave
 * normal at the mean index. A positive G makes the left-handed wave the slower one, which turns the
 * plane of vibration clockwise for an observer who looks toward the light: right-handed quartz. */
static void turned_tensor(const IfigMedium *medium, const IfigRay *ray, double complex e[3][3])
{
    const double turn[3][3] = {
        {ray->cos_phi, ray->sin_phi, 0}, {-ray->sin_phi, ray->cos_phi, 0}, {0, 0, 1}};
    double half[3][3];
    ifig_matrix3_multiply(turn, medium->epsilon, half);
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            e[i][j] = half[i][0] * turn[j][0] + half[i][1] * turn[j][1] + half[i][2] * turn[j][2];
        }
    }
    if (medium->is_absorbing) {
        ifig_matrix3_multiply(turn, medium->absorption, half);
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                e[i][j] += I * (half[i][0] * turn[j][0] + half[i][1] * turn[j][1] +
                                half[i][2] * turn[j][2]);
            }
        }
    }
    if (medium->gyration_along == 0.0 && medium->gyration_across == 0.0) {
        return;
    }
    double kx = ray->n_outside * ray->sin_theta;
    double n = sqrt(medium->mean_square_index);
    double sx = kx < n ? kx / n : 1.0, sz = sqrt(1.0 - sx * sx);
    double axis_x = turn[0][0] * medium->axis[0] + turn[0][1] * medium->axis[1];
    double cosine = sx * axis_x + sz * medium->axis[2];
    double g = medium->gyration_across +
               (medium->gyration_along - medium->gyration_across) * cosine * cosine;
    e[0][1] -= I * (g * sz);
    e[1][0] += I * (g * sz);
    e[1][2] -= I * (g * sx);
    e[2][1] += I * (g * sx);
}

static void berreman_system(double complex e[3][3], double kx, BerremanSystem *y)
{
    double complex r = divide(1.0, e[2][2]);
    y->a1 = -kx * e[2][0] * r;
    y->a2 = -kx * e[2][1] * r;
    y->b1 = 1.0 - kx * kx * r;
    y->c11 = e[0][0] - e[0][2] * e[2][0] * r;
    y->c12 = e[0][1] - e[0][2] * e[2][1] * r;
    y->c21 = e[1][0] - e[1][2] * e[2][0] * r;
    y->c22 = e[1][1] - e[1][2] * e[2][1] * r - kx * kx;
    y->d1 = -kx * e[0][2] * r;
    y->d2 = -kx * e[1][2] * r;
    y->c[3] = -(y->a1 + y->d1);
    y->c[2] = y->a1 * y->d1 - y->c22 - y->b1 * y->c11;
    y->c[1] = (y->a1 + y->d1) * y->c22 - y->c12 * y->d2 - y->a2 * y->c21;
    y->c[0] = -y->a1 * y->d1 * y->c22 + y->a1 * y->c12 * y->d2 + y->a2 * y->c21 * y->d1 -
              y->a2 * y->c11 * y->d2 + y->b1 * (y->c11 * y->c22 - y->c12 * y->c21);
}

/* |z| to within a factor of 1.42, without a root. */
static double size_of(double complex z)
{
    return fabs(creal(z)) + fabs(cimag(z));
}

/* One step of Bairstow's iteration (Bairstow, Reports and Memoranda 154 (1914)); returns its size
 * relative to the quadratic's own. */
static double bairstow_step(const double complex c[4], Quadratic *z)
{
    double complex e = c[3] + z->s;
    double complex f = c[2] + z->s * e - z->p;
    double complex r1 = c[1] + z->s * f - z->p * e;
    double complex r0 = c[0] - z->p * f;
    double complex r1_s = f + z->s * (e + z->s) - z->p, r1_p = -z->s - e;
    double complex r0_s = -z->p * (e + z->s), r0_p = z->p - f;
    double complex inverse = divide(1.0, r1_s * r0_p - r1_p * r0_s);
    double complex ds = (r1_p * r0 - r0_p * r1) * inverse;
    double complex dp = (r0_s * r1 - r1_s * r0) * inverse;
    z->s += ds;
    z->p += dp;
    return size_of(ds) / (size_of(z->s) + 1e-300) + size_of(dp) / (size_of(z->p) + 1e-300);
}

/* Iterate from a start to the last bit. 1 where it settled. */
static int bairstow(const double complex c[4], Quadratic *z)
{
    double size = 1.0;
    for (int i = 0; i < 40; i++) {
        double before = size;
        size = bairstow_step(c, z);
        if (size < 1e-14 && size >= 0.25 * before) {
            return 1; /* quadratic convergence has ended in rounding */
        }
        if (size == 0.0) {
            return 1;
        }
    }
    return size < 1e-10;
}

/* The same for a medium that neither absorbs nor has a totally reflected wave: c, s and p are real
 * then (its tensor is Hermitian), and a step costs a quarter. */
static int bairstow_real(const double complex c[4], Quadratic *quadratic)
{
    const double c0 = creal(c[0]), c1 = creal(c[1]), c2 = creal(c[2]), c3 = creal(c[3]);
    double s = creal(quadratic->s), p = creal(quadratic->p), size = 1.0;
    for (int i = 0; i < 40; i++) {
        double before = size, e = c3 + s, f = c2 + s * e - p;
        double r1 = c1 + s * f - p * e, r0 = c0 - p * f;
        double r1_s = f + s * (e + s) - p, r1_p = -s - e, r0_s = -p * (e + s), r0_p = p - f;
        double inverse = 1.0 / (r1_s * r0_p - r1_p * r0_s);
        double ds = (r1_p * r0 - r0_p * r1) * inverse, dp = (r0_s * r1 - r1_s * r0) * inverse;
        s += ds;
        p += dp;
        size = fabs(ds) / (fabs(s) + 1e-300) + fabs(dp) / (fabs(p) + 1e-300);
        if (size == 0.0 || (size < 1e-14 && size >= 0.25 * before)) {
            break;
        }
    }
    *quadratic = (Quadratic){s, p};
    return size < 1e-10;
}

/* All four roots by simultaneous iteration (Durand 1960, Kerner 1966), forward ones first. The
 * system given must be slightly absorbing: then a forward wave, and only that, decays forward
 * (principle of limiting absorption), whether it propagates or is totally reflected. */
static void sorted_roots(const double complex c[4], double complex q[4])
{
    for (int i = 0; i < 4; i++) {
        q[i] = (i < 2 ? 1.0 : -1.0) * (1.7 + 0.3 * i) + (i % 2 ? -0.4 : 0.5) * I;
    }
    double size = 1.0, before = 2.0;
    /* Until the last digits are met; two equal forward waves are then told apart by Bairstow. */
    for (int step = 0; step < 200 && !(size < 1e-10 && size >= 0.25 * before); step++) {
        before = size;
        size = 0.0;
        for (int i = 0; i < 4; i++) {
            double complex value = (((q[i] + c[3]) * q[i] + c[2]) * q[i] + c[1]) * q[i] + c[0];
            double complex product = 1.0;
            for (int j = 0; j < 4; j++) {
                product *= j == i ? 1.0 : q[i] - q[j] + 1e-300;
            }
            double complex change = divide(value, product);
            q[i] -= change;
            size = fmax(size, size_of(change));
        }
    }
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            if (cimag(q[j]) < cimag(q[j + 1])) {
                double complex swap = q[j];
                q[j] = q[j + 1];
                q[j + 1] = swap;
            }
        }
    }
}

/* The system of a medium that absorbs a little. */
static void lossy_system(double complex e[3][3], double loss, double kx, BerremanSystem *y)
{
    double complex lossy[3][3];
    memcpy(lossy, e, sizeof lossy);
    for (int i = 0; i < 3; i++) {
        lossy[i][i] *= 1.0 + loss * I;
    }
    berreman_system(lossy, kx, y);
}

/* The forward quadratic near and beyond total reflection, where the mean index is no start: told
 * from the backward one by a little absorption, and followed as that is taken away. In steps, since
 * where a forward and a backward wave have almost met, one leap could end at the wrong pair. */
static Quadratic forward_near_grazing(double complex e[3][3], double kx, const double complex c[4],
                                      int *evanescent)
{
    double complex q[4];
    BerremanSystem y;
    double loss = 1e-7;
    lossy_system(e, loss, kx, &y);
    sorted_roots(y.c, q);
    *evanescent = (cimag(q[0]) > 1e-3) + (cimag(q[1]) > 1e-3);
    double apart = fmin(fmin(cabs(q[0] - q[2]), cabs(q[0] - q[3])),
                        fmin(cabs(q[1] - q[2]), cabs(q[1] - q[3])));
    Quadratic settled = {q[0] + q[1], q[0] * q[1]};
    for (; apart < 0.05 && loss > 1e-17; loss *= 0.25) {
        Quadratic z = settled;
        lossy_system(e, loss, kx, &y);
        if (!bairstow(y.c, &z)) {
            return settled;
        }
        settled = z;
    }
    Quadratic z = settled;
    return bairstow(c, &z) ? z : settled;
}

/* Q of a quadratic, and the admittance Y = B^-1 (Q - A) that goes with it. */
static IfigMatrix2 field_matrix(const BerremanSystem *y, const Quadratic *z,
                                IfigMatrix2 *admittance)
{
    double complex b = divide(1.0, y->b1);
    IfigMatrix2 left = {{{z->s * b - b * y->a1 - y->d1 * b, -b * y->a2}, {-y->d2 * b, z->s}}};
    IfigMatrix2 right = {{{z->p * b - y->d1 * b * y->a1 + y->c11, -y->d1 * b * y->a2 + y->c12},
                          {-y->d2 * b * y->a1 + y->c21, z->p - y->d2 * b * y->a2 + y->c22}}};
    IfigMatrix2 q = solve(&left, &right);
    admittance->m[0][0] = b * (q.m[0][0] - y->a1);
    admittance->m[0][1] = b * (q.m[0][1] - y->a2);
    admittance->m[1][0] = q.m[1][0];
    admittance->m[1][1] = q.m[1][1];
    return q;
}

void ifig_propagator(const IfigMedium *medium, const IfigRay *ray, IfigPropagator *propagator)
{
    double complex e[3][3];
    BerremanSystem y;
    double kx = ray->n_outside * ray->sin_theta;
    turned_tensor(medium, ray, e);
    berreman_system(e, kx, &y);

    Quadratic z;
    propagator->evanescent = 0;
    int settled = 0;
    if (kx * kx < 0.9 * medium->least_square_index) {
        double q0 = sqrt(medium->mean_square_index - kx * kx);
        z = (Quadratic){2.0 * q0, q0 * q0};
        settled = medium->is_absorbing ? bairstow(y.c, &z) : bairstow_real(y.c, &z);
    }
    if (!settled) {
        z = forward_near_grazing(e, kx, y.c, &propagator->evanescent);
    }
    Quadratic other = {-(y.c[3] + z.s), y.c[2] + z.s * (y.c[3] + z.s) - z.p};
    IfigMatrix2 q = field_matrix(&y, &z, &propagator->forward);
    field_matrix(&y, &other, &propagator->backward);

    /* h^2 = s^2/4 - p loses its digits where it matters, next to an optic axis; the same number
     * from the traceless part of Q keeps them. */
    double complex half = 0.5 * (q.m[0][0] - q.m[1][1]);
    propagator->mean = 0.5 * (q.m[0][0] + q.m[1][1]);
    propagator->turn = (IfigMatrix2){{{half, q.m[0][1]}, {q.m[1][0], -half}}};
    propagator->half_difference_squared = half * half + q.m[0][1] * q.m[1][0];
}

IfigMatrix2 ifig_face(const IfigPropagator *before, const IfigPropagator *behind,
                      const IfigRay *ray)
{
    /* Admittance of the outside medium: n / cos theta for p, n cos theta for s. Continuity of E and
     * h at the face: E_behind = (Y_behind - Y_back)^-1 (Y_before - Y_back) E_before, with Y_back
     * that of the waves thrown back into the medium before the face. */
    double y_p = ray->n_outside / ray->cos_theta, y_s = ray->n_outside * ray->cos_theta;
    const IfigMatrix2 outside = {{{y_p, 0}, {0, y_s}}};
    const IfigMatrix2 thrown_out = {{{-y_p, 0}, {0, -y_s}}};
    const IfigMatrix2 *back = before != NULL ? &before->backward : &thrown_out;
    const IfigMatrix2 *y_before = before != NULL ? &before->forward : &outside;
    const IfigMatrix2 *y_behind = behind != NULL ? &behind->forward : &outside;
    IfigMatrix2 left, right;
    for (int i = 0; i < 2; i++) {
        for (int j = 0; j < 2; j++) {
            left.m[i][j] = y_behind->m[i][j] - back->m[i][j];
            right.m[i][j] = y_before->m[i][j] - back->m[i][j];
        }
    }
    return solve(&left, &right);
}
