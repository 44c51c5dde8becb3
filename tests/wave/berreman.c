/* SPDX-License-Identifier: MIT */
#include "berreman.h"

#include <lapacke.h>
#include <math.h>
#include <string.h>

typedef double complex Matrix4[4][4];

static const double RADIAN = 3.14159265358979323846 / 180.0;

static void euler_matrix(const double deg[3], double r[3][3])
{
    double ca = cos(deg[0] * RADIAN), sa = sin(deg[0] * RADIAN);
    double cb = cos(deg[1] * RADIAN), sb = sin(deg[1] * RADIAN);
    double cc = cos(deg[2] * RADIAN), sc = sin(deg[2] * RADIAN);
    const double value[3][3] = {
        {ca * cb * cc - sa * sc, -ca * cb * sc - sa * cc, ca * sb},
        {sa * cb * cc + ca * sc, -sa * cb * sc + ca * cc, sa * sb},
        {-sb * cc, sb * sc, cb},
    };
    memcpy(r, value, sizeof value);
}

/* [v]x */
static void cross_matrix(const double v[3], double m[3][3])
{
    const double value[3][3] = {{0, -v[2], v[1]}, {v[2], 0, -v[0]}, {-v[1], v[0], 0}};
    memcpy(m, value, sizeof value);
}

/* D = e E + i g x E, g = G s, with s the wave normal at the mean index sqrt(trace / 3); along the
 * face where a wave of that index would be totally reflected. */
static void permittivity(const BerremanPlate *plate, const double k[2], double complex e[3][3])
{
    double r[3][3], square = 0, cosine = 0, turn[3][3];
    euler_matrix(plate->euler_deg, r);
    for (int i = 0; i < 3; i++) {
        square += plate->n[i] * plate->n[i] / 3.0;
    }
    double across = k[0] * k[0] + k[1] * k[1], n = sqrt(fmax(square, across));
    const double s[3] = {k[0] / n, k[1] / n, sqrt(fmax(0.0, square - across)) / n};
    for (int i = 0; i < 3; i++) {
        cosine += s[i] * r[i][2];
    }
    double g =
        plate->gyration_along * cosine * cosine + plate->gyration_across * (1.0 - cosine * cosine);
    cross_matrix(s, turn);
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            e[i][j] = I * g * turn[i][j];
            for (int a = 0; a < 3; a++) {
                e[i][j] += r[i][a] * r[j][a] * plate->n[a] *
                           (plate->n[a] + 2.0 * I * plate->extinction[a]);
            }
        }
    }
}

/* With k = (kx, ky, q): -k x H = e E and k x E = H, so q Cz F = L F for F = (E, H), where the rows
 * of z hold no q: Ez and Hz are eliminated. The order of psi is Ex, Ey, Hx, Hy, with H over
 * `scale`, which brings all elements to one size. */
static void berreman_matrix(const BerremanPlate *plate, const double k[2], double scale, Matrix4 m)
{
    static const int tangential[4] = {0, 1, 3, 4}, normal[2] = {2, 5};
    double complex e[3][3], l[6][6];
    const double k_tangential[3] = {k[0], k[1], 0};
    double curl[3][3];
    permittivity(plate, k, e);
    cross_matrix(k_tangential, curl);
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            l[i][j] = e[i][j];
            l[i][j + 3] = curl[i][j];
            l[i + 3][j] = -curl[i][j];
            l[i + 3][j + 3] = i == j;
        }
    }
    double complex a = l[2][2], b = l[2][5], c = l[5][2], d = l[5][5], det = a * d - b * c;
    const double complex inverse[2][2] = {{d / det, -b / det}, {-c / det, a / det}};
    Matrix4 reduced;
    for (int i = 0; i < 4; i++) {
        for (int j = 0; j < 4; j++) {
            reduced[i][j] = l[tangential[i]][tangential[j]];
            for (int x = 0; x < 4; x++) {
                reduced[i][j] -= l[tangential[i]][normal[x / 2]] * inverse[x / 2][x % 2] *
                                 l[normal[x % 2]][tangential[j]];
            }
        }
    }
    /* Cz F is (Hy, -Hx, -Ey, Ex). */
    static const int row[4] = {3, 2, 1, 0};
    static const double sign[4] = {1, -1, -1, 1};
    for (int i = 0; i < 4; i++) {
        for (int j = 0; j < 4; j++) {
            double unit = (i < 2 ? 1.0 : 1.0 / scale) * (j < 2 ? 1.0 : scale);
            m[i][j] = sign[i] * reduced[row[i]][j] * unit;
        }
    }
}

