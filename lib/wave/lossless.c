/* SPDX-License-Identifier: MIT */
/* propagator.c for many rays at once, where the medium does not absorb and nothing is totally
 * reflected. Its tensor is Hermitian then: in Berreman's system a2 = conj(d2) and c12 = conj(c21),
 * all else and the characteristic polynomial are real, and so is the forward quadratic. Only
 * gyration gives a2 and c12 an imaginary part. Names and equations are those of propagator.c. */
#include "lossless.h"

#include "base.h"
#include "vector.h"

#include <math.h>
#include <stdint.h>

/* A complex number; where `real` is set its imaginary part is 0 and costs nothing. */
typedef struct Number {
    double re, im;
} Number;

IFIG_INLINE Number plus(int real, Number a, Number b)
{
    return (Number){a.re + b.re, real ? 0.0 : a.im + b.im};
}

IFIG_INLINE Number minus(int real, Number a, Number b)
{
    return (Number){a.re - b.re, real ? 0.0 : a.im - b.im};
}

IFIG_INLINE Number times(int real, Number a, Number b)
{
    return real ? (Number){a.re * b.re, 0.0}
                : (Number){a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re};
}

IFIG_INLINE Number scaled(int real, Number a, double share)
{
    return (Number){a.re * share, real ? 0.0 : a.im * share};
}

IFIG_INLINE Number conjugate(int real, Number a)
{
    return (Number){a.re, real ? 0.0 : -a.im};
}

IFIG_INLINE Number inverse(int real, Number a)
{
    double size = 1.0 / (a.re * a.re + a.im * a.im);
    return real ? (Number){1.0 / a.re, 0.0} : (Number){a.re * size, -a.im * size};
}

typedef struct Matrix {
    Number a, b, c, d;
} Matrix;

IFIG_INLINE Number determinant(int real, const Matrix *m)
{
    return minus(real, times(real, m->a, m->d), times(real, m->b, m->c));
}

/* Berreman's system of each ray, and its forward quadratic. */
typedef struct Systems {
    double a1[IFIG_RAYS], b1[IFIG_RAYS], c11[IFIG_RAYS], c22[IFIG_RAYS];
    double a2_re[IFIG_RAYS], a2_im[IFIG_RAYS], c12_re[IFIG_RAYS], c12_im[IFIG_RAYS];
    double c[4][IFIG_RAYS];
    double s[IFIG_RAYS], p[IFIG_RAYS];
} Systems;

/* The imaginary parts of e21 and e10: gyration along z and along x. */
typedef struct Gyration {
    double z, x;
} Gyration;

IFIG_INLINE Gyration gyration_of(const IfigMedium *medium, double kx, double cos_phi,
                                 double sin_phi)
{
    double n = sqrt(medium->mean_square_index);
    double sx = kx < n ? kx / n : 1.0, sz = sqrt(1.0 - sx * sx);
    double axis_x = cos_phi * medium->axis[0] + sin_phi * medium->axis[1];
    double cosine = sx * axis_x + sz * medium->axis[2];
    double g = medium->gyration_across +
               (medium->gyration_along - medium->gyration_across) * cosine * cosine;
    return (Gyration){g * sz, g * sx};
}

IFIG_INLINE void make_systems(const IfigMedium *medium, const IfigRays *rays, int real,
                              Systems *restrict y)
{
    const double(*e)[3] = medium->epsilon;
    double r = 1.0 / e[2][2];
    size_t count = rays->count;
    for (size_t i = 0; i < count; i++) {
        double cp = rays->cos_phi[i], sp = rays->sin_phi[i];
        double kx = rays->n_outside * rays->sin_theta[i], kx2 = kx * kx;
        double mixed = 2.0 * cp * sp * e[0][1];
        double e00 = cp * cp * e[0][0] + mixed + sp * sp * e[1][1];
        double e11 = sp * sp * e[0][0] - mixed + cp * cp * e[1][1];
        double e01 = cp * sp * (e[1][1] - e[0][0]) + (cp * cp - sp * sp) * e[0][1];
        double e02 = cp * e[0][2] + sp * e[1][2], e12 = cp * e[1][2] - sp * e[0][2];
        double a1 = -kx * e02 * r, b1 = 1.0 - kx2 * r, c11 = e00 - e02 * e02 * r;
        double a2_re = -kx * e12 * r, c12_re = e01 - e02 * e12 * r, square = e12 * e12;
        double a2_size = a2_re * a2_re, c12_size = c12_re * c12_re, cross = c12_re * a2_re;
        if (!real) {
            Gyration g = gyration_of(medium, kx, cp, sp);
            double a2_im = -kx * g.x * r, c12_im = -g.z - e02 * g.x * r;
            square += g.x * g.x;
            a2_size += a2_im * a2_im;
            c12_size += c12_im * c12_im;
            cross += c12_im * a2_im;
            y->a2_im[i] = a2_im;
            y->c12_im[i] = c12_im;
        }
        double c22 = e11 - square * r - kx2;
        double q0 = medium->mean_square_index - kx2;
        y->a1[i] = a1;
        y->b1[i] = b1;
        y->c11[i] = c11;
        y->c22[i] = c22;
        y->a2_re[i] = a2_re;
        y->c12_re[i] = c12_re;
        y->c[3][i] = -2.0 * a1;
        y->c[2][i] = a1 * a1 - c22 - b1 * c11;
        y->c[1][i] = 2.0 * (a1 * c22 - cross);
        y->c[0][i] = a1 * (2.0 * cross - a1 * c22) - a2_size * c11 + b1 * (c11 * c22 - c12_size);
        q0 = q0 > 0.01 ? q0 : 0.01;
        y->s[i] = 2.0 * sqrt(q0);
        y->p[i] = q0;
    }
}

