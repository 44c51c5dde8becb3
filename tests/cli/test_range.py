# SPDX-License-Identifier: MIT
"""A species is a range: low, typical and high side by side."""
import io
import json
import shlex

import numpy
import pytest
from PIL import Image

from png_chunks import header, texts

SIZE = 96
GAP = SIZE // 16
SURROUND = 38


def panels(interfig, *words, depth="8"):
    answer = interfig("figure", *words, "--size", str(SIZE), "--depth", depth, "-o", "-")
    assert answer.status == 0, answer
    assert header(answer.out) == (3 * SIZE + 2 * GAP, SIZE, int(depth))
    pixels = numpy.asarray(Image.open(io.BytesIO(answer.out)).convert("RGB")).astype(int)
    for gap in range(1, 3):
        left = gap * (SIZE + GAP) - GAP
        assert (pixels[:, left:left + GAP] == SURROUND).all()
    return [pixels[:, i * (SIZE + GAP):i * (SIZE + GAP) + SIZE] for i in range(3)]


def darkest_along(panel, azimuth_deg):
    """Where on a ray from the centre the picture is darkest, rim 1."""
    radii = numpy.linspace(0.15, 0.95, 81)
    x = numpy.rint(SIZE / 2 - 0.5 + radii * SIZE / 2 * numpy.cos(numpy.radians(azimuth_deg)))
    y = numpy.rint(SIZE / 2 - 0.5 - radii * SIZE / 2 * numpy.sin(numpy.radians(azimuth_deg)))
    light = panel[y.astype(int), x.astype(int)].sum(axis=1)
    return radii[light.argmin()]


def test_the_melatopes_part_as_2v_grows(interfig):
    # At 45 degrees the isogyre crosses the line of the melatopes at the melatope, where 2E gives
    # sin E = n_beta sin V (Born & Wolf, 15.4.3, from memory); an objective shows it at sin E / NA.
    low, typical, high = panels(interfig, "muscovite", "--range", "2V", "--thickness", "0.02",
                                "--stage", "45", "--lens", "objective:0.9", "--lamp", "589.3")
    places = [darkest_along(panel, 45) for panel in (low, typical, high)]
    for place, two_v in zip(places, [24, 40, 47]):
        assert place == pytest.approx(1.5964 * numpy.sin(numpy.radians(two_v / 2)) / 0.9, abs=0.04)


def test_the_rings_draw_in_as_birefringence_grows(interfig):
    low, typical, high = panels(interfig, "zircon_high", "--range", "birefringence", "--thickness",
                                "0.5", "--lamp", "589.3")
    # The first dark ring stands at sin^2 T proportional to 1 / birefringence (small-angle law of
    # Born & Wolf, 15.4.3, from memory): 0.036, 0.059, 0.065.
    places = []
    for panel in (low, typical, high):
        light = [panel[int(round(SIZE / 2 - 0.5 - r * SIZE / 2 * 0.7071)),
                       int(round(SIZE / 2 - 0.5 + r * SIZE / 2 * 0.7071))].sum()
                 for r in numpy.linspace(0, 0.95, 96)]
        peak = int(numpy.argmax(numpy.array(light) > 0.9 * max(light)))
        places.append(peak + int(numpy.argmin(light[peak:peak + 30])))
    assert places[0] > places[1] >= places[2]
    assert places[0] / places[2] == pytest.approx((0.065 / 0.036) ** 0.5, rel=0.15)


def test_the_typical_stone_stands_in_the_middle(interfig):
    # muscovite has no dispersion in the catalogue, so that its figure is the middle one to the byte
    answer = interfig("figure", "muscovite", "--thickness", "0.1", "--size", str(SIZE), "-o", "-")
    alone = numpy.asarray(Image.open(io.BytesIO(answer.out)).convert("RGB")).astype(int)
    for what in ["2V", "birefringence"]:
        low, typical, high = panels(interfig, "muscovite", "--range", what, "--thickness", "0.1")
        assert numpy.max(numpy.abs(typical - alone)) <= 2, what
        assert numpy.max(numpy.abs(low - typical)) > 40 and numpy.max(numpy.abs(high - low)) > 40


def test_sixteen_bits_have_the_same_surround(interfig):
    panels(interfig, "muscovite", "--range", "2V", depth="16")