/* Forward waves decay forward, or carry their flux Re(Ex Hy* - Ey Hx*) forward. */
static int part_waves(Matrix4 vector, const double complex q[4], int forward[4], int *evanescent)
{
    int count = 0;
    *evanescent = 0;
    for (int i = 0; i < 4; i++) {
        double flux = creal(vector[0][i] * conj(vector[3][i]) - vector[1][i] * conj(vector[2][i]));
        int decays = fabs(cimag(q[i])) > 1e-7;
        forward[i] = decays ? cimag(q[i]) > 0 : flux > 0;
        *evanescent += forward[i] && decays;
        count += forward[i];
    }
    return count == 2;
}

/* An orthonormal basis of the forward or the backward waves from Schur's form, and how the matrix
 * acts within it. */
static int invariant_subspace(Matrix4 m, const double complex q[4], const int chosen[4],
                              double complex basis[4][2], double complex action[2][2])
{
    Matrix4 t, z;
    double complex w[4];
    lapack_int dimension = 0;
    lapack_logical select[4];
    double s, sep;
    memcpy(t, m, sizeof t);
    if (LAPACKE_zgees(LAPACK_ROW_MAJOR, 'V', 'N', NULL, 4, &t[0][0], 4, &dimension, w, &z[0][0],
                      4) != 0) {
        return 0;
    }
    int taken[4] = {0, 0, 0, 0};
    for (int i = 0; i < 4; i++) {
        int nearest = -1;
        for (int j = 0; j < 4; j++) {
            if (!taken[j] && (nearest < 0 || cabs(w[i] - q[j]) < cabs(w[i] - q[nearest]))) {
                nearest = j;
            }
        }
        taken[nearest] = 1;
        select[i] = chosen[nearest];
    }
    if (LAPACKE_ztrsen(LAPACK_ROW_MAJOR, 'N', 'V', select, 4, &t[0][0], 4, &z[0][0], 4, w,
                       &dimension, &s, &sep) != 0 ||
        dimension != 2) {
        return 0;
    }
    for (int i = 0; i < 4; i++) {
        for (int j = 0; j < 2; j++) {
            basis[i][j] = z[i][j];
            if (i < 2) {
                action[i][j] = t[i][j];
            }
        }
    }
    return 1;
}

/* exp(i x t) of an upper triangle: Newton's divided difference stands off its diagonal, as a sine
 * over its argument, which coincident roots do not trouble. */
static void exponential(double complex t[2][2], double x, double complex result[2][2])
{
    double complex half = 0.5 * x * (t[0][0] - t[1][1]);
    double complex sinc = cabs(half) < 1e-4 ? 1.0 - half * half / 6.0 : csin(half) / half;
    result[0][0] = cexp(I * x * t[0][0]);
    result[1][1] = cexp(I * x * t[1][1]);
    result[1][0] = 0;
    result[0][1] = t[0][1] * I * x * cexp(0.5 * I * x * (t[0][0] + t[1][1])) * sinc;
    if (cabs(half) >= 1.0) {
        result[0][1] = t[0][1] * (result[0][0] - result[1][1]) / (t[0][0] - t[1][1]);
    }
}

/* Tangential fields of the outside waves, p and s in the columns; up: 1 with the light, -1 against.
 */
static void outside_waves(const BerremanPlate *plate, double up, double scale,
                          double complex wave[4][2])
{
    double ct = cos(plate->theta_deg * RADIAN), st = sin(plate->theta_deg * RADIAN);
    double cp = cos(plate->phi_deg * RADIAN), sp = sin(plate->phi_deg * RADIAN);
    const double k[3] = {st * cp, st * sp, up * ct};
    const double e[2][3] = {{ct * cp, ct * sp, -up * st}, {-sp, cp, 0}};
    for (int j = 0; j < 2; j++) {
        double n = plate->n_outside / scale;
        wave[0][j] = e[j][0];
        wave[1][j] = e[j][1];
        wave[2][j] = n * (k[1] * e[j][2] - k[2] * e[j][1]);
        wave[3][j] = n * (k[2] * e[j][0] - k[0] * e[j][2]);
    }
}

