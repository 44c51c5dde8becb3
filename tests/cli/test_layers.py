# SPDX-License-Identifier: MIT
"""Stacks of layers on the command line."""
import io
import json
import re
import shlex

import jsonschema
import numpy
import pytest
from PIL import Image

from png_chunks import texts
from test_numbers import schema

SMALL = ["--size", "61"]
AIRY = "quartz:right:2.5,quartz:left:2.5"


def picture(interfig, *words):
    answer = interfig("figure", *words, *SMALL, "-o", "-")
    assert answer.status == 0, answer
    return numpy.asarray(Image.open(io.BytesIO(answer.out))).astype(int)


def probe(interfig, *words):
    answer = interfig("probe", *words, "--json")
    assert answer.status == 0, answer
    return json.loads(answer.out)


def test_opposite_hands_undo_each_other_at_the_centre(interfig):
    # check of Fresnel's law: equal and opposite rotations; a single plate is bright there
    assert probe(interfig, "--layers", AIRY)["transmittance"] < 1e-12
    assert probe(interfig, "quartz", "--thickness", "2.5")["transmittance"] > 0.1
    assert probe(interfig, "--layers", AIRY, "--at", "15,20")["transmittance"] > 0.01


def test_the_spiral_has_four_arms_and_winds_with_the_order_of_the_hands(interfig):
    # Airy, Trans. Camb. Phil. Soc. 4 (1831), from memory: fourfold for two plates of opposite hand
    # A condenser keeps the field in the meridional plane, so that the symmetry is exact.
    one = picture(interfig, "--layers", AIRY, "--lens", "objective:0.8")
    assert numpy.max(numpy.abs(one - numpy.rot90(one))) <= 1
    other = picture(interfig, "--layers", "quartz:left:2.5,quartz:right:2.5", "--lens",
                    "objective:0.8")
    assert numpy.max(numpy.abs(one - other)) > 60
    assert numpy.max(numpy.abs(one[:, ::-1] - other)) <= 1  # the mirror image
    assert numpy.max(numpy.abs(one - one[:, ::-1])) > 60    # which it is not of itself


def test_two_layers_alike_are_one_plate(interfig):
    # light is matched from layer to layer without loss, so nothing changes
    two = probe(interfig, "--layers", "quartz:left:1,quartz:left:2", "--at", "20,30")
    one = probe(interfig, "quartz", "--hand", "left", "--thickness", "3", "--at", "20,30")
    assert two["transmittance"] == pytest.approx(one["transmittance"], rel=1e-9)
    assert two["retardation_nm"] == pytest.approx(one["retardation_nm"], rel=1e-12)


def test_crossed_layers_subtract_and_parallel_ones_add(interfig):
    # equal plates whose slow directions cross leave nothing: law of addition of phases
    cut = ["--view", "x", "--stage", "45", "--wavelength", "589.3"]
    crossed = probe(interfig, "--layers", "calcite:0:0.1,calcite:90:0.1", *cut)
    assert crossed["transmittance"] < 1e-12
    along = probe(interfig, "--layers", "calcite:0:0.1,calcite:180:0.1", *cut)
    whole = probe(interfig, "calcite", "--thickness", "0.2", *cut)
    assert along["transmittance"] == pytest.approx(whole["transmittance"], rel=1e-9)


def test_a_variety_in_a_layer_brings_its_colour(interfig):
    twin = "amethyst:right:2.5,amethyst:left:2.5"
    seen = probe(interfig, "--layers", twin)
    assert [layer["body_colour"] for layer in seen["layers"]] == ["amethyst", "amethyst"]
    assert numpy.array_equal(picture(interfig, "--layers", twin, "--colourless"),
                             picture(interfig, "--layers", AIRY))
    assert not numpy.array_equal(picture(interfig, "--layers", twin),
                                 picture(interfig, "--layers", AIRY))


def test_the_note_on_brazil_twins_holds_a_line_that_works(interfig):
    text = " ".join(interfig("species", "amethyst").out.decode().split())
    line = re.search(r"Brazil-twinned amethyst: (interfig figure [^;]*);", text).group(1)
    words = shlex.split(line)[1:]
    assert words[:2] == ["figure", "--layers"]
    answer = interfig(*words, *SMALL)
    assert answer.status == 0 and "right-handed quartz" in answer.out.decode()


