# SPDX-License-Identifier: MIT
"""interfig blink: the stone turned between the polars, in words and in JSON."""
import copy
import json
import math

import jsonschema
import pytest

from test_numbers import answer, schema  # noqa: F401 (a fixture)

CAUTION = "A figure is evidence, not an identification"


@pytest.mark.parametrize("line", [
    "quartz", "corundum --view c", "topaz_f --view optic-axis --tilt 10,30 --lamp sodium", "spinel",
    "glass --stress 20", "diamond --stress 300 --pattern inclusion", "chalcedony --seed 3 --grain 0.05",
    "ruby --immersion 1.33 --cone 5", "calcite --polars parallel", "quartz --polars circular",
    "--indices 1.5,1.6 --thickness 0.01", "--layers quartz:right:1,quartz:90:1 --view x",
    "--layers quartz:right:1,topaz_f:0:1", "amethyst --colourless --plate full-wave"])
def test_a_blink_keeps_to_its_schema(answer, line):
    jsonschema.validate(answer("blink", *line.split()), schema("blink.json"))


@pytest.mark.parametrize("spoil", [
    lambda told: told.pop("brightness"),
    lambda told: told.update(schema_version=2),
    lambda told: told.update(mood="good"),
    lambda told: told.update(reaction="SINGLE"),
    lambda told: told["brightness"].pop(),
    lambda told: told["colours_srgb"][3].append(1),
    lambda told: told["words"].append("no full stop"),
])
def test_the_schema_refuses_what_is_spoilt(answer, spoil):
    told = copy.deepcopy(answer("blink", "quartz"))
    spoil(told)
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(told, schema("blink.json"))


# Common practice, no source: the four reactions of the trade.
@pytest.mark.parametrize("line,reaction,extinctions", [
    ("quartz", "DR", 4), ("topaz_f", "DR", 4), ("ruby", "DR", 4), ("calcite", "DR", 4),
    ("spinel", "SR", 0), ("almandine", "SR", 0), ("cubic_zirconia", "SR", 0), ("opal", "SR", 0),
    ("chalcedony", "AGG", 0), ("jadeite", "AGG", 0), ("nephrite", "AGG", 0),
    ("corundum --view c", "DR", 0), ("topaz_f --view optic-axis", "DR", 0)])
def test_the_four_reactions(answer, line, reaction, extinctions):
    told = answer("blink", *line.split())
    assert (told["reaction"], told["extinctions_per_turn"]) == (reaction, extinctions)
    assert len(told["extinctions_deg"]) == extinctions
    assert told["along_optic_axis"] == ("--view" in line)


def test_a_doubly_refractive_stone_follows_sin_squared_of_twice_the_turn(answer):
    # I = I_45 sin^2(2a) between crossed polars (Born & Wolf, Principles of Optics, 15.4.1).
    told = answer("blink", "peridot", "--cone", "0.1")
    first = told["extinctions_deg"][0]
    for turn, brightness in zip(told["turn_deg"], told["brightness"]):
        law = told["most"] * math.sin(2.0 * math.radians(turn - first)) ** 2
        assert abs(brightness - law) < 1e-3, turn
    gaps = [b - a for a, b in zip(told["extinctions_deg"], told["extinctions_deg"][1:])]
    assert all(abs(gap - 90.0) < 0.05 for gap in gaps)


def test_the_stage_says_where_the_turn_begins(answer):
    still = answer("blink", "peridot")["extinctions_deg"][0]
    turned = answer("blink", "peridot", "--stage", "20")["extinctions_deg"][0]
    assert abs((still - 20.0 - turned + 45.0) % 90.0 - 45.0) < 0.05


def test_opened_and_crossed_are_complementary_where_nothing_is_absorbed(answer):
    # At any place crossed and parallel share the light that leaves the stone: their sum is the same
    # for each opening by 90 degrees, here of two stones alike but for their thickness.
    sums = []
    for thickness in ["0.01", "0.02"]:
        told = answer("blink", "--indices", "1.55,1.56", "--thickness", thickness, "--cone", "0.1")
        sums.append(told["opened"][0] + told["opened"][90])
        assert math.isclose(told["opened_over_crossed"], told["opened"][90] / told["opened"][0])
    assert abs(sums[0] - sums[1]) < 1e-3


def test_strain_brightens_as_the_analyser_opens(answer):
    # Common practice, no source.
    told = answer("blink", "glass", "--stress", "20")
    assert told["reaction"] == "ADR" and told["pattern"] == "snake"
    assert told["opened_over_crossed"] > 1.2 and told["follows_opening_rule"]
    assert answer("blink", "diamond", "--stress", "200")["pattern"] == "cross-hatch"
    usual = answer("blink", "glass", "--pattern", "bands")
    assert usual["stress_mpa"] == 20 and usual["reaction"] == "ADR"


def test_the_same_seed_is_the_same_aggregate(answer):
    first, again, other = (answer("blink", "chalcedony", "--seed", seed) for seed in "778")
    assert first == again
    assert first["brightness"] != other["brightness"]


