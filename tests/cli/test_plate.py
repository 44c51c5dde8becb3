# SPDX-License-Identifier: MIT
"""Accessory plates on the command line."""
import io
import json
import math

import numpy
import pytest
from PIL import Image

from png_chunks import texts

SMALL = ["--size", "41"]


def picture(interfig, *words):
    answer = interfig("figure", *words, *SMALL, "-o", "-")
    assert answer.status == 0, answer
    return numpy.asarray(Image.open(io.BytesIO(answer.out))).astype(int)


def transmittance(interfig, *words):
    answer = interfig("probe", *words, "--json")
    assert answer.status == 0, answer
    return json.loads(answer.out)["transmittance"]


def test_without_a_number_a_plate_is_the_usual_one(interfig):
    # gypsum of 550 nm, mica of 137.5 nm: common practice, no source
    for short, long in [("full-wave", "full-wave:550"), ("quarter-wave", "quarter-wave:137.5")]:
        assert numpy.array_equal(picture(interfig, "calcite", "--plate", short),
                                 picture(interfig, "calcite", "--plate", long, "--plate-slow", "45"))


def test_a_plate_alone_passes_sine_squared_of_half_its_phase(interfig):
    # Born & Wolf, Principles of Optics, 15.4.1, crossed polars, plate at 45 deg; from memory
    bare = transmittance(interfig, "--indices", "1.5", "--polars", "parallel", "--wavelength", "589.3")
    for nm in [0, 100, 137.5, 550, 1234.5]:
        got = transmittance(interfig, "--indices", "1.5", "--wavelength", "589.3", "--plate",
                            f"full-wave:{nm}")
        assert got == pytest.approx(bare * math.sin(math.pi * nm / 589.3) ** 2, abs=1e-12)
        slow = transmittance(interfig, "--indices", "1.5", "--wavelength", "589.3", "--plate",
                             f"full-wave:{nm}", "--plate-slow", "20")
        assert slow == pytest.approx(got * math.sin(math.radians(40)) ** 2, abs=1e-12)


def test_a_plate_along_a_polar_does_nothing(interfig):
    for slow in ["0", "90", "180"]:
        assert numpy.array_equal(picture(interfig, "quartz"), picture(
            interfig, "quartz", "--plate", "full-wave", "--plate-slow", slow))


def brightness_of_quadrants(pixels):
    half = pixels.shape[0] // 2
    inner = pixels[half - 8:half + 9, half - 8:half + 9].sum(axis=2)
    return inner[:8, 9:].mean() + inner[9:, :8].mean(), inner[:8, :8].mean() + inner[9:, 9:].mean()


def test_subtraction_in_north_east_tells_negative_from_positive(interfig):
    # Calcite is negative: its slow direction runs around the centre, across the plate's in the
    # quadrants NE and SW, where the retardation falls; zircon is positive and does the opposite
    # (Bloss, An Introduction to the Methods of Optical Crystallography, 1961; from memory). Beside a
    # quarter-wave plate the light of a thin stone grows with the sum.
    for stone, thickness, sign in [("calcite", "0.03", -1), ("zircon_high", "0.08", 1)]:
        north_east, north_west = brightness_of_quadrants(
            picture(interfig, stone, "--thickness", thickness, "--plate", "quarter-wave", "--lamp",
                    "sodium"))
        assert (north_east - north_west) * sign > 20, stone


PLATES = ["quartz --plate full-wave", "quartz --plate quarter-wave:147.3 --plate-slow -45",
          "topaz_f --stage 45 --plate wedge:1650 --plate-slow 135.5", "spinel --plate wedge:0",
          "calcite --polars circular --plate full-wave:530.1"]


@pytest.mark.parametrize("line", PLATES)
def test_a_picture_with_a_plate_is_rendered_again_to_the_last_byte(interfig, tmp_path, line):
    first = interfig("figure", *line.split(), *SMALL, "-o", "first.png")
    assert first.status == 0, first
    again = interfig("figure", "--again", "first.png", "-o", "again.png")
    assert again.status == 0 and again.err == ""
    data = (tmp_path / "first.png").read_bytes()
    assert (tmp_path / "again.png").read_bytes() == data
    assert " --plate " in texts(data)["Recipe"] and " --plate-slow " in texts(data)["Recipe"]


def test_the_words_name_the_plate(interfig):
    line = interfig("figure", "quartz", "--plate", "full-wave", *SMALL).out.decode()
    assert line.endswith(", crossed polars, full-wave plate of 550 nm with its slow direction at 45 "
                         "deg\n")  # and no dark cross is promised
    line = interfig("probe", "quartz", "--plate", "wedge:900", "--plate-slow", "30").out.decode()
    assert ", quartz wedge of 900 nm with its slow direction at 30 deg\n" in line


LINES = [
    ("--plate: 'wedge' lacks its retardation; allowed: full-wave", "--plate wedge"),
    ("--plate: 'full-wav' is unknown (did you mean full-wave?)", "--plate full-wav"),
    ("--plate: '' is unknown", "--plate="),
    ("--plate: ':550' is unknown", "--plate :550"),
    ("--plate: 'full-wave:' is not a number", "--plate full-wave:"),
    ("--plate: 'full-wave:nan' is not a number", "--plate full-wave:nan"),
    ("--plate: 'full-wave:5,5' is not one number: write 5.5", "--plate full-wave:5,5"),
    ("--plate: 'wedge:-1' is out of range", "--plate wedge:-1"),
    ("--plate: 'wedge:100000.1' is out of range", "--plate wedge:100000.1"),
    ("--plate is given twice", "--plate full-wave --plate full-wave"),
    ("--plate lacks its value", "--plate"),
    ("--plate-slow: 'NE' is not a number", "--plate full-wave --plate-slow NE"),
    ("--plate-slow: '3601' is out of range", "--plate full-wave --plate-slow 3601"),
    ("--plate-slow: a plate-slow without a plate", "--plate-slow 45"),
]


@pytest.mark.parametrize("command", ["figure", "probe"])
@pytest.mark.parametrize("expected,line", LINES, ids=[line for _, line in LINES])
def test_a_plate_that_cannot_be_is_refused(refused, command, expected, line):
    assert expected in refused(64, command, "quartz", *line.split())
