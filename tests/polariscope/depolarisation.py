#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Depolarisation of a stack of N random plates: a Monte Carlo on Stokes vectors.

    depolarisation.py > depolarisation.h

Each plate is a piece of a uniaxial crystal cut at random from all directions of its axis: the
Mueller matrix of a linear retarder (Azzam & Bashara, Ellipsometry and Polarized Light, 2.12, from
memory) of random azimuth and of the retardation that the angle of the axis to the light gives.
Light enters polarised E-W; the mean Stokes vector of many stacks leaves. Written: its S1 / S0, the
degree to which it is still polarised E-W, and the standard error; what crossed polars pass is
(1 - S1 / S0) / 2. No Jones matrix, no tensor and none of the library's code is used.
"""
import numpy as np

OMEGA, EPSILON, GRAIN_NM, WAVELENGTH_NM = 1.5, 1.512, 15000.0, 550.0
STACKS = 400000
LAYERS = (1, 2, 5, 20, 100)


def retarders(draws, count):
    """Mueller matrices of plates that lie every way: count x 3 x 3, on S1, S2, S3."""
    cosine = draws.uniform(-1.0, 1.0, count)        # of the axis to the light: even on the sphere
    azimuth = draws.uniform(0.0, np.pi, count)
    slow = 1.0 / np.sqrt(cosine**2 / OMEGA**2 + (1.0 - cosine**2) / EPSILON**2)
    delta = 2.0 * np.pi * GRAIN_NM * (slow - OMEGA) / WAVELENGTH_NM
    c, s, cd, sd = np.cos(2 * azimuth), np.sin(2 * azimuth), np.cos(delta), np.sin(delta)
    rows = [[c * c + s * s * cd, c * s * (1 - cd), -s * sd],
            [c * s * (1 - cd), s * s + c * c * cd, c * sd],
            [s * sd, -c * sd, cd]]
    return np.moveaxis(np.array(rows), 2, 0)


def main():
    draws = np.random.Generator(np.random.PCG64(20240611))
    state = np.zeros((STACKS, 3))
    state[:, 0] = 1.0
    print("/* SPDX-License-Identifier: MIT */")
    print("/* Written by depolarisation.py: mean S1 / S0 behind N random plates, and its standard")
    print(" * error. */")
    print(f"enum {{ DEPOLARISATION_ROWS = {len(LAYERS)} }};")
    print("static const struct {\n    int layers;\n    double polarised, error;\n"
          "} DEPOLARISATION[DEPOLARISATION_ROWS] = {")
    for layer in range(1, max(LAYERS) + 1):
        state = np.einsum("nij,nj->ni", retarders(draws, STACKS), state)
        if layer in LAYERS:
            mean, error = state[:, 0].mean(), state[:, 0].std() / np.sqrt(STACKS)
            print(f"    {{{layer}, {mean:.5f}, {error:.5f}}},")
    print("};")


if __name__ == "__main__":
    main()