def test_the_words_and_the_file_name_the_layers(interfig):
    answer = interfig("figure", "--layers", AIRY, *SMALL)
    assert answer.out.decode() == (
        "quartz_right_2.5mm_quartz_left_2.5mm_c.png: 2.5 mm of right-handed quartz, then 2.5 mm of "
        "left-handed quartz, along the optic axis, sphere lens to 55 deg, daylight, crossed polars\n")
    line = interfig("figure", "--layers", "calcite:0:1, ruby:30:0.5", *SMALL).out.decode()
    assert line.startswith("calcite_0_1mm_ruby_30_0.5mm_c.png: 1 mm of calcite, then 0.5 mm of "
                           "corundum with the body colour of ruby turned 30 deg, ")


STACKS = [AIRY, "quartz:left:3,quartz:0:0.25,calcite:45:0.1", "ruby:10:1,emerald:-20:2",
          "blue sapphire:0:1, Rock Crystal:right:1", "spinel:0:1,topaz_f:3599:2",
          "diamond:0:1,quartz:right:1,quartz:left:1,diamond:0:100"]


@pytest.mark.parametrize("stack", STACKS)
@pytest.mark.parametrize("words", [["figure", "--stage", "20", "--tilt", "5,30"], ["figure"],
                                   ["turn", "--steps", "2", "--from", "3500", "--to", "3600"],
                                   ["turn", "--steps", "2", "--what", "tilt"]])
def test_a_stack_is_rendered_again_to_the_last_byte(interfig, tmp_path, stack, words):
    words = [*words[:1], "--layers", stack, *words[1:], "--size", "8"]
    first = interfig(*words, "-o", "first.png")
    assert first.status == 0, first
    data = (tmp_path / "first.png").read_bytes()
    again = interfig(words[0], "--again", "first.png", "-o", "again.png")
    assert again.status == 0 and again.err == "", again
    assert (tmp_path / "again.png").read_bytes() == data
    recipe = shlex.split(texts(data)["Recipe"])
    assert "--thickness" not in recipe and interfig(*recipe[1:], "-o", "-").out == data


def test_each_frame_of_a_turning_stack_is_its_figure(interfig):
    film = interfig("turn", "--layers", "calcite:0:0.1,quartz:30:1", "--view", "x", "--steps", "2",
                    "--from", "5", "--to", "40", *SMALL, "-o", "-")
    image = Image.open(io.BytesIO(film.out))
    for index, stage in enumerate(["5", "40"]):
        image.seek(index)
        still = picture(interfig, "--layers", "calcite:0:0.1,quartz:30:1", "--view", "x", "--stage",
                        stage)
        assert numpy.array_equal(numpy.asarray(image.convert("RGB")), still)


def test_layers_may_be_of_the_users_own_stones(interfig, club_files, tmp_path):
    answer = interfig("figure", "--layers", "harbour_topaz:0:1,quartz:left:1,harbour_topaz:90:1",
                      "--species-file", "club.yaml", *SMALL, "-o", "a.png")
    assert answer.status == 0, answer
    data = (tmp_path / "a.png").read_bytes()
    assert texts(data)["Species"].count("key:") == 1
    (club_files / "club.yaml").unlink()
    again = interfig("figure", "--again", "a.png", "-o", "-")
    assert again.status == 0 and again.out == data


def test_probe_tells_the_layers(interfig):
    told = probe(interfig, "--layers", "ruby:30:1,quartz:left:2", "--stage", "10")
    jsonschema.validate(told, schema("probe.json"))
    assert told["species"] == "layers"
    assert told["layers"][0] == {"species": "corundum", "hand": "right", "body_colour": "ruby",
                                 "stage_deg": 40, "thickness_mm": 1}
    assert told["layers"][1]["hand"] == "left" and told["layers"][1]["stage_deg"] == 10
    text = interfig("probe", "--layers", AIRY).out.decode()
    assert text.startswith("stone            2.5 mm of right-handed quartz, then 2.5 mm")