/* Bairstow's iteration, all rays together, until the last step of each was below 1e-8: a step
 * squares what is missing. */
IFIG_INLINE void solve_quadratics(size_t count, Systems *restrict y, double *restrict missed)
{
    enum { MOST_STEPS = 12 };
    int64_t unsettled = 1;
    for (int step = 0; step < MOST_STEPS && unsettled; step++) {
        unsettled = 0;
        for (size_t i = 0; i < count; i++) {
            double s = y->s[i], p = y->p[i], e = y->c[3][i] + s, f = y->c[2][i] + s * e - p;
            double r1 = y->c[1][i] + s * f - p * e, r0 = y->c[0][i] - p * f;
            double r1_s = f + s * (e + s) - p, r1_p = -s - e, r0_s = -p * (e + s), r0_p = p - f;
            double by = 1.0 / (r1_s * r0_p - r1_p * r0_s);
            double ds = (r1_p * r0 - r0_p * r1) * by, dp = (r0_s * r1 - r1_s * r0) * by;
            y->s[i] = s + ds;
            y->p[i] = p + dp;
            double size = ds * ds + dp * dp;
            missed[i] = size < 1e-16 ? 0.0 : 1.0;
            unsettled |= size < 1e-16 ? 0 : 1;
        }
    }
}

/* The admittance of a quadratic, and Q. */
IFIG_INLINE Matrix field_matrix(int real, const Systems *y, size_t i, double s, double p,
                                Matrix *admittance)
{
    const Number a2 = {y->a2_re[i], real ? 0.0 : y->a2_im[i]};
    const Number c12 = {y->c12_re[i], real ? 0.0 : y->c12_im[i]};
    double b = 1.0 / y->b1[i], a1 = y->a1[i];
    /* left: (l00, -l; -conj(l), s), right: (r00, r; conj(r), r11). */
    Number l = scaled(real, a2, b), r = minus(real, c12, scaled(real, l, a1));
    double l00 = (s - 2.0 * a1) * b, r00 = (p - a1 * a1) * b + y->c11[i];
    double a2_size = a2.re * a2.re + (real ? 0.0 : a2.im * a2.im);
    double l_size = a2_size * b * b, r11 = p - a2_size * b + y->c22[i];
    double by = 1.0 / (l00 * s - l_size);
    Number back = times(real, l, conjugate(real, r));
    Matrix q = {
        scaled(real, plus(real, (Number){s * r00, 0.0}, back), by),
        scaled(real, plus(real, scaled(real, r, s), scaled(real, l, r11)), by),
        scaled(real, conjugate(real, plus(real, scaled(real, r, l00), scaled(real, l, r00))), by),
        scaled(real, plus(real, (Number){l00 * r11, 0.0}, conjugate(real, back)), by)};
    *admittance = (Matrix){scaled(real, minus(real, q.a, (Number){a1, 0.0}), b),
                           scaled(real, minus(real, q.b, a2), b), q.c, q.d};
    return q;
}

/* A row of two numbers. */
typedef struct Pair {
    Number x, y;
} Pair;

/* (forward + outside)^-1 times what comes in: tangential E behind the first face. */
IFIG_INLINE Pair enter(int real, const Matrix *forward, double y_p, double y_s, Pair in)
{
    Matrix m = *forward;
    m.a.re += y_p;
    m.d.re += y_s;
    Number by = inverse(real, determinant(real, &m));
    return (Pair){times(real, minus(real, times(real, m.d, in.x), times(real, m.b, in.y)), by),
                  times(real, minus(real, times(real, m.a, in.y), times(real, m.c, in.x)), by)};
}