def test_a_ratio_that_does_not_exist_is_null_with_a_reason(answer):
    told = answer("blink", "quartz", "--polars", "circular")
    assert told["opened_over_crossed"] is None and "circular" in told["reason"]
    assert "reason" not in answer("blink", "quartz")


def test_the_usual_line_of_sight_is_away_from_the_axes(answer):
    for stone, view in [("quartz", "x"), ("topaz_f", "optic-normal"), ("spinel", "z")]:
        assert answer("blink", stone)["view"] == view


def test_a_variety_brings_its_colour(answer):
    ruby, plain = answer("blink", "ruby"), answer("blink", "ruby", "--colourless")
    assert (ruby["species"], ruby["body_colour"], plain["body_colour"]) == ("corundum", "ruby", None)
    red, green, blue = max(ruby["colours_srgb"], key=sum)
    assert red > green and red > blue


def test_the_text_says_the_verdict_the_numbers_and_the_caution(interfig, answer):
    text = interfig("blink", "quartz").out.decode()
    told = answer("blink", "quartz")
    assert text.startswith("quartz, uniaxial positive, right-handed, along X, 3 mm")
    flat = " ".join(text.split())
    for words in told["words"]:
        assert " ".join(words.split()) in flat
    assert "reaction             DR" in text and CAUTION in flat
    places = ", ".join(f"{turn:.1f}" for turn in told["extinctions_deg"][:3])
    assert f"extinctions a turn   4, at {places} and" in text


LINES = [
    (64, "no stone is given", "blink"),
    (64, "did you mean quartz?", "blink quarz"),
    (64, "topaz_f, topaz_oh", "blink topaz"),
    (64, "'spinel' is one word too many after 'ruby'", "blink ruby spinel"),
    (64, "is not optically active", "blink ruby --hand left"),
    (64, "has no view 'c'", "blink topaz_f --view c"),
    (65, "malachite is opaque", "blink malachite"),
    (64, "--pattern: 'stripes' is unknown", "blink glass --pattern stripes"),
    (64, "did you mean snake?", "blink glass --pattern snak"),
    (64, "--stress and --pattern twins contradict", "blink corundum --stress 5 --pattern twins"),
    (64, "--stress and --pattern plain contradict", "blink corundum --stress 5 --pattern plain"),
    (64, "--grain and --pattern bands contradict", "blink glass --grain 1 --pattern bands"),
    (64, "--grain and --stress contradict", "blink glass --grain 1 --stress 4"),
    (64, "quartz is no aggregate, so it has no grains", "blink quartz --grain 1"),
    (64, "--stress: no stress-optic coefficient is known for calcite; it is for",
     "blink calcite --stress 5"),
    (64, "--pattern: no stress-optic coefficient is known for topaz_f",
     "blink topaz_f --pattern bands"),
    (64, "--stress goes with a SPECIES alone", "blink --indices 1.5 --stress 5"),
    (64, "--stress and --layers contradict",
     "blink --layers quartz:right:1,quartz:left:1 --stress 5"),
    (64, "--pattern and --layers contradict",
     "blink --layers quartz:right:1,quartz:left:1 --pattern plain"),
    (64, "--lens belongs to figure, turn, probe, reading, contrast and narrow, not to blink",
     "blink quartz --lens sphere"),
    (64, "--field belongs to", "blink quartz --field 10"),
    (64, "--size belongs to", "blink quartz --size 10"),
    (64, "--force belongs to figure, turn, face, exercise and chart, not to blink", "blink quartz --force"),
    (64, "--pattern belongs to turn, blink and face, not to figure", "figure glass --pattern snake"),
    (64, "--cone belongs to turn, blink, face and hunt, not to probe", "probe quartz --cone 1"),
    (64, "--seed: '1.5' is not a whole number", "blink chalcedony --seed 1.5"),
    (64, "-o -: standard output holds the words", "blink quartz -o -"),
    (64, "ends in neither .png, .pdf nor .svg", "blink quartz -o plate.txt"),
    (64, "--dpi: '1201' is out of range; allowed for a plate", "blink quartz --dpi 1201 -o a.pdf"),
    (73, "nowhere", "blink quartz --dpi 50 -o nowhere/a.png"),
]


@pytest.mark.parametrize("status,expected,line", LINES, ids=[line for _, _, line in LINES])
def test_a_blink_that_makes_no_sense_is_refused(refused, status, expected, line):
    assert expected in refused(status, *line.split())


@pytest.mark.parametrize("end", ["png", "pdf", "svg"])
def test_a_plot_is_drawn_where_it_is_asked_for(interfig, tmp_path, end):
    heads = {"png": b"\x89PNG\r\n", "pdf": b"%PDF-", "svg": b"<?xml"}
    done = interfig("blink", "quartz", "-o", f"turn.{end}", "--json")
    assert done.status == 0 and done.err == ""
    json.loads(done.out)
    assert (tmp_path / f"turn.{end}").read_bytes().startswith(heads[end])
