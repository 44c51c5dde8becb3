/* SPDX-License-Identifier: MIT */
/* From XYZ under a lamp to linear sRGB: the adapted eye sees the lamp as white. */
#include "lamp.h"

#include <math.h>
#include <string.h>

typedef struct Vector {
    double e[3];
} Vector;

typedef struct Matrix {
    double e[3][3];
} Matrix;

/* Chromaticities of IEC 61966-2-1:1999, table 1 (those of ITU-R BT.709): primaries, one a column,
 * and D65 white. */
static const Matrix srgb_primaries = {{
    {0.64, 0.30, 0.15},
    {0.33, 0.60, 0.06},
    {0.03, 0.10, 0.79},
}};
static const double srgb_white[3] = {0.3127 / 0.3290, 1.0, (1.0 - 0.3127 - 0.3290) / 0.3290};

/* Lam, Metamerism and colour constancy, thesis, University of Bradford (1985); as printed in
 * ICC.1:2022, annex E. */
static const Matrix bradford_cones = {{
    {0.8951, 0.2664, -0.1614},
    {-0.7502, 1.7135, 0.0367},
    {0.0389, -0.0685, 1.0296},
}};

static Vector transform(Matrix m, const double v[3])
{
    Vector result;
    for (int i = 0; i < 3; i++) {
        result.e[i] = m.e[i][0] * v[0] + m.e[i][1] * v[1] + m.e[i][2] * v[2];
    }
    return result;
}

static Matrix product(Matrix a, Matrix b)
{
    Matrix result;
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            result.e[i][j] = a.e[i][0] * b.e[0][j] + a.e[i][1] * b.e[1][j] + a.e[i][2] * b.e[2][j];
        }
    }
    return result;
}

static Matrix scale_rows(Matrix m, Vector factor)
{
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            m.e[i][j] *= factor.e[i];
        }
    }
    return m;
}

/* By cofactors; the matrices here are far from singular. */
static Matrix inverse(Matrix m)
{
    Matrix result;
    for (int i = 0; i < 3; i++) {
        const int i1 = (i + 1) % 3;
        const int i2 = (i + 2) % 3;
        for (int j = 0; j < 3; j++) {
            const int j1 = (j + 1) % 3;
            const int j2 = (j + 2) % 3;
            result.e[j][i] = m.e[i1][j1] * m.e[i2][j2] - m.e[i1][j2] * m.e[i2][j1];
        }
    }
    const double determinant =
        m.e[0][0] * result.e[0][0] + m.e[0][1] * result.e[1][0] + m.e[0][2] * result.e[2][0];
    const double scale = 1.0 / determinant;
    return scale_rows(result, (Vector){{scale, scale, scale}});
}

/* XYZ -> linear sRGB: the shares of the three primaries, each 1 in the white. */
static Matrix srgb_from_xyz(void)
{
    const Matrix shares = inverse(srgb_primaries);
    const Vector white = transform(shares, srgb_white);
    return scale_rows(shares, (Vector){{1.0 / white.e[0], 1.0 / white.e[1], 1.0 / white.e[2]}});
}

static Matrix bradford(const double from[3], const double to[3])
{
    const Vector from_cones = transform(bradford_cones, from);
    const Vector to_cones = transform(bradford_cones, to);
    Vector gain;
    for (int i = 0; i < 3; i++) {
        gain.e[i] = to_cones.e[i] / from_cones.e[i];
    }
    return product(inverse(bradford_cones), scale_rows(bradford_cones, gain));
}

void ifig_bradford_matrix(const double from[3], const double to[3], double matrix[3][3])
{
    const Matrix adapted = bradford(from, to);
    memcpy(matrix, adapted.e, sizeof adapted.e);
}

/* How bright a lamp outside sRGB may be shown: its colour, of luminance 1, is drawn toward the grey
 * of luminance 1 until the least component is 0, then scaled until the greatest is 1. Gamut mapping
 * is homogeneous, so the factor can act before it. */
static double brightest_in_gamut(Vector own)
{
    const double least = fmin(own.e[0], fmin(own.e[1], own.e[2]));
    const double most = fmax(own.e[0], fmax(own.e[1], own.e[2]));
    return 1.0 / (1.0 + (most - 1.0) / (1.0 - least));
}

static Matrix colour_matrix(const IfigLamp *lamp, double exposure_stops)
{
    Matrix matrix = srgb_from_xyz();
    const Vector own = transform(matrix, lamp->white);
    double scale = exp2(exposure_stops);
    if (own.e[0] < 0 || own.e[1] < 0 || own.e[2] < 0) {
        scale *= brightest_in_gamut(own);
    } else {
        matrix = product(matrix, bradford(lamp->white, srgb_white));
    }
    return scale_rows(matrix, (Vector){{scale, scale, scale}});
}

void ifig_colour_matrix(const IfigLamp *lamp, double exposure_stops, double matrix[3][3])
{
    const Matrix result = colour_matrix(lamp, exposure_stops);
    memcpy(matrix, result.e, sizeof result.e);
}

void ifig_colour_linear(const IfigLamp *lamp, const double xyz[3], double exposure_stops,
                        double rgb[3])
{
    Vector result = {{NAN, NAN, NAN}};
    if (lamp != NULL && xyz != NULL) {
        result = transform(colour_matrix(lamp, exposure_stops), xyz);
    }
    if (rgb != NULL) {
        memcpy(rgb, result.e, sizeof result.e);
    }
}