/* What comes out, as a row, times (outside - backward)^-1 (forward - backward). */
IFIG_INLINE Pair leave(int real, const Matrix *forward, const Matrix *backward, double y_p,
                       double y_s, Pair out)
{
    const Number zero = {0.0, 0.0};
    Matrix left = {minus(real, (Number){y_p, 0.0}, backward->a), minus(real, zero, backward->b),
                   minus(real, zero, backward->c), minus(real, (Number){y_s, 0.0}, backward->d)};
    Matrix right = {minus(real, forward->a, backward->a), minus(real, forward->b, backward->b),
                    minus(real, forward->c, backward->c), minus(real, forward->d, backward->d)};
    Number by = inverse(real, determinant(real, &left));
    Number x = times(real, minus(real, times(real, out.x, left.d), times(real, out.y, left.c)), by);
    Number y = times(real, minus(real, times(real, out.y, left.a), times(real, out.x, left.b)), by);
    return (Pair){plus(real, times(real, x, right.a), times(real, y, right.c)),
                  plus(real, times(real, x, right.b), times(real, y, right.d))};
}

IFIG_INLINE Number product(int real, Pair row, Pair column)
{
    return plus(real, times(real, row.x, column.x), times(real, row.y, column.y));
}

IFIG_INLINE Pair field_of(int real, const double (*re)[IFIG_RAYS], const double (*im)[IFIG_RAYS],
                          size_t i)
{
    return (Pair){{re[0][i], real ? 0.0 : im[0][i]}, {re[1][i], real ? 0.0 : im[1][i]}};
}

/* system_real: without gyration; real: the fields sent in and let out are real too. */
IFIG_INLINE void make_fields(const IfigRays *rays, int system_real, int real,
                             const Systems *restrict y, IfigLayerFields *restrict fields)
{
    size_t count = rays->count;
    for (size_t i = 0; i < count; i++) {
        double ct = rays->cos_theta[i], n = rays->n_outside, s = y->s[i], p = y->p[i];
        double e = y->c[3][i] + s, other = y->c[2][i] + s * e - p;
        Matrix forward, backward;
        Matrix q = field_matrix(system_real, y, i, s, p, &forward);
        field_matrix(system_real, y, i, -e, other, &backward);
        Number half = scaled(system_real, minus(system_real, q.a, q.d), 0.5);
        fields->h2[i] = half.re * half.re + q.b.re * q.c.re -
                        (system_real ? 0.0 : half.im * half.im + q.b.im * q.c.im);

        double y_p = n / ct, y_s = n * ct;
        Pair in = field_of(real, rays->in_re, rays->in_im, i);
        Pair out = field_of(real, rays->out_re, rays->out_im, i);
        in = (Pair){scaled(real, in.x, 2.0 * n), scaled(real, in.y, 2.0 * y_s)};
        out.x = scaled(real, out.x, 1.0 / ct);
        Pair inside = enter(real, &forward, y_p, y_s, in);
        Pair seen = leave(real, &forward, &backward, y_p, y_s, out);
        Pair turned = {plus(real, times(real, half, inside.x), times(real, q.b, inside.y)),
                       minus(real, times(real, q.c, inside.x), times(real, half, inside.y))};
        Number u = product(real, seen, inside), v = product(real, seen, turned);
        fields->u_re[i] = u.re;
        fields->v_re[i] = v.re;
        fields->u_im[i] = u.im;
        fields->v_im[i] = v.im;
    }
}

IFIG_CLONES
static void lossless_fields(const IfigMedium *medium, const IfigRays *rays, IfigLayerFields *fields)
{
    Systems systems;
    if (medium->gyration_along != 0.0 || medium->gyration_across != 0.0) {
        make_systems(medium, rays, 0, &systems);
        solve_quadratics(rays->count, &systems, fields->missed);
        make_fields(rays, 0, 0, &systems, fields);
    } else {
        make_systems(medium, rays, 1, &systems);
        solve_quadratics(rays->count, &systems, fields->missed);
        if (rays->has_real_fields) {
            make_fields(rays, 1, 1, &systems, fields);
        } else {
            make_fields(rays, 1, 0, &systems, fields);
        }
    }
    for (size_t i = 0; i < rays->count; i++) {
        double kx = rays->n_outside * rays->sin_theta[i];
        fields->missed[i] = kx * kx < 0.9 * medium->least_square_index ? fields->missed[i] : 1.0;
    }
}

void ifig_lossless_fields(const IfigMedium *medium, const IfigRays *rays, IfigLayerFields *fields)
{
    lossless_fields(medium, rays, fields);
}