def test_the_words_name_the_three_values(interfig):
    line = interfig("figure", "muscovite", "--range", "2V", "--size", "24").out.decode()
    assert line.startswith("muscovite_acute-bisectrix_3mm_range_2V.png: muscovite, biaxial negative")
    assert line.endswith("; from left to right: 2V 24 deg (low), 40 deg (typical), 47 deg (high)\n")
    line = interfig("figure", "apatite", "--range", "birefringence", "--size", "24").out.decode()
    assert "; from left to right: birefringence 0.00" in line and line.endswith(" (high)\n")


def test_a_range_is_colourless(interfig):
    line = interfig("figure", "tanzanite", "--range", "2V", "--size", "24").out.decode()
    assert ", colourless, " in line and ": 2V 0 deg (low), 53 deg (typical), 60 deg (high)" in line


RECIPES = ["muscovite --range 2V", "ruby --range birefringence --stage 20 --depth 16",
           "sphene --range 2V --plate full-wave --thickness 0.1", "chrysoberyl --range birefringence --view y",
           "peridot --range 2V --lamp tungsten", "zircon_low --range birefringence"]


@pytest.mark.parametrize("line", RECIPES)
def test_a_range_is_rendered_again_to_the_last_byte(interfig, tmp_path, line):
    first = interfig("figure", *line.split(), "--size", "24", "-o", "first.png")
    assert first.status == 0, first
    data = (tmp_path / "first.png").read_bytes()
    again = interfig("figure", "--again", "first.png", "-o", "again.png", "--threads", "1")
    assert again.status == 0 and again.err == "", again
    assert (tmp_path / "again.png").read_bytes() == data
    recipe = shlex.split(texts(data)["Recipe"])
    assert interfig(*recipe[1:], "-o", "-").out == data


def test_a_stone_of_the_users_own_has_its_range(interfig, tmp_path):
    (tmp_path / "mine.yaml").write_text(
        "species:\n  - {key: mine, n: [1.609, 1.612, 1.619], two_v_deg: 66, two_v_low_deg: 50, "
        "two_v_high_deg: 70}\n")
    answer = interfig("figure", "mine", "--species-file", "mine.yaml", "--range", "2V", "--size",
                      "24", "-o", "a.png")
    assert answer.status == 0 and "2V 50 deg (low), 66 deg (typical), 70 deg" in answer.out.decode()
    (tmp_path / "mine.yaml").unlink()
    assert interfig("figure", "--again", "a.png", "-o", "-").out == (tmp_path / "a.png").read_bytes()


@pytest.mark.parametrize("what", ["2V", "birefringence"])
def test_every_species_has_a_range_or_a_reason(interfig, what):
    made = 0
    for entry in json.loads(interfig("species", "--json").out)["species"]:
        answer = interfig("figure", entry["key"], "--range", what, "--size", "3",
                          "--lamp", "589.3", "-o", "-")
        assert answer.status == 0 or (answer.status in (64, 65) and entry["key"] in answer.err), (
            entry["key"], answer.err)
        made += answer.status == 0
    assert made > 40


LINES = [
    ("--range: '2v' is unknown", "muscovite --range 2v"),
    ("--range: 'birefringense' is unknown (did you mean birefringence?); allowed: 2V or "
     "birefringence; for example: --range 2V", "muscovite --range birefringense"),
    ("--range lacks its value", "muscovite --range"),
    ("--range is given twice", "muscovite --range 2V --range 2V"),
    ("--range: quartz is uniaxial and has no 2V", "quartz --range 2V"),
    ("--range: spinel is singly refractive and has no birefringence",
     "spinel --range birefringence"),
    ("--range: 2V is met with in sinhalite at one value alone, 56", "sinhalite --range 2V"),
    ("--range goes with a SPECIES alone", "--indices 1.5,1.6,1.7 --range 2V"),
    ("--range and --colour contradict", "corundum --colour ruby --range birefringence"),
    ("--range and --strain contradict", "corundum --strain 3 --range birefringence"),
    ("--range and --layers contradict", "--layers quartz:left:1,quartz:right:1 --range 2V"),
    ("--size 30000 makes a picture of 93750 columns", "muscovite --range 2V --size 30000"),
]


@pytest.mark.parametrize("expected,line", LINES, ids=[line for _, line in LINES])
def test_a_range_that_cannot_be_is_refused(refused, expected, line):
    assert expected in refused(64, "figure", *line.split())


@pytest.mark.parametrize("command", ["turn", "probe"])
def test_a_range_is_a_still_picture(refused, command):
    assert f"--range belongs to figure, not to {command}" in refused(
        64, command, "muscovite", "--range", "2V")
