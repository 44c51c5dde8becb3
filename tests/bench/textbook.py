#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""The figure of the textbook, as a reader would write it with numpy: textbook.py BUILD

Both waves share one normal inside the stone; faces take no light; crossed polars; the two indices
of a normal from the optic axes at the sodium line, every wavelength like every other (Born & Wolf,
Principles of Optics, 15.4: 1/n1^2 - 1/n2^2 = (1/na^2 - 1/ng^2) sin t1 sin t2; the vibrations halve
the angles between the planes through the normal and the axes). 81 wavelengths, CIE 1931, D65,
sRGB, 1024 px. Prints its time, the time of the whole exact figure by bench_figure in the same run, of
the same stone cut and turned alike, and the ratio (goal 60), and the ratio for the same stone tilted,
which the textbook's figure is not made for; then how far the two pictures differ where they should
hardly differ, at a small birefringence: the same thing is timed."""
import csv
import os
import statistics
import subprocess
import sys
import tempfile
import time

import numpy
from PIL import Image

PIXELS, WAVELENGTHS, RUNS = 1024, 81, 9
LIGHT = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "lib", "light")
TO_SRGB = numpy.array([[3.2406, -1.5372, -0.4986],  # IEC 61966-2-1
                       [-0.9689, 1.8758, 0.0415],
                       [0.0557, -0.2040, 1.0570]])


def read_table(name):
    with open(os.path.join(LIGHT, name), encoding="utf-8") as lines:
        rows = list(csv.reader(line for line in lines if not line.startswith("#")))
    return rows[0], numpy.array([[float(x or 0) for x in row] for row in rows[1:]])


def weights():
    """XYZ weights of the wavelengths, the bare lamp's Y being 1."""
    nm = numpy.linspace(380, 780, WAVELENGTHS)
    _, observer = read_table("observer.csv")
    names, lamps = read_table("illuminants.csv")
    power = numpy.interp(nm, lamps[:, 0], lamps[:, names.index("D65")])
    xyz = [numpy.interp(nm, observer[:, 0], observer[:, 1 + i]) * power for i in range(3)]
    return nm, numpy.stack(xyz, 1) / numpy.sum(xyz[1])


def directions(aperture):
    """Places of the disc and the sine of the angle in air, linear in the distance (an objective)."""
    step = (numpy.arange(PIXELS) + 0.5) / (PIXELS / 2) - 1
    x, y = numpy.meshgrid(step, -step)
    return x, y, numpy.minimum(numpy.hypot(x, y), 1) * aperture


def textbook(n, thickness_mm, stage_deg, aperture):
    """8-bit sRGB of a plate cut across the acute bisectrix, or across the axis."""
    alpha, beta, gamma = n
    nm, weight = weights()
    x, y, outside = directions(aperture)
    r = numpy.maximum(numpy.hypot(x, y), 1e-12)
    sine = outside / beta
    normal = numpy.stack([x / r * sine, y / r * sine, numpy.sqrt(1 - sine**2)])
    v_z = numpy.arctan(numpy.sqrt((alpha**-2 - beta**-2) / max(beta**-2 - gamma**-2, 1e-15)))
    half = min(v_z, numpy.pi / 2 - v_z)  # from the acute bisectrix
    stage = numpy.radians(stage_deg)
    plane = numpy.array([numpy.cos(stage), numpy.sin(stage), 0])
    axes = [numpy.cos(half) * numpy.array([0, 0, 1]) + sign * numpy.sin(half) * plane
            for sign in (1, -1)]
    cosines = [numpy.tensordot(axis, normal, 1) for axis in axes]
    sines = [numpy.sqrt(numpy.maximum(1 - c**2, 0)) for c in cosines]
    difference = (alpha**-2 - gamma**-2) * sines[0] * sines[1]
    birefringence = 0.5 * beta**3 * difference
    retardation = 1e6 * thickness_mm * birefringence / normal[2]
    # A vibration bisects the angle between the planes through the normal and each axis; azimuths
    # are taken about the normal, from the direction of its own plane.
    east = numpy.stack([normal[2] * x / r, normal[2] * y / r, -sine])
    north = numpy.stack([-y / r, x / r, 0 * x])
    azimuth = sum(numpy.arctan2(numpy.tensordot(axis, north, 1), numpy.tensordot(axis, east, 1))
                  for axis in axes) / 2 + numpy.arctan2(y, x)
    bright = numpy.sin(2 * azimuth)**2
    xyz = numpy.zeros((3, PIXELS, PIXELS))
    for wavelength, w in zip(nm, weight):
        light = bright * numpy.sin(numpy.pi * retardation / wavelength)**2
        xyz += w[:, None, None] * light
    rgb = numpy.clip(numpy.tensordot(TO_SRGB, xyz, 1), 0, 1)
    rgb = numpy.where(rgb <= 0.0031308, 12.92 * rgb, 1.055 * rgb**(1 / 2.4) - 0.055)
    return numpy.moveaxis(numpy.rint(255 * rgb), 0, -1).astype(numpy.uint8), r < 1


def timed(*given):
    start = time.perf_counter()
    textbook(*given)
    return 1e3 * (time.perf_counter() - start)


def figure_ms(build):
    """Of topaz, turned only and tilted as well."""
    out = subprocess.run([os.path.join(build, "tests/bench/bench_figure")], check=True,
                         capture_output=True, text=True).stdout
    topaz = [line for line in out.splitlines() if "topaz" in line]
    turned = next(line for line in topaz if "not tilted" in line)
    tilted = next(line for line in topaz if "not tilted" not in line)
    return float(turned.split()[1]), float(tilted.split()[1])


def differences(build, n, thickness_mm, stage_deg, aperture):
    """Levels between the two pictures inside the disc."""
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "exact.png")
        subprocess.run([os.path.join(build, "cli/interfig"), "figure", "--indices",
                        ",".join(map(str, n)), "--thickness", str(thickness_mm), "--stage",
                        str(stage_deg), "--lens", f"objective:{aperture}", "-o", path], check=True,
                       stdout=subprocess.DEVNULL)
        exact = numpy.asarray(Image.open(path).convert("RGB")).astype(int)
    mine, disc = textbook(n, thickness_mm, stage_deg, aperture)
    return numpy.abs(mine.astype(int) - exact)[disc]


def main(build):
    stone = (1.606, 1.609, 1.616)  # topaz
    mine = statistics.median(timed(stone, 2, 40, 0.82) for _ in range(RUNS))
    exact, tilted = figure_ms(build)
    print(f"textbook       {mine:.0f} ms in numpy, the exact figure {exact:.1f} ms: {mine / exact:.0f} "
          f"times (goal 60); {mine / tilted:.0f} of a tilted one")
    off = differences(build, (1.500, 1.5004, 1.509), 0.5, 40, 0.42)
    print(f"               pictures at small birefringence differ by {off.mean():.1f} levels in the "
          f"mean, 99 of 100 by at most {numpy.percentile(off, 99):.0f}")
    if off.mean() > 10:
        sys.exit("textbook.py: the pictures differ; not the same thing is timed")


if __name__ == "__main__":
    main(*sys.argv[1:])