/* Solve left c = right where the columns of left are those of a and -b; the first two rows of c. */
static int match_face(double complex a[4][2], double complex b[4][2], double complex right[4][2],
                      double complex result[2][2])
{
    Matrix4 left;
    double complex x[4][2];
    lapack_int pivot[4];
    for (int i = 0; i < 4; i++) {
        for (int j = 0; j < 2; j++) {
            left[i][j] = a[i][j];
            left[i][j + 2] = -b[i][j];
            x[i][j] = right[i][j];
        }
    }
    int ok = LAPACKE_zgesv(LAPACK_ROW_MAJOR, 4, 2, &left[0][0], 4, pivot, &x[0][0], 2) == 0;
    memcpy(result, x, 2 * sizeof *x);
    return ok;
}

/* Single pass: enter the forward waves, cross, leave with the backward waves thrown back. */
static int cross_plate(const BerremanPlate *plate, double scale, double complex forward[4][2],
                       double complex backward[4][2], double complex across[2][2],
                       double complex jones[2][2])
{
    double complex in[4][2], thrown[4][2], entered[2][2], arrived[4][2];
    outside_waves(plate, 1, scale, in);
    outside_waves(plate, -1, scale, thrown);
    if (!match_face(forward, thrown, in, entered)) {
        return 0;
    }
    for (int i = 0; i < 4; i++) {
        for (int j = 0; j < 2; j++) {
            arrived[i][j] = 0;
            for (int a = 0; a < 2; a++) {
                for (int b = 0; b < 2; b++) {
                    arrived[i][j] += forward[i][a] * across[a][b] * entered[b][j];
                }
            }
        }
    }
    return match_face(in, backward, arrived, jones);
}

/* The textbook way: one eigenvector a wave. */
static int cross_by_vector(const BerremanPlate *plate, double scale, Matrix4 vector,
                           const int is_forward[4], BerremanWave *wave)
{
    double complex forward[4][2], backward[4][2], across[2][2] = {{0, 0}, {0, 0}}, sorted[4];
    int f = 0, b = 0;
    double x = 2e6 * acos(-1.0) * plate->thickness_mm / plate->wavelength_nm;
    for (int i = 0; i < 4; i++) {
        for (int row = 0; row < 4; row++) {
            if (is_forward[i]) {
                forward[row][f] = vector[row][i];
            } else {
                backward[row][b] = vector[row][i];
            }
        }
        if (is_forward[i]) {
            across[f][f] = cexp(I * x * wave->q[i]);
            sorted[f++] = wave->q[i];
        } else {
            sorted[2 + b++] = wave->q[i];
        }
    }
    memcpy(wave->q, sorted, sizeof sorted);
    return cross_plate(plate, scale, forward, backward, across, wave->by_vector);
}

int berreman_wave(const BerremanPlate *plate, BerremanWave *wave)
{
    Matrix4 m, copy, vector, unused;
    double complex forward[4][2], backward[4][2], action[2][2], back_action[2][2], across[2][2];
    double complex q[4];
    int is_forward[4], is_backward[4];
    double kr = plate->n_outside * sin(plate->theta_deg * RADIAN);
    const double k[2] = {kr * cos(plate->phi_deg * RADIAN), kr * sin(plate->phi_deg * RADIAN)};
    double x = 2e6 * acos(-1.0) * plate->thickness_mm / plate->wavelength_nm;
    double scale = plate->n[1];
    berreman_matrix(plate, k, scale, m);
    memcpy(copy, m, sizeof m);
    if (LAPACKE_zgeev(LAPACK_ROW_MAJOR, 'N', 'V', 4, &copy[0][0], 4, q, &unused[0][0], 4,
                      &vector[0][0], 4) != 0 ||
        !part_waves(vector, q, is_forward, &wave->evanescent)) {
        return 0;
    }
    for (int i = 0; i < 4; i++) {
        is_backward[i] = !is_forward[i];
    }
    memcpy(wave->q, q, sizeof q);
    wave->has_vectors = cross_by_vector(plate, scale, vector, is_forward, wave);
    int ok = invariant_subspace(m, q, is_forward, forward, action) &&
             invariant_subspace(m, q, is_backward, backward, back_action);
    if (ok) {
        exponential(action, x, across);
        ok = cross_plate(plate, scale, forward, backward, across, wave->jones);
    }
    wave->retardation_nm = 1e6 * plate->thickness_mm * fabs(creal(wave->q[0] - wave->q[1]));
    return ok;
}