LINES = [
    ("--layers: 'quartz:right:2.5' holds one layer", "--layers quartz:right:2.5"),
    ("--layers: '' is wrong in layer 1: '' is not SPECIES:HAND:MM", "--layers="),
    ("is wrong in layer 2: '' is not SPECIES:HAND:MM", "--layers quartz:right:1,"),
    ("is wrong in layer 1: '' is not", "--layers ,quartz:right:1"),
    ("is wrong in layer 2: 'quartz' is not SPECIES:HAND:MM", "--layers quartz:right:1,quartz"),
    ("is wrong in layer 2: 'quartz' is not SPECIES:HAND:MM", "--layers quartz:right:1,quartz:left"),
    ("is wrong in layer 2: thickness 'x' is not a number", "--layers quartz:right:1,quartz:left:x"),
    ("is wrong in layer 1: thickness '' is not a number", "--layers quartz:right:,quartz:left:1"),
    ("is wrong in layer 1: thickness 'nan' is not", "--layers quartz:right:nan,quartz:left:1"),
    ("is wrong in layer 1: thickness '1:2' is not", "--layers quartz:right:1:2,quartz:left:1"),
    ("is wrong in layer 2: thickness '0' is out of range", "--layers quartz:right:1,quartz:left:0"),
    ("is wrong in layer 1: thickness '101' is out of", "--layers quartz:right:101,quartz:left:1"),
    ("is wrong in layer 3: hand 'lft' is neither right, left nor an azimuth (did you mean left?)",
     "--layers quartz:right:1,quartz:left:1,quartz:lft:1"),
    ("is wrong in layer 1: hand '' is neither", "--layers quartz::1,quartz:left:1"),
    ("is wrong in layer 1: azimuth '3601' is out of range", "--layers quartz:3601:1,quartz:left:1"),
    ("is wrong in layer 1: the species is missing", "--layers :right:1,quartz:left:1"),
    ("is wrong in layer 1: a part is too long", "--layers {long}:0:1,quartz:left:1"),
    ("holds more than 4 layers", "--layers a:0:1,a:0:1,a:0:1,a:0:1,a:0:1"),
    ("--layers: layer 2: no species is called 'quarz'; did you mean quartz",
     "--layers quartz:right:1,quarz:left:1"),
    ("--layers: layer 1: '", "--layers topaz:0:1,quartz:left:1"),
    ("--layers: layer 2: calcite is not optically active, so it has no hand; give an azimuth",
     "--layers quartz:right:1,calcite:right:1"),
    ("layer 1: write 'r\u00fcby' in plain letters", "--layers r\u00fcby:0:1,quartz:left:1"),
    ("both SPECIES 'quartz' and --layers are given", f"quartz --layers {AIRY}"),
    ("--indices and --layers contradict", f"--indices 1.5 --layers {AIRY}"),
    ("--thickness and --layers contradict each other: each layer has its own thickness",
     f"--thickness 3 --layers {AIRY}"),
    ("--hand and --layers contradict", f"--hand left --layers {AIRY}"),
    ("--colour and --layers contradict", f"--colour ruby --layers {AIRY}"),
    ("--strain and --layers contradict", f"--strain 3 --layers {AIRY}"),
    ("--colourless: no layer has a body colour", "--layers calcite:0:1,calcite:9:1 --colourless"),
    ("--view: quartz is uniaxial and has no view 'acute-bisectrix'",
     f"--layers {AIRY} --view acute-bisectrix"),
    ("--layers lacks its value", "--layers"),
    ("--layers is given twice", f"--layers {AIRY} --layers {AIRY}"),
]


@pytest.mark.parametrize("command", ["figure", "probe", "turn"])
@pytest.mark.parametrize("expected,line", LINES, ids=[line[:50] for _, line in LINES])
def test_a_stack_that_cannot_be_is_refused(refused, command, expected, line):
    message = refused(64, command, *line.replace("{long}", "q" * 5000).split())
    assert expected in message
    if "is wrong in layer" in expected:
        assert "for example: --layers quartz:right:2.5,quartz:left:2.5" in message


def test_layers_without_a_figure_are_refused(refused):
    assert "layer 2: jadeite is an aggregate" in refused(
        65, "figure", "--layers", "quartz:right:1,jadeite:0:1")


def test_the_thickness_of_a_stack_does_not_move(refused):
    assert "--what thickness and --layers contradict" in refused(
        64, "turn", "--layers", AIRY, "--what", "thickness")


def test_a_reading_is_of_one_stone(refused):
    assert "--layers belongs to figure, turn, probe, blink and face, not to reading" in refused(
        64, "reading", "--layers", AIRY)
